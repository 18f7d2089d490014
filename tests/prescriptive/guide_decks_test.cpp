// Decks that follow a published prescriptive guide to the letter are sound by common consent, so each
// carries nothing but people, and a flower pot; decks that break one of its rules by half never carry.
// Tables: DCA 6-12, IRC R507, Wisconsin UDC Appendix B (data/north_america/prescriptive.json).
#include "guide_decks.hpp"
#include "support/catch.hpp"

#include <fmt/format.h>

#include <cstdlib>
#include <iostream>
#include <map>
#include <set>

namespace underprop::test::prescriptive {

namespace {

using assessment::Assessment;
using assessment::Finding;
using assessment::Verdict;

std::vector<Finding> failing(const Assessment& a) {
  std::vector<Finding> all;
  const auto take = [&](const std::vector<Finding>& some) {
    for (const Finding& f : some) {
      if (standards::fails(f.check.utilisation)) all.push_back(f);
    }
  };
  for (const Finding& f : a.shown.findings) {
    if (f.kind != assessment::Kind::service && standards::fails(f.check.utilisation))
      all.push_back(f);
  }
  take(a.shown.ordinary_use);
  take(a.service_findings);
  return all;
}

/// What the decks of one printed table fail in.
class Tally {
public:
  void add(const GuideDeck& deck, const Assessment& a) {
    Row& row = rows_[deck.family + (deck.hung ? ", hung" : ", free-standing")];
    ++row.decks;
    if (a.verdict == Verdict::carries) ++row.carries;
    std::set<std::string> seen;
    const std::vector<Finding> fails = failing(a);
    if (a.verdict == Verdict::carries && fails.empty()) ++row.clean;
    const auto put = [&](const std::string& key, double use) {
      Group& group = groups_[key];
      if (seen.insert(key).second) ++group.decks;
      if (use > group.worst) {
        group.worst = use;
        group.at =
            deck.family + (deck.hung ? ", hung: " : ", free: ") + deck.species + ", " + deck.row;
      }
    };
    for (const Finding& f : fails)
      put(fmt::format("{} | {} | {} {}", to_string(f.kind), f.check.check, f.check.source.key,
                      f.check.source.where),
          f.check.utilisation);
    if (a.verdict != Verdict::carries && fails.empty()) {
      std::string why = to_string(a.verdict);
      for (const auto& reason : a.refer_reasons) why += " | " + reason;
      for (const auto& decides : a.decides) {
        for (const auto& field : decides.fields) why += " | " + field;
      }
      put(why, 0.0);
    }
    if (a.verdict != Verdict::carries || !fails.empty()) {
      std::string sole;
      for (const Finding& f : fails) {
        if (sole.empty()) sole = f.check.check;
        if (f.check.check != sole) sole = "several";
      }
      ++row.sole[sole.empty() ? "no check" : sole];
    }
  }
  void print(const std::string& title) const {
    std::cout << "\n" << title << "\n";
    int decks = 0, carries = 0, clean = 0;
    for (const auto& [name, row] : rows_) {
      std::cout << fmt::format(
          "  {:<36}{:>5} decks,{:>5} carry,{:>5} with nothing failing in ordinary use\n", name,
          row.decks, row.carries, row.clean);
      for (const auto& [check, n] : row.sole)
        std::cout << fmt::format("      {:>4} fail in {}{}\n", n, check,
                                 check == "several" || check == "no check" ? "" : " only");
      decks += row.decks;
      carries += row.carries;
      clean += row.clean;
    }
    std::cout << fmt::format(
        "  {:<36}{:>5} decks,{:>5} carry,{:>5} with nothing failing in ordinary use\n", "in all",
        decks, carries, clean);
    for (const auto& [key, group] : groups_)
      std::cout << fmt::format("  {:>5} of them {:.3f} | {}\n        worst: {}\n", group.decks,
                               group.worst, key, group.at);
  }

private:
  struct Row {
    int decks = 0, carries = 0, clean = 0;
    std::map<std::string, int> sole;
  };
  struct Group {
    int decks = 0;
    double worst = -1.0;
    std::string at;
  };
  std::map<std::string, Row> rows_;
  std::map<std::string, Group> groups_;
};

/// Every n-th of them, from the first.
std::vector<GuideDeck> sample(const std::vector<GuideDeck>& decks, std::size_t step) {
  std::vector<GuideDeck> some;
  for (std::size_t k = 0; k < decks.size(); k += step) some.push_back(decks[k]);
  return some;
}

/// Every n-th deck of the printed table, by UNDERPROP_EVERY; 1: all.
std::size_t every() {
  const char* text = std::getenv("UNDERPROP_EVERY");
  return text == nullptr ? 1 : std::max<std::size_t>(1, std::strtoul(text, nullptr, 10));
}

}  // namespace

TEST_CASE("Decks to the tables' letter are read without a fault and leave no fact open",
          "[prescriptive][published]") {
  REQUIRE(all_decks().size() > 300);
  for (const GuideDeck& deck : sample(all_decks(), 7)) {
    for (const Loaded loaded : {Loaded::no, Loaded::planter}) {
      const Json json = survey_of(deck, loaded);
      INFO(json.at("name"));
      const record::Survey survey = read(json);
      for (const auto& fact : deck::resolve(survey, record::Reading::likely).open)
        CHECK(fact.field == "");
    }
  }
}

TEST_CASE("The table of decks built to a guide: how many carry, and what the others fail in",
          "[.slow][prescriptive][published]") {
  for (const Loaded loaded : {Loaded::no, Loaded::planter}) {
    Tally tally;
    for (const GuideDeck& deck : sample(all_decks(), every())) {
      INFO(deck.family << ": " << deck.species << ", " << deck.row);
      tally.add(deck, assess(survey_of(deck, loaded)));
    }
    tally.print(loaded == Loaded::no ? "Decks to the guide, nothing on them"
                                     : "Decks to the guide, a planter of 40 kg in the middle");
  }
}

TEST_CASE("With one rule of the guide broken by half no deck carries, bare or with a planter",
          "[prescriptive][law]") {
  // A deck of the joist table, hung and free-standing, and every fault in turn.
  std::vector<GuideDeck> whole;
  for (const GuideDeck& deck : joist_decks()) {
    if (deck.joist_nominal == 8 && deck.joist_spacing == 16 && deck.joist_overhang == 0 &&
        deck.species == "Southern Pine")
      whole.push_back(with_longest_beam(deck));
  }
  REQUIRE(whole.size() == 2);
  for (const GuideDeck& deck : whole) {
    for (const Fault& fault : faults()) {
      if (fault.hung_only && !deck.hung) continue;
      GuideDeck broken = deck;
      if (fault.choose) fault.choose(broken);
      for (const Loaded loaded : {Loaded::no, Loaded::planter}) {
        Json json = survey_of(broken, loaded);
        if (fault.write) fault.write(json);
        INFO(json.at("name") << (deck.hung ? ", hung: " : ", free-standing: ") << fault.what
                             << (loaded == Loaded::no ? "" : ", a planter on it"));
        const Assessment a = assess(json);
        const bool told =
            fault.told_beside && loaded == Loaded::planter && !a.shown.ordinary_use.empty();
        CHECK((a.verdict != Verdict::carries || told));
      }
    }
  }
}

}  // namespace underprop::test::prescriptive
