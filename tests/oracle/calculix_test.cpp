// Grillages through a general-purpose finite element program; see calculix.hpp for what is compared.
// Hidden from ordinary runs: `ctest -L external` runs it, and says so where ccx is not installed.
//
// Both programs solve the same equations, so the differences are the printed digits: seven figures of
// each displacement. Measured: displacements 5e-7 and less of the largest, spring forces 1e-6 and less
// of the largest. The limits below leave a factor of ten.
#include "oracle/calculix.hpp"
#include "oracle/dense_random.hpp"
#include "support/catch.hpp"

#include <cstdio>

namespace calculix_test_file {

using namespace oracle;

namespace {

constexpr double displacement_limit = 5e-6;
constexpr double force_limit = 1e-5;

enum class Kind { plain, springs, one_way };

struct Deck {
  Frame frame;
  LoadCase loads;
  std::vector<double> z;
};

/// Joists along x, boards along y on links to every joist, supports under every joist.
Deck deck(Kind kind, std::uint64_t number) {
  Sequence r(number);
  for (int k = 0; k < 8; ++k) r.unit();
  Deck d;
  Frame& f = d.frame;
  const int joists = 5, boards = 7;
  const auto node = [&](double x, double y, double z) {
    f.nodes.push_back({"n" + std::to_string(f.nodes.size()), x, y});
    d.z.push_back(z);
    return static_cast<int>(f.nodes.size()) - 1;
  };
  const auto member = [&](int i, int j, double EI, double GJ) {
    Member m;
    m.id = "m" + std::to_string(f.members.size());
    m.i = i;
    m.j = j;
    m.EI = EI;
    m.GJ = GJ;
    f.members.push_back(m);
  };
  std::vector<std::vector<int>> lower(static_cast<std::size_t>(joists)), upper = lower;
  for (int j = 0; j < joists; ++j) {
    for (int b = 0; b < boards; ++b) {
      lower[static_cast<std::size_t>(j)].push_back(node(480.0 * b, 450.0 * j, 0.0));
      upper[static_cast<std::size_t>(j)].push_back(node(480.0 * b, 450.0 * j, 1000.0));
    }
  }
  for (std::size_t j = 0; j < static_cast<std::size_t>(joists); ++j) {
    for (std::size_t b = 0; b < static_cast<std::size_t>(boards); ++b) {
      if (b > 0) member(lower[j][b - 1], lower[j][b], 3.0e11, 2.0e10);
      if (j > 0) member(upper[j - 1][b], upper[j][b], 9.0e9, 1.0e9);
      Link l{"l" + std::to_string(f.links.size()), upper[j][b], lower[j][b], rigid, false, 0.0};
      if (kind != Kind::plain) l.k_w = r.between(2e3, 2e4);
      // A board lifts where it may, but stays on the outer joists.
      if (kind == Kind::one_way && j > 0 && j + 1 < static_cast<std::size_t>(joists)) {
        l.compression_only = r.chance(0.7);
        if (l.compression_only && r.chance(0.5)) l.gap = r.between(0.0, 0.5);
      }
      f.links.push_back(l);
      if (b == 0 || b == 3 || b + 1 == static_cast<std::size_t>(boards)) {
        Support s{"s" + std::to_string(f.supports.size()), lower[j][b], rigid, 0, 0, false, 0.0};
        if (kind != Kind::plain) s.k_w = r.between(1e3, 2e4);
        s.compression_only = kind == Kind::one_way;
        if (s.compression_only && b == 3) s.gap = r.between(0.0, 1.0);
        f.supports.push_back(s);
      }
    }
  }
  // No piece may roll about its own axis.
  for (const auto& line : lower) {
    f.supports.push_back({"roll", line.front(), 0.0, rigid, 0.0, false, 0.0});
  }
  for (const int n : upper.front()) {
    f.supports.push_back({"roll", n, 0.0, 0.0, rigid, false, 0.0});
  }
  for (std::size_t j = 0; j < static_cast<std::size_t>(joists); ++j) {
    for (std::size_t b = 0; b < static_cast<std::size_t>(boards); ++b) {
      d.loads.nodal.push_back({lower[j][b], -1, -r.between(50, 200), 0, 0});
    }
  }
  for (int k = 0; k < 4; ++k) {  // heavy, near one end, so that the other end lifts
    d.loads.nodal.push_back(
        {upper[static_cast<std::size_t>(r.below(joists))][static_cast<std::size_t>(1 + r.below(2))],
         -1, -r.between(3e3, 9e3), r.between(-2e5, 2e5), r.between(-2e5, 2e5)});
  }
  return d;
}

void compare(Kind kind, std::uint64_t first, int& lifting) {
  for (std::uint64_t k = first; k < first + 3; ++k) {
    const Deck d = deck(kind, k);
    const Response got = Analysis(d.frame, {d.loads}).solve(std::vector<CaseFactor>{{0, 1.0}});
    REQUIRE_FALSE(got.mechanism.has_value());
    const CalculixAnswer want = Calculix(d.frame, d.loads, d.z).solve();
    INFO("grillage " << k << ", " << want.runs << " runs of ccx");
    double w = 0.0, turn = 0.0, off_w = 0.0, off_turn = 0.0, force = 0.0, off_force = 0.0;
    for (std::size_t n = 0; n < d.frame.nodes.size(); ++n) {
      const Displacement& a = got.displacements[n];
      const Displacement& b = want.displacements[n];
      REQUIRE(std::isfinite(b.w));
      w = std::max(w, std::abs(b.w));
      turn = std::max({turn, std::abs(b.tx), std::abs(b.ty)});
      off_w = std::max(off_w, std::abs(a.w - b.w));
      off_turn = std::max({off_turn, std::abs(a.tx - b.tx), std::abs(a.ty - b.ty)});
    }
    const auto forces = [&](double ours, double theirs, double k_w, bool one_way) {
      if (!std::isfinite(k_w)) return;
      force = std::max(force, std::abs(theirs));
      off_force = std::max(off_force, std::abs(ours - theirs));
      if (one_way) CHECK((ours > 0.0) == (theirs > 0.0));
    };
    for (std::size_t s = 0; s < d.frame.supports.size(); ++s) {
      const Support& p = d.frame.supports[s];
      forces(got.supports[s], want.supports[s], p.k_w, p.compression_only);
    }
    for (std::size_t l = 0; l < d.frame.links.size(); ++l) {
      const Link& p = d.frame.links[l];
      forces(got.links[l], want.links[l], p.k_w, p.compression_only);
    }
    lifting += got.something_lifts ? 1 : 0;
    std::printf(
        "  grillage %d: ccx ran %d times; w %.1e, rotations %.1e, spring forces %.1e apart\n",
        static_cast<int>(k), want.runs, off_w / w, off_turn / turn,
        force > 0.0 ? off_force / force : 0.0);
    CHECK(off_w <= displacement_limit * w);
    CHECK(off_turn <= displacement_limit * turn);
    CHECK(off_force <= force_limit * force);
  }
}

/// False, and a line that ctest takes for a skipped test, where ccx is missing.
bool ready() {
  if (calculix_is_there()) return true;
  std::printf("skipped: ccx is not installed\n");
  return false;
}

}  // namespace

TEST_CASE("A grillage on rigid supports agrees with CalculiX", "[oracle][.calculix]") {
  if (!ready()) return;
  int lifting = 0;
  compare(Kind::plain, 1, lifting);
  CHECK(lifting == 0);
}

TEST_CASE("A grillage on springs agrees with CalculiX", "[oracle][.calculix]") {
  if (!ready()) return;
  int lifting = 0;
  compare(Kind::springs, 11, lifting);
  CHECK(lifting == 0);
}

TEST_CASE("A grillage that lifts off agrees with CalculiX, gaps included", "[oracle][.calculix]") {
  if (!ready()) return;
  int lifting = 0;
  compare(Kind::one_way, 21, lifting);
  CHECK(lifting == 3);
}

}  // namespace calculix_test_file
