#include "standards/sheet.hpp"

#include "standards/formula.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <utility>

namespace underprop::standards {

void need(bool condition, const char* message) {
  if (!condition) throw std::invalid_argument(message);
}

namespace {

void need_capacity(const std::optional<Force>& stated) {
  if (stated) need_not_negative(*stated, "the stated capacity must not be negative");
}

}  // namespace

void need_valid(const BendingDemand& d) {
  need_positive(d.breadth, "bending: the breadth must be positive");
  need_positive(d.depth, "bending: the depth must be positive");
  need_not_negative(d.moment, "bending: the moment must not be negative");
  need_not_negative(d.unbraced, "bending: the unbraced length must not be negative");
}

bool is_notched(const ShearDemand& d) { return d.notch_depth && d.notch_depth->value() != 0.0; }

void need_valid(const ShearDemand& d) {
  need_positive(d.breadth, "shear: the breadth must be positive");
  need_positive(d.depth, "shear: the depth must be positive");
  need_not_negative(d.shear, "shear: the shear force must not be negative");
  if (d.lost) {
    need_not_negative(*d.lost, "shear: what is lost of the depth must not be negative");
    need(*d.lost < d.depth, "shear: a cut as deep as the member");
  }
  if (!is_notched(d)) return;
  need_positive(*d.notch_depth, "shear: the notch's depth must not be negative");
  need(*d.notch_depth < d.depth, "shear: the notch is as deep as the member");
  need_not_negative(d.notch_distance, "shear: the notch's distance must not be negative");
}

void need_valid(const BearingDemand& d) {
  need_not_negative(d.force, "bearing: the force must not be negative");
  need_not_negative(d.width, "bearing: the width must not be negative");
  need_not_negative(d.length, "bearing: the length must not be negative");
  need_not_negative(d.end_distance, "bearing: the end distance must not be negative");
  need(d.packers >= 0, "bearing: the number of packers must not be negative");
}

void need_valid(const ColumnDemand& d) {
  need_positive(d.breadth, "column: the breadth must be positive");
  need_positive(d.depth, "column: the depth must be positive");
  need_not_negative(d.height, "column: the height must not be negative");
  need_not_negative(d.axial, "column: the axial force must not be negative");
  need_not_negative(d.moment, "column: the moment must not be negative");
}

void need_valid(const EndDemand& d) {
  need_not_negative(d.shear, "joist end: the shear force must not be negative");
  need(d.fasteners >= 0, "joist end: the number of fasteners must not be negative");
  need_capacity(d.stated_capacity);
  if (d.kind != EndKind::ledger_strip) return;
  need_positive(d.joist_breadth, "joist end: the breadth must be positive");
  if (d.seat) need_not_negative(*d.seat, "joist end: the seat must not be negative");
}

bool strip_is_fixed(const EndDemand& d) {
  return d.stated_capacity ? d.stated_capacity->value() > 0.0 : d.fasteners > 0;
}

void need_valid(const LedgerFixingDemand& d) {
  need_not_negative(d.shear, "ledger fixing: the shear force must not be negative");
  need_not_negative(d.pull, "ledger fixing: the pull must not be negative");
  need_positive(d.diameter, "ledger fixing: the diameter must be positive");
  need_positive(d.ledger_thickness, "ledger fixing: the ledger's thickness must be positive");
  need_positive(d.ledger_depth, "ledger fixing: the ledger's depth must be positive");
  need_not_negative(d.couple_arm, "ledger fixing: the couple's arm must not be negative");
  need(d.couple_arm.value() == 0.0 || d.couple_lever.value() >= smallest,
       "ledger fixing: a couple needs a lever");
  need_capacity(d.stated_capacity);
}

void need_valid(const SideBoltDemand& d) {
  need_positive(d.bearer_breadth, "side bolts: the bearer's breadth must be positive");
  need_positive(d.bearer_depth, "side bolts: the bearer's depth must be positive");
  need_positive(d.post_breadth, "side bolts: the post's breadth must be positive");
  need_not_negative(d.shear, "side bolts: the shear force must not be negative");
  need(d.bolts >= 0, "side bolts: the number of bolts must not be negative");
  if (d.bolts > 0) need_positive(d.diameter, "side bolts: the diameter must be positive");
  if (d.end_distance)
    need_not_negative(*d.end_distance, "side bolts: the end distance must not be negative");
}

void need_valid(const HoldDownDemand& d) {
  need_not_negative(d.uplift, "hold-down: the uplift must not be negative");
  need_capacity(d.stated_capacity);
}

void need_valid(const GroundDemand& d) {
  need_not_negative(d.load, "ground: the load must not be negative");
  need_not_negative(d.post_weight, "ground: the post's weight must not be negative");
  need_capacity(d.stated_capacity);
  if (d.type == FootingType::screw_pile) return;
  need_positive(d.width, "ground: the footing's width must be positive");
  need_positive(d.length, "ground: the footing's length must be positive");
  need_not_negative(d.thickness, "ground: the thickness must not be negative");
  need_not_negative(d.contact_width, "ground: the contact must not be negative");
  need_not_negative(d.contact_length, "ground: the contact must not be negative");
  need_not_negative(d.depth, "ground: the depth must not be negative");
  need(std::isfinite(d.offset.value()), "ground: the offset must be a number");
  need(static_cast<std::size_t>(d.outlook) < 3, "ground: unknown outlook");
}

void need_valid_board(Length width, Length thickness, Length span, Force load) {
  need_positive(width, "board: the width must be positive");
  need_positive(thickness, "board: the thickness must be positive");
  need_positive(span, "board: the span must be positive");
  need_not_negative(load, "board: the load must not be negative");
}

void need_strength(const Combination& combination, double most_duration_factor) {
  need(combination.purpose == Purpose::strength || combination.purpose == Purpose::uplift,
       "a strength check takes a combination for strength or uplift");
  need(combination.duration_factor > 0.0 && combination.duration_factor <= most_duration_factor,
       "the duration factor of the combination is out of the standard's range");
}

const char* name_of(CheckKind kind) {
  static constexpr std::array<const char*, check_kinds> names{
      "bending",
      "shear",
      "shear at a notch",
      "bearing across the grain",
      "column",
      "joist end",
      "ledger fixing",
      "ledger fixing, pulled",
      "side bolts",
      "hold-down",
      "ground",
      "held upright",
      "board under a concentrated load",
      "post, buckling",
      "end connection",
      "bolts to the side of a post",
      "ground pressure",
      "splice",
      "frost depth",
      "stated span of the boards",
      "one person on one board",
      "deflection at once",
      "deflection in the long run",
      "level in the long run",
      "gap that opens",
      "equilibrium",
      "sway along x",
      "sway along y",
      "toppling",
      "one person on the end of a board",
      "decay",
  };
  return names.at(static_cast<std::size_t>(kind));
}

namespace {

struct Measures {
  const char *length, *force, *moment, *stress;
};
constexpr std::array<Measures, 4> measures{{{"mm", "N", "N mm", "N/mm2"},
                                            {"m", "kN", "kN m", "kPa"},
                                            {"in", "lb", "lb in", "psi"},
                                            {"ft", "lb", "lb ft", "psf"}}};
const Measures& of(Units units) { return measures[static_cast<std::size_t>(units)]; }

}  // namespace

double Sheet::in(Length q) const {
  switch (units_) {
    case Units::N_mm:
      return in_mm(q);
    case Units::kN_m:
      return in_metres(q);
    case Units::lb_in:
      return in_inches(q);
    case Units::lb_ft:
      return in_feet(q);
  }
  throw std::logic_error("a sheet keeps no such units");
}
double Sheet::in(Force q) const {
  if (units_ == Units::N_mm) return in_newtons(q);
  return units_ == Units::kN_m ? in_kilonewtons(q) : in_pounds_force(q);
}
double Sheet::in(Moment q) const { return in(q / mm(1.0)) * in(mm(1.0)); }
double Sheet::in(Stress q) const {
  switch (units_) {
    case Units::N_mm:
      return in_megapascals(q);
    case Units::kN_m:
      return in_kilopascals(q);
    case Units::lb_in:
      return in_psi(q);
    case Units::lb_ft:
      return in_psf(q);
  }
  throw std::logic_error("a sheet keeps no such units");
}
const char* Sheet::unit_of(Length) const { return of(units_).length; }
const char* Sheet::unit_of(Force) const { return of(units_).force; }
const char* Sheet::unit_of(Moment) const { return of(units_).moment; }
const char* Sheet::unit_of(Stress) const { return of(units_).stress; }

Sheet::Sheet(CheckKind kind, Shown shown, Units units) : units_(units), shown_(shown) {
  check_.call(kind);
  check_.steps.reserve(24);
}

void Sheet::put(std::string symbol, std::string expression, double value, const char* unit,
                Citation source, bool formula) {
  need(std::isfinite(value), "a line of the check overflows: the input is out of all proportion");
  check_.steps.push_back(
      {std::move(symbol), std::move(expression), value, unit, std::move(source), formula});
}

double Sheet::given(const char* symbol, double value, const char* unit) {
  put(symbol, "given", value, unit, Citation{}, false);
  return value;
}

double Sheet::taken(const char* symbol, std::string what, double value, const char* unit,
                    Citation source) {
  put(symbol, std::move(what), value, unit, std::move(source), false);
  return value;
}

double Sheet::taken(const char* symbol, std::string what, const char* unit, const Cited& cited) {
  return taken(symbol, std::move(what), cited.value, unit, cited.source);
}

double Sheet::line(std::string symbol, std::string formula, const char* unit, Citation source) {
  const double value = value_of(formula, check_.steps);
  put(std::move(symbol), std::move(formula), value, unit, std::move(source), true);
  return value;
}

double Sheet::line_or_one(bool one, const char* symbol, std::string formula, std::string why_one,
                          Citation source) {
  return one ? taken(symbol, std::move(why_one), 1.0, "", std::move(source))
             : line(symbol, std::move(formula), "", std::move(source));
}

const Step& Sheet::last(const std::string& symbol) const {
  for (auto step = check_.steps.rbegin(); step != check_.steps.rend(); ++step) {
    if (step->symbol == symbol) return *step;
  }
  throw std::logic_error("a sheet of arithmetic has no line for " + symbol);
}

Check Sheet::finish(const std::string& demand_symbol, const std::string& resistance_symbol,
                    const Citation& source) {
  const double demand = last(demand_symbol).value, resistance = last(resistance_symbol).value;
  need(demand >= 0.0, "the demand must not be negative");
  check_.unit = shown_.unit;
  check_.demand = demand / shown_.of_lines;
  check_.resistance = resistance / shown_.of_lines;
  check_.source = source;
  check_.utilisation = resistance > 0.0 ? demand / resistance
                       : demand > 0.0   ? std::numeric_limits<double>::infinity()
                                        : 0.0;
  if (resistance > 0.0 && std::isfinite(check_.utilisation)) {
    check_.utilisation = line("utilisation", demand_symbol + " / " + resistance_symbol, "", source);
  }
  return std::move(check_);
}

Check Sheet::nothing(const std::string& demand, std::string why, const Citation& source) {
  put("resistance", std::move(why), 0.0, last(demand).unit.c_str(), source, false);
  return finish(demand, "resistance", source);
}

}  // namespace underprop::standards
