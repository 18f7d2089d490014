#include "deciding.hpp"
#include "figures.hpp"
#include "underprop/assessment/assessment.hpp"
#include "underprop/record/facts.hpp"
#include "verdict_words.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace underprop::assessment {

using record::Reading;
using standards::CheckKind;

namespace {

class Judge {
public:
  Judge(const record::Survey& survey, const standards::Standard& standard,
        const PlanCases& plan_cases)
      : survey_(survey),
        standard_(standard),
        readings_(survey, standard, plan_cases),
        deciding_(readings_) {}

  Assessment judge();

private:
  void must_see(Assessment& a, const deck::Deck& cautious) const;
  /// The verdict and its grounds, once the readings are assessed.
  void decide(Assessment& a, const deck::Deck& cautious, const DeckAssessment& at_likely,
              const DeckAssessment& best, const Override& seen);
  void take(Assessment& a, DeckAssessment reading) const;
  /// The reading that the verdict rests on, its cause first.
  void show(Assessment& a, const DeckAssessment& best, const Override& seen) const;

  const record::Survey& survey_;
  const standards::Standard& standard_;
  Readings readings_;
  Deciding deciding_;
};

void Judge::must_see(Assessment& a, const deck::Deck& deck) const {
  // A thing must be seen if the load reaches it, whichever reading of the rest is right.
  std::set<std::string> loaded(a.shown.loaded_pieces.begin(), a.shown.loaded_pieces.end());
  const bool everything = a.shown.mechanism.has_value();
  std::map<std::string, MustSee> list;
  const auto act = [](Sight sight) {
    switch (sight) {
      case Sight::joists_held:
        return record::fact_kind("joists/held").act;
      case Sight::ledger_wall:
      case Sight::ledger_band:
        return record::fact_kind("ledgers/fixed_to").act;
      case Sight::supports_tight:
      case Sight::wall_tight:
        return record::fact_kind("supports/footing/contact").act;
      case Sight::load_mass:
      case Sight::load_contents:
      case Sight::load_footprint:
        return record::fact_kind("loads/width").act;
      default:
        return record::fact_kind("probed").act;
    }
  };
  const auto put = [&](const std::string& field, bool recorded, Sight sight,
                       const std::string& piece, bool at_start = false) {
    const auto [it, fresh] =
        list.emplace(field, MustSee{field, recorded, sight, piece, at_start, act(sight)});
    if (!fresh) it->second.recorded = it->second.recorded && recorded;
  };
  const auto is_loaded = [&](const std::string& id) { return everything || loaded.contains(id); };
  const auto& record = survey_.deck;
  for (const deck::Joist& joist : deck.joists) {
    if (joist.added || !is_loaded(joist.id)) continue;
    const std::string& group = record.joists[static_cast<std::size_t>(joist.group)].name;
    put("/deck/probed/" + group, joist.probed, Sight::joists_sound, group);
    for (const deck::EndHold* hold : {&joist.start, &joist.end}) {
      if (!hold->field.empty())
        put(hold->field, hold->recorded, Sight::joists_held, group, hold == &joist.start);
    }
  }
  for (const deck::Bearer& bearer : deck.bearers) {
    if (bearer.added || !is_loaded(bearer.id)) continue;
    const std::string& group = record.bearers[static_cast<std::size_t>(bearer.index)].name;
    put("/deck/probed/" + group, bearer.probed, Sight::bearer_sound, group);
  }
  for (const deck::Ledger& ledger : deck.ledgers) {
    if (!is_loaded(ledger.id)) continue;
    const std::string& name = record.ledgers[static_cast<std::size_t>(ledger.index)].name;
    put("/deck/probed/" + name, ledger.probed, Sight::ledger_sound, name);
    put("/deck/ledgers/" + std::to_string(ledger.index) + "/fixed_to", ledger.wall_recorded,
        Sight::ledger_wall, name);
    put("/deck/ledgers/" + std::to_string(ledger.index) + "/band_condition", ledger.band_seen,
        Sight::ledger_band, name);
  }
  for (const deck::Support& support : deck.supports) {
    if (support.added || !is_loaded(support.id)) continue;
    const std::string& group = record.supports[static_cast<std::size_t>(support.group)].name;
    if (support.post) put("/deck/probed/" + group, support.probed, Sight::posts_sound, group);
  }
  for (std::size_t l = 0; l < deck.loads.size(); ++l) {
    const std::string at = "/loads/" + std::to_string(l);
    const deck::Load& load = deck.loads[l];
    const std::string name = load.name.empty() ? "load " + std::to_string(l + 1) : load.name;
    put(at + "/dry_mass", load.mass_recorded, Sight::load_mass, name);
    put(at + "/contents", load.contents_recorded, Sight::load_contents, name);
    put(at + "/footprint", load.footprint_recorded, Sight::load_footprint, name);
  }
  for (auto& [field, item] : list) a.must_see.push_back(std::move(item));
}

/// Which of what fails is the cause and which its symptom; smaller first. What holds a joist or a ledger gives
/// way before what is held by it; posts that nothing keeps from swaying buckle because of that.
int cause(const Finding& f) {
  switch (f.check.kind) {
    case CheckKind::equilibrium:
      return 0;
    case CheckKind::joist_end:
    case CheckKind::ledger_fixing:
    case CheckKind::ledger_pull_off:
    case CheckKind::end_connection:
      return 1;
    case CheckKind::toppling:
    case CheckKind::sway_x:
    case CheckKind::sway_y:
      return 2;
    default:
      return 3;
  }
}

/// What fails worst, or its cause where sway or a post without limit is only a symptom.
const Finding& first_to_tell(const std::vector<Finding>& findings) {
  const Finding& worst = findings.front();
  const int rank = cause(worst);
  const bool symptom = rank == 2 || (rank == 3 && !std::isfinite(worst.check.utilisation));
  if (!fails(worst.check.utilisation) || !symptom) return worst;
  const Finding* first = &worst;
  for (const Finding& f : findings) {
    if (f.kind != Kind::safety || !fails(f.check.utilisation)) continue;
    // Sway that is finite explains no column without limit.
    if (cause(f) == 2 && rank == 3 && std::isfinite(f.check.utilisation)) continue;
    if (cause(f) < cause(*first)) first = &f;
  }
  return *first;
}

/// The finding that is told first, at the front.
void put_first(std::vector<Finding>& findings, const std::string& id) {
  const auto found =
      std::find_if(findings.begin(), findings.end(), [&](const Finding& f) { return f.id == id; });
  if (found != findings.end()) std::rotate(findings.begin(), found, found + 1);
}

GivesOut first_of(const DeckAssessment& d) {
  GivesOut first{d.mechanism, {}};
  std::vector<Finding> safety;
  std::copy_if(d.findings.begin(), d.findings.end(), std::back_inserter(safety),
               [](const Finding& f) { return f.kind == Kind::safety; });
  if (!d.mechanism && !safety.empty()) first.finding = first_to_tell(safety);
  return first;
}

Assessment Judge::judge() {
  Assessment a;
  a.standard = standard_.name();
  a.standard_id = survey_.standard;
  a.with_load = !survey_.loads.empty();
  const deck::Resolved cautious = deck::resolve(survey_, Reading::cautious);
  readings_.open_facts(cautious.open);
  const bool recorded = cautious.open.empty();  // the three readings are one deck
  const Override seen = readings_.as_seen({});
  const deck::Resolved likely = deck::resolve(survey_, Reading::likely, seen);
  take(a, readings_.all_cases(cautious.deck, Depth::full));
  // With no open fact the three readings are one deck.
  const DeckAssessment at_likely =
      recorded ? a.shown : readings_.all_cases(likely.deck, Depth::utilisation);
  // Surroundings that nobody looked at, and that are out of reach of every loaded footing at their worst.
  if (!a.shown.mechanism) {
    std::vector<deck::OpenFact> open = cautious.open;
    std::erase_if(open, [&](const deck::OpenFact& fact) {
      const auto& site = cautious.deck.site.feared;
      return std::ranges::any_of(site, [&](const auto& f) { return f.first == fact.field; }) &&
             std::ranges::find(a.shown.feared, fact.field) == a.shown.feared.end();
    });
    readings_.open_facts(std::move(open));
  }
  readings_.known(Reading::cautious, {}, outcome_of(a.shown));
  if (!recorded) readings_.known(Reading::likely, seen, outcome_of(at_likely));
  // What resolving assumed, then what the assessment did (not_modelled decks tell only the former).
  a.assumptions = a.shown.assumptions;
  a.open = readings_.open();

  // Service is judged at likely facts; safety at cautious ones.
  for (const Finding& f : at_likely.findings) {
    if (f.kind == Kind::service) a.service_findings.push_back(f);
  }
  a.utilisation_service = at_likely.service;
  must_see(a, cautious.deck);
  a.cautions = a.shown.cautions;
  // With no open fact the three readings are one deck.
  const DeckAssessment best =
      recorded ? a.shown
               : readings_.all_cases(deck::resolve(survey_, Reading::favourable).deck,
                                     Depth::utilisation);
  if (!recorded) readings_.known(Reading::favourable, {}, outcome_of(best));

  decide(a, cautious.deck, at_likely, best, seen);
  show(a, best, seen);
  return a;
}

void Judge::take(Assessment& a, DeckAssessment reading) const {
  a.shown = std::move(reading);
  if (a.shown.mechanism) {
    const std::string told = told_as_unseen(*a.shown.mechanism, survey_);
    for (Finding& finding : a.shown.findings) {
      if (finding.where == *a.shown.mechanism) finding.where = told;
    }
    a.shown.mechanism = told;
  }
}

void Judge::show(Assessment& a, const DeckAssessment& best, const Override& seen) const {
  // The numbers on the screen are those of the reading that the sentence speaks of.
  if (!a.open.empty()) {
    if (a.grounds == Grounds::fails_at_best) {
      a.reading = Reading::favourable;
      take(a, readings_.all_cases(deck::resolve(survey_, Reading::favourable).deck, Depth::full));
    } else if (a.grounds == Grounds::fails_at_likely || a.grounds == Grounds::nobody_has_looked) {
      a.reading = Reading::likely;
      take(a, readings_.all_cases(deck::resolve(survey_, Reading::likely, seen).deck, Depth::full));
    } else if (a.verdict == Verdict::cannot_tell) {
      for (const Finding& f : best.findings) {
        if (f.kind == Kind::safety) a.at_best[f.id] = f.check.utilisation;
      }
    }
  }
  std::erase_if(a.shown.findings, [](const Finding& f) { return f.kind == Kind::service; });
  // What fails without the load is claimed only where no open fact could turn it.
  for (Finding& f : a.shown.ordinary_use) {
    f.guessed = std::none_of(best.ordinary_use.begin(), best.ordinary_use.end(),
                             [&](const Finding& other) { return other.id == f.id; });
  }
  std::stable_partition(a.shown.ordinary_use.begin(), a.shown.ordinary_use.end(),
                        [](const Finding& f) { return !f.guessed; });
  if (a.grounds == Grounds::refers || a.shown.findings.empty()) {
    a.governing.reset();
    return;
  }
  const std::string id =
      a.first && a.first->finding ? a.first->finding->id : first_to_tell(a.shown.findings).id;
  put_first(a.shown.findings, id);
  a.governing = a.shown.findings.front();
}

void Judge::decide(Assessment& a, const deck::Deck& cautious, const DeckAssessment& at_likely,
                   const DeckAssessment& best, const Override& seen) {
  const auto is = [&a](Verdict verdict, Grounds grounds, std::vector<Kind> fails = {}) {
    a.verdict = verdict;
    a.grounds = grounds;
    a.fails = std::move(fails);
  };
  if (!best.refer_reasons.empty()) {
    is(Verdict::refer, Grounds::refers);
    a.refer_reasons = best.refer_reasons;
    return;
  }
  const bool loose = a.shown.mechanism.has_value();
  const bool safe = !fails(a.shown.safety) && !loose && a.shown.refer_reasons.empty();
  if (!loose && std::isfinite(a.shown.safety)) a.utilisation = a.shown.safety;
  std::vector<std::string> missing;
  for (const MustSee& item : a.must_see) {
    if (!item.recorded) missing.push_back(item.field);
  }
  deciding_.rank(a, loose ? infinite : a.shown.safety);
  // All of them at their worst, and nothing fails: there is nothing to find out but what must be seen.
  if (safe) {
    std::erase_if(a.unknowns, [&](const Unknown& fact) {
      return std::ranges::find(missing, fact.field) == missing.end();
    });
  }
  const bool service_fails = fails(at_likely.service) && !at_likely.mechanism;
  std::vector<Kind> both{Kind::safety};
  if (service_fails) both.push_back(Kind::service);

  if (fails(outcome_of(best).safety)) {
    is(Verdict::does_not_carry, Grounds::fails_at_best, both);
    a.first = first_of(a.open.empty() ? a.shown : best);
    if (a.first->mechanism)
      a.first->mechanism =
          with_reason(*a.first->mechanism,
                      a.open.empty() ? cautious : deck::resolve(survey_, Reading::favourable).deck);
    return;
  }
  if (safe && missing.empty()) {
    // Loose by another reading of what nobody recorded: whatever the cautious one says, it is not held.
    if (at_likely.mechanism) {
      a.first = first_of(at_likely);
      return is(Verdict::does_not_carry, Grounds::fails_at_likely, both);
    }
    if (service_fails) return is(Verdict::does_not_carry, Grounds::service_fails, {Kind::service});
    return is(Verdict::carries, Grounds::every_check_passes);
  }
  const bool likely_passes = !fails(readings_.outcome(Reading::likely, seen).safety);
  if (!likely_passes) a.first = first_of(at_likely);
  // Nobody has looked yet: whatever the guesses say, it is too early for a verdict.
  const std::size_t to_see = Deciding::missing_acts(a).size();
  if (to_see > most_acts) return is(Verdict::cannot_tell, Grounds::nobody_has_looked);
  if (!likely_passes && !deciding_.one_or_two_would_do()) {
    return to_see > 1 ? is(Verdict::cannot_tell, Grounds::nobody_has_looked)
                      : is(Verdict::does_not_carry, Grounds::fails_at_likely, both);
  }
  if (service_fails) {
    return is(Verdict::does_not_carry,
              safe ? Grounds::service_fails_unseen : Grounds::service_fails_first, {Kind::service});
  }
  is(Verdict::cannot_tell,
     deciding_.find(a) ? Grounds::facts_decide : Grounds::no_few_facts_decide);
}

}  // namespace

Assessment assess(const record::Survey& survey, const standards::Standard& standard,
                  const PlanCases& plan_cases) {
  return Judge(survey, standard, plan_cases).judge();
}

std::vector<ActNeeded> acts_for(const Assessment& a, const std::vector<std::string>& fields) {
  std::vector<ActNeeded> acts;
  for (const std::string& field : fields) {
    std::optional<record::Act> act;
    for (const deck::OpenFact& fact : a.open) {
      if (!act && fact.field == field) act = fact.act;
    }
    for (const MustSee& item : a.must_see) {
      if (!act && item.field == field) act = item.act;
    }
    if (!act) continue;
    const auto same = std::ranges::find(acts, *act, &ActNeeded::act);
    if (same == acts.end()) {
      acts.push_back({*act, {field}});
    } else if (std::ranges::find(same->fields, field) == same->fields.end()) {
      same->fields.push_back(field);
    }
  }
  return acts;
}

std::unique_ptr<standards::Standard> standard_for(record::StandardId id) {
  return id == record::StandardId::eurocode_uk ? standards::make_eurocode_uk()
                                               : standards::make_north_america_us();
}

const char* to_string(Verdict verdict) {
  switch (verdict) {
    case Verdict::carries:
      return "carries";
    case Verdict::does_not_carry:
      return "does not carry";
    case Verdict::cannot_tell:
      return "cannot tell";
    case Verdict::refer:
      return "refer";
  }
  return "refer";
}

const char* to_string(Kind kind) {
  switch (kind) {
    case Kind::safety:
      return "safety";
    case Kind::service:
      return "service";
    case Kind::ordinary_use:
      return "ordinary use";
  }
  return "safety";
}

}  // namespace underprop::assessment
