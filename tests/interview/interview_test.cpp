// The interview from inside: answers in, survey and questions out. The answers are files of
// tests/interviews/, one line each.
#include "underprop/interview/interview.hpp"
#include "interview/interview_support.hpp"
#include "support/catch.hpp"
#include "underprop/base/input_error.hpp"

#include <string>
#include <vector>

namespace underprop::interview {
namespace interview_test_file {
namespace {

const auto& names = interview_names;

}  // namespace

TEST_CASE("Each interview ends in a survey that comes back byte for byte", "[interview][law]") {
  for (const char* name : names) {
    INFO(name);
    const Interview interview = told(answers(name));
    const auto next = interview.question();
    INFO((next ? next->id : std::string("finished")));
    REQUIRE(interview.finished());
    const std::string text = interview.file_text();
    const record::Survey survey = deck::read_survey(text, "x.json").survey;
    CHECK(record::write_survey(survey) == text);
    REQUIRE(survey.recording.has_value());
    CHECK(survey.recording->finished);
  }
}

TEST_CASE("An interview stopped after any answer goes on as if nothing had happened",
          "[interview][law]") {
  const std::vector<std::string> lines = answers("raised-deck-us");
  const std::string whole = told(lines).file_text();
  for (std::size_t cut = 1; cut < lines.size(); cut += 7) {
    Interview first;
    first.set_today("2026-05-31");
    std::size_t done = 0;
    for (; done < cut; ++done) (void)first.say(lines[done]);
    Interview second = Interview::resume(first.file_text(), "x.json");
    second.set_today("2026-05-31");
    for (; done < lines.size(); ++done) (void)second.say(lines[done]);
    INFO("stopped after " << cut << " lines");
    CHECK(second.file_text() == whole);
  }
}

TEST_CASE("An unfinished recording is refused by the reader with what to do", "[interview]") {
  const Interview interview = told_until("low-garden-deck", "boards/material");
  try {
    (void)deck::read_survey(interview.file_text(), "deck.json");
    FAIL("read an unfinished recording");
  } catch (const InputErrors& errors) {
    REQUIRE(errors.errors().size() == 1);
    CHECK(errors.lines().front() ==
          "deck.json: /recording: a recording that is not finished; a finished survey; go on with: "
          "underprop record deck.json");
  }
}

TEST_CASE("What was recorded is what was said", "[interview]") {
  const record::Survey low = told(answers("low-garden-deck")).survey().survey;
  CHECK(low.standard == record::StandardId::eurocode_uk);
  REQUIRE(low.deck.joists.size() == 1);
  CHECK(low.deck.joists[0].positions[2] == mm(830.0));
  CHECK(low.deck.joists[0].positions[10] == mm(3970.0));
  CHECK(low.deck.height.low().value() == Approx(570.0));
  CHECK(low.deck.height.high().value() == Approx(630.0));
  REQUIRE(low.deck.bearers.size() == 3);
  CHECK(low.deck.bearers[0].timber.value() == "C16");  // knots and grain within GS, redwood
  CHECK(low.deck.bearers[2].timber.value() == "C16");  // alike
  REQUIRE(low.deck.supports.size() == 3);
  CHECK(low.deck.supports[2].under == "B3");
  CHECK(low.deck.supports[0].positions[1] == mm(2000.0));  // spread evenly
  CHECK(low.deck.supports[0].footing.offset.is_unknown());

  const record::Survey raised = told(answers("raised-deck-us")).survey().survey;
  CHECK(raised.standard == record::StandardId::north_america_us);
  CHECK(raised.deck.joists[0].depth.value() == inches(7.25));  // "8x2 PT"
  CHECK(raised.deck.joists[0].timber.value() == "Hem-Fir No.2");
  CHECK(raised.deck.joists[0].incised.value());
  REQUIRE(raised.deck.ledgers.size() == 1);
  CHECK(raised.deck.ledgers[0].fixing.value() == record::FixingKind::lag_screw);
  CHECK(raised.deck.supports[0].post->held_down == record::FootHeld::bolted);  // "bolts"
  CHECK(in_kilonewtons(raised.deck.supports[0].post->hold_down_capacity.value()) == Approx(6.0));
  CHECK(raised.site.slope.value() == Approx(1.0 / 40.0));
  CHECK(raised.site.house_walls.items.at(0).from.x == Length(-1219.2));

  const record::Survey walls = told(answers("sleeper-walls")).survey().survey;
  CHECK(walls.deck.outline.size() == 6);
  REQUIRE(walls.deck.walls.size() == 3);
  CHECK(walls.deck.walls[2].gap == mm(3.0));
  REQUIRE(walls.deck.condition.size() == 1);
  CHECK(walls.deck.condition[0].piece == "J4");
  CHECK_FALSE(walls.allow.digging);
  CHECK(walls.loads[0].pinned);

  const record::Survey pads = told(answers("pads-under-joists-us")).survey().survey;
  // Knots of more than half the face: below every grade, so the pieces named count as missing.
  REQUIRE(pads.deck.condition.size() == 2);
  CHECK(pads.deck.condition[0].defect == record::Defect::missing);
  CHECK(pads.deck.condition[1].piece == "J7");
  CHECK(pads.deck.joists[0].timber.is_unknown());
  CHECK(pads.deck.supports[0].under == "J");
  CHECK(pads.loads[0].feet.size() == 4);
}

TEST_CASE("Contact with walls is asked for by its sides and its stretch", "[interview]") {
  Interview interview = told_until("raised-deck-us", "posts/braces/1/kind");
  for (const char* line : {"wall contact", "y", "the yard walls", "both", "1 ft", "7 ft"}) {
    INFO(line);
    CHECK(interview.say(line).changed);
  }
  // Feet are pulled by braces, not by walls.
  CHECK(interview.question()->id == "ground/soil");
  Interview one = told_until("raised-deck-us", "posts/braces/1/kind");
  for (const char* line : {"wall contact", "y", "the yard wall", "one side"}) (void)one.say(line);
  CHECK(one.question()->id == "ground/soil");
}

TEST_CASE("What only some decks have is asked for and recorded", "[interview]") {
  const record::Survey survey = told(answers("between-two-walls")).survey().survey;
  CHECK(survey.name == "Back deck between two walls");  // "back" alone is a command
  const record::DeckRecord& deck = survey.deck;
  REQUIRE(deck.obstacles.size() == 1);
  CHECK(deck.obstacles[0].name == "tree");
  CHECK(deck.obstacles[0].outline.at(2) == Point{mm(3200), mm(2800)});
  REQUIRE(deck.sisters.size() == 2);
  CHECK(deck.sisters[1].joist == "J5");
  CHECK(deck.sisters[1].depth == mm(170));
  REQUIRE(deck.ledgers.size() == 2);
  CHECK(deck.ledgers[0].position == Length());
  CHECK_FALSE(deck.ledgers[0].from.has_value());
  CHECK(deck.ledgers[1].position == metres(3));
  CHECK(deck.ledgers[1].to == mm(3980));
  CHECK(deck.ledgers[1].fixing.value() == record::FixingKind::anchor);  // alike
  CHECK(deck.ledgers[1].fixing_diameter.value() == mm(12));             // "M12"
  CHECK(deck.ledgers[1].stated_capacity.value() == kilonewtons(2.5));
  REQUIRE(deck.walls.size() == 1);
  CHECK(deck.walls[0].from == Point{mm(0), mm(2400)});
  CHECK(deck.walls[0].to == Point{mm(2000), mm(2400)});
  CHECK(deck.joists[0].start.stated_capacity == kilonewtons(8));
  CHECK_FALSE(deck.joists[0].end.stated_capacity.has_value());
  CHECK(deck.bearers[0].hold_down_capacity == kilonewtons(3));
  REQUIRE(deck.supports.size() == 2);
  CHECK(deck.supports[0].bearing_length == mm(90));
  CHECK(deck.supports[1].only == std::vector<std::string>{"J2", "J3"});
  REQUIRE(deck.condition.size() == 1);
  CHECK(deck.condition[0].defect == record::Defect::out_of_level);
  CHECK(deck.condition[0].piece == "PA2");
  CHECK(deck.condition[0].size == mm(3));
  REQUIRE(deck.closed_zones.size() == 1);
  CHECK(deck.closed_zones[0].name == "gas pipe");
  REQUIRE(survey.loads.size() == 2);
  CHECK(survey.loads[0].shape == record::Shape::polygon);
  CHECK(survey.loads[0].outline.at(0) == Point{mm(-400), mm(-400)});  // about its middle
  CHECK(survey.loads[0].feet.at(1) == Point{mm(600), mm(-300)});
  CHECK(survey.loads[0].contents_mass.is_unknown());
  CHECK(survey.loads[0].water_depth.value() == mm(400));  // of the soil
  CHECK(survey.loads[1].diameter.value() == mm(500));
  CHECK(survey.loads[1].pinned);
}

TEST_CASE("Whoever knows nothing still gets a valid survey, with everything open", "[interview]") {
  const record::Survey survey = told(answers("nothing-known")).survey().survey;
  CHECK(survey.deck.joists[0].timber.is_unknown());
  CHECK(survey.deck.joists[0].depth.is_range());
  CHECK(survey.deck.joists[0].start.held.is_unknown());
  CHECK(survey.deck.supports[0].footing.contact.is_unknown());
  CHECK(survey.deck.probed.pieces.empty());
  CHECK(survey.loads[0].dry_mass.is_unknown());
  CHECK(survey.loads[0].contents.is_range());
  CHECK(survey.site.soil.is_unknown());
}

TEST_CASE("A slip of unit is questioned with the likely value", "[interview]") {
  Interview interview = told_until("low-garden-deck", "outline/x");
  const Reply doubted = interview.say("4 mm");
  CHECK_FALSE(doubted.changed);
  INFO(doubted.text);
  CHECK(holds(doubted.text, "Did you mean 4 m?"));
  CHECK(interview.say("yes").changed);
  CHECK(interview.question()->id == "outline/y");
  // Without a unit; and one that is kept although it is unusual.
  CHECK(holds(interview.say("3000").text, "Did you mean 3000 mm?"));
  CHECK_FALSE(interview.say("18 m").changed);
  CHECK(interview.say("keep").changed);
  // Likewise with "about", and a range.
  Interview about = told_until("low-garden-deck", "place/height");
  CHECK(holds(about.say("about 600").text, "Did you mean about 600 mm?"));
  CHECK(holds(about.say("yes").text, "570 mm to 630 mm"));
  Interview range = told_until("low-garden-deck", "place/height");
  CHECK(holds(range.say("600 to 650").text, "Did you mean 600-650 mm?"));
  Interview metres = told_until("low-garden-deck", "joists/J/first");
  CHECK(holds(metres.say("1").text, "Did you mean 1 m?"));
  CHECK(metres.say("0").changed);  // nothing needs no unit
  // A comma may be a point or not.
  Interview again = told_until("low-garden-deck", "outline/x");
  CHECK(holds(again.say("2,400 mm").text, "\"2.400 mm\" or \"2400 mm\""));
}

TEST_CASE("A board named as it is sold is met with its thickness", "[interview]") {
  Interview interview = told_until("pads-under-joists-us", "boards/thickness");
  for (const char* sold : {"5/4x6", "5/4", "5/4 x 6"}) {
    INFO(sold);
    CHECK(holds(interview.say(sold).text, "Did you mean 1 in?"));
  }
  CHECK(holds(interview.say("2x6").text, "Did you mean 1 1/2 in?"));
  // Too thin to be a board: one suggestion, said once.
  const std::string thin = interview.say("1/8 in").text;
  CHECK(holds(thin, "That cannot be"));
  CHECK(thin.find("Did you mean") == thin.rfind("Did you mean"));
  CHECK(thin.find("?.") == std::string::npos);
}

TEST_CASE("Names and words that are none are not taken, wherever they would end", "[interview]") {
  Interview sisters = told_until("low-garden-deck", "joists/sisters/1/joists");
  CHECK(holds(sisters.say("yes").text, "is none of them"));
  CHECK(holds(sisters.say("J12").text, "is none of them"));
  CHECK(sisters.say("j3, J4").changed);
  CHECK(sisters.question()->id == "joists/sisters/1/timber");
  Interview allow = told_until("low-garden-deck", "allow/not");
  for (const char* said : {"pads/x", "~2", "dig", "/"}) {
    CHECK_FALSE(allow.say(said).changed);
    CHECK(allow.question()->id == "allow/not");
  }
  CHECK(allow.say("Digging, pads").changed);
  // Sums of lengths stay numbers.
  Interview far = told_until("low-garden-deck", "joists/J/first");
  CHECK(holds(far.say("1e305 m").text, "further than anything of a deck"));
  // Corners that enclose nothing have no middle.
  Interview corners = told_until("between-two-walls", "load/1/outline");
  CHECK_FALSE(corners.say("0, 0; 1 m, 0; 2 m, 0").changed);
  // A look does not tell the strength of posts.
  Interview posts = told_until("raised-deck-us", "posts/PA/timber");
  CHECK_FALSE(holds(posts.question()->ask, "look"));
  CHECK_FALSE(posts.say("look").changed);
}

TEST_CASE("Bytes that are no text are not taken for an answer", "[interview]") {
  Interview interview = told_until("low-garden-deck", "place/name");
  const Reply reply = interview.say("deck \xff\xc3");
  CHECK_FALSE(reply.changed);
  CHECK(holds(reply.text, "UTF-8"));
  CHECK_NOTHROW(interview.file_text());
  CHECK(interview
            .say("D\xc3\xa9"
                 "ck")
            .changed);
  CHECK_NOTHROW(interview.file_text());
}

TEST_CASE("A must-see fact is not left open silently", "[interview]") {
  Interview interview = told_until("low-garden-deck", "carriers/J/start/held");
  CHECK(interview.question()->must_see);
  const Reply first = interview.say("skip");
  CHECK_FALSE(first.changed);
  CHECK(holds(first.text, "can't be \"carries\""));
  CHECK(interview.question()->id == "carriers/J/start/held");
  CHECK(interview.say("skip").changed);
  CHECK(interview.question()->id == "carriers/J/end/held");
}

TEST_CASE("Going back keeps what was said after it", "[interview]") {
  Interview interview = told_until("low-garden-deck", "joists/J/timber");
  CHECK(interview.say("back").changed);
  CHECK(interview.question()->id == "joists/J/differs/2");
  CHECK(interview.say("same").changed);
  CHECK(interview.question()->id == "joists/J/timber");
  (void)interview.say("back 1");
  CHECK(interview.question()->id == "place/standard");
  CHECK(interview.question()->earlier == "uk");
  CHECK(interview.say("same").changed);
  CHECK(interview.question()->id == "joists/J/timber");
}

TEST_CASE("A row that leaves the deck is refused at once", "[interview]") {
  Interview interview = told_until("low-garden-deck", "joists/J/spacing");
  const Reply reply = interview.say("450 mm");
  INFO(reply.text);
  CHECK_FALSE(reply.changed);
  CHECK(holds(reply.text, "outside the deck's outline"));
  CHECK(interview.say("395 mm").changed);
  CHECK(holds(interview.say("J12 at 1 m").text, "J1 to J11"));
}

TEST_CASE("A survey edited by hand is not overwritten by its old answers", "[interview]") {
  std::string text = told(answers("low-garden-deck")).file_text();
  CHECK_NOTHROW(Interview::resume(text, "x.json"));
  const std::size_t at = text.find("\"28 mm\"");
  REQUIRE(at != std::string::npos);
  text.replace(at, 7, "\"32 mm\"");
  CHECK_THROWS_AS(Interview::resume(text, "x.json"), InputErrors);
  CHECK_THROWS_AS(Interview::resume("{}", "x.json"), InputErrors);
  CHECK_THROWS_AS(Interview::resume("", "x.json"), InputErrors);
}

TEST_CASE("What is open can be asked again", "[interview]") {
  Interview interview = told(answers("nothing-known"));
  REQUIRE(interview.finished());
  CHECK(interview.say("open").changed);
  REQUIRE_FALSE(interview.finished());
  CHECK(interview.question()->id == "place/use");
}

TEST_CASE("Every question says why it is asked and how to find out", "[interview][law]") {
  for (const char* name : names) {
    Interview interview;
    for (const std::string& line : answers(name)) {
      const auto question = interview.question();
      if (!question) break;
      INFO(question->id << ": " << question->ask << " / " << question->how);
      for (const std::string& text : {question->ask, question->why, question->how}) {
        CHECK(text.size() > 4);
        CHECK(text.find('{') == std::string::npos);  // no place left unfilled
      }
      (void)interview.say(line);
    }
  }
}

}  // namespace interview_test_file
}  // namespace underprop::interview
