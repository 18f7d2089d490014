#include "effects.hpp"

#include <algorithm>
#include <cmath>

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

/// Takes one member's forces into the line. Loads between nodes act downwards, so an extreme between
/// the ends is a sagging one.
void take(LineEffects& line, const solver::MemberForces& forces, double from, double to) {
  raise(line.sag, forces.Mi, from);
  raise(line.sag, forces.Mj, to);
  raise(line.hog, -forces.Mi, from);
  raise(line.hog, -forces.Mj, to);
  if (forces.Mmax > std::abs(forces.Mi) && forces.Mmax > std::abs(forces.Mj)) {
    raise(line.sag, forces.Mmax, 0.5 * (from + to));
  }
  raise(line.shear, std::abs(forces.Vi), from);
  raise(line.shear, std::abs(forces.Vj), to);
}

std::size_t take_lines(const std::vector<model::Line>& lines, std::vector<LineEffects>& into,
                       const std::vector<solver::MemberForces>& forces, std::size_t next) {
  into.resize(lines.size());
  for (std::size_t l = 0; l < lines.size(); ++l) {
    const model::Line& line = lines[l];
    for (std::size_t k = 0; k < line.members.size(); ++k) {
      if (line.members[k] < 0) continue;
      take(into[l], forces[next++], line.at[k], line.at[k + 1]);
    }
  }
  return next;
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
  std::size_t next = take_lines(model.joists, result.joists, forces, 0);
  next = take_lines(model.bearers, result.bearers, forces, next);
  take_lines(model.ledgers, result.ledgers, forces, next);
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

Effects effects(const model::Model& model, const solver::State& state) {
  Effects result;
  Eigen::Index next = 0;
  std::size_t group = 0;
  const auto lines = [&](const std::vector<model::Line>& all, std::vector<LineEffects>& into) {
    into.resize(all.size());
    for (std::size_t l = 0; l < all.size(); ++l) {
      const model::Line& line = all[l];
      if (state.read[group++] == 0) {
        next += std::count_if(line.members.begin(), line.members.end(),
                              [](int member) { return member >= 0; });
        continue;
      }
      for (std::size_t k = 0; k < line.members.size(); ++k) {
        if (line.members[k] < 0) continue;
        solver::MemberForces forces;
        forces.Mi = state.ends[4 * next];
        forces.Mj = state.ends[4 * next + 1];
        forces.Vi = state.ends[4 * next + 2];
        forces.Vj = state.ends[4 * next + 3];
        // Where V = 0 under a uniform load: M = Mi + Vi^2 / 2q.
        const double q = -state.spans[next];
        if (q > 0.0 && forces.Vi > 0.0 && forces.Vj < 0.0)
          forces.Mmax = forces.Mi + forces.Vi * forces.Vi / (2.0 * q);
        take(into[l], forces, line.at[k], line.at[k + 1]);
        ++next;
      }
    }
  };
  lines(model.joists, result.joists);
  lines(model.bearers, result.bearers);
  lines(model.ledgers, result.ledgers);
  return result;
}

}  // namespace underprop::assessment
