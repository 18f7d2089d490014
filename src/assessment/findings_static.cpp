// What a deck is told without solving it: held upright, splices, frost, the strip round the load, boards.
#include "run.hpp"
#include "scope.hpp"
#include "underprop/base/format.hpp"
#include "underprop/base/geometry.hpp"
#include "underprop/catalog/table.hpp"
#include "underprop/standards/sheet.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

namespace underprop::assessment {

void Run::static_findings(DeckAssessment& result) const {
  // Held upright: depth against breadth, per group of joists, where the load reaches them.
  std::set<std::pair<int, std::pair<double, double>>> seen;
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    const deck::Joist& joist = deck_.joists[j];
    if (!loaded_joists_[j]) continue;
    if (!seen.insert({joist.group, {joist.breadth.value(), joist.depth.value()}}).second) continue;
    Length breadth = joist.breadth;
    for (const deck::Sister& sister : joist.sisters) breadth += sister.breadth;
    Finding f;
    f.check = standard_.held_upright(joist.breadth, joist.depth, ends_held(deck_, j), true);
    f.check.call(standards::CheckKind::held_upright);
    f.piece = joist.id;
    f.id = joist.id + "/held upright";
    f.where = "at its supports";
    f.at = at_along(joist.direction, (joist.from + joist.to) / 2.0, joist.position);
    f.situation = "any";
    f.combination = "-";
    f.bound = "-";
    result.findings.push_back(std::move(f));
  }
  // A bearer on which joists only lie: their weight keeps its ends in place as long as it is not tall.
  // Works bring their own blocking at each pad.
  for (std::size_t b = 0; b < deck_.bearers.size(); ++b) {
    const deck::Bearer& bearer = deck_.bearers[b];
    if (!loaded_bearers_[b] || bearer.added) continue;
    const Length breadth = bearer.act_together
                               ? bearer.ply_breadth * static_cast<double>(bearer.plies)
                               : bearer.ply_breadth;
    const bool held = bearer_held(deck_, b);
    Finding f;
    f.check = standard_.held_upright(breadth, bearer.depth, true, held);
    f.check.call(standards::CheckKind::held_upright);
    f.piece = bearer.id;
    f.id = bearer.id + "/held upright";
    f.where = "at its supports";
    f.at = at_along(bearer.direction, (bearer.from + bearer.to) / 2.0, bearer.position);
    f.situation = "any";
    f.combination = "-";
    f.bound = "-";
    if (!held && f.check.utilisation <= 1.0 &&
        standard_.held_upright(breadth, bearer.depth, false, false).utilisation > 1.0) {
      result.cautions.push_back("Nothing recorded holds " + bearer.id +
                                " upright, which is deep for its breadth: fix the joists to it, or "
                                "block it at its supports, before anything heavy comes.");
    }
    result.findings.push_back(std::move(f));
  }
  // A joint in a bearer's length that is over no support: its fixings are not recorded, so nothing shows
  // what carries across it; nor are the plies that run through it, if any do.
  for (std::size_t b = 0; b < deck_.bearers.size(); ++b) {
    const deck::Bearer& bearer = deck_.bearers[b];
    if (!loaded_bearers_[b]) continue;
    for (const Length splice : bearer.splices) {
      std::optional<Length> off;
      Length half(0.0);
      for (const deck::Support& support : deck_.supports) {
        if (support.bearer != static_cast<int>(b)) continue;
        const Length away = abs(along(support.at, bearer.direction) - splice);
        if (off && *off <= away) continue;
        off = away;
        const bool along_x = bearer.direction == Axis::x;
        half = support.bearing_length.value_or(support.post ? support.post->breadth
                                               : along_x    ? support.footing.width
                                                            : support.footing.length) /
               2.0;
      }
      if (!off) continue;
      const Citation rule{"judgement",
                          "neither the fixings of a splice nor the plies that run through it are "
                          "recorded: it carries where both lengths rest on one support, as "
                          "prescriptive rules ask of every splice"};
      Finding f;
      f.piece = bearer.id;
      f.id = bearer.id + "/splice";
      f.where =
          "splice at " +
          format_length(splice - bearer.from,
                        standard_.us_customary() ? UnitSystem::us_customary : UnitSystem::metric) +
          " from its start";
      f.at = at_along(bearer.direction, splice, bearer.position);
      f.situation = "any";
      f.combination = "-";
      f.bound = "-";
      standards::Sheet sheet(standards::CheckKind::splice, {length_unit(), 1.0});
      sheet.taken("a", "from the splice to the nearest support's middle", in_length_unit(*off),
                  length_unit(), {});
      sheet.taken("a_max", "half of what the bearer rests on there", in_length_unit(half),
                  length_unit(), rule);
      f.check = sheet.finish("a", "a_max", rule);
      result.findings.push_back(std::move(f));
    }
  }
  // What decay has taken is not waited for.
  const auto decayed = [&](const deck::Piece& piece, bool loaded, bool by_sister = false) {
    if (loaded && !piece.absent.empty()) {
      result.cautions.push_back(
          piece.id + " counts as absent in part (" + piece.absent.front().why + "): " +
          (by_sister
               ? "a sister is taken to carry in its place. It must run the whole length of the "
                 "joist and lie on what the joist lay on, with what is unsound cut away."
               : "replace it before anything heavy comes, whatever the numbers say."));
    }
  };
  const std::vector<bool> carried = model::carried_by_sisters(deck_);
  for (std::size_t j = 0; j < deck_.joists.size(); ++j)
    decayed(deck_.joists[j], loaded_joists_[j], carried[j]);
  for (std::size_t b = 0; b < deck_.bearers.size(); ++b)
    decayed(deck_.bearers[b], loaded_bearers_[b]);
  // Frost: lifts the footings but not the house.
  const bool attached =
      std::any_of(loaded_ledgers_.begin(), loaded_ledgers_.end(), [](bool is) { return is; });
  for (std::size_t s = 0; s < deck_.supports.size(); ++s) {
    const deck::Support& support = deck_.supports[s];
    if (!loaded_supports_[s] || support.footing.kind == record::FootingKind::screw_pile) continue;
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
    standards::Sheet sheet(standards::CheckKind::frost_depth, {length_unit(), 1.0});
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
  for (const deck::Load& load : deck_.loads) {
    for (const record::Zone& zone : deck_.obstacles) {
      const Length clear = distance(load.footprint, zone.outline);
      if (clear.value() <= 0.0 || clear < load.service_gap) {
        result.cautions.push_back("Obstacle " + zone.name +
                                  " stands in the free strip wanted round " +
                                  (load.name.empty() ? "the load" : load.name) + ".");
      }
    }
  }
  board_findings(result);
}

void Run::board_findings(DeckAssessment& result) const {
  // One board under a concentrated load; a stated span where boards do not share.
  double near_gap = 0.0, far_gap = 0.0;
  Point near_at{}, far_at{};
  const Length reach = mm(catalog::number(catalog::table("scope.json"), "board_reach_mm"));
  std::vector<std::pair<double, std::size_t>> across;
  // Boards find nothing to lie on where a joist is absent, unless sisters carry in its place.
  const std::vector<bool> carried = model::carried_by_sisters(deck_);
  const auto by_sister = [&](const deck::Joist& joist) {
    return carried[static_cast<std::size_t>(&joist - deck_.joists.data())];
  };
  const auto gone = [&](const deck::Joist& joist, Length low, Length high) {
    return !by_sister(joist) &&
           std::any_of(joist.absent.begin(), joist.absent.end(), [&](const deck::Stretch& part) {
             return joist.from + part.from <= low + mm(1.0) &&
                    joist.from + part.to >= high - mm(1.0);
           });
  };
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    const deck::Joist& joist = deck_.joists[j];
    if (!gone(joist, joist.from, joist.to)) across.emplace_back(joist.position.value(), j);
  }
  std::sort(across.begin(), across.end());
  const auto between = [&](const deck::Joist& a, const deck::Joist& b, Length from, Length to) {
    const double gap = (b.position - a.position).value();
    if (!(to > from)) return;
    const Length middle = (a.position + b.position) / 2.0;
    const Point p = at_along(a.direction, (from + to) / 2.0, middle);
    const bool near = std::any_of(deck_.loads.begin(), deck_.loads.end(), [&](const auto& load) {
      return distance_to_segment(load.footprint, at_along(a.direction, from, middle),
                                 at_along(a.direction, to, middle)) <= reach;
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
    const deck::Joist& a = deck_.joists[across[k].second];
    const deck::Joist& b = deck_.joists[across[k + 1].second];
    between(a, b, max(a.from, b.from), min(a.to, b.to));
  }
  // Over a stretch that is absent boards reach from the neighbour before to the neighbour after.
  for (std::size_t k = 0; k < across.size(); ++k) {
    const deck::Joist& joist = deck_.joists[across[k].second];
    if (by_sister(joist)) continue;
    for (const deck::Stretch& part : joist.absent) {
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
  const auto board = [&](double gap, Point p, Kind kind, const std::string& id) {
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
      standards::Sheet sheet(standards::CheckKind::stated_board_span, {length_unit(), 1.0});
      sheet.taken("s", "spacing of the joists", in_length_unit(mm(gap)), length_unit(), {});
      sheet.taken("s_max", "stated span", in_length_unit(*deck_.boards.stated_span), length_unit(),
                  source);
      f.check = sheet.finish("s", "s_max", source);
      f.where = "between joists";
      f.situation = "any";
    } else if (deck_.boards.material == record::BoardMaterial::softwood ||
               deck_.boards.material == record::BoardMaterial::hardwood) {
      const bool jointed =
          deck_.boards.joints_recorded && deck_.boards.joints == record::BoardJoints::staggered;
      f.check =
          standard_.board_point_load(timbers_.boards, deck_.boards.width, deck_.boards.thickness,
                                     mm(gap), !jointed, values_.concentrated);
      f.check.call(standards::CheckKind::person_on_board);
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

std::optional<Run::Stop> Run::boards_fail(double most) const {
  DeckAssessment boards;
  board_findings(boards);
  for (const Finding& f : boards.findings) {
    if (f.check.utilisation > most) return Stop{f.check.utilisation, f.piece, f.check.check};
  }
  return std::nullopt;
}

}  // namespace underprop::assessment
