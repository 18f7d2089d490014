#include "effects.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <tuple>
#include <utility>

namespace underprop::assessment {

namespace {

void gather(const std::vector<model::Line>& lines, std::vector<int>& members) {
  for (const model::Line& line : lines) {
    for (const int member : line.members) {
      if (member >= 0) members.push_back(member);
    }
  }
}

void raise(Peak& peak, double value, double at) {
  if (value > peak.value) peak = {value, at};
}

/// The forces of one line, member by member; absent ones are zero and `there` is false.
struct Forces {
  double Mi = 0.0, Mj = 0.0, Vi = 0.0, Vj = 0.0, Mmax = 0.0;
  bool there = false;
};

/// Takes one member's moments into the line. Loads between nodes act downwards, so an extreme between
/// the ends is a sagging one.
template <class F>
void take_moments(SectionEffects& line, const F& forces, double from, double to) {
  raise(line.sag, forces.Mi, from);
  raise(line.sag, forces.Mj, to);
  raise(line.hog, -forces.Mi, from);
  raise(line.hog, -forces.Mj, to);
  if (forces.Mmax > std::abs(forces.Mi) && forces.Mmax > std::abs(forces.Mj)) {
    raise(line.sag, forces.Mmax, 0.5 * (from + to));
  }
}

template <class F>
void take(SectionEffects& line, const F& forces, double from, double to) {
  take_moments(line, forces, from, to);
  raise(line.shear, std::abs(forces.Vi), from);
  raise(line.shear, std::abs(forces.Vj), to);
}

/// What a stretch of the line is under: moments and shears within it, its ends included.
void take_section(SectionEffects& section, double from, double to, const model::Line& line,
                  const std::vector<Forces>& forces) {
  for (std::size_t k = 0; k < forces.size(); ++k) {
    const double x0 = line.at[k], x1 = line.at[k + 1], L = x1 - x0;
    const double a = std::max(from, x0), b = std::min(to, x1);
    if (!forces[k].there || a > b || L <= 0.0) continue;
    const Forces& f = forces[k];
    const double q = (f.Vi - f.Vj) / L;
    const auto part = [&](double x) {
      const double s = x - x0;
      return std::pair{f.Mi + f.Vi * s - q * s * s / 2.0, f.Vi - q * s};
    };
    Forces within;
    std::tie(within.Mi, within.Vi) = part(a);
    std::tie(within.Mj, within.Vj) = part(b);
    if (q > 0.0 && within.Vi > 0.0 && within.Vj < 0.0) within.Mmax = part(x0 + f.Vi / q).first;
    take(section, within, a, b);
  }
}

/// Least share of a load near one support of a span that reaches it: hinged there and fixed at the far
/// end, V = 1 - 3/2 r + 1/2 r^3 at r of the span; on a free end all of it.
double least_share(double r) { return std::max(0.0, 1.0 - 1.5 * r + 0.5 * r * r * r); }

/// Shears of a line on supports underneath, without the part of loads on top that its standard leaves out
/// beside them. Of such a load as much is taken off as surely reaches the support, and in all no more than
/// the support pushes in this state.
class ReducedShear {
public:
  ReducedShear(const LineRules& rules, const model::Line& line, const std::vector<Forces>& forces)
      : rules_(rules), line_(line), forces_(forces) {}

  void take(Peak& shear) const {
    std::vector<double> low(line_.at.size(), none), high(line_.at.size(), -none);
    const auto zone = [&](std::size_t node, bool right, double to) {
      // Up to the next node that carries it shears beside this support are told by the support's own.
      for (std::size_t n = node;;) {
        (right ? high : low)[n] = to;
        if (right ? n + 1 >= line_.at.size() : n == 0) break;
        n = right ? n + 1 : n - 1;
        if (carried(n)) break;
      }
    };
    for (const Seat& seat : rules_.seats) {
      const double push = after(seat.node) - before(seat.node);
      if (push <= 0.0) continue;
      const double x = line_.at[seat.node], reach = seat.face + rules_.depth;
      Side right = side(seat, true), left = side(seat, false);
      const double off = right.off + left.off;
      const double share = off > push ? push / off : 1.0;
      if (right.V > 0.0) {
        raise(shear, std::max(0.0, right.V - share * right.off) + right.up, x);
        zone(seat.node, true, x + reach);
      }
      if (left.V > 0.0) {
        raise(shear, std::max(0.0, left.V - share * left.off) + left.up, x);
        zone(seat.node, false, x - reach);
      }
    }
    for (std::size_t k = 0; k < forces_.size(); ++k) {
      if (!forces_[k].there) continue;
      // Seen from the left support, what stands in its zone is told there; likewise from the right one.
      const double i = line_.at[k], j = line_.at[k + 1];
      const double half_i = std::max(rules_.half_on_top[k], 0.0);
      const double half_j = std::max(rules_.half_on_top[k + 1], 0.0);
      // A support that nothing is left out beside tells its own shear in full.
      const bool told_i = carried(k) ? high[k] > -none : i < high[k] || i + half_i > low[k + 1];
      const bool told_j =
          carried(k + 1) ? low[k + 1] < none : j - half_j < high[k] || j > low[k + 1];
      if (!told_i) raise(shear, std::abs(forces_[k].Vi), i);
      if (!told_j) raise(shear, std::abs(forces_[k].Vj), j);
    }
  }

private:
  static constexpr double none = std::numeric_limits<double>::infinity();
  struct Side {
    double V = 0.0;    ///< beside the support, towards it
    double off = 0.0;  ///< may be left out
    double up = 0.0;   ///< forces upwards within, which add
  };
  [[nodiscard]] double before(std::size_t n) const {
    return n > 0 && forces_[n - 1].there ? forces_[n - 1].Vj : 0.0;
  }
  [[nodiscard]] double after(std::size_t n) const {
    return n < forces_.size() && forces_[n].there ? forces_[n].Vi : 0.0;
  }
  [[nodiscard]] bool carried(std::size_t n) const {
    return std::binary_search(rules_.carried.begin(), rules_.carried.end(), n);
  }
  [[nodiscard]] Side side(const Seat& seat, bool right) const {
    Side result;
    result.V = right ? after(seat.node) : -before(seat.node);
    if (result.V <= 0.0) return result;
    const double x = line_.at[seat.node];
    const auto next = [&](std::size_t n) -> std::optional<std::size_t> {
      const std::size_t member = right ? n : n - 1;
      if (right ? n >= forces_.size() : n == 0) return std::nullopt;
      if (!forces_[member].there) return std::nullopt;
      return right ? n + 1 : n - 1;
    };
    double span = 0.0;  // none: a free end
    for (auto n = next(seat.node); n; n = next(*n)) {
      if (!carried(*n)) continue;
      span = std::abs(line_.at[*n] - x);
      break;
    }
    for (auto n = next(seat.node); n && !carried(*n); n = next(*n)) {
      const double off = std::abs(line_.at[*n] - x), half = rules_.half_on_top[*n];
      if (off - std::max(half, 0.0) > seat.face + rules_.depth) break;
      const double F = before(*n) - after(*n);
      if (F < 0.0) result.up -= F;
      if (F <= 0.0 || half <= 0.0) continue;
      const double counts = rules_.standard->shear_share(
          mm(off - half - seat.face), mm(off + half - seat.face), mm(rules_.depth));
      result.off += F * (1.0 - counts) * (span > 0.0 ? least_share(off / span) : 1.0);
    }
    return result;
  }

  const LineRules& rules_;
  const model::Line& line_;
  const std::vector<Forces>& forces_;
};

void take_line(LineEffects& into, const model::Line& line, const LineRules* rules,
               const std::vector<Forces>& forces) {
  const bool reduced = rules != nullptr && !rules->seats.empty();
  for (std::size_t k = 0; k < forces.size(); ++k) {
    if (!forces[k].there) continue;
    if (reduced)
      take_moments(into, forces[k], line.at[k], line.at[k + 1]);
    else
      take(into, forces[k], line.at[k], line.at[k + 1]);
  }
  if (rules == nullptr) return;
  if (reduced) ReducedShear(*rules, line, forces).take(into.shear);
  into.sections.resize(rules->sections.size());
  for (std::size_t s = 0; s < rules->sections.size(); ++s) {
    const Section& section = rules->sections[s];
    take_section(into.sections[s], section.from, section.to, line, forces);
  }
}

Forces known(const solver::MemberForces& member) {
  return {member.Mi, member.Mj, member.Vi, member.Vj, member.Mmax, true};
}

}  // namespace

Probes probes(const model::Model& model) {
  Probes result;
  for (const auto* lines : {&model.joists, &model.bearers, &model.ledgers}) {
    for (const model::Line& line : *lines) {
      const auto first = static_cast<int>(result.frame_members.size());
      gather({line}, result.frame_members);
      result.lines.push_back({first, static_cast<int>(result.frame_members.size())});
    }
  }
  gather(model.boards, result.board_members);
  return result;
}

Effects effects(const model::Model& model, const solver::Analysis& analysis, const Probes& probes,
                const solver::Response& response, std::span<const solver::CaseFactor> combination,
                bool with_boards) {
  Effects result;
  const auto forces = analysis.member_forces(response, combination, probes.frame_members);
  std::size_t next = 0, rule = 0;
  std::vector<Forces> along;
  const auto lines = [&](const std::vector<model::Line>& all, std::vector<LineEffects>& into) {
    into.resize(all.size());
    for (std::size_t l = 0; l < all.size(); ++l, ++rule) {
      along.clear();
      for (const int member : all[l].members)
        along.push_back(member < 0 ? Forces{} : known(forces[next++]));
      take_line(into[l], all[l], rule < probes.rules.size() ? &probes.rules[rule] : nullptr, along);
    }
  };
  lines(model.joists, result.joists);
  lines(model.bearers, result.bearers);
  lines(model.ledgers, result.ledgers);
  if (!with_boards) return result;
  const auto board_forces = analysis.member_forces(response, combination, probes.board_members);
  std::size_t member = 0;
  for (const model::Line& board : model.boards) {
    for (std::size_t k = 0; k < board.members.size(); ++k) {
      // A stiff base reads some of the boards only, in their order.
      if (member == board_forces.size()) return result;
      if (board.members[k] < 0 || board.members[k] != probes.board_members[member]) continue;
      const double before = std::max(result.boards.sag.value, result.boards.hog.value);
      take(result.boards, board_forces[member++], board.at[k], board.at[k + 1]);
      if (std::max(result.boards.sag.value, result.boards.hog.value) > before) {
        const solver::Node& node = model.frame.nodes[static_cast<std::size_t>(board.nodes[k])];
        result.boards_at = {mm(node.x), mm(node.y)};
      }
    }
  }
  return result;
}

Effects effects(const model::Model& model, const Probes& probes, const solver::State& state) {
  Effects result;
  Eigen::Index next = 0;
  std::size_t group = 0;
  std::vector<Forces> along;
  const auto lines = [&](const std::vector<model::Line>& all, std::vector<LineEffects>& into) {
    into.resize(all.size());
    for (std::size_t l = 0; l < all.size(); ++l) {
      const model::Line& line = all[l];
      const std::size_t rule = group++;
      const LineRules* rules = rule < probes.rules.size() ? &probes.rules[rule] : nullptr;
      if (state.read[rule] == 0) {
        next += std::count_if(line.members.begin(), line.members.end(),
                              [](int member) { return member >= 0; });
        if (rules != nullptr) into[l].sections.resize(rules->sections.size());
        continue;
      }
      along.clear();
      for (const int member : line.members) {
        if (member < 0) {
          along.emplace_back();
          continue;
        }
        Forces forces{state.ends[4 * next],
                      state.ends[4 * next + 1],
                      state.ends[4 * next + 2],
                      state.ends[4 * next + 3],
                      0.0,
                      true};
        // Where V = 0 under a uniform load: M = Mi + Vi^2 / 2q.
        const double q = -state.spans[next];
        if (q > 0.0 && forces.Vi > 0.0 && forces.Vj < 0.0)
          forces.Mmax = forces.Mi + forces.Vi * forces.Vi / (2.0 * q);
        along.push_back(forces);
        ++next;
      }
      take_line(into[l], line, rules, along);
    }
  };
  lines(model.joists, result.joists);
  lines(model.bearers, result.bearers);
  lines(model.ledgers, result.ledgers);
  return result;
}

}  // namespace underprop::assessment
