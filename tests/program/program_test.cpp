// The program from outside: command lines in, text and exit codes out.
#include "support/program.hpp"
#include "support/catch.hpp"
#include "support/paths.hpp"
#include "support/recorded.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>
#include <string>

namespace program_test_file {

namespace {

using underprop::test::Errors;
using underprop::test::Ran;
using underprop::test::run;

std::string example(const std::string& name) {
  return "\"" + std::string(underprop::test::source_dir) + "/examples/" + name + "/survey.json\"";
}

/// What assess says of an example, as JSON.
const Ran& answer(const std::string& name) {
  return underprop::test::shown("underprop assess --json examples/" + name + "/survey.json");
}

std::string temporary(const std::string& name, const std::string& text) {
  const std::string path = underprop::test::temporary_path(name);
  std::ofstream(path, std::ios::binary) << text;
  return path;
}

const char* const examples[] = {"courtyard-platform", "ledger-hung-raised-deck",
                                "old-deck-unknown",   "rotten-stretch",
                                "water-tank",         "above-retaining-wall"};

}  // namespace

TEST_CASE("Every example gives the verdict, the exit code and the utilisation it promises",
          "[program][words][recorded]") {
  for (const char* name : examples) {
    const Ran& ran = answer(name);
    INFO(name << ": " << ran.out.substr(0, 1200));
    const nlohmann::json got = nlohmann::json::parse(ran.out);
    underprop::test::check_recorded_numbers("examples/" + std::string(name) + "/expected.json",
                                            {{"verdict", got.at("verdict")},
                                             {"exit_code", ran.code},
                                             {"utilisation", got.at("utilisation")}});
    for (const char* key :
         {"format", "notice", "standard", "verdict", "sentence", "utilisation",
          "utilisation_service", "fails", "governing", "findings", "ordinary_use", "decides",
          "unknowns", "must_see", "assumptions", "cautions", "refer_reasons"}) {
      CHECK(got.contains(key));
    }
  }
}

namespace {

/// An example with one place of it changed, as a file; `value` null: left out.
std::string changed(const std::string& name, const std::string& pointer,
                    const nlohmann::json& value) {
  std::ifstream file(std::string(underprop::test::source_dir) + "/examples/" + name +
                     "/survey.json");
  nlohmann::json json = nlohmann::json::parse(file);
  const nlohmann::json::json_pointer at(pointer);
  if (value.is_null()) {
    json.at(at.parent_pointer()).erase(at.back());
  } else {
    json[at] = value;
  }
  return temporary("changed-" + name + ".json", json.dump(1));
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// One blank for each line break and the blanks behind it.
std::string flowed(const std::string& text) {
  std::string flow;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\n';
    if (!blank || !flow.ends_with(' ')) flow += blank ? ' ' : c;
  }
  return flow;
}

}  // namespace

TEST_CASE("Fixings that nobody has looked at are told so, with how to look", "[program]") {
  // The raised deck with joists right to its edges, no load and no snow passes: who measured how far
  // apart the ledger's fixings are has seen them. Where nobody has, all rests on whether they are sound.
  nlohmann::json deck = nlohmann::json::parse(underprop::test::text_of(
      std::string(underprop::test::source_dir) + "/examples/ledger-hung-raised-deck/survey.json"));
  deck["loads"] = nlohmann::json::array();
  deck["site"]["snow_load"] = "0 kN/m2";
  deck["deck"]["joists"][0]["first"] = "0 in";
  deck["deck"]["joists"][0]["count"] = 13;
  deck["deck"]["ledgers"][0].erase("sound");
  const std::string measured = temporary("measured-ledger.json", deck.dump(1));
  const Ran seen = run("assess \"" + measured + "\"");
  INFO(seen.out);
  CHECK(seen.code == 0);
  CHECK_FALSE(holds(flowed(seen.out), "fixings are sound"));
  std::remove(measured.c_str());
  deck["deck"]["ledgers"][0].erase("fixing_spacing");
  const std::string path = temporary("unseen-ledger.json", deck.dump(1));
  const Ran unseen = run("assess \"" + path + "\"");
  const std::string text = flowed(unseen.out);
  INFO(text);
  CHECK(unseen.code == 2);
  CHECK(holds(text, "nobody has looked whether they are sound. Look for rust streaks"));
  CHECK_FALSE(holds(text, "corroded, split"));
  CHECK_FALSE(holds(text, "infinite"));
  std::remove(path.c_str());
  // Seen to be unsound it is told as before.
  const std::string bad = changed("ledger-hung-raised-deck", "/deck/ledgers/0/sound", false);
  CHECK(holds(flowed(run("assess \"" + bad + "\"").out), "corroded, split or loose"));
  std::remove(bad.c_str());
}

TEST_CASE("Odd entries and what comes next are told in words, with the file's name", "[program]") {
  const std::string path = changed("ledger-hung-raised-deck", "/site/house_walls", "none");
  const Ran ran = run("assess \"" + path + "\"", Errors::shown);
  const std::string text = flowed(ran.out);
  INFO(ran.out);
  CHECK(holds(text, "Odd entry the site, house walls: no wall of a house is near"));
  CHECK(holds(text, "(ledger L1)"));
  CHECK_FALSE(holds(text, "/site/"));
  CHECK_FALSE(holds(text, "/deck/"));
  CHECK(holds(text, "Next underprop retrofit " + path));
  const Ran json = run("assess --json \"" + path + "\"", Errors::shown);
  CHECK(holds(json.out, "odd entry: /site/house_walls: "));
  std::remove(path.c_str());
}

TEST_CASE("American places and costs are told in what people measure", "[program]") {
  const std::string place = flowed(
      underprop::test::shown("underprop place examples/ledger-hung-raised-deck/survey.json").out);
  INFO(place);
  CHECK(holds(place, "places, 4 in apart"));
  // Without a long search for works; what those are called in inches stands in expected-works.txt.
  nlohmann::json nothing_allowed;
  for (const char* measure : {"move_load", "turn_load", "packing", "pads", "sleepers", "bearers",
                              "sisters", "added_joists", "blocking", "hangers", "bigger_pads",
                              "braces", "ledger_bolts", "digging"}) {
    nothing_allowed[measure] = false;
  }
  const std::string path = changed("ledger-hung-raised-deck", "/allow", nothing_allowed);
  const std::string compare = flowed(run("compare \"" + path + "\"").out);
  INFO(compare);
  for (const std::string& text : {place, compare}) {
    for (const char* odd : {"/16 in", "/8 in", "/4 in", "kPa", " mm"})
      CHECK_FALSE(holds(text, odd));
  }
  CHECK(holds(compare, "2 in concrete round it"));  // 40 mm is 1.57 in: never less than that
  CHECK(holds(compare, "psf presumed"));
  std::remove(path.c_str());
}

TEST_CASE("A deck of three unknowns at most names what decides", "[program][recorded]") {
  const nlohmann::json got = nlohmann::json::parse(answer("old-deck-unknown").out);
  REQUIRE(!got.at("decides").empty());
  for (const auto& set : got.at("decides")) CHECK(set.size() <= 3);
}

TEST_CASE("Bad input and bad usage end with a message and their own exit code", "[program]") {
  CHECK(run("assess").code == 64);
  CHECK(run("dance").code == 64);
  CHECK(run("record").code == 64);
  CHECK(run("assess --nonsense " + example("courtyard-platform")).code == 64);
  CHECK(run("catalog no-such-table").code == 64);
  CHECK(run("explain " + example("courtyard-platform") + " no-such-finding").code == 64);
  CHECK(run("assess /no/such/file.json").code == 74);
  CHECK(run("assess /").code == 74);
  const struct {
    const char* name;
    std::string text;
  } bad[] = {{"empty.json", ""},
             {"deep.json", std::string(200000, '[')},
             {"large.json", std::string(100u << 20, ' ')},
             {"zeros.json", std::string(64, '\0')},
             {"list.json", "[]"}};
  for (const auto& file : bad) {
    const std::string path = temporary(file.name, file.text);
    const Ran ran = run("assess \"" + path + "\"", Errors::shown);
    INFO(file.name << ": " << ran.out.substr(0, 300));
    CHECK(ran.code == 65);
    CHECK(ran.out.find(file.name) != std::string::npos);
    std::remove(path.c_str());
  }
}

TEST_CASE("Explain writes out the arithmetic of one finding with its clause", "[program]") {
  const nlohmann::json got = nlohmann::json::parse(answer("water-tank").out);
  const nlohmann::json& governing = got.at("governing");
  const Ran ran = run("explain " + example("water-tank") + " \"" +
                      governing.at("id").get<std::string>() + "\"");
  INFO(ran.out);
  CHECK(ran.code == 0);
  CHECK(ran.out.find("not a substitute for a structural") != std::string::npos);
  CHECK(ran.out.find(governing.at("source").at("key").get<std::string>()) != std::string::npos);
  REQUIRE(!governing.at("steps").empty());
  for (const auto& step : governing.at("steps"))
    CHECK(ran.out.find(step.at("symbol").get<std::string>()) != std::string::npos);
  // What it divides is what it says.
  CHECK(governing.at("utilisation").get<double>() ==
        Approx(governing.at("demand").get<double>() / governing.at("resistance").get<double>())
            .epsilon(1e-9));
}

TEST_CASE("The catalogue lists its tables and prints each as JSON", "[program]") {
  const Ran list = run("catalog");
  CHECK(list.code == 0);
  std::istringstream lines(list.out);
  int tables = 0;
  for (std::string line; std::getline(lines, line);) {
    // Two blanks, a path without blanks.
    if (!line.starts_with("  ") || line.find(' ', 2) != std::string::npos) continue;
    if (line == "  clauses") continue;  // a table in columns: below
    const Ran table = run("catalog " + line.substr(2));
    INFO(line);
    CHECK(table.code == 0);
    const std::size_t json = table.out.find("\n{");
    REQUIRE(json != std::string::npos);
    CHECK(table.out.find("not a substitute for a structural engineer") < json);
    CHECK(nlohmann::json::accept(table.out.substr(json)));
    ++tables;
  }
  CHECK(tables >= 10);
  const Ran clauses = run("catalog clauses");
  CHECK(clauses.code == 0);
  CHECK(clauses.out.find("not a substitute for a structural engineer") != std::string::npos);
  CHECK(clauses.out.find("EN 1995-1-1") != std::string::npos);
  CHECK(clauses.out.find("NDS") != std::string::npos);
}

TEST_CASE("The exported model is in equilibrium", "[program][law]") {
  const Ran ran = run("export " + example("water-tank"));
  REQUIRE(ran.code == 0);
  const nlohmann::json got = nlohmann::json::parse(ran.out);
  CHECK(got.at("format") == "underprop/model/1");
  REQUIRE(!got.at("models").empty());
  for (const auto& model : got.at("models")) {
    for (const char* key : {"bound", "stage", "nodes", "members", "links", "supports", "plates",
                            "cases", "combinations", "results"}) {
      CHECK(model.contains(key));
    }
    std::map<std::string, double> down;  // of each case
    std::map<std::string, double> lengths;
    std::map<std::string, std::pair<double, double>> nodes;
    for (const auto& node : model.at("nodes")) nodes[node.at("id")] = {node.at("x"), node.at("y")};
    for (const auto& load_case : model.at("cases")) {
      double sum = 0.0;
      for (const auto& load : load_case.at("nodal")) sum += load.at("Fz").get<double>();
      for (const auto& load : load_case.at("line")) {
        sum += 0.5 * (load.at("q1").get<double>() + load.at("q2").get<double>()) *
               (load.at("b").get<double>() - load.at("a").get<double>());
      }
      for (const auto& load : load_case.at("point")) sum += load.at("P").get<double>();
      down[load_case.at("id")] = sum;
    }
    for (const auto& combination : model.at("combinations")) {
      double load = 0.0, reaction = 0.0;
      for (const auto& [id, factor] : combination.at("factors").items())
        load += factor.get<double>() * down.at(id);
      const auto& result = model.at("results").at(combination.at("id").get<std::string>());
      if (result.contains("mechanism")) continue;
      for (const auto& [node, force] : result.at("reactions").items())
        reaction += force.get<double>();
      CHECK(reaction == Approx(-load).epsilon(1e-6));
    }
  }
}

TEST_CASE("A retrofit is found for the rotten stretch, and every command says what it is not",
          "[program][recorded]") {
  const Ran ran = run("compare --json " + example("water-tank"));
  CHECK(ran.code == 0);
  const nlohmann::json got = nlohmann::json::parse(ran.out);
  CHECK(got.at("options").size() >= 3);
  CHECK(got.contains("cheapest"));
  CHECK(got.contains("tips_the_balance"));
  const Ran retrofit = run("retrofit --json " + example("rotten-stretch"));
  CHECK(retrofit.code == 0);
  const nlohmann::json plan = nlohmann::json::parse(retrofit.out);
  CHECK(plan.at("found") == true);
  REQUIRE(!plan.at("plan").is_null());
  CHECK(!plan.at("plan").at("works").empty());
  CHECK(plan.at("plan").at("assessment").at("utilisation").get<double>() <= 1.0);
  CHECK(run("retrofit --json " + example("above-retaining-wall")).code == 3);
  for (const char* command : {"catalog", "catalog eurocode/timber"}) {
    CHECK(run(command).out.find("not a substitute for a structural engineer") != std::string::npos);
  }
}

}  // namespace program_test_file
