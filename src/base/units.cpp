#include "underprop/base/units.hpp"

#include "quantity_text.hpp"
#include "underprop/base/input_error.hpp"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>
#include <utility>

namespace underprop {

namespace {

using detail::Dimension;
using detail::Outcome;

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_space(char c) { return c == ' ' || c == '\t'; }

struct Ends {
  std::optional<double> low, high;
  std::string problem, remedy;
};

Ends failed(std::string problem, std::string remedy) {
  return {std::nullopt, std::nullopt, std::move(problem), std::move(remedy)};
}

/// The place of a dash between two quantities (not a sign, not in an exponent), or npos.
std::size_t range_dash(std::string_view text) {
  for (std::size_t i = 1; i < text.size(); ++i) {
    if (text[i] != '-') continue;
    const bool exponent = (text[i - 1] == 'e' || text[i - 1] == 'E') && i >= 2 &&
                          (is_digit(text[i - 2]) || text[i - 2] == '.') && i + 1 < text.size() &&
                          is_digit(text[i + 1]);
    if (!exponent) return i;
  }
  return std::string_view::npos;
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return text;
}

std::optional<Ends> refuse_text(std::string_view text, Dimension dimension) {
  if (text.size() > max_quantity_text) {
    return failed(fmt::format("{} is {} bytes long", quote(text), text.size()),
                  fmt::format("write at most {} bytes", max_quantity_text));
  }
  if (trimmed(text).empty()) {
    return failed("an empty text", fmt::format("write {}", detail::wording(dimension).examples));
  }
  return std::nullopt;
}

Ends read_ends(std::string_view original, Dimension dimension) {
  if (auto refused = refuse_text(original, dimension)) return *std::move(refused);
  const std::string normal = detail::plain(original);
  std::string_view text = normal;
  double slack = 0.0;
  for (const std::string_view word : {"about ", "approximately ", "roughly "}) {
    if (text.starts_with(word)) {
      text = trimmed(text.substr(word.size()));
      slack = about_fraction;
      break;
    }
  }
  std::size_t cut = text.find(" to ");
  std::size_t width = 4;
  const bool dashed = cut == std::string_view::npos;
  if (dashed) {
    cut = range_dash(text);
    width = 1;
  }
  double low = 0.0;
  double high = 0.0;
  if (cut == std::string_view::npos) {
    Outcome one = detail::read_one(text, original, dimension);
    if (!one.value) return failed(std::move(one.problem), std::move(one.remedy));
    low = high = *one.value;
  } else {
    const std::string_view left = trimmed(text.substr(0, cut));
    const std::string_view right = trimmed(text.substr(cut + width));
    const Outcome second = detail::read_one(right, right, dimension);
    if (!second.value) {
      // The whole is more telling where the dash was none of a range.
      return failed(fmt::format("{}: {}", quote(original), second.problem), second.remedy);
    }
    Outcome first = detail::read_one(left, left, dimension);
    if (first.bare) {
      if (second.components != 1) {
        return failed(fmt::format("{}: the first number has no unit of its own", quote(original)),
                      "write the unit behind both numbers");
      }
      const std::string completed = fmt::format("{} {}", left, second.unit->name);
      first = detail::read_one(completed, left, dimension);
    }
    if (!first.value) {
      return failed(fmt::format("{}: {}", quote(original), first.problem), first.remedy);
    }
    if (dashed && first.components == 1 && second.components == 1 && detail::is_feet(*first.unit) &&
        detail::is_inches(*second.unit)) {
      return failed(fmt::format("{} may be a range, or feet and inches", quote(original)),
                    "write feet and inches like \"6 ft 3 in\", a range like \"72 in to 75 in\"");
    }
    low = *first.value;
    high = *second.value;
    if (low > high) {
      return failed(
          fmt::format("{} is a range whose second end is below its first", quote(original)),
          "write the smaller end first; a mixed number has a blank, as in \"7 1/2 in\"");
    }
  }
  Ends ends;
  ends.low = low - std::abs(low) * slack;
  ends.high = high + std::abs(high) * slack;
  return ends;
}

Ends read_single(std::string_view original, Dimension dimension) {
  if (auto refused = refuse_text(original, dimension)) return *std::move(refused);
  const std::string normal = detail::plain(original);
  Outcome one = detail::read_one(normal, original, dimension);
  if (one.value) return {one.value, one.value, {}, {}};
  Ends range = read_ends(original, dimension);
  if (range.low) return failed(quote(original) + " is a range", "write one value here");
  if (range_dash(normal) != std::string::npos) return range;
  return failed(std::move(one.problem), std::move(one.remedy));
}

template <class Q>
struct Traits;
template <>
struct Traits<Length> {
  static constexpr Dimension dimension = Dimension::length;
  static constexpr std::string_view familiar = "mm", base = "mm";
  static constexpr double per_base = 1.0;
};
template <>
struct Traits<Mass> {
  static constexpr Dimension dimension = Dimension::mass;
  static constexpr std::string_view familiar = "kg", base = "kg";
  static constexpr double per_base = 1.0;
};
template <>
struct Traits<Force> {
  static constexpr Dimension dimension = Dimension::force;
  static constexpr std::string_view familiar = "kN", base = "N";
  static constexpr double per_base = 1e-3;
};
template <>
struct Traits<Pressure> {
  static constexpr Dimension dimension = Dimension::pressure;
  static constexpr std::string_view familiar = "kN/m2", base = "N/mm2";
  static constexpr double per_base = 1e3;
};
template <>
struct Traits<Volume> {
  static constexpr Dimension dimension = Dimension::volume;
  static constexpr std::string_view familiar = "l", base = "mm3";
  static constexpr double per_base = 1e-6;
};
template <>
struct Traits<Density> {
  static constexpr Dimension dimension = Dimension::density;
  static constexpr std::string_view familiar = "kg/m3", base = "kg/mm3";
  static constexpr double per_base = 1e9;
};
template <>
struct Traits<Angle> {
  static constexpr Dimension dimension = Dimension::angle;
  static constexpr std::string_view familiar = "deg", base = "rad";
  static constexpr double per_base = 180.0 / 3.14159265358979323846;
};

double base_value(Angle angle) { return angle.rad; }
template <class Q>
double base_value(Q quantity) {
  return quantity.value();
}

}  // namespace

template <class Q>
Parsed<Q> parse_quantity(std::string_view text) {
  Ends ends = read_single(text, Traits<Q>::dimension);
  if (!ends.low) return {std::nullopt, std::move(ends.problem), std::move(ends.remedy)};
  return {Q{*ends.low}, {}, {}};
}

template <class Q>
Parsed<Range<Q>> parse_range(std::string_view text) {
  Ends ends = read_ends(text, Traits<Q>::dimension);
  if (!ends.low) return {std::nullopt, std::move(ends.problem), std::move(ends.remedy)};
  return {Range<Q>{Q{*ends.low}, Q{*ends.high}}, {}, {}};
}

template <class Q>
std::string_view quantity_examples() {
  return detail::wording(Traits<Q>::dimension).examples;
}

template <class Q>
std::string write_quantity(Q quantity) {
  const double value = base_value(quantity);
  if (!std::isfinite(value))
    throw std::domain_error("asked to write a quantity that is not finite");
  // The shortest of the neighbouring decimals that is read back to the same bits.
  const double familiar = value * Traits<Q>::per_base;
  for (const std::string& number :
       {fmt::format("{:.15g}", familiar), fmt::format("{}", familiar)}) {
    std::string text = fmt::format("{} {}", number, Traits<Q>::familiar);
    const Parsed<Q> back = parse_quantity<Q>(text);
    if (back && base_value(*back.value) == value) return text;
  }
  return fmt::format("{} {}", value, Traits<Q>::base);
}

#define UNDERPROP_INSTANTIATE(Q)                              \
  template Parsed<Q> parse_quantity<Q>(std::string_view);     \
  template Parsed<Range<Q>> parse_range<Q>(std::string_view); \
  template std::string_view quantity_examples<Q>();           \
  template std::string write_quantity<Q>(Q)
UNDERPROP_INSTANTIATE(Length);
UNDERPROP_INSTANTIATE(Mass);
UNDERPROP_INSTANTIATE(Force);
UNDERPROP_INSTANTIATE(Pressure);
UNDERPROP_INSTANTIATE(Volume);
UNDERPROP_INSTANTIATE(Density);
UNDERPROP_INSTANTIATE(Angle);
#undef UNDERPROP_INSTANTIATE

}  // namespace underprop
