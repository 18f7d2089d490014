// Posts, pads and bracing.
#include "interview_parts.hpp"

#include "underprop/base/units.hpp"

namespace underprop::survey {
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
  const Taken size = walk.ask_section_into(
      post, "breadth", "depth",
      {.id = id + "size", .key = "post/size", .empty = Empty::refused, .fill = fill});
  // One size each way is all that the format holds: the smaller counts.
  for (const auto& [key, side] : {std::pair("/breadth", size.length), {"/depth", size.second}}) {
    if (side.is_range()) walk.put(post + key, write_quantity(side.low()));
  }
  walk.ask_into(post + "/height", {.id = id + "height",
                                   .key = "post/height",
                                   .form = Form::length,
                                   .empty = Empty::refused,
                                   .fill = fill,
                                   .high_counts = true});
  const std::string bearer =
      walk.ask_into(post + "/bearer", {.id = id + "bearer",
                                       .key = "post/bearer",
                                       .form = Form::word,
                                       .words = survey_words("/deck/supports/[]/post", "bearer"),
                                       .fill = fill})
          .text;
  if (bearer != "on top") {
    walk.ask_count_into(post + "/bolts", {.id = id + "bolts",
                                          .key = "post/bolts",
                                          .form = Form::count_fact,
                                          .fill = fill,
                                          .most = 20});
    walk.ask_into(post + "/bolt_diameter", {.id = id + "bolt_diameter",
                                            .key = "post/bolt_diameter",
                                            .form = Form::length_fact,
                                            .fill = fill});
  }
  walk.ask_into(post + "/base", {.id = id + "base",
                                 .key = "post/base",
                                 .form = Form::word,
                                 .words = survey_words("/deck/supports/[]/post", "base"),
                                 .fill = fill});
  walk.ask_into(post + "/lean",
                {.id = id + "lean", .key = "post/lean", .form = Form::length_fact, .fill = fill});
  ask_timber(walk, post, "supports/post", name, true, false);
  walk.posts = true;
}

void ask_footing(Walk& walk, const std::string& object, const std::string& name, const Fill& fill) {
  const std::string id = "pads/" + name + "/", footing = object + "/footing";
  walk.ask_count_into(
      object + "/packers",
      {.id = id + "packers", .key = "packers", .form = Form::count_fact, .fill = fill, .most = 20});
  const std::string kind =
      walk.ask_into(footing + "/kind", {.id = id + "kind",
                                        .key = "footing/kind",
                                        .form = Form::word,
                                        .words = survey_words("/deck/supports/[]/footing", "kind"),
                                        .fill = fill})
          .text;
  for (const char* key : {"width", "length", "thickness", "depth", "offset"}) {
    if (kind == "screw pile") break;
    walk.ask_into(footing + "/" + key, {.id = id + key,
                                        .key = std::string("footing/") + key,
                                        .form = Form::length_fact,
                                        .fill = fill});
  }
  const std::string contact =
      walk.ask_into(footing + "/contact",
                    {.id = id + "contact",
                     .key = "footing/contact",
                     .form = Form::word,
                     .words = survey_words("/deck/supports/[]/footing", "contact"),
                     .fill = fill})
          .text;
  if (contact == "gap") {
    walk.ask_into(footing + "/gap", {.id = id + "gap",
                                     .key = "footing/gap",
                                     .form = Form::length,
                                     .empty = Empty::refused,
                                     .fill = fill,
                                     .high_counts = true});
  }
  if (kind == "screw pile") {
    walk.ask_into(footing + "/stated_capacity", {.id = id + "stated_capacity",
                                                 .key = "footing/stated_capacity",
                                                 .form = Form::force,
                                                 .empty = Empty::none,
                                                 .fill = fill});
    return;
  }
  walk.ask_flag_into(footing + "/below_topsoil",
                     {.id = id + "below_topsoil", .key = "footing/below_topsoil", .fill = fill});
}

/// One group: under a bearer, or under the joists of a group.
void ask_group(Walk& walk, std::size_t index, const std::string& name, const std::string& under,
               bool alike_possible) {
  const std::string object = "/deck/supports/" + std::to_string(index);
  const bool under_joists = under.starts_with("joists ");
  const std::string piece = under_joists ? under.substr(7) : under;
  const std::string along = under_joists ? walk.axis_along : walk.axis_across;
  Fill fill{{"name", under_joists ? "joists " + piece : piece}, {"other", "B1"}, {"along", along}};
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
    walk.put(object, std::move(copy));
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
  ask_post(walk, object, name, fill);
  ask_footing(walk, object, name, fill);
  if (walk.going()) walk.support_names.push_back(name);
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
  for (int k = 0; k < kinds && walk.going(); ++k) {
    const std::string object = "/deck/braces/" + std::to_string(k);
    const std::string id = "posts/braces/" + std::to_string(k + 1) + "/";
    const Fill fill{{"supports", supports}};
    const std::string kind =
        walk.ask_into(object + "/kind", {.id = id + "kind",
                                         .key = "braces/kind",
                                         .form = Form::word,
                                         .empty = Empty::refused,
                                         .words = survey_words("/deck/braces/[]", "kind")})
            .text;
    walk.ask_into(object + "/direction", {.id = id + "direction",
                                          .key = "braces/direction",
                                          .form = Form::word,
                                          .empty = Empty::refused,
                                          .words = {"x", "y"}});
    walk.ask_into(object + "/at",
                  {.id = id + "at", .key = "braces/at", .empty = Empty::refused, .fill = fill});
    walk.ask_count_into(object + "/count", {.id = id + "number",
                                            .key = "braces/number",
                                            .form = Form::count,
                                            .empty = Empty::refused});
    if (kind != "diagonal" && kind != "knee") continue;
    walk.ask_section_into(object, "breadth", "depth",
                          {.id = id + "size", .key = "braces/size", .empty = Empty::refused});
    walk.ask_count_into(object + "/bolts", {.id = id + "bolts",
                                            .key = "braces/bolts",
                                            .form = Form::count,
                                            .empty = Empty::refused,
                                            .most = 20});
    walk.ask_into(object + "/bolt_diameter", {.id = id + "bolt_diameter",
                                              .key = "braces/bolt_diameter",
                                              .form = Form::length,
                                              .empty = Empty::none});
  }
}

}  // namespace

void ask_supports(Walk& walk) {
  std::size_t index = 0;
  for (std::size_t k = 0; k < walk.bearer_names.size() && walk.going(); ++k) {
    const std::size_t before = walk.support_names.size();
    // Numbers follow names: those of "P1" and "P11" would collide, letters do not.
    const std::string name = std::string("P") + static_cast<char>('A' + static_cast<int>(k));
    ask_group(walk, index, name, walk.bearer_names[k], index > 0);
    if (walk.support_names.size() > before) ++index;
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
    const std::size_t before = walk.support_names.size();
    ask_group(walk, index, "S" + joists, "joists " + joists, false);
    if (walk.support_names.size() > before) ++index;
  }
  ask_braces(walk);
}

}  // namespace underprop::survey
