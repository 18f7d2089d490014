// The new load, and what may be done.
#include "parts.hpp"

#include "record/spoken.hpp"

#include "underprop/base/geometry.hpp"
#include "underprop/base/units.hpp"
#include "underprop/record/facts.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::interview {
namespace {

using Fill = std::map<std::string, std::string>;

void ask_base(Walk& walk, const std::string& object, const std::string& id) {
  const std::string base = walk.ask_into(object + "/base",
                                         {
                                             .id = id + "base",
                                             .key = "load/base",
                                         })
                               .text;
  if (base == "runners") {
    walk.ask_into(object + "/runners",
                  {.id = id + "runners", .key = "load/runners", .empty = Empty::refused});
    walk.ask_into(object + "/runner_width",
                  {.id = id + "runner_width", .key = "load/runner_width", .empty = Empty::refused});
    walk.ask_into(object + "/runners_along", {
                                                 .id = id + "runners_along",
                                                 .key = "load/runners_along",
                                                 .empty = Empty::refused,
                                             });
  } else if (base == "feet") {
    walk.ask_into(object + "/foot_size",
                  {.id = id + "foot_size", .key = "load/foot_size", .empty = Empty::refused});
  }
}

/// Where the feet stand, about the middle of the base; left open: at the corners of a rectangle, one
/// foot's half within its edge. `origin`: what the places are measured from.
void ask_feet(Walk& walk, const std::string& object, const std::string& id,
              const std::string& shape, Point origin, Length width, Length length) {
  if (!walk.going() || walk.asked().back().ask.id != id + "foot_size") return;
  const auto size = parse_length(
      walk.survey().at(OrderedJson::json_pointer(object + "/foot_size")).get<std::string>());
  const bool any_shape = shape == "polygon";
  const Meaning said = walk.ask({.id = id + "feet",
                                 .key = any_shape ? "load/feet_of_polygon" : "load/feet",
                                 .form = Form::corners,
                                 .empty = any_shape ? Empty::refused : Empty::none});
  std::vector<Point> places = said.points;
  if (places.empty() && size && !any_shape) {
    // On a circle the corners of the square within it.
    const double within = shape == "circle" ? 0.7 : 1.0;
    const Length x = 0.5 * (within * width - *size.value);
    const Length y = 0.5 * (within * length - *size.value);
    places = {{-x, -y}, {x, -y}, {x, y}, {-x, y}};
  }
  OrderedJson feet = OrderedJson::array();
  for (const Point place : places) {
    feet.push_back(OrderedJson::array(
        {write_quantity(place.x - origin.x), write_quantity(place.y - origin.y)}));
  }
  walk.put(object + "/feet", std::move(feet));
}

bool holds_water(const std::string& kind) {
  return kind == "tub" || kind == "plunge pool" || kind == "water tank";
}
bool holds_other_contents(const std::string& kind) {
  return kind == "planter" || kind == "store" || kind == "other";
}

/// A weight of which nothing is known is anything that the table of facts allows for its footprint.
/// The dry mass stays open, and a range as wide as the table's own counts as not recorded, so that
/// the verdict asks for both.
void put_possible_contents(Walk& walk, const std::string& object, const std::string& kind,
                           Area smallest, Area largest) {
  // The row of this kind of load, or else the one for all kinds.
  const auto number = [&](const std::string& name, record::Reading reading) {
    const std::string own = "loads/" + kind + "/" + name;
    return record::fact_kind(record::has_fact_kind(own) ? own : "loads/" + name)
        .value(walk.standard(), reading)
        .number;
  };
  if (holds_water(kind)) {
    const Length deep = mm(number("water_depth", record::Reading::cautious));
    const auto contents = Fact<Volume>::range(
        number("contents_share", record::Reading::favourable) * (smallest * deep),
        number("contents_share", record::Reading::cautious) * (largest * deep));
    walk.put(object + "/contents", write_fact(contents));
  } else if (holds_other_contents(kind)) {
    const auto mass = [&](record::Reading reading, Area footprint) {
      constexpr Area square_metre = Area(1e6);
      return kilograms(number("contents_mass_per_area", reading) * (footprint / square_metre));
    };
    walk.put(object + "/contents_mass",
             write_fact(Fact<Mass>::range(mass(record::Reading::favourable, smallest),
                                          mass(record::Reading::cautious, largest))));
  } else {
    walk.put(object + "/contents_mass", "0 kg");
  }
}

void ask_mass(Walk& walk, const std::string& object, const std::string& id, const std::string& kind,
              Area smallest, Area largest) {
  const bool water = holds_water(kind), soil = kind == "planter";
  bool known = false;
  const auto weigh = [&](const char* key) {
    const Meaning taken =
        walk.ask_into(object + "/" + key, {.id = id + key, .key = std::string("load/") + key});
    known = known || !taken.empty;
  };
  weigh("dry_mass");
  if (water) weigh("contents");
  if (holds_other_contents(kind)) weigh("contents_mass");
  if (soil && !walk.survey().at(OrderedJson::json_pointer(object)).contains("contents_mass")) {
    known =
        !walk.ask_into(object + "/water_depth", {.id = id + "soil_depth", .key = "load/soil_depth"})
             .empty ||
        known;
  }
  if (!known && walk.going()) put_possible_contents(walk, object, kind, smallest, largest);
  if (water) {
    walk.ask_into(object + "/water_depth", {.id = id + "water_depth", .key = "load/water_depth"});
    walk.ask_into(object + "/form", {.id = id + "form", .key = "load/form"});
  }
  walk.ask_into(object + "/people", {.id = id + "people", .key = "load/people"});
  if (water && walk.standard() == record::StandardId::eurocode_uk) {
    walk.ask_into(object + "/empty_for_months",
                  {.id = id + "empty_for_months", .key = "load/empty_for_months"});
  }
}

/// The corners of a base of any shape, put about its middle; that middle, and the side of a square of
/// its size.
std::pair<Point, Length> ask_corners(Walk& walk, const std::string& object, const std::string& id) {
  const Meaning corners = walk.ask({.id = id + "outline",
                                    .key = "load/outline",
                                    .form = Form::corners,
                                    .empty = Empty::refused});
  // Corners that enclose nothing have no middle: the reader refuses them as they are.
  constexpr Area nothing = Area(1.0);
  const bool encloses = corners.points.size() > 2 && abs(area(corners.points)) > nothing;
  const Point middle = encloses ? centroid(corners.points) : Point{};
  OrderedJson outline = OrderedJson::array();
  for (const Point corner : corners.points) {
    outline.push_back(OrderedJson::array(
        {write_quantity(corner.x - middle.x), write_quantity(corner.y - middle.y)}));
  }
  walk.put(object + "/outline", std::move(outline));
  return {middle, encloses ? mm(std::sqrt(abs(area(corners.points)).value())) : mm(1.0)};
}

void ask_one_load(Walk& walk, int index) {
  const std::string object = "/loads/" + std::to_string(index);
  const std::string id = "load/" + std::to_string(index + 1) + "/";
  const std::string kind = walk.ask_into(object + "/kind",
                                         {
                                             .id = id + "kind",
                                             .key = "load/kind",
                                             .empty = Empty::refused,
                                         })
                               .text;
  walk.ask_into(
      object + "/name",
      {.id = id + "name", .key = "load/name", .empty = Empty::none, .fill = {{"kind", kind}}});
  const std::string shape = walk.ask_into(object + "/shape",
                                          {
                                              .id = id + "shape",
                                              .key = "load/shape",
                                              .empty = Empty::refused,
                                          })
                                .text;
  const auto side = [&](const char* key) {
    const Meaning taken = walk.ask_into(object + "/" + key, {.id = id + key,
                                                             .key = std::string("load/") + key,

                                                             .empty = Empty::range,
                                                             .table = std::string("loads/") + key});
    return taken.length.is_known() ? taken.length : Fact<Length>(mm(1.0));
  };
  Fact<Length> across, along;
  Point origin;  // of a base of any shape: its middle, seen from where its corners were measured
  if (shape == "circle") {
    across = along = side("diameter");
  } else if (shape == "polygon") {
    const auto [middle, largest] = ask_corners(walk, object, id);
    origin = middle;
    across = along = largest;
  } else {
    across = side("width");
    along = side("length");
  }
  const Length width = across.low(), length = along.low();
  if (shape == "rectangle") {
    walk.ask_into(object + "/corner_radius", {.id = id + "corner_radius",
                                              .key = "load/corner_radius",
                                              .empty = Empty::none,
                                              .must_look = true,
                                              .high_counts = true});
  }
  const Meaning at = walk.ask(
      {.id = id + "at",
       .key = "load/at",
       .form = Form::point,
       .empty = Empty::refused,
       .fill = {{"example", walk.standard() == record::StandardId::eurocode_uk ? "2 m, 1.5 m"
                                                                               : "8 ft, 5 ft"}}});
  const Point middle{0.5 * walk.size_x, 0.5 * walk.size_y};
  const Point there = at.points.empty() ? middle : at.points.front();
  walk.put(object + "/at", OrderedJson::array({write_quantity(there.x), write_quantity(there.y)}));
  if (shape != "circle") {
    const Meaning turned = walk.ask({.id = id + "rotation_deg",
                                     .key = "load/rotation_deg",
                                     .form = Form::degrees,
                                     .empty = Empty::none});
    if (!turned.empty) walk.put(object + "/rotation_deg", turned.number);
  }
  ask_mass(walk, object, id, kind, width * length, across.high() * along.high());
  ask_base(walk, object, id);
  ask_feet(walk, object, id, shape, origin, width, length);
  walk.ask_into(object + "/height", {.id = id + "height", .key = "load/height"});
  walk.ask_into(object + "/service_gap", {.id = id + "service_gap",
                                          .key = "load/service_gap",
                                          .empty = Empty::none,
                                          .high_counts = true});
  const Meaning move = walk.ask({.id = "allow/" + std::to_string(index + 1) + "/move",
                                 .key = "allow/pinned",
                                 .form = Form::yes_or_no,
                                 .empty = Empty::refused});
  if (move.text == "no") walk.put(object + "/pinned", true);
}

}  // namespace

void ask_loads(Walk& walk) {
  constexpr int most = 20;
  for (int k = 0; k < most && walk.going(); ++k) {
    ask_one_load(walk, k);
    const bool more = walk.ask({.id = "load/" + std::to_string(k + 1) + "/another",
                                .key = "load/another",
                                .form = Form::yes_or_no,
                                .empty = Empty::refused})
                          .text == "yes";
    if (!more) return;
  }
}

void ask_allowed(Walk& walk) {
  std::vector<std::string> words;
  std::string listed;
  for (const record::Field& key : record::survey_fields()) {
    if (key.object != "/allow" || key.key == "clear_height") continue;
    std::string word = key.key;
    std::ranges::replace(word, '_', ' ');
    words.push_back(word);
    listed += (listed.empty() ? "" : ", ") + word;
  }
  const Meaning forbidden = walk.ask({.id = "allow/not",
                                      .key = "allow/not",
                                      .form = Form::names,
                                      .empty = Empty::none,
                                      .words = words,
                                      .fill = {{"allow_words", listed}}});
  for (const std::string& name : forbidden.names) {
    std::string key = record::lower(name);
    std::ranges::replace(key, ' ', '_');
    walk.put("/allow/" + key, false);
  }
  walk.ask_into("/allow/clear_height",
                {.id = "allow/clear_height", .key = "allow/clear_height", .empty = Empty::none});
  walk.ask_into("/notes", {.id = "allow/notes", .key = "notes", .empty = Empty::none});
}

}  // namespace underprop::interview
