// What the program knows without a survey: its rules with their clauses, and the measures that it
// never selects.
#include "catalog/table.hpp"
#include "layout.hpp"
#include "underprop/report/report.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace underprop::report {

using Json = nlohmann::json;

std::string clauses_text(int width) {
  const Json& rules = catalog::table("clauses.json").at("rules");
  Page page(width);
  page.paragraph(
      "Every rule that the checks are made of, with the clause that its declaration cites, and how "
      "many published values it is tested against: \"read\" were read in a document that prints "
      "them, \"memory\" were written down from memory. A rule without a published value is tested "
      "against hand calculation, theory or a law only.");
  std::string standard;
  std::vector<std::vector<std::string>> rows;
  int count = 0, checked = 0, read_ones = 0;
  const auto flush = [&] {
    if (rows.empty()) return;
    page.blank();
    page.line(standard == "eurocode" ? "Eurocodes"
              : standard == "common" ? "Common to every standard"
                                     : "North American standards");
    page.table({{"Clause", false, 30}, {"Rule", false, 20}, {"Read", true, 4}, {"Memory", true, 6}},
               rows, true);
    page.line(fmt::format(
        "{} rules: {} against values that were read, {} against values from memory only", count,
        read_ones, checked - read_ones));
    rows.clear();
    count = checked = read_ones = 0;
  };
  for (const Json& rule : rules) {
    if (rule.at("standard") != standard) {
      flush();
      standard = rule.at("standard").get<std::string>();
    }
    const int read = rule.at("published_read").get<int>(),
              memory = rule.at("published_from_memory").get<int>();
    rows.push_back({rule.at("clause").get<std::string>(), rule.at("function").get<std::string>(),
                    std::to_string(read), std::to_string(memory)});
    ++count;
    checked += read + memory > 0 ? 1 : 0;
    read_ones += read > 0 ? 1 : 0;
  }
  flush();
  return page.text();
}

std::string never_selected_text(const std::string& topic, int width) {
  const Json& table = catalog::table("never_selected.json");
  const auto found = table.at("measures").find(topic);
  if (found == table.at("measures").end()) return "";
  Page page(width);
  page.paragraph(notice());
  page.blank();
  page.line("Never selected: " + found->at("name").get<std::string>());
  page.labelled("Why", found->at("why").get<std::string>());
  page.labelled("Instead", found->at("instead").get<std::string>());
  page.labelled("Source", table.at("source").at("key").get<std::string>() + ": " +
                              table.at("source").at("where").get<std::string>());
  return page.text();
}

std::string never_selected_topics() {
  std::string topics;
  for (const auto& [topic, measure] :
       catalog::table("never_selected.json").at("measures").items()) {
    topics += (topics.empty() ? "" : ", ") + topic;
  }
  return topics;
}

}  // namespace underprop::report
