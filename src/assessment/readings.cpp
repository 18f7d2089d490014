#include "readings.hpp"

#include "figures.hpp"

#include <algorithm>

namespace underprop::assessment {

using record::Reading;

Outcome outcome_of(const DeckAssessment& deck) {
  return {deck.mechanism ? infinite : deck.safety, deck.service, deck.refer_reasons.size()};
}

const deck::OpenFact* Readings::open(const std::string& field) const {
  const auto found = std::ranges::find(open_, field, &deck::OpenFact::field);
  return found == open_.end() ? nullptr : &*found;
}

DeckAssessment Readings::all_cases(const deck::Deck& deck, Depth depth,
                                   bool stop_when_loose) const {
  DeckAssessment result =
      assess_deck(deck, standard_, {.depth = depth, .stop_when_loose = stop_when_loose});
  if (stop_when_loose && result.mechanism) return result;
  if (!plan_cases_.gap_under_new_supports && !plan_cases_.new_and_old_ground_differ) return result;
  // A plan also passes with the gaps of careless packing and with new ground unlike old.
  const DeckAssessment planned =
      assess_deck(deck, standard_, {.depth = depth, .plan_cases = plan_cases_});
  if (!result.mechanism) result.mechanism = planned.mechanism;
  for (const Finding& f : planned.findings) {
    const auto same = std::find_if(result.findings.begin(), result.findings.end(),
                                   [&](const Finding& other) { return other.id == f.id; });
    if (same == result.findings.end()) {
      result.findings.push_back(f);
    } else if (f.check.utilisation > same->check.utilisation) {
      *same = f;
    }
    double& u = f.kind == Kind::service ? result.service : result.safety;
    u = std::max(u, f.check.utilisation);
  }
  std::stable_sort(
      result.findings.begin(), result.findings.end(),
      [](const Finding& a, const Finding& b) { return a.check.utilisation > b.check.utilisation; });
  result.solves += planned.solves;
  return result;
}

Outcome Readings::outcome(Reading base, const Override& single) {
  const auto key = std::pair(open_.empty() ? Reading::cautious : base, single);
  if (const auto found = known_.find(key); found != known_.end()) return found->second;
  const deck::Resolved resolved = deck::resolve(survey_, base, single);
  const Outcome o = outcome_of(all_cases(resolved.deck, Depth::utilisation, true));
  known_.emplace(key, o);
  return o;
}

Outcome Readings::screened(Reading base, const Override& single) const {
  const deck::Resolved resolved = deck::resolve(survey_, base, single);
  const DeckAssessment d = assess_deck(
      resolved.deck, standard_,
      {.depth = Depth::utilisation, .extent = Extent::screening, .stop_when_loose = true});
  return outcome_of(d);
}

bool Readings::passes(Reading base, const Override& single) {
  const auto key = std::pair(base, single);
  if (const auto found = known_.find(key); found != known_.end()) return found->second.passes();
  if (failed_.contains(key)) return false;
  if (!screened(base, single).passes()) {
    failed_.insert(key);
    return false;
  }
  return outcome(base, single).passes();
}

Override Readings::as_seen(Override found) const {
  for (const deck::OpenFact& fact : open_) {
    if (fact.must_see && fact.likely == fact.favourable)
      found.emplace(fact.field, Reading::favourable);
  }
  return found;
}

bool Readings::would_carry(const Override& found) {
  return passes(Reading::cautious, found) &&
         !fails(outcome(Reading::likely, as_seen(found)).service);
}

bool Readings::would_carry(const Override& found, double share) const {
  const deck::Resolved cautious = deck::resolve(survey_, Reading::cautious, found, share);
  if (!outcome_of(all_cases(cautious.deck, Depth::utilisation, true)).passes()) return false;
  const deck::Resolved likely = deck::resolve(survey_, Reading::likely, as_seen(found), share);
  return !fails(all_cases(likely.deck, Depth::utilisation, true).service);
}

std::map<std::string, std::string> Readings::taken(const Override& found, double share) const {
  std::map<std::string, std::string> values;
  for (const deck::OpenFact& fact : deck::resolve(survey_, Reading::cautious, found, share).open) {
    if (found.contains(fact.field)) values[fact.field] = fact.taken;
  }
  return values;
}

}  // namespace underprop::assessment
