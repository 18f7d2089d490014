// Single values of a survey file: read with every fault told, and written.
#pragma once

#include "limits.hpp"

#include "base/json_reader.hpp"
#include "underprop/record/survey.hpp"

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace underprop::record {

inline constexpr std::size_t longest_notes = 4000;
inline constexpr std::array<std::string_view, 9> seismic_categories{"A",  "B", "C", "D0", "D1",
                                                                    "D2", "D", "E", "F"};

/// What a reader of one file knows beside the value in hand.
struct ReadContext {
  ErrorList& errors;
  std::optional<StandardId> standard;  ///< none: missing or wrong, reported elsewhere
};

/// Is low..high within the limit? If not, adds an error at the pointer, with "did you mean" where
/// another unit would do. `value` is what stands in the file.
template <class Q>
bool within_limit(const Json& value, const std::string& pointer, Q low, Q high,
                  const Limit<Q>& limit, ErrorList& errors);

/// "level", "1 in 12", "0.08 in 1"; nullopt if it is none of these.
std::optional<double> read_slope(std::string_view text);
/// A slope that read_slope reads back to the same number.
std::string write_slope(double slope);
/// A slope, a range of two, or unknown, at a key.
Fact<double> read_slope_fact(ObjectReader& object, std::string_view key);

/// Dressed (actual) breadth and depth of a nominal size such as "2x8"; nullopt after an error.
std::optional<std::pair<Length, Length>> read_nominal_size(const Json& value,
                                                           const std::string& pointer,
                                                           const ReadContext& context);
/// Text that may run to several sentences; "" after an error.
std::string read_notes(const Json& value, const std::string& pointer, ErrorList& errors);
/// A name of a piece or group: letters, digits, space, - _ . only; "" after an error.
std::string read_name(const Json& value, const std::string& pointer, ErrorList& errors);
/// YYYY-MM-DD of the Gregorian calendar; "" after an error.
std::string read_date(const Json& value, const std::string& pointer, const ReadContext& context);
/// As read_word, with what people say for one of the words: it is suggested, not taken.
std::optional<std::size_t> read_choice(const Json& value, const std::string& pointer,
                                       std::span<const std::string_view> words, bool or_unknown,
                                       ErrorList& errors);
std::optional<Point> read_point(const Json& value, const std::string& pointer, ErrorList& errors);
/// Strength class, or species and grade; refused if the standard's tables do not have it.
std::string read_timber(const Json& value, const std::string& pointer, const ReadContext& context,
                        bool may_be_unknown);
/// "positions", or "first", "spacing" and "count" spelt out.
std::vector<Length> read_positions(ObjectReader& object, const Limit<Length>& limit,
                                   std::size_t most);

}  // namespace underprop::record
