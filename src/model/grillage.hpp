// From a resolved deck to the solver's frame, remembering which element came from which piece.
//
// Joists, bearers, ledgers and boards are beams in one horizontal plane. A board and the joist under
// it share the deflection only: two screws carry no moment. A joist over a bearer presses on it
// (compression only) unless a fixing is recorded; a hung end is a shear link with slip. Blocking and
// rims share no load. The properties (stiffness of timber, springs of ground and joints) are given by
// the caller: the model knows no design standard.
#pragma once

#include "underprop/deck/deck.hpp"
#include "underprop/solver/frame.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace underprop::model {

/// Stiffness of one piece, MPa.
struct Stiff {
  double E = 0.0;
  double G = 0.0;
  double E_across = 0.0;
};

/// How a joist end is joined to the ledger or flush bearer it meets.
struct EndJoint {
  double k = 0.0;             ///< N/mm; 0: counts for nothing, released
  bool presses_only = false;  ///< a strip or seat: compression only
};

struct Properties {
  std::vector<Stiff> joists;                ///< per Deck::joists
  std::vector<std::vector<Stiff>> sisters;  ///< per joist, per sister
  std::vector<Stiff> bearers, ledgers;
  Stiff boards;
  bool boards_share = true;      ///< composite and aluminium boards share no load
  std::vector<double> supports;  ///< N/mm per Deck::supports: ground, post and bearing
  std::vector<double> walls;     ///< N/mm per mm of wall
  std::vector<std::array<EndJoint, 2>> joist_ends;  ///< per joist: start, end
  std::vector<double> ledger_fixings;               ///< N/mm per fixing; 0: counts for nothing
  /// In words, why an end or a ledger's fixings count for nothing; empty where they count.
  std::vector<std::array<std::string, 2>> why_no_end;  ///< per joist: start, end
  std::vector<std::string> why_no_ledger;
  std::vector<double> hold_down;  ///< N/mm per bearer; 0: nothing holds the joists down
  double shell_contact = 0.0;     ///< N/mm per contact of the stiff shell
  double wet_density = 0.0;       ///< kg/mm3
  double board_density = 0.0;     ///< kg/mm3
};

/// The ends of what nobody can know of the structure's behaviour; both are always analysed.
struct Bounds {
  bool joists_lapped = false;         ///< joists jointed over their inner bearers
  std::optional<int> boards_jointed;  ///< all boards jointed over this joist
  bool stiff_shell = false;           ///< the full base of a load is a rigid plate
  /// Under a stiff shell: points between two neighbouring joists at which a board may meet it, besides
  /// the joists themselves. They divide every bay of every board evenly and do not follow the load. One
  /// point tells moments up to 10 % and reactions up to 12 % too large against eight, two up to 3 and 6 %
  /// (tests/model/base_test.cpp), and costs half the time: the safe side was taken.
  int contacts_between_joists = 1;
};

enum class CaseKind {
  self_weight,  ///< everything of timber, as it is
  whole,        ///< 1 N over the whole footprint of a load
  half,         ///< 1 N over one half: part 0 towards -x, 1 +x, 2 -y, 3 +y
  quarter,      ///< 1 N over one quarter: part 0 (-x,-y), 1 (+x,-y), 2 (+x,+y), 3 (-x,+y)
  bay,          ///< 1 MPa on the deck outside the footprints, between two support lines: part = bay
  under_loads,  ///< 1 MPa on the area of the footprints: for the deck without its load
  free_end      ///< 1 N at the tip of an overhanging joist: part = running number
};
struct CaseInfo {
  CaseKind kind = CaseKind::self_weight;
  int load = -1;
  int part = -1;
};

/// A chain of members along one piece.
struct Line {
  std::vector<double> at;  ///< distance of each node along the piece's axis coordinate, mm
  std::vector<int> nodes;
  std::vector<int>
      members;  ///< members[k] joins nodes[k] and nodes[k+1]; -1 where the piece is absent
};

enum class CrossingKind { bearer, ledger, support, wall };
/// A place where a joist is carried.
struct Crossing {
  CrossingKind kind = CrossingKind::bearer;
  std::size_t meeting = 0;  ///< index into Deck::meetings
  int joist = -1;
  int other = -1;  ///< index of the bearer, ledger, support or wall
  double at_joist = 0.0;
  double at_other = 0.0;
  int link = -1;           ///< solver link (bearer, ledger) ...
  int support = -1;        ///< ... or solver support (support, wall)
  bool end_joint = false;  ///< a hung or seated end, not a joist lying on top
  int end = -1;            ///< 0 start, 1 end, when end_joint
  bool two_way = false;
  bool on_sister = false;  ///< the joist is absent here; its sisters lie here in its place
};
/// A ledger fixing or a support under a bearer, as a solver support.
struct Prop {
  int piece = -1;    ///< index of the bearer or ledger
  int support = -1;  ///< index in Deck::supports, -1 for a ledger fixing
  int solver_support = -1;
  double at = 0.0;  ///< along the bearer or ledger
  bool ledger = false;
  std::size_t meeting = 0;  ///< of a support: index into Deck::meetings
};
struct Bay {
  double from = 0.0, to = 0.0;  ///< along the joists
};

struct Model {
  solver::Frame frame;
  std::vector<solver::LoadCase> cases;
  std::vector<CaseInfo> infos;
  std::vector<Line> joists, bearers, ledgers;
  std::vector<Line> boards;
  std::vector<Crossing> crossings;
  std::vector<Prop> props;
  std::vector<Bay> bays;
  bool joists_along_y = true;
  std::vector<bool> by_sister;  ///< per joist: see carried_by_sisters
  /// Solver support of each Deck::supports entry; -1 where nothing stands on it.
  std::vector<int> support_of;
  /// Why this deck cannot be modelled at all; empty: it can.
  std::string not_modelled;
  /// A loose thing that needs no analysis to see: joists without support, boards on one joist.
  std::optional<std::string> loose;
};

/// The nodes and members depend on the deck and the bounds, not on where its loads stand: those are
/// loads on members, and the plates of a stiff shell.
/// Throws nothing for a deck from resolve(): what it cannot model is said in `not_modelled`.
Model build(const deck::Deck& deck, const Properties& properties, const Bounds& bounds);

/// Per joist: is it absent in part (or whole) and do its sisters, which run its full length, carry in its
/// place? They do where they lie on at least two bearers, supports or walls apart from each other, and the
/// joist hangs from nothing: what holds its own end says nothing of theirs.
std::vector<bool> carried_by_sisters(const deck::Deck& deck);

/// Unit load cases for one frame, and the rigid bases that stand on it: the same frame serves the loads
/// wherever they stand.
struct Cases {
  std::vector<solver::LoadCase> cases;
  std::vector<CaseInfo> infos;
  std::vector<solver::Plate> plates;  ///< with a stiff shell: of every load with a full base
  std::optional<std::string>
      loose;                 ///< as in Model: the load stands on boards that nothing carries
  std::string not_modelled;  ///< as in Model: a base on too few boards to be rigid
};
/// `model` was built of the same deck with its loads taken off, with the same bounds.
Cases load_cases(const deck::Deck& deck, const Properties& properties, const Bounds& bounds,
                 const Model& model);

/// Why such a deck is outside what is modelled (joists in two directions, bearers along the joists);
/// empty if it is inside.
std::string why_not_modelled(const deck::Deck& deck);

}  // namespace underprop::model
