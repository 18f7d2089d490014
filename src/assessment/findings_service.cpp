// Service: deflection at once and in the long run, level of the load, gaps that open underfoot.
#include "run.hpp"
#include "underprop/base/format.hpp"
#include "underprop/base/geometry.hpp"
#include "underprop/catalog/table.hpp"
#include "underprop/standards/sheet.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace underprop::assessment {

using standards::Purpose;
using standards::Term;

void Run::service_findings(DeckAssessment& result, bool shapes) {
  const standards::ServiceLimits limits = standard_.limits();
  const auto& now_combinations = combinations_.at(Purpose::service_now);
  const auto& long_combinations = combinations_.at(Purpose::service_long);
  const bool lap_open =
      std::any_of(deck_.joists.begin(), deck_.joists.end(),
                  [](const deck::Joist& joist) { return !joist.continuous_recorded; });
  std::map<std::string, Finding> worst;
  const auto keep = [&](Finding f) {
    f.kind = Kind::service;
    f.check.utilisation = f.check.resistance > 0.0 ? f.check.demand / f.check.resistance
                                                   : std::numeric_limits<double>::infinity();
    const auto found = worst.find(f.id);
    if (found == worst.end() ||
        f.check.utilisation > found->second.check.utilisation * (1.0 + 1e-9)) {
      worst[f.id] = std::move(f);
    }
  };
  for (const bool lapped : {false, true}) {
    if (lapped && !lap_open) continue;
    Variant variant;
    variant.old_ground = variant.new_ground = GroundBound::middle;
    variant.bounds.joists_lapped = lapped;
    const Prepared now = prepare(variant);
    variant.term = Term::long_term;
    const Prepared later = prepare(variant);
    if (!now.ready() || !later.ready()) return;
    // Only deflections are read here.
    const std::vector<double> any(now.probes.lines.size(), std::numeric_limits<double>::infinity());
    const solver::Limits no_ends{any, any, any};
    for (std::size_t s = 0; s < situations_[0].size(); ++s) {
      const Situation& situation = situations_[0][s];
      if (!situation.full || situation.bathers == Bathers::quarter || situation.free_end >= 0)
        continue;
      for (std::size_t p = 0; p < std::min<std::size_t>(patterns_.size(), 2); ++p) {
        const auto solve = [&](const Prepared& prepared,
                               const standards::Combination& combination) {
          const auto factors =
              factored(deck_, prepared.cases->infos, values_, combination, situation, patterns_[p]);
          ++solves_;
          solver::State state;
          state.with_deflections = true;
          prepared.states->solve(factors, -1, false, state, &no_ends, -1);
          return state;
        };
        const solver::State at_once = solve(now, now_combinations.front());
        const solver::State lasting_now = solve(now, long_combinations.front());
        const solver::State lasting = solve(later, long_combinations.front());
        if (at_once.mechanism || lasting_now.mechanism || lasting.mechanism) {
          if (!result.mechanism && plan_cases_.service_only)
            result.mechanism = at_once.mechanism       ? at_once.mechanism
                               : lasting_now.mechanism ? lasting_now.mechanism
                                                       : lasting.mechanism;
          return;
        }
        const auto w_now = [&](int node) { return -at_once.w[node]; };
        // Final: the lasting part with creep, the passing part on top of it at once.
        const auto w_final = [&](int node) {
          return -(lasting.w[node] + at_once.w[node] - lasting_now.w[node]);
        };
        const std::string words = situation.name + (p > 0 ? "; " + patterns_[p].name : "");
        const auto span_checks = [&](const std::string& piece, const model::Line& line,
                                     std::vector<double> supports,
                                     const std::function<Point(double)>& place, Length origin) {
          std::sort(supports.begin(), supports.end());
          supports.erase(std::unique(supports.begin(), supports.end(),
                                     [](double a, double b) { return b - a < 1.0; }),
                         supports.end());
          const auto node_at = [&](double at) {
            std::size_t best = 0;
            for (std::size_t n = 0; n < line.at.size(); ++n) {
              if (std::abs(line.at[n] - at) < std::abs(line.at[best] - at)) best = n;
            }
            return line.nodes[best];
          };
          for (std::size_t k = 0; k + 1 < supports.size(); ++k) {
            const double a = supports[k], b = supports[k + 1], span = b - a;
            const int na = node_at(a), nb = node_at(b);
            double most_now = 0.0, most_final = 0.0, where = a;
            for (std::size_t n = 0; n < line.at.size(); ++n) {
              const double x = line.at[n];
              if (x <= a || x >= b) continue;
              const double f = (x - a) / span;
              const int node = line.nodes[n];
              most_now = std::max(most_now, w_now(node) - (1.0 - f) * w_now(na) - f * w_now(nb));
              const double final = w_final(node) - (1.0 - f) * w_final(na) - f * w_final(nb);
              if (final > most_final) {
                most_final = final;
                where = x;
              }
            }
            const auto put = [&](standards::CheckKind kind, const char* symbol, double demand,
                                 double ratio, const Citation& clause) {
              Finding f;
              f.piece = piece;
              f.id = piece + "/" + standards::name_of(kind);
              f.where = format_length(mm(std::max(0.0, where - origin.value())),
                                      standard_.us_customary() ? UnitSystem::us_customary
                                                               : UnitSystem::metric) +
                        " from its start";
              f.at = place(where);
              f.situation = words;
              f.combination = now_combinations.front().id;
              f.bound =
                  std::string("middling ground") + (lapped ? ", joists jointed over bearers" : "");
              standards::Sheet sheet(kind, {length_unit(), 1.0});
              sheet.taken("l", "span", in_length_unit(mm(span)), length_unit(), {});
              sheet.taken("w_least", "no limit is smaller", in_length_unit(limits.least),
                          length_unit(), limits.least_source);
              sheet.taken(symbol, "from the analysis, without the settlement of its supports",
                          in_length_unit(mm(demand)), length_unit(), {});
              sheet.line("limit", "max(l / " + format_decimals(ratio, 0) + "; w_least)",
                         length_unit(), clause);
              f.check = sheet.finish(symbol, "limit", clause);
              keep(std::move(f));
            };
            put(standards::CheckKind::deflection_now, "w_inst", most_now, limits.deflection_now,
                limits.deflection_now_source);
            put(standards::CheckKind::deflection_long, "w_fin", most_final, limits.deflection_long,
                limits.deflection_long_source);
          }
        };
        for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
          if (!loaded_joists_[j]) continue;
          std::vector<double> supports;
          for (const model::Crossing& crossing : now.model().crossings) {
            if (crossing.joist == static_cast<int>(j)) supports.push_back(crossing.at_joist);
          }
          const deck::Joist& joist = deck_.joists[j];
          span_checks(
              joist.id, now.model().joists[j], supports,
              [&](double at) { return at_along(joist.direction, mm(at), joist.position); },
              joist.from);
        }
        for (std::size_t b = 0; b < deck_.bearers.size(); ++b) {
          if (!loaded_bearers_[b]) continue;
          std::vector<double> supports;
          for (const model::Prop& prop : now.model().props) {
            if (!prop.ledger && prop.piece == static_cast<int>(b)) supports.push_back(prop.at);
          }
          const deck::Bearer& bearer = deck_.bearers[b];
          span_checks(
              bearer.id, now.model().bearers[b], supports,
              [&](double at) { return at_along(bearer.direction, mm(at), bearer.position); },
              bearer.from);
        }
        // Level of the load: the plane that fits the boards' nodes under it best.
        for (std::size_t l = 0; l < deck_.loads.size(); ++l) {
          double n = 0, sx = 0, sy = 0, sw = 0, sxx = 0, sxy = 0, syy = 0, sxw = 0, syw = 0;
          const Point c = deck_.loads[l].centre;
          for (const model::Line& board : now.model().boards) {
            for (const int node : board.nodes) {
              const solver::Node& place = now.model().frame.nodes[static_cast<std::size_t>(node)];
              if (!contains(deck_.loads[l].footprint, {mm(place.x), mm(place.y)})) continue;
              const double x = place.x - c.x.value(), y = place.y - c.y.value(), w = w_final(node);
              n += 1;
              sx += x;
              sy += y;
              sw += w;
              sxx += x * x;
              sxy += x * y;
              syy += y * y;
              sxw += x * w;
              syw += y * w;
            }
          }
          if (n < 3) continue;
          const double cxx = sxx - sx * sx / n, cyy = syy - sy * sy / n, cxy = sxy - sx * sy / n;
          const double cxw = sxw - sx * sw / n, cyw = syw - sy * sw / n,
                       det = cxx * cyy - cxy * cxy;
          if (!(det > 1e-6 * cxx * cyy)) continue;
          const double tilt =
              std::hypot((cxw * cyy - cyw * cxy) / det, (cyw * cxx - cxw * cxy) / det);
          Finding f;
          f.piece =
              deck_.loads[l].name.empty() ? "load " + std::to_string(l + 1) : deck_.loads[l].name;
          f.id = "load " + std::to_string(l + 1) + "/level";
          f.where = "over its footprint";
          f.at = c;
          f.situation = words;
          f.combination = now_combinations.front().id;
          f.bound = "middling ground";
          // A slope in mm per m, or in inches per foot.
          const bool us = standard_.us_customary();
          const double per = us ? 12.0 : 1000.0;
          const char* slope = us ? "in/ft" : "mm/m";
          standards::Sheet sheet(standards::CheckKind::level, {slope, 1.0});
          sheet.taken("tilt", "slope of the plane that fits the boards under it", per * tilt, slope,
                      {});
          sheet.line("limit",
                     format_decimals(per, 0) + " / " + format_decimals(limits.tilt, 0) + ", 1 in " +
                         format_decimals(limits.tilt, 0),
                     slope, limits.tilt_source);
          f.check = sheet.finish("tilt", "limit", limits.tilt_source);
          keep(std::move(f));
        }
        // Gaps that open where somebody walks.
        for (const model::Crossing& crossing : now.model().crossings) {
          if (crossing.link < 0 || crossing.two_way) continue;
          const bool on_bearer = crossing.kind == model::CrossingKind::bearer;
          const solver::Link& link =
              now.model().frame.links[static_cast<std::size_t>(crossing.link)];
          if (on_bearer && deck_.bearers[static_cast<std::size_t>(crossing.other)].added) continue;
          const double open = at_once.w[link.i] - at_once.w[link.j];
          if (open <= 0.1) continue;
          const deck::Joist& joist = deck_.joists[static_cast<std::size_t>(crossing.joist)];
          Finding f;
          f.piece = joist.id;
          f.id = joist.id + "/gap that opens";
          f.where =
              on_bearer
                  ? "over bearer " + deck_.bearers[static_cast<std::size_t>(crossing.other)].id
                  : "at ledger " + deck_.ledgers[static_cast<std::size_t>(crossing.other)].id;
          f.at = at_along(joist.direction, mm(crossing.at_joist), joist.position);
          f.situation = words;
          f.combination = now_combinations.front().id;
          f.bound = "middling ground";
          const Citation source{"judgement", "2 mm where somebody walks"};
          standards::Sheet sheet(standards::CheckKind::gap_opens, {length_unit(), 1.0});
          sheet.taken("gap", "from the analysis", in_length_unit(mm(open)), length_unit(), {});
          sheet.taken("limit", "where somebody walks", in_length_unit(limits.gap_where_walked),
                      length_unit(), source);
          f.check = sheet.finish("gap", "limit", source);
          keep(std::move(f));
        }
        if (shapes && p == 0 && !lapped && situation.bathers != Bathers::half) {
          result.shapes.clear();
          const auto draw = [&](const std::string& piece, const model::Line& line) {
            Shape shape;
            shape.piece = piece;
            for (const int node : line.nodes) {
              const solver::Node& place = now.model().frame.nodes[static_cast<std::size_t>(node)];
              shape.at.push_back({mm(place.x), mm(place.y)});
              shape.w_mm.push_back(w_final(node));
            }
            result.shapes.push_back(std::move(shape));
          };
          for (std::size_t j = 0; j < deck_.joists.size(); ++j)
            draw(deck_.joists[j].id, now.model().joists[j]);
          for (std::size_t b = 0; b < deck_.bearers.size(); ++b)
            draw(deck_.bearers[b].id, now.model().bearers[b]);
        }
      }
    }
  }
  for (auto& [id, f] : worst) result.findings.push_back(std::move(f));
}
}  // namespace underprop::assessment
