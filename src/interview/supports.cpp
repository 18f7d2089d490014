// Posts, pads and bracing.
#include "parts.hpp"

#include "underprop/base/units.hpp"

namespace underprop::interview {
namespace {

using Fill = std::map<std::string, std::string>;

void ask_post(Walk& walk, const std::string& object, const std::string& name, const Fill& fill) {
  const std::string id = "posts/" + name + "/";
  const bool there = walk.ask({.id = id + "there",
                               .key = "post/there",
                               .form = Form::yes_or_no,
                               .empty = Empty::refused,
                               .fill = fill})
                         .text == "yes";
  if (!there) return;
  const std::string post = object + "/post";
  const Meaning size = walk.ask_section_into(
      post, "breadth", "depth",
      {.id = id + "size", .key = "post/size", .empty = Empty::refused, .fill = fill});
  // One size each way is all that the format holds: the smaller counts.
  for (const auto& [key, side] : {std::pair("/breadth", size.length), {"/depth", size.second}}) {
    if (side.is_range()) walk.put(post + key, write_quantity(side.low()));
  }
  walk.ask_into(post + "/height", {.id = id + "height",
                                   .key = "post/height",
                                   .empty = Empty::refused,
                                   .fill = fill,
                                   .high_counts = true});
  const std::string bearer =
      walk.ask_into(post + "/bearer", {.id = id + "bearer", .key = "post/bearer", .fill = fill})
          .text;
  if (bearer != "on top") {
    walk.ask_into(post + "/bolts", {.id = id + "bolts", .key = "post/bolts", .fill = fill});
    walk.ask_into(post + "/bolt_diameter",
                  {.id = id + "bolt_diameter", .key = "post/bolt_diameter", .fill = fill});
  }
  walk.ask_into(post + "/base", {.id = id + "base", .key = "post/base", .fill = fill});
  walk.ask_into(post + "/lean", {.id = id + "lean", .key = "post/lean", .fill = fill});
  ask_timber(walk, post, "supports/post", name, true, false);
  walk.posts = true;
}

bool all_tight(const Walk& walk, const std::string& object) {
  const OrderedJson::json_pointer contact(object + "/footing/contact");
  return walk.survey().contains(contact) && walk.survey().at(contact) == "tight";
}

/// Those of a row that stand with a gap while the others are tight, each by its name.
void ask_uneven(Walk& walk, const std::string& name, std::size_t count, const Fill& fill) {
  std::vector<std::string> names;
  for (std::size_t i = 1; i <= count; ++i) names.push_back(name + std::to_string(i));
  Fill words = fill;
  words["row"] = name;
  for (std::size_t k = 1; k <= count; ++k) {
    const Meaning one = walk.ask({.id = "pads/" + name + "/uneven/" + std::to_string(k),
                                  .key = "footing/uneven",
                                  .form = Form::shifted,
                                  .empty = Empty::none,
                                  .words = names,
                                  .fill = words,
                                  .must_look = true});
    if (one.empty || one.length.is_unknown()) return;
    const std::string at = "/deck/condition/" + std::to_string(walk.conditions++);
    walk.put(at + "/defect", "out of level");
    walk.put(at + "/piece", one.text);
    walk.put(at + "/size", write_quantity(one.length.low()));
  }
}

void ask_footing(Walk& walk, const std::string& object, const std::string& name, const Fill& fill) {
  const std::string id = "pads/" + name + "/", footing = object + "/footing";
  const Meaning packers =
      walk.ask_into(object + "/packers", {.id = id + "packers", .key = "packers", .fill = fill});
  if (!packers.empty && packers.text != "0") {
    walk.ask_into(
        object + "/bearing_length",
        {.id = id + "bearing_length", .key = "bearing_length", .empty = Empty::none, .fill = fill});
  }
  const std::string kind =
      walk.ask_into(footing + "/kind", {.id = id + "kind", .key = "footing/kind", .fill = fill})
          .text;
  for (const char* key : {"width", "length", "thickness", "depth", "offset"}) {
    if (kind == "screw pile") break;
    walk.ask_into(footing + "/" + key,
                  {.id = id + key, .key = std::string("footing/") + key, .fill = fill});
  }
  const std::string contact =
      walk.ask_into(footing + "/contact",
                    {.id = id + "contact", .key = "footing/contact", .fill = fill})
          .text;
  if (contact == "gap") {
    walk.ask_into(footing + "/gap", {.id = id + "gap",
                                     .key = "footing/gap",
                                     .empty = Empty::refused,
                                     .fill = fill,
                                     .high_counts = true});
  }
  if (kind == "screw pile") {
    walk.ask_into(footing + "/stated_capacity", {.id = id + "stated_capacity",
                                                 .key = "footing/stated_capacity",
                                                 .empty = Empty::none,
                                                 .fill = fill});
    return;
  }
  walk.ask_into(footing + "/below_topsoil",
                {.id = id + "below_topsoil", .key = "footing/below_topsoil", .fill = fill});
}

/// One group: under a bearer, or under the joists of a group.
void ask_group(Walk& walk, std::size_t index, const std::string& name, const std::string& under,
               bool alike_possible, bool other_kind = false) {
  const std::string object = "/deck/supports/" + std::to_string(index);
  const bool under_joists = under.starts_with("joists ");
  const std::string piece = under_joists ? under.substr(7) : under;
  const std::string along = under_joists ? walk.axis_along : walk.axis_across;
  Fill fill{{"name", under_joists ? "joists " + piece : piece}, {"other", "B1"}, {"along", along}};
  fill["of_kind"] = other_kind ? " of the next kind" : "";
  const bool alike = alike_possible && walk.ask({.id = "pads/" + name + "/alike",
                                                 .key = "supports/alike",
                                                 .form = Form::yes_or_no,
                                                 .empty = Empty::refused,
                                                 .fill = fill})
                                               .text == "yes";
  if (alike && walk.going()) {
    OrderedJson copy = walk.survey().at("deck").at("supports").at(0);
    copy["name"] = name;
    copy["under"] = piece;
    const std::size_t number = copy.at("positions").size();
    walk.put(object, std::move(copy));
    if (all_tight(walk, object)) ask_uneven(walk, name, number, fill);
    walk.support_names.push_back(name);
    return;
  }
  walk.put(object + "/name", name);
  walk.put(object + "/under", piece);
  const std::vector<Length> places =
      ask_row(walk, "pads/" + name + "/", "supports/", name, object + "/positions", 200,
              along == "x" ? walk.size_x : walk.size_y, fill);
  if (!walk.going()) return;
  if (places.empty()) {
    walk.take_back(object);
    return;
  }
  if (under_joists) {
    const Meaning only = walk.ask({.id = "pads/" + name + "/only",
                                   .key = "joist_pads/only",
                                   .form = Form::names,
                                   .empty = Empty::none,
                                   .fill = {{"name", piece}}});
    if (!only.empty && only.text != "all" && only.text != "none") {
      OrderedJson names = OrderedJson::array();
      for (const std::string& one : only.names) names.push_back(one);
      walk.put(object + "/only", std::move(names));
    }
  }
  ask_post(walk, object, name, fill);
  ask_footing(walk, object, name, fill);
  // Under joists the row's numbers run from joist to joist: those are named by what is wrong with them.
  if (walk.going() && !under_joists && places.size() > 1 && all_tight(walk, object)) {
    ask_uneven(walk, name, places.size(), fill);
  }
  if (walk.going()) walk.support_names.push_back(name);
}

/// All that stands under one piece: a group, and those of other kinds. `letters` begin the groups' names.
void ask_row_of_supports(Walk& walk, std::size_t& index, const std::string& letters,
                         const std::string& last, const std::string& under, bool alike_possible) {
  const auto group = [&](std::size_t kind) {
    const std::size_t before = walk.support_names.size();
    ask_group(walk, index, letters.substr(kind, 1) + last, under, alike_possible && kind == 0,
              kind > 0);
    if (walk.support_names.size() == before) return false;
    ++index;
    return true;
  };
  if (!group(0) || !walk.going()) return;
  const int others = walk.ask({.id = "pads/" + letters.substr(0, 1) + last + "/others",
                               .key = "supports/others",
                               .form = Form::count,
                               .empty = Empty::none,
                               .fill = {{"name", under}},
                               .most = static_cast<int>(letters.size()) - 1})
                         .count;
  for (int k = 1; k <= others && walk.going(); ++k) (void)group(static_cast<std::size_t>(k));
}

/// A push on braces lifts the foot of a post: what keeps it down, row by row.
void ask_feet(Walk& walk) {
  for (std::size_t k = 0; k < walk.support_names.size() && walk.going(); ++k) {
    const std::string post = "/deck/supports/" + std::to_string(k) + "/post";
    if (!walk.survey().contains(OrderedJson::json_pointer(post))) continue;
    const std::string id = "posts/" + walk.support_names[k] + "/";
    const Fill fill{{"name", walk.support_names[k]}};
    const std::string held = walk.ask_into(post + "/held_down", {.id = id + "held_down",
                                                                 .key = "post/held_down",
                                                                 .empty = Empty::none,
                                                                 .fill = fill})
                                 .text;
    if (held != "bolted" && held != "cast in") continue;
    walk.ask_into(post + "/hold_down_capacity", {.id = id + "hold_down_capacity",
                                                 .key = "post/hold_down_capacity",
                                                 .empty = Empty::none,
                                                 .fill = fill});
  }
}

/// Where the deck stands between two walls, and along which stretch both touch it.
void ask_walls_on(Walk& walk, const std::string& object, const std::string& id,
                  const std::string& direction) {
  const std::string on = walk.ask_into(object + "/walls_on", {.id = id + "walls_on",
                                                              .key = "braces/walls_on",
                                                              .empty = Empty::refused,
                                                              .fill = {{"along", direction}}})
                             .text;
  if (on != "both sides") return;
  for (const char* end : {"from", "to"}) {
    walk.ask_into(object + "/" + end, {.id = id + end,
                                       .key = std::string("braces/") + end,
                                       .empty = Empty::refused,
                                       .fill = {{"along", direction == "x" ? "y" : "x"}}});
  }
}

void ask_braces(Walk& walk) {
  if (!walk.posts) return;
  const int kinds = walk.ask({.id = "posts/braces/count",
                              .key = "braces/count",
                              .form = Form::count,
                              .empty = Empty::none,
                              .must_look = true,
                              .most = 8})
                        .count;
  std::string supports;
  for (const std::string& name : walk.support_names) {
    supports += (supports.empty() ? "" : ", ") + name;
  }
  bool members = false;
  for (int k = 0; k < kinds && walk.going(); ++k) {
    const std::string object = "/deck/braces/" + std::to_string(k);
    const std::string id = "posts/braces/" + std::to_string(k + 1) + "/";
    const Fill fill{{"supports", supports}};
    const std::string kind = walk.ask_into(object + "/kind",
                                           {
                                               .id = id + "kind",
                                               .key = "braces/kind",
                                               .empty = Empty::refused,
                                           })
                                 .text;
    const std::string direction = walk.ask_into(object + "/direction",
                                                {
                                                    .id = id + "direction",
                                                    .key = "braces/direction",
                                                    .empty = Empty::refused,
                                                })
                                      .text;
    walk.ask_into(object + "/at",
                  {.id = id + "at", .key = "braces/at", .empty = Empty::refused, .fill = fill});
    if (kind == "wall contact") {
      ask_walls_on(walk, object, id, direction);
      continue;
    }
    walk.ask_into(object + "/count",
                  {.id = id + "number", .key = "braces/number", .empty = Empty::refused});
    if (kind != "diagonal" && kind != "knee") continue;
    members = true;
    walk.ask_section_into(object, "breadth", "depth", {.id = id + "size", .key = "braces/size"});
    walk.ask_into(object + "/bolts",
                  {.id = id + "bolts", .key = "braces/bolts", .empty = Empty::refused});
    walk.ask_into(object + "/bolt_diameter",
                  {.id = id + "bolt_diameter", .key = "braces/bolt_diameter"});
  }
  if (members) ask_feet(walk);
}

}  // namespace

void ask_supports(Walk& walk) {
  std::size_t index = 0;
  for (std::size_t k = 0; k < walk.bearer_names.size() && walk.going(); ++k) {
    // Numbers follow names: those of "P1" and "P11" would collide, letters do not.
    ask_row_of_supports(walk, index, "PQR", std::string(1, static_cast<char>('A' + k)),
                        walk.bearer_names[k], index > 0);
  }
  for (std::size_t g = 0; g < walk.joist_names.size() && walk.going(); ++g) {
    const std::string& joists = walk.joist_names[g];
    const bool there = walk.ask({.id = "pads/under " + joists + "/there",
                                 .key = "joist_pads/there",
                                 .form = Form::yes_or_no,
                                 .empty = Empty::refused,
                                 .fill = {{"name", joists}}})
                           .text == "yes";
    if (!there || !walk.going()) continue;
    ask_row_of_supports(walk, index, "STU", joists, "joists " + joists, false);
  }
  ask_braces(walk);
}

}  // namespace underprop::interview
