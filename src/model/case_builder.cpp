#include "case_builder.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::model {

namespace {

double total_area(const std::vector<Region>& regions) {
  double sum = 0.0;
  for (const Region& region : regions) sum += whole(region).area.value();
  return sum;
}

/// Pieces of a base smaller than this share of it are rounding.
constexpr double empty_share = 1e-14;
/// Of a runner or foot that a cut takes away, rounding may leave this share.
constexpr double nothing = 1e-9;

/// The moments of a vertical force F about a node (dx, dy) away from it; rotations as in the solver.
void add_force(solver::NodalLoad& load, double F, double dx, double dy) {
  load.Fz += F;
  load.Mx += dy * F;
  load.My -= dx * F;
}

}  // namespace

std::vector<solver::Plate> rigid_bases(const deck::Deck& deck, const Properties& properties,
                                       const Plan& plan, const Model& model, std::string& why) {
  std::vector<solver::Plate> plates;
  for (std::size_t l = 0; l < deck.loads.size(); ++l) {
    const deck::Load& load = deck.loads[l];
    if (load.base != record::BaseKind::full) continue;  // runners and feet press where they stand
    solver::Plate plate;
    plate.id = "base of load " + std::to_string(l + 1);
    plate.x = load.centre.x.value();
    plate.y = load.centre.y.value();
    const auto& boards = plan.boards();
    for (std::size_t k = 0; k < boards.size(); ++k) {
      const Line& line = model.boards[k];
      for (std::size_t n = 0; n < line.nodes.size(); ++n) {
        if (plan.in_load(l, boards[k].s, line.at[n]))
          plate.contacts.push_back({line.nodes[n], properties.shell_contact, 0.0});
      }
    }
    if (!Plan::spread_out(plate, model.frame)) {
      why = "the load's base rests on too few boards to be a rigid base";
      return {};
    }
    plates.push_back(std::move(plate));
  }
  return plates;
}

CaseBuilder::CaseBuilder(const deck::Deck& deck, const Properties& properties, const Bounds& bounds,
                         const Plan& plan, const Model& model, std::vector<solver::Plate> plates)
    : deck_(deck), properties_(properties), bounds_(bounds), plan_(plan), model_(model) {
  out_.plates = std::move(plates);
  joist_under_.assign(model_.frame.nodes.size(), -1);
  for (const solver::Link& link : model_.frame.links)
    joist_under_[static_cast<std::size_t>(link.i)] = link.j;
  turns_a_member_.assign(model_.frame.nodes.size(), false);
  for (const solver::Member& member : model_.frame.members) {
    if (member.end_i.bending > 0.0) turns_a_member_[static_cast<std::size_t>(member.i)] = true;
    if (member.end_j.bending > 0.0) turns_a_member_[static_cast<std::size_t>(member.j)] = true;
  }
}

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
  for (const deck::Rim& rim : deck_.rims) {
    std::vector<std::size_t> of_group;
    for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
      const std::vector<int>& members = model_.joists[j].members;
      if (deck_.joists[j].group != rim.group || members.empty()) continue;
      if ((rim.at_start ? members.front() : members.back()) >= 0) of_group.push_back(j);
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

void CaseBuilder::tilt_joists(Laid& laid, const BoardPlace& place, const Line& line, double t,
                              double force, double off_axis) const {
  // A board has no torsional stiffness: what lands beside its axis turns it, and the joists it is
  // fixed to on either hand hold it, each by the share that is nearer to it. For a joist that is the
  // load where it stands along it.
  const auto after = std::upper_bound(place.joist_t.begin(), place.joist_t.end(), t);
  const auto right = static_cast<std::size_t>(after - place.joist_t.begin());
  struct Held {
    std::size_t joist;
    double share;
  };
  std::vector<Held> held;
  if (right == 0) {
    held = {{0, 1.0}};
  } else if (right == place.joist_t.size()) {
    held = {{right - 1, 1.0}};
  } else {
    const double from = place.joist_t[right - 1], to = place.joist_t[right];
    held = {{right - 1, (to - t) / (to - from)}, {right, (t - from) / (to - from)}};
  }
  const auto node_of = [&](std::size_t k) {
    const auto at =
        std::lower_bound(line.at.begin(), line.at.end(), place.joist_t[k] - station_tolerance);
    const int board_node = line.nodes[static_cast<std::size_t>(at - line.at.begin())];
    return joist_under_[static_cast<std::size_t>(board_node)];
  };
  const auto turns = [&](std::size_t k) {
    return turns_a_member_[static_cast<std::size_t>(node_of(k))];
  };
  for (const Held& part : held) {
    // A joist's end that a hinge and a gap leave free to turn holds nothing: the next one does.
    std::size_t joist = part.joist;
    for (std::size_t step = 1; !turns(joist) && step < place.joists.size(); ++step) {
      if (part.joist >= step && turns(part.joist - step)) {
        joist = part.joist - step;
      } else if (part.joist + step < place.joists.size() && turns(part.joist + step)) {
        joist = part.joist + step;
      }
    }
    if (!turns(joist)) continue;
    solver::NodalLoad& load = laid.nodal[node_of(joist)];
    if (plan_.joists_along_y) {
      load.Mx += off_axis * part.share * force;
    } else {
      load.My -= off_axis * part.share * force;
    }
  }
}

void CaseBuilder::lay_on_board(Laid& laid, std::size_t board, const Region& region,
                               double pressure) const {
  const Line& line = model_.boards[board];
  const BoardPlace& place = plan_.boards()[board];
  std::vector<Length> stations{place.takes_t.low};
  for (const double at : line.at) stations.push_back(mm(at));
  stations.push_back(place.takes_t.high);
  const auto node = [&](int k) -> const solver::Node& {
    return model_.frame.nodes[static_cast<std::size_t>(k)];
  };
  const auto s_of = [&](const solver::Node& n) { return plan_.joists_along_y ? n.y : n.x; };
  const auto t_of = [&](const solver::Node& n) { return plan_.joists_along_y ? n.x : n.y; };
  for (const StripPiece& piece : strip_pieces(region, plan_.across(), place.takes_s, stations)) {
    const double Q = -pressure * piece.area.value();
    const double from = piece.along.low.value(), to = piece.along.high.value();
    const double middle = 0.5 * (from + to);
    if (-Q < empty_share || middle < place.takes_t.low.value() ||
        middle > place.takes_t.high.value())
      continue;
    const double s = piece.centroid_across.value(), t = piece.centroid_along.value();
    const auto above = std::upper_bound(line.at.begin(), line.at.end(), middle);
    if (above == line.at.begin() || above == line.at.end()) {
      // Beyond the board's last node, at most 10 mm or by a slanted end: that node takes it.
      const int end = above == line.at.begin() ? line.nodes.front() : line.nodes.back();
      const double off_s = s - s_of(node(end)), off_t = t - t_of(node(end));
      solver::NodalLoad& load = laid.nodal[end];
      if (plan_.joists_along_y) {
        add_force(load, Q, off_t, 0.0);
      } else {
        add_force(load, Q, 0.0, off_t);
      }
      tilt_joists(laid, place, line, t_of(node(end)), Q, off_s);
      continue;
    }
    const auto segment = static_cast<std::size_t>(above - line.at.begin()) - 1;
    const int member = line.members[segment];
    const solver::Node &i = node(line.nodes[segment]), &j = node(line.nodes[segment + 1]);
    // Nodes stand within the station tolerance of the line: places are taken along the member itself.
    const double length = length_of(member), scale = length / (t_of(j) - t_of(i));
    const double a = std::clamp((from - t_of(i)) * scale, 0.0, length);
    const double b = std::clamp((to - t_of(i)) * scale, 0.0, length);
    const double c = std::clamp((t - t_of(i)) * scale, a, b);
    const double off_s = s - (s_of(i) + c / length * (s_of(j) - s_of(i)));
    if (b - a > 1e-6) {
      // The linear load with this total and centroid: Q = (q1 + q2) L/2, Q c = (q1 + 2 q2) L^2/6.
      const double L = b - a, x = (c - a) / L;
      laid.load_case.line.push_back(
          {member, Q / L * (4.0 - 6.0 * x), Q / L * (6.0 * x - 2.0), a, b});
    } else {
      laid.load_case.point.push_back({member, Q, c});
    }
    tilt_joists(laid, place, line, t, Q, off_s);
  }
}

solver::LoadCase CaseBuilder::soft(const std::string& id,
                                   const std::vector<Region>& regions) const {
  Laid laid;
  laid.load_case.id = id;
  const double area = total_area(regions);
  if (area <= 0.0) return std::move(laid.load_case);
  for (std::size_t board = 0; board < model_.boards.size(); ++board) {
    for (const Region& region : regions) lay_on_board(laid, board, region, 1.0 / area);
  }
  solver::LoadCase& load_case = laid.load_case;
  for (const auto& [node, load] : laid.nodal) {
    load_case.nodal.push_back(load);
    load_case.nodal.back().node = node;
  }
  double total = 0.0;
  for (const auto& load : load_case.line) total += 0.5 * (load.q1 + load.q2) * (load.b - load.a);
  for (const auto& load : load_case.point) total += load.P;
  for (const auto& load : load_case.nodal) total += load.Fz;
  if (total < 0.0 && std::abs(total + 1.0) > 1e-12) {
    // Where a row has no board there is nothing to press on: the rest carries it.
    const double scale = -1.0 / total;
    for (auto& load : load_case.line) {
      load.q1 *= scale;
      load.q2 *= scale;
    }
    for (auto& load : load_case.point) load.P *= scale;
    for (auto& load : load_case.nodal) {
      load.Fz *= scale;
      load.Mx *= scale;
      load.My *= scale;
    }
  }
  return std::move(laid.load_case);
}

solver::LoadCase CaseBuilder::stiff(const std::string& id, std::size_t plate_index,
                                    const std::vector<Region>& regions) const {
  solver::LoadCase load_case;
  load_case.id = id;
  const solver::Plate& plate = out_.plates[plate_index];
  solver::NodalLoad nodal;
  nodal.plate = static_cast<int>(plate_index);
  const double area = total_area(regions);
  if (area <= 0.0) return load_case;
  for (const Region& region : regions) {
    const AreaPart part = whole(region);
    add_force(nodal, -part.area.value() / area, part.centroid.x.value() - plate.x,
              part.centroid.y.value() - plate.y);
  }
  load_case.nodal.push_back(nodal);
  return load_case;
}

void CaseBuilder::loads() {
  std::size_t plates = 0;
  for (std::size_t l = 0; l < deck_.loads.size(); ++l) {
    const deck::Load& load = deck_.loads[l];
    const bool rigid = bounds_.stiff_shell && load.base == record::BaseKind::full;
    const std::size_t plate = plates;
    if (rigid) ++plates;
    const std::string name = "load " + std::to_string(l + 1);
    const auto put = [&](CaseKind kind, int part, const std::string& id,
                         const std::vector<Region>& regions) {
      add(kind, static_cast<int>(l), part, rigid ? stiff(id, plate, regions) : soft(id, regions));
    };
    put(CaseKind::whole, -1, name, load.contact);
    if (load.people <= 0) continue;
    // Cut through the middle along the load's own axes.
    const auto cut = [&](int sx, int sy) {
      std::vector<Region> parts;
      for (Region region : load.contact) {
        const double area = whole(region).area.value();
        if (sx != 0)
          region = underprop::cut(region, load.centre, load.axes_deg + (sx > 0 ? 0.0 : 180.0));
        if (sy != 0)
          region = underprop::cut(region, load.centre, load.axes_deg + (sy > 0 ? 90.0 : 270.0));
        if (whole(region).area.value() > nothing * area) parts.push_back(std::move(region));
      }
      // Where no foot stands in that part, the people's weight goes to the whole base.
      return parts.empty() ? load.contact : parts;
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
    std::vector<Length> halfways;  // between joists; each takes what lies nearer to it
    for (std::size_t k = 0; k + 1 < place.joists.size(); ++k)
      halfways.push_back(mm(0.5 * (place.joist_t[k] + place.joist_t[k + 1])));
    std::vector<Length> stations = halfways;
    stations.insert(stations.begin(), mm(place.from));
    stations.push_back(mm(place.to));
    const auto load_node = [&](solver::LoadCase& load_case, std::size_t k, double area) {
      if (area <= 1e-6) return;
      const auto at =
          std::lower_bound(line.at.begin(), line.at.end(), place.joist_t[k] - station_tolerance);
      solver::NodalLoad load;
      load.node = line.nodes[static_cast<std::size_t>(at - line.at.begin())];
      load.Fz = -area;
      load_case.nodal.push_back(load);
    };
    for (std::size_t bay = 0; bay < bays.size(); ++bay) {
      const double low = std::max(place.low, model_.bays[bay].from);
      const double high = std::min(place.high, model_.bays[bay].to);
      if (high - low < 1e-6) continue;
      std::vector<double> covered(place.joists.size(), 0.0);
      for (const deck::Load& load : deck_.loads) {
        for (const StripPiece& piece :
             strip_pieces(load.shape, plan_.across(), {mm(low), mm(high)}, stations)) {
          const Length middle = 0.5 * (piece.along.low + piece.along.high);
          if (middle < mm(place.from) || middle > mm(place.to)) continue;
          const auto k = std::upper_bound(halfways.begin(), halfways.end(), middle);
          covered[static_cast<std::size_t>(k - halfways.begin())] += piece.area.value();
        }
      }
      for (std::size_t k = 0; k < place.joists.size(); ++k) {
        const double whole = (stations[k + 1] - stations[k]).value() * (high - low);
        covered[k] = std::min(covered[k], whole);
        load_node(bays[bay], k, whole - covered[k]);
        load_node(under, k, covered[k]);
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
    const deck::Joist& joist = deck_.joists[j];
    if (last < first || model_.joists[j].nodes.empty()) continue;
    const std::vector<int>& members = model_.joists[j].members;
    if (first - joist.from.value() > 150.0 && members.front() >= 0) tips.emplace_back(j, true);
    if (joist.to.value() - last > 150.0 && members.back() >= 0) tips.emplace_back(j, false);
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
