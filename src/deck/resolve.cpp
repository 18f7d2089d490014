#include "resolve_parts.hpp"

#include "catalog/table.hpp"
#include "underprop/record/standard_facts.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <numbers>
#include <set>

namespace underprop::deck {
namespace {

Boards resolve_boards(const record::Survey& survey, FactTaker& facts,
                      std::vector<std::string>& told) {
  const record::Boards& boards = survey.deck.boards;
  Boards result;
  result.material = boards.material;
  if (boards.material == record::BoardMaterial::softwood) {
    result.timber = facts.take_timber(boards.timber, "/deck/boards/timber", "boards/timber");
  } else if (boards.material == record::BoardMaterial::hardwood) {
    result.timber = facts.take_timber(boards.timber, "/deck/boards/timber", "boards/hardwood");
  }
  result.width = boards.width;
  const Length thickness =
      facts.take(boards.thickness, "/deck/boards/thickness", "boards/thickness");
  // Never nothing: a groove deeper than an assumed thickness leaves 1 mm.
  result.thickness = max(thickness - boards.groove_depth, mm(1.0));
  // Boards at an angle a span 1 / cos a further. Across the joists a layer of beams is as stiff as cos^4 a
  // of the same beams laid square (rotation of an orthotropic plate's bending stiffness, twist left out:
  // Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, chapter 11), which is the stiffness
  // of boards cos^(4/3) a as thick; for strength cos a would do.
  const double square = std::cos(boards.angle_deg * std::numbers::pi / 180.0);
  result.thickness = std::pow(square, 4.0 / 3.0) * result.thickness;
  if (boards.angle_deg > 0.0) {
    told.push_back("the boards lie at " + format_decimals(boards.angle_deg, 0) +
                   " degrees and count as boards laid square, " +
                   format_length(result.thickness, facts.units()) + " thick");
  }
  result.gap = boards.gap;
  result.direction = boards.direction;
  result.joints_recorded = boards.joints.is_value();
  result.joints = facts.take(boards.joints, "/deck/boards/joints", "boards/joints");
  if (boards.stated_span) result.stated_span = square * *boards.stated_span;
  return result;
}

int joist_group(const record::Survey& survey, const std::string& name) {
  for (std::size_t i = 0; i < survey.deck.joists.size(); ++i) {
    if (survey.deck.joists[i].name == name) return static_cast<int>(i);
  }
  return -1;
}

void resolve_rims(const record::Survey& survey, FactTaker& facts, Deck& deck) {
  for (std::size_t i = 0; i < survey.deck.rims.size(); ++i) {
    const record::Rim& rim = survey.deck.rims[i];
    deck.rims.push_back(
        {rim.name, joist_group(survey, rim.joists), rim.at_start,
         facts.take(rim.breadth, pointer("/deck/rims", i, "breadth"), "rims/breadth"),
         facts.take(rim.depth, pointer("/deck/rims", i, "depth"), "rims/depth"),
         facts.take(rim.fixed, pointer("/deck/rims", i, "fixed"), "rims/fixed")});
  }
}

// A brace that nobody measured: its wood and its bolts are open facts like any others.
void resolve_braces(const record::Survey& survey, FactTaker& facts, Deck& deck) {
  deck.braces = survey.deck.braces;
  for (std::size_t i = 0; i < deck.braces.size(); ++i) {
    record::Brace& brace = deck.braces[i];
    if (brace.kind != record::BraceKind::diagonal && brace.kind != record::BraceKind::knee)
      continue;
    const auto open = [&](Length& value, const char* name, std::string_view kind) {
      if (value == Length())
        value = facts.take(Fact<Length>(), pointer("/deck/braces", i, name), kind);
    };
    open(brace.breadth, "breadth", "braces/breadth");
    open(brace.depth, "depth", "braces/depth");
    if (brace.bolts > 0) open(brace.bolt_diameter, "bolt_diameter", "braces/bolt_diameter");
  }
}

}  // namespace

Resolved resolve(const record::Survey& survey, record::Reading reading,
                 const std::map<std::string, record::Reading>& single, double share) {
  const Layout layout = lay_out(survey);
  FactTaker facts(survey.standard, reading, single, share);
  Resolved resolved;
  Deck& deck = resolved.deck;
  deck.standard = survey.standard;
  // The ground's tables have a column for each reading of unknown ground. For a soil that is recorded the
  // cautious column holds in every reading: the rest of its doubt cannot be found out with a spade.
  deck.reading =
      survey.site.soil.is_known() ? record::Reading::cautious : facts.reading_of("/site/soil");
  deck.site = resolve_site(survey, layout, facts);
  deck.outline = counter_clockwise(survey.deck.outline);
  deck.height = facts.take(survey.deck.height, "/deck/height", "deck/height");
  std::vector<std::string> told_of_boards;
  deck.boards = resolve_boards(survey, facts, told_of_boards);
  resolve_timber(survey, layout, facts, deck);
  resolve_rims(survey, facts, deck);
  resolve_supports(survey, layout, facts, deck);
  for (const record::Blocking& row : survey.deck.blocking) {
    deck.blocking.push_back({row.name, joist_group(survey, row.joists), row.position});
  }
  resolve_meetings(facts, deck);
  resolve_braces(survey, facts, deck);
  deck.obstacles = survey.deck.obstacles;
  deck.closed_zones = survey.deck.closed_zones;
  resolve_probing(survey, facts, deck);
  for (std::size_t i = 0; i < survey.loads.size(); ++i) {
    deck.loads.push_back(resolve_load(survey, i, facts, deck.assumptions));
  }
  const std::vector<std::string> told_before = std::move(deck.assumptions);
  deck.assumptions = layout.left_out;
  deck.assumptions.insert(deck.assumptions.end(), told_before.begin(), told_before.end());
  deck.assumptions.insert(deck.assumptions.end(), told_of_boards.begin(), told_of_boards.end());
  apply_conditions(survey, facts, deck);
  resolved.open = facts.take_open();
  for (OpenFact& fact : resolved.open)
    fact.what = record::fact_words(survey, fact.field, fact.what, fact.also);
  return resolved;
}

bool may_be_incised(record::StandardId standard, const Fact<std::string>& timber) {
  const record::StandardFacts& own = record::facts_of(standard);
  if (!own.incised_unless_named) return false;
  if (!timber.is_value()) return true;
  const auto& usual = catalog::table(own.folder + "/lumber.json").at("incised_usual").at("species");
  return std::ranges::any_of(usual, [&](const auto& species) {
    return timber.value().starts_with(species.template get<std::string>());
  });
}

void resolve_probing(const record::Survey& survey, FactTaker& facts, Deck& deck) {
  const std::set<std::string> named(survey.deck.probed.pieces.begin(),
                                    survey.deck.probed.pieces.end());
  const bool all = named.count("all") > 0;
  // Pieces of a group stand one after another.
  std::string listed;
  const auto probe = [&](Piece& piece, const std::string& group, std::string_view kind_word,
                         std::string_view other_word, bool timber) {
    piece.probed = !timber || piece.added || all || named.count(piece.id) > 0 ||
                   named.count(group) > 0 || named.count(std::string(kind_word)) > 0 ||
                   named.count(std::string(other_word)) > 0;
    if (piece.probed) return;
    const std::string field = "/deck/probed/" + group;
    if (listed != field) facts.list(field, "probed");
    listed = field;
    piece.probed = facts.reading_of(field) == record::Reading::favourable;
  };
  const record::DeckRecord& record = survey.deck;
  const auto at = [](int i) { return static_cast<std::size_t>(i); };
  for (Joist& j : deck.joists) probe(j, record.joists[at(j.group)].name, "joists", "joists", true);
  for (Bearer& b : deck.bearers) {
    probe(b, record.bearers[at(b.index)].name, "bearers", "bearers", true);
  }
  for (Ledger& l : deck.ledgers) {
    probe(l, record.ledgers[at(l.index)].name, "ledgers", "ledger", true);
  }
  for (Support& s : deck.supports) {
    probe(s, record.supports[at(s.group)].name, "supports", "posts", s.post.has_value());
  }
  for (Wall& w : deck.walls) w.probed = true;
}

}  // namespace underprop::deck
