#include "spoken_words.hpp"

#include "sizes.hpp"
#include "spoken.hpp"

#include "base/edit_distance.hpp"
#include "catalog/embedded.hpp"
#include "underprop/base/input_error.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <map>
#include <optional>
#include <stdexcept>

namespace underprop::record {
namespace {

using OrderedJson = nlohmann::ordered_json;

const OrderedJson& said_words() {
  static const OrderedJson json = OrderedJson::parse(catalog::embedded_text("said_words.json"));
  return json;
}

/// Small letters, one blank for a hyphen, no plural's s, no article: "Joist-hangers" is "joist hanger".
std::string plain(std::string_view text) {
  std::string spaced = lower(tidy(text));
  std::ranges::replace(spaced, '-', ' ');
  std::string result;
  for (std::string word : split(spaced, ' ')) {
    constexpr std::size_t shortest_plural = 4;
    if (word == "a" || word == "an" || word == "the") continue;
    if (word.size() >= shortest_plural && word.ends_with('s') && !word.ends_with("ss")) {
      word.pop_back();
    }
    result += (result.empty() ? "" : " ") + word;
  }
  return result;
}

/// The words of what was said about timber: small letters, signs as blanks, "#2", "No. 2" and
/// "number 2" as "2".
std::vector<std::string> timber_words(std::string_view said) {
  std::string text = lower(tidy(said));
  for (char& c : text) {
    const bool kept = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '&';
    if (!kept) c = ' ';
  }
  std::vector<std::string> words;
  for (std::string word : split(text, ' ')) {
    if (word == "no" || word == "nr" || word == "num" || word == "number") continue;
    // "no2", "2&btr"
    if (word.size() == 3 && word.starts_with("no")) word = word.substr(2);
    const std::size_t and_sign = word.find('&');
    if (and_sign != std::string::npos) {
      const std::string before = word.substr(0, and_sign), after = word.substr(and_sign + 1);
      if (!before.empty()) words.push_back(before);
      words.push_back("&");
      if (!after.empty()) words.push_back(after);
      continue;
    }
    words.push_back(std::move(word));
  }
  return words;
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
  return text;
}

/// Takes the words of `phrase` out of `words`, where they follow each other.
bool take_out(std::vector<std::string>& words, std::string_view phrase) {
  const std::vector<std::string> parts = split(phrase, ' ');
  const auto found = std::ranges::search(words, parts);
  if (found.empty()) return false;
  words.erase(found.begin(), found.end());
  return true;
}

bool is_size(std::string_view word) {  // "2x8"
  const std::size_t x = word.find('x');
  return x != std::string_view::npos && x > 0 && x + 1 < word.size() &&
         word.find_first_not_of("0123456789x") == std::string_view::npos;
}

bool passed_over(const std::string& word) {
  static const std::vector<std::string> words = said_words().at("passed_over");
  return std::ranges::find(words, word) != words.end() || is_size(word);
}

bool known(const std::string& name, StandardId standard) {
  const std::vector<std::string>& names = timber_names(standard);
  return std::ranges::find(names, name) != names.end();
}

/// The grades that the tables have of a species group: "No.1, No.2 or No.3".
std::string grades_of(const std::string& species) {
  std::vector<std::string> grades;
  for (const std::string& name : timber_names(StandardId::north_america_us)) {
    if (name.starts_with(species + " ")) grades.push_back(name.substr(species.size() + 1));
  }
  std::string text;
  for (std::size_t i = 0; i < grades.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == grades.size() ? " or " : ", ") + grades[i];
  }
  return text;
}

constexpr std::string_view without_stamp = "without a stamp it is not known";

SpokenTimber american(std::string_view said) {
  const OrderedJson& table = said_words().at("timber").at("north-america-us");
  SpokenTimber timber;
  std::vector<std::string> words = timber_words(said);
  const bool better = take_out(words, "& btr") || take_out(words, "and btr") ||
                      take_out(words, "& better") || take_out(words, "and better") ||
                      take_out(words, "or better") || take_out(words, "btr");
  std::string grade;
  for (const auto& [word, name] : table.at("grades").items()) {
    if (!take_out(words, word)) continue;
    if (!grade.empty()) grade = "several";
    if (grade.empty()) grade = name.get<std::string>();
  }
  std::erase_if(words, passed_over);
  const std::string left = joined(words);
  timber.remedy =
      "say species group and grade as the stamp shows them, such as Hem-Fir No.2 or SYP #2; " +
      std::string(without_stamp);
  if (grade == "several") {
    timber.problem = quote(said) + " names more than one grade";
    return timber;
  }
  const OrderedJson& species = table.at("species");
  if (left.empty()) {
    timber.problem = grade.empty() ? quote(said) + " says neither species group nor grade"
                                   : quote(said) + " is a grade, and its species group is not said";
    return timber;
  }
  if (species.contains(left)) {
    const std::string group = species.at(left).get<std::string>();
    if (grade.empty()) {
      timber.problem = fmt::format("{} says no grade", quote(said));
      timber.remedy =
          fmt::format("the stamp says which: {} {}; {}", group, grades_of(group), without_stamp);
      return timber;
    }
    const std::string upper = group + " " + grade + " & Btr";
    if (better && known(upper, StandardId::north_america_us)) {
      timber.name = upper;
    } else if (known(group + " " + grade, StandardId::north_america_us)) {
      timber.name = group + " " + grade;
    } else {
      timber.problem = fmt::format("{} {} is not in the tables", group, grade);
      timber.remedy =
          fmt::format("the tables have {} {}; another grade is not known", group, grades_of(group));
    }
    return timber;
  }
  timber.problem = quote(said) + " is not in the tables";
  const std::vector<std::string> other = table.at("other");
  if (grade.empty() || std::ranges::any_of(words, [&](const std::string& word) {
        return std::ranges::find(other, word) != other.end();
      })) {
    if (grade.empty()) timber.problem += ", and it says no grade";
    return timber;
  }
  // A slip in the spelling of the species: the grade stays as it was said.
  std::string group;
  if (table.at("close").contains(left)) group = table.at("close").at(left).get<std::string>();
  constexpr std::size_t letters_a_slip = 5;
  for (const auto& [name, is] : species.items()) {
    if (group.empty() && edit_distance(left, name) * letters_a_slip <= name.size()) {
      group = is.get<std::string>();
    }
  }
  if (!group.empty() && known(group + " " + grade, StandardId::north_america_us)) {
    timber.meant = group + " " + grade;
  }
  return timber;
}

SpokenTimber european(std::string_view said) {
  SpokenTimber timber;
  std::vector<std::string> words = timber_words(said), classes;
  // "c 24" is one word.
  for (std::size_t i = 0; i + 1 < words.size(); ++i) {
    if ((words[i] == "c" || words[i] == "d") &&
        words[i + 1].find_first_not_of("0123456789") == std::string::npos) {
      words[i] += words[i + 1];
      words.erase(words.begin() + static_cast<std::ptrdiff_t>(i) + 1);
    }
  }
  std::erase_if(words, [&](const std::string& word) {
    std::string name = word;
    name[0] = word[0] == 'c' ? 'C' : word[0] == 'd' ? 'D' : word[0];
    if (!known(name, StandardId::eurocode_uk)) return passed_over(word);
    classes.push_back(name);
    return true;
  });
  if (classes.size() == 1 && words.empty()) {
    timber.name = classes.front();
    return timber;
  }
  std::string listed;
  for (const std::string& name : timber_names(StandardId::eurocode_uk)) {
    listed += (listed.empty() ? "" : ", ") + name;
  }
  timber.problem = classes.size() > 1 ? quote(said) + " names more than one class"
                                      : quote(said) + " is no strength class of the tables";
  timber.remedy = fmt::format("one of {}, as the stamp shows it; {}, whatever the wood is called",
                              listed, without_stamp);
  if (classes.size() == 1) timber.meant = classes.front();
  return timber;
}

}  // namespace

std::vector<std::string> meant_words(std::string_view said,
                                     std::span<const std::string_view> allowed) {
  static const std::map<std::string, std::vector<std::string>> table = [] {
    std::map<std::string, std::vector<std::string>> words;
    for (const auto& [word, meant] : said_words().at("words").items()) {
      words[plain(word)] = meant.get<std::vector<std::string>>();
    }
    return words;
  }();
  const std::string word = plain(said);
  std::vector<std::string> meant;
  const auto found = table.find(word);
  if (found != table.end()) {
    for (const std::string& each : found->second) {
      if (std::ranges::find(allowed, each) != allowed.end()) meant.push_back(each);
    }
  }
  if (!meant.empty()) return meant;
  // The word itself, but for its hyphen or plural.
  for (const std::string_view each : allowed) {
    if (!word.empty() && plain(each) == word) meant.emplace_back(each);
  }
  return meant;
}

SpokenTimber spoken_timber(std::string_view said, StandardId standard) {
  for (const std::string& name : timber_names(standard)) {
    if (lower(name) == lower(tidy(said))) return {name, "", "", ""};
  }
  return standard == StandardId::north_america_us ? american(said) : european(said);
}

}  // namespace underprop::record
