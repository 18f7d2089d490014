// Plates laid on a factored bed give what plates in the matrix give; bounds and memories change nothing.
#include "solver/plated.hpp"

#include "oracle/dense_random.hpp"
#include "solver/contact_memory.hpp"
#include "support/catch.hpp"

#include <algorithm>
#include <cmath>

namespace plated_test_file {

using namespace underprop::solver;

namespace {

/// A small deck at random: joists along y on one-way supports (some with gaps, some soft), boards along x
/// over them with nodes at the joists and between.
struct Deck {
  Frame frame;
  std::vector<int> joist_members, board_members;
  std::vector<Group> groups;  ///< of joist_members
  std::vector<int> tops;      ///< board nodes
  double width = 0.0, length = 0.0;
};

Deck random_deck(oracle::Sequence& r) {
  Deck d;
  Frame& f = d.frame;
  const int joists = 3 + r.below(4), boards = 4 + r.below(5);
  const auto node = [&](double x, double y) {
    f.nodes.push_back({"n" + std::to_string(f.nodes.size()), x, y});
    return static_cast<int>(f.nodes.size()) - 1;
  };
  const auto member = [&](int i, int j, double EI, const std::string& piece) {
    Member m;
    m.id = "m" + std::to_string(f.members.size());
    m.piece = piece;
    m.i = i;
    m.j = j;
    m.EI = EI;
    if (r.chance(0.5)) m.kGA = r.between(5e5, 5e6);
    f.members.push_back(m);
    return static_cast<int>(f.members.size()) - 1;
  };
  std::vector<double> xs, ys;
  double x = 0.0, y = 0.0;
  for (int k = 0; k < joists; ++k) xs.push_back(x += r.between(300.0, 600.0));
  for (int k = 0; k < boards; ++k) ys.push_back(y += r.between(120.0, 200.0));
  d.width = x;
  d.length = y;
  std::vector<std::vector<int>> on_joist(xs.size());
  for (std::size_t j = 0; j < xs.size(); ++j) {
    for (const double at : ys) on_joist[j].push_back(node(xs[j], at));
    const auto first = static_cast<int>(d.joist_members.size());
    const double EI = r.between(5e10, 5e11);
    for (std::size_t k = 0; k + 1 < ys.size(); ++k) {
      d.joist_members.push_back(
          member(on_joist[j][k], on_joist[j][k + 1], EI, "J" + std::to_string(j)));
    }
    d.groups.push_back({first, static_cast<int>(d.joist_members.size())});
    for (const std::size_t k : {std::size_t{0}, ys.size() / 2, ys.size() - 1}) {
      Support s;
      s.id = "s" + std::to_string(f.supports.size());
      s.node = on_joist[j][k];
      s.k_w = r.between(500.0, 20000.0);
      s.compression_only = !r.chance(0.1);
      if (s.compression_only && r.chance(0.2)) s.gap = r.between(-0.5, 2.0);
      f.supports.push_back(s);
    }
  }
  for (std::size_t b = 0; b < ys.size(); ++b) {
    std::vector<int> line;
    for (std::size_t j = 0; j < xs.size(); ++j) {
      if (j > 0) line.push_back(node(0.5 * (xs[j - 1] + xs[j]), ys[b]));
      line.push_back(node(xs[j], ys[b]));
      Link link;
      link.id = "l" + std::to_string(f.links.size());
      link.i = line.back();
      link.j = on_joist[j][b];
      f.links.push_back(link);
    }
    for (std::size_t k = 0; k + 1 < line.size(); ++k)
      d.board_members.push_back(
          member(line[k], line[k + 1], r.between(1e9, 3e9), "board " + std::to_string(b)));
    d.tops.insert(d.tops.end(), line.begin(), line.end());
  }
  return d;
}

Plate plate_at(const Deck& d, double x, double y, double a, double b) {
  Plate plate;
  plate.id = "base";
  plate.x = x;
  plate.y = y;
  for (const int t : d.tops) {
    const Node& n = d.frame.nodes[static_cast<std::size_t>(t)];
    if (std::abs(n.x - x) <= a && std::abs(n.y - y) <= b)
      plate.contacts.push_back({t, 8000.0, 0.0});
  }
  return plate;
}

/// Weight of joists and boards; loads on the plates; a load beside them; half of the plate's load.
std::vector<LoadCase> cases_of(const Deck& d, const std::vector<Plate>& plates,
                               oracle::Sequence& r) {
  std::vector<LoadCase> cases(4);
  cases[0].id = "weight";
  for (const std::vector<int>* list : {&d.joist_members, &d.board_members}) {
    for (const int m : *list) {
      const Member& member = d.frame.members[static_cast<std::size_t>(m)];
      const Node &i = d.frame.nodes[static_cast<std::size_t>(member.i)],
                 &j = d.frame.nodes[static_cast<std::size_t>(member.j)];
      cases[0].line.push_back({m, -0.08, -0.08, 0.0, std::hypot(j.x - i.x, j.y - i.y)});
    }
  }
  cases[1].id = "plates";
  cases[3].id = "beside the middle";
  for (std::size_t p = 0; p < plates.size(); ++p) {
    NodalLoad load;
    load.plate = static_cast<int>(p);
    load.Fz = -r.between(5000.0, 20000.0);
    cases[1].nodal.push_back(load);
    load.Mx = load.Fz * r.between(-150.0, 150.0);
    load.My = load.Fz * r.between(-150.0, 150.0);
    cases[3].nodal.push_back(load);
  }
  cases[2].id = "a person";
  NodalLoad person;
  person.node = d.tops[static_cast<std::size_t>(r.below(static_cast<int>(d.tops.size())))];
  person.Fz = -r.between(500.0, 3000.0);
  cases[2].nodal.push_back(person);
  return cases;
}

struct Counts {
  int states = 0, lifted = 0, mechanisms = 0, in_full = 0, excused = 0, read = 0;
};

void compare(const Deck& d, const Analysis& whole, const Plated& plated,
             const std::vector<int>& boards, const std::vector<CaseFactor>& f,
             const std::vector<SupportChange>& changes, const Limits* limits, Counts& counts) {
  const Response full = whole.solve(f, changes);
  State state;
  plated.solve(f, plated.prepare(changes), true, state, limits, counts.states % 3);
  ++counts.states;
  REQUIRE(full.mechanism.has_value() == state.mechanism.has_value());
  counts.in_full += state.asked_in_full ? 1 : 0;
  if (full.mechanism) {
    ++counts.mechanisms;
    return;
  }
  counts.lifted += full.something_lifts ? 1 : 0;
  double largest = 0.0;
  for (const double R : full.supports) largest = std::max(largest, std::abs(R));
  for (std::size_t s = 0; s < full.supports.size(); ++s) {
    const int k = plated.of_support(static_cast<int>(s));
    REQUIRE(k >= 0);
    CHECK(std::abs(state.springs[k] - full.supports[s]) <= 1e-7 * largest);
  }
  std::vector<int> members = d.joist_members;
  members.insert(members.end(), boards.begin(), boards.end());
  const auto forces = whole.member_forces(full, f, members);
  double moment = 0.0;
  for (const MemberForces& m : forces) moment = std::max({moment, std::abs(m.Mi), std::abs(m.Mj)});
  for (std::size_t g = 0; g < d.groups.size(); ++g) {
    if (state.read[g] == 0)
      ++counts.excused;
    else
      ++counts.read;
  }
  std::size_t group = 0;
  for (std::size_t m = 0; m < forces.size(); ++m) {
    while (group < d.groups.size() && static_cast<int>(m) >= d.groups[group].last) ++group;
    if (group < d.groups.size() && state.read[group] == 0) {
      REQUIRE(limits != nullptr);
      const double tolerance = 1e-9 * moment;
      CHECK(std::max({forces[m].Mi, forces[m].Mj}) <= limits->sag[group] + tolerance);
      CHECK(std::max({-forces[m].Mi, -forces[m].Mj}) <= limits->hog[group] + tolerance);
      CHECK(forces[m].Vmax <= limits->shear[group] + 1e-9 * largest);
      continue;
    }
    const auto row = 4 * static_cast<Eigen::Index>(m);
    CHECK(std::abs(state.ends[row] - forces[m].Mi) <= 1e-7 * moment);
    CHECK(std::abs(state.ends[row + 1] - forces[m].Mj) <= 1e-7 * moment);
    CHECK(std::abs(state.ends[row + 2] - forces[m].Vi) <= 1e-7 * largest);
    CHECK(std::abs(state.ends[row + 3] - forces[m].Vj) <= 1e-7 * largest);
  }
}

}  // namespace

TEST_CASE("Plates on a factored bed answer as plates in the matrix, wherever they stand", "[law]") {
  Counts counts;
  for (std::uint64_t seed = 0; seed < 40; ++seed) {
    oracle::Sequence r(seed + 900);
    const Deck d = random_deck(r);
    const Analysis frame(d.frame, {});
    const PlateBed bed(frame, d.joist_members, d.board_members, d.groups);
    for (int place = 0; place < 6; ++place) {
      INFO("deck " << seed << ", place " << place);
      std::vector<Plate> plates{plate_at(d, d.width * r.between(0.3, 0.8),
                                         d.length * r.between(0.3, 0.8), r.between(250.0, 900.0),
                                         r.between(200.0, 500.0))};
      if (place == 5)
        plates.push_back(plate_at(d, d.width * r.between(0.3, 0.8), d.length * r.between(0.3, 0.8),
                                  400.0, 300.0));
      const auto stands = [&](const Plate& plate) {
        double low_x = 1e9, high_x = -1e9, low_y = 1e9, high_y = -1e9;
        for (const PlateContact& c : plate.contacts) {
          const Node& n = d.frame.nodes[static_cast<std::size_t>(c.node)];
          low_x = std::min(low_x, n.x);
          high_x = std::max(high_x, n.x);
          low_y = std::min(low_y, n.y);
          high_y = std::max(high_y, n.y);
        }
        return plate.contacts.size() >= 4 && high_x > low_x && high_y > low_y;
      };
      if (!std::all_of(plates.begin(), plates.end(), stands)) continue;
      const std::vector<LoadCase> cases = cases_of(d, plates, r);
      Frame with = d.frame;
      with.plates = plates;
      const Analysis whole(with, cases);
      const std::vector<int> near(
          d.board_members.begin(),
          d.board_members.begin() + static_cast<std::ptrdiff_t>(d.board_members.size() / 2));
      const std::vector<int>& boards = place % 2 == 0 ? d.board_members : near;
      const Plated plated(bed, plates, cases, boards);
      Limits limits;
      for (std::size_t g = 0; g < d.groups.size(); ++g) {
        limits.sag.push_back(r.between(0.0, 3e6));
        limits.hog.push_back(r.between(0.0, 3e6));
        limits.shear.push_back(r.between(0.0, 2e4));
      }
      for (const double a : {0.9, 1.35}) {
        compare(d, whole, plated, boards, {{0, a}, {1, 1.0}}, {}, nullptr, counts);
        compare(d, whole, plated, boards, {{0, a}, {1, 0.8}, {2, 1.5}}, {}, &limits, counts);
        compare(d, whole, plated, boards, {{0, a}, {3, 1.0}}, {}, &limits, counts);
        compare(d, whole, plated, boards, {{0, a}, {1, 0.2}, {3, 1.2}, {2, 0.5}}, {}, nullptr,
                counts);
        // One support harder, softer, absent; two at once.
        const int s = r.below(static_cast<int>(d.frame.supports.size()));
        const double k = d.frame.supports[static_cast<std::size_t>(s)].k_w;
        for (const double share : {6.0, 0.2, 0.0}) {
          compare(d, whole, plated, boards, {{0, a}, {1, 1.0}}, {{s, share * k, {}}}, nullptr,
                  counts);
          compare(d, whole, plated, boards, {{0, a}, {3, 1.0}}, {{s, share * k, {}}}, &limits,
                  counts);
        }
        if (place == 0 && s > 0)
          compare(d, whole, plated, boards, {{0, a}, {1, 1.0}}, {{s, 2.0 * k, {}}, {0, 700.0, {}}},
                  nullptr, counts);
      }
    }
  }
  CHECK(counts.states > 4000);
  CHECK(counts.lifted > counts.states / 2);
  CHECK(counts.in_full < counts.states / 5);
  CHECK(counts.excused > 500);
  CHECK(counts.read > counts.excused / 10);
}

TEST_CASE("A bed refuses what it cannot carry", "[law]") {
  oracle::Sequence r(7);
  const Deck d = random_deck(r);
  const Analysis frame(d.frame, {});
  CHECK_THROWS_AS(PlateBed(frame, {99999}, d.board_members), InvalidFrame);
  Frame twisting = d.frame;
  twisting.members[static_cast<std::size_t>(d.board_members.front())].GJ = 1e9;
  const Analysis twists(twisting, {});
  CHECK_THROWS_AS(PlateBed(twists, d.joist_members, d.board_members), InvalidFrame);
  CHECK_THROWS_AS(PlateBed(frame, d.joist_members, d.board_members, {{3, 1}}), InvalidFrame);
  const PlateBed bed(frame, d.joist_members, d.board_members);
  Plate plate = plate_at(d, 0.5 * d.width, 0.5 * d.length, 900.0, 400.0);
  LoadCase on_none;
  on_none.nodal.push_back({-1, 3, -1.0, 0.0, 0.0});
  CHECK_THROWS_AS(Plated(bed, {plate}, {on_none}, {}), InvalidFrame);
  plate.contacts.front().k_w = rigid;
  CHECK_THROWS_AS(Plated(bed, {plate}, {}, {}), InvalidFrame);
  plate.contacts.front() = {0, 100.0, 0.0};  // a joist's node
  CHECK_THROWS_AS(Plated(bed, {plate}, {}, {}), InvalidFrame);
}

TEST_CASE("Remembered contact sets and bordered blocks give the solution of the contact problem",
          "[law]") {
  int solved = 0, careful = 0;
  for (std::uint64_t seed = 0; seed < 60; ++seed) {
    oracle::Sequence r(seed + 40);
    const int n = 5 + r.below(60), rank = n + 3;
    Eigen::MatrixXd G(rank, n);
    for (Eigen::Index i = 0; i < G.size(); ++i) G.data()[i] = r.between(-1.0, 1.0);
    Eigen::MatrixXd M = G.transpose() * G;
    M /= M.diagonal().maxCoeff();
    std::vector<Eigen::VectorXd> columns;
    for (Eigen::Index i = 0; i < n; ++i) columns.emplace_back(M.col(i));
    ContactMemory memory;
    Eigen::VectorXd q(n);
    for (Eigen::Index i = 0; i < n; ++i) q[i] = r.between(-1.0, 1.0);
    for (int state = 0; state < 30; ++state) {
      for (Eigen::Index i = 0; i < n; ++i) q[i] += r.between(-0.1, 0.1);
      ContactProblem problem;
      problem.q = q;
      problem.column = [&](int i) -> const Eigen::VectorXd& {
        return columns[static_cast<std::size_t>(i)];
      };
      ContactMemory::Found found;
      const ContactSolution exact = solve_contact(M, q);
      if (!memory.solve(problem, state % 4, found)) {
        ++careful;
        continue;
      }
      ++solved;
      REQUIRE(exact.status == ContactStatus::solved);
      CHECK(found.open == exact.open);
      CHECK((found.lambda - exact.lambda).cwiseAbs().maxCoeff() <=
            1e-6 * std::max(1.0, exact.lambda.cwiseAbs().maxCoeff()));
      CHECK((found.force.cwiseMax(0.0) - exact.force).cwiseAbs().maxCoeff() <=
            1e-6 * std::max(1.0, exact.lambda.cwiseAbs().maxCoeff()));
    }
  }
  CHECK(solved > 1000);
  CHECK(careful < solved);
}

}  // namespace plated_test_file
