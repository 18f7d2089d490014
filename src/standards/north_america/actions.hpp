// Load combinations for allowable stress design: ASCE 7 2.4.1, with the fluid load F.
#pragma once

#include <string>
#include <vector>

namespace underprop::standards::north_america {

/// Factors on the kinds of load of ASCE 7 2.2 that a deck meets without wind and earthquake.
struct AsdCombination {
  std::string id;    ///< "2"
  std::string text;  ///< "D + F + L"
  double D = 0.0;    ///< dead: the deck, and the dry mass of what stands on it
  double F = 0.0;    ///< fluid of known greatest height: the water of a tub
  double L = 0.0;    ///< live: people, in the tub and on the deck
  double S = 0.0;    ///< snow
};

/// Combinations 1 to 4 without roof live load: D + F; D + F + L; D + F + S; D + F + 0.75 L + 0.75
/// S. F goes with D at the same factor. Those with S only if `snow`. ASCE 7 2.4.1.
std::vector<AsdCombination> asd_combinations(bool snow);

/// Combinations where the loads that hold down are taken low: 0.6 D (ASCE 7 2.4.1, combination 7,
/// without wind), and 0.6 D + L for people who lift a free end, which is ours (judgement): the
/// standard prints no such combination. F is left out: a tub can be drained, water never holds
/// down.
std::vector<AsdCombination> asd_uplift_combinations();

/// Load duration factors of NDS Table 2.3.2 that a deck needs (data).
struct LoadDurations {
  double permanent = 0.0;   ///< 0.9
  double ten_years = 0.0;   ///< 1.0, occupancy
  double two_months = 0.0;  ///< 1.15, snow
};
/// C_D of a combination: that of its shortest load. NDS 2.3.2.2 and Appendix B. Water that stays
/// for more than ten years in all is permanent; otherwise (`fluid_permanent` false) it is a
/// ten-year load.
double load_duration_factor(const AsdCombination& combination, const LoadDurations& durations,
                            bool fluid_permanent);

}  // namespace underprop::standards::north_america
