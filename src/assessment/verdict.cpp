#include "run.hpp"
#include "underprop/base/format.hpp"
#include "underprop/record/facts.hpp"
#include "verdict_words.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace underprop::assessment {

using deck::OpenFact;
using record::Reading;
using Override = std::map<std::string, Reading>;

namespace {

/// What one reading of the facts says.
struct Outcome {
  double safety = 0.0;
  double service = 0.0;
  bool refers = false;
  [[nodiscard]] bool passes() const { return safety <= 1.0 && !refers; }
};

class Judge {
public:
  Judge(const record::Survey& survey, const standards::Standard& standard,
        const PlanCases& plan_cases)
      : survey_(survey), standard_(standard), plan_cases_(plan_cases) {}

  Assessment judge();

private:
  DeckAssessment all_cases(const deck::Deck& deck, Depth depth, bool stop_when_loose = false) const;
  Outcome outcome(Reading base, const Override& single);
  /// Whether safety passes so. What fails in a few bounds need not be asked in all.
  bool passes(Reading base, const Override& single);
  /// The utilisation in a few bounds only: a lower bound; infinity where something is loose.
  [[nodiscard]] double screened(Reading base, const Override& single) const;
  /// Likely facts, with what must be seen found as it usually is.
  [[nodiscard]] Override as_seen(Override found) const;
  /// The fact in words.
  [[nodiscard]] std::string words(const Assessment& a, const std::string& field) const;
  void must_see(Assessment& a, const deck::Resolved& cautious, const deck::Resolved& likely) const;
  void rank(Assessment& a, double now);
  bool find_decides(Assessment& a, const std::vector<std::string>& missing);
  /// Would the deck carry with these facts found so? Safety with the rest cautious, service with the
  /// rest likely.
  [[nodiscard]] bool would_carry(const Override& found) {
    return passes(Reading::cautious, found) &&
           outcome(Reading::likely, as_seen(found)).service <= 1.0;
  }
  [[nodiscard]] std::vector<std::string> passes_if(const std::vector<std::string>& fields);
  [[nodiscard]] const OpenFact* open(const std::string& field) const;
  [[nodiscard]] bool one_or_two_would_do();

  const record::Survey& survey_;
  const standards::Standard& standard_;
  PlanCases plan_cases_;
  std::vector<OpenFact> open_;
  std::vector<std::string> ranked_;  ///< fields by swing, largest first
  std::map<std::pair<Reading, Override>, Outcome> known_;
  std::set<std::pair<Reading, Override>> failed_;  ///< in a few bounds already
};

DeckAssessment Judge::all_cases(const deck::Deck& deck, Depth depth, bool stop_when_loose) const {
  DeckAssessment result = assess_deck(deck, standard_, {.stop_when_loose = stop_when_loose}, depth);
  if (stop_when_loose && result.mechanism) return result;
  if (!plan_cases_.gap_under_new_supports && !plan_cases_.new_and_old_ground_differ) return result;
  // A plan also passes with the gaps of careless packing and with new ground unlike old.
  const DeckAssessment planned = assess_deck(deck, standard_, plan_cases_, depth);
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

Outcome Judge::outcome(Reading base, const Override& single) {
  const auto key = std::pair(open_.empty() ? Reading::cautious : base, single);
  if (const auto found = known_.find(key); found != known_.end()) return found->second;
  const deck::Resolved resolved = deck::resolve(survey_, base, single);
  const DeckAssessment d = all_cases(resolved.deck, Depth::utilisation, true);
  Outcome o;
  o.safety = d.mechanism ? std::numeric_limits<double>::infinity() : d.safety;
  o.service = d.service;
  o.refers = !d.refer_reasons.empty();
  known_.emplace(key, o);
  return o;
}

double Judge::screened(Reading base, const Override& single) const {
  const deck::Resolved resolved = deck::resolve(survey_, base, single);
  const DeckAssessment d = assess_deck(
      resolved.deck, standard_, {.screening = true, .stop_when_loose = true}, Depth::utilisation);
  return d.mechanism ? std::numeric_limits<double>::infinity() : d.safety;
}

bool Judge::passes(Reading base, const Override& single) {
  const auto key = std::pair(base, single);
  if (const auto found = known_.find(key); found != known_.end()) return found->second.passes();
  if (failed_.contains(key)) return false;
  if (screened(base, single) > 1.0) {
    failed_.insert(key);
    return false;
  }
  return outcome(base, single).passes();
}

Override Judge::as_seen(Override found) const {
  for (const OpenFact& fact : open_) {
    if (fact.must_see && fact.likely == fact.favourable)
      found.emplace(fact.field, Reading::favourable);
  }
  return found;
}

std::string Judge::words(const Assessment& a, const std::string& field) const {
  for (const MustSee& item : a.must_see) {
    if (item.field == field) return item.what;
  }
  const OpenFact* fact = open(field);
  return fact != nullptr ? fact->what : field;
}

const OpenFact* Judge::open(const std::string& field) const {
  const auto found =
      std::find_if(open_.begin(), open_.end(), [&](const OpenFact& f) { return f.field == field; });
  return found == open_.end() ? nullptr : &*found;
}

void Judge::must_see(Assessment& a, const deck::Resolved& cautious,
                     const deck::Resolved& likely) const {
  // A thing must be seen if the load reaches it, whichever reading of the rest is right.
  std::set<std::string> loaded(a.cautious.loaded_pieces.begin(), a.cautious.loaded_pieces.end());
  const bool everything = a.cautious.mechanism.has_value();
  const deck::Deck& deck = cautious.deck;
  std::map<std::string, MustSee> list;
  const auto put = [&](const std::string& field, bool recorded, const std::string& what) {
    const auto [it, fresh] = list.emplace(field, MustSee{field, recorded, what});
    if (!fresh) it->second.recorded = it->second.recorded && recorded;
  };
  const auto is_loaded = [&](const std::string& id) { return everything || loaded.contains(id); };
  const auto& record = survey_.deck;
  for (const deck::Joist& joist : deck.joists) {
    if (joist.added || !is_loaded(joist.id)) continue;
    const std::string& group = record.joists[static_cast<std::size_t>(joist.group)].name;
    put("/deck/probed/" + group, joist.probed,
        "whether joists " + group + " are sound: a screwdriver along their length");
    for (const deck::EndHold* hold : {&joist.start, &joist.end}) {
      if (hold->field.empty()) continue;
      put(hold->field, hold->recorded,
          "what holds joists " + group + " at the " +
              (hold == &joist.start ? "end nearer to corner A" : "far end"));
    }
  }
  for (const deck::Bearer& bearer : deck.bearers) {
    if (bearer.added || !is_loaded(bearer.id)) continue;
    const std::string& group = record.bearers[static_cast<std::size_t>(bearer.index)].name;
    put("/deck/probed/" + group, bearer.probed,
        "whether bearer " + group + " is sound: a screwdriver along it");
  }
  for (const deck::Ledger& ledger : deck.ledgers) {
    if (!is_loaded(ledger.id)) continue;
    const auto& named = record.ledgers[static_cast<std::size_t>(ledger.index)];
    put("/deck/probed/" + named.name, ledger.probed,
        "whether ledger " + named.name + " is sound: a screwdriver along it");
    put("/deck/ledgers/" + std::to_string(ledger.index) + "/fixed_to", ledger.wall_recorded,
        "what ledger " + named.name + " is fixed to");
  }
  for (const deck::Support& support : deck.supports) {
    if (support.added || !is_loaded(support.id)) continue;
    const auto& group = record.supports[static_cast<std::size_t>(support.group)];
    if (support.post)
      put("/deck/probed/" + group.name, support.probed,
          "whether posts " + group.name + " are sound: a screwdriver at their feet");
    put(support.contact_field, support.footing.contact_recorded,
        "whether the wood stands tight on the supports " + group.name);
  }
  for (const deck::Wall& wall : deck.walls) {
    if (wall.added || !is_loaded(wall.id)) continue;
    put(wall.contact_field, wall.contact_recorded,
        "whether the joists lie tight on wall " + wall.id);
  }
  for (std::size_t l = 0; l < deck.loads.size(); ++l) {
    const std::string at = "/loads/" + std::to_string(l);
    const std::string name =
        deck.loads[l].name.empty() ? "load " + std::to_string(l + 1) : deck.loads[l].name;
    put(at + "/dry_mass", deck.loads[l].mass_recorded, "what the " + name + " weighs empty");
    put(at + "/contents", deck.loads[l].contents_recorded, "how much the " + name + " holds");
    put(at + "/footprint", deck.loads[l].footprint_recorded,
        "how large the " + name + " is on the boards");
  }
  static_cast<void>(likely);
  for (auto& [field, item] : list) a.must_see.push_back(std::move(item));
}

void Judge::rank(Assessment& a, double now) {
  // Where something is loose at cautious facts, one fact found well seldom mends it, and all would rank
  // alike: there a fact counts by the harm that it alone does where the others turn out well.
  const auto capped = [](double safety) { return std::isfinite(safety) ? safety : 99.0; };
  // A few bounds do for that order.
  const double at_best = std::isfinite(now) ? now : screened(Reading::favourable, {});
  std::vector<std::pair<double, std::size_t>> order;
  for (std::size_t k = 0; k < open_.size(); ++k) {
    const std::string& field = open_[k].field;
    const double moved =
        std::isfinite(now)
            ? now - capped(outcome(Reading::cautious, {{field, Reading::favourable}}).safety)
            : capped(screened(Reading::favourable, {{field, Reading::cautious}})) - capped(at_best);
    Unknown unknown;
    unknown.field = open_[k].field;
    unknown.what = open_[k].what;
    unknown.swing = std::max(0.0, moved);
    unknown.find_out = open_[k].find_out;
    unknown.cautious = open_[k].cautious;
    unknown.likely = open_[k].likely;
    unknown.favourable = open_[k].favourable;
    a.unknowns.push_back(std::move(unknown));
    order.emplace_back(-a.unknowns.back().swing, k);
  }
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& x, const auto& y) { return x.first < y.first; });
  std::vector<Unknown> sorted;
  for (const auto& [minus, k] : order) {
    sorted.push_back(a.unknowns[k]);
    ranked_.push_back(open_[k].field);
  }
  a.unknowns = std::move(sorted);
}

std::vector<std::string> Judge::passes_if(const std::vector<std::string>& fields) {
  std::vector<std::string> words;
  for (const std::string& field : fields) {
    const OpenFact* fact = open(field);
    if (fact == nullptr) {
      words.push_back("recorded and sound");
      continue;
    }
    // The least that passes: the likely value if that is enough beside the others, else the favourable.
    Override with;
    for (const std::string& other : fields) {
      if (open(other) != nullptr)
        with[other] = other == field ? Reading::likely : Reading::favourable;
    }
    const bool likely_will_do = fact->likely != fact->cautious && would_carry(with);
    const std::string& least = likely_will_do ? fact->likely : fact->favourable;
    const bool best = least == "tight" || least == "sound" || least == "yes" || least == "no";
    words.push_back(least + (best ? "" : " or better"));
  }
  return words;
}

bool Judge::find_decides(Assessment& a, const std::vector<std::string>& missing) {
  constexpr std::size_t most = 3;
  constexpr std::size_t pool_size = 5;
  Override always;
  for (const std::string& field : missing) {
    if (open(field) != nullptr) always[field] = Reading::favourable;
  }
  const auto passes = [&](const std::vector<std::string>& extra) {
    Override with = always;
    for (const std::string& field : extra) with[field] = Reading::favourable;
    return would_carry(with);
  };
  const auto put = [&](const std::vector<std::string>& extra) {
    Decides decides;
    decides.fields = missing;
    decides.fields.insert(decides.fields.end(), extra.begin(), extra.end());
    decides.passes_if = passes_if(decides.fields);
    for (const std::string& field : decides.fields) decides.what.push_back(words(a, field));
    a.decides.push_back(std::move(decides));
  };
  if (missing.size() > most) return false;
  if (passes({})) {
    put({});
    return true;
  }
  std::vector<std::string> pool;
  for (const std::string& field : ranked_) {
    if (std::find(missing.begin(), missing.end(), field) == missing.end()) pool.push_back(field);
  }
  if (missing.size() + 1 <= most) {
    for (const std::string& field : pool) {
      if (passes({field})) put({field});
    }
    if (!a.decides.empty()) return true;
  }
  if (pool.size() > pool_size) pool.resize(pool_size);
  if (missing.size() + 2 <= most) {
    for (std::size_t i = 0; i < pool.size(); ++i) {
      for (std::size_t k = i + 1; k < pool.size(); ++k) {
        if (passes({pool[i], pool[k]})) put({pool[i], pool[k]});
      }
    }
    if (!a.decides.empty()) return true;
  }
  if (missing.size() + 3 <= most) {
    for (std::size_t i = 0; i < pool.size(); ++i) {
      for (std::size_t k = i + 1; k < pool.size(); ++k) {
        for (std::size_t m = k + 1; m < pool.size(); ++m) {
          if (passes({pool[i], pool[k], pool[m]})) put({pool[i], pool[k], pool[m]});
        }
      }
    }
  }
  return !a.decides.empty();
}

bool Judge::one_or_two_would_do() {
  for (const std::string& field : ranked_) {
    if (passes(Reading::likely, as_seen({{field, Reading::favourable}}))) return true;
  }
  const std::size_t n = std::min<std::size_t>(ranked_.size(), 5);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = i + 1; k < n; ++k) {
      if (passes(Reading::likely,
                 as_seen({{ranked_[i], Reading::favourable}, {ranked_[k], Reading::favourable}}))) {
        return true;
      }
    }
  }
  return false;
}

std::string percent(double utilisation) {
  if (!std::isfinite(utilisation)) return "without limit";
  return format_decimals(std::ceil(utilisation * 100.0 - 1e-9), 0) + " %";
}

/// Posts that nothing keeps from swaying buckle without limit: what is missing says more than they do.
const Finding& first_to_tell(const std::vector<Finding>& findings) {
  const auto sways = std::find_if(findings.begin(), findings.end(), [](const Finding& f) {
    return f.check.check.starts_with("sway along") && !std::isfinite(f.check.utilisation);
  });
  return sways != findings.end() && findings.front().check.check == "post, buckling"
             ? *sways
             : findings.front();
}

std::string closest(const Finding& f) {
  if (f.check.check.starts_with("sway along") && !std::isfinite(f.check.utilisation)) {
    for (const standards::Step& step : f.check.steps) {
      if (step.symbol == "R" && !step.expression.empty()) {
        std::string why = step.expression;
        if (why.back() == '.') why.pop_back();
        return f.piece + ", " + f.check.check + ", " + why;
      }
    }
  }
  return f.piece + ", " + f.check.check + ", " + percent(f.check.utilisation);
}

Assessment Judge::judge() {
  Assessment a;
  a.standard = standard_.name();
  const deck::Resolved cautious = deck::resolve(survey_, Reading::cautious);
  open_ = cautious.open;
  const Override seen = as_seen({});
  const deck::Resolved likely = deck::resolve(survey_, Reading::likely, seen);
  a.cautious = all_cases(cautious.deck, Depth::full);
  if (a.cautious.mechanism) {
    const std::string told = told_as_unseen(*a.cautious.mechanism, survey_);
    for (Finding& finding : a.cautious.findings) {
      if (finding.where == *a.cautious.mechanism) finding.where = told;
    }
    a.cautious.mechanism = told;
  }
  // With no open fact the three readings are one deck.
  const DeckAssessment at_likely =
      open_.empty() ? a.cautious : all_cases(likely.deck, Depth::utilisation);
  known_[{Reading::cautious, {}}] = {
      a.cautious.mechanism ? std::numeric_limits<double>::infinity() : a.cautious.safety,
      a.cautious.service, !a.cautious.refer_reasons.empty()};
  if (!open_.empty())
    known_[{Reading::likely, seen}] = {
        at_likely.mechanism ? std::numeric_limits<double>::infinity() : at_likely.safety,
        at_likely.service, !at_likely.refer_reasons.empty()};
  // What resolving assumed, then what the assessment did (not_modelled decks tell only the former).
  a.assumptions = a.cautious.assumptions;
  for (const OpenFact& fact : open_) {
    a.assumptions.push_back(fact.what + ": " + (fact.range ? "a range" : "not known") +
                            ", taken as " + fact.cautious + " (likely " + fact.likely + ")");
  }

  // Service is judged at likely facts; safety at cautious ones.
  for (const Finding& f : at_likely.findings) {
    if (f.kind == Kind::service) a.service_findings.push_back(f);
  }
  std::erase_if(a.cautious.findings, [](const Finding& f) { return f.kind == Kind::service; });
  a.utilisation_service = at_likely.service;
  if (!a.cautious.findings.empty()) a.governing = first_to_tell(a.cautious.findings);
  must_see(a, cautious, likely);
  a.cautions = a.cautious.cautions;

  const Outcome favourable = outcome(Reading::favourable, {});
  if (favourable.refers) {
    // Refers whatever the open facts turn out to be.
    const deck::Resolved best = deck::resolve(survey_, Reading::favourable);
    const DeckAssessment d = all_cases(best.deck, Depth::utilisation);
    a.verdict = Verdict::refer;
    a.refer_reasons = d.refer_reasons;
    a.sentence = "Refer to a structural engineer, because ";
    for (std::size_t k = 0; k < a.refer_reasons.size(); ++k)
      a.sentence += (k > 0 ? "; " : "") + a.refer_reasons[k];
    a.sentence += ".";
    a.governing.reset();
    return a;
  }
  const bool safe = a.cautious.safety <= 1.0 && !a.cautious.mechanism;
  const bool refers_cautious = !a.cautious.refer_reasons.empty();
  if (!a.cautious.mechanism && std::isfinite(a.cautious.safety)) a.utilisation = a.cautious.safety;

  std::vector<std::string> missing;
  for (const MustSee& item : a.must_see) {
    if (!item.recorded) missing.push_back(item.field);
  }
  rank(a, a.cautious.mechanism ? std::numeric_limits<double>::infinity() : a.cautious.safety);

  std::string ordinary;
  if (!a.cautious.ordinary_use.empty()) {
    ordinary = " Apart from the load, the deck fails a check in ordinary use already: " +
               closest(a.cautious.ordinary_use.front()) + ".";
  }
  const bool service_fails = at_likely.service > 1.0 && !at_likely.mechanism;
  const auto service_words = [&] {
    const Finding& f = a.service_findings.front();
    return "expected to move " + format_decimals(f.check.demand, f.check.unit == "in" ? 2 : 1) +
           " " + f.check.unit + " against a limit of " +
           format_decimals(f.check.resistance, f.check.unit == "in" ? 2 : 1) + " " + f.check.unit +
           " (" + f.piece + ", " + f.check.check + ")";
  };

  if (!(favourable.safety <= 1.0)) {
    a.verdict = Verdict::does_not_carry;
    a.fails = {Kind::safety};
    if (open_.empty()) {
      a.sentence =
          a.cautious.mechanism
              ? "Does not carry: " + with_reason(*a.cautious.mechanism, cautious.deck) + "."
              : "Does not carry. What gives out first: " + closest(*a.governing) + ".";
    } else {
      const deck::Deck best_deck = deck::resolve(survey_, Reading::favourable).deck;
      const DeckAssessment best = all_cases(best_deck, Depth::utilisation);
      a.sentence = "Does not carry, even if every open fact turns out well: ";
      const auto worst = std::find_if(best.findings.begin(), best.findings.end(),
                                      [](const Finding& f) { return f.kind == Kind::safety; });
      a.sentence += best.mechanism ? with_reason(*best.mechanism, best_deck) : closest(*worst);
      a.sentence += ".";
    }
    if (service_fails) a.fails.push_back(Kind::service);
    a.sentence += ordinary;
    return a;
  }
  if (safe && !refers_cautious && missing.empty()) {
    if (service_fails) {
      a.verdict = Verdict::does_not_carry;
      a.fails = {Kind::service};
      a.sentence = "Strong enough in every check; " + service_words() + "." + ordinary;
      return a;
    }
    a.verdict = Verdict::carries;
    a.sentence = "Carries: on what you recorded, every check this program makes passes (closest: " +
                 closest(*a.governing) + ")" +
                 (a.cautious.safety > 0.9 ? ", with little to spare" : "") +
                 ". It has not seen your deck." + ordinary;
    return a;
  }
  const Outcome at_likely_outcome = outcome(Reading::likely, seen);
  const auto worst_likely = [&] {
    const auto worst = std::find_if(at_likely.findings.begin(), at_likely.findings.end(),
                                    [](const Finding& f) { return f.kind == Kind::safety; });
    return at_likely.mechanism                 ? *at_likely.mechanism
           : worst != at_likely.findings.end() ? closest(*worst)
                                               : std::string("see the findings");
  };
  constexpr std::size_t most_missing = 3;
  if (missing.size() > most_missing) {
    // Nobody has looked yet: whatever the guesses say, it is too early for a verdict.
    a.verdict = Verdict::cannot_tell;
    std::vector<const MustSee*> unseen;
    for (const MustSee& item : a.must_see) {
      if (!item.recorded) unseen.push_back(&item);
    }
    const std::vector<std::string> first = few_words(unseen);
    a.sentence =
        "Cannot tell: too little is recorded. Look at these first: " + listed(first, first.size()) +
        ".";
    a.sentence += at_likely_outcome.safety <= 1.0
                      ? " If they and the rest prove to be as they usually are, it would pass."
                      : " By what is usual on such decks it would not carry as it stands (" +
                            worst_likely() + "); that is a guess until somebody has looked.";
    a.sentence += ordinary;
    return a;
  }
  if (!(at_likely_outcome.safety <= 1.0) && !one_or_two_would_do()) {
    a.verdict = Verdict::does_not_carry;
    a.fails = {Kind::safety};
    if (service_fails) a.fails.push_back(Kind::service);
    a.sentence = "Does not carry at the likely facts: " + worst_likely() +
                 ". No one or two facts that can be found out would change that";
    a.sentence += open_.size() > 2
                      ? "; if all " + std::to_string(open_.size()) +
                            " open facts turned out at their best, it would." + ordinary
                      : "." + ordinary;
    return a;
  }
  if (service_fails) {
    a.verdict = Verdict::does_not_carry;
    a.fails = {Kind::service};
    a.sentence =
        (safe && !refers_cautious
             ? "Strong enough in every check on what is recorded; "
             : "Whether it is strong enough is not known yet; but at the likely facts it is ") +
        service_words() + "." +
        (missing.empty() ? "" : " Some things that must be seen are not recorded yet.") + ordinary;
    return a;
  }
  a.verdict = Verdict::cannot_tell;
  if (!find_decides(a, missing)) {
    std::vector<std::string> first;
    for (const std::string& field : missing) first.push_back(words(a, field));
    for (const std::string& field : ranked_) {
      if (std::find(missing.begin(), missing.end(), field) == missing.end())
        first.push_back(words(a, field));
    }
    constexpr std::size_t most_first = 6;
    if (first.size() > most_first) first.resize(most_first);
    a.sentence =
        "Cannot tell: too little is recorded. Find out these first: " + listed(first, most_first) +
        "." + ordinary;
    return a;
  }
  const Decides& first = a.decides.front();
  if (first.fields.size() == 1) {
    a.sentence = "Cannot tell: find out " + first.what.front() + "; it passes if that is " +
                 first.passes_if.front();
  } else {
    a.sentence = "Cannot tell until these are found out. It passes if they turn out so: ";
    for (std::size_t k = 0; k < first.fields.size(); ++k)
      a.sentence += (k > 0 ? "; " : "") + first.what[k] + ": " + first.passes_if[k];
  }
  a.sentence += "." + ordinary;
  return a;
}

}  // namespace

Assessment assess(const record::Survey& survey, const standards::Standard& standard,
                  const PlanCases& plan_cases) {
  return Judge(survey, standard, plan_cases).judge();
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
