// A reinforced concrete pad on the ground under the heaviest load.
#include "base/rounded.hpp"
#include "needs.hpp"
#include "underprop/record/standard_facts.hpp"

#include "catalog/table.hpp"
#include "costing/quantities.hpp"
#include "underprop/base/geometry.hpp"
#include "underprop/deck/deck.hpp"
#include "works/rules.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace underprop::costing {
namespace {

using Json = nlohmann::json;
using record::StandardId;

const Json& region(StandardId standard) {
  return catalog::table("building.json").at(record::facts_of(standard).key);
}

Mass person(StandardId standard) {
  const record::StandardFacts& facts = record::facts_of(standard);
  return kilograms(catalog::table(facts.folder + "/loads.json")
                       .at(Json::json_pointer(facts.person))
                       .get<double>());
}

const char* name_of(record::Soil soil) {
  switch (soil) {
    case record::Soil::topsoil:
      return "topsoil";
    case record::Soil::soft_clay:
      return "soft clay";
    case record::Soil::firm_clay:
      return "firm clay";
    case record::Soil::stiff_clay:
      return "stiff clay";
    case record::Soil::loose_sand:
      return "loose sand";
    case record::Soil::medium_sand:
      return "medium dense sand";
    case record::Soil::dense_sand:
      return "dense sand";
    case record::Soil::gravel:
      return "gravel";
    case record::Soil::rock:
      return "rock";
    case record::Soil::made_ground:
      return "fill";
    case record::Soil::peat:
      return "peat";
  }
  return "unknown";
}

struct Ground {
  bool refer = false;
  std::string name;
  Pressure allowed;
};

// The cautious value for a pad laid on the surface: a slab's stone bed is no deep footing.
Ground ground_for(StandardId standard, const deck::Site& site) {
  const record::StandardFacts& facts = record::facts_of(standard);
  const Json& table = catalog::table(facts.folder + "/ground.json");
  Ground ground;
  ground.name = site.soil ? name_of(*site.soil) : "unknown";
  const Json& row = table.at("soils").at(ground.name);
  if (row.contains("refer") && row.at("refer").get<bool>()) {
    ground.refer = true;
    return ground;
  }
  const Json& presumed = row.at(facts.presumed).at("surface");
  const double value = presumed.at("cautious").get<double>();
  ground.allowed = facts.units == UnitSystem::us_customary ? psf(value) : kilopascals(value);
  if (site.water_in_hole) ground.allowed *= table.at("wet_factor").at("value").get<double>();
  return ground;
}

// The share of an area that one foot or runner presses on, spread at 45 degrees through the slab.
Pressure under_patches(const deck::Load& load, Force weight, Length thickness, double least_share) {
  Pressure worst;
  const double share = std::max(1.0 / static_cast<double>(load.patches.size()), least_share);
  for (const Polygon& patch : load.patches) {
    const Interval x = extent(patch, Axis::x);
    const Interval y = extent(patch, Axis::y);
    const Area area = (x.high - x.low + 2.0 * thickness) * (y.high - y.low + 2.0 * thickness);
    if (area > Area()) worst = max(worst, share * weight / area);
  }
  return worst;
}

}  // namespace

SlabDesign slab_for(const record::Survey& survey) {
  const StandardId standard = survey.standard;
  const auto rule = [&](std::string_view name) { return works::building_value(standard, name); };
  const UnitSystem units = units_of(standard);
  const deck::Deck deck = deck::resolve(survey, record::Reading::cautious).deck;
  if (deck.loads.empty()) throw std::invalid_argument("a survey without a load needs no slab");
  const auto mass_of = [&](const deck::Load& load) {
    return load.dry_mass + load.contents + load.people * person(standard);
  };
  std::size_t heaviest = 0;
  for (std::size_t i = 1; i < deck.loads.size(); ++i) {
    if (mass_of(deck.loads[i]) > mass_of(deck.loads[heaviest])) heaviest = i;
  }
  const deck::Load& load = deck.loads[heaviest];
  const Mass mass = mass_of(load);

  // Along its own sides, whichever way it stands on the deck.
  Polygon outline;
  const double turn = heaviest < survey.loads.size() ? survey.loads[heaviest].rotation_deg : 0.0;
  for (const Point& p : load.footprint) {
    outline.push_back(rotate(p - load.centre, -turn));
  }
  const Interval x = extent(outline, Axis::x);
  const Interval y = extent(outline, Axis::y);

  SlabDesign slab;
  slab.oversize = mm(rule("slab/margin_mm"));
  slab.sub_base = mm(rule("slab/sub_base_mm"));
  // To the next 10 mm: nobody sets formwork finer, and a circle's corners cost nothing. A tenth of a
  // millimetre is rounding of the outline.
  const auto side = [&](Interval i) {
    const double net = (i.high - i.low + 2.0 * slab.oversize).value();
    return mm(10.0 * std::ceil((net - 0.1) / 10.0));
  };
  slab.width = side(x);
  slab.length = side(y);
  const Json& rows = region(standard).at("slab").at("rows");
  bool thick_enough = false;
  for (const Json& row : rows) {
    slab.thickness = mm(row.at("thickness_mm").get<double>());
    slab.mesh = row.at("mesh").get<std::string>();
    thick_enough = in_kilograms(mass) <= row.at("up_to_kg").get<double>();
    if (thick_enough) break;
  }

  const Pressure own = kilopascals(rule("slab/unit_weight_kN_per_m3") * in_metres(slab.thickness));
  Pressure pressure = weight(mass) / (slab.width * slab.length) + own;
  if (!load.patches.empty()) {
    pressure =
        max(pressure,
            under_patches(load, weight(mass), slab.thickness,
                          load.base == record::BaseKind::feet ? rule("slab/feet_share") : 0.0) +
                own);
  }
  const Ground ground = ground_for(standard, deck.site);
  slab.ground_pressure_kPa = in_kilopascals(pressure);
  slab.allowed_pressure_kPa = in_kilopascals(ground.allowed);

  const auto note = [&](std::string text) { slab.notes.push_back(std::move(text)); };
  const bool marked = survey.site.heel_marks.value_or(false);
  const bool filled = survey.site.fill.is_value() &&
                      survey.site.fill.value() == record::Fill::younger_than_ten_years;
  slab.carries = thick_enough && !ground.refer && !marked && !filled && pressure <= ground.allowed;
  if (!thick_enough) {
    note(fmt::format(
        "No thickness of the table is meant for {}: an engineer has to design this slab.",
        format_mass(mass, units)));
  }
  if (ground.refer)
    note("The ground recorded (" + ground.name + ") has no presumed pressure: ask an engineer.");
  if (marked) note("A heel marks the ground: it carries too little for any presumed pressure.");
  if (filled) note("Fill younger than ten years settles unevenly: ask an engineer.");
  if (survey.site.heel_marks.is_unknown()) {
    note("First: a heel must leave no mark on the ground once the topsoil is out.");
  }
  if (survey.site.fill.is_unknown() || survey.site.soil.is_unknown()) {
    note(
        "The ground is taken as unknown and natural. Where the dig shows fill, peat or rubbish, "
        "stop.");
  }
  note(fmt::format(
      "Ground pressure {} under the full load and the slab, {} presumed (cautious, service "
      "loads).",
      format_measured(pressure, units, Rounded::up),
      format_measured(ground.allowed, units, Rounded::down)));
  note(fmt::format(
      "Fall of 1 in {} away from the house and from the deck's posts; the load is levelled on "
      "it as its maker says.",
      format_decimals(rule("slab/fall_1_in"), 0)));
  note(fmt::format(
      "{} at mid-depth, {} concrete round it; topsoil out, {} of stone compacted in layers.",
      slab.mesh.starts_with("#") ? slab.mesh : "Mesh " + slab.mesh,
      format_measured(mm(rule("slab/cover_mm")), units, Rounded::up),
      format_measured(slab.sub_base, units, Rounded::up)));
  note(fmt::format(
      "Not within {} of a house wall or below a 45 degree line from a deck footing without "
      "asking how deep those go.",
      format_measured(mm(rule("pit/clear_of_house_wall_mm")), units, Rounded::up)));
  if (deck.loads.size() > 1) note("For the heaviest load only; the others stay on the deck.");
  note(fmt::format("{} days before the load is put on, {} before it is filled.",
                   format_decimals(rule("wait/before_packing_days"), 0),
                   format_decimals(rule("wait/before_full_days"), 0)));
  return slab;
}

std::vector<Quantity> take_off(const SlabDesign& slab, const record::Survey& survey) {
  const StandardId standard = survey.standard;
  const auto rule = [&](std::string_view name) { return works::building_value(standard, name); };
  const UnitSystem units = units_of(standard);
  Needs needs;
  needs.standard = standard;
  const Length margin = 2.0 * mm(rule("slab/dig_margin_mm"));
  const Length depth = max(slab.sub_base + slab.thickness - mm(rule("slab/above_ground_mm")),
                           mm(rule("slab/topsoil_mm")));
  const double area = in_metres(slab.width) * in_metres(slab.length);
  const double dig_area = in_metres(slab.width + margin) * in_metres(slab.length + margin);
  const double perimeter = 2.0 * in_metres(slab.width + slab.length);
  needs.dug_m3 = dig_area * in_metres(depth);
  needs.spoil_m3 = needs.dug_m3;
  needs.sub_base_m3 = dig_area * in_metres(slab.sub_base);
  needs.compactor_days = 1;
  needs.membrane_m2 = area;
  needs.formwork_m = perimeter;
  needs.concrete_m3 = area * in_metres(slab.thickness);
  needs.pours = 1;
  needs.pits = fmt::format("slab {} x {} x {}", format_length(slab.width, units),
                           format_length(slab.length, units), format_length(slab.thickness, units));
  const Length cover = mm(rule("slab/cover_mm"));
  const Length lap = mm(rule("slab/mesh_lap_mm"));
  if (units_of(standard) == UnitSystem::us_customary) {
    const Length spacing = mm(region(standard).at("bar_spacing_mm").at("rows").at(0).get<double>());
    const Length stock = mm(region(standard).at("bar_stock_mm").at("rows").at(0).get<double>());
    const auto lay = [&](Length across, Length along) {
      const int lines = bar_lines(across, cover, spacing);
      Length left = along - 2.0 * cover;
      while (left > stock) {  // lapped
        needs.bars.insert(needs.bars.end(), static_cast<std::size_t>(lines), stock);
        left -= stock - lap;
      }
      needs.bars.insert(needs.bars.end(), static_cast<std::size_t>(lines), left);
    };
    lay(slab.width, slab.length);
    lay(slab.length, slab.width);
  } else {
    const Json& sheet = region(standard).at("mesh_sheet_mm").at("rows");
    needs.mesh_sheets[slab.mesh] =
        mesh_sheets(slab.width, slab.length, cover, mm(sheet.at(0).get<double>()),
                    mm(sheet.at(1).get<double>()), lap);
  }
  needs.spacers = static_cast<int>(std::ceil(4.0 * area));
  needs.task("lay and compact sub-base, per m3", needs.sub_base_m3);
  needs.task("set formwork, per m", perimeter);
  needs.task("lay mesh, per m2", area);
  needs.task("finish slab, per m2", area);
  return quantities(needs);
}

}  // namespace underprop::costing
