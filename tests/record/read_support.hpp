// Files for the tests of reading.
#pragma once

#include "base/json_reader.hpp"
#include "support/paths.hpp"
#include "underprop/deck/read.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace underprop::record::test {

inline std::string file_text(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// The survey.json of every example, sorted.
inline std::vector<std::filesystem::path> example_surveys() {
  std::vector<std::filesystem::path> paths;
  const std::filesystem::path root =
      std::filesystem::path(underprop::test::source_dir) / "examples";
  for (const auto& entry : std::filesystem::directory_iterator(root)) {
    if (std::filesystem::exists(entry.path() / "survey.json")) {
      paths.push_back(entry.path() / "survey.json");
    }
  }
  std::ranges::sort(paths);
  return paths;
}

/// The faults found, one line each; empty if the text is a good survey.
inline std::string faults(const std::string& text) {
  try {
    (void)deck::read_survey(text, "survey.json");
  } catch (const InputErrors& errors) {
    std::string lines;
    for (const std::string& line : errors.lines()) lines += line + "\n";
    return lines;
  }
  return {};
}

}  // namespace underprop::record::test
