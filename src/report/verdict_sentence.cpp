// The verdict in one sentence or a few.
#include "underprop/report/sentences.hpp"

#include "words.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace underprop::report {

using assessment::Assessment;
using assessment::Finding;
using assessment::Grounds;
using assessment::MustSee;
using assessment::Sight;

namespace {

std::string percent(double utilisation) {
  if (!std::isfinite(utilisation)) return "without limit";
  return format_decimals(std::ceil(utilisation * 100.0 * (1.0 - standards::same_number)), 0) + " %";
}

std::string closest(const Finding& f) {
  if ((f.check.kind == standards::CheckKind::sway_x ||
       f.check.kind == standards::CheckKind::sway_y) &&
      !std::isfinite(f.check.utilisation)) {
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

std::string what_gives_out(const Assessment& a) {
  if (a.first->mechanism) return *a.first->mechanism;
  if (!a.first->finding) return "see the findings";
  return closest(*a.first->finding) +
         (a.first->finding->already ? ", as a piece of the deck already, whatever stands on it"
                                    : "");
}

/// "expected to move 12.3 mm against a limit of 10.0 mm (J3, deflection at once)"
std::string service_words(const Assessment& a) {
  const Finding& f = a.service_findings.front();
  const int decimals = f.check.unit == "in" ? 2 : 1;
  const auto shown = [&](double value) {
    return format_decimals(value, decimals) + " " + f.check.unit;
  };
  return "expected to move " + shown(f.check.demand) + " against a limit of " +
         shown(f.check.resistance) + " (" + f.piece + ", " + f.check.check + ")";
}

std::string fact_of(const Assessment& a, const std::string& field) {
  for (const MustSee& item : a.must_see) {
    if (item.field == field) return to_words(item);
  }
  for (const deck::OpenFact& fact : a.open) {
    if (fact.field == field) return fact.what;
  }
  return field;
}

/// Likewise, but of what must be seen only the thing, where the act says the rest.
std::string short_fact(const Assessment& a, const std::string& field) {
  for (const MustSee& item : a.must_see) {
    if (item.field != field) continue;
    switch (item.sight) {
      case Sight::joists_sound:
        return "joists " + item.piece;
      case Sight::bearer_sound:
        return "bearer " + item.piece;
      case Sight::ledger_sound:
        return "ledger " + item.piece;
      case Sight::posts_sound:
        return "posts " + item.piece;
      case Sight::supports_tight:
        return "whether the wood stands tight on its supports (" + item.piece + ")";
      default:
        return to_words(item);
    }
  }
  return fact_of(a, field);
}

/// "width of the footings across x (P1, P2)": facts that differ only in their piece are told once.
std::vector<std::string> merged(const std::vector<std::pair<std::string, std::string>>& facts) {
  struct Merged {
    std::string what, value;
    std::vector<std::string> pieces;
  };
  std::vector<Merged> list;
  for (const auto& [fact, value] : facts) {
    const std::size_t at = fact.ends_with(")") ? fact.rfind(" (") : std::string::npos;
    const std::string what = fact.substr(0, at);
    const auto same = std::find_if(list.begin(), list.end(), [&](const Merged& m) {
      return m.what == what && m.value == value && !m.pieces.empty() && at != std::string::npos;
    });
    if (same == list.end()) {
      list.push_back({what, value, {}});
      if (at != std::string::npos)
        list.back().pieces.push_back(fact.substr(at + 2, fact.size() - at - 3));
    } else {
      same->pieces.push_back(fact.substr(at + 2, fact.size() - at - 3));
    }
  }
  std::vector<std::string> told;
  for (const Merged& m : list) {
    told.push_back(m.what + (m.pieces.empty() ? "" : " (" + joined(m.pieces, ", ") + ")") +
                   (m.value.empty() ? "" : ": " + m.value));
  }
  return told;
}

constexpr std::size_t acts_told = 3;
constexpr std::size_t facts_told = 4;

/// "1) one hole dug beside a footing, down to its underside (width ...: 350 mm or better; ...)"
std::string by_act(const Assessment& a, const std::vector<std::string>& fields,
                   const std::map<std::string, std::string>& values) {
  std::vector<assessment::ActNeeded> acts = acts_for(a, fields);
  if (acts.size() > acts_told) acts.resize(acts_told);
  std::string text;
  for (std::size_t k = 0; k < acts.size(); ++k) {
    std::vector<std::pair<std::string, std::string>> facts;
    for (const std::string& field : acts[k].fields) {
      const auto value = values.find(field);
      facts.emplace_back(short_fact(a, field), value == values.end() ? "" : value->second);
    }
    std::vector<std::string> told = merged(facts);
    if (told.size() > facts_told) {
      const std::size_t more = told.size() - facts_told;
      told.resize(facts_told);
      told.push_back("and " + std::to_string(more) + " more");
    }
    text += (k == 0 ? "" : "; ") + (acts.size() > 1 ? std::to_string(k + 1) + ") " : "") +
            record::act_in_words(acts[k].act, a.standard_id) + " (" + joined(told, "; ") + ")";
  }
  return text;
}

/// What is to be found out first where no few acts decide: what must be seen, then what moves most.
std::string to_find_out(const Assessment& a) {
  std::vector<std::string> fields;
  for (const MustSee* item : not_recorded(a)) fields.push_back(item->field);
  for (const assessment::Unknown& fact : a.unknowns) {
    if (std::find(fields.begin(), fields.end(), fact.field) == fields.end() &&
        (fact.refers || fact.swing > 0.0))
      fields.push_back(fact.field);
  }
  return by_act(a, fields, {});
}

std::string that_decide(const Assessment& a) {
  const assessment::Decides& first = a.decides.front();
  const std::vector<std::string> words = passes_if(a, first);
  std::map<std::string, std::string> values;
  for (std::size_t k = 0; k < first.fields.size(); ++k) values[first.fields[k]] = words[k];
  const std::size_t acts = acts_for(a, first.fields).size();
  const char* lead =
      acts == 1   ? "Cannot tell: one thing to do decides. It passes if it turns out so: "
      : acts == 2 ? "Cannot tell: two things to do decide. It passes if both turn out "
                    "so: "
                  : "Cannot tell: three things to do decide. It passes if all turn out "
                    "so: ";
  return lead + by_act(a, first.fields, values);
}

std::string grounds_sentence(const Assessment& a) {
  switch (a.grounds) {
    case Grounds::refers:
      return "Refer to a structural engineer, because " + joined(a.refer_reasons, "; ") + ".";
    case Grounds::every_check_passes:
      if (!a.with_load)
        return "Sound as a deck: on what you recorded, with people on it and nothing heavy, every "
               "check this program makes passes (closest: " +
               closest(*a.governing) + ")" +
               (a.shown.safety > 0.9 ? ", with little to spare" : "") +
               ". It has not seen your deck. No load is recorded: what it would carry is another "
               "question.";
      return "Carries: on what you recorded, every check this program makes passes (closest: " +
             closest(*a.governing) + ")" + (a.shown.safety > 0.9 ? ", with little to spare" : "") +
             ". It has not seen your deck.";
    case Grounds::fails_at_best:
      if (!a.open.empty())
        return "Does not carry, even if every open fact turns out well: " + what_gives_out(a) + ".";
      return (a.first->mechanism ? "Does not carry: " : "Does not carry. What gives out first: ") +
             what_gives_out(a) + ".";
    case Grounds::fails_at_likely:
      return "Does not carry at the likely facts: " + what_gives_out(a) +
             ". No one or two things to do on site would change that" +
             (a.open.size() > 2 ? "; if all " + std::to_string(a.open.size()) +
                                      " open facts turned out at their best, it would."
                                : ".");
    case Grounds::service_fails:
      return "Strong enough in every check; " + service_words(a) + ".";
    case Grounds::service_fails_unseen:
    case Grounds::service_fails_first:
      return (a.grounds == Grounds::service_fails_unseen
                  ? "Strong enough in every check on what is recorded; "
                  : "Whether it is strong enough is not known yet; but at the likely facts it "
                    "is ") +
             service_words(a) + "." +
             (not_recorded(a).empty() ? ""
                                      : " Some things that must be seen are not recorded yet.");
    case Grounds::nobody_has_looked:
      return "Cannot tell: too little is recorded. Look at these first: " + to_find_out(a) + "." +
             (a.first ? " By what is usual on such decks it would not carry as it stands (" +
                            what_gives_out(a) + "); that is a guess until somebody has looked."
                      : " If they and the rest prove to be as they usually are, it would pass.");
    case Grounds::facts_decide:
      return that_decide(a) + ".";
    case Grounds::no_few_facts_decide:
      return "Cannot tell: too little is recorded. Find out these first: " + to_find_out(a) + ".";
  }
  return "";
}

}  // namespace

std::string to_words(const MustSee& item) {
  switch (item.sight) {
    case Sight::joists_sound:
      return "whether joists " + item.piece + " are sound: a screwdriver along their length";
    case Sight::joists_held:
      return "what holds joists " + item.piece + " at the " +
             (item.at_start ? "end nearer to corner A" : "far end");
    case Sight::bearer_sound:
      return "whether bearer " + item.piece + " is sound: a screwdriver along it";
    case Sight::ledger_sound:
      return "whether ledger " + item.piece + " is sound: a screwdriver along it";
    case Sight::ledger_wall:
      return "what ledger " + item.piece + " is fixed to";
    case Sight::ledger_band:
      return "whether the house's wood behind ledger " + item.piece + " is sound";
    case Sight::posts_sound:
      return "whether posts " + item.piece + " are sound: a screwdriver at their feet";
    case Sight::supports_tight:
      return "whether the wood stands tight on the supports " + item.piece;
    case Sight::wall_tight:
      return "whether the joists lie tight on wall " + item.piece;
    case Sight::load_mass:
      return "what the " + item.piece + " weighs empty";
    case Sight::load_contents:
      return "how much the " + item.piece + " holds";
    case Sight::load_footprint:
      return "how large the " + item.piece + " is on the boards";
  }
  return item.field;
}

std::vector<std::string> facts_of(const Assessment& a, const assessment::Decides& decides) {
  std::vector<std::string> facts;
  for (const std::string& field : decides.fields) facts.push_back(fact_of(a, field));
  return facts;
}

std::vector<std::string> passes_if(const Assessment& a, const assessment::Decides& decides) {
  std::vector<std::string> words;
  for (std::size_t k = 0; k < decides.fields.size(); ++k) {
    const std::string& value = decides.passes_if[k];
    const auto fact = std::ranges::find(a.open, decides.fields[k], &deck::OpenFact::field);
    // Of two answers the better one has none above it.
    const bool best = value == "tight" || value == "sound" || value == "yes" || value == "no" ||
                      value == "none" || fact == a.open.end() || !record::has_fact_kind(fact->kind);
    if (value.empty()) {
      words.push_back("recorded and sound");
    } else if (best) {
      words.push_back(value);
    } else {
      const record::FactKind& kind = record::fact_kind(fact->kind);
      words.push_back(value + (kind.quantity == record::FactQuantity::word ? " or better"
                               : kind.smaller_is_worse                     ? " or more"
                                                                           : " or less"));
    }
  }
  return words;
}

std::vector<std::string> assumptions(const Assessment& a) {
  std::vector<std::string> list = a.assumptions;
  for (const deck::OpenFact& fact : a.open) {
    list.push_back(fact.what + ": " + (fact.range ? "a range" : "not known") + ", taken as " +
                   fact.cautious + " (likely " + fact.likely + ")");
  }
  return list;
}

std::string verdict_sentence(const Assessment& a) {
  std::string text = grounds_sentence(a);
  if (a.grounds != Grounds::refers && !a.shown.ordinary_use.empty() &&
      !a.shown.ordinary_use.front().guessed) {
    text += " Apart from the load, the deck fails a check in ordinary use already: " +
            closest(a.shown.ordinary_use.front()) + ".";
  }
  return text;
}

}  // namespace underprop::report
