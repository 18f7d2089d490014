// Pieces where they can be, joists on something, footings beside each other.
#include "read_checks.hpp"

#include "record/limits.hpp"
#include "record/words.hpp"

#include "underprop/base/units.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace underprop::deck {
namespace {

// Rounding when a tape is read, and how far from its end a joist may still hang on a ledger or bearer.
constexpr Length slack = mm(2.0);
constexpr Length end_reach = mm(150.0);

bool has_line(const std::vector<PieceLine>& lines, std::size_t source, Length position) {
  return std::ranges::any_of(lines, [&](const PieceLine& line) {
    return line.source == static_cast<int>(source) && line.position == position;
  });
}

// "from" and "to" beyond the outline would be cut off without a word.
void check_inside(const record::Survey& survey, Axis direction, const std::optional<Length>& from,
                  const std::optional<Length>& to, const std::string& where, ErrorList& errors) {
  const Interval deck = extent(survey.deck.outline, direction);
  const auto check = [&](const std::optional<Length>& end, const char* key) {
    if (!end || (deck.low - slack <= *end && *end <= deck.high + slack)) return;
    errors.add(
        where + "/" + key,
        fmt::format("{} lies outside the deck's outline", record::said(errors.units(), *end)),
        fmt::format("from {} to {} (/deck/outline)", record::said(errors.units(), deck.low),
                    record::said(errors.units(), deck.high)),
        "measure from corner A again");
  };
  check(from, "from");
  check(to, "to");
}

void check_joist_places(const record::Survey& survey, const Layout& layout, ErrorList& errors) {
  const record::DeckRecord& deck = survey.deck;
  for (std::size_t g = 0; g < deck.joists.size(); ++g) {
    const record::Joists& group = deck.joists[g];
    const std::string where = place_of("/deck/joists", g);
    check_inside(survey, group.direction, group.from, group.to, where, errors);
    for (std::size_t k = 0; k < group.positions.size(); ++k) {
      const Length position = group.positions[k];
      if (!has_line(layout.joists, g, position)) {
        errors.add(where + "/positions",
                   fmt::format("a joist at {} lies outside the deck's outline",
                               record::said(errors.units(), position)),
                   "centre lines inside the outline (/deck/outline)",
                   "measure from corner A again");
      }
      if (std::find(group.positions.begin(),
                    group.positions.begin() + static_cast<std::ptrdiff_t>(k),
                    position) != group.positions.begin() + static_cast<std::ptrdiff_t>(k)) {
        errors.add(where + "/positions",
                   fmt::format("two joists at {}", record::said(errors.units(), position)),
                   "each position once", "delete one of the two");
      }
    }
  }
  for (std::size_t i = 0; i < layout.joists.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      const PieceLine &a = layout.joists[k], &b = layout.joists[i];
      const bool overlap = a.source != b.source && a.direction == b.direction &&
                           abs(a.position - b.position) < slack && a.from < b.to - slack &&
                           b.from < a.to - slack;
      if (!overlap) continue;
      errors.add(
          place_of("/deck/joists", static_cast<std::size_t>(b.source), "positions"),
          fmt::format("joist {} lies in the place of joist {} ({})", quote(b.id), quote(a.id),
                      place_of("/deck/joists", static_cast<std::size_t>(a.source), "positions")),
          "joists beside or behind each other", "correct position, \"from\" or \"to\"");
    }
  }
}

template <class T>
void check_lines(const record::Survey& survey, const std::vector<PieceLine>& lines,
                 const std::vector<T>& items, std::string_view list, ErrorList& errors) {
  for (std::size_t i = 0; i < items.size(); ++i) {
    const std::string where = place_of(list, i);
    check_inside(survey, items[i].direction, items[i].from, items[i].to, where, errors);
    if (has_line(lines, i, items[i].position) || reported(errors, where)) continue;
    errors.add(where + "/position",
               fmt::format("{} at {} lies outside the deck's outline", quote(items[i].name),
                           record::said(errors.units(), items[i].position)),
               "a centre line inside or along the outline (/deck/outline)",
               "measure from corner A again");
  }
}

void check_splices(const record::Survey& survey, const Layout& layout, ErrorList& errors) {
  for (std::size_t i = 0; i < survey.deck.bearers.size(); ++i) {
    const record::Bearer& bearer = survey.deck.bearers[i];
    for (std::size_t k = 0; k < bearer.splices.size(); ++k) {
      const Length at = bearer.splices[k];
      const bool inside = std::ranges::any_of(layout.bearers, [&](const PieceLine& line) {
        return line.source == static_cast<int>(i) && line.from < at && at < line.to;
      });
      if (inside) continue;
      errors.add(child_pointer(place_of("/deck/bearers", i, "splices"), k),
                 fmt::format("a splice at {} beyond the ends of {}",
                             record::said(errors.units(), at), quote(bearer.name)),
                 "splices within the bearer, measured from corner A", "measure it again");
    }
  }
}

void check_fixing_heights(const record::Survey& survey, ErrorList& errors) {
  for (std::size_t i = 0; i < survey.deck.ledgers.size(); ++i) {
    const record::Ledger& ledger = survey.deck.ledgers[i];
    for (std::size_t k = 0; k < ledger.fixing_heights.size(); ++k) {
      const Length height = ledger.fixing_heights[k];
      if (height < ledger.depth || reported(errors, place_of("/deck/ledgers", i))) continue;
      errors.add(child_pointer(place_of("/deck/ledgers", i, "fixing_heights"), k),
                 fmt::format("fixings {} above the lower edge of {}, which is {} deep",
                             record::said(errors.units(), height), quote(ledger.name),
                             record::said(errors.units(), ledger.depth)),
                 "heights less than its depth", "measure from its lower edge up to the fixings");
    }
  }
}

void check_blocking(const record::Survey& survey, const Layout& layout, ErrorList& errors) {
  for (std::size_t i = 0; i < survey.deck.blocking.size(); ++i) {
    const record::Blocking& row = survey.deck.blocking[i];
    if (reported(errors, place_of("/deck/blocking", i))) continue;
    const bool meets = std::ranges::any_of(layout.joists, [&](const PieceLine& joist) {
      return survey.deck.joists[static_cast<std::size_t>(joist.source)].name == row.joists &&
             joist.from - slack <= row.position && row.position <= joist.to + slack;
    });
    if (meets) continue;
    errors.add(place_of("/deck/blocking", i, "position"),
               fmt::format("blocking at {} beyond the ends of all joists of {}",
                           record::said(errors.units(), row.position), quote(row.joists)),
               "a position along the joists, measured from corner A", "measure it again");
  }
}

void check_support_places(const record::Survey& survey, const Layout& layout, ErrorList& errors) {
  for (std::size_t g = 0; g < survey.deck.supports.size(); ++g) {
    const record::Supports& group = survey.deck.supports[g];
    const std::string where = place_of("/deck/supports", g);
    if (reported(errors, where + "/under") || reported(errors, where + "/only")) continue;
    for (std::size_t k = 0; k < group.positions.size(); ++k) {
      const Length position = group.positions[k];
      const bool stands = std::ranges::any_of(layout.supports, [&](const SupportPlace& place) {
        if (place.source != static_cast<int>(g)) return false;
        const auto& line = place.bearer >= 0
                               ? layout.bearers[static_cast<std::size_t>(place.bearer)]
                               : layout.joists[static_cast<std::size_t>(place.joist)];
        return along(place.at, line.direction) == position;
      });
      if (!stands) {
        errors.add(where + "/positions",
                   fmt::format("a support at {} stands beyond the ends of {}",
                               record::said(errors.units(), position), quote(group.under)),
                   "positions along the piece above, measured from corner A",
                   "measure from corner A again");
      }
    }
  }
}

/// Where a wall's centre line crosses the joist, within the joist's length.
bool wall_crosses(const record::Wall& wall, const PieceLine& joist) {
  const Axis axis = joist.direction;
  const Point a = at_along(axis, joist.from, joist.position);
  const Point b = at_along(axis, joist.to, joist.position);
  return distance_between_segments(a, b, wall.from, wall.to) <= 0.5 * wall.width;
}

bool crosses(const PieceLine& line, const PieceLine& joist, Length beyond) {
  return line.direction != joist.direction && line.from - slack <= joist.position &&
         joist.position <= line.to + slack && joist.from - beyond <= line.position &&
         line.position <= joist.to + beyond;
}

bool near_end(const PieceLine& joist, Length position) {
  return abs(position - joist.from) <= end_reach || abs(position - joist.to) <= end_reach;
}

/// What lies at the end of a joist.
struct Met {
  bool anything = false;  ///< bearer, ledger or rim
  bool hung = false;      ///< ledger or flush bearer: nothing rests there by itself
};

// A joist cannot hang on nothing, nor end free where it meets a ledger.
void check_hold(const record::Survey& survey, const PieceLine& joist, bool at_start, const Met& met,
                ErrorList& errors) {
  const auto source = static_cast<std::size_t>(joist.source);
  const char* const end = at_start ? "start" : "end";
  const record::EndHold* hold =
      at_start ? &survey.deck.joists[source].start : &survey.deck.joists[source].end;
  std::string pointer = place_of("/deck/joists", source, std::string(end) + "/held");
  for (std::size_t i = 0; i < survey.deck.joist_ends.size(); ++i) {
    const record::JoistEnd& own = survey.deck.joist_ends[i];
    if (own.joist != joist.id || own.at_start != at_start) continue;
    hold = &own.hold;
    pointer = place_of("/deck/joist_ends", i, "hold/held");
  }
  if (!hold->held.is_value() || reported(errors, pointer)) return;
  const record::Hold held = hold->held.value();
  if ((held == record::Hold::hanger || held == record::Hold::ledger_strip) && !met.anything) {
    errors.add(pointer,
               fmt::format("\"{}\" at the {} of joist {}, where no ledger, bearer or rim is",
                           record::written_word(held), end, quote(joist.id)),
               fmt::format("a ledger, flush bearer or rim within {} of the end",
                           record::said(errors.units(), end_reach)),
               "record what it hangs on, or \"held\": \"free\" for an overhang");
  }
  if (held == record::Hold::free && met.hung) {
    errors.add(pointer,
               fmt::format("\"free\" at the {} of joist {}, where it meets a ledger or flush "
                           "bearer (/deck/ledgers, /deck/bearers)",
                           end, quote(joist.id)),
               "how it is held there, or \"unknown\"",
               "look, or correct the place of the one or the other");
  }
}

}  // namespace

void check_places(const record::Survey& survey, const Layout& layout, ErrorList& errors) {
  check_joist_places(survey, layout, errors);
  check_lines(survey, layout.bearers, survey.deck.bearers, "/deck/bearers", errors);
  check_lines(survey, layout.ledgers, survey.deck.ledgers, "/deck/ledgers", errors);
  check_splices(survey, layout, errors);
  check_fixing_heights(survey, errors);
  check_blocking(survey, layout, errors);
  check_support_places(survey, layout, errors);
  for (std::size_t i = 0; i < survey.deck.condition.size(); ++i) {
    const record::Condition& condition = survey.deck.condition[i];
    const std::string where = place_of("/deck/condition", i);
    if (!condition.to || reported(errors, where)) continue;
    std::optional<Length> longest;
    for (const auto* lines : {&layout.joists, &layout.bearers, &layout.ledgers}) {
      for (const PieceLine& line : *lines) {
        const auto source = static_cast<std::size_t>(line.source);
        const std::string& group = lines == &layout.joists    ? survey.deck.joists[source].name
                                   : lines == &layout.bearers ? survey.deck.bearers[source].name
                                                              : survey.deck.ledgers[source].name;
        if (line.id != condition.piece && group != condition.piece) continue;
        longest = max(longest.value_or(Length()), line.to - line.from);
      }
    }
    if (longest && *longest + slack < *condition.to) {
      errors.add(where + "/to",
                 fmt::format("{} is beyond the end of {}, which is {} long",
                             record::said(errors.units(), *condition.to), quote(condition.piece),
                             record::said(errors.units(), *longest)),
                 "a stretch along the piece, measured from its start", "measure it again");
    }
  }
}

void check_carried(const record::Survey& survey, const Layout& layout, ErrorList& errors) {
  const record::DeckRecord& deck = survey.deck;
  for (std::size_t i = 0; i < deck.walls.size(); ++i) {
    const bool carries = std::ranges::any_of(
        layout.joists, [&](const PieceLine& joist) { return wall_crosses(deck.walls[i], joist); });
    if (carries || reported(errors, place_of("/deck/walls", i))) continue;
    errors.add(
        place_of("/deck/walls", i),
        fmt::format("no joist (/deck/joists) crosses the wall {}", quote(deck.walls[i].name)),
        "a wall or strip that carries joists", "measure it from corner A again, or delete it");
  }
  std::vector<bool> on_support(layout.joists.size(), false);
  for (const SupportPlace& support : layout.supports) {
    if (support.joist >= 0) on_support[static_cast<std::size_t>(support.joist)] = true;
  }
  for (std::size_t j = 0; j < layout.joists.size(); ++j) {
    const PieceLine& joist = layout.joists[j];
    const record::Joists& group = deck.joists[static_cast<std::size_t>(joist.source)];
    bool carried = on_support[j];
    Met start, end;
    const auto meets = [&](Length position, bool hung) {
      carried = true;
      for (const auto& [met, at] : {std::pair(&start, joist.from), std::pair(&end, joist.to)}) {
        if (abs(position - at) > end_reach) continue;
        met->anything = true;
        met->hung = met->hung || hung;
      }
    };
    for (const PieceLine& bearer : layout.bearers) {
      const auto index = static_cast<std::size_t>(bearer.source);
      const bool flush = deck.bearers[index].joists == record::JoistsSit::flush;
      if (!crosses(bearer, joist, flush ? end_reach : slack)) continue;
      if (flush && !near_end(joist, bearer.position) &&
          !reported(errors, place_of("/deck/bearers", index, "joists"))) {
        errors.add(place_of("/deck/bearers", index, "joists"),
                   fmt::format("joist {} passes through the flush bearer {}", quote(joist.id),
                               quote(bearer.id)),
                   fmt::format("joists that end at a flush bearer ({})",
                               place_of("/deck/joists", static_cast<std::size_t>(joist.source))),
                   "record the joists on either side as two groups, or write \"on top\"");
      }
      meets(bearer.position, flush);
    }
    for (const PieceLine& ledger : layout.ledgers) {
      if (crosses(ledger, joist, end_reach) && near_end(joist, ledger.position)) {
        meets(ledger.position, true);
      }
    }
    for (const record::Wall& wall : deck.walls) carried = carried || wall_crosses(wall, joist);
    for (const record::Rim& rim : deck.rims) {
      if (rim.joists != group.name) continue;
      carried = true;
      (rim.at_start ? start : end).anything = true;
    }
    const std::string where = place_of("/deck/joists", static_cast<std::size_t>(joist.source));
    if (!carried) {
      errors.add(where, fmt::format("joist {} rests on nothing", quote(joist.id)),
                 "joists carried by a bearer, ledger, wall, support or rim",
                 "record what carries it, or correct its place");
      continue;
    }
    check_hold(survey, joist, true, start, errors);
    check_hold(survey, joist, false, end, errors);
  }
}

void check_footings(const record::Survey& survey, const Layout& layout, ErrorList& errors) {
  struct Pad {
    const SupportPlace* place;
    Length half_x, half_y;
  };
  std::vector<Pad> pads;
  for (const SupportPlace& place : layout.supports) {
    const record::Footing& footing =
        survey.deck.supports[static_cast<std::size_t>(place.source)].footing;
    const auto half = [](const Fact<Length>& size) {
      return size.is_known() ? 0.5 * size.low() : Length();
    };
    pads.push_back({&place, half(footing.width), half(footing.length)});
  }
  std::ranges::stable_sort(pads, {}, [](const Pad& pad) { return pad.place->at.x - pad.half_x; });
  for (std::size_t i = 0; i < pads.size(); ++i) {
    for (std::size_t k = i + 1; k < pads.size(); ++k) {
      const Pad &a = pads[i], &b = pads[k];
      if (a.place->at.x + a.half_x + slack < b.place->at.x - b.half_x) break;
      const Length x = a.half_x + b.half_x - abs(a.place->at.x - b.place->at.x);
      const Length y = a.half_y + b.half_y - abs(a.place->at.y - b.place->at.y);
      const bool same = a.place->at == b.place->at;
      if (!same && (x <= slack || y <= slack)) continue;
      const SupportPlace& first = *a.place;
      const SupportPlace& second = *b.place;
      const bool in_order = first.source <= second.source;
      const SupportPlace& earlier = in_order ? first : second;
      const SupportPlace& later = in_order ? second : first;
      const auto at = [](const SupportPlace& place) {
        return place_of("/deck/supports", static_cast<std::size_t>(place.source));
      };
      errors.add(
          at(later),
          same ? fmt::format("supports {} and {} ({}) stand on the same point", quote(earlier.id),
                             quote(later.id), at(earlier))
               : fmt::format("the footings of {} and {} ({}) overlap by {} x {}", quote(earlier.id),
                             quote(later.id), at(earlier), record::said(errors.units(), x),
                             record::said(errors.units(), y)),
          "footings beside each other; they may touch",
          "measure again; give each support its own share of a common strip");
    }
  }
}

}  // namespace underprop::deck
