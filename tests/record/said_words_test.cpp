// What a newcomer types: days, trade words, timbers, counts. Understood, or answered with what is right; and
// never turned into something stronger than was said.
#include "interview/interview_support.hpp"
#include "record/read_support.hpp"
#include "support/catch.hpp"
#include "support/paths.hpp"
#include "underprop/base/input_error.hpp"
#include "underprop/base/units.hpp"
#include "underprop/record/wording.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <set>

namespace underprop::record {
namespace said_words_test_file {

using interview::answers;
using interview::holds;
using interview::interview_names;
using interview::kept_while_recording;
using interview::told;
using interview::told_until;
namespace {

using Json = nlohmann::json;

Json data(const std::string& path) {
  std::ifstream file(std::string(underprop::test::source_dir) + "/data/" + path);
  REQUIRE(file.good());
  return Json::parse(file);
}

std::string said(const interview::Interview& before, const std::string& line) {
  interview::Interview interview = before;
  return interview.say(line).text;
}

/// The errors of reading the file that an interview ended in, with one value changed.
std::string error_of(const std::string& name, const std::string& pointer, const Json& value) {
  Json json = Json::parse(told(answers(name)).file_text());
  json.erase("recording");
  json[Json::json_pointer(pointer)] = value;
  try {
    (void)deck::read_survey(json.dump(), "deck.json");
  } catch (const InputErrors& errors) {
    std::string text;
    for (const std::string& line : errors.lines()) text += line + "\n";
    return text;
  }
  return "";
}

std::vector<std::string> american_names() {
  std::vector<std::string> names;
  const Json lumber = data("north_america/lumber.json");
  for (const char* table : {"dimension_lumber", "timbers"}) {
    for (const Json& row : lumber.at(table)) {
      names.push_back(row.at("species").get<std::string>() + " " +
                      row.at("grade").get<std::string>());
    }
  }
  return names;
}

}  // namespace

TEST_CASE("Days are read as the country writes them, and told back in words", "[interview]") {
  const interview::Interview uk = told_until("low-garden-deck", "place/recorded_on");
  const interview::Interview us = told_until("raised-deck-us", "place/recorded_on");
  for (const char* day :
       {"22/11/2026", "22.11.2026", "22-11-26", "22 November 2026", "22nd Nov 2026", "2026-11-22",
        "2026/11/22", "November 22, 2026", "11/22/2026"}) {
    INFO(day);
    CHECK(holds(said(uk, day), "22 November 2026"));
    CHECK(holds(said(us, day), "November 22, 2026"));
  }
  CHECK(holds(said(uk, "03/04/2026"), "3 April 2026 (read as day/month/year)"));
  CHECK(holds(said(us, "03/04/2026"), "March 4, 2026 (read as month/day/year)"));
  CHECK(holds(said(uk, "2026-04-03"), "3 April 2026"));
  CHECK(holds(said(uk, "today"), "31 May 2026"));
  for (const char* none : {"31/02/2026", "22/22/2026", "yesterday", "2026-13-01", "1/1", "0/1/2026",
                           "29 Feb 2025", "1/1/0026", "2026-1-1-1"}) {
    INFO(none);
    CHECK(holds(said(uk, none), "no day of the calendar"));
    CHECK(holds(said(us, none), "no day of the calendar"));
  }
  interview::Interview kept = us;
  CHECK(kept.say("11/22/2026").changed);
  CHECK(holds(kept.file_text(), "11/22/2026"));
}

TEST_CASE("A survey file keeps to year-month-day and is met with it", "[read]") {
  CHECK(holds(error_of("low-garden-deck", "/recorded_on", "22/11/2026"),
              "did you mean \"2026-11-22\"?"));
  CHECK(holds(error_of("raised-deck-us", "/recorded_on", "03/04/2026"),
              "did you mean \"2026-03-04\"?"));
  CHECK(holds(error_of("raised-deck-us", "/recorded_on", "13/13/2026"), "write it like"));
}

TEST_CASE("Trade words are understood where only one thing can be meant", "[interview]") {
  const interview::Interview fixing = told_until("raised-deck-us", "fixings/L1/fixing");
  for (const char* lag : {"lag bolts", "lags", "Lag-Bolt", "coach screws", "lag screw", "lag"}) {
    INFO(lag);
    CHECK(holds(said(fixing, lag), ": lag screw"));
  }
  CHECK(holds(said(fixing, "carriage bolts"), ": bolt"));
  const interview::Interview shape = told_until("low-garden-deck", "outline/shape");
  CHECK(holds(said(shape, "square"), ": rectangle"));
  CHECK(holds(said(shape, "L-shaped"), ": cut corner"));
  CHECK(holds(said(shape, "round"), ": corners"));
  const interview::Interview base = told_until("low-garden-deck", "load/1/shape");
  CHECK(holds(said(base, "a square"), ": rectangle"));
  CHECK(holds(said(base, "round"), ": circle"));
  const interview::Interview kind = told_until("low-garden-deck", "load/1/kind");
  CHECK(holds(said(kind, "hot tub"), ": tub"));
  CHECK(holds(said(kind, "oven"), ": oven"));
  // Joists as sold.
  const interview::Interview size = told_until("raised-deck-us", "joists/J/size");
  for (const char* sold : {"2x8", "2 by 8", "2 x 8 pressure treated", "8x2"}) {
    INFO(sold);
    CHECK(holds(said(size, sold), "1 1/2 in x 7 1/4 in"));
  }
}

TEST_CASE("A word for a weaker and a stronger thing is asked back, not guessed", "[interview]") {
  const interview::Interview wall = told_until("raised-deck-us", "fixings/L1/fixed_to");
  for (const char* word : {"brick", "brick wall", "masonry", "blockwork", "render"}) {
    INFO(word);
    const std::string reply = said(wall, word);
    CHECK(holds(reply, " may be solid masonry"));
    CHECK_FALSE(holds(reply, "Did you mean"));
  }
  CHECK(holds(said(wall, "siding"), ": veneer"));
  const interview::Interview held = told_until("raised-deck-us", "carriers/J/start/held");
  CHECK(holds(said(held, "nailed"), "may be skew nails or end grain"));
  CHECK(holds(said(held, "toe nails"), ": skew nails"));
  CHECK(holds(said(held, "joist hangers"), ": hanger"));
  const interview::Interview footing = told_until("raised-deck-us", "pads/PA/kind");
  CHECK(holds(said(footing, "concrete"), "may be cast pad"));
  CHECK(holds(said(footing, "pier"), "may be cast pad or deck block"));
  const interview::Interview soil = told_until("raised-deck-us", "ground/soil");
  CHECK(holds(said(soil, "clay"), "may be soft clay, firm clay or stiff clay"));
}

TEST_CASE("Every trade word leads to words of the format or of the interview", "[read][law]") {
  std::set<std::string> words{"corners", "cut corner"};  // of the interview alone
  for (const Field& key : survey_fields()) words.insert(key.words.begin(), key.words.end());
  for (const auto& [said_word, meant] : data("said_words.json").at("words").items()) {
    INFO(said_word);
    REQUIRE_FALSE(meant.empty());
    for (const Json& word : meant) CHECK(words.contains(word.get<std::string>()));
  }
}

TEST_CASE("In a file a trade word is met with the word of the format", "[read]") {
  CHECK(holds(error_of("raised-deck-us", "/deck/ledgers/0/fixing", "lag bolts"),
              "did you mean \"lag screw\"?"));
  CHECK(
      holds(error_of("raised-deck-us", "/loads/0/shape", "square"), "did you mean \"rectangle\"?"));
  CHECK(holds(error_of("raised-deck-us", "/loads/0/shape", "round"), "did you mean \"circle\"?"));
  CHECK(holds(error_of("raised-deck-us", "/deck/ledgers/0/fixed_to", "brick"),
              "did you mean \"solid masonry\" or \"cavity outer leaf\" or \"veneer\"?"));
  CHECK(holds(error_of("raised-deck-us", "/deck/joists/0/timber", "SYP #2"),
              "did you mean \"Southern Pine No.2\"?"));
  for (const char* none : {"southern pine", "SYP", "pressure treated pine", "treated"}) {
    INFO(none);
    const std::string error = error_of("raised-deck-us", "/deck/joists/0/timber", none);
    CHECK(holds(error, "write \"unknown\""));
    CHECK_FALSE(holds(error, "did you mean"));
  }
}

TEST_CASE("Timber is taken as it is stamped, and no grade is guessed", "[interview]") {
  const interview::Interview us = told_until("raised-deck-us", "joists/J/timber");
  const struct {
    const char* said;
    const char* taken;
  } spoken[] = {{"SYP #2", "Southern Pine No.2"},
                {"southern yellow pine no. 2", "Southern Pine No.2"},
                {"pressure treated Southern Pine #1", "Southern Pine No.1"},
                {"doug fir #2", "Douglas Fir-Larch No.2"},
                {"DF-L 2&BTR", "Douglas Fir-Larch No.2"},
                {"DF-L No.1 & Btr", "Douglas Fir-Larch No.1 & Btr"},
                {"hem fir number 2", "Hem-Fir No.2"},
                {"S-P-F No 2", "Spruce-Pine-Fir No.2"},
                {"SPF 2 KD", "Spruce-Pine-Fir No.2"},
                {"HF SS", "Hem-Fir Select Structural"},
                {"hem-fir no.2", "Hem-Fir No.2"}};
  for (const auto& each : spoken) {
    INFO(each.said << ": " << said(us, each.said));
    CHECK(holds(said(us, each.said), std::string(": ") + each.taken));
  }
  for (const char* open : {"southern pine", "SYP", "pressure treated pine", "pine", "PT", "#2",
                           "treated lumber", "spf-s #2", "SYP #1 #2", "SYP nondense #2",
                           "hem-fir stud", "douglas fir south #2", "2x8"}) {
    const std::string reply = said(us, open);
    INFO(open << ": " << reply);
    CHECK(holds(reply, "Not understood"));
    CHECK_FALSE(holds(reply, "Did you mean"));
  }
  CHECK(holds(said(us, "southern pine"), "No.1, No.2, No.3"));
  CHECK(holds(said(us, "yellow pine #2"), "Did you mean Southern Pine No.2?"));
  CHECK(holds(said(us, "Hem-Fri No.2"), "Did you mean Hem-Fir No.2?"));

  const interview::Interview uk = told_until("low-garden-deck", "joists/J/timber");
  for (const char* c24 : {"c24", "C 24", "c-24", "C24 treated", "graded C24"}) {
    INFO(c24);
    CHECK(holds(said(uk, c24), ": C24"));
  }
  CHECK(holds(said(uk, "pine C16"), "Did you mean C16?"));
  // The next class by spelling may be a stronger one.
  for (const char* open : {"C12", "C15", "C25", "C17", "D18", "treated softwood", "pine", "24"}) {
    const std::string reply = said(uk, open);
    INFO(open << ": " << reply);
    CHECK(holds(reply, "Not understood"));
    CHECK_FALSE(holds(reply, "Did you mean"));
  }
}

TEST_CASE("A slip in the species never changes the grade that was said", "[interview][law]") {
  const interview::Interview us = told_until("raised-deck-us", "joists/J/timber");
  int met = 0;
  for (const std::string& name : american_names()) {
    CHECK(holds(said(us, name), ": " + name));
    const std::size_t grade = name.find(" No.");
    if (grade == std::string::npos || name.find(',') != std::string::npos) continue;
    for (std::size_t at = 0; at < grade; ++at) {
      std::string slip = name;
      slip[at] = slip[at] == 'q' ? 'j' : 'q';
      const std::string reply = said(us, slip);
      const std::size_t meant = reply.find("Did you mean ");
      if (meant == std::string::npos) continue;
      INFO(slip << ": " << reply);
      ++met;
      CHECK(holds(reply.substr(meant), name.substr(grade, 5)));
    }
  }
  CHECK(met > 50);
}

TEST_CASE("About so many is a range of counts where one may be", "[interview]") {
  const interview::Interview nails =
      told_until("raised-deck-us", "carriers/J/start/nails_in_carrier");
  CHECK(holds(said(nails, "about 8"), "7 to 9"));
  CHECK(holds(said(nails, "roughly 20"), "18 to 22"));
  CHECK(holds(said(nails, "about 0"), "0 to 1"));
  CHECK(holds(said(nails, "about eight"), "7 to 9"));
  CHECK(holds(said(nails, "about some"), "or \"about 4\""));
  const interview::Interview joists = told_until("raised-deck-us", "joists/J/count");
  CHECK(holds(said(joists, "about 12"), "count them"));
  const Survey survey = told(answers("raised-deck-us")).survey().survey;
  REQUIRE(survey.deck.joists[0].start.nails_in_carrier.is_range());
  CHECK(survey.deck.joists[0].start.nails_in_carrier.low() == 7);
}

TEST_CASE("Same with nothing to repeat says so and asks again", "[interview]") {
  interview::Interview interview = told_until("low-garden-deck", "outline/x");
  const interview::Reply reply = interview.say("same");
  CHECK_FALSE(reply.changed);
  CHECK(holds(reply.text, "There is nothing to repeat"));
  CHECK(interview.question()->id == "outline/x");
}

TEST_CASE("A deck hung from a house with no house near is questioned", "[interview]") {
  interview::Interview interview = told_until("raised-deck-us", "ground/house_walls");
  const interview::Reply doubted = interview.say("none");
  CHECK_FALSE(doubted.changed);
  CHECK(holds(doubted.text, "hangs the deck on one"));
  CHECK(interview.say("keep").changed);
  Json json = Json::parse(told(answers("raised-deck-us")).file_text());
  json.erase("recording");
  json["site"]["house_walls"] = "none";
  const std::vector<Warning> odd = deck::read_survey(json.dump(), "deck.json").warnings;
  REQUIRE(odd.size() == 1);
  CHECK(odd[0].pointer == "/site/house_walls");
  CHECK(holds(in_words(deck::read_survey(json.dump(), "deck.json").survey, odd[0].pointer),
              "the site, house walls"));
}

TEST_CASE("What was kept while recording is not told as though new", "[interview]") {
  interview::Interview interview;
  for (const std::string& line : answers("raised-deck-us")) {
    const auto now = interview.question();
    REQUIRE(now.has_value());
    if (now->id.starts_with("ground/house_walls/")) continue;  // no longer asked
    const interview::Reply reply = interview.say(now->id == "ground/house_walls" ? "none" : line);
    if (now->id == "ground/house_walls") CHECK_FALSE(reply.changed);
    if (now->id == "ground/house_walls") CHECK(interview.say("keep").changed);
    if (now->id == "ground/house_walls") break;
  }
  const std::vector<std::string> lines = answers("raised-deck-us");
  const auto wall = std::ranges::find(lines, std::string("4 ft"));
  REQUIRE(wall != lines.end());
  for (auto line = wall + 1; line != lines.end(); ++line) (void)interview.say(*line);
  REQUIRE(interview.finished());
  const deck::ReadResult read = deck::read_survey(interview.file_text(), "deck.json");
  REQUIRE(read.warnings.size() == 1);
  CHECK(kept_while_recording(read.survey, read.warnings).size() == 1);
  // A doubt about a value written since is a new one.
  Json edited = Json::parse(interview.file_text());
  edited["deck"]["boards"]["width"] = "1 in";
  const deck::ReadResult again = deck::read_survey(edited.dump(), "deck.json");
  CHECK(again.warnings.size() > 1);
  const std::vector<Warning> kept = kept_while_recording(again.survey, again.warnings);
  REQUIRE(kept.size() == 1);
  CHECK(kept[0].pointer == "/site/house_walls");
}

TEST_CASE("Echoes are in words, and every choice and example fits its question",
          "[interview][law]") {
  for (const char* name : interview_names) {
    interview::Interview interview;
    interview.set_today("2026-05-31");
    for (const std::string& line : answers(name)) {
      const auto question = interview.question();
      if (!question) break;
      INFO(question->id << ": " << question->form);
      CHECK_FALSE(holds(question->form, "such as ;"));
      CHECK_FALSE(holds(question->form, "such as ,"));
      CHECK(question->meanings.size() == question->choices.size());
      for (const std::string& meaning : question->meanings) CHECK_FALSE(holds(meaning, "{"));
      const std::string reply = interview.say(line).text;
      if (!reply.starts_with("= ")) continue;
      const std::string echo = reply.substr(0, reply.find(':'));
      INFO(reply);
      for (const char* internal : {"_", "/", "{", " count", "there:"})
        CHECK_FALSE(holds(echo, internal));
    }
  }
  // Likewise where an answer is not understood.
  const interview::Interview width = told_until("low-garden-deck", "boards/width");
  CHECK(holds(said(width, "narrow"), "write it like 120 mm"));
  const interview::Interview made = told_until("low-garden-deck", "boards/material");
  CHECK(holds(said(made, "pressure treated pine"), ": softwood"));
  const interview::Interview things = told_until("low-garden-deck", "outline/obstacles/count");
  CHECK(holds(said(things, "0"), "= things that keep the load off: "));
}

TEST_CASE("An example lies within what is usual for its question", "[interview][law]") {
  int examples = 0;
  const Json questions = data("interview.json").at("questions");
  for (const auto& [key, question] : questions.items()) {
    if (!question.contains("such_as")) {
      CHECK_FALSE(question.contains("usual"));
      continue;
    }
    if (!question.contains("usual")) continue;
    INFO(key);
    const auto check = [&](auto parse) {
      const auto low = parse(question.at("usual").at(0).get<std::string>());
      const auto high = parse(question.at("usual").at(1).get<std::string>());
      for (const Json& example : question.at("such_as")) {
        const auto value = parse(example.get<std::string>());
        INFO(example);
        REQUIRE(value);
        CHECK(*low.value <= *value.value);
        CHECK(*value.value <= *high.value);
        ++examples;
      }
    };
    const std::string usual = question.at("usual").at(0).get<std::string>();
    if (parse_length(usual))
      check([](const std::string& text) { return parse_quantity<Length>(text); });
    if (parse_quantity<Mass>(usual))
      check([](const std::string& text) { return parse_quantity<Mass>(text); });
    if (parse_quantity<Volume>(usual))
      check([](const std::string& text) { return parse_quantity<Volume>(text); });
    if (parse_quantity<Force>(usual))
      check([](const std::string& text) { return parse_quantity<Force>(text); });
    if (parse_quantity<Pressure>(usual))
      check([](const std::string& text) { return parse_quantity<Pressure>(text); });
  }
  CHECK(examples > 80);
}

TEST_CASE("Whom to ask is called as in the country of the deck", "[interview]") {
  interview::Interview uk = told_until("low-garden-deck", "ground/frost_depth");
  CHECK(holds(uk.question()->how, "building control"));
  CHECK_FALSE(holds(uk.question()->how, "department"));
  interview::Interview us = told_until("raised-deck-us", "ground/frost_depth");
  CHECK(holds(us.question()->how, "the building department"));
}

}  // namespace said_words_test_file
}  // namespace underprop::record
