#include "standards/north_america/actions.hpp"

#include "standards/north_america/require.hpp"

namespace underprop::standards::north_america {

std::vector<AsdCombination> asd_combinations(bool snow) {
  std::vector<AsdCombination> result = {
      {"1", "D + F", 1.0, 1.0, 0.0, 0.0},
      {"2", "D + F + L", 1.0, 1.0, 1.0, 0.0},
  };
  if (snow) {
    result.push_back({"3", "D + F + S", 1.0, 1.0, 0.0, 1.0});
    result.push_back({"4", "D + F + 0.75 L + 0.75 S", 1.0, 1.0, 0.75, 0.75});
  }
  return result;
}

std::vector<AsdCombination> asd_uplift_combinations() {
  return {
      {"7", "0.6 D", 0.6, 0.0, 0.0, 0.0},
      {"7 with L", "0.6 D + L", 0.6, 0.0, 1.0, 0.0},
  };
}

double load_duration_factor(const AsdCombination& c, const LoadDurations& durations,
                            bool fluid_permanent) {
  require(durations.permanent > 0 && durations.ten_years >= durations.permanent &&
              durations.two_months >= durations.ten_years,
          "load_duration_factor: the factors must rise as the duration falls");
  if (c.S > 0) return durations.two_months;
  if (c.L > 0 || (c.F > 0 && !fluid_permanent)) return durations.ten_years;
  return durations.permanent;
}

}  // namespace underprop::standards::north_america
