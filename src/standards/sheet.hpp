// A sheet of arithmetic that ends in a Check, and the guards of its inputs. Serves every standard.
//
// The lines of a sheet keep one set of units, and a formula's value is what the formula says of the
// lines above it: what is printed is what was computed. Only the summary, which people compare, is in
// the unit they think in: `Shown` says how many units of the lines make one of those.
#pragma once

#include "underprop/base/quantity.hpp"
#include "underprop/standards/check.hpp"
#include "underprop/standards/standard.hpp"

#include <optional>
#include <string>
#include <utility>

namespace underprop::standards {

/// A value of the tables with its source.
struct Cited {
  double value = 0.0;
  Citation source;
};

/// Throws std::invalid_argument unless `condition` holds; a NaN fails every comparison.
void need(bool condition, const char* message);
/// Beyond these bounds, in base units, squares and cubes of a size leave the range of a double.
inline constexpr double smallest = 1e-9, largest = 1e15;
template <class Q>
void need_positive(Q q, const char* message) {
  need(q.value() >= smallest && q.value() <= largest, message);
}
template <class Q>
void need_not_negative(Q q, const char* message) {
  need(q.value() >= 0.0 && q.value() <= largest, message);
}

/// What every standard asks of a demand before it looks into its clauses: sizes positive, forces
/// not negative, everything finite. Throw std::invalid_argument.
void need_valid(const BendingDemand& demand);
void need_valid(const ShearDemand& demand);
void need_valid(const BearingDemand& demand);
void need_valid(const ColumnDemand& demand);
void need_valid(const EndDemand& demand);
void need_valid(const LedgerFixingDemand& demand);
void need_valid(const SideBoltDemand& demand);
void need_valid(const HoldDownDemand& demand);
/// The load and a stated capacity; the footing too unless it is a screw pile.
void need_valid(const GroundDemand& demand);
void need_valid_board(Length width, Length thickness, Length span, Force load);
/// A notch that is there at all: a depth of 0 is none.
[[nodiscard]] bool is_notched(const ShearDemand& demand);

/// Whether anything holds a ledger strip: nails below this joist, or a stated capacity.
[[nodiscard]] bool strip_is_fixed(const EndDemand& demand);

/// Strength checks take combinations for strength or uplift, with a factor in (0, most].
void need_strength(const Combination& combination, double most_duration_factor);

/// Unit of a summary, and how many of the sheet's own units make one of it.
struct Shown {
  const char* unit;
  double of_lines = 1.0;
};

/// The units that the lines of a sheet keep.
enum class Units { N_mm, kN_m, lb_in, lb_ft };

class Sheet {
public:
  Sheet(CheckKind kind, Shown shown, Units units = Units::N_mm);

  /// A line of the survey or of the analysis.
  double given(const char* symbol, double value, const char* unit);
  /// A value that is looked up: `what` says in words which.
  double taken(const char* symbol, std::string what, double value, const char* unit,
               Citation source);
  double taken(const char* symbol, std::string what, const char* unit, const Cited& cited);
  /// The same of lengths, forces, moments, stresses and pressures, in the units of the sheet.
  template <int L, int F>
  double given(const char* symbol, Quantity<L, F> quantity) {
    return given(symbol, in(quantity), unit_of(quantity));
  }
  template <int L, int F>
  double taken(const char* symbol, std::string what, Quantity<L, F> quantity, Citation source) {
    return taken(symbol, std::move(what), in(quantity), unit_of(quantity), std::move(source));
  }
  /// A value worked out by the formula from the lines above (`value_of`). Returns it. Throws
  /// std::invalid_argument for one that is not finite, which is a fault of the inputs, and
  /// std::logic_error for what is no formula of the lines.
  double line(std::string symbol, std::string formula, const char* unit, Citation source);
  /// The same, or 1 and the reason in words where the clause leaves nothing to work out.
  double line_or_one(bool one, const char* symbol, std::string formula, std::string why_one,
                     Citation source);
  /// The unit in which demand and resistance are summed up.
  void shown(Shown shown) { shown_ = shown; }

  /// A quantity in the units of the sheet, and their names.
  [[nodiscard]] double in(Length q) const;
  [[nodiscard]] double in(Force q) const;
  [[nodiscard]] double in(Moment q) const;
  [[nodiscard]] double in(Stress q) const;
  [[nodiscard]] const char* unit_of(Length) const;
  [[nodiscard]] const char* unit_of(Force) const;
  [[nodiscard]] const char* unit_of(Moment) const;
  [[nodiscard]] const char* unit_of(Stress) const;
  /// The latest line of that symbol; std::logic_error if there is none.
  [[nodiscard]] const Step& last(const std::string& symbol) const;

  /// One line against another by their symbols, both in one unit.
  Check finish(const std::string& demand, const std::string& resistance, const Citation& source);
  /// Nothing that counts, and why.
  Check nothing(const std::string& demand, std::string why, const Citation& source);

private:
  void put(std::string symbol, std::string expression, double value, const char* unit,
           Citation source, bool formula);

  Units units_;
  Shown shown_;
  Check check_;
};

}  // namespace underprop::standards
