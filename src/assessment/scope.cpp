#include "scope.hpp"
#include "base/rounded.hpp"
#include "figures.hpp"
#include "underprop/record/standard_facts.hpp"

#include "catalog/table.hpp"
#include "standards/sheet.hpp"
#include "underprop/base/format.hpp"
#include "underprop/base/geometry.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace underprop::assessment {

namespace {

UnitSystem units(const deck::Deck& deck) { return record::facts_of(deck.standard).units; }

/// Outline of what a support stands on the ground with.
Polygon footing_outline(const deck::Support& support) {
  return place(rectangle(support.footing.width, support.footing.length), 0.0, support.at);
}

}  // namespace

Scope scope(const deck::Deck& deck, const std::vector<std::size_t>& loaded_supports,
            const std::vector<std::size_t>& loaded_walls) {
  Scope result;
  const UnitSystem u = units(deck);
  const auto refer = [&](const std::string& why) { result.refer_reasons.push_back(why); };
  result.refer_reasons = deck.refer_reasons;
  const deck::Site& site = deck.site;

  if (site.use != record::Use::one_household)
    refer("the deck is for public, shared or rented use: ask a structural engineer");
  if (site.storeys > 1) refer("decks stand above each other");
  if (site.space_below == record::SpaceBelow::used) refer("there is a used space underneath");
  if (site.roof_or_screen)
    refer("a roof or screen on the deck catches wind, which is not modelled");
  if (deck.height > mm(figure("deck_height_mm"))) {
    refer("the deck's surface is " + format_length(deck.height, u) +
          " above the ground; this program stops at " +
          format_length(mm(figure("deck_height_mm")), u));
  }
  // Loads share the deck: what holds of one holds of all of them together.
  Mass all(0.0);
  for (const deck::Load& load : deck.loads) all += load.dry_mass + load.contents;
  if (deck.loads.size() > 1 && all > kilograms(figure("load_mass_kg"))) {
    refer("the loads together weigh " + format_mass(all, u) + "; this program stops at " +
          format_mass(kilograms(figure("load_mass_kg")), u));
  }
  for (const deck::Load& load : deck.loads) {
    const Mass mass = load.dry_mass + load.contents;
    const std::string name = load.name.empty() ? "the load" : load.name;
    if (mass > kilograms(figure("load_mass_kg"))) {
      refer(name + " weighs " + format_mass(mass, u) + "; this program stops at " +
            format_mass(kilograms(figure("load_mass_kg")), u));
    }
    // A tall light thing on a raised deck: what the wind does to it is more than what is modelled.
    const Length tall = load.centre_of_mass_height * 2.0;
    const Length wide =
        max(extent(load.footprint, Axis::x).high - extent(load.footprint, Axis::x).low,
            extent(load.footprint, Axis::y).high - extent(load.footprint, Axis::y).low);
    if (deck.height > mm(figure("low_support_mm")) && tall > mm(figure("tall_load_mm")) &&
        kilopascals(figure("wind_kPa")) * (tall * wide) > weight(mass) * figure("wind_share")) {
      refer(name +
            " is tall and light for the wind that it catches on a raised deck, which is not "
            "modelled");
    }
    const Area area = underprop::area(load.footprint);
    if (area.value() > 0.0 && (weight(mass) / area) > kilopascals(figure("load_pressure_kPa"))) {
      refer(name + " presses with " + format_pressure(weight(mass) / area, u) +
            "; this program stops at " +
            format_pressure(kilopascals(figure("load_pressure_kPa")), u));
    }
  }
  // A category that nobody asked for is feared (below), like any other open fact.
  if (record::facts_of(deck.standard).seismic && deck.height > mm(figure("seismic_height_mm")) &&
      site.seismic_category >= "C") {
    refer("seismic design category " + site.seismic_category +
          ": a raised tub is a heavy mass in an earthquake");
  }
  if (site.soil && *site.soil == record::Soil::peat) refer("the footings stand on peat");
  if (site.soil && *site.soil == record::Soil::made_ground)
    refer("the footings stand on made ground");
  if (site.fill == record::Fill::younger_than_ten_years)
    refer("the footings stand on fill younger than ten years");
  if (site.heel_marks)
    refer("a heel marks the ground beside the pads: it is too soft for this program");
  if (site.slope > figure("slope")) refer("the ground is steeper than 1 in 6 near the deck");

  const auto near_line = [&](const Polygon& outline, Length underside, const std::string& who) {
    for (const deck::GroundLine& wall : site.retaining_walls) {
      const Length reach =
          max(mm(figure("retaining_wall_mm")), wall.height * figure("retaining_wall_heights"));
      const Length d = distance_to_segment(outline, wall.from, wall.to);
      if (d < reach) {
        refer(who + " stands " + format_measured(d, u, Rounded::down) + " from retaining wall " +
              wall.name + "; less than " + format_length(reach, u) +
              " needs a structural engineer");
      }
    }
    for (const deck::GroundLine& pond : site.ponds) {
      const Length reach =
          max(mm(figure("retaining_wall_mm")), pond.height * figure("retaining_wall_heights"));
      const Length d = distance_to_segment(outline, pond.from, pond.to);
      if (d < reach)
        refer(who + " stands " + format_measured(d, u, Rounded::down) + " from the pond or pool " +
              pond.name);
    }
    for (const deck::GroundLine& drain : site.drains) {
      // A drain lies in the load's 45 degree line if it is nearer than its depth below the footing.
      const Length reach = max(drain.height - underside, mm(0.0));
      const Length d = distance_to_segment(outline, drain.from, drain.to);
      if (d <= reach)
        refer(who + " presses on drain " + drain.name + " (within its 45 degree line)");
    }
    for (const deck::GroundLine& house : site.house_walls) {
      const Length d = distance_to_segment(outline, house.from, house.to);
      if (d < mm(figure("house_wall_mm")) && underside < house.height) {
        refer(who + " stands " + format_measured(d, u, Rounded::down) + " from house wall " +
              house.name + " and not as deep as its footing: the ground there is backfill");
      }
    }
    if (site.shrinkable_clay) {
      for (const record::Tree& tree : site.trees) {
        if (distance(outline, tree.at) < tree.height * figure("tree_heights")) {
          refer(who + " stands on shrinkable clay within a tree's height");
        }
      }
    }
  };
  for (const std::size_t s : loaded_supports) {
    const deck::Support& support = deck.supports[s];
    near_line(footing_outline(support), support.footing.depth, "loaded footing " + support.id);
    if (support.footing.tilted_or_undermined)
      refer("loaded footing " + support.id + " is tilted or undermined");
  }
  for (const std::size_t w : loaded_walls) {
    const deck::Wall& wall = deck.walls[w];
    const Length half = wall.strip_width / 2.0;
    const Length length = distance(wall.a, wall.b);
    if (length.value() <= 0.0) continue;
    const double nx = (wall.b.y - wall.a.y) / length, ny = -((wall.b.x - wall.a.x) / length);
    const Polygon outline{{wall.a.x + nx * half, wall.a.y + ny * half},
                          {wall.b.x + nx * half, wall.b.y + ny * half},
                          {wall.b.x - nx * half, wall.b.y - ny * half},
                          {wall.a.x - nx * half, wall.a.y - ny * half}};
    near_line(outline, wall.depth, "loaded wall " + wall.id);
  }
  // A house stands beside the deck, not below it: footings far from every edge are out of its reach.
  const auto near_an_edge = [&](const Polygon& outline) {
    for (std::size_t i = 0; i < deck.outline.size(); ++i) {
      const Point from = deck.outline[i], to = deck.outline[(i + 1) % deck.outline.size()];
      if (distance_to_segment(outline, from, to) < mm(figure("house_wall_mm"))) return true;
    }
    return false;
  };
  const bool house_in_reach =
      !loaded_walls.empty() ||
      std::any_of(loaded_supports.begin(), loaded_supports.end(),
                  [&](std::size_t s) { return near_an_edge(footing_outline(deck.supports[s])); });
  for (const auto& [field, words] : site.feared) {
    if (field == "/site/house_walls" && !house_in_reach) continue;
    result.feared.push_back(field);
    refer("not looked at: " + words);
  }
  std::sort(result.refer_reasons.begin(), result.refer_reasons.end());
  result.refer_reasons.erase(std::unique(result.refer_reasons.begin(), result.refer_reasons.end()),
                             result.refer_reasons.end());
  return result;
}

namespace {

/// Whether the joist is fixed to all that it crosses up to this end, or fixed at the end itself.
bool fixed_to_carriers(const deck::Deck& deck, std::size_t joist, bool at_start) {
  const deck::Joist& j = deck.joists[joist];
  const deck::EndHold& hold = at_start ? j.start : j.end;
  if (hold.held == record::Hold::skew_nails) return hold.sound;
  if (hold.held != record::Hold::free && hold.held != record::Hold::resting) return false;
  const Length middle = (j.from + j.to) / 2.0;
  std::size_t bearers = 0;
  for (const deck::Meeting& m : deck.meetings) {
    if (m.kind == deck::MeetingKind::bearer_on_support || m.piece != joist) continue;
    if (m.kind == deck::MeetingKind::joist_on_bearer) {
      if (deck.bearers[m.carrier].held_down == record::HeldDown::nothing) return false;
      ++bearers;
    } else if ((m.place <= middle) == at_start) {
      return false;  // on a wall, a ledger or a support: no fixing is recorded there
    }
  }
  return bearers > 0;
}

}  // namespace

bool ends_held(const deck::Deck& deck, std::size_t joist) {
  const deck::Joist& j = deck.joists[joist];
  const Length reach = mm(catalog::number(catalog::table("model.json"), "blocking_reach_mm"));
  const auto held = [&](bool at_start) {
    const deck::EndHold& hold = at_start ? j.start : j.end;
    if (hold.held == record::Hold::hanger && hold.sound) return true;
    for (const deck::Rim& rim : deck.rims) {
      // Fixed into end grain alone it holds a joist of ordinary proportions, not a tall one.
      const bool holds = rim.fixed != record::RimFixing::end_grain ||
                         j.depth / j.breadth <=
                             catalog::number(catalog::table("model.json"), "end_grain_rim_ratio");
      if (rim.group == j.group && rim.at_start == at_start && holds) return true;
    }
    // Nailed or screwed down at every bearer that it crosses, its top edge in the boards.
    const bool modest = j.depth / j.breadth <=
                        catalog::number(catalog::table("model.json"), "fixed_to_bearers_ratio");
    if (modest && fixed_to_carriers(deck, joist, at_start)) return true;
    const Length end = at_start ? j.from : j.to;
    // Blocking near the end, or near the support next to a free end.
    Length near = end;
    if (hold.held == record::Hold::free || hold.held == record::Hold::resting) {
      Length best(std::numeric_limits<double>::max());
      const auto consider = [&](Length at) {
        if (abs(at - end) < best) {
          best = abs(at - end);
          near = at;
        }
      };
      for (const deck::Meeting& m : deck.meetings) {
        if (m.kind != deck::MeetingKind::bearer_on_support && m.piece == joist) consider(m.place);
      }
    }
    return std::any_of(deck.blocking.begin(), deck.blocking.end(), [&](const deck::Blocking& row) {
      return row.group == j.group &&
             (abs(row.position - end) <= reach || abs(row.position - near) <= reach);
    });
  };
  return held(true) && held(false);
}

bool bearer_held(const deck::Deck& deck, std::size_t bearer) {
  const deck::Bearer& b = deck.bearers[bearer];
  if (b.flush || b.held_down != record::HeldDown::nothing) return true;
  bool any = false;
  for (const deck::Support& support : deck.supports) {
    if (support.bearer != static_cast<int>(bearer)) continue;
    if (!support.post || support.post->bearer_on_top) return false;
    any = true;
  }
  return any;
}

Length unbraced(const deck::Deck& deck, std::size_t joist) {
  const deck::Joist& j = deck.joists[joist];
  std::vector<double> held{j.from.value(), j.to.value()};
  for (const deck::Blocking& row : deck.blocking) {
    if (row.group == j.group && row.position > j.from && row.position < j.to)
      held.push_back(row.position.value());
  }
  std::sort(held.begin(), held.end());
  double longest = 0.0;
  for (std::size_t k = 0; k + 1 < held.size(); ++k)
    longest = std::max(longest, held[k + 1] - held[k]);
  return mm(longest);
}

}  // namespace underprop::assessment
