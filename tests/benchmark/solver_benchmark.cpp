// Times of the solver on a grillage of the size of a deck: 12 joists under 30 boards on 3 bearers.
// Prints; asserts nothing.
#include "underprop/solver/analysis.hpp"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

using namespace underprop::solver;

namespace {

double seconds_since(std::chrono::steady_clock::time_point start) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

struct Deck {
  Frame frame;
  std::vector<LoadCase> cases;
};

/// Joists along x on one-way contacts over bearers along y, boards along y screwed down, bearers on
/// one-way pads; with `shell`, a rigid plate over part of the deck.
Deck deck(int joists, int boards, bool shell) {
  Deck d;
  Frame& f = d.frame;
  const double spacing = 400.0, board = 145.0;
  const auto node = [&](double x, double y) {
    f.nodes.push_back({"n" + std::to_string(f.nodes.size()), x, y});
    return static_cast<int>(f.nodes.size()) - 1;
  };
  const auto member = [&](int i, int j, double EI, double kGA, const std::string& piece) {
    Member m;
    m.id = "m" + std::to_string(f.members.size());
    m.piece = piece;
    m.i = i;
    m.j = j;
    m.EI = EI;
    m.kGA = kGA;
    f.members.push_back(m);
  };
  const auto link = [&](int upper, int lower, double k, bool one_way) {
    f.links.push_back({"l" + std::to_string(f.links.size()), upper, lower, k, one_way, 0.0});
  };
  const double length = board * boards;
  std::vector<double> stations;
  for (int b = 0; b < boards; ++b) stations.push_back(board * (b + 0.5));
  const std::vector<double> bearers{0.1 * length, 0.5 * length, 0.9 * length};
  std::vector<std::vector<int>> on_bearer(bearers.size());
  std::vector<std::vector<int>> top(static_cast<std::size_t>(boards));
  std::vector<int> joist_members;
  for (int j = 0; j < joists; ++j) {
    std::vector<std::pair<double, int>> at;  // position, board index or -1 - bearer index
    for (int b = 0; b < boards; ++b) at.emplace_back(stations[static_cast<std::size_t>(b)], b);
    for (std::size_t k = 0; k < bearers.size(); ++k) {
      at.emplace_back(bearers[k] + 1.0, -1 - static_cast<int>(k));
    }
    std::sort(at.begin(), at.end());
    int before = -1;
    for (const auto& [x, what] : at) {
      const int n = node(x, j * spacing);
      if (before >= 0) member(before, n, 1.9e11, 5e6, "joist " + std::to_string(j));
      before = n;
      if (what >= 0) {
        const int above = node(x, j * spacing);
        top[static_cast<std::size_t>(what)].push_back(above);
        link(above, n, rigid, false);
      } else {
        const int below = node(x, j * spacing);
        on_bearer[static_cast<std::size_t>(-1 - what)].push_back(below);
        // Compression lifts the joist (i) and presses the bearer (j).
        link(n, below, 2e4, true);
      }
    }
  }
  for (const auto& line : top) {
    for (std::size_t j = 0; j + 1 < line.size(); ++j)
      member(line[j], line[j + 1], 6e9, 8e5, "board");
  }
  for (std::size_t k = 0; k < on_bearer.size(); ++k) {
    for (std::size_t j = 0; j < on_bearer[k].size(); ++j) {
      if (j > 0) {
        member(on_bearer[k][j - 1], on_bearer[k][j], 8e11, 1e7, "bearer " + std::to_string(k));
      }
      if (j % 3 == 1) {
        f.supports.push_back(
            {"pad" + std::to_string(f.supports.size()), on_bearer[k][j], 8e3, 0, 0, true, 0.0});
      }
    }
  }
  LoadCase self{"self", {}, {}, {}};
  for (std::size_t m = 0; m < f.members.size(); ++m) {
    const Node& a = f.nodes[static_cast<std::size_t>(f.members[m].i)];
    const Node& b = f.nodes[static_cast<std::size_t>(f.members[m].j)];
    self.line.push_back({static_cast<int>(m), -0.06, -0.06, 0.0, (b.x - a.x) + (b.y - a.y)});
  }
  d.cases.push_back(self);
  if (shell) {
    Plate p{"shell", 0.45 * length, 0.45 * spacing * joists, {}};
    for (int b = boards / 4; b < 3 * boards / 4; ++b) {
      for (int j = joists / 4; j < 3 * joists / 4; ++j) {
        p.contacts.push_back(
            {top[static_cast<std::size_t>(b)][static_cast<std::size_t>(j)], 5e3, 0.0});
      }
    }
    f.plates.push_back(p);
    LoadCase tub{"tub", {{-1, 0, -2.0e4, 0.0, 2.0e6}}, {}, {}};
    d.cases.push_back(tub);
  }
  // People, one place each.
  for (int k = 0; k < 40; ++k) {
    LoadCase c{"place " + std::to_string(k), {}, {}, {}};
    const auto& row = top[static_cast<std::size_t>((7 * k) % boards)];
    c.nodal.push_back({row[static_cast<std::size_t>((5 * k) % joists)], -1, -2000.0, 0, 0});
    d.cases.push_back(c);
  }
  return d;
}

void run(const char* title, const Deck& d) {
  auto start = std::chrono::steady_clock::now();
  const Analysis analysis(d.frame, d.cases);
  const double factored = seconds_since(start);
  const int places = 40;
  const int first = static_cast<int>(d.cases.size()) - places;
  std::vector<std::vector<CaseFactor>> combinations;
  for (int k = 0; k < 2000; ++k) {
    std::vector<CaseFactor> c;
    for (int n = 0; n < first; ++n) c.push_back({n, 1.35});
    for (int n = 0; n < 6; ++n) c.push_back({first + (k + 7 * n) % places, 1.5});
    combinations.push_back(c);
  }
  start = std::chrono::steady_clock::now();
  for (int k = 0; k < places; ++k) (void)analysis.solve(combinations[static_cast<std::size_t>(k)]);
  const double warm = seconds_since(start);
  int lifts = 0, loose = 0;
  double worst = 0.0;
  start = std::chrono::steady_clock::now();
  for (const auto& c : combinations) {
    const Response r = analysis.solve(c);
    lifts += r.something_lifts ? 1 : 0;
    loose += r.mechanism ? 1 : 0;
    worst = std::max({worst, r.proof.residual, r.proof.balance, r.proof.complementarity});
  }
  const double solves = seconds_since(start) / static_cast<double>(combinations.size());
  std::vector<int> members;
  for (std::size_t m = 0; m < d.frame.members.size(); ++m) members.push_back(static_cast<int>(m));
  const Response r = analysis.solve(combinations.front());
  double forces = 0.0;
  if (!r.mechanism) {
    start = std::chrono::steady_clock::now();
    for (int k = 0; k < 50; ++k) (void)analysis.member_forces(r, combinations.front(), members);
    forces = seconds_since(start) / 50;
  }
  const std::vector<SupportChange> absent{{1, 0.0, {}}};
  start = std::chrono::steady_clock::now();
  for (int k = 0; k < 200; ++k) {
    (void)analysis.solve(combinations[static_cast<std::size_t>(k)], absent);
  }
  const double changed = seconds_since(start) / 200;
  std::printf(
      "%-28s nodes %zu, members %zu: assemble and factor %.2f ms, first %d solves %.1f ms, then "
      "%.1f us each (%d lift, %d loose of %zu; worst proof %.1e), with a pad absent %.1f us, "
      "forces "
      "of all members %.1f us\n",
      title, d.frame.nodes.size(), d.frame.members.size(), 1e3 * factored, places, 1e3 * warm,
      1e6 * solves, lifts, loose, combinations.size(), worst, 1e6 * changed, 1e6 * forces);
}

}  // namespace

int main() {
  run("12 x 30, soft shell", deck(12, 30, false));
  run("12 x 30, stiff shell", deck(12, 30, true));
  run("24 x 60, soft shell", deck(24, 60, false));
  return EXIT_SUCCESS;
}
