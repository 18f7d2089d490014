// The survey format, field by field, each declared once.
//
// A line says the key, the member, what values it takes and what it means; the reader, the writer, the
// JSON Schema, the list of fields and the form of a question of the interview follow from it
// (declaration.hpp). The types of the members say the rest: a Fact may be left out or "unknown" and, of
// a quantity, may be a range; an enumeration has its words in words.hpp; what is left out of another
// member is as the struct says.
#pragma once

#include "declaration.hpp"
#include "limits.hpp"

#include "underprop/record/survey.hpp"

#include <string_view>

namespace underprop::record {

// --- the site -------------------------------------------------------------------------------------

template <>
struct Declaration<GroundLine> {
  static constexpr std::string_view type = "ground_line";
  static constexpr std::string_view meaning =
      "A wall, drain or edge of water in plan, as a straight line.";
  template <class Io>
  static void fields(Io& io) {
    io.required("name", &GroundLine::name, Text{}, "What it is called, for messages.");
    io.required("from", &GroundLine::from, "One end of the line, at the face towards the deck.");
    io.required("to", &GroundLine::to, "The other end.");
    io.optional("height", &GroundLine::height, limit::retained,
                "Retaining wall: height from the lower to the upper ground. House wall: depth of "
                "its footing below the ground beside the deck. Drain: depth of its underside. Pond "
                "or pool: depth. Left out: not known; it is asked for only where a footing is near "
                "enough for it to matter.");
  }
};

template <>
struct Declaration<Tree> {
  static constexpr std::string_view type = "tree";
  static constexpr std::string_view meaning = "A tree.";
  template <class Io>
  static void fields(Io& io) {
    io.required("at", &Tree::at, "Its trunk.");
    io.required("height", &Tree::height, limit::tree,
                "Its height; if it is young, the height it grows to.");
  }
};

template <>
struct Declaration<Site> {
  static constexpr std::string_view type = "site";
  static constexpr std::string_view meaning =
      "The ground, the surroundings and the use of the deck. Whatever is left out counts as not "
      "known.";
  template <class Io>
  static void fields(Io& io) {
    io.optional("use", &Site::use,
                "Who uses the deck. Only a deck of one household can be judged.");
    io.optional("storeys", &Site::storeys, Whole{1, 20},
                "How many decks stand above each other on the same posts; 1 is this one alone.");
    io.optional("space_below", &Site::space_below,
                "What is below the deck: nothing, things, or people who sit, sleep or park there.");
    io.optional("seismic_category", &Site::seismic_category, Letters{},
                "Seismic design category of the address; only under the American standard. The "
                "building department knows it.");
    io.optional("soil", &Site::soil,
                "Soil at the underside of the footings. Dig one hole beside a footing and roll a "
                "damp piece in the hand: a thread that holds is clay (a thumb goes in easily: "
                "soft; with effort: firm; only dents: stiff).");
    io.optional("shear_strength", &Site::shear_strength, limit::ground_strength,
                "Clay: undrained shear strength measured at the underside of the footings by a "
                "hand vane, or half of what a pocket penetrometer reads. The least reading of "
                "those taken. Left out: not measured.");
    io.optional("ground_pressure", &Site::ground_pressure, limit::ground_strength,
                "Allowable (service) pressure of this ground for small footings, stated by whoever "
                "tested it or by the building authority. Left out: none is stated.");
    io.optional("heel_marks", &Site::heel_marks,
                "Does a heel leave a mark in the ground beside the footings?");
    io.optional("water_in_hole", &Site::water_in_hole,
                "Does water stand in a hole dug down to the underside of the footings, a day later "
                "in a wet season?");
    io.optional("shrinkable_clay", &Site::shrinkable_clay,
                "Is the ground a clay that shrinks and cracks in dry summers?");
    io.optional(
        "fill", &Site::fill,
        "Has the ground been filled up? Brick, glass or mixed colours in the hole tell of it.");
    io.optional("slope", &Site::slope, Slope{},
                "Steepest slope of the ground within 2 m of the deck. Lay a straight board of 2 m "
                "on the ground, level it, and measure the gap below its lower end.");
    io.optional("frost_depth", &Site::frost_depth, limit::below_ground,
                "Depth to which the ground freezes here; building control (UK) or the building "
                "department (US) knows it.");
    io.optional(
        "retaining_walls", &Site::retaining_walls,
        "Retaining and basement walls within 6 m; \"none\" if somebody looked and there is none.");
    io.optional("house_walls", &Site::house_walls,
                "Walls of a house within 6 m; \"none\" if somebody looked and there is none.");
    io.optional("drains", &Site::drains,
                "Drains and sewers within 6 m; lift the covers to see where they run. \"none\" if "
                "there is none.");
    io.optional("ponds", &Site::ponds,
                "Edges of ponds and pools within 6 m; \"none\" if there is none.");
    io.optional("trees", &Site::trees,
                "Trees within their own height of the deck; \"none\" if there is none.");
    io.optional(
        "imposed_load", &Site::imposed_load, limit::area_load,
        "Load of people on the rest of the deck, if a local rule sets another than the standard.");
    io.optional(
        "snow_load", &Site::snow_load, limit::area_load,
        "Snow load on the deck, characteristic or ground value by local rule; 0 where none falls. "
        "Left out: not known under the American standard, none under the British.");
    io.optional("concentrated_load", &Site::concentrated_load, limit::capacity,
                "Concentrated load on one board, if another than the standard is wanted.");
    io.optional("roof_or_screen", &Site::roof_or_screen,
                "Does a roof, screen or sail stand on the deck and catch the wind?");
  }
};

// --- the deck -------------------------------------------------------------------------------------

template <>
struct Declaration<Boards> {
  static constexpr std::string_view type = "boards";
  static constexpr std::string_view meaning = "The deck boards.";
  template <class Io>
  static void fields(Io& io) {
    io.required("material", &Boards::material, "What they are made of.");
    io.optional("timber", &Boards::timber, Timber{},
                "Strength class, or species and grade, of timber boards.");
    io.required("width", &Boards::width, limit::board_width, "Width of one board.");
    io.required("thickness", &Boards::thickness, limit::board_thickness,
                "Thickness over the ridges, measured at an end or in a gap. The key must be there; "
                "\"unknown\" is allowed.");
    io.optional("groove_depth", &Boards::groove_depth, limit::small,
                "Depth of the grooves, which is taken off the thickness; left out: none.");
    io.optional("gap", &Boards::gap, limit::small, "Gap between boards.");
    io.required("direction", &Boards::direction,
                "The axis along which the boards run; across the joists.");
    io.optional("angle_deg", &Boards::angle_deg, Number{0.0, 60.0},
                "The angle at which the boards are laid to that direction, degrees, either way: 45 "
                "for boards laid diagonally. They then span further from joist to joist, and count "
                "as thinner boards.");
    io.optional("joints", &Boards::joints,
                "Butt joints of the boards: none within the deck, or staggered over the joists.");
    io.optional("stated_span", &Boards::stated_span, limit::spacing,
                "Composite and aluminium: the greatest joist spacing that the maker states.");
  }
};

template <>
struct Declaration<EndHold> {
  static constexpr std::string_view type = "end_hold";
  static constexpr std::string_view meaning = "How the end of a joist is held.";
  template <class Io>
  static void fields(Io& io) {
    io.optional("held", &EndHold::held,
                "resting: on a bearer or wall below. hanger: in a metal hanger. ledger strip: on a "
                "strip fixed below it. end grain: screws or nails through another piece into its "
                "end. skew nails: nails driven at a slant. free: an overhang.");
    io.optional(
        "nails", &EndHold::nails, Whole{0, 200},
        "Fasteners in the end; of a hanger all its nails where nobody counted those into the "
        "carrying piece apart: half of them are then sure to be there. Screws not made for hangers "
        "do not count.");
    io.optional("nails_in_carrier", &EndHold::nails_in_carrier, Whole{0, 200},
                "Hanger: the nails through its flanges into the piece that carries it, not those "
                "into the joist. Screws not made for hangers do not count.");
    io.optional("all_holes_nailed", &EndHold::all_holes_nailed,
                "Hanger: is there a nail in every hole? Yes without a count: as many nails are "
                "taken as the smallest usual hanger for that depth has.");
    io.optional("stated_capacity", &EndHold::stated_capacity, limit::capacity,
                "Declared characteristic resistance (Eurocode) or allowable load (American), where "
                "the maker is known.");
    io.optional("sound", &EndHold::sound, "No heavy rust, no nail missing, no flange bent.");
    io.optional("seat", &EndHold::seat, limit::seat,
                "Length of wood that rests on the seat, along the joist.");
  }
};

template <>
struct Declaration<Joists> {
  static constexpr std::string_view type = "joists";
  static constexpr std::string_view meaning = "Joists of one kind: parallel, of one section.";
  template <class Io>
  static void fields(Io& io) {
    io.required("name", &Joists::name, Name{}, "Name of the group.");
    io.required("direction", &Joists::direction, "The axis along which they run.");
    io.optional("positions", &Joists::positions, Row{limit::place, most_joists},
                "Centre lines, measured across the joists from corner A. Either this, or "
                "\"first\", \"spacing\" and \"count\".");
    io.optional("from", &Joists::from, limit::place,
                "Where they start, along their direction; left out: at the outline.");
    io.optional("to", &Joists::to, limit::place, "Where they end; left out: at the outline.");
    io.optional("timber", &Joists::timber, Timber{},
                "Strength class, or species and grade. Look for a stamp on faces and ends.");
    io.optional("incised", &Joists::incised,
                "Rows of short slits along the grain, cut to let preservative in.");
    io.measured_section(
        "breadth", &Joists::breadth, "Actual breadth, measured from below at five joists.", "depth",
        &Joists::depth, "Actual depth without the boards, measured at five joists.");
    io.optional("over_bearers", &Joists::over_bearers,
                "Do they run through over the bearers, or end there beside each other?");
    io.optional("start", &Joists::start, "How they are held at the smaller coordinate.");
    io.optional("end", &Joists::end, "How they are held at the larger coordinate.");
    io.optional("added", &Joists::added,
                "Planned work: the piece is put in after the deck has settled under its own "
                "weight. Written by the planner; leave it out for what is there.");
  }
};

template <>
struct Declaration<JoistEnd> {
  static constexpr std::string_view type = "joist_end";
  static constexpr std::string_view meaning =
      "One joist whose end is held otherwise than those of its group.";
  template <class Io>
  static void fields(Io& io) {
    io.required("joist", &JoistEnd::joist, Name{}, "The joist, by its own name: \"J3\".");
    io.required("at_start", &JoistEnd::at_start, "true: the end at the smaller coordinate.");
    io.required("hold", &JoistEnd::hold, "How this end is held.");
    io.optional("added", &JoistEnd::added,
                "Planned work: the piece is put in after the deck has settled under its own "
                "weight. Written by the planner; leave it out for what is there.");
  }
};

template <>
struct Declaration<Bearer> {
  static constexpr std::string_view type = "bearer";
  static constexpr std::string_view meaning =
      "A bearer: the beam below the joists, or between them.";
  template <class Io>
  static void fields(Io& io) {
    io.required("name", &Bearer::name, Name{}, "Name.");
    io.required("direction", &Bearer::direction, "The axis along which it runs.");
    io.required("position", &Bearer::position, limit::place,
                "Its centre line, across its direction, from corner A.");
    io.optional("from", &Bearer::from, limit::place, "Where it starts; left out: at the outline.");
    io.optional("to", &Bearer::to, limit::place, "Where it ends; left out: at the outline.");
    io.optional("timber", &Bearer::timber, Timber{}, "Strength class, or species and grade.");
    io.optional("incised", &Bearer::incised, "Rows of short slits along the grain.");
    io.optional("plies", &Bearer::plies, Whole{1, 6},
                "How many pieces side by side it is made of.");
    io.section("ply_breadth", &Bearer::ply_breadth, "Actual breadth of one ply.", "depth",
               &Bearer::depth, "Actual depth.",
               "Nominal size of one ply in place of ply_breadth and depth (American standard).");
    io.optional("plies_fixed_together", &Bearer::plies_fixed_together,
                "Bolts, screws or nails in two rows along the whole length.");
    io.required("joists", &Bearer::joists,
                "Do the joists sit on it, or are they framed into its side?");
    io.optional("joists_held_down", &Bearer::joists_held_down, "What holds the joists down on it.");
    io.optional("hold_down_capacity", &Bearer::hold_down_capacity, limit::capacity,
                "Stated resistance of that fixing against lifting, for one joist.");
    io.optional("splices", &Bearer::splices, Lengths{limit::place, most_entries},
                "Joints in its length that are not over a support, from corner A.");
    io.optional("added", &Bearer::added,
                "Planned work: the piece is put in after the deck has settled under its own "
                "weight. Written by the planner; leave it out for what is there.");
    io.optional("gap", &Bearer::gap, limit::small,
                "Planned work only: the gap below the joists when it is put in.");
  }
};

template <>
struct Declaration<Rim> {
  static constexpr std::string_view type = "rim";
  static constexpr std::string_view meaning = "A board that closes the ends of the joists.";
  template <class Io>
  static void fields(Io& io) {
    io.required("name", &Rim::name, Name{}, "Name.");
    io.required("at_start", &Rim::at_start, "true: at the ends with the smaller coordinate.");
    io.required("joists", &Rim::joists, Name{}, "The group of joists that it closes.");
    io.section("breadth", &Rim::breadth, "Actual breadth.", "depth", &Rim::depth, "Actual depth.");
    io.optional("fixed", &Rim::fixed, "How it is fixed to the joists; look behind it.");
  }
};

template <>
struct Declaration<Ledger> {
  static constexpr std::string_view type = "ledger";
  static constexpr std::string_view meaning =
      "A timber fixed to a wall that carries the ends of joists.";
  template <class Io>
  static void fields(Io& io) {
    io.required("name", &Ledger::name, Name{}, "Name.");
    io.required("direction", &Ledger::direction, "The axis along which it runs.");
    io.required("position", &Ledger::position, limit::place,
                "Where it lies, across its direction, from corner A; usually along the edge of the "
                "outline.");
    io.optional("from", &Ledger::from, limit::place, "Where it starts; left out: at the outline.");
    io.optional("to", &Ledger::to, limit::place, "Where it ends; left out: at the outline.");
    io.optional("timber", &Ledger::timber, Timber{}, "Strength class, or species and grade.");
    io.optional("incised", &Ledger::incised, "Rows of short slits along the grain.");
    io.section("breadth", &Ledger::breadth, "Actual breadth.", "depth", &Ledger::depth,
               "Actual depth.");
    io.optional("fixed_to", &Ledger::fixed_to,
                "What is right behind it: a solid timber band, solid masonry, concrete, the outer "
                "leaf of a cavity wall, a facing, or insulation. Look from inside, from below, or "
                "where a pipe goes through.");
    io.optional("fixing", &Ledger::fixing, "What holds it to the wall.");
    io.optional("fixing_diameter", &Ledger::fixing_diameter, limit::diameter,
                "Diameter of the shank.");
    io.optional("fixing_spacing", &Ledger::fixing_spacing, limit::fixing_spacing,
                "From head to head along it; the mean of its whole length.");
    io.optional("fixing_heights", &Ledger::fixing_heights, Lengths{limit::row, most_rows},
                "Heights of the fixings above its lower edge, one for each row, with equally many "
                "fixings in every row. Left out: not measured; two rows are then taken, about the "
                "middle of its depth, as far apart as is worst.");
    io.optional(
        "penetration", &Ledger::penetration, limit::penetration,
        "Solid wood behind the ledger that each fixing holds in: for a bolt, the thickness of that "
        "wood; for a screw, how much of its thread is in that wood, without the point.");
    io.optional(
        "band_condition", &Ledger::band_condition,
        "The house's wood behind the ledger: sound, with a flashing over the ledger that keeps "
        "rain out of it; sound without one; or soft somewhere. Only where it is fixed to a "
        "timber band.");
    io.optional(
        "band_wood", &Ledger::band_wood,
        "What the house's band is made of: solid sawn; laminated veneer, at least 240 mm "
        "(9 1/2 in) deep; or another engineered rim board. Counts in North America where it "
        "is thinner than 38 mm (1 1/2 in).");
    io.optional("stated_capacity", &Ledger::stated_capacity, limit::capacity,
                "Stated resistance of one fixing, downwards; in a wall of masonry or concrete "
                "nothing else counts. Left out: not known.");
    io.optional("stated_pull_out", &Ledger::stated_pull_out, limit::capacity,
                "Stated resistance of one fixing against being pulled straight out of the wall "
                "(tension, axial load), by the maker for such a wall or by a test. Left out: not "
                "known; half of what is stated downwards then counts.");
    io.optional("sound", &Ledger::sound, "No rust streaks, loose nuts or missing heads.");
  }
};

template <>
struct Declaration<Post> {
  static constexpr std::string_view type = "post";
  static constexpr std::string_view meaning = "The post between a footing and what it carries.";
  template <class Io>
  static void fields(Io& io) {
    io.optional("timber", &Post::timber, Timber{}, "Strength class, or species and grade.");
    io.optional("incised", &Post::incised, "Rows of short slits along the grain.");
    io.section("breadth", &Post::breadth, "Actual size along x.", "depth", &Post::depth,
               "Actual size along y.");
    io.required("height", &Post::height, limit::post_height,
                "From the footing to the underside of the bearer.");
    io.optional("bearer", &Post::bearer,
                "Does the bearer sit on the post, or is it bolted to its side?");
    io.optional("bolts", &Post::bolts, Whole{0, 20}, "Bolts through the post at the bearer.");
    io.optional("bolt_diameter", &Post::bolt_diameter, limit::diameter, "Their diameter.");
    io.optional("base", &Post::base,
                "pinned: in a shoe or on the footing. fixed: only if the foot is proved to be held "
                "against turning.");
    io.optional("held_down", &Post::held_down,
                "What keeps the foot from lifting off its footing: nothing, a post base bolted to "
                "the concrete, or one cast into it.");
    io.optional("hold_down_capacity", &Post::hold_down_capacity, limit::capacity,
                "Stated resistance of that post base, with its bolts, against lifting; left out: "
                "it holds nothing down.");
    io.optional("lean", &Post::lean, limit::offset,
                "How far its top is out of plumb, over its height.");
  }
};

template <>
struct Declaration<Footing> {
  static constexpr std::string_view type = "footing";
  static constexpr std::string_view meaning = "What stands on or in the ground.";
  template <class Io>
  static void fields(Io& io) {
    io.optional("kind", &Footing::kind,
                "Concrete cast in a hole, a paving slab, a loose block, a post set in concrete, a "
                "screw pile, or a strip.");
    io.optional("width", &Footing::width, limit::footing, "Its size along x.");
    io.optional("length", &Footing::length, limit::footing, "Its size along y.");
    io.optional("thickness", &Footing::thickness, limit::thickness, "Its thickness.");
    io.optional("depth", &Footing::depth, limit::below_ground, "Its underside below the ground.");
    io.optional("offset", &Footing::offset, limit::offset,
                "How far the load stands from its centre.");
    io.optional("contact", &Footing::contact,
                "Between it and the piece above: tight (a sheet of paper does not go in), a gap, "
                "or loose (it moves by hand).");
    io.optional("gap", &Footing::gap, limit::small,
                "The gap, where contact is \"gap\"; a feeler or coins measure it.");
    io.optional("below_topsoil", &Footing::below_topsoil,
                "Does it stand on the ground below the dark topsoil?");
    io.optional("stated_capacity", &Footing::stated_capacity, limit::capacity,
                "Screw pile: the load from the installer's torque sheet.");
  }
};

template <>
struct Declaration<Supports> {
  static constexpr std::string_view type = "supports";
  static constexpr std::string_view meaning =
      "Supports of one kind under one bearer, or under the joists of a group.";
  template <class Io>
  static void fields(Io& io) {
    io.required("name", &Supports::name, Name{},
                "Name of the group: the supports of \"P\" are P1, P2 ...");
    io.required("under", &Supports::under, Name{},
                "The bearer, the group of joists or the single joist that they carry.");
    io.optional("positions", &Supports::positions, Row{limit::place, most_joists},
                "Along the bearer, or along each joist, from corner A. Either this, or \"first\", "
                "\"spacing\" and \"count\".");
    io.optional("only", &Supports::only, Names{most_joists},
                "Under joists: just these, by their own names; left out: all of the group.");
    io.optional("packers", &Supports::packers, Whole{0, 20},
                "Packers between support and piece: 0 none; more than two count as stacked.");
    io.optional("bearing_length", &Supports::bearing_length, limit::footing,
                "Length of contact along the piece above; left out: the width of post or footing.");
    io.optional("post", &Supports::post, "The post; left out: the piece sits on the footing.");
    io.optional("footing", &Supports::footing, "The footing.");
    io.optional("added", &Supports::added,
                "Planned work: the piece is put in after the deck has settled under its own "
                "weight. Written by the planner; leave it out for what is there.");
  }
};

template <>
struct Declaration<Wall> {
  static constexpr std::string_view type = "wall";
  static constexpr std::string_view meaning =
      "A wall or strip below the joists: each joist that crosses it is carried.";
  template <class Io>
  static void fields(Io& io) {
    io.required("name", &Wall::name, Name{}, "Name.");
    io.required("from", &Wall::from, "One end of its centre line.");
    io.required("to", &Wall::to, "The other end.");
    io.required("width", &Wall::width, limit::wall, "Its width at the top.");
    io.optional("strip_width", &Wall::strip_width, limit::footing, "Width of its footing.");
    io.optional("depth", &Wall::depth, limit::below_ground,
                "Underside of its footing below the ground.");
    io.optional("contact", &Wall::contact, "Between it and the joists.");
    io.optional("gap", &Wall::gap, limit::small, "The gap, where contact is \"gap\".");
    io.optional("added", &Wall::added,
                "Planned work: the piece is put in after the deck has settled under its own "
                "weight. Written by the planner; leave it out for what is there.");
  }
};

template <>
struct Declaration<Blocking> {
  static constexpr std::string_view type = "blocking";
  static constexpr std::string_view meaning =
      "A row of short pieces between the joists, which hold them upright.";
  template <class Io>
  static void fields(Io& io) {
    io.required("name", &Blocking::name, Name{}, "Name.");
    io.required("joists", &Blocking::joists, Name{}, "The group of joists.");
    io.required("position", &Blocking::position, limit::place, "Along the joists, from corner A.");
    io.optional("added", &Blocking::added,
                "Planned work: the piece is put in after the deck has settled under its own "
                "weight. Written by the planner; leave it out for what is there.");
  }
};

template <>
struct Declaration<Brace> {
  static constexpr std::string_view type = "brace";
  static constexpr std::string_view meaning = "What resists sideways movement.";
  template <class Io>
  static void fields(Io& io) {
    io.required("direction", &Brace::direction, "The direction in which it resists.");
    io.required("kind", &Brace::kind,
                "A diagonal between posts, a knee brace, deck boards laid diagonally, or contact "
                "with a wall that stands by itself.");
    io.required("at", &Brace::at, Text{},
                "Where: the name of a group of supports, or a side in words.");
    io.optional("count", &Brace::count, Whole{1, 100}, "How many alike.");
    io.optional("breadth", &Brace::breadth, limit::breadth,
                "Actual breadth of a diagonal or knee; left out: not known.");
    io.optional("depth", &Brace::depth, limit::depth,
                "Actual depth of a diagonal or knee; left out: not known.");
    io.optional("bolts", &Brace::bolts, Whole{0, 20}, "Bolts at each end.");
    io.optional("bolt_diameter", &Brace::bolt_diameter, limit::diameter,
                "Their diameter; left out: not known.");
    io.optional("walls_on", &Brace::walls_on,
                "Wall contact: is there a wall on one side only, or one on each of the two "
                "opposite sides, the deck tight between them? A wall holds a push towards it only, "
                "so a wall on one side counts for nothing.");
    io.optional("from", &Brace::from, limit::place,
                "Wall contact on both sides: where the stretch starts on which both walls touch "
                "the deck, from corner A along the walls.");
    io.optional("to", &Brace::to, limit::place, "Where that stretch ends.");
    io.optional("added", &Brace::added,
                "Planned work: the piece is put in after the deck has settled under its own "
                "weight. Written by the planner; leave it out for what is there.");
  }
};

template <>
struct Declaration<Sister> {
  static constexpr std::string_view type = "sister";
  static constexpr std::string_view meaning =
      "A second member fixed alongside a joist over its full length, lying at both ends on what "
      "the joist lies on. Where the joist is rotten or missing it carries alone, unless the joist "
      "hangs.";
  template <class Io>
  static void fields(Io& io) {
    io.required("joist", &Sister::joist, Name{}, "The joist, by its own name.");
    io.required("timber", &Sister::timber, Timber{}, "Strength class, or species and grade.");
    io.optional("incised", &Sister::incised, "Rows of short slits along the grain.");
    io.section("breadth", &Sister::breadth, "Actual breadth.", "depth", &Sister::depth,
               "Actual depth.");
  }
};

template <>
struct Declaration<Condition> {
  static constexpr std::string_view type = "condition";
  static constexpr std::string_view meaning = "Something found wrong with a piece.";
  template <class Io>
  static void fields(Io& io) {
    io.required(
        "defect", &Condition::defect,
        "What is wrong. decay: a screwdriver goes in, however deep. surface softening: only the "
        "top edge of a joist is soft. missing: the piece, or a part of it, is not there. wrong "
        "fixing: screws in place of the listed nails, or a fixing that nobody can name. buried in "
        "soil: a post whose foot stands in earth. short bearing: too little wood rests on what is "
        "below. loose packing: packers that move, or are stacked higher than one and a half times "
        "their width. out of level: a support that leaves a gap below its piece, or a joist higher "
        "or lower than its neighbours. Every entry has an effect or makes the program refer.");
    io.required("piece", &Condition::piece, Name{},
                "The piece or group, by name: \"J3\", \"B1\", \"P2\".");
    io.optional("from", &Condition::from, limit::along,
                "Where it starts along the piece, measured from the piece's start; left out: the "
                "whole piece.");
    io.optional("to", &Condition::to, limit::along, "Where it ends.");
    io.optional("size", &Condition::size, limit::defect,
                "Depth that the probe went in, depth of a notch, diameter of a hole, gap, how far "
                "out of plumb or of level, or length of wood that bears.");
    io.optional("face", &Condition::face, "Where on the section.");
  }
};

template <>
struct Declaration<Probed> {
  static constexpr std::string_view type = "probed";
  static constexpr std::string_view meaning = "What was probed.";
  template <class Io>
  static void fields(Io& io) {
    io.optional(
        "pieces", &Probed::pieces, Names{most_supports},
        "Names of pieces or groups, or the words \"joists\", \"bearers\", \"ledgers\", \"posts\", "
        "\"rims\", \"blocking\", \"supports\", \"walls\", \"boards\" or \"all\".");
  }
};

template <>
struct Declaration<Zone> {
  static constexpr std::string_view type = "zone";
  static constexpr std::string_view meaning = "A part of the plan.";
  template <class Io>
  static void fields(Io& io) {
    io.required("name", &Zone::name, Text{}, "What it is.");
    io.required("outline", &Zone::outline, Corners{3, most_corners}, "Its corners in order.");
  }
};

template <>
struct Declaration<DeckRecord> {
  static constexpr std::string_view type = "deck";
  static constexpr std::string_view meaning = "The deck as it was found.";
  template <class Io>
  static void fields(Io& io) {
    io.required("outline", &DeckRecord::outline, Corners{3, most_corners},
                "The corners of the boarded surface in order, either way round; the first is not "
                "repeated.");
    io.required("height", &DeckRecord::height, Measured{limit::deck_height},
                "From the top of the boards to the lowest ground beside the deck.");
    io.required("boards", &DeckRecord::boards, "The deck boards.");
    io.required("joists", &DeckRecord::joists, Entries{1, most_entries}, "Groups of joists.");
    io.optional("joist_ends", &DeckRecord::joist_ends, Entries{0, 2 * most_joists},
                "Ends that are held otherwise than those of their group.");
    io.optional("bearers", &DeckRecord::bearers, Entries{0, most_entries}, "Bearers.");
    io.optional("rims", &DeckRecord::rims, Entries{0, most_entries}, "Rims.");
    io.optional("ledgers", &DeckRecord::ledgers, Entries{0, most_entries}, "Ledgers.");
    io.optional("supports", &DeckRecord::supports, Entries{0, most_entries},
                "Groups of supports: posts, pads, blocks, piles.");
    io.optional("walls", &DeckRecord::walls, Entries{0, most_entries},
                "Walls and strips below the joists.");
    io.optional("blocking", &DeckRecord::blocking, Entries{0, most_entries}, "Rows of blocking.");
    io.optional("braces", &DeckRecord::braces, Entries{0, most_entries}, "Bracing.");
    io.optional("sisters", &DeckRecord::sisters, Entries{0, most_joists},
                "Sisters that are there or planned.");
    io.optional("condition", &DeckRecord::condition, Entries{0, 2 * most_joists},
                "What was found to be wrong.");
    io.optional("probed", &DeckRecord::probed, AllOrPieces{},
                "What was probed for decay with a screwdriver or awl, and found sound but for what "
                "\"condition\" lists. \"all\", \"none\", or the pieces. A loaded piece that was "
                "not probed never ends in \"carries\".");
    io.optional("obstacles", &DeckRecord::obstacles, Entries{0, most_entries},
                "Where nothing can stand: a post of a roof, a stair, a planter.");
    io.optional("closed_zones", &DeckRecord::closed_zones, Entries{0, most_entries},
                "Where nothing may be built or dug: services, roots, a wish.");
  }
};

// --- the load -------------------------------------------------------------------------------------

template <>
struct Declaration<HeavyLoad> {
  static constexpr std::string_view type = "load";
  static constexpr std::string_view meaning = "A heavy thing that is to stand on the deck.";
  template <class Io>
  static void fields(Io& io) {
    io.optional("name", &HeavyLoad::name, Text{}, "What to call it; left out: its kind.");
    io.required("kind", &HeavyLoad::kind,
                "What it is. What nobody knows of its mass is assumed by this kind; a mass that is "
                "recorded counts as it is.");
    io.required("shape", &HeavyLoad::shape,
                "Shape of its footprint. The footprint must be known: \"width\" and \"length\", "
                "\"diameter\", or \"outline\".");
    io.optional("width", &HeavyLoad::width, limit::load_side,
                "Rectangle: size along x before it is turned.");
    io.optional("length", &HeavyLoad::length, limit::load_side,
                "Rectangle: size along y before it is turned.");
    io.optional(
        "corner_radius", &HeavyLoad::corner_radius, limit::patch,
        "Rectangle: radius of its corners, if they are round. Lay two straight edges along the "
        "sides; the radius is from where they meet to where the base leaves one of them.");
    io.optional("diameter", &HeavyLoad::diameter, limit::load_side,
                "Circle: diameter of the base.");
    io.optional("outline", &HeavyLoad::outline, Corners{0, most_corners},
                "Polygon: corners about its own origin, before it is turned.");
    io.optional("height", &HeavyLoad::height, limit::load_height,
                "Height of its centre of mass over the boards when full: about half the depth of "
                "the water.");
    io.required("at", &HeavyLoad::at,
                "Where its centre (for a polygon, its origin) stands on the deck.");
    io.optional("rotation_deg", &HeavyLoad::rotation_deg, Number{-360.0, 360.0},
                "Turned about that point, degrees, counter-clockwise seen from above.");
    io.optional("dry_mass", &HeavyLoad::dry_mass, limit::mass,
                "Its mass empty, with cover and equipment; read the data plate.");
    io.optional("contents", &HeavyLoad::contents, limit::contents,
                "Water to the brim, in litres or US gallons, of a tub, plunge pool, water tank or "
                "other thing; wet soil in a planter, which counts with the density of wet soil "
                "unless \"contents_mass\" is recorded.");
    io.optional("contents_mass", &HeavyLoad::contents_mass, limit::contents_mass,
                "Other contents: soil, firewood, goods. A planter's is the whole of its soil, "
                "whatever \"contents\" says.");
    io.optional("water_depth", &HeavyLoad::water_depth, limit::load_height,
                "Depth of the water at the brim, of the soil in a planter, or the depth that would "
                "hold the litres over the whole plan; the volume is checked against it.");
    io.optional(
        "form", &HeavyLoad::form,
        "What holds the water: straight sides down to a flat floor (it then holds 85 to 105 % "
        "of plan area times depth), or moulded with seats (25 to 70 %). Litres are checked "
        "against it.");
    io.optional("people", &HeavyLoad::people, Whole{0, 100},
                "How many people fit in or stand on it.");
    io.optional("empty_for_months", &HeavyLoad::empty_for_months,
                "Does it stand empty for months each year? Then its water does not count as "
                "permanent (Eurocode).");
    io.optional("base", &HeavyLoad::base,
                "What it stands on: a full base, runners or feet. Look below its edge.");
    io.optional("runners_along", &HeavyLoad::runners_along,
                "The axis along which the runners run before it is turned.");
    io.optional("runners", &HeavyLoad::runners, Whole{0, 50}, "How many runners.");
    io.optional("runner_width", &HeavyLoad::runner_width, limit::patch, "Width of one runner.");
    io.optional("feet", &HeavyLoad::feet, Corners{0, most_corners},
                "Feet about its centre, before it is turned.");
    io.optional("foot_size", &HeavyLoad::foot_size, limit::patch, "Side of one square foot.");
    io.optional("pinned", &HeavyLoad::pinned, "true: the planner may not move it.");
    io.optional("service_gap", &HeavyLoad::service_gap, limit::gap,
                "Free strip wanted round it for access.");
  }
};

// --- what the planner may do, and the whole file ------------------------------------------------------

template <>
struct Declaration<Allowed> {
  static constexpr std::string_view type = "allow";
  static constexpr std::string_view meaning =
      "What the planner may do; everything, unless it is set to false.";
  template <class Io>
  static void fields(Io& io) {
    io.optional("move_load", &Allowed::move_load, "May the planner move the load?");
    io.optional("turn_load", &Allowed::turn_load, "May the planner turn the load?");
    io.optional("packing", &Allowed::packing, "May the planner pack or re-wedge supports?");
    io.optional("pads", &Allowed::pads, "May the planner add pads?");
    io.optional("sleepers", &Allowed::sleepers, "May the planner add sleepers or strips?");
    io.optional("bearers", &Allowed::bearers, "May the planner add bearers?");
    io.optional("sisters", &Allowed::sisters, "May the planner fix sisters to joists?");
    io.optional("added_joists", &Allowed::added_joists, "May the planner add joists?");
    io.optional("blocking", &Allowed::blocking, "May the planner add blocking?");
    io.optional("hangers", &Allowed::hangers, "May the planner add hangers?");
    io.optional("bigger_pads", &Allowed::bigger_pads,
                "May the planner replace pads by bigger ones?");
    io.optional("braces", &Allowed::braces, "May the planner add braces?");
    io.optional("ledger_bolts", &Allowed::ledger_bolts,
                "May the planner bolt a ledger through the wood behind it? Only where the back of "
                "that wood can be reached.");
    io.optional("digging", &Allowed::digging, "May the planner dig?");
    io.optional("clear_height", &Allowed::clear_height, limit::retained,
                "Clear height to work in below the joists at the load; left out: worked out from "
                "the deck's height.");
  }
};

template <>
struct Declaration<Answer> {
  static constexpr std::string_view type = "answer";
  static constexpr std::string_view meaning = "One answer of the interview.";
  template <class Io>
  static void fields(Io& io) {
    io.required("question", &Answer::question, Text{}, "The question, by its name.");
    io.optional("said", &Answer::said, Text{}, "What was said, word for word; left out: nothing.");
    io.optional("reopened", &Answer::reopened, "Gone back over and not yet answered again.");
  }
};

template <>
struct Declaration<Recording> {
  static constexpr std::string_view type = "recording";
  static constexpr std::string_view meaning =
      "Answers of the interview, in the order in which they were given.";
  template <class Io>
  static void fields(Io& io) {
    io.required("finished", &Recording::finished, "false: questions are still to come.");
    io.optional("answers", &Recording::answers, Entries{0, most_answers}, "The answers.");
  }
};

template <>
struct Declaration<Survey> {
  static constexpr std::string_view type = "";
  static constexpr std::string_view meaning =
      "The record of a deck as it was found, and of the heavy things that are to stand on it. "
      "Quantities are text with their unit. What nobody knows is left out or \"unknown\". Lengths "
      "in plan are measured from one named corner, A. Beyond what a schema can say, the reader "
      "refuses what cannot be: pieces outside the outline, joists on nothing, footings in each "
      "other, facts that contradict each other.";
  template <class Io>
  static void fields(Io& io) {
    io.format("format", "Name and version of this format.");
    io.optional("name", &Survey::name, Text{}, "What the deck is called.");
    io.optional("recorded_on", &Survey::recorded_on, Date{},
                "The day of the record, year-month-day. The result holds for that day.");
    io.optional("corner_a", &Survey::corner_a, Text{},
                "Which corner of the deck is A, the origin of all coordinates, in words.");
    io.optional("notes", &Survey::notes, Notes{},
                "Anything else worth keeping; it enters no calculation.");
    io.required("standard", &Survey::standard,
                "The standard to judge by: Eurocode 5 with the values of the United Kingdom, or "
                "North American allowable stress design.");
    io.optional("site", &Survey::site, "The ground and the surroundings.");
    io.required("deck", &Survey::deck, "The deck.");
    io.optional("loads", &Survey::loads, Entries{0, 20},
                "The heavy things. Without one the deck is judged as a deck, with people on it.");
    io.optional("allow", &Survey::allow, "What the planner may do.");
    io.optional("recording", &Survey::recording,
                "Written by \"underprop record\": the answers that the survey was made from. It "
                "enters no calculation. While it is not finished nothing else stands in the file, "
                "and every other command refuses it.");
  }
};

}  // namespace underprop::record
