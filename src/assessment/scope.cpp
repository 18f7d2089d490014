#include "scope.hpp"

#include "underprop/base/format.hpp"
#include "underprop/catalog/table.hpp"
#include "underprop/standards/sheet.hpp"
#include "underprop/survey/geometry.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace underprop::assessment {

namespace {

double figure(const char* name) { return catalog::number(catalog::table("scope.json"), name); }

UnitSystem units(const survey::Deck& deck) {
  return deck.standard == survey::StandardId::north_america_us ? UnitSystem::us_customary
                                                               : UnitSystem::metric;
}

/// Outline of what a support stands on the ground with.
survey::Polygon footing_outline(const survey::SettledSupport& support) {
  return survey::place(survey::rectangle(support.footing.width, support.footing.length), 0.0,
                       support.at);
}

}  // namespace

Scope scope(const survey::Deck& deck, const std::vector<std::size_t>& loaded_supports,
            const std::vector<std::size_t>& loaded_walls) {
  Scope result;
  const UnitSystem u = units(deck);
  const auto refer = [&](const std::string& why) { result.refer_reasons.push_back(why); };
  result.refer_reasons = deck.refer_reasons;
  const survey::SettledSite& site = deck.site;

  if (site.use != survey::Use::one_household)
    refer("the deck is for public, shared or rented use: ask a structural engineer");
  if (site.storeys > 1) refer("decks stand above each other");
  if (site.space_below == survey::SpaceBelow::used) refer("there is a used space underneath");
  if (site.roof_or_screen)
    refer("a roof or screen on the deck catches wind, which is not modelled");
  if (deck.height > mm(figure("deck_height_mm"))) {
    refer("the deck's surface is " + format_length(deck.height, u) +
          " above the ground; this program stops at " +
          format_length(mm(figure("deck_height_mm")), u));
  }
  for (const survey::SettledLoad& load : deck.loads) {
    const Mass mass = load.dry_mass + load.contents;
    const std::string name = load.name.empty() ? "the load" : load.name;
    if (mass > kilograms(figure("load_mass_kg"))) {
      refer(name + " weighs " + format_mass(mass, u) + "; this program stops at " +
            format_mass(kilograms(figure("load_mass_kg")), u));
    }
    const Area area = survey::area(load.footprint);
    if (area.value() > 0.0 && (weight(mass) / area) > kilopascals(figure("load_pressure_kPa"))) {
      refer(name + " presses with " + format_pressure(weight(mass) / area, u) +
            "; this program stops at " +
            format_pressure(kilopascals(figure("load_pressure_kPa")), u));
    }
  }
  if (deck.standard == survey::StandardId::north_america_us &&
      deck.height > mm(figure("seismic_height_mm"))) {
    if (site.seismic_category.empty()) {
      refer("the seismic design category is not stated: ask the building department");
    } else if (site.seismic_category >= "C") {
      refer("seismic design category " + site.seismic_category +
            ": a raised tub is a heavy mass in an earthquake");
    }
  }
  if (site.soil && *site.soil == survey::Soil::peat) refer("the footings stand on peat");
  if (site.soil && *site.soil == survey::Soil::made_ground)
    refer("the footings stand on made ground");
  if (site.fill == survey::Fill::younger_than_ten_years)
    refer("the footings stand on fill younger than ten years");
  if (site.heel_marks)
    refer("a heel marks the ground beside the pads: it is too soft for this program");
  if (site.slope > figure("slope")) refer("the ground is steeper than 1 in 6 near the deck");

  const auto near_line = [&](const survey::Polygon& outline, Length underside,
                             const std::string& who) {
    for (const survey::GroundLine& wall : site.retaining_walls) {
      const Length reach =
          max(mm(figure("retaining_wall_mm")), wall.height * figure("retaining_wall_heights"));
      const Length d = survey::distance_to_segment(outline, wall.from, wall.to);
      if (d < reach) {
        refer(who + " stands " + format_length(d, u) + " from retaining wall " + wall.name +
              "; less than " + format_length(reach, u) + " needs a structural engineer");
      }
    }
    for (const survey::GroundLine& pond : site.ponds) {
      const Length reach =
          max(mm(figure("retaining_wall_mm")), pond.height * figure("retaining_wall_heights"));
      const Length d = survey::distance_to_segment(outline, pond.from, pond.to);
      if (d < reach)
        refer(who + " stands " + format_length(d, u) + " from the pond or pool " + pond.name);
    }
    for (const survey::GroundLine& drain : site.drains) {
      // A drain lies in the load's 45 degree line if it is nearer than its depth below the footing.
      const Length reach = max(drain.height - underside, mm(0.0));
      const Length d = survey::distance_to_segment(outline, drain.from, drain.to);
      if (d <= reach)
        refer(who + " presses on drain " + drain.name + " (within its 45 degree line)");
    }
    for (const survey::GroundLine& house : site.house_walls) {
      const Length d = survey::distance_to_segment(outline, house.from, house.to);
      if (d < mm(figure("house_wall_mm")) && underside < house.height) {
        refer(who + " stands " + format_length(d, u) + " from house wall " + house.name +
              " and not as deep as its footing: the ground there is backfill");
      }
    }
    if (site.shrinkable_clay) {
      for (const survey::Tree& tree : site.trees) {
        if (survey::distance(outline, tree.at) < tree.height * figure("tree_heights")) {
          refer(who + " stands on shrinkable clay within a tree's height");
        }
      }
    }
  };
  for (const std::size_t s : loaded_supports) {
    const survey::SettledSupport& support = deck.supports[s];
    near_line(footing_outline(support), support.footing.depth, "loaded footing " + support.id);
    if (support.footing.tilted_or_undermined)
      refer("loaded footing " + support.id + " is tilted or undermined");
  }
  for (const std::size_t w : loaded_walls) {
    const survey::SettledWall& wall = deck.walls[w];
    const Length half = wall.strip_width / 2.0;
    const Length length = survey::distance(wall.a, wall.b);
    if (length.value() <= 0.0) continue;
    const double nx = (wall.b.y - wall.a.y) / length, ny = -((wall.b.x - wall.a.x) / length);
    const survey::Polygon outline{{wall.a.x + nx * half, wall.a.y + ny * half},
                                  {wall.b.x + nx * half, wall.b.y + ny * half},
                                  {wall.b.x - nx * half, wall.b.y - ny * half},
                                  {wall.a.x - nx * half, wall.a.y - ny * half}};
    near_line(outline, wall.depth, "loaded wall " + wall.id);
  }
  for (const auto& [field, words] : site.feared) {
    result.feared.push_back(field);
    refer("not looked at: " + words);
  }
  std::sort(result.refer_reasons.begin(), result.refer_reasons.end());
  result.refer_reasons.erase(std::unique(result.refer_reasons.begin(), result.refer_reasons.end()),
                             result.refer_reasons.end());
  return result;
}

bool ends_held(const survey::Deck& deck, std::size_t joist) {
  const survey::Joist& j = deck.joists[joist];
  const Length reach = mm(catalog::number(catalog::table("model.json"), "blocking_reach_mm"));
  const auto held = [&](bool at_start) {
    const survey::SettledHold& hold = at_start ? j.start : j.end;
    if (hold.held == survey::Hold::hanger && hold.sound) return true;
    for (const survey::SettledRim& rim : deck.rims) {
      // Fixed into end grain alone it holds a joist of ordinary proportions, not a tall one.
      const bool holds = rim.fixed != survey::RimFixing::end_grain ||
                         j.depth / j.breadth <=
                             catalog::number(catalog::table("model.json"), "end_grain_rim_ratio");
      if (rim.group == j.group && rim.at_start == at_start && holds) return true;
    }
    const Length end = at_start ? j.from : j.to;
    // Blocking near the end, or near the support next to a free end.
    Length near = end;
    if (hold.held == survey::Hold::free || hold.held == survey::Hold::resting) {
      Length best(std::numeric_limits<double>::max());
      const auto consider = [&](Length at) {
        if (abs(at - end) < best) {
          best = abs(at - end);
          near = at;
        }
      };
      for (const survey::SettledBearer& bearer : deck.bearers) consider(bearer.position);
      for (const survey::SettledSupport& support : deck.supports) {
        if (support.joist == static_cast<int>(joist))
          consider(survey::along(support.at, j.direction));
      }
      for (const survey::SettledWall& wall : deck.walls) {
        consider((survey::along(wall.a, j.direction) + survey::along(wall.b, j.direction)) / 2.0);
      }
    }
    return std::any_of(
        deck.blocking.begin(), deck.blocking.end(), [&](const survey::SettledBlocking& row) {
          return row.group == j.group &&
                 (abs(row.position - end) <= reach || abs(row.position - near) <= reach);
        });
  };
  return held(true) && held(false);
}

Length unbraced(const survey::Deck& deck, std::size_t joist) {
  const survey::Joist& j = deck.joists[joist];
  std::vector<double> held{j.from.value(), j.to.value()};
  for (const survey::SettledBlocking& row : deck.blocking) {
    if (row.group == j.group && row.position > j.from && row.position < j.to)
      held.push_back(row.position.value());
  }
  std::sort(held.begin(), held.end());
  double longest = 0.0;
  for (std::size_t k = 0; k + 1 < held.size(); ++k)
    longest = std::max(longest, held[k + 1] - held[k]);
  return mm(longest);
}

namespace {

struct Line {
  std::string what;
  Force capacity;
};

bool ledger_counts(const survey::Deck& deck, const Timbers& timbers,
                   const standards::Standard& standard) {
  for (std::size_t l = 0; l < deck.ledgers.size(); ++l) {
    if (standard.ledger_fixing_counts(ledger_demand(deck, timbers, l))) return true;
  }
  return false;
}

std::vector<Line> resisting_lines(const survey::Deck& deck, const Timbers& timbers,
                                  const standards::Standard& standard, survey::Axis direction) {
  std::vector<Line> lines;
  standards::Combination now;
  const auto all = standard.combinations(standards::Purpose::strength, {});
  now = all.back();  // the combination with people: they cause the sway
  const bool attached = ledger_counts(deck, timbers, standard);
  for (std::size_t l = 0; l < deck.ledgers.size(); ++l) {
    const standards::LedgerFixingDemand demand = ledger_demand(deck, timbers, l);
    if (!standard.ledger_fixing_counts(demand)) continue;
    standards::LedgerFixingDemand one = demand;
    one.shear = newtons(1.0);
    const standards::Check check = standard.ledger_fixing(one, now);
    if (!(check.utilisation > 0.0)) continue;
    const double each = 1.0 / check.utilisation;
    const survey::SettledLedger& ledger = deck.ledgers[l];
    const double count = std::max(
        2.0, std::floor((ledger.to - ledger.from).value() / ledger.fixing_spacing.value()));
    // Half of the fixings: the others are busy with the vertical load.
    lines.push_back({"ledger " + ledger.id, newtons(0.5 * each * count)});
  }
  const standards::Timber* brace_timber =
      !timbers.joists.empty() ? &timbers.joists.front() : nullptr;
  for (const survey::Brace& brace : deck.braces) {
    if (brace.direction != direction) continue;
    if (brace.kind == survey::BraceKind::wall_contact) {
      lines.push_back(
          {"walls that the deck stands between", newtons(std::numeric_limits<double>::infinity())});
      continue;
    }
    if (brace.kind == survey::BraceKind::diagonal_boards) {
      if (attached)
        lines.push_back({"diagonal boards", newtons(std::numeric_limits<double>::infinity())});
      continue;
    }
    if (brace_timber == nullptr) continue;
    // Each end is bolted flat against a post or bearer: the joint of a board on a timber band.
    standards::LedgerFixingDemand bolt;
    bolt.wall = standards::BandKind::timber_band;
    bolt.fixing = standards::FastenerKind::bolt;
    bolt.diameter = brace.bolt_diameter;
    bolt.ledger = *brace_timber;
    bolt.ledger_thickness = brace.breadth;
    bolt.ledger_depth = brace.depth;
    bolt.shear = newtons(1.0);
    if (!standard.ledger_fixing_counts(bolt)) continue;
    const standards::Check check = standard.ledger_fixing(bolt, now);
    if (!(check.utilisation > 0.0) || !std::isfinite(check.utilisation)) continue;
    const double each = brace.bolts / check.utilisation;
    // A brace at 45 degrees: the horizontal part of what its bolts take.
    const double share = brace.kind == survey::BraceKind::knee ? 0.5 : std::sqrt(0.5);
    lines.push_back({std::to_string(brace.count) +
                         (brace.kind == survey::BraceKind::knee ? " knee" : " diagonal") +
                         " braces at " + brace.at,
                     newtons(share * brace.count * each)});
  }
  return lines;
}

bool raised(const survey::Deck& deck) {
  const Length low = mm(figure("low_support_mm"));
  return std::any_of(deck.supports.begin(), deck.supports.end(),
                     [&](const survey::SettledSupport& support) {
                       return support.post && support.post->height > low;
                     });
}

}  // namespace

bool braced_both_ways(const survey::Deck& deck, const Timbers& timbers,
                      const standards::Standard& standard) {
  if (!raised(deck)) return true;
  return !resisting_lines(deck, timbers, standard, survey::Axis::x).empty() &&
         !resisting_lines(deck, timbers, standard, survey::Axis::y).empty();
}

std::vector<Finding> sway(const survey::Deck& deck, const Timbers& timbers,
                          const standards::Standard& standard, Force vertical, Force people) {
  std::vector<Finding> findings;
  const standards::LoadValues values = standard.loads(deck.height);
  // The push acts at the load's centre of mass; its leverage over the deck counts.
  Length lever(0.0);
  for (const survey::SettledLoad& load : deck.loads) lever = max(lever, load.centre_of_mass_height);
  const double leverage = 1.0 + (deck.height.value() > 0.0 ? lever / deck.height : 0.0);
  const Force horizontal = leverage * max(vertical * values.sway_share_of_vertical,
                                          people * values.sway_share_of_people);
  const bool us = standard.us_customary();
  const auto in_unit = [&](Force f) { return us ? in_pounds_force(f) : in_kilonewtons(f); };
  const char* unit = us ? "lb" : "kN";
  const survey::Point middle = survey::centroid(deck.outline);
  if (raised(deck)) {
    for (const survey::Axis direction : {survey::Axis::x, survey::Axis::y}) {
      const std::string along = direction == survey::Axis::x ? "x" : "y";
      Finding finding;
      finding.id = "deck/sway along " + along;
      finding.piece = "deck";
      finding.where = "along " + along;
      finding.at = middle;
      finding.situation = "full, people all round";
      finding.bound = "-";
      const Citation source{
          "judgement", "named resisting lines in each direction; horizontal force after BS 5975"};
      standards::Sheet sheet(("sway along " + along).c_str(), {unit, 1.0});
      sheet.taken("V", "all vertical load", in_unit(vertical), unit, {});
      sheet.taken("Q", "of it people", in_unit(people), unit, {});
      sheet.taken("c_V", "share of the vertical load", values.sway_share_of_vertical, "",
                  {"bs5975", "2.5 % of the vertical load, from memory"});
      sheet.taken("c_Q", "share of the people's load", values.sway_share_of_people, "",
                  {"judgement", "10 % of the people's load"});
      sheet.taken("k", "1 + height of the load's centre / height of the deck", leverage, "",
                  {"judgement", "leverage of a push above the deck"});
      sheet.line("H", "k max(c_V V; c_Q Q)", in_unit(horizontal), unit,
                 {"bs5975", "2.5 % of the vertical load, from memory"});
      double total = 0.0;
      std::string sum;
      const std::vector<Line> lines = resisting_lines(deck, timbers, standard, direction);
      for (std::size_t n = 0; n < lines.size(); ++n) {
        const bool unlimited = !std::isfinite(lines[n].capacity.value());
        total += lines[n].capacity.value();
        const std::string symbol = "R_" + std::to_string(n + 1);
        sum += (sum.empty() ? "" : " + ") + symbol;
        sheet.taken(symbol.c_str(),
                    lines[n].what + (unlimited ? " (more than can be asked of it)" : ""),
                    unlimited ? in_unit(horizontal) : in_unit(lines[n].capacity), unit, source);
      }
      if (total <= 0.0) {
        finding.check =
            sheet.nothing("H", "0: nothing named resists, the posts are a mechanism", source);
        finding.combination = "mechanism";
      } else if (std::isfinite(total)) {
        sheet.line("R", sum, in_unit(newtons(total)), unit, source);
        finding.check = sheet.finish("H", "R", source);
        finding.combination = "characteristic";
      } else {
        sheet.taken("R", "more than can be asked of it", in_unit(horizontal), unit, source);
        finding.check = sheet.finish("H", "R", source);
        finding.check.utilisation = 0.0;
        finding.check.steps.pop_back();
        finding.combination = "characteristic";
      }
      findings.push_back(std::move(finding));
    }
    return findings;
  }
  // Low supports: none may topple on its own base under 2.5 % of what stands on it.
  const Finding* worst = nullptr;
  std::vector<Finding> each;
  for (const survey::SettledSupport& support : deck.supports) {
    if (!support.post) continue;
    Finding finding;
    finding.id = support.id + "/toppling";
    finding.piece = support.id;
    finding.where = "at its foot";
    finding.at = support.at;
    finding.situation = "any";
    finding.bound = "-";
    finding.combination = "2.5 % sideways";
    const Citation source{"judgement", "2.5 % N h <= 0.9 N b / 3, so h <= 12 b"};
    const Length b = min(support.post->breadth, support.post->depth);
    const auto length = [us](Length l) { return us ? in_inches(l) : in_mm(l); };
    const char* length_unit = us ? "in" : "mm";
    standards::Sheet sheet("toppling", {length_unit, 1.0});
    sheet.given("h", length(support.post->height), length_unit);
    sheet.given("b", length(b), length_unit);
    sheet.taken("c_V", "share of the vertical load", values.sway_share_of_vertical, "", source);
    sheet.taken("k", "leverage of the load's centre", leverage, "", source);
    sheet.line("e", "k c_V h",
               leverage * values.sway_share_of_vertical * length(support.post->height), length_unit,
               source);
    sheet.line("e_max", "0.9 b / 3", 0.9 * length(b) / 3.0, length_unit, source);
    finding.check = sheet.finish("e", "e_max", source);
    each.push_back(std::move(finding));
  }
  for (const Finding& finding : each) {
    if (worst == nullptr || finding.check.utilisation > worst->check.utilisation) worst = &finding;
  }
  if (worst != nullptr) findings.push_back(*worst);
  return findings;
}

}  // namespace underprop::assessment
