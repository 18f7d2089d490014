// Timber without a stamp: from knots, grain and look to a class, by data/visual_grading.json.
#include "parts.hpp"

#include "catalog/embedded.hpp"

#include <stdexcept>

namespace underprop::interview {
namespace {

constexpr double rounding = 1e-6;

const OrderedJson& grading() {
  static const OrderedJson json = [] {
    for (const catalog::EmbeddedFile& file : catalog::embedded_files()) {
      if (file.path == "visual_grading.json") return OrderedJson::parse(file.text);
    }
    throw std::logic_error("no data file visual_grading.json");
  }();
  return json;
}

const OrderedJson& of(record::StandardId standard) {
  return grading()
      .at("standards")
      .at(standard == record::StandardId::eurocode_uk ? "eurocode-uk" : "north-america-us");
}

std::string text_or_empty(const OrderedJson& value) {
  return value.is_string() ? value.get<std::string>() : std::string();
}

}  // namespace

Graded graded(record::StandardId standard, double knot_share, double grain,
              const std::string& look) {
  const OrderedJson& rules = of(standard);
  for (const OrderedJson& grade : rules.at("grades")) {
    if (knot_share > grade.at("most_knot").get<double>() + rounding) continue;
    if (grain > grade.at("steepest_grain").get<double>() + rounding) continue;
    return {grade.at("grade").get<std::string>(), text_or_empty(grade.at("timber").at(look)), ""};
  }
  return {"", text_or_empty(rules.at("lowest")), rules.at("below_all").get<std::string>()};
}

std::vector<std::string> looks(record::StandardId standard) {
  std::vector<std::string> words;
  for (const OrderedJson& look : of(standard).at("looks")) {
    words.push_back(look.at("look").get<std::string>());
  }
  return words;
}

std::string below_all(record::StandardId standard) {
  return of(standard).at("below_all").get<std::string>();
}

std::string grading_text(record::StandardId standard, std::string_view what) {
  if (what == "slope_how") return grading().at("slope_how").get<std::string>();
  std::string text;
  for (const OrderedJson& look : of(standard).at("looks")) {
    text += (text.empty() ? "" : " ") + look.at("look").get<std::string>() + ": " +
            look.at("how").get<std::string>() + ".";
  }
  return text;
}

}  // namespace underprop::interview
