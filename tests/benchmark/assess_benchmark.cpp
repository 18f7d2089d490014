// Times one assessment of a deck, and its parts, as ratios measured in one run.
//   assess_benchmark [SURVEY]
#include "underprop/assessment/assessment.hpp"
#include "underprop/assessment/exported.hpp"
#include "underprop/deck/read.hpp"

#include <cstdio>
#include <ctime>
#include <fstream>
#include <iterator>
#include <string>

namespace {

template <class Job>
double milliseconds(int times, const Job& job) {
  const std::clock_t start =
      std::clock();  // of this process: other work on the machine does not count
  for (int k = 0; k < times; ++k) job();
  return 1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC / times;
}

}  // namespace

int main(int argc, char** argv) {
  using namespace underprop;
  const std::string path = argc > 1 ? argv[1] : "examples/courtyard-platform/survey.json";
  std::ifstream file(path);
  const std::string text((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
  if (text.empty()) {
    std::fprintf(stderr, "cannot read %s\n", path.c_str());
    return 74;
  }
  const record::Survey deck = deck::read_survey(text, path).survey;
  const auto standard = assessment::standard_for(deck.standard);
  const deck::Deck resolved = deck::resolve(deck, record::Reading::cautious).deck;
  std::size_t solves = 0;
  const double read = milliseconds(20, [&] { static_cast<void>(deck::read_survey(text, path)); });
  const double one = milliseconds(5, [&] {
    solves = assessment::assess_deck(resolved, *standard, {.depth = assessment::Depth::utilisation})
                 .solves;
  });
  const double whole =
      milliseconds(3, [&] { static_cast<void>(assessment::assess(deck, *standard)); });
  const auto models = assessment::exported_models(deck, *standard);
  std::printf("%s\n", path.c_str());
  std::printf("reading the survey          %9.2f ms\n", read);
  std::printf("one reading of the facts    %9.2f ms  (%zu contact states, %.1f us each)\n", one,
              solves, 1000.0 * one / static_cast<double>(solves));
  std::printf("whole assessment            %9.2f ms  = %.1f times one reading\n", whole,
              whole / one);
  if (models.models.empty()) {
    std::printf("no frame to factor: %s\n", models.why.c_str());
    return 0;
  }
  const auto& model = models.models.front();
  const double factor =
      milliseconds(20, [&] { static_cast<void>(solver::Analysis(model.frame, model.cases)); });
  std::printf("one frame factored          %9.2f ms  (%zu nodes, %zu members)\n", factor,
              model.frame.nodes.size(), model.frame.members.size());
  std::printf("one reading is %.1f factorisations, a whole assessment %.1f\n", one / factor,
              whole / factor);
  return 0;
}
