#include "standard.hpp"

#include "standards/eurocode/group.hpp"
#include "standards/eurocode/material.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::standards {

namespace eurocode {

EurocodeUk::EurocodeUk()
    : tables_(read_tables()),
      combinations_([this](Purpose purpose, const Circumstances& circumstances) {
        return build(purpose, circumstances);
      }) {}

std::vector<Combination> EurocodeUk::combinations(Purpose purpose,
                                                  const Circumstances& circumstances) const {
  return combinations_.of(purpose, circumstances);
}

Timber EurocodeUk::timber(const std::string& name, Role role, Length breadth, Length depth,
                          bool incised) const {
  need_positive(breadth, "timber: the breadth must be positive");
  need_positive(depth, "timber: the depth must be positive");
  const ClassRow& row = tables_.row(name);
  Timber t;
  t.label = row.name;
  t.name = row.name;
  t.bending = megapascals(row.f_m);
  t.tension = megapascals(row.f_t_0);
  t.shear = megapascals(row.f_v);
  t.compression = megapascals(row.f_c_0);
  t.compression_across = megapascals(row.f_c_90);
  t.E = megapascals(row.E_mean);
  t.E_low = megapascals(row.E_05);
  t.G = megapascals(row.G);
  t.density = kg_per_m3(row.rho_k);
  t.incised = incised;
  t.role = role;
  t.breadth = breadth;
  t.depth = depth;
  t.source = tables_.class_source;
  return t;
}

std::vector<std::string> EurocodeUk::timber_names() const {
  std::vector<std::string> names;
  for (const ClassRow& row : tables_.classes) names.push_back(row.name);
  return names;
}

Elastic EurocodeUk::elastic(const Timber& timber, Term term) const {
  need_timber(timber);
  if (term == Term::now) return {timber.E, timber.G};
  return {modulus_final(timber.E, 1.0, tables_.k_def), modulus_final(timber.G, 1.0, tables_.k_def)};
}

Stress EurocodeUk::E_stability(const Timber& timber) const {
  need_timber(timber);
  return timber.E / tables_.gamma_M.value;
}

Stress EurocodeUk::E_across(const Timber& timber) const {
  return megapascals(tables_.row(timber.name).E_90);
}

Stiffness EurocodeUk::hanger_slip(int nails, const Timber& joist) const {
  need(nails >= 0, "hanger slip: the number of nails must not be negative");
  need_timber(joist);
  return Stiffness(std::min(nails, tables_.hanger.most) *
                   std::sqrt(tables_.hanger_slip_soft * tables_.hanger_slip_stiff));
}

Stiffness EurocodeUk::bolt_slip(Length diameter, const Timber& timber) const {
  need_positive(diameter, "bolt slip: the diameter must be positive");
  return K_ser_dowel_type(kg_per_m3(tables_.row(timber.name).rho_mean), diameter);
}

GroundModuli EurocodeUk::moduli(SoilKind kind) const { return moduli_of(tables_.soil(kind)); }

LoadValues EurocodeUk::loads(Length deck_height) const {
  need(std::isfinite(deck_height.value()), "loads: the deck's height must be a number");
  return in_mm(deck_height) > tables_.raised_above_mm ? tables_.raised_loads : tables_.low_loads;
}

void need_timber(const Timber& timber) {
  for (const Stress stress : {timber.bending, timber.shear, timber.compression,
                              timber.compression_across, timber.E, timber.E_low, timber.G}) {
    need_positive(stress, "timber: every strength and modulus must be positive");
  }
  need_positive(timber.density, "timber: the density must be positive");
}

void EurocodeUk::k_mod(Sheet& sheet, const Combination& combination) const {
  sheet.taken("k_mod", "service class 3, " + combination.duration, combination.duration_factor, "",
              tables_.k_mod_source);
}

}  // namespace eurocode

std::unique_ptr<Standard> make_eurocode_uk() { return std::make_unique<eurocode::EurocodeUk>(); }

}  // namespace underprop::standards
