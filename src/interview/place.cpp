// From above: where, how high, attached or free; outline; boards.
#include "parts.hpp"

#include "underprop/base/units.hpp"

#include <utility>

namespace underprop::interview {
namespace {

OrderedJson point_json(Length x, Length y) {
  return OrderedJson::array({write_quantity(x), write_quantity(y)});
}

void set_words(Walk& walk) {
  const bool us = walk.standard() == record::StandardId::north_america_us;
  walk.fill["size_example"] = us ? "2x8" : "47 x 195 mm, 8x2";
  walk.fill["post_example"] = us ? "4x4" : "100x100 sawn";
  walk.fill["timber_example"] = us ? "Hem-Fir No.2" : "C24";
  walk.fill["example"] = us ? "4 ft" : "1.26 m";
  walk.fill["corners_example"] =
      us ? "0, 0; 13 ft, 0; 13 ft, 10 ft; 0, 10 ft" : "0, 0; 4 m, 0; 4 m, 3 m; 0, 3 m";
  walk.fill["zone_example"] = us ? "3 ft, 0 to 6 ft, 2 ft 6 in" : "1 m, 0 to 2 m, 0.8 m";
  walk.fill["list_example"] = us ? "3/4 in, 16 3/4 in, 32 3/4 in" : "20, 420, 830 mm";
  walk.fill["row_example"] = us ? "1 ft, 6 ft, 11 ft" : "0.3 m, 1.8 m, 3.4 m";
  walk.fill["share_example"] = us ? "1 1/2 in of 5 1/2 in" : "40 mm of 145 mm";
  walk.fill["gap_example"] = us ? "1/8 in" : "3 mm";
  walk.fill["two_m"] = us ? "6 ft" : "2 m";
  walk.fill["six_m"] = us ? "20 ft" : "6 m";
  walk.fill["line_example"] = us ? "-6 ft, -3 ft to 20 ft, -3 ft" : "-2 m, -1 m to 6 m, -1 m";
  walk.fill["tree_example"] = us ? "23 ft, 6 ft" : "7 m, 2 m";
  walk.fill["base_example"] = us ? "0, 0; 5 ft, 0; 0, 5 ft" : "0, 0; 1.5 m, 0; 0, 1.5 m";
  walk.fill["feet_example"] =
      us ? "-2 ft, -2 ft; 2 ft, -2 ft; 0, 2 ft" : "-0.6 m, -0.6 m; 0.6 m, -0.6 m; 0, 0.6 m";
  walk.fill["own_feet_example"] =
      us ? "4 in, 4 in; 3 ft, 4 in; 4 in, 3 ft" : "0.1 m, 0.1 m; 1 m, 0.1 m; 0.1 m, 1 m";
}

void set_sides(Walk& walk) {
  walk.fill["x_side"] = walk.attached ? "along the house wall" : "to your right at corner A";
  walk.fill["y_side"] = walk.attached ? "away from the house" : "straight ahead of you at corner A";
  walk.fill["corner"] =
      walk.attached
          ? "Stand with your back to the house wall: corner A is the corner at the wall on your "
            "left. x runs to your right along the wall, y away from the house."
          : "Choose any corner and stand so that the deck lies ahead of you and to your right: "
            "that corner is A. x runs to your right, y straight ahead.";
}

void put_rectangle(Walk& walk) {
  const Length x = walk.size_x, y = walk.size_y, none;
  walk.put("/deck/outline", OrderedJson::array({point_json(none, none), point_json(x, none),
                                                point_json(x, y), point_json(none, y)}));
}

void put_cut_corner(Walk& walk, const std::string& corner, Length cx, Length cy) {
  const Length x = walk.size_x, y = walk.size_y, none;
  OrderedJson outline = OrderedJson::array();
  const auto add = [&](Length px, Length py) { outline.push_back(point_json(px, py)); };
  if (corner == "near left") {
    add(cx, none), add(x, none), add(x, y), add(none, y), add(none, cy), add(cx, cy);
  } else if (corner == "near right") {
    add(none, none), add(x - cx, none), add(x - cx, cy), add(x, cy), add(x, y), add(none, y);
  } else if (corner == "far right") {
    add(none, none), add(x, none), add(x, y - cy), add(x - cx, y - cy), add(x - cx, y),
        add(none, y);
  } else {
    add(none, none), add(x, none), add(x, y), add(cx, y), add(cx, y - cy), add(none, y - cy);
  }
  walk.put("/deck/outline", std::move(outline));
}

void ask_outline(Walk& walk) {
  const std::string shape = walk.ask({.id = "outline/shape",
                                      .key = "shape",
                                      .form = Form::word,
                                      .empty = Empty::refused,
                                      .words = {"rectangle", "cut corner", "corners"}})
                                .text;
  if (shape == "corners") {
    const Meaning corners = walk.ask({.id = "outline/corners",
                                      .key = "outline/corners",
                                      .form = Form::corners,
                                      .empty = Empty::refused});
    OrderedJson outline = OrderedJson::array();
    for (const Point point : corners.points) {
      walk.size_x = max(walk.size_x, point.x);
      walk.size_y = max(walk.size_y, point.y);
      outline.push_back(point_json(point.x, point.y));
    }
    walk.put("/deck/outline", std::move(outline));
    return;
  }
  const auto length = [&](const char* key) {
    const Meaning taken =
        walk.ask({.id = key, .key = key, .form = Form::length, .empty = Empty::refused});
    return taken.length.is_known() ? taken.length.low() : Length();
  };
  walk.size_x = length("outline/x");
  walk.size_y = length("outline/y");
  if (shape == "rectangle") put_rectangle(walk);
  if (shape == "cut corner") {
    const std::string corner =
        walk.ask({.id = "outline/cut",
                  .key = "outline/cut",
                  .form = Form::word,
                  .empty = Empty::refused,
                  .words = {"near left", "near right", "far right", "far left"}})
            .text;
    const Length cx = length("outline/cut_x"), cy = length("outline/cut_y");
    put_cut_corner(walk, corner, cx, cy);
  }
}

}  // namespace

void ask_zones(Walk& walk, const std::string& list, const std::string& id, const std::string& key) {
  // What stands on a deck is there to be seen; what lies in the ground nobody may know.
  const bool in_sight = key == "obstacles/";
  const int count = walk.ask({.id = id + "count",
                              .key = key + "count",
                              .form = Form::count,
                              .empty = in_sight ? Empty::none : Empty::unknown,
                              .must_look = in_sight,
                              .most = 50})
                        .count;
  for (int k = 0; k < count && walk.going(); ++k) {
    const std::string object = list + "/" + std::to_string(k);
    const std::string at = id + std::to_string(k + 1) + "/";
    const std::map<std::string, std::string> number{{"number", std::to_string(k + 1)}};
    const std::string name = walk.ask_into(object + "/name", {.id = at + "name",
                                                              .key = key + "name",
                                                              .form = Form::label,
                                                              .empty = Empty::refused,
                                                              .fill = number})
                                 .text;
    const Meaning corners = walk.ask({.id = at + "corners",
                                      .key = "zone/corners",
                                      .form = Form::line,
                                      .empty = Empty::refused,
                                      .fill = {{"what", name}}});
    if (corners.points.size() != 2) continue;
    const Point a = corners.points[0], b = corners.points[1];
    walk.put(object + "/outline", OrderedJson::array({point_json(a.x, a.y), point_json(b.x, a.y),
                                                      point_json(b.x, b.y), point_json(a.x, b.y)}));
  }
}

void ask_place(Walk& walk) {
  const Meaning standard = walk.ask({.id = "place/standard",
                                     .key = "standard",
                                     .form = Form::word,
                                     .empty = Empty::refused,
                                     .words = record::survey_field("", "standard")->words});
  if (standard.text == "north-america-us") walk.set_standard(record::StandardId::north_america_us);
  set_words(walk);
  walk.put("/format", "underprop-survey/1");
  walk.put("/standard", standard.text);
  walk.ask_into("/name", {.id = "place/name", .key = "name", .empty = Empty::none});
  walk.ask_into("/recorded_on",
                {.id = "place/recorded_on", .key = "recorded_on", .empty = Empty::none});
  walk.ask_into("/site/use", {
                                 .id = "place/use",
                                 .key = "use",
                             });
  walk.ask_into("/deck/height", {.id = "place/height",
                                 .key = "height",

                                 .empty = Empty::range,
                                 .table = "deck/height"});
  walk.ask_into("/site/storeys", {.id = "place/storeys", .key = "storeys"});
  walk.ask_into("/site/space_below", {
                                         .id = "place/space_below",
                                         .key = "space_below",
                                     });
  if (walk.standard() == record::StandardId::north_america_us) {
    walk.ask_into("/site/seismic_category", {
                                                .id = "place/seismic_category",
                                                .key = "seismic_category",
                                            });
  }
  walk.attached = walk.ask({.id = "place/attached",
                            .key = "attached",
                            .form = Form::yes_or_no,
                            .empty = Empty::refused})
                      .text == "yes";
  set_sides(walk);
  walk.ask_into(
      "/corner_a",
      {.id = "place/corner_a", .key = "corner_a", .form = Form::label, .empty = Empty::none});
  ask_outline(walk);
  ask_zones(walk, "/deck/obstacles", "outline/obstacles/", "obstacles/");
}

void ask_boards(Walk& walk) {
  const std::string material = walk.ask_into("/deck/boards/material",
                                             {
                                                 .id = "boards/material",
                                                 .key = "boards/material",
                                                 .empty = Empty::refused,
                                             })
                                   .text;
  const std::string direction = walk.ask_into("/deck/boards/direction",
                                              {
                                                  .id = "boards/direction",
                                                  .key = "boards/direction",
                                                  .empty = Empty::refused,
                                              })
                                    .text;
  const Meaning slant = walk.ask({.id = "boards/angle_deg",
                                  .key = "boards/angle_deg",
                                  .form = Form::degrees,
                                  .empty = Empty::none,
                                  .must_look = true});
  if (!slant.empty && slant.number != 0.0) walk.put("/deck/boards/angle_deg", slant.number);
  walk.axis_along = direction == "y" ? "x" : "y";
  walk.axis_across = direction == "y" ? "y" : "x";
  const Meaning thickness =
      walk.ask({.id = "boards/thickness", .key = "boards/thickness", .form = Form::length_fact});
  walk.put("/deck/boards/thickness", thickness.empty ? std::string("unknown") : thickness.text);
  walk.ask_into("/deck/boards/groove_depth", {.id = "boards/groove_depth",
                                              .key = "boards/groove_depth",
                                              .empty = Empty::none,
                                              .must_look = true,
                                              .high_counts = true});
  walk.ask_into("/deck/boards/width",
                {.id = "boards/width", .key = "boards/width", .empty = Empty::refused});
  walk.ask_into("/deck/boards/gap",
                {.id = "boards/gap", .key = "boards/gap", .empty = Empty::none});
  walk.ask_into("/deck/boards/joints", {
                                           .id = "boards/joints",
                                           .key = "boards/joints",
                                       });
  if (material == "softwood" || material == "hardwood") {
    walk.ask_into("/deck/boards/timber", {
                                             .id = "boards/timber",
                                             .key = "boards/timber",
                                         });
  } else {
    walk.ask_into("/deck/boards/stated_span",
                  {.id = "boards/stated_span", .key = "boards/stated_span", .empty = Empty::none});
  }
}

}  // namespace underprop::interview
