// Service: deflection at once and in the long run, level of the load, gaps that open underfoot.
#include "figures.hpp"
#include "findings.hpp"
#include "standards/sheet.hpp"
#include "underprop/base/geometry.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace underprop::assessment {

using standards::CheckKind;
using standards::Purpose;
using standards::Term;

namespace {

/// How the deck moves in one state; per node, mm, down positive.
struct Moved {
  solver::State at_once, lasting_now, lasting;

  /// The lasting part with creep, the passing part on top of it at once.
  [[nodiscard]] double in_the_end(int node) const {
    return -(lasting.w[node] + at_once.w[node] - lasting_now.w[node]);
  }
  /// What the passing loads alone do, at once.
  [[nodiscard]] double passing(int node) const { return lasting_now.w[node] - at_once.w[node]; }
  [[nodiscard]] const std::optional<std::string>& mechanism() const {
    return at_once.mechanism       ? at_once.mechanism
           : lasting_now.mechanism ? lasting_now.mechanism
                                   : lasting.mechanism;
  }
};

/// A joist or a bearer, and where it is carried.
struct Carried {
  std::string id;
  Axis direction = Axis::x;
  Length position, from;
  const model::Line& line;
  std::vector<double> supports;  ///< along it, ascending, mm

  template <class Piece>
  Carried(const Piece& piece, const model::Line& its, std::vector<double> at)
      : id(piece.id),
        direction(piece.direction),
        position(piece.position),
        from(piece.from),
        line(its),
        supports(std::move(at)) {
    std::sort(supports.begin(), supports.end());
    const auto near = [](double a, double b) { return b - a < 1.0; };
    supports.erase(std::unique(supports.begin(), supports.end(), near), supports.end());
  }
  [[nodiscard]] int node_near(double along) const {
    const auto away = [&](double a, double b) { return std::abs(a - along) < std::abs(b - along); };
    const auto best = std::min_element(line.at.begin(), line.at.end(), away);
    return line.nodes[static_cast<std::size_t>(best - line.at.begin())];
  }
};

/// The joists and bearers that the loads reach.
std::vector<Carried> carried(const deck::Deck& deck, const model::Model& model,
                             const LoadedPieces& loaded) {
  std::vector<Carried> list;
  for (std::size_t j = 0; j < deck.joists.size(); ++j) {
    if (!loaded.joists[j]) continue;
    std::vector<double> supports;
    for (const model::Crossing& crossing : model.crossings) {
      if (crossing.joist == static_cast<int>(j)) supports.push_back(crossing.at_joist);
    }
    list.emplace_back(deck.joists[j], model.joists[j], std::move(supports));
  }
  for (std::size_t b = 0; b < deck.bearers.size(); ++b) {
    if (!loaded.bearers[b]) continue;
    std::vector<double> supports;
    for (const model::Prop& prop : model.props) {
      if (!prop.ledger && prop.piece == static_cast<int>(b)) supports.push_back(prop.at);
    }
    list.emplace_back(deck.bearers[b], model.bearers[b], std::move(supports));
  }
  return list;
}

/// The slope of the plane that fits deflections of nodes best.
class Plane {
public:
  void add(double x, double y, double w) {
    n_ += 1;
    x_ += x;
    y_ += y;
    w_ += w;
    xx_ += x * x;
    xy_ += x * y;
    yy_ += y * y;
    xw_ += x * w;
    yw_ += y * w;
  }
  /// Standard deviation of the nodes' places in the direction in which they are spread least, mm.
  [[nodiscard]] double least_spread() const {
    if (n_ < 3) return 0.0;
    const double xx = (xx_ - x_ * x_ / n_) / n_, yy = (yy_ - y_ * y_ / n_) / n_;
    const double xy = (xy_ - x_ * y_ / n_) / n_;
    const double least = 0.5 * (xx + yy) - std::hypot(0.5 * (xx - yy), xy);
    return std::sqrt(std::max(least, 0.0));
  }
  /// Precondition: spread both ways.
  [[nodiscard]] double slope() const {
    const double xx = xx_ - x_ * x_ / n_, yy = yy_ - y_ * y_ / n_, xy = xy_ - x_ * y_ / n_;
    const double xw = xw_ - x_ * w_ / n_, yw = yw_ - y_ * w_ / n_, det = xx * yy - xy * xy;
    return std::hypot((xw * yy - yw * xy) / det, (yw * xx - xw * xy) / det);
  }

private:
  double n_ = 0, x_ = 0, y_ = 0, w_ = 0, xx_ = 0, xy_ = 0, yy_ = 0, xw_ = 0, yw_ = 0;
};

class ServiceFindings {
public:
  explicit ServiceFindings(const LoadedDeck& deck)
      : deck_(deck.deck()),
        standard_(deck.standard()),
        limits_(deck.standard().limits()),
        combination_(deck.basis().combinations.at(Purpose::service_now).front().id) {}

  /// `pieces`: of the model, on which the findings are told.
  void take(const model::Model& model, const std::vector<Carried>& pieces, const Moved& moved,
            const std::string& situation, bool lapped) {
    situation_ = situation;
    for (const Carried& piece : pieces) {
      for (std::size_t k = 0; k + 1 < piece.supports.size(); ++k)
        span(piece, piece.supports[k], piece.supports[k + 1], moved, lapped);
      for (const bool start : {true, false}) free_end(piece, start, moved, lapped);
    }
    for (std::size_t l = 0; l < deck_.loads.size(); ++l) level(model, moved, l);
    gaps(model, moved);
  }
  void write(DeckAssessment& result) {
    for (auto& [id, f] : worst_) result.findings.push_back(std::move(f));
    if (!(softest_ > 1.0 + standards::same_number)) return;
    result.cautions.push_back(soft_words_);
  }

private:
  void keep(Finding f);
  [[nodiscard]] Finding finding(const std::string& piece, standards::Check check, std::string where,
                                Point at) const;
  void span(const Carried& piece, double from, double to, const Moved& moved, bool lapped);
  void free_end(const Carried& piece, bool start, const Moved& moved, bool lapped);
  struct Limit {
    double ratio = 0.0;  ///< 0: none
    const Citation& source;
    const char* of = "span";
  };
  void put(const Carried& piece, CheckKind kind, const Limit& limit, double length, double most,
           double where, bool lapped);
  void tell_if_soft(const Carried& piece, double length, double most);
  void level(const model::Model& model, const Moved& moved, std::size_t load);
  void gaps(const model::Model& model, const Moved& moved);
  [[nodiscard]] const char* unit() const { return length_unit(standard_); }
  [[nodiscard]] double in_unit(Length length) const { return in_length_unit(standard_, length); }

  const deck::Deck& deck_;
  const standards::Standard& standard_;
  standards::ServiceLimits limits_;
  std::string combination_;
  std::string situation_;  ///< of the state that is taken
  std::map<std::string, Finding> worst_;
  double softest_ = 0.0;  ///< of the limit of comfort
  std::string soft_words_;
};

Finding ServiceFindings::finding(const std::string& piece, standards::Check check,
                                 std::string where, Point at) const {
  Finding f = plain_finding(piece, std::move(check), std::move(where), at, situation_);
  f.kind = Kind::service;
  f.combination = combination_;
  f.bound = "middling ground";
  return f;
}

void ServiceFindings::keep(Finding f) {
  f.check.utilisation = f.check.resistance > 0.0 ? f.check.demand / f.check.resistance : infinite;
  const auto found = worst_.find(f.id);
  if (found == worst_.end() || f.check.utilisation > found->second.check.utilisation * (1.0 + 1e-9))
    worst_[f.id] = std::move(f);
}

/// Deflections between two supports, their own settlement apart.
void ServiceFindings::span(const Carried& piece, double from, double to, const Moved& moved,
                           bool lapped) {
  const int first = piece.node_near(from), last = piece.node_near(to);
  double most_passing = 0.0, most_in_the_end = 0.0, where_passing = from, where = from;
  for (std::size_t n = 0; n < piece.line.at.size(); ++n) {
    const double x = piece.line.at[n];
    if (x <= from || x >= to) continue;
    const double f = (x - from) / (to - from);
    const int node = piece.line.nodes[n];
    const double passing =
        moved.passing(node) - (1.0 - f) * moved.passing(first) - f * moved.passing(last);
    if (passing > most_passing) {
      most_passing = passing;
      where_passing = x;
    }
    const double in_the_end =
        moved.in_the_end(node) - (1.0 - f) * moved.in_the_end(first) - f * moved.in_the_end(last);
    if (in_the_end > most_in_the_end) {
      most_in_the_end = in_the_end;
      where = x;
    }
  }
  put(piece, CheckKind::deflection_now, {limits_.deflection_now, limits_.deflection_now_source},
      to - from, most_passing, where_passing, lapped);
  put(piece, CheckKind::deflection_long, {limits_.deflection_long, limits_.deflection_long_source},
      to - from, most_in_the_end, where, lapped);
  tell_if_soft(piece, to - from, most_in_the_end);
}

/// Deflection of a free end below the straight line through the two supports next to it.
void ServiceFindings::free_end(const Carried& piece, bool start, const Moved& moved, bool lapped) {
  if (piece.supports.size() < 2 || piece.line.at.empty()) return;
  const std::size_t k = piece.supports.size();
  const double at = start ? piece.supports[0] : piece.supports[k - 1];
  const double inner = start ? piece.supports[1] : piece.supports[k - 2];
  const double tip = start ? piece.line.at.front() : piece.line.at.back();
  const double length = std::abs(tip - at);
  if (length < 1.0) return;
  const int end = start ? piece.line.nodes.front() : piece.line.nodes.back();
  const int near = piece.node_near(at), far = piece.node_near(inner);
  const double r = length / std::abs(at - inner);
  put(piece, CheckKind::deflection_now,
      {limits_.cantilever_now, limits_.cantilever_now_source, "overhang"}, length,
      moved.passing(end) - (1.0 + r) * moved.passing(near) + r * moved.passing(far), tip, lapped);
  put(piece, CheckKind::deflection_long,
      {limits_.cantilever_long, limits_.cantilever_long_source, "overhang"}, length,
      moved.in_the_end(end) - (1.0 + r) * moved.in_the_end(near) + r * moved.in_the_end(far), tip,
      lapped);
}

void ServiceFindings::put(const Carried& piece, CheckKind kind, const Limit& limit, double length,
                          double most, double where, bool lapped) {
  if (limit.ratio <= 0.0 || most <= 0.0) return;
  const bool now = kind == CheckKind::deflection_now;
  const char* symbol = now ? "w_pass" : "w_fin";
  standards::Sheet sheet(kind, {unit(), 1.0});
  sheet.taken("l", limit.of, in_unit(mm(length)), unit(), {});
  sheet.taken("w_least", "no limit is smaller", in_unit(limits_.least), unit(),
              limits_.least_source);
  sheet.taken(
      symbol,
      now ? "of passing loads alone, from the analysis, without the settlement of its supports"
          : "from the analysis, without the settlement of its supports",
      in_unit(mm(most)), unit(), {});
  sheet.line("limit", "max(l / " + format_decimals(limit.ratio, 0) + "; w_least)", unit(),
             limit.source);
  Finding f =
      finding(piece.id, sheet.finish(symbol, "limit", limit.source),
              format_length(mm(std::max(0.0, where - piece.from.value())), unit_system(standard_)) +
                  " from its start",
              at_along(piece.direction, mm(where), piece.position));
  if (lapped) f.bound += ", joists jointed over bearers";
  keep(std::move(f));
}

/// Within its limit a deck may still feel soft: that is told.
void ServiceFindings::tell_if_soft(const Carried& piece, double length, double most) {
  if (limits_.comfort_long <= 0.0) return;
  const double limit = std::max(length / limits_.comfort_long, limits_.least.value());
  if (most <= softest_ * limit * (1.0 + 1e-9)) return;
  softest_ = most / limit;
  const UnitSystem u = unit_system(standard_);
  soft_words_ = piece.id + " is expected to sag " + format_length(mm(most), u) +
                " in the long run: strong enough, but more than the " +
                format_length(mm(limit), u) + " (span/" + format_decimals(limits_.comfort_long, 0) +
                ") at which a deck feels and looks firm.";
}

/// The plane that fits the boards' nodes under a load best. Where those are too close together to show a
/// slope the nodes around them are taken too.
void ServiceFindings::level(const model::Model& model, const Moved& moved, std::size_t l) {
  const deck::Load& load = deck_.loads[l];
  const double wanted = figure("tilt_spread_mm"), most = figure("tilt_reach_mm");
  std::optional<double> tilt;
  for (double grown = 0.0; !tilt && grown <= most; grown += 50.0) {
    Plane plane;
    for (const model::Line& board : model.boards) {
      for (const int node : board.nodes) {
        const solver::Node& place = model.frame.nodes[static_cast<std::size_t>(node)];
        const Point at{mm(place.x), mm(place.y)};
        if (!contains(load.footprint, at) && !(distance(load.footprint, at) <= mm(grown))) continue;
        plane.add(place.x - load.centre.x.value(), place.y - load.centre.y.value(),
                  moved.in_the_end(node));
      }
    }
    if (plane.least_spread() >= wanted) tilt = plane.slope();
  }
  if (!tilt) return;
  // A slope in mm per m, or in inches per foot.
  const bool us = standard_.us_customary();
  const double per = us ? 12.0 : 1000.0;
  const char* slope = us ? "in/ft" : "mm/m";
  standards::Sheet sheet(CheckKind::level, {slope, 1.0});
  sheet.taken("tilt", "slope of the plane that fits the boards under it", per * *tilt, slope, {});
  sheet.line("limit",
             format_decimals(per, 0) + " / " + format_decimals(limits_.tilt, 0) + ", 1 in " +
                 format_decimals(limits_.tilt, 0),
             slope, limits_.tilt_source);
  const std::string number = "load " + std::to_string(l + 1);
  Finding f = finding(load.name.empty() ? number : load.name,
                      sheet.finish("tilt", "limit", limits_.tilt_source), "over its footprint",
                      load.centre);
  f.id = number + "/level";
  keep(std::move(f));
}

/// Gaps that open where somebody walks.
void ServiceFindings::gaps(const model::Model& model, const Moved& moved) {
  for (const model::Crossing& crossing : model.crossings) {
    if (crossing.link < 0 || crossing.two_way) continue;
    const auto other = static_cast<std::size_t>(crossing.other);
    const bool on_bearer = crossing.kind == model::CrossingKind::bearer;
    if (on_bearer && deck_.bearers[other].added) continue;
    const solver::Link& link = model.frame.links[static_cast<std::size_t>(crossing.link)];
    const double open = moved.at_once.w[link.i] - moved.at_once.w[link.j];
    constexpr double seen = 0.1;  // mm
    if (open <= seen) continue;
    const deck::Joist& joist = deck_.joists[static_cast<std::size_t>(crossing.joist)];
    const Citation source{"judgement", "2 mm where somebody walks"};
    standards::Sheet sheet(CheckKind::gap_opens, {unit(), 1.0});
    sheet.taken("gap", "from the analysis", in_unit(mm(open)), unit(), {});
    sheet.taken("limit", "where somebody walks", in_unit(limits_.gap_where_walked), unit(), source);
    keep(finding(joist.id, sheet.finish("gap", "limit", source),
                 on_bearer ? "over bearer " + deck_.bearers[other].id
                           : "at ledger " + deck_.ledgers[other].id,
                 at_along(joist.direction, mm(crossing.at_joist), joist.position)));
  }
}

/// Every joist and bearer as it lies in the end.
std::vector<Shape> deflected(const deck::Deck& deck, const model::Model& model,
                             const Moved& moved) {
  std::vector<Shape> shapes;
  const auto draw = [&](const std::string& piece, const model::Line& line) {
    Shape shape;
    shape.piece = piece;
    for (const int node : line.nodes) {
      const solver::Node& place = model.frame.nodes[static_cast<std::size_t>(node)];
      shape.at.push_back({mm(place.x), mm(place.y)});
      shape.w_mm.push_back(moved.in_the_end(node));
    }
    shapes.push_back(std::move(shape));
  };
  for (std::size_t j = 0; j < deck.joists.size(); ++j) draw(deck.joists[j].id, model.joists[j]);
  for (std::size_t b = 0; b < deck.bearers.size(); ++b) draw(deck.bearers[b].id, model.bearers[b]);
  return shapes;
}

/// Returns how many states were solved.
std::size_t move(const LoadedFrame& now, const LoadedFrame& later, const StateList& states,
                 StateId id, Moved& moved) {
  // Only deflections are read here.
  const std::vector<double> any(now.probes.lines.size(), infinite);
  const solver::Limits no_ends{any, any, any};
  const auto solve = [&](const LoadedFrame& frame, Purpose purpose, solver::State& state) {
    id.purpose = purpose;
    state.with_deflections = true;
    frame.states->solve(states.factors(id, frame.cases->infos), -1, false, state, &no_ends, -1);
  };
  solve(now, Purpose::service_now, moved.at_once);
  solve(now, Purpose::service_long, moved.lasting_now);
  solve(later, Purpose::service_long, moved.lasting);
  return 3;
}

/// What cannot be worked out does not pass.
bool not_worked_out(const LoadedFrame& frame, DeckAssessment& result) {
  if (frame.ready()) return false;
  if (frame.loose)
    result.mechanism = frame.loose;
  else
    result.refer_reasons.push_back(frame.not_modelled + ": such a deck is not modelled");
  return true;
}

}  // namespace

void service_findings(const LoadedDeck& loaded, const StateList& states, const LoadedPieces& pieces,
                      bool shapes, DeckAssessment& result) {
  ServiceFindings service(loaded);
  Moved moved;
  for (const bool lapped : {false, true}) {
    if (lapped && !laps_open(loaded.deck())) continue;
    const auto now = loaded.frame(service_bound(lapped, Term::now));
    const auto later = loaded.frame(service_bound(lapped, Term::long_term));
    if (not_worked_out(*now, result) || not_worked_out(*later, result)) break;
    const std::vector<Carried> loaded_lines = carried(loaded.deck(), now->model(), pieces);
    for (const StateId& id : states.service()) {
      result.solves += move(*now, *later, states, id, moved);
      if (moved.mechanism()) {
        result.mechanism = *moved.mechanism() + " (" + states.words(id) + ", in service, " +
                           now->bound.words() + ")";
        break;
      }
      service.take(now->model(), loaded_lines, moved, states.words(id), lapped);
      if (shapes && id.pattern == 0 && !lapped && states.situation(id).bathers != Bathers::half)
        result.shapes = deflected(loaded.deck(), now->model(), moved);
    }
    if (result.mechanism) break;
  }
  service.write(result);
}

}  // namespace underprop::assessment
