// Outlines, lines on the ground, and the loads on the deck.
#include "read_checks.hpp"

#include "record/limits.hpp"
#include "record/words.hpp"

#include "underprop/base/region.hpp"
#include "underprop/base/units.hpp"

#include <fmt/format.h>

#include <cmath>

namespace underprop::deck {
namespace {

// How far a footprint may stick out before it counts: rounding when a tape is read.
constexpr Length sticking_out = mm(2.0);

bool all_on_one_line(const std::vector<Point>& corners) {
  for (std::size_t i = 2; i < corners.size(); ++i) {
    if (signed_area({corners[0], corners[1], corners[i]}) != Area()) return false;
  }
  return true;
}

/// True if the outline is good; reports what is wrong with it.
bool check_outline(const std::vector<Point>& outline, const std::string& pointer,
                   ErrorList& errors) {
  if (reported(errors, pointer) || outline.size() < 3) return false;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const std::size_t next = (i + 1) % outline.size();
    if (outline[i] == outline[next]) {
      errors.add(child_pointer(pointer, next),
                 fmt::format("the same corner as {}", child_pointer(pointer, i)),
                 "each corner once, the first not repeated at the end", "delete it");
      return false;
    }
  }
  const bool flat = all_on_one_line(outline);
  if (!flat && is_simple(outline) && area(outline) > Area(1.0)) return true;
  errors.add(pointer,
             flat ? "corners on one line, which enclose nothing"
                  : "an outline that crosses or touches itself",
             "corners in order round the edge, either way",
             flat ? "measure the other corners as well" : "put the corners in order");
  return false;
}

void check_lines(const record::Survey& survey, ErrorList& errors) {
  const auto all = [&](std::string_view list, const auto& items) {
    for (std::size_t i = 0; i < items.size(); ++i) {
      if (reported(errors, place_of(list, i)) || !(items[i].from == items[i].to)) continue;
      errors.add(place_of(list, i, "to"),
                 fmt::format("the same point as {}", place_of(list, i, "from")),
                 "a line from one point to another", "correct one of the two");
    }
  };
  all("/site/retaining_walls", survey.site.retaining_walls.items);
  all("/site/house_walls", survey.site.house_walls.items);
  all("/site/drains", survey.site.drains.items);
  all("/site/ponds", survey.site.ponds.items);
  all("/deck/walls", survey.deck.walls);
}

std::string words(record::Shape shape) {
  return fmt::format("\"{}\"", record::written_word(shape));
}

void check_corner_radius(const record::HeavyLoad& load, const std::string& where,
                         ErrorList& errors) {
  const std::string pointer = where + "/corner_radius";
  if (load.corner_radius == Length() || reported(errors, pointer)) return;
  if (load.shape != record::Shape::rectangle) {
    errors.add(pointer,
               fmt::format("\"corner_radius\" for a load of the shape {} ({}/shape)",
                           words(load.shape), where),
               "\"corner_radius\" only for the shape \"rectangle\"",
               "delete it, or correct the shape");
    return;
  }
  if (load.width.is_unknown() || load.length.is_unknown()) return;
  const Length most = 0.5 * min(load.width.low(), load.length.low());
  if (load.corner_radius > most) {
    errors.add(
        pointer,
        fmt::format("a corner radius of {}", record::said(errors.units(), load.corner_radius)),
        fmt::format("at most half the shorter side, {}", record::said(errors.units(), most)),
        "measure from where the sides would meet to where a corner begins");
  }
}

void check_shape(const record::HeavyLoad& load, const std::string& where, ErrorList& errors) {
  if (reported(errors, where + "/shape")) return;
  const auto need = [&](const char* key, const Fact<Length>& fact, record::Shape shape) {
    const std::string pointer = fmt::format("{}/{}", where, key);
    if (reported(errors, pointer)) return;
    if (load.shape == shape && fact.is_unknown()) {
      errors.add(pointer, fmt::format("no \"{}\" for a load of the shape {}", key, words(shape)),
                 "a length or a range; the footprint must be known",
                 "measure it; it decides where the weight lands");
    }
    if (load.shape != shape && fact.is_known()) {
      errors.add(pointer,
                 fmt::format("\"{}\" for a load of the shape {} ({}/shape)", key, words(load.shape),
                             where),
                 fmt::format("\"{}\" only for the shape {}", key, words(shape)),
                 "delete it, or correct the shape");
    }
  };
  need("width", load.width, record::Shape::rectangle);
  need("length", load.length, record::Shape::rectangle);
  need("diameter", load.diameter, record::Shape::circle);
  check_corner_radius(load, where, errors);
  const std::string outline = where + "/outline";
  if (load.shape == record::Shape::polygon) {
    if (load.outline.size() < 3 && !reported(errors, outline)) {
      errors.add(outline, fmt::format("{} corners", load.outline.size()),
                 "three or more; the footprint must be known",
                 "measure its corners; they decide where the weight lands");
    } else {
      check_outline(load.outline, outline, errors);
    }
  } else if (!load.outline.empty()) {
    errors.add(
        outline,
        fmt::format("an outline for a load of the shape {} ({}/shape)", words(load.shape), where),
        "an outline only for the shape \"polygon\"", "delete it, or correct the shape");
  }
}

// Litres of a thing that holds neither water nor soil would count as water: too little for stone, too
// much for a store.
void check_contents(const record::HeavyLoad& load, const std::string& where, ErrorList& errors) {
  if (reported(errors, where + "/kind")) return;
  const bool holds = load.kind == record::LoadKind::tub ||
                     load.kind == record::LoadKind::plunge_pool ||
                     load.kind == record::LoadKind::water_tank ||
                     load.kind == record::LoadKind::planter || load.kind == record::LoadKind::other;
  const auto refuse = [&](const char* key) {
    errors.add(
        fmt::format("{}/{}", where, key),
        fmt::format("\"{}\" of the kind \"{}\" ({}/kind), which holds no water", key,
                    record::written_word(load.kind), where),
        fmt::format("\"{}\" only for a tub, plunge pool, water tank, planter or other thing", key),
        "write what is in it as \"contents_mass\", or correct the kind");
  };
  if (!holds && load.contents.is_known() && load.contents.high() > Volume(0.0)) refuse("contents");
  if (!holds && load.water_depth.is_known() && load.water_depth.high() > Length()) {
    refuse("water_depth");
  }
}

void check_base(const record::HeavyLoad& load, const std::string& where, ErrorList& errors) {
  const bool runners = load.base.is_value() && load.base.value() == record::BaseKind::runners;
  const bool feet = load.base.is_value() && load.base.value() == record::BaseKind::feet;
  const auto pair = [&](const char* key, bool there, bool wanted, const char* base) {
    const std::string pointer = fmt::format("{}/{}", where, key);
    if (reported(errors, pointer) || reported(errors, where + "/base")) return;
    if (wanted && !there) {
      errors.add(pointer, fmt::format("the key \"{}\" is missing", key),
                 fmt::format("\"{}\", as \"base\" ({}/base) is \"{}\"", key, where, base),
                 "look below the load, or write \"base\": \"unknown\"");
    }
    if (!wanted && there) {
      errors.add(pointer,
                 fmt::format("\"{}\" where \"base\" ({}/base) is {}", key, where,
                             load.base.is_value()
                                 ? fmt::format("\"{}\"", record::written_word(load.base.value()))
                                 : std::string("not known")),
                 fmt::format("\"{}\" only where \"base\" is \"{}\"", key, base),
                 "correct \"base\", or delete it");
    }
  };
  pair("runners", load.runners > 0, runners, "runners");
  pair("runner_width", load.runner_width > Length(), runners, "runners");
  pair("feet", !load.feet.empty(), feet, "feet");
  pair("foot_size", load.foot_size > Length(), feet, "feet");
  if (feet && !load.feet.empty() && load.feet.size() < 3 && !reported(errors, where + "/feet")) {
    errors.add(where + "/feet", fmt::format("{} feet", load.feet.size()), "three or more",
               "record every foot");
  }
}

// The unturned footprint about the load's own origin, smallest sizes.
Polygon local_footprint(const record::HeavyLoad& load) {
  if (load.shape == record::Shape::polygon) return load.outline;
  if (load.shape == record::Shape::circle) {
    return load.diameter.is_known() ? circle(load.diameter.low()) : Polygon();
  }
  if (load.width.is_unknown() || load.length.is_unknown()) return {};
  // With its round corners drawn as on a circle of 64 sides.
  return polygon_of(rounded_rectangle(load.width.low(), load.length.low(), load.corner_radius),
                    360.0 / 64.0);
}

Length around(const Polygon& polygon) {
  Length sum;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    sum += distance(polygon[i], polygon[(i + 1) % polygon.size()]);
  }
  return sum;
}

void check_feet(const record::HeavyLoad& load, const std::string& where, ErrorList& errors) {
  const Polygon local = local_footprint(load);
  if (local.empty() || reported(errors, where)) return;
  for (std::size_t k = 0; k < load.feet.size(); ++k) {
    const Polygon foot = place(rectangle(load.foot_size, load.foot_size), 0.0, load.feet[k]);
    if (area(foot) - shared_area(foot, local) <= around(foot) * sticking_out) continue;
    errors.add(child_pointer(where + "/feet", k), "a foot that stands outside the footprint",
               "feet within the load's shape, measured from its centre", "measure it again");
  }
  if (load.runners > 1 && !load.base.is_unknown()) {
    const Interval across = extent(local, load.runners_along == Axis::x ? Axis::y : Axis::x);
    if (across.high - across.low < load.runners * load.runner_width) {
      errors.add(where + "/runner_width",
                 fmt::format("{} runners of {} under a load {} wide", load.runners,
                             record::said(errors.units(), load.runner_width),
                             record::said(errors.units(), across.high - across.low)),
                 "runners that fit beside each other", "measure them again");
    }
  }
}

}  // namespace

Area shared_area(const Polygon& a, const Polygon& b) {
  // b as a fan of triangles, each with the sign of its turn: their shares of a add up to that of b.
  Area sum;
  for (std::size_t i = 1; i + 1 < b.size(); ++i) {
    const Polygon triangle{b[0], b[i], b[i + 1]};
    const Area turn = signed_area(triangle);
    if (turn == Area()) continue;
    const Area part = area(clip_convex(a, triangle));
    sum += turn < Area() ? -part : part;
  }
  return abs(sum);
}

Polygon smallest_footprint(const record::HeavyLoad& load) {
  return place(local_footprint(load), load.rotation_deg, load.at);
}

void check_outlines(const record::Survey& survey, ErrorList& errors) {
  (void)check_outline(survey.deck.outline, "/deck/outline", errors);
  const auto zones = [&](std::string_view list, const std::vector<record::Zone>& items) {
    for (std::size_t i = 0; i < items.size(); ++i) {
      (void)check_outline(items[i].outline, place_of(list, i, "outline"), errors);
    }
  };
  zones("/deck/obstacles", survey.deck.obstacles);
  zones("/deck/closed_zones", survey.deck.closed_zones);
  check_lines(survey, errors);
}

void check_loads(const record::Survey& survey, ErrorList& errors) {
  const bool deck_known = !reported(errors, "/deck/outline") && survey.deck.outline.size() >= 3;
  std::vector<Polygon> footprints;
  for (std::size_t i = 0; i < survey.loads.size(); ++i) {
    const record::HeavyLoad& load = survey.loads[i];
    const std::string where = place_of("/loads", i);
    footprints.emplace_back();
    check_shape(load, where, errors);
    check_base(load, where, errors);
    check_contents(load, where, errors);
    const bool mass_told = reported(errors, where + "/dry_mass") ||
                           reported(errors, where + "/contents") ||
                           reported(errors, where + "/contents_mass");
    if (load.dry_mass.is_unknown() && load.contents.is_unknown() &&
        load.contents_mass.is_unknown() && !mass_told) {
      errors.add(where, "a load of which nothing says what it weighs",
                 "at least one of \"dry_mass\", \"contents\" and \"contents_mass\"",
                 "read the data plate or the maker's sheet, or measure how much it holds");
    }
    if (reported(errors, where)) continue;
    check_feet(load, where, errors);
    footprints.back() = smallest_footprint(load);
    const Polygon& footprint = footprints.back();
    if (deck_known) {
      const Area outside = area(footprint) - shared_area(survey.deck.outline, footprint);
      if (outside > around(footprint) * sticking_out) {
        errors.add(where + "/at",
                   fmt::format("{} sticks out of the deck by {:.2f} of {:.2f} m2", quote(load.name),
                               in_square_metres(outside), in_square_metres(area(footprint))),
                   "a footprint inside the deck's outline (/deck/outline)",
                   "move, turn or measure it again; \"at\" is its centre");
      }
    }
    for (std::size_t k = 0; k < i; ++k) {
      if (shared_area(footprint, footprints[k]) <= around(footprint) * sticking_out) continue;
      errors.add(where + "/at",
                 fmt::format("{} stands on the same place as {} ({})", quote(load.name),
                             quote(survey.loads[k].name), place_of("/loads", k, "at")),
                 "loads beside each other", "move one of the two");
    }
  }
}

}  // namespace underprop::deck
