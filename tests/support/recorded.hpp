// Recorded words: what comes out today, kept in files for people to read, and compared by tests.
// `sh tests/accept.sh` writes all of them anew; `git diff` is the review. Every test case that
// compares recorded words carries the tag [words], by which that script finds it.
//
// Files are named by their path from the folder of the project.
#pragma once

#include "program.hpp"

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <vector>

namespace underprop::test {

/// The whole of `file` is `text`.
void check_recorded(const std::string& file, const std::string& text);

/// The JSON in `file` is `now`, numbers to a relative 1e-6, which outlasts another compiler.
void check_recorded_numbers(const std::string& file, const nlohmann::ordered_json& now);

/// What stands in `file` under the line "== title", up to the next such line, is `text`.
void check_passage(const std::string& file, const std::string& title, const std::string& text);

/// Every section of a Markdown file between `section_begin` and `section_end` shows what its commands
/// print: a fenced block of "$ underprop ..." lines, each followed by its output. No such line stands
/// outside a section. Returns the number of sections.
int check_sections(const std::string& file);

inline const char* const section_begin =
    "<!-- begin: output of the command in the first line -->\n```\n";
inline const char* const section_end = "```\n<!-- end: output -->\n";

/// What a command prints: a line for a shell that begins with "underprop", run in the folder of the
/// project. What it says on standard error is dropped unless the line keeps it (2>&1). Each is run once
/// by a process, however often it is shown.
const Ran& shown(const std::string& command);

/// The commands, each as "$ command", with what it prints and the code with which it exits.
std::string terminal_text(const std::vector<std::string>& commands);

/// The lines in which two texts differ, with two lines round them: "-" recorded, "+" now; "" if none.
std::string line_difference(const std::string& recorded, const std::string& now);

}  // namespace underprop::test
