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
  const auto found = std::ranges::find_if(
      survey_fields(), [&](const Field& field) { return field.type == type && field.key == key; });
  return found == survey_fields().end() ? nullptr : &*found;
}

const Field* survey_field_at(std::string_view pointer) {
  static const std::map<std::string, const Field*, std::less<>> index = [] {
    std::map<std::string, const Field*, std::less<>> all;
    for (const Field& field : survey_fields()) all.emplace(field.object + "/" + field.key, &field);
    return all;
  }();
  std::string place;
  while (!pointer.empty()) {
    const std::size_t end = std::min(pointer.find('/', 1), pointer.size());
    const std::string_view step = pointer.substr(1, end - 1);
    place += step.find_first_not_of("0123456789") == step.npos ? "/[]" : "/" + std::string(step);
    pointer.remove_prefix(end);
  }
  const auto found = index.find(place);
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
