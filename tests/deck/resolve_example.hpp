// A small invented deck for the tests of resolving: every fact recorded, so that a test can take one
// away. 4 m x 3 m, joists J1 to J9 along y from a ledger at y = 0 over a bearer at y = 2.6 m.
#pragma once

#include "underprop/base/geometry.hpp"
#include "underprop/deck/deck.hpp"

#include <algorithm>
#include <string>

namespace underprop::deck::example {

inline Point at(double x, double y) { return {mm(x), mm(y)}; }

inline record::EndHold hanger() {
  record::EndHold hold;
  hold.held = record::Hold::hanger;
  hold.nails_in_carrier = 8;
  hold.sound = true;
  hold.seat = mm(45);
  return hold;
}
inline record::EndHold free_end() {
  record::EndHold hold;
  hold.held = record::Hold::free;
  return hold;
}

inline record::Survey recorded() {
  record::Survey s;
  s.name = "Test deck";
  s.site.use = record::Use::one_household;
  s.site.storeys = 1;
  s.site.space_below = record::SpaceBelow::none;
  s.site.seismic_category = std::string("A");
  s.site.soil = record::Soil::firm_clay;
  s.site.heel_marks = false;
  s.site.water_in_hole = false;
  s.site.shrinkable_clay = false;
  s.site.fill = record::Fill::none;
  s.site.slope = 0.0;
  s.site.frost_depth = mm(450);
  for (auto* seen : {&s.site.retaining_walls, &s.site.house_walls, &s.site.drains, &s.site.ponds}) {
    seen->looked = true;
  }
  s.site.trees.looked = true;
  s.site.roof_or_screen = false;

  record::DeckRecord& d = s.deck;
  d.outline = {at(0, 0), at(4000, 0), at(4000, 3000), at(0, 3000)};
  d.height = mm(550);
  d.boards.timber = std::string("C24");
  d.boards.width = mm(120);
  d.boards.thickness = mm(28);
  d.boards.groove_depth = mm(2);
  d.boards.gap = mm(5);
  d.boards.joints = record::BoardJoints::none;
  record::Joists j;
  j.name = "J";
  for (int i = 0; i < 9; ++i) j.positions.push_back(mm(50 + 487.5 * i));
  j.timber = std::string("C24");
  j.incised = false;
  j.breadth = mm(47);
  j.depth = mm(145);
  j.over_bearers = record::OverBearers::continuous;
  j.start = hanger();
  j.end = free_end();
  d.joists.push_back(j);
  record::Bearer b;
  b.name = "B1";
  b.position = mm(2600);
  b.timber = std::string("C24");
  b.incised = false;
  b.plies = 2;
  b.ply_breadth = mm(47);
  b.depth = mm(145);
  b.plies_fixed_together = true;
  b.joists_held_down = record::HeldDown::screwed;
  b.splices = {mm(2000)};
  d.bearers.push_back(b);
  record::Rim r;
  r.name = "R1";
  r.joists = "J";
  r.breadth = mm(47);
  r.depth = mm(145);
  r.fixed = record::RimFixing::hangers;
  d.rims.push_back(r);
  record::Ledger l;
  l.name = "L1";
  l.position = mm(0);
  l.timber = std::string("C24");
  l.incised = false;
  l.breadth = mm(47);
  l.depth = mm(145);
  l.fixed_to = record::LedgerWall::timber_band;
  l.fixing = record::FixingKind::bolt;
  l.fixing_diameter = mm(12);
  l.fixing_spacing = mm(400);
  l.penetration = mm(45);
  l.sound = true;
  d.ledgers.push_back(l);
  record::Supports p;
  p.name = "P";
  p.under = "B1";
  p.positions = {mm(3800), mm(200), mm(2000)};
  p.packers = 0;
  record::Post post;
  post.timber = std::string("C24");
  post.incised = false;
  post.breadth = mm(95);
  post.depth = mm(95);
  post.height = mm(200);
  post.bearer = record::BearerOnPost::beside;
  post.bolts = 2;
  post.bolt_diameter = mm(12);
  post.base = record::PostBase::pinned;
  post.lean = mm(2);
  p.post = post;
  p.footing.kind = record::FootingKind::cast_pad;
  p.footing.width = mm(400);
  p.footing.length = mm(400);
  p.footing.thickness = mm(200);
  p.footing.depth = mm(300);
  p.footing.offset = mm(10);
  p.footing.contact = record::Contact::tight;
  p.footing.below_topsoil = true;
  d.supports.push_back(p);
  record::Supports pads = p;
  pads.name = "K";
  pads.under = "J";
  pads.positions = {mm(1300)};
  pads.only = {"J4", "J5"};
  pads.post.reset();
  d.supports.push_back(pads);
  record::Wall w;
  w.name = "W1";
  w.from = at(0, 1800);
  w.to = at(4000, 1800);
  w.width = mm(100);
  w.strip_width = mm(300);
  w.depth = mm(300);
  w.contact = record::Contact::tight;
  d.walls.push_back(w);
  record::Blocking row;
  row.name = "N1";
  row.joists = "J";
  row.position = mm(2600);
  d.blocking.push_back(row);
  d.probed.pieces = {"all"};

  record::HeavyLoad t;
  t.name = "tub";
  t.width = mm(2000);
  t.length = mm(1800);
  t.height = mm(450);
  t.at = at(2000, 1500);
  t.dry_mass = kilograms(300);
  t.contents = litres(1100);
  t.people = 5;
  t.base = record::BaseKind::full;
  s.loads.push_back(t);
  return s;
}

/// The same structure with nothing known that may be unknown.
inline record::Survey unknown(record::StandardId standard) {
  record::Survey s = recorded();
  s.standard = standard;
  s.site = record::Site{};
  record::DeckRecord& d = s.deck;
  d.height = {};
  d.boards.timber = {};
  d.boards.thickness = {};
  d.boards.joints = {};
  record::Joists& j = d.joists[0];
  j.timber = {};
  j.incised = {};
  j.breadth = j.depth = {};
  j.over_bearers = {};
  j.start = j.end = record::EndHold{};
  record::Bearer& b = d.bearers[0];
  b.timber = {};
  b.incised = b.plies_fixed_together = {};
  b.ply_breadth = b.depth = {};
  b.joists_held_down = {};
  d.rims[0].fixed = {};
  record::Ledger& l = d.ledgers[0];
  l.timber = {};
  l.incised = l.sound = {};
  l.fixed_to = {};
  l.fixing = {};
  l.fixing_diameter = l.fixing_spacing = l.penetration = {};
  for (record::Supports& p : d.supports) {
    p.packers = {};
    p.footing = record::Footing{};
    if (!p.post) continue;
    record::Post fresh;
    fresh.breadth = p.post->breadth;
    fresh.depth = p.post->depth;
    fresh.height = p.post->height;
    p.post = fresh;
  }
  d.walls[0].strip_width = d.walls[0].depth = {};
  d.walls[0].contact = {};
  d.probed.pieces.clear();
  record::HeavyLoad& t = s.loads[0];
  t.width = t.length = t.height = {};
  t.dry_mass = {};
  t.contents = {};
  t.people = {};
  t.base = {};
  return s;
}

template <class Pieces>
const auto& by_id(const Pieces& pieces, const std::string& id) {
  const auto found =
      std::find_if(pieces.begin(), pieces.end(), [&](const auto& p) { return p.id == id; });
  if (found == pieces.end()) throw std::runtime_error("no piece " + id);
  return *found;
}

inline const OpenFact* open_fact(const Resolved& resolved, const std::string& field) {
  for (const OpenFact& fact : resolved.open) {
    if (fact.field == field) return &fact;
  }
  return nullptr;
}

}  // namespace underprop::deck::example
