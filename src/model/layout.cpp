#include "layout.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::model {

namespace {

/// A joist end this near to the line of a bearer or ledger meets it, mm.
constexpr double meeting_reach = 75.0;
/// A board's centre line is moved on to a station this near, so that no tiny members arise, mm.
constexpr double snap = 8.0;

/// Farther than any deck reaches, mm.
constexpr double endless = 1e9;
/// A share of a load's base this small is rounding.
constexpr double sliver = 1e-9;

/// The nearest station within reach; with two equally near the place itself, so that mirror images
/// agree.
double snapped(double s, const std::vector<double>& stations) {
  const auto above = std::lower_bound(stations.begin(), stations.end(), s);
  const double up = above == stations.end() ? snap : *above - s;
  const double down = above == stations.begin() ? snap : s - *std::prev(above);
  if (std::min(up, down) >= snap || std::abs(up - down) < 1e-9) return up == 0.0 ? *above : s;
  return up < down ? *above : *std::prev(above);
}

void add_station(std::vector<double>& stations, double at) { stations.push_back(at); }

void tidy(std::vector<double>& stations) {
  std::sort(stations.begin(), stations.end());
  std::vector<double> kept;
  for (const double at : stations) {
    if (kept.empty() || at - kept.back() >= station_tolerance) kept.push_back(at);
  }
  stations = std::move(kept);
}

}  // namespace

Plan::Plan(const deck::Deck& deck)
    : joists_along_y(deck.joists.empty() || deck.joists.front().direction == Axis::y),
      deck_(deck),
      along_(joists_along_y ? Axis::y : Axis::x) {}

double Plan::s_of(Point p) const { return underprop::along(p, along_).value(); }
double Plan::t_of(Point p) const { return underprop::along(p, across()).value(); }

bool Plan::absent_at(const deck::Piece& piece, double origin, double at) const {
  return std::any_of(piece.absent.begin(), piece.absent.end(), [&](const deck::Stretch& stretch) {
    return at - origin >= stretch.from.value() - station_tolerance &&
           at - origin <= stretch.to.value() + station_tolerance;
  });
}

bool Plan::meets_bearer(std::size_t joist, std::size_t bearer) const {
  const deck::Joist& j = deck_.joists[joist];
  const deck::Bearer& b = deck_.bearers[bearer];
  const double t = j.position.value();
  if (t < b.from.value() - station_tolerance || t > b.to.value() + station_tolerance) return false;
  const double s = b.position.value();
  if (b.flush) {
    const double reach = std::max(meeting_reach, b.ply_breadth.value() * b.plies);
    return std::abs(j.from.value() - s) <= reach || std::abs(j.to.value() - s) <= reach;
  }
  return s >= j.from.value() - meeting_reach && s <= j.to.value() + meeting_reach;
}

double Plan::bearer_station_on_joist(std::size_t joist, std::size_t bearer) const {
  return std::clamp(deck_.bearers[bearer].position.value(), from(joist), to(joist));
}

bool Plan::meets_ledger(std::size_t joist, std::size_t ledger) const {
  const deck::Joist& j = deck_.joists[joist];
  const deck::Ledger& l = deck_.ledgers[ledger];
  const double t = j.position.value();
  if (t < l.from.value() - station_tolerance || t > l.to.value() + station_tolerance) return false;
  const double s = l.position.value();
  const double reach = std::max(meeting_reach, l.breadth.value() * 2.0);
  return std::abs(j.from.value() - s) <= reach || std::abs(j.to.value() - s) <= reach;
}

std::vector<double> Plan::inner_bearers_of(std::size_t joist) const {
  std::vector<double> inner;
  const deck::Joist& j = deck_.joists[joist];
  for (std::size_t b = 0; b < deck_.bearers.size(); ++b) {
    if (deck_.bearers[b].flush || deck_.bearers[b].added || !meets_bearer(joist, b)) continue;
    const double s = deck_.bearers[b].position.value();
    // A lap needs wood on both sides and another support beyond it.
    if (s > j.from.value() + 2.0 * meeting_reach && s < j.to.value() - 2.0 * meeting_reach)
      inner.push_back(s);
  }
  std::sort(inner.begin(), inner.end());
  // Joists lap over bearers that have a support on each side; the outer ones carry overhangs.
  std::vector<double> all;
  for (std::size_t b = 0; b < deck_.bearers.size(); ++b) {
    if (meets_bearer(joist, b)) all.push_back(deck_.bearers[b].position.value());
  }
  for (std::size_t l = 0; l < deck_.ledgers.size(); ++l) {
    if (meets_ledger(joist, l)) all.push_back(deck_.ledgers[l].position.value());
  }
  std::sort(all.begin(), all.end());
  std::erase_if(inner, [&](double s) {
    return all.empty() || s <= all.front() + station_tolerance ||
           s >= all.back() - station_tolerance;
  });
  return inner;
}

void Plan::lay_out_ends() {
  ends_.clear();
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    const deck::Joist& joist = deck_.joists[j];
    Bay end{joist.from.value(), joist.to.value()};
    const double middle = 0.5 * (end.from + end.to);
    const auto draw_to = [&](double s, bool stops_there) {
      if (s < middle && (stops_there || s < end.from)) end.from = s;
      if (s > middle && (stops_there || s > end.to)) end.to = s;
    };
    for (std::size_t b = 0; b < deck_.bearers.size(); ++b) {
      if (meets_bearer(j, b)) draw_to(deck_.bearers[b].position.value(), deck_.bearers[b].flush);
    }
    for (std::size_t l = 0; l < deck_.ledgers.size(); ++l) {
      if (meets_ledger(j, l)) draw_to(deck_.ledgers[l].position.value(), true);
    }
    ends_.push_back(end);
  }
}

void Plan::find_carrying_sisters() {
  by_sister_.assign(deck_.joists.size(), false);
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    const deck::Joist& joist = deck_.joists[j];
    if (joist.absent.empty() || joist.sisters.empty()) continue;
    bool hung = false;
    std::vector<double> seats;
    for (std::size_t b = 0; b < deck_.bearers.size(); ++b) {
      const deck::Bearer& bearer = deck_.bearers[b];
      if (!meets_bearer(j, b)) continue;
      hung = hung || bearer.flush;
      if (!absent_at(bearer, bearer.from.value(), joist.position.value()))
        seats.push_back(bearer_station_on_joist(j, b));
    }
    for (std::size_t l = 0; l < deck_.ledgers.size(); ++l) hung = hung || meets_ledger(j, l);
    for (const deck::Support& support : deck_.supports) {
      if (support.joist == static_cast<int>(j) && support.absent.empty() &&
          support.footing.contact != record::Contact::loose)
        seats.push_back(s_of(support.at));
    }
    for (std::size_t w = 0; w < walls_.size(); ++w) {
      const deck::Wall& wall = deck_.walls[w];
      if (!wall.absent.empty() || wall.contact == record::Contact::loose) continue;
      for (const WallCrossing& place : walls_[w]) {
        if (place.joist == static_cast<int>(j)) seats.push_back(place.s);
      }
    }
    const auto [low, high] = std::minmax_element(seats.begin(), seats.end());
    by_sister_[j] = !hung && seats.size() > 1 && *high - *low > meeting_reach;
  }
}

bool Plan::gone_at(std::size_t joist, double s) const {
  const deck::Joist& j = deck_.joists[joist];
  return !by_sister_[joist] && absent_at(j, j.from.value(), s);
}

void Plan::lay_out_carriers() {
  lay_out_ends();
  walls_.assign(deck_.walls.size(), {});
  for (std::size_t w = 0; w < deck_.walls.size(); ++w) {
    const deck::Wall& wall = deck_.walls[w];
    const double sa = s_of(wall.a), sb = s_of(wall.b), ta = t_of(wall.a), tb = t_of(wall.b);
    if (std::abs(tb - ta) < station_tolerance) continue;  // runs along the joists: crosses none
    std::vector<WallCrossing> places;
    for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
      const deck::Joist& joist = deck_.joists[j];
      const double t = joist.position.value();
      if (t < std::min(ta, tb) - station_tolerance || t > std::max(ta, tb) + station_tolerance)
        continue;
      const double s = sa + (sb - sa) * (t - ta) / (tb - ta);
      if (s < joist.from.value() - meeting_reach || s > joist.to.value() + meeting_reach) continue;
      places.push_back({static_cast<int>(j), std::clamp(s, from(j), to(j)), 0.0});
    }
    std::stable_sort(places.begin(), places.end(),
                     [&](const WallCrossing& a, const WallCrossing& b) {
                       return deck_.joists[static_cast<std::size_t>(a.joist)].position <
                              deck_.joists[static_cast<std::size_t>(b.joist)].position;
                     });
    const double slant = std::hypot(sb - sa, tb - ta) / std::abs(tb - ta);
    for (std::size_t k = 0; k < places.size(); ++k) {
      const auto position = [&](std::size_t n) {
        return deck_.joists[static_cast<std::size_t>(places[n].joist)].position.value();
      };
      const double before = k > 0 ? position(k) - position(k - 1) : 0.0;
      const double after = k + 1 < places.size() ? position(k + 1) - position(k) : 0.0;
      // At the wall's ends half a bay on the one side only; a single joist: the wall's own width.
      double tributary = 0.5 * (before + after) * slant;
      if (tributary <= 0.0) tributary = wall.strip_width.value();
      places[k].tributary = tributary;
    }
    walls_[w] = std::move(places);
  }
  find_carrying_sisters();
}

void Plan::lay_out() {
  lay_out_carriers();
  joist_stations_.assign(deck_.joists.size(), {});
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    const deck::Joist& joist = deck_.joists[j];
    std::vector<double>& at = joist_stations_[j];
    add_station(at, from(j));
    add_station(at, to(j));
    for (std::size_t b = 0; b < deck_.bearers.size(); ++b) {
      if (!deck_.bearers[b].flush && meets_bearer(j, b))
        add_station(at, bearer_station_on_joist(j, b));
    }
    for (const deck::Support& support : deck_.supports) {
      if (support.joist == static_cast<int>(j)) {
        add_station(at, std::clamp(s_of(support.at), from(j), to(j)));
      }
    }
    for (const auto& wall : walls_) {
      for (const WallCrossing& place : wall) {
        if (place.joist == static_cast<int>(j)) add_station(at, place.s);
      }
    }
    for (const deck::Stretch& stretch : joist.absent) {
      for (const Length end : {stretch.from, stretch.to}) {
        const double s = joist.from.value() + end.value();
        if (s > from(j) + snap && s < to(j) - snap) add_station(at, s);
      }
    }
    tidy(at);
  }
  lay_out_boards();
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    for (const BoardPlace& board : boards_) {
      if (std::find(board.joists.begin(), board.joists.end(), static_cast<int>(j)) !=
          board.joists.end()) {
        add_station(joist_stations_[j], board.s);
      }
    }
    tidy(joist_stations_[j]);
  }
}

void Plan::lay_out_boards() {
  const Interval extent = underprop::extent(deck_.outline, along_);
  const double low = extent.low.value(), high = extent.high.value();
  const double pitch = (deck_.boards.width + deck_.boards.gap).value();
  const auto count = static_cast<int>(std::max(1.0, std::round((high - low) / pitch)));
  // Laid out from the middle: what does not come out whole is shared by the first and the last board,
  // so that a deck and its mirror image are boarded alike.
  const double middle = 0.5 * (low + high);
  const auto edge = [&](int k) {
    if (k <= 0) return low;
    return k >= count ? high : middle + (k - 0.5 * count) * pitch;
  };
  std::vector<double> special;
  for (const auto& stations : joist_stations_)
    special.insert(special.end(), stations.begin(), stations.end());
  tidy(special);
  for (int k = 0; k < count; ++k) {
    const double strip_low = edge(k), strip_high = edge(k + 1);
    const double s = snapped(0.5 * (strip_low + strip_high), special);
    const std::size_t first_of_row = boards_.size();
    for (const Interval& interval : line_intervals(deck_.outline, across(), mm(s))) {
      BoardPlace place;
      place.s = s;
      place.low = strip_low;
      place.high = strip_high;
      place.from = interval.low.value();
      place.to = interval.high.value();
      std::vector<std::pair<double, int>> under;
      for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
        const deck::Joist& joist = deck_.joists[j];
        const double t = joist.position.value();
        if (t < place.from - station_tolerance || t > place.to + station_tolerance) continue;
        if (s < from(j) || s > to(j)) continue;
        if (gone_at(j, s)) continue;
        if (!under.empty() && std::abs(under.back().first - t) < station_tolerance) continue;
        under.emplace_back(t, static_cast<int>(j));
      }
      std::sort(under.begin(), under.end());
      for (const auto& [t, j] : under) {
        if (!place.joist_t.empty() && t - place.joist_t.back() < 1.0)
          continue;  // doubled joists: one line
        place.joists.push_back(j);
        place.joist_t.push_back(t);
      }
      if (place.joists.size() < 2) {
        loose_boards_ = loose_boards_ || loaded(place);
        continue;
      }
      boards_.push_back(std::move(place));
    }
    for (std::size_t b = first_of_row; b < boards_.size(); ++b) {
      const auto gap = [&](std::size_t first) {
        return mm(0.5 * (boards_[first].to + boards_[first + 1].from));
      };
      boards_[b].takes_s = {mm(k == 0 ? -endless : strip_low),
                            mm(k + 1 == count ? endless : strip_high)};
      boards_[b].takes_t = {b == first_of_row ? mm(-endless) : gap(b - 1),
                            b + 1 == boards_.size() ? mm(endless) : gap(b)};
    }
  }
}

bool Plan::loaded(const BoardPlace& place) const {
  for (const deck::Load& load : deck_.loads) {
    for (const Region& region : load.contact) {
      double area = 0.0;
      for (const StripPiece& piece : strip_pieces(region, across(), {mm(place.low), mm(place.high)},
                                                  {mm(place.from), mm(place.to)})) {
        const double at = 0.5 * (piece.along.low + piece.along.high).value();
        if (at > place.from && at < place.to) area += piece.area.value();
      }
      if (area > sliver * whole(region).area.value()) return true;
    }
  }
  return false;
}

std::vector<double> Plan::bearer_stations(std::size_t bearer) const {
  const deck::Bearer& b = deck_.bearers[bearer];
  std::vector<double> at{b.from.value(), b.to.value()};
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    if (meets_bearer(j, bearer)) at.push_back(deck_.joists[j].position.value());
  }
  for (const deck::Support& support : deck_.supports) {
    if (support.bearer == static_cast<int>(bearer)) at.push_back(t_of(support.at));
  }
  for (const Length splice : b.splices) at.push_back(splice.value());
  for (const deck::Stretch& stretch : b.absent) {
    at.push_back(std::clamp(b.from.value() + stretch.from.value(), b.from.value(), b.to.value()));
    at.push_back(std::clamp(b.from.value() + stretch.to.value(), b.from.value(), b.to.value()));
  }
  tidy(at);
  return at;
}

std::vector<double> Plan::ledger_fixing_places(std::size_t ledger) const {
  const deck::Ledger& l = deck_.ledgers[ledger];
  const double length = (l.to - l.from).value();
  const double spacing = l.fixing_spacing.value();
  // The spacing as recorded, centred on the ledger: what remains is shared between the two ends.
  const int gaps =
      std::max(1, static_cast<int>(std::floor((length - 2.0 * 50.0) / spacing + 1e-9)));
  const double start = l.from.value() + 0.5 * (length - gaps * std::min(spacing, length));
  std::vector<double> places;
  for (int k = 0; k <= gaps; ++k) {
    places.push_back(std::clamp(start + k * spacing, l.from.value(), l.to.value()));
  }
  tidy(places);
  return places;
}

std::vector<double> Plan::ledger_stations(std::size_t ledger) const {
  const deck::Ledger& l = deck_.ledgers[ledger];
  std::vector<double> at = ledger_fixing_places(ledger);
  at.push_back(l.from.value());
  at.push_back(l.to.value());
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    if (meets_ledger(j, ledger)) at.push_back(deck_.joists[j].position.value());
  }
  tidy(at);
  return at;
}

std::vector<Bay> Plan::bays() const {
  // Lines across the deck that carry: bearers, ledgers, walls, rows of pads under joists.
  std::vector<double> lines;
  for (const deck::Bearer& bearer : deck_.bearers) lines.push_back(bearer.position.value());
  for (const deck::Ledger& ledger : deck_.ledgers) lines.push_back(ledger.position.value());
  for (const deck::Wall& wall : deck_.walls) lines.push_back(0.5 * (s_of(wall.a) + s_of(wall.b)));
  for (const deck::Support& support : deck_.supports) {
    if (support.joist >= 0) lines.push_back(s_of(support.at));
  }
  const Interval extent = underprop::extent(deck_.outline, along_);
  std::sort(lines.begin(), lines.end());
  // Lines closer than half a metre act as one: a bay between them carries next to nothing.
  std::vector<double> edges{extent.low.value()};
  for (const double line : lines) {
    if (line - edges.back() > 500.0 && extent.high.value() - line > 300.0) edges.push_back(line);
  }
  edges.push_back(extent.high.value());
  std::vector<Bay> bays;
  for (std::size_t k = 0; k + 1 < edges.size(); ++k) bays.push_back({edges[k], edges[k + 1]});
  return bays;
}

bool Plan::in_load(std::size_t load, double s, double t) const {
  const Point p = at_along(along_, mm(s), mm(t));
  const std::vector<Region>& contact = deck_.loads[load].contact;
  return std::any_of(contact.begin(), contact.end(),
                     [&](const Region& region) { return contains(region, p); });
}

bool Plan::spread_out(const solver::Plate& plate, const solver::Frame& frame) {
  if (plate.contacts.size() < 3) return false;
  const auto& a = frame.nodes[static_cast<std::size_t>(plate.contacts.front().node)];
  double best = 0.0;
  const solver::Node* far = nullptr;
  for (const auto& contact : plate.contacts) {
    const auto& n = frame.nodes[static_cast<std::size_t>(contact.node)];
    const double distance = std::hypot(n.x - a.x, n.y - a.y);
    if (distance > best) {
      best = distance;
      far = &n;
    }
  }
  if (far == nullptr || best < 100.0) return false;
  for (const auto& contact : plate.contacts) {
    const auto& n = frame.nodes[static_cast<std::size_t>(contact.node)];
    const double off = std::abs((n.x - a.x) * (far->y - a.y) - (n.y - a.y) * (far->x - a.x)) / best;
    if (off > 50.0) return true;
  }
  return false;
}

}  // namespace underprop::model
