#include "solver/validation.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>
#include <string>

namespace underprop::solver {

namespace {

template <class... Args>
void require(bool ok, fmt::format_string<Args...> format, Args&&... args) {
  if (!ok) throw InvalidFrame(fmt::format(format, std::forward<Args>(args)...));
}

bool within(int index, std::size_t size) {
  return index >= 0 && static_cast<std::size_t>(index) < size;
}

bool stiffness_like(double k) { return k >= 0.0; }  // infinity is; NaN is not

bool finite_positive(double v) { return v > 0.0 && std::isfinite(v); }

void check_member(const Frame& f, const Member& m, double size) {
  require(within(m.i, f.nodes.size()) && within(m.j, f.nodes.size()),
          "member '{}': an end is not a node", m.id);
  const Node& a = f.nodes[static_cast<std::size_t>(m.i)];
  const Node& b = f.nodes[static_cast<std::size_t>(m.j)];
  require(std::hypot(b.x - a.x, b.y - a.y) > 1e-9 * size, "member '{}' has no length", m.id);
  require(finite_positive(m.EI), "member '{}': EI must be positive and finite", m.id);
  require(m.kGA > 0.0, "member '{}': kGA must be positive", m.id);
  require(m.GJ >= 0.0 && std::isfinite(m.GJ), "member '{}': GJ must be finite, not negative", m.id);
  for (const EndFixity& e : {m.end_i, m.end_j}) {
    require(stiffness_like(e.bending) && stiffness_like(e.torsion),
            "member '{}': an end fixity is negative or not a number", m.id);
  }
}

void check_gap(const std::string& what, const std::string& id, double gap, bool one_way) {
  require(std::isfinite(gap), "{} '{}': the gap is not a finite number", what, id);
  require(one_way || gap == 0.0, "{} '{}': a gap needs compression_only", what, id);
}

void check_links_and_supports(const Frame& f, double size) {
  for (const Link& l : f.links) {
    require(within(l.i, f.nodes.size()) && within(l.j, f.nodes.size()) && l.i != l.j,
            "link '{}' needs two different nodes", l.id);
    const Node& a = f.nodes[static_cast<std::size_t>(l.i)];
    const Node& b = f.nodes[static_cast<std::size_t>(l.j)];
    require(std::hypot(b.x - a.x, b.y - a.y) <= 1e-9 * size + 1e-6,
            "link '{}': its nodes are not on one vertical", l.id);
    require(stiffness_like(l.k_w), "link '{}': k_w is negative or not a number", l.id);
    check_gap("link", l.id, l.gap, l.compression_only);
  }
  for (const Support& s : f.supports) {
    require(within(s.node, f.nodes.size()), "support '{}': its node does not exist", s.id);
    require(stiffness_like(s.k_w) && stiffness_like(s.k_tx) && stiffness_like(s.k_ty),
            "support '{}': a stiffness is negative or not a number", s.id);
    check_gap("support", s.id, s.gap, s.compression_only);
  }
}

void check_plates(const Frame& f, double size) {
  for (const Plate& p : f.plates) {
    require(std::isfinite(p.x) && std::isfinite(p.y), "plate '{}': position is not finite", p.id);
    std::vector<int> nodes;
    for (const PlateContact& c : p.contacts) {
      require(within(c.node, f.nodes.size()), "plate '{}': a contact's node does not exist", p.id);
      require(c.k_w > 0.0, "plate '{}': a contact's k_w must be positive", p.id);
      require(std::isfinite(c.gap), "plate '{}': a gap is not a finite number", p.id);
      nodes.push_back(c.node);
    }
    std::sort(nodes.begin(), nodes.end());
    require(std::adjacent_find(nodes.begin(), nodes.end()) == nodes.end(),
            "plate '{}': a node appears twice among its contacts", p.id);
    // The farthest contact from the first, then the largest distance from the line through both.
    double far = 0.0, dx = 0.0, dy = 0.0, off = 0.0;
    const auto from_first = [&](const PlateContact& c) {
      const Node& n = f.nodes[static_cast<std::size_t>(c.node)];
      const Node& o = f.nodes[static_cast<std::size_t>(p.contacts.front().node)];
      return std::pair(n.x - o.x, n.y - o.y);
    };
    for (const PlateContact& c : p.contacts) {
      const auto [x, y] = from_first(c);
      if (std::hypot(x, y) > far) {
        far = std::hypot(x, y);
        dx = x / far;
        dy = y / far;
      }
    }
    for (const PlateContact& c : p.contacts) {
      const auto [x, y] = from_first(c);
      off = std::max(off, std::abs(x * dy - y * dx));
    }
    require(off > 1e-9 * size, "plate '{}' needs three contacts that are not on one line", p.id);
  }
}

/// Moves a position that passed an end by rounding back to it.
double onto_member(double at, double L) {
  if (at < 0.0 && at >= -1e-9 * L) return 0.0;
  if (at > L && at <= L * (1.0 + 1e-9)) return L;
  return at;
}

double length_of(const Frame& f, int member) {
  const Member& m = f.members[static_cast<std::size_t>(member)];
  const Node& a = f.nodes[static_cast<std::size_t>(m.i)];
  const Node& b = f.nodes[static_cast<std::size_t>(m.j)];
  return std::hypot(b.x - a.x, b.y - a.y);
}

}  // namespace

double extent(const Frame& frame) {
  double lo_x = 0.0, hi_x = 0.0, lo_y = 0.0, hi_y = 0.0;
  bool first = true;
  for (const Node& n : frame.nodes) {
    lo_x = first ? n.x : std::min(lo_x, n.x);
    hi_x = first ? n.x : std::max(hi_x, n.x);
    lo_y = first ? n.y : std::min(lo_y, n.y);
    hi_y = first ? n.y : std::max(hi_y, n.y);
    first = false;
  }
  return std::max(hi_x - lo_x, hi_y - lo_y);
}

void validate(const Frame& frame) {
  require(!frame.nodes.empty(), "the frame has no node");
  for (const Node& n : frame.nodes) {
    require(std::isfinite(n.x) && std::isfinite(n.y), "node '{}': coordinates are not finite",
            n.id);
  }
  const double size = extent(frame);
  for (const Member& m : frame.members) check_member(frame, m, size);
  check_links_and_supports(frame, size);
  check_plates(frame, size);
}

void validate(const Frame& frame, LoadCase& c) {
  for (const NodalLoad& l : c.nodal) {
    const bool node = within(l.node, frame.nodes.size()) && l.plate == -1;
    const bool plate = within(l.plate, frame.plates.size()) && l.node == -1;
    require(node || plate, "load case '{}': a nodal load needs one existing node or plate", c.id);
    require(std::isfinite(l.Fz) && std::isfinite(l.Mx) && std::isfinite(l.My),
            "load case '{}': a nodal load is not finite", c.id);
  }
  for (LineLoad& l : c.line) {
    require(within(l.member, frame.members.size()),
            "load case '{}': a line load's member does not exist", c.id);
    require(std::isfinite(l.q1) && std::isfinite(l.q2), "load case '{}': a line load is not finite",
            c.id);
    const double L = length_of(frame, l.member);
    l.a = onto_member(l.a, L);
    l.b = onto_member(l.b, L);
    require(l.a >= 0.0 && l.a < l.b && l.b <= L,
            "load case '{}': a line load on member '{}' needs 0 <= a < b <= length", c.id,
            frame.members[static_cast<std::size_t>(l.member)].id);
  }
  for (PointLoad& p : c.point) {
    require(within(p.member, frame.members.size()),
            "load case '{}': a point load's member does not exist", c.id);
    require(std::isfinite(p.P), "load case '{}': a point load is not finite", c.id);
    const double L = length_of(frame, p.member);
    p.a = onto_member(p.a, L);
    require(p.a >= 0.0 && p.a <= L,
            "load case '{}': a point load is not between the ends of member '{}'", c.id,
            frame.members[static_cast<std::size_t>(p.member)].id);
  }
}

void validate(const std::vector<LoadCase>& cases, std::span<const CaseFactor> combination) {
  for (const CaseFactor& c : combination) {
    require(within(c.load_case, cases.size()), "a combination names a load case that is not there");
    require(std::isfinite(c.factor), "a combination's factor is not finite");
  }
}

void validate(const Frame& frame, std::span<const SupportChange> changes) {
  std::vector<int> seen;
  for (const SupportChange& c : changes) {
    require(within(c.support, frame.supports.size()), "a changed support does not exist");
    const Support& s = frame.supports[static_cast<std::size_t>(c.support)];
    require(std::isfinite(c.k_w) && c.k_w >= 0.0,
            "changed support '{}': k_w must be finite, not negative", s.id);
    require(s.compression_only || std::isfinite(s.k_w),
            "changed support '{}' is rigid and two-way in the frame; give it a finite k_w there",
            s.id);
    if (c.gap) check_gap("changed support", s.id, *c.gap, s.compression_only);
    seen.push_back(c.support);
  }
  std::sort(seen.begin(), seen.end());
  require(std::adjacent_find(seen.begin(), seen.end()) == seen.end(),
          "a support is changed twice in one question");
}

void validate(const Frame& frame, const Additions& additions) {
  for (std::size_t k = 0; k < additions.supports.size(); ++k) {
    const SupportAddition& s = additions.supports[k];
    const std::string id = std::to_string(k);
    require(within(s.node, frame.nodes.size()), "added support {}: its node does not exist", id);
    require(std::isfinite(s.k_w) && s.k_w >= 0.0,
            "added support {}: k_w must be finite, not negative", id);
    check_gap("added support", id, s.gap, s.compression_only);
  }
  const double size = extent(frame);
  for (const Member& m : additions.members) check_member(frame, m, size);
}

}  // namespace underprop::solver
