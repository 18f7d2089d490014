// What is odd without being wrong.
#include "read_checks.hpp"

#include "read_fields.hpp"
#include "read_words.hpp"

#include "underprop/base/edit_distance.hpp"
#include "underprop/base/units.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace underprop::survey {
namespace {

// Where a reader should look twice. None of these enters a calculation.
constexpr double least_water_share = 0.60, most_water_share = 1.05;
constexpr Mass heavy_dry_tub = kilograms(700.0);
constexpr Mass light_dry_tub = kilograms(40.0);
constexpr Length wide_joists = mm(700.0);
constexpr Length deep_water = metres(1.5);
constexpr Length thin_joist = mm(30.0);
constexpr double steep = 0.5;

class Oddities {
public:
  explicit Oddities(const Survey& survey) : survey_(survey) {}

  std::vector<Warning> all() {
    if (survey_.recorded_on.empty()) {
      add("/recorded_on", "no date; a record holds for the day it was made: write \"recorded_on\"");
    }
    if (survey_.site.slope.is_known() && survey_.site.slope.high() > steep) {
      add("/site/slope", "the ground falls more than 1 in 2: is it written the right way round?");
    }
    for (std::size_t i = 0; i < survey_.loads.size(); ++i) load(i);
    joists();
    bearers();
    braces();
    return std::move(found_);
  }

private:
  void add(std::string pointer, std::string text) {
    found_.push_back({std::move(pointer), std::move(text)});
  }

  void load(std::size_t i) {
    const HeavyLoad& load = survey_.loads[i];
    const std::string where = place_of("/loads", i);
    const Polygon footprint = smallest_footprint(load);
    if (load.contents.is_known() && load.water_depth.is_known()) {
      const Polygon largest = largest_footprint(load);
      const double least = in_litres(area(footprint) * load.water_depth.low());
      const double most = in_litres(area(largest) * load.water_depth.high());
      if (in_litres(load.contents.low()) > most_water_share * most) {
        add(where + "/contents",
            fmt::format("{} is more than the footprint times {} of water holds ({:.0f} l): is the "
                        "volume or its unit right?",
                        write_quantity(load.contents.low()),
                        write_quantity(load.water_depth.high()), most));
      }
      if (in_litres(load.contents.high()) < least_water_share * least) {
        add(where + "/contents",
            fmt::format("{} is under 60 % of the footprint times {} of water ({:.0f} l): is the "
                        "volume to the brim or its unit right?",
                        write_quantity(load.contents.high()),
                        write_quantity(load.water_depth.low()), least));
      }
    }
    if (load.kind == LoadKind::tub && load.dry_mass.is_known()) {
      if (load.dry_mass.low() > heavy_dry_tub) {
        add(where + "/dry_mass", fmt::format("a dry tub of {} is heavy: is the water counted in?",
                                             write_quantity(load.dry_mass.low())));
      }
      if (load.dry_mass.high() < light_dry_tub) {
        add(where + "/dry_mass", fmt::format("a dry tub of {} is light: is the unit right?",
                                             write_quantity(load.dry_mass.high())));
      }
    }
    if (load.kind == LoadKind::tub && load.water_depth.is_known() &&
        load.water_depth.low() > deep_water) {
      add(where + "/water_depth", fmt::format("water {} deep is deep for a tub: is the unit right?",
                                              write_quantity(load.water_depth.low())));
    }
    const Polygon largest = largest_footprint(load);
    if (area(largest) - shared_area(survey_.deck.outline, largest) > area(largest) * 0.01) {
      add(where + "/at", "at the upper end of its sizes the load sticks out of the deck");
    }
  }

  static Polygon largest_footprint(HeavyLoad load) {
    for (Fact<Length>* side : {&load.width, &load.length, &load.diameter}) {
      if (side->is_known()) *side = side->high();
    }
    return smallest_footprint(load);
  }

  void joists() {
    for (std::size_t g = 0; g < survey_.deck.joists.size(); ++g) {
      const Joists& group = survey_.deck.joists[g];
      std::vector<Length> sorted = group.positions;
      std::ranges::sort(sorted);
      Length widest;
      for (std::size_t k = 1; k < sorted.size(); ++k) {
        widest = max(widest, sorted[k] - sorted[k - 1]);
      }
      if (widest > wide_joists) {
        add(place_of("/deck/joists", g, "positions"),
            fmt::format("joists {} apart: is one left out?", write_quantity(widest)));
      }
      if (group.breadth.is_unknown() || group.depth.is_unknown()) continue;
      if (group.breadth.low() < thin_joist || group.depth.high() < group.breadth.low()) {
        add(place_of("/deck/joists", g, "breadth"),
            "joists thinner than 30 mm or wider than deep: are breadth and depth right?");
      }
    }
  }

  void bearers() {
    for (std::size_t i = 0; i < survey_.deck.bearers.size(); ++i) {
      const Bearer& bearer = survey_.deck.bearers[i];
      const bool across = std::ranges::any_of(survey_.deck.joists, [&](const Joists& group) {
        return group.direction != bearer.direction;
      });
      if (!across) {
        add(place_of("/deck/bearers", i, "direction"),
            fmt::format("{} runs along all joists and carries none: is its direction right?",
                        quote(bearer.name)));
      }
      const bool stands = std::ranges::any_of(
          survey_.deck.supports, [&](const Supports& group) { return group.under == bearer.name; });
      if (!stands && survey_.deck.walls.empty()) {
        add(place_of("/deck/bearers", i),
            fmt::format("nothing is recorded under {}: \"supports\" with \"under\": {}?",
                        quote(bearer.name), quote(bearer.name)));
      }
    }
  }

  // "at" may be words; but a name that is nearly one is rather a slip.
  void braces() {
    std::vector<std::string_view> names;
    for (const Supports& group : survey_.deck.supports) names.push_back(group.name);
    for (std::size_t i = 0; i < survey_.deck.braces.size(); ++i) {
      const std::string& at = survey_.deck.braces[i].at;
      if (std::ranges::find(names, at) != names.end()) continue;
      const std::string_view near = nearest_word(at, names);
      if (!near.empty()) {
        add(place_of("/deck/braces", i, "at"),
            fmt::format("no support is called {}: did you mean \"{}\"?", quote(at), near));
      }
    }
  }

  const Survey& survey_;
  std::vector<Warning> found_;
};

}  // namespace

std::vector<Warning> odd_values(const Survey& survey) { return Oddities(survey).all(); }

}  // namespace underprop::survey
