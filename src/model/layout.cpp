#include "layout.hpp"

#include "catalog/table.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace underprop::model {

namespace {

double figure(const char* name) { return catalog::number(catalog::table("model.json"), name); }

/// A board's centre line is moved on to a station this near, so that no tiny members arise, mm.
constexpr double snap = 8.0;

/// Joists closer than this are doubled: one line to a board, mm.
constexpr double doubled = 1.0;
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
      along_(joists_along_y ? Axis::y : Axis::x) {
  sort_meetings();
}

// A deck whose pieces were changed and whose meetings were not found anew is a fault: at() says so.
void Plan::sort_meetings() {
  of_joist_.assign(deck_.joists.size(), {});
  on_bearer_.assign(deck_.bearers.size(), {});
  on_ledger_.assign(deck_.ledgers.size(), {});
  of_support_.assign(deck_.supports.size(), deck_.meetings.size());
  for (std::size_t m = 0; m < deck_.meetings.size(); ++m) {
    const deck::Meeting& meeting = deck_.meetings[m];
    switch (meeting.kind) {
      case deck::MeetingKind::joist_on_bearer:
      case deck::MeetingKind::joist_into_bearer:
        on_bearer_.at(meeting.carrier).push_back(m);
        break;
      case deck::MeetingKind::joist_on_ledger:
        on_ledger_.at(meeting.carrier).push_back(m);
        break;
      case deck::MeetingKind::joist_on_wall:
        break;
      case deck::MeetingKind::joist_on_support:
        of_support_.at(meeting.carrier) = m;
        break;
      case deck::MeetingKind::bearer_on_support:
        of_support_.at(meeting.carrier) = m;
        continue;
    }
    of_joist_.at(meeting.piece).push_back(m);
  }
}

double Plan::s_of(Point p) const { return underprop::along(p, along_).value(); }
double Plan::t_of(Point p) const { return underprop::along(p, across()).value(); }

bool Plan::absent_at(const deck::Piece& piece, double origin, double at) const {
  return std::any_of(piece.absent.begin(), piece.absent.end(), [&](const deck::Stretch& stretch) {
    return at - origin >= stretch.from.value() - station_tolerance &&
           at - origin <= stretch.to.value() + station_tolerance;
  });
}

double Plan::station_on_joist(const deck::Meeting& meeting) const {
  return std::clamp(meeting.place.value(), from(meeting.piece), to(meeting.piece));
}

std::size_t Plan::of_support(std::size_t support) const {
  if (of_support_[support] >= deck_.meetings.size())
    throw std::logic_error("the deck's meetings were not found: see find_meetings");
  return of_support_[support];
}

std::vector<double> Plan::inner_bearers_of(std::size_t joist) const {
  std::vector<double> inner, all;
  const deck::Joist& j = deck_.joists[joist];
  const double wood = figure("lap_wood_mm");
  for (const std::size_t m : of_joist_[joist]) {
    const deck::Meeting& meeting = deck_.meetings[m];
    const double s = meeting.place.value();
    const bool lies = meeting.kind == deck::MeetingKind::joist_on_bearer;
    if (lies || deck::at_side(meeting.kind)) all.push_back(s);
    if (!lies || deck_.bearers[meeting.carrier].added) continue;
    // A lap needs wood on both sides and another support beyond it.
    if (s > j.from.value() + wood && s < j.to.value() - wood) inner.push_back(s);
  }
  std::sort(inner.begin(), inner.end());
  // Joists lap over bearers that have a support on each side; the outer ones carry overhangs.
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
    for (const std::size_t m : of_joist_[j]) {
      const deck::Meeting& meeting = deck_.meetings[m];
      if (meeting.kind != deck::MeetingKind::joist_on_bearer) continue;
      end.from = std::min(end.from, meeting.place.value());
      end.to = std::max(end.to, meeting.place.value());
    }
    // What an end is framed into or hung on decides; of several the nearest.
    for (const deck::PieceEnd side : {deck::PieceEnd::start, deck::PieceEnd::end}) {
      const double there = (side == deck::PieceEnd::start ? joist.from : joist.to).value();
      double nearest = endless;
      for (const std::size_t m : of_joist_[j]) {
        const deck::Meeting& meeting = deck_.meetings[m];
        if (!deck::at_side(meeting.kind) || meeting.end != side) continue;
        const double off = std::abs(meeting.place.value() - there);
        if (off >= nearest) continue;
        nearest = off;
        (side == deck::PieceEnd::start ? end.from : end.to) = meeting.place.value();
      }
    }
    ends_.push_back(end);
  }
}

void Plan::find_carrying_sisters() {
  by_sister_.assign(deck_.joists.size(), false);
  const double apart = figure("sister_seats_apart_mm");
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    const deck::Joist& joist = deck_.joists[j];
    if (joist.absent.empty() || joist.sisters.empty()) continue;
    bool hung = false;
    std::vector<double> seats;
    for (const std::size_t m : of_joist_[j]) {
      const deck::Meeting& meeting = deck_.meetings[m];
      if (deck::at_side(meeting.kind)) {
        hung = true;
      } else if (bears(meeting)) {
        seats.push_back(station_on_joist(meeting));
      }
    }
    const auto [low, high] = std::minmax_element(seats.begin(), seats.end());
    by_sister_[j] = !hung && seats.size() > 1 && *high - *low > apart;
  }
}

/// Is what a joist lies on there, and not loose?
bool Plan::bears(const deck::Meeting& meeting) const {
  switch (meeting.kind) {
    case deck::MeetingKind::joist_on_bearer: {
      const deck::Bearer& bearer = deck_.bearers[meeting.carrier];
      return !absent_at(bearer, bearer.from.value(), deck_.joists[meeting.piece].position.value());
    }
    case deck::MeetingKind::joist_on_support: {
      const deck::Support& support = deck_.supports[meeting.carrier];
      return support.absent.empty() && support.footing.contact != record::Contact::loose;
    }
    case deck::MeetingKind::joist_on_wall: {
      const deck::Wall& wall = deck_.walls[meeting.carrier];
      return wall.absent.empty() && wall.contact != record::Contact::loose;
    }
    default:
      return false;
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
    std::vector<WallCrossing> places;
    for (std::size_t m = 0; m < deck_.meetings.size(); ++m) {
      const deck::Meeting& meeting = deck_.meetings[m];
      if (meeting.kind != deck::MeetingKind::joist_on_wall || meeting.carrier != w) continue;
      places.push_back({m, static_cast<int>(meeting.piece), station_on_joist(meeting), 0.0});
    }
    if (places.empty()) continue;
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
    for (const std::size_t m : of_joist_[j]) {
      const deck::Meeting& meeting = deck_.meetings[m];
      if (!deck::at_side(meeting.kind)) add_station(at, station_on_joist(meeting));
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
  std::vector<deck::Strip> joists;
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    joists.push_back({along_, deck_.joists[j].position, mm(from(j)), mm(to(j)), Length()});
  }
  for (int k = 0; k < count; ++k) {
    const double strip_low = edge(k), strip_high = edge(k + 1);
    const double centre = snapped(0.5 * (strip_low + strip_high), special);
    const std::size_t first_of_row = boards_.size();
    for (const Interval& interval : line_intervals(deck_.outline, across(), mm(centre))) {
      BoardPlace place;
      place.low = strip_low;
      place.high = strip_high;
      place.from = interval.low.value();
      place.to = interval.high.value();
      const auto lie = [&](double s) {
        place.s = s;
        place.joists.clear();
        place.joist_t.clear();
        std::vector<bool> there(deck_.joists.size());
        for (std::size_t j = 0; j < there.size(); ++j) there[j] = !gone_at(j, s);
        const deck::BoardLine under =
            deck::board_line(joists, there, mm(s), interval, mm(doubled), mm(station_tolerance));
        place.before = under.before.value();
        place.beyond = under.beyond.value();
        for (const std::size_t j : under.joists) {
          place.joists.push_back(static_cast<int>(j));
          place.joist_t.push_back(deck_.joists[j].position.value());
        }
      };
      lie(centre);
      // A board whose middle lies past the joists' ends still stands with a part of its width on them.
      for (std::size_t j = 0; j < deck_.joists.size() && place.joists.size() < 2; ++j) {
        for (const double end : {from(j), to(j)}) {
          if (place.joists.size() < 2 && end > strip_low && end < strip_high) lie(end);
        }
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
  for (const std::size_t m : on_bearer_[bearer]) {
    at.push_back(deck_.joists[deck_.meetings[m].piece].position.value());
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
  for (const std::size_t m : on_ledger_[ledger]) {
    at.push_back(deck_.joists[deck_.meetings[m].piece].position.value());
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
