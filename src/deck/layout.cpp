#include "layout.hpp"
#include "underprop/deck/pieces.hpp"
#include "underprop/record/standard_facts.hpp"

#include "underprop/base/format.hpp"

#include <algorithm>
#include <set>

namespace underprop::deck {
namespace {

// A position this close to a piece's end belongs to the piece: rounding when a tape is read.
constexpr Length touch = mm(1.0);

std::string length_text(const record::Survey& survey, Length length) {
  return format_length(length, record::facts_of(survey.standard).units);
}

// The stretches of a line inside the outline, limited by from and to where they are recorded.
std::vector<Interval> stretches(const record::Survey& survey, Axis direction, Length position,
                                const std::optional<Length>& from,
                                const std::optional<Length>& to) {
  std::vector<Interval> found = line_intervals(survey.deck.outline, direction, position);
  if (found.empty()) {  // a hair outside
    found = line_intervals(survey.deck.outline, direction, position + touch);
    if (found.empty()) {
      found = line_intervals(survey.deck.outline, direction, position - touch);
    }
  }
  std::vector<Interval> result;
  for (Interval i : found) {
    if (from) i.low = max(i.low, *from);
    if (to) i.high = min(i.high, *to);
    if (i.low < i.high) result.push_back(i);
  }
  return result;
}

// Takes out what is too short for a piece and says so.
void take_slivers(const record::Survey& survey, Layout& layout, const std::string& what, int source,
                  Length position, std::vector<Interval>& found, std::vector<Sliver>& slivers) {
  std::erase_if(found, [&](const Interval& i) {
    const Length length = i.high - i.low;
    if (length >= least_piece()) return false;
    slivers.push_back({source, position, length});
    layout.left_out.push_back("a stretch of " + what + " is only " + length_text(survey, length) +
                              " long and counts for nothing");
    return true;
  });
}

void add_single(const record::Survey& survey, Layout& layout, std::vector<PieceLine>& lines,
                std::vector<Sliver>& slivers, const std::string& name, int source, Axis direction,
                Length position, const std::optional<Length>& from,
                const std::optional<Length>& to) {
  auto found = stretches(survey, direction, position, from, to);
  const bool outside = found.empty();
  take_slivers(survey, layout, name, source, position, found, slivers);
  if (outside) {
    layout.left_out.push_back(name + " lies outside the outline and counts for nothing");
  }
  for (std::size_t i = 0; i < found.size(); ++i) {
    const std::string id = found.size() == 1 ? name : name + "-" + std::to_string(i + 1);
    lines.push_back({id, source, direction, position, found[i].low, found[i].high});
  }
}

void lay_joists(const record::Survey& survey, Layout& layout) {
  for (std::size_t g = 0; g < survey.deck.joists.size(); ++g) {
    const record::Joists& group = survey.deck.joists[g];
    std::vector<Length> positions = group.positions;
    std::stable_sort(positions.begin(), positions.end());
    int index = 0;
    for (const Length position : positions) {
      auto found = stretches(survey, group.direction, position, group.from, group.to);
      const std::string what =
          "the joist of " + group.name + " at " + length_text(survey, position);
      const bool outside = found.empty();
      take_slivers(survey, layout, what, static_cast<int>(g), position, found,
                   layout.joist_slivers);
      if (outside) {
        layout.left_out.push_back(what + " lies outside the outline and counts for nothing");
      }
      for (const Interval& i : found) {
        layout.joists.push_back({group.name + std::to_string(++index), static_cast<int>(g),
                                 group.direction, position, i.low, i.high});
      }
    }
  }
}

void lay_supports(const record::Survey& survey, Layout& layout) {
  for (std::size_t g = 0; g < survey.deck.supports.size(); ++g) {
    const record::Supports& group = survey.deck.supports[g];
    std::vector<Length> positions = group.positions;
    std::stable_sort(positions.begin(), positions.end());
    int index = 0;
    const auto stand_under = [&](const PieceLine& line, Length u, int bearer, int joist) {
      layout.supports.push_back({group.name + std::to_string(++index), static_cast<int>(g),
                                 at_along(line.direction, u, line.position), bearer, joist});
    };
    const auto reaches = [](const PieceLine& line, Length u) {
      return line.from - touch <= u && u <= line.to + touch;
    };
    bool bearer_found = false;
    for (const record::Bearer& bearer : survey.deck.bearers) {
      bearer_found = bearer_found || bearer.name == group.under;
    }
    if (bearer_found) {
      for (const Length u : positions) {
        bool placed = false;
        for (std::size_t b = 0; b < layout.bearers.size() && !placed; ++b) {
          const PieceLine& line = layout.bearers[b];
          const auto source = static_cast<std::size_t>(line.source);
          if (survey.deck.bearers[source].name != group.under || !reaches(line, u)) continue;
          stand_under(line, u, static_cast<int>(b), -1);
          placed = true;
        }
        if (!placed) {
          layout.left_out.push_back("the support of " + group.name + " at " +
                                    length_text(survey, u) + " stands beyond the end of " +
                                    group.under + " and counts for nothing");
        }
      }
      continue;
    }
    const std::set<std::string> only(group.only.begin(), group.only.end());
    for (std::size_t j = 0; j < layout.joists.size(); ++j) {
      const PieceLine& line = layout.joists[j];
      const bool of_group =
          survey.deck.joists[static_cast<std::size_t>(line.source)].name == group.under;
      // "under" may also name one joist.
      if (!of_group && line.id != group.under) continue;
      if (!only.empty() && only.count(line.id) == 0) continue;
      for (const Length u : positions) {
        if (reaches(line, u)) stand_under(line, u, -1, static_cast<int>(j));
      }
    }
    if (index == 0) {
      layout.left_out.push_back("the supports of " + group.name + " reach no joist of " +
                                group.under + " and count for nothing");
    }
  }
}

}  // namespace

Length least_piece() { return mm(record::resolving_rule("piece/least_length").number); }

Layout lay_out(const record::Survey& survey) {
  Layout layout;
  lay_joists(survey, layout);
  for (std::size_t i = 0; i < survey.deck.bearers.size(); ++i) {
    const record::Bearer& b = survey.deck.bearers[i];
    add_single(survey, layout, layout.bearers, layout.bearer_slivers, b.name, static_cast<int>(i),
               b.direction, b.position, b.from, b.to);
  }
  for (std::size_t i = 0; i < survey.deck.ledgers.size(); ++i) {
    const record::Ledger& l = survey.deck.ledgers[i];
    add_single(survey, layout, layout.ledgers, layout.ledger_slivers, l.name, static_cast<int>(i),
               l.direction, l.position, l.from, l.to);
  }
  lay_supports(survey, layout);
  return layout;
}

std::vector<PieceName> piece_names(const record::Survey& survey) {
  const Layout layout = lay_out(survey);
  const record::DeckRecord& deck = survey.deck;
  std::vector<PieceName> names;
  const auto add_lines = [&](const std::vector<PieceLine>& lines, const auto& groups,
                             PieceKind kind) {
    for (const PieceLine& line : lines) {
      names.push_back({line.id, groups[static_cast<std::size_t>(line.source)].name, kind, true});
    }
  };
  add_lines(layout.joists, deck.joists, PieceKind::joist);
  add_lines(layout.bearers, deck.bearers, PieceKind::bearer);
  add_lines(layout.ledgers, deck.ledgers, PieceKind::ledger);
  for (const record::Rim& rim : deck.rims)
    names.push_back({rim.name, rim.name, PieceKind::rim, true});
  for (const record::Blocking& row : deck.blocking) {
    names.push_back({row.name, row.name, PieceKind::blocking, true});
  }
  for (const SupportPlace& place : layout.supports) {
    const record::Supports& group = deck.supports[static_cast<std::size_t>(place.source)];
    names.push_back({place.id, group.name, PieceKind::support, group.post.has_value()});
  }
  for (const record::Wall& wall : deck.walls) {
    names.push_back({wall.name, wall.name, PieceKind::wall, false});
  }
  return names;
}

std::vector<std::string> pieces_without_place(const record::Survey& survey) {
  return lay_out(survey).left_out;
}

}  // namespace underprop::deck
