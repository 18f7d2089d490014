#include "heights.hpp"

#include "record/said.hpp"

#include "underprop/base/geometry.hpp"
#include "underprop/record/facts.hpp"
#include "underprop/record/standard_facts.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::deck {
namespace {

// The one depth of these joists; none where it is open or they differ.
std::optional<Length> depth_of_joists(const record::Survey& survey, const std::string& only) {
  std::optional<Length> depth;
  for (const record::Joists& group : survey.deck.joists) {
    if (group.added || (!only.empty() && only.rfind(group.name, 0) != 0)) continue;
    if (!group.depth.is_value()) return std::nullopt;
    if (depth && !(*depth == group.depth.value())) return std::nullopt;
    depth = group.depth.value();
  }
  return depth;
}

}  // namespace

HeightChain height_chain(const record::Survey& survey, const record::Supports& group) {
  HeightChain chain;
  const record::DeckRecord& deck = survey.deck;
  if (!deck.height.is_value() || !deck.boards.thickness.is_value() || deck.outline.size() < 3)
    return chain;
  const UnitSystem units = record::facts_of(survey.standard).units;
  chain.words = "the surface, " + record::said(units, deck.height.value()) + " over ground";
  std::string separator = ", less ";
  const auto take = [&](const char* what, Length height) {
    chain.pieces += height;
    chain.words += separator + what + " " + record::said(units, height);
    separator = ", ";
  };
  take("boards", deck.boards.thickness.value());
  const auto bearer =
      std::ranges::find_if(deck.bearers, [&](const auto& b) { return b.name == group.under; });
  const bool flush = bearer != deck.bearers.end() && bearer->joists == record::JoistsSit::flush;
  if (!flush) {  // a flush bearer's top is that of the joists
    const auto joists =
        depth_of_joists(survey, bearer == deck.bearers.end() ? group.under : std::string());
    if (!joists) return chain;
    take("joist", *joists);
  }
  if (bearer != deck.bearers.end()) {
    if (!bearer->depth.is_value()) return chain;
    take("bearer", bearer->depth.value());
  }
  if (group.post) take("post", group.post->height);
  const double packers = group.packers.is_known()
                             ? group.packers.high()
                             : record::fact_kind("supports/packers")
                                   .value(survey.standard, record::Reading::cautious)
                                   .number;
  chain.packers = packers * mm(record::resolving_rule("heights/packer").number);
  const Interval x = extent(deck.outline, Axis::x), y = extent(deck.outline, Axis::y);
  const double slope = survey.site.slope.is_known() ? survey.site.slope.high() : 0.0;
  chain.rise = slope * mm(std::hypot((x.high - x.low).value(), (y.high - y.low).value()));
  chain.top = deck.height.value() - chain.pieces;
  return chain;
}

std::optional<HeightMiss> height_miss(const record::Survey& survey, const record::Supports& group) {
  const record::Footing& footing = group.footing;
  const HeightChain chain = height_chain(survey, group);
  if (!chain.top || !footing.kind.is_value() ||
      footing.kind.value() == record::FootingKind::strip ||
      footing.kind.value() == record::FootingKind::screw_pile ||
      footing.kind.value() == record::FootingKind::unknown) {
    return std::nullopt;
  }
  const bool measured = footing.thickness.is_known() && footing.depth.is_known();
  if (!measured && footing.kind.value() == record::FootingKind::deck_block) return std::nullopt;
  const Length none{};
  // Soil may cover a footing, and concrete may stand between a spread pad and the ground's level.
  const Length highest =
      measured ? max(footing.thickness.high() - footing.depth.low(), none) : none;
  const Length lowest =
      measured ? min(footing.thickness.low() - footing.depth.high(), none)
               : none - (footing.depth.is_known() ? footing.depth.high() : metres(10.0));
  const Length over = *chain.top - highest - chain.rise - chain.packers;
  const Length under = lowest - *chain.top;
  const UnitSystem units = record::facts_of(survey.standard).units;
  const auto told = [units](Length length) {  // differences, as a tape would show them
    return record::said(units, mm(std::round(10.0 * in_mm(length)) / 10.0));
  };
  const bool hangs = over > under;
  return HeightMiss{
      max(over, under),
      "heights that do not add up: " + chain.words + ", together " + told(chain.pieces) +
          ", leaves the footings " + group.name + " " +
          (hangs ? told(*chain.top) + " over ground" : told(none - *chain.top) + " below ground") +
          (measured ? ", but their top is recorded at " +
                          told(footing.thickness.high() - footing.depth.low()) +
                          " (thickness less depth)"
                    : "")};
}

}  // namespace underprop::deck
