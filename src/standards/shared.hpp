// Lines that every standard prints alike, under its own symbols and in its own units.
#pragma once

#include "standards/sheet.hpp"
#include "underprop/standards/standard.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace underprop::standards {

/// A kind of soil in the tables of a standard.
struct Soil {
  std::string name;
  std::array<double, 3> surface{}, bedded{};  ///< presumed, by Outlook; in the unit of its sheets
  Citation source;
  double E_soft = 0.0, E_stiff = 0.0, poisson = 0.0;  ///< MPa
  Citation E_source;
};
[[nodiscard]] GroundModuli moduli_of(const Soil& soil);

// --- bearing and the ends of joists -----------------------------------------------------------------

/// The contact's length, line `symbol`: only `share` of it under more packers than count in full.
Length contact_line(Sheet& sheet, const BearingDemand& demand, const char* symbol,
                    const Cited& packers_in_full, const Cited& share);

/// The joist on its seat as a demand on its bearing, with its length as line `symbol`.
BearingDemand bearing_on_seat(Sheet& sheet, const EndDemand& demand, const char* symbol,
                              Length unknown, const Citation& unknown_source);

/// The least that usual hangers for joists of at least that depth have as nails in the carrying piece.
struct HangerHoles {
  Length joist_depth;
  int nails = 0;
};
/// Nails of a hanger of unknown make.
struct HangerNails {
  int most = 0;                    ///< as many count
  std::vector<HangerHoles> holes;  ///< the shallowest first
  Citation source, holes_source;
};
/// The nails that the hanger is sure to have in the carrying piece, as line "nails" with how they are
/// known.
int hanger_nails_line(Sheet& sheet, const EndDemand& demand, const HangerNails& tables);
[[nodiscard]] int hanger_holes(const HangerNails& tables, Length joist_depth);
/// Those that count, line "n" of `nails`.
void hanger_counted_line(Sheet& sheet, const HangerNails& tables);
/// What is stated for a hanger with all holes nailed, as line `symbol`: by its nails where fewer were
/// counted than the smallest usual hanger for that depth has.
double stated_hanger_lines(Sheet& sheet, const EndDemand& demand, const char* symbol,
                           const HangerNails& tables);

// --- ledgers ----------------------------------------------------------------------------------------

/// What pulls the fixing, as line `symbol` in N or lb: the pull that is asked, or that of the couple
/// of joists hung on the ledger. `tested`: with joists hung on it, so that its value down the wall
/// holds the couple as well; then there is no pull left to prove.
void line_of_pull(Sheet& sheet, const LedgerFixingDemand& demand, const char* symbol, bool tested);

/// Whether the piece behind the ledger and the kind of fixing can hold a pull at all.
[[nodiscard]] bool may_hold_pull(const LedgerFixingDemand& demand);

/// Rows of fixings at recorded heights that keep these distances to the ledger's edges, in a share of
/// all rows, as line "rows" of the sheet unless it is 1. 1 where no heights are recorded.
[[nodiscard]] double rows_in_place(Sheet& sheet, const LedgerFixingDemand& demand, Length to_top,
                                   Length to_bottom, Length tolerance, const Citation& source);

/// The load of one fixing as line `symbol`, with how it is meant.
void line_of_shear(Sheet& sheet, const LedgerFixingDemand& demand, const char* symbol);

/// What is stated for the fixing as its resistance to a pull, line `symbol`: its pull-out figure, or
/// `share` of what is stated down the wall. Returns the source of that.
Citation stated_pull_line(Sheet& sheet, const LedgerFixingDemand& demand, const char* symbol,
                          const Cited& share, const Citation& of_sum);

/// Pulled and sheared at once: what is used of it down the wall, line u_v, and the formula of both
/// together, line T_v, against the resistance to a pull.
struct PullAndShear {
  const char *pull, *resistance;  ///< symbols, "T_d" and "R_d"
  const char* down;               ///< what it has down the wall, in words
  const char* fixing;             ///< "fixing", "screw"
  const char* sum;                ///< the formula of T_v
  Citation nothing, of_shear, of_sum, governing;
};
Check pulled_and_sheared(Sheet& sheet, double sheared, const PullAndShear& words);

// --- footings ---------------------------------------------------------------------------------------

/// Symbols and sources in which the standards differ.
struct FootingWords {
  const char* load;       ///< on the ground, "F_k"
  const char* from_deck;  ///< its part from the deck, "R_k"
  const char* stated;     ///< what a screw pile's installer states, in words
  Citation pressure, off_centre, area;
};
/// A screw pile carries what its installer states, and nothing without.
Check screw_pile(const GroundDemand& demand, const FootingWords& words, Shown shown, Units units);
/// The load and the sizes of a footing.
void footing_given(Sheet& sheet, const GroundDemand& demand, const FootingWords& words);
/// The pressure over the whole base where the footing cannot work, and why not.
Check footing_fails(Sheet& sheet, const FootingWords& words, const char* why,
                    const Citation& source);

/// The presumed pressure as line q_presumed. In topsoil the depth does not count, and the topsoil's
/// value caps the soil's. `deep`: the underside lies as deep as the bedded value supposes.
struct Presumed {
  double pressure = 0.0;
  const Soil* from = nullptr;
  bool in_topsoil = false, bedded = false;
  bool stated = false;  ///< for this very ground: nothing else is presumed
};
Presumed presumed_line(Sheet& sheet, const GroundDemand& demand, const Soil& soil,
                       const Soil& topsoil, bool deep);

/// The part of the base that works, lines B' and L', spread by line s on each side if `spreads`; and
/// the pressure q on it. False: no area works.
bool working_area_lines(Sheet& sheet, const GroundDemand& demand, const FootingWords& words,
                        bool spreads);

// --- members ----------------------------------------------------------------------------------------

/// A sum of ratios that squares the axial one would let a little bending make a straight post better:
/// the axial check, which holds of every member in compression, stands beside it. The sheet has the
/// line `sum`; `alone` is the formula of the axial ratio.
Check sum_or_alone(Sheet& sheet, const char* alone, const Citation& axial, const Citation& sum);

/// Depth to breadth, line `ratio` of the sheet, against what the holding allows.
Check upright(Sheet& sheet, const std::string& ratio, double limit, bool ends_held, bool edge_held,
              const Citation& source);

}  // namespace underprop::standards
