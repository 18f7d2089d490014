#include "unit_table.hpp"

#include <array>
#include <cstddef>

namespace underprop::detail {

namespace {

constexpr double pound = 0.45359237;                       // kg, exactly
constexpr double pound_force = pound * 9.80665;            // N, exactly
constexpr double cubic_inch = 25.4 * 25.4 * 25.4;          // mm3
constexpr double cubic_foot = 304.8 * 304.8 * 304.8;       // mm3
constexpr double square_inch = 25.4 * 25.4;                // mm2
constexpr double square_foot = 304.8 * 304.8;              // mm2
constexpr double degree = 3.14159265358979323846 / 180.0;  // rad

using enum Dimension;

constexpr auto all_units = std::to_array<Unit>({
    {"mm", length, 1.0},
    {"millimetre", length, 1.0},
    {"millimetres", length, 1.0},
    {"millimeter", length, 1.0},
    {"millimeters", length, 1.0},
    {"cm", length, 1.0, 1},
    {"centimetres", length, 1.0, 1},
    {"centimeters", length, 1.0, 1},
    {"m", length, 1.0, 3},
    {"metre", length, 1.0, 3},
    {"metres", length, 1.0, 3},
    {"meter", length, 1.0, 3},
    {"meters", length, 1.0, 3},
    {"in", length, 254.0, -1},
    {"in.", length, 254.0, -1},
    {"inch", length, 254.0, -1},
    {"inches", length, 254.0, -1},
    {"\"", length, 254.0, -1},
    {"''", length, 254.0, -1},
    {"ft", length, 3048.0, -1},
    {"ft.", length, 3048.0, -1},
    {"foot", length, 3048.0, -1},
    {"feet", length, 3048.0, -1},
    {"'", length, 3048.0, -1},

    {"g", mass, 1.0, -3},
    {"kg", mass, 1.0},
    {"t", mass, 1.0, 3},
    {"tonne", mass, 1.0, 3},
    {"tonnes", mass, 1.0, 3},
    {"lb", mass, pound},
    {"lb.", mass, pound},
    {"lbs", mass, pound},
    {"pound", mass, pound},
    {"pounds", mass, pound},
    {"st", mass, 14.0 * pound},
    {"stone", mass, 14.0 * pound},
    {"stones", mass, 14.0 * pound},

    {"N", force, 1.0},
    {"kN", force, 1.0, 3},
    {"lbf", force, pound_force},
    {"lb", force, pound_force},
    {"lb.", force, pound_force},
    {"lbs", force, pound_force},
    {"pounds", force, pound_force},
    {"kip", force, pound_force, 3},
    {"kips", force, pound_force, 3},

    {"Pa", pressure, 1.0, -6},
    {"kPa", pressure, 1.0, -3},
    {"MPa", pressure, 1.0},
    {"N/m2", pressure, 1.0, -6},
    {"kN/m2", pressure, 1.0, -3},
    {"N/mm2", pressure, 1.0},
    {"psf", pressure, pound_force / square_foot},
    {"lb/ft2", pressure, pound_force / square_foot},
    {"lbf/ft2", pressure, pound_force / square_foot},
    {"psi", pressure, pound_force / square_inch},
    {"lb/in2", pressure, pound_force / square_inch},
    {"lbf/in2", pressure, pound_force / square_inch},

    {"l", volume, 1.0, 6},
    {"L", volume, 1.0, 6},
    {"litre", volume, 1.0, 6},
    {"litres", volume, 1.0, 6},
    {"liter", volume, 1.0, 6},
    {"liters", volume, 1.0, 6},
    {"m3", volume, 1.0, 9},
    {"mm3", volume, 1.0},
    {"us gal", volume, 231.0 * cubic_inch},
    {"US gal", volume, 231.0 * cubic_inch},
    {"us gallons", volume, 231.0 * cubic_inch},
    {"US gallons", volume, 231.0 * cubic_inch},
    {"imp gal", volume, 4.54609, 6},
    {"imperial gallons", volume, 4.54609, 6},
    {"ft3", volume, cubic_foot},
    {"cu ft", volume, cubic_foot},

    {"deg", angle, degree},
    {"degree", angle, degree},
    {"degrees", angle, degree},
    {"°", angle, degree},
    {"rad", angle, 1.0},

    {"kg/m3", density, 1.0, -9},
    {"kg/mm3", density, 1.0},
    {"pcf", density, pound / cubic_foot},
    {"lb/ft3", density, pound / cubic_foot},
});

constexpr std::string_view two_gallons = "a US and an imperial gallon differ by a fifth";
constexpr std::string_view say_gallon = "write \"us gal\" or \"imp gal\"";
constexpr std::string_view three_tons = "tons of 1000 kg, 2000 lb and 2240 lb are in use";
constexpr std::string_view say_ton = "write \"t\" for 1000 kg, or give it in \"lb\"";

constexpr auto all_ambiguous = std::to_array<Ambiguous>({
    {"gal", volume, two_gallons, say_gallon},
    {"gallon", volume, two_gallons, say_gallon},
    {"gallons", volume, two_gallons, say_gallon},
    {"ton", mass, three_tons, say_ton},
    {"tons", mass, three_tons, say_ton},
});

constexpr auto wordings = std::to_array<Wording>({
    {"length", "a length such as \"2400 mm\", \"2.4 m\" or \"7 ft 10 1/2 in\"",
     "mm, cm, m, in or ft", "mm", "in"},
    {"mass", "a mass such as \"350 kg\" or \"770 lb\"", "g, kg, t, lb or st", "kg", "lb"},
    {"force", "a force such as \"4.5 kN\" or \"1000 lbf\"", "N, kN, lbf or kip", "kN", "lbf"},
    {"pressure", "a pressure such as \"1.5 kN/m2\" or \"50 psf\"",
     "Pa, kPa, MPa, N/m2, kN/m2, N/mm2, psf or psi", "kN/m2", "psf"},
    {"volume", "a volume such as \"1500 l\", \"1.5 m3\" or \"400 us gal\"",
     "l, m3, us gal, imp gal or ft3", "l", "us gal"},
    {"angle", "an angle such as \"30 deg\"", "deg or rad", "deg", "rad"},
    {"density", "a density such as \"420 kg/m3\" or \"35 pcf\"", "kg/m3 or pcf", "kg/m3", "pcf"},
});

}  // namespace

std::span<const Unit> units() { return all_units; }
std::span<const Ambiguous> ambiguous_units() { return all_ambiguous; }
const Wording& wording(Dimension dimension) {
  return wordings[static_cast<std::size_t>(dimension)];
}

}  // namespace underprop::detail
