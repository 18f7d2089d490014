#include "standards/north_america/material.hpp"

#include "standards/north_america/require.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::standards::north_america {

std::optional<double> nominal_size(std::span<const DressedSize> sizes, Length actual) {
  require(actual.value() > 0, "nominal_size: the size must be positive");
  for (const DressedSize& size : sizes) {
    if (size.dressed + mm(1.0) >= actual) return size.nominal_in;
  }
  return std::nullopt;
}

SizeFactors size_factors(std::span<const SizeFactorRow> rows, double nominal_width_in,
                         double nominal_thickness_in) {
  require(!rows.empty(), "size_factors: no rows");
  require(nominal_width_in > 0 && nominal_thickness_in > 0, "size_factors: sizes must be positive");
  const SizeFactorRow* found = &rows.back();
  for (const SizeFactorRow& row : rows) {
    if (row.nominal_width_in >= nominal_width_in) {
      found = &row;
      break;
    }
  }
  return {nominal_thickness_in >= 4.0 ? found->F_b_4 : found->F_b_2_3, found->F_t, found->F_c};
}

double size_factor_timber(Length d) {
  require(d.value() > 0, "size_factor_timber: d must be positive");
  return std::min(1.0, std::pow(12.0 / in_inches(d), 1.0 / 9.0));
}

double flat_use_factor(std::span<const FlatUseRow> rows, double nominal_width_in,
                       double nominal_thickness_in) {
  require(nominal_width_in > 0 && nominal_thickness_in > 0,
          "flat_use_factor: sizes must be positive");
  double C_fu = 1.0;
  for (const FlatUseRow& row : rows) {
    if (row.nominal_width_in > nominal_width_in) break;
    C_fu = nominal_thickness_in >= 4.0 ? row.thick_4 : row.thick_2_3;
  }
  return C_fu;
}

PerValue wet_service_factors(const WetServiceRow& row, const ReferenceValues& values,
                             const SizeFactors& C_F) {
  PerValue C_M = row.factors;
  if (values.F_b * C_F.F_b <= row.F_b_limit) C_M.F_b = 1.0;
  if (values.F_c * C_F.F_c <= row.F_c_limit) C_M.F_c = 1.0;
  return C_M;
}

double repetitive_member_factor(double C_r, int members, Length spacing,
                                double nominal_thickness_in) {
  require(C_r >= 1.0 && spacing.value() >= 0, "repetitive_member_factor: meaningless argument");
  const bool counts = members >= 3 && spacing <= inches(24.0) && nominal_thickness_in >= 2.0 &&
                      nominal_thickness_in <= 4.0;
  return counts ? C_r : 1.0;
}

namespace {

/// Multiplies one design value, noting every factor that is not 1.
class Adjusting {
public:
  Adjusting(std::string name, Stress reference, std::vector<AppliedFactor>& applied)
      : name_(std::move(name)), value_(reference), applied_(applied) {}

  Adjusting& by(const char* symbol, double factor) {
    require(factor > 0 && std::isfinite(factor), "adjusted_values: factors must be positive");
    value_ *= factor;
    if (factor != 1.0) applied_.push_back({name_, symbol, factor});
    return *this;
  }
  [[nodiscard]] Stress value() const { return value_; }

private:
  std::string name_;
  Stress value_;
  std::vector<AppliedFactor>& applied_;
};

}  // namespace

AdjustedValues adjusted_values(const ReferenceValues& reference, const SawnLumberFactors& f) {
  AdjustedValues result;
  std::vector<AppliedFactor>& applied = result.applied;

  Adjusting F_b("F_b", reference.F_b, applied);
  F_b.by("C_D", f.C_D).by("C_M", f.C_M.F_b).by("C_t", f.C_t.F_b).by("C_F", f.C_F.F_b);
  F_b.by("C_i", f.C_i.F_b).by("C_r", f.C_r);
  result.F_b_star = F_b.value();
  result.F_b_double_star = F_b.by("C_L", f.C_L).by("C_fu", f.C_fu).value();
  result.F_b_prime = result.F_b_double_star;

  Adjusting F_t("F_t", reference.F_t, applied);
  F_t.by("C_D", f.C_D).by("C_M", f.C_M.F_t).by("C_t", f.C_t.F_t).by("C_F", f.C_F.F_t);
  result.F_t_prime = F_t.by("C_i", f.C_i.F_t).value();

  Adjusting F_v("F_v", reference.F_v, applied);
  F_v.by("C_D", f.C_D).by("C_M", f.C_M.F_v).by("C_t", f.C_t.F_v).by("C_i", f.C_i.F_v);
  result.F_v_prime = F_v.value();

  Adjusting F_c_perp("F_c_perp", reference.F_c_perp, applied);
  F_c_perp.by("C_M", f.C_M.F_c_perp).by("C_t", f.C_t.F_c_perp).by("C_i", f.C_i.F_c_perp);
  result.F_c_perp_prime = F_c_perp.by("C_b", f.C_b).value();

  Adjusting F_c("F_c", reference.F_c, applied);
  F_c.by("C_D", f.C_D).by("C_M", f.C_M.F_c).by("C_t", f.C_t.F_c).by("C_F", f.C_F.F_c);
  result.F_c_star = F_c.by("C_i", f.C_i.F_c).value();
  result.F_c_prime = F_c.by("C_P", f.C_P).value();

  Adjusting E("E", reference.E, applied);
  result.E_prime = E.by("C_M", f.C_M.E).by("C_t", f.C_t.E).by("C_i", f.C_i.E).value();
  Adjusting E_min("E_min", reference.E_min, applied);
  E_min.by("C_M", f.C_M.E_min).by("C_t", f.C_t.E_min).by("C_i", f.C_i.E_min);
  result.E_min_prime = E_min.value();
  return result;
}

}  // namespace underprop::standards::north_america
