#include "resolve_parts.hpp"

#include "catalog/table.hpp"
#include "record/words.hpp"
#include "underprop/record/standard_facts.hpp"

#include <nlohmann/json.hpp>

namespace underprop::deck {
namespace {

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

Site resolve_site(const record::Survey& survey, FactTaker& facts) {
  const record::Site& site = survey.site;
  Site result;
  Fears fears(facts, result);
  fears.value(site.use, result.use, "/site/use", "site/use", "shared or public use");
  fears.value(site.storeys, result.storeys, "/site/storeys", "site/storeys",
              "another deck above or below");
  fears.value(site.space_below, result.space_below, "/site/space_below", "site/space_below",
              "a used space underneath");
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
  fears.value(site.heel_marks, result.heel_marks, "/site/heel_marks", "site/heel_marks",
              "ground that a heel marks");
  result.water_in_hole =
      facts.take(site.water_in_hole, "/site/water_in_hole", "site/water_in_hole");
  // Shrinkable clay matters only near trees, and trees only on shrinkable clay.
  const bool no_trees = site.trees.looked && site.trees.items.empty();
  const bool no_clay = site.shrinkable_clay.is_value() && !site.shrinkable_clay.value();
  if (no_trees) {
    result.shrinkable_clay = site.shrinkable_clay.value_or(false);
  } else {
    fears.value(site.shrinkable_clay, result.shrinkable_clay, "/site/shrinkable_clay",
                "site/shrinkable_clay", "shrinkable clay within a tree's height");
  }
  fears.value(site.fill, result.fill, "/site/fill", "site/fill", "fill younger than ten years");
  fears.value(site.slope, result.slope, "/site/slope", "site/slope",
              "ground steeper than 1 in 6 within 2 m");
  // Frost lifts what stands on silt or clay, and tears only a deck that the house holds as well: elsewhere
  // its depth is no question.
  result.frost_heaves = heaves(result.soil, facts.reading_of("/site/soil"));
  result.frost_recorded = site.frost_depth.is_value();
  const bool held_by_house = !survey.deck.ledgers.empty();
  result.frost_depth = result.frost_heaves && held_by_house
                           ? facts.take(site.frost_depth, "/site/frost_depth", "site/frost_depth")
                           : facts.peek(site.frost_depth, "/site/frost_depth", "site/frost_depth");
  fears.seen(site.retaining_walls, result.retaining_walls, "/site/retaining_walls",
             "site/retaining_walls", "a retaining or basement wall near a loaded pad");
  fears.seen(site.house_walls, result.house_walls, "/site/house_walls", "site/house_walls",
             "a house wall near a loaded pad");
  fears.seen(site.drains, result.drains, "/site/drains", "site/drains",
             "a drain under or near a loaded pad");
  fears.seen(site.ponds, result.ponds, "/site/ponds", "site/ponds",
             "a pond or pool near a loaded pad");
  if (no_clay) {
    result.trees = site.trees.items;
  } else {
    fears.seen(site.trees, result.trees, "/site/trees", "site/trees",
               "a tree nearer than its height on shrinkable clay");
  }
  result.imposed_load = site.imposed_load;
  result.snow_load = site.snow_load;
  result.concentrated_load = site.concentrated_load;
  fears.value(site.roof_or_screen, result.roof_or_screen, "/site/roof_or_screen",
              "site/roof_or_screen", "a roof or screen that catches wind");
  return result;
}

}  // namespace underprop::deck
