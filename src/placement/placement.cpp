#include "underprop/placement/placement.hpp"
#include "figures.hpp"
#include "underprop/deck/pieces.hpp"

#include "capacity.hpp"
#include "catalog/table.hpp"
#include "underprop/base/geometry.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <exception>
#include <limits>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

namespace underprop::placement {

using assessment::Look;
using assessment::PreparedDeck;
using deck::Load;

namespace {

bool convex(const Polygon& polygon) {
  const std::size_t n = polygon.size();
  for (std::size_t k = 0; k < n; ++k) {
    const Point a = polygon[(k + 1) % n] - polygon[k];
    const Point b = polygon[(k + 2) % n] - polygon[(k + 1) % n];
    if (a.x.value() * b.y.value() - a.y.value() * b.x.value() < -1e-6) return false;
  }
  return true;
}

/// Looks alike when turned by a right angle?
bool turns_into_itself(const record::HeavyLoad& load) {
  const bool even = load.base.is_value() && load.base.value() == record::BaseKind::full;
  return even && (load.shape == record::Shape::circle ||
                  (load.shape == record::Shape::rectangle && load.width == load.length));
}

/// Rounds to thousandths, so that equal places are equal.
double tidy(double x) { return std::round(x * 1000.0) / 1000.0; }

/// Everything in strips that are alike however many cores there are, so that the same survey gives the
/// same bytes: each strip has its own prepared deck, and what that remembers depends on the places before.
/// `strip(first, last, done)` hands every spot to `done(k, spot)` and ends when that says false.
template <class Strip>
std::vector<std::optional<Spot>> in_strips(std::size_t count, const Progress& progress,
                                           const Strip& strip) {
  constexpr std::size_t least = 64, most_strips = 16, told_every = 50;
  std::vector<std::optional<Spot>> spots(count);
  const std::size_t strips = std::clamp<std::size_t>(count / least, 1, most_strips);
  std::atomic<std::size_t> next{0};
  std::atomic<bool> stopped{false};
  std::mutex mutex;  // for what follows
  std::size_t ready = 0;
  std::exception_ptr fault;
  const auto done = [&](std::size_t k, Spot spot) {
    spots[k] = std::move(spot);
    const std::lock_guard lock(mutex);
    ++ready;
    if (progress && ready % told_every == 0 &&
        !progress(static_cast<double>(ready) / static_cast<double>(count)))
      stopped = true;
    return !stopped;
  };
  const auto work = [&] {
    try {
      for (std::size_t s = next++; s < strips && !stopped; s = next++)
        strip(s * count / strips, (s + 1) * count / strips, done);
    } catch (...) {
      const std::lock_guard lock(mutex);
      if (!fault) fault = std::current_exception();
      stopped = true;
    }
  };
  {
    std::vector<std::jthread> others;
    const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
    for (std::size_t k = 1; k < std::min(cores, strips); ++k) others.emplace_back(work);
    work();
  }
  if (fault) std::rethrow_exception(fault);
  return spots;
}

}  // namespace

Load moved(const Load& load, Point by) {
  Load m = load;
  for (Point& p : m.footprint) p = p + by;
  const auto shift = [&](Region& region) {
    for (Side& side : region) {
      side.from = side.from + by;
      side.to = side.to + by;
      side.centre = side.centre + by;
    }
  };
  shift(m.shape);
  for (Region& region : m.contact) shift(region);
  for (auto& patch : m.patches) {
    for (Point& p : patch) p = p + by;
  }
  m.centre = m.centre + by;
  return m;
}

bool fits(const deck::Deck& deck, const Load& load, const std::vector<Load>& others) {
  for (const Point p : load.footprint) {
    if (!contains(deck.outline, p)) return false;
  }
  if (convex(load.footprint)) {
    // No corner or slot of the outline may reach into it either.
    const double whole = area(load.footprint).value();
    const double on = area(clip_convex(deck.outline, load.footprint)).value();
    if (on < whole * (1.0 - 1e-9)) return false;
  } else {
    for (const Point corner : deck.outline) {
      if (contains(load.footprint, corner)) return false;
    }
  }
  for (const record::Zone& zone : deck.obstacles) {
    const Length clear = distance(load.footprint, zone.outline);
    if (clear.value() <= 0.0 || clear < load.service_gap) return false;
  }
  return std::all_of(others.begin(), others.end(), [&](const Load& other) {
    return distance(load.footprint, other.footprint).value() > 0.0;
  });
}

Judge::Judge(const record::Survey& survey, const standards::Standard& standard) : survey_(survey) {
  const deck::Resolved cautious = deck::resolve(survey, record::Reading::cautious);
  cautious_.emplace(cautious.deck, standard);
  loads_ = cautious.deck.loads;
  if (cautious.open.empty()) {
    likely_loads_ = loads_;
    return;
  }
  const deck::Deck likely = deck::resolve(survey, record::Reading::likely).deck;
  likely_.emplace(likely, standard, assessment::Options{.extent = assessment::Extent::service});
  likely_loads_ = likely.loads;
}

Look Judge::look(const Load& first, const Load& likely_first, const Where& where, double most) {
  loads_.front() = first;
  Look look = cautious_->look(loads_, most);
  if (look.passes()) {
    // The record is resolved again: a joist out of level refers under the load, not beside it.
    record::Survey there = survey_;
    there.loads.front().at = there.loads.front().at + where.by;
    there.loads.front().rotation_deg = where.rotation_deg;
    const auto reasons = deck::resolve(there, record::Reading::cautious).deck.refer_reasons;
    look.refers = !reasons.empty();
    if (look.refers) look.why = reasons.front();
  }
  if (!look.passes() || !likely_) return look;
  // Service is judged at likely facts.
  likely_loads_.front() = likely_first;
  const Look likely = likely_->look(likely_loads_, std::numeric_limits<double>::infinity());
  look.service = std::isinf(likely.utilisation) ? likely.utilisation : likely.service;
  return look;
}

Placement place(const record::Survey& survey, const standards::Standard& standard,
                const Wishes& wishes, const Progress& progress) {
  Placement result;
  const deck::Resolved resolved = deck::resolve(survey, record::Reading::cautious);
  const deck::Deck& deck = resolved.deck;
  if (deck.loads.empty()) {
    result.why_not = "no load is recorded";
    return result;
  }
  result.service_gap = deck.loads.front().service_gap;
  Judge judge(survey, standard);
  const std::vector<Load> others(deck.loads.begin() + 1, deck.loads.end());
  const auto spot = [](Judge& by, const Load& load, const Load& likely, const Where& where,
                       double most = 1.0) {
    const Look look = by.look(load, likely, where, most);
    Spot s;
    s.centre = load.centre;
    s.rotation_deg = where.rotation_deg;
    s.utilisation = look.utilisation;
    s.at_least = look.at_least;
    s.service = look.service;
    s.refers = look.refers;
    s.why = look.why;
    s.passes = look.passes() && !assessment::fails(look.service);
    s.piece = look.piece;
    s.check = look.check;
    return s;
  };
  const deck::Deck likely_deck =
      resolved.open.empty() ? deck : deck::resolve(survey, record::Reading::likely).deck;
  const double rotation = survey.loads.front().rotation_deg;
  constexpr double everything = std::numeric_limits<double>::infinity();
  const Where as_recorded{{}, rotation};
  result.wanted =
      spot(judge, deck.loads.front(), likely_deck.loads.front(), as_recorded, everything);

  // The load as it is, and turned by a right angle: both resolved by the survey's own rules.
  struct Way {
    double rotation;
    Load load, likely;
  };
  std::vector<Way> ways{{rotation, deck.loads.front(), likely_deck.loads.front()}};
  if (wishes.turned && !turns_into_itself(survey.loads.front())) {
    record::Survey turned = survey;
    turned.loads.front().rotation_deg += 90.0;
    const deck::Resolved a = deck::resolve(turned, record::Reading::cautious);
    const deck::Resolved b = deck::resolve(turned, record::Reading::likely);
    ways.push_back({turned.loads.front().rotation_deg, a.deck.loads.front(), b.deck.loads.front()});
  }
  const Interval X = extent(deck.outline, Axis::x);
  const Interval Y = extent(deck.outline, Axis::y);
  double step = wishes.step ? wishes.step->value() : figure("step_mm");
  const double area = (X.high - X.low).value() * (Y.high - Y.low).value();
  while (area / (step * step) * static_cast<double>(ways.size()) > figure("most_places"))
    step *= 2.0;
  result.step = mm(step);
  result.half_size = {(extent(deck.loads.front().footprint, Axis::x).high -
                       extent(deck.loads.front().footprint, Axis::x).low) /
                          2.0,
                      (extent(deck.loads.front().footprint, Axis::y).high -
                       extent(deck.loads.front().footprint, Axis::y).low) /
                          2.0};

  // Places step by step from the wanted one, and those where the load stands flush with an edge.
  const auto stations = [&](double low, double high, double wanted) {
    std::vector<double> at;
    if (high < low) return at;
    for (double u = wanted; u >= low; u -= step) at.push_back(u);
    for (double u = wanted + step; u <= high; u += step) at.push_back(u);
    at.push_back(low);
    at.push_back(high);
    std::sort(at.begin(), at.end());
    at.erase(std::unique(at.begin(), at.end(), [](double a, double b) { return b - a < 1.0; }),
             at.end());
    return at;
  };
  std::vector<std::pair<std::size_t, Point>> places;
  const Point wanted = deck.loads.front().centre;
  for (std::size_t w = 0; w < ways.size(); ++w) {
    const Load& load = ways[w].load;
    const Interval x = extent(load.footprint, Axis::x);
    const Interval y = extent(load.footprint, Axis::y);
    const double cx = load.centre.x.value(), cy = load.centre.y.value();
    for (const double v : stations((Y.low + (load.centre.y - y.low)).value(),
                                   (Y.high - (y.high - load.centre.y)).value(), wanted.y.value())) {
      for (const double u :
           stations((X.low + (load.centre.x - x.low)).value(),
                    (X.high - (x.high - load.centre.x)).value(), wanted.x.value())) {
        const Point by{mm(tidy(u - cx)), mm(tidy(v - cy))};
        if (fits(deck, moved(load, by), others)) places.emplace_back(w, by);
      }
    }
  }
  const auto look_at = [&](Judge& by_whom, const std::pair<std::size_t, Point>& place) {
    const Way& way = ways[place.first];
    return spot(by_whom, moved(way.load, place.second), moved(way.likely, place.second),
                {place.second, way.rotation});
  };
  const std::vector<std::optional<Spot>> looked = in_strips(
      places.size(), progress, [&](std::size_t first, std::size_t last, const auto& done) {
        Judge own(survey, standard);
        for (std::size_t k = first; k < last; ++k) {
          if (!done(k, look_at(own, places[k]))) return;
        }
      });
  std::size_t kept = 0;
  for (std::size_t k = 0; k < looked.size(); ++k) {
    if (!looked[k]) continue;  // told to stop before it
    places[kept++] = places[k];
    result.spots.push_back(*looked[k]);
  }
  if (places.empty())
    result.why_not = "the load fits nowhere on the deck clear of what stands there";
  const auto away = [&](const Spot& s) {
    const double turned = s.rotation_deg == rotation ? 0.0 : 1.0;  // a turn counts as a millimetre
    return distance(s.centre, wanted).value() + turned;
  };
  for (const Spot& s : result.spots) {
    if (!s.passes) continue;
    ++result.passing;
    if (!result.best || s.utilisation < result.best->utilisation * (1.0 - 1e-9) ||
        (s.utilisation <= result.best->utilisation * (1.0 + 1e-9) && away(s) < away(*result.best)))
      result.best = s;
    if (!result.nearest_passing || away(s) < away(*result.nearest_passing) - 1e-6)
      result.nearest_passing = s;
  }
  if (result.wanted.passes) result.nearest_passing = result.wanted;
  if (!result.best && !result.spots.empty()) {
    // Nothing passes: of the places whose first failing check fails least, the least overloaded.
    std::vector<std::size_t> order;
    for (std::size_t k = 0; k < result.spots.size(); ++k) {
      if (!result.spots[k].refers) order.push_back(k);
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return result.spots[a].utilisation < result.spots[b].utilisation;
    });
    order.resize(
        std::min<std::size_t>(order.size(), static_cast<std::size_t>(figure("looked_closer"))));
    for (const std::size_t k : order) {
      Spot& s = result.spots[k];
      const auto& [w, by] = places[k];
      s = spot(judge, moved(ways[w].load, by), moved(ways[w].likely, by), {by, ways[w].rotation},
               everything);
      if (!s.refers && (!result.best || s.utilisation < result.best->utilisation)) result.best = s;
    }
  }
  if (wishes.capacity)
    result.capacity = capacity(judge, deck.loads.front(), likely_deck.loads.front(), as_recorded);
  return result;
}

}  // namespace underprop::placement
