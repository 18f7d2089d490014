// A deck of our own invention: 4.0 m by 3.0 m, eleven joists along y on two bearers with three pads
// each, a tub in the middle.
#pragma once

#include "underprop/record/survey.hpp"
#include "underprop/works/work.hpp"

namespace demo {

using namespace underprop;
using works::Measure;
using works::Work;

inline record::Supports pads_under(const std::string& name, const std::string& bearer) {
  record::Supports pads;
  pads.name = name;
  pads.under = bearer;
  pads.positions = {mm(200), mm(2000), mm(3800)};
  pads.packers = 1;
  pads.footing.kind = record::FootingKind::cast_pad;
  pads.footing.width = mm(300);
  pads.footing.length = mm(300);
  pads.footing.thickness = mm(150);
  pads.footing.depth = mm(150);
  pads.footing.offset = mm(0);
  pads.footing.contact = record::Contact::loose;
  pads.footing.below_topsoil = true;
  return pads;
}

inline record::Bearer bearer(const std::string& name, Length position) {
  record::Bearer b;
  b.name = name;
  b.direction = Axis::x;
  b.position = position;
  b.timber = std::string("C24");
  b.incised = false;
  b.plies = 2;
  b.ply_breadth = mm(47);
  b.depth = mm(145);
  b.plies_fixed_together = true;
  b.joists_held_down = record::HeldDown::screwed;
  return b;
}

inline record::Survey demo_deck() {
  record::Survey s;
  s.name = "demonstration deck";
  s.recorded_on = "2026-11-01";
  s.corner_a = "the left corner at the house";
  s.deck.outline = {{mm(0), mm(0)}, {mm(4000), mm(0)}, {mm(4000), mm(3000)}, {mm(0), mm(3000)}};
  s.deck.height = mm(900);
  s.deck.boards.width = mm(120);
  s.deck.boards.thickness = mm(28);
  s.deck.boards.timber = std::string("C16");
  s.deck.boards.gap = mm(5);
  record::Joists joists;
  joists.name = "J";
  joists.direction = Axis::y;
  for (int i = 0; i <= 10; ++i) joists.positions.push_back(mm(400.0 * i));
  joists.timber = std::string("C16");
  joists.incised = false;
  joists.breadth = mm(47);
  joists.depth = mm(145);
  joists.over_bearers = record::OverBearers::continuous;
  joists.start.held = record::Hold::resting;
  joists.end.held = record::Hold::resting;
  s.deck.joists = {joists};
  s.deck.bearers = {bearer("B1", mm(300)), bearer("B2", mm(2700))};
  s.deck.supports = {pads_under("P", "B1"), pads_under("Q", "B2")};
  s.deck.probed.pieces = {"J", "B1", "B2", "P"};
  record::HeavyLoad tub;
  tub.name = "tub";
  tub.shape = record::Shape::rectangle;
  tub.width = mm(2000);
  tub.length = mm(2000);
  tub.height = mm(450);
  tub.at = {mm(2000), mm(1500)};
  tub.dry_mass = kilograms(300);
  tub.contents = litres(1200);
  tub.people = 5;
  tub.base = record::BaseKind::full;
  s.loads = {tub};
  return s;
}

inline record::Survey american_deck() {
  record::Survey s = demo_deck();
  s.standard = record::StandardId::north_america_us;
  s.deck.joists[0].timber = std::string("Hem-Fir No.2");
  s.deck.joists[0].breadth = inches(1.5);
  s.deck.joists[0].depth = inches(7.25);
  for (record::Bearer& b : s.deck.bearers) b.timber = std::string("Hem-Fir No.2");
  s.deck.boards.timber = std::string("Hem-Fir No.2");
  return s;
}

inline Work sized_pad(Measure measure, const std::string& id) {
  Work w;
  w.id = id;
  w.measure = measure;
  w.pad_width = mm(450);
  w.pad_length = mm(450);
  w.pad_thickness = mm(150);
  w.pad_depth = mm(300);
  return w;
}

inline Work pack(std::vector<std::string> pieces) {
  Work w;
  w.id = "pack";
  w.measure = Measure::pack;
  w.pieces = std::move(pieces);
  return w;
}

inline Work pad_under_bearer() {
  Work w = sized_pad(Measure::pad, "pad-B1-1250");
  w.pieces = {"B1"};
  w.places = {{mm(1250), mm(300)}};
  return w;
}

inline Work timber(Work w, Length breadth, Length depth, const std::string& name) {
  w.breadth = breadth;
  w.depth = depth;
  w.timber = name;
  return w;
}

inline Work new_bearer(Length from, Length to, std::vector<Length> pads, Length post = Length()) {
  Work w = timber(sized_pad(Measure::bearer_on_pads, "bearer-y1500"), mm(47), mm(195), "C24");
  w.direction = Axis::x;
  w.position = mm(1500);
  w.from = from;
  w.to = to;
  w.plies = 2;
  w.post_height = post;
  for (const Length u : pads) w.places.push_back({u, mm(1500)});
  return w;
}

inline Work sister(std::vector<std::string> joists) {
  Work w;
  w.id = "sister";
  w.measure = Measure::sister;
  w.pieces = std::move(joists);
  return timber(w, mm(47), mm(145), "C24");
}

inline Work added_joist(Length position) {
  Work w;
  w.id = "joist";
  w.measure = Measure::added_joist;
  w.direction = Axis::y;
  w.position = position;
  w.from = mm(0);
  w.to = mm(3000);
  return timber(w, mm(47), mm(145), "C24");
}

inline Work blocking(Length position) {
  Work w;
  w.id = "blocking";
  w.measure = Measure::blocking;
  w.pieces = {"J"};
  w.position = position;
  return timber(w, mm(47), mm(145), "C16");
}

inline Work hangers(std::vector<std::string> joists, std::vector<Point> places = {}) {
  Work w;
  w.id = "hangers";
  w.measure = Measure::hangers;
  w.pieces = std::move(joists);
  w.places = std::move(places);
  w.fasteners = 20;
  return w;
}

inline Work bigger_pad(const std::string& support) {
  Work w = sized_pad(Measure::bigger_pad, "bigger-" + support);
  w.pieces = {support};
  return w;
}

inline Work brace() {
  Work w;
  w.id = "brace-x";
  w.measure = Measure::brace;
  w.direction = Axis::x;
  w.pieces = {"P"};
  w.places = {{mm(200), mm(300)}, {mm(3800), mm(300)}};
  w.fasteners = 1;
  return timber(w, mm(47), mm(97), "C16");
}

inline Work move_load() {
  Work w;
  w.id = "move";
  w.measure = Measure::move_load;
  w.load_at = {mm(1200), mm(1500)};
  w.load_rotation_deg = 90.0;
  return w;
}

inline std::vector<Work> one_of_each() {
  Work sleeper = new_bearer(mm(900), mm(3100), {mm(1000), mm(2000), mm(3000)});
  sleeper.measure = Measure::sleeper;
  sleeper.id = "sleeper";
  sleeper.position = mm(1000);
  for (Point& p : sleeper.places) p.y = mm(1000);
  return {pack({"P2"}),
          move_load(),
          pad_under_bearer(),
          sleeper,
          new_bearer(mm(0), mm(4000), {mm(100), mm(2000), mm(3900)}, mm(400)),
          sister({"J4", "J5"}),
          added_joist(mm(1800)),
          blocking(mm(1500)),
          hangers({"J6"}, {{mm(2000), mm(0)}}),
          bigger_pad("Q2"),
          brace()};
}

}  // namespace demo
