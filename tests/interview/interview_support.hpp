// The interview from inside: the answers of tests/interviews/, one line each.
#pragma once

#include "support/catch.hpp"
#include "support/paths.hpp"
#include "underprop/interview/interview.hpp"

#include <fstream>
#include <string>
#include <vector>

namespace underprop::interview {

inline std::vector<std::string> answers(const std::string& name) {
  std::ifstream file(std::string(underprop::test::source_dir) + "/tests/interviews/" + name +
                     ".txt");
  REQUIRE(file.good());
  std::vector<std::string> lines;
  for (std::string line; std::getline(file, line);) lines.push_back(line);
  return lines;
}

inline Interview told(const std::vector<std::string>& lines) {
  Interview interview;
  interview.set_today("2026-05-31");
  for (const std::string& line : lines) (void)interview.say(line);
  return interview;
}

/// Answers up to the first question of that name.
inline Interview told_until(const std::string& name, const std::string& question) {
  Interview interview;
  interview.set_today("2026-05-31");
  for (const std::string& line : answers(name)) {
    const auto now = interview.question();
    REQUIRE(now.has_value());
    if (now->id == question) return interview;
    (void)interview.say(line);
  }
  FAIL("never asked: " << question);
  return interview;
}

inline bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

inline const char* const interview_names[] = {"low-garden-deck",      "raised-deck-us",
                                              "nothing-known",        "sleeper-walls",
                                              "pads-under-joists-us", "between-two-walls"};

}  // namespace underprop::interview
