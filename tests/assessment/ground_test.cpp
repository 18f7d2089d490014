// Pads that resolve one another: the coupled ground, solved beside what is assessed.
//
// On an elastic half-space a pad under F at the distance r lowers its neighbour by
// F (1 - nu^2)/(pi E r) (J. Boussinesq 1885; S. P. Timoshenko and J. N. Goodier, Theory of Elasticity,
// 3rd ed. 1970, art. 138). All pads together have the compliance C, symmetric and positive definite.
// Where its inverse has no positive entry beside the diagonal it is exactly a frame: a node per pad
// whose rotations are held, a spring to the earth of the sum of its row, and between every two nodes a
// beam of 12 EI/L^3 equal to minus their entry. So the coupled deck is solved by the solver as it is.
#include "catalog/table.hpp"
#include "standards/half_space.hpp"
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/assessment/exported.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <string>
#include <vector>

namespace ground_test_file {

using namespace underprop;
using standards::neighbour_flexibility;
using standards::rigid_rectangle_stiffness;

namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

struct Pad {
  double x, y, width;
};

/// mm/N; pads closer than a width count at a width, as in the assessment.
Eigen::MatrixXd compliance(const std::vector<Pad>& pads, Stress E, double nu) {
  const auto n = static_cast<Eigen::Index>(pads.size());
  Eigen::MatrixXd C(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index j = 0; j < n; ++j) {
      const Pad& a = pads[static_cast<std::size_t>(i)];
      const Pad& b = pads[static_cast<std::size_t>(j)];
      const double r = std::max({std::hypot(a.x - b.x, a.y - b.y), a.width, b.width});
      C(i, j) = i == j ? 1.0 / rigid_rectangle_stiffness(mm(a.width), mm(a.width), E, nu).value()
                       : neighbour_flexibility(mm(r), E, nu).value();
    }
  }
  return C;
}

/// Adds the ground to a frame; returns its node under every pad.
std::vector<int> add_ground(solver::Frame& frame, const std::vector<Pad>& pads,
                            const Eigen::MatrixXd& C) {
  const Eigen::MatrixXd K = C.inverse();
  std::vector<int> nodes;
  for (std::size_t i = 0; i < pads.size(); ++i) {
    nodes.push_back(static_cast<int>(frame.nodes.size()));
    frame.nodes.push_back({"ground " + std::to_string(i), pads[i].x, pads[i].y});
    const double earth = K.row(static_cast<Eigen::Index>(i)).sum();
    REQUIRE(earth > 0.0);
    frame.supports.push_back(
        {"earth", nodes.back(), earth, solver::rigid, solver::rigid, false, 0.0});
  }
  for (std::size_t i = 0; i < pads.size(); ++i) {
    for (std::size_t j = i + 1; j < pads.size(); ++j) {
      const double k = -K(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j));
      REQUIRE(k > -1e-12 * K(0, 0));
      if (!(k > 1e-12 * K(0, 0))) continue;
      const double L = std::hypot(pads[i].x - pads[j].x, pads[i].y - pads[j].y);
      solver::Member m;
      m.id = m.piece = "ground " + std::to_string(i) + "-" + std::to_string(j);
      m.i = nodes[i];
      m.j = nodes[j];
      m.EI = k * L * L * L / 12.0;
      frame.members.push_back(m);
    }
  }
  return nodes;
}

/// The largest of each effect of each piece.
using Envelope = std::map<std::string, double>;

void take(Envelope& e, const solver::Frame& frame, const std::vector<solver::MemberForces>& forces,
          const std::map<std::string, double>& pads) {
  const auto put = [&](const std::string& what, double value) {
    double& kept = e[what];
    kept = std::max(kept, value);
  };
  for (std::size_t m = 0; m < forces.size(); ++m) {
    const std::string& piece = frame.members[m].piece;
    if (piece.rfind("ground", 0) == 0 || piece.rfind("board", 0) == 0) continue;
    put("sag " + piece, std::max(forces[m].Mi, forces[m].Mj));
    put("hog " + piece, std::max(-forces[m].Mi, -forces[m].Mj));
    put("shear " + piece, forces[m].Vmax);
  }
  for (const auto& [id, force] : pads) put("pad " + id, force);
}

double largest(const Envelope& e, const std::string& effect) {
  double most = 0.0;
  for (const auto& [what, value] : e) {
    if (what.rfind(effect, 0) == 0) most = std::max(most, value);
  }
  return most;
}

}  // namespace

TEST_CASE("A loaded pad lowers its neighbour by the point-load solution", "[closed-form]") {
  const Stress E(20.0);
  const double nu = 0.3, r = 700.0, B = 300.0;
  const std::vector<Pad> two{{0.0, 0.0, B}, {r, 0.0, B}};
  const Eigen::MatrixXd C = compliance(two, E, nu);
  const double pi = std::acos(-1.0);
  const double beside = (1.0 - nu * nu) / (pi * 20.0 * r);
  CHECK(C(0, 1) == Approx(beside).epsilon(1e-12));
  CHECK(C(0, 1) == C(1, 0));
  solver::Frame frame;
  const std::vector<int> ground = add_ground(frame, two, C);
  const std::vector<solver::LoadCase> cases{{"one", {{ground[0], -1, -1.0, 0, 0}}, {}, {}},
                                            {"other", {{ground[1], -1, -1.0, 0, 0}}, {}, {}}};
  const solver::Analysis analysis(frame, cases);
  const auto w = [&](const std::vector<solver::CaseFactor>& load, int pad) {
    return -analysis.solve(load).displacements[at(ground[at(pad)])].w;
  };
  CHECK(w({{0, 1.0}}, 0) == Approx(C(0, 0)).epsilon(1e-9));
  CHECK(w({{0, 1.0}}, 1) == Approx(beside).epsilon(1e-9));
  // Both loaded alike resolve by the sum.
  CHECK(w({{0, 5.0}, {1, 5.0}}, 0) == Approx(5.0 * (C(0, 0) + beside)).epsilon(1e-9));
  CHECK(w({{0, 5.0}, {1, 5.0}}, 1) == Approx(5.0 * (C(0, 0) + beside)).epsilon(1e-9));
  // The earth carries what stands on it.
  const solver::Response both = analysis.solve(std::vector<solver::CaseFactor>{{0, 5.0}, {1, 2.0}});
  CHECK(both.supports[0] + both.supports[1] == Approx(7.0).epsilon(1e-12));
}

TEST_CASE("Pads that resolve one another stay within what is assessed", "[law]") {
  // Today's bounds: every pad softer by its neighbours as if all were loaded alike, stiff ground, and
  // each pad unlike the rest. Contact is recorded tight, so no pad is absent: the narrower envelope.
  for (const auto& [rows, x, y] :
       {std::tuple{5, "1.675 m", "1.65 m"}, std::tuple{5, "1.2 m", "1.2 m"},
        std::tuple{3, "1.675 m", "1.65 m"}, std::tuple{2, "1.675 m", "1.65 m"}}) {
    test::Json json = test::platform(rows);
    json["loads"][0]["at"] = {x, y};
    INFO(rows << " rows, load at " << x << ", " << y);
    const record::Survey survey = test::read(json);
    const auto standard = assessment::standard_for(survey.standard);
    const standards::GroundModuli moduli = standard->moduli(standards::SoilKind::firm_clay);
    const auto exported = assessment::exported_models(survey, *standard);
    Envelope assessed;
    const assessment::ExportedModel* soft = nullptr;
    for (const assessment::ExportedModel& model : exported.models) {
      if (model.bound.rfind("service", 0) == 0) continue;
      if (model.bound == "soft ground, soft base") soft = &model;
      for (const assessment::ExportedCombination& c : model.combinations) {
        REQUIRE_FALSE(c.response.mechanism.has_value());
        std::map<std::string, double> pads;
        for (std::size_t s = 0; s < model.frame.supports.size(); ++s)
          pads[model.frame.supports[s].id] = c.response.supports[s];
        take(assessed, model.frame, c.members, pads);
      }
    }
    REQUIRE(soft != nullptr);

    // The same deck on the coupled ground: crushing of the joist stays above each pad.
    solver::Frame frame = soft->frame;
    const std::vector<solver::Support> supports = frame.supports;
    frame.supports.clear();
    std::vector<Pad> pads;
    for (const solver::Support& s : supports) {
      REQUIRE(s.compression_only);
      pads.push_back({frame.nodes[at(s.node)].x, frame.nodes[at(s.node)].y, 300.0});
    }
    const Eigen::MatrixXd C = compliance(pads, moduli.soft, moduli.poisson);
    REQUIRE(C.isApprox(C.transpose(), 1e-15));
    REQUIRE(Eigen::LLT<Eigen::MatrixXd>(C).info() == Eigen::Success);
    const double reach =
        300.0 * catalog::number(catalog::table("model.json"), "neighbour_reach_widths");
    const std::vector<int> ground = add_ground(frame, pads, C);
    const std::size_t first = frame.links.size();
    for (std::size_t i = 0; i < pads.size(); ++i) {
      double alike = 0.0;
      for (std::size_t j = 0; j < pads.size(); ++j) {
        const double r = std::hypot(pads[i].x - pads[j].x, pads[i].y - pads[j].y);
        if (r <= reach) alike += C(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j));
      }
      const double above = 1.0 / supports[i].k_w - alike;
      REQUIRE(above > 0.0);
      frame.links.push_back({"on " + supports[i].id, supports[i].node, ground[i], 1.0 / above, true,
                             supports[i].gap});
    }
    const solver::Analysis analysis(frame, soft->cases);
    std::vector<int> members(frame.members.size());
    std::iota(members.begin(), members.end(), 0);
    Envelope coupled;
    for (const assessment::ExportedCombination& c : soft->combinations) {
      const solver::Response r = analysis.solve(c.factors);
      REQUIRE_FALSE(r.mechanism.has_value());
      std::map<std::string, double> on_pad;
      double on_pads = 0.0, in_earth = 0.0, before = 0.0;
      for (std::size_t i = 0; i < pads.size(); ++i) {
        on_pad[supports[i].id] = r.links[first + i];
        on_pads += r.links[first + i];
      }
      for (const double R : r.supports) in_earth += R;
      for (const double R : c.response.supports) before += R;
      CHECK(on_pads == Approx(in_earth).epsilon(1e-9));
      CHECK(on_pads == Approx(before).epsilon(1e-9));
      take(coupled, frame, analysis.member_forces(r, c.factors, members), on_pad);
    }
    for (const char* effect : {"sag", "hog", "shear", "pad"}) {
      const double governs = largest(assessed, effect);
      CHECK(governs > 0.0);
      for (const auto& [what, value] : coupled) {
        if (what.rfind(effect, 0) != 0 || value < 0.3 * governs) continue;
        INFO(what);
        CHECK(value <= assessed.at(what) * 1.0001);
      }
    }
  }
}

}  // namespace ground_test_file
