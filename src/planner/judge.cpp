#include "judge.hpp"

#include "base/on_all_cores.hpp"
#include "deck/crossing.hpp"
#include "underprop/solver/analysis.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::planner {

using assessment::DeckAssessment;
using assessment::Depth;
using assessment::Extent;
using assessment::PlanCases;
using record::Reading;
using works::Measure;
using works::Work;

namespace {

bool stands_on_new_ground(const Work& work) {
  return work.measure == Measure::pad || work.measure == Measure::sleeper ||
         work.measure == Measure::bearer_on_pads || work.measure == Measure::bigger_pad;
}

int turn_of(Measure measure) {
  switch (measure) {
    case Measure::move_load:
      return 0;
    case Measure::bigger_pad:
      return 1;
    case Measure::pad:
      return 2;
    case Measure::sleeper:
      return 3;
    case Measure::bearer_on_pads:
      return 4;
    case Measure::sister:
      return 5;
    case Measure::added_joist:
      return 6;
    case Measure::hangers:
      return 7;
    case Measure::blocking:
      return 8;
    case Measure::pack:
      return 9;
    case Measure::brace:
      return 10;
    case Measure::ledger_bolts:
      return 11;
  }
  return 12;
}

// A deck far from passing and one further still are told apart up to this utilisation.
constexpr double far_off = 6.0;

}  // namespace

WorkSet united(WorkSet a, const WorkSet& b) {
  a.insert(a.end(), b.begin(), b.end());
  std::stable_sort(a.begin(), a.end(), [](const Work& x, const Work& y) { return x.id < y.id; });
  a.erase(
      std::unique(a.begin(), a.end(), [](const Work& x, const Work& y) { return x.id == y.id; }),
      a.end());
  return a;
}

WorkSet without(const WorkSet& set, const std::string& id) {
  WorkSet rest;
  std::copy_if(set.begin(), set.end(), std::back_inserter(rest),
               [&](const Work& work) { return work.id != id; });
  return rest;
}

std::size_t pits(const WorkSet& set) {
  std::size_t count = 0;
  for (const Work& work : set) {
    if (!stands_on_new_ground(work)) continue;
    count += work.measure == Measure::bigger_pad ? work.pieces.size() : work.places.size();
  }
  return count;
}

WorkSet in_building_order(WorkSet set) {
  std::stable_sort(set.begin(), set.end(), [](const Work& a, const Work& b) {
    return turn_of(a.measure) < turn_of(b.measure);
  });
  return set;
}

bool as_promised(const assessment::Assessment& after) {
  const bool told = after.verdict == assessment::Verdict::carries ||
                    after.verdict == assessment::Verdict::cannot_tell;
  return told && !after.shown.mechanism && !assessment::fails(after.shown.safety) &&
         !assessment::fails(after.utilisation_service.value_or(0.0));
}

std::size_t Judge::unproved() const {
  return static_cast<std::size_t>(std::count_if(
      known_.begin(), known_.end(), [](const auto& known) { return known.second.unproved; }));
}

Judge::Judge(const record::Survey& survey, const standards::Standard& standard,
             const costing::PriceBook& book)
    : survey_(survey), standard_(standard), book_(book) {
  // What the open facts alone make one refer for: first steps of a plan, not its faults.
  const DeckAssessment as_found = assessment::assess_deck(
      deck::resolve(survey_, Reading::cautious).deck, standard_, {.depth = Depth::utilisation});
  known_refers_.insert(as_found.refer_reasons.begin(), as_found.refer_reasons.end());
}

PlanCases Judge::plan_cases(const WorkSet& set) {
  PlanCases cases;
  cases.gap_under_new_supports = true;
  cases.new_and_old_ground_differ = true;
  cases.rewedged = true;
  for (const Work& work : set) {
    if (stands_on_new_ground(work) && !work.rewedge_after_fill) cases.rewedged = false;
  }
  return cases;
}

bool Judge::take(Judgement& j, const DeckAssessment& d, bool service,
                 const std::string& stage) const {
  for (const std::string& reason : d.refer_reasons) {
    if (known_refers_.count(reason) == 0) j.refers.push_back(reason);
  }
  for (const assessment::Finding& f : d.findings) {
    const bool of_service = f.kind == assessment::Kind::service;
    if (of_service != service && !(f.check.check == "equilibrium")) continue;
    if (!assessment::fails(f.check.utilisation)) continue;
    j.failures.push_back({f.id, f.piece, f.check.check, f.at, f.check.utilisation, of_service});
  }
  // Service is resolved at likely facts only if the analysis had numbers at all.
  const double worst = service ? d.service : d.safety;
  if (j.failures.empty() && (assessment::fails(worst) || d.mechanism)) {
    j.failures.push_back({"deck/equilibrium",
                          "deck",
                          "equilibrium",
                          {},
                          std::numeric_limits<double>::infinity(),
                          false});
  }
  if (j.failures.empty() && j.refers.empty()) return true;
  j.stage = stage;
  j.score = 0.0;
  for (const Failure& f : j.failures) j.score += 0.1 + std::min(f.utilisation, far_off) - 1.0;
  for (const Failure& f : j.failures) j.score += f.check == "equilibrium" ? 2.0 * far_off : 0.0;
  j.score += 2.0 * static_cast<double>(j.refers.size()) * far_off;
  j.score = std::min(j.score, 99.0);
  std::stable_sort(j.failures.begin(), j.failures.end(), [](const Failure& a, const Failure& b) {
    return a.utilisation > b.utilisation;
  });
  return false;
}

Judgement Judge::ask(const WorkSet& set) const {
  try {
    return judged(set);
  } catch (const solver::ProofFailed& fault) {
    // One set that cannot be worked out is none to offer, and no reason to leave the others.
    Judgement j;
    j.unproved = true;
    j.stage = fault.what();
    return j;
  }
}

Judgement Judge::judged(const WorkSet& set) const {
  Judgement j;
  record::Survey after;
  try {
    after = works::apply(survey_, set);
  } catch (const works::Impossible& fault) {
    j.stage = fault.what();
    return j;
  }
  j.possible = true;
  const deck::Resolved cautious = deck::resolve(after, Reading::cautious);
  // With no open fact the likely deck is the cautious one, and its assessment tells the service too.
  const bool one_reading = cautious.open.empty();
  const auto run = [&](const PlanCases& with, Extent extent = Extent::whole) {
    return assessment::assess_deck(
        cautious.deck, standard_,
        {.depth = Depth::utilisation, .extent = extent, .plan_cases = with});
  };
  const auto in_service = [&](const PlanCases& with) {
    return assessment::assess_deck(
        deck::resolve(after, Reading::likely).deck, standard_,
        {.depth = Depth::utilisation, .extent = Extent::service, .plan_cases = with});
  };
  const bool new_ground = std::any_of(set.begin(), set.end(), stands_on_new_ground);
  const PlanCases cases = plan_cases(set);
  // Later stages are asked only of what passed the earlier ones, so a later failure is nearer.
  constexpr double step = 100.0;
  if (!take(j, run({}, Extent::screening), false, "packed tight, few bounds")) {
    j.score += 4.0 * step;
    return j;
  }
  const DeckAssessment tight = run({});
  if (!take(j, tight, false, "packed tight")) {
    j.score += 3.0 * step;
    return j;
  }
  if (!take(j, one_reading ? tight : in_service({}), true, "in service")) {
    j.score += 2.0 * step;
    return j;
  }
  if (new_ground) {
    const DeckAssessment gaping = run(cases);
    if (!take(j, gaping, false, "with a gap under new supports and new ground unlike old")) {
      j.score += step;
      return j;
    }
    if (!take(j, one_reading ? gaping : in_service(cases), true,
              "in service, with a gap under new supports and new ground unlike old")) {
      return j;
    }
  }
  j.passes = true;
  j.score = 0.0;
  return j;
}

const Judgement& Judge::judge(const WorkSet& set) {
  judge_all({set});
  return known_.at(set);
}

void Judge::judge_all(const std::vector<WorkSet>& sets) {
  std::vector<const WorkSet*> fresh;
  for (const WorkSet& set : sets) {
    const auto same = [&](const WorkSet* other) { return *other == set; };
    if (!known_.contains(set) && std::none_of(fresh.begin(), fresh.end(), same))
      fresh.push_back(&set);
  }
  std::vector<Judgement> answers(fresh.size());
  on_all_cores(fresh.size(), [&](std::size_t k) { answers[k] = ask(*fresh[k]); });
  for (std::size_t k = 0; k < fresh.size(); ++k) known_[*fresh[k]] = std::move(answers[k]);
}

bool Judge::passes_with_pads_missing(const WorkSet& set) {
  if (!judge(set).passes) return false;
  const auto found = missing_.find(set);
  if (found != missing_.end()) return found->second;
  const record::Survey after = works::apply(survey_, set);
  const deck::Deck deck = deck::resolve(after, Reading::cautious).deck;
  std::set<std::string> old;  // a bigger pad stands where one stood already
  for (const deck::Support& support : deck::resolve(survey_, Reading::cautious).deck.supports) {
    old.insert(support.id);
  }
  std::vector<std::size_t> fresh;
  for (std::size_t s = 0; s < deck.supports.size(); ++s) {
    if (deck.supports[s].added && old.count(works::recorded_name(deck.supports[s].id)) == 0)
      fresh.push_back(s);
  }
  const auto falls = [&](std::size_t k) {
    deck::Deck lacking = deck;
    lacking.supports.erase(lacking.supports.begin() + static_cast<std::ptrdiff_t>(fresh[k]));
    deck::find_meetings(lacking);
    // Only whether it stands: looseness does not depend on the bounds that screening leaves out. What
    // cannot be proved to stand does not.
    try {
      return assessment::assess_deck(lacking, standard_,
                                     {.depth = Depth::utilisation, .extent = Extent::screening})
          .mechanism.has_value();
    } catch (const solver::ProofFailed&) {
      return true;
    }
  };
  const bool stands = first_on_all_cores(fresh.size(), falls) == fresh.size();
  missing_[set] = stands;
  return stands;
}

costing::Bill Judge::bill(const WorkSet& set) const {
  return costing::price(costing::take_off(in_building_order(set), survey_), book_);
}

double Judge::cost(const WorkSet& set) {
  const auto found = costs_.find(set);
  if (found != costs_.end()) return found->second;
  double likely = std::numeric_limits<double>::infinity();
  try {
    likely = set.empty() ? 0.0 : bill(set).total.likely;
  } catch (const works::Impossible&) {
    // Works that cannot be written into the record have no price.
  }
  return costs_[set] = likely;
}

}  // namespace underprop::planner
