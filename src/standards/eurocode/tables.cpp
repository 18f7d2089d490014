#include "tables.hpp"

#include "catalog/table.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <stdexcept>

namespace underprop::standards::eurocode {

namespace {

using nlohmann::json;

Citation source(const json& row, const char* name = "source") {
  const json& s = row.at(name);
  return {s.at("key").get<std::string>(), s.at("where").get<std::string>()};
}
Cited cited(const json& row) { return {row.at("value").get<double>(), source(row)}; }
double number(const json& row, const char* name) { return row.at(name).get<double>(); }

PartialFactors partial(const json& row) {
  return {number(row, "G_sup"), number(row, "G_inf"), number(row, "Q"), number(row, "xi")};
}
GroundFactors ground_factors(const json& row) {
  return {number(row, "Q"), number(row, "phi"), number(row, "c"), number(row, "c_u")};
}
Psi psi(const json& row) { return {number(row, "psi_0"), number(row, "psi_2")}; }

void read_factors(Tables& t) {
  const json& f = catalog::table("eurocode/factors.json");
  const json& k_mod = f.at("k_mod").at("service_class").at("3");
  t.k_mod = {number(k_mod, "permanent"), number(k_mod, "long"), number(k_mod, "medium"),
             number(k_mod, "short")};
  t.k_mod_source = source(f.at("k_mod"));
  t.k_mod_source.where += ", service class 3";
  t.k_def = number(f.at("k_def").at("service_class"), "3");
  t.gamma_M = cited(f.at("gamma_M").at("solid_timber"));
  t.gamma_M_joint = cited(f.at("gamma_M").at("connections"));
  t.k_cr = cited(f.at("k_cr"));
  t.k_sys = cited(f.at("k_sys"));
  t.k_m = cited(f.at("k_m"));
  t.k_n = cited(f.at("k_n"));
  t.beta_c = cited(f.at("beta_c"));
  const json& gamma = f.at("partial_factors");
  t.str = partial(gamma.at("STR"));
  t.equ = partial(gamma.at("EQU"));
  t.str_source = source(gamma.at("STR"));
  t.equ_source = source(gamma.at("EQU"));
  t.c1 = ground_factors(gamma.at("GEO_C1"));
  t.c2 = ground_factors(gamma.at("GEO_C2"));
  t.domestic = psi(f.at("psi").at("domestic"));
  t.snow = psi(f.at("psi").at("snow"));
  t.water = psi(f.at("psi").at("water_emptied_for_months"));
  t.psi_source = source(f.at("psi").at("domestic"));
}

ClassRow class_row(const std::string& name, const json& r) {
  return {name,
          number(r, "f_m_k"),
          number(r, "f_t_0_k"),
          number(r, "f_c_0_k"),
          number(r, "f_c_90_k"),
          number(r, "f_v_k"),
          number(r, "E_0_mean"),
          number(r, "E_0_05"),
          number(r, "E_90_mean"),
          number(r, "G_mean"),
          number(r, "rho_k"),
          number(r, "rho_mean"),
          r.at("hardwood").get<bool>()};
}

void read_timber(Tables& t) {
  const json& timber = catalog::table("eurocode/timber.json");
  t.class_source = source(timber);
  for (const auto& [name, row] : timber.at("classes").items()) {
    t.classes.push_back(class_row(name, row));
  }
}

Screw fastener(const json& row) {
  return {number(row, "d_mm"), row.value("d_root_mm", number(row, "d_mm")), number(row, "head_mm"),
          number(row, "f_u_MPa"), number(row, "length_mm")};
}

void read_fixings(Tables& t) {
  const json& f = catalog::table("eurocode/fixings.json");
  for (const auto& [name, row] : f.at("screws").items()) t.screws.push_back(fastener(row));
  std::sort(t.screws.begin(), t.screws.end(),
            [](const Screw& a, const Screw& b) { return a.d < b.d; });
  const json& bolt = f.at("bolts").at("M12");
  t.bolt_f_u = number(bolt, "f_u_MPa");
  t.fastener_source = source(bolt);
  const json& hanger = f.at("generic_hanger");
  t.hanger_nail_R_k = number(hanger, "characteristic_per_header_nail_N");
  t.hanger.most = hanger.at("most_header_nails_counted").get<int>();
  t.hanger.source = source(hanger);
  const json& holes = hanger.at("nails_by_joist_depth");
  t.hanger.holes_source = source(holes);
  for (const json& row : holes.at("rows")) {
    t.hanger.holes.push_back({mm(number(row, "joist_mm")), row.at("nails").get<int>()});
  }
  t.hanger_nail = fastener(f.at("nails").at(hanger.at("nail").get<std::string>()));
  t.hanger_nail_in_timber_mm = {number(hanger, "nail_length_in_timber_mm"), source(hanger)};
  t.hanger_slip_soft = number(hanger.at("slip_N_per_mm_per_header_nail"), "soft");
  t.hanger_slip_stiff = number(hanger.at("slip_N_per_mm_per_header_nail"), "stiff");
  t.hanger_source = source(hanger);
  t.end_grain_source = source(f.at("end_grain"));
  const json& down = catalog::table("eurocode/rules.json").at("hold_down");
  t.strip_nail = fastener(f.at("nails").at(
      catalog::table("eurocode/rules.json").at("ledger_strip").at("nail").get<std::string>()));
  t.hold_down_nail = fastener(f.at("nails").at(down.at("nail").get<std::string>()));
  t.hold_down_screw = fastener(f.at("screws").at(down.at("screw").get<std::string>()));
}

std::array<double, 3> by_outlook(const json& row) {
  return {number(row, "cautious"), number(row, "likely"), number(row, "favourable")};
}

Soil soil_row(const std::string& name, const json& row) {
  const json& presumed = row.at("presumed_kPa");
  const json& modulus = row.at("modulus_MPa");
  return {name,
          by_outlook(presumed.at("surface")),
          by_outlook(presumed.at("bedded")),
          source(row),
          number(modulus, "soft"),
          number(modulus, "stiff"),
          number(row, "poisson"),
          source(modulus)};
}

SoilExtra soil_extra(const json& row) {
  SoilExtra extra;
  if (row.at("bedded_from_mm").is_number()) extra.bedded_from = mm(number(row, "bedded_from_mm"));
  if (row.contains("annex_d")) {
    const json& d = row.at("annex_d");
    extra.annex_d =
        AnnexD{number(d, "phi_deg"), number(d, "c_kPa"), number(d, "unit_weight_kN_per_m3"),
               number(d, "submerged_kN_per_m3"), source(d)};
  }
  if (row.contains("undrained")) {
    const json& d = row.at("undrained");
    extra.undrained = Undrained{number(d, "c_u_kPa"), source(d)};
  }
  return extra;
}

void read_ground(Tables& t) {
  const json& ground = catalog::table("eurocode/ground.json");
  // In the order of SoilKind.
  for (const char* name : {"unknown", "topsoil", "soft clay", "firm clay", "stiff clay",
                           "loose sand", "medium dense sand", "dense sand", "gravel", "rock"}) {
    t.soils.push_back(soil_row(name, ground.at("soils").at(name)));
    t.soil_extras.push_back(soil_extra(ground.at("soils").at(name)));
  }
  t.wet_factor = cited(ground.at("wet_factor"));
  const json& concrete = ground.at("plain_concrete");
  t.f_ctk_MPa = cited(concrete.at("f_ctk_005_MPa"));
  t.alpha_ct_pl = cited(concrete.at("alpha_ct_pl"));
  t.gamma_C = cited(concrete.at("gamma_C"));
}

void read_limits(Tables& t) {
  const json& l = catalog::table("eurocode/limits.json");
  const json& d = l.at("deflection");
  // The national annex limits the net final deflection alone.
  t.limits.deflection_long = cited(d.at("w_net_fin_span_ratio")).value;
  t.limits.comfort_long = cited(d.at("w_net_fin_span_ratio_under_load")).value;
  t.limits.cantilever_long = cited(d.at("cantilever_w_net_fin_ratio")).value;
  t.limits.least = mm(cited(d.at("no_limit_below_mm")).value);
  t.limits.tilt = cited(l.at("tilt_limit_one_in")).value;
  t.limits.gap_where_walked = mm(cited(l.at("gap_opened_mm")).value);
  t.limits.post_sway_height = cited(l.at("toppling_check_up_to_mm")).value;
  t.limits.deflection_long_source = source(d.at("w_net_fin_span_ratio"));
  t.limits.comfort_source = source(d.at("w_net_fin_span_ratio_under_load"));
  t.limits.cantilever_long_source = source(d.at("cantilever_w_net_fin_ratio"));
  t.limits.least_source = source(d.at("no_limit_below_mm"));
  t.limits.tilt_source = source(l.at("tilt_limit_one_in"));
  const json& slender = l.at("depth_to_breadth");
  t.slender_unheld = number(slender, "unheld");
  t.slender_ends = number(slender, "ends_held");
  t.slender_both = number(slender, "ends_and_edge_held");
  const json& holes = catalog::table("eurocode/rules.json").at("holes");
  t.hole_share = number(holes.at("share_of_depth"), "value");
  t.hole_clear_depths = number(holes.at("clear_of_support_depths"), "value");
  t.holes_source = source(holes.at("share_of_depth"));
  t.slender_source = source(slender);
}

void read_loads(Tables& t) {
  const json& l = catalog::table("eurocode/loads.json");
  LoadValues v;
  v.concentrated = kilonewtons(number(l.at("concentrated_load"), "default_kN"));
  v.concentrated_source = source(l.at("concentrated_load"));
  v.person = kilograms(cited(l.at("person_mass_kg")).value);
  v.person_source = source(l.at("person_mass_kg"));
  v.wet_timber = kg_per_m3(cited(l.at("timber_density_outdoors_kg_per_m3")).value);
  v.sway_share_of_vertical = cited(l.at("horizontal").at("of_vertical")).value;
  v.sway_share_of_people = cited(l.at("horizontal").at("of_people")).value;
  const auto with = [&v](const json& imposed) {
    LoadValues values = v;
    values.imposed = kilopascals(number(imposed, "q_kN_per_m2"));
    values.imposed_source = source(imposed);
    return values;
  };
  t.raised_loads = with(l.at("imposed").at("raised_deck"));
  t.low_loads = with(l.at("imposed").at("low_terrace"));
  t.raised_above_mm = cited(l.at("raised_deck_above_mm")).value;
  t.concrete_kN_m3 = cited(l.at("concrete_plain_kN_per_m3"));
}

void read_rules(Tables& t) {
  const json& r = catalog::table("eurocode/rules.json");
  t.length_ends_not_held = cited(r.at("bending").at("length_factor_ends_not_held"));
  t.packers_in_full = cited(r.at("bearing").at("packers_in_full"));
  t.packed_share = cited(r.at("bearing").at("length_share_beyond"));
  t.seat_unknown_mm = cited(r.at("bearing").at("seat_unknown_mm"));
  t.length_braced = cited(r.at("column").at("length_factor_braced"));
  t.length_cantilever = cited(r.at("column").at("length_factor_cantilever"));
  const json& ledger = r.at("ledger");
  t.band_mm = cited(ledger.at("band_thickness_mm"));
  t.band = t.row(ledger.at("band_class").at("value").get<std::string>());
  t.anchor_gamma_M = cited(ledger.at("gamma_M_anchor"));
  t.least_fastener_mm = cited(ledger.at("least_mm"));
  t.screw_penetration = cited(ledger.at("screw_penetration_d_ef"));
  t.root_share = cited(ledger.at("root_share"));
  t.washer_in_d = cited(ledger.at("washer_in_d"));
  t.head_in_d = cited(ledger.at("head_in_d"));
  t.pull_of_stated = cited(ledger.at("pull_of_stated"));
  t.most_of_one = cited(ledger.at("most_of_one"));
  t.strip_mm = cited(r.at("ledger_strip").at("thickness_mm"));
  t.splitting_share = cited(r.at("splitting_h_e_share"));
  const json& down = r.at("hold_down");
  t.hold_down_count = cited(down.at("fasteners"));
  t.nail_point_mm = cited(down.at("nail_point_mm"));
  t.nailed_wet = cited(down.at("wet_when_fixed"));
  t.screw_thread_mm = cited(down.at("screw_thread_mm"));
  t.screw_angle_deg = cited(down.at("screw_angle_deg"));
  t.strap_nails = cited(down.at("strap_nails"));
  t.displaced_soil_kN_m3 = cited(r.at("ground").at("displaced_soil_kN_per_m3"));
  t.E_to_G = cited(r.at("E_05_to_G_05"));
}

}  // namespace

const ClassRow& Tables::row(const std::string& name) const {
  for (const ClassRow& each : classes) {
    if (each.name == name) return each;
  }
  std::string known;
  for (const ClassRow& each : classes) known += (known.empty() ? "" : ", ") + each.name;
  throw NoSuchTimber("no strength class \"" + name + "\"; there are " + known);
}

const Soil& Tables::soil(SoilKind kind) const {
  const auto index = static_cast<std::size_t>(kind);
  if (index >= soils.size()) throw std::invalid_argument("unknown kind of soil");
  return soils[index];
}

const SoilExtra& Tables::extra(SoilKind kind) const {
  return soil_extras.at(static_cast<std::size_t>(kind));
}

Tables read_tables() {
  try {
    Tables t;
    read_factors(t);
    read_timber(t);
    read_fixings(t);
    read_ground(t);
    read_limits(t);
    read_loads(t);
    read_rules(t);
    return t;
  } catch (const nlohmann::json::exception& error) {
    throw std::logic_error(std::string("a table of data/eurocode is broken: ") + error.what());
  }
}

}  // namespace underprop::standards::eurocode
