// The same frame through a general-purpose finite element program, CalculiX (G. Dhondt, The Finite
// Element Method for Three-Dimensional Thermomechanical Applications, 2004; program ccx, Debian package
// calculix-ccx), as far as it has what a grillage needs.
//
// Its own beams B31 and B32 are expanded into solid elements, so that shear and torsion are those of a
// solid and differ from beam theory by per cents. Its user element U1 is a real two-node Timoshenko
// beam (Y. Luo, An efficient 3D Timoshenko beam element with consistent shape functions, Advances in
// Theoretical and Applied Mechanics 1, 2008), exact at its nodes for loads at nodes: one element per
// member is enough. Its bending and torsion are compared, not its shear: with a finite shear stiffness
// ccx 2.20 bends a simple beam less than one that is rigid in shear (measured: 0.327 mm against 0.417 mm
// where beam theory gives 0.583 mm), so members here are rigid in shear and have a very large area. U1
// knows no load between the nodes and no end springs, and takes I11 + I22 for the torsion constant.
// Lateral displacements are all held here, so I22 has no other effect and is chosen to give GJ, negative
// where needed.
//
// Elastic links and supports are vertical springs SPRINGA, so a node has a height z. ccx's nonlinear
// springs and gaps need NLGEOM, which U1 refuses. One-way contact is therefore solved around ccx: all
// closed, then every spring that pulls is taken out and every open one that is pressed put back, until
// nothing changes (a state that satisfies this is the solution, because the problem is convex).
#pragma once

#include "underprop/solver/analysis.hpp"

#include <unistd.h>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <limits>
#include <sstream>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace oracle {

using namespace underprop::solver;

inline bool calculix_is_there() { return std::system("command -v ccx > /dev/null 2>&1") == 0; }

struct CalculixAnswer {
  std::vector<Displacement> displacements;  ///< per node
  std::vector<double> supports, links;      ///< of elastic ones; rigid ones 0
  int runs = 0;
};

class Calculix {
public:
  /// Nodal loads only; members rigid in shear without end springs; `z` is the height of each node.
  Calculix(const Frame& frame, const LoadCase& loads, std::vector<double> z)
      : f_(frame), loads_(loads), z_(std::move(z)) {
    folder_ = std::filesystem::temp_directory_path() /
              ("underprop-calculix-" + std::to_string(::getpid()));
    std::filesystem::create_directories(folder_);
  }
  ~Calculix() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  Calculix(const Calculix&) = delete;
  Calculix& operator=(const Calculix&) = delete;

  [[nodiscard]] CalculixAnswer solve() const {
    std::vector<bool> support(f_.supports.size(), true), link(f_.links.size(), true);
    CalculixAnswer a;
    for (bool again = true; again;) {
      if (++a.runs > 50) throw std::runtime_error("the contact states around ccx run in a ring");
      a.displacements = run(support, link);
      a.supports.assign(f_.supports.size(), 0.0);
      a.links.assign(f_.links.size(), 0.0);
      again = false;
      const auto decide = [&](double k, double closing, bool one_way, std::vector<bool>& closed,
                              std::size_t n, std::vector<double>& force) {
        if (!std::isfinite(k)) return;
        if (one_way && (closing > 0.0) != closed[n]) {
          closed[n] = closing > 0.0;
          again = true;
        }
        force[n] = closed[n] ? k * closing : 0.0;
      };
      for (std::size_t s = 0; s < f_.supports.size(); ++s) {
        const Support& p = f_.supports[s];
        decide(p.k_w, -w(a, p.node) - p.gap, p.compression_only, support, s, a.supports);
      }
      for (std::size_t l = 0; l < f_.links.size(); ++l) {
        const Link& p = f_.links[l];
        decide(p.k_w, w(a, p.j) - w(a, p.i) - p.gap, p.compression_only, link, l, a.links);
      }
    }
    return a;
  }

private:
  static double w(const CalculixAnswer& a, int node) {
    return a.displacements[static_cast<std::size_t>(node)].w;
  }

  /// One linear run. Node n of the frame is n + 1 here; grounds and springs follow.
  [[nodiscard]] std::vector<Displacement> run(const std::vector<bool>& support,
                                              const std::vector<bool>& link) const {
    constexpr double E = 10000.0, nu = 0.25, shear_modulus = E / (2 * (1 + nu)), share = 5.0 / 6.0;
    constexpr double height = 1000.0, area = 1e12;
    const int nodes = static_cast<int>(f_.nodes.size());
    std::ostringstream in, grounds, elements, springs, held, equations, cload;
    for (std::ostringstream* s : {&in, &grounds, &elements, &springs, &held, &equations, &cload}) {
      s->precision(15);
    }
    in << "*NODE,NSET=ALL\n";
    for (int n = 0; n < nodes; ++n) {
      const Node& node = f_.nodes[static_cast<std::size_t>(n)];
      in << n + 1 << ", " << node.x << ", " << node.y << ", " << z_[static_cast<std::size_t>(n)]
         << "\n";
    }
    int next = static_cast<int>(f_.members.size());
    const auto spring = [&](int upper, int lower, double k) {
      ++next;
      elements << "*ELEMENT,TYPE=SPRINGA,ELSET=S" << next << "\n"
               << next << ", " << lower << ", " << upper << "\n";
      springs << "*SPRING,ELSET=S" << next << "\n\n" << k << "\n";
    };
    for (std::size_t m = 0; m < f_.members.size(); ++m) {
      const Member& e = f_.members[m];
      if (std::isfinite(e.kGA)) throw std::runtime_error("members must be rigid in shear here");
      const double I = e.EI / E, J = e.GJ / shear_modulus;
      elements << "*ELEMENT,TYPE=U1,ELSET=M" << m + 1 << "\n"
               << m + 1 << ", " << e.i + 1 << ", " << e.j + 1 << "\n";
      springs << "*BEAM SECTION,ELSET=M" << m + 1 << ",MATERIAL=WOOD,SECTION=GENERAL\n"
              << area << ", " << I << ", 0., " << J - I << ", " << share << "\n0., 0., 1.\n";
    }
    int ground = nodes;
    const auto load = [&](int node, double F) { cload << node << ", 3, " << F << "\n"; };
    for (std::size_t s = 0; s < f_.supports.size(); ++s) {
      const Support& p = f_.supports[s];
      for (const auto& [k, axis] : {std::pair{p.k_tx, 4}, std::pair{p.k_ty, 5}}) {
        if (k == 0.0) continue;
        if (std::isfinite(k)) throw std::runtime_error("no rotational springs here");
        held << p.node + 1 << ", " << axis << ", " << axis << "\n";
      }
      if (p.k_w == 0.0) continue;
      if (!std::isfinite(p.k_w)) {
        held << p.node + 1 << ", 3, 3\n";
      } else if (support[s]) {
        const Node& node = f_.nodes[static_cast<std::size_t>(p.node)];
        ++ground;
        in << ground << ", " << node.x << ", " << node.y << ", "
           << z_[static_cast<std::size_t>(p.node)] - height << "\n";
        held << ground << ", 3, 3\n";
        spring(p.node + 1, ground, p.k_w);
        if (p.gap != 0.0) load(p.node + 1, -p.k_w * p.gap);  // k (-w - gap)
      }
    }
    for (std::size_t l = 0; l < f_.links.size(); ++l) {
      const Link& p = f_.links[l];
      if (!std::isfinite(p.k_w)) {
        equations << "*EQUATION\n2\n" << p.i + 1 << ", 3, 1., " << p.j + 1 << ", 3, -1.\n";
      } else if (link[l]) {
        spring(p.i + 1, p.j + 1, p.k_w);
        if (p.gap != 0.0) {
          load(p.j + 1, p.k_w * p.gap);
          load(p.i + 1, -p.k_w * p.gap);
        }
      }
    }
    for (const NodalLoad& l : loads_.nodal) {
      const double F[3] = {l.Fz, l.Mx, l.My};
      for (int d = 0; d < 3; ++d) {
        if (F[d] != 0.0) cload << l.node + 1 << ", " << 3 + d << ", " << F[d] << "\n";
      }
    }
    in << "*USER ELEMENT,TYPE=U1,NODES=2,INTEGRATION POINTS=2,MAXDOF=6\n"
       << elements.str() << "*MATERIAL,NAME=WOOD\n*ELASTIC\n"
       << E << ", " << nu << "\n"
       << springs.str() << equations.str() << "*BOUNDARY\nALL, 1, 2\nALL, 6, 6\n"
       << held.str() << "*STEP\n*STATIC\n*CLOAD\n"
       << cload.str() << "*NODE PRINT,NSET=ALL\nU\n*END STEP\n";
    std::ofstream(folder_ / "frame.inp") << in.str();
    std::error_code ignored;
    std::filesystem::remove(folder_ / "frame.dat", ignored);
    const std::string command = "cd '" + folder_.string() + "' && ccx frame > frame.log 2>&1";
    if (std::system(command.c_str()) != 0) throw std::runtime_error("ccx failed");
    return read(nodes);
  }

  [[nodiscard]] std::vector<Displacement> read(int nodes) const {
    std::vector<Displacement> out(static_cast<std::size_t>(nodes),
                                  {std::numeric_limits<double>::quiet_NaN(), 0.0, 0.0});
    std::ifstream dat(folder_ / "frame.dat");
    for (std::string line; std::getline(dat, line);) {
      std::istringstream row(line);
      int node = 0;
      double u[6];
      if (!(row >> node >> u[0] >> u[1] >> u[2] >> u[3] >> u[4] >> u[5])) continue;
      if (node >= 1 && node <= nodes) out[static_cast<std::size_t>(node - 1)] = {u[2], u[3], u[4]};
    }
    return out;
  }

  const Frame& f_;
  const LoadCase& loads_;
  std::vector<double> z_;
  std::filesystem::path folder_;
};

}  // namespace oracle
