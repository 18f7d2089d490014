// One board under one person, or a stated span where boards do not share: beside the load, and elsewhere.
#include "figures.hpp"
#include "findings.hpp"
#include "model/layout.hpp"
#include "standards/sheet.hpp"
#include "underprop/base/geometry.hpp"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

namespace underprop::assessment {

namespace {

struct Widest {
  double gap = 0.0;  ///< mm
  Point at;
  void take(double other, Point where) {
    if (other > gap) *this = {other, where};
  }
};

/// The widest spaces between joists that a board spans.
class BoardSpans {
public:
  explicit BoardSpans(const deck::Deck& deck)
      : deck_(deck), carried_(model::carried_by_sisters(deck)) {
    std::vector<std::pair<double, std::size_t>> across;
    for (std::size_t j = 0; j < deck.joists.size(); ++j) {
      const deck::Joist& joist = deck.joists[j];
      if (!gone(j, joist.from, joist.to)) across.emplace_back(joist.position.value(), j);
    }
    std::sort(across.begin(), across.end());
    for (const auto& [position, j] : across) across_.push_back(j);
    for (std::size_t k = 0; k + 1 < across_.size(); ++k) {
      const deck::Joist& a = joist(k);
      const deck::Joist& b = joist(k + 1);
      take(a, b, max(a.from, b.from), min(a.to, b.to));
    }
    over_absent_stretches();
    free_ends();
  }

  Widest near_load, anywhere;
  Widest end_near_load, end_anywhere;  ///< beyond the last joist

private:
  [[nodiscard]] const deck::Joist& joist(std::size_t k) const { return deck_.joists[across_[k]]; }
  /// Boards find nothing to lie on where a joist is absent, unless sisters carry in its place.
  [[nodiscard]] bool gone(std::size_t j, Length low, Length high) const {
    const deck::Joist& joist = deck_.joists[j];
    return !carried_[j] &&
           std::any_of(joist.absent.begin(), joist.absent.end(), [&](const deck::Stretch& part) {
             return joist.from + part.from <= low + mm(1.0) &&
                    joist.from + part.to >= high - mm(1.0);
           });
  }
  void take(const deck::Joist& a, const deck::Joist& b, Length from, Length to) {
    if (!(to > from)) return;
    const double gap = (b.position - a.position).value();
    const Length middle = (a.position + b.position) / 2.0;
    const Point at = at_along(a.direction, (from + to) / 2.0, middle);
    const bool near = std::any_of(deck_.loads.begin(), deck_.loads.end(), [&](const auto& load) {
      return distance_to_segment(load.footprint, at_along(a.direction, from, middle),
                                 at_along(a.direction, to, middle)) <= reach_;
    });
    if (near) near_load.take(gap, at);
    anywhere.take(gap, at);
  }
  /// There boards reach from the neighbour before to the neighbour after.
  void over_absent_stretches() {
    for (std::size_t k = 0; k < across_.size(); ++k) {
      if (carried_[across_[k]]) continue;
      for (const deck::Stretch& part : joist(k).absent) {
        const Length from = joist(k).from + part.from, to = joist(k).from + part.to;
        std::size_t before = k, after = k;
        while (before > 0 && (before == k || gone(across_[before], from, to))) --before;
        while (after + 1 < across_.size() && (after == k || gone(across_[after], from, to)))
          ++after;
        if (before < k && after > k) take(joist(before), joist(after), from, to);
      }
    }
  }

  /// Of each board, from its last joist's middle to its end; less than half a joist is no free end.
  void free_ends() {
    model::Plan plan(deck_);
    plan.lay_out();
    for (const model::BoardPlace& board : plan.boards()) {
      if (board.joists.empty()) continue;
      const auto end = [&](double free, int last, double t) {
        if (free <= deck_.joists[static_cast<std::size_t>(last)].breadth.value() / 2.0) return;
        const Point tip = at_along(plan.along(), mm(board.s), mm(t));
        end_anywhere.take(free, tip);
        const bool near =
            std::any_of(deck_.loads.begin(), deck_.loads.end(),
                        [&](const auto& load) { return distance(load.footprint, tip) <= reach_; });
        if (near) end_near_load.take(free, tip);
      };
      end(board.before, board.joists.front(), board.from);
      end(board.beyond, board.joists.back(), board.to);
    }
  }

  const deck::Deck& deck_;
  Length reach_ = mm(figure("board_reach_mm"));
  std::vector<bool> carried_;
  std::vector<std::size_t> across_;  ///< joists, across the deck
};

/// None, and a reason to refer, where nothing says what the boards are worth.
std::optional<Finding> board_finding(const LoadedDeck& loaded, const Widest& span, bool end,
                                     const char* where, DeckAssessment& result) {
  const deck::Boards& boards = loaded.deck().boards;
  const standards::Standard& standard = loaded.standard();
  if (boards.stated_span) {
    const Citation source{"common-practice", "the maker's stated joist spacing"};
    if (end) {
      // The maker's span says what moment a board bears: P a = 13/64 P s of two spans, one loaded.
      const Citation same{"beam-formulas",
                          "P a of a cantilever equal to 13/64 P s of two equal spans, one loaded "
                          "at its centre"};
      standards::Sheet sheet(standards::CheckKind::board_overhang, {length_unit(standard), 1.0});
      sheet.taken("a", "beyond the last joist", in_length_unit(standard, mm(span.gap)),
                  length_unit(standard), {});
      sheet.taken("s", "stated span", in_length_unit(standard, *boards.stated_span),
                  length_unit(standard), source);
      sheet.line("a_max", "13/64 s", length_unit(standard), same);
      return plain_finding("boards", sheet.finish("a", "a_max", same), where, span.at, "any");
    }
    standards::Sheet sheet(standards::CheckKind::stated_board_span, {length_unit(standard), 1.0});
    sheet.taken("s", "spacing of the joists", in_length_unit(standard, mm(span.gap)),
                length_unit(standard), {});
    sheet.taken("s_max", "stated span", in_length_unit(standard, *boards.stated_span),
                length_unit(standard), source);
    return plain_finding("boards", sheet.finish("s", "s_max", source), "between joists", span.at,
                         "any");
  }
  if (boards.material != record::BoardMaterial::softwood &&
      boards.material != record::BoardMaterial::hardwood) {
    result.refer_reasons.push_back(
        "boards of composite or aluminium without a stated span: their strength is not known");
    return std::nullopt;
  }
  if (end) {
    standards::Check check =
        standard.board_overhang(loaded.basis().timbers.boards, boards.width, boards.thickness,
                                mm(span.gap), loaded.basis().values.concentrated);
    check.call(standards::CheckKind::board_overhang);
    return plain_finding("boards", std::move(check), where, span.at,
                         "a person stands on the end of one board");
  }
  const bool jointed = boards.joints == record::BoardJoints::staggered;
  standards::Check check =
      standard.board_point_load(loaded.basis().timbers.boards, boards.width, boards.thickness,
                                mm(span.gap), !jointed, loaded.basis().values.concentrated);
  check.call(standards::CheckKind::person_on_board);
  return plain_finding("boards", std::move(check), where, span.at, "a person steps on one board");
}

}  // namespace

void board_findings(const LoadedDeck& deck, DeckAssessment& result) {
  const BoardSpans spans(deck.deck());
  const auto tell = [&](const Widest& near_load, const Widest& anywhere, bool end,
                        const std::string& id) {
    if (near_load.gap > 0.0) {
      const char* where = end ? "beyond the last joist" : "beside the load";
      if (auto f = board_finding(deck, near_load, end, where, result)) {
        f->id = id;
        result.findings.push_back(std::move(*f));
      }
    }
    if (!(anywhere.gap > near_load.gap)) return;
    auto f = board_finding(deck, anywhere, end, "anywhere on the deck", result);
    if (f && deck.deck().loads.empty()) {
      f->id = id;
      result.findings.push_back(std::move(*f));
      return;
    }
    if (!f || !fails(f->check.utilisation)) return;
    f->kind = Kind::ordinary_use;
    f->id = id + ", away from the load";
    // Where it was put before: the first of what fails in ordinary use.
    result.ordinary_use.insert(result.ordinary_use.begin(), std::move(*f));
  };
  tell(spans.near_load, spans.anywhere, false, "boards/one person on one board");
  tell(spans.end_near_load, spans.end_anywhere, true, "boards/one person on the end of a board");
}

std::optional<Stop> boards_fail(const LoadedDeck& deck, double most) {
  DeckAssessment boards;
  board_findings(deck, boards);
  for (const Finding& f : boards.findings) {
    if (f.check.utilisation > most * (1.0 + standards::same_number))
      return Stop{f.check.utilisation, f.piece, f.check.check};
  }
  return std::nullopt;
}

}  // namespace underprop::assessment
