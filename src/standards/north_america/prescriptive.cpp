#include "prescriptive.hpp"

#include "catalog/table.hpp"
#include "underprop/base/format.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <stdexcept>

namespace underprop::standards::north_america {

namespace {

using nlohmann::json;

Citation row_source(const json& table) {
  const json& s = table.at("source");
  return {s.at("key").get<std::string>(), s.at("where").get<std::string>()};
}
std::vector<double> numbers(const json& list) { return list.get<std::vector<double>>(); }

/// To the last digit of a length that was recorded as the row prints it.
bool within(Length length, double most_in) { return in_inches(length) <= most_in * (1.0 + 1e-9); }
bool reaches(Length length, double least_in) {
  return in_inches(length) >= least_in * (1.0 - 1e-9);
}
std::optional<std::size_t> place_of(const json& list, const std::string& name) {
  for (std::size_t k = 0; k < list.size(); ++k) {
    if (list[k] == name) return k;
  }
  return std::nullopt;
}
bool has(const json& list, const std::string& name) { return place_of(list, name).has_value(); }
/// "2x8" as dressed: 1.5 by 7.25 in.
struct Section {
  double breadth = 0.0, depth = 0.0;
};
Section dressed(const std::string& nominal) {
  const auto x = nominal.find('x');
  const int thick = std::stoi(nominal.substr(0, x)), wide = std::stoi(nominal.substr(x + 1));
  return {thick - 0.5, wide <= 6 ? wide - 0.5 : wide - 0.75};
}
/// Of a table by the joists' span: the first column that is not less. None: beyond its last.
std::optional<std::size_t> column_of(const std::vector<double>& feet, Length span) {
  for (std::size_t k = 0; k < feet.size(); ++k) {
    if (within(span, 12.0 * feet[k])) return k;
  }
  return std::nullopt;
}
std::string feet_and_inches(double inches_long) {
  return format_length(inches(inches_long), UnitSystem::us_customary);
}

class Rows final : public PrescriptiveTables {
public:
  explicit Rows(const Tables& tables)
      : tables_(tables), data_(catalog::table("north_america/prescriptive.json")) {}

  [[nodiscard]] bool covers(const PrescriptiveBasis& basis) const override {
    const json& assumed = data_.at("assumed");
    return in_psf(basis.people) <= assumed.at("live_psf").get<double>() * (1.0 + 1e-9) &&
           in_psf(basis.snow) <= assumed.at("snow_psf").get<double>() * (1.0 + 1e-9) &&
           within(basis.boards, assumed.at("boards_in").get<double>());
  }
  [[nodiscard]] double most_use() const override {
    return data_.at("most_use").at("value").get<double>();
  }

  [[nodiscard]] std::optional<DeemedToSatisfy> joist(const PrescriptiveJoist& j) const override {
    const json& table = data_.at("joists");
    const std::string group = group_of(j.timber);
    const std::vector<double> spacings = numbers(table.at("spacing_in"));
    if (group.empty() || !reaches(j.seat, table.at("least_seat_in").get<double>()))
      return std::nullopt;
    const auto spacing =
        std::ranges::find_if(spacings, [&](double most_in) { return within(j.spacing, most_in); });
    if (spacing == spacings.end() || !overhangs(j.clear_span, j.overhang, table))
      return std::nullopt;
    const auto k = static_cast<std::size_t>(spacing - spacings.begin());
    for (const json& row : table.at("rows")) {
      const std::string size = row.at("size");
      if (row.at("species") != group || !is(size, j.breadth, j.depth)) continue;
      const double span = row.at("span_in")[k];
      if (!within(j.clear_span, span) ||
          !within(j.overhang, row.at("overhang_in")[k].get<double>()))
        return std::nullopt;
      return DeemedToSatisfy{row_source(table), species(j.timber) + " " + size + " at " +
                                                    feet_and_inches(*spacing) + ": " +
                                                    feet_and_inches(span)};
    }
    return std::nullopt;
  }

  [[nodiscard]] std::optional<DeemedToSatisfy> beam(const PrescriptiveBeam& b) const override {
    const json& table = data_.at("beams");
    const auto column = column_of(numbers(table.at("joist_span_ft")), b.joist_span);
    if (!column || group_of(b.timber).empty() ||
        !reaches(b.seat, table.at("least_seat_in").get<double>()) ||
        !overhangs(b.span, b.overhang, table) ||
        !overhangs(b.joist_span, b.joist_overhang, data_.at("joists")))
      return std::nullopt;
    const bool pine = species(b.timber) == "Southern Pine";
    if (!pine && !has(table.at("other_species"), species(b.timber))) return std::nullopt;
    for (const json& row : table.at("rows")) {
      if ((row.at("species") == "Southern Pine") != pine) continue;
      const std::string name = row.at("beam");
      const auto dash = name.find('-');
      const int plies = dash == std::string::npos ? 1 : std::stoi(name);
      const std::string size = dash == std::string::npos ? name : name.substr(dash + 1);
      if (plies != b.plies || !is(size, b.ply_breadth, b.depth)) continue;
      const double span = row.at("span_in")[*column];
      if (!within(b.span, span)) return std::nullopt;
      return DeemedToSatisfy{
          row_source(table),
          species(b.timber) + " " + name + " under joists of " +
              feet_and_inches(12.0 * table.at("joist_span_ft")[*column].get<double>()) + ": " +
              feet_and_inches(span)};
    }
    return std::nullopt;
  }

  [[nodiscard]] std::optional<DeemedToSatisfy> post(const PrescriptivePost& p) const override {
    const json& table = data_.at("posts_and_footings");
    const json* row = row_of(p.from);
    if (row == nullptr || group_of(p.timber).empty()) return std::nullopt;
    const Section least = dressed(table.at("post"));
    if (!reaches(min(p.breadth, p.depth), least.breadth)) return std::nullopt;
    std::string name = species(p.timber);
    if (table.at("as_species").contains(name)) name = table.at("as_species").at(name);
    const json& columns = table.at("post_species");
    const auto column = place_of(columns, name);
    if (!column) return std::nullopt;
    const double high = 12.0 * row->at("post_height_ft")[*column].get<double>();
    if (!within(p.height, high)) return std::nullopt;
    return DeemedToSatisfy{row_source(table), species(p.timber) + " 6x6, " + covered(*row) + ": " +
                                                  feet_and_inches(high) + " tall"};
  }

  [[nodiscard]] std::optional<DeemedToSatisfy> footing(
      const PrescriptiveFooting& f) const override {
    const json& table = data_.at("posts_and_footings");
    const json* row = row_of(f.from);
    const double soil_psf = data_.at("assumed").at("soil_psf");
    // What the presumed tables give a bedded footing on that soil.
    const double allowed = tables_.soil(f.soil).bedded[static_cast<std::size_t>(f.outlook)];
    if (row == nullptr || !(allowed >= soil_psf) ||
        !reaches(f.depth, tables_.bedded_from_in.value) ||
        !within(abs(f.offset), table.at("most_offset_in").get<double>()))
      return std::nullopt;
    const double square = row->at("square_in"), thick = row->at("thickness_in");
    if (!reaches(min(f.width, f.length), square) || !reaches(f.thickness, thick))
      return std::nullopt;
    return DeemedToSatisfy{row_source(table), "footing, " + covered(*row) + ": " +
                                                  feet_and_inches(square) + " square, " +
                                                  feet_and_inches(thick) + " thick"};
  }

  [[nodiscard]] std::optional<DeemedToSatisfy> ledger(const PrescriptiveLedger& l) const override {
    const json& table = data_.at("ledger_fixings");
    const auto column = column_of(numbers(table.at("joist_span_ft")), l.joist_span);
    if (!column || !reaches(l.depth, dressed(table.at("least_ledger")).depth) || !edges(l) ||
        !overhangs(l.joist_span, l.joist_overhang, data_.at("joists")))
      return std::nullopt;
    const char* const fixing = l.lag_screws ? "lag screw" : "bolt";
    for (const json& row : table.at("rows")) {  // the thickest band first
      if (row.at("fixing") != fixing || !reaches(l.band, row.at("band_in").get<double>()) ||
          !reaches(l.diameter, row.at("diameter_in").get<double>()))
        continue;
      const double spacing = row.at("spacing_in")[*column];
      if (!within(l.spacing, spacing)) return std::nullopt;
      return DeemedToSatisfy{
          row_source(table),
          std::string("1/2 in ") + fixing + " in a band of " +
              feet_and_inches(row.at("band_in").get<double>()) + ", joists of " +
              feet_and_inches(12.0 * table.at("joist_span_ft")[*column].get<double>()) +
              ": every " + feet_and_inches(spacing)};
    }
    return std::nullopt;
  }

  [[nodiscard]] std::optional<DeemedToSatisfy> hanger(const PrescriptiveHanger& h) const override {
    const json& table = data_.at("hangers");
    if (!reaches(h.seat, data_.at("joists").at("least_seat_in").get<double>())) return std::nullopt;
    for (const auto& [size, least] : table.at("least_lb").items()) {
      if (!is(size, h.joist_breadth, h.joist_depth)) continue;
      if (!(in_pounds_force(h.stated) >= least.get<double>() * (1.0 - 1e-9))) return std::nullopt;
      return DeemedToSatisfy{row_source(table), "hanger of a " + size + ": " +
                                                    format_force(pounds_force(least.get<double>()),
                                                                 UnitSystem::us_customary)};
    }
    return std::nullopt;
  }

private:
  [[nodiscard]] std::string species(const Timber& timber) const {
    for (const GradeRow& row : tables_.grades) {
      if (row.name == timber.name) return row.species;
    }
    return {};
  }
  /// The species' group where the grade is No.2 or better and it is incised only if the table says so;
  /// else nothing.
  [[nodiscard]] std::string group_of(const Timber& timber) const {
    for (const GradeRow& row : tables_.grades) {
      if (row.name != timber.name) continue;
      const json& grades = data_.at("assumed").at("grades");
      if (!has(grades, row.grade)) return {};
      for (const json& group : data_.at("species")) {
        const json& names = group.at("names");
        if (!has(names, row.species)) continue;
        if (timber.incised && !group.at("incised_allowed").get<bool>()) return {};
        return group.at("group");
      }
    }
    return {};
  }
  /// That size as dressed, or more of it.
  static bool is(const std::string& nominal, Length breadth, Length depth) {
    const Section section = dressed(nominal);
    return reaches(breadth, section.breadth) && within(breadth, section.breadth + 0.25) &&
           reaches(depth, section.depth) && within(depth, section.depth + 0.25);
  }
  static bool overhangs(Length span, Length overhang, const json& table) {
    return within(overhang, in_inches(span) * table.at("overhang_of_span").get<double>());
  }
  /// The first row of posts and footings that covers what comes down.
  [[nodiscard]] const json* row_of(const PrescriptiveTributary& from) const {
    const json& table = data_.at("posts_and_footings");
    if (!overhangs(from.beam_span, from.beam_overhang, data_.at("beams")) ||
        !overhangs(from.joist_span, from.joist_overhang, data_.at("joists")))
      return nullptr;
    for (const json& row : table.at("rows")) {
      if (within(from.beam_span, 12.0 * row.at("beam_span_ft").get<double>()) &&
          within(from.joist_span, 12.0 * row.at("joist_span_ft").get<double>()))
        return &row;
    }
    return nullptr;
  }
  static std::string covered(const json& row) {
    return "beam of " + feet_and_inches(12.0 * row.at("beam_span_ft").get<double>()) +
           ", joists up to " + feet_and_inches(12.0 * row.at("joist_span_ft").get<double>());
  }
  /// Edges and rows of the fixings, IRC Table R507.9.1.3(2).
  [[nodiscard]] bool edges(const PrescriptiveLedger& l) const {
    if (l.heights.empty()) return false;
    std::vector<Length> rows = l.heights;
    std::ranges::sort(rows);
    const json& e = data_.at("ledger_fixings").at("edges_in");
    if (!reaches(rows.front(), e.at("bottom").get<double>()) ||
        !reaches(l.depth - rows.back(), e.at("top").get<double>()))
      return false;
    for (std::size_t k = 1; k < rows.size(); ++k) {
      const Length apart = rows[k] - rows[k - 1];
      if (!reaches(apart, e.at("rows_least").get<double>()) ||
          !within(apart, e.at("rows_most").get<double>()))
        return false;
    }
    return true;
  }

  const Tables& tables_;
  const json& data_;
};

}  // namespace

std::unique_ptr<PrescriptiveTables> prescriptive_tables(const Tables& tables) {
  return std::make_unique<Rows>(tables);
}

}  // namespace underprop::standards::north_america
