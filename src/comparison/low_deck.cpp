#include "low_deck.hpp"
#include "underprop/record/standard_facts.hpp"

#include "catalog/table.hpp"
#include "underprop/assessment/assessment.hpp"
#include "underprop/base/geometry.hpp"
#include "works/rules.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace underprop::comparison {

namespace {

const std::string& region(record::StandardId standard) { return record::facts_of(standard).key; }

/// The load alone on a free-standing deck: joists along y over bearers on close pads.
LowDeck trial(const record::Survey& from, Length b, Length h, Length pad, double spacing) {
  const auto& data = catalog::table("works_catalogue.json");
  const std::string timber =
      data.at(region(from.standard)).at("timber").at("value").get<std::string>();
  const deck::Deck resolved = deck::resolve(from, record::Reading::cautious).deck;
  std::size_t heaviest = 0;
  for (std::size_t l = 1; l < resolved.loads.size(); ++l) {
    if (resolved.loads[l].dry_mass + resolved.loads[l].contents >
        resolved.loads[heaviest].dry_mass + resolved.loads[heaviest].contents) {
      heaviest = l;
    }
  }
  const deck::Load& load = resolved.loads[heaviest];
  const Interval x = extent(load.footprint, Axis::x), y = extent(load.footprint, Axis::y);
  const Length margin = mm(catalog::number(data, "low_deck_margin_mm"));
  LowDeck deck;
  deck.width = x.high - x.low + margin * 2.0;
  deck.length = y.high - y.low + margin * 2.0;
  deck.joist_breadth = b;
  deck.joist_depth = h;
  deck.joist_length = deck.length;
  deck.pad = pad;
  record::Survey& s = deck.survey;
  s = record::Survey{};
  s.name = "new low deck";
  s.standard = from.standard;
  s.site = from.site;
  // It stands where the load stands: what is round that place moves into its coordinates.
  const Point shift = Point{deck.width / 2.0, deck.length / 2.0} -
                      Point{(x.low + x.high) / 2.0, (y.low + y.high) / 2.0};
  for (auto* lines :
       {&s.site.retaining_walls, &s.site.house_walls, &s.site.drains, &s.site.ponds}) {
    for (record::GroundLine& line : lines->items) {
      line.from = line.from + shift;
      line.to = line.to + shift;
    }
  }
  for (record::Tree& tree : s.site.trees.items) tree.at = tree.at + shift;
  s.deck.outline = {
      {mm(0), mm(0)}, {deck.width, mm(0)}, {deck.width, deck.length}, {mm(0), deck.length}};
  s.deck.boards.material = record::BoardMaterial::softwood;
  s.deck.boards.timber = timber;
  s.deck.boards.width = from.deck.boards.width;
  s.deck.boards.thickness = mm(catalog::number(data, "low_deck_board_mm"));
  s.deck.boards.gap = from.deck.boards.gap;
  s.deck.boards.direction = Axis::x;
  s.deck.boards.joints = record::BoardJoints::none;
  record::Joists joists;
  joists.name = "J";
  joists.direction = Axis::y;
  const auto evenly = [](Length low, Length high, double most) {
    const int gaps = std::max(1, static_cast<int>(std::ceil((high - low).value() / most - 1e-9)));
    std::vector<Length> at;
    for (int k = 0; k <= gaps; ++k)
      at.push_back(low + (high - low) * (static_cast<double>(k) / gaps));
    return at;
  };
  joists.positions =
      evenly(b / 2.0, deck.width - b / 2.0, catalog::number(data, "low_deck_joist_spacing_mm"));
  joists.timber = timber;
  joists.incised = works::counts_as_incised(from.standard, timber);
  joists.breadth = b;
  joists.depth = h;
  joists.over_bearers = record::OverBearers::continuous;
  joists.start.held = joists.end.held = record::Hold::free;
  deck.joists = static_cast<int>(joists.positions.size());
  s.deck.joists.push_back(joists);
  for (const bool start : {true, false}) {
    record::Rim rim;
    rim.name = start ? "RS" : "RE";
    rim.at_start = start;
    rim.joists = "J";
    rim.breadth = b;
    rim.depth = h;
    rim.fixed = record::RimFixing::cleats;
    s.deck.rims.push_back(rim);
  }
  const Length inset = mm(std::max(150.0, pad.value() / 2.0));
  deck.pad_depth = mm(data.at(region(from.standard)).at("pad_depth_mm").at("value").get<double>());
  deck.pad_thickness = deck.pad_depth;
  int number = 0;
  for (const Length at : evenly(inset, deck.length - inset, spacing)) {
    record::Bearer bearer;
    bearer.name = "B" + std::string(1, static_cast<char>('A' + number));
    bearer.direction = Axis::x;
    bearer.position = at;
    bearer.timber = timber;
    bearer.incised = joists.incised;
    bearer.plies = 2;
    bearer.ply_breadth = b;
    bearer.depth = h;
    bearer.plies_fixed_together = true;
    bearer.joists_held_down = record::HeldDown::nothing;
    s.deck.bearers.push_back(bearer);
    record::Supports pads;
    pads.name = "P" + std::string(1, static_cast<char>('A' + number));
    pads.under = bearer.name;
    pads.positions = evenly(inset, deck.width - inset, spacing);
    pads.packers = 0;
    pads.footing.kind = record::FootingKind::cast_pad;
    pads.footing.width = pads.footing.length = pad;
    pads.footing.thickness = deck.pad_thickness;
    pads.footing.depth = deck.pad_depth;
    pads.footing.offset = mm(0.0);
    pads.footing.contact = record::Contact::tight;
    pads.footing.below_topsoil = true;
    deck.pads += static_cast<int>(pads.positions.size());
    s.deck.supports.push_back(pads);
    ++number;
  }
  deck.bearers = number;
  deck.bearer_length = deck.width;
  s.deck.height = h * 2.0 + s.deck.boards.thickness.value();
  s.deck.probed.pieces = {"all"};
  record::HeavyLoad placed = from.loads[heaviest];
  placed.at = placed.at + shift;
  s.loads = {placed};
  return deck;
}

}  // namespace

std::optional<LowDeck> low_deck_for(const record::Survey& survey,
                                    const standards::Standard& standard, WhyNoLowDeck* why_none) {
  if (survey.loads.empty()) return std::nullopt;
  const auto& data = catalog::table("works_catalogue.json");
  for (const double spacing : {1200.0, 900.0}) {
    for (const auto& row : data.at("low_deck_joists").at(region(survey.standard)).at("rows")) {
      for (const auto& pad : data.at(region(survey.standard)).at("pads_mm").at("rows")) {
        LowDeck deck = trial(survey, mm(row.at(0).get<double>()), mm(row.at(1).get<double>()),
                             mm(pad.get<double>()), spacing);
        const deck::Deck resolved = deck::resolve(deck.survey, record::Reading::cautious).deck;
        const auto cautious =
            assessment::assess_deck(resolved, standard, {.depth = assessment::Depth::utilisation});
        if (!cautious.refer_reasons.empty()) {
          if (why_none != nullptr) *why_none = {cautious.refer_reasons, {}};
          continue;
        }
        if (cautious.mechanism || assessment::fails(cautious.safety)) continue;
        // The verdict itself: service at likely facts, and what has to have been seen.
        assessment::Assessment judged = assessment::assess(deck.survey, standard);
        if (judged.verdict == assessment::Verdict::carries) return deck;
        if (why_none != nullptr) *why_none = {{}, std::move(judged)};
      }
    }
  }
  return std::nullopt;
}

}  // namespace underprop::comparison
