// Where the load can stand and how much the deck takes, for the terminal and the HTML report.
#include "base/rounded.hpp"
#include "drawing.hpp"
#include "html_parts.hpp"
#include "layout.hpp"
#include "markup.hpp"
#include "underprop/base/geometry.hpp"
#include "underprop/deck/pieces.hpp"
#include "words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace underprop::report {

using placement::Placement;
using placement::Spot;

namespace {

std::string place_words(const Spot& spot, UnitSystem units, double as_recorded) {
  std::string text = fmt::format("centre {} along x and {} along y from corner A",
                                 format_measured(spot.centre.x, units, Rounded::nearest),
                                 format_measured(spot.centre.y, units, Rounded::nearest));
  if (spot.rotation_deg != as_recorded)
    text += fmt::format(", turned by {:.0f} degrees", spot.rotation_deg - as_recorded);
  return text;
}

std::string outcome(const Spot& spot) {
  if (spot.refers)
    return "a structural engineer must judge it" + (spot.why.empty() ? "" : ": " + spot.why);
  if (spot.passes)
    return fmt::format("checks pass here (closest: {}, {}, {})", spot.piece, spot.check,
                       shown_utilisation(spot.utilisation));
  if (assessment::fails(spot.utilisation)) {
    if (std::isinf(spot.utilisation)) return "a piece is loose here";
    return fmt::format("checks fail here ({}{}, {}, {})", spot.at_least ? "one of them " : "",
                       spot.piece, spot.check, shown_utilisation(spot.utilisation));
  }
  return fmt::format("strong enough here, but it sags or tilts too far ({})",
                     shown_utilisation(spot.service));
}

/// Label and text, for both surfaces.
std::vector<std::pair<std::string, std::string>> lines(const Report& report) {
  const Placement& p = *report.placement;
  const UnitSystem units = units_of(report.survey);
  const double rotation =
      report.survey.loads.empty() ? 0.0 : report.survey.loads.front().rotation_deg;
  std::vector<std::pair<std::string, std::string>> out;
  if (p.why_not == "no load is recorded") {
    out.emplace_back("No place", p.why_not);
    return out;
  }
  out.emplace_back("As recorded", outcome(p.wanted));
  if (!p.why_not.empty()) out.emplace_back("No other", p.why_not);
  if (!p.spots.empty()) {
    out.emplace_back("Looked at",
                     fmt::format("{} places, {} apart{}; checks pass at {}", p.spots.size(),
                                 format_measured(p.step, units, Rounded::nearest),
                                 p.spots.back().rotation_deg != rotation ? ", two ways round" : "",
                                 p.passing > 0 ? std::to_string(p.passing) : "none of them"));
  }
  if (p.best && p.best->passes) {
    out.emplace_back("Best place", place_words(*p.best, units, rotation) + ": " + outcome(*p.best));
  } else if (p.best) {
    out.emplace_back("Least bad", place_words(*p.best, units, rotation) + ": " + outcome(*p.best));
  }
  if (p.nearest_passing && !p.wanted.passes)
    out.emplace_back("Nearest", place_words(*p.nearest_passing, units, rotation) + ": " +
                                    outcome(*p.nearest_passing));
  const placement::Capacity& c = p.capacity;
  const auto limited = [](const std::string& by) {
    if (by == "deck, equilibrium") return std::string("; a piece is loose");
    return by.empty() ? std::string() : "; then " + by;
  };
  const bool metric = units == UnitSystem::metric;
  if (c.water_full && *c.water_full) {
    out.emplace_back("Water", "as full as recorded, with the people recorded");
  } else if (c.water_full) {
    out.emplace_back("Water", c.water_l
                                  ? (metric ? fmt::format("up to {:.0f} litres", *c.water_l)
                                            : fmt::format("up to {:.0f} US gallons",
                                                          std::floor(*c.water_l / 3.785411784))) +
                                        " with the people recorded" + limited(c.water_limited_by)
                                  : "none: not even empty" + limited(c.water_limited_by));
  }
  if (c.people || !c.people_limited_by.empty()) {
    out.emplace_back("People",
                     c.people ? fmt::format("up to {} with the contents recorded", *c.people) +
                                    limited(c.people_limited_by)
                              : "none with the contents recorded" + limited(c.people_limited_by));
  }
  if (c.pressure_kPa || !c.pressure_limited_by.empty()) {
    out.emplace_back(
        "Pressure",
        c.pressure_kPa
            ? fmt::format(
                  "{} on its footprint, uniform and lasting, everything included",
                  metric ? fmt::format("{:.2f} kN/m2", *c.pressure_kPa)
                         : fmt::format("{:.0f} psf", std::floor(*c.pressure_kPa * 20.885434))) +
                  limited(c.pressure_limited_by)
            : "none" + limited(c.pressure_limited_by));
  }
  return out;
}

/// The map in characters: one row per place along y, the largest y on top.
void write_map(Page& page, const Placement& p, double rotation, const char* title) {
  std::map<long, std::map<long, const Spot*>> rows;
  const double step = p.step.value();
  long most = 0, least = 1L << 40;
  const double x0 = p.wanted.centre.x.value(), y0 = p.wanted.centre.y.value();
  for (const Spot& spot : p.spots) {
    if (spot.rotation_deg != rotation) continue;
    const double u = (spot.centre.x.value() - x0) / step, v = (spot.centre.y.value() - y0) / step;
    // Flush places stand between the steps: they are left to the other surfaces.
    if (std::abs(u - std::round(u)) > 1e-6 || std::abs(v - std::round(v)) > 1e-6) continue;
    const long i = std::lround(u), k = std::lround(v);
    rows[-k][i] = &spot;
    most = std::max(most, i);
    least = std::min(least, i);
  }
  if (rows.empty() || static_cast<std::size_t>(most - least + 1) > page.width() - 4) return;
  page.blank();
  page.paragraph(title);
  for (const auto& [minus_k, row] : rows) {
    std::string text = "  ";
    for (long i = least; i <= most; ++i) {
      const auto found = row.find(i);
      char mark = ' ';
      if (found != row.end()) mark = found->second->passes ? 'o' : '.';
      if (i == 0 && minus_k == 0 && found != row.end()) mark = found->second->passes ? 'O' : 'x';
      text += mark;
    }
    page.line(text);
  }
}

}  // namespace

std::string placement_text(const Report& report, int width) {
  Page page(width);
  page.paragraph(notice());
  page.blank();
  page.spread(
      "WHERE IT CAN STAND, AND HOW MUCH",
      fmt::format("{}, {}", report.survey.name.empty() ? "unnamed deck" : report.survey.name,
                  report.survey.recorded_on.empty() ? "no date" : report.survey.recorded_on));
  page.paragraph(
      "Judged on what you recorded, unknown facts at their cautious value. It has not seen your "
      "deck.");
  page.blank();
  for (const auto& [label, text] : lines(report)) page.labelled(label, text);
  if (report.placement->passing > 0) {
    const double rotation = report.survey.loads.front().rotation_deg;
    write_map(page, *report.placement, rotation,
              "Centre of the load, seen from above, x to the right: o checks pass, . they do not, "
              "O or x as recorded.");
    if (report.placement->spots.back().rotation_deg != rotation)
      write_map(page, *report.placement, report.placement->spots.back().rotation_deg,
                "The same, turned by a right angle.");
  }
  page.blank();
  page.paragraph(validity(report.survey));
  return page.text();
}

std::string placement_section(const Context& context) {
  Html html;
  const Placement& p = *context.report.placement;
  html.raw("<dl>\n");
  for (const auto& [label, text] : lines(context.report))
    html.element("dt", label).element("dd", text);
  html.raw("</dl>\n");
  if (p.passing == 0) return html.text();  // a map of nothing but failing places tells nothing
  std::vector<double> turns;
  for (const Spot& spot : p.spots) {
    if (std::find(turns.begin(), turns.end(), spot.rotation_deg) == turns.end())
      turns.push_back(spot.rotation_deg);
  }
  int number = 0;
  for (const double turn : turns) {
    html.raw("<figure>\n" + placement_drawing(context.deck, p, turn,
                                              fmt::format("places-{}", ++number), context.units));
    html.element(
        "figcaption",
        std::string(number == 1 ? "The load as recorded." : "The load turned by a right angle.") +
            " Each mark is a place of its centre: a square where every check passes, the darker "
            "the nearer to a limit; a dot where one fails. Dash-dotted: the load as recorded.");
    html.raw("</figure>\n");
  }
  return html.text();
}

}  // namespace underprop::report
