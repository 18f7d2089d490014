// The search: free moves first, then new lines and the answers to what still fails; every passing set
// is stripped of what it does not need and tried in cheaper forms.
#include "judge.hpp"
#include "options.hpp"
#include "underprop/base/format.hpp"
#include "underprop/planner/planner.hpp"
#include "underprop/solver/analysis.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace underprop::planner {

using record::Reading;
using works::Measure;
using works::Work;

namespace {

class Search {
public:
  Search(const record::Survey& survey, const standards::Standard& standard,
         const costing::PriceBook& book, const Progress& progress)
      : survey_(survey),
        standard_(standard),
        book_(book),
        progress_(progress),
        judge_(survey, standard, book),
        candidates_(survey) {}

  Result run(const assessment::Assessment& as_found);

private:
  [[nodiscard]] bool tell(const std::string& line) const { return !progress_ || progress_(line); }
  [[nodiscard]] bool spent() const { return stopped_ || judge_.assessed() >= budget; }
  /// Repairs a set until it passes, or gives up.
  std::optional<WorkSet> repair(WorkSet set, std::size_t allowance);
  /// The same set with one line of it stronger: next section up, bigger pads, closer pads.
  [[nodiscard]] std::vector<WorkSet> stronger(const WorkSet& set);
  /// Without anything that can be left out.
  WorkSet strip(WorkSet set);
  /// Each work in the cheapest form that still passes.
  WorkSet cheapen(WorkSet set);
  void keep(const WorkSet& set);
  /// The set, or the nearest form of it with closer pads, that stands with any one new pad missing.
  std::optional<WorkSet> firm(const WorkSet& set);
  /// The set as a plan, judged afresh; none if that is not what was promised of it.
  [[nodiscard]] std::optional<Plan> finished(const WorkSet& set, const std::string& name);
  void rests_on(Plan& plan);
  [[nodiscard]] std::vector<std::string> why_none() const;

  /// The next few to be judged together, from the one at `first`.
  [[nodiscard]] static std::vector<WorkSet> portion(const std::vector<WorkSet>& sets,
                                                    std::size_t first) {
    const auto at = [&](std::size_t k) {
      return sets.begin() + static_cast<std::ptrdiff_t>(std::min(k, sets.size()));
    };
    return {at(first), at(first + together)};
  }
  [[nodiscard]] static std::vector<WorkSet> portion(
      const std::vector<std::pair<double, WorkSet>>& priced, std::size_t first) {
    std::vector<WorkSet> sets;
    for (std::size_t k = first; k < std::min(first + together, priced.size()); ++k)
      sets.push_back(priced[k].second);
    return sets;
  }
  /// Judges some on all cores, and tells now and then how far it is.
  void judge_all(const std::vector<WorkSet>& sets);

  /// Sets judged at the most: seconds on an ordinary deck.
  static constexpr std::size_t budget = 360;
  /// Sets judged at a time, whatever the number of cores, so that the plan does not depend on it.
  static constexpr std::size_t together = 4;
  static constexpr std::size_t told_every = 40;

  const record::Survey& survey_;
  const standards::Standard& standard_;
  const costing::PriceBook& book_;
  const Progress& progress_;
  Judge judge_;
  Candidates candidates_;
  std::vector<WorkSet> found_;        ///< passing, stripped
  bool unconfirmed_ = false;          ///< a set passed, but not when judged afresh
  bool pads_missing_failed_ = false;  ///< a set passed every check but hung on one pad
  WorkSet nearest_;
  double nearest_score_ = std::numeric_limits<double>::infinity();
  bool stopped_ = false;
};

std::optional<WorkSet> Search::repair(WorkSet set, std::size_t allowance) {
  constexpr std::size_t most_works = 14;
  constexpr std::size_t failures_looked_at = 3;
  constexpr std::size_t answers_tried = 10;
  const std::size_t limit = judge_.assessed() + allowance;
  while (!spent() && judge_.assessed() < limit && set.size() < most_works) {
    const Judgement now = judge_.judge(set);
    if (!now.possible) return std::nullopt;
    if (now.passes) return set;
    if (now.score < nearest_score_) {
      nearest_score_ = now.score;
      nearest_ = set;
    }
    // All failures of one check on joists alike are answered together, then one by one.
    std::vector<WorkSet> tries;
    std::vector<std::string> checks;
    for (const Failure& failure : now.failures) {
      if (checks.size() >= failures_looked_at) break;
      if (std::find(checks.begin(), checks.end(), failure.check) != checks.end()) continue;
      checks.push_back(failure.check);
      WorkSet joint;
      std::size_t alike = 0;
      for (const Failure& other : now.failures) {
        if (other.check != failure.check) continue;
        const std::vector<WorkSet> answers = candidates_.answers(other, united(set, joint));
        if (answers.empty()) continue;
        // Only small works on the piece itself go together: not a new line for each joist.
        if (answers.front().front().measure == Measure::sister ||
            answers.front().front().measure == Measure::hangers ||
            answers.front().front().measure == Measure::bigger_pad ||
            answers.front().front().measure == Measure::pad) {
          joint = united(joint, answers.front());
          ++alike;
        }
      }
      if (alike > 1) tries.push_back(joint);
      for (const WorkSet& answer : candidates_.answers(failure, set)) tries.push_back(answer);
    }
    if (tries.size() > answers_tried) tries.resize(answers_tried);
    std::vector<WorkSet> nexts = stronger(set);
    for (const WorkSet& extra : tries) {
      WorkSet next = united(set, extra);
      if (next.size() > set.size()) nexts.push_back(std::move(next));
    }
    std::optional<WorkSet> best;
    double best_score = now.score - 1e-3;
    for (std::size_t first = 0; first < nexts.size() && !spent(); first += together) {
      const std::vector<WorkSet> some = portion(nexts, first);
      judge_all(some);
      for (const WorkSet& next : some) {
        const Judgement& j = judge_.judge(next);
        if (!j.possible) continue;
        if (j.passes) return next;
        if (j.score < best_score) {
          best_score = j.score;
          best = next;
        }
      }
    }
    if (!best) return std::nullopt;
    set = std::move(*best);
  }
  return std::nullopt;
}

void Search::judge_all(const std::vector<WorkSet>& sets) {
  const std::size_t before = judge_.assessed() / told_every;
  judge_.judge_all(sets);
  if (judge_.assessed() / told_every == before) return;
  if (!tell(std::to_string(judge_.assessed()) + " sets of works looked at, of " +
            std::to_string(budget) + " at the most" + (found_.empty() ? "; none passes yet" : "")))
    stopped_ = true;
}

std::string form_id(const Work& form) {
  // Forms of a work share their place; what is remembered must tell them apart.
  return form.id.substr(0, form.id.find(':')) + ":" + std::to_string(form.plies) + "x" +
         std::to_string(std::lround(form.breadth.value())) + "x" +
         std::to_string(std::lround(form.depth.value())) + "-" +
         std::to_string(form.places.size()) + "x" +
         std::to_string(std::lround(form.pad_width.value()));
}

std::vector<WorkSet> Search::stronger(const WorkSet& set) {
  std::vector<WorkSet> list;
  for (std::size_t k = 0; k < set.size(); ++k) {
    const Work& now = set[k];
    const auto strength = [](const Work& w) {
      return w.plies * w.breadth.value() * w.depth.value() * w.depth.value();
    };
    std::optional<Work> section, pads, closer;
    for (const Work& form : candidates_.forms(now)) {
      const bool same_pads =
          form.places.size() == now.places.size() && form.pad_width == now.pad_width;
      const bool same_section = strength(form) == strength(now) && form.plies == now.plies;
      if (same_pads && strength(form) > strength(now) &&
          (!section || strength(form) < strength(*section)))
        section = form;
      if (same_section && form.places.size() == now.places.size() &&
          form.pad_width > now.pad_width && (!pads || form.pad_width < pads->pad_width)) {
        pads = form;
      }
      if (same_section && form.pad_width == now.pad_width &&
          form.places.size() > now.places.size() &&
          (!closer || form.places.size() < closer->places.size())) {
        closer = form;
      }
    }
    for (std::optional<Work>* form : {&section, &pads, &closer}) {
      if (!*form) continue;
      WorkSet other = set;
      other[k] = **form;
      other[k].id = form_id(other[k]);
      other = united(std::move(other), {});
      if (other.size() == set.size()) list.push_back(std::move(other));
    }
  }
  return list;
}

WorkSet Search::strip(WorkSet set) {
  const WorkSet single = Candidates::split(set);
  if (judge_.judge(single).passes) set = single;
  bool again = true;
  while (again) {
    again = false;
    WorkSet dear_first = set;
    std::stable_sort(dear_first.begin(), dear_first.end(), [&](const Work& a, const Work& b) {
      return judge_.cost({a}) > judge_.cost({b});
    });
    std::vector<WorkSet> lesser;
    for (const Work& work : dear_first) lesser.push_back(without(set, work.id));
    judge_all(lesser);
    for (const Work& work : dear_first) {
      const WorkSet less = without(set, work.id);
      if (!judge_.judge(less).passes) continue;
      set = less;
      again = true;
      break;
    }
  }
  return set;
}

WorkSet Search::cheapen(WorkSet set) {
  for (std::size_t k = 0; k < set.size(); ++k) {
    std::vector<std::pair<double, WorkSet>> cheaper;
    const double now = judge_.cost(set);
    for (const Work& form : candidates_.forms(set[k])) {
      WorkSet other = set;
      other[k] = form;
      other[k].id = form_id(form);
      other = united(std::move(other), {});
      if (other.size() != set.size()) continue;
      const double cost = judge_.cost(other);
      if (cost < now) cheaper.emplace_back(cost, std::move(other));
    }
    std::stable_sort(cheaper.begin(), cheaper.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    constexpr std::size_t most = 10;
    if (cheaper.size() > most) cheaper.resize(most);
    for (std::size_t n = 0; n < cheaper.size(); ++n) {
      if (stopped_ || judge_.assessed() >= budget + budget / 2) break;
      if (n % together == 0) judge_all(portion(cheaper, n));
      WorkSet& other = cheaper[n].second;
      if (!judge_.passes_with_pads_missing(other)) continue;
      set = std::move(other);
      break;
    }
  }
  return set;
}

std::optional<WorkSet> Search::firm(const WorkSet& set) {
  if (judge_.passes_with_pads_missing(set)) return set;
  if (judge_.judge(set).passes) pads_missing_failed_ = true;
  std::vector<std::pair<double, WorkSet>> closer;
  for (std::size_t k = 0; k < set.size(); ++k) {
    for (const Work& form : candidates_.forms(set[k])) {
      if (form.places.size() <= set[k].places.size()) continue;
      WorkSet other = set;
      other[k] = form;
      other[k].id = form_id(form);
      other = united(std::move(other), {});
      if (other.size() == set.size()) closer.emplace_back(judge_.cost(other), std::move(other));
    }
  }
  std::stable_sort(closer.begin(), closer.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  constexpr std::size_t most = 12;
  if (closer.size() > most) closer.resize(most);
  for (std::size_t n = 0; n < closer.size() && !spent(); ++n) {
    if (n % together == 0) judge_all(portion(closer, n));
    WorkSet& other = closer[n].second;
    if (!judge_.passes_with_pads_missing(other)) continue;
    // In this form something else may have become needless.
    for (bool again = true; again;) {
      again = false;
      for (const Work& work : WorkSet(other)) {
        WorkSet less = without(other, work.id);
        if (!judge_.passes_with_pads_missing(less)) continue;
        other = std::move(less);
        again = true;
        break;
      }
    }
    return std::move(other);
  }
  return std::nullopt;
}

void Search::keep(const WorkSet& set) {
  std::optional<WorkSet> sound = firm(strip(set));
  if (!sound) sound = firm(set);
  if (!sound) return;
  const bool known = std::any_of(found_.begin(), found_.end(),
                                 [&](const WorkSet& other) { return other == *sound; });
  if (known) return;
  found_.push_back(*sound);
  stopped_ = !tell("a set of " + std::to_string(sound->size()) + " works passes, likely cost " +
                   format_decimals(judge_.cost(*sound), 0) + " " + book_.currency +
                   "; looking for a cheaper one");
}

std::optional<Plan> Search::finished(const WorkSet& set, const std::string& name) {
  Plan plan;
  plan.works = in_building_order(set);
  plan.bill = plan.works.empty() ? costing::Bill{}
                                 : costing::price(costing::take_off(plan.works, survey_), book_);
  plan.bill.currency = book_.currency;
  plan.after = works::apply(survey_, plan.works);
  plan.name = name;
  try {
    plan.assessment = assessment::assess(plan.after, standard_, Judge::plan_cases(set));
  } catch (const solver::ProofFailed&) {
    return std::nullopt;
  }
  if (!as_promised(plan.assessment)) return std::nullopt;
  return plan;
}

void Search::rests_on(Plan& plan) {
  const deck::Resolved resolved = deck::resolve(survey_, Reading::cautious);
  constexpr std::size_t most = 8;
  for (std::size_t k = 0; k < std::min(resolved.open.size(), most); ++k) {
    const deck::OpenFact& fact = resolved.open[k];
    const auto passes = [&](const record::Survey& s) {
      const deck::Deck deck =
          deck::resolve(s, Reading::cautious, {{fact.field, Reading::favourable}}).deck;
      try {
        const auto d =
            assessment::assess_deck(deck, standard_, {.depth = assessment::Depth::utilisation});
        return !d.mechanism && !assessment::fails(d.safety);
      } catch (const solver::ProofFailed&) {
        return false;  // nothing is said of what cannot be worked out
      }
    };
    if (passes(survey_)) {
      plan.rests_on.push_back("if " + fact.what + " proves to be " + fact.favourable +
                              ", none of these works is needed for strength: find that out first");
      continue;
    }
    for (const Work& work : plan.works) {
      WorkSet rest = plan.works;
      std::erase_if(rest, [&](const Work& other) { return other.id == work.id; });
      try {
        if (passes(works::apply(survey_, rest))) {
          plan.rests_on.push_back("if " + fact.what + " proves to be " + fact.favourable +
                                  ", this falls away: " + works::describe(work, survey_));
        }
      } catch (const works::Impossible&) {
        continue;  // the rest builds on that work
      }
    }
  }
}

std::vector<std::string> Search::why_none() const {
  std::vector<std::string> list;
  if (pads_missing_failed_) {
    list.push_back(
        "works that pass every check were found, but in all of them one missing pad would drop the "
        "load, and pads closer together do not fit or were not found in time");
  }
  if (unconfirmed_) {
    list.push_back(
        "works that passed every check when they were compared did not when they were judged "
        "afresh: "
        "they are not offered");
  }
  if (judge_.unproved() > 0) {
    list.push_back("of " + std::to_string(judge_.unproved()) +
                   " sets of works the analysis failed its own proof: they are not judged");
  }
  Judge again(survey_, standard_, book_);
  const Judgement& j = again.judge(nearest_);
  for (const Failure& failure : j.failures) {
    if (list.size() >= 3) break;
    list.push_back("no allowed measure mends " + failure.piece + ", " + failure.check +
                   (std::isfinite(failure.utilisation)
                        ? " (" + format_utilisation(failure.utilisation) + " at best)"
                        : ""));
  }
  for (const std::string& reason : j.refers)
    list.push_back("the works would make it refer: " + reason);
  const std::vector<std::string> denied = candidates_.not_allowed();
  if (!denied.empty()) {
    std::string words = "you do not allow: ";
    for (std::size_t k = 0; k < denied.size(); ++k) words += (k > 0 ? ", " : "") + denied[k];
    list.push_back(words + "; allowing it might help");
  } else {
    list.push_back(
        "everything this program knows was allowed: see what compare tells of a concrete pad and a "
        "new deck, or ask a structural engineer");
  }
  return list;
}

Result Search::run(const assessment::Assessment& as_found) {
  Result result;
  // Free moves first.
  const WorkSet nothing;
  if (judge_.judge(nothing).passes && !as_found.must_see.empty()) found_.push_back(nothing);
  const WorkSet packing = candidates_.packing();
  if (found_.empty() && !packing.empty() && judge_.judge(packing).passes) keep(packing);
  if (found_.empty()) {
    stopped_ = !tell("trying other places for the load");
    const std::vector<WorkSet> moves = candidates_.moves();
    for (std::size_t first = 0; first < moves.size() && found_.empty() && !spent();
         first += together) {
      const std::vector<WorkSet> some = portion(moves, first);
      judge_all(some);
      const auto passing = std::find_if(
          some.begin(), some.end(), [&](const WorkSet& move) { return judge_.judge(move).passes; });
      if (passing != some.end()) found_.push_back(*passing);
    }
  }
  if (found_.empty()) {
    stopped_ = stopped_ || !tell("looking for the least works");
    std::vector<WorkSet> seeds{nothing};
    if (!packing.empty()) seeds.push_back(packing);
    std::vector<std::pair<double, WorkSet>> lines;
    std::vector<WorkSet> starts;
    for (const WorkSet& set : candidates_.lines()) starts.push_back(united(set, packing));
    for (std::size_t first = 0; first < starts.size() && !spent(); first += together) {
      const std::vector<WorkSet> some = portion(starts, first);
      judge_all(some);
      for (const WorkSet& start : some) {
        const Judgement& j = judge_.judge(start);
        if (j.possible) lines.emplace_back(j.score, start);
      }
    }
    std::stable_sort(lines.begin(), lines.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    for (auto& [score, set] : lines) seeds.push_back(std::move(set));
    constexpr std::size_t most_seeds = 4;
    if (seeds.size() > most_seeds) seeds.resize(most_seeds);
    for (const WorkSet& seed : seeds) {
      if (spent()) break;
      if (const auto passing = repair(seed, 60)) keep(*passing);
    }
  }
  result.sets_assessed = judge_.assessed();
  if (found_.empty()) {
    result.why_none = why_none();
    return result;
  }
  std::stable_sort(found_.begin(), found_.end(), [&](const WorkSet& a, const WorkSet& b) {
    return judge_.cost(a) < judge_.cost(b);
  });
  // The cheapest few are worth trying in other sections and spacings.
  constexpr std::size_t most_refined = 2;
  for (std::size_t k = 0; k < std::min(found_.size(), most_refined); ++k) {
    WorkSet& set = found_[k];
    if (set.empty()) continue;
    const WorkSet cheaper = strip(cheapen(set));
    if (judge_.passes_with_pads_missing(cheaper) && judge_.cost(cheaper) <= judge_.cost(set))
      set = cheaper;
  }
  std::stable_sort(found_.begin(), found_.end(), [&](const WorkSet& a, const WorkSet& b) {
    return judge_.cost(a) != judge_.cost(b) ? judge_.cost(a) < judge_.cost(b) : a < b;
  });
  while (!found_.empty() && !(result.plan = finished(found_.front(), "least cost"))) {
    found_.erase(found_.begin());
    unconfirmed_ = true;
  }
  if (!result.plan) {
    result.why_none = why_none();
    return result;
  }
  result.found = true;
  rests_on(*result.plan);
  // Nothing costs less than nothing; beyond that this search proves no bound.
  result.lower_bound = 0.0;
  result.proved_optimal = judge_.cost(found_.front()) <= 0.0;
  const auto alternative = [&](const std::string& name, const auto& better) {
    const WorkSet* best = nullptr;
    for (const WorkSet& set : found_) {
      if (best == nullptr || better(set, *best)) best = &set;
    }
    if (best == nullptr || *best == found_.front()) return;
    if (auto other = finished(*best, name)) result.alternatives.push_back(std::move(*other));
  };
  alternative("fewest excavations",
              [](const WorkSet& a, const WorkSet& b) { return pits(a) < pits(b); });
  alternative("fewest works",
              [](const WorkSet& a, const WorkSet& b) { return a.size() < b.size(); });
  if (result.alternatives.size() == 2 &&
      result.alternatives[0].works == result.alternatives[1].works) {
    result.alternatives.pop_back();
  }
  result.sets_assessed = judge_.assessed();
  return result;
}

}  // namespace

Result plan(const record::Survey& survey, const standards::Standard& standard,
            const costing::PriceBook& book, const Progress& progress) {
  Result result;
  const assessment::Assessment as_found = assessment::assess(survey, standard);
  if (as_found.verdict == assessment::Verdict::refer) {
    result.refers = true;
    result.refer_reasons = as_found.refer_reasons;
    return result;
  }
  if (as_found.verdict == assessment::Verdict::carries) {
    result.found = true;
    result.none_needed = true;
    result.proved_optimal = true;
    Plan none;
    none.after = survey;
    none.assessment = as_found;
    none.bill.currency = book.currency;
    none.name = "nothing needed";
    result.plan = std::move(none);
    return result;
  }
  return Search(survey, standard, book, progress).run(as_found);
}

}  // namespace underprop::planner
