#include "solver/ordering.hpp"
#include "index.hpp"

#include <algorithm>
#include <utility>

namespace underprop::solver {

namespace {

using Matrix = Eigen::SparseMatrix<double>;

/// Parts of this size are not divided further.
constexpr int leaf = 24;

/// The eliminated-last separators make a recursion; here it is a stack of parts, so that no depth of it
/// is a concern. Parts are written into the order from its end.
class Dissection {
public:
  explicit Dissection(const Matrix& m) : m_(m), part_(at(static_cast<int>(m.cols())), 0) {}

  std::vector<int> order() {
    const int n = static_cast<int>(m_.cols());
    std::vector<int> reversed;
    reversed.reserve(at(n));
    std::vector<int> all(at(n));
    for (int i = 0; i < n; ++i) all[at(i)] = i;
    std::vector<std::vector<int>> stack;
    stack.push_back(std::move(all));
    while (!stack.empty()) {
      std::vector<int> nodes = std::move(stack.back());
      stack.pop_back();
      const int mark = ++marks_;
      for (const int v : nodes) part_[at(v)] = mark;
      if (static_cast<int>(nodes.size()) <= leaf) {
        // From the middle outwards costs little here: parts are small.
        reversed.insert(reversed.end(), nodes.begin(), nodes.end());
        continue;
      }
      const std::vector<std::vector<int>> levels = levels_from_end(nodes, mark);
      std::size_t reached = 0;
      for (const auto& level : levels) reached += level.size();
      if (reached < nodes.size()) {  // not connected: the rest is a part of its own
        std::vector<int> here, rest;
        for (const auto& level : levels) here.insert(here.end(), level.begin(), level.end());
        const int taken = ++marks_;
        for (const int v : here) part_[at(v)] = taken;
        for (const int v : nodes) {
          if (part_[at(v)] != taken) rest.push_back(v);
        }
        stack.push_back(std::move(rest));
        stack.push_back(std::move(here));
        continue;
      }
      if (levels.size() < 3) {
        reversed.insert(reversed.end(), nodes.begin(), nodes.end());
        continue;
      }
      const std::size_t middle = separator(levels, nodes.size());
      std::vector<int> before, after;
      for (std::size_t l = 0; l < levels.size(); ++l) {
        if (l == middle) continue;
        auto& to = l < middle ? before : after;
        to.insert(to.end(), levels[l].begin(), levels[l].end());
      }
      // What of the level has no neighbour beyond it separates nothing: it stays on this side.
      const int beyond = ++marks_;
      for (const int v : levels[middle + 1]) part_[at(v)] = beyond;
      for (const int v : levels[middle]) {
        bool touches = false;
        for (Matrix::InnerIterator it(m_, v); it && !touches; ++it) {
          touches = part_[at(static_cast<int>(it.row()))] == beyond;
        }
        (touches ? reversed : before).push_back(v);
      }
      stack.push_back(std::move(before));
      stack.push_back(std::move(after));
    }
    std::reverse(reversed.begin(), reversed.end());
    return reversed;
  }

private:
  /// Breadth-first levels within a part, from `start`.
  std::vector<std::vector<int>> levels_from(int start, int mark) {
    std::vector<std::vector<int>> levels{{start}};
    const int seen = ++marks_;
    part_[at(start)] = seen;
    while (true) {
      std::vector<int> next;
      for (const int v : levels.back()) {
        for (Matrix::InnerIterator it(m_, v); it; ++it) {
          const int u = static_cast<int>(it.row());
          if (part_[at(u)] != mark) continue;
          part_[at(u)] = seen;
          next.push_back(u);
        }
      }
      if (next.empty()) break;
      levels.push_back(std::move(next));
    }
    for (const auto& level : levels) {
      for (const int v : level) part_[at(v)] = mark;
    }
    return levels;
  }

  /// From a node at an end of the part: the last one reached, while the levels get more.
  std::vector<std::vector<int>> levels_from_end(const std::vector<int>& nodes, int mark) {
    auto levels = levels_from(nodes.front(), mark);
    for (int tries = 0; tries < 4; ++tries) {
      auto longer = levels_from(levels.back().front(), mark);
      if (longer.size() <= levels.size()) break;
      levels = std::move(longer);
    }
    return levels;
  }

  /// The smallest level among those that leave at least two fifths on either side, else the middle one.
  static std::size_t separator(const std::vector<std::vector<int>>& levels, std::size_t all) {
    std::size_t best = 0, median = 0, before = 0;
    for (std::size_t l = 0; l < levels.size(); ++l) {
      if (2 * before <= all) median = l;
      const std::size_t after = all - before - levels[l].size();
      if (5 * before >= 2 * all && 5 * after >= 2 * all &&
          (best == 0 || levels[l].size() < levels[best].size())) {
        best = l;
      }
      before += levels[l].size();
    }
    return best != 0 ? best : std::clamp<std::size_t>(median, 1, levels.size() - 2);
  }

  const Matrix& m_;
  std::vector<int> part_;
  int marks_ = 0;
};

}  // namespace

std::vector<int> nested_dissection(const Matrix& full) { return Dissection(full).order(); }

void FillReducing::operator()(const Matrix& full, PermutationType& permutation) const {
  if (full.cols() <= small) {
    Eigen::AMDOrdering<int>()(full, permutation);
    return;
  }
  const std::vector<int> order = nested_dissection(full);
  permutation.resize(full.cols());
  // As AMDOrdering: index k holds the freedom that is eliminated as the k-th.
  for (std::size_t k = 0; k < order.size(); ++k) {
    permutation.indices()[static_cast<Eigen::Index>(k)] = order[k];
  }
}

}  // namespace underprop::solver
