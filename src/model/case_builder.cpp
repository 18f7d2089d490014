#include "case_builder.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::model {

using survey::Axis;
using survey::Polygon;

namespace {

double total_area(const std::vector<Polygon>& polygons) {
  double sum = 0.0;
  for (const Polygon& polygon : polygons) sum += survey::area(polygon).value();
  return sum;
}

/// Width of a polygon at one place across it; not at a corner's coordinate.
double width_at(const Polygon& polygon, Axis axis, double at) {
  double width = 0.0;
  for (const survey::Interval& interval :
       survey::line_intervals(polygon, survey::other(axis), mm(at))) {
    width += (interval.high - interval.low).value();
  }
  return width;
}

}  // namespace

void CaseBuilder::add(CaseKind kind, int load, int part, solver::LoadCase load_case) {
  out_.cases.push_back(std::move(load_case));
  out_.infos.push_back({kind, load, part});
}

Cases CaseBuilder::build() {
  self_weight();
  loads();
  imposed();
  free_ends();
  return std::move(out_);
}

double CaseBuilder::length_of(int member) const {
  // Nodes may stand within the station tolerance of their line's coordinate: the member's own length.
  const solver::Member& m = model_.frame.members[static_cast<std::size_t>(member)];
  const solver::Node& i = model_.frame.nodes[static_cast<std::size_t>(m.i)];
  const solver::Node& j = model_.frame.nodes[static_cast<std::size_t>(m.j)];
  return std::hypot(j.x - i.x, j.y - i.y);
}

double CaseBuilder::line_weight(const Line& line, double area, double density,
                                solver::LoadCase& into) const {
  double total = 0.0;
  const double q = -density * standard_gravity_N_per_kg * area;
  for (std::size_t k = 0; k < line.members.size(); ++k) {
    if (line.members[k] < 0) continue;
    const double length = length_of(line.members[k]);
    into.line.push_back({line.members[k], q, q, 0.0, length});
    total += q * length;
  }
  return total;
}

void CaseBuilder::self_weight() {
  solver::LoadCase load_case;
  load_case.id = "self-weight";
  const double density = properties_.wet_density;
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    double area = (deck_.joists[j].breadth * deck_.joists[j].depth).value();
    for (const auto& sister : deck_.joists[j].sisters)
      area += (sister.breadth * sister.depth).value();
    line_weight(model_.joists[j], area, density, load_case);
  }
  for (std::size_t b = 0; b < deck_.bearers.size(); ++b) {
    const auto& bearer = deck_.bearers[b];
    line_weight(model_.bearers[b], (bearer.ply_breadth * bearer.depth).value() * bearer.plies,
                density, load_case);
  }
  for (std::size_t l = 0; l < model_.ledgers.size(); ++l) {
    const auto& ledger = deck_.ledgers[l];
    line_weight(model_.ledgers[l], (ledger.breadth * ledger.depth).value(), density, load_case);
  }
  const double board_area = (deck_.boards.width * deck_.boards.thickness).value();
  for (const Line& board : model_.boards) {
    line_weight(board, board_area, properties_.board_density, load_case);
  }
  // Rims and blocking weigh on the joists they are fixed to.
  for (const survey::SettledRim& rim : deck_.rims) {
    std::vector<std::size_t> of_group;
    for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
      if (deck_.joists[j].group == rim.group && !model_.joists[j].nodes.empty())
        of_group.push_back(j);
    }
    if (of_group.empty()) continue;
    double low = 1e300, high = -1e300;
    for (const std::size_t j : of_group) {
      low = std::min(low, deck_.joists[j].position.value());
      high = std::max(high, deck_.joists[j].position.value());
    }
    const double weight = density * standard_gravity_N_per_kg * (rim.breadth * rim.depth).value() *
                          std::max(high - low, 0.0) / static_cast<double>(of_group.size());
    for (const std::size_t j : of_group) {
      solver::NodalLoad load;
      load.node = rim.at_start ? model_.joists[j].nodes.front() : model_.joists[j].nodes.back();
      load.Fz = -weight;
      load_case.nodal.push_back(load);
    }
  }
  add(CaseKind::self_weight, -1, -1, std::move(load_case));
}

void CaseBuilder::lay_on_board(solver::LoadCase& load_case, std::size_t board,
                               const Polygon& polygon, double pressure) const {
  const Axis across = plan_.across();
  const Line& line = model_.boards[board];
  const BoardPlace& place = plan_.boards()[board];
  const Polygon part =
      survey::clip_strip(survey::clip_strip(polygon, plan_.along(), mm(place.low), mm(place.high)),
                         across, mm(place.from), mm(place.to));
  if (part.size() < 3 || survey::area(part).value() <= 0.0) return;
  std::vector<double> breaks;
  for (const survey::Point corner : part) breaks.push_back(survey::along(corner, across).value());
  for (const double at : line.at) breaks.push_back(at);
  std::sort(breaks.begin(), breaks.end());
  breaks.erase(
      std::unique(breaks.begin(), breaks.end(), [](double a, double b) { return b - a < 1e-9; }),
      breaks.end());
  for (std::size_t k = 0; k + 1 < breaks.size(); ++k) {
    const double a = breaks[k], b = breaks[k + 1];
    // Between corners the width is linear: two inner places give it exactly.
    const double w1 = width_at(part, across, a + (b - a) / 3.0);
    const double w2 = width_at(part, across, a + 2.0 * (b - a) / 3.0);
    const double q1 = -pressure * (2.0 * w1 - w2), q2 = -pressure * (2.0 * w2 - w1);
    if (q1 == 0.0 && q2 == 0.0) continue;
    const double middle = 0.5 * (a + b);
    const auto above = std::upper_bound(line.at.begin(), line.at.end(), middle);
    if (above == line.at.begin() || above == line.at.end()) {
      // Within 20 mm of a board's end there is no member: the end node takes it.
      solver::NodalLoad load;
      load.node = above == line.at.begin() ? line.nodes.front() : line.nodes.back();
      load.Fz = 0.5 * (q1 + q2) * (b - a);
      load_case.nodal.push_back(load);
      continue;
    }
    const auto segment = static_cast<std::size_t>(above - line.at.begin()) - 1;
    const double from = std::max(a - line.at[segment], 0.0);
    const double to = std::min(b - line.at[segment], length_of(line.members[segment]));
    if (to > from) load_case.line.push_back({line.members[segment], q1, q2, from, to});
  }
}

solver::LoadCase CaseBuilder::soft(const std::string& id, const std::vector<Polygon>& polygons) {
  solver::LoadCase load_case;
  load_case.id = id;
  const double area = total_area(polygons);
  if (area <= 0.0) return load_case;
  for (std::size_t board = 0; board < model_.boards.size(); ++board) {
    for (const Polygon& polygon : polygons) lay_on_board(load_case, board, polygon, 1.0 / area);
  }
  double total = 0.0;
  for (const auto& load : load_case.line) total += 0.5 * (load.q1 + load.q2) * (load.b - load.a);
  for (const auto& load : load_case.nodal) total += load.Fz;
  if (total < 0.0) {
    // Slivers at slanted edges that no board reaches: the rest carries them.
    const double scale = -1.0 / total;
    for (auto& load : load_case.line) {
      load.q1 *= scale;
      load.q2 *= scale;
    }
    for (auto& load : load_case.nodal) load.Fz *= scale;
  }
  return load_case;
}

solver::LoadCase CaseBuilder::stiff(const std::string& id, std::size_t load,
                                    const std::vector<Polygon>& polygons) {
  solver::LoadCase load_case;
  load_case.id = id;
  const double area = total_area(polygons);
  if (area <= 0.0) return load_case;
  const solver::Plate& plate = model_.frame.plates[load];
  solver::NodalLoad nodal;
  nodal.plate = static_cast<int>(load);
  nodal.Fz = -1.0;
  double x = 0.0, y = 0.0;
  for (const Polygon& polygon : polygons) {
    const survey::Point c = survey::centroid(polygon);
    const double share = survey::area(polygon).value() / area;
    x += share * c.x.value();
    y += share * c.y.value();
  }
  // A force Fz at (x, y): Mx = (y - yp) Fz, My = -(x - xp) Fz.
  nodal.Mx = (y - plate.y) * nodal.Fz;
  nodal.My = -(x - plate.x) * nodal.Fz;
  load_case.nodal.push_back(nodal);
  return load_case;
}

void CaseBuilder::loads() {
  for (std::size_t l = 0; l < deck_.loads.size(); ++l) {
    const survey::SettledLoad& load = deck_.loads[l];
    const std::vector<Polygon> contact = Plan::contact_of(load);
    const std::string name = "load " + std::to_string(l + 1);
    const auto put = [&](CaseKind kind, int part, const std::string& id,
                         const std::vector<Polygon>& polygons) {
      add(kind, static_cast<int>(l), part,
          bounds_.stiff_shell ? stiff(id, l, polygons) : soft(id, polygons));
    };
    put(CaseKind::whole, -1, name, contact);
    if (load.people <= 0) continue;
    const auto cut = [&](int sx, int sy) {
      std::vector<Polygon> parts;
      for (Polygon polygon : contact) {
        if (sx != 0) polygon = survey::clip_half_plane(polygon, Axis::x, load.centre.x, sx > 0);
        if (sy != 0) polygon = survey::clip_half_plane(polygon, Axis::y, load.centre.y, sy > 0);
        if (survey::area(polygon).value() > 1.0) parts.push_back(std::move(polygon));
      }
      // Where no foot stands in that part, the people's weight goes to the whole base.
      return parts.empty() ? contact : parts;
    };
    const int half[4][2] = {{-1, 0}, {1, 0}, {0, -1}, {0, 1}};
    const int quarter[4][2] = {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}};
    for (int k = 0; k < 4; ++k) {
      put(CaseKind::half, k, name + " half " + std::to_string(k), cut(half[k][0], half[k][1]));
    }
    for (int k = 0; k < 4; ++k) {
      put(CaseKind::quarter, k, name + " quarter " + std::to_string(k),
          cut(quarter[k][0], quarter[k][1]));
    }
  }
}

void CaseBuilder::imposed() {
  std::vector<solver::LoadCase> bays(model_.bays.size());
  solver::LoadCase under;
  under.id = "under the loads";
  for (std::size_t k = 0; k < bays.size(); ++k) bays[k].id = "bay " + std::to_string(k + 1);
  const auto& places = plan_.boards();
  for (std::size_t b = 0; b < model_.boards.size(); ++b) {
    const BoardPlace& place = places[b];
    const Line& line = model_.boards[b];
    std::size_t bay = 0;
    while (bay + 1 < model_.bays.size() && place.s > model_.bays[bay].to) ++bay;
    for (std::size_t k = 0; k < place.joists.size(); ++k) {
      const double from = k == 0 ? place.from : 0.5 * (place.joist_t[k - 1] + place.joist_t[k]);
      const double to =
          k + 1 == place.joists.size() ? place.to : 0.5 * (place.joist_t[k] + place.joist_t[k + 1]);
      const double whole = (to - from) * (place.high - place.low);
      double covered = 0.0;
      for (const survey::SettledLoad& load : deck_.loads) {
        covered +=
            survey::area(survey::clip_strip(survey::clip_strip(load.footprint, plan_.along(),
                                                               mm(place.low), mm(place.high)),
                                            plan_.across(), mm(from), mm(to)))
                .value();
      }
      covered = std::min(covered, whole);
      const auto at =
          std::lower_bound(line.at.begin(), line.at.end(), place.joist_t[k] - station_tolerance);
      solver::NodalLoad load;
      load.node = line.nodes[static_cast<std::size_t>(at - line.at.begin())];
      if (whole - covered > 1e-6) {
        load.Fz = -(whole - covered);
        bays[bay].nodal.push_back(load);
      }
      if (covered > 1e-6) {
        load.Fz = -covered;
        under.nodal.push_back(load);
      }
    }
  }
  for (std::size_t k = 0; k < bays.size(); ++k)
    add(CaseKind::bay, -1, static_cast<int>(k), std::move(bays[k]));
  add(CaseKind::under_loads, -1, -1, std::move(under));
}

void CaseBuilder::free_ends() {
  // A person on the tip of an overhang, at the outermost and the middle joist that have one.
  std::vector<std::pair<std::size_t, bool>> tips;
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    double first = 1e300, last = -1e300;
    for (const Crossing& crossing : model_.crossings) {
      if (crossing.joist != static_cast<int>(j)) continue;
      first = std::min(first, crossing.at_joist);
      last = std::max(last, crossing.at_joist);
    }
    const survey::Joist& joist = deck_.joists[j];
    if (last < first || model_.joists[j].nodes.empty()) continue;
    if (first - joist.from.value() > 150.0) tips.emplace_back(j, true);
    if (joist.to.value() - last > 150.0) tips.emplace_back(j, false);
  }
  std::vector<std::pair<std::size_t, bool>> chosen;
  for (const bool start : {true, false}) {
    std::vector<std::size_t> of_side;
    for (const auto& [j, at_start] : tips) {
      if (at_start == start) of_side.push_back(j);
    }
    if (of_side.empty()) continue;
    for (const std::size_t j : {of_side.front(), of_side[of_side.size() / 2], of_side.back()}) {
      if (chosen.empty() || chosen.back() != std::pair(j, start)) chosen.emplace_back(j, start);
    }
  }
  int number = 0;
  for (const auto& [j, start] : chosen) {
    solver::LoadCase load_case;
    load_case.id =
        "person at the " + std::string(start ? "start" : "end") + " of " + deck_.joists[j].id;
    solver::NodalLoad load;
    load.node = start ? model_.joists[j].nodes.front() : model_.joists[j].nodes.back();
    load.Fz = -1.0;
    load_case.nodal.push_back(load);
    add(CaseKind::free_end, -1, number++, std::move(load_case));
  }
}

}  // namespace underprop::model
