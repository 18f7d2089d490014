#include "standards/eurocode/column.hpp"

#include "standards/eurocode/require.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace underprop::standards::eurocode {

namespace {
constexpr double stocky = 0.3;  // lambda_rel up to which nothing is lost to buckling, 6.3.2(2)
}

Buckling buckling(Length l_ef, Length side, Stress f_c_0_k, Stress E_0_05, double beta_c) {
  require(l_ef.value() >= 0 && side.value() > 0, "buckling: sizes");
  require(f_c_0_k.value() > 0 && E_0_05.value() > 0 && beta_c >= 0, "buckling: material");
  Buckling result;
  result.lambda = std::sqrt(12.0) * (l_ef / side);
  result.lambda_rel = result.lambda / std::numbers::pi * std::sqrt(f_c_0_k / E_0_05);
  const double relative = result.lambda_rel;
  result.k = 0.5 * (1.0 + beta_c * (relative - stocky) + relative * relative);
  if (relative > stocky) {
    result.k_c = 1.0 / (result.k + std::sqrt(result.k * result.k - relative * relative));
  }
  return result;
}

double compression_and_bending_utilisation(const StressRatios& ratios, const Buckling& about_y,
                                           const Buckling& about_z, double k_m) {
  require(about_y.k_c > 0 && about_z.k_c > 0, "compression_and_bending: k_c must be positive");
  const double y = ratios.bending_y;
  const double z = ratios.bending_z;
  if (about_y.lambda_rel <= stocky && about_z.lambda_rel <= stocky) {
    const double squared = ratios.compression * ratios.compression;
    return squared + std::max(y + k_m * z, k_m * y + z);
  }
  return std::max(ratios.compression / about_y.k_c + y + k_m * z,
                  ratios.compression / about_z.k_c + k_m * y + z);
}

double beam_column_utilisation(const StressRatios& ratios, double k_crit, double k_c_z) {
  require(k_crit > 0 && k_c_z > 0, "beam_column: factors must be positive");
  const double bending = ratios.bending_y / k_crit;
  return bending * bending + ratios.compression / k_c_z;
}

}  // namespace underprop::standards::eurocode
