// What an assessment found, in sentences: the only place where they are written, for the terminal, the
// JSON and the HTML alike.
#pragma once

#include "underprop/assessment/assessment.hpp"

#include <string>
#include <vector>

namespace underprop::report {

/// The verdict with what it rests on.
std::string verdict_sentence(const assessment::Assessment& assessment);
/// "whether joists J are sound: a screwdriver along their length"
std::string to_words(const assessment::MustSee& item);
/// The facts of a set that decides, and the value of each that would pass: "recorded and sound".
std::vector<std::string> facts_of(const assessment::Assessment& assessment,
                                  const assessment::Decides& decides);
std::vector<std::string> passes_if(const assessment::Assessment& a,
                                   const assessment::Decides& decides);
/// What was assumed, open facts last.
std::vector<std::string> assumptions(const assessment::Assessment& assessment);

}  // namespace underprop::report
