// Supports with their posts and footings, and walls.
#include "resolve_parts.hpp"

#include <algorithm>
#include <tuple>

namespace underprop::deck {
namespace {

Post resolve_post(const record::Post& record, const std::string& prefix, FactTaker& facts) {
  Post post;
  post.breadth = record.breadth;
  post.depth = record.depth;
  post.height = record.height;
  const bool large =
      min(record.breadth, record.depth) >= mm(record::resolving_rule("post/large").number);
  post.timber =
      facts.take_timber(record.timber, prefix + "timber",
                        large ? "supports/post/timber_large" : "supports/post/timber", large);
  post.incised = record.incised.is_unknown() && !may_be_incised(facts.standard(), record.timber)
                     ? false
                     : facts.take(record.incised, prefix + "incised", "supports/post/incised");
  post.bearer_on_top = facts.take(record.bearer, prefix + "bearer", "supports/post/bearer") ==
                       record::BearerOnPost::on_top;
  if (post.bearer_on_top) {
    post.bolts = record.bolts.is_known() ? record.bolts.low() : 0;
    post.bolt_diameter = record.bolt_diameter.is_known() ? record.bolt_diameter.low() : Length();
  } else {
    post.bolts = facts.take(record.bolts, prefix + "bolts", "supports/post/bolts");
    post.bolt_diameter =
        facts.take(record.bolt_diameter, prefix + "bolt_diameter", "supports/post/bolt_diameter");
  }
  // Only a foot recorded as fixed is: unknown is pinned in every reading, and so not an open fact.
  post.base_fixed = record.base.value_or(record::PostBase::pinned) == record::PostBase::fixed;
  post.held_down = record.held_down;
  post.hold_down_capacity = record.hold_down_capacity;
  if (record.lean.is_unknown()) {
    // A short post leans less: in proportion to its height, up to what tall ones do.
    const record::FactKind& row = record::fact_kind("supports/post/lean");
    const record::FactKind& share = record::fact_kind("supports/post/lean_share");
    std::array<Length, 3> values;
    for (std::size_t r = 0; r < 3; ++r) {
      const auto reading = static_cast<record::Reading>(r);
      values[r] = min(mm(row.value(facts.standard(), reading).number),
                      share.value(facts.standard(), reading).number * post.height);
    }
    post.lean = facts.resolve(values, prefix + "lean", row, false);
  } else {
    post.lean = facts.take(record.lean, prefix + "lean", "supports/post/lean");
  }
  return post;
}

// Contact nobody has seen is tight here; the assessment also runs the support as absent.
std::pair<record::Contact, bool> resolve_contact(const Fact<record::Contact>& record,
                                                 const std::string& field, FactTaker& facts) {
  if (record.is_value()) return {record.value(), true};
  facts.list(field, "supports/footing/contact");
  return {record::Contact::tight, facts.reading_of(field) == record::Reading::favourable};
}

// What is needed to name a screw pile's size but decides nothing there.
Length quiet(const Fact<Length>& record, std::string_view kind, const FactTaker& facts) {
  return record.is_known() ? record.low() : facts.quiet<Length>(kind, record::Reading::cautious);
}

// What the rest of the record says of a footing.
struct Follows {
  bool below_topsoil = false;       // the soil at its underside is recorded, and is none
  std::optional<Length> thickness;  // by the chain of heights
};

Footing resolve_footing(const record::Footing& record, const std::string& prefix,
                        const Follows& follows, FactTaker& facts) {
  Footing footing;
  const bool kind_known =
      record.kind.is_value() && record.kind.value() != record::FootingKind::unknown;
  footing.kind = kind_known ? record.kind.value()
                            : facts.take(Fact<record::FootingKind>(), prefix + "kind",
                                         "supports/footing/kind");
  footing.stated_capacity = record.stated_capacity;
  if (footing.kind == record::FootingKind::screw_pile) {
    footing.width = quiet(record.width, "supports/footing/width", facts);
    footing.length = quiet(record.length, "supports/footing/length", facts);
    footing.thickness = quiet(record.thickness, "supports/footing/thickness", facts);
    footing.depth = quiet(record.depth, "supports/footing/depth", facts);
    footing.below_topsoil = record.below_topsoil.value_or(true);
  } else {
    footing.width = facts.take(record.width, prefix + "width", "supports/footing/width");
    footing.length = facts.take(record.length, prefix + "length", "supports/footing/length");
    footing.depth = facts.take(record.depth, prefix + "depth", "supports/footing/depth");
    if (record.thickness.is_unknown() && follows.thickness) {
      footing.thickness = *follows.thickness;
    } else if (record.thickness.is_unknown()) {
      // At its best all of what stands in the ground is concrete.
      const record::FactKind& row = record::fact_kind("supports/footing/thickness");
      std::array<Length, 3> values;
      for (std::size_t r = 0; r < 3; ++r)
        values[r] = mm(row.value(facts.standard(), static_cast<record::Reading>(r)).number);
      if (record.depth.is_known()) values[2] = max(values[2], record.depth.high());
      footing.thickness = facts.resolve(values, prefix + "thickness", row, false);
    } else {
      footing.thickness =
          facts.take(record.thickness, prefix + "thickness", "supports/footing/thickness");
    }
    const bool deep = record.depth.is_known() &&
                      record.depth.low() >= mm(record::resolving_rule("topsoil/deepest").number);
    footing.below_topsoil = record.below_topsoil.is_unknown() && (follows.below_topsoil || deep)
                                ? true
                                : facts.take(record.below_topsoil, prefix + "below_topsoil",
                                             "supports/footing/below_topsoil");
  }
  if (record.offset.is_unknown() && !kind_known) {
    const record::FactKind& in_mm_row = record::fact_kind("supports/footing/offset");
    const record::FactKind& share_row = record::fact_kind("supports/footing/offset_share");
    std::array<Length, 3> values;
    for (std::size_t r = 0; r < 3; ++r) {
      const auto reading = static_cast<record::Reading>(r);
      values[r] = max(
          mm(in_mm_row.value(facts.standard(), reading).number),
          share_row.value(facts.standard(), reading).number * min(footing.width, footing.length));
    }
    footing.offset = facts.resolve(values, prefix + "offset", share_row, false);
  } else if (record.offset.is_unknown()) {
    // Who told the footing's kind has seen it: more than this out of the middle shows (engineering
    // judgement), and counts as a convention, not as an open fact.
    footing.offset = facts.quiet<Length>("supports/footing/offset", record::Reading::cautious);
  } else {
    footing.offset = facts.take(record.offset, prefix + "offset", "supports/footing/offset");
  }
  std::tie(footing.contact, footing.contact_recorded) =
      resolve_contact(record.contact, prefix + "contact", facts);
  footing.gap = footing.contact == record::Contact::gap ? record.gap : Length();
  return footing;
}

bool under_bearer(const record::Survey& survey, const record::Supports& group) {
  return std::ranges::any_of(survey.deck.bearers,
                             [&](const auto& bearer) { return bearer.name == group.under; });
}

bool on_surface(const record::Supports& group) {
  const Fact<record::FootingKind>& kind = group.footing.kind;
  return kind.is_value() && (kind.value() == record::FootingKind::laid_slab ||
                             kind.value() == record::FootingKind::deck_block);
}

// The soil is that at the footings' underside. Where some of them lie on the surface and others do not,
// it was read at the deep ones.
bool soil_says_below_topsoil(const record::Survey& survey, const record::Supports& group) {
  const Fact<record::Soil>& soil = survey.site.soil;
  if (!soil.is_value() || soil.value() == record::Soil::topsoil ||
      soil.value() == record::Soil::made_ground || soil.value() == record::Soil::peat) {
    return false;
  }
  return !on_surface(group) || std::ranges::all_of(survey.deck.supports, on_surface);
}

// The heights are one chain: surface - boards - joist - bearer - post - packers = top of the footing.
// With the depth of its underside it gives the thickness of what was cast there.
std::optional<Length> thickness_by_heights(const record::Survey& survey,
                                           const record::Supports& group, Deck& deck) {
  const record::Footing& footing = group.footing;
  if (!footing.kind.is_value() || footing.kind.value() != record::FootingKind::cast_pad ||
      footing.thickness.is_known() || !footing.depth.is_value()) {
    return std::nullopt;
  }
  const HeightChain chain = height_chain(survey, group);
  if (!chain.top || !survey.site.slope.is_value()) return std::nullopt;
  // Ground may stand higher at this footing than where the surface was measured.
  const Length found = *chain.top - chain.rise - chain.packers + footing.depth.value() -
                       mm(record::resolving_rule("heights/tape").number);
  const Length least = mm(record::fact_kind("supports/footing/thickness")
                              .value(survey.standard, record::Reading::cautious)
                              .number);
  if (found < least) return std::nullopt;
  const Length thickness =
      min(found, footing.depth.value() + mm(record::resolving_rule("heights/question").number));
  const UnitSystem units = record::facts_of(survey.standard).units;
  deck.assumptions.push_back("the footings " + group.name + " are taken as " +
                             format_length(thickness, units) + " thick: it follows from " +
                             chain.words + ", and the depth of their underside, " +
                             format_length(footing.depth.value(), units));
  return thickness;
}

void resolve_wall(const record::Wall& record, std::size_t index, FactTaker& facts, Deck& deck) {
  const auto field = [&](const char* rest) { return pointer("/deck/walls", index, rest); };
  Wall wall;
  wall.id = record.name;
  wall.added = record.added;
  wall.a = record.from;
  wall.b = record.to;
  wall.width = record.width;
  if (record.strip_width.is_unknown()) {
    const record::FactKind& row = record::fact_kind("walls/strip_width");
    std::array<Length, 3> values;
    for (std::size_t r = 0; r < 3; ++r) {
      values[r] = max(mm(row.value(facts.standard(), static_cast<record::Reading>(r)).number),
                      record.width);
    }
    wall.strip_width = facts.resolve(values, field("strip_width"), row, false);
  } else {
    wall.strip_width = facts.take(record.strip_width, field("strip_width"), "walls/strip_width");
  }
  wall.depth = facts.take(record.depth, field("depth"), "walls/depth");
  wall.contact_field = field("contact");
  std::tie(wall.contact, wall.contact_recorded) =
      resolve_contact(record.contact, wall.contact_field, facts);
  wall.gap = wall.contact == record::Contact::gap ? record.gap : Length();
  deck.walls.push_back(std::move(wall));
}

}  // namespace

void resolve_supports(const record::Survey& survey, const Layout& layout, FactTaker& facts,
                      Deck& deck) {
  std::size_t next = 0;  // the layout's supports stand group by group
  for (std::size_t g = 0; g < survey.deck.supports.size(); ++g) {
    const record::Supports& group = survey.deck.supports[g];
    const std::string prefix = pointer("/deck/supports", g, "");
    // Rows that one builder made alike are one fact: what is open of them is found out once.
    for (std::size_t h = 0; h < g; ++h) {
      const record::Supports& other = survey.deck.supports[h];
      const std::string like = pointer("/deck/supports", h, "");
      // The same sort of thing: legs or none, under a bearer or under joists.
      if (group.added || other.added || group.post.has_value() != other.post.has_value() ||
          under_bearer(survey, group) != under_bearer(survey, other))
        continue;
      if (group.footing == other.footing) {
        facts.alike(prefix + "footing/", like + "footing/", group.name);
      }
      if (group.post && group.post == other.post)
        facts.alike(prefix + "post/", like + "post/", group.name);
      if (group.packers == other.packers)
        facts.alike(prefix + "packers", like + "packers", group.name);
    }
    Support support;
    support.group = static_cast<int>(g);
    support.added = group.added;
    support.packers = facts.take(group.packers, prefix + "packers", "supports/packers");
    support.bearing_length = group.bearing_length;
    if (group.post) {
      support.post = resolve_post(*group.post, prefix + "post/", facts);
      support.timber = support.post->timber;
      support.incised = support.post->incised;
    }
    support.footing = resolve_footing(
        group.footing, prefix + "footing/",
        {soil_says_below_topsoil(survey, group), thickness_by_heights(survey, group, deck)}, facts);
    support.contact_field = prefix + "footing/contact";
    if (!support.bearing_length && !support.post && support.packers > 0) {
      support.bearing_length = min(mm(record::resolving_rule("packer/unmeasured_length").number),
                                   min(support.footing.width, support.footing.length));
      deck.assumptions.push_back(
          "seat on the packers of " + group.name + ": not measured, taken as " +
          format_length(*support.bearing_length, record::facts_of(survey.standard).units));
    }
    for (; next < layout.supports.size() && layout.supports[next].source == support.group; ++next) {
      const SupportPlace& place = layout.supports[next];
      support.id = place.id;
      support.at = place.at;
      support.bearer = place.bearer;
      support.joist = place.joist;
      deck.supports.push_back(support);
    }
  }
  for (std::size_t i = 0; i < survey.deck.walls.size(); ++i) {
    resolve_wall(survey.deck.walls[i], i, facts, deck);
  }
}

}  // namespace underprop::deck
