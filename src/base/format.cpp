#include "underprop/base/format.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace underprop {

namespace {

void refuse_nan(double number) {
  if (std::isnan(number)) throw std::domain_error("asked to show a number that is not one (NaN)");
}

void drop_trailing_zeros(std::string& text) {
  if (text.find('.') == std::string::npos) return;
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
}

std::string without_minus_zero(const std::string& text) { return text == "-0" ? "0" : text; }

std::string infinite(double number) { return number < 0 ? "-infinite" : "infinite"; }

/// Whole numbers, one decimal place below ten.
std::string coarse(double number) {
  return format_decimals(number, std::abs(number) < 9.95 ? 1 : 0);
}

/// Feet, inches and sixteenths.
std::string feet_and_inches(double inches) {
  if (std::abs(inches) > 1e9) return format_significant(inches / 12.0, 6) + " ft";
  constexpr long long sixteenths_per_foot = 12LL * 16LL;
  long long sixteenths = std::llround(std::abs(inches) * 16.0);
  const std::string sign = inches < 0 && sixteenths > 0 ? "-" : "";
  const long long ft = sixteenths / sixteenths_per_foot;
  sixteenths %= sixteenths_per_foot;
  const long long whole = sixteenths / 16;
  const long long numerator = sixteenths % 16;
  std::string text = sign;
  if (ft > 0) text += fmt::format("{} ft", ft);
  if (whole == 0 && numerator == 0) return ft > 0 ? text : "0 in";
  if (ft > 0) text += ' ';
  if (whole > 0) text += fmt::format("{}", whole);
  if (numerator > 0) {
    const long long divisor = std::gcd(numerator, 16LL);
    if (whole > 0) text += ' ';
    text += fmt::format("{}/{}", numerator / divisor, 16 / divisor);
  }
  return text + " in";
}

}  // namespace

std::string format_significant(double number, int digits) {
  refuse_nan(number);
  if (std::isinf(number)) return infinite(number);
  if (number == 0.0) return "0";
  digits = std::clamp(digits, 1, 17);
  // The exponent after rounding to `digits` tells how many places stand after the point.
  const std::string scientific = fmt::format("{:.{}e}", number, digits - 1);
  const int exponent = std::stoi(scientific.substr(scientific.find('e') + 1));
  const int decimals = digits - 1 - exponent;
  if (decimals >= 0) {
    std::string text = fmt::format("{:.{}f}", number, decimals);
    drop_trailing_zeros(text);
    return without_minus_zero(text);
  }
  // Larger than its digits: the digits, then zeros.
  std::string text;
  for (const char c : scientific.substr(0, scientific.find('e'))) {
    if (c != '.') text += c;
  }
  return text + std::string(static_cast<std::size_t>(-decimals), '0');
}

std::string format_decimals(double number, int decimals) {
  refuse_nan(number);
  if (std::isinf(number)) return infinite(number);
  std::string text = fmt::format("{:.{}f}", number, std::clamp(decimals, 0, 17));
  drop_trailing_zeros(text);
  return without_minus_zero(text);
}

std::string format_length(Length length, UnitSystem system) {
  refuse_nan(length.value());
  if (std::isinf(length.value())) return infinite(length.value());
  if (system == UnitSystem::us_customary) return feet_and_inches(in_inches(length));
  const double size = std::abs(length.value());
  const int decimals = size >= 99.95 ? 0 : size >= 9.995 ? 1 : 2;
  return format_decimals(length.value(), decimals) + " mm";
}

std::string format_force(Force force, UnitSystem system) {
  if (system == UnitSystem::us_customary) return format_decimals(in_pounds_force(force), 0) + " lb";
  return format_significant(in_kilonewtons(force), 3) + " kN";
}

std::string format_pressure(Pressure pressure, UnitSystem system) {
  if (system == UnitSystem::us_customary) return coarse(in_psf(pressure)) + " psf";
  return format_significant(in_kilopascals(pressure), 3) + " kPa";
}

std::string format_stress(Stress stress, UnitSystem system) {
  if (system == UnitSystem::us_customary) return format_decimals(in_psi(stress), 0) + " psi";
  return format_significant(in_megapascals(stress), 3) + " MPa";
}

std::string format_moment(Moment moment, UnitSystem system) {
  if (system == UnitSystem::us_customary) {
    const double lb_ft = moment.value() / (pounds_force(1.0).value() * feet(1.0).value());
    return format_decimals(lb_ft, 0) + " lb ft";
  }
  return format_significant(moment.value() * 1e-6, 3) + " kNm";
}

std::string format_mass(Mass mass, UnitSystem system) {
  if (system == UnitSystem::us_customary) {
    return coarse(mass.value() / pounds(1.0).value()) + " lb";
  }
  return coarse(in_kilograms(mass)) + " kg";
}

std::string format_volume(Volume volume, UnitSystem system) {
  if (system == UnitSystem::us_customary) {
    constexpr double us_gallon = 231.0 * 25.4 * 25.4 * 25.4;  // mm3
    return coarse(volume.value() / us_gallon) + " US gal";
  }
  return coarse(in_litres(volume)) + " l";
}

std::string format_utilisation(double utilisation) {
  refuse_nan(utilisation);
  if (std::isinf(utilisation)) return infinite(utilisation);
  double hundredths = std::ceil(utilisation * 100.0 - 1e-7);
  // A hair above is 1.00 itself: sums of lengths round so.
  if (utilisation > 1.0 + 1e-9) hundredths = std::max(hundredths, 101.0);
  return fmt::format("{:.2f}", std::max(hundredths, 0.0) / 100.0 + 0.0);
}

}  // namespace underprop
