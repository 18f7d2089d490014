#include "standard.hpp"

#include "standards/north_america/connection.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::standards {

namespace north_america {

NorthAmericaUs::NorthAmericaUs()
    : tables_(read_tables()),
      combinations_([this](Purpose purpose, const Circumstances& circumstances) {
        return build(purpose, circumstances);
      }) {}

std::vector<Combination> NorthAmericaUs::combinations(Purpose purpose,
                                                      const Circumstances& circumstances) const {
  return combinations_.of(purpose, circumstances);
}

// --- timber ---------------------------------------------------------------------------------------

bool NorthAmericaUs::is_timber_size(Length breadth, Length depth) const {
  return min(breadth, depth) >= tables_.least_timber;
}

bool NorthAmericaUs::is_below_tables(Length breadth, Length depth) const {
  // 2 mm: what a 2 in. piece may have lost by drying and wear.
  return min(breadth, depth) < tables_.thicknesses.front().dressed - mm(2.0);
}

double NorthAmericaUs::nominal_width(Length width) const {
  return nominal_size(tables_.widths, width).value_or(tables_.widths.back().nominal_in);
}

double NorthAmericaUs::nominal_thickness(Length thickness) const {
  return nominal_size(tables_.thicknesses, thickness)
      .value_or(tables_.thicknesses.back().nominal_in);
}

Timber NorthAmericaUs::timber(const std::string& name, Role role, Length breadth, Length depth,
                              bool incised) const {
  need_positive(breadth, "timber: the breadth must be positive");
  need_positive(depth, "timber: the depth must be positive");
  const bool timbers = is_timber_size(breadth, depth);
  const GradeRow& row = tables_.grade(name, timbers);
  const Length wide = max(breadth, depth), thin = min(breadth, depth);

  ReferenceValues v;
  if (timbers) {
    v = *row.timbers;
    if (wide - thin > inches(tables_.beam_shaped_in.value) + mm(1.0)) {
      v.F_c *= tables_.beam_shaped_F_c.value;
    }
  } else {
    // Values sized by width hold a size factor: below 2 in. nominal, where the tables know none, the
    // widest row's, the lowest.
    const double width = row.sized_by_width && is_below_tables(breadth, depth)
                             ? row.dimension.back().nominal_width_in
                             : nominal_width(wide);
    const GradeRow::Sized* found = &row.dimension.back();
    for (const GradeRow::Sized& sized : row.dimension) {
      if (sized.nominal_width_in == 0.0 || sized.nominal_width_in >= width) {
        found = &sized;
        break;
      }
    }
    v = found->values;
    if (row.sized_by_width) {
      if (width > row.dimension.back().nominal_width_in) {
        for (Stress* value : {&v.F_b, &v.F_t, &v.F_c}) *value *= tables_.wider_than_12.value;
      }
      if (nominal_thickness(thin) >= 4.0 && width >= 8.0) v.F_b *= tables_.thick_4_wide_8.value;
    }
  }

  Timber t;
  t.label = row.name;
  if (row.name != name) t.label += " (for " + name + ", which the table of this size lacks)";
  if (incised) t.label += ", incised";
  t.name = name;
  t.bending = v.F_b;
  t.tension = v.F_t;
  t.shear = v.F_v;
  t.compression = v.F_c;
  t.compression_across = v.F_c_perp;
  t.E = v.E;
  t.E_low = v.E_min;
  t.density = kg_per_m3(1000.0 * row.G);
  t.specific_gravity = row.G;
  t.incised = incised;
  t.role = role;
  t.breadth = breadth;
  t.depth = depth;
  t.source = timbers ? tables_.timbers_source : tables_.dimension_source;
  t.G = tables_.G_over_E.value * t.E;
  return t;
}

std::vector<std::string> NorthAmericaUs::timber_names() const {
  std::vector<std::string> names;
  for (const GradeRow& row : tables_.grades) names.push_back(row.name);
  return names;
}

namespace {

ReferenceValues reference_values(const Timber& t) {
  return {t.bending, t.tension, t.shear, t.compression_across, t.compression, t.E, t.E_low};
}

}  // namespace

NorthAmericaUs::Adjusted NorthAmericaUs::adjust(const Timber& t, double C_D, bool sharing) const {
  const Length wide = max(t.breadth, t.depth), thin = min(t.breadth, t.depth);
  Adjusted a;
  a.timbers = is_timber_size(t.breadth, t.depth);
  const GradeRow& row = tables_.grade(t.name, a.timbers);
  const ReferenceValues v = reference_values(t);
  SawnLumberFactors& f = a.factors;
  f.C_D = C_D;
  if (t.incised) f.C_i = tables_.C_i;
  if (a.timbers) {
    f.C_F.F_b = size_factor_timber(t.depth);
    if (row.timbers_wet_factors) f.C_M = wet_service_factors(tables_.wet_timbers, v, f.C_F);
  } else {
    const double width = nominal_width(wide), thickness = nominal_thickness(thin);
    a.below_tables = is_below_tables(t.breadth, t.depth);
    if (a.below_tables) {
      // NDS 4.1.2, Supplement Table 4A: dimension lumber is 2 in. and thicker; no factor is tabulated
      // for thinner boards, and none above 1 is taken.
      f.C_M = wet_service_factors(tables_.wet_dimension, v, f.C_F);
      return a;
    }
    if (!row.sized_by_width) f.C_F = size_factors(tables_.C_F, width, thickness);
    f.C_M = wet_service_factors(tables_.wet_dimension, v, f.C_F);
    if (t.depth < t.breadth) f.C_fu = flat_use_factor(tables_.C_fu, width, thickness);
    if (sharing) f.C_r = tables_.C_r.value;
  }
  return a;
}

AdjustedValues NorthAmericaUs::adjusted(const Timber& t) const {
  return adjusted_values(reference_values(t), adjust(t, 1.0, false).factors);
}

Elastic NorthAmericaUs::elastic(const Timber& timber, Term term) const {
  need_timber(timber);
  Stress E = adjusted(timber).E_prime;
  if (term == Term::long_term) E /= tables_.K_cr.value;
  return {E, tables_.G_over_E.value * E};
}

Stress NorthAmericaUs::E_stability(const Timber& timber) const {
  need_timber(timber);
  return adjusted(timber).E_min_prime;
}

Stress NorthAmericaUs::E_across(const Timber& timber) const {
  need_timber(timber);
  return tables_.across_over_E.value * adjusted(timber).E_prime;
}

// --- slip, ground, limits, loads --------------------------------------------------------------------

Stiffness NorthAmericaUs::hanger_slip(int nails, const Timber& joist) const {
  need(nails >= 0, "hanger slip: the number of nails must not be negative");
  need_timber(joist);
  return Stiffness(std::min(nails, tables_.hanger.most) *
                   std::sqrt(tables_.hanger_slip_soft * tables_.hanger_slip_stiff));
}

Stiffness NorthAmericaUs::bolt_slip(Length diameter, const Timber& timber) const {
  need_positive(diameter, "bolt slip: the diameter must be positive");
  need_timber(timber);
  return slip_modulus(diameter, false);
}

GroundModuli NorthAmericaUs::moduli(SoilKind kind) const { return moduli_of(tables_.soil(kind)); }

LoadValues NorthAmericaUs::loads(Length deck_height) const {
  need(std::isfinite(deck_height.value()), "loads: the deck's height must be a number");
  return tables_.loads;
}

// --- guards ---------------------------------------------------------------------------------------

void need_timber(const Timber& timber) {
  for (const Stress stress : {timber.bending, timber.tension, timber.shear, timber.compression,
                              timber.compression_across, timber.E, timber.E_low, timber.G}) {
    need_positive(stress, "timber: every strength and modulus must be positive");
  }
  need_positive(timber.breadth, "timber: the breadth must be positive");
  need_positive(timber.depth, "timber: the depth must be positive");
  need(timber.specific_gravity > 0.0 && timber.specific_gravity < 1.5,
       "timber: the specific gravity must lie between 0 and 1.5");
}

void given_section(Sheet& sheet, Length breadth, Length depth) {
  sheet.given("b", in_inches(breadth), "in");
  sheet.given("d", in_inches(depth), "in");
}

}  // namespace north_america

std::unique_ptr<Standard> make_north_america_us() {
  return std::make_unique<north_america::NorthAmericaUs>();
}

}  // namespace underprop::standards
