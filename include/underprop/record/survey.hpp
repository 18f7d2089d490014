// The record of a deck as it was found: what is there, what comes, what the planner may do.
//
// Every quantity that somebody may not know is a Fact: a value, a range, or unknown. Nothing in here
// is resolved or assumed; `resolve` (deck.hpp) turns a Survey into a Deck by one reading of its facts.
// Plan coordinates: x and y from the named corner A of the deck, seen from above, in mm.
// JSON field names equal the member names here; the format is described in data/schema/survey.json.
#pragma once

#include "underprop/base/fact.hpp"
#include "underprop/base/geometry.hpp"
#include "underprop/base/quantity.hpp"

#include <optional>
#include <string>
#include <vector>

namespace underprop::record {

enum class StandardId { eurocode_uk, north_america_us };

// --- the site -------------------------------------------------------------------------------------

enum class Use { one_household, shared, public_use, rented };
enum class SpaceBelow { none, storage, used };
enum class Soil {
  topsoil,
  soft_clay,
  firm_clay,
  stiff_clay,
  loose_sand,
  medium_sand,
  dense_sand,
  gravel,
  rock,
  made_ground,
  peat
};
enum class Fill { none, older_than_ten_years, younger_than_ten_years };

/// A line on the ground that a footing must keep away from.
struct GroundLine {
  std::string name;
  Point from, to;
  Fact<Length> height;  ///< retained height of a wall, or depth of a drain, pond, pool
};
struct Tree {
  Point at;
  Length height;
};
/// "none", a list, or not seen.
template <class T>
struct Seen {
  bool looked = false;
  std::vector<T> items;
};

struct Site {
  Fact<Use> use;
  Fact<int> storeys;  ///< of decks above each other; 1 = this one alone
  Fact<SpaceBelow> space_below;
  Fact<std::string> seismic_category;       ///< "A" to "F", North America only
  Fact<Soil> soil;                          ///< at the footings' underside
  std::optional<Pressure> shear_strength;   ///< undrained, measured at the footings' underside
  std::optional<Pressure> ground_pressure;  ///< allowable, stated for this ground
  Fact<bool> heel_marks;                    ///< a heel leaves a mark in the ground beside the pads
  Fact<bool> water_in_hole;                 ///< water stands in a hole dug to the footing's depth
  Fact<bool> shrinkable_clay;
  Fact<Fill> fill;
  Fact<double> slope;  ///< rise over run within 2 m of the deck; "1 in 12" or "level"
  Fact<Length> frost_depth;
  Seen<GroundLine> retaining_walls;
  Seen<GroundLine> house_walls;  ///< height: depth of its footing below ground
  Seen<GroundLine> drains;
  Seen<GroundLine> ponds;
  Seen<Tree> trees;
  std::optional<Pressure> imposed_load;    ///< local figure for the rest of the deck
  Fact<Pressure> snow_load;                ///< on the deck, characteristic; 0: none falls
  std::optional<Force> concentrated_load;  ///< on one board
  Fact<bool> roof_or_screen;               ///< something on the deck that catches wind
};

// --- the deck -------------------------------------------------------------------------------------

enum class BoardMaterial { softwood, hardwood, composite, aluminium };
enum class BoardJoints { none, staggered };

struct Boards {
  BoardMaterial material = BoardMaterial::softwood;
  Fact<std::string> timber;  ///< strength class, or species and grade
  Length width;
  Fact<Length> thickness;
  Length groove_depth;  ///< taken off the thickness
  Length gap;
  Axis direction = Axis::x;  ///< boards run along x or y, across the joists
  double angle_deg = 0.0;    ///< laid at an angle to that direction, either way
  Fact<BoardJoints> joints;
  std::optional<Length> stated_span;  ///< composite, aluminium: the maker's stated joist spacing
};

enum class Hold {
  resting,       ///< passes over or sits on what carries it
  hanger,        ///< metal hanger or shoe
  ledger_strip,  ///< sits on a strip fixed below it
  end_grain,     ///< screws or nails into the joist's end grain
  skew_nails,    ///< skew (toe) nails
  free           ///< a free end: an overhang
};
struct EndHold {
  Fact<Hold> held;
  Fact<int> nails;             ///< all nails in the hanger, or fasteners in the end
  Fact<int> nails_in_carrier;  ///< hanger: those into the piece that carries it
  Fact<bool> all_holes_nailed;
  std::optional<Force> stated_capacity;  ///< declared characteristic (Eurocode) or allowable value
  Fact<bool> sound;                      ///< no heavy rust, no nail missing
  Fact<Length> seat;                     ///< length of wood resting, along the joist

  bool operator==(const EndHold&) const = default;
};

enum class OverBearers { continuous, lapped };

/// Joists of one kind: parallel, same section.
struct Joists {
  std::string name;               ///< "J": the joists are J1, J2 ... in order of position
  Axis direction = Axis::y;       ///< they run along this axis
  std::vector<Length> positions;  ///< of their centre lines, across the direction
  std::optional<Length> from;     ///< extent along the direction; none: the outline
  std::optional<Length> to;
  Fact<std::string> timber;
  Fact<bool> incised;
  Fact<Length> breadth;
  Fact<Length> depth;
  Fact<OverBearers> over_bearers;
  EndHold start;  ///< at the smaller coordinate
  EndHold end;
  bool added = false;  ///< put in by the works, after the deck has settled
};

/// One joist whose end is held otherwise than its fellows.
struct JoistEnd {
  std::string joist;
  bool at_start = true;
  EndHold hold;
  bool added = false;
};

enum class JoistsSit { on_top, flush };
enum class HeldDown { nothing, nailed, screwed, strapped };

struct Bearer {
  std::string name;
  Axis direction = Axis::x;
  Length position;
  std::optional<Length> from, to;
  Fact<std::string> timber;
  Fact<bool> incised;
  int plies = 1;
  Fact<Length> ply_breadth;
  Fact<Length> depth;
  Fact<bool> plies_fixed_together;
  JoistsSit joists = JoistsSit::on_top;
  Fact<HeldDown> joists_held_down;
  std::optional<Force> hold_down_capacity;  ///< per joist, stated
  std::vector<Length> splices;
  bool added = false;
  Length gap;  ///< initial gap below the joists (works only)
};

enum class RimFixing { end_grain, hangers, cleats };
/// A board closing the joists' ends.
struct Rim {
  std::string name;
  bool at_start = false;
  std::string joists;  ///< name of the joist group
  Fact<Length> breadth, depth;
  Fact<RimFixing> fixed;
};

enum class LedgerWall {
  timber_band,
  solid_masonry,
  concrete,
  cavity_outer_leaf,
  veneer,
  insulation
};
enum class FixingKind { bolt, lag_screw, screw, nail, anchor };
/// The wood of the house that a ledger is fixed to.
enum class BandCondition { sound_flashed, sound_not_flashed, soft };
enum class BandWood { sawn, laminated_veneer, other_engineered };

struct Ledger {
  std::string name;
  Axis direction = Axis::x;
  Length position;
  std::optional<Length> from, to;
  Fact<std::string> timber;
  Fact<bool> incised;
  Length breadth, depth;
  Fact<LedgerWall> fixed_to;
  Fact<FixingKind> fixing;
  Fact<Length> fixing_diameter;
  Fact<Length> fixing_spacing;
  /// Heights of the rows of fixings above its lower edge, equally many in each; empty: not measured.
  std::vector<Length> fixing_heights;
  Fact<BandCondition> band_condition;
  Fact<BandWood> band_wood;
  Fact<Length> penetration;     ///< wood behind it that bolts go through or the thread grips
  Fact<Force> stated_capacity;  ///< per fixing, downwards
  Fact<Force> stated_pull_out;  ///< per fixing, out of the wall
  Fact<bool> sound;
};

enum class BearerOnPost { on_top, beside };
enum class PostBase { pinned, fixed };
/// How a post base is fixed to its footing against lifting.
enum class FootHeld { nothing, bolted, cast_in };
struct Post {
  Fact<std::string> timber;
  Fact<bool> incised;
  Length breadth, depth;
  Length height;  ///< from the footing to the underside of the bearer
  Fact<BearerOnPost> bearer;
  Fact<int> bolts;  ///< through the side, when beside
  Fact<Length> bolt_diameter;
  Fact<PostBase> base;
  FootHeld held_down = FootHeld::nothing;
  std::optional<Force> hold_down_capacity;  ///< of the post base against lifting, stated
  Fact<Length> lean;                        ///< out of plumb over the height

  bool operator==(const Post&) const = default;
};

enum class FootingKind {
  cast_pad,
  laid_slab,
  deck_block,
  post_in_concrete,
  screw_pile,
  strip,
  unknown
};
enum class Contact { tight, gap, loose };
struct Footing {
  Fact<FootingKind> kind;
  Fact<Length> width;   ///< across x
  Fact<Length> length;  ///< across y
  Fact<Length> thickness;
  Fact<Length> depth;   ///< of its underside below the ground
  Fact<Length> offset;  ///< of the load from its centre
  Fact<Contact> contact;
  Length gap;  ///< when contact is gap: how much
  Fact<bool> below_topsoil;
  std::optional<Force> stated_capacity;  ///< screw pile: from the installer's torque sheet

  bool operator==(const Footing&) const = default;
};

/// Supports of one kind under one bearer, or under each joist of a group.
struct Supports {
  std::string name;
  std::string under;              ///< name of a bearer or of a joist group
  std::vector<Length> positions;  ///< along the bearer, or along each joist
  std::vector<std::string> only;  ///< under joists: just these; empty: all
  Fact<int> packers;              ///< 0 none, 1, 2, more = stacked
  std::optional<Length>
      bearing_length;  ///< contact length along the piece; none: post or footing width
  std::optional<Post> post;
  Footing footing;
  bool added = false;
};

/// A wall or strip under joists: every joist that crosses it is carried.
struct Wall {
  std::string name;
  Point from, to;
  Length width;
  Fact<Length> strip_width;  ///< of its footing
  Fact<Length> depth;
  Fact<Contact> contact;
  Length gap;
  bool added = false;
};

struct Blocking {
  std::string name;
  std::string joists;
  Length position;  ///< along the joists
  bool added = false;
};

enum class BraceKind { diagonal, knee, diagonal_boards, wall_contact };
enum class WallsOn { one_side, both_sides };
struct Brace {
  Axis direction = Axis::x;  ///< the direction in which it resists
  BraceKind kind = BraceKind::diagonal;
  std::string at;  ///< support group, or side
  int count = 1;
  Length breadth, depth;                 ///< 0: not measured
  int bolts = 1;                         ///< at each end
  Length bolt_diameter;                  ///< 0: not measured
  WallsOn walls_on = WallsOn::one_side;  ///< wall contact: a wall holds a push towards it only
  std::optional<Length> from, to;        ///< wall contact: where both walls touch, along them
  bool added = false;
};

struct Sister {
  std::string joist;
  std::string timber;
  bool incised = false;
  Length breadth, depth;
};

enum class Defect {
  decay,
  surface_softening,
  notch,
  split,
  hole,
  missing,
  corroded_fixing,
  missing_fixing,
  wrong_fixing,
  crack,
  tilt,
  undermined,
  leaning,
  buried,
  short_bearing,
  loose_packing,
  out_of_level
};
enum class Face { top, underside, side, end };
struct Condition {
  Defect defect = Defect::decay;
  std::string piece;  ///< "J3", "B1", "P2", "ledger name" ...
  std::optional<Length> from, to;
  std::optional<Length> size;  ///< probe depth, notch depth, hole diameter, gap, seat length
  std::optional<Face> face;
};

/// What was probed with a screwdriver or awl. Names of groups or single pieces; "all" stands for all.
struct Probed {
  std::vector<std::string> pieces;
};

struct Zone {
  std::string name;
  std::vector<Point> outline;
};

struct DeckRecord {
  std::vector<Point> outline;
  Fact<Length> height;  ///< surface over the lowest ground beside it
  Boards boards;
  std::vector<Joists> joists;
  std::vector<JoistEnd> joist_ends;
  std::vector<Bearer> bearers;
  std::vector<Rim> rims;
  std::vector<Ledger> ledgers;
  std::vector<Supports> supports;
  std::vector<Wall> walls;
  std::vector<Blocking> blocking;
  std::vector<Brace> braces;
  std::vector<Sister> sisters;
  std::vector<Condition> condition;
  Probed probed;
  std::vector<Zone> obstacles;     ///< where nothing can stand
  std::vector<Zone> closed_zones;  ///< where nothing may be built or dug
};

// --- the load -------------------------------------------------------------------------------------

enum class LoadKind {
  tub,
  plunge_pool,
  water_tank,
  planter,
  oven,
  stove,
  sauna,
  store,
  outdoor_kitchen,
  piano,
  statue,
  other
};
enum class BaseKind { full, runners, feet };
enum class Shape { rectangle, circle, polygon };
enum class VesselForm { straight_sided, moulded };

struct HeavyLoad {
  std::string name;
  LoadKind kind = LoadKind::tub;
  Shape shape = Shape::rectangle;
  Fact<Length> width, length;  ///< rectangle, before rotation: along x and along y
  Length corner_radius;        ///< rectangle with round corners; 0: sharp ones
  Fact<Length> diameter;       ///< circle
  std::vector<Point> outline;  ///< polygon, about its own origin
  Fact<Length> height;         ///< of its centre of mass over the boards when full
  Point at;                    ///< centre of the footprint
  double rotation_deg = 0.0;
  Fact<Mass> dry_mass;
  Fact<Volume> contents;     ///< litres of water to the brim; of wet soil in a planter
  Fact<Mass> contents_mass;  ///< other contents
  Fact<Length> water_depth;  ///< of the soil in a planter
  Fact<VesselForm> form;     ///< of what holds water
  Fact<int> people;
  bool empty_for_months = false;  ///< it stands empty for months each year
  Fact<BaseKind> base;
  Axis runners_along = Axis::x;  ///< before rotation
  int runners = 0;
  Length runner_width;
  std::vector<Point> feet;  ///< about the centre of the footprint, before rotation
  Length foot_size;
  bool pinned = false;  ///< the planner may not move it
  Length service_gap;   ///< free strip wanted round it
};

// --- what the planner may do ----------------------------------------------------------------------

struct Allowed {
  bool move_load = true;
  bool turn_load = true;
  bool packing = true;
  bool pads = true;
  bool sleepers = true;
  bool bearers = true;
  bool sisters = true;
  bool added_joists = true;
  bool blocking = true;
  bool hangers = true;
  bool bigger_pads = true;
  bool braces = true;
  bool ledger_bolts = true;
  bool digging = true;
  std::optional<Length>
      clear_height;  ///< under the joists, at the load; none: from the deck's height
};

// --- how it was recorded ---------------------------------------------------------------------------

/// One answer of the interview, as it was given.
struct Answer {
  std::string question;   ///< "joists/J/size"
  std::string said;       ///< in the user's words; empty: left open
  bool reopened = false;  ///< gone back over, not yet answered again
};
/// The answers a survey was made from (interview.hpp); they enter no calculation.
struct Recording {
  bool finished = false;
  std::vector<Answer> answers;
};

struct Survey {
  std::string name;
  std::string recorded_on;  ///< ISO date
  std::string corner_a;     ///< what the user calls the corner at (0, 0)
  std::string notes;
  StandardId standard = StandardId::eurocode_uk;
  Site site;
  DeckRecord deck;
  std::vector<HeavyLoad> loads;
  Allowed allow;
  std::optional<Recording> recording;
};

}  // namespace underprop::record
