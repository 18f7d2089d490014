#include "spoken.hpp"

#include <utility>

namespace underprop::record {
namespace {

constexpr std::pair<std::string_view, std::string_view> plain_signs[] = {
    {"½", " 1/2"}, {"¼", " 1/4"},   {"¾", " 3/4"},   {"⅛", " 1/8"},  {"⅜", " 3/8"}, {"⅝", " 5/8"},
    {"⅞", " 7/8"}, {"⅓", " 1/3"},   {"⅔", " 2/3"},   {"×", "x"},     {"–", "-"},    {"—", "-"},
    {"−", "-"},    {"’", "'"},      {"‘", "'"},      {"”", "\""},    {"“", "\""},   {"″", "\""},
    {"′", "'"},    {"\u00a0", " "}, {"\u202f", " "}, {"\u2009", " "}};

}  // namespace

std::string tidy(std::string_view text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size();) {
    bool found = false;
    for (const auto& [sign, instead] : plain_signs) {
      if (!text.substr(i).starts_with(sign)) continue;
      plain += instead;
      i += sign.size();
      found = true;
      break;
    }
    if (found) continue;
    const char c = text[i++];
    plain += static_cast<unsigned char>(c) < 0x20 || c == 0x7f ? ' ' : c;
  }
  std::string result;
  for (const char c : plain) {
    if (c == ' ' && (result.empty() || result.back() == ' ')) continue;
    result += c;
  }
  while (result.ends_with(' ')) result.pop_back();
  return result;
}

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return result;
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> parts;
  while (true) {
    const std::size_t at = text.find(separator);
    std::string part = tidy(text.substr(0, at));
    if (!part.empty()) parts.push_back(std::move(part));
    if (at == std::string_view::npos) return parts;
    text.remove_prefix(at + 1);
  }
}

}  // namespace underprop::record
