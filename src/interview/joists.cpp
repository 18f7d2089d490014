// Joists, and timber without a stamp.
#include "parts.hpp"

#include "record/spoken.hpp"

#include "underprop/base/units.hpp"

#include <algorithm>
#include <array>

namespace underprop::interview {
namespace {

constexpr std::array joist_group_names{"J", "K", "M", "Q", "S"};

std::string shown_places(const Walk& walk, const std::vector<Length>& places) {
  constexpr std::size_t most_shown = 6;
  std::string text;
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (places.size() > most_shown && i == 3) {
      text += ", ...";
      i = places.size() - 1;
    }
    text += (text.empty() ? "" : ", ") + walk.show(places[i]);
  }
  return text;
}

/// A count or spacing that is wrong shows at the far edge.
std::string rest_of_deck(const Walk& walk, const std::vector<Length>& places, Length size) {
  const Length last = *std::ranges::max_element(places);
  const double spacings = interview_rule("last_joist_share");
  const Length step = places.size() > 1 ? abs(places[1] - places[0]) : size;
  if (last > size) {
    return " The last one lies outside the deck: go back, count and spacing do not fit.";
  }
  if (size - last <= spacings * step) return "";
  return " The last one stands " + walk.show(size - last) +
         " from the far edge of the deck: if one is missing, go back.";
}

}  // namespace

std::vector<Length> ask_row(Walk& walk, const std::string& id, const std::string& key,
                            const std::string& name, const std::string& list, int most, Length size,
                            const std::map<std::string, std::string>& fill) {
  const auto put_places = [&](std::vector<Length> places) {
    std::ranges::sort(places);
    OrderedJson json = OrderedJson::array();
    for (const Length place : places) json.push_back(write_quantity(place));
    if (!places.empty()) walk.put(list, std::move(json));
  };
  const int count = walk.ask({.id = id + "count",
                              .key = key + "count",
                              .form = Form::count,
                              .empty = Empty::refused,
                              .fill = fill,
                              .most = most})
                        .count;
  std::vector<Length> places;
  if (count == 0) return places;
  const Meaning first = walk.ask({.id = id + "first",
                                  .key = key + "first",
                                  .form = Form::length,
                                  .empty = Empty::refused,
                                  .fill = fill});
  const Length start = first.length.is_known() ? first.length.low() : Length();
  if (count == 1) {
    places = {start};
    put_places(places);
    return places;
  }
  const Meaning spacing = walk.ask({.id = id + "spacing",
                                    .key = key + "spacing",
                                    .form = Form::spacing,
                                    .empty = Empty::refused,
                                    .fill = fill});
  if (!walk.going()) return {};
  if (!spacing.lengths.empty()) {
    places = spacing.lengths;
  } else {
    const Length step = spacing.text == "even" || spacing.length.is_unknown()
                            ? (size - 2.0 * start) / static_cast<double>(count - 1)
                            : spacing.length.low();
    for (int i = 0; i < count; ++i) places.push_back(start + static_cast<double>(i) * step);
  }
  put_places(places);  // so that a spacing that leads outside the deck is refused at once
  std::vector<std::string> names;
  for (std::size_t i = 0; i < places.size(); ++i) names.push_back(name + std::to_string(i + 1));
  constexpr int most_exceptions = 40;
  for (int k = 1; k <= most_exceptions; ++k) {
    auto words = fill;
    words["places"] = shown_places(walk, places);
    words["row"] = name;
    words["rest"] = key == "joists/" ? rest_of_deck(walk, places, size) : std::string();
    const Meaning moved = walk.ask({.id = id + "differs/" + std::to_string(k),
                                    .key = key + "differs",
                                    .form = Form::shifted,
                                    .empty = Empty::none,
                                    .words = names,
                                    .fill = words});
    if (moved.empty || moved.length.is_unknown()) break;
    for (std::size_t i = 0; i < places.size(); ++i) {
      if (names[i] == moved.text) places[i] = moved.length.low();
    }
    put_places(places);
  }
  return places;
}

void ask_timber(Walk& walk, const std::string& object, const std::string& kind,
                const std::string& name, bool many, bool look_may_help) {
  const std::string id = (kind == "joists"    ? "joists/"
                          : kind == "ledgers" ? "fixings/"
                          : kind == "bearers" ? "carriers/"
                                              : "posts/") +
                         name + "/";
  const std::map<std::string, std::string> fill{
      {"kind", kind},
      {"name", (kind == "joists"          ? "joists "
                : kind == "supports/post" ? "posts "
                                          : "") +
                   name},
      {"be", many ? "are" : "is"},
      {"look", look_may_help ? "; \"look\": no stamp, but judge by "
                               "knots and grain"
                             : ""}};
  const std::string timber = walk.ask({.id = id + "timber",
                                       .key = "timber",
                                       .form = Form::timber,
                                       .words = look_may_help ? std::vector<std::string>{"look"}
                                                              : std::vector<std::string>{},
                                       .fill = fill})
                                 .text;
  const bool look = timber == "look";
  if (!timber.empty() && timber != "look") walk.put(object + "/timber", timber);
  std::string species;
  if (look) {
    const double knot = walk.ask({.id = id + "knot",
                                  .key = "knot",
                                  .form = Form::share,
                                  .empty = Empty::refused,
                                  .fill = fill})
                            .number;
    const double grain = walk.ask({.id = id + "grain",
                                   .key = "grain",
                                   .form = Form::grain,
                                   .empty = Empty::refused,
                                   .fill = fill})
                             .number;
    const Graded without_species =
        walk.going() ? graded(walk.standard(), knot, grain, looks(walk.standard()).back())
                     : Graded{};
    if (!without_species.grade.empty()) {
      species = walk.ask({.id = id + "look",
                          .key = "look",
                          .form = Form::word,
                          .empty = Empty::refused,
                          .words = looks(walk.standard()),
                          .fill = fill})
                    .text;
      if (walk.going()) {
        const Graded result = graded(walk.standard(), knot, grain, species);
        if (!result.timber.empty()) walk.put(object + "/timber", result.timber);
      }
    } else if (walk.going()) {
      if (!without_species.timber.empty()) walk.put(object + "/timber", without_species.timber);
      auto words = fill;
      words["name"] = name;
      words["below"] = without_species.below;
      const Meaning poor = walk.ask({.id = id + "poor",
                                     .key = "poor",
                                     .form = Form::names,
                                     .empty = Empty::refused,
                                     .fill = words});
      for (const std::string& piece : poor.names) {
        const std::string at = "/deck/condition/" + std::to_string(walk.conditions++);
        walk.put(at + "/defect", "missing");
        walk.put(at + "/piece", piece == "all" ? name : piece);
      }
    }
  }
  if (walk.standard() != record::StandardId::north_america_us) return;
  if (species == "pale with slits") {
    walk.put(object + "/incised", true);
    return;
  }
  walk.ask_into(object + "/incised", {.id = id + "incised", .key = "incised", .fill = fill});
}

/// Second pieces along joists, each kind of them once.
void ask_sisters(Walk& walk) {
  int single = 0;
  const std::string& first = walk.joist_names.front();
  std::vector<std::string> names;
  for (const OrderedJson& group : walk.survey().at("deck").at("joists")) {
    const std::size_t count = group.contains("positions") ? group.at("positions").size() : 0;
    for (std::size_t i = 1; i <= count; ++i) {
      names.push_back(group.at("name").get<std::string>() + std::to_string(i));
    }
  }
  constexpr int most_kinds = 20;
  for (int k = 1; k <= most_kinds && walk.going(); ++k) {
    const std::string id = "joists/sisters/" + std::to_string(k) + "/";
    const std::map<std::string, std::string> fill{
        {"name", first}, {"more", k == 1 ? "" : "other "}, {"kind", "joists"}, {"be", "are"}};
    const Meaning which = walk.ask({.id = id + "joists",
                                    .key = "sisters/joists",
                                    .form = Form::names,
                                    .empty = Empty::none,
                                    .words = names,
                                    .fill = fill});
    if (which.empty || which.text == "none" || !walk.going()) return;
    const Meaning timber = walk.ask({.id = id + "timber",
                                     .key = "sisters/timber",
                                     .form = Form::timber,
                                     .empty = Empty::none,
                                     .fill = fill});
    if (timber.empty) continue;  // of no known strength: it counts for nothing
    const Meaning size = walk.ask(
        {.id = id + "size", .key = "sisters/size", .form = Form::section, .empty = Empty::refused});
    const bool incised = walk.standard() == record::StandardId::north_america_us &&
                         walk.ask({.id = id + "incised",
                                   .key = "sisters/incised",
                                   .form = Form::yes_or_no,
                                   .empty = Empty::refused})
                                 .text == "yes";
    if (!walk.going()) return;
    for (const std::string& joist : which.names) {
      const std::string object = "/deck/sisters/" + std::to_string(single++);
      walk.put(object + "/joist", joist);
      walk.put(object + "/timber", timber.text);
      if (incised) walk.put(object + "/incised", true);
      // One size is all that the format holds: the smaller counts.
      walk.put(object + "/breadth", write_quantity(size.length.low()));
      walk.put(object + "/depth", write_quantity(size.second.low()));
    }
  }
}

void ask_joists(Walk& walk) {
  const int kinds = walk.ask({.id = "joists/kinds",
                              .key = "joists/kinds",
                              .form = Form::count,
                              .empty = Empty::refused,
                              .most = static_cast<int>(joist_group_names.size())})
                        .count;
  for (int k = 0; k < std::max(kinds, walk.going() ? 1 : 0); ++k) {
    const std::string name = joist_group_names[static_cast<std::size_t>(k)];
    const std::string object = "/deck/joists/" + std::to_string(k);
    const std::string id = "joists/" + name + "/";
    std::map<std::string, std::string> fill{{"name", name}};
    fill["called"] = (kinds > 1 ? "the joists of kind " + std::to_string(k + 1) + ", called " + name
                                : "the joists, called " + name) +
                     " here (" + name + "1 is the one nearest to corner A)";
    walk.put(object + "/name", name);
    if (k == 0) {
      walk.put(object + "/direction", walk.axis_along);
    }
    std::string along = walk.axis_along;
    if (k > 0) {
      along = walk.ask_into(object + "/direction", {.id = id + "direction",
                                                    .key = "joists/direction",
                                                    .empty = Empty::refused,
                                                    .fill = fill})
                  .text;
    }
    fill["along"] = along;
    fill["across"] = along == "x" ? "y" : "x";
    walk.ask_section_into(object, "breadth", "depth",
                          {.id = id + "size",
                           .key = "joists/size",
                           .empty = Empty::range,
                           .fill = fill,
                           .table = "joists/breadth joists/depth"});
    // Kinds may share a line, one behind the other: where they end comes before where they stand.
    if (kinds > 1) {
      for (const char* end : {"from", "to"}) {
        walk.ask_into(object + "/" + end, {.id = id + end,
                                           .key = std::string("joists/") + end,
                                           .empty = Empty::none,
                                           .fill = fill});
      }
    }
    (void)ask_row(walk, id, "joists/", name, object + "/positions", 400,
                  along == "x" ? walk.size_y : walk.size_x, fill);
    if (!walk.going()) return;
    walk.joist_names.push_back(name);
    ask_timber(walk, object, "joists", name, true, true);
  }
  if (walk.going()) ask_sisters(walk);
}

}  // namespace underprop::interview
