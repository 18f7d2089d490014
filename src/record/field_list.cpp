// The fields as data, and told to people: every key once.
#include "field_io.hpp"
#include "fields.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace underprop::record {
namespace {

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

const std::string& type_meaning(const Listing& listing, const std::string& type) {
  return std::ranges::find(listing.types, type, &std::pair<std::string, std::string>::first)
      ->second;
}

/// What stands at a place: what its key means, or of an entry of a list what its type is.
std::string meaning_of(const Listing& listing, const Field& first) {
  for (const Field& field : listing.fields) {
    if (!field.several && field.object + "/" + field.key == first.object) return field.meaning;
  }
  return type_meaning(listing, first.type);
}

}  // namespace

const Listing& survey_listing() {
  static const Listing listing = [] {
    Listing all;
    list_fields<Survey>(all, "");
    return all;
  }();
  return listing;
}

const std::vector<Field>& survey_fields() { return survey_listing().fields; }

const Field* survey_field(std::string_view type, std::string_view key) {
  static const std::map<std::pair<std::string_view, std::string_view>, const Field*> index = [] {
    std::map<std::pair<std::string_view, std::string_view>, const Field*> all;
    for (const Field& field : survey_fields())
      all.emplace(std::pair(field.type, field.key), &field);
    return all;
  }();
  const auto found = index.find({type, key});
  return found == index.end() ? nullptr : found->second;
}

std::string field_list_of(const Listing& listing) {
  std::string text =
      "Every key of a survey file, once. * must be there. [] stands for each entry.\n";
  wrapped(text, type_meaning(listing, ""), "");
  std::string object = "-";
  for (const Field& field : listing.fields) {
    if (field.object != object) {
      object = field.object;
      text += fmt::format("\n{}\n", object.empty() ? "The file" : object);
      if (!object.empty()) wrapped(text, meaning_of(listing, field), "  ");
    }
    text += fmt::format("  {}{}\n", field.key, field.required ? " *" : "");
    wrapped(text, field.meaning, "      ");
    if (field.words.empty()) continue;
    std::string words;
    for (const std::string& word : field.words) {
      words += fmt::format("{}\"{}\"", words.empty() ? "One of " : ", ", word);
    }
    wrapped(text, words + ".", "      ");
  }
  return text;
}

std::string survey_field_list() { return field_list_of(survey_listing()); }

}  // namespace underprop::record
