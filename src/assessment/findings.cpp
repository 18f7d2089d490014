#include "run.hpp"
#include "scope.hpp"
#include "stability.hpp"
#include "underprop/base/format.hpp"
#include "underprop/catalog/table.hpp"
#include "underprop/standards/sheet.hpp"
#include "underprop/survey/geometry.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace underprop::assessment {

using standards::Check;
using standards::Purpose;
using standards::Term;

namespace {

double figure(const char* name) { return catalog::number(catalog::table("scope.json"), name); }

bool worse(const Finding& a, const Finding& b) {
  if (a.check.utilisation != b.check.utilisation) return a.check.utilisation > b.check.utilisation;
  return a.id < b.id;
}

}  // namespace

std::optional<std::pair<std::size_t, Check>> Run::worst_of(const Item& item) const {
  std::optional<std::pair<std::size_t, Check>> result;
  const auto& combinations = combinations_.at(item.purpose);
  for (std::size_t c = 0; c < item.worst.size(); ++c) {
    if (item.worst[c].demand <= 0.0) continue;
    Check check = item.judge(item.worst[c].demand, combinations[c]);
    if (std::isnan(check.utilisation))
      throw std::logic_error("a check of " + item.piece + " gave no number");
    if (!result || check.utilisation > result->second.utilisation)
      result.emplace(c, std::move(check));
  }
  return result;
}

Finding Run::finding(const Item& item, std::size_t combination, Check check) const {
  const Worst& worst = item.worst[combination];
  Finding f;
  f.kind = Kind::safety;
  f.piece = item.piece;
  f.where = item.where(worst.at);
  f.at = item.place(worst.at);
  const bool bare = &item >= bare_items_.data() && &item < bare_items_.data() + bare_items_.size();
  f.situation = situations_[bare ? 1 : 0][static_cast<std::size_t>(worst.situation)].name;
  if (worst.pattern > 0)
    f.situation += "; " + patterns_[static_cast<std::size_t>(worst.pattern)].name;
  f.combination = combinations_.at(item.purpose)[combination].id;
  f.bound = variants_[static_cast<std::size_t>(worst.variant)].words();
  if (worst.change >= 0) f.bound += ", " + changes_[static_cast<std::size_t>(worst.change)].words;
  check.check = item.check;
  f.check = std::move(check);
  f.id = item.piece + "/" + item.check;
  return f;
}

double Run::demand_in(const Item& item, const Prepared& prepared, const solver::Analysis& analysis,
                      const solver::Response& response,
                      std::span<const solver::CaseFactor> factors) const {
  const model::Model& m = prepared.model();
  const auto k = static_cast<std::size_t>(item.index);
  const auto crossing_force = [&] {
    const model::Crossing& crossing = m.crossings[k];
    return crossing.link >= 0 ? response.links[static_cast<std::size_t>(crossing.link)]
                              : response.supports[static_cast<std::size_t>(crossing.support)];
  };
  const Effects e = effects(m, analysis, prepared.probes, response, factors, true);
  switch (item.source) {
    case Source::joist_sag:
      return e.joists[k].sag.value;
    case Source::joist_hog:
      return e.joists[k].hog.value;
    case Source::joist_shear:
      return e.joists[k].shear.value;
    case Source::bearer_sag:
      return e.bearers[k].sag.value;
    case Source::bearer_hog:
      return e.bearers[k].hog.value;
    case Source::bearer_shear:
      return e.bearers[k].shear.value;
    case Source::ledger_sag:
      return e.ledgers[k].sag.value;
    case Source::ledger_hog:
      return e.ledgers[k].hog.value;
    case Source::ledger_shear:
      return e.ledgers[k].shear.value;
    case Source::boards_bending:
      return std::max(e.boards.sag.value, e.boards.hog.value);
    case Source::boards_shear:
      return e.boards.shear.value;
    case Source::crossing:
    case Source::ground_wall:
      return crossing_force();
    case Source::crossing_lift:
      return -crossing_force();
    case Source::prop:
      return std::abs(response.supports[static_cast<std::size_t>(m.props[k].solver_support)]);
    case Source::ground_support:
      return response.supports[static_cast<std::size_t>(m.support_of[k])];
  }
  return 0.0;
}

void Run::verify(const Item& item, std::size_t combination) const {
  // What governs is solved again from scratch, changes written into the frame, before it is printed.
  const Worst& worst = item.worst[combination];
  const Prepared fresh = prepare(variants_[static_cast<std::size_t>(worst.variant)]);
  solver::Frame frame = fresh.model().frame;
  frame.plates = fresh.cases->plates;
  std::set<int> gone;
  if (worst.change >= 0) {
    for (const solver::SupportChange& change :
         changes_[static_cast<std::size_t>(worst.change)].changes) {
      frame.supports[static_cast<std::size_t>(change.support)].k_w = change.k_w;
      if (change.k_w == 0.0) {
        frame.supports[static_cast<std::size_t>(change.support)].compression_only = false;
        frame.supports[static_cast<std::size_t>(change.support)].gap = 0.0;
      }
    }
  }
  const solver::Analysis analysis(frame, fresh.cases->cases);
  const auto factors =
      factored(deck_, fresh.cases->infos, values_, combinations_.at(item.purpose)[combination],
               situations_[0][static_cast<std::size_t>(worst.situation)],
               patterns_[static_cast<std::size_t>(worst.pattern)]);
  const solver::Response response = analysis.solve(factors);
  const double again = response.mechanism ? std::numeric_limits<double>::infinity()
                                          : demand_in(item, fresh, analysis, response, factors);
  if (!(std::abs(again - worst.demand) <= 1e-6 * std::abs(worst.demand) + 1e-3)) {
    throw solver::ProofFailed("the governing demand of " + item.piece + " (" + item.check +
                              ") did not come out the same when solved from scratch: " +
                              std::to_string(worst.demand) + " against " + std::to_string(again));
  }
}

void Run::static_findings(DeckAssessment& result) const {
  // Held upright: depth against breadth, per group of joists, where the load reaches them.
  std::set<std::pair<int, std::pair<double, double>>> seen;
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    const survey::Joist& joist = deck_.joists[j];
    if (!loaded_joists_[j]) continue;
    if (!seen.insert({joist.group, {joist.breadth.value(), joist.depth.value()}}).second) continue;
    Length breadth = joist.breadth;
    for (const survey::SettledSister& sister : joist.sisters) breadth += sister.breadth;
    Finding f;
    f.check = standard_.held_upright(joist.breadth, joist.depth, ends_held(deck_, j), true);
    f.check.check = "held upright";
    f.piece = joist.id;
    f.id = joist.id + "/held upright";
    f.where = "at its supports";
    f.at = survey::at_along(joist.direction, (joist.from + joist.to) / 2.0, joist.position);
    f.situation = "any";
    f.combination = "-";
    f.bound = "-";
    result.findings.push_back(std::move(f));
  }
  // What decay has taken is not waited for.
  const auto decayed = [&](const survey::Piece& piece, bool loaded) {
    if (loaded && !piece.absent.empty()) {
      result.cautions.push_back(
          piece.id + " counts as absent in part (" + piece.absent.front().why +
          "): replace it before anything heavy comes, whatever the numbers say.");
    }
  };
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) decayed(deck_.joists[j], loaded_joists_[j]);
  for (std::size_t b = 0; b < deck_.bearers.size(); ++b)
    decayed(deck_.bearers[b], loaded_bearers_[b]);
  // Frost: lifts the footings but not the house.
  const bool attached =
      std::any_of(loaded_ledgers_.begin(), loaded_ledgers_.end(), [](bool is) { return is; });
  for (std::size_t s = 0; s < deck_.supports.size(); ++s) {
    const survey::SettledSupport& support = deck_.supports[s];
    if (!loaded_supports_[s] || support.footing.kind == survey::FootingKind::screw_pile) continue;
    if (!(support.footing.depth < deck_.site.frost_depth)) continue;
    const UnitSystem u = standard_.us_customary() ? UnitSystem::us_customary : UnitSystem::metric;
    if (!attached) {
      result.cautions.push_back(
          "Footings are less deep than frost goes (" + format_length(support.footing.depth, u) +
          " against " + format_length(deck_.site.frost_depth, u) +
          "): a free-standing deck rides on it; look at its level after every winter.");
      break;
    }
    Finding f;
    f.piece = support.id;
    f.id = support.id + "/frost";
    f.where = "under its footing";
    f.at = support.at;
    f.situation = "a hard winter";
    f.combination = "-";
    f.bound = "-";
    standards::Sheet sheet("frost depth", {length_unit(), 1.0});
    sheet.taken("frost", "depth of frost", in_length_unit(deck_.site.frost_depth), length_unit(),
                {});
    sheet.taken("depth", "underside of the footing below ground",
                in_length_unit(support.footing.depth), length_unit(), {});
    f.check = sheet.finish("frost", "depth",
                           {"judgement",
                            "frost lifts the footings of a deck that the house holds: the ledger "
                            "is torn"});
    result.findings.push_back(std::move(f));
  }
  // The free strip that is wanted round the load.
  for (const survey::SettledLoad& load : deck_.loads) {
    for (const survey::Zone& zone : deck_.obstacles) {
      const Length clear = survey::distance(load.footprint, zone.outline);
      if (clear.value() <= 0.0 || clear < load.service_gap) {
        result.cautions.push_back("Obstacle " + zone.name +
                                  " stands in the free strip wanted round " +
                                  (load.name.empty() ? "the load" : load.name) + ".");
      }
    }
  }
  // One board under a concentrated load; a stated span where boards do not share.
  double near_gap = 0.0, far_gap = 0.0;
  survey::Point near_at{}, far_at{};
  const Length reach = mm(figure("board_reach_mm"));
  std::vector<std::pair<double, std::size_t>> across;
  // Boards find nothing to lie on where a joist is absent and no sister runs beside it.
  const auto gone = [](const survey::Joist& joist, Length low, Length high) {
    return joist.sisters.empty() &&
           std::any_of(joist.absent.begin(), joist.absent.end(), [&](const survey::Stretch& part) {
             return joist.from + part.from <= low + mm(1.0) &&
                    joist.from + part.to >= high - mm(1.0);
           });
  };
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    const survey::Joist& joist = deck_.joists[j];
    if (!gone(joist, joist.from, joist.to)) across.emplace_back(joist.position.value(), j);
  }
  std::sort(across.begin(), across.end());
  const auto between = [&](const survey::Joist& a, const survey::Joist& b, Length from, Length to) {
    const double gap = (b.position - a.position).value();
    if (!(to > from)) return;
    const Length middle = (a.position + b.position) / 2.0;
    const survey::Point p = survey::at_along(a.direction, (from + to) / 2.0, middle);
    const bool near = std::any_of(deck_.loads.begin(), deck_.loads.end(), [&](const auto& load) {
      return survey::distance_to_segment(load.footprint,
                                         survey::at_along(a.direction, from, middle),
                                         survey::at_along(a.direction, to, middle)) <= reach;
    });
    if (near && gap > near_gap) {
      near_gap = gap;
      near_at = p;
    }
    if (gap > far_gap) {
      far_gap = gap;
      far_at = p;
    }
  };
  for (std::size_t k = 0; k + 1 < across.size(); ++k) {
    const survey::Joist& a = deck_.joists[across[k].second];
    const survey::Joist& b = deck_.joists[across[k + 1].second];
    between(a, b, max(a.from, b.from), min(a.to, b.to));
  }
  // Over a stretch that is absent boards reach from the neighbour before to the neighbour after.
  for (std::size_t k = 0; k < across.size(); ++k) {
    const survey::Joist& joist = deck_.joists[across[k].second];
    if (!joist.sisters.empty()) continue;
    for (const survey::Stretch& part : joist.absent) {
      const Length from = joist.from + part.from, to = joist.from + part.to;
      std::size_t before = k, after = k;
      while (before > 0 && (before == k || gone(deck_.joists[across[before].second], from, to)))
        --before;
      while (after + 1 < across.size() &&
             (after == k || gone(deck_.joists[across[after].second], from, to)))
        ++after;
      if (before < k && after > k)
        between(deck_.joists[across[before].second], deck_.joists[across[after].second], from, to);
    }
  }
  const auto board = [&](double gap, survey::Point p, Kind kind, const std::string& id) {
    if (gap <= 0.0) return;
    Finding f;
    f.kind = kind;
    f.piece = "boards";
    f.id = id;
    f.at = p;
    f.combination = "-";
    f.bound = "-";
    if (deck_.boards.stated_span) {
      const Citation source{"common-practice", "the maker's stated joist spacing"};
      standards::Sheet sheet("stated span of the boards", {length_unit(), 1.0});
      sheet.taken("s", "spacing of the joists", in_length_unit(mm(gap)), length_unit(), {});
      sheet.taken("s_max", "stated span", in_length_unit(*deck_.boards.stated_span), length_unit(),
                  source);
      f.check = sheet.finish("s", "s_max", source);
      f.where = "between joists";
      f.situation = "any";
    } else if (deck_.boards.material == survey::BoardMaterial::softwood ||
               deck_.boards.material == survey::BoardMaterial::hardwood) {
      const bool jointed =
          deck_.boards.joints_recorded && deck_.boards.joints == survey::BoardJoints::staggered;
      f.check =
          standard_.board_point_load(timbers_.boards, deck_.boards.width, deck_.boards.thickness,
                                     mm(gap), !jointed, values_.concentrated);
      f.check.check = "one person on one board";
      f.where = kind == Kind::safety ? "beside the load" : "anywhere on the deck";
      f.situation = "a person steps on one board";
    } else {
      result.refer_reasons.push_back(
          "boards of composite or aluminium without a stated span: their strength is not known");
      return;
    }
    (kind == Kind::safety ? result.findings : result.ordinary_use).push_back(std::move(f));
  };
  board(near_gap, near_at, Kind::safety, "boards/one person on one board");
  if (far_gap > near_gap) {
    DeckAssessment kept;
    std::swap(kept.ordinary_use, result.ordinary_use);
    board(far_gap, far_at, Kind::ordinary_use,
          "boards/one person on one board, away from the load");
    std::erase_if(result.ordinary_use, [](const Finding& f) { return f.check.utilisation <= 1.0; });
    for (Finding& f : kept.ordinary_use) result.ordinary_use.push_back(std::move(f));
  }
}

void Run::service_findings(DeckAssessment& result, bool shapes) {
  const standards::ServiceLimits limits = standard_.limits();
  const auto& now_combinations = combinations_.at(Purpose::service_now);
  const auto& long_combinations = combinations_.at(Purpose::service_long);
  const bool lap_open =
      std::any_of(deck_.joists.begin(), deck_.joists.end(),
                  [](const survey::Joist& joist) { return !joist.continuous_recorded; });
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
          return prepared.analysis().solve(factors);
        };
        const solver::Response at_once = solve(now, now_combinations.front());
        const solver::Response lasting_now = solve(now, long_combinations.front());
        const solver::Response lasting = solve(later, long_combinations.front());
        if (at_once.mechanism || lasting_now.mechanism || lasting.mechanism) {
          if (!result.mechanism && plan_cases_.service_only)
            result.mechanism = at_once.mechanism       ? at_once.mechanism
                               : lasting_now.mechanism ? lasting_now.mechanism
                                                       : lasting.mechanism;
          return;
        }
        const auto w_now = [&](int node) {
          return -at_once.displacements[static_cast<std::size_t>(node)].w;
        };
        // Final: the lasting part with creep, the passing part on top of it at once.
        const auto w_final = [&](int node) {
          const auto n = static_cast<std::size_t>(node);
          return -(lasting.displacements[n].w + at_once.displacements[n].w -
                   lasting_now.displacements[n].w);
        };
        const std::string words = situation.name + (p > 0 ? "; " + patterns_[p].name : "");
        const auto span_checks = [&](const std::string& piece, const model::Line& line,
                                     std::vector<double> supports,
                                     const std::function<survey::Point(double)>& place,
                                     Length origin) {
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
            const auto put = [&](const char* name, const char* symbol, double demand,
                                 double ratio) {
              Finding f;
              f.piece = piece;
              f.id = piece + "/" + name;
              f.where = format_length(mm(std::max(0.0, where - origin.value())),
                                      standard_.us_customary() ? UnitSystem::us_customary
                                                               : UnitSystem::metric) +
                        " from its start";
              f.at = place(where);
              f.situation = words;
              f.combination = now_combinations.front().id;
              f.bound =
                  std::string("middling ground") + (lapped ? ", joists jointed over bearers" : "");
              standards::Sheet sheet(name, {length_unit(), 1.0});
              sheet.taken("l", "span", in_length_unit(mm(span)), length_unit(), {});
              sheet.taken("w_least", "no limit is smaller", in_length_unit(limits.least),
                          length_unit(), limits.deflection_source);
              sheet.taken(symbol, "from the analysis, without the settlement of its supports",
                          in_length_unit(mm(demand)), length_unit(), {});
              sheet.line("limit", "max(l / " + format_decimals(ratio, 0) + "; w_least)",
                         in_length_unit(max(mm(span) / ratio, limits.least)), length_unit(),
                         limits.deflection_source);
              f.check = sheet.finish(symbol, "limit", limits.deflection_source);
              keep(std::move(f));
            };
            put("deflection at once", "w_inst", most_now, limits.deflection_now);
            put("deflection in the long run", "w_fin", most_final, limits.deflection_long);
          }
        };
        for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
          if (!loaded_joists_[j]) continue;
          std::vector<double> supports;
          for (const model::Crossing& crossing : now.model().crossings) {
            if (crossing.joist == static_cast<int>(j)) supports.push_back(crossing.at_joist);
          }
          const survey::Joist& joist = deck_.joists[j];
          span_checks(
              joist.id, now.model().joists[j], supports,
              [&](double at) { return survey::at_along(joist.direction, mm(at), joist.position); },
              joist.from);
        }
        for (std::size_t b = 0; b < deck_.bearers.size(); ++b) {
          if (!loaded_bearers_[b]) continue;
          std::vector<double> supports;
          for (const model::Prop& prop : now.model().props) {
            if (!prop.ledger && prop.piece == static_cast<int>(b)) supports.push_back(prop.at);
          }
          const survey::SettledBearer& bearer = deck_.bearers[b];
          span_checks(
              bearer.id, now.model().bearers[b], supports,
              [&](double at) {
                return survey::at_along(bearer.direction, mm(at), bearer.position);
              },
              bearer.from);
        }
        // Level of the load: the plane that fits the boards' nodes under it best.
        for (std::size_t l = 0; l < deck_.loads.size(); ++l) {
          double n = 0, sx = 0, sy = 0, sw = 0, sxx = 0, sxy = 0, syy = 0, sxw = 0, syw = 0;
          const survey::Point c = deck_.loads[l].centre;
          for (const model::Line& board : now.model().boards) {
            for (const int node : board.nodes) {
              const solver::Node& place = now.model().frame.nodes[static_cast<std::size_t>(node)];
              if (!survey::contains(deck_.loads[l].footprint, {mm(place.x), mm(place.y)})) continue;
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
          standards::Sheet sheet("level in the long run", {slope, 1.0});
          sheet.taken("tilt", "slope of the plane that fits the boards under it", per * tilt, slope,
                      {});
          sheet.line("limit",
                     format_decimals(per, 0) + " / " + format_decimals(limits.tilt, 0) + ", 1 in " +
                         format_decimals(limits.tilt, 0),
                     per / limits.tilt, slope, limits.tilt_source);
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
          const double open = at_once.displacements[static_cast<std::size_t>(link.i)].w -
                              at_once.displacements[static_cast<std::size_t>(link.j)].w;
          if (open <= 0.1) continue;
          const survey::Joist& joist = deck_.joists[static_cast<std::size_t>(crossing.joist)];
          Finding f;
          f.piece = joist.id;
          f.id = joist.id + "/gap that opens";
          f.where =
              on_bearer
                  ? "over bearer " + deck_.bearers[static_cast<std::size_t>(crossing.other)].id
                  : "at ledger " + deck_.ledgers[static_cast<std::size_t>(crossing.other)].id;
          f.at = survey::at_along(joist.direction, mm(crossing.at_joist), joist.position);
          f.situation = words;
          f.combination = now_combinations.front().id;
          f.bound = "middling ground";
          const Citation source{"judgement", "2 mm where somebody walks"};
          standards::Sheet sheet("gap that opens", {length_unit(), 1.0});
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

DeckAssessment Run::result(Depth depth) {
  DeckAssessment result;
  result.assumptions = deck_.assumptions;
  if (not_modelled_) {
    result.refer_reasons.push_back(*not_modelled_ + ": such a deck is not modelled");
    return result;
  }
  std::vector<std::size_t> supports, walls;
  for (std::size_t s = 0; s < loaded_supports_.size(); ++s) {
    if (loaded_supports_[s]) supports.push_back(s);
  }
  for (std::size_t w = 0; w < loaded_walls_.size(); ++w) {
    if (loaded_walls_[w]) walls.push_back(w);
  }
  const Scope seen = scope(deck_, supports, walls);
  result.refer_reasons = seen.refer_reasons;
  result.feared = seen.feared;
  result.mechanism = mechanism_;

  // Demands of the deck without its new load, by check: what fails already is ordinary use.
  const std::map<std::string, double> bare = bare_known_ ? *bare_known_ : bare_utilisations();
  const double raised_by = figure("raised_by");
  const Item* governing = nullptr;
  std::size_t governing_combination = 0;
  double most = 0.0;
  std::map<std::string, Finding> worst;
  std::map<std::string, std::pair<double, double>> left;  // per ledger: sum and number of fixings
  for (const Item& item : items_) {
    auto found = worst_of(item);
    if (item.source == Source::prop && item.check == "ledger fixing") {
      const double used = found ? std::min(1.0, found->second.utilisation) : 0.0;
      left[item.piece].first += std::sqrt(1.0 - used * used);
      left[item.piece].second += 1.0;
    }
    if (!found) continue;
    const std::string id = item.piece + "/" + item.check;
    const double u = found->second.utilisation;
    const auto known = worst.find(id);
    if (known != worst.end() && u <= known->second.check.utilisation * (1.0 + 1e-9)) continue;
    const auto without = bare.find(id);
    const bool already =
        without != bare.end() && without->second > 1.0 && u < (1.0 + raised_by) * without->second;
    if (!already && u > most && std::isfinite(u)) {
      most = u;
      governing = &item;
      governing_combination = found->first;
    }
    worst[id] = finding(item, found->first, std::move(found->second));
    if (already) worst[id].kind = Kind::ordinary_use;
  }
  for (auto& [id, f] : worst) {
    (f.kind == Kind::ordinary_use ? result.ordinary_use : result.findings).push_back(std::move(f));
  }
  if (depth == Depth::full && governing != nullptr) verify(*governing, governing_combination);

  if (!items_.empty()) {
    static_findings(result);
    Force vertical(0.0), people(0.0);
    const Force imposed = values_.imposed * survey::area(deck_.outline);
    vertical += imposed;
    people += imposed;
    for (const survey::SettledLoad& load : deck_.loads) {
      const Force bathers = weight(values_.person) * static_cast<double>(load.people);
      vertical += weight(load.dry_mass + load.contents) + bathers;
      people += bathers;
    }
    StabilityLoads loads{vertical, people, reactions_, result.findings, {}, depth == Depth::full};
    for (const auto& [ledger, sum] : left) loads.ledger_rest[ledger] = sum.first / sum.second;
    loads.found.insert(loads.found.end(), result.ordinary_use.begin(), result.ordinary_use.end());
    Stability stable = stability(deck_, timbers_, standard_, loads);
    for (Finding& f : stable.findings) result.findings.push_back(std::move(f));
    for (std::string& words : stable.assumptions) result.assumptions.push_back(std::move(words));
    if (!mechanism_) service_findings(result, depth == Depth::full);
  }
  if (mechanism_) {
    Finding f;
    f.id = "deck/equilibrium";
    f.piece = "deck";
    f.where = *mechanism_;
    f.at = survey::centroid(deck_.outline);
    f.situation = "-";
    f.combination = "mechanism";
    f.bound = "-";
    f.check.check = "equilibrium";
    f.check.utilisation = std::numeric_limits<double>::infinity();
    f.check.source = {"judgement", "a piece that nothing holds carries nothing"};
    result.findings.push_back(std::move(f));
  }
  std::stable_sort(result.findings.begin(), result.findings.end(), worse);
  std::stable_sort(result.ordinary_use.begin(), result.ordinary_use.end(), worse);
  for (const Finding& f : result.findings) {
    double& u = f.kind == Kind::service ? result.service : result.safety;
    u = std::max(u, f.check.utilisation);
  }
  result.reactions = reactions_;
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    if (loaded_joists_[j]) result.loaded_pieces.push_back(deck_.joists[j].id);
  }
  for (std::size_t b = 0; b < deck_.bearers.size(); ++b) {
    if (loaded_bearers_[b]) result.loaded_pieces.push_back(deck_.bearers[b].id);
  }
  for (std::size_t l = 0; l < deck_.ledgers.size(); ++l) {
    if (loaded_ledgers_[l]) result.loaded_pieces.push_back(deck_.ledgers[l].id);
  }
  for (const std::size_t s : supports) result.loaded_pieces.push_back(deck_.supports[s].id);
  for (const std::size_t w : walls) result.loaded_pieces.push_back(deck_.walls[w].id);
  result.solves = solves_;
  return result;
}

DeckAssessment assess_deck(const survey::Deck& deck, const standards::Standard& standard,
                           const PlanCases& plan_cases, Depth depth) {
  Run run(deck, standard, plan_cases);
  run.safety(true);
  if (!deck.loads.empty()) run.safety(false);
  return run.result(depth);
}

}  // namespace underprop::assessment
