// Pieces where they can be, joists on something, footings beside each other.
#include "crossing.hpp"
#include "read_checks.hpp"

#include "record/limits.hpp"
#include "record/words.hpp"

#include "underprop/base/units.hpp"
#include "underprop/record/facts.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace underprop::deck {
namespace {

// Rounding when a tape is read.
constexpr Length slack = mm(2.0);

bool has_line(const std::vector<PieceLine>& lines, std::size_t source, Length position) {
  return std::ranges::any_of(lines, [&](const PieceLine& line) {
    return line.source == static_cast<int>(source) && line.position == position;
  });
}

/// What is laid out there, but too short for a piece of wood; nullptr if nothing.
const Sliver* sliver_at(const std::vector<Sliver>& slivers, std::size_t source, Length position) {
  const auto found = std::ranges::find_if(slivers, [&](const Sliver& sliver) {
    return sliver.source == static_cast<int>(source) && sliver.position == position;
  });
  return found == slivers.end() ? nullptr : &*found;
}

void too_short(const std::string& where, const std::string& what, Length length,
               ErrorList& errors) {
  errors.add(where, fmt::format("{} that is {} long", what, record::said(errors.units(), length)),
             fmt::format("at least {}", record::said(errors.units(), least_piece())),
             "correct \"from\", \"to\" or the outline (/deck/outline), or leave the piece out");
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
        const std::string what =
            fmt::format("a joist at {}", record::said(errors.units(), position));
        if (const Sliver* sliver = sliver_at(layout.joist_slivers, g, position)) {
          too_short(where + "/positions", what, sliver->length, errors);
        } else {
          errors.add(where + "/positions", what + " lies outside the deck's outline",
                     "centre lines inside the outline (/deck/outline)",
                     "measure from corner A again");
        }
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
                 const std::vector<Sliver>& slivers, const std::vector<T>& items,
                 std::string_view list, ErrorList& errors) {
  for (std::size_t i = 0; i < items.size(); ++i) {
    const std::string where = place_of(list, i);
    check_inside(survey, items[i].direction, items[i].from, items[i].to, where, errors);
    if (has_line(lines, i, items[i].position) || reported(errors, where)) continue;
    if (const Sliver* sliver = sliver_at(slivers, i, items[i].position)) {
      too_short(where, "a piece " + quote(items[i].name), sliver->length, errors);
      continue;
    }
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

/// The broadest that the plies of a bearer may be: what misses it then, misses it.
Length broadest_ply(const record::Survey& survey, std::size_t bearer) {
  const Fact<Length>& breadth = survey.deck.bearers[bearer].ply_breadth;
  if (breadth.is_known()) return breadth.high();
  const record::FactKind& kind = record::fact_kind("bearers/ply_breadth");
  Length broadest;
  for (const record::Reading reading :
       {record::Reading::cautious, record::Reading::likely, record::Reading::favourable}) {
    broadest = max(broadest, mm(kind.value(survey.standard, reading).number));
  }
  return broadest;
}

/// What of a survey meets and misses, with the words for it.
class Places {
public:
  Places(const record::Survey& survey, const Layout& layout, ErrorList& errors)
      : survey_(survey),
        layout_(layout),
        errors_(errors),
        pieces_(in_plan(survey, layout,
                        [&](std::size_t bearer) { return broadest_ply(survey, bearer); })),
        found_(meet(pieces_, meeting_limits())) {}

  void check() {
    walls();
    passing();
    for (std::size_t j = 0; j < layout_.joists.size(); ++j) joist(j);
  }

private:
  [[nodiscard]] const std::string& id(std::size_t joist) const { return layout_.joists[joist].id; }
  [[nodiscard]] std::string group(std::size_t joist) const {
    return place_of("/deck/joists", static_cast<std::size_t>(layout_.joists[joist].source));
  }
  [[nodiscard]] static const char* word(PieceEnd end) {
    return end == PieceEnd::start ? "start" : "end";
  }

  /// "ends 23 mm short of the bearer "B1" (/deck/bearers/0)"
  [[nodiscard]] std::string words(const Meeting& miss) const {
    std::string name, distance = record::said(errors_.units(), abs(miss.miss));
    if (miss.kind == MeetingKind::joist_on_wall) {
      name = fmt::format("the wall {} ({})", quote(survey_.deck.walls[miss.carrier].name),
                         place_of("/deck/walls", miss.carrier));
    } else {
      const bool ledger = miss.kind == MeetingKind::joist_on_ledger;
      const PieceLine& line = (ledger ? layout_.ledgers : layout_.bearers)[miss.carrier];
      const auto source = static_cast<std::size_t>(line.source);
      name = fmt::format("the {} {} ({})", ledger ? "ledger" : "bearer", quote(line.id),
                         place_of(ledger ? "/deck/ledgers" : "/deck/bearers", source));
      if (!ledger && !survey_.deck.bearers[source].ply_breadth.is_value() && miss.miss > Length())
        distance = "at least " + distance;
    }
    return miss_words(miss, name, distance);
  }

  void walls() {
    for (std::size_t w = 0; w < survey_.deck.walls.size(); ++w) {
      const auto of_wall = [&](const Meeting& m) {
        return m.kind == MeetingKind::joist_on_wall && m.carrier == w;
      };
      if (std::ranges::any_of(found_.met, of_wall)) continue;
      const std::string where = place_of("/deck/walls", w);
      if (reported(errors_, where)) continue;
      const auto miss = std::ranges::find_if(found_.missed, of_wall);
      errors_.add(where,
                  fmt::format("no joist (/deck/joists) crosses the wall {}{}",
                              quote(survey_.deck.walls[w].name),
                              miss == found_.missed.end()
                                  ? ""
                                  : fmt::format(": {} {}", quote(id(miss->piece)), words(*miss))),
                  "a wall or strip that carries joists",
                  "measure it from corner A again, or delete it");
    }
  }

  // A joist that passes what it should end at.
  void passing() {
    for (const Meeting& m : found_.missed) {
      if (m.miss >= Length()) continue;
      const bool ledger = m.kind == MeetingKind::joist_on_ledger;
      const PieceLine& line = (ledger ? layout_.ledgers : layout_.bearers)[m.carrier];
      const auto source = static_cast<std::size_t>(line.source);
      const std::string where = ledger ? place_of("/deck/ledgers", source, "position")
                                       : place_of("/deck/bearers", source, "joists");
      if (reported(errors_, where)) continue;
      if (ledger) {
        errors_.add(where,
                    fmt::format("joist {} passes the ledger {} by {}", quote(id(m.piece)),
                                quote(line.id), record::said(errors_.units(), abs(m.miss))),
                    fmt::format("joists that end at a ledger ({})", group(m.piece)),
                    "correct the place of the one or the other");
      } else {
        errors_.add(where,
                    fmt::format("joist {} passes through the flush bearer {}", quote(id(m.piece)),
                                quote(line.id)),
                    fmt::format("joists that end at a flush bearer ({})", group(m.piece)),
                    "record the joists on either side as two groups, or write \"on top\"");
      }
    }
  }

  [[nodiscard]] bool rim_at(std::size_t joist, PieceEnd end) const {
    const auto source = static_cast<std::size_t>(layout_.joists[joist].source);
    return std::ranges::any_of(survey_.deck.rims, [&](const record::Rim& rim) {
      return rim.joists == survey_.deck.joists[source].name &&
             rim.at_start == (end == PieceEnd::start);
    });
  }

  /// The miss at this end, if it stops short; none if it passes (told already).
  [[nodiscard]] std::optional<Meeting> missed(std::size_t j, PieceEnd end) const {
    const auto miss = missed_at(pieces_.joists[j], j, end, found_, meeting_limits());
    return miss && miss->miss >= Length() ? miss : std::nullopt;
  }

  void joist(std::size_t j) {
    const bool on_something = std::ranges::any_of(found_.met, [&](const Meeting& m) {
      return m.kind != MeetingKind::bearer_on_support && m.piece == j;
    });
    if (!on_something && !rim_at(j, PieceEnd::start) && !rim_at(j, PieceEnd::end)) {
      auto miss = missed(j, PieceEnd::start);
      if (!miss) miss = missed(j, PieceEnd::end);
      errors_.add(group(j),
                  fmt::format("joist {} rests on nothing{}", quote(id(j)),
                              miss ? ": it " + words(*miss) : ""),
                  "joists carried by a bearer, ledger, wall, support or rim",
                  "record what carries it, or correct its place");
      return;
    }
    check_hold(j, PieceEnd::start);
    check_hold(j, PieceEnd::end);
  }

  // A joist cannot hang or rest on nothing, nor end free where it meets a ledger.
  void check_hold(std::size_t j, PieceEnd end) {
    const bool at_start = end == PieceEnd::start;
    const auto source = static_cast<std::size_t>(layout_.joists[j].source);
    const record::Joists& own_group = survey_.deck.joists[source];
    const record::EndHold* hold = at_start ? &own_group.start : &own_group.end;
    std::string pointer = place_of("/deck/joists", source, std::string(word(end)) + "/held");
    for (std::size_t i = 0; i < survey_.deck.joist_ends.size(); ++i) {
      const record::JoistEnd& own = survey_.deck.joist_ends[i];
      if (own.joist != id(j) || own.at_start != at_start) continue;
      hold = &own.hold;
      pointer = place_of("/deck/joist_ends", i, "hold/held");
    }
    if (reported(errors_, pointer)) return;
    const std::optional<record::Hold> held =
        hold->held.is_value() ? std::optional(hold->held.value()) : std::nullopt;
    const std::vector<Meeting> framed = framed_at(found_.met, j, end);
    if (held == record::Hold::free) {
      if (framed.empty()) return;
      errors_.add(pointer,
                  fmt::format("\"free\" at the {} of joist {}, where it meets a ledger or flush "
                              "bearer (/deck/ledgers, /deck/bearers)",
                              word(end), quote(id(j))),
                  "how it is held there, or \"unknown\"",
                  "look, or correct the place of the one or the other");
      return;
    }
    if (const auto miss = missed_by(j, end, held)) {
      errors_.add(pointer,
                  held ? fmt::format("{} at the {} of joist {}, which {}",
                                     quote(record::written_word(*held)), word(end), quote(id(j)),
                                     words(*miss))
                       : fmt::format("the {} of joist {}, held in a way not known, {}", word(end),
                                     quote(id(j)), words(*miss)),
                  "an end that reaches what carries it",
                  "correct the place of the one or the other, or record \"held\": \"free\" if "
                  "nothing carries it there");
      return;
    }
    const bool hung = held == record::Hold::hanger || held == record::Hold::ledger_strip;
    if (hung && !rim_at(j, end) &&
        !carried_at(pieces_.joists[j], j, end, found_.met, meeting_limits())) {
      errors_.add(pointer,
                  fmt::format("\"{}\" at the {} of joist {}, where no ledger, bearer or rim is",
                              record::written_word(*held), word(end), quote(id(j))),
                  fmt::format("a ledger, flush bearer or rim within {} of the end",
                              record::said(errors_.units(), meeting_limits().hung_gap)),
                  "record what it hangs on, or \"held\": \"free\" for an overhang");
    }
  }

  /// What this end does not reach although it is held as if it did.
  [[nodiscard]] std::optional<Meeting> missed_by(std::size_t j, PieceEnd end,
                                                 std::optional<record::Hold> held) const {
    if (held == record::Hold::resting) {
      // What rests needs wood below it, also on a ledger or a flush bearer.
      for (const Meeting& m : framed_at(found_.met, j, end)) {
        if (m.overlap <= Length()) return m;
      }
    } else if (held && is_fastened(*held)) {
      if (rim_at(j, end)) return std::nullopt;
      // A bearer on which it lies nearby is not what it hangs on.
      const auto of_side = [&](const Meeting& m) {
        return at_side(m.kind) && m.piece == j && m.end == end && m.miss >= Length();
      };
      const auto side = std::ranges::find_if(found_.missed, of_side);
      if (framed_at(found_.met, j, end).empty() && side != found_.missed.end()) return *side;
    }
    return missed(j, end);
  }

  const record::Survey& survey_;
  const Layout& layout_;
  ErrorList& errors_;
  PiecesInPlan pieces_;
  Meetings found_;
};

}  // namespace

void check_places(const record::Survey& survey, const Layout& layout, ErrorList& errors) {
  check_joist_places(survey, layout, errors);
  check_lines(survey, layout.bearers, layout.bearer_slivers, survey.deck.bearers, "/deck/bearers",
              errors);
  check_lines(survey, layout.ledgers, layout.ledger_slivers, survey.deck.ledgers, "/deck/ledgers",
              errors);
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
  Places(survey, layout, errors).check();
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
