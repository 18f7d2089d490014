// What README and the examples show is what the program prints: run, and compared word for word.
#include "support/catch.hpp"
#include "support/paths.hpp"
#include "support/program.hpp"
#include "support/recorded.hpp"

#include <algorithm>
#include <filesystem>
#include <sstream>
#include <string>
#include <vector>

namespace words_test_file {

namespace {

namespace fs = std::filesystem;
using namespace underprop::test;

/// The folders of examples/ that hold a survey, by their path from the project's folder, sorted.
std::vector<std::string> examples() {
  std::vector<std::string> folders;
  for (const auto& entry : fs::directory_iterator(fs::path(source_dir) / "examples")) {
    if (fs::exists(entry.path() / "survey.json"))
      folders.push_back("examples/" + entry.path().filename().string());
  }
  std::ranges::sort(folders);
  REQUIRE(folders.size() >= 6);
  return folders;
}

std::string file_text(const std::string& file) {
  return text_of((fs::path(source_dir) / file).string());
}

/// The commands that a README names, each on an indented line of its own.
std::vector<std::string> named_in(const std::string& file) {
  const std::string indent = "    ";
  std::vector<std::string> commands;
  std::istringstream lines(file_text(file));
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with(indent + "underprop ")) commands.push_back(line.substr(indent.size()));
  }
  return commands;
}

const std::string long_search = "underprop retrofit examples/ledger-hung-raised-deck/survey.json";

}  // namespace

TEST_CASE("What a README shows is what the program prints", "[program][words][recorded]") {
  CHECK(check_sections("README.md") >= 1);
  check_sections("DEVELOPERS.md");
  for (const std::string& folder : examples()) check_sections(folder + "/README.md");
}

TEST_CASE("Beside every example stands what the commands of its README print",
          "[program][words][recorded]") {
  for (const std::string& folder : examples()) {
    std::vector<std::string> commands = named_in(folder + "/README.md");
    INFO(folder);
    REQUIRE_FALSE(commands.empty());
    for (const std::string& command : commands)
      CHECK(command.find(folder + "/survey.json") != std::string::npos);
    // A search for works that takes its time stands below.
    std::erase(commands, long_search);
    check_recorded(folder + "/expected.txt", terminal_text(commands));
    CHECK(file_text(folder + "/expected.txt").find("not a substitute for a structural") !=
          std::string::npos);
  }
}

TEST_CASE("The works found for the raised deck are those recorded beside it",
          "[.slow][program][words][recorded]") {
  check_recorded("examples/ledger-hung-raised-deck/expected-works.txt",
                 terminal_text({long_search}));
}

}  // namespace words_test_file
