#include "standard_tables.hpp"

#include "catalog/table.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <stdexcept>

namespace underprop::standards::north_america {

namespace {

using nlohmann::json;

Citation source(const json& row) {
  const json& s = row.at("source");
  return {s.at("key").get<std::string>(), s.at("where").get<std::string>()};
}
double number(const json& row, const char* name) { return row.at(name).get<double>(); }
Cited cited(const json& row) { return {number(row, "value"), source(row)}; }
/// The value `name` of a row that has one source for all its values.
Cited cited(const json& row, const char* name) { return {number(row, name), source(row)}; }

ReferenceValues values(const json& r) {
  return {psi(number(r, "F_b")),      psi(number(r, "F_t")), psi(number(r, "F_v")),
          psi(number(r, "F_c_perp")), psi(number(r, "F_c")), psi(number(r, "E")),
          psi(number(r, "E_min"))};
}
PerValue per_value(const json& r) {
  return {number(r, "F_b"), number(r, "F_t"), number(r, "F_v"),  number(r, "F_c_perp"),
          number(r, "F_c"), number(r, "E"),   number(r, "E_min")};
}
WetServiceRow wet_row(const json& r) {
  return {per_value(r), psi(number(r, "F_b_limit_psi")), psi(number(r, "F_c_limit_psi"))};
}
std::vector<DressedSize> sizes(const json& table) {
  std::vector<DressedSize> result;
  for (const auto& [nominal, dressed] : table.at("values").items()) {
    result.push_back({std::stod(nominal), inches(dressed.get<double>())});
  }
  std::ranges::sort(result, {}, &DressedSize::nominal_in);
  return result;
}

void read_factors(Tables& t) {
  const json& f = catalog::table("north_america/factors.json");
  const json& C_D = f.at("C_D");
  t.C_D = {number(C_D, "permanent"), number(C_D, "ten_years"), number(C_D, "two_months")};
  t.C_D_source = source(C_D);
  t.water_source = source(C_D.at("water"));
  const json& C_M = f.at("C_M");
  t.wet_dimension = wet_row(C_M.at("dimension_lumber"));
  t.wet_dimension_source = source(C_M.at("dimension_lumber"));
  t.wet_timbers = wet_row(C_M.at("timbers"));
  t.wet_timbers_source = source(C_M.at("timbers"));
  t.lateral_wet = cited(C_M.at("connections"), "lateral");
  t.withdrawal_screw_wet = cited(C_M.at("connections"), "withdrawal_lag_or_wood_screw");
  t.withdrawal_nail_wet = cited(C_M.at("connections"), "withdrawal_nail_wet_dry");
  for (const json& r : f.at("C_F").at("rows")) {
    t.C_F.push_back({number(r, "nominal_width"), number(r, "F_b_2_3"), number(r, "F_b_4"),
                     number(r, "F_t"), number(r, "F_c")});
  }
  t.C_F_source = source(f.at("C_F"));
  for (const json& r : f.at("C_fu").at("rows")) {
    t.C_fu.push_back({number(r, "nominal_width"), number(r, "thick_2_3"), number(r, "thick_4")});
  }
  t.C_fu_source = source(f.at("C_fu"));
  t.C_i = per_value(f.at("C_i"));
  t.C_i_source = source(f.at("C_i"));
  t.C_r = cited(f.at("C_r"));
  t.column_c = cited(f.at("column_c"), "sawn");
  t.K_e_braced = cited(f.at("K_e"), "pinned_pinned");
  t.K_e_cantilever = cited(f.at("K_e"), "fixed_free");
  t.K_cr = cited(f.at("K_cr"), "wet");
  t.G_over_E = cited(f.at("shear_modulus_over_E"));
  t.across_over_E = cited(f.at("E_across_over_E"));
  t.toe_lateral = cited(f.at("toe_nail"), "lateral");
  t.toe_withdrawal = cited(f.at("toe_nail"), "withdrawal");
  t.end_grain_source = source(f.at("end_grain"));
  const json& penetration = f.at("penetration_in_D");
  t.lag_least_D = number(penetration.at("lag"), "least");
  t.lag_full_D = number(penetration.at("lag"), "full");
  t.nail_least_D = number(penetration.at("nail"), "least");
  t.nail_full_D = number(penetration.at("nail"), "full");
  t.penetration_source = source(penetration);
}

GradeRow& row_of(std::vector<GradeRow>& grades, const json& r) {
  const std::string species = r.at("species"), grade = r.at("grade");
  const std::string name = species + " " + grade;
  const auto found = std::ranges::find(grades, name, &GradeRow::name);
  if (found != grades.end()) return *found;
  GradeRow row;
  row.name = name;
  row.species = species;
  row.grade = grade;
  row.G = number(r, "G");
  grades.push_back(std::move(row));
  return grades.back();
}

void read_lumber(Tables& t) {
  const json& lumber = catalog::table("north_america/lumber.json");
  t.dimension_source = source(lumber);
  const json& timbers = lumber.at("timbers_source");
  t.timbers_source = {timbers.at("key").get<std::string>(), timbers.at("where").get<std::string>()};
  t.wider_than_12 = cited(lumber.at("wider_than_12"), "factor");
  t.thick_4_wide_8 = cited(lumber.at("thick_4_wide_8"), "factor");
  for (const json& r : lumber.at("dimension_lumber")) {
    GradeRow& row = row_of(t.grades, r);
    row.sized_by_width = r.at("sized_by_width").get<bool>();
    row.dimension.push_back({r.value("nominal_width", 0.0), values(r)});
  }
  for (const json& r : lumber.at("timbers")) {
    GradeRow& row = row_of(t.grades, r);
    row.timbers = values(r);
    row.timbers_wet_factors = r.at("wet_factors").get<bool>();
  }
  const json& size = catalog::table("north_america/sizes.json");
  t.thicknesses = sizes(size.at("dry_thickness"));
  t.widths = sizes(size.at("green_width"));
  t.least_timber = mm(number(size.at("least_timber_mm"), "value"));
}

Nail nail(const json& nails, const std::string& size) {
  const json& row = nails.at("common").at(size);
  const double D = number(row, "D_in");
  for (const json& band : nails.at("F_yb_by_D_in")) {
    if (D >= number(band, "from") && D <= number(band, "to")) {
      return {inches(D), inches(number(row, "length_in")), psi(number(band, "F_yb_psi"))};
    }
  }
  throw std::logic_error("no bending yield strength for nail " + size);
}
Screw screw(const json& row) {
  return {inches(number(row, "D_in")), inches(number(row, "root_in")),
          psi(number(row, "F_yb_psi"))};
}

void read_fixings(Tables& t, const json& rules) {
  const json& f = catalog::table("north_america/fixings.json");
  t.bolt_F_yb = psi(number(f.at("bolts"), "F_yb_psi"));
  t.bolt_source = source(f.at("bolts"));
  for (const json& row : f.at("lag_screws").at("sizes")) t.lags.push_back(screw(row));
  std::ranges::sort(t.lags, {}, &Screw::D);
  t.screw_source = source(f.at("lag_screws"));
  t.nail_source = source(f.at("nails"));
  t.toe_nail = nail(f.at("nails"), rules.at("toe_nail").at("size"));
  t.strip_nail = nail(f.at("nails"), rules.at("ledger_strip").at("nail_size"));
  t.hold_down_nail = nail(f.at("nails"), rules.at("hold_down").at("nail_size"));
  t.hold_down_screw = screw(f.at("wood_screws")
                                .at("sizes")
                                .at(rules.at("hold_down").at("screw_size").get<std::string>()));
  const json& hanger = f.at("generic_hanger");
  t.hanger.most = hanger.at("most_header_nails_counted").get<int>();
  t.hanger.source = source(hanger);
  const json& holes = hanger.at("nails_by_joist_depth");
  t.hanger.holes_source = source(holes);
  for (const json& row : holes.at("rows")) {
    t.hanger.holes.push_back({inches(number(row, "joist_in")), row.at("nails").get<int>()});
  }
  const json& one = hanger.at("nail");
  t.hanger_nail = {inches(number(one, "D_in")), inches(number(one, "length_in")),
                   psi(number(one, "F_yb_psi"))};
  t.hanger_plate_in = {number(hanger, "plate_in"), source(hanger)};
  t.plate_psi = {number(f.at("steel_bearing_psi"), "cold_formed_grade_33"),
                 source(f.at("steel_bearing_psi"))};
  t.hanger_least_nails = hanger.at("least_header_nails").get<int>();
  t.hanger_slip_soft = number(hanger.at("slip_N_per_mm_per_header_nail"), "soft");
  t.hanger_slip_stiff = number(hanger.at("slip_N_per_mm_per_header_nail"), "stiff");
  const json& ledger = f.at("ledger");
  for (const json& band : ledger.at("tested_bands")) {
    const auto of = [&](const char* fixing) {
      return cited(ledger.at("fasteners").at(band.at(fixing).get<std::string>()), "allowable_lb");
    };
    t.tested_bands.push_back(
        {number(band, "least_in"), band.at("laminated_veneer").get<bool>(), of("lag"), of("bolt")});
  }
  t.tested_D_in = number(ledger, "tested_diameter_in");
  const json& edges = ledger.at("edge_distances_in");
  t.ledger_top_in = number(edges.at("ledger"), "top");
  t.ledger_bottom_in = number(edges.at("ledger"), "bottom");
  t.ledger_edges_source = source(edges);
  t.no_capacity_source = source(ledger);
  t.concrete_psi = cited(f.at("concrete_bearing_psi"));
}

std::array<double, 3> by_outlook(const json& row) {
  return {number(row, "cautious"), number(row, "likely"), number(row, "favourable")};
}

void read_ground(Tables& t) {
  const json& g = catalog::table("north_america/ground.json");
  for (const char* name : {"unknown", "topsoil", "soft clay", "firm clay", "stiff clay",
                           "loose sand", "medium dense sand", "dense sand", "gravel", "rock"}) {
    const json& row = g.at("soils").at(name);
    const json& modulus = row.at("modulus_MPa");
    Soil soil;
    soil.name = name;
    soil.surface = by_outlook(row.at("presumed_psf").at("surface"));
    soil.bedded = by_outlook(row.at("presumed_psf").at("bedded"));
    soil.source = source(row);
    soil.E_soft = number(modulus, "soft");
    soil.E_stiff = number(modulus, "stiff");
    soil.poisson = number(row, "poisson");
    soil.E_source = source(modulus);
    t.soils.push_back(std::move(soil));
  }
  t.surface_limit_psf = by_outlook(g.at("surface_limit_psf"));
  t.surface_limit_source = source(g.at("surface_limit_psf"));
  t.wet_factor = cited(g.at("wet_factor"));
  t.bedded_from_in = cited(g.at("bedded_from_in"));
  t.reference_width_in = cited(g.at("reference_width_in"));
  t.concrete_pcf = cited(g.at("concrete_pcf"));
  const json& plain = g.at("plain_concrete");
  t.footing_psi = cited(plain.at("f_c_psi"));
  t.plain_phi = cited(plain.at("phi"));
  t.cast_on_soil_in = cited(plain.at("cast_on_soil_in"));
  t.plain_load_factor = cited(plain.at("load_factor"));
}

void read_limits_and_loads(Tables& t) {
  const json& l = catalog::table("north_america/limits.json");
  const json& deflection = l.at("deflection");
  t.limits.deflection_now = number(deflection.at("live_span_ratio"), "value");
  t.limits.deflection_long = number(deflection.at("total_span_ratio"), "value");
  t.limits.deflection_now_source = source(deflection.at("live_span_ratio"));
  t.limits.deflection_long_source = source(deflection.at("total_span_ratio"));
  t.limits.cantilever_now = number(deflection.at("cantilever_live_ratio"), "value");
  t.limits.cantilever_long = number(deflection.at("cantilever_total_ratio"), "value");
  t.limits.cantilever_now_source = source(deflection.at("cantilever_live_ratio"));
  t.limits.cantilever_long_source = source(deflection.at("cantilever_total_ratio"));
  t.limits.least_source = source(deflection.at("no_limit_below_mm"));
  t.limits.least = mm(number(deflection.at("no_limit_below_mm"), "value"));
  t.limits.tilt = number(l.at("tilt_limit_one_in"), "value");
  t.limits.tilt_source = source(l.at("tilt_limit_one_in"));
  t.limits.gap_where_walked = mm(number(l.at("gap_opened_mm"), "value"));
  t.limits.post_sway_height = number(l.at("toppling_check_up_to_mm"), "value");

  const json& loads = catalog::table("north_america/loads.json");
  for (const json& row : loads.at("imposed")) {
    if (!row.at("default").get<bool>()) continue;
    t.loads.imposed = psf(number(row, "q_psf"));
    t.loads.imposed_source = source(row);
  }
  const json& point = loads.at("concentrated_load");
  t.loads.concentrated = pounds_force(number(point, "default_lb"));
  t.loads.concentrated_source = source(point);
  const std::string duration = point.at("duration");
  t.board_C_D = number(catalog::table("north_america/factors.json").at("C_D"), duration.c_str());
  t.loads.person = kilograms(number(loads.at("person_lb"), "mass_kg"));
  t.loads.person_source = source(loads.at("person_lb"));
  t.loads.wet_timber = kg_per_m3(number(loads.at("timber_density_outdoors_kg_per_m3"), "value"));
  t.loads.sway_share_of_vertical = number(loads.at("horizontal").at("of_vertical"), "value");
  t.loads.sway_share_of_people = number(loads.at("horizontal").at("of_people"), "value");
}

void read_rules(Tables& t, const json& r) {
  t.beam_shaped_F_c = cited(r.at("beam_shaped_timber_F_c_share"));
  t.beam_shaped_in = cited(r.at("beam_shaped_timber_difference_in"));
  const json& bearing = r.at("bearing");
  t.packers_in_full = cited(bearing.at("packers_in_full"));
  t.packed_share = cited(bearing.at("length_share_beyond"));
  t.C_b_end_in = cited(bearing.at("C_b_end_distance_in"));
  t.seat_unknown_in = cited(bearing.at("seat_unknown_in"));
  t.hole_share = cited(r.at("hole_share_of_depth"));
  t.upright_both = cited(r.at("held_upright").at("ends_and_edge_nominal"));
  const json& toe = r.at("toe_nail");
  t.toe_least = toe.at("least").get<int>();
  t.toe_side_share = number(toe, "side_share_of_length");
  t.toe_angle_deg = number(toe, "angle_deg");
  t.toe_source = source(toe);
  const json& ledger = r.at("ledger");
  t.tested_tolerance_mm = cited(ledger.at("tested_tolerance_mm"));
  t.tested_least_G = cited(ledger.at("tested_least_G"));
  t.tested_thickness_in = cited(ledger.at("tested_thickness_in"));
  t.band_in = cited(ledger.at("band_in"));
  t.band_G = cited(ledger.at("band_G"));
  t.washer_in_D = cited(ledger.at("washer_in_D"));
  t.band_F_c_perp = cited(ledger.at("band_F_c_perp_psi"));
  t.pull_of_stated = cited(ledger.at("pull_of_stated"));
  t.most_of_one = cited(ledger.at("most_of_one"));
  const json& thin = r.at("thin_boards");
  t.board_span_in = cited(thin.at("joist_spacing_in"));
  t.board_least_in = cited(thin.at("least_thickness_in"));
  t.wall_embedment = cited(ledger.at("wall_embedment_in_D"));
  t.bolt_least_in = cited(r.at("side_bolts").at("least_D_in"));
  t.bolt_most_in = cited(r.at("side_bolts").at("most_D_in"));
  t.strip_in = cited(r.at("ledger_strip").at("thickness_in"));
  t.bolt_group_centre = cited(r.at("side_bolts").at("group_centre_share"));
  const json& hold = r.at("hold_down");
  t.hold_down_count = cited(hold.at("count"));
  t.hold_down_thread_in = cited(hold.at("screw_thread_in"));
  t.hold_down_askew = cited(hold.at("screw_askew"));
  t.hold_down_stated_C_D = cited(hold.at("stated_at_C_D"));
}

/// From the best grade down; a species' open grain grades are not in this line.
constexpr std::array grade_order{"Select Structural", "No.1 & Btr", "No.1", "No.2", "No.3"};

std::size_t rank(const std::string& grade) {
  return static_cast<std::size_t>(std::ranges::find(grade_order, grade) - grade_order.begin());
}

}  // namespace

const GradeRow& Tables::grade(const std::string& name, bool of_timbers) const {
  const auto has = [of_timbers](const GradeRow& row) {
    return of_timbers ? row.timbers.has_value() : !row.dimension.empty();
  };
  const auto named = std::ranges::find(grades, name, &GradeRow::name);
  if (named != grades.end() && has(*named)) return *named;
  if (named != grades.end() && rank(named->grade) < grade_order.size()) {
    const GradeRow* best = nullptr;
    for (const GradeRow& row : grades) {
      if (row.species != named->species || !has(row)) continue;
      const std::size_t place = rank(row.grade);
      if (place <= rank(named->grade) || place >= grade_order.size()) continue;
      if (best == nullptr || place < rank(best->grade)) best = &row;
    }
    if (best != nullptr) return *best;
  }
  std::string known;
  for (const GradeRow& row : grades) {
    if (!has(row)) continue;
    if (!known.empty()) known += ", ";
    known += row.name;
  }
  throw NoSuchTimber("no values for \"" + name + "\"" +
                     (of_timbers ? ", 5x5 in. and larger" : ", 2 to 4 in. thick") + "; there are " +
                     known);
}

const Soil& Tables::soil(SoilKind kind) const {
  const auto index = static_cast<std::size_t>(kind);
  need(index < soils.size(), "unknown kind of soil");
  return soils[index];
}

Tables read_tables() {
  try {
    Tables t;
    const json& rules = catalog::table("north_america/rules.json");
    read_factors(t);
    read_lumber(t);
    read_fixings(t, rules);
    read_ground(t);
    read_limits_and_loads(t);
    read_rules(t, rules);
    return t;
  } catch (const json::exception& error) {
    throw std::logic_error(std::string("data/north_america: ") + error.what());
  }
}

}  // namespace underprop::standards::north_america
