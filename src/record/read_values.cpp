#include "read_values.hpp"

#include "underprop/record/facts.hpp"

#include "said.hpp"
#include "sizes.hpp"
#include "spoken.hpp"
#include "spoken_words.hpp"

#include "base/edit_distance.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <limits>

namespace underprop::record {
namespace {

constexpr std::size_t longest_name = 40;

template <class Q>
constexpr std::string_view kind_of_quantity() {
  if constexpr (std::is_same_v<Q, Length>) return "a length";
  if constexpr (std::is_same_v<Q, Mass>) return "a mass";
  if constexpr (std::is_same_v<Q, Volume>) return "a volume";
  if constexpr (std::is_same_v<Q, Force>) return "a force";
  if constexpr (std::is_same_v<Q, Pressure>) return "a pressure";
}

// The units tried for "did you mean", the likeliest slip first.
template <class Q>
std::vector<std::string_view> usual_units() {
  if constexpr (std::is_same_v<Q, Length>) return {"mm", "m", "cm", "in", "ft"};
  if constexpr (std::is_same_v<Q, Mass>) return {"kg", "lb", "t"};
  if constexpr (std::is_same_v<Q, Volume>) return {"l", "us gal", "m3"};
  if constexpr (std::is_same_v<Q, Force>) return {"kN", "N", "lbf"};
  if constexpr (std::is_same_v<Q, Pressure>) return {"kN/m2", "psf"};
}

template <class Q>
bool inside(Q low, Q high, const Limit<Q>& limit) {
  return (limit.open ? limit.low < low : limit.low <= low) && high <= limit.high;
}

// The same number with another unit, or without its minus sign, if that lies within the limit.
template <class Q>
std::string nearest_sense(const Json& value, const Limit<Q>& limit) {
  if (!value.is_string()) return {};
  const std::string& text = value.get_ref<const std::string&>();
  const std::size_t first = text.find_first_not_of(' ');
  if (first != std::string::npos && text[first] == '-') {
    const std::string positive = text.substr(first + 1);
    const auto read = parse_quantity<Q>(positive);
    return read && inside(*read.value, *read.value, limit) ? positive : std::string();
  }
  // One number and one unit: "600 m", "600-650 m", but not "600 m to 650 m" or "7 ft 10 in".
  const std::size_t unit_at = text.find_first_not_of("0123456789. /-");
  if (unit_at == 0 || unit_at == std::string::npos) return {};
  if (text.find(' ', unit_at) != std::string::npos) return {};
  std::string number = text.substr(0, unit_at);
  while (number.ends_with(' ')) number.pop_back();
  for (const std::string_view unit : usual_units<Q>()) {
    std::string other = fmt::format("{} {}", number, unit);
    const auto read = parse_range<Q>(other);
    if (read && inside(read.value->low, read.value->high, limit)) return other;
  }
  return {};
}

std::optional<double> plain_number(std::string_view text) {
  double number = 0.0;
  const char* const end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, number, std::chars_format::general);
  if (text.empty() || read.ec != std::errc{} || read.ptr != end || !std::isfinite(number) ||
      number < 0.0) {
    return std::nullopt;
  }
  return number;
}

}  // namespace

template <class Q>
bool within_limit(const Json& value, const std::string& pointer, Q low, Q high,
                  const Limit<Q>& limit, ErrorList& errors) {
  if (inside(low, high, limit)) return true;
  const bool negative = low < Q{} && Q{} <= limit.low;
  const bool small = !(limit.open ? limit.low < low : limit.low <= low);
  const std::string meant = nearest_sense(value, limit);
  errors.add(pointer,
             negative ? describe(value) + " is negative"
                      : describe(value) + (small ? " is too small" : " is too large"),
             fmt::format("{} {} {}{} {}", kind_of_quantity<Q>(),
                         limit.open ? "of more than" : "from", said(errors.units(), limit.low),
                         limit.open ? ", at most" : " to", said(errors.units(), limit.high)),
             meant.empty() ? std::string("check the number and its unit")
                           : fmt::format("did you mean \"{}\"?", meant));
  return false;
}

template bool within_limit(const Json&, const std::string&, Length, Length, const Limit<Length>&,
                           ErrorList&);
template bool within_limit(const Json&, const std::string&, Mass, Mass, const Limit<Mass>&,
                           ErrorList&);
template bool within_limit(const Json&, const std::string&, Volume, Volume, const Limit<Volume>&,
                           ErrorList&);
template bool within_limit(const Json&, const std::string&, Force, Force, const Limit<Force>&,
                           ErrorList&);
template bool within_limit(const Json&, const std::string&, Pressure, Pressure,
                           const Limit<Pressure>&, ErrorList&);

std::optional<double> read_slope(std::string_view text) {
  if (text == "level") return 0.0;
  const std::size_t in = text.find(" in ");
  if (in == std::string_view::npos) return std::nullopt;
  const auto rise = plain_number(text.substr(0, in));
  const auto run = plain_number(text.substr(in + 4));
  if (!rise || !run || *run <= 0.0) return std::nullopt;
  const double slope = *rise / *run;
  return slope <= 2.0 ? std::optional(slope) : std::nullopt;
}

std::string read_name(const Json& value, const std::string& pointer, ErrorList& errors) {
  const std::string allowed =
      fmt::format("a name of 1 to {} letters, digits, spaces and - _ .", longest_name);
  if (!value.is_string()) {
    errors.add(pointer, describe(value), allowed, "write a name between double quotes");
    return {};
  }
  const auto& name = value.get_ref<const std::string&>();
  const bool good = std::ranges::all_of(name, [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == ' ' ||
           c == '-' || c == '_' || c == '.';
  });
  if (name.empty() || name.size() > longest_name || !good || name.front() == ' ' ||
      name.back() == ' ') {
    errors.add(pointer,
               name.size() > longest_name ? fmt::format("a name of {} bytes", name.size())
                                          : describe(value),
               allowed, "choose another name, such as \"J\" or \"B1\"");
    return {};
  }
  return name;
}

std::string read_notes(const Json& value, const std::string& pointer, ErrorList& errors) {
  const std::string allowed = fmt::format("text of 1 to {} bytes", longest_notes);
  if (!value.is_string()) {
    errors.add(pointer, describe(value), allowed, "write text between double quotes");
    return {};
  }
  const auto& notes = value.get_ref<const std::string&>();
  const bool control = std::ranges::any_of(notes, [](char c) {
    return (static_cast<unsigned char>(c) < 0x20 && c != '\n') || c == 0x7f;
  });
  if (notes.empty() || notes.size() > longest_notes || control) {
    errors.add(pointer,
               control         ? std::string("a text that holds a control character")
               : notes.empty() ? std::string("an empty text")
                               : fmt::format("a text of {} bytes", notes.size()),
               allowed, notes.empty() ? "write it, or leave the key out" : "mend or shorten it");
    return {};
  }
  return notes;
}

std::string read_date(const Json& value, const std::string& pointer, const ReadContext& context) {
  if (value.is_string() && is_date(value.get_ref<const std::string&>())) {
    return value.get<std::string>();
  }
  const SpokenDay day = value.is_string() && context.standard
                            ? spoken_day(value.get_ref<const std::string&>(), *context.standard)
                            : SpokenDay{};
  context.errors.add(pointer, describe(value), "a date as year-month-day",
                     day.iso.empty() ? std::string("write it like \"2026-04-30\"")
                                     : fmt::format("did you mean \"{}\"?", day.iso));
  return {};
}

std::optional<std::size_t> read_choice(const Json& value, const std::string& pointer,
                                       std::span<const std::string_view> words, bool or_unknown,
                                       ErrorList& errors) {
  if (value.is_string() &&
      std::ranges::find(words, value.get_ref<const std::string&>()) == words.end()) {
    const auto meant = meant_words(value.get_ref<const std::string&>(), words);
    if (!meant.empty()) {
      std::string allowed, remedy;
      for (const std::string_view word : words) {
        allowed += fmt::format("{}\"{}\"", allowed.empty() ? "one of " : ", ", word);
      }
      for (const std::string& word : meant) {
        remedy += fmt::format("{}\"{}\"", remedy.empty() ? "did you mean " : " or ", word);
      }
      errors.add(pointer, describe(value), allowed + (or_unknown ? ", or \"unknown\"" : ""),
                 remedy + "?");
      return std::nullopt;
    }
  }
  return read_word(value, pointer, words, or_unknown, errors);
}

std::optional<Point> read_point(const Json& value, const std::string& pointer, ErrorList& errors) {
  if (!value.is_array() || value.size() != 2) {
    errors.add(pointer,
               value.is_array() ? fmt::format("an array of {}", value.size()) : describe(value),
               "a point: x and y from corner A", "write it like [\"1.2 m\", \"0 m\"]");
    return std::nullopt;
  }
  std::optional<Length> part[2];
  for (std::size_t i = 0; i < 2; ++i) {
    const std::string at = child_pointer(pointer, i);
    part[i] = read_quantity<Length>(value[i], at, any<Length>(), errors);
    if (part[i] && !within_limit(value[i], at, *part[i], *part[i], limit::place, errors)) {
      part[i].reset();
    }
  }
  if (!part[0] || !part[1]) return std::nullopt;
  return Point{*part[0], *part[1]};
}

std::string read_timber(const Json& value, const std::string& pointer, const ReadContext& context,
                        bool may_be_unknown) {
  const auto text = read_string(value, pointer, context.errors);
  if (!text) return {};
  if (!context.standard) return *text;
  const auto& known = timber_names(*context.standard);
  if (known.empty() || std::ranges::find(known, *text) != known.end()) return *text;
  // A species alone leaves its grade open.
  if (may_be_unknown && species_row(*context.standard, *text) != nullptr) return *text;
  // Never a grade that was not said: the nearest by spelling may be a stronger one.
  const SpokenTimber said = spoken_timber(*text, *context.standard);
  const std::string& near = said.name.empty() ? said.meant : said.name;
  constexpr std::size_t most_listed = 12;
  std::string allowed = "a timber of the tables:";
  for (std::size_t i = 0; i < known.size() && i < most_listed; ++i) {
    allowed += fmt::format("{} \"{}\"", i == 0 ? "" : ",", known[i]);
  }
  if (known.size() > most_listed) allowed += " ...";
  const std::string otherwise =
      may_be_unknown ? "write \"unknown\" if it is none of these"
                     : "leave the piece out if its timber is not known: it counts for nothing then";
  context.errors.add(pointer, describe(value), allowed + (may_be_unknown ? ", or \"unknown\"" : ""),
                     near.empty() ? otherwise : fmt::format("did you mean \"{}\"?", near));
  return {};
}

namespace {

/// "2 by 8", "2X8 PT", "8x2": the nominal size that is in it; "" if there is none.
std::string nominal_in(std::string_view text) {
  std::string plain;
  for (const std::string& word : split(lower(tidy(text)), ' ')) {
    const bool part =
        word == "x" || word == "by" || word.find_first_not_of("0123456789x\"") == std::string::npos;
    if (part) plain += word == "by" ? std::string("x") : word;
  }
  std::erase(plain, '"');
  auto size = nominal_size(plain);
  if (!size) return {};
  if (size->width < size->thickness) std::swap(size->thickness, size->width);
  return dressed_size(*size) ? fmt::format("{}x{}", size->thickness, size->width) : std::string();
}

}  // namespace

std::optional<std::pair<Length, Length>> read_nominal_size(const Json& value,
                                                           const std::string& pointer,
                                                           const ReadContext& context) {
  const auto text = read_string(value, pointer, context.errors);
  if (!text || !context.standard) return std::nullopt;
  if (*context.standard != StandardId::north_america_us) {
    context.errors.add(pointer, "the nominal size " + describe(value),
                       "actual sizes: sawn and regularised timber of one name differ",
                       "measure, and write both sizes in mm in place of \"size\"");
    return std::nullopt;
  }
  const auto nominal = nominal_size(*text);
  const auto actual = nominal ? dressed_size(*nominal) : std::nullopt;
  if (!actual) {
    const std::string meant = nominal_in(*text);
    context.errors.add(
        pointer, describe(value), "a nominal size of dressed lumber, such as \"2x8\" or \"6x6\"",
        meant.empty() ? "write it so, or measure and write the actual sizes in place of \"size\""
                      : fmt::format("did you mean \"{}\"?", meant));
  }
  return actual;
}

std::vector<Length> read_positions(ObjectReader& object, const Limit<Length>& limit,
                                   std::size_t most) {
  std::vector<Length> positions;
  ErrorList& errors = object.errors();
  const bool listed = object.has("positions");
  const Json* const first = object.find("first");
  const Json* const spacing = object.find("spacing");
  const Json* const count = object.find("count");
  if (!object.is_object()) return positions;
  if (listed) {
    for (const std::string_view key : {"first", "spacing", "count"}) {
      if (!object.has(key)) continue;
      object.fail(key, fmt::format("\"{}\" beside \"positions\"", key),
                  "either \"positions\" (" + object.pointer_of("positions") +
                      ") or \"first\", \"spacing\" and \"count\"",
                  "delete one of them");
    }
    object.array("positions", 1, most, [&](const Json& element, const std::string& at) {
      const auto read = read_quantity<Length>(element, at, any<Length>(), errors);
      if (read && within_limit(element, at, *read, *read, limit, errors)) {
        positions.push_back(*read);
      }
    });
    return positions;
  }
  if (first == nullptr && spacing == nullptr && count == nullptr) {
    object.fail("positions", "the key \"positions\" is missing",
                "\"positions\", or \"first\", \"spacing\" and \"count\"", "add \"positions\"");
    return positions;
  }
  const std::size_t before = errors.count();
  const auto length = [&](std::string_view key, const Limit<Length>& range) {
    const Json* json = object.require(key, quantity_examples<Length>());
    if (json == nullptr) return Length{};
    const auto read = read_quantity<Length>(*json, object.pointer_of(key), any<Length>(), errors);
    if (!read) return Length{};
    (void)within_limit(*json, object.pointer_of(key), *read, *read, range, errors);
    return *read;
  };
  const Length start = length("first", limit);
  const int n = object.integer("count", 1, static_cast<int>(most));
  // A single one has no neighbour to be spaced from.
  const Length step = n == 1 && spacing == nullptr && count != nullptr
                          ? Length{}
                          : length("spacing", limit::spacing);
  if (errors.count() != before) return positions;
  const Length last = start + (n - 1) * step;
  if (limit.high < last) {
    object.fail("count",
                fmt::format("the last of {} would lie at {}", n, said(errors.units(), last)),
                "positions up to " + said(errors.units(), limit.high), "check spacing and count");
    return positions;
  }
  for (int i = 0; i < n; ++i) positions.push_back(start + i * step);
  return positions;
}

std::string write_slope(double slope) {
  if (slope == 0.0) return "level";
  double run = 1.0 / slope;
  for (const double candidate : {std::round(run), run, std::nextafter(run, 0.0),
                                 std::nextafter(run, std::numeric_limits<double>::infinity())}) {
    if (candidate > 0.0 && 1.0 / candidate == slope) return fmt::format("1 in {}", candidate);
  }
  return fmt::format("{} in 1", slope);
}

Fact<double> read_slope_fact(ObjectReader& object, std::string_view key) {
  const Json* const json = object.find(key);
  if (json == nullptr || means_unknown(*json)) return {};
  ErrorList& errors = object.errors();
  const auto read = [&](const Json& value, const std::string& pointer) -> std::optional<double> {
    const auto slope = value.is_string() ? read_slope(value.get_ref<const std::string&>())
                                         : std::optional<double>();
    if (!slope) {
      errors.add(pointer, describe(value), "\"level\", \"1 in 12\" or the like, or \"unknown\"",
                 "write how far the ground falls in what length");
    }
    return slope;
  };
  if (!json->is_object()) {
    const auto slope = read(*json, object.pointer_of(key));
    return slope ? Fact<double>(*slope) : Fact<double>();
  }
  ObjectReader ends(*json, object.pointer_of(key), errors);
  const Json* low = ends.require("low", "\"level\" or \"1 in 20\"");
  const Json* high = ends.require("high", "\"1 in 12\" or the like");
  ends.finish();
  if (low == nullptr || high == nullptr) return {};
  const auto from = read(*low, ends.pointer_of("low"));
  const auto to = read(*high, ends.pointer_of("high"));
  if (!from || !to) return {};
  if (*to < *from) {
    object.fail(key, "a range whose high end is below its low end", "low not above high",
                "exchange the two");
    return {};
  }
  return Fact<double>::range(*from, *to);
}

}  // namespace underprop::record
