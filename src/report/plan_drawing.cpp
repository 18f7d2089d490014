#include "drawing.hpp"
#include "words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace underprop::report {

using deck::Deck;

const char* shade(double utilisation) {
  if (assessment::fails(utilisation)) return "u5";
  if (utilisation > 0.90) return "u4";
  if (utilisation > 0.75) return "u3";
  return utilisation > 0.50 ? "u2" : "u1";
}

namespace {

Looks looks_of(const std::map<std::string, double>& worst) {
  return [&worst](const std::string& piece) -> Look {
    const auto found = worst.find(piece);
    if (found == worst.end()) return {"u0", ""};
    const std::string css = shade(found->second);
    return {css, css == "u5" ? "fill=\"url(#plan-over)\"" : ""};
  };
}

struct Label {
  std::string piece;
  double x, y;
  std::string anchor;
};

/// Piece, and its utilisation under it; thinned out where there is no room, the worst always there.
void write_labels(Svg& svg, const std::vector<Label>& labels,
                  const std::map<std::string, double>& worst, bool beside) {
  double spacing = 1e9;
  for (std::size_t i = 1; i < labels.size(); ++i) {
    const double gap =
        beside ? std::abs(labels[i].y - labels[i - 1].y) : std::abs(labels[i].x - labels[i - 1].x);
    if (gap > 1.0) spacing = std::min(spacing, gap);
  }
  const double room = beside ? 15.0 : 32.0;
  const auto step = static_cast<std::size_t>(std::clamp(std::ceil(room / spacing), 1.0, 50.0));
  for (std::size_t i = 0; i < labels.size(); i += step) {
    const Label& label = labels[i];
    const auto found = worst.find(label.piece);
    const std::string use = found == worst.end() ? "" : shown_utilisation(found->second);
    if (beside) {
      svg.text(label.x, label.y + 4, use.empty() ? label.piece : label.piece + "  " + use,
               "small halo", label.anchor);
    } else {
      svg.text(label.x, label.y - 17, label.piece, "halo", label.anchor);
      svg.text(label.x, label.y - 5, use, "small halo", label.anchor);
    }
  }
}

void label_members(Svg& svg, const Deck& deck, const std::map<std::string, double>& worst) {
  std::vector<Label> above, right;
  const auto add = [&](const std::string& id, Axis direction, Length position, Length to) {
    const Point end = on(direction, position, to);
    if (direction == Axis::y) {
      above.push_back({id, svg.x(end.x.value()), svg.y(end.y.value()), "middle"});
    } else {
      right.push_back({id, svg.x(end.x.value()) + 6, svg.y(end.y.value()), "start"});
    }
  };
  for (const deck::Joist& joist : deck.joists) {
    add(joist.id, joist.direction, joist.position, joist.to);
  }
  for (const deck::Bearer& bearer : deck.bearers) {
    add(bearer.id, bearer.direction, bearer.position, bearer.to);
  }
  for (const deck::Ledger& ledger : deck.ledgers) {
    add(ledger.id, ledger.direction, ledger.position, ledger.to);
  }
  const auto order = [](const Label& a, const Label& b) {
    return a.x != b.x ? a.x < b.x : a.y < b.y;
  };
  std::stable_sort(above.begin(), above.end(), order);
  std::stable_sort(right.begin(), right.end(),
                   [](const Label& a, const Label& b) { return a.y < b.y; });
  write_labels(svg, above, worst, false);
  write_labels(svg, right, worst, true);
}

/// The place nearest to x where a label has room between two joists; x itself if there is none.
double clear_of(const std::vector<double>& joists, double x) {
  constexpr double room = 44.0;
  double best = x, least = 1e9;
  bool covered = false;
  for (std::size_t i = 0; i < joists.size(); ++i) {
    covered = covered || std::abs(joists[i] - x) < room / 2.0;
    if (i + 1 == joists.size() || joists[i + 1] - joists[i] < room) continue;
    const double middle = (joists[i] + joists[i + 1]) / 2.0;
    if (std::abs(middle - x) < least) {
      least = std::abs(middle - x);
      best = middle;
    }
  }
  return covered && least < 2.0 * room ? best : x;
}

void label_pads(Svg& svg, const Deck& deck, const std::vector<assessment::Reaction>& reactions,
                UnitSystem units) {
  std::map<std::string, Force> force;
  Force largest;
  for (const assessment::Reaction& reaction : reactions) {
    force[reaction.support] = reaction.characteristic;
    largest = max(largest, reaction.characteristic);
  }
  double spacing = 1e9;
  for (std::size_t i = 0; i < deck.supports.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      const Point a = deck.supports[i].at, b = deck.supports[k].at;
      const double dx = std::abs((a.x - b.x).value()) * svg.scale();
      const double dy = std::abs((a.y - b.y).value()) * svg.scale();
      if (dy < 28.0) spacing = std::min(spacing, dx);
    }
  }
  const bool crowded = spacing < 44.0;
  std::vector<double> joists;
  for (const deck::Joist& joist : deck.joists) {
    if (joist.direction == Axis::y) joists.push_back(svg.x(joist.position.value()));
  }
  std::sort(joists.begin(), joists.end());
  for (const deck::Support& support : deck.supports) {
    const auto found = force.find(support.id);
    if (crowded && (found == force.end() || found->second < 0.5 * largest)) continue;
    const double x = clear_of(joists, svg.x(support.at.x.value()));
    const double y = svg.y(support.at.y.value() - support.footing.length.value() / 2.0);
    svg.text(x, y + 12, support.id, "small halo", "middle");
    if (found != force.end() && !crowded) {
      svg.text(x, y + 24, format_force(found->second, units), "small halo", "middle");
    }
  }
}

void draw_key(Svg& svg) {
  constexpr std::array<std::pair<const char*, const char*>, 6> entries{{{"u0", "no finding"},
                                                                        {"u1", "to 0.50"},
                                                                        {"u2", "to 0.75"},
                                                                        {"u3", "to 0.90"},
                                                                        {"u4", "to 1.00"},
                                                                        {"u5", "over 1.00"}}};
  double x = 14.0;
  const double y = svg.height() - 20.0;
  for (const auto& [css, words] : entries) {
    svg.rect(x, y, 24, 10, css, std::string_view(css) == "u5" ? "fill=\"url(#plan-over)\"" : "");
    svg.text(x + 30, y + 9, words, "small");
    x += std::string_view(css) == "u0" ? 106 : 88;
  }
}

}  // namespace

std::map<std::string, double> worst_by_piece(const assessment::Assessment& assessment) {
  std::map<std::string, double> worst;
  // Worst first, so that the first finding of a piece is its governing one.
  for (const assessment::Finding* finding : findings_of(assessment)) {
    if (finding->kind == assessment::Kind::safety) {
      worst.emplace(finding->piece, finding->check.utilisation);
    }
  }
  return worst;
}

std::string plan_drawing(const Deck& deck, const assessment::Assessment& assessment,
                         UnitSystem units) {
  const Box box = extent_of(deck);
  if (box.empty) return "";
  const std::map<std::string, double> worst = worst_by_piece(assessment);
  Svg::Margins margins = plan_margins();
  margins.bottom += 10.0;
  Svg svg(box, 900.0, 860.0, margins);
  draw_patterns(svg, "plan");
  draw_ground(svg, deck, "plan");
  draw_pieces(svg, deck, looks_of(worst));
  draw_loads(svg, deck);
  label_pads(svg, deck, assessment.shown.reactions, units);
  label_members(svg, deck, worst);
  draw_dimensions(svg, deck, units, true);
  draw_key(svg);
  std::string title = "Plan of the deck to scale, seen from above, corner A at the lower left.";
  if (assessment.governing) {
    title += fmt::format(" The piece nearest its limit is {}, {}, utilisation {}.",
                         assessment.governing->piece, assessment.governing->check.check,
                         shown_utilisation(assessment.governing->check.utilisation));
  }
  return svg.finish("plan", title);
}

}  // namespace underprop::report
