// data/clauses.json says what `underprop catalog clauses` prints: every rule, its clause, and how many
// published values stand against it. It is made from the public headers and tests/published, and must
// stay equal to them.
#include "support/catch.hpp"
#include "support/paths.hpp"
#include "support/recorded.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

namespace clauses_test_file {

namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

std::string text_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  REQUIRE(in.good());
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

std::vector<fs::path> files_in(const fs::path& folder, const std::string& extension) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(folder)) {
    if (entry.path().extension() == extension) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

/// The first clause named in a comment: from the document's name to the end of the sentence.
std::string clause_in(const std::string& comment) {
  static const std::regex document(
      "(EN 19[0-9]{2}(-[0-9])*|NDS|IRC|ACI 318|ASCE 7|DCA 6|Statics|Foundation Engineering "
      "Handbook)");
  std::smatch found;
  if (!std::regex_search(comment, found, document)) return "";
  std::string clause = comment.substr(static_cast<std::size_t>(found.position(0)));
  // A full stop inside a number is no end; words about the clause are not part of it.
  static const std::regex end(
      "\\. |: |; | \\((?=[a-z])|, (?=times|with|rho_m|w = |same|and the|effective)");
  if (std::regex_search(clause, found, end)) {
    clause.resize(static_cast<std::size_t>(found.position(0)));
  }
  while (!clause.empty() && (clause.back() == '.' || clause.back() == ' ')) clause.pop_back();
  return clause;
}

struct Rule {
  std::string header, function, clause;
};

/// The functions that a header declares at namespace level, with the clause of their comment; where it
/// names none, the clauses that the file's head names. Unit conversions (constexpr) are no rules.
std::vector<Rule> rules_of(const fs::path& header) {
  std::vector<Rule> rules;
  std::istringstream lines(text_of(header));
  std::string head, comment, paragraph;  // the paragraph: comments since the last empty line
  bool in_head = true, fresh = true;
  int depth = 0;  // braces below the namespace's
  static const std::regex declaration(
      "^(?:\\[\\[nodiscard\\]\\] )?[A-Za-z_][A-Za-z0-9_:<>, -]*[ >]([A-Za-z_][A-Za-z0-9_]*)\\(");
  for (std::string line; std::getline(lines, line);) {
    if (in_head && line.starts_with("//")) {
      head += line.substr(2);
      continue;
    }
    in_head = false;
    if (line.starts_with("///")) {
      if (fresh) comment.clear();
      fresh = false;
      comment += line.substr(3);
      paragraph += line.substr(3);
      continue;
    }
    std::smatch found;
    if (depth == 0 && !line.starts_with("constexpr") && !line.starts_with("inline") &&
        !line.starts_with("namespace") && std::regex_search(line, found, declaration)) {
      std::string clause = clause_in(comment);
      if (clause.empty()) clause = clause_in(paragraph);
      if (clause.empty()) clause = clause_in(head);
      rules.push_back({header.filename().string(), found[1].str(), clause});
    }
    if (line.empty()) {
      comment.clear();
      paragraph.clear();
      fresh = true;
    } else {
      fresh = true;  // a comment after this line is another's
    }
    if (line.starts_with("namespace") || line.starts_with("}  // namespace")) continue;
    depth += static_cast<int>(std::count(line.begin(), line.end(), '{') -
                              std::count(line.begin(), line.end(), '}'));
  }
  return rules;
}

/// Identifiers that are called in a piece of code.
std::set<std::string> called_in(const std::string& code) {
  std::set<std::string> names;
  static const std::regex call("([A-Za-z_][A-Za-z0-9_]*)\\(");
  for (std::sregex_iterator it(code.begin(), code.end(), call), end; it != end; ++it) {
    names.insert((*it)[1].str());
  }
  return names;
}

/// Which functions each registered published rule calls, helpers of the same file looked through.
std::map<std::string, std::set<std::string>> calls_of_published(const std::string& code) {
  // Top-level functions: a line that begins at the margin and ends in "{", up to the "}" at the margin.
  std::map<std::string, std::string> helpers;
  static const std::regex opening("^[A-Za-z][^;]*[ &*]([A-Za-z_][A-Za-z0-9_]*)\\([^;]*\\{$");
  std::istringstream lines(code);
  std::string pending, name, body;
  for (std::string line; std::getline(lines, line);) {
    if (!name.empty()) {
      body += line + "\n";
      if (line.starts_with("}")) {
        helpers[name] = body;
        name.clear();
      }
      continue;
    }
    if (line.empty() || line[0] == ' ' || line[0] == '/' || line[0] == '#' || line[0] == '}') {
      if (!pending.empty() && !line.empty() && line[0] == ' ') pending += " " + line;
    } else {
      pending = line;
    }
    std::smatch found;
    if (std::regex_search(pending, found, opening)) {
      name = found[1].str();
      body.clear();
      pending.clear();
    }
  }
  std::map<std::string, std::set<std::string>> result;
  static const std::regex entry("r\\[\"([^\"]+)\"\\] = ");
  for (std::sregex_iterator it(code.begin(), code.end(), entry), end; it != end; ++it) {
    const auto from = static_cast<std::size_t>(it->position(0) + it->length(0));
    std::size_t to = std::min(code.find("r[\"", from), code.find("\n}\n", from));
    if (to == std::string::npos) to = code.size();
    std::string block = code.substr(from, to - from);
    // `r["rule"] = helper;`
    const std::size_t stop = block.find(';');
    const std::string first = block.substr(0, stop);
    std::set<std::string> open = called_in(block), calls;
    if (helpers.contains(first)) open.insert(first);
    while (!open.empty()) {
      const std::string next = *open.begin();
      open.erase(open.begin());
      if (!calls.insert(next).second) continue;
      const auto helper = helpers.find(next);
      if (helper == helpers.end()) continue;
      for (const std::string& inner : called_in(helper->second)) open.insert(inner);
    }
    result[(*it)[1].str()] = std::move(calls);
  }
  return result;
}

struct Count {
  int read = 0, from_memory = 0;
};

/// Published cases by the rule that they name.
std::map<std::string, Count> published_cases(const fs::path& folder) {
  std::map<std::string, Count> counts;
  for (const fs::path& file : files_in(folder, ".json")) {
    Json content = Json::parse(text_of(file));
    if (!content.is_array()) content = Json::array({content});
    for (const Json& block : content) {
      Count& count = counts[block.at("rule").get<std::string>()];
      (block.at("source").at("read").get<bool>() ? count.read : count.from_memory) +=
          static_cast<int>(block.at("cases").size());
    }
  }
  return counts;
}

/// The text that data/clauses.json must have.
std::string clauses_json() {
  const fs::path include = fs::path(underprop::test::source_dir) / "src/standards";
  const fs::path published = fs::path(underprop::test::tests_dir) / "published";
  std::string rows;
  for (const std::string standard : {"eurocode", "north_america", "common"}) {
    // What serves every standard is registered with the Eurocodes' rules.
    const bool common = standard == "common";
    const std::string registered = common ? "eurocode" : standard;
    std::map<std::string, std::set<std::string>> calls;
    for (const fs::path& file : files_in(published, ".cpp")) {
      const std::string name = file.filename().string();
      if (!name.starts_with(registered) || !name.ends_with("_rules.cpp")) continue;
      calls.merge(calls_of_published(text_of(file)));
    }
    const auto cases = published_cases(published / registered);
    const std::vector<fs::path> headers =
        common ? std::vector<fs::path>{include / "half_space.hpp", include / "ledger_couple.hpp"}
               : files_in(include / standard, ".hpp");
    for (const fs::path& header : headers) {
      // Guards, tables and the class of checks: no rules.
      static const std::set<std::string> no_rules{"require.hpp", "standard.hpp", "tables.hpp",
                                                  "standard_tables.hpp"};
      if (no_rules.contains(header.filename().string())) continue;
      for (const Rule& rule : rules_of(header)) {
        Count count;
        for (const auto& [name, called] : calls) {
          if (!called.contains(rule.function) || !cases.contains(name)) continue;
          count.read += cases.at(name).read;
          count.from_memory += cases.at(name).from_memory;
        }
        const Json row = {
            {"standard", standard},         {"header", rule.header},
            {"function", rule.function},    {"clause", rule.clause},
            {"published_read", count.read}, {"published_from_memory", count.from_memory}};
        rows += (rows.empty() ? "    " : ",\n    ") + row.dump();
      }
    }
  }
  return "{\n  \"note\": \"Every rule with its clause and the published values it is tested "
         "against: "
         "those whose calculation may call it. Made from the headers and tests/published, see "
         "tests/standards/clauses_test.cpp.\",\n"
         "  \"rules\": [\n" +
         rows + "\n  ]\n}\n";
}

}  // namespace

TEST_CASE("the table of clauses is what the headers and the published values say",
          "[standards][words][law]") {
  underprop::test::check_recorded("data/clauses.json", clauses_json());
}

TEST_CASE(
    "every rule names a clause, and the table knows a rule, a count and a helper when it sees one",
    "[standards][law]") {
  const Json rows = Json::parse(clauses_json()).at("rules");
  std::map<std::string, Json> by_name;
  for (const Json& row : rows) {
    INFO(row.dump());
    CHECK_FALSE(row.at("clause").get<std::string>().empty());
    by_name[row.at("standard").get<std::string>() + "/" + row.at("function").get<std::string>()] =
        row;
  }
  CHECK(by_name.size() > 120);
  REQUIRE(by_name.contains("eurocode/k_crit"));
  CHECK(by_name["eurocode/k_crit"].at("clause") == "EN 1995-1-1 6.3.3(4), (6.34)");
  REQUIRE(by_name.contains("eurocode/K_ser_dowel_type"));
  CHECK(by_name["eurocode/K_ser_dowel_type"].at("clause").get<std::string>().starts_with(
      "EN 1995-1-1 7.1(1)"));
  REQUIRE(by_name.contains("north_america/bearing_area_factor"));
  CHECK(by_name["north_america/bearing_area_factor"].at("published_read").get<int>() +
            by_name["north_america/bearing_area_factor"].at("published_from_memory").get<int>() >
        0);
  CHECK(by_name["eurocode/k_h"].at("published_read").get<int>() > 0);

  CHECK(clause_in(" k. EN 1995-1-1 3.2(3), (3.1): min(1).") == "EN 1995-1-1 3.2(3), (3.1)");
  CHECK(clause_in(" W. NDS 12.2.1 (12.2-1), Table 12.2A.") == "NDS 12.2.1 (12.2-1), Table 12.2A");
  CHECK(clause_in(" nothing of the kind").empty());
  const auto calls = calls_of_published(
      "double helper(const json& g,\n              int n) {\n  return inner(g);\n}\n"
      "void all(Registry& r) {\n  r[\"one\"] = [](const json& g) { return helper(g, 1); };\n"
      "  r[\"two\"] = [](const json& g) { return other(g); };\n}\n");
  CHECK(calls.at("one").contains("inner"));
  CHECK_FALSE(calls.at("one").contains("other"));
  CHECK(calls.at("two").contains("other"));
}

}  // namespace clauses_test_file
