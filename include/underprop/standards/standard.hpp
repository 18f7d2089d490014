// The seam between the physics and a design standard.
//
// The demands (forces, pressures, deflections) are the same whatever the standard; a standard says
// which combinations to run, how stiff timber is, and how much a piece, a joint or the ground can
// take. Another standard is another implementation of this class plus its folder in data/.
// Inputs validate themselves (std::invalid_argument with the reason: a fault of the caller); a rule
// outside its range of validity gives resistance 0 or a stated simpler rule, never an extrapolation.
#pragma once

#include "underprop/base/quantity.hpp"
#include "underprop/loads/nature.hpp"
#include "underprop/standards/check.hpp"

#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace underprop::standards {

enum class Purpose {
  strength,      ///< members, bearing, fixings
  uplift,        ///< lift-off and withdrawal
  service_now,   ///< immediate deflection
  service_long,  ///< deflection with creep
  ground         ///< service pressure against presumed bearing: characteristic loads only
};

/// One combination of actions with the duration that goes with it.
struct Combination {
  std::string id;    ///< stable and short, unique within a standard
  std::string text;  ///< "1.35 G + 1.5 Q"
  Purpose purpose = Purpose::strength;
  loads::Factors factors{};
  std::string duration;          ///< "permanent", "medium-term", "ten years" ...
  double duration_factor = 1.0;  ///< k_mod, or C_D
  Citation source;
};

/// What there is to combine.
struct Circumstances {
  bool contents_permanent = true;  ///< false: it stands empty for months each year
  bool snow = false;
};

/// The tables hold no values for a class at that size: the survey must name another. what() names those
/// they have.
struct NoSuchTimber : std::out_of_range {
  using std::out_of_range::out_of_range;
  std::string pointer;  ///< where the survey names it, a JSON Pointer; empty while nobody has said
};

enum class Role { joist, bearer, ledger, post, board };

/// Reference strength and stiffness of one piece of timber, before the factors of any check.
/// Eurocode: characteristic values; North America: reference design values of that size.
struct Timber {
  std::string label;  ///< "C16", "Hem-Fir No.2, incised"
  std::string name;   ///< key of the table
  Stress bending, tension, shear, compression, compression_across;
  Stress E;                       ///< mean (Eurocode) or reference modulus
  Stress E_low;                   ///< 5th percentile, or E_min
  Stress G;                       ///< shear modulus for deflection
  Density density;                ///< characteristic (rho_k); for fixings
  double specific_gravity = 0.0;  ///< North America only
  bool incised = false;
  Role role = Role::joist;
  Length breadth, depth;  ///< of one ply
  Citation source;
};

struct Elastic {
  Stress E, G;
};
/// Stiffness for the analysis: at once, or after creep under permanent load.
enum class Term { now, long_term };

// --- demands --------------------------------------------------------------------------------------

enum class WeakKind { none, notch_below, notch_above, hole, split };
/// A place where a piece is notched or holed.
struct Weakening {
  WeakKind kind = WeakKind::none;
  Length breadth, depth;    ///< of the whole section
  Length lost;              ///< of the depth
  Length length;            ///< along the piece
  Length from_support;      ///< clear of the nearest support's face
  bool at_support = false;  ///< a notched end: below, within the depth of a support's face
  /// Of a notched end: from the line of the reaction to its corner; 0: it runs out at the piece's end.
  Length x;
  bool middle_third = false;  ///< of the span
};

struct BendingDemand {
  Timber timber;
  Length breadth, depth;   ///< of the section that acts, softened wood taken off
  Moment moment;           ///< absolute value
  Length unbraced;         ///< between places where the compression edge is held
  bool edge_held = false;  ///< the compression edge is held all along (boards on top, sagging)
  bool ends_held = false;  ///< held upright at the supports: rim, hanger, blocking, cleat
  std::string refused;     ///< why a weakened section is not allowed at all; empty: it is
  bool sharing = false;    ///< several similar members with like load under continuous boarding
};
struct ShearDemand {
  Timber timber;
  Length breadth, depth;
  Force shear;  ///< absolute value, already without what may be left out near a support
  std::optional<Length> notch_depth;  ///< on the tension side at the support
  Length notch_distance;              ///< from the reaction to the notch's corner
  /// Of the depth, to a hole or to a notch on top or away from the supports: the net section acts.
  std::optional<Length> lost;
  std::string refused;              ///< as of bending
  bool without_near_loads = false;  ///< the shear is told without loads on top beside supports
};
/// Bearing across the grain of one piece of a crossing.
struct BearingDemand {
  Timber timber;
  Force force;
  Length width;         ///< across the grain: breadth of the piece, or of the contact
  Length length;        ///< contact along the grain
  Length end_distance;  ///< from the contact to the end of the piece
  Length depth;         ///< of the piece
  int packers = 0;      ///< more than two: the length is halved
  /// Clear distance along the piece to the nearest contact on its other face, on a piece that rests
  /// on separate supports; nothing: loaded all along, or not known.
  std::optional<Length> clear_to_next;
};
struct ColumnDemand {
  Timber timber;
  Length breadth, depth, height;
  Force axial;
  Moment moment;  ///< from offset and lean
  bool base_fixed = false;
  bool braced = true;  ///< its top cannot sway
};
enum class EndKind {
  hanger,
  ledger_strip,  ///< wood on a strip that is nailed below the joists
  resting,       ///< wood on wood that needs no fixing to carry
  end_grain,
  skew_nails
};
/// How the number of a hanger's nails is known.
enum class NailsKnown {
  counted,
  all_holes,  ///< every hole nailed, not counted: as many as the smallest usual hanger has
  of_total,   ///< taken from all nails in the hanger, those into the carrying piece not told apart
  assumed
};
struct EndDemand {
  EndKind kind = EndKind::hanger;
  Timber joist, carrier;
  Length joist_breadth, joist_depth;
  Length carrier_breadth;  ///< of what a ledger strip is nailed to
  Force shear;
  int fasteners =
      0;  ///< nails of the hanger into the carrying piece; of a ledger strip those below
          ///< this joist
  NailsKnown nails_known = NailsKnown::counted;
  bool all_holes_nailed = true;  ///< false: what is stated for a hanger counts by its nails
  bool sound = true;
  std::optional<Force> stated_capacity;
  bool permanent_share_only = false;  ///< the combination has no short actions
  std::optional<Length>
      seat;  ///< ledger strip: wood resting along the joist; the standard's low value if not
};
enum class BandKind { timber_band, solid_masonry, concrete, cavity_outer_leaf, veneer, insulation };
enum class FastenerKind { bolt, lag_screw, screw, nail, anchor };

/// How the force of a ledger fixing is meant, and which of its resistances answer it.
enum class LedgerShare {
  whole,       ///< one force on one fixing: all of them
  neighbours,  ///< the mean of the fixings within one spacing: what yields, and so shares out
  alone        ///< the most on one fixing: what gives way without warning (wall, splitting)
};

struct LedgerFixingDemand {
  BandKind wall = BandKind::timber_band;
  FastenerKind fixing = FastenerKind::bolt;
  Length diameter;
  Timber ledger;
  Length ledger_thickness, ledger_depth;
  Force shear;  ///< per fixing
  Force pull;   ///< per fixing, along its axis, out of the wall
  /// Joists beside the wall's face, hung on the ledger or resting on it: `shear` acts `couple_arm`
  /// from the wall, and the fixing is pulled by that couple with `couple_lever` to where the wall
  /// presses. No arm: by `pull` alone.
  Length couple_arm, couple_lever;
  bool sound = true;
  std::optional<Force> stated_capacity;  ///< down the wall
  std::optional<Force> stated_pull_out;  ///< out of the wall; nothing: a share of stated_capacity
  /// Wood behind the ledger: a bolt goes through it, a screw's thread grips it; nothing: the
  /// thinnest usual band.
  std::optional<Length> penetration;
  /// Of its rows over the ledger's lower edge, equally many fixings in each; empty: not measured.
  std::vector<Length> heights;
  bool band_laminated = false;  ///< the band is of laminated veneer lumber
  LedgerShare share = LedgerShare::whole;
};
struct SideBoltDemand {
  Timber bearer, post;
  Length bearer_breadth;  ///< of the plies the bolts pass through
  Length bearer_depth, post_breadth;
  int bolts = 0;
  Length diameter;
  /// From the bolts, taken on the post's axis, to the nearer end of the bearer; nothing: far from any.
  std::optional<Length> end_distance;
  Force shear;
  bool one_side = true;  ///< the bearer on one side only: single shear
};
enum class HoldDownKind { nothing, nailed, screwed, strapped };
struct HoldDownDemand {
  HoldDownKind kind = HoldDownKind::nothing;
  Timber joist, bearer;
  Force uplift;
  std::optional<Force> stated_capacity;
};
enum class FootingType { pad, strip, screw_pile };
enum class SoilKind {
  unknown,
  topsoil,
  soft_clay,
  firm_clay,
  stiff_clay,
  loose_sand,
  medium_sand,
  dense_sand,
  gravel,
  rock
};
/// Which column of the ground tables: presumed pressures are facts too.
enum class Outlook { cautious, likely, favourable };
struct GroundDemand {
  FootingType type = FootingType::pad;
  SoilKind soil = SoilKind::unknown;
  Outlook outlook = Outlook::cautious;
  Force load;            ///< characteristic, from the deck
  Force post_weight;     ///< characteristic, of the post that stands on the footing, 0: none
  Length width, length;  ///< of the footing
  Length thickness;
  Length contact_width, contact_length;  ///< of what stands on it; 45 degrees spread from here
  Length offset;                         ///< of the load from the centre, along the width
  Length depth;                          ///< of the underside below ground
  bool below_topsoil = true;
  bool waterlogged = false;
  bool spreads = true;                   ///< false: cracked, the thickness does not spread the load
  std::optional<Force> stated_capacity;  ///< screw pile
  std::optional<Pressure> shear_strength;   ///< undrained, measured at the underside (hand vane)
  std::optional<Pressure> stated_pressure;  ///< allowable service pressure, stated for this ground
};

struct GroundModuli {
  Stress soft, middle, stiff;
  double poisson = 0.3;
  Citation source;
};
struct ServiceLimits {
  /// Span divided by this, e.g. 360, under passing loads alone, at once; 0: no such limit.
  double deflection_now = 0.0;
  double deflection_long = 0.0;  ///< span divided by this, under all loads, in the long run
  double comfort_long = 0.0;     ///< the same where it is only told; 0: never
  /// The same for what runs on beyond its last support; its length is divided.
  double cantilever_now = 0.0, cantilever_long = 0.0;
  Length least;                   ///< no limit smaller than this
  double tilt = 0.0;              ///< 1 in ...
  Length gap_where_walked;        ///< 2 mm
  double post_sway_height = 0.0;  ///< mm below which a toppling check replaces a frame
  Citation deflection_now_source, deflection_long_source, comfort_source, cantilever_now_source,
      cantilever_long_source, least_source, tilt_source;
};
struct LoadValues {
  Pressure imposed;    ///< on a deck of that height
  Force concentrated;  ///< on one board, short-term
  Mass person;
  Density wet_timber;
  double sway_share_of_vertical = 0.0;  ///< 0.025
  double sway_share_of_people = 0.0;    ///< 0.10
  Citation imposed_source, concentrated_source, person_source;
};

class PrescriptiveTables;

class Standard {
public:
  virtual ~Standard() = default;

  [[nodiscard]] virtual std::string name() const = 0;   ///< "Eurocode 5 with UK values"
  [[nodiscard]] virtual bool us_customary() const = 0;  ///< units for people
  [[nodiscard]] virtual std::vector<Combination> combinations(Purpose,
                                                              const Circumstances&) const = 0;

  /// Throws NoSuchTimber for a class the tables do not have, naming those they have.
  [[nodiscard]] virtual Timber timber(const std::string& name, Role, Length breadth, Length depth,
                                      bool incised) const = 0;
  /// Names of the classes that timber() knows, in table order.
  [[nodiscard]] virtual std::vector<std::string> timber_names() const = 0;
  [[nodiscard]] virtual Elastic elastic(const Timber&, Term) const = 0;
  /// Modulus for second-order analysis and buckling of a frame: E_mean/gamma_M (EN 1995-1-1 2.2.2(1)
  /// and 2.4.1(2)); E_min' (NDS 3.7.1, Appendix D).
  [[nodiscard]] virtual Stress E_stability(const Timber&) const = 0;
  /// Stiffness across the grain for crushing springs.
  [[nodiscard]] virtual Stress E_across(const Timber&) const = 0;

  [[nodiscard]] virtual Check bending(const BendingDemand&, const Combination&) const = 0;
  [[nodiscard]] virtual Check shear(const ShearDemand&, const Combination&) const = 0;
  [[nodiscard]] virtual Check bearing(const BearingDemand&, const Combination&) const = 0;
  [[nodiscard]] virtual Check column(const ColumnDemand&, const Combination&) const = 0;
  [[nodiscard]] virtual Check joist_end(const EndDemand&, const Combination&) const = 0;
  /// Does such an end count at all? If not the model releases it.
  [[nodiscard]] virtual bool joist_end_counts(const EndDemand&) const = 0;
  [[nodiscard]] virtual Check ledger_fixing(const LedgerFixingDemand&,
                                            const Combination&) const = 0;
  /// A fixing pulled out of the wall: its own axial resistance, never its shear value.
  [[nodiscard]] virtual Check ledger_pull_off(const LedgerFixingDemand&,
                                              const Combination&) const = 0;
  [[nodiscard]] virtual bool ledger_fixing_counts(const LedgerFixingDemand&) const = 0;
  [[nodiscard]] virtual Check side_bolts(const SideBoltDemand&, const Combination&) const = 0;
  [[nodiscard]] virtual Check hold_down(const HoldDownDemand&, const Combination&) const = 0;
  /// Only for combinations of Purpose::ground.
  [[nodiscard]] virtual Check ground(const GroundDemand&, const Combination&) const = 0;

  /// Why no rule allows such a notch or hole; empty: some rule says what is left.
  [[nodiscard]] virtual std::string not_allowed(const Weakening&) const { return {}; }
  /// Share that counts towards shear at a support of a load on top that is spread from `from` to `to`
  /// beyond the face of that support underneath, on a beam of this depth. 1: all of it.
  [[nodiscard]] virtual double shear_share(Length /*from*/, Length /*to*/, Length /*depth*/) const {
    return 1.0;
  }

  /// Depth-to-breadth above which a member must be held at its supports, and at its edge.
  [[nodiscard]] virtual Check held_upright(Length breadth, Length depth, bool ends_held,
                                           bool edge_held) const = 0;
  /// A board under a concentrated load: one board over spans of `span`, continuous or single.
  [[nodiscard]] virtual Check board_point_load(const Timber&, Length width, Length thickness,
                                               Length span, bool continuous, Force load) const = 0;

  /// A board that runs `overhang` beyond its last joist, somebody standing on its very end.
  [[nodiscard]] virtual Check board_overhang(const Timber&, Length width, Length thickness,
                                             Length overhang, Force load) const = 0;

  /// Slip stiffness of one joint for the model, N/mm.
  [[nodiscard]] virtual Stiffness hanger_slip(int nails, const Timber& joist) const = 0;
  [[nodiscard]] virtual Stiffness bolt_slip(Length diameter, const Timber&) const = 0;

  [[nodiscard]] virtual GroundModuli moduli(SoilKind) const = 0;
  [[nodiscard]] virtual ServiceLimits limits() const = 0;
  [[nodiscard]] virtual LoadValues loads(Length deck_height) const = 0;
  /// Published tables of pieces that are deemed to satisfy in ordinary use; none: it has none.
  [[nodiscard]] virtual const PrescriptiveTables* prescriptive() const { return nullptr; }
};

/// Reads its tables from the embedded data; throws only if the data are broken (a build fault).
std::unique_ptr<Standard> make_eurocode_uk();
std::unique_ptr<Standard> make_north_america_us();

}  // namespace underprop::standards
