#include "guide_decks.hpp"

#include "catalog/table.hpp"

#include <cmath>
#include <cstdio>
#include <optional>
#include <stdexcept>

namespace underprop::test::prescriptive {

namespace {

const Json& tables() { return catalog::table("north_america/prescriptive.json"); }

std::string inch(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.6g in", value);
  return text;
}
double dressed(int nominal) { return nominal == 6 ? 5.5 : nominal - 0.75; }
std::string sized(int nominal) { return "2x" + std::to_string(nominal); }

/// The group of the joist table to which a species belongs.
std::string group_of(const std::string& species) {
  for (const Json& g : tables().at("species")) {
    for (const Json& name : g.at("names")) {
      if (name == species) return g.at("group");
    }
  }
  throw std::logic_error("no group of the tables has " + species);
}
bool incised(const std::string& species) {
  for (const Json& g : tables().at("species")) {
    if (g.at("group") == group_of(species)) return g.at("incised_allowed");
  }
  return false;
}

struct JoistRow {
  int nominal = 0;
  double spacing = 0, span = 0, overhang = 0;
};
std::vector<JoistRow> joist_rows(const std::string& species) {
  const Json& table = tables().at("joists");
  const std::string group = group_of(species);
  std::vector<JoistRow> rows;
  for (const Json& r : table.at("rows")) {
    if (r.at("species") != group) continue;
    const int nominal = std::stoi(r.at("size").get<std::string>().substr(2));
    for (std::size_t k = 0; k < table.at("spacing_in").size(); ++k) {
      const double span = r.at("span_in")[k];
      const double quarter = std::floor(span * table.at("overhang_of_span").get<double>());
      rows.push_back({nominal, table.at("spacing_in")[k], span,
                      std::min(r.at("overhang_in")[k].get<double>(), quarter)});
    }
  }
  return rows;
}
/// The smallest joists that may span so far, at 16 in. if there are any, else at 12 in.
std::optional<JoistRow> joists_for(const std::string& species, double span) {
  for (const double spacing : {16.0, 12.0}) {
    for (const JoistRow& row : joist_rows(species)) {
      if (row.spacing == spacing && row.span >= span) return row;
    }
  }
  return std::nullopt;
}

struct BeamRow {
  std::string name;
  int plies = 2, nominal = 8;
  double ply_breadth = 1.5;
  std::vector<double> spans;  ///< per column of joist spans
};
std::vector<BeamRow> beam_rows(const std::string& species) {
  const Json& table = tables().at("beams");
  std::vector<BeamRow> rows;
  for (const Json& r : table.at("rows")) {
    if ((r.at("species") == "Southern Pine") != (species == "Southern Pine")) continue;
    BeamRow row;
    row.name = r.at("beam");
    const auto dash = row.name.find('-');
    const std::string section = dash == std::string::npos ? row.name : row.name.substr(dash + 1);
    row.plies = dash == std::string::npos ? 1 : std::stoi(row.name);
    row.ply_breadth = std::stoi(section) == 4 ? 3.5 : 1.5;
    row.nominal = std::stoi(section.substr(section.find('x') + 1));
    row.spans = r.at("span_in").get<std::vector<double>>();
    rows.push_back(row);
  }
  return rows;
}
/// The column of a table by joist spans: the first that is not less. None: beyond its last.
std::optional<std::size_t> column(const Json& joist_span_ft, double joist_span) {
  for (std::size_t k = 0; k < joist_span_ft.size(); ++k) {
    if (joist_span <= 12.0 * joist_span_ft[k].get<double>()) return k;
  }
  return std::nullopt;
}
/// The smallest beam of that many feet or more for such joists, or nothing.
std::optional<BeamRow> beam_for(const std::string& species, double joist_span, double beam_span) {
  const auto c = column(tables().at("beams").at("joist_span_ft"), joist_span);
  if (!c) return std::nullopt;
  for (const BeamRow& row : beam_rows(species)) {
    if (row.spans[*c] >= beam_span) return row;
  }
  return std::nullopt;
}
void take(GuideDeck& deck, const BeamRow& beam) {
  deck.plies = beam.plies;
  deck.ply_breadth = beam.ply_breadth;
  deck.beam_nominal = beam.nominal;
}
void take(GuideDeck& deck, const JoistRow& joists) {
  deck.joist_nominal = joists.nominal;
  deck.joist_spacing = joists.spacing;
}

/// Footing and height of the posts by the first row that covers the spans; false: none does.
bool take_footing(GuideDeck& deck) {
  for (const Json& r : tables().at("posts_and_footings").at("rows")) {
    if (12.0 * r.at("beam_span_ft").get<double>() < deck.beam_span ||
        12.0 * r.at("joist_span_ft").get<double>() < deck.joist_span)
      continue;
    deck.footing = r.at("square_in");
    deck.footing_thickness = r.at("thickness_in");
    return true;
  }
  return false;
}
/// Fixings of a 2x band for the joists' span; false: beyond the table.
bool take_fixings(GuideDeck& deck, const std::string& fixing, double band) {
  const Json& table = tables().at("ledger_fixings");
  const auto c = column(table.at("joist_span_ft"), deck.joist_span);
  if (!c) return false;
  for (const Json& r : table.at("rows")) {
    if (r.at("fixing") != fixing || r.at("band_in") != band) continue;
    deck.fixing = fixing;
    deck.band = band;
    deck.fixing_spacing = r.at("spacing_in")[*c];
    return true;
  }
  return false;
}

double board_thickness(const GuideDeck& deck) { return deck.joist_spacing > 16 ? 1.5 : 1.0; }
double depth_below_ground(const GuideDeck& deck) { return std::max(12.0, deck.footing_thickness); }
double surface(const GuideDeck& deck) {
  return board_thickness(deck) + dressed(deck.joist_nominal) + dressed(deck.beam_nominal) +
         deck.post_height - (depth_below_ground(deck) - deck.footing_thickness);
}
/// Posts no taller than keeps the surface within what is judged at all, 2.0 m.
double tallest_post(const GuideDeck& deck) {
  GuideDeck flat = deck;
  flat.post_height = 0;
  return std::floor(78.0 - surface(flat));
}

}  // namespace

GuideDeck with_longest_beam(GuideDeck deck) {
  const auto c = column(tables().at("beams").at("joist_span_ft"), deck.joist_span);
  for (const BeamRow& row : beam_rows(deck.species)) {
    if (c && row.plies == deck.plies && row.nominal == deck.beam_nominal &&
        row.ply_breadth == deck.ply_breadth)
      deck.beam_span = row.spans[*c];
  }
  if (!c || !take_footing(deck)) throw std::logic_error("no row of the tables for " + deck.row);
  return deck;
}

std::vector<GuideDeck> joist_decks() {
  std::vector<GuideDeck> decks;
  int turn = 0;
  for (const Json& g : tables().at("species")) {
    const auto names = g.at("names").get<std::vector<std::string>>();
    for (const JoistRow& row : joist_rows(names.front())) {
      for (const bool hung : {true, false}) {
        for (const bool overhang : {false, true}) {
          GuideDeck deck;
          deck.family = "joists";
          deck.species = names[static_cast<std::size_t>(turn++) % names.size()];
          deck.row = sized(row.nominal) + " at " + inch(row.spacing) + ", " + inch(row.span) +
                     (overhang ? " and over" : "");
          deck.hung = hung;
          take(deck, row);
          deck.joist_span = row.span;
          deck.joist_overhang = overhang ? row.overhang : 0.0;
          deck.beam_span = 72;
          deck.post_height = turn % 2 == 0 ? 12 : 30;
          const auto beam = beam_for(deck.species, deck.joist_span, deck.beam_span);
          if (!beam || !take_footing(deck) || !take_fixings(deck, "bolt", 1.5)) continue;
          take(deck, *beam);
          decks.push_back(deck);
        }
      }
    }
  }
  return decks;
}

std::vector<GuideDeck> beam_decks() {
  std::vector<GuideDeck> decks;
  const char* const others[] = {"Douglas Fir-Larch", "Hem-Fir", "Spruce-Pine-Fir",
                                "Western Cedars"};
  std::size_t turn = 0;
  for (const bool pine : {true, false}) {
    for (const BeamRow& row : beam_rows(pine ? "Southern Pine" : others[0])) {
      for (std::size_t c = 0; c < row.spans.size(); ++c) {
        GuideDeck deck;
        deck.family = "beams";
        deck.species = pine ? "Southern Pine" : others[turn % 4];
        ++turn;
        const double column_ft = tables().at("beams").at("joist_span_ft")[c];
        deck.row = row.name + ", joists of " + inch(12 * column_ft) + ", " + inch(row.spans[c]);
        take(deck, row);
        deck.joist_span = 12 * column_ft;
        deck.beam_span = row.spans[c];
        deck.beam_overhang = turn % 2 == 0 ? std::floor(row.spans[c] / 4) : 6;
        deck.hung = turn % 3 != 0;
        deck.post_height = turn % 4 < 2 ? 12 : 30;
        const auto joists = joists_for(deck.species, deck.joist_span);
        if (!joists) continue;
        take(deck, *joists);
        if (turn % 4 == 1) deck.joist_overhang = std::min(joists->overhang, deck.joist_span / 4);
        if (!take_footing(deck) || !take_fixings(deck, "bolt", 1.5)) continue;
        decks.push_back(deck);
      }
    }
  }
  return decks;
}

std::vector<GuideDeck> footing_decks() {
  std::vector<GuideDeck> decks;
  const Json& table = tables().at("posts_and_footings");
  const auto species = table.at("post_species").get<std::vector<std::string>>();
  for (const Json& r : table.at("rows")) {
    for (std::size_t s = 0; s < species.size(); ++s) {
      const double beam_span = 12 * r.at("beam_span_ft").get<double>();
      const double widest = 12 * r.at("joist_span_ft").get<double>();
      // The longest joists of that row for which the tables hold a beam.
      for (double span = widest; span >= 72; span -= 24) {
        GuideDeck deck;
        deck.family = "posts and footings";
        deck.species = species[s];
        deck.row = "beam " + inch(beam_span) + ", joists to " + inch(widest);
        deck.joist_span = span;
        deck.beam_span = beam_span;
        const auto joists = joists_for(deck.species, span);
        const auto beam = beam_for(deck.species, span, beam_span);
        if (!joists || !beam) continue;
        take(deck, *joists);
        take(deck, *beam);
        deck.joist_overhang = s % 2 == 0 ? std::min(joists->overhang, std::floor(span / 4)) : 0;
        deck.beam_overhang = s % 2 == 0 ? std::floor(beam_span / 4) : 6;
        deck.bays = s == 1 && beam_span <= 96 ? 2 : 1;
        deck.footing = r.at("square_in");
        deck.footing_thickness = r.at("thickness_in");
        const double high = 12 * r.at("post_height_ft")[s].get<double>();
        if (high <= 0 || !take_fixings(deck, "lag screw", 1.5)) break;
        deck.post_height = std::min(high, tallest_post(deck));
        deck.hung = s % 3 != 0;
        if (deck.post_height >= 12) decks.push_back(deck);
        break;
      }
    }
  }
  return decks;
}

std::vector<GuideDeck> ledger_decks() {
  std::vector<GuideDeck> decks;
  std::size_t turn = 0;
  for (const Json& r : tables().at("ledger_fixings").at("rows")) {
    for (const Json& feet : tables().at("ledger_fixings").at("joist_span_ft")) {
      for (const char* species : {"Southern Pine", "Hem-Fir"}) {
        GuideDeck deck;
        deck.family = "ledger fixings";
        deck.species = species;
        deck.joist_span = 12 * feet.get<double>();
        deck.beam_span = 72;
        deck.row = r.at("fixing").get<std::string>() + ", band " + inch(r.at("band_in")) +
                   ", joists of " + inch(deck.joist_span);
        const auto joists = joists_for(species, deck.joist_span);
        const auto beam = beam_for(species, deck.joist_span, deck.beam_span);
        if (!joists || !beam || !take_footing(deck) ||
            !take_fixings(deck, r.at("fixing"), r.at("band_in")))
          continue;
        take(deck, *joists);
        take(deck, *beam);
        deck.post_height = ++turn % 2 == 0 ? 12 : 30;
        decks.push_back(deck);
      }
    }
  }
  return decks;
}

std::vector<GuideDeck> all_decks() {
  std::vector<GuideDeck> all;
  for (const auto& decks : {joist_decks(), beam_decks(), footing_decks(), ledger_decks()})
    all.insert(all.end(), decks.begin(), decks.end());
  return all;
}

Json survey_of(const GuideDeck& deck, Loaded loaded) {
  const std::string timber = deck.species + " No.2";
  const bool slits = incised(deck.species);
  const double beam_breadth = deck.plies * deck.ply_breadth;
  // The last joists stand no wider than the row says: a few inches left over are taken off the ends.
  const double wanted = deck.bays * deck.beam_span + 2 * deck.beam_overhang;
  const double left_over = std::fmod(wanted - 1.5, deck.joist_spacing);
  const double taken_off = left_over < 3.0 ? left_over : 0.0;
  const double beam_length = wanted - taken_off;
  const double first_post = deck.beam_overhang - taken_off / 2;
  // Clear spans between the faces of what carries the joists; the ledger's face lies at y = 0.
  const double first_beam = deck.hung ? -1.0 : deck.joist_overhang + beam_breadth / 2;
  const double last_beam =
      deck.hung ? deck.joist_span + beam_breadth / 2 : first_beam + deck.joist_span + beam_breadth;
  const double over = std::max(deck.joist_overhang, beam_breadth / 2);
  const double deep = last_beam + over;
  const double from = deck.hung ? 0.0 : first_beam - over;
  const double middle = (from + deep) / 2;

  Json positions = Json::array();
  for (double x = 0.75; x < beam_length - 1.5; x += deck.joist_spacing)
    positions.push_back(inch(x));
  positions.push_back(inch(beam_length - 0.75));

  Json post_places = Json::array();
  Json splices = Json::array();
  for (int k = 0; k <= deck.bays; ++k) {
    const double at = first_post + k * deck.beam_span;
    post_places.push_back(inch(at));
    if (k > 0 && k < deck.bays) splices.push_back(inch(at));
  }

  Json survey;
  survey["format"] = "underprop-survey/1";
  survey["name"] = deck.family + ": " + deck.species + ", " + deck.row;
  survey["recorded_on"] = "2026-05-01";
  survey["standard"] = "north-america-us";
  Json site = recorded_site();
  site["seismic_category"] = "B";
  site["frost_depth"] = "12 in";
  site["snow_load"] = "0 psf";
  if (deck.hung)
    site["house_walls"] = Json::array({{{"name", "house wall"},
                                        {"from", Json::array({"-4 ft", "-6 in"})},
                                        {"to", Json::array({inch(beam_length + 48), "-6 in"})},
                                        {"height", "4 ft"}}});
  survey["site"] = site;

  Json& d = survey["deck"];
  d["outline"] = Json::array({{"0 in", inch(from)},
                              {inch(beam_length), inch(from)},
                              {inch(beam_length), inch(deep)},
                              {"0 in", inch(deep)}});
  d["height"] = inch(surface(deck));
  d["boards"] = {{"material", "softwood"}, {"timber", timber},
                 {"width", "5.5 in"},      {"thickness", inch(board_thickness(deck))},
                 {"gap", "0.125 in"},      {"direction", "x"},
                 {"joints", "staggered"}};

  const Json& least = tables().at("hangers").at("least_lb");
  const Json free_end = {{"held", "free"}};
  const Json hanger = {
      {"held", "hanger"},
      {"nails", 10},
      {"sound", true},
      {"seat", "1.5 in"},
      {"stated_capacity", std::to_string(least.at(sized(deck.joist_nominal)).get<int>()) + " lbf"}};
  const Json resting = {{"held", "resting"}, {"seat", inch(beam_breadth)}, {"sound", true}};
  const bool beyond = deck.joist_overhang > beam_breadth / 2;
  Json joists = {{"name", "J"},
                 {"direction", "y"},
                 {"positions", positions},
                 {"timber", timber},
                 {"incised", slits},
                 {"size", sized(deck.joist_nominal)},
                 {"over_bearers", "continuous"},
                 {"start", deck.hung ? hanger
                           : beyond  ? free_end
                                     : resting},
                 {"end", beyond ? free_end : resting}};
  d["joists"] = Json::array({joists});

  d["bearers"] = Json::array();
  d["supports"] = Json::array();
  d["braces"] = Json::array();
  const bool low = surface(deck) <= 24.0;  // the guide wants braces above 2 ft
  const auto add_beam = [&](const std::string& name, double y) {
    Json beam = {{"name", name},
                 {"direction", "x"},
                 {"position", inch(y)},
                 {"timber", timber},
                 {"incised", slits},
                 {"plies", deck.plies},
                 {"ply_breadth", inch(deck.ply_breadth)},
                 {"depth", inch(dressed(deck.beam_nominal))},
                 {"plies_fixed_together", true},
                 {"joists", "on top"},
                 {"joists_held_down", "strapped"},
                 {"hold_down_capacity", "100 lbf"}};
    if (!splices.empty()) beam["splices"] = splices;
    d["bearers"].push_back(beam);
    d["supports"].push_back({{"name", "P" + name},
                             {"under", name},
                             {"positions", post_places},
                             {"packers", 0},
                             {"post",
                              {{"timber", timber},
                               {"incised", slits},
                               {"size", "6x6"},
                               {"height", inch(deck.post_height)},
                               {"bearer", "on top"},
                               {"base", "pinned"},
                               {"lean", "0 in"}}},
                             {"footing",
                              {{"kind", "cast pad"},
                               {"width", inch(deck.footing)},
                               {"length", inch(deck.footing)},
                               {"thickness", inch(deck.footing_thickness)},
                               {"depth", inch(depth_below_ground(deck))},
                               {"offset", "0 in"},
                               {"contact", "tight"},
                               {"below_topsoil", true}}}});
    if (low) return;
    for (const char* direction : {"x", "y"}) {
      if (deck.hung && direction[0] == 'y') continue;  // the ledger holds it that way
      d["braces"].push_back({{"direction", direction},
                             {"kind", "knee"},
                             {"at", "P" + name},
                             {"count", 2 * static_cast<int>(post_places.size())},
                             {"breadth", "3.5 in"},
                             {"depth", "3.5 in"},
                             {"bolts", 1},
                             {"bolt_diameter", "0.5 in"}});
    }
  };
  if (!deck.hung) add_beam("A", first_beam);
  add_beam("B", last_beam);
  if (d["braces"].empty()) d.erase("braces");

  d["rims"] = Json::array();
  d["blocking"] = Json::array();
  const auto add_rim = [&](const char* name, bool at_start, double beam) {
    d["rims"].push_back({{"name", name},
                         {"at_start", at_start},
                         {"joists", "J"},
                         {"breadth", "1.5 in"},
                         {"depth", inch(dressed(deck.joist_nominal))},
                         {"fixed", "end grain"}});
    d["blocking"].push_back(
        {{"name", std::string("N") + name}, {"joists", "J"}, {"position", inch(beam)}});
  };
  if (!deck.hung) add_rim("RA", true, first_beam);
  add_rim("RB", false, last_beam);

  if (deck.hung) {
    // A ledger is a 2x8 at least; a row near each edge, as far apart as the guide's edges allow.
    const int nominal = std::max(8, deck.joist_nominal);
    const double high = std::min(dressed(nominal) - 2.25, 1.25 + 4.75);
    d["ledgers"] = Json::array({{{"name", "L"},
                                 {"direction", "x"},
                                 {"position", "0 in"},
                                 {"timber", timber},
                                 {"incised", slits},
                                 {"size", sized(nominal)},
                                 {"fixed_to", "timber band"},
                                 {"fixing", deck.fixing},
                                 {"fixing_diameter", "0.5 in"},
                                 {"fixing_spacing", inch(deck.fixing_spacing)},
                                 {"fixing_heights", Json::array({"1.25 in", inch(high)})},
                                 {"penetration", inch(deck.band)},
                                 {"sound", true}}});
    // The guide's bands thinner than sawn lumber are engineered wood; which, a survey tells.
    if (deck.band < 1.5) d["ledgers"][0]["band_wood"] = "laminated veneer";
  }
  d["probed"] = "all";

  survey["loads"] = Json::array();
  if (loaded == Loaded::planter)
    survey["loads"].push_back({{"name", "planter"},
                               {"kind", "planter"},
                               {"shape", "rectangle"},
                               {"width", "16 in"},
                               {"length", "16 in"},
                               {"height", "8 in"},
                               {"at", Json::array({inch(beam_length / 2), inch(middle)})},
                               {"dry_mass", "8 kg"},
                               {"contents", "25 l"},
                               {"contents_mass", "32 kg"},
                               {"people", 0},
                               {"base", "full"}});
  return survey;
}

std::vector<Fault> faults() {
  const auto joists = [](Json& s) -> Json& { return s["deck"]["joists"][0]; };
  const auto condition = [](Json& s, const char* defect, const char* piece, double from, double to,
                            const char* size, const char* face) {
    Json entry = {{"defect", defect}, {"piece", piece}, {"from", inch(from)}, {"to", inch(to)}};
    if (size[0] != '\0') entry["size"] = size;
    if (face[0] != '\0') entry["face"] = face;
    s["deck"]["condition"].push_back(entry);
  };
  return {
      {"joists of 1.5 times their span", [](GuideDeck& d) { d.joist_span *= 1.5; }, {}},
      {"joists twice as far apart", [](GuideDeck& d) { d.joist_spacing *= 2; }, {}},
      {"an overhang of half the span",
       [](GuideDeck& d) { d.joist_overhang = std::floor(d.joist_span / 2); },
       {}},
      {"a beam of 1.5 times its span", [](GuideDeck& d) { d.beam_span *= 1.5; }, {}},
      {"a beam of one ply", [](GuideDeck& d) { d.plies = 1; }, {}},
      {"footings of half the side",
       [](GuideDeck& d) { d.footing = std::floor(d.footing / 2); },
       {}},
      {"ledger fixings at 1.5 times their spacing",
       [](GuideDeck& d) { d.fixing_spacing *= 1.5; },
       {},
       true},
      {"ledger fixings at twice their spacing",
       [](GuideDeck& d) { d.fixing_spacing *= 2; },
       {},
       true},
      {"ledger fixings at three times their spacing",
       [](GuideDeck& d) { d.fixing_spacing *= 3; },
       {},
       true},
      {"ledger nailed",
       {},
       [](Json& s) {
         s["deck"]["ledgers"][0]["fixing"] = "nail";
         s["deck"]["ledgers"][0]["fixing_diameter"] = "0.162 in";
       },
       true},
      {"ledger on veneer",
       {},
       [](Json& s) { s["deck"]["ledgers"][0]["fixed_to"] = "veneer"; },
       true},
      {"ledger lags grip half the band",
       {},
       [](Json& s) {
         s["deck"]["ledgers"][0]["fixing"] = "lag screw";
         s["deck"]["ledgers"][0]["penetration"] = "0.5 in";
       },
       true},
      {"hangers with a quarter of their nails",
       {},
       [joists](Json& s) {
         joists(s)["start"].erase("stated_capacity");
         joists(s)["start"]["nails"] = 2;
       },
       true},
      {"hangers stated at half the guide's least",
       {},
       [joists](Json& s) { joists(s)["start"]["stated_capacity"] = "250 lbf"; },
       true},
      {"joists nailed aslant in place of hangers",
       {},
       [joists](Json& s) {
         joists(s)["start"] = {{"held", "skew nails"}, {"nails", 2}, {"sound", true}};
       },
       true},
      {"a joist in the middle notched to half its depth",
       {},
       [condition](Json& s) { condition(s, "notch", "J4", 60, 66, "3.625 in", "underside"); }},
      {"a joist decayed in mid-span",
       {},
       [condition](Json& s) { condition(s, "decay", "J4", 60, 70, "1 in", "top"); }},
      {"the beam decayed between its posts",
       {},
       [condition](Json& s) { condition(s, "decay", "B", 35, 45, "1 in", "top"); }},
      {"posts of 2x4 and 4 ft", [](GuideDeck& d) { d.post_height = 48; },
       [](Json& s) {
         for (Json& row : s["deck"]["supports"]) {
           row["post"].erase("size");
           row["post"]["breadth"] = "1.5 in";
           row["post"]["depth"] = "3.5 in";
         }
       },
       false, true},
      {"no braces under a tall free-standing deck",
       [](GuideDeck& d) {
         d.hung = false;
         d.post_height = 48;
       },
       [](Json& s) { s["deck"].erase("braces"); }, false, true},
  };
}

}  // namespace underprop::test::prescriptive
