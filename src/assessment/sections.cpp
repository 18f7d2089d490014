#include "sections.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace underprop::assessment {

namespace {

/// What carries a piece at one place of it.
struct Carrier {
  double at = 0.0;     ///< along the line, mm
  double half = 0.0;   ///< half of the contact, mm
  bool under = false;  ///< wood or concrete pushing from below
};

constexpr double beside = 1.0;  // mm

std::size_t node_at(const model::Line& line, double at) {
  const auto nearer = [&](double a, double b) { return std::abs(a - at) < std::abs(b - at); };
  return static_cast<std::size_t>(std::min_element(line.at.begin(), line.at.end(), nearer) -
                                  line.at.begin());
}

/// The stretches of a piece that are weakened. `carriers`: where a notch below is a notched end, with x to
/// its corner on either side of the reaction's line.
std::vector<Section> sections_of(const deck::Piece& piece, Length from, Length to, Length breadth,
                                 Length depth, const std::vector<Carrier>& carriers) {
  std::vector<Section> list;
  const double start = from.value(), length = (to - from).value(), h = depth.value();
  std::vector<double> ends{start, start + length};
  for (const Carrier& carrier : carriers) ends.push_back(carrier.at);
  std::sort(ends.begin(), ends.end());
  for (const deck::Notch& notch : piece.notches) {
    Section section;
    section.from = start + notch.from.value();
    section.to = start + notch.to.value();
    section.what = notch.cut == deck::Cut::hole ? "hole" : "notch";
    standards::Weakening& weak = section.weakening;
    weak.breadth = breadth;
    weak.depth = depth;
    weak.lost = notch.depth;
    weak.kind = notch.cut == deck::Cut::hole    ? standards::WeakKind::hole
                : notch.cut == deck::Cut::above ? standards::WeakKind::notch_above
                                                : standards::WeakKind::notch_below;
    const bool a_place = notch.to - notch.from < mm(1.0);
    // Of a place, how far the cut runs is not recorded: a hole is round, a notch as long as deep.
    if (a_place) {
      const double half =
          notch.depth.value() * (weak.kind == standards::WeakKind::hole ? 0.5 : 1.0);
      section.from -= half;
      section.to += half;
    }
    weak.length = mm(section.to - section.from);
    const Carrier* nearest = nullptr;
    double clear = std::numeric_limits<double>::infinity();
    for (const Carrier& carrier : carriers) {
      const double away = std::max({section.from - carrier.at, carrier.at - section.to, 0.0});
      const double from_face = std::max(away - carrier.half, 0.0);
      if (from_face < clear) {
        clear = from_face;
        nearest = &carrier;
      }
    }
    weak.from_support = mm(std::isfinite(clear) ? clear : 1e9);
    // The third of its span: between the places that carry it.
    const double middle = 0.5 * (section.from + section.to);
    for (std::size_t k = 0; k + 1 < ends.size(); ++k) {
      if (middle < ends[k] || middle > ends[k + 1] || ends[k + 1] - ends[k] < 1.0) continue;
      const double f = (middle - ends[k]) / (ends[k + 1] - ends[k]);
      weak.middle_third = f > 1.0 / 3.0 && f < 2.0 / 3.0;
    }
    if (weak.kind != standards::WeakKind::notch_below || nearest == nullptr || clear > h) {
      list.push_back(section);
      continue;
    }
    // A notched end, (6.62): on either side of the reaction, x to the corner that faces the span.
    weak.at_support = true;
    const double face = nearest->half;
    for (const bool right : {false, true}) {
      const double reach = right ? section.to - nearest->at : nearest->at - section.from;
      double x = a_place ? std::max(reach, face) : reach;
      if (x <= 0.0) continue;
      Section side = section;
      // Where the cut runs out at the piece's end no corner faces that way: the net section is left.
      const bool runs_out =
          right ? section.to >= start + length - beside : section.from <= start + beside;
      side.weakening.x = mm(runs_out ? 0.0 : x);
      // Only the shear of this side, not what the support takes from the other.
      side.from = right ? nearest->at + beside : nearest->at - x;
      side.to = right ? nearest->at + x : nearest->at - beside;
      side.from = std::max(side.from, start);
      side.to = std::min(side.to, start + length);
      if (side.to > side.from) list.push_back(side);
    }
  }
  return list;
}

LineRules rules_of(const deck::Piece& piece, Length from, Length to, Length breadth, Length depth,
                   const model::Line& line, const std::vector<Carrier>& carriers,
                   const standards::Standard& standard) {
  LineRules rules;
  rules.depth = depth.value();
  rules.standard = &standard;
  rules.sections = sections_of(piece, from, to, breadth, depth, carriers);
  rules.half_on_top.assign(line.at.size(), -1.0);
  if (line.at.empty()) return rules;
  for (const Carrier& carrier : carriers) rules.carried.push_back(node_at(line, carrier.at));
  std::sort(rules.carried.begin(), rules.carried.end());
  rules.carried.erase(std::unique(rules.carried.begin(), rules.carried.end()), rules.carried.end());
  // Of a piece that is absent in part nothing is left out.
  if (!piece.absent.empty()) return rules;
  for (const Carrier& carrier : carriers) {
    if (!carrier.under) continue;
    // Nor near a notch or a hole: the clauses speak of whole beams, or of notches on the other side.
    const bool cut = std::any_of(rules.sections.begin(), rules.sections.end(), [&](const auto& s) {
      const double away = std::max({s.from - carrier.at, carrier.at - s.to, 0.0});
      return away < carrier.half + 2.0 * depth.value();
    });
    if (!cut) rules.seats.push_back({node_at(line, carrier.at), carrier.half});
  }
  std::sort(rules.seats.begin(), rules.seats.end(),
            [](const Seat& a, const Seat& b) { return a.node < b.node; });
  return rules;
}

double contact_of(const deck::Support& support, Axis along) {
  const Length plain = support.post       ? support.post->breadth
                       : along == Axis::y ? support.footing.length
                                          : support.footing.width;
  return support.bearing_length.value_or(plain).value();
}

}  // namespace

std::vector<LineRules> line_rules(const deck::Deck& deck, const model::Model& model,
                                  const standards::Standard& standard) {
  std::vector<LineRules> all;
  for (std::size_t j = 0; j < deck.joists.size(); ++j) {
    const deck::Joist& joist = deck.joists[j];
    std::vector<Carrier> carriers;
    for (const model::Crossing& crossing : model.crossings) {
      if (crossing.joist != static_cast<int>(j)) continue;
      const auto other = static_cast<std::size_t>(crossing.other);
      const Length overlap = deck.meetings[crossing.meeting].overlap;
      Carrier carrier{crossing.at_joist, 0.0, !crossing.end_joint && !crossing.on_sister};
      switch (crossing.kind) {
        case model::CrossingKind::bearer:
          carrier.half = deck.bearers[other].ply_breadth.value() * deck.bearers[other].plies / 2.0;
          break;
        case model::CrossingKind::support:
          carrier.half = contact_of(deck.supports[other], joist.direction) / 2.0;
          break;
        case model::CrossingKind::wall:
          carrier.half = deck.walls[other].width.value() / 2.0;
          break;
        case model::CrossingKind::ledger:
          carrier.under = false;
          break;
      }
      if (!crossing.end_joint) carrier.half = std::min(carrier.half, overlap.value() / 2.0);
      carriers.push_back(carrier);
    }
    const model::Line& line = model.joists[j];
    LineRules rules = rules_of(joist, joist.from, joist.to, joist.breadth,
                               joist.depth - joist.softened, line, carriers, standard);
    // Sisters take their share where they lie, which is not known to be there.
    if (!joist.sisters.empty()) rules.seats.clear();
    for (std::size_t n = 0; n < line.at.size(); ++n) {
      if (!std::binary_search(rules.carried.begin(), rules.carried.end(), n))
        rules.half_on_top[n] = deck.boards.width.value() / 2.0;
    }
    all.push_back(std::move(rules));
  }
  for (std::size_t b = 0; b < deck.bearers.size(); ++b) {
    const deck::Bearer& bearer = deck.bearers[b];
    std::vector<Carrier> carriers;
    for (const model::Prop& prop : model.props) {
      if (prop.ledger || prop.piece != static_cast<int>(b) || prop.support < 0) continue;
      const deck::Support& support = deck.supports[static_cast<std::size_t>(prop.support)];
      const bool beside = support.post && !support.post->bearer_on_top;
      carriers.push_back(
          {prop.at, beside ? 0.0 : contact_of(support, bearer.direction) / 2.0, !beside});
    }
    const model::Line& line = model.bearers[b];
    LineRules rules = rules_of(bearer, bearer.from, bearer.to,
                               bearer.ply_breadth * static_cast<double>(bearer.plies),
                               bearer.depth - bearer.softened, line, carriers, standard);
    for (const model::Crossing& crossing : model.crossings) {
      if (crossing.kind != model::CrossingKind::bearer || crossing.end_joint ||
          crossing.other != static_cast<int>(b) || line.at.empty())
        continue;
      const deck::Joist& joist = deck.joists[static_cast<std::size_t>(crossing.joist)];
      double breadth = joist.breadth.value();
      for (const deck::Sister& sister : joist.sisters) breadth += sister.breadth.value();
      const std::size_t node = node_at(line, crossing.at_other);
      if (!std::binary_search(rules.carried.begin(), rules.carried.end(), node))
        rules.half_on_top[node] = breadth / 2.0;
    }
    // Where joists hang on its side, a load is not on top.
    for (const model::Crossing& crossing : model.crossings) {
      if (crossing.kind == model::CrossingKind::bearer && crossing.end_joint &&
          crossing.other == static_cast<int>(b) && !line.at.empty())
        rules.half_on_top[node_at(line, crossing.at_other)] = -1.0;
    }
    all.push_back(std::move(rules));
  }
  for (std::size_t l = 0; l < deck.ledgers.size(); ++l) {
    const deck::Ledger& ledger = deck.ledgers[l];
    std::vector<Carrier> carriers;
    for (const model::Prop& prop : model.props) {
      if (prop.ledger && prop.piece == static_cast<int>(l))
        carriers.push_back({prop.at, 0.0, false});
    }
    all.push_back(rules_of(ledger, ledger.from, ledger.to, ledger.breadth, ledger.depth,
                           model.ledgers[l], carriers, standard));
  }
  return all;
}

}  // namespace underprop::assessment
