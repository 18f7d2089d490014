#include "options.hpp"

#include "underprop/base/geometry.hpp"
#include "works/rules.hpp"
#include "works/touched.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::planner {

using works::Measure;
using works::Work;

namespace {

std::string number(double mm_value) { return std::to_string(std::lround(mm_value)); }

std::vector<double> evenly(double from, double to, double spacing) {
  const int gaps = std::max(1, static_cast<int>(std::ceil((to - from) / spacing - 1e-9)));
  std::vector<double> places;
  for (int k = 0; k <= gaps; ++k) places.push_back(from + (to - from) * k / gaps);
  return places;
}

}  // namespace

Candidates::Candidates(const record::Survey& survey)
    : survey_(survey),
      deck_(deck::resolve(survey, record::Reading::cautious).deck),
      catalogue_(catalogue(survey.standard)) {
  if (!deck_.joists.empty()) along_ = deck_.joists.front().direction;
  clear_ = works::clear_height(survey).value();
  under_ = {1e300, -1e300, 1e300, -1e300};
  for (const deck::Load& load : deck_.loads) {
    const Interval s = extent(load.footprint, along_);
    const Interval t = extent(load.footprint, other(along_));
    under_.s_low = std::min(under_.s_low, s.low.value());
    under_.s_high = std::max(under_.s_high, s.high.value());
    // One joist beyond the footprint on each side shares through the boards.
    double low = t.low.value(), high = t.high.value(), before = -1e300, after = 1e300;
    for (const deck::Joist& joist : deck_.joists) {
      const double p = joist.position.value();
      if (p < t.low.value()) before = std::max(before, p);
      if (p > t.high.value()) after = std::min(after, p);
    }
    if (before > -1e299) low = before;
    if (after < 1e299) high = after;
    under_.t_low = std::min(under_.t_low, low);
    under_.t_high = std::max(under_.t_high, high);
  }
}

std::vector<WorkSet> Candidates::moves() const {
  std::vector<WorkSet> list;
  if (!survey_.allow.move_load || survey_.loads.size() != 1 || survey_.loads.front().pinned)
    return list;
  const deck::Load& load = deck_.loads.front();
  const Interval x = extent(deck_.outline, Axis::x), y = extent(deck_.outline, Axis::y);
  std::vector<std::pair<double, Work>> found;
  const int grid = std::max(2, catalogue_.move_grid);
  for (const bool turned : {false, true}) {
    if (turned && !survey_.allow.turn_load) continue;
    const record::HeavyLoad& record = survey_.loads.front();
    const bool looks_the_same =
        record.base.is_value() && record.base.value() == record::BaseKind::full &&
        (record.shape == record::Shape::circle ||
         (record.shape == record::Shape::rectangle && record.width == record.length));
    if (turned && looks_the_same) continue;
    Polygon shape = load.footprint;
    for (Point& p : shape) p = p - load.centre;
    if (turned) {
      for (Point& p : shape) p = rotate(p, 90.0);
    }
    const Interval sx = extent(shape, Axis::x), sy = extent(shape, Axis::y);
    for (int i = 0; i < grid; ++i) {
      for (int k = 0; k < grid; ++k) {
        const double fx = static_cast<double>(i) / (grid - 1),
                     fy = static_cast<double>(k) / (grid - 1);
        const double x0 = x.low.value() - sx.low.value(), x1 = x.high.value() - sx.high.value();
        const double y0 = y.low.value() - sy.low.value(), y1 = y.high.value() - sy.high.value();
        if (x1 < x0 || y1 < y0) continue;
        const Point at{mm(std::round(x0 + fx * (x1 - x0))), mm(std::round(y0 + fy * (y1 - y0)))};
        Polygon placed;
        bool inside = true;
        for (const Point& p : shape) {
          placed.push_back(p + at);
          inside = inside && contains(deck_.outline, placed.back());
        }
        for (const record::Zone& zone : deck_.obstacles) {
          inside = inside && distance(placed, zone.outline) >= max(load.service_gap, mm(1.0));
        }
        if (!inside || (!turned && distance(at, load.centre).value() < 1.0)) continue;
        Work work;
        work.measure = Measure::move_load;
        work.load = 0;
        // A polygon is placed by its own origin, which its centre follows.
        work.load_at = survey_.loads.front().at + (at - load.centre);
        work.load_rotation_deg = survey_.loads.front().rotation_deg + (turned ? 90.0 : 0.0);
        work.id = "move-load-" + number(at.x.value()) + "-" + number(at.y.value()) +
                  (turned ? "-turned" : "");
        found.emplace_back(distance(at, load.centre).value() + (turned ? 1.0 : 0.0),
                           std::move(work));
      }
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  for (auto& [distance, work] : found) list.push_back({std::move(work)});
  return list;
}

WorkSet Candidates::packing() const {
  if (!survey_.allow.packing) return {};
  Work work;
  work.measure = Measure::pack;
  work.id = "pack-supports";
  for (const deck::Support& support : deck_.supports) {
    if (support.added) continue;
    if (support.footing.contact == record::Contact::tight && support.footing.contact_recorded &&
        support.packers <= 2) {
      continue;
    }
    work.pieces.push_back(support.id);
    work.places.push_back(support.at);
  }
  if (work.pieces.empty()) return {};
  return {work};
}

double Candidates::pad_thickness(double pad, double standing) const {
  const double step = catalogue_.pad_step.value();
  const double least = works::building_value(survey_.standard, "pad/least_thickness_mm");
  return std::max(least, std::ceil(std::max(0.0, (pad - standing) / 2.0) / step - 1e-9) * step);
}

void Candidates::sink(Work& work, double thickness, double above) const {
  // Where the house holds the deck too, new footings go below the frost.
  const Length frost = deck_.ledgers.empty() ? mm(0.0) : deck_.site.frost_depth;
  work.pad_depth = max(max(catalogue_.pad_depth, mm(thickness)), frost);
  if (above >= catalogue_.least_post.value()) {
    work.pad_thickness = mm(thickness);
    work.post_height = mm(above) + (work.pad_depth - work.pad_thickness);
  } else {
    // Cast up to what stands on it.
    work.post_height = mm(0.0);
    work.pad_thickness = work.pad_depth + mm(std::max(0.0, above));
  }
}

bool Candidates::pad_fits(Point at, double side) const {
  const Polygon square = place(rectangle(mm(side), mm(side)), 0.0, at);
  for (const deck::Support& support : deck_.supports) {
    const Polygon old =
        place(rectangle(support.footing.width, support.footing.length), 0.0, support.at);
    if (area(clip_convex(square, old)).value() > 1.0) return false;
  }
  for (const deck::Wall& wall : deck_.walls) {
    if (distance_to_segment(square, wall.a, wall.b) < wall.strip_width / 2.0) return false;
  }
  for (const record::Zone& zone : deck_.closed_zones) {
    if (distance(square, zone.outline).value() <= 0.0) return false;
  }
  return true;
}

Work Candidates::line(double s, const Section& section, double spacing, double pad,
                      bool sleeper) const {
  Work work;
  work.measure = sleeper ? Measure::sleeper : Measure::bearer_on_pads;
  work.direction = other(along_);
  work.position = mm(std::round(s));
  const Interval across = extent(deck_.outline, other(along_));
  work.from = mm(std::max(across.low.value(), under_.t_low - catalogue_.overhang.value()));
  work.to = mm(std::min(across.high.value(), under_.t_high + catalogue_.overhang.value()));
  work.breadth = section.breadth;
  work.depth = section.depth;
  work.plies = section.plies;
  work.timber = catalogue_.timber;
  work.pad_width = work.pad_length = mm(pad);
  const double under_bearer = clear_ - section.depth.value();
  sink(work, pad_thickness(pad, section.breadth.value() * section.plies), under_bearer);
  work.rewedge_after_fill = true;
  for (const double t :
       evenly(work.from.value() + 0.5 * pad * 0.5, work.to.value() - 0.5 * pad * 0.5, spacing)) {
    const Point at = at_along(work.direction, mm(std::round(t)), work.position);
    if (pad_fits(at, pad)) work.places.push_back(at);
  }
  work.id = std::string(sleeper ? "sleeper-" : "bearer-") + number(s);
  return work;
}

std::vector<double> Candidates::positions() const {
  // Lines across the joists that carry already.
  std::vector<double> old;
  for (const deck::Bearer& bearer : deck_.bearers) old.push_back(bearer.position.value());
  for (const deck::Ledger& ledger : deck_.ledgers) old.push_back(ledger.position.value());
  for (const deck::Wall& wall : deck_.walls) {
    old.push_back(0.5 * (along(wall.a, along_) + along(wall.b, along_)).value());
  }
  for (const deck::Support& support : deck_.supports) {
    if (support.joist >= 0) old.push_back(along(support.at, along_).value());
  }
  std::sort(old.begin(), old.end());
  std::vector<double> list;
  const auto offer = [&](double s) {
    const bool near_old =
        std::any_of(old.begin(), old.end(), [&](double o) { return std::abs(o - s) < 250.0; });
    const bool known =
        std::any_of(list.begin(), list.end(), [&](double o) { return std::abs(o - s) < 100.0; });
    if (!near_old && !known) list.push_back(std::round(s));
  };
  offer(0.5 * (under_.s_low + under_.s_high));
  for (std::size_t k = 0; k + 1 < old.size(); ++k) {
    const double a = old[k], b = old[k + 1];
    if (b < under_.s_low - 300.0 || a > under_.s_high + 300.0 || b - a < 600.0) continue;
    offer(0.5 * (a + b));
    if (b - a > catalogue_.third_points_from.value()) {
      offer(a + (b - a) / 3.0);
      offer(a + 2.0 * (b - a) / 3.0);
    }
  }
  offer(under_.s_low + 0.25 * (under_.s_high - under_.s_low));
  offer(under_.s_low + 0.75 * (under_.s_high - under_.s_low));
  return list;
}

std::vector<WorkSet> Candidates::lines() const {
  std::vector<WorkSet> list;
  if (!survey_.allow.digging || catalogue_.bearers.empty()) return list;
  const bool bearers = survey_.allow.bearers, sleepers = survey_.allow.sleepers;
  if (!bearers && !sleepers) return list;
  std::vector<const Section*> fitting;
  for (const Section& section : catalogue_.bearers) {
    if (section.depth.value() <= clear_) fitting.push_back(&section);
  }
  if (fitting.empty()) return list;
  // Start from the middle of the list; forms() goes up and down from there.
  const Section& section = *fitting[fitting.size() / 2];
  const double spacing = catalogue_.pad_spacings[catalogue_.pad_spacings.size() / 2].value();
  const double pad = catalogue_.pads[catalogue_.pads.size() / 2].value();
  const std::vector<double> at = positions();
  const bool low = clear_ - section.depth.value() < catalogue_.least_post.value();
  if (!bearers && !(low && sleepers)) return list;
  const auto put = [&](const std::vector<double>& places) {
    WorkSet set;
    for (const double s : places) {
      Work work = line(s, section, spacing, pad, low && sleepers);
      if (work.places.size() < 2) return;
      set.push_back(std::move(work));
    }
    std::stable_sort(set.begin(), set.end(),
                     [](const Work& a, const Work& b) { return a.id < b.id; });
    list.push_back(std::move(set));
  };
  for (const double s : at) put({s});
  for (std::size_t i = 0; i < at.size(); ++i) {
    for (std::size_t k = i + 1; k < at.size(); ++k) {
      if (std::abs(at[i] - at[k]) > 500.0) put({at[i], at[k]});
    }
  }
  if (at.size() >= 3) put({at[0], at[1], at[2]});
  return list;
}

std::vector<Work> Candidates::forms(const Work& work) const {
  std::vector<Work> list;
  if (work.measure == Measure::ledger_bolts) {
    for (const deck::Ledger& ledger : deck_.ledgers) {
      if (survey_.deck.ledgers[static_cast<std::size_t>(ledger.index)].name != work.pieces.front())
        continue;
      for (const Length spacing : catalogue_.ledger_bolt_spacings) {
        Work other = work;
        set_bolts(other, ledger, spacing);
        if (!(other == work)) list.push_back(std::move(other));
      }
    }
    return list;
  }
  if (work.measure != Measure::bearer_on_pads && work.measure != Measure::sleeper) {
    if (work.measure == Measure::bigger_pad || work.measure == Measure::pad) {
      for (const Length side : catalogue_.pads) {
        Work other = work;
        other.pad_width = other.pad_length = side;
        other.pad_thickness = mm(pad_thickness(side.value(), 0.3 * side.value()));
        if (other.post_height.value() <= 0.0 && work.measure == Measure::pad)
          other.pad_thickness = work.pad_thickness;
        const bool fits = work.measure == Measure::bigger_pad ||
                          std::all_of(work.places.begin(), work.places.end(),
                                      [&](Point p) { return pad_fits(p, side.value()); });
        if (fits && !(other == work)) list.push_back(std::move(other));
      }
    }
    return list;
  }
  for (const Section& section : catalogue_.bearers) {
    if (section.depth.value() > clear_) continue;
    for (const Length spacing : catalogue_.pad_spacings) {
      for (const Length pad : catalogue_.pads) {
        Work other = line(work.position.value(), section, spacing.value(), pad.value(),
                          work.measure == Measure::sleeper);
        other.id = work.id;
        if (other.places.size() >= 2 && !(other == work)) list.push_back(std::move(other));
      }
    }
  }
  return list;
}

WorkSet Candidates::split(const WorkSet& set) {
  WorkSet result;
  for (const Work& work : set) {
    const bool one_each = work.measure == Measure::sister || work.measure == Measure::bigger_pad ||
                          work.measure == Measure::hangers || work.measure == Measure::pack;
    if (!one_each || work.pieces.size() < 2) {
      result.push_back(work);
      continue;
    }
    for (std::size_t k = 0; k < work.pieces.size(); ++k) {
      Work single = work;
      single.pieces = {work.pieces[k]};
      if (work.places.size() == work.pieces.size()) single.places = {work.places[k]};
      single.id = work.id + "-" + work.pieces[k];
      result.push_back(std::move(single));
    }
  }
  return united(std::move(result), {});
}

Work Candidates::sister_of(const deck::Joist& joist) const {
  Work work;
  work.measure = Measure::sister;
  work.pieces = {joist.id};
  work.breadth = joist.breadth;
  work.depth = joist.depth;
  work.timber = catalogue_.timber;
  work.id = "sister-" + joist.id;
  return work;
}

void Candidates::set_bolts(Work& work, const deck::Ledger& ledger, Length spacing) const {
  work.bolt_spacing = spacing;
  work.places.clear();
  const double end = catalogue_.ledger_bolt_end.value();
  for (const double t :
       evenly(ledger.from.value() + end, ledger.to.value() - end, spacing.value())) {
    work.places.push_back(at_along(ledger.direction, mm(std::round(t)), ledger.position));
  }
}

std::optional<Work> Candidates::ledger_bolts(const deck::Ledger& ledger,
                                             const WorkSet& present) const {
  const std::string& name = survey_.deck.ledgers[static_cast<std::size_t>(ledger.index)].name;
  // Only where somebody has seen wood behind it; a ledger in several lengths is left alone.
  if (!ledger.wall_recorded || ledger.fixed_to != record::LedgerWall::timber_band) return {};
  if (!(ledger.to - ledger.from > 2.0 * catalogue_.ledger_bolt_end)) return {};
  for (const deck::Ledger& other : deck_.ledgers) {
    if (other.index == ledger.index && other.id != ledger.id) return {};
  }
  for (const Work& work : present) {
    if (work.measure == Measure::ledger_bolts && work.pieces.front() == name) return {};
  }
  const auto& spacings = catalogue_.ledger_bolt_spacings;
  const bool bolted = ledger.fixing == record::FixingKind::bolt && ledger.sound &&
                      ledger.fixing_diameter >= catalogue_.ledger_bolt;
  std::optional<Length> spacing;
  for (std::size_t k = 0; k <= spacings.size() / 2; ++k) {
    if (!bolted || spacings[k] < ledger.fixing_spacing) spacing = spacings[k];
  }
  if (!spacing) return {};
  Work work;
  work.measure = Measure::ledger_bolts;
  work.pieces = {name};
  work.bolt_diameter = catalogue_.ledger_bolt;
  work.id = "ledger-bolts-" + name;
  set_bolts(work, ledger, *spacing);
  return work;
}

std::vector<WorkSet> Candidates::answers(const Failure& failure, const WorkSet& present) const {
  std::vector<WorkSet> list;
  const record::Allowed& allow = survey_.allow;
  const auto has = [&](const std::string& id) {
    return std::any_of(present.begin(), present.end(),
                       [&](const Work& work) { return work.id == id; });
  };
  const auto put = [&](Work work) {
    if (!has(work.id)) list.push_back({std::move(work)});
  };
  std::string piece = failure.piece;
  if (const auto space = piece.find(" sister"); space != std::string::npos)
    piece = piece.substr(0, space);
  const auto joist = std::find_if(deck_.joists.begin(), deck_.joists.end(),
                                  [&](const deck::Joist& j) { return j.id == piece; });
  const auto bearer = std::find_if(deck_.bearers.begin(), deck_.bearers.end(),
                                   [&](const deck::Bearer& b) { return b.id == piece; });
  if (joist != deck_.joists.end()) {
    const std::string group = survey_.deck.joists[static_cast<std::size_t>(joist->group)].name;
    if (failure.check == "end connection" && allow.hangers) {
      Work work;
      work.measure = Measure::hangers;
      work.pieces = {joist->id};
      work.fasteners = static_cast<int>(works::building_value(survey_.standard, "hanger/nails"));
      work.id = "hangers-" + joist->id;
      put(std::move(work));
    }
    if ((failure.check == "bending" || failure.check == "shear" ||
         failure.check == "bearing across the grain" || failure.service ||
         failure.check == "end connection") &&
        allow.sisters && joist->sisters.empty()) {
      put(sister_of(*joist));
    }
    if ((failure.check == "held upright" || failure.check == "bending") && allow.blocking) {
      WorkSet rows;
      std::vector<double> at{joist->from.value() + 60.0, joist->to.value() - 60.0};
      for (const deck::Bearer& b : deck_.bearers) at.push_back(b.position.value());
      std::sort(at.begin(), at.end());
      double last = -1e300;
      for (const double s : at) {
        if (s - last < 250.0 || s < joist->from.value() || s > joist->to.value()) continue;
        last = s;
        Work work;
        work.measure = Measure::blocking;
        work.pieces = {group};
        work.position = mm(std::round(s));
        work.breadth = joist->breadth;
        work.depth = joist->depth;
        work.timber = catalogue_.timber;
        work.id = "blocking-" + group + "-" + number(s);
        if (!has(work.id)) rows.push_back(std::move(work));
      }
      if (!rows.empty()) list.push_back(std::move(rows));
    }
    if (failure.check == "bending" || failure.service || failure.check == "shear") {
      for (const WorkSet& set : lines()) {
        if (set.size() == 1 && !has(set.front().id)) list.push_back(set);
      }
    }
  }
  if (bearer != deck_.bearers.end() && allow.pads && allow.digging) {
    std::vector<double> props{bearer->from.value(), bearer->to.value()};
    const int index = static_cast<int>(bearer - deck_.bearers.begin());
    for (const deck::Support& support : deck_.supports) {
      if (support.bearer == index) props.push_back(along(support.at, bearer->direction).value());
    }
    for (const Work& work : present) {
      if (work.measure != Measure::pad || work.pieces.front() != piece) continue;
      for (const Point p : work.places) props.push_back(along(p, bearer->direction).value());
    }
    std::sort(props.begin(), props.end());
    const auto put_pad = [&](double along) {
      const Point at = at_along(bearer->direction, mm(std::round(along)), bearer->position);
      // A pad of middling size, or the largest below that for which there is room.
      std::size_t size = catalogue_.pads.size() / 2;
      while (size > 0 && !pad_fits(at, catalogue_.pads[size].value())) --size;
      const double side = catalogue_.pads[size].value();
      if (!pad_fits(at, side)) return;
      Work work;
      work.measure = Measure::pad;
      work.pieces = {piece};
      work.places = {at};
      work.pad_width = work.pad_length = mm(side);
      sink(work, pad_thickness(side, 0.3 * side),
           clear_ - (bearer->flush ? 0.0 : bearer->depth.value()));
      work.timber = catalogue_.timber;
      work.rewedge_after_fill = true;
      work.id = "pad-" + piece + "-" + number(along);
      put(std::move(work));
    };
    // A splice wants one right below it; anything else one between two props that are far apart.
    if (failure.check == "splice") {
      for (const Length splice : bearer->splices) put_pad(splice.value());
    }
    for (std::size_t k = 0; k + 1 < props.size(); ++k) {
      const double a = props[k], b = props[k + 1];
      if (failure.check == "splice" || b - a < 700.0 || b < under_.t_low - 300.0 ||
          a > under_.t_high + 300.0)
        continue;
      put_pad(0.5 * (a + b));
    }
  }
  if (failure.check == "ground pressure" && allow.bigger_pads && allow.digging) {
    const std::string recorded = works::recorded_name(piece);
    for (const deck::Support& support : deck_.supports) {
      if (support.id != recorded) continue;
      for (const Length side : catalogue_.pads) {
        if (side <= max(support.footing.width, support.footing.length)) continue;
        Work work;
        work.measure = Measure::bigger_pad;
        work.pieces = {recorded};
        work.places = {support.at};
        work.pad_width = work.pad_length = side;
        work.pad_thickness = mm(pad_thickness(side.value(), 0.3 * side.value()));
        work.pad_depth = max(max(catalogue_.pad_depth, work.pad_thickness),
                             deck_.ledgers.empty() ? mm(0.0) : deck_.site.frost_depth);
        work.id = "bigger-pad-" + recorded;
        put(std::move(work));
      }
    }
  }
  if (failure.check == "one person on one board" && allow.sisters) {
    // Where a stretch of a joist is gone, a whole new joist beside it gives the boards something to lie on.
    for (const deck::Joist& j : deck_.joists) {
      if (j.absent.empty() || !j.sisters.empty()) continue;
      put(sister_of(j));
    }
  }
  if (failure.check == "one person on one board" && allow.added_joists) {
    WorkSet set;
    std::vector<double> t;
    for (const deck::Joist& j : deck_.joists) t.push_back(j.position.value());
    std::sort(t.begin(), t.end());
    for (std::size_t k = 0; k + 1 < t.size(); ++k) {
      if (t[k + 1] < under_.t_low - 700.0 || t[k] > under_.t_high + 700.0 ||
          t[k + 1] - t[k] < 250.0)
        continue;
      const deck::Joist& like = deck_.joists[deck_.joists.size() / 2];
      Work work;
      work.measure = Measure::added_joist;
      work.direction = along_;
      work.position = mm(std::round(0.5 * (t[k] + t[k + 1])));
      work.from = like.from;
      work.to = like.to;
      work.breadth = like.breadth;
      work.depth = like.depth;
      work.timber = catalogue_.timber;
      work.fasteners = static_cast<int>(works::building_value(survey_.standard, "hanger/nails"));
      work.id = "joist-" + number(work.position.value());
      if (!has(work.id)) set.push_back(std::move(work));
    }
    if (!set.empty()) list.push_back(united(std::move(set), {}));
  }
  if (failure.check.starts_with("sway along") && allow.braces) {
    Work work;
    work.measure = Measure::brace;
    work.direction = failure.check.back() == 'x' ? Axis::x : Axis::y;
    const Interval x = extent(deck_.outline, work.direction);
    work.pieces = {survey_.deck.supports.empty() ? "corner" : survey_.deck.supports.front().name};
    for (int k = 0; k < 4; ++k) {
      const bool high = k >= 2;
      work.places.push_back(at_along(work.direction, high ? x.high : x.low,
                                     extent(deck_.outline, other(work.direction)).low));
    }
    work.breadth = catalogue_.brace.breadth;
    work.depth = catalogue_.brace.depth;
    work.timber = catalogue_.timber;
    work.fasteners = 2;
    work.from = mm(0.0);
    work.to = deck_.height;
    work.id = std::string("brace-") + (work.direction == Axis::x ? "x" : "y");
    put(std::move(work));
  }
  if (failure.check.starts_with("ledger fixing") && allow.ledger_bolts) {
    for (const deck::Ledger& ledger : deck_.ledgers) {
      if (ledger.id != piece) continue;
      if (std::optional<Work> work = ledger_bolts(ledger, present)) put(std::move(*work));
    }
  }
  if (failure.check.starts_with("ledger fixing") || failure.check == "equilibrium" ||
      failure.check == "post, buckling" || failure.check == "bolts to the side of a post" ||
      failure.check == "ground pressure" || failure.check == "end connection" ||
      failure.check == "level in the long run") {
    for (const WorkSet& set : lines()) {
      const bool fresh =
          std::none_of(set.begin(), set.end(), [&](const Work& work) { return has(work.id); });
      if (set.size() <= 2 && fresh) list.push_back(set);
    }
  }
  return list;
}

std::vector<std::string> Candidates::not_allowed() const {
  const record::Allowed& a = survey_.allow;
  std::vector<std::string> list;
  const std::pair<bool, const char*> flags[] = {{a.move_load, "moving the load"},
                                                {a.packing, "packing"},
                                                {a.pads, "new pads"},
                                                {a.sleepers, "sleepers"},
                                                {a.bearers, "new bearers"},
                                                {a.sisters, "sisters"},
                                                {a.added_joists, "added joists"},
                                                {a.blocking, "blocking"},
                                                {a.hangers, "hangers"},
                                                {a.bigger_pads, "bigger pads"},
                                                {a.braces, "braces"},
                                                {a.ledger_bolts, "ledger bolts"},
                                                {a.digging, "digging"}};
  for (const auto& [allowed, name] : flags) {
    if (!allowed) list.emplace_back(name);
  }
  return list;
}

}  // namespace underprop::planner
