// The format told to people: every key once, with the words of the schema.
#include "underprop/record/format.hpp"

#include "underprop/catalog/embedded.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <stdexcept>

namespace underprop::record {
namespace {

using Json = nlohmann::json;

class Schema {
public:
  Schema() {
    for (const catalog::EmbeddedFile& file : catalog::embedded_files()) {
      if (file.path == "schema/survey.json") root_ = Json::parse(file.text);
    }
  }

  /// What stands at a place of the format such as "/deck/joists/[]/depth"; "" is the whole file.
  [[nodiscard]] const Json& at(std::string_view place) const {
    const Json* node = &root_;
    while (!place.empty()) {
      const std::size_t end = place.find('/', 1);
      const std::string_view step = place.substr(1, end == place.npos ? place.npos : end - 1);
      node = child(*node, std::string(step));
      if (node == nullptr) break;
      place = end == place.npos ? std::string_view() : place.substr(end);
    }
    if (node == nullptr)
      throw std::logic_error("data/schema/survey.json lacks a key of the reader");
    return *node;
  }

  /// Its own description, or that of what it refers to.
  [[nodiscard]] std::string description(std::string_view place) const {
    const Json& node = at(place);
    const Json& told = node.contains("description") ? node : resolved(node);
    return told.value("description", std::string());
  }

private:
  [[nodiscard]] const Json& resolved(const Json& node) const {
    if (!node.contains("$ref")) return node;
    return root_.at(Json::json_pointer(node.at("$ref").get<std::string>().substr(1)));
  }

  [[nodiscard]] const Json* child(const Json& from, const std::string& step) const {
    const Json& node = resolved(from);
    if (step == "[]" && node.contains("items")) return &node.at("items");
    if (node.contains("properties") && node.at("properties").contains(step)) {
      return &node.at("properties").at(step);
    }
    if (node.contains("anyOf")) {
      for (const Json& each : node.at("anyOf")) {
        if (const Json* found = child(each, step)) return found;
      }
    }
    return nullptr;
  }

  Json root_;
};

// Lines of at most this many characters, later ones set in.
void wrapped(std::string& text, const std::string& words, const std::string& indent) {
  constexpr std::size_t width = 96;
  std::string line;
  for (std::size_t at = 0; at < words.size();) {
    const std::size_t blank = std::min(words.find(' ', at), words.size());
    const std::string word = words.substr(at, blank - at);
    at = blank + 1;
    if (!line.empty() && indent.size() + line.size() + 1 + word.size() > width) {
      text += indent + line + "\n";
      line.clear();
    }
    line += (line.empty() ? "" : " ") + word;
  }
  if (!line.empty()) text += indent + line + "\n";
}

}  // namespace

std::string survey_field_list() {
  const Schema schema;
  std::string text =
      "Every key of a survey file, once. * must be there. [] stands for each entry.\n";
  wrapped(text, schema.description(""), "");
  std::string object = "-";
  for (const SurveyKey& key : survey_keys()) {
    if (key.object != object) {
      object = key.object;
      text += fmt::format("\n{}\n", object.empty() ? "The file" : object);
      if (!object.empty()) wrapped(text, schema.description(object), "  ");
    }
    text += fmt::format("  {}{}\n", key.key, key.required ? " *" : "");
    wrapped(text, schema.description(key.object + "/" + key.key), "      ");
    if (key.words.empty()) continue;
    std::string words;
    for (const std::string& word : key.words) {
      words += fmt::format("{}\"{}\"", words.empty() ? "One of " : ", ", word);
    }
    wrapped(text, words + ".", "      ");
  }
  return text;
}

}  // namespace underprop::record
