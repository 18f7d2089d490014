// The survey format, field by field, told once for reading, writing and listing.
//
// `fields(io, object)` names every key of one object of the format. Three classes take the place of
// `io`: FieldReader (read_json.hpp), FieldWriter (write.cpp) and FieldLister (read_keys.cpp). What a
// key means, its unit and how to measure it stand in data/schema/survey.json.
//
//   io.word, io.text, io.value ...  a required key
//   io.*_or                         may be left out, then the value given
//   io.maybe                        may be left out, then empty
//   io.fact                         may be left out or "unknown"
//   io.measured                     a required fact that may be a range but not unknown
//
// Limits are what a deck can be, not what it should be: they catch slips of unit and sign.
#pragma once

#include "underprop/record/survey.hpp"

#include <cstddef>

namespace underprop::record {

/// What a quantity may be; `open`: the low end itself is not allowed.
template <class Q>
struct Limit {
  Q low, high;
  bool open = false;
};

inline constexpr std::size_t most_joists = 400;
inline constexpr std::size_t most_supports = 2000;
inline constexpr std::size_t most_corners = 100;
inline constexpr std::size_t most_entries = 200;
inline constexpr std::size_t most_rows = 3;
inline constexpr std::size_t most_answers = 4000;

namespace limit {
inline constexpr Limit<Length> place{metres(-100), metres(100)};
inline constexpr Limit<Length> along{metres(0), metres(100)};
inline constexpr Limit<Length> breadth{mm(10), mm(500)};
inline constexpr Limit<Length> depth{mm(20), mm(1200)};
inline constexpr Limit<Length> board_width{mm(20), mm(600)};
inline constexpr Limit<Length> board_thickness{mm(5), mm(100)};
inline constexpr Limit<Length> small{mm(0), mm(100)};
inline constexpr Limit<Length> spacing{mm(30), metres(6)};
inline constexpr Limit<Length> deck_height{mm(0), metres(10), true};
inline constexpr Limit<Length> post_height{mm(0), metres(10), true};
inline constexpr Limit<Length> seat{mm(0), mm(500)};
inline constexpr Limit<Length> diameter{mm(1), mm(50)};
inline constexpr Limit<Length> fixing_spacing{mm(20), metres(3)};
inline constexpr Limit<Length> row{mm(0), mm(1200), true};
inline constexpr Limit<Length> penetration{mm(5), mm(500)};
inline constexpr Limit<Length> footing{mm(50), metres(10)};
inline constexpr Limit<Length> thickness{mm(10), metres(3)};
inline constexpr Limit<Length> below_ground{mm(0), metres(10)};
inline constexpr Limit<Length> offset{mm(0), metres(2)};
inline constexpr Limit<Length> wall{mm(40), metres(2)};
inline constexpr Limit<Length> retained{mm(0), metres(20)};
inline constexpr Limit<Length> tree{mm(0), metres(100), true};
inline constexpr Limit<Length> defect{mm(0), metres(3)};
inline constexpr Limit<Length> load_side{mm(100), metres(12)};
inline constexpr Limit<Length> load_height{mm(0), metres(5)};
inline constexpr Limit<Length> patch{mm(5), metres(2)};
inline constexpr Limit<Length> gap{mm(0), metres(5)};
inline constexpr Limit<Mass> mass{kilograms(0), kilograms(50000), true};
inline constexpr Limit<Mass> contents_mass{kilograms(0), kilograms(50000)};
inline constexpr Limit<Volume> contents{litres(0), litres(50000)};
inline constexpr Limit<Force> capacity{newtons(0), kilonewtons(1000)};
inline constexpr Limit<Pressure> area_load{kilopascals(0), kilopascals(25)};
}  // namespace limit

// --- the site -------------------------------------------------------------------------------------

template <class Io>
void fields(Io& io, GroundLine& line) {
  io.text("name", line.name);
  io.point("from", line.from);
  io.point("to", line.to);
  io.value("height", line.height, limit::retained);
}

template <class Io>
void fields(Io& io, Tree& tree) {
  io.point("at", tree.at);
  io.value("height", tree.height, limit::tree);
}

template <class Io>
void fields(Io& io, Site& site) {
  io.fact("use", site.use);
  io.fact("storeys", site.storeys, 1, 20);
  io.fact("space_below", site.space_below);
  io.fact_letter("seismic_category", site.seismic_category);
  io.fact("soil", site.soil);
  io.fact("heel_marks", site.heel_marks);
  io.fact("water_in_hole", site.water_in_hole);
  io.fact("shrinkable_clay", site.shrinkable_clay);
  io.fact("fill", site.fill);
  io.slope("slope", site.slope);
  io.fact("frost_depth", site.frost_depth, limit::below_ground);
  io.seen("retaining_walls", site.retaining_walls);
  io.seen("house_walls", site.house_walls);
  io.seen("drains", site.drains);
  io.seen("ponds", site.ponds);
  io.seen("trees", site.trees);
  io.maybe("imposed_load", site.imposed_load, limit::area_load);
  io.maybe("snow_load", site.snow_load, limit::area_load);
  io.maybe("concentrated_load", site.concentrated_load, limit::capacity);
  io.fact("roof_or_screen", site.roof_or_screen);
}

// --- the deck -------------------------------------------------------------------------------------

template <class Io>
void fields(Io& io, Boards& boards) {
  io.word("material", boards.material);
  io.fact("timber", boards.timber);
  io.value("width", boards.width, limit::board_width);
  io.required_fact("thickness", boards.thickness, limit::board_thickness);
  io.value_or("groove_depth", boards.groove_depth, limit::small);
  io.value_or("gap", boards.gap, limit::small);
  io.word("direction", boards.direction);
  io.number_or("angle_deg", boards.angle_deg, 0.0, 60.0, 0.0);
  io.fact("joints", boards.joints);
  io.maybe("stated_span", boards.stated_span, limit::spacing);
}

template <class Io>
void fields(Io& io, EndHold& hold) {
  io.fact("held", hold.held);
  io.fact("nails", hold.nails, 0, 200);
  io.maybe("stated_capacity", hold.stated_capacity, limit::capacity);
  io.fact("sound", hold.sound);
  io.fact("seat", hold.seat, limit::seat);
}

template <class Io>
void fields(Io& io, Joists& joists) {
  io.name("name", joists.name);
  io.word("direction", joists.direction);
  io.positions(joists.positions, limit::place, most_joists);
  io.maybe("from", joists.from, limit::place);
  io.maybe("to", joists.to, limit::place);
  io.fact("timber", joists.timber);
  io.fact("incised", joists.incised);
  io.measured_section("breadth", joists.breadth, "depth", joists.depth);
  io.fact("over_bearers", joists.over_bearers);
  io.object("start", joists.start);
  io.object("end", joists.end);
  io.flag_or("added", joists.added, false);
}

template <class Io>
void fields(Io& io, JoistEnd& end) {
  io.name("joist", end.joist);
  io.flag("at_start", end.at_start);
  io.required_object("hold", end.hold);
  io.flag_or("added", end.added, false);
}

template <class Io>
void fields(Io& io, Bearer& bearer) {
  io.name("name", bearer.name);
  io.word("direction", bearer.direction);
  io.value("position", bearer.position, limit::place);
  io.maybe("from", bearer.from, limit::place);
  io.maybe("to", bearer.to, limit::place);
  io.fact("timber", bearer.timber);
  io.fact("incised", bearer.incised);
  io.whole_or("plies", bearer.plies, 1, 6, 1);
  io.section("ply_breadth", bearer.ply_breadth, "depth", bearer.depth);
  io.fact("plies_fixed_together", bearer.plies_fixed_together);
  io.word("joists", bearer.joists);
  io.fact("joists_held_down", bearer.joists_held_down);
  io.maybe("hold_down_capacity", bearer.hold_down_capacity, limit::capacity);
  io.lengths("splices", bearer.splices, limit::place, most_entries);
  io.flag_or("added", bearer.added, false);
  io.value_or("gap", bearer.gap, limit::small);
}

template <class Io>
void fields(Io& io, Rim& rim) {
  io.name("name", rim.name);
  io.flag("at_start", rim.at_start);
  io.name("joists", rim.joists);
  io.section("breadth", rim.breadth, "depth", rim.depth);
  io.fact("fixed", rim.fixed);
}

template <class Io>
void fields(Io& io, Ledger& ledger) {
  io.name("name", ledger.name);
  io.word("direction", ledger.direction);
  io.value("position", ledger.position, limit::place);
  io.maybe("from", ledger.from, limit::place);
  io.maybe("to", ledger.to, limit::place);
  io.fact("timber", ledger.timber);
  io.fact("incised", ledger.incised);
  io.section("breadth", ledger.breadth, "depth", ledger.depth);
  io.fact("fixed_to", ledger.fixed_to);
  io.fact("fixing", ledger.fixing);
  io.fact("fixing_diameter", ledger.fixing_diameter, limit::diameter);
  io.fact("fixing_spacing", ledger.fixing_spacing, limit::fixing_spacing);
  io.lengths("fixing_heights", ledger.fixing_heights, limit::row, most_rows);
  io.fact("penetration", ledger.penetration, limit::penetration);
  io.fact("stated_capacity", ledger.stated_capacity, limit::capacity);
  io.fact("stated_pull_out", ledger.stated_pull_out, limit::capacity);
  io.fact("sound", ledger.sound);
}

template <class Io>
void fields(Io& io, Post& post) {
  io.fact("timber", post.timber);
  io.fact("incised", post.incised);
  io.section("breadth", post.breadth, "depth", post.depth);
  io.value("height", post.height, limit::post_height);
  io.fact("bearer", post.bearer);
  io.fact("bolts", post.bolts, 0, 20);
  io.fact("bolt_diameter", post.bolt_diameter, limit::diameter);
  io.fact("base", post.base);
  io.word_or("held_down", post.held_down, FootHeld::nothing);
  io.maybe("hold_down_capacity", post.hold_down_capacity, limit::capacity);
  io.fact("lean", post.lean, limit::offset);
}

template <class Io>
void fields(Io& io, Footing& footing) {
  io.fact("kind", footing.kind);
  io.fact("width", footing.width, limit::footing);
  io.fact("length", footing.length, limit::footing);
  io.fact("thickness", footing.thickness, limit::thickness);
  io.fact("depth", footing.depth, limit::below_ground);
  io.fact("offset", footing.offset, limit::offset);
  io.fact("contact", footing.contact);
  io.value_or("gap", footing.gap, limit::small);
  io.fact("below_topsoil", footing.below_topsoil);
  io.maybe("stated_capacity", footing.stated_capacity, limit::capacity);
}

template <class Io>
void fields(Io& io, Supports& supports) {
  io.name("name", supports.name);
  io.name("under", supports.under);
  io.positions(supports.positions, limit::place, most_joists);
  io.names("only", supports.only, most_joists);
  io.fact("packers", supports.packers, 0, 20);
  io.maybe("bearing_length", supports.bearing_length, limit::footing);
  io.object("post", supports.post);
  io.object("footing", supports.footing);
  io.flag_or("added", supports.added, false);
}

template <class Io>
void fields(Io& io, Wall& wall) {
  io.name("name", wall.name);
  io.point("from", wall.from);
  io.point("to", wall.to);
  io.value("width", wall.width, limit::wall);
  io.fact("strip_width", wall.strip_width, limit::footing);
  io.fact("depth", wall.depth, limit::below_ground);
  io.fact("contact", wall.contact);
  io.value_or("gap", wall.gap, limit::small);
  io.flag_or("added", wall.added, false);
}

template <class Io>
void fields(Io& io, Blocking& blocking) {
  io.name("name", blocking.name);
  io.name("joists", blocking.joists);
  io.value("position", blocking.position, limit::place);
  io.flag_or("added", blocking.added, false);
}

template <class Io>
void fields(Io& io, Brace& brace) {
  io.word("direction", brace.direction);
  io.word("kind", brace.kind);
  io.text("at", brace.at);
  io.whole_or("count", brace.count, 1, 100, 1);
  io.value_or("breadth", brace.breadth, limit::breadth);
  io.value_or("depth", brace.depth, limit::depth);
  io.whole_or("bolts", brace.bolts, 0, 20, 1);
  io.value_or("bolt_diameter", brace.bolt_diameter, limit::diameter);
  io.word_or("walls_on", brace.walls_on, WallsOn::one_side);
  io.maybe("from", brace.from, limit::place);
  io.maybe("to", brace.to, limit::place);
  io.flag_or("added", brace.added, false);
}

template <class Io>
void fields(Io& io, Sister& sister) {
  io.name("joist", sister.joist);
  io.timber("timber", sister.timber);
  io.flag_or("incised", sister.incised, false);
  io.section("breadth", sister.breadth, "depth", sister.depth);
}

template <class Io>
void fields(Io& io, Condition& condition) {
  io.word("defect", condition.defect);
  io.name("piece", condition.piece);
  io.maybe("from", condition.from, limit::along);
  io.maybe("to", condition.to, limit::along);
  io.maybe("size", condition.size, limit::defect);
  io.maybe_word("face", condition.face);
}

template <class Io>
void fields(Io& io, Probed& probed) {
  io.names("pieces", probed.pieces, most_supports);
}

template <class Io>
void fields(Io& io, Zone& zone) {
  io.text("name", zone.name);
  io.points("outline", zone.outline, 3, most_corners);
}

template <class Io>
void fields(Io& io, DeckRecord& deck) {
  io.points("outline", deck.outline, 3, most_corners);
  io.measured("height", deck.height, limit::deck_height);
  io.required_object("boards", deck.boards);
  io.list("joists", deck.joists, 1, most_entries);
  io.list("joist_ends", deck.joist_ends, 0, 2 * most_joists);
  io.list("bearers", deck.bearers, 0, most_entries);
  io.list("rims", deck.rims, 0, most_entries);
  io.list("ledgers", deck.ledgers, 0, most_entries);
  io.list("supports", deck.supports, 0, most_entries);
  io.list("walls", deck.walls, 0, most_entries);
  io.list("blocking", deck.blocking, 0, most_entries);
  io.list("braces", deck.braces, 0, most_entries);
  io.list("sisters", deck.sisters, 0, most_joists);
  io.list("condition", deck.condition, 0, 2 * most_joists);
  io.all_or_object("probed", deck.probed);
  io.list("obstacles", deck.obstacles, 0, most_entries);
  io.list("closed_zones", deck.closed_zones, 0, most_entries);
}

// --- the load -------------------------------------------------------------------------------------

template <class Io>
void fields(Io& io, HeavyLoad& load) {
  io.text_or("name", load.name);
  io.word("kind", load.kind);
  io.word("shape", load.shape);
  io.fact("width", load.width, limit::load_side);
  io.fact("length", load.length, limit::load_side);
  io.value_or("corner_radius", load.corner_radius, limit::patch);
  io.fact("diameter", load.diameter, limit::load_side);
  io.points("outline", load.outline, 0, most_corners);
  io.fact("height", load.height, limit::load_height);
  io.point("at", load.at);
  io.number_or("rotation_deg", load.rotation_deg, -360.0, 360.0, 0.0);
  io.fact("dry_mass", load.dry_mass, limit::mass);
  io.fact("contents", load.contents, limit::contents);
  io.fact("contents_mass", load.contents_mass, limit::contents_mass);
  io.fact("water_depth", load.water_depth, limit::load_height);
  io.fact("people", load.people, 0, 100);
  io.flag_or("empty_for_months", load.empty_for_months, false);
  io.fact("base", load.base);
  io.word_or("runners_along", load.runners_along, Axis::x);
  io.whole_or("runners", load.runners, 0, 50, 0);
  io.value_or("runner_width", load.runner_width, limit::patch);
  io.points("feet", load.feet, 0, most_corners);
  io.value_or("foot_size", load.foot_size, limit::patch);
  io.flag_or("pinned", load.pinned, false);
  io.value_or("service_gap", load.service_gap, limit::gap);
}

// --- what the planner may do, and the whole file ------------------------------------------------------

template <class Io>
void fields(Io& io, Allowed& allow) {
  io.flag_or("move_load", allow.move_load, true);
  io.flag_or("turn_load", allow.turn_load, true);
  io.flag_or("packing", allow.packing, true);
  io.flag_or("pads", allow.pads, true);
  io.flag_or("sleepers", allow.sleepers, true);
  io.flag_or("bearers", allow.bearers, true);
  io.flag_or("sisters", allow.sisters, true);
  io.flag_or("added_joists", allow.added_joists, true);
  io.flag_or("blocking", allow.blocking, true);
  io.flag_or("hangers", allow.hangers, true);
  io.flag_or("bigger_pads", allow.bigger_pads, true);
  io.flag_or("braces", allow.braces, true);
  io.flag_or("ledger_bolts", allow.ledger_bolts, true);
  io.flag_or("digging", allow.digging, true);
  io.maybe("clear_height", allow.clear_height, limit::retained);
}

template <class Io>
void fields(Io& io, Answer& answer) {
  io.text("question", answer.question);
  io.text_or("said", answer.said);
  io.flag_or("reopened", answer.reopened, false);
}

template <class Io>
void fields(Io& io, Recording& recording) {
  io.flag("finished", recording.finished);
  io.list("answers", recording.answers, 0, most_answers);
}

template <class Io>
void fields(Io& io, Survey& survey) {
  io.format("format");
  io.text_or("name", survey.name);
  io.date_or("recorded_on", survey.recorded_on);
  io.text_or("corner_a", survey.corner_a);
  io.notes_or("notes", survey.notes);
  io.word("standard", survey.standard);
  io.object("site", survey.site);
  io.required_object("deck", survey.deck);
  io.list("loads", survey.loads, 1, 20);
  io.object("allow", survey.allow);
  io.object("recording", survey.recording);
}

}  // namespace underprop::record
