// Joists, bearers and ledgers.
#include "crossing.hpp"
#include "resolve_parts.hpp"

namespace underprop::deck {
namespace {

bool american(const FactTaker& facts) {
  return facts.standard() == record::StandardId::north_america_us;
}

// Of a species that takes preservative without slits nobody need ask for them.
bool take_incised(const Fact<bool>& fact, const Fact<std::string>& timber, FactTaker& facts,
                  const std::string& field, std::string_view kind) {
  if (fact.is_unknown() && !may_be_incised(facts.standard(), timber)) return false;
  return facts.take(fact, field, kind);
}

// What holds an end, for joists whose end meets a ledger or flush bearer and for those that do not.
struct EndPair {
  EndHold meeting, apart;
};

// Who finds out how an end is held sees its nails, its seat and its rust with the same look: while the
// hold is unknown they go with it (`with_hold`) and are not open facts of their own.
void take_details(const record::EndHold& record, const std::string& prefix, Length depth,
                  bool with_hold, FactTaker& facts, EndHold& hold) {
  hold.stated_capacity = record.stated_capacity;
  const bool fastened = hold.held != record::Hold::resting && hold.held != record::Hold::free;
  const auto take = [&](const auto& fact, const char* name, std::string_view kind) {
    using T = typename std::decay_t<decltype(fact)>::value_type;
    if (with_hold && fact.is_unknown()) {
      return facts.quiet<T>(kind, facts.reading_of(prefix + "held"));
    }
    return facts.take(fact, prefix + name, kind);
  };
  const bool seat_counts =
      hold.held == record::Hold::hanger || hold.held == record::Hold::ledger_strip;
  if (seat_counts || record.seat.is_known()) hold.seat = take(record.seat, "seat", "joists/seat");
  if (!fastened) {
    hold.nails = record.nails.is_known() ? record.nails.low() : 0;
    hold.sound = record.sound.value_or(true);
    return;
  }
  const bool deep = depth >= mm(record::resolving_rule("hanger/deep_joist").number);
  const char* kind = hold.held != record::Hold::hanger ? "joists/end_fasteners"
                     : deep                            ? "joists/nails_deep"
                                                       : "joists/nails";
  // Who counted what is in them has looked at each: heavy rust would stand among the conditions.
  const bool seen =
      record.sound.is_unknown() && (record.nails.is_value() || record.nails_in_carrier.is_value() ||
                                    record.all_holes_nailed.is_value());
  hold.sound = seen || take(record.sound, "sound", "joists/sound");
  if (hold.held != record::Hold::hanger) {
    // With a stated capacity nothing rests on the number; it only sets the joint's slip.
    hold.nails = record.nails.is_unknown() && record.stated_capacity
                     ? facts.quiet<int>(kind, record::Reading::cautious)
                     : take(record.nails, "nails", kind);
    return;
  }
  hold.all_holes_nailed = record.all_holes_nailed.is_value() && record.all_holes_nailed.value();
  const bool some_empty = record.all_holes_nailed.is_value() && !record.all_holes_nailed.value();
  if (record.nails_in_carrier.is_known()) {
    hold.nails = take(record.nails_in_carrier, "nails_in_carrier", kind);
    if (!record.nails_in_carrier.is_value()) hold.nails_by = NailCount::not_counted;
  } else if (hold.all_holes_nailed) {
    hold.nails = facts.quiet<int>(kind, record::Reading::likely);
    hold.nails_by = NailCount::all_holes;
  } else if (record.nails.is_known()) {
    // A hanger never has more nails in the joist than in what carries it.
    const int least = (record.nails.low() + 1) / 2, most = record.nails.high();
    hold.nails_by = least == most ? NailCount::counted : NailCount::of_total;
    const Fact<int> of_total = least == most ? Fact<int>(most) : Fact<int>::range(least, most);
    hold.nails =
        record.stated_capacity && !some_empty ? most : take(of_total, "nails_in_carrier", kind);
  } else if (record.stated_capacity && !some_empty) {
    // What is stated supposes all holes nailed; "sound" says that no nail is missing.
    hold.all_holes_nailed = true;
    hold.nails = facts.quiet<int>(kind, record::Reading::likely);
    hold.nails_by = NailCount::all_holes;
  } else {
    hold.nails = take(record.nails_in_carrier, "nails_in_carrier", kind);
    hold.nails_by = NailCount::not_counted;
  }
}

EndPair take_end(const record::EndHold& record, const std::string& prefix, Length depth,
                 bool any_meets, FactTaker& facts) {
  EndPair pair;
  const std::string field = prefix + "held";
  pair.meeting.field = pair.apart.field = facts.canonical(field);
  if (record.held.is_known()) {
    pair.meeting.held = facts.take(record.held, field, "joists/held");
    pair.meeting.recorded = record.held.is_value();
    take_details(record, prefix, depth, false, facts, pair.meeting);
    pair.apart = pair.meeting;
    return pair;
  }
  const record::Reading reading = facts.reading_of(field);
  pair.apart.held = facts.quiet<record::Hold>("joists/held_over", reading);
  facts.list(field, any_meets ? "joists/held" : "joists/held_over");
  if (any_meets) {
    pair.meeting.held = facts.quiet<record::Hold>("joists/held", reading);
    take_details(record, prefix, depth, true, facts, pair.meeting);
  }
  return pair;
}

bool framed(const std::vector<Meeting>& met, std::size_t joist, bool at_start) {
  return !framed_at(met, joist, at_start ? PieceEnd::start : PieceEnd::end).empty();
}

void resolve_joists(const record::Survey& survey, const Layout& layout,
                    const std::vector<Meeting>& met, FactTaker& facts, Deck& deck) {
  const auto& groups = survey.deck.joists;
  std::size_t next = 0;  // the layout's joists stand group by group
  for (std::size_t g = 0; g < groups.size(); ++g) {
    const record::Joists& group = groups[g];
    deck.joist_groups.push_back(group.name);
    const auto field = [&](const char* rest) { return pointer("/deck/joists", g, rest); };
    Joist model;
    model.group = static_cast<int>(g);
    model.added = group.added;
    model.timber = facts.take_timber(group.timber, field("timber"), "joists/timber");
    model.incised =
        take_incised(group.incised, group.timber, facts, field("incised"), "joists/incised");
    model.breadth = facts.take(group.breadth, field("breadth"), "joists/breadth");
    model.depth = facts.take(group.depth, field("depth"), "joists/depth");
    model.continuous_recorded = group.over_bearers.is_value();
    model.over_bearers = group.over_bearers.value_or(record::OverBearers::continuous);
    const std::size_t first = next;
    while (next < layout.joists.size() && layout.joists[next].source == model.group) ++next;
    EndPair ends[2];
    for (const bool at_start : {true, false}) {
      bool any = false;
      for (std::size_t i = first; i < next; ++i) {
        any = any || framed(met, i, at_start);
      }
      ends[at_start ? 0 : 1] =
          take_end(at_start ? group.start : group.end, field(at_start ? "start/" : "end/"),
                   model.depth, any, facts);
    }
    for (std::size_t i = first; i < next; ++i) {
      const PieceLine& line = layout.joists[i];
      Joist joist = model;
      joist.id = line.id;
      joist.direction = line.direction;
      joist.position = line.position;
      joist.from = line.from;
      joist.to = line.to;
      joist.start = framed(met, i, true) ? ends[0].meeting : ends[0].apart;
      joist.end = framed(met, i, false) ? ends[1].meeting : ends[1].apart;
      deck.joists.push_back(std::move(joist));
    }
  }
}

void resolve_exceptions(const record::Survey& survey, const std::vector<Meeting>& met,
                        FactTaker& facts, Deck& deck) {
  for (std::size_t i = 0; i < survey.deck.joist_ends.size(); ++i) {
    const record::JoistEnd& record = survey.deck.joist_ends[i];
    for (std::size_t h = 0; h < i; ++h) {
      const record::JoistEnd& other = survey.deck.joist_ends[h];
      if (record.added || other.added || record.at_start != other.at_start ||
          !(record.hold == other.hold))
        continue;
      facts.alike(pointer("/deck/joist_ends", i, "hold/"), pointer("/deck/joist_ends", h, "hold/"),
                  record.joist);
    }
    for (std::size_t j = 0; j < deck.joists.size(); ++j) {
      Joist& joist = deck.joists[j];
      if (joist.id != record.joist) continue;
      const bool meets = framed(met, j, record.at_start);
      const EndPair pair =
          take_end(record.hold, pointer("/deck/joist_ends", i, "hold/"), joist.depth, meets, facts);
      (record.at_start ? joist.start : joist.end) = meets ? pair.meeting : pair.apart;
    }
  }
  const Length short_by = mm(record::resolving_rule("sister/short_by").number);
  const UnitSystem units = record::facts_of(survey.standard).units;
  for (const record::Sister& sister : survey.deck.sisters) {
    for (Joist& joist : deck.joists) {
      if (joist.id != sister.joist) continue;
      if (sister.depth < joist.depth - short_by) {
        // It does not touch what the joist lies on, or the boards do not touch it.
        deck.assumptions.push_back("the sister beside " + joist.id + ", " +
                                   format_length(sister.depth, units) + " deep beside " +
                                   format_length(joist.depth, units) +
                                   ", does not reach from the boards down to what the joist lies "
                                   "on: it counts for nothing");
        continue;
      }
      joist.sisters.push_back({sister.timber, sister.incised, sister.breadth, sister.depth});
    }
  }
}

void resolve_bearers(const record::Survey& survey, const Layout& layout, FactTaker& facts,
                     Deck& deck) {
  std::size_t next = 0;
  for (std::size_t i = 0; i < survey.deck.bearers.size(); ++i) {
    const record::Bearer& record = survey.deck.bearers[i];
    const auto field = [&](const char* rest) { return pointer("/deck/bearers", i, rest); };
    for (std::size_t h = 0; h < i; ++h) {
      const record::Bearer& other = survey.deck.bearers[h];
      const bool same = !record.added && !other.added && record.timber == other.timber &&
                        record.incised == other.incised && record.plies == other.plies &&
                        record.ply_breadth == other.ply_breadth && record.depth == other.depth &&
                        record.plies_fixed_together == other.plies_fixed_together &&
                        record.joists == other.joists &&
                        record.joists_held_down == other.joists_held_down;
      if (same) facts.alike(field(""), pointer("/deck/bearers", h, ""), record.name);
    }
    Bearer bearer;
    bearer.index = static_cast<int>(i);
    bearer.added = record.added;
    bearer.timber = facts.take_timber(record.timber, field("timber"), "bearers/timber");
    bearer.incised =
        take_incised(record.incised, record.timber, facts, field("incised"), "bearers/incised");
    bearer.plies = record.plies;
    bearer.ply_breadth =
        facts.take(record.ply_breadth, field("ply_breadth"), "bearers/ply_breadth");
    bearer.depth = facts.take(record.depth, field("depth"), "bearers/depth");
    bearer.act_together =
        record.plies <= 1 || facts.take(record.plies_fixed_together, field("plies_fixed_together"),
                                        "bearers/plies_fixed_together");
    bearer.flush = record.joists == record::JoistsSit::flush;
    bearer.held_down = bearer.flush ? record.joists_held_down.value_or(record::HeldDown::nothing)
                                    : facts.take(record.joists_held_down, field("joists_held_down"),
                                                 "bearers/joists_held_down");
    bearer.hold_down_capacity = record.hold_down_capacity;
    bearer.gap = record.gap;
    for (; next < layout.bearers.size() && layout.bearers[next].source == bearer.index; ++next) {
      const PieceLine& line = layout.bearers[next];
      bearer.id = line.id;
      bearer.direction = line.direction;
      bearer.position = line.position;
      bearer.from = line.from;
      bearer.to = line.to;
      bearer.splices.clear();
      for (const Length splice : record.splices) {
        if (line.from < splice && splice < line.to) bearer.splices.push_back(splice);
      }
      std::sort(bearer.splices.begin(), bearer.splices.end());
      deck.bearers.push_back(bearer);
    }
  }
}

/// In a wall of masonry or concrete only a stated figure counts, so one that is missing is an open fact; in a
/// timber band the standard has its own. Nothing and 0 are the same.
std::optional<Force> ledger_capacity(const record::Ledger& record, const Ledger& ledger,
                                     FactTaker& facts, const std::string& field) {
  const bool wall = ledger.fixed_to == record::LedgerWall::solid_masonry ||
                    ledger.fixed_to == record::LedgerWall::concrete;
  if (record.stated_capacity.is_unknown() && (!wall || ledger.fixing == record::FixingKind::nail)) {
    return std::nullopt;
  }
  const Force stated = facts.take(record.stated_capacity, field, "ledgers/stated_capacity");
  return stated > Force(0.0) ? std::optional(stated) : std::nullopt;
}

/// A figure for the pull matters where one for the load down the wall counts: in masonry and concrete.
/// Nothing and 0 are the same: then a share of the other one counts.
std::optional<Force> ledger_pull_out(const record::Ledger& record, const Ledger& ledger,
                                     FactTaker& facts, const std::string& field) {
  const bool wall = ledger.fixed_to == record::LedgerWall::solid_masonry ||
                    ledger.fixed_to == record::LedgerWall::concrete;
  const bool asked = wall && ledger.fixing != record::FixingKind::nail && ledger.stated_capacity;
  if (record.stated_pull_out.is_unknown() && !asked) return std::nullopt;
  const Force stated = facts.take(record.stated_pull_out, field, "ledgers/stated_pull_out");
  return stated > Force(0.0) ? std::optional(stated) : std::nullopt;
}

/// The house's wood behind a ledger. Who measured its thickness had it before the eyes: then its
/// condition is no open fact, only its flashing is not known.
void take_band(const record::Ledger& record, const std::string& condition_field,
               const std::string& wood_field, FactTaker& facts, Ledger& ledger) {
  if (ledger.fixed_to != record::LedgerWall::timber_band ||
      ledger.fixing == record::FixingKind::nail)
    return;
  const bool measured = record.penetration.is_value();
  ledger.band_seen = record.band_condition.is_value() || measured;
  const record::BandCondition condition =
      record.band_condition.is_unknown() && measured
          ? record::BandCondition::sound_not_flashed
          : facts.take(record.band_condition, condition_field, "ledgers/band_condition");
  ledger.band_flashed = condition == record::BandCondition::sound_flashed;
  if (condition == record::BandCondition::soft) ledger.sound = false;
  // Only a band thinner than sawn lumber can be of anything else.
  const Length sawn = mm(record::resolving_rule("ledger/sawn_band").number);
  const Length least = mm(record::resolving_rule("ledger/least_engineered_band").number);
  if (!american(facts) || !ledger.penetration || *ledger.penetration >= sawn ||
      *ledger.penetration < least)
    return;
  ledger.band_laminated = facts.take(record.band_wood, wood_field, "ledgers/band_wood") ==
                          record::BandWood::laminated_veneer;
}

void resolve_ledgers(const record::Survey& survey, const Layout& layout, FactTaker& facts,
                     Deck& deck) {
  std::size_t next = 0;
  for (std::size_t i = 0; i < survey.deck.ledgers.size(); ++i) {
    const record::Ledger& record = survey.deck.ledgers[i];
    const auto field = [&](const char* rest) { return pointer("/deck/ledgers", i, rest); };
    Ledger ledger;
    ledger.index = static_cast<int>(i);
    ledger.timber = facts.take_timber(record.timber, field("timber"), "ledgers/timber");
    ledger.incised =
        take_incised(record.incised, record.timber, facts, field("incised"), "ledgers/incised");
    ledger.breadth = record.breadth;
    ledger.depth = record.depth;
    ledger.fixed_to = facts.take(record.fixed_to, field("fixed_to"), "ledgers/fixed_to");
    ledger.wall_recorded = record.fixed_to.is_value();
    ledger.fixing = facts.take(record.fixing, field("fixing"), "ledgers/fixing");
    const bool thin =
        ledger.fixing == record::FixingKind::nail || ledger.fixing == record::FixingKind::screw;
    ledger.fixing_diameter =
        facts.take(record.fixing_diameter, field("fixing_diameter"),
                   thin ? "ledgers/thin_fixing_diameter" : "ledgers/fixing_diameter");
    ledger.fixing_spacing =
        facts.take(record.fixing_spacing, field("fixing_spacing"), "ledgers/fixing_spacing");
    ledger.stated_capacity = ledger_capacity(record, ledger, facts, field("stated_capacity"));
    ledger.stated_pull_out = ledger_pull_out(record, ledger, facts, field("stated_pull_out"));
    ledger.fixing_heights = record.fixing_heights;
    if (ledger.fixed_to == record::LedgerWall::timber_band &&
        ledger.fixing != record::FixingKind::nail)
      ledger.penetration =
          facts.take(record.penetration, field("penetration"), "ledgers/penetration");
    // Who measured heads and spacing along it has seen them: rust and loose nuts would stand among the
    // conditions.
    const bool seen = record.sound.is_unknown() && record.fixing.is_value() &&
                      record.fixing_diameter.is_value() && record.fixing_spacing.is_value();
    ledger.sound = seen || facts.take(record.sound, field("sound"), "ledgers/sound");
    take_band(record, field("band_condition"), field("band_wood"), facts, ledger);
    if (record.band_condition.is_value() &&
        record.band_condition.value() == record::BandCondition::soft) {
      deck.refer_reasons.push_back("the house's wood behind ledger " + record.name +
                                   " is soft: what else of the house it holds is not judged here");
    }
    for (; next < layout.ledgers.size() && layout.ledgers[next].source == ledger.index; ++next) {
      const PieceLine& line = layout.ledgers[next];
      ledger.id = line.id;
      ledger.direction = line.direction;
      ledger.position = line.position;
      ledger.from = line.from;
      ledger.to = line.to;
      deck.ledgers.push_back(ledger);
    }
  }
}

// Who holds its end where depends on how broad a flush bearer is, which the joists' own facts come before.
std::vector<Meeting> meetings_of(const record::Survey& survey, const Layout& layout,
                                 const FactTaker& facts) {
  const auto ply_breadth = [&](std::size_t i) {
    return facts.peek(survey.deck.bearers[i].ply_breadth,
                      pointer("/deck/bearers", i, "ply_breadth"), "bearers/ply_breadth");
  };
  return meet(in_plan(survey, layout, ply_breadth), meeting_limits()).met;
}

}  // namespace

void resolve_timber(const record::Survey& survey, const Layout& layout, FactTaker& facts,
                    Deck& deck) {
  const std::vector<Meeting> met = meetings_of(survey, layout, facts);
  resolve_joists(survey, layout, met, facts, deck);
  resolve_exceptions(survey, met, facts, deck);
  resolve_bearers(survey, layout, facts, deck);
  resolve_ledgers(survey, layout, facts, deck);
}

}  // namespace underprop::deck
