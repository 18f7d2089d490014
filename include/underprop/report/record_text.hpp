// What the interview shows: questions, replies, and the deck as a drawing in text.
#pragma once

#include "underprop/interview/interview.hpp"

#include <string>

namespace underprop::report {

/// How much of a question is shown: all of it below the name of its chapter, all of it, or only what is
/// asked, where the rest stands a few lines above.
enum class Shown { with_chapter, whole, again };

/// The question, wrapped.
[[nodiscard]] std::string question_text(const interview::Question& question, Shown shown,
                                        int width = 80);
/// Lines of a reply, wrapped, those of a list as they are where they fit.
[[nodiscard]] std::string reply_text(const std::string& text, int width = 80);

/// The plan of the deck to scale, seen from above with corner A at the lower left: outline, joists,
/// bearers, ledger, walls, supports and loads, in ASCII, with a legend and a scale. A place shows the
/// last of these that stands there. Facts that are not known count at their likely values.
[[nodiscard]] std::string plan_text(const record::Survey& survey, int width = 80);

}  // namespace underprop::report
