#include "stability.hpp"
#include "figures.hpp"

#include "base/rounded.hpp"
#include "catalog/table.hpp"
#include "sway.hpp"
#include "underprop/base/geometry.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace underprop::assessment {

using standards::Step;

namespace {

std::vector<CountedFrom> ways_to_count(const deck::Deck& deck) {
  const bool braces =
      std::any_of(deck.braces.begin(), deck.braces.end(), [](const record::Brace& brace) {
        return brace.kind == record::BraceKind::knee || brace.kind == record::BraceKind::diagonal;
      });
  if (!braces) return {{}};
  return {{false, false}, {true, false}, {false, true}, {true, true}};
}

Finding sway_finding(const deck::Deck& deck, const standards::Standard& standard,
                     const StabilityLoads& loads, const std::vector<Sway>& ways, Axis push) {
  const Sway* worst = nullptr;
  Evaluation e;
  for (const Sway& way : ways) {
    Evaluation other = way.evaluate(push, 0.0);
    if (worst != nullptr && !(other.worst() > e.worst() * (1.0 + 1e-9))) continue;
    worst = &way;
    e = std::move(other);
  }
  const std::string along = push == Axis::x ? "x" : "y";
  Finding f;
  f.id = "deck/sway along " + along;
  f.piece = "deck";
  f.where = "along " + along;
  f.at = centroid(deck.outline);
  f.situation = "full, people all round";
  f.bound = "-";
  f.combination = e.nothing.empty() ? worst->combination() : "mechanism";
  const standards::LoadValues values = standard.loads(deck.height);
  const double H = worst->characteristic(), factored = worst->factor() * H;
  const Ratio* governing = nullptr;
  for (const Ratio& r : e.ratios) {
    if (governing == nullptr || r.check.utilisation > governing->check.utilisation * (1.0 + 1e-9))
      governing = &r;
  }
  if (governing != nullptr && e.nothing.empty()) {
    f.check = governing->check;
    f.where += ": " + governing->words;
  } else {
    f.check.unit = worst->unit();
    f.check.demand = worst->in_unit(factored);
    f.check.resistance = e.nothing.empty() ? f.check.demand : 0.0;
    f.check.utilisation = e.nothing.empty() ? 0.0 : infinite;
    f.check.source = {"judgement",
                      "named resisting lines in each direction; horizontal force after BS 5975"};
  }
  f.check.call(push == Axis::x ? standards::CheckKind::sway_x : standards::CheckKind::sway_y);
  std::vector<Step> steps{
      {"H_k",
       "larger of " + format_decimals(100.0 * values.sway_share_of_vertical, 1) +
           " % of the vertical load and " +
           format_decimals(100.0 * values.sway_share_of_people, 0) + " % of the people's load",
       worst->in_unit(H),
       worst->unit(),
       {"bs5975", "2.5 % of the vertical load, from memory"}},
      {"H", "factor of the combination x H_k", worst->in_unit(factored), worst->unit(),
       worst->combination_source()},
      {"lever",
       "height of the load's centre above the beams",
       standard.us_customary() ? in_inches(mm(worst->lever())) : worst->lever(),
       standard.us_customary() ? "in" : "mm",
       {"judgement", "its couple presses and pulls the supports"}}};
  steps.insert(steps.end(), e.steps.begin(), e.steps.end());
  for (const Ratio& r : e.ratios) {
    if (&r == governing || !std::isfinite(r.check.utilisation)) continue;
    // The worst of each sort is enough.
    const auto same = std::find_if(steps.begin(), steps.end(), [&](const Step& s) {
      return s.symbol == "u" && s.expression == r.words;
    });
    if (same == steps.end()) {
      steps.push_back({"u", r.words, r.check.utilisation, "", r.check.source});
    } else {
      same->value = std::max(same->value, r.check.utilisation);
    }
  }
  if (!e.nothing.empty()) steps.push_back({"R", e.nothing, 0.0, worst->unit(), {}});
  steps.insert(steps.end(), f.check.steps.begin(), f.check.steps.end());
  if (loads.compare && e.nothing.empty()) {
    const double tested = (psf(figure("people_sway_psf")) * area(deck.outline)).value();
    double u = 0.0;
    for (const Sway& way : ways) u = std::max(u, way.evaluate(push, tested).worst());
    const Citation source{"deck-occupants-2014", "12 psf of people who sway in step"};
    steps.push_back({"H_people", "for comparison: 12 psf of the plan", worst->in_unit(tested),
                     worst->unit(), source});
    if (std::isfinite(u))
      steps.push_back({"u_people", "for comparison: utilisation under it", u, "", source});
  }
  f.check.steps = std::move(steps);
  return f;
}

/// Supports whose heads nothing links stand each by itself.
Finding toppling(const deck::Deck& deck, const Sway& sway) {
  Sway::Alone worst;
  Axis push = Axis::x;
  for (const Axis axis : {Axis::x, Axis::y}) {
    const Sway::Alone alone = sway.alone(axis);
    if (axis == Axis::x || alone.utilisation() > worst.utilisation() * (1.0 + 1e-9)) {
      worst = alone;
      push = axis;
    }
  }
  const deck::Support& support = deck.supports[worst.support];
  Finding f;
  f.id = support.id + "/toppling";
  f.piece = support.id;
  f.where = std::string("along ") + (push == Axis::x ? "x" : "y");
  f.at = support.at;
  f.situation = "any";
  f.bound = "-";
  f.combination = sway.combination();
  f.check.call(standards::CheckKind::toppling);
  f.check.source = {"judgement", "nothing links the heads: each support takes its share by itself"};
  f.check.demand = sway.in_unit(worst.push);
  f.check.resistance = sway.in_unit(worst.holds);
  f.check.unit = sway.unit();
  f.check.utilisation = worst.utilisation();
  f.check.steps = worst.steps;
  return f;
}

/// Does any support carry its load high enough over the ground to lean?
bool stands_up(const deck::Deck& deck) {
  const double low = figure("head_on_ground_mm");
  for (std::size_t s = 0; s < deck.supports.size(); ++s) {
    if (standing(deck, s).head > low) return true;
  }
  return std::ranges::any_of(
      deck.walls, [&](const deck::Wall& wall) { return standing(deck, wall).head > low; });
}

}  // namespace

bool raised(const deck::Deck& deck) {
  const Length low = mm(figure("low_support_mm"));
  return std::any_of(deck.supports.begin(), deck.supports.end(), [&](const deck::Support& support) {
    return support.post && support.post->height > low;
  });
}

bool braced_both_ways(const deck::Deck& deck, const Timbers& timbers,
                      const standards::Standard& standard) {
  // What pinned posts need is asked by the sway of the deck, once; fixed ones sway with K = 2.1.
  const bool fixed = std::ranges::any_of(deck.supports, [](const deck::Support& support) {
    return support.post && support.post->base_fixed;
  });
  if (!raised(deck) || !fixed) return true;
  const standards::Combination now = swaying(standard);
  const auto ledgers = holding_ledgers(deck, timbers, standard, now, {}, {});
  for (const Axis push : {Axis::x, Axis::y}) {
    bool held = between_walls(deck, push);
    for (const HoldingLedger& h : ledgers)
      held = held || h.away || deck.ledgers[h.ledger].direction == push;
    if (held) continue;
    std::vector<std::string> notes;
    const auto frames = sway_frames(deck, timbers, standard, now, push, {}, notes);
    const bool braced = std::any_of(frames.begin(), frames.end(), [&](const SwayFrame& frame) {
      return !frame.braces.empty() && sway_stiffness(frame, deck, timbers, standard) > 0.0;
    });
    if (!braced) return false;
  }
  return true;
}

Stability stability(const deck::Deck& deck, const Timbers& timbers,
                    const standards::Standard& standard, const StabilityLoads& loads) {
  Stability result;
  if (!stands_up(deck)) return result;
  std::vector<Sway> ways;
  for (const CountedFrom from : ways_to_count(deck))
    ways.emplace_back(deck, timbers, standard, loads, from);
  const bool linked = heads_linked(deck);
  if (!linked && !deck.supports.empty()) {
    Finding alone = toppling(deck, ways.front());
    if (alone.check.utilisation > 1.0) {
      result.assumptions.push_back(
          "Nothing recorded links the joists: no rim, blocking or bearer. Each support must keep "
          "upright by itself.");
    }
    result.findings.push_back(std::move(alone));
  }
  if (linked || raised(deck)) {
    for (const Axis push : {Axis::x, Axis::y})
      result.findings.push_back(sway_finding(deck, standard, loads, ways, push));
  }
  for (Finding& f : result.findings) {
    // What the load adds to all that stands there is too little to be the cause.
    const double raise = ways.front().raised_by_load();
    if (raise > figure("raised_by") || !(f.check.utilisation > 1.0 + raise) || deck.loads.empty())
      continue;
    f.already = true;
    f.kind = Kind::ordinary_use;
  }
  const auto has = [&](record::BraceKind kind) {
    return std::any_of(deck.braces.begin(), deck.braces.end(),
                       [&](const record::Brace& brace) { return brace.kind == kind; });
  };
  const UnitSystem u = standard.us_customary() ? UnitSystem::us_customary : UnitSystem::metric;
  if (has(record::BraceKind::knee)) {
    result.assumptions.push_back("Knee braces are taken to meet post and beam " +
                                 format_measured(mm(figure("knee_leg_mm")), u, Rounded::down) +
                                 " from their corner, or at half the post if that is less.");
  }
  if (has(record::BraceKind::diagonal_boards)) {
    result.assumptions.push_back(
        "Diagonal boards hand a push to the ledger, whose fixings are checked for it; by "
        "themselves "
        "they hold nothing.");
  }
  for (const Sway& way : ways) {
    for (const std::string& note : way.notes) {
      if (std::find(result.assumptions.begin(), result.assumptions.end(), note) ==
          result.assumptions.end())
        result.assumptions.push_back(note);
    }
  }
  return result;
}

}  // namespace underprop::assessment
