// A small deck with every kind of piece, most of them below the load, as a survey file. Invented for
// these tests; sizes are common practice, no source.
#pragma once

#include <nlohmann/json.hpp>

#include <string>

namespace underprop::test {

using Json = nlohmann::json;

/// Six joists 400 mm apart on hangers at a ledger, over a wall on a strip and a two-ply bearer on
/// posts, with one pad below J3, a rim, blocking, a sister and braces; `litres` of water on 1.4 x 1.4 m
/// across the middle. `american`: the same deck, in millimetres, of Hem-Fir under that standard.
inline nlohmann::json whole_record(bool american, double litres) {
  const Json timber = american ? "Hem-Fir No.1" : "C24";
  const auto line = [](const char* name, const char* y) {
    return Json::array(
        {{{"name", name}, {"from", {"-3 m", y}}, {"to", {"6 m", y}}, {"height", "500 mm"}}});
  };
  Json survey;
  survey["format"] = "underprop-survey/1";
  survey["name"] = "whole record";
  survey["recorded_on"] = "2026-05-01";
  survey["corner_a"] = "the corner at the gate";
  survey["notes"] = "Invented.";
  survey["standard"] = american ? "north-america-us" : "eurocode-uk";
  survey["site"] = {{"use", "one household"},
                    {"storeys", 1},
                    {"space_below", "none"},
                    {"soil", "firm clay"},
                    {"heel_marks", false},
                    {"water_in_hole", false},
                    {"shrinkable_clay", true},
                    {"fill", "none"},
                    {"slope", "level"},
                    {"frost_depth", "300 mm"},
                    {"retaining_walls", line("RW", "9 m")},
                    {"house_walls", line("HW", "-1.5 m")},
                    {"drains", line("D", "6 m")},
                    {"ponds", line("PO", "9 m")},
                    {"trees", Json::array({{{"at", {"12 m", "12 m"}}, {"height", "5 m"}}})},
                    {"shear_strength", "60 kPa"},
                    {"ground_pressure", "90 kPa"},
                    {"imposed_load", "2 kN/m2"},
                    {"snow_load", "0.6 kN/m2"},
                    {"concentrated_load", "1.4 kN"},
                    {"roof_or_screen", false}};
  if (american) survey["site"]["seismic_category"] = "B";
  const Json footing = {{"kind", "cast pad"},    {"width", "500 mm"},    {"length", "500 mm"},
                        {"thickness", "250 mm"}, {"depth", "450 mm"},    {"offset", "10 mm"},
                        {"contact", "tight"},    {"below_topsoil", true}};
  const Json hung = {{"held", "hanger"},
                     {"nails", 14},
                     {"nails_in_carrier", 8},
                     {"all_holes_nailed", false},
                     {"stated_capacity", "8 kN"},
                     {"sound", true},
                     {"seat", "45 mm"}};
  Json corner = Json::array({{"2.2 m", "3 m"}, {"2.4 m", "3 m"}, {"2.4 m", "3.2 m"}});
  survey["deck"] = {
      {"outline",
       Json::array({{"0 m", "0 m"}, {"2.4 m", "0 m"}, {"2.4 m", "3.2 m"}, {"0 m", "3.2 m"}})},
      {"height", "750 mm"},
      {"boards",
       {{"material", "softwood"},
        {"timber", timber},
        {"width", "145 mm"},
        {"thickness", "32 mm"},
        {"groove_depth", "2 mm"},
        {"gap", "5 mm"},
        {"direction", "x"},
        {"joints", "none"}}},
      {"joists",
       Json::array({{{"name", "J"},
                     {"direction", "y"},
                     {"positions", {"200 mm", "600 mm", "1 m", "1.4 m", "1.8 m", "2.2 m"}},
                     {"from", "0 m"},
                     {"to", "3.2 m"},
                     {"timber", timber},
                     {"incised", false},
                     {"breadth", "47 mm"},
                     {"depth", "195 mm"},
                     {"over_bearers", "continuous"},
                     {"start", hung},
                     {"end", {{"held", "free"}}}}})},
      {"joist_ends", Json::array({{{"joist", "J4"},
                                   {"at_start", true},
                                   {"hold",
                                    {{"held", "hanger"},
                                     {"nails", 10},
                                     {"stated_capacity", "7.5 kN"},
                                     {"sound", true},
                                     {"seat", "40 mm"}}}}})},
      {"ledgers", Json::array({{{"name", "L"},
                                {"direction", "x"},
                                {"position", "0 m"},
                                {"from", "0 m"},
                                {"to", "2.4 m"},
                                {"timber", timber},
                                {"incised", false},
                                {"breadth", "47 mm"},
                                {"depth", "195 mm"},
                                {"fixed_to", "timber band"},
                                {"fixing", "bolt"},
                                {"fixing_diameter", "12 mm"},
                                {"fixing_spacing", "300 mm"},
                                {"fixing_heights", {"60 mm", "140 mm"}},
                                {"penetration", "45 mm"},
                                {"band_condition", "sound and flashed"},
                                {"band_wood", "solid sawn"},
                                {"stated_pull_out", "12 kN"},
                                {"sound", true}}})},
      {"bearers", Json::array({{{"name", "B"},
                                {"direction", "x"},
                                {"position", "2.7 m"},
                                {"from", "0 m"},
                                {"to", "2.4 m"},
                                {"timber", timber},
                                {"incised", false},
                                {"plies", 2},
                                {"ply_breadth", "47 mm"},
                                {"depth", "195 mm"},
                                {"plies_fixed_together", true},
                                {"joists", "on top"},
                                {"joists_held_down", "strapped"},
                                {"hold_down_capacity", "3 kN"}}})},
      {"rims", Json::array({{{"name", "R"},
                             {"at_start", false},
                             {"joists", "J"},
                             {"breadth", "47 mm"},
                             {"depth", "195 mm"},
                             {"fixed", "cleats"}}})},
      {"supports", Json::array({{{"name", "P"},
                                 {"under", "B"},
                                 {"positions", {"300 mm", "1.2 m", "2.1 m"}},
                                 {"packers", 0},
                                 {"bearing_length", "90 mm"},
                                 {"post",
                                  {{"timber", timber},
                                   {"incised", false},
                                   {"breadth", "95 mm"},
                                   {"depth", "95 mm"},
                                   {"height", "300 mm"},
                                   {"bearer", "on top"},
                                   {"base", "pinned"},
                                   {"lean", "3 mm"}}},
                                 {"footing", footing}},
                                {{"name", "Q"},
                                 {"under", "J"},
                                 {"positions", {"700 mm"}},
                                 {"only", {"J3"}},
                                 {"packers", 0},
                                 {"footing", footing}}})},
      {"walls", Json::array({{{"name", "W"},
                              {"from", {"0 m", "1.5 m"}},
                              {"to", {"2.4 m", "1.5 m"}},
                              {"width", "150 mm"},
                              {"strip_width", "400 mm"},
                              {"depth", "450 mm"},
                              {"contact", "tight"}}})},
      {"blocking", Json::array({{{"name", "K"}, {"joists", "J"}, {"position", "1 m"}}})},
      {"braces", Json::array({{{"direction", "x"},
                               {"kind", "diagonal"},
                               {"at", "P"},
                               {"count", 2},
                               {"breadth", "47 mm"},
                               {"depth", "95 mm"},
                               {"bolts", 2},
                               {"bolt_diameter", "12 mm"}}})},
      {"sisters", Json::array({{{"joist", "J2"},
                                {"timber", timber},
                                {"incised", false},
                                {"breadth", "47 mm"},
                                {"depth", "195 mm"}}})},
      {"probed", {{"pieces", {"all"}}}},
      {"obstacles", Json::array({{{"name", "gate post"}, {"outline", corner}}})},
      {"closed_zones", Json::array({{{"name", "flower bed"}, {"outline", corner}}})}};
  survey["loads"] = Json::array({{{"name", "tub"},
                                  {"kind", "tub"},
                                  {"shape", "rectangle"},
                                  {"width", "1.4 m"},
                                  {"length", "1.4 m"},
                                  {"height", "250 mm"},
                                  {"at", {"1.2 m", "1.5 m"}},
                                  {"rotation_deg", 0},
                                  {"dry_mass", "100 kg"},
                                  {"contents", std::to_string(litres) + " l"},
                                  {"people", 1},
                                  {"empty_for_months", false},
                                  {"base", "full"},
                                  {"pinned", false},
                                  {"service_gap", "100 mm"}}});
  survey["allow"] = nlohmann::json::object();
  return survey;
}

}  // namespace underprop::test
