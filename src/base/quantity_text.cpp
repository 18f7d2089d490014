#include "quantity_text.hpp"

#include "base/edit_distance.hpp"
#include "underprop/base/input_error.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <utility>
#include <vector>

namespace underprop::detail {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool is_space(char c) { return c == ' ' || c == '\t'; }

bool is_pounds(const Unit& unit) {
  return unit.dimension == Dimension::mass && unit.factor == 0.45359237;
}

/// A number as it stands in the text.
struct Number {
  std::string_view decimal;  ///< plain decimal digits, if it is not a fraction
  double value = 0.0;
  bool whole = false;  ///< digits only
};

class Reader {
public:
  Reader(std::string_view text, std::string_view shown, Dimension dimension)
      : text_(text), shown_(quote(shown)), dimension_(dimension) {}

  Outcome read() {
    bool negative = false;
    if (!at_end() && (peek() == '-' || peek() == '+')) {
      negative = peek() == '-';
      ++at_;
      skip_spaces();
    }
    Number first;
    if (!read_number(first)) return std::move(out_);
    skip_spaces();
    if (at_end()) {
      const auto& w = wording(dimension_);
      out_.bare = true;
      return fail(shown_ + " has no unit",
                  fmt::format("write \"{0} {1}\" or \"{0} {2}\", whichever was meant", text_,
                              w.first, w.second));
    }
    const Unit* unit = read_unit();
    if (unit == nullptr) return std::move(out_);
    double total = scaled(first, *unit);
    out_.unit = unit;
    out_.components = 1;
    skip_spaces();

    const double ratio = smaller_per_unit(*unit);
    if (!at_end() && is_digit(peek()) && ratio > 0.0 && first.whole) {
      Number second;
      if (!read_number(second)) return std::move(out_);
      skip_spaces();
      const Unit* second_unit = at_end() ? nullptr : read_unit();
      if (second_unit == nullptr) {
        if (!out_.problem.empty()) return std::move(out_);
        return fail(shown_ + " has no unit behind its last number",
                    dimension_ == Dimension::length
                        ? "write feet and inches like \"7 ft 10 1/2 in\""
                        : "write stones and pounds like \"11 st 4 lb\"");
      }
      if (!(dimension_ == Dimension::length ? is_inches(*second_unit) : is_pounds(*second_unit))) {
        return fail(shown_ + " adds up units that do not belong together",
                    "write it in one unit, or as feet and inches like \"7 ft 10 1/2 in\"");
      }
      if (second.value >= ratio) {
        return fail(
            fmt::format("{} has more {} than make one {}", shown_, second_unit->name, unit->name),
            "write it in one unit, or mend the second number");
      }
      total = scaled(Number{{}, first.value * ratio + second.value, false}, *second_unit);
      out_.unit = second_unit;
      out_.components = 2;
      skip_spaces();
    }
    if (!at_end()) {
      const std::string_view rest = text_.substr(at_);
      return fail(fmt::format("{} has {} behind the quantity", shown_, quote(rest)),
                  fmt::format("leave out {}", quote(rest)));
    }
    if (!std::isfinite(total)) return fail(shown_ + " is too large", "check the number");
    out_.value = (negative ? -total : total) + 0.0;  // + 0.0 turns -0 into 0
    return std::move(out_);
  }

private:
  [[nodiscard]] bool at_end() const { return at_ >= text_.size(); }
  [[nodiscard]] char peek() const { return text_[at_]; }
  void skip_spaces() {
    while (!at_end() && is_space(peek())) ++at_;
  }

  Outcome fail(std::string problem, std::string remedy) {
    out_.value.reset();
    out_.problem = std::move(problem);
    out_.remedy = std::move(remedy);
    return std::move(out_);
  }
  bool refuse(std::string problem, std::string remedy) {
    out_.problem = std::move(problem);
    out_.remedy = std::move(remedy);
    return false;
  }

  /// The digits from `from` on; the position behind them.
  [[nodiscard]] std::size_t digits_end(std::size_t from) const {
    while (from < text_.size() && is_digit(text_[from])) ++from;
    return from;
  }

  /// A fraction n/d at `from`; 0 if there is none, else the position behind it.
  std::size_t fraction_at(std::size_t from, double& numerator, double& denominator) const {
    const std::size_t slash = digits_end(from);
    if (slash == from || slash >= text_.size() || text_[slash] != '/') return 0;
    const std::size_t end = digits_end(slash + 1);
    if (end == slash + 1 || slash - from > 4 || end - slash - 1 > 4) return 0;
    numerator = to_double(text_.substr(from, slash - from)).value_or(0.0);
    denominator = to_double(text_.substr(slash + 1, end - slash - 1)).value_or(0.0);
    return end;
  }

  static std::optional<double> to_double(std::string_view text) {
    double value = 0.0;
    const auto result = std::from_chars(text.data(), text.data() + text.size(), value);
    if (result.ec != std::errc{} || result.ptr != text.data() + text.size()) return std::nullopt;
    return value;
  }

  bool read_number(Number& number) {
    const bool starts =
        !at_end() &&
        (is_digit(peek()) || (peek() == '.' && at_ + 1 < text_.size() && is_digit(text_[at_ + 1])));
    if (!starts) {
      return refuse(shown_ + " does not begin with a number",
                    fmt::format("write {}", wording(dimension_).examples));
    }
    double numerator = 0.0;
    double denominator = 0.0;
    if (const std::size_t end = fraction_at(at_, numerator, denominator)) {
      if (denominator == 0.0) return refuse(shown_ + " divides by zero", "mend the fraction");
      number.value = numerator / denominator;
      at_ = end;
      return true;
    }
    const char* begin = text_.data() + at_;
    const auto result = std::from_chars(begin, text_.data() + text_.size(), number.value);
    const std::string_view written(begin, static_cast<std::size_t>(result.ptr - begin));
    if (result.ec == std::errc::result_out_of_range) {
      return refuse(shown_ + " holds a number too large or too small to be read",
                    "check the number");
    }
    if (result.ec != std::errc{}) return refuse(shown_ + " holds no number", "check the number");
    at_ += written.size();
    if (written.find_first_of("eE") == std::string_view::npos) number.decimal = written;
    number.whole = written.find_first_not_of("0123456789") == std::string_view::npos;
    if (!at_end() && peek() == ',') {
      return refuse(
          shown_ + " has a comma in its number",
          "write decimals with a point (\"2.4\") and thousands without a mark (\"2400\")");
    }
    if (!number.whole) return true;
    // A whole number and a fraction: 10 1/2.
    std::size_t next = at_;
    while (next < text_.size() && is_space(text_[next])) ++next;
    if (next == at_) return true;
    if (const std::size_t end = fraction_at(next, numerator, denominator)) {
      if (denominator == 0.0) return refuse(shown_ + " divides by zero", "mend the fraction");
      if (numerator >= denominator) {
        return refuse(shown_ + " has a fraction that is not below one", "mend the fraction");
      }
      number.value += numerator / denominator;
      number.decimal = {};
      number.whole = false;
      at_ = end;
    }
    return true;
  }

  /// The longest unit that stands here, of the wanted dimension or of any.
  [[nodiscard]] const Unit* longest_unit(bool any_dimension) const {
    const Unit* best = nullptr;
    for (const Unit& unit : units()) {
      if (!any_dimension && unit.dimension != dimension_) continue;
      if (!text_.substr(at_).starts_with(unit.name)) continue;
      const std::size_t end = at_ + unit.name.size();
      if (end < text_.size() && is_letter(unit.name.back()) &&
          (is_letter(text_[end]) || text_[end] == '/' ||
           static_cast<unsigned char>(text_[end]) >= 0x80)) {
        continue;
      }
      if (best == nullptr || unit.name.size() > best->name.size()) best = &unit;
    }
    return best;
  }

  const Unit* read_unit() {
    // A longer unit of another dimension ("kg/m3" where "kg" is wanted) must not be cut short.
    const Unit* here = longest_unit(false);
    const Unit* anywhere = longest_unit(true);
    const auto& words = wording(dimension_);
    if (here != nullptr && here->name.size() >= anywhere->name.size()) {
      at_ += here->name.size();
      return here;
    }
    if (anywhere != nullptr) {
      const auto& other = wording(anywhere->dimension);
      refuse(fmt::format("{} is a unit of {}, not of {}", quote(anywhere->name), other.name,
                         words.name),
             fmt::format("write {}", words.examples));
      return nullptr;
    }
    std::size_t end = at_;
    while (end < text_.size() && !is_space(text_[end]) && !is_digit(text_[end])) ++end;
    if (end == at_) end = text_.size();
    const std::string_view found = text_.substr(at_, end - at_);
    for (const Ambiguous& ambiguous : ambiguous_units()) {
      if (found != ambiguous.name) continue;
      if (ambiguous.dimension == dimension_) {
        refuse(fmt::format("{} is ambiguous: {}", quote(found), ambiguous.why),
               std::string(ambiguous.remedy));
        return nullptr;
      }
    }
    std::vector<std::string_view> names;
    for (const Unit& unit : units()) {
      if (unit.dimension == dimension_ && is_letter(unit.name.front())) names.push_back(unit.name);
    }
    const std::string_view near = nearest_word(found, names);
    std::string remedy = near.empty() ? std::string() : fmt::format("did you mean \"{}\"? ", near);
    refuse(fmt::format("{} is not a unit of {}", quote(found), words.name),
           remedy + fmt::format("use {}", words.units));
    return nullptr;
  }

  /// The value in base units; a plain decimal is rounded once only.
  static double scaled(const Number& number, const Unit& unit) {
    if (unit.shift == 0) return number.value * unit.factor;
    if (unit.factor == 1.0 && !number.decimal.empty()) {
      const auto shifted = to_double(fmt::format("{}e{}", number.decimal, unit.shift));
      if (shifted) return *shifted;
    }
    const double power = std::pow(10.0, std::abs(unit.shift));
    const double product = number.value * unit.factor;
    return unit.shift > 0 ? product * power : product / power;
  }

  /// How many of the unit that may follow make one: 12 inches a foot, 14 pounds a stone; else 0.
  [[nodiscard]] static double smaller_per_unit(const Unit& unit) {
    if (is_feet(unit)) return 12.0;
    if (unit.dimension == Dimension::mass && unit.name.starts_with("st")) return 14.0;
    return 0.0;
  }

  std::string_view text_;
  std::string shown_;
  Dimension dimension_;
  std::size_t at_ = 0;
  Outcome out_;
};

}  // namespace

bool is_feet(const Unit& unit) {
  return unit.dimension == Dimension::length && unit.factor == 3048.0;
}
bool is_inches(const Unit& unit) {
  return unit.dimension == Dimension::length && unit.factor == 254.0;
}
std::string plain(std::string_view text) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 20> replacements{{
      {"²", "2"},      {"³", "3"},      {"−", "-"},    {"–", "-"},    {"—", "-"},
      {"’", "'"},      {"′", "'"},      {"”", "\""},   {"″", "\""},   {"\u00a0", " "},
      {"\u202f", " "}, {"\u2009", " "}, {"½", " 1/2"}, {"¼", " 1/4"}, {"¾", " 3/4"},
      {"⅛", " 1/8"},   {"⅜", " 3/8"},   {"⅝", " 5/8"}, {"⅞", " 7/8"}, {"º", "°"},
  }};
  std::string result;
  while (!text.empty()) {
    std::size_t taken = 0;
    for (const auto& [from, to] : replacements) {
      if (text.starts_with(from)) {
        result += to;
        taken = from.size();
        break;
      }
    }
    if (taken == 0) {
      result += text.front();
      taken = 1;
    }
    text.remove_prefix(taken);
  }
  const std::size_t first = result.find_first_not_of(" \t");
  if (first == std::string::npos) return {};
  return result.substr(first, result.find_last_not_of(" \t") - first + 1);
}

Outcome read_one(std::string_view text, std::string_view shown, Dimension dimension) {
  return Reader(text, shown, dimension).read();
}

}  // namespace underprop::detail
