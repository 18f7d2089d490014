// The library in a program of one's own: the verdict on a survey file. Not a substitute for a structural engineer.
#include "underprop/assessment/assessment.hpp"
#include "underprop/deck/read.hpp"

#include <fstream>
#include <iostream>
#include <sstream>

int main(int argc, char** argv) {
  if (argc != 2) return 64;
  std::ostringstream text;
  text << std::ifstream(argv[1]).rdbuf();
  const auto read = underprop::deck::read_survey(text.str(), argv[1]);
  const auto standard = underprop::assessment::standard_for(read.survey.standard);
  const auto assessment = underprop::assessment::assess(read.survey, *standard);
  std::cout << underprop::assessment::to_string(assessment.verdict) << "\n";
  return static_cast<int>(assessment.verdict);
}
