// Answers in people's words: what each form of question understands.
#include "examples.hpp"
#include "parts.hpp"

#include "record/read_values.hpp"
#include "record/sizes.hpp"
#include "record/spoken.hpp"
#include "record/spoken_words.hpp"

#include "base/edit_distance.hpp"
#include "base/json_reader.hpp"
#include "record/spoken_size.hpp"
#include "underprop/base/units.hpp"
#include "underprop/record/facts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>

namespace underprop::interview {
namespace {

Meaning refused(std::string problem, std::string remedy, std::string meant = {}) {
  Meaning taken;
  taken.problem = std::move(problem);
  taken.remedy = std::move(remedy);
  taken.meant = std::move(meant);
  return taken;
}

Meaning understood(std::string text) {
  Meaning taken;
  taken.understood = true;
  taken.text = text;
  taken.shown = std::move(text);
  return taken;
}

template <class Q>
std::string shown(Q low, Q high, UnitSystem units) {
  const auto one = [&](Q q) {
    if constexpr (std::is_same_v<Q, Length>) return format_length(q, units);
    if constexpr (std::is_same_v<Q, Mass>) return format_mass(q, units);
    if constexpr (std::is_same_v<Q, Volume>) return format_volume(q, units);
    if constexpr (std::is_same_v<Q, Pressure>) return format_pressure(q, units);
    if constexpr (std::is_same_v<Q, Force>) return format_force(q, units);
  };
  return low == high ? one(low) : one(low) + " to " + one(high);
}

template <class Q>
constexpr std::array<std::string_view, 5> units_tried() {
  if constexpr (std::is_same_v<Q, Length>) return {"mm", "m", "in", "ft", "cm"};
  if constexpr (std::is_same_v<Q, Mass>) return {"kg", "lb", "t", "", ""};
  if constexpr (std::is_same_v<Q, Volume>) return {"l", "us gal", "m3", "", ""};
  if constexpr (std::is_same_v<Q, Pressure>) return {"kN/m2", "psf", "", "", ""};
  if constexpr (std::is_same_v<Q, Force>) return {"kN", "lbf", "", "", ""};
  return {"", "", "", "", ""};
}

bool has_comma_number(std::string_view text) {
  for (std::size_t i = 1; i + 1 < text.size(); ++i) {
    const auto digit = [](char c) { return c >= '0' && c <= '9'; };
    if (text[i] == ',' && digit(text[i - 1]) && digit(text[i + 1])) return true;
  }
  return false;
}

// Nothing of a deck is further away; sums of lengths stay numbers.
constexpr Length farthest = metres(1000.0);
std::string too_far(const std::string& text) {
  return quote(text) + " is further than anything of a deck";
}

/// "about ", if the text begins so.
std::string about_in(const std::string& text) {
  for (const std::string_view word : {"about ", "approximately ", "roughly "}) {
    if (record::lower(text).starts_with(word)) return std::string(word);
  }
  return "";
}

/// The same number, or range of numbers, with a unit that makes it usual here; the deck's own units are
/// tried first.
template <class Q>
std::string with_usual_unit(const Ask& ask, const std::string& said, record::StandardId standard) {
  const std::vector<std::string> usual = usual_range(ask.key);
  const std::string about = about_in(said);
  std::string text = said.substr(about.size());
  const std::size_t to = text.find(" to ");
  if (to != std::string::npos)
    text = record::tidy(text.substr(0, to)) + "-" + record::tidy(text.substr(to + 4));
  const std::size_t end = text.find_first_not_of("0123456789. /-");
  std::string number = record::tidy(text.substr(0, end));
  if (usual.empty() || number.empty() || number.front() == '-') return "";
  // Litres for a length are no slip of the unit, and "and a half" would be lost.
  const bool other_kind = (!std::is_same_v<Q, Length> && parse_range<Length>(said)) ||
                          (!std::is_same_v<Q, Mass> && parse_range<Mass>(said)) ||
                          (!std::is_same_v<Q, Volume> && parse_range<Volume>(said)) ||
                          (!std::is_same_v<Q, Force> && parse_range<Force>(said));
  if (other_kind || said.find(" and ") != std::string::npos ||
      said.find("half") != std::string::npos)
    return "";
  if (end != std::string::npos && text.find_first_of("0123456789", end) != std::string::npos) {
    return "";
  }
  const auto low = parse_quantity<Q>(usual[0]), high = parse_quantity<Q>(usual[1]);
  std::vector<std::string_view> units;
  for (const std::string_view unit : units_tried<Q>()) {
    if (!unit.empty()) units.push_back(unit);
  }
  if (standard == record::StandardId::north_america_us) {
    // not std::ranges: clang 14 and this standard library disagree on its result
    std::stable_partition(units.begin(), units.end(), [](std::string_view unit) {
      return unit == "in" || unit == "ft" || unit == "lb" || unit == "us gal" || unit == "psf";
    });
  }
  std::string little;
  for (const std::string_view unit : units) {
    const std::string other = fmt::format("{}{} {}", about, number, unit);
    const auto read = parse_range<Q>(other);
    if (!read || read.value->low < *low.value || *high.value < read.value->high) continue;
    // Where nothing is too little, "1" is rather 1 m than 1 mm.
    constexpr double share = 2e-3;
    if (!(read.value->high < share * *high.value)) return other;
    if (little.empty()) little = other;
  }
  return little;
}

template <class Q>
Meaning take_quantity(const Ask& ask, const std::string& text, record::StandardId standard,
                      bool ranges) {
  if (has_comma_number(text)) {
    std::string point = text, none = text;
    std::ranges::replace(point, ',', '.');
    std::erase(none, ',');
    return refused(fmt::format("{} may mean {} or {}", quote(text), quote(point), quote(none)),
                   "write it with a point, or without the comma");
  }
  const std::string zero = fmt::format("0 {}", units_tried<Q>().front());  // nothing has any unit
  const auto read = parse_range<Q>(text == "0"                                ? zero
                                   : record::lower(text).starts_with("about") ? record::lower(text)
                                                                              : text);
  if (!read) {
    std::string meant = with_usual_unit<Q>(ask, text, standard);
    if constexpr (std::is_same_v<Q, Length>) {
      const auto sold =
          ask.key == "boards/thickness" && standard == record::StandardId::north_america_us
              ? record::sold_board_thickness(text)
              : std::nullopt;
      if (sold) {
        return refused(
            fmt::format("{} is what such a board is sold as, and it is thinner", quote(text)),
            read.remedy, format_length(*sold, units_of(standard)));
      }
    }
    const std::string example = such_as(ask, standard);
    const bool general = read.remedy.starts_with("write a ") && !example.empty();
    return refused(read.problem, general ? "write it like " + example : read.remedy,
                   std::move(meant));
  }
  const auto [low, high] = *read.value;
  if constexpr (std::is_same_v<Q, Length>) {
    if (high > farthest) return refused(too_far(text), "check the number and its unit");
  }
  const UnitSystem units = units_of(standard);
  Meaning taken = understood(low == high ? write_quantity(low)
                                         : write_quantity(low) + " to " + write_quantity(high));
  taken.shown = shown(low, high, units);
  const bool about = record::lower(text).starts_with("about") ||
                     record::lower(text).starts_with("approx") ||
                     record::lower(text).starts_with("roughly");
  if (about) {
    taken.shown += fmt::format(" (\"about\": {:.0f} % to either side)", 100.0 * about_fraction);
  }
  if (!ranges && low != high) {
    const Q one = about || !ask.high_counts ? 0.5 * (low + high) : high;
    taken.text = write_quantity(one);
    taken.shown =
        fmt::format("{}: one value is needed here, and the {} is taken", shown(one, one, units),
                    about || !ask.high_counts ? "middle" : "larger end");
    if constexpr (std::is_same_v<Q, Length>) taken.length = one;
  } else if constexpr (std::is_same_v<Q, Length>) {
    taken.length = low == high ? Fact<Length>(low) : Fact<Length>::range(low, high);
  }
  return taken;
}

template <class Q>
Unusual unusual_quantity(const Ask& ask, const std::string& text, record::StandardId standard) {
  const std::vector<std::string> usual = usual_range(ask.key);
  if (usual.empty()) return {};
  const auto read = parse_range<Q>(text);
  const auto low = parse_quantity<Q>(usual[0]), high = parse_quantity<Q>(usual[1]);
  if (!read || !low || !high) return {};
  if (*low.value <= read.value->low && read.value->high <= *high.value) return {};
  Unusual unusual;
  const UnitSystem units = units_of(standard);
  unusual.why =
      fmt::format("{} is unusual here: usually it is between {} and {}",
                  shown(read.value->low, read.value->high, units),
                  shown(*low.value, *low.value, units), shown(*high.value, *high.value, units));
  unusual.meant = with_usual_unit<Q>(ask, text, standard);
  return unusual;
}

std::optional<int> whole(std::string_view text) {
  int number = 0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
  if (text.empty() || read.ec != std::errc{} || read.ptr != text.data() + text.size()) {
    return std::nullopt;
  }
  return number;
}

std::optional<double> number_of(std::string_view text) {
  double number = 0.0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
  if (text.empty() || read.ec != std::errc{} || read.ptr != text.data() + text.size() ||
      !std::isfinite(number)) {
    return std::nullopt;
  }
  return number;
}

int most_of(const Ask& ask) {
  constexpr int usual = 100;
  return ask.most.value_or(usual);
}

Meaning take_word(const Ask& ask, const std::string& text) {
  const std::string said = record::lower(text);
  if (const auto number = whole(said)) {
    if (*number >= 1 && static_cast<std::size_t>(*number) <= ask.words.size()) {
      return understood(ask.words[static_cast<std::size_t>(*number - 1)]);
    }
    return refused(fmt::format("there is no number {}", *number),
                   fmt::format("1 to {}, or the word", ask.words.size()));
  }
  const std::vector<std::string_view> views(ask.words.begin(), ask.words.end());
  for (const std::string& word : ask.words) {
    if (record::lower(word) == said) return understood(word);
  }
  const std::vector<std::string> meant = record::meant_words(said, views);
  if (meant.size() == 1) return understood(meant.front());
  if (meant.size() > 1) {
    std::string listed;
    for (std::size_t i = 0; i < meant.size(); ++i) {
      listed += (i == 0 ? "" : i + 1 == meant.size() ? " or " : ", ") + meant[i];
    }
    return refused(quote(text) + " may be " + listed, "say which of them, or \"don't know\"");
  }
  std::vector<std::string> starting, holding;
  for (const std::string& word : ask.words) {
    if (record::lower(word).starts_with(said)) starting.push_back(word);
    // Never inside a word: "no" is no piano.
    const std::size_t at = record::lower(word).find(said);
    if (said.size() > 1 && at != std::string::npos && at > 0 &&
        std::isalnum(static_cast<unsigned char>(word[at - 1])) == 0)
      holding.push_back(word);
  }
  if (starting.size() == 1) return understood(starting.front());
  if (starting.empty() && holding.size() == 1) return understood(holding.front());
  return refused(quote(text) + " is none of the words", "one of them, or its number",
                 std::string(nearest_word(said, views)));
}

Meaning take_yes_or_no(const std::string& text) {
  const std::string said = record::lower(text);
  Meaning taken = understood(
      said == "y" || said == "yes" || said == "yep" || said == "yeah" || said == "true" ? "yes"
                                                                                        : "no");
  if (taken.text == "yes" || said == "n" || said == "no" || said == "none" || said == "0" ||
      said == "nope" || said == "nah" || said == "nothing" || said == "false") {
    taken.count = taken.text == "yes" ? 1 : 0;
    return taken;
  }
  return refused(quote(text) + " is neither yes nor no", "write yes or no");
}

Meaning take_count(const Ask& ask, const std::string& text, bool ranges) {
  std::string said = record::lower(text);
  if (said == "none" || said == "no" || said == "nothing") said = "0";
  static constexpr std::array<std::string_view, 12> numerals{"one",  "two", "three",  "four",
                                                             "five", "six", "seven",  "eight",
                                                             "nine", "ten", "eleven", "twelve"};
  const std::string about = about_in(said);
  said = record::tidy(said.substr(about.size()));
  for (std::size_t n = 0; n < numerals.size(); ++n) {
    if (said == numerals[n]) said = std::to_string(n + 1);
  }
  const auto one = whole(said);
  const auto allowed = [&](int n) { return n >= 0 && n <= most_of(ask); };
  if (one && allowed(*one) && !about.empty()) {
    if (!ranges) {
      return refused(quote(text) + " is no exact number, and one is needed here",
                     "count them, and write the number alone");
    }
    const int slack =
        std::max(1, static_cast<int>(std::ceil(interview_rule("about_count") * *one)));
    const int low = std::max(*one - slack, 0), high = std::min(*one + slack, most_of(ask));
    Meaning taken = understood(fmt::format("{} to {}", low, high));
    taken.shown = taken.text + " (\"about\"; the worse of them counts)";
    return taken;
  }
  if (one && allowed(*one)) {
    Meaning taken = understood(said);
    taken.count = *one;
    return taken;
  }
  std::size_t cut = said.find(" to ");
  std::size_t width = 4;
  if (cut == std::string::npos) {
    cut = said.find('-', 1);
    width = 1;
  }
  if (ranges && cut != std::string::npos && about.empty()) {
    const auto low = whole(record::tidy(said.substr(0, cut))),
               high = whole(record::tidy(said.substr(cut + width)));
    if (low && high && *low <= *high && allowed(*low) && allowed(*high)) {
      return understood(fmt::format("{} to {}", *low, *high));
    }
  }
  return refused(quote(text) + " is no whole number" + (one ? " that is possible" : ""),
                 fmt::format("a whole number from 0 to {}{}", most_of(ask),
                             ranges ? ", a range such as 3 to 4, or \"about 4\"" : ""));
}

/// "4 m" or "0".
std::optional<Length> coordinate(const std::string& text, std::string& problem) {
  if (text == "0" || text == "-0") return Length(0.0);
  const bool negative = text.starts_with('-');
  const auto read = parse_length(negative ? record::tidy(text.substr(1)) : text);
  if (!read) {
    problem = read.problem + "; " + read.remedy;
    return std::nullopt;
  }
  if (abs(*read.value) > farthest) {
    problem = too_far(text);
    return std::nullopt;
  }
  return negative ? -*read.value : *read.value;
}

std::optional<Point> point_of(const std::string& text, std::string& problem) {
  const std::vector<std::string> parts = record::split(text, ',');
  if (parts.size() != 2) {
    problem = quote(text) + " is not x and y with a comma between";
    return std::nullopt;
  }
  const auto x = coordinate(parts[0], problem), y = coordinate(parts[1], problem);
  if (!x || !y) return std::nullopt;
  return Point{*x, *y};
}

std::string show_point(Point p, UnitSystem units) {
  return format_length(p.x, units) + ", " + format_length(p.y, units);
}

Meaning take_points(const std::vector<std::string>& parts, record::StandardId standard) {
  Meaning taken = understood("");
  for (const std::string& part : parts) {
    std::string problem;
    const auto point = point_of(part, problem);
    if (!point)
      return refused(problem, standard == record::StandardId::north_america_us
                                  ? "write each point like 4 ft, 1 ft 6 in"
                                  : "write each point like 1.2 m, 0.4 m");
    taken.points.push_back(*point);
    taken.shown +=
        (taken.shown.empty() ? "(" : "; (") + show_point(*point, units_of(standard)) + ")";
  }
  return taken;
}

/// So that a slip in one corner shows: a tape along the edges must say the same.
std::string sides(const std::vector<Point>& points, record::StandardId standard) {
  std::string text;
  for (std::size_t k = 0; k < points.size(); ++k) {
    const Point a = points[k], b = points[(k + 1) % points.size()];
    const double along = in_mm(b.x - a.x), up = in_mm(b.y - a.y);
    text += (k == 0 ? "" : ", ") + format_length(mm(std::hypot(along, up)), units_of(standard));
  }
  return "; its sides are " + text;
}

Meaning take_lengths(const std::vector<std::string>& parts, record::StandardId standard) {
  // "0, 400, 800 mm": a unit at the end stands for those without.
  Meaning taken = understood("");
  if (parts.empty()) return refused("no place is given", "write places with commas between");
  const std::string& last = parts.back();
  const std::size_t unit = last.find_first_not_of("0123456789. /-");
  for (std::string part : parts) {
    const bool bare = part.find_first_not_of("0123456789. /-") == std::string::npos;
    if (bare && part != "0" && unit != std::string::npos) part += " " + last.substr(unit);
    std::string problem;
    const auto length = coordinate(part, problem);
    if (!length)
      return refused(problem, standard == record::StandardId::north_america_us
                                  ? "write places like 3/4 in, 16 3/4 in, 32 3/4 in"
                                  : "write places like 20, 420, 820 mm");
    taken.lengths.push_back(*length);
    taken.shown += (taken.shown.empty() ? "" : ", ") + format_length(*length, units_of(standard));
  }
  return taken;
}

Meaning take_spacing(const Ask& ask, const std::string& text, record::StandardId standard) {
  const std::string said = record::lower(text);
  if (said == "even" || said == "evenly") {
    Meaning taken = understood("even");
    taken.shown = "spread evenly";
    return taken;
  }
  if (text.find(',') != std::string::npos) return take_lengths(record::split(text, ','), standard);
  return take_quantity<Length>(ask, text, standard, false);
}

/// "J3 at 1260 mm": which, and where.
Meaning take_shifted(const Ask& ask, const std::string& text, record::StandardId standard) {
  const bool gap = ask.key == "footing/uneven";
  const bool us = standard == record::StandardId::north_america_us;
  const std::string example =
      gap ? (us ? "write it like PA2 by 1/8 in" : "write it like PA2 by 3 mm")
          : (us ? "write it like J3 at 4 ft" : "write it like J3 at 1.2 m");
  const std::size_t at = record::lower(text).find(gap ? " by " : " at ");
  if (at == std::string::npos) {
    return refused(quote(text) + (gap ? " does not say which, and by how much"
                                      : " does not say which stands where"),
                   example);
  }
  std::string problem;
  const auto place = coordinate(record::tidy(text.substr(at + 4)), problem);
  if (!place) return refused(problem, example);
  const std::string which = record::tidy(text.substr(0, at));
  const auto named = std::ranges::find_if(ask.words, [&](const std::string& name) {
    return record::lower(name) == record::lower(which);
  });
  if (named == ask.words.end()) {
    return refused(quote(which) + " is none of them",
                   ask.words.empty() ? std::string("name one of the row")
                                     : ask.words.front() + " to " + ask.words.back());
  }
  Meaning taken = understood(*named);
  taken.length = *place;
  taken.shown = taken.text + (gap ? " by " : " at ") + format_length(*place, units_of(standard));
  return taken;
}

Meaning take_joist_end(const std::string& text) {
  const std::string said = record::lower(text);
  for (const char* end : {" start", " end"}) {
    if (!said.ends_with(end)) continue;
    Meaning taken = understood(text.substr(0, text.size() - std::string_view(end).size()));
    taken.count = std::string_view(end) == " start" ? 1 : 0;
    taken.shown = taken.text + end;
    return taken;
  }
  return refused(quote(text) + " does not say which end", "write it like J3 start");
}

Meaning take_share(const std::string& text, record::StandardId standard) {
  const auto share = [&](double value) {
    if (value < 0.0 || value > 1.0) {
      return refused(quote(text) + " is no share",
                     standard == record::StandardId::north_america_us
                         ? "write it like 1 1/2 in of 5 1/2 in, or 1/3"
                         : "write it like 40 mm of 145 mm, or 1/3");
    }
    Meaning taken = understood(text);
    taken.number = value;
    taken.shown = fmt::format("{:.2f} of the face", value);
    return taken;
  };
  if (record::lower(text) == "none" || text == "0") return share(0.0);
  const std::size_t of = text.find(" of ");
  if (of != std::string::npos) {
    const Meaning parts = take_lengths(
        {record::tidy(text.substr(0, of)), record::tidy(text.substr(of + 4))}, standard);
    if (!parts.understood) return parts;
    if (parts.lengths[1] <= Length(0.0)) return share(-1.0);
    return share(parts.lengths[0] / parts.lengths[1]);
  }
  const std::vector<std::string> parts = record::split(text, '/');
  const auto a = parts.empty() ? std::nullopt : number_of(parts[0]);
  const auto b = parts.size() == 2 ? number_of(parts[1]) : std::nullopt;
  if (parts.size() == 2 && a && b && *b > 0.0) return share(*a / *b);
  if (text.ends_with('%') && number_of(record::tidy(text.substr(0, text.size() - 1)))) {
    return share(*number_of(record::tidy(text.substr(0, text.size() - 1))) / 100.0);
  }
  return share(-1.0);
}

Meaning take_slope(const std::string& text, bool grain) {
  std::string said = record::lower(text);
  if (grain && said == "straight") said = "level";
  for (const char sign : {':', '/'}) {
    const std::size_t at = said.find(sign);
    if (at != std::string::npos) said.replace(at, 1, " in ");
  }
  said = record::tidy(said);
  if (const auto slope = record::read_slope(said)) {
    Meaning taken = understood(said);
    taken.number = *slope;
    if (grain && *slope == 0.0) taken.shown = "straight";
    return taken;
  }
  return refused(quote(text) + " is no slope",
                 grain ? "write it like 1 in 10, or straight" : "write it like 1 in 12, or level");
}

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

/// Names with commas between. Where the question has words, each must be one of them.
Meaning take_names(const Ask& ask, const std::string& text) {
  Meaning taken = understood(
      record::lower(text) == "all" || record::lower(text) == "none" ? record::lower(text) : text);
  taken.names = record::split(text, ',');
  if (taken.names.size() == 1) taken.names = {taken.text};
  const std::vector<std::string_view> views(ask.words.begin(), ask.words.end());
  for (std::string& name : taken.names) {
    if (ask.words.empty()) break;
    const auto word = std::ranges::find_if(ask.words, [&](const std::string& each) {
      return record::lower(each) == record::lower(name);
    });
    if (word == ask.words.end()) {
      constexpr std::size_t most_listed = 20;
      return refused(
          quote(name) + " is none of them",
          "one or more of: " + (ask.words.size() > most_listed
                                    ? ask.words.front() + " to " + ask.words.back()
                                    : joined(ask.words)),
          taken.names.size() == 1 ? std::string(nearest_word(record::lower(name), views)) : "");
    }
    name = *word;
  }
  taken.shown = joined(taken.names);
  return taken;
}

Meaning take_timber(const Ask& ask, const std::string& text, record::StandardId standard) {
  const bool may_look = !ask.words.empty();
  if (record::lower(text) == "look" && may_look) return understood("look");
  const record::SpokenTimber timber = record::spoken_timber(text, standard);
  if (!timber.name.empty()) return understood(timber.name);
  return refused(timber.problem,
                 timber.remedy + (may_look ? ": leave it empty, or say look" : ": leave it empty"),
                 timber.meant);
}

Meaning take_day(const std::string& text, record::StandardId standard) {
  const record::SpokenDay day = record::spoken_day(text, standard);
  if (day.iso.empty()) {
    return refused(quote(text) + " is no day of the calendar",
                   standard == record::StandardId::north_america_us
                       ? "write it like 11/22/2026, 2026-11-22 or November 22, 2026"
                       : "write it like 22/11/2026, 2026-11-22 or 22 November 2026");
  }
  Meaning taken = understood(day.iso);
  taken.shown = day.shown;
  return taken;
}

Meaning take_section(const std::string& text, record::StandardId standard) {
  const record::SpokenSize size = record::spoken_size(text, standard);
  if (!size.understood) return refused(size.problem, size.remedy);
  Meaning taken = understood(text);
  taken.length = size.breadth;
  taken.second = size.depth;
  const auto show = [&](const Fact<Length>& side) {
    return shown(side.low(), side.high(), units_of(standard));
  };
  taken.shown = fmt::format("{} x {} ({})", show(size.breadth), show(size.depth), size.how);
  return taken;
}

/// Words by which somebody finds a place or a thing again. A size or a yes is a slip: it answers
/// another question.
Meaning take_label(const std::string& text) {
  const auto letters = std::ranges::count_if(text, [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           (static_cast<unsigned char>(c) >= 0x80);
  });
  const std::string said = record::lower(text);
  const bool one_word = said == "yes" || said == "y" || said == "no" || said == "n" || said == "ok";
  if (parse_range<Length>(text) || parse_range<Mass>(text) || parse_range<Volume>(text)) {
    return refused(quote(text) + " is a size, and words are asked for here",
                   "write what stands there, such as kitchen door, or nothing");
  }
  if (letters < 2 || one_word) {
    return refused(quote(text) + " says nothing by which to find it again",
                   "write what stands there, such as kitchen door, or nothing");
  }
  return understood(text);
}

Fact<Length> table_range(const std::string& kind, record::StandardId standard) {
  const record::FactKind& fact = record::fact_kind(kind);
  const Length a = mm(fact.value(standard, record::Reading::cautious).number);
  const Length b = mm(fact.value(standard, record::Reading::favourable).number);
  return a == b ? Fact<Length>(a) : Fact<Length>::range(min(a, b), max(a, b));
}

/// `unknown`: "don't know" was said, not that there is nothing.
Meaning take_nothing(const Ask& ask, record::StandardId standard, bool unknown = false) {
  Meaning taken;
  taken.understood = true;
  taken.empty = true;
  if (ask.empty == Empty::refused) {
    return refused("this one is needed: without it nothing can be drawn or worked out",
                   ask.form == Form::yes_or_no || ask.form == Form::word
                       ? "look, or say stop and come back"
                       : "measure it, if only by pacing, or say stop and come back");
  }
  taken.shown = ask.empty != Empty::none ? "not known" : unknown ? "not recorded" : "none";
  if (ask.empty != Empty::range) return taken;
  const std::vector<std::string> kinds = record::split(ask.table, ' ');
  taken.length = table_range(kinds.front(), standard);
  taken.text = write_fact(taken.length);
  const auto show = [&](const Fact<Length>& f) {
    return shown(f.low(), f.high(), units_of(standard));
  };
  taken.shown = "not known: it counts as anything from " + show(taken.length);
  if (kinds.size() == 2) {
    taken.second = table_range(kinds[1], standard);
    taken.shown = fmt::format("not known: it counts as anything from {} thick and {} deep",
                              show(taken.length), show(taken.second));
  }
  return taken;
}

/// "M12" is 12 mm.
std::string bolt_or(const std::string& text) {
  const bool bolt = text.size() > 1 && text.size() < 4 && (text[0] == 'M' || text[0] == 'm') &&
                    text.find_first_not_of("0123456789", 1) == std::string::npos;
  return bolt ? text.substr(1) + " mm" : text;
}

}  // namespace

bool is_not_known(const std::string& word) {
  static constexpr std::array<std::string_view, 8> words{"dunno",        "no idea",    "not sure",
                                                         "unsure",       "can't tell", "can't see",
                                                         "i don't know", "no clue"};
  return is_unknown_word(word) || std::ranges::find(words, word) != words.end();
}

Meaning take(const Ask& ask, const std::string& said, record::StandardId standard) {
  std::string text = record::tidy(said);
  if (const std::string meant = also_means(ask.key, record::lower(text)); !meant.empty())
    text = meant;
  const bool not_known = is_not_known(record::lower(text));
  if (not_known && ask.must_look) {
    return refused("not knowing is no answer to this one: it is there to be seen",
                   "look, say none if there is none, or say stop and come back");
  }
  const bool nothing =
      text.empty() || not_known ||
      (ask.empty == Empty::none &&
       (record::lower(text) == "none" || record::lower(text) == "no" ||
        record::lower(text) == "nothing" || (text == "0" && ask.form == Form::names)));
  if (ask.form == Form::timber &&
      (record::lower(text) == "no stamp" || record::lower(text) == "none")) {
    return take_nothing(ask, standard);
  }
  const bool no_counts = ask.form == Form::yes_or_no && record::lower(text) == "no";
  if (nothing && !no_counts) return take_nothing(ask, standard, not_known);
  switch (ask.form.value_or(Form::text)) {
    case Form::word:
      return take_word(ask, text);
    case Form::yes_or_no:
      return take_yes_or_no(text);
    case Form::length:
      return take_quantity<Length>(ask, bolt_or(text), standard, false);
    case Form::length_fact:
      return take_quantity<Length>(ask, bolt_or(text), standard, true);
    case Form::count:
      return take_count(ask, text, false);
    case Form::count_fact:
      return take_count(ask, text, true);
    case Form::mass_fact:
      return take_quantity<Mass>(ask, text, standard, true);
    case Form::volume_fact:
      return take_quantity<Volume>(ask, text, standard, true);
    case Form::pressure:
      return take_quantity<Pressure>(ask, text, standard, false);
    case Form::force:
      return take_quantity<Force>(ask, text, standard, false);
    case Form::force_fact:
      return take_quantity<Force>(ask, text, standard, true);
    case Form::degrees: {
      const auto number = number_of(text);
      if (!number) return refused(quote(text) + " is no number", "a number of degrees, such as 45");
      Meaning taken = understood(text);
      taken.number = *number;
      return taken;
    }
    case Form::slope:
      return take_slope(text, false);
    case Form::grain:
      return take_slope(text, true);
    case Form::label:
      return take_label(text);
    case Form::text:
      return understood(text);
    case Form::date:
      return take_day(text, standard);
    case Form::timber:
      return take_timber(ask, text, standard);
    case Form::section:
      return take_section(text, standard);
    case Form::corners: {
      Meaning taken = take_points(record::split(text, ';'), standard);
      if (taken.understood && ask.key == "outline/corners")
        taken.shown += sides(taken.points, standard);
      return taken;
    }
    case Form::line: {
      const std::size_t to = text.find(" to ");
      if (to == std::string::npos) {
        return refused(quote(text) + " does not give two points",
                       standard == record::StandardId::north_america_us
                           ? "write it like 0, 0 to 16 ft, 0"
                           : "write it like 0, 0 to 5 m, 0");
      }
      return take_points({text.substr(0, to), text.substr(to + 4)}, standard);
    }
    case Form::point:
      if (record::lower(text) == "middle") return understood("middle");
      return take_points({text}, standard);
    case Form::places:
      return take_lengths(record::split(text, ','), standard);
    case Form::spacing:
      return take_spacing(ask, text, standard);
    case Form::shifted:
      return take_shifted(ask, text, standard);
    case Form::joist_end:
      return take_joist_end(text);
    case Form::names:
      return take_names(ask, text);
    case Form::share:
      return take_share(text, standard);
  }
  return {};
}

Unusual unusual(const Ask& ask, const std::string& said, record::StandardId standard) {
  const std::string text = record::tidy(said);
  switch (ask.form.value_or(Form::text)) {
    case Form::length:
    case Form::length_fact:
    case Form::spacing:
      return unusual_quantity<Length>(ask, text, standard);
    case Form::mass_fact:
      return unusual_quantity<Mass>(ask, text, standard);
    case Form::volume_fact:
      return unusual_quantity<Volume>(ask, text, standard);
    case Form::pressure:
      return unusual_quantity<Pressure>(ask, text, standard);
    case Form::force:
    case Form::force_fact:
      return unusual_quantity<Force>(ask, text, standard);
    default:
      return {};
  }
}

}  // namespace underprop::interview
