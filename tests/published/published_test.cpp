// Every published worked example and table value under tests/published/**/*.json, against our rules.
#include "published/registry.hpp"
#include "support/catch.hpp"
#include "support/paths.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace published_test_file {

namespace {

using nlohmann::json;
namespace fs = std::filesystem;

fs::path published_folder() { return fs::path(underprop::test::tests_dir) / "published"; }

std::vector<fs::path> published_files() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(published_folder())) {
    if (entry.is_regular_file() && entry.path().extension() == ".json") {
      files.push_back(entry.path());
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

// One line saying what is wrong with a key of "expected", or nothing.
std::string difference(const std::string& key, const json& expected, const json& got,
                       const json& tolerance) {
  std::ostringstream line;
  line.precision(12);
  line << "  " << key << ": ";
  if (!got.contains(key)) {
    line << "the rule returns no such key";
    return line.str();
  }
  const json& value = got.at(key);
  if (!expected.is_number()) {
    if (value == expected) return "";
    line << "expected " << expected << ", got " << value;
    return line.str();
  }
  if (!tolerance.contains(key) || !tolerance.at(key).is_number()) {
    line << "no tolerance given";
    return line.str();
  }
  if (!value.is_number()) {
    line << "expected " << expected << ", got " << value;
    return line.str();
  }
  const double wanted = expected.get<double>();
  const double found = value.get<double>();
  const double allowed = tolerance.at(key).get<double>();
  // The last term forgives the decimal numbers' own rounding, nothing more.
  const bool near = std::abs(found - wanted) <= allowed + 1e-12 * std::abs(wanted);
  if (near && allowed >= 0) return "";
  line << "expected " << wanted << ", got " << found << ", difference " << found - wanted
       << ", tolerance " << allowed;
  return line.str();
}

// What is wrong with one case, or nothing.
std::string run_case(const underprop::published::Registry& registry, const std::string& rule,
                     const json& one_case) {
  std::ostringstream faults;
  try {
    const json got = registry.at(rule)(one_case.at("given"));
    const json& expected = one_case.at("expected");
    if (!expected.is_object() || expected.empty()) faults << "  nothing is expected\n";
    for (const auto& [key, value] : expected.items()) {
      const std::string line = difference(key, value, got, one_case.at("tolerance"));
      if (!line.empty()) faults << line << '\n';
    }
    for (const auto& [key, value] : one_case.at("tolerance").items()) {
      if (!expected.contains(key)) faults << "  " << key << ": tolerance for nothing expected\n";
    }
  } catch (const std::exception& error) {
    faults << "  threw: " << error.what() << '\n';
  }
  if (faults.str().empty()) return "";
  return "given " + (one_case.contains("given") ? one_case.at("given").dump() : "nothing") + "\n" +
         faults.str();
}

struct Tally {
  int read = 0;
  int from_memory = 0;
  std::set<std::string> rules;
};

// Runs one block {"source", "rule", "cases"} and counts its cases.
void run_block(const underprop::published::Registry& registry, const fs::path& file,
               const json& block, Tally& tally) {
  INFO(file.string());
  REQUIRE(block.contains("source"));
  REQUIRE(block.at("source").contains("key"));
  REQUIRE(block.at("source").contains("where"));
  REQUIRE(block.at("source").at("read").is_boolean());
  const std::string rule = block.at("rule").get<std::string>();
  INFO("rule " << rule << ", " << block.at("source").dump());
  REQUIRE(registry.count(rule) == 1);
  REQUIRE(block.at("cases").is_array());
  REQUIRE_FALSE(block.at("cases").empty());
  for (const json& one_case : block.at("cases")) {
    const std::string faults = run_case(registry, rule, one_case);
    INFO(faults);
    CHECK(faults.empty());
    (block.at("source").at("read").get<bool>() ? tally.read : tally.from_memory) += 1;
  }
  tally.rules.insert(rule);
}

}  // namespace

TEST_CASE("every published worked example comes out as printed", "[published]") {
  underprop::published::Registry registry;
  underprop::published::register_eurocode_rules(registry);
  underprop::published::register_north_america_rules(registry);

  const std::vector<fs::path> files = published_files();
  REQUIRE_FALSE(files.empty());
  Tally tally;
  for (const fs::path& file : files) {
    std::ifstream stream(file);
    INFO(file.string());
    REQUIRE(stream.good());
    const json content = json::parse(stream);
    if (content.is_array()) {
      for (const json& block : content) run_block(registry, file, block, tally);
    } else {
      run_block(registry, file, content, tally);
    }
  }
  for (const auto& [rule, function] : registry) {
    INFO("no published case uses the registered rule " << rule);
    CHECK(tally.rules.count(rule) == 1);
  }
  std::cout << "published checks: " << tally.read << " read in the document, " << tally.from_memory
            << " from memory\n";
}

TEST_CASE("a wrong published value is noticed", "[law]") {
  underprop::published::Registry registry;
  registry["twice"] = [](const json& given) {
    return json{{"result", 2.0 * given.at("n").get<double>()}, {"word", "even"}};
  };
  const json right = {{"given", {{"n", 2}}},
                      {"expected", {{"result", 4.04}, {"word", "even"}}},
                      {"tolerance", {{"result", 0.05}}}};
  CHECK(run_case(registry, "twice", right).empty());
  for (const json& patch :
       {json{{"expected", {{"result", 4.06}}}}, json{{"expected", {{"word", "odd"}}}},
        json{{"expected", {{"missing", 1}}}}, json{{"tolerance", {{"result", nullptr}}}},
        json{{"tolerance", {{"result", -1}}}}, json{{"tolerance", {{"other", 1}}}},
        json{{"given", {{"n", nullptr}}}}}) {
    json wrong = right;
    wrong.merge_patch(patch);
    INFO(patch.dump());
    CHECK_FALSE(run_case(registry, "twice", wrong).empty());
  }
}

}  // namespace published_test_file
