#include "resolve_parts.hpp"

#include "catalog/table.hpp"
#include "record/words.hpp"
#include "underprop/record/standard_facts.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace underprop::deck {
namespace {

Length rule(std::string_view name) { return mm(record::resolving_rule(name).number); }
Length scope_figure(const char* name) {
  return mm(catalog::table("scope.json").at(name).at("value").get<double>());
}

// What the soil under the footings says of itself.
/// Sand, gravel and rock neither shrink nor, clean as they are named, swell.
bool cannot_shrink(record::Soil soil) {
  return soil == record::Soil::loose_sand || soil == record::Soil::medium_sand ||
         soil == record::Soil::dense_sand || soil == record::Soil::gravel ||
         soil == record::Soil::rock;
}
/// What a heel would tell, the name of the soil has told: each has its own bearing pressure. Topsoil goes
/// from firm to hardly any.
bool bears_a_heel(record::Soil soil) { return soil != record::Soil::topsoil; }
/// Below water sand and gravel carry about half; clay is named as the thumb found it, wet or not
/// (BS 8004:1986 Table 1 with its note on water in sand, from memory).
bool loses_in_water(record::Soil soil) {
  return soil != record::Soil::soft_clay && soil != record::Soil::firm_clay &&
         soil != record::Soil::stiff_clay && soil != record::Soil::rock;
}
bool on_the_surface(const record::Footing& footing) {
  return footing.kind.is_value() && (footing.kind.value() == record::FootingKind::laid_slab ||
                                     footing.kind.value() == record::FootingKind::deck_block);
}

/// Is any footing, however large it may be, nearer to the line than this? Walls below joists count as
/// near: their footings are long.
bool near_a_footing(const record::Survey& survey, const Layout& layout,
                    const record::GroundLine& line, Length reach) {
  if (!survey.deck.walls.empty()) return true;
  return std::ranges::any_of(layout.supports, [&](const SupportPlace& place) {
    const record::Footing& footing =
        survey.deck.supports[static_cast<std::size_t>(place.source)].footing;
    // From the middle of the footing to a corner of it.
    const Length half = footing.width.is_known() && footing.length.is_known()
                            ? 0.5 * (footing.width.high() + footing.length.high())
                            : metres(1.0);
    return distance_to_segment(place.at, line.from, line.to) < reach + half;
  });
}

// An unknown that, in a cautious reading, puts the deck outside what may be judged. The deck gets the
// harmless value and the fear beside it.
class Fears {
public:
  Fears(FactTaker& facts, Site& site) : facts_(facts), site_(site) {}

  void add(const std::string& field, std::string_view kind, const std::string& words) {
    facts_.list(field, kind);
    if (facts_.reading_of(field) == record::Reading::cautious)
      site_.feared.emplace_back(field, words);
  }
  template <class T>
  void value(const Fact<T>& fact, T& resolved, const std::string& field, std::string_view kind,
             const std::string& words) {
    if (fact.is_known()) {
      resolved = fact.is_value() ? fact.value() : facts_.take(fact, field, kind);
    } else {
      add(field, kind, words);
    }
  }
  template <class T>
  void seen(const record::Seen<T>& what, std::vector<T>& resolved, const std::string& field,
            std::string_view kind, const std::string& words) {
    resolved = what.items;
    if (!what.looked && what.items.empty()) add(field, kind, words);
  }

  /// Lines with their heights; one that nobody measured is asked for only within `reach` of a footing.
  template <class Reach>
  void lines(const record::Survey& survey, const Layout& layout,
             const record::Seen<record::GroundLine>& what, std::vector<GroundLine>& resolved,
             const std::string& field, std::string_view kind, std::string_view height_kind,
             const std::string& words, Reach&& reach) {
    for (std::size_t i = 0; i < what.items.size(); ++i) {
      const record::GroundLine& line = what.items[i];
      const std::string own = field + "/" + std::to_string(i) + "/height";
      const Length worst = facts_.quiet<Length>(height_kind, record::Reading::cautious);
      const bool asked =
          line.height.is_value() || near_a_footing(survey, layout, line, reach(worst));
      resolved.push_back({line.name, line.from, line.to,
                          asked ? facts_.take(line.height, own, height_kind) : worst});
    }
    if (!what.looked && what.items.empty()) add(field, kind, words);
  }

private:
  FactTaker& facts_;
  Site& site_;
};

/// Does frost lift ground of this sort? Of ground that nobody looked at only at its best not.
bool heaves(const std::optional<record::Soil>& soil, record::Reading unknown) {
  if (!soil) return unknown != record::Reading::favourable;
  const auto& still = catalog::table("scope.json").at("no_frost_heave").at("value");
  return std::find(still.begin(), still.end(), record::word_of(*soil)) == still.end();
}

}  // namespace

Site resolve_site(const record::Survey& survey, const Layout& layout, FactTaker& facts) {
  const record::Site& site = survey.site;
  Site result;
  Fears fears(facts, result);
  fears.value(site.use, result.use, "/site/use", "site/use", "shared or public use");
  const auto lower_than = [&](std::string_view name) {
    return survey.deck.height.is_known() && survey.deck.height.high() <= rule(name);
  };
  // What cannot be is not asked: nobody sits below a low deck, and none stands below it.
  if (site.storeys.is_known() || !lower_than("storeys/least_height")) {
    fears.value(site.storeys, result.storeys, "/site/storeys", "site/storeys",
                "another deck above or below");
  }
  if (site.space_below.is_known() || !lower_than("space_below/least_height")) {
    fears.value(site.space_below, result.space_below, "/site/space_below", "site/space_below",
                "a used space underneath");
  }
  const bool low =
      survey.deck.height.is_known() &&
      survey.deck.height.high() <= mm(record::resolving_rule("feared/height_seismic").number);
  if (record::facts_of(survey.standard).seismic && !low) {
    fears.value(site.seismic_category, result.seismic_category, "/site/seismic_category",
                "site/seismic_category", "seismic design category C or higher");
  } else {
    result.seismic_category = site.seismic_category.value_or("");
  }
  if (site.soil.is_value()) {
    result.soil = site.soil.value();
  } else {
    facts.list("/site/soil", "site/soil");
  }
  if (site.heel_marks.is_known() || !result.soil || !bears_a_heel(*result.soil)) {
    fears.value(site.heel_marks, result.heel_marks, "/site/heel_marks", "site/heel_marks",
                "ground that a heel marks");
  }
  // No hole is dug below slabs that lie on the surface.
  const bool holes = !survey.deck.walls.empty() ||
                     std::ranges::any_of(survey.deck.supports, [](const record::Supports& group) {
                       return !on_the_surface(group.footing);
                     });
  if (site.water_in_hole.is_known() || (holes && (!result.soil || loses_in_water(*result.soil)))) {
    result.water_in_hole =
        facts.take(site.water_in_hole, "/site/water_in_hole", "site/water_in_hole");
  }
  // Shrinkable clay matters only near trees, and trees only on shrinkable clay; sand does not shrink.
  const bool no_trees = site.trees.looked && site.trees.items.empty();
  const bool no_clay =
      (site.shrinkable_clay.is_value() && !site.shrinkable_clay.value()) ||
      (site.shrinkable_clay.is_unknown() && result.soil && cannot_shrink(*result.soil));
  if (no_trees || no_clay) {
    result.shrinkable_clay = site.shrinkable_clay.value_or(false);
  } else {
    fears.value(site.shrinkable_clay, result.shrinkable_clay, "/site/shrinkable_clay",
                "site/shrinkable_clay", "shrinkable clay within a tree's height");
  }
  fears.value(site.fill, result.fill, "/site/fill", "site/fill", "fill younger than ten years");
  fears.value(site.slope, result.slope, "/site/slope", "site/slope",
              "ground steeper than 1 in 6 within 2 m");
  // Frost is a question of strength only where the house holds the deck and the ground lifts it.
  const Length frost = facts.quiet<Length>("site/frost_depth", record::Reading::cautious);
  const bool shallow =
      std::ranges::any_of(survey.deck.supports, [&](const record::Supports& group) {
        return !group.footing.depth.is_known() || group.footing.depth.low() < frost;
      });
  result.frost_heaves = heaves(result.soil, facts.reading_of("/site/soil"));
  result.frost_recorded = site.frost_depth.is_value();
  const bool held_by_house = !survey.deck.ledgers.empty();
  result.frost_depth = result.frost_heaves && held_by_house && shallow
                           ? facts.take(site.frost_depth, "/site/frost_depth", "site/frost_depth")
                           : facts.peek(site.frost_depth, "/site/frost_depth", "site/frost_depth");
  const auto within = [](const char* least, const char* times) {
    return [=](Length height) {
      return max(scope_figure(least),
                 height * catalog::table("scope.json").at(times).at("value").get<double>());
    };
  };
  const auto by_wall = within("retaining_wall_mm", "retaining_wall_heights");
  fears.lines(survey, layout, site.retaining_walls, result.retaining_walls, "/site/retaining_walls",
              "site/retaining_walls", "site/retaining_walls/height",
              "a retaining or basement wall near a loaded pad", by_wall);
  fears.lines(survey, layout, site.house_walls, result.house_walls, "/site/house_walls",
              "site/house_walls", "site/house_walls/depth", "a house wall near a loaded pad",
              [](Length) { return scope_figure("house_wall_mm"); });
  fears.lines(survey, layout, site.drains, result.drains, "/site/drains", "site/drains",
              "site/drains/depth", "a drain under or near a loaded pad",
              [](Length depth) { return depth; });
  const auto looked = [](const auto& seen) { return seen.looked || !seen.items.empty(); };
  const int walked = static_cast<int>(site.slope.is_known()) + looked(site.retaining_walls) +
                     looked(site.house_walls) + looked(site.drains) + looked(site.trees);
  const bool walked_round =
      walked >= static_cast<int>(record::resolving_rule("walked_round/least").number);
  if (looked(site.ponds) || !walked_round)
    fears.lines(survey, layout, site.ponds, result.ponds, "/site/ponds", "site/ponds",
                "site/ponds/depth", "a pond or pool near a loaded pad", by_wall);
  if (no_clay) {
    result.trees = site.trees.items;
  } else {
    fears.seen(site.trees, result.trees, "/site/trees", "site/trees",
               "a tree nearer than its height on shrinkable clay");
  }
  result.shear_strength = site.shear_strength;
  result.ground_pressure = site.ground_pressure;
  result.imposed_load = site.imposed_load;
  // In Britain none is counted unless it is recorded; elsewhere nobody has looked until somebody has.
  if (site.snow_load.is_known() || record::facts_of(survey.standard).snow_asked) {
    result.snow_load = facts.take(site.snow_load, "/site/snow_load", "site/snow_load");
  }
  result.concentrated_load = site.concentrated_load;
  if (site.roof_or_screen.is_known() || !walked_round)
    fears.value(site.roof_or_screen, result.roof_or_screen, "/site/roof_or_screen",
                "site/roof_or_screen", "a roof or screen that catches wind");
  return result;
}

}  // namespace underprop::deck
