// Every source that data or code cites stands in the bibliography, data/sources/*.json.
#include "catalog/embedded.hpp"
#include "support/paths.hpp"

#include "support/catch.hpp"

#include <nlohmann/json.hpp>

#include <cctype>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace sources_test_file {

namespace fs = std::filesystem;

namespace {

using nlohmann::json;

std::string text_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

std::vector<fs::path> files_below(const fs::path& top, std::string_view extension) {
  std::vector<fs::path> result;
  if (!fs::exists(top)) return result;
  for (const auto& entry : fs::recursive_directory_iterator(top)) {
    if (entry.path().extension() == extension) result.push_back(entry.path());
  }
  return result;
}

/// The keys that stand in a "source" field, a text, an object with "key", or an array of these.
void collect(const json& value, std::set<std::string>& keys) {
  if (value.is_string()) {
    keys.insert(value.get<std::string>());
  } else if (value.is_array()) {
    for (const json& each : value) collect(each, keys);
  } else if (value.is_object()) {
    if (value.contains("key")) collect(value.at("key"), keys);
  }
}

void cited_in(const json& value, std::set<std::string>& keys) {
  if (value.is_object()) {
    for (auto it = value.begin(); it != value.end(); ++it) {
      if (it.key() == "source" || it.key() == "sources") {
        collect(it.value(), keys);
      } else {
        cited_in(it.value(), keys);
      }
    }
  } else if (value.is_array()) {
    for (const json& each : value) cited_in(each, keys);
  }
}

/// The literal keys of `Citation{"key"` and `Citation name{"key"` in C++ text.
std::set<std::string> cited_in_code(const std::string& text) {
  std::set<std::string> keys;
  for (std::size_t at = text.find("Citation"); at != std::string::npos;
       at = text.find("Citation", at + 1)) {
    std::size_t i = at + std::string_view("Citation").size();
    while (i < text.size() && (std::isalnum(static_cast<unsigned char>(text[i])) != 0 ||
                               text[i] == '_' || text[i] == ' ')) {
      ++i;
    }
    if (i >= text.size() || text[i] != '{') continue;
    ++i;
    while (i < text.size() && (text[i] == ' ' || text[i] == '\n')) ++i;
    if (i >= text.size() || text[i] != '"') continue;
    const std::size_t close = text.find('"', i + 1);
    if (close != std::string::npos) keys.insert(text.substr(i + 1, close - i - 1));
  }
  return keys;
}

const fs::path root(underprop::test::source_dir);

struct Bibliography {
  std::set<std::string> keys;
  std::vector<std::string> faults;
};

Bibliography bibliography() {
  Bibliography result;
  for (const fs::path& file : files_below(root / "data" / "sources", ".json")) {
    const json entries = json::parse(text_of(file));
    for (auto it = entries.begin(); it != entries.end(); ++it) {
      const bool titled = it.value().is_object() && it.value().contains("title") &&
                          it.value().at("title").is_string();
      if (!titled) result.faults.push_back(it.key() + " has no title");
      if (!result.keys.insert(it.key()).second) {
        result.faults.push_back(it.key() + " stands in two files");
      }
    }
  }
  return result;
}

}  // namespace

TEST_CASE("every source has a title and stands once", "[architecture][law]") {
  const Bibliography all = bibliography();
  CHECK(all.faults == std::vector<std::string>{});
  CHECK(all.keys.contains("judgement"));
  CHECK(all.keys.contains("common-practice"));
}

TEST_CASE("every source cited by data exists", "[architecture][law]") {
  const Bibliography all = bibliography();
  std::size_t cited = 0;
  for (const char* folder : {"data", "tests/published"}) {
    for (const fs::path& file : files_below(root / folder, ".json")) {
      if (file.parent_path() == root / "data" / "sources") continue;
      if (file.parent_path() == root / "data" / "schema") continue;
      std::set<std::string> keys;
      cited_in(json::parse(text_of(file)), keys);
      for (const std::string& key : keys) {
        ++cited;
        INFO(file.string() << " cites " << key);
        CHECK(all.keys.contains(key));
      }
    }
  }
  CHECK(cited > 0);
}

TEST_CASE("every source cited by code exists", "[architecture][law]") {
  const Bibliography all = bibliography();
  for (const char* folder : {"src", "include"}) {
    for (const char* extension : {".cpp", ".hpp"}) {
      for (const fs::path& file : files_below(root / folder, extension)) {
        for (const std::string& key : cited_in_code(text_of(file))) {
          INFO(file.string() << " cites " << key);
          CHECK(all.keys.contains(key));
        }
      }
    }
  }
}

TEST_CASE("citations are found where they stand", "[architecture][law]") {
  CHECK(cited_in_code(
            "f(Citation{\"a\", \"1\"}); const Citation here{\n  \"b\", \"\"}; Citation{x};") ==
        std::set<std::string>{"a", "b"});
  std::set<std::string> keys;
  cited_in(json::parse(R"({"rows": [{"source": "a"}, {"source": {"key": "b", "where": "c"}}],
                           "sources": ["d", {"key": "e"}], "key": "f"})"),
           keys);
  CHECK(keys == std::set<std::string>{"a", "b", "d", "e"});
}

TEST_CASE("the embedded data are the files of data/, sorted", "[architecture][law]") {
  const auto embedded = underprop::catalog::embedded_files();
  std::string_view before;
  for (const auto& file : embedded) {
    INFO(std::string(file.path));
    CHECK(before < file.path);
    before = file.path;
    CHECK(text_of(root / "data" / fs::path(file.path)) == file.text);
  }
  CHECK(embedded.size() == files_below(root / "data", ".json").size());
}

}  // namespace sources_test_file
