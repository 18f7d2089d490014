// Decks for tests, as survey files. Invented for these tests; sizes are common practice, no source.
#pragma once

#include "underprop/assessment/assessment.hpp"
#include "underprop/deck/read.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <string>

namespace underprop::test {

using Json = nlohmann::json;

inline Json recorded_site() {
  return {{"use", "one household"},    {"storeys", 1},
          {"space_below", "none"},     {"soil", "firm clay"},
          {"heel_marks", false},       {"water_in_hole", false},
          {"shrinkable_clay", false},  {"fill", "none"},
          {"slope", "level"},          {"frost_depth", "450 mm"},
          {"retaining_walls", "none"}, {"house_walls", "none"},
          {"drains", "none"},          {"ponds", "none"},
          {"trees", "none"},           {"roof_or_screen", false}};
}

/// C14 joists 47 x 150 mm at 305 mm centres on 300 mm square pads, `pads` rows of them over 3.0 m;
/// 1,550 kg on 2.0 x 2.0 m. With 5 rows the pads are 750 mm apart, with 2 rows 3.0 m.
inline Json platform(int pads, double dry_kg = 300, double litres = 1250) {
  Json positions = Json::array();
  for (int k = 0; k < pads; ++k) {
    positions.push_back(std::to_string(150 + std::lround(3000.0 * k / (pads - 1))) + " mm");
  }
  Json site = recorded_site();
  Json rim = {{"name", "RS"},       {"at_start", true},  {"joists", "J"},
              {"breadth", "47 mm"}, {"depth", "150 mm"}, {"fixed", "cleats"}};
  Json rim2 = rim;
  rim2["name"] = "RE";
  rim2["at_start"] = false;
  Json survey;
  survey["format"] = "underprop-survey/1";
  survey["name"] = "platform by rule of thumb";
  survey["recorded_on"] = "2026-05-01";
  survey["standard"] = "eurocode-uk";
  survey["site"] = site;
  survey["deck"] = {
      {"outline",
       Json::array({{"0 m", "0 m"}, {"3.35 m", "0 m"}, {"3.35 m", "3.3 m"}, {"0 m", "3.3 m"}})},
      {"height", "300 mm"},
      {"boards",
       {{"material", "softwood"},
        {"timber", "C16"},
        {"width", "120 mm"},
        {"thickness", "28 mm"},
        {"gap", "5 mm"},
        {"direction", "x"},
        {"joints", "none"}}},
      {"joists", Json::array({{{"name", "J"},
                               {"direction", "y"},
                               {"first", "150 mm"},
                               {"spacing", "305 mm"},
                               {"count", 11},
                               {"timber", "C14"},
                               {"incised", false},
                               {"breadth", "47 mm"},
                               {"depth", "150 mm"},
                               {"over_bearers", "continuous"},
                               {"start", {{"held", "free"}}},
                               {"end", {{"held", "free"}}}}})},
      {"rims", Json::array({rim, rim2})},
      {"supports", Json::array({{{"name", "P"},
                                 {"under", "J"},
                                 {"positions", positions},
                                 {"packers", 0},
                                 {"footing",
                                  {{"kind", "cast pad"},
                                   {"width", "300 mm"},
                                   {"length", "300 mm"},
                                   {"thickness", "150 mm"},
                                   {"depth", "200 mm"},
                                   {"offset", "0 mm"},
                                   {"contact", "tight"},
                                   {"below_topsoil", true}}}}})},
      {"probed", "all"}};
  survey["loads"] = Json::array({{{"name", "tub"},
                                  {"kind", "tub"},
                                  {"shape", "rectangle"},
                                  {"width", "2.0 m"},
                                  {"length", "2.0 m"},
                                  {"height", "300 mm"},
                                  {"at", {"1.675 m", "1.65 m"}},
                                  {"dry_mass", std::to_string(dry_kg) + " kg"},
                                  {"contents", std::to_string(litres) + " l"},
                                  {"people", 0},
                                  {"base", "full"}}});
  return survey;
}

/// A raised deck in feet: 2x10 Hem-Fir No.2 joists at 12 in. over 3-2x10 beams 8 ft apart, posts 6x6
/// every `post_ft` on 24 in. pads; 5,060 lb and six people on 7 x 7 ft over the middle beam.
inline Json raised(int post_ft) {
  Json positions = Json::array();
  for (int ft = 0; ft <= 16; ft += post_ft) positions.push_back(std::to_string(ft) + " ft");
  Json site = recorded_site();
  site["seismic_category"] = "B";
  site["frost_depth"] = "20 in";
  Json bearers = Json::array(), supports = Json::array();
  const char* names[] = {"A", "B", "C"};
  for (int k = 0; k < 3; ++k) {
    bearers.push_back({{"name", names[k]},
                       {"direction", "x"},
                       {"position", std::to_string(8 * k) + " ft"},
                       {"from", "0 ft"},
                       {"to", "16 ft"},
                       {"timber", "Hem-Fir No.2"},
                       {"incised", false},
                       {"plies", 3},
                       {"ply_breadth", "1.5 in"},
                       {"depth", "9.25 in"},
                       {"plies_fixed_together", true},
                       {"joists", "on top"},
                       {"joists_held_down", "nothing"}});
    supports.push_back({{"name", std::string("P") + names[k]},
                        {"under", names[k]},
                        {"positions", positions},
                        {"packers", 0},
                        {"post",
                         {{"timber", "Hem-Fir No.1"},
                          {"incised", false},
                          {"breadth", "5.5 in"},
                          {"depth", "5.5 in"},
                          {"height", "3 ft"},
                          {"bearer", "on top"},
                          {"base", "pinned"},
                          {"lean", "0 in"}}},
                        {"footing",
                         {{"kind", "cast pad"},
                          {"width", "24 in"},
                          {"length", "24 in"},
                          {"thickness", "12 in"},
                          {"depth", "24 in"},
                          {"offset", "0 in"},
                          {"contact", "tight"},
                          {"below_topsoil", true}}}});
  }
  Json end = {{"held", "resting"}, {"seat", "4.5 in"}, {"sound", true}};
  Json survey;
  survey["format"] = "underprop-survey/1";
  survey["name"] = "raised deck";
  survey["recorded_on"] = "2026-05-01";
  survey["standard"] = "north-america-us";
  survey["site"] = site;
  survey["deck"] = {
      {"outline",
       Json::array({{"0 ft", "0 ft"}, {"16 ft", "0 ft"}, {"16 ft", "16 ft"}, {"0 ft", "16 ft"}})},
      {"height", "5 ft"},
      {"boards",
       {{"material", "softwood"},
        {"timber", "Hem-Fir No.2"},
        {"width", "5.5 in"},
        {"thickness", "1.5 in"},
        {"gap", "0.125 in"},
        {"direction", "x"},
        {"joints", "none"}}},
      {"joists", Json::array({{{"name", "J"},
                               {"direction", "y"},
                               {"first", "0 ft"},
                               {"spacing", "12 in"},
                               {"count", 17},
                               {"timber", "Hem-Fir No.2"},
                               {"incised", false},
                               {"breadth", "1.5 in"},
                               {"depth", "9.25 in"},
                               {"over_bearers", "continuous"},
                               {"start", end},
                               {"end", end}}})},
      {"bearers", bearers},
      {"rims", Json::array({{{"name", "RS"},
                             {"at_start", true},
                             {"joists", "J"},
                             {"breadth", "1.5 in"},
                             {"depth", "9.25 in"},
                             {"fixed", "cleats"}},
                            {{"name", "RE"},
                             {"at_start", false},
                             {"joists", "J"},
                             {"breadth", "1.5 in"},
                             {"depth", "9.25 in"},
                             {"fixed", "cleats"}}})},
      {"blocking", Json::array({{{"name", "K"}, {"joists", "J"}, {"position", "8 ft"}}})},
      {"supports", supports},
      {"braces", Json::array({{{"direction", "x"},
                               {"kind", "diagonal"},
                               {"at", "PA"},
                               {"count", 4},
                               {"breadth", "1.5 in"},
                               {"depth", "5.5 in"},
                               {"bolts", 2},
                               {"bolt_diameter", "0.5 in"}},
                              {{"direction", "y"},
                               {"kind", "diagonal"},
                               {"at", "PA"},
                               {"count", 4},
                               {"breadth", "1.5 in"},
                               {"depth", "5.5 in"},
                               {"bolts", 2},
                               {"bolt_diameter", "0.5 in"}}})},
      {"probed", "all"}};
  survey["loads"] = Json::array({{{"name", "tub"},
                                  {"kind", "tub"},
                                  {"shape", "rectangle"},
                                  {"width", "7 ft"},
                                  {"length", "7 ft"},
                                  {"height", "18 in"},
                                  {"at", {"8 ft", "8 ft"}},
                                  {"dry_mass", "860 lb"},
                                  {"contents", "1905 l"},
                                  {"people", 6},
                                  {"base", "full"}}});
  return survey;
}

/// The raised deck with its beams cut over every inner post, the last post at the end of the deck: a
/// row of simple spans. `tub_ft`: where the middle of the tub stands along the beams.
inline Json raised_in_simple_spans(int post_ft, int tub_ft) {
  Json survey = raised(post_ft);
  Json splices = Json::array();
  for (int ft = post_ft; ft < 16; ft += post_ft) splices.push_back(std::to_string(ft) + " ft");
  for (Json& bearer : survey["deck"]["bearers"]) bearer["splices"] = splices;
  if (16 % post_ft != 0) {
    for (Json& support : survey["deck"]["supports"]) support["positions"].push_back("16 ft");
  }
  survey["loads"][0]["at"][0] = std::to_string(tub_ft) + " ft";
  return survey;
}

/// The platform with its joists between two flush bearers on pads, both ends held as `held` says.
inline Json hung_platform(const std::string& held) {
  Json survey = platform(5);
  Json& deck = survey["deck"];
  Json end = {{"held", held}, {"sound", true}};
  end[held == "hanger" ? "nails_in_carrier" : "nails"] = held == "hanger" ? 8 : 3;
  if (held == "hanger") end["seat"] = "40 mm";
  deck["joists"][0]["start"] = end;
  deck["joists"][0]["end"] = end;
  deck.erase("rims");
  const Json pads = deck["supports"][0];
  deck["bearers"] = Json::array();
  deck["supports"] = Json::array();
  for (const auto& [name, position] : {std::pair{"A", "0 m"}, std::pair{"B", "3.3 m"}}) {
    deck["bearers"].push_back({{"name", name},
                               {"direction", "x"},
                               {"position", position},
                               {"from", "0 m"},
                               {"to", "3.35 m"},
                               {"timber", "C24"},
                               {"incised", false},
                               {"plies", 2},
                               {"ply_breadth", "47 mm"},
                               {"depth", "150 mm"},
                               {"plies_fixed_together", true},
                               {"joists", "flush"},
                               {"joists_held_down", "nothing"}});
    Json row = pads;
    row["name"] = std::string("P") + name;
    row["under"] = name;
    row["positions"] = {"200 mm", "1.2 m", "2.2 m", "3.15 m"};
    deck["supports"].push_back(row);
  }
  return survey;
}

inline record::Survey read(const Json& json) {
  return deck::read_survey(json.dump(), "survey.json").survey;
}
inline assessment::Assessment assess(const record::Survey& survey) {
  return assessment::assess(survey, *assessment::standard_for(survey.standard));
}
inline assessment::Assessment assess(const Json& json) { return assess(read(json)); }

/// The worst utilisation of a check over the pieces whose name begins so; 0 if there is none.
inline double utilisation(const assessment::Assessment& a, const std::string& piece,
                          const std::string& check) {
  double u = 0.0;
  for (const assessment::Finding& f : a.shown.findings) {
    if (f.piece.starts_with(piece) && f.check.check == check) u = std::max(u, f.check.utilisation);
  }
  return u;
}

}  // namespace underprop::test
