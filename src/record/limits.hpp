// What a value of the survey format may be. Limits are what a deck can be, not what it should be: they
// catch slips of unit and sign.
#pragma once

#include "underprop/base/quantity.hpp"

#include <cstddef>

namespace underprop::record {

/// What a quantity may be; `open`: the low end itself is not allowed.
template <class Q>
struct Limit {
  Q low, high;
  bool open = false;
};

inline constexpr std::size_t most_joists = 400;
inline constexpr std::size_t most_supports = 2000;
inline constexpr std::size_t most_corners = 100;
inline constexpr std::size_t most_entries = 200;
inline constexpr std::size_t most_rows = 3;
inline constexpr std::size_t most_answers = 4000;

namespace limit {
inline constexpr Limit<Length> place{metres(-100), metres(100)};
inline constexpr Limit<Length> along{metres(0), metres(100)};
inline constexpr Limit<Length> breadth{mm(10), mm(500)};
inline constexpr Limit<Length> depth{mm(20), mm(1200)};
inline constexpr Limit<Length> board_width{mm(20), mm(600)};
inline constexpr Limit<Length> board_thickness{mm(5), mm(100)};
inline constexpr Limit<Length> small{mm(0), mm(100)};
inline constexpr Limit<Length> spacing{mm(30), metres(6)};
inline constexpr Limit<Length> deck_height{mm(0), metres(10), true};
inline constexpr Limit<Length> post_height{mm(0), metres(10), true};
inline constexpr Limit<Length> seat{mm(0), mm(500)};
inline constexpr Limit<Length> diameter{mm(1), mm(50)};
inline constexpr Limit<Length> fixing_spacing{mm(20), metres(3)};
inline constexpr Limit<Length> row{mm(0), mm(1200), true};
inline constexpr Limit<Length> penetration{mm(5), mm(500)};
inline constexpr Limit<Length> footing{mm(50), metres(10)};
inline constexpr Limit<Length> thickness{mm(10), metres(3)};
inline constexpr Limit<Length> below_ground{mm(0), metres(10)};
inline constexpr Limit<Length> offset{mm(0), metres(2)};
inline constexpr Limit<Length> wall{mm(40), metres(2)};
inline constexpr Limit<Length> retained{mm(0), metres(20)};
inline constexpr Limit<Length> tree{mm(0), metres(100), true};
inline constexpr Limit<Length> defect{mm(0), metres(3)};
inline constexpr Limit<Length> load_side{mm(100), metres(12)};
inline constexpr Limit<Length> load_height{mm(0), metres(5)};
inline constexpr Limit<Length> patch{mm(5), metres(2)};
inline constexpr Limit<Length> gap{mm(0), metres(5)};
inline constexpr Limit<Mass> mass{kilograms(0), kilograms(50000), true};
inline constexpr Limit<Mass> contents_mass{kilograms(0), kilograms(50000)};
inline constexpr Limit<Volume> contents{litres(0), litres(50000)};
inline constexpr Limit<Force> capacity{newtons(0), kilonewtons(1000)};
inline constexpr Limit<Pressure> ground_strength{kilopascals(1), kilopascals(1000)};
inline constexpr Limit<Pressure> area_load{kilopascals(0), kilopascals(25)};
}  // namespace limit

}  // namespace underprop::record
