// Ground, surroundings, and the condition of what is there.
#include "parts.hpp"

#include "record/spoken.hpp"

#include "underprop/base/units.hpp"

namespace underprop::interview {
namespace {

using Fill = std::map<std::string, std::string>;

OrderedJson point_json(Point p) {
  return OrderedJson::array({write_quantity(p.x), write_quantity(p.y)});
}

struct Lines {
  const char* key;
  const char* one;
  const char* height;
};
constexpr Lines lines_asked[] = {
    {"retaining_walls", "retaining wall", "How high is it, from the lower to the upper ground?"},
    {"house_walls", "house wall", "How deep is its footing below the ground beside the deck?"},
    {"drains", "drain", "How deep is its underside?"},
    {"ponds", "pond", "How deep is it?"}};

void ask_lines(Walk& walk, const Lines& lines) {
  const std::string id = std::string("ground/") + lines.key,
                    list = std::string("/site/") + lines.key;
  const Meaning count = walk.ask({.id = id, .key = lines.key, .form = Form::count, .most = 20});
  if (count.empty || !walk.going()) return;
  if (count.count == 0) {
    walk.put(list, "none");
    return;
  }
  for (int k = 0; k < count.count && walk.going(); ++k) {
    const std::string object = list + "/" + std::to_string(k);
    const std::string at = id + "/" + std::to_string(k + 1) + "/";
    const std::string name =
        lines.one + (count.count > 1 ? " " + std::to_string(k + 1) : std::string());
    const Fill fill{{"what", "the " + name},
                    {"height_question", std::string(lines.height) + " (" + name + ")"}};
    const Meaning ends = walk.ask({.id = at + "line",
                                   .key = "line",
                                   .form = Form::line,
                                   .empty = Empty::refused,
                                   .fill = fill});
    walk.put(object + "/name", name);
    if (ends.points.size() == 2) {
      walk.put(object + "/from", point_json(ends.points[0]));
      walk.put(object + "/to", point_json(ends.points[1]));
    }
    const Meaning height = walk.ask({.id = at + "height",
                                     .key = "line/height",
                                     .form = Form::length,
                                     .fill = fill,
                                     .high_counts = true});
    // What nobody measured stays an open fact of this line: the line itself is recorded.
    if (!height.empty) walk.put(object + "/height", height.text);
  }
}

void ask_trees(Walk& walk) {
  const Meaning count =
      walk.ask({.id = "ground/trees", .key = "trees", .form = Form::count, .most = 20});
  if (count.empty || !walk.going()) return;
  if (count.count == 0) walk.put("/site/trees", "none");
  for (int k = 0; k < count.count && walk.going(); ++k) {
    const std::string object = "/site/trees/" + std::to_string(k);
    const std::string at = "ground/trees/" + std::to_string(k + 1) + "/";
    const Fill fill{{"number", std::to_string(k + 1)}};
    const Meaning place = walk.ask({.id = at + "at",
                                    .key = "tree/at",
                                    .form = Form::point,
                                    .empty = Empty::refused,
                                    .fill = fill});
    if (!place.points.empty()) walk.put(object + "/at", point_json(place.points.front()));
    walk.ask_into(object + "/height", {.id = at + "height",
                                       .key = "tree/height",
                                       .empty = Empty::refused,
                                       .fill = fill,
                                       .high_counts = true});
  }
}

std::string names_of_pieces(const Walk& walk) {
  std::string text;
  const auto add = [&](const std::vector<std::string>& names, bool numbered) {
    for (const std::string& name : names) {
      text += (text.empty() ? "" : ", ") + name + (numbered ? "1 ..." : "");
    }
  };
  add(walk.joist_names, true);
  add(walk.bearer_names, false);
  add(walk.ledger_names, false);
  add(walk.support_names, true);
  add(walk.wall_names, false);
  return text;
}

bool has_size(const std::string& defect) {
  return defect == "decay" || defect == "surface softening" || defect == "notch" ||
         defect == "hole" || defect == "short bearing" || defect == "out of level" ||
         defect == "leaning";
}

const char* size_of(const std::string& defect) {
  if (defect == "notch") return "depth of the notch";
  if (defect == "hole") return "diameter";
  if (defect == "short bearing") return "length of wood that bears";
  if (defect == "out of level") return "the gap";
  if (defect == "leaning") return "how far the top is out of plumb";
  return "how deep the screwdriver goes in";
}

void ask_one_defect(Walk& walk, int number) {
  const std::string object = "/deck/condition/" + std::to_string(walk.conditions);
  const std::string id = "condition/" + std::to_string(number) + "/";
  const std::string defect = walk.ask_into(object + "/defect",
                                           {
                                               .id = id + "defect",
                                               .key = "wrong/defect",
                                               .empty = Empty::refused,
                                           })
                                 .text;
  walk.ask_into(object + "/piece", {.id = id + "piece",
                                    .key = "wrong/piece",
                                    .empty = Empty::refused,
                                    .fill = {{"names", names_of_pieces(walk)}}});
  const bool stretch = defect == "decay" || defect == "split" || defect == "notch" ||
                       defect == "hole" || defect == "surface softening";
  if (stretch) {
    const bool from = !walk.ask_into(object + "/from",
                                     {.id = id + "from", .key = "wrong/from", .empty = Empty::none})
                           .empty;
    if (from) {
      walk.ask_into(object + "/to", {.id = id + "to", .key = "wrong/to", .empty = Empty::none});
    }
  }
  if (has_size(defect)) {
    const bool needed = defect == "short bearing" || defect == "out of level";
    walk.ask_into(object + "/size", {.id = id + "size",
                                     .key = "wrong/size",
                                     .empty = needed ? Empty::refused : Empty::unknown,
                                     .fill = {{"what", size_of(defect)}},
                                     .high_counts = defect != "short bearing"});
  }
  if (defect == "decay" || defect == "notch") {
    walk.ask_into(object + "/face", {
                                        .id = id + "face",
                                        .key = "wrong/face",
                                    });
  }
  if (walk.going()) ++walk.conditions;
}

}  // namespace

void ask_ground(Walk& walk) {
  walk.ask_into("/site/soil", {
                                  .id = "ground/soil",
                                  .key = "soil",
                              });
  for (const char* key : {"heel_marks", "water_in_hole", "shrinkable_clay"}) {
    walk.ask_into(std::string("/site/") + key, {.id = std::string("ground/") + key, .key = key});
  }
  walk.ask_into("/site/fill", {
                                  .id = "ground/fill",
                                  .key = "fill",
                              });
  walk.ask_into("/site/slope", {
                                   .id = "ground/slope",
                                   .key = "slope",
                               });
  walk.ask_into("/site/frost_depth", {.id = "ground/frost_depth", .key = "frost_depth"});
  for (const Lines& lines : lines_asked) ask_lines(walk, lines);
  ask_trees(walk);
  ask_zones(walk, "/deck/closed_zones", "ground/closed_zones/", "closed_zones/");
  walk.ask_into("/site/roof_or_screen", {.id = "ground/roof_or_screen", .key = "roof_or_screen"});
  walk.ask_into("/site/snow_load",
                {.id = "ground/snow_load", .key = "snow_load", .high_counts = true});
  walk.ask_into("/site/imposed_load", {.id = "ground/imposed_load",
                                       .key = "imposed_load",
                                       .empty = Empty::none,
                                       .high_counts = true});
}

void ask_condition(Walk& walk) {
  const Meaning probed = walk.ask({.id = "condition/probed", .key = "probed", .form = Form::names});
  if (!probed.empty) {
    if (probed.text == "all") {
      walk.put("/deck/probed", probed.text);
    } else {
      OrderedJson names = OrderedJson::array();
      for (const std::string& name : probed.names) {
        if (probed.text != "none") names.push_back(name);
      }
      walk.put("/deck/probed/pieces", std::move(names));
    }
  }
  constexpr int most = 100;
  for (int k = 1; k <= most && walk.going(); ++k) {
    const Meaning more = walk.ask({.id = "condition/" + std::to_string(k) + "/wrong",
                                   .key = "wrong",
                                   .form = Form::yes_or_no,
                                   .empty = Empty::refused,
                                   .fill = {{"number", std::to_string(k)}}});
    if (more.text != "yes") break;
    ask_one_defect(walk, k);
  }
}

}  // namespace underprop::interview
