// Plane frames against Euler, transcendental equations of textbooks, and printed second-order columns.
#include "solver/plane_frame.hpp"
#include "underprop/solver/analysis.hpp"

#include "../support/catch.hpp"

#include <Eigen/Dense>

#include <cmath>
#include <functional>

namespace plane_frame_test_file {

namespace plane = underprop::solver::plane;
using plane::Frame;
using plane::Load;
using plane::Order;
using underprop::solver::rigid;

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double inch = 25.4, kip = 4448.2216152605, foot = 304.8;

double root(const std::function<double(double)>& f, double low, double high) {
  for (int k = 0; k < 200; ++k) {
    const double middle = 0.5 * (low + high);
    ((f(low) < 0.0) == (f(middle) < 0.0) ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

/// A column of 3 m with EI 1e11 N mm2, its foot held as said, its top loaded by 1 N.
struct Column {
  bool foot_turns, top_turns, top_moves;
};
constexpr double height = 3000.0, EI = 1e11;

Frame column(const Column& c, int parts = 8) {
  Frame frame;
  frame.nodes = {{"foot", 0, 0}, {"top", 0, height}};
  frame.members = {{"C", "post", 0, 1, 1e9, EI}};
  frame.members[0].parts = parts;
  frame.supports = {
      {"foot", 0, rigid, rigid, c.foot_turns ? 0.0 : rigid},
      {"top", 1, c.top_moves ? 0.0 : rigid, 0.0, c.top_turns ? 0.0 : rigid},
  };
  return frame;
}

/// Two posts and a beam, the beam as wide as the posts are tall.
Frame portal(bool fixed, double beam_EI) {
  Frame frame;
  frame.nodes = {{"A", 0, 0}, {"B", 0, height}, {"C", height, height}, {"D", height, 0}};
  frame.members = {{"AB", "left post", 0, 1, 1e13, EI},
                   {"BC", "beam", 1, 2, 1e13, beam_EI},
                   {"DC", "right post", 3, 2, 1e13, EI}};
  const double turn = fixed ? rigid : 0.0;
  frame.supports = {{"A", 0, rigid, rigid, turn}, {"D", 3, rigid, rigid, turn}};
  return frame;
}

}  // namespace

TEST_CASE("Euler columns with four kinds of ends", "[solver][plane][closed-form]") {
  const double euler = pi * pi * EI / (height * height);
  const double clamped_pinned =
      std::pow(root([](double k) { return std::tan(k) - k; }, 4.3, 4.6), 2) * EI /
      (height * height);
  const struct {
    Column column;
    double P;
  } cases[] = {
      {{true, true, false}, euler},            // pinned, pinned
      {{false, true, true}, euler / 4.0},      // fixed, free
      {{false, true, false}, clamped_pinned},  // fixed, pinned
      {{false, false, false}, 4.0 * euler},    // fixed, fixed
      {{false, false, true}, euler},           // fixed, fixed but free to sway
      {{true, false, true}, euler / 4.0},      // pinned, top kept upright but free to sway
  };
  for (const auto& c : cases) {
    const plane::Critical critical = plane::critical_factor(column(c.column), {{1, 0, -1, 0}});
    REQUIRE_FALSE(critical.mechanism);
    CHECK(critical.factor == Approx(c.P).epsilon(1e-3));
    CHECK(critical.factor >= c.P * (1.0 - 1e-6));  // assumed shapes are never too soft
    // The error falls by the fourth power of the number of parts.
    const double coarse =
        plane::critical_factor(column(c.column, 4), {{1, 0, -1, 0}}).factor / c.P - 1.0;
    const double fine =
        plane::critical_factor(column(c.column, 16), {{1, 0, -1, 0}}).factor / c.P - 1.0;
    CHECK(fine < coarse / 100.0 + 1e-8);
  }
}

TEST_CASE("A pinned post free to sway is a mechanism, and named", "[solver][plane][law]") {
  const Frame frame = column({true, true, true});
  const plane::Critical critical = plane::critical_factor(frame, {{1, 0, -1, 0}});
  REQUIRE(critical.mechanism);
  CHECK(*critical.mechanism == "post");
  const plane::Answer answer = plane::solve(frame, {{1, 1, -1, 0}}, Order::second);
  CHECK(answer.mechanism);
  CHECK(answer.displacements.empty());
}

TEST_CASE("A spring at the foot: beta tan beta = c h / EI", "[solver][plane][closed-form]") {
  for (const double ratio : {0.5, 2.0, 20.0}) {
    Frame frame = column({true, true, true});
    frame.supports[0].k_theta = ratio * EI / height;
    const double beta =
        root([&](double b) { return b * std::tan(b) - ratio; }, 1e-6, pi / 2 - 1e-9);
    CHECK(plane::critical_factor(frame, {{1, 0, -1, 0}}).factor ==
          Approx(beta * beta * EI / (height * height)).epsilon(1e-4));
    // The same spring as the member's own end spring on a fixed foot.
    Frame other = column({false, true, true});
    other.members[0].rotation_i = ratio * EI / height;
    CHECK(plane::critical_factor(other, {{1, 0, -1, 0}}).factor ==
          Approx(beta * beta * EI / (height * height)).epsilon(1e-4));
  }
}

TEST_CASE("Shear softens a pinned column by Engesser", "[solver][plane][closed-form]") {
  Frame frame = column({true, true, false});
  const double euler = pi * pi * EI / (height * height);
  frame.members[0].kGA = 4.0 * euler;
  const double engesser = euler / (1.0 + euler / frame.members[0].kGA);
  CHECK(plane::critical_factor(frame, {{1, 0, -1, 0}}).factor == Approx(engesser).epsilon(3e-3));
  frame.members[0].parts = 32;
  CHECK(plane::critical_factor(frame, {{1, 0, -1, 0}}).factor == Approx(engesser).epsilon(2e-4));
}

TEST_CASE("A portal that sways: transcendental equations", "[solver][plane][closed-form]") {
  // Timoshenko and Gere, Theory of Elastic Stability, 2.4 (from memory): k = h sqrt(P/EI);
  // pinned feet k tan k = 6 (Ib h)/(I b); fixed feet k / tan k = -6 (Ib h)/(I b).
  for (const double stiff : {0.3, 1.0, 5.0}) {
    const std::vector<Load> loads{{1, 0, -1, 0}, {2, 0, -1, 0}};
    const double pinned =
        root([&](double k) { return k * std::tan(k) - 6.0 * stiff; }, 1e-6, pi / 2 - 1e-9);
    CHECK(plane::critical_factor(portal(false, stiff * EI), loads).factor ==
          Approx(pinned * pinned * EI / (height * height)).epsilon(1e-3));
    const double fixed =
        root([&](double k) { return k / std::tan(k) + 6.0 * stiff; }, pi / 2 + 1e-9, pi - 1e-9);
    CHECK(plane::critical_factor(portal(true, stiff * EI), loads).factor ==
          Approx(fixed * fixed * EI / (height * height)).epsilon(1e-3));
  }
}

TEST_CASE("First order portal by slope and deflection", "[solver][plane][closed-form]") {
  // Pinned feet, push H at one corner: both posts H/2, corners H h/2, sway H h^3/(6 EI) (1 + b/(2 h)).
  Frame frame = portal(false, EI);
  const plane::Answer answer = plane::solve(frame, {{1, 1000, 0, 0}}, Order::first);
  REQUIRE_FALSE(answer.mechanism);
  CHECK(answer.reactions[0].Fx == Approx(-500).epsilon(1e-4));
  CHECK(answer.reactions[1].Fx == Approx(-500).epsilon(1e-4));
  CHECK(answer.reactions[0].Fz == Approx(-1000).epsilon(1e-6));
  CHECK(answer.reactions[1].Fz == Approx(1000).epsilon(1e-6));
  CHECK(answer.members[0].N == Approx(1000).epsilon(1e-6));
  CHECK(answer.members[2].N == Approx(-1000).epsilon(1e-6));
  CHECK(answer.members[0].M_largest == Approx(500 * height).epsilon(1e-4));
  CHECK(answer.displacements[1].u ==
        Approx(1000 * std::pow(height, 3) / (6 * EI) * 1.5).epsilon(1e-3));
}

TEST_CASE("The two columns of AISC 360's Commentary, C2", "[solver][plane][published]") {
  // ANSI/AISC 360-10, Commentary, Figures C-C2.2 and C-C2.3, W14x48, E = 29,000 ksi: printed values
  // without shear deformation read in a copy, those with it from memory (A_v = 13.8 x 0.34 in.,
  // G = 11,200 ksi). They are printed to three digits.
  const double E = 29000 * kip / (inch * inch), I = 484 * std::pow(inch, 4);
  const double A = 14.1 * inch * inch, length = 28 * foot;
  const double kGA = 11200 * kip / (inch * inch) * 13.8 * 0.34 * inch * inch;
  struct Row {
    double P, M, M_shear, d, d_shear;
  };
  SECTION("Case 1: held at both ends, 0.200 kip/ft across") {
    for (const Row& row : {Row{0, 235, 235, 0.197, 0.202}, Row{150, 269, 270, 0.224, 0.230},
                           Row{300, 313, 316, 0.261, 0.269}, Row{450, 375, 380, 0.311, 0.322}}) {
      for (const bool shear : {false, true}) {
        constexpr int n = 40;  // the load stands on nodes: an error of 1/n^2
        Frame frame;
        for (int k = 0; k <= n; ++k) frame.nodes.push_back({"n", 0, length * k / n});
        for (int k = 0; k < n; ++k) {
          frame.members.push_back({"c", "column", k, k + 1, E * A, E * I, shear ? kGA : rigid});
          frame.members.back().parts = 1;
        }
        frame.supports = {{"foot", 0, rigid, rigid, 0}, {"top", n, rigid, 0, 0}};
        std::vector<Load> loads{{n, 0, -row.P * kip, 0}};
        for (int k = 1; k < n; ++k) loads.push_back({k, 0.2 * kip / foot * length / n, 0, 0});
        const plane::Answer a = plane::solve(frame, loads, Order::second);
        REQUIRE(a.displacements.size() == n + 1);
        CHECK(std::abs(a.members[n / 2].M_i) / (kip * inch) ==
              Approx(shear ? row.M_shear : row.M).margin(0.7).epsilon(0));
        CHECK(a.displacements[n / 2].u / inch ==
              Approx(shear ? row.d_shear : row.d).margin(0.0012).epsilon(0));
      }
    }
  }
  SECTION("Case 2: fixed at the foot, 1.0 kip across at the top") {
    for (const Row& row : {Row{0, 336, 336, 0.901, 0.907}, Row{100, 469, 470, 1.33, 1.34},
                           Row{150, 598, 601, 1.75, 1.77}, Row{200, 848, 856, 2.56, 2.60}}) {
      for (const bool shear : {false, true}) {
        Frame frame;
        frame.nodes = {{"foot", 0, 0}, {"top", 0, length}};
        frame.members = {{"c", "column", 0, 1, E * A, E * I, shear ? kGA : rigid}};
        frame.supports = {{"foot", 0, rigid, rigid, rigid}};
        const plane::Answer a = plane::solve(frame, {{1, kip, -row.P * kip, 0}}, Order::second);
        REQUIRE(a.reactions.size() == 1);
        CHECK(std::abs(a.reactions[0].M) / (kip * inch) ==
              Approx(shear ? row.M_shear : row.M).epsilon(0.003));
        CHECK(a.displacements[1].u / inch == Approx(shear ? row.d_shear : row.d).epsilon(0.005));
        // Equilibrium about the foot, of the moved top.
        CHECK(a.reactions[0].M ==
              Approx(kip * length + row.P * kip * a.displacements[1].u).epsilon(1e-9));
      }
    }
  }
}

TEST_CASE("The tip of a cantilever under axial force is exact", "[solver][plane][closed-form]") {
  // H (tan(k h) / k - h) / P, k = sqrt(P/EI); for tension with tanh.
  for (const double share : {0.1, 0.5, 0.9, -0.5, -3.0}) {
    const double P = share * pi * pi * EI / (4.0 * height * height), H = 100.0;
    const plane::Answer a =
        plane::solve(column({false, true, true}), {{1, H, -P, 0}}, Order::second);
    REQUIRE(a.displacements.size() == 2);
    const double k = std::sqrt(std::abs(P) / EI);
    const double t = P > 0 ? std::tan(k * height) : std::tanh(k * height);
    CHECK(a.displacements[1].u == Approx(H * (t / k - height) / P).epsilon(1e-4));
  }
}

TEST_CASE("Beyond the critical load there is no answer", "[solver][plane][law]") {
  const Frame frame = column({false, true, true});
  const double P = plane::critical_factor(frame, {{1, 0, -1, 0}}).factor;
  CHECK_FALSE(plane::solve(frame, {{1, 1, -0.99 * P, 0}}, Order::second).unstable);
  const plane::Answer beyond = plane::solve(frame, {{1, 1, -1.01 * P, 0}}, Order::second);
  CHECK(beyond.unstable);
  CHECK(beyond.displacements.empty());
  CHECK_FALSE(plane::solve(frame, {{1, 1, -1.01 * P, 0}}, Order::first).unstable);
}

TEST_CASE("A braced frame: bars, hinges and a leaning post", "[solver][plane][closed-form]") {
  // Posts hinged at both ends, one diagonal; everything leans on it. k = (EA/l) cos^2; the critical
  // load of the two posts together is k h (bars that do not shorten).
  Frame frame;
  const double b = 4000.0, EA = 1e5;
  frame.nodes = {{"A", 0, 0}, {"B", 0, height}, {"C", b, height}, {"D", b, 0}};
  frame.members = {{"AB", "post 1", 0, 1, 1e12, 1e12, rigid, 0, 0},
                   {"DC", "post 2", 3, 2, 1e12, 1e12, rigid, 0, 0},
                   {"BC", "beam", 1, 2, 1e12, 0},
                   {"AC", "brace", 0, 2, EA, 0}};
  frame.supports = {{"A", 0, rigid, rigid, 0}, {"D", 3, rigid, rigid, 0}};
  const double l = std::hypot(b, height), k = EA / l * (b / l) * (b / l);
  const plane::Critical critical = plane::critical_factor(frame, {{1, 0, -1, 0}, {2, 0, -1, 0}});
  CHECK(critical.factor == Approx(k * height / 2.0).epsilon(1e-3));
  const plane::Answer a = plane::solve(frame, {{1, 500, 0, 0}}, Order::first);
  CHECK(a.members[3].N == Approx(500 * l / b).epsilon(1e-6));
  CHECK(a.members[1].N == Approx(-500 * height / b).epsilon(1e-6));
  // Second order, on the top's own sway u: the brace's force k u also presses post 2 by k u h/b and
  // pulls the brace's string straight, so u (k - 2 P/h - (k u/b) (1 - (h/l)^2)) = H.
  const double P = 0.25 * k * height;
  const plane::Answer moved = plane::solve(frame, {{1, 500, -P, 0}, {2, 0, -P, 0}}, Order::second);
  double u = 0.0;
  for (int turn = 0; turn < 100; ++turn)
    u = 500 / (k - 2 * P / height - k * u / b * (1 - std::pow(height / l, 2)));
  CHECK(moved.displacements[1].u == Approx(u).epsilon(1e-3));
  // Without the diagonal it is loose.
  frame.members.pop_back();
  CHECK(plane::solve(frame, {{1, 500, 0, 0}}, Order::first).mechanism);
}

TEST_CASE("Nonsense is refused", "[solver][plane]") {
  using underprop::solver::InvalidFrame;
  Frame frame = column({false, true, true});
  frame.members[0].j = 7;
  CHECK_THROWS_AS(plane::solve(frame, {}, Order::first), InvalidFrame);
  frame = column({false, true, true});
  frame.members[0].EA = std::nan("");
  CHECK_THROWS_AS(plane::solve(frame, {}, Order::first), InvalidFrame);
  frame = column({false, true, true});
  CHECK_THROWS_AS(plane::solve(frame, {{5, 0, 0, 0}}, Order::first), InvalidFrame);
  frame.members[0].EI = 0.0;  // a bar cannot take a moment
  CHECK_THROWS_AS(plane::solve(frame, {{1, 0, 0, 5}}, Order::first), InvalidFrame);
}

}  // namespace plane_frame_test_file
