// What a deck is told without solving it: held upright, splices, frost, the strip round the load, boards.
#include "figures.hpp"
#include "findings.hpp"
#include "standards/sheet.hpp"
#include "underprop/base/format.hpp"
#include "underprop/base/geometry.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

namespace underprop::assessment {

namespace {

/// Joists, depth against breadth, per group, where the load reaches them.
void joists_upright(const deck::Deck& deck, const standards::Standard& standard,
                    const LoadedPieces& loaded, DeckAssessment& result) {
  std::set<std::pair<int, std::pair<double, double>>> seen;
  for (std::size_t j = 0; j < deck.joists.size(); ++j) {
    const deck::Joist& joist = deck.joists[j];
    if (!loaded.joists[j]) continue;
    if (!seen.insert({joist.group, {joist.breadth.value(), joist.depth.value()}}).second) continue;
    standards::Check check =
        standard.held_upright(joist.breadth, joist.depth, ends_held(deck, j), true);
    check.call(standards::CheckKind::held_upright);
    result.findings.push_back(plain_finding(
        joist.id, std::move(check), "at its supports",
        at_along(joist.direction, (joist.from + joist.to) / 2.0, joist.position), "any"));
  }
}

/// A bearer on which joists only lie: their weight keeps its ends in place as long as it is not tall.
/// Works bring their own blocking at each pad.
void bearers_upright(const deck::Deck& deck, const standards::Standard& standard,
                     const LoadedPieces& loaded, DeckAssessment& result) {
  for (std::size_t b = 0; b < deck.bearers.size(); ++b) {
    const deck::Bearer& bearer = deck.bearers[b];
    if (!loaded.bearers[b] || bearer.added) continue;
    const Length breadth = bearer.act_together
                               ? bearer.ply_breadth * static_cast<double>(bearer.plies)
                               : bearer.ply_breadth;
    const bool held = bearer_held(deck, b);
    standards::Check check = standard.held_upright(breadth, bearer.depth, true, held);
    check.call(standards::CheckKind::held_upright);
    if (!held && !fails(check.utilisation) &&
        fails(standard.held_upright(breadth, bearer.depth, false, false).utilisation)) {
      result.cautions.push_back("Nothing recorded holds " + bearer.id +
                                " upright, which is deep for its breadth: fix the joists to it, or "
                                "block it at its supports, before anything heavy comes.");
    }
    result.findings.push_back(plain_finding(
        bearer.id, std::move(check), "at its supports",
        at_along(bearer.direction, (bearer.from + bearer.to) / 2.0, bearer.position), "any"));
  }
}

/// A joint in a bearer's length that is over no support: its fixings are not recorded, so nothing shows
/// what carries across it; nor are the plies that run through it, if any do.
void splices(const deck::Deck& deck, const standards::Standard& standard,
             const LoadedPieces& loaded, DeckAssessment& result) {
  for (std::size_t b = 0; b < deck.bearers.size(); ++b) {
    const deck::Bearer& bearer = deck.bearers[b];
    if (!loaded.bearers[b]) continue;
    for (const Length splice : bearer.splices) {
      std::optional<Length> off;
      Length half(0.0);
      for (const deck::Support& support : deck.supports) {
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
      standards::Sheet sheet(standards::CheckKind::splice, {length_unit(standard), 1.0});
      sheet.taken("a", "from the splice to the nearest support's middle",
                  in_length_unit(standard, *off), length_unit(standard), {});
      sheet.taken("a_max", "half of what the bearer rests on there", in_length_unit(standard, half),
                  length_unit(standard), rule);
      result.findings.push_back(
          plain_finding(bearer.id, sheet.finish("a", "a_max", rule),
                        "splice at " + format_length(splice - bearer.from, unit_system(standard)) +
                            " from its start",
                        at_along(bearer.direction, splice, bearer.position), "any"));
    }
  }
}

/// A decayed piece that the load reaches counts as absent over the soft length and its margin, and
/// carries nothing there; the rest of it is not taken as whole either.
void decay(const deck::Deck& deck, const LoadedPieces& loaded, const standards::Standard& standard,
           DeckAssessment& result) {
  const auto decayed = [&](const deck::Piece& piece, Axis direction, Length position, Length from,
                           bool reached, bool by_sister) {
    if (piece.absent.empty()) return;
    const auto soft = std::find_if(piece.absent.begin(), piece.absent.end(),
                                   [](const deck::Stretch& part) { return part.decayed; });
    if (by_sister || soft == piece.absent.end()) {
      if (!reached) return;
      result.cautions.push_back(
          piece.id + " counts as absent in part (" + piece.absent.front().why + "): " +
          (by_sister
               ? "a sister is taken to carry in its place. It must run the whole length of the "
                 "joist and lie on what the joist lay on, with what is unsound cut away."
               : "replace it before anything heavy comes, whatever the numbers say."));
      return;
    }
    const Citation rule{
        "judgement",
        "decay takes strength before a screwdriver sinks and runs on beyond what is "
        "soft: a decayed piece on the load's way is replaced"};
    const UnitSystem u = unit_system(standard);
    standards::Sheet sheet(standards::CheckKind::decay, {length_unit(standard), 1.0});
    sheet.taken("gone", "decayed, with its margin either way",
                in_length_unit(standard, soft->to - soft->from), length_unit(standard), rule);
    Finding f = plain_finding(
        piece.id, sheet.nothing("gone", "0: decay is left in no piece that the load reaches", rule),
        "from " + format_length(soft->from, u) + " to " + format_length(soft->to, u) +
            " along it: replace it",
        at_along(direction, from + (soft->from + soft->to) / 2.0, position), "any");
    f.already = true;
    if (!reached) f.kind = Kind::ordinary_use;
    (reached ? result.findings : result.ordinary_use).push_back(std::move(f));
  };
  const std::vector<bool> carried = model::carried_by_sisters(deck);
  const LoadedPieces reach = within_reach(deck, loaded);
  for (std::size_t j = 0; j < deck.joists.size(); ++j) {
    const deck::Joist& joist = deck.joists[j];
    decayed(joist, joist.direction, joist.position, joist.from, reach.joists[j], carried[j]);
  }
  for (std::size_t b = 0; b < deck.bearers.size(); ++b) {
    const deck::Bearer& bearer = deck.bearers[b];
    decayed(bearer, bearer.direction, bearer.position, bearer.from, reach.bearers[b], false);
  }
}

}  // namespace

void decay_findings(const LoadedDeck& deck, const LoadedPieces& loaded, DeckAssessment& result) {
  decay(deck.deck(), loaded, deck.standard(), result);
}

namespace {

/// Rain behind a ledger rots what it is fixed to.
void flashing(const deck::Deck& deck, const LoadedPieces& loaded, DeckAssessment& result) {
  for (std::size_t l = 0; l < deck.ledgers.size(); ++l) {
    if (!loaded.ledgers[l] || deck.ledgers[l].band_flashed) continue;
    result.cautions.push_back("No flashing is recorded over ledger " + deck.ledgers[l].id +
                              ": without one rain rots the house's wood behind it; probe that wood "
                              "every year.");
  }
}

/// Frost: lifts the footings but not the house. Only in ground that heaves.
void frost(const deck::Deck& deck, const standards::Standard& standard, const LoadedPieces& loaded,
           DeckAssessment& result) {
  if (!deck.site.frost_heaves) return;
  const bool attached =
      std::any_of(loaded.ledgers.begin(), loaded.ledgers.end(), [](bool is) { return is; });
  for (std::size_t s = 0; s < deck.supports.size(); ++s) {
    const deck::Support& support = deck.supports[s];
    if (!loaded.supports[s] || support.footing.kind == record::FootingKind::screw_pile) continue;
    if (!(support.footing.depth < deck.site.frost_depth)) continue;
    const UnitSystem u = unit_system(standard);
    if (!attached) {
      result.cautions.push_back(
          "Footings are less deep than frost goes (" + format_length(support.footing.depth, u) +
          " against " + format_length(deck.site.frost_depth, u) +
          (deck.site.frost_recorded ? "" : ", not recorded, assumed") +
          "): a free-standing deck rides on it; look at its level after every winter.");
      break;
    }
    standards::Sheet sheet(standards::CheckKind::frost_depth, {length_unit(standard), 1.0});
    sheet.taken("frost",
                deck.site.frost_recorded ? "depth of frost" : "depth of frost, not recorded",
                in_length_unit(standard, deck.site.frost_depth), length_unit(standard), {});
    sheet.taken("depth", "underside of the footing below ground",
                in_length_unit(standard, support.footing.depth), length_unit(standard), {});
    Finding f = plain_finding(
        support.id,
        sheet.finish(
            "frost", "depth",
            {"judgement",
             "frost lifts the footings of a deck that the house holds: the ledger is torn"}),
        "under its footing", support.at, "a hard winter");
    f.id = support.id + "/frost";
    result.findings.push_back(std::move(f));
  }
}

/// The free strip that is wanted round the load.
void free_strip(const deck::Deck& deck, DeckAssessment& result) {
  for (const deck::Load& load : deck.loads) {
    for (const record::Zone& zone : deck.obstacles) {
      const Length clear = distance(load.footprint, zone.outline);
      if (clear.value() <= 0.0 || clear < load.service_gap) {
        result.cautions.push_back("Obstacle " + zone.name +
                                  " stands in the free strip wanted round " +
                                  (load.name.empty() ? "the load" : load.name) + ".");
      }
    }
  }
}

}  // namespace

void static_findings(const LoadedDeck& deck, const LoadedPieces& loaded, DeckAssessment& result) {
  joists_upright(deck.deck(), deck.standard(), loaded, result);
  bearers_upright(deck.deck(), deck.standard(), loaded, result);
  splices(deck.deck(), deck.standard(), loaded, result);
  decay_findings(deck, loaded, result);
  flashing(deck.deck(), loaded, result);
  frost(deck.deck(), deck.standard(), loaded, result);
  free_strip(deck.deck(), result);
  board_findings(deck, result);
}

}  // namespace underprop::assessment
