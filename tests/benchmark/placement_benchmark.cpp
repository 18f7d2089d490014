// A map of places on a 4 m x 5 m deck of 12 joists and 30 boards, and what one place costs beside one
// assessment from scratch, in CPU time of one run. From scratch means two things: as the program does it,
// which factors each bound once and remembers contacts from state to state; and with every contact state
// built, factored and solved by itself, which is timed on one state of every exported bound and multiplied
// by the states of the assessment.
//   placement_benchmark [ROWS OF PADS] [STEP IN MM]
#include "support/decks.hpp"
#include "underprop/assessment/exported.hpp"
#include "underprop/placement/placement.hpp"

#include <cstdio>
#include <cstdlib>
#include <ctime>

namespace {

double now_ms() { return 1000.0 * static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

}  // namespace

int main(int argc, char** argv) {
  using namespace underprop;
  for (const int rows :
       argc > 1 ? std::vector<int>{std::atoi(argv[1])} : std::vector<int>{2, 3, 4}) {
    test::Json json = test::platform(rows);
    // Wider boards and joists further apart than in the tests: 12 joists over 5 m, 30 boards over 4 m.
    const auto millimetres = [](double v) { return std::to_string(std::lround(v)) + " mm"; };
    json["deck"]["outline"] =
        test::Json::array({{"0 m", "0 m"}, {"5 m", "0 m"}, {"5 m", "4 m"}, {"0 m", "4 m"}});
    json["deck"]["boards"]["width"] = "128 mm";
    test::Json pads = test::Json::array();
    json["deck"]["joists"][0]["first"] = "100 mm";
    json["deck"]["joists"][0]["spacing"] = "436 mm";
    json["deck"]["joists"][0]["count"] = 12;
    for (int k = 0; k < rows; ++k) pads.push_back(millimetres(150.0 + 3700.0 * k / (rows - 1)));
    json["deck"]["supports"][0]["positions"] = pads;
    json["loads"][0]["width"] = "2 m";
    json["loads"][0]["length"] = "2.1 m";
    json["loads"][0]["at"] = test::Json::array({"2.5 m", "2 m"});
    const record::Survey survey = deck::read_survey(json.dump(), "benchmark").survey;
    const auto standard = assessment::standard_for(survey.standard);
    const deck::Deck deck = deck::resolve(survey, record::Reading::cautious).deck;
    double start = now_ms();
    const auto scratch = assessment::assess_deck(deck, *standard);
    const double one = now_ms() - start;
    const assessment::ExportedModels models = assessment::exported_models(survey, *standard);
    std::size_t states = 0;
    start = now_ms();
    for (const assessment::ExportedModel& model : models.models) {
      if (model.combinations.empty()) continue;
      const solver::Analysis analysis(model.frame, model.cases);
      const solver::Response response = analysis.solve(model.combinations.front().factors);
      states += response.mechanism ? 0 : 1;
    }
    const double state = states > 0 ? (now_ms() - start) / static_cast<double>(states) : 0.0;
    const double naive = state * static_cast<double>(scratch.solves);
    placement::Wishes wishes;
    wishes.capacity = false;
    wishes.step = mm(argc > 2 ? std::atof(argv[2]) : 80.0);
    start = now_ms();
    const placement::Placement map = placement::place(survey, *standard, wishes);
    const double all = now_ms() - start;
    const double each = all / static_cast<double>(map.spots.size());
    std::printf(
        "%d rows of pads: as recorded %.2f; %zu places, %zu pass; map %.0f ms, %.2f ms a place\n"
        "  one assessment from scratch %.1f ms = %.1f places\n"
        "  its %zu contact states, each built and factored by itself (%.2f ms) = %.0f ms = %.0f "
        "places\n",
        rows, scratch.safety, map.spots.size(), map.passing, all, each, one, one / each,
        scratch.solves, state, naive, naive / each);
  }
  return 0;
}
