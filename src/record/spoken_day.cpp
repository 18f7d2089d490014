// Days of the calendar as people write them.
#include "spoken_words.hpp"

#include "spoken.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <vector>

namespace underprop::record {
namespace {

constexpr std::array<std::string_view, 12> months{"January",   "February", "March",    "April",
                                                  "May",       "June",     "July",     "August",
                                                  "September", "October",  "November", "December"};

bool is_leap(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }

bool is_day(int year, int month, int day) {
  constexpr std::array days{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  constexpr int first_year = 1900, last_year = 9999;
  if (year < first_year || year > last_year || month < 1 || month > 12 || day < 1) return false;
  return day <= days[static_cast<std::size_t>(month - 1)] + (month == 2 && is_leap(year) ? 1 : 0);
}

/// A number of at most four digits, "22nd" included; -1 if it is none.
int number_in(std::string_view word) {
  for (const std::string_view ending : {"st", "nd", "rd", "th"}) {
    if (word.size() > ending.size() && word.ends_with(ending)) {
      word.remove_suffix(ending.size());
      break;
    }
  }
  int number = -1;
  const auto read = std::from_chars(word.data(), word.data() + word.size(), number);
  constexpr std::size_t most_digits = 4;
  if (read.ec != std::errc{} || read.ptr != word.data() + word.size() || word.size() > most_digits)
    return -1;
  return number;
}

/// "nov", "sept", "november"; 0 if it is none.
int month_in(std::string_view word) {
  constexpr std::size_t shortest = 3;
  if (word.size() < shortest) return 0;
  for (std::size_t m = 0; m < months.size(); ++m) {
    if (lower(months[m]).starts_with(word)) return static_cast<int>(m) + 1;
  }
  return 0;
}

/// Two digits are of this century.
int year_of(const std::string& word) {
  const int number = number_in(word);
  return word.size() == 2 && number >= 0 ? 2000 + number : number;
}

}  // namespace

bool is_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i != 4 && i != 7 && (text[i] < '0' || text[i] > '9')) return false;
  }
  return is_day(number_in(text.substr(0, 4)), number_in(text.substr(5, 2)),
                number_in(text.substr(8, 2)));
}

SpokenDay spoken_day(std::string_view said, StandardId standard) {
  const bool us = standard == StandardId::north_america_us;
  std::string text = lower(tidy(said));
  for (char& c : text) {
    if (c == '/' || c == '.' || c == ',' || c == '-') c = ' ';
  }
  std::vector<std::string> words;
  for (std::string& word : split(text, ' ')) {
    if (word != "of" && word != "the") words.push_back(std::move(word));
  }
  if (words.size() != 3) return {};
  int year = -1, month = 0, day = -1;
  bool either = false;  // the other order gives a day as well, and another one
  if (const int first = month_in(words[0]); first > 0) {
    year = year_of(words[2]), month = first, day = number_in(words[1]);
  } else if (const int second = month_in(words[1]); second > 0) {
    const bool year_first = words[0].size() == 4;
    year = year_first ? number_in(words[0]) : year_of(words[2]);
    month = second;
    day = number_in(year_first ? words[2] : words[0]);
  } else if (words[0].size() == 4) {
    year = number_in(words[0]), month = number_in(words[1]), day = number_in(words[2]);
  } else {
    const int a = number_in(words[0]), b = number_in(words[1]);
    year = year_of(words[2]);
    const bool day_first = is_day(year, b, a), month_first = is_day(year, a, b);
    const bool take_month_first = us ? month_first : month_first && !day_first;
    month = take_month_first ? a : b;
    day = take_month_first ? b : a;
    either = day_first && month_first && a != b;
  }
  if (!is_day(year, month, day)) return {};
  const std::string_view name = months[static_cast<std::size_t>(month - 1)];
  SpokenDay result{
      fmt::format("{:04}-{:02}-{:02}", year, month, day),
      us ? fmt::format("{} {}, {}", name, day, year) : fmt::format("{} {} {}", day, name, year)};
  if (either) {
    result.shown += us ? " (read as month/day/year)" : " (read as day/month/year)";
  }
  return result;
}

}  // namespace underprop::record
