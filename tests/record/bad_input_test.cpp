// Faulty surveys: each file of tests/bad_input is refused with exactly the lines beside it.
#include "record/read_support.hpp"
#include "support/paths.hpp"
#include "support/recorded.hpp"

#include "support/catch.hpp"

#include <map>
#include <set>

namespace underprop::record {
namespace bad_input_test_file {
namespace {

namespace fs = std::filesystem;

TEST_CASE("Every faulty survey is refused with exactly the expected lines",
          "[read][words][recorded]") {
  std::set<std::string> names;
  for (const auto& entry :
       fs::directory_iterator(fs::path(underprop::test::tests_dir) / "bad_input")) {
    names.insert(entry.path().stem().string());
  }
  REQUIRE(names.size() >= 100);
  for (const std::string& name : names) {
    INFO(name);
    const fs::path base = fs::path(underprop::test::tests_dir) / "bad_input" / name;
    REQUIRE(fs::exists(base.string() + ".json"));
    const std::string found = test::faults(test::file_text(base.string() + ".json"));
    CHECK_FALSE(found.empty());
    underprop::test::check_recorded("tests/bad_input/" + name + ".expected", found);
  }
}

TEST_CASE("Two hundred thousand levels of nesting are refused, not followed", "[read][law]") {
  for (const char* bracket : {"[", "{\"deck\":"}) {
    std::string text;
    for (int i = 0; i < 200000; ++i) text += bracket;
    CHECK(test::faults(text).find("survey.json: /: ") == 0);
  }
}

TEST_CASE("A text larger than the limit is refused before it is parsed", "[read][law]") {
  const std::string text = "{\"notes\": \"" + std::string(max_json_bytes, 'n') + "\"}";
  CHECK(test::faults(text).find("survey.json: /: ") == 0);
}

TEST_CASE("No end of a survey cut short is accepted", "[read][law]") {
  const std::string text = test::file_text(test::example_surveys().front());
  for (std::size_t length = 0; length + 3 < text.size(); length += 97) {
    INFO(length);
    CHECK_FALSE(test::faults(text.substr(0, length)).empty());
  }
}

TEST_CASE("Faults beyond the limit are counted, and reading still ends", "[read][law]") {
  std::string text = R"({"format": "underprop-survey/1")";
  for (int i = 0; i < 20000; ++i) text += ", \"key" + std::to_string(i) + "\": 1";
  const std::string found = test::faults(text + "}");
  CHECK(std::ranges::count(found, '\n') == static_cast<long>(ErrorList::max_errors) + 1);
}

}  // namespace

}  // namespace bad_input_test_file
}  // namespace underprop::record
