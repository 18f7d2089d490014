// Fields that contradict each other: both places are named.
#include "read_checks.hpp"

#include "heights.hpp"
#include "underprop/record/standard_facts.hpp"

#include "record/limits.hpp"
#include "record/words.hpp"

#include "underprop/base/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace underprop::deck {
namespace {

// Lengths taken with a tape at different places of an old deck do not add up better than this.
constexpr Length tape_slack = mm(150.0);

void check_contact(const Fact<record::Contact>& contact, Length gap, const std::string& where,
                   ErrorList& errors) {
  if (reported(errors, where + "/gap") || reported(errors, where + "/contact")) return;
  const bool is_gap = contact.is_value() && contact.value() == record::Contact::gap;
  if (is_gap && gap == Length()) {
    errors.add(where + "/gap", "the key \"gap\" is missing",
               fmt::format("how wide the gap is, as \"contact\" ({}/contact) is \"gap\"", where),
               "measure it with a feeler or coins");
  }
  if (!is_gap && gap != Length()) {
    errors.add(where + "/gap",
               fmt::format("a gap of {} where \"contact\" ({}/contact) is {}",
                           record::said(errors.units(), gap), where,
                           contact.is_unknown()
                               ? std::string("not known")
                               : fmt::format("\"{}\"", record::written_word(contact.value()))),
               "a gap only where the contact is \"gap\"",
               "write \"contact\": \"gap\", or delete the gap");
  }
}

void check_end(const record::EndHold& hold, const std::string& where, ErrorList& errors) {
  if (!hold.held.is_value()) return;
  const record::Hold held = hold.held.value();
  const auto refuse = [&](const char* key,
                          const char* allowed =
                              "nails and a stated capacity only for an end that is fixed") {
    errors.add(where + "/" + key,
               fmt::format("\"{}\" for an end that is \"{}\" ({}/held)", key,
                           record::written_word(held), where),
               allowed, "correct \"held\", or delete \"" + std::string(key) + "\"");
  };
  if (held != record::Hold::hanger) {
    const char* hangers = "it only for an end in a hanger";
    if (hold.nails_in_carrier.is_known()) refuse("nails_in_carrier", hangers);
    if (hold.all_holes_nailed.is_known()) refuse("all_holes_nailed", hangers);
  } else if (hold.nails_in_carrier.is_known() && hold.nails.is_known() &&
             hold.nails_in_carrier.low() > hold.nails.high()) {
    errors.add(where + "/nails_in_carrier",
               fmt::format("{} nails into the carrying piece of {} in all ({}/nails)",
                           hold.nails_in_carrier.low(), hold.nails.high(), where),
               "no more than in the whole hanger", "count both again, or delete \"nails\"");
  }
  if (held != record::Hold::resting && held != record::Hold::free) return;
  if (hold.nails.is_known() && hold.nails.high() > 0) refuse("nails");
  if (hold.stated_capacity) refuse("stated_capacity");
  if (held == record::Hold::free && hold.seat.is_known() && hold.seat.high() > Length())
    refuse("seat");
}

void check_ends(const record::DeckRecord& deck, ErrorList& errors) {
  for (std::size_t i = 0; i < deck.joists.size(); ++i) {
    check_end(deck.joists[i].start, place_of("/deck/joists", i, "start"), errors);
    check_end(deck.joists[i].end, place_of("/deck/joists", i, "end"), errors);
  }
  std::map<std::pair<std::string, bool>, std::size_t> seen;
  for (std::size_t i = 0; i < deck.joist_ends.size(); ++i) {
    const record::JoistEnd& end = deck.joist_ends[i];
    check_end(end.hold, place_of("/deck/joist_ends", i, "hold"), errors);
    const auto [first, fresh] = seen.emplace(std::pair(end.joist, end.at_start), i);
    if (fresh || end.joist.empty()) continue;
    errors.add(place_of("/deck/joist_ends", i),
               fmt::format("the {} of {} is also described at {}", end.at_start ? "start" : "end",
                           quote(end.joist), place_of("/deck/joist_ends", first->second)),
               "one description of each end", "delete one of the two");
  }
}

void check_bands(const record::DeckRecord& deck, ErrorList& errors) {
  for (std::size_t i = 0; i < deck.ledgers.size(); ++i) {
    const record::Ledger& ledger = deck.ledgers[i];
    if (!ledger.fixed_to.is_value() || ledger.fixed_to.value() == record::LedgerWall::timber_band)
      continue;
    const auto refuse = [&](const char* key) {
      errors.add(place_of("/deck/ledgers", i, key),
                 fmt::format("\"{}\" of a ledger fixed to \"{}\" ({})", key,
                             record::written_word(ledger.fixed_to.value()),
                             place_of("/deck/ledgers", i, "fixed_to")),
                 "it only where the ledger is fixed to a timber band",
                 "correct \"fixed_to\", or delete \"" + std::string(key) + "\"");
    };
    if (ledger.band_condition.is_known()) refuse("band_condition");
    if (ledger.band_wood.is_known()) refuse("band_wood");
  }
}

void check_stretch(const std::optional<Length>& from, const std::optional<Length>& to,
                   const std::string& where, ErrorList& errors) {
  if (!from || !to || *from < *to) return;
  errors.add(
      where + "/to",
      fmt::format("an end at {} for a piece that starts at {} ({}/from)",
                  record::said(errors.units(), *to), record::said(errors.units(), *from), where),
      "\"from\" below \"to\"", "exchange or correct the two");
}

void check_stretches(const record::DeckRecord& deck, ErrorList& errors) {
  const auto all = [&](std::string_view list, const auto& items) {
    for (std::size_t i = 0; i < items.size(); ++i) {
      check_stretch(items[i].from, items[i].to, place_of(list, i), errors);
    }
  };
  all("/deck/joists", deck.joists);
  all("/deck/bearers", deck.bearers);
  all("/deck/ledgers", deck.ledgers);
}

void check_posts(const record::DeckRecord& deck, ErrorList& errors) {
  for (std::size_t i = 0; i < deck.supports.size(); ++i) {
    const record::Supports& group = deck.supports[i];
    const std::string where = place_of("/deck/supports", i);
    check_contact(group.footing.contact, group.footing.gap, where + "/footing", errors);
    const record::Footing& footing = group.footing;
    if (group.post && group.post->hold_down_capacity &&
        group.post->held_down == record::FootHeld::nothing) {
      errors.add(where + "/post/hold_down_capacity",
                 fmt::format("a stated resistance of a foot that nothing holds down "
                             "({}/post/held_down)",
                             where),
                 "it beside \"bolted\" or \"cast in\"", "add \"held_down\", or delete it");
    }
    if (!group.post || group.post->height == Length() || deck.height.is_unknown()) continue;
    const Length below =
        footing.depth.is_known() ? footing.depth.high() : record::limit::below_ground.high;
    const Length most = deck.height.high() + below + tape_slack;
    if (most < group.post->height) {
      errors.add(where + "/post/height",
                 fmt::format("posts of {} under a deck of {} (/deck/height)",
                             record::said(errors.units(), group.post->height),
                             record::said(errors.units(), deck.height.high())),
                 "posts that fit under the deck", "measure both again");
    }
    if (group.post->bearer.is_value() &&
        group.post->bearer.value() == record::BearerOnPost::on_top && footing.kind.is_value() &&
        footing.kind.value() == record::FootingKind::deck_block && group.post->base.is_value() &&
        group.post->base.value() == record::PostBase::fixed) {
      errors.add(where + "/post/base",
                 fmt::format("a fixed foot on a deck block ({}/footing/kind)", where),
                 "\"pinned\" on a block that lies loose", "correct one of the two");
    }
  }
  for (std::size_t i = 0; i < deck.walls.size(); ++i) {
    check_contact(deck.walls[i].contact, deck.walls[i].gap, place_of("/deck/walls", i), errors);
  }
}

// Surface, boards, joist, bearer and post against the top of what stands on the ground.
void check_heights(const record::Survey& survey, ErrorList& errors) {
  const record::DeckRecord& deck = survey.deck;
  if (reported(errors, "/deck") || reported(errors, "/site/slope")) return;
  for (std::size_t i = 0; i < deck.supports.size(); ++i) {
    const record::Supports& group = deck.supports[i];
    const std::optional<HeightMiss> miss = height_miss(survey, group);
    if (group.added || !miss || !(miss->by > mm(record::resolving_rule("heights/adds_up").number)))
      continue;
    errors.add(
        "/deck/height", miss->found + fmt::format(" ({})", place_of("/deck/supports", i)),
        "heights that add up: surface = boards + joist + bearer + post + what of the footing "
        "stands over the ground",
        "measure them again; where the ground rises below the deck record \"slope\" (/site)");
    return;  // one deck, one mistake: the other rows would only echo it
  }
}

void check_boards(const record::DeckRecord& deck, ErrorList& errors) {
  if (reported(errors, "/deck/boards")) return;
  const record::Boards& boards = deck.boards;
  if (boards.thickness.is_known() && boards.thickness.low() <= boards.groove_depth) {
    errors.add("/deck/boards/groove_depth",
               fmt::format("grooves of {} in boards of {} (/deck/boards/thickness)",
                           record::said(errors.units(), boards.groove_depth),
                           record::said(errors.units(), boards.thickness.low())),
               "grooves less deep than the boards are thick", "measure both again");
  }
  for (std::size_t i = 0; i < deck.joists.size(); ++i) {
    const std::string where = place_of("/deck/joists", i, "direction");
    if (deck.joists[i].direction != boards.direction || reported(errors, where)) continue;
    errors.add(where,
               fmt::format("joists along {0} under boards along {0} (/deck/boards/direction)",
                           record::written_word(boards.direction)),
               "boards that run across the joists", "correct one of the two directions");
  }
}

void check_wall_contact(const record::DeckRecord& deck, const record::Brace& brace,
                        const std::string& where, ErrorList& errors) {
  if (brace.kind != record::BraceKind::wall_contact) {
    const char* key = brace.from ? "from" : brace.to ? "to" : "walls_on";
    if (brace.walls_on == record::WallsOn::one_side && !brace.from && !brace.to) return;
    errors.add(where + "/" + key,
               fmt::format("\"{}\" of a brace of the kind \"{}\" ({}/kind)", key,
                           record::written_word(brace.kind), where),
               "it beside the kind \"wall contact\"", "delete it, or correct the kind");
    return;
  }
  if (brace.walls_on == record::WallsOn::one_side) return;
  for (const auto& [key, place] : {std::pair("from", brace.from), {"to", brace.to}}) {
    if (place) continue;
    errors.add(where + "/" + key, fmt::format("the key \"{}\" is missing", key),
               fmt::format("a length, as \"walls_on\" ({}/walls_on) is \"both sides\"", where),
               fmt::format("add \"{}\"", key));
  }
  if (!brace.from || !brace.to || deck.outline.size() < 3) return;
  const Interval along = extent(deck.outline, other(brace.direction));
  const UnitSystem units = errors.units();
  if (!(*brace.from < *brace.to)) {
    errors.add(where + "/to",
               fmt::format("{}, not beyond \"from\" ({}/from), {}", record::said(units, *brace.to),
                           where, record::said(units, *brace.from)),
               "a place beyond \"from\"", "correct one of the two");
  } else if (*brace.from < along.low - tape_slack || *brace.to > along.high + tape_slack) {
    errors.add(
        where + "/from",
        fmt::format("walls that touch the deck from {} to {}, beyond the deck, which reaches "
                    "from {} to {} there (/deck/outline)",
                    record::said(units, *brace.from), record::said(units, *brace.to),
                    record::said(units, along.low), record::said(units, along.high)),
        "the stretch on which both walls touch the deck", "measure along the walls again");
  }
}

void check_braces(const record::DeckRecord& deck, ErrorList& errors) {
  for (std::size_t i = 0; i < deck.braces.size(); ++i) {
    const record::Brace& brace = deck.braces[i];
    const std::string where = place_of("/deck/braces", i);
    if (reported(errors, where)) continue;
    check_wall_contact(deck, brace, where, errors);
  }
}

}  // namespace

void check_contradictions(const record::Survey& survey, ErrorList& errors) {
  const record::DeckRecord& deck = survey.deck;
  if (!record::facts_of(survey.standard).seismic && survey.site.seismic_category.is_known() &&
      !reported(errors, "/standard")) {
    errors.add(
        "/site/seismic_category", "a seismic design category under \"eurocode-uk\" (/standard)",
        "such a category only under \"north-america-us\"", "delete it, or correct the standard");
  }
  // New pieces join a deck that stands already: without old joists there is none.
  const auto is_added = [](const record::Joists& group) { return group.added; };
  if (!deck.joists.empty() && std::ranges::all_of(deck.joists, is_added)) {
    errors.add(place_of("/deck/joists", 0, "added"), "every joist marked as added by works",
               "joists that were there before the works",
               "delete \"added\" where a joist was found on site");
  }
  check_boards(deck, errors);
  check_stretches(deck, errors);
  check_ends(deck, errors);
  check_bands(deck, errors);
  check_posts(deck, errors);
  check_heights(survey, errors);
  check_braces(deck, errors);
}

}  // namespace underprop::deck
