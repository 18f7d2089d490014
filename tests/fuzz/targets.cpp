#include "fuzz/targets.hpp"

#include "underprop/base/input_error.hpp"
#include "underprop/deck/deck.hpp"
#include "underprop/deck/read.hpp"
#include "underprop/record/format.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <vector>

namespace underprop::fuzz {
namespace {

using Json = nlohmann::ordered_json;

}  // namespace

// --- surveys --------------------------------------------------------------------------------------

void survey(std::string_view text) {
  deck::ReadResult read;
  try {
    read = deck::read_survey(text, "fuzz.json");
  } catch (const InputErrors& errors) {
    promise(!errors.errors().empty(), "a refusal has a reason");
    for (const std::string& line : errors.lines()) {
      promise(line.starts_with("fuzz.json: /"), "a refusal names the place");
      promise(line.find('\n') == std::string::npos, "a refusal is one line");
    }
    return;
  }
  const std::string written = record::write_survey(read.survey);
  const deck::ReadResult again = deck::read_survey(written, "fuzz.json");
  promise(record::write_survey(again.survey) == written, "what is written reads back the same");
  for (const record::Reading reading :
       {record::Reading::favourable, record::Reading::likely, record::Reading::cautious}) {
    const deck::Resolved resolved = deck::resolve(read.survey, reading);
    for (const deck::OpenFact& fact : resolved.open) {
      promise(!fact.find_out.empty(), "an open fact can be found out");
    }
  }
}

// --- changes --------------------------------------------------------------------------------------

namespace {

void list_places(const Json& json, const Json::json_pointer& at,
                 std::vector<Json::json_pointer>& places) {
  if (json.is_object()) {
    for (const auto& [key, child] : json.items()) {
      places.push_back(at / key);
      list_places(child, at / key, places);
    }
  } else if (json.is_array()) {
    for (std::size_t i = 0; i < json.size(); ++i) {
      places.push_back(at / i);
      list_places(json[i], at / i, places);
    }
  }
}

// Every key with the words it may have; other keys have none.
const std::vector<record::Field>& keys() {
  static const std::vector<record::Field> all = record::survey_fields();
  return all;
}

Json a_value(Random& random) {
  static const std::vector<Json> values{"unknown",
                                        "0 mm",
                                        "1 mm",
                                        "-1 mm",
                                        "25 mm",
                                        "50 mm",
                                        "90 mm",
                                        "300 mm",
                                        "600 mm",
                                        "1.2 m",
                                        "3 m",
                                        "100 m",
                                        "-2.5 m",
                                        "1e9 m",
                                        "6 in",
                                        "8 ft",
                                        "7'10 1/2\"",
                                        "200-250 mm",
                                        "about 1.8 m",
                                        "0 kg",
                                        "250 kg",
                                        "4 t",
                                        "1400 l",
                                        "300 us gal",
                                        "5 kN",
                                        "2 kPa",
                                        "40 psf",
                                        "1 in 12",
                                        "level",
                                        "none",
                                        "all",
                                        "free",
                                        "hanger",
                                        "resting",
                                        "decay",
                                        "missing",
                                        "notch",
                                        "split",
                                        "out of level",
                                        "short bearing",
                                        "flush",
                                        "on top",
                                        "beside",
                                        "x",
                                        "y",
                                        "C24",
                                        "D40",
                                        "Hem-Fir No.2",
                                        "J1",
                                        "J",
                                        "P",
                                        "B",
                                        "",
                                        nullptr,
                                        true,
                                        false,
                                        0,
                                        1,
                                        2,
                                        -1,
                                        7,
                                        1e308,
                                        0.5,
                                        Json::array(),
                                        Json::object(),
                                        "eurocode-uk",
                                        "north-america-us",
                                        "runners",
                                        "feet",
                                        "circle",
                                        "gap",
                                        "loose",
                                        "tight"};
  const std::size_t k = random.below(values.size() + keys().size());
  if (k < values.size()) return values[k];
  const record::Field& key = keys()[k - values.size()];
  if (key.words.empty()) return values[random.below(values.size())];
  return key.words[random.below(key.words.size())];
}

// The number in a text such as "2.4 m", scaled: lengths that nearly fit reach deeper than odd ones.
Json scaled(const std::string& text, Random& random) {
  static constexpr double factors[] = {0.0, 0.01, 0.5,  0.9,    0.999, 1.001,
                                       1.1, 2.0,  10.0, 1000.0, -1.0};
  char* end = nullptr;
  const double value = std::strtod(text.c_str(), &end);
  if (end == text.c_str() || !std::isfinite(value)) return a_value(random);
  char number[40];
  std::snprintf(number, sizeof number, "%.9g", value * factors[random.below(std::size(factors))]);
  return number + std::string(end);
}

void change(Json& json, Random& random) {
  std::vector<Json::json_pointer> places;
  list_places(json, Json::json_pointer(), places);
  if (places.empty()) return;
  const auto place = places[random.below(places.size())];
  Json& value = json[place];
  Json& parent = json[place.parent_pointer()];
  switch (random.below(8)) {
    case 0:
      value = a_value(random);
      return;
    case 1:  // another value of the same file
      value = Json(json[places[random.below(places.size())]]);
      return;
    case 2:  // leave it out
      if (parent.is_object()) {
        parent.erase(place.back());
      } else if (parent.is_array()) {
        parent.erase(parent.begin() + static_cast<std::ptrdiff_t>(std::stoul(place.back())));
      }
      return;
    case 3:  // an item twice
      if (parent.is_array()) {
        parent.push_back(Json(value));
      } else if (value.is_array() && !value.empty()) {
        value.push_back(Json(value[0]));
      }
      return;
    case 4:  // a key that belongs somewhere in the format
      if (value.is_object()) value[keys()[random.below(keys().size())].key] = a_value(random);
      return;
    default:
      if (value.is_string())
        value = scaled(value.get<std::string>(), random);
      else if (value.is_boolean())
        value = !value.get<bool>();
      else if (value.is_number())
        value = static_cast<int>(random.below(9)) - 1;
  }
}

}  // namespace

std::string changed_survey(std::string_view text, std::uint64_t seed) {
  Json json = Json::parse(text, nullptr, false);
  if (json.is_discarded()) return std::string(text);
  Random random(seed);
  for (std::size_t n = 1 + random.below(4); n > 0; --n) change(json, random);
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace underprop::fuzz
