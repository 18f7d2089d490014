// Decks of the shapes that occur, each told to the interview as somebody on site would: by questions and
// answers, never by the file. The decks are invented.
#include "support/catch.hpp"
#include "underprop/deck/deck.hpp"
#include "underprop/interview/interview.hpp"

#include <map>
#include <string>

namespace underprop::interview {
namespace interview_shapes_test_file {
namespace {

using Said = std::map<std::string, std::string>;

/// A free-standing deck of 3.6 x 3 m: boards along x, nine joists over two bearers, four pads under each.
Said plain() {
  return {{"place/standard", "uk"},
          {"place/recorded_on", "2026-05-01"},
          {"place/use", "one household"},
          {"place/height", "550 mm"},
          {"place/storeys", "1"},
          {"place/space_below", "none"},
          {"place/attached", "no"},
          {"outline/shape", "rectangle"},
          {"outline/x", "3.6 m"},
          {"outline/y", "3 m"},
          {"outline/obstacles/count", "0"},
          {"boards/material", "softwood"},
          {"boards/direction", "x"},
          {"boards/thickness", "28 mm"},
          {"boards/width", "145 mm"},
          {"boards/gap", "5 mm"},
          {"boards/joints", "none"},
          {"joists/kinds", "1"},
          {"joists/J/size", "47 x 170"},
          {"joists/J/count", "9"},
          {"joists/J/first", "200 mm"},
          {"joists/J/spacing", "400 mm"},
          {"joists/J/timber", "C24"},
          {"carriers/bearers/count", "2"},
          {"carriers/B1/position", "400 mm"},
          {"carriers/B1/joists", "on top"},
          {"carriers/B1/plies", "1"},
          {"carriers/B1/size", "75 x 170"},
          {"carriers/B1/timber", "C24"},
          {"carriers/B1/whole", "yes"},
          {"carriers/B2/position", "2.6 m"},
          {"carriers/B2/joists", "on top"},
          {"carriers/B2/alike", "yes"},
          {"carriers/B2/whole", "yes"},
          {"carriers/walls/count", "0"},
          {"pads/PA/count", "4"},
          {"pads/PA/first", "200 mm"},
          {"pads/PA/spacing", "200, 1200, 2400, 3400 mm"},
          {"pads/PA/kind", "cast pad"},
          {"pads/PA/contact", "tight"},
          {"pads/PB/alike", "yes"},
          {"posts/PA/there", "no"},
          {"pads/under J/there", "no"},
          {"condition/probed", "all"},
          {"load/1/kind", "tub"},
          {"load/1/shape", "rectangle"},
          {"load/1/width", "1.2 m"},
          {"load/1/length", "1.2 m"},
          {"load/1/at", "middle"},
          {"load/1/dry_mass", "100 kg"},
          {"load/1/contents", "500 l"},
          {"load/1/water_depth", "600 mm"}};
}

/// Answers each question by its name; those without an answer are left open, or no, or none.
record::Survey told(const Said& said) {
  Interview interview;
  for (int k = 0; k < 400; ++k) {
    const auto question = interview.question();
    if (!question) break;
    INFO(question->id << ": " << question->ask);
    const auto found = said.find(question->id);
    std::string line = found == said.end() ? "" : found->second;
    Reply reply = interview.say(line);
    if (reply.text.find("Say skip once more") != std::string::npos) reply = interview.say("skip");
    if (!reply.changed && found == said.end()) reply = interview.say("no");
    if (!reply.changed && found == said.end()) reply = interview.say("0");
    if (!reply.changed && found == said.end()) reply = interview.say("skip");
    if (!reply.changed) reply = interview.say("keep");
    INFO(reply.text);
    REQUIRE(reply.changed);
  }
  REQUIRE(interview.finished());
  return interview.survey().survey;
}

/// The plain deck, told otherwise here and there.
record::Survey told_with(const Said& other) {
  Said said = plain();
  for (const auto& [question, answer] : other) said[question] = answer;
  return told(said);
}

deck::Deck resolved(const record::Survey& survey) {
  return deck::resolve(survey, record::Reading::likely).deck;
}

}  // namespace

TEST_CASE("A plain deck is told and stands", "[interview][shapes]") {
  const record::Survey survey = told(plain());
  CHECK(resolved(survey).joists.size() == 9);
  CHECK(resolved(survey).supports.size() == 8);
}

TEST_CASE("An L is told by the corner that is missing, and its joists end there",
          "[interview][shapes]") {
  const record::Survey survey =
      told_with({{"outline/shape", "cut corner"},   {"outline/cut", "far right"},
                 {"outline/cut_x", "1.7 m"},        {"outline/cut_y", "1.2 m"},
                 {"carriers/bearers/count", "3"},   {"carriers/B2/whole", "no"},
                 {"carriers/B2/from", "0"},         {"carriers/B2/to", "1.9 m"},
                 {"carriers/B3/position", "1.6 m"}, {"carriers/B3/joists", "on top"},
                 {"carriers/B3/alike", "yes"},      {"carriers/B3/whole", "no"},
                 {"carriers/B3/from", "1.9 m"},     {"carriers/B3/to", "3.6 m"},
                 {"pads/PB/alike", "no"},           {"pads/PB/count", "2"},
                 {"pads/PB/first", "200 mm"},       {"pads/PB/spacing", "1.5 m"},
                 {"pads/PB/contact", "tight"},      {"posts/PB/there", "no"},
                 {"pads/PC/alike", "no"},           {"pads/PC/count", "2"},
                 {"pads/PC/first", "2.1 m"},        {"pads/PC/spacing", "1.3 m"},
                 {"pads/PC/contact", "tight"},      {"posts/PC/there", "no"},
                 {"load/1/at", "1 m, 1.4 m"}});
  CHECK(survey.deck.outline.size() == 6);
  const deck::Deck deck = resolved(survey);
  CHECK(deck.joists.front().to == mm(3000.0));
  CHECK(deck.joists.back().to == mm(1800.0));
}

TEST_CASE("An angled end is told by its corners, whose sides are read back",
          "[interview][shapes]") {
  Said said = plain();
  said["outline/shape"] = "corners";
  said["outline/corners"] = "0, 0; 3.6 m, 0; 3.6 m, 2.8 m; 0, 3.4 m";
  const deck::Deck deck = resolved(told(said));
  for (std::size_t k = 1; k < deck.joists.size(); ++k)
    CHECK(deck.joists[k].to < deck.joists[k - 1].to);

  Interview interview;
  for (int k = 0; k < 40; ++k) {
    const auto question = interview.question();
    REQUIRE(question);
    if (question->id == "outline/corners") break;
    const auto found = said.find(question->id);
    (void)interview.say(found == said.end() ? "" : found->second);
  }
  const std::string text = interview.say(said["outline/corners"]).text;
  INFO(text);
  CHECK(text.find("its sides are 3600 mm, 2800 mm, 3650 mm, 3400 mm") != std::string::npos);
}

TEST_CASE("Joists of unequal depth, length and spacing are kinds of their own",
          "[interview][shapes]") {
  const record::Survey survey = told_with({{"joists/kinds", "2"},
                                           {"joists/J/count", "5"},
                                           {"joists/J/spacing", "200, 600, 1000, 1400, 1800 mm"},
                                           {"joists/K/direction", "y"},
                                           {"joists/K/size", "47 x 145"},
                                           {"joists/K/count", "4"},
                                           {"joists/K/first", "2.2 m"},
                                           {"joists/K/spacing", "2200, 2500, 3000, 3400 mm"},
                                           {"joists/K/from", "200 mm"},
                                           {"joists/K/timber", "C24"},
                                           {"pads/under K/there", "no"}});
  const deck::Deck deck = resolved(survey);
  REQUIRE(deck.joists.size() == 9);
  CHECK(deck.joists[0].depth == mm(170.0));
  CHECK(deck.joists[8].depth == mm(145.0));
  CHECK(deck.joists[8].from == mm(200.0));
}

TEST_CASE("A doubled joist is told by its second piece", "[interview][shapes]") {
  const record::Survey survey = told_with({{"joists/sisters/1/joists", "J4, J5"},
                                           {"joists/sisters/1/timber", "C24"},
                                           {"joists/sisters/1/size", "47 x 170"}});
  const deck::Deck deck = resolved(survey);
  CHECK(deck.joists[3].sisters.size() == 1);
  CHECK(deck.joists[5].sisters.empty());
}

TEST_CASE("Stairs that cut into an edge: joists on either side and shorter ones behind",
          "[interview][shapes]") {
  const record::Survey survey = told_with(
      {{"outline/shape", "corners"},
       {"outline/corners",
        "0, 0; 1.3 m, 0; 1.3 m, 900 mm; 2.3 m, 900 mm; 2.3 m, 0; 3.6 m, 0; 3.6 m, 3 m; 0, 3 m"},
       {"carriers/bearers/count", "3"},
       {"carriers/B1/position", "1.1 m"},
       {"carriers/B3/position", "300 mm"},
       {"carriers/B3/joists", "on top"},
       {"carriers/B3/alike", "yes"},
       {"carriers/B3/whole", "no"},
       {"carriers/B3/from", "0"},
       {"carriers/B3/to", "1.3 m"},
       {"pads/PC/alike", "no"},
       {"pads/PC/count", "2"},
       {"pads/PC/first", "200 mm"},
       {"pads/PC/spacing", "900 mm"},
       {"pads/PC/contact", "tight"},
       {"posts/PC/there", "no"}});
  const deck::Deck deck = resolved(survey);
  CHECK(deck.joists[0].from == mm(0.0));
  CHECK(deck.joists[3].from == mm(900.0));  // J4 at 1.4 m starts behind the stairs
  CHECK(deck.joists[8].from == mm(0.0));
}

TEST_CASE("Overhangs on two sides, diagonal boards and pads off the line are told as measured",
          "[interview][shapes]") {
  const record::Survey survey = told_with({{"boards/angle_deg", "45"},
                                           {"carriers/B1/position", "700 mm"},
                                           {"carriers/B2/position", "2.3 m"},
                                           {"pads/PA/offset", "60 mm"}});
  CHECK(survey.deck.boards.angle_deg == 45.0);
  const deck::Deck deck = resolved(survey);
  CHECK(deck.boards.thickness < mm(28.0));
  CHECK(deck.supports[0].footing.offset == mm(60.0));
}

TEST_CASE("Posts of several heights in one row are told kind by kind", "[interview][shapes]") {
  const record::Survey survey = told_with({{"pads/PA/count", "2"},
                                           {"pads/PA/spacing", "1 m"},
                                           {"pads/PA/others", "1"},
                                           {"pads/QA/count", "2"},
                                           {"pads/QA/first", "2.4 m"},
                                           {"pads/QA/spacing", "1 m"},
                                           {"posts/QA/there", "yes"},
                                           {"posts/QA/size", "100 x 100 measured"},
                                           {"posts/QA/height", "300 mm"},
                                           {"posts/QA/bearer", "on top"},
                                           {"pads/QA/contact", "tight"},
                                           {"posts/braces/count", "0"},
                                           {"pads/PB/alike", "no"},
                                           {"pads/PB/count", "4"},
                                           {"pads/PB/first", "200 mm"},
                                           {"pads/PB/spacing", "even"},
                                           {"posts/PB/there", "no"},
                                           {"pads/PB/contact", "tight"}});
  REQUIRE(survey.deck.supports.size() == 3);
  CHECK(survey.deck.supports[1].name == "QA");
  CHECK(survey.deck.supports[1].under == "B1");
  REQUIRE(survey.deck.supports[1].post);
  CHECK_FALSE(survey.deck.supports[0].post);
  CHECK(resolved(survey).supports.size() == 8);
}

TEST_CASE("A deck round a tree: joists that end at the hole are kinds of their own",
          "[interview][shapes]") {
  const record::Survey survey =
      told_with({{"outline/obstacles/count", "1"},
                 {"outline/obstacles/1/name", "old apple tree"},
                 {"outline/obstacles/1/corners", "2.8 m, 1.3 m to 3.2 m, 1.7 m"},
                 {"joists/kinds", "3"},
                 {"joists/J/count", "8"},
                 {"joists/J/spacing", "200, 600, 1000, 1400, 1800, 2200, 2600, 3400 mm"},
                 {"joists/K/direction", "y"},
                 {"joists/K/size", "47 x 170"},
                 {"joists/K/count", "1"},
                 {"joists/K/first", "3 m"},
                 {"joists/K/to", "1.2 m"},
                 {"joists/K/timber", "C24"},
                 {"joists/M/direction", "y"},
                 {"joists/M/size", "47 x 170"},
                 {"joists/M/count", "1"},
                 {"joists/M/first", "3 m"},
                 {"joists/M/from", "1.8 m"},
                 {"joists/M/timber", "C24"},
                 {"carriers/bearers/count", "4"},
                 {"carriers/B3/position", "1.1 m"},
                 {"carriers/B3/joists", "on top"},
                 {"carriers/B3/alike", "yes"},
                 {"carriers/B3/whole", "no"},
                 {"carriers/B3/from", "2.4 m"},
                 {"carriers/B3/to", "3.6 m"},
                 {"carriers/B4/position", "1.9 m"},
                 {"carriers/B4/joists", "on top"},
                 {"carriers/B4/alike", "yes"},
                 {"carriers/B4/whole", "no"},
                 {"carriers/B4/from", "2.4 m"},
                 {"carriers/B4/to", "3.6 m"},
                 {"pads/PC/alike", "no"},
                 {"pads/PC/count", "2"},
                 {"pads/PC/first", "2.6 m"},
                 {"pads/PC/spacing", "800 mm"},
                 {"pads/PC/contact", "tight"},
                 {"posts/PC/there", "no"},
                 {"pads/PD/alike", "no"},
                 {"pads/PD/count", "2"},
                 {"pads/PD/first", "2.6 m"},
                 {"pads/PD/spacing", "800 mm"},
                 {"pads/PD/contact", "tight"},
                 {"posts/PD/there", "no"},
                 {"pads/under K/there", "no"},
                 {"pads/under M/there", "no"},
                 {"load/1/at", "1.4 m, 1.5 m"}});
  CHECK(survey.deck.obstacles.at(0).name == "old apple tree");
  const deck::Deck deck = resolved(survey);
  CHECK(deck.joists[8].to == mm(1200.0));
  CHECK(deck.joists[9].from == mm(1800.0));
}

TEST_CASE("Nothing probed is an answer of its own", "[interview]") {
  const record::Survey survey = told_with({{"condition/probed", "none"}});
  CHECK(survey.deck.probed.pieces.empty());
}

TEST_CASE("Whoever measures in words is understood", "[interview]") {
  const record::Survey survey = told_with({{"place/use", "just us"},
                                           {"place/space_below", "grass"},
                                           {"place/storeys", "one"},
                                           {"boards/material", "pressure treated"},
                                           {"boards/direction", "left to right"},
                                           {"carriers/J/start/held", "free"},
                                           {"pads/PA/offset", "in the middle"}});
  CHECK(survey.site.use.value() == record::Use::one_household);
  CHECK(survey.site.space_below.value() == record::SpaceBelow::none);
  CHECK(survey.deck.boards.direction == Axis::x);
  CHECK(survey.deck.supports[0].footing.offset.value() == mm(0.0));
}

TEST_CASE("What marks corner A is told in words; a size is a slip", "[interview]") {
  Interview interview;
  for (int k = 0; k < 20; ++k) {
    const auto question = interview.question();
    REQUIRE(question);
    if (question->id == "place/corner_a") break;
    (void)interview.say(question->id == "place/standard"   ? "us"
                        : question->id == "place/attached" ? "no"
                                                           : "");
  }
  for (const char* slip : {"14 ft", "4 m", "300-400 mm", "yes", "7"}) {
    const Reply reply = interview.say(slip);
    INFO(slip << ": " << reply.text);
    CHECK_FALSE(reply.changed);
  }
  CHECK(interview.question()->ask.find("corner A") != std::string::npos);
}

TEST_CASE("Whoever measures in feet is told of feet", "[interview]") {
  Interview interview;
  (void)interview.say("us");
  std::string shown;
  for (int k = 0; k < 60; ++k) {
    const auto question = interview.question();
    REQUIRE(question);
    shown += question->ask + "\n";
    const std::string& id = question->id;
    const Reply reply = interview.say(id == "outline/shape"      ? "corners"
                                      : id == "outline/corners"  ? "0, 0; 13 ft, 0; 13 ft"
                                      : id == "place/attached"   ? "no"
                                      : id == "boards/direction" ? "x"
                                      : id == "boards/material"  ? "softwood"
                                                                 : "");
    shown += reply.text + "\n";
    if (id == "outline/corners") break;
  }
  INFO(shown);
  CHECK(shown.find("13 ft, 0") != std::string::npos);
  CHECK(shown.find("4 ft, 1 ft 6 in") != std::string::npos);
  CHECK(shown.find(" mm") == std::string::npos);
  CHECK(shown.find(" m,") == std::string::npos);
}

}  // namespace interview_shapes_test_file
}  // namespace underprop::interview
