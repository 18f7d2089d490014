#include "sizes.hpp"

#include "catalog/embedded.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <charconv>

namespace underprop::record {
namespace {

using OrderedJson = nlohmann::ordered_json;

OrderedJson embedded(std::string_view path) {
  return OrderedJson::parse(catalog::embedded_text(path));
}

std::vector<std::string> european_names() {
  std::vector<std::string> names;
  const OrderedJson file = embedded("eurocode/timber.json");
  for (const auto& [name, row] : file.at("classes").items()) names.push_back(name);
  return names;
}

std::vector<std::string> american_names() {
  std::vector<std::string> names;
  const OrderedJson file = embedded("north_america/lumber.json");
  for (const char* table : {"dimension_lumber", "timbers"}) {
    for (const OrderedJson& row : file.at(table)) {
      std::string name =
          row.at("species").get<std::string>() + " " + row.at("grade").get<std::string>();
      if (std::ranges::find(names, name) == names.end()) names.push_back(std::move(name));
    }
  }
  return names;
}

std::optional<Length> side(std::string_view table, const std::string& key) {
  static const OrderedJson sizes = embedded("north_america/sizes.json");
  if (!sizes.is_object() || !sizes.contains(table)) return std::nullopt;
  const OrderedJson& values = sizes.at(table).at("values");
  return values.contains(key) ? std::optional(inches(values.at(key).get<double>())) : std::nullopt;
}

}  // namespace

const std::vector<std::string>& timber_names(StandardId standard) {
  static const std::vector<std::string> europe = european_names();
  static const std::vector<std::string> america = american_names();
  return standard == StandardId::eurocode_uk ? europe : america;
}

std::optional<Length> sold_board_thickness(std::string_view text) {
  std::string_view nominal = text.substr(0, text.find_first_of("xX"));
  while (nominal.ends_with(' ')) nominal.remove_suffix(1);
  const bool alone = nominal.size() == text.size();
  if (alone && nominal.find('/') == std::string_view::npos) return std::nullopt;  // "2": of what?
  return side("boards", std::string(nominal));
}

std::optional<NominalSize> nominal_size(std::string_view text) {
  const std::size_t x = text.find('x');
  if (x == std::string_view::npos) return std::nullopt;
  NominalSize size;
  const auto whole = [](std::string_view part, int& number) {
    while (part.starts_with(' ')) part.remove_prefix(1);
    while (part.ends_with(' ')) part.remove_suffix(1);
    const auto read = std::from_chars(part.data(), part.data() + part.size(), number);
    return read.ec == std::errc{} && read.ptr == part.data() + part.size() && number > 0;
  };
  if (!whole(text.substr(0, x), size.thickness) || !whole(text.substr(x + 1), size.width)) {
    return std::nullopt;
  }
  return size;
}

std::optional<std::pair<Length, Length>> dressed_size(NominalSize size) {
  constexpr int least_timber = 5;  // 5x5 and larger have a table of their own
  const bool timber = size.thickness >= least_timber && size.width >= least_timber;
  const auto breadth = side(timber ? "timbers" : "dry_thickness", std::to_string(size.thickness));
  const auto depth = side(timber ? "timbers" : "dry_width", std::to_string(size.width));
  if (!breadth || !depth) return std::nullopt;
  return std::pair(*breadth, *depth);
}

}  // namespace underprop::record
