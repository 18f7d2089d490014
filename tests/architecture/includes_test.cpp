// The parts of the program include each other in one direction only.
#include "support/catch.hpp"
#include "support/paths.hpp"

#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

namespace includes_test_file {

namespace fs = std::filesystem;

namespace {

using Parts = std::set<std::string>;

/// What a part may include beside itself, and with it whatever those may include in turn.
const std::map<std::string, Parts> direct{
    {"base", {}},
    {"catalog", {"base"}},
    {"solver", {"base"}},
    {"record", {"catalog"}},
    {"deck", {"record"}},
    {"interview", {"deck"}},
    {"loads", {"catalog"}},
    {"model", {"deck", "loads", "solver"}},
    {"standards", {"loads", "catalog"}},
    {"works", {"deck"}},
    {"assessment", {"model", "solver", "standards"}},
    {"costing", {"works", "catalog"}},
    {"placement", {"assessment"}},
    {"planner", {"assessment", "works", "costing", "placement"}},
    {"comparison", {"planner", "costing", "assessment"}},
    {"report", {"comparison", "interview"}},
    {"page", {"report"}},
    {"batch", {"report"}},
    {"cli", {"page", "batch"}},
};

void add_reachable(const std::string& part, Parts& reached) {
  if (!reached.insert(part).second) return;
  for (const std::string& next : direct.at(part)) add_reachable(next, reached);
}

std::string text_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// The paths of all `#include "..."` lines.
std::vector<std::string> quoted_includes(const std::string& text) {
  std::vector<std::string> result;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    const std::size_t hash = line.find_first_not_of(" \t");
    if (hash == std::string::npos || line[hash] != '#') continue;
    const std::size_t word = line.find_first_not_of(" \t", hash + 1);
    if (word == std::string::npos || line.compare(word, 7, "include") != 0) continue;
    const std::size_t open = line.find('"', word);
    const std::size_t close = open == std::string::npos ? open : line.find('"', open + 1);
    if (close != std::string::npos) result.push_back(line.substr(open + 1, close - open - 1));
  }
  return result;
}

/// The part named by "underprop/<part>/..." (a public header) or "<part>/..." (one private to the library);
/// empty for another path.
std::string part_of_include(std::string_view path) {
  constexpr std::string_view prefix = "underprop/";
  const bool is_public = path.starts_with(prefix);
  if (is_public) path.remove_prefix(prefix.size());
  const std::size_t slash = path.find('/');
  if (slash == std::string_view::npos) return {};
  std::string part(path.substr(0, slash));
  return is_public || direct.contains(part) ? part : std::string();
}

struct File {
  fs::path path;
  std::string part;
};

std::vector<File> all_files() {
  std::vector<File> files;
  const fs::path root(underprop::test::source_dir);
  for (const fs::path& top : {root / "include" / "underprop", root / "src"}) {
    for (const auto& entry : fs::recursive_directory_iterator(top)) {
      const fs::path& path = entry.path();
      if (path.extension() != ".hpp" && path.extension() != ".cpp") continue;
      const fs::path relative = path.lexically_relative(top);
      if (relative.has_parent_path()) files.push_back({path, relative.begin()->string()});
    }
  }
  return files;
}

std::string violation(const std::string& part, const std::string& include) {
  const std::string wanted = part_of_include(include);
  if (wanted.empty()) return {};
  Parts allowed;
  add_reachable(part, allowed);
  return allowed.contains(wanted) ? std::string() : part + " includes " + include;
}

}  // namespace

TEST_CASE("include arrows point one way only", "[architecture][law]") {
  const std::vector<File> files = all_files();
  REQUIRE(files.size() > 10);
  std::size_t seen = 0;
  for (const File& file : files) {
    INFO(file.path.string());
    REQUIRE(direct.contains(file.part));
    for (const std::string& include : quoted_includes(text_of(file.path))) {
      ++seen;
      INFO(include);
      CHECK(violation(file.part, include).empty());
      CHECK(include.find("..") == std::string::npos);
    }
  }
  CHECK(seen > files.size() / 2);
}

TEST_CASE("the check of include arrows notices a wrong one", "[architecture][law]") {
  CHECK(violation("solver", "underprop/model/build.hpp") ==
        "solver includes underprop/model/build.hpp");
  CHECK(violation("base", "catalog/embedded.hpp") != "");
  CHECK(violation("model", "underprop/standards/check.hpp") != "");
  CHECK(violation("works", "underprop/assessment/assess.hpp") != "");
  CHECK(violation("planner", "underprop/solver/frame.hpp").empty());
  CHECK(violation("cli", "underprop/base/units.hpp").empty());
  CHECK(violation("base", "unit_table.hpp").empty());
  CHECK(violation("deck", "interview/parts.hpp") == "deck includes interview/parts.hpp");
  CHECK(violation("interview", "deck/layout.hpp").empty());
  CHECK(quoted_includes("#include <a>\n  # include \"b/c.hpp\" // \"x\"\n// #include \"d\"\n") ==
        std::vector<std::string>{"b/c.hpp"});
}

TEST_CASE("library code neither prints nor exits", "[architecture][law]") {
  for (const File& file : all_files()) {
    if (file.part == "cli" || file.part == "page" || file.part == "batch") continue;
    INFO(file.path.string());
    const std::string text = text_of(file.path);
    for (const char* word :
         {"std::cout", "std::cerr", "std::clog", "std::printf", "fmt::print", "std::exit",
          "std::abort", "std::rand", "random_device", "system_clock", "std::setlocale"}) {
      INFO(word);
      CHECK(text.find(word) == std::string::npos);
    }
  }
}

}  // namespace includes_test_file
