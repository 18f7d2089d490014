// A class that the tables lack at that size is told with the place where the survey names it.
#include "assessment/properties.hpp"

#include "support/catch.hpp"
#include "support/decks.hpp"

#include "underprop/deck/read.hpp"

namespace no_such_timber_test_file {

using namespace underprop;

namespace {

std::string place_told(deck::Deck deck) {
  const auto standard = assessment::standard_for(deck.standard);
  try {
    (void)assessment::timbers(deck, *standard);
  } catch (const standards::NoSuchTimber& fault) {
    return fault.pointer;
  }
  return "none";
}

}  // namespace

TEST_CASE("A timber that the tables lack is told by its place in the survey", "[assessment][law]") {
  const auto read = deck::read_survey(test::raised(4).dump(), "raised.json");
  const deck::Deck good = deck::resolve(read.survey, record::Reading::cautious).deck;
  CHECK(place_told(good) == "none");
  deck::Deck joist = good, bearer = good, post = good, boards = good;
  joist.joists.front().timber = "nothing of the kind";
  bearer.bearers.back().timber = "nothing of the kind";
  post.supports.front().post->timber = "nothing of the kind";
  boards.boards.timber = "nothing of the kind";
  CHECK(place_told(joist) == "/deck/joists/0/timber");
  CHECK(place_told(bearer) ==
        "/deck/bearers/" + std::to_string(good.bearers.back().index) + "/timber");
  CHECK(place_told(post) ==
        "/deck/supports/" + std::to_string(good.supports.front().group) + "/post/timber");
  CHECK(place_told(boards) == "/deck/boards/timber");
}

}  // namespace no_such_timber_test_file
