// What holds the joists: ledger, bearers, walls, ends, rims, blocking; and their fixings.
#include "parts.hpp"

#include "underprop/base/units.hpp"

namespace underprop::interview {
namespace {

std::string entry(const char* list, std::size_t index) {
  return std::string("/deck/") + list + "/" + std::to_string(index);
}

void ask_one_ledger(Walk& walk, bool at_house) {
  const std::string name = "L" + std::to_string(walk.ledger_names.size() + 1);
  const std::string object = entry("ledgers", walk.ledger_names.size());
  const std::string id = "carriers/" + name + "/";
  std::map<std::string, std::string> fill{{"name", name}};
  walk.put(object + "/name", name);
  std::string direction = "x";
  if (at_house) {
    walk.put(object + "/direction", direction);
    walk.put(object + "/position", "0 mm");
  } else {
    direction = walk.ask_into(object + "/direction", {.id = id + "direction",
                                                      .key = "ledger/direction",
                                                      .empty = Empty::refused,
                                                      .fill = fill})
                    .text;
    fill["other"] = direction == "x" ? "y" : "x";
    walk.ask_into(
        object + "/position",
        {.id = id + "position", .key = "ledger/position", .empty = Empty::refused, .fill = fill});
  }
  fill["across"] = direction;  // the axis along which its ends are measured
  fill["name"] = "ledger " + name;
  ask_extent(walk, object, id, fill);
  walk.ask_section_into(
      object, "breadth", "depth",
      {.id = id + "size", .key = "ledger/size", .empty = Empty::refused, .fill = fill});
  if (walk.going()) walk.ledger_names.push_back(name);
}

void ask_ledgers(Walk& walk) {
  if (!walk.attached) return;
  // The house wall runs along x; joists along the wall do not hang on it.
  if (walk.axis_along == "y") {
    walk.house_ledger = walk.ask({.id = "carriers/ledger/there",
                                  .key = "ledger/there",
                                  .form = Form::yes_or_no,
                                  .empty = Empty::refused})
                            .text == "yes";
    if (walk.house_ledger) ask_one_ledger(walk, true);
  }
  const int others = walk.ask({.id = "carriers/ledger/others",
                               .key = "ledger/others",
                               .form = Form::count,
                               .empty = Empty::refused,
                               .most = 8})
                         .count;
  for (int k = 0; k < others && walk.going(); ++k) ask_one_ledger(walk, false);
}

void ask_bearer_itself(Walk& walk, const std::string& object, const std::string& id,
                       const std::map<std::string, std::string>& fill, const std::string& name) {
  const int plies =
      walk.ask_into(
              object + "/plies",
              {.id = id + "plies", .key = "bearers/plies", .empty = Empty::refused, .fill = fill})
          .count;
  walk.ask_section_into(object, "ply_breadth", "depth",
                        {.id = id + "size", .key = "bearers/size", .fill = fill});
  if (plies > 1) {
    walk.ask_into(
        object + "/plies_fixed_together",
        {.id = id + "plies_fixed_together", .key = "bearers/plies_fixed_together", .fill = fill});
  }
  ask_timber(walk, object, "bearers", name, false, true);
}

void copy_bearer(Walk& walk, const std::string& object) {
  if (!walk.going()) return;
  const OrderedJson first = walk.survey().at("deck").at("bearers").at(0);
  for (const char* key :
       {"plies", "ply_breadth", "depth", "plies_fixed_together", "timber", "incised"}) {
    if (first.contains(key)) walk.put(object + "/" + key, first.at(key));
  }
}

void ask_bearers(Walk& walk) {
  const int count = walk.ask({.id = "carriers/bearers/count",
                              .key = "bearers/count",
                              .form = Form::count,
                              .empty = Empty::refused,
                              .most = 20})
                        .count;
  for (int k = 0; k < count && walk.going(); ++k) {
    const std::string name = "B" + std::to_string(k + 1);
    const std::string object = entry("bearers", static_cast<std::size_t>(k));
    const std::string id = "carriers/" + name + "/";
    const std::map<std::string, std::string> fill{
        {"name", name}, {"other", "B1"}, {"along", walk.axis_along}, {"across", walk.axis_across}};
    walk.put(object + "/name", name);
    walk.put(object + "/direction", walk.axis_across);
    walk.ask_into(
        object + "/position",
        {.id = id + "position", .key = "bearers/position", .empty = Empty::refused, .fill = fill});
    walk.ask_into(
        object + "/joists",
        {.id = id + "joists", .key = "bearers/joists", .empty = Empty::refused, .fill = fill});
    const bool alike = k > 0 && walk.ask({.id = id + "alike",
                                          .key = "bearers/alike",
                                          .form = Form::yes_or_no,
                                          .empty = Empty::refused,
                                          .fill = fill})
                                        .text == "yes";
    if (alike) {
      copy_bearer(walk, object);
    } else {
      ask_bearer_itself(walk, object, id, fill, name);
    }
    ask_extent(walk, object, id, fill);
    const Meaning splices = walk.ask({.id = id + "splices",
                                      .key = "bearers/splices",
                                      .form = Form::places,
                                      .empty = Empty::none,
                                      .fill = fill,
                                      .must_look = true});
    OrderedJson list = OrderedJson::array();
    for (const Length place : splices.lengths) list.push_back(write_quantity(place));
    if (!list.empty()) walk.put(object + "/splices", std::move(list));
    if (walk.going()) walk.bearer_names.push_back(name);
  }
}

void ask_walls(Walk& walk) {
  const int count = walk.ask({.id = "carriers/walls/count",
                              .key = "walls/count",
                              .form = Form::count,
                              .empty = Empty::refused,
                              .most = 20})
                        .count;
  for (int k = 0; k < count && walk.going(); ++k) {
    const std::string name = "W" + std::to_string(k + 1);
    const std::string object = entry("walls", static_cast<std::size_t>(k));
    const std::string id = "carriers/" + name + "/";
    const std::map<std::string, std::string> fill{{"name", name}, {"along", walk.axis_along}};
    const std::map<std::string, std::string> long_fill{{"name", "wall " + name},
                                                       {"across", walk.axis_across}};
    walk.put(object + "/name", name);
    const Meaning at = walk.ask({.id = id + "position",
                                 .key = "walls/position",
                                 .form = Form::length,
                                 .empty = Empty::refused,
                                 .fill = fill});
    const bool along_x = walk.axis_across == "x";
    Length from, to = along_x ? walk.size_x : walk.size_y;
    const bool whole = walk.ask({.id = id + "whole",
                                 .key = "bearers/whole",
                                 .form = Form::yes_or_no,
                                 .empty = Empty::refused,
                                 .fill = long_fill})
                           .text == "yes";
    if (!whole) {
      for (const char* end : {"from", "to"}) {
        const Meaning taken = walk.ask({.id = id + end,
                                        .key = std::string("bearers/") + end,
                                        .form = Form::length,
                                        .empty = Empty::refused,
                                        .fill = long_fill});
        if (taken.length.is_known()) (std::string(end) == "from" ? from : to) = taken.length.low();
      }
    }
    if (at.length.is_known() && walk.going()) {
      const std::string there = write_quantity(at.length.low());
      for (const auto& [end, place] : {std::pair("/from", from), {"/to", to}}) {
        const std::string along = write_quantity(place);
        walk.put(object + end,
                 along_x ? OrderedJson::array({along, there}) : OrderedJson::array({there, along}));
      }
    }
    walk.ask_into(
        object + "/width",
        {.id = id + "width", .key = "walls/width", .empty = Empty::refused, .fill = fill});
    const std::string contact =
        walk.ask_into(object + "/contact",
                      {.id = id + "contact", .key = "walls/contact", .fill = fill})
            .text;
    if (contact == "gap") {
      walk.ask_into(object + "/gap", {.id = id + "gap",
                                      .key = "walls/gap",
                                      .empty = Empty::refused,
                                      .fill = fill,
                                      .high_counts = true});
    }
    walk.ask_into(object + "/strip_width",
                  {.id = id + "strip_width", .key = "walls/strip_width", .fill = fill});
    walk.ask_into(object + "/depth", {.id = id + "depth", .key = "walls/depth", .fill = fill});
    if (walk.going()) walk.wall_names.push_back(name);
  }
}

std::string side_words(const Walk& walk, const std::string& along, bool start) {
  if (along == "x") return start ? "their left end (smaller x)" : "their right end (larger x)";
  if (walk.attached) return start ? "the house (y = 0)" : "the end away from the house";
  return start ? "the end at corner A (smaller y)" : "the far end (larger y)";
}

void ask_hold(Walk& walk, const std::string& object, const std::string& id, const char* held_key,
              std::map<std::string, std::string> fill) {
  const std::string held =
      walk.ask_into(object + "/held", {.id = id + "held", .key = held_key, .fill = fill}).text;
  if (held == "end grain" || held == "skew nails") {
    walk.ask_into(object + "/nails", {.id = id + "nails", .key = "nails", .fill = fill});
  }
  if (held == "hanger" &&
      walk.ask_into(object + "/all_holes_nailed",
                    {.id = id + "all_holes_nailed", .key = "hanger/all_holes_nailed", .fill = fill})
              .text != "yes") {
    walk.ask_into(object + "/nails_in_carrier",
                  {.id = id + "nails_in_carrier", .key = "hanger/nails_in_carrier", .fill = fill});
  }
  if (held == "hanger") {
    walk.ask_into(object + "/stated_capacity", {.id = id + "stated_capacity",
                                                .key = "hanger/stated_capacity",
                                                .empty = Empty::none,
                                                .fill = fill});
  }
  if (!held.empty() && held != "resting" && held != "free") {
    walk.ask_into(object + "/sound", {.id = id + "sound", .key = "sound", .fill = fill});
  }
  if (held == "hanger" || held == "ledger strip") {
    walk.ask_into(object + "/seat", {.id = id + "seat", .key = "seat", .fill = fill});
  }
}

std::string along_of(const Walk& walk, std::size_t group) {
  const OrderedJson& joists = walk.survey().at("deck").at("joists");
  return joists.at(group).at("direction").get<std::string>();
}

void ask_ends(Walk& walk) {
  int single = 0;
  for (std::size_t g = 0; g < walk.joist_names.size() && walk.going(); ++g) {
    const std::string& name = walk.joist_names[g];
    const std::string object = entry("joists", g), id = "carriers/" + name + "/";
    const std::string along = along_of(walk, g);
    std::map<std::string, std::string> fill{{"name", name}, {"along", along}};
    fill["start_side"] = side_words(walk, along, true);
    fill["end_side"] = side_words(walk, along, false);
    for (const bool start : {true, false}) {
      fill["side"] = side_words(walk, along, start);
      const std::string end = start ? "start" : "end";
      ask_hold(walk, object + "/" + end, id + end + "/", "held", fill);
    }
    constexpr int most_single = 40;
    for (int k = 1; k <= most_single; ++k) {
      const std::string which = id + "otherwise/" + std::to_string(k);
      const Meaning other = walk.ask({.id = which,
                                      .key = "held_otherwise",
                                      .form = Form::joist_end,
                                      .empty = Empty::none,
                                      .fill = fill,
                                      .must_look = true});
      if (other.empty || !walk.going()) break;
      const std::string at = entry("joist_ends", static_cast<std::size_t>(single++));
      walk.put(at + "/joist", other.text);
      walk.put(at + "/at_start", other.count == 1);
      walk.put(at + "/hold", OrderedJson::object());
      auto words = fill;
      words["piece"] = other.text;
      words["which"] = other.count == 1 ? "start" : "end";
      words["side"] = "the " + words["which"] + " of " + other.text;
      ask_hold(walk, at + "/hold", which + "/", "held_one", words);
    }
    if (!walk.bearer_names.empty()) {
      walk.ask_into(object + "/over_bearers",
                    {.id = id + "over_bearers", .key = "over_bearers", .fill = fill});
    }
  }
}

void ask_rims(Walk& walk) {
  std::size_t rims = 0, rows = 0;
  for (std::size_t g = 0; g < walk.joist_names.size() && walk.going(); ++g) {
    const std::string& name = walk.joist_names[g];
    const std::string along = along_of(walk, g);
    std::map<std::string, std::string> fill{{"name", name}, {"along", along}};
    for (const bool start : {true, false}) {
      if (start && along == "y" && walk.house_ledger) continue;
      const std::string id = "carriers/" + name + (start ? "/rim_start/" : "/rim_end/");
      fill["side"] = side_words(walk, along, start);
      const bool there = walk.ask({.id = id + "there",
                                   .key = "rim/there",
                                   .form = Form::yes_or_no,
                                   .empty = Empty::refused,
                                   .fill = fill})
                             .text == "yes";
      if (!there) continue;
      const std::string object = entry("rims", rims++);
      walk.put(object + "/name", "R" + std::to_string(rims));
      walk.put(object + "/at_start", start);
      walk.put(object + "/joists", name);
      walk.ask_section_into(
          object, "breadth", "depth",
          {.id = id + "size", .key = "rim/size", .empty = Empty::refused, .fill = fill});
      walk.ask_into(object + "/fixed", {.id = id + "fixed", .key = "rim/fixed", .fill = fill});
    }
    const Meaning places = walk.ask({.id = "carriers/" + name + "/blocking",
                                     .key = "blocking",
                                     .form = Form::places,
                                     .empty = Empty::none,
                                     .fill = fill,
                                     .must_look = true});
    for (const Length place : places.lengths) {
      const std::string object = entry("blocking", rows++);
      walk.put(object + "/name", "N" + std::to_string(rows));
      walk.put(object + "/joists", name);
      walk.put(object + "/position", write_quantity(place));
    }
  }
}

void copy_ledger(Walk& walk, const std::string& object) {
  if (!walk.going()) return;
  const OrderedJson first = walk.survey().at("deck").at("ledgers").at(0);
  for (const char* key :
       {"fixed_to", "fixing", "fixing_diameter", "fixing_spacing", "fixing_heights", "penetration",
        "band_condition", "stated_capacity", "stated_pull_out", "sound", "timber", "incised"}) {
    if (first.contains(key)) walk.put(object + "/" + key, first.at(key));
  }
}

void ask_ledger_fixings(Walk& walk, std::size_t index) {
  const std::string name = walk.ledger_names[index];
  const std::string object = entry("ledgers", index), id = "fixings/" + name + "/";
  const std::map<std::string, std::string> fill{{"name", name}, {"other", walk.ledger_names[0]}};
  if (index > 0 && walk.ask({.id = id + "alike",
                             .key = "ledger/alike",
                             .form = Form::yes_or_no,
                             .empty = Empty::refused,
                             .fill = fill})
                           .text == "yes") {
    copy_ledger(walk, object);
    return;
  }
  const auto word = [&](const char* key) {
    return walk
        .ask_into(object + "/" + key,
                  {.id = id + key, .key = std::string("ledger/") + key, .fill = fill})
        .text;
  };
  const std::string wall = word("fixed_to");
  const std::string fixing = word("fixing");
  const bool thin = fixing == "nail" || fixing == "screw";
  walk.ask_into(object + "/fixing_diameter",
                {.id = id + "fixing_diameter",
                 .key = "ledger/fixing_diameter",

                 .fill = fill,
                 .how = thin ? "fact:ledgers/thin_fixing_diameter" : ""});
  walk.ask_into(object + "/fixing_spacing",
                {.id = id + "fixing_spacing", .key = "ledger/fixing_spacing", .fill = fill});
  if (fixing != "nail") {
    const bool in_wall = wall == "solid masonry" || wall == "concrete";
    const Meaning heights = walk.ask({.id = id + "fixing_heights",
                                      .key = "ledger/fixing_heights",
                                      .form = Form::places,
                                      .empty = Empty::none,
                                      .fill = fill});
    OrderedJson rows = OrderedJson::array();
    for (const Length height : heights.lengths) rows.push_back(write_quantity(height));
    if (!rows.empty()) walk.put(object + "/fixing_heights", std::move(rows));
    if (wall == "timber band") {
      walk.ask_into(object + "/penetration",
                    {.id = id + "penetration",
                     .key = fixing == "bolt" ? "ledger/penetration" : "ledger/thread_penetration",

                     .fill = fill});
      walk.ask_into(object + "/band_condition",
                    {.id = id + "band_condition", .key = "ledger/band_condition", .fill = fill});
    }
    walk.ask_into(object + "/stated_capacity",
                  {.id = id + "stated_capacity",
                   .key = in_wall ? "ledger/stated_capacity_in_wall" : "ledger/stated_capacity",

                   .empty = in_wall ? Empty::unknown : Empty::none,
                   .fill = fill});
    if (in_wall) {
      walk.ask_into(object + "/stated_pull_out",
                    {.id = id + "stated_pull_out", .key = "ledger/stated_pull_out", .fill = fill});
    }
  }
  walk.ask_into(object + "/sound", {.id = id + "sound", .key = "ledger/sound", .fill = fill});
  ask_timber(walk, object, "ledgers", name, false, true);
}

}  // namespace

void ask_extent(Walk& walk, const std::string& object, const std::string& id,
                const std::map<std::string, std::string>& fill) {
  const bool whole = walk.ask({.id = id + "whole",
                               .key = "bearers/whole",
                               .form = Form::yes_or_no,
                               .empty = Empty::refused,
                               .fill = fill})
                         .text == "yes";
  if (whole) return;
  for (const char* end : {"from", "to"}) {
    walk.ask_into(object + "/" + end, {.id = id + end,
                                       .key = std::string("bearers/") + end,
                                       .empty = Empty::refused,
                                       .fill = fill});
  }
}

void ask_carriers(Walk& walk) {
  ask_ledgers(walk);
  ask_bearers(walk);
  ask_walls(walk);
  ask_ends(walk);
  ask_rims(walk);
}

void ask_fixings(Walk& walk) {
  for (std::size_t k = 0; k < walk.ledger_names.size() && walk.going(); ++k) {
    ask_ledger_fixings(walk, k);
  }
  for (std::size_t k = 0; k < walk.bearer_names.size() && walk.going(); ++k) {
    const std::string object = entry("bearers", k);
    if (walk.survey().at("deck").at("bearers").at(k).at("joists") != "on top") continue;
    const std::string id = "fixings/" + walk.bearer_names[k] + "/";
    const std::map<std::string, std::string> fill{{"name", walk.bearer_names[k]}};
    const std::string held =
        walk.ask_into(
                object + "/joists_held_down",
                {.id = id + "joists_held_down", .key = "bearers/joists_held_down", .fill = fill})
            .text;
    if (held != "strapped") continue;
    walk.ask_into(object + "/hold_down_capacity", {.id = id + "hold_down_capacity",
                                                   .key = "bearers/hold_down_capacity",
                                                   .empty = Empty::none,
                                                   .fill = fill});
  }
}

}  // namespace underprop::interview
