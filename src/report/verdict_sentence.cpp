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

/// "A, B and C"
std::string and_list(const std::vector<std::string>& items) {
  std::string text;
  for (std::size_t k = 0; k < items.size(); ++k)
    text += (k == 0 ? "" : k + 1 == items.size() ? " and " : ", ") + items[k];
  return text;
}

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

/// What must be seen and is not, in as few words as will do.
std::vector<std::string> few_words(const std::vector<const MustSee*>& missing) {
  std::vector<std::string> probe, contact, rest, result;
  std::map<std::string, std::vector<const MustSee*>> ends;  // by group
  for (const MustSee* item : missing) {
    switch (item->sight) {
      case Sight::joists_held:
        ends[item->piece].push_back(item);
        break;
      case Sight::joists_sound:
      case Sight::bearer_sound:
      case Sight::ledger_sound:
      case Sight::posts_sound:
        probe.push_back(item->piece);
        break;
      case Sight::supports_tight:
        contact.push_back(item->piece);
        break;
      case Sight::ledger_wall:
      case Sight::wall_tight:
      case Sight::load_mass:
      case Sight::load_contents:
      case Sight::load_footprint:
        rest.push_back(to_words(*item));
        break;
    }
  }
  for (const auto& [group, items] : ends) {
    result.push_back(items.size() > 1 ? "what holds joists " + group + " at both ends"
                                      : to_words(*items.front()));
  }
  if (!probe.empty())
    result.push_back("whether " + and_list(probe) + (probe.size() > 1 ? " are" : " is") +
                     " sound, with a screwdriver");
  if (!contact.empty())
    result.push_back("whether the wood stands tight on the supports " + and_list(contact));
  result.insert(result.end(), rest.begin(), rest.end());
  return result;
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

/// The facts to be found out first where no few decide: what must be seen, then what moves most.
std::vector<std::string> to_find_out(const Assessment& a) {
  constexpr std::size_t most = 6;
  std::vector<std::string> fields, facts;
  for (const MustSee* item : not_recorded(a)) fields.push_back(item->field);
  for (const assessment::Unknown& fact : a.unknowns) {
    if (std::find(fields.begin(), fields.end(), fact.field) == fields.end())
      fields.push_back(fact.field);
  }
  if (fields.size() > most) fields.resize(most);
  for (const std::string& field : fields) facts.push_back(fact_of(a, field));
  return facts;
}

std::string that_decide(const Assessment& a) {
  const assessment::Decides& first = a.decides.front();
  const std::vector<std::string> facts = facts_of(a, first), values = passes_if(first);
  if (facts.size() == 1)
    return "Cannot tell: find out " + facts[0] + "; it passes if that is " + values[0];
  std::string text = "Cannot tell until these are found out. It passes if they turn out so: ";
  for (std::size_t k = 0; k < facts.size(); ++k)
    text += (k > 0 ? "; " : "") + facts[k] + ": " + values[k];
  return text;
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
             ". No one or two facts that can be found out would change that" +
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
      return "Cannot tell: too little is recorded. Look at these first: " +
             joined(few_words(not_recorded(a)), "; ") + "." +
             (a.first ? " By what is usual on such decks it would not carry as it stands (" +
                            what_gives_out(a) + "); that is a guess until somebody has looked."
                      : " If they and the rest prove to be as they usually are, it would pass.");
    case Grounds::facts_decide:
      return that_decide(a) + ".";
    case Grounds::no_few_facts_decide:
      return "Cannot tell: too little is recorded. Find out these first: " +
             joined(to_find_out(a), "; ") + ".";
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

std::vector<std::string> passes_if(const assessment::Decides& decides) {
  std::vector<std::string> words;
  for (const std::string& value : decides.passes_if) {
    // Of two answers the better one has none above it.
    const bool best = value == "tight" || value == "sound" || value == "yes" || value == "no";
    words.push_back(value.empty() ? "recorded and sound" : value + (best ? "" : " or better"));
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
