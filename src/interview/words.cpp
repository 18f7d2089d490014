// The words of the questions: data/interview.json, and the places it points at.
#include "examples.hpp"
#include "parts.hpp"

#include "record/spoken.hpp"

#include "catalog/embedded.hpp"
#include "underprop/base/units.hpp"
#include "underprop/record/facts.hpp"
#include "underprop/record/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <stdexcept>

namespace underprop::interview {
namespace {

OrderedJson load(std::string_view path) {
  for (const catalog::EmbeddedFile& file : catalog::embedded_files()) {
    if (file.path == path) return OrderedJson::parse(file.text);
  }
  throw std::logic_error("no data file " + std::string(path));
}

const OrderedJson& wording() {
  static const OrderedJson json = load("interview.json");
  return json;
}

const OrderedJson& row(const std::string& key) {
  // Looked up some hundred times for every answer.
  static const std::map<std::string, const OrderedJson*> rows = [] {
    std::map<std::string, const OrderedJson*> all;
    for (const auto& [name, words] : wording().at("questions").items()) all.emplace(name, &words);
    return all;
  }();
  const auto found = rows.find(key);
  if (found == rows.end()) throw std::logic_error("data/interview.json: no question " + key);
  return *found->second;
}

std::string filled(std::string text, const std::map<std::string, std::string>& fill) {
  for (const auto& [name, value] : fill) {
    const std::string mark = "{" + name + "}";
    for (std::size_t at = text.find(mark); at != std::string::npos;
         at = text.find(mark, at + value.size())) {
      text.replace(at, mark.size(), value);
    }
  }
  return text;
}

/// "schema:joists/depth", "schema:name": the description of that key.
std::string described(std::string_view path) {
  static const OrderedJson schema = load("schema/survey.json");
  const std::size_t slash = path.find('/');
  const OrderedJson& object = slash == std::string_view::npos
                                  ? schema
                                  : schema.at("$defs").at(std::string(path.substr(0, slash)));
  const std::string key(slash == std::string_view::npos ? path : path.substr(slash + 1));
  return object.at("properties").at(key).at("description").get<std::string>();
}

std::string how_of(const Ask& ask, record::StandardId standard) {
  const std::string how =
      filled(ask.how.empty() ? row(ask.key).at("how").get<std::string>() : ask.how, ask.fill);
  if (how.starts_with("fact:")) {
    const record::FactKind& kind = record::fact_kind(how.substr(5));
    const std::string minutes = kind.effort_minutes > 0
                                    ? fmt::format(" (about {} min)", kind.effort_minutes)
                                    : std::string();
    return record::how_to_find_out(kind, standard) + minutes;
  }
  if (how.starts_with("schema:")) return described(std::string_view(how).substr(7));
  if (how.starts_with("grading:")) return grading_text(standard, std::string_view(how).substr(8));
  return how;
}

std::string form_of(const Ask& ask, record::StandardId standard) {
  const bool us = standard == record::StandardId::north_america_us;
  const auto one_of = [&](const char* metric, const char* american) {
    return std::string(us ? american : metric);
  };
  // The question's own, so that nobody is offered metres for the depth of a groove.
  const std::string example = such_as(ask, standard);
  const auto quantity = [&](const char* what) {
    return fmt::format("{} such as {}", what, example);
  };
  const auto fact = [&](const char* what) {
    return fmt::format(
        "{0} such as {1}, \"about {1}\", or a range: two of them with \"to\" between", what,
        example);
  };
  switch (ask.form.value_or(Form::text)) {
    case Form::word:
      return "a word or its number";
    case Form::yes_or_no:
      return "yes or no";
    case Form::length:
      return quantity("a length");
    case Form::length_fact:
      return fact("a length");
    case Form::spacing:
      return quantity("a spacing") + ", \"even\", or a list of places";
    case Form::count:
      return "a whole number";
    case Form::count_fact:
      return "a whole number, a range such as 3 to 4, or \"about 4\"";
    case Form::mass_fact:
      return fact("a weight");
    case Form::volume_fact:
      return fact("a volume");
    case Form::pressure:
      return quantity("a load on the area");
    case Form::force:
      return quantity("a force");
    case Form::force_fact:
      return fact("a force");
    case Form::degrees:
      return "a number of degrees";
    case Form::slope:
      return "\"level\", or such as \"1 in 12\"";
    case Form::timber:
      return "a class or a species and grade";
    case Form::section:
      return "two sizes with an x between";
    case Form::label:
      return "a few words";
    case Form::date:
      return one_of("a day such as 22/11/2026, 2026-11-22 or 22 November 2026",
                    "a day such as 11/22/2026, 2026-11-22 or November 22, 2026");
    default:
      return "as in the question";
  }
}

std::string empty_of(Empty empty) {
  switch (empty) {
    case Empty::unknown:
    case Empty::range:
      return "; empty or \"don't know\": not known";
    case Empty::none:
      return "; may be empty";
    case Empty::refused:
      return "; it must be answered";
  }
  return "";
}

std::string chapter_of(const std::string& id) {
  static constexpr std::pair<std::string_view, std::string_view> chapters[] = {
      {"place/", "Place"},
      {"outline/", "Outline"},
      {"boards/", "Boards"},
      {"joists/", "Joists"},
      {"carriers/", "What holds the joists"},
      {"fixings/", "Fixings"},
      {"posts/", "Posts"},
      {"pads/", "Supports and pads"},
      {"ground/", "Ground and surroundings"},
      {"condition/", "Condition"},
      {"load/", "The load"},
      {"allow/", "What you would allow"}};
  for (const auto& [start, name] : chapters) {
    if (id.starts_with(start)) return std::string(name);
  }
  throw std::logic_error("no chapter for the question " + id);
}

}  // namespace

UnitSystem units_of(record::StandardId standard) {
  return standard == record::StandardId::north_america_us ? UnitSystem::us_customary
                                                          : UnitSystem::metric;
}

std::string such_as(const Ask& ask, record::StandardId standard) {
  const OrderedJson& words = row(ask.key);
  if (!words.contains("such_as")) return "";
  const std::size_t which = standard == record::StandardId::north_america_us ? 1 : 0;
  return words.at("such_as").at(which).get<std::string>();
}

std::string named(const Ask& ask) {
  std::string name = filled(row(ask.key).at("named").get<std::string>(), ask.fill);
  // Of several alike, "condition/2/size", the second and later ones say which they are.
  for (const std::string& part : record::split(ask.id, '/')) {
    const bool number = part.find_first_not_of("0123456789") == std::string::npos;
    if (number && part != "1" && ask.fill.find("number") == ask.fill.end()) {
      name += " (" + part + ")";
    }
  }
  return name;
}

bool must_be_seen(const Ask& ask) {
  const OrderedJson& words = row(ask.key);
  return words.contains("must_see") && words.at("must_see").get<bool>();
}

std::vector<std::string> usual_range(const std::string& key) {
  const OrderedJson& words = row(key);
  if (!words.contains("usual")) return {};
  return words.at("usual").get<std::vector<std::string>>();
}

std::string also_means(const std::string& key, const std::string& said) {
  const OrderedJson& words = row(key);
  if (!words.contains("also")) return {};
  const OrderedJson& also = words.at("also");
  return also.contains(said) ? also.at(said).get<std::string>() : std::string();
}

double interview_rule(std::string_view rule) {
  return wording().at("rules").at(std::string(rule)).at("value").get<double>();
}

std::string assumed(const Ask& ask, record::StandardId standard) {
  const std::string how =
      filled(ask.how.empty() ? row(ask.key).at("how").get<std::string>() : ask.how, ask.fill);
  std::string kind = how.starts_with("fact:") ? how.substr(5) : std::string();
  if (!ask.table.empty() && kind.empty()) kind = ask.table;
  if (kind.empty()) return "";
  const record::FactKind& fact = record::fact_kind(kind);
  return fmt::format(
      "As long as it is open, safety counts with: {}; what is likely: {}; at best: {}. {} ({}: {})",
      fact.value(standard, record::Reading::cautious).text,
      fact.value(standard, record::Reading::likely).text,
      fact.value(standard, record::Reading::favourable).text, fact.reason, "source",
      fact.source.key.empty() ? "none" : fact.source.key);
}

Question worded(const Ask& ask, record::StandardId standard) {
  const OrderedJson& words = row(ask.key);
  Question question;
  question.id = ask.id;
  question.chapter = chapter_of(ask.id);
  question.ask = filled(words.at("ask").get<std::string>(), ask.fill);
  question.why = filled(words.at("why").get<std::string>(), ask.fill);
  question.how = how_of(ask, standard);
  question.choices = ask.form == Form::word ? ask.words : std::vector<std::string>{};
  for (const std::string& choice : question.choices) {
    const bool told = words.contains("choices") && words.at("choices").contains(choice);
    question.meanings.push_back(
        told ? filled(words.at("choices").at(choice).get<std::string>(), ask.fill) : std::string());
  }
  question.form = form_of(ask, standard) + empty_of(ask.empty);
  question.must_see = must_be_seen(ask);
  return question;
}

}  // namespace underprop::interview
