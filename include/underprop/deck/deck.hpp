// A deck with every fact resolved: the survey seen through one reading of its facts.
//
// Groups are spelt out into single pieces with names; what nobody knows has become the cautious, the
// likely or the favourable value of data/facts.json. Plain values in mm, N, kg.
#pragma once

#include "underprop/base/region.hpp"
#include "underprop/deck/meeting.hpp"
#include "underprop/record/facts.hpp"

#include <map>
#include <string>
#include <vector>

namespace underprop::deck {

/// A fact that is not resolved: unknown, or a range.
struct OpenFact {
  std::string field;  ///< JSON Pointer into the survey, e.g. "/deck/joists/0/timber"
  std::string kind;   ///< key of data/facts.json, e.g. "joists/timber"
  std::string what;   ///< for people: "depth of the joists (K)"
  bool range = false;
  std::string cautious, likely, favourable;  ///< as text, for people
  std::string taken;                         ///< the value of this reading, likewise
  std::string find_out;  ///< how to find it out with a tape, a level and a screwdriver
  record::Act act = record::Act::look_underneath;  ///< what settles it, and others with it
  bool must_see = false;          ///< of the sort that "carries" requires, if the load reaches it
  std::vector<std::string> also;  ///< names of like pieces that it holds for too: "P2", "P3"
};

struct Stretch {
  Length from, to;  ///< along the piece, from its start
  std::string why;
  bool decayed = false;  ///< rot and its margin: not cut off, so it spreads
};
enum class Cut {
  below,  ///< a notch in the underside, or nobody says in which
  above,  ///< a notch in the top edge
  hole,
  split
};
struct Notch {
  Length from, to;  ///< along the piece, from its start; the same: a place, its length not recorded
  Length depth;
  Cut cut = Cut::below;
};

struct Piece {
  std::string id;
  std::string timber;
  bool incised = false;
  bool added = false;
  bool probed = false;
  bool faulted = false;         ///< something of its condition is recorded
  std::vector<Stretch> absent;  ///< counts as not there (decay and its margin, missing)
  Length softened;              ///< taken off the top edge along the whole piece
  std::vector<Notch> notches;
};

/// Where the number of a hanger's nails comes from.
enum class NailCount {
  counted,
  all_holes,   ///< every hole nailed, not counted: as its size has; `nails` is no count
  of_total,    ///< of all nails in the hanger, those into the carrying piece not counted apart
  not_counted  ///< assumed
};
struct EndHold {
  record::Hold held = record::Hold::free;
  bool recorded = false;  ///< not an assumption
  int nails = 0;          ///< of a hanger: into the piece that carries it
  NailCount nails_by = NailCount::counted;
  bool all_holes_nailed = false;  ///< known of a hanger, so that what is stated for it holds
  std::optional<Force> stated_capacity;
  bool sound = true;
  std::optional<Length> seat;
  std::string field;  ///< JSON Pointer of the fact
};

struct Sister {
  std::string timber;
  bool incised = false;
  Length breadth, depth;
};

struct Joist : Piece {
  int group = 0;
  Axis direction = Axis::y;
  Length position;  ///< across
  Length from, to;  ///< along; several joists stand on one line where the outline is broken
  Length breadth, depth;
  bool continuous_recorded = false;
  record::OverBearers over_bearers = record::OverBearers::continuous;
  EndHold start, end;
  std::vector<Sister> sisters;
};

struct Bearer : Piece {
  int index = 0;
  Axis direction = Axis::x;
  Length position, from, to;
  int plies = 1;
  Length ply_breadth, depth;
  bool act_together = false;
  bool flush = false;
  record::HeldDown held_down = record::HeldDown::nothing;
  std::optional<Force> hold_down_capacity;
  bool may_lift = false;  ///< what holds its joists down is not counted against lifting
  std::vector<Length> splices;
  Length gap;
};

struct Ledger : Piece {
  int index = 0;
  Axis direction = Axis::x;
  Length position, from, to;
  Length breadth, depth;
  record::LedgerWall fixed_to = record::LedgerWall::timber_band;
  bool wall_recorded = false;
  record::FixingKind fixing = record::FixingKind::bolt;
  Length fixing_diameter, fixing_spacing;
  std::vector<Length> fixing_heights;  ///< above its lower edge; empty: not measured
  std::optional<Length> penetration;   ///< only where it is fixed to wood, not by nails
  bool band_seen = true;               ///< the house's wood behind it, where it is fixed to wood
  bool band_flashed = true;
  bool band_laminated = false;  ///< of laminated veneer
  std::optional<Force> stated_capacity, stated_pull_out;
  bool sound = true;
};

struct Post {
  std::string timber;
  bool incised = false;
  Length breadth, depth, height;
  bool bearer_on_top = true;
  int bolts = 0;
  Length bolt_diameter;
  bool base_fixed = false;
  record::FootHeld held_down = record::FootHeld::nothing;
  std::optional<Force> hold_down_capacity;
  Length lean;
};

struct Footing {
  record::FootingKind kind = record::FootingKind::cast_pad;
  Length width, length, thickness, depth, offset;
  record::Contact contact = record::Contact::tight;
  bool contact_recorded = false;
  Length gap;
  bool below_topsoil = true;
  bool cracked = false;
  bool tilted_or_undermined = false;
  std::optional<Force> stated_capacity;
};

struct Support : Piece {
  int group = 0;
  Point at;
  int bearer = -1;  ///< index into Deck::bearers, or
  int joist = -1;   ///< index into Deck::joists
  std::optional<Post> post;
  Footing footing;
  int packers = 0;
  std::optional<Length> bearing_length;
  std::string contact_field;
};

struct Wall : Piece {
  Point a, b;
  Length width, strip_width, depth;
  record::Contact contact = record::Contact::tight;
  bool contact_recorded = false;
  Length gap;
  std::string contact_field;
};

struct Rim {
  std::string id;
  int group = 0;
  bool at_start = false;
  Length breadth, depth;
  record::RimFixing fixed = record::RimFixing::end_grain;
};

struct Blocking {
  std::string id;
  int group = 0;
  Length position;
};

struct Boards {
  record::BoardMaterial material = record::BoardMaterial::softwood;
  std::string timber;
  Length width, thickness, gap;  ///< thickness net of grooves
  Axis direction = Axis::x;
  bool joints_recorded = false;
  record::BoardJoints joints = record::BoardJoints::none;
  std::optional<Length> stated_span;
};

/// A wall, drain or edge of water in plan, its height or depth resolved.
struct GroundLine {
  std::string name;
  Point from, to;
  Length height;
};

struct Site {
  record::Use use = record::Use::one_household;
  int storeys = 1;
  record::SpaceBelow space_below = record::SpaceBelow::none;
  std::string seismic_category;      ///< empty: not stated
  std::optional<record::Soil> soil;  ///< none: not known, the tables' row for unknown ground holds
  std::optional<Pressure> shear_strength, ground_pressure;  ///< measured, stated for this ground
  bool heel_marks = false, water_in_hole = false, shrinkable_clay = false;
  record::Fill fill = record::Fill::none;
  double slope = 0.0;
  Length frost_depth;
  bool frost_recorded = false;
  bool frost_heaves = true;  ///< the ground by its footings: silt, clay, or nobody knows
  std::vector<GroundLine> retaining_walls, house_walls, drains, ponds;
  std::vector<record::Tree> trees;
  /// Surroundings nobody looked at, in this reading taken as being in the way: field and words.
  std::vector<std::pair<std::string, std::string>> feared;
  std::optional<Pressure> imposed_load, snow_load;
  std::optional<Force> concentrated_load;
  bool roof_or_screen = false;
};

struct Load {
  std::string name;
  record::LoadKind kind = record::LoadKind::tub;
  /// In plan, rotated and placed; counter-clockwise. A circle is drawn with 64 sides.
  std::vector<Point> footprint;
  Region shape;                 ///< the same footprint, exact
  std::vector<Region> contact;  ///< where it presses, exact: the footprint, or its runners or feet
  Point centre;
  /// The load's own axes: the first is turned by this from +x towards +y, 45 degrees at most, so that
  /// "towards +x" still names a side of a turned load.
  double axes_deg = 0.0;
  Length centre_of_mass_height;
  Mass dry_mass, contents;  ///< water at 1 kg/l
  int people = 0;
  bool empty_for_months = false;
  record::BaseKind base = record::BaseKind::full;
  std::vector<std::vector<Point>> patches;  ///< runners or feet in plan; empty for a full base
  bool pinned = false;
  Length service_gap;
  bool mass_recorded = true, contents_recorded = true, footprint_recorded = true;
};

struct Deck {
  record::StandardId standard = record::StandardId::eurocode_uk;
  record::Reading reading =
      record::Reading::cautious;  ///< of the ground's tables: cautious where the soil is recorded
  Site site;
  std::vector<Point> outline;
  Length height;
  Boards boards;
  std::vector<Joist> joists;
  std::vector<std::string> joist_groups;
  std::vector<Bearer> bearers;
  std::vector<Rim> rims;
  std::vector<Ledger> ledgers;
  std::vector<Support> supports;
  std::vector<Wall> walls;
  std::vector<Blocking> blocking;
  std::vector<record::Brace> braces;
  std::vector<Load> loads;
  std::vector<record::Zone> obstacles, closed_zones;
  std::vector<Meeting> meetings;  ///< who meets whom: indices into the lists above
  /// Findings of the eye that end in refer whatever the numbers say (decay in a post ...): reasons.
  std::vector<std::string> refer_reasons;
  /// Effects of the record that are worth telling: "J3 counts as absent from 0.9 m to 1.7 m".
  std::vector<std::string> assumptions;
};

/// The pieces as `meet` wants them.
[[nodiscard]] PiecesInPlan in_plan(const Deck& deck);
/// Fills Deck::meetings from the places of the pieces. `resolve` has done it; again only after pieces were
/// taken out or moved.
void find_meetings(Deck& deck);

/// How the joist's end is held that is framed into or hung on something (at_side).
[[nodiscard]] inline const EndHold& hold_of(const Deck& deck, const Meeting& meeting) {
  const Joist& joist = deck.joists[meeting.piece];
  return meeting.end == PieceEnd::start ? joist.start : joist.end;
}

struct Resolved {
  Deck deck;
  std::vector<OpenFact> open;  ///< every fact this reading had to assume, in survey order
};

/// The survey seen through one reading; `single` overrides the reading of single fields (by pointer).
/// `share`: how far from its cautious to its favourable value a number goes whose favourable reading
/// `single` asks for (0 to 1), lengths in steps that a tape shows; what is no number is taken favourable.
/// The defaults and how to find things out come from data/facts.json. A Survey from read_survey never
/// makes this throw.
Resolved resolve(const record::Survey& survey, record::Reading reading,
                 const std::map<std::string, record::Reading>& single = {}, double share = 1.0);

}  // namespace underprop::deck
