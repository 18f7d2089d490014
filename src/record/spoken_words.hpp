// Words, timbers and days as people say them: data/said_words.json.
#pragma once

#include "underprop/record/survey.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace underprop::record {

/// The words among `allowed` that may be meant by what is said; none if it is not in the table. Several:
/// it is for whoever said it to choose.
[[nodiscard]] std::vector<std::string> meant_words(std::string_view said,
                                                   std::span<const std::string_view> allowed);

/// A timber as people say it: "SYP #2", "doug fir no 1", "c 24".
struct SpokenTimber {
  std::string name;  ///< as the tables have it; "" if it is not understood
  std::string
      meant;  ///< what may be meant instead: to be asked, never taken. No stronger grade than was said
  std::string problem, remedy;
};
/// What lacks its grade or its species is not guessed.
[[nodiscard]] SpokenTimber spoken_timber(std::string_view said, StandardId standard);

/// A day of the calendar. Numbers with strokes between are read in the order of the standard's country unless
/// only the other order gives a day.
struct SpokenDay {
  std::string iso;    ///< "2026-11-22"; "" if it is none
  std::string shown;  ///< "22 November 2026"
};
[[nodiscard]] SpokenDay spoken_day(std::string_view said, StandardId standard);

/// "2026-11-22" and a day of the Gregorian calendar.
[[nodiscard]] bool is_date(std::string_view text);

}  // namespace underprop::record
