// Sizes as people say them, resolved by region and finish.
#include "record/spoken_size.hpp"

#include "sizes.hpp"

#include "spoken.hpp"

#include "catalog/table.hpp"
#include "underprop/base/format.hpp"
#include "underprop/base/input_error.hpp"
#include "underprop/base/units.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <array>
#include <charconv>
#include <cmath>
#include <map>
#include <optional>
#include <stdexcept>

namespace underprop::record {
namespace {

// Up to here a bare number is inches, above it millimetres: no timber is 17 in. or 16 mm thick.
constexpr double most_inches = 16.0;

enum class Finish { unsaid, sawn, regularised, planed, measured };

constexpr std::pair<std::string_view, Finish> finish_words[] = {
    {"sawn", Finish::sawn},
    {"rough", Finish::sawn},
    {"full", Finish::sawn},
    {"regularised", Finish::regularised},
    {"regularized", Finish::regularised},
    {"eased", Finish::regularised},
    {"planed", Finish::planed},
    {"par", Finish::planed},
    {"pse", Finish::planed},
    {"dressed", Finish::planed},
    {"s4s", Finish::planed},
    {"smooth", Finish::planed},
    {"ex", Finish::planed},
    {"measured", Finish::measured},
    {"actual", Finish::measured},
    {"true", Finish::measured}};
// Words that say nothing of the size.
constexpr std::string_view other_words[] = {"pt",     "treated",  "pressure",  "pressure-treated",
                                            "kd",     "dry",      "green",     "timber",
                                            "lumber", "joist",    "joists",    "post",
                                            "posts",  "softwood", "tanalised", "carcassing"};

std::map<double, Length> table(const char* name) {
  std::map<double, Length> rows;
  const auto& values = catalog::table("eurocode/sizes.json").at(name).at("values");
  for (const auto& [key, value] : values.items()) rows[std::stod(key)] = mm(value.get<double>());
  return rows;
}
const std::map<double, Length>& machined() {  // sawn mm to machined
  static const std::map<double, Length> rows = table("target_sizes");
  return rows;
}
const std::map<double, Length>& sawn_of_inches() {
  static const std::map<double, Length> rows = table("inches");
  return rows;
}

SpokenSize asked_back(std::string problem, std::string remedy) {
  SpokenSize size;
  size.problem = std::move(problem);
  size.remedy = std::move(remedy);
  return size;
}

SpokenSize taken(Fact<Length> a, Fact<Length> b, std::string how) {
  SpokenSize size;
  size.understood = true;
  if (b.low() < a.low()) std::swap(a, b);
  size.breadth = a;
  size.depth = b;
  size.how = std::move(how);
  return size;
}

/// One side as said: the number, whether it was whole, and the unit if there was one.
struct Side {
  bool read = false, has_unit = false, inches = false, whole = false;
  double number = 0.0;  ///< without unit, or in its unit
  Fact<Length> length;
  std::string problem, remedy;
};

Side side_of(const std::string& text) {
  Side side;
  const std::size_t unit = text.find_first_not_of("0123456789. /-");
  const bool bare = unit == std::string::npos;
  const auto range = parse_range<Length>(bare ? text + " mm" : text);
  if (!range) {
    side.problem = range.problem;
    side.remedy = range.remedy;
    return side;
  }
  side.read = true;
  side.has_unit = !bare;
  side.length = range.value->low == range.value->high
                    ? Fact<Length>(range.value->low)
                    : Fact<Length>::range(range.value->low, range.value->high);
  side.inches =
      !bare && (text.find("in") != std::string::npos || text.find('"') != std::string::npos);
  const double value = range.value->low.value();
  side.number = side.inches ? value / inches(1.0).value() : value;
  side.whole = side.length.is_value() && std::abs(side.number - std::round(side.number)) < 1e-9;
  return side;
}

std::string both(Length a, Length b) {
  const auto low = min(a, b), high = max(a, b);
  return fmt::format("{} x {}", format_decimals(low.value(), 1),
                     format_length(high, UnitSystem::metric));
}

SpokenSize british(double a, double b, bool from_inches, Finish finish, const std::string& plain) {
  const auto& steps = from_inches ? sawn_of_inches() : machined();
  if (!steps.contains(a) || !steps.contains(b)) {
    return asked_back(fmt::format("\"{}\" is no size the trade sells", plain),
                      "measure both sides and write \"47 x 195 mm measured\"");
  }
  const Length sawn_a = from_inches ? steps.at(a) : mm(a);
  const Length sawn_b = from_inches ? steps.at(b) : mm(b);
  if (finish == Finish::sawn) return taken(sawn_a, sawn_b, "as sold, sawn");
  const Length small_a = machined().at(sawn_a.value()), small_b = machined().at(sawn_b.value());
  if (finish == Finish::unsaid && !from_inches) {
    return asked_back(
        fmt::format("\"{}\" may be what a tape shows, or what it is sold as", plain),
        fmt::format("say \"{0} measured\", \"{0} sawn\" ({1}) or \"{0} regularised\" ({2})", plain,
                    both(sawn_a, sawn_b), both(small_a, small_b)));
  }
  return taken(small_a, small_b,
               finish == Finish::unsaid
                   ? fmt::format("as sold; the finish was not said, so the smaller size counts; "
                                 "rough sawn faces would be {}: \"{} sawn\"",
                                 both(sawn_a, sawn_b), plain)
                   : "as sold, machined");
}

/// Breadth as a tape shows it, depth as timber is sold: "47x150" is mostly 47 x 145 mm.
std::optional<SpokenSize> half_sold(const Side& a, const Side& b, Finish finish,
                                    const std::string& plain) {
  if (finish != Finish::unsaid || !a.whole || !b.whole) return std::nullopt;
  const double depth = std::max(a.number, b.number), breadth = std::min(a.number, b.number);
  const auto sold = machined().find(depth);
  if (machined().contains(breadth) || sold == machined().end() || sold->second.value() == depth)
    return std::nullopt;
  return asked_back(
      fmt::format("\"{}\": a depth of {} mm may be what a tape shows, or the name of {} mm", plain,
                  format_decimals(depth, 1), format_decimals(sold->second.value(), 1)),
      fmt::format("put the tape on it: say \"{} measured\", or \"{}x{} measured\"", plain,
                  format_decimals(breadth, 1), format_decimals(sold->second.value(), 1)));
}

SpokenSize american(double a, double b, Finish finish, const std::string& plain) {
  if (a > b) std::swap(a, b);
  if (finish == Finish::sawn) return taken(inches(a), inches(b), "rough, full size");
  const auto dressed = dressed_size({static_cast<int>(a), static_cast<int>(b)});
  if (!dressed) {
    return asked_back(fmt::format("\"{}\" is no nominal size of the tables", plain),
                      "measure both sides and write \"1 1/2 x 7 1/4 in\"");
  }
  return taken(dressed->first, dressed->second, "as sold (nominal), dressed");
}

}  // namespace

SpokenSize spoken_size(std::string_view text, StandardId standard) {
  // Words first: what is left are two sides.
  Finish finish = Finish::unsaid;
  bool american_word = false;
  std::string rest;
  for (const std::string& word : split(lower(tidy(text)), ' ')) {
    bool known = false;
    for (const auto& [name, value] : finish_words) {
      if (word != name) continue;
      finish = value;
      american_word = american_word || word == "s4s" || word == "dressed";
      known = true;
    }
    for (const std::string_view other : other_words) known = known || word == other;
    if (!known) rest += (rest.empty() ? "" : " ") + (word == "by" ? std::string("x") : word);
  }
  for (char& c : rest) {
    if (c == '*') c = 'x';
  }
  const std::size_t cross = rest.find('x');
  if (cross == std::string::npos || rest.find('x', cross + 1) != std::string::npos) {
    return asked_back(quote(text) + " is not a breadth and a depth",
                      "write both with an x between: \"47 x 195 mm\", \"2x8\"");
  }
  std::string first = tidy(rest.substr(0, cross)), second = tidy(rest.substr(cross + 1));
  Side b = side_of(second);
  if (b.read && b.has_unit && first.find_first_not_of("0123456789. /-") == std::string::npos) {
    const std::size_t unit = second.find_first_not_of("0123456789. /-");
    first += " " + second.substr(unit);
  }
  const Side a = side_of(first);
  for (const Side* side : {&a, static_cast<const Side*>(&b)}) {
    if (!side->read) return asked_back(side->problem, side->remedy);
  }
  const std::string plain =
      fmt::format("{}x{}", format_decimals(a.number, 3), format_decimals(b.number, 3));
  const bool whole = a.whole && b.whole;
  const bool uk = standard == StandardId::eurocode_uk;
  if (a.has_unit != b.has_unit || a.inches != b.inches) {
    if (a.has_unit && b.has_unit) return taken(a.length, b.length, "as measured");
    return asked_back(quote(text) + ": only one side has a unit", "write the unit behind both");
  }
  const bool small = a.number <= most_inches && b.number <= most_inches;
  if (a.has_unit && !a.inches) {  // millimetres or centimetres said
    const bool sold = uk && finish != Finish::measured && whole && machined().contains(a.number) &&
                      machined().contains(b.number);
    if (sold) return british(a.number, b.number, false, finish, plain);
    if (uk) {
      if (const auto back = half_sold(a, b, finish, plain)) return *back;
    }
    return taken(a.length, b.length, "as measured");
  }
  if (a.has_unit) {  // inches said
    if (finish == Finish::measured || !whole) return taken(a.length, b.length, "as measured");
    if (uk) return british(a.number, b.number, true, finish, plain);
    if (finish != Finish::unsaid) return american(a.number, b.number, finish, plain);
    return asked_back(
        fmt::format("\"{} in\" may be what a tape shows, or what it is sold as", plain),
        fmt::format("say \"{0}\" (as sold, smaller) or \"{0} in measured\"", plain));
  }
  const bool fraction =
      first.find('/') != std::string::npos || second.find('/') != std::string::npos;
  if (fraction || (small && !whole && a.number < most_inches)) {
    if (uk && !fraction && sawn_of_inches().contains(a.number) &&
        sawn_of_inches().contains(b.number)) {
      return british(a.number, b.number, true, finish, plain);
    }
    return taken(inches(1.0) * a.number, inches(1.0) * b.number, "as measured, in inches");
  }
  if (small) {
    if (!uk) {
      if (finish == Finish::measured) {
        return taken(inches(a.number), inches(b.number), "as measured, in inches");
      }
      return american(a.number, b.number, finish, plain);
    }
    if (american_word) {
      return asked_back(
          fmt::format(
              "\"{}\" is a name of American lumber, and this deck is judged by British sizes",
              plain),
          fmt::format("say \"{0} regularised\" or \"{0} sawn\" for British timber, or measure it",
                      plain));
    }
    if (finish == Finish::measured) {
      return taken(inches(a.number), inches(b.number), "as measured, in inches");
    }
    return british(a.number, b.number, true, finish, plain);
  }
  if (!uk) {
    return asked_back(
        fmt::format("\"{}\" looks like millimetres, which are not sold by name here", plain),
        fmt::format("say \"{} mm\" if you measured it so, or the size it is sold as: \"2x8\"",
                    plain));
  }
  if (finish != Finish::measured && machined().contains(a.number) &&
      machined().contains(b.number)) {
    return british(a.number, b.number, false, finish, plain);
  }
  if (a.number <= most_inches || b.number <= most_inches) {
    return asked_back(fmt::format("\"{}\": one side looks like inches, the other like mm", plain),
                      "write the unit behind both");
  }
  if (const auto back = half_sold(a, b, finish, plain)) return *back;
  return taken(a.length, b.length, "as measured, in mm");
}

}  // namespace underprop::record
