// The published span tables beside our spans, printed; and what the data must satisfy.
#include "published/registry.hpp"
#include "support/catch.hpp"
#include "support/paths.hpp"

#include "catalog/embedded.hpp"
#include "standards/north_america/connection.hpp"
#include "standards/north_america/dowel.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iomanip>
#include <iostream>
#include <set>
#include <sstream>
#include <stdexcept>
#include <string>

namespace north_america_tables_test_file {

namespace na = underprop::standards::north_america;
using namespace underprop;
using nlohmann::json;

namespace {

json data_file(const std::string& path) {
  for (const catalog::EmbeddedFile& file : catalog::embedded_files()) {
    if (file.path == path) return json::parse(file.text);
  }
  throw std::runtime_error(path + " is not embedded");
}

json published_file(const std::string& name) {
  std::ifstream stream(std::string(underprop::test::tests_dir) + "/published/north_america/" +
                       name);
  if (!stream.good()) throw std::runtime_error(name + " cannot be read");
  return json::parse(stream);
}

/// Prints row, published span, our span and their ratio; returns the extreme ratios.
struct Extremes {
  double least = 1e9, most = 0.0;
};
/// Why a row lies outside the printed rounding, where its file says so.
std::string reason(const json& one) {
  return one.contains("note") ? "; " + one.at("note").get<std::string>() : "";
}
Extremes compare(const std::string& file, const std::string& title) {
  published::Registry registry;
  published::register_north_america_rules(registry);
  const json block = published_file(file);
  const auto& rule = registry.at(block.at("rule").get<std::string>());
  std::ostringstream text;
  text << title << "\nrow; published in.; computed in.; ratio\n" << std::fixed;
  Extremes extremes;
  for (const json& one : block.at("cases")) {
    const json& given = one.at("given");
    const json got = rule(given);
    const double wanted = one.at("expected").at("span_in").get<double>();
    const double found = got.at("span_in").get<double>();
    std::string row = given.contains("plies") ? given.at("plies").dump() + "-" : "";
    row += "2x" + given.at("nominal_width").dump();
    row += given.contains("spacing_in") ? " at " + given.at("spacing_in").dump() + " in."
                                        : ", joists " + given.at("joist_span_ft").dump() + " ft";
    if (given.contains("dead_psf")) {
      row += ", " + given.at("lumber").get<std::string>() + ", " + given.at("dead_psf").dump() +
             " psf dead";
    }
    if (got.contains("weakest")) row += ", " + got.at("weakest").get<std::string>();
    text << row << "; " << std::setprecision(0) << wanted << "; " << std::setprecision(2) << found
         << "; " << std::setprecision(4) << found / wanted << reason(one) << '\n';
    extremes.least = std::min(extremes.least, found / wanted);
    extremes.most = std::max(extremes.most, found / wanted);
  }
  std::cout << text.str();
  return extremes;
}

/// Prints every row of the blocks of a file that use `rule`: what is given, then every printed and
/// computed number with their ratio. Returns the extreme ratios of `key`.
Extremes print_rows(const std::string& file, const std::string& rule, const std::string& key) {
  published::Registry registry;
  published::register_north_america_rules(registry);
  std::ostringstream text;
  text << file << ", " << rule << "\nrow; published; computed; ratio\n" << std::fixed;
  Extremes extremes;
  for (const json& block : published_file(file)) {
    if (block.at("rule") != rule) continue;
    text << block.at("source").at("where").get<std::string>() << '\n';
    for (const json& one : block.at("cases")) {
      const json got = registry.at(rule)(one.at("given"));
      std::string row;
      for (const auto& [name, value] : one.at("given").items())
        row += name + ' ' + value.dump() + ' ';
      for (const auto& [name, value] : one.at("expected").items()) {
        const double wanted = value.get<double>(), found = got.at(name).get<double>();
        text << row << name << "; " << std::setprecision(2) << wanted << "; " << found << "; "
             << std::setprecision(4) << found / wanted << reason(one) << '\n';
        if (name != key) continue;
        extremes.least = std::min(extremes.least, found / wanted);
        extremes.most = std::max(extremes.most, found / wanted);
      }
    }
  }
  std::cout << text.str();
  return extremes;
}

}  // namespace

TEST_CASE("published deck spans come out of the clauses", "[tables][published]") {
  const Extremes joists = compare("joist_spans.json", "DCA 6 Table 2, joists");
  // Half an inch on the shortest span.
  CHECK(joists.least > 1.0 - 0.5 / 82.0);
  CHECK(joists.most < 1.0 + 0.5 / 82.0);
  // The greatest ratio is the row that the file marks as not explained.
  const Extremes beams = compare("beam_spans.json", "IRC 2015 R507.6, Southern Pine beams");
  CHECK(beams.least > 0.99);
  CHECK(beams.most < 1.05);
  const Extremes floors =
      compare("floor_joist_spans.json", "IRC Table R502.3.1(2), spruce-pine-fir");
  // Half an inch on the shortest span, 74 in.
  CHECK(floors.least > 1.0 - 0.5 / 74.0);
  CHECK(floors.most < 1.0 + 0.5 / 74.0);
  const Extremes footings = print_rows("footings.json", "dca6_footing", "round_dia_in");
  CHECK(footings.least == Approx(1.0));
  CHECK(footings.most == Approx(1.0));
  // Printed spacings are rounded down, some to the half inch: ours may be short of them, not long.
  const Extremes ledgers = print_rows("connections.json", "ledger_fastener_spacing", "spacing_in");
  CHECK(ledgers.least > 0.9);
  CHECK(ledgers.most <= 1.0);
}

TEST_CASE("every class of lumber is whole and named once", "[law]") {
  const json lumber = data_file("north_america/lumber.json");
  for (const char* table : {"dimension_lumber", "timbers"}) {
    std::set<std::string> names;
    for (const json& row : lumber.at(table)) {
      const std::string name =
          row.at("species").get<std::string>() + " " + row.at("grade").get<std::string>() +
          (row.contains("nominal_width") ? row.at("nominal_width").dump() : "");
      INFO(name);
      CHECK(names.insert(name).second);
      CHECK(row.at("read").is_boolean());
      for (const char* key : {"F_b", "F_t", "F_v", "F_c_perp", "F_c", "E", "E_min", "G"}) {
        CHECK(row.at(key).get<double>() > 0.0);
      }
      // NDS Appendix D: E_min = 1.03 E (1 - 1.645 x 0.25)/1.66, tabulated to 10,000 psi.
      const double E = row.at("E").get<double>();
      const double E_min = 1.03 * E * (1.0 - 1.645 * 0.25) / 1.66;
      CHECK(std::abs(row.at("E_min").get<double>() - E_min) < 6000.0);
      CHECK(row.at("F_t").get<double>() < row.at("F_b").get<double>());
    }
  }
}

TEST_CASE("a higher grade of a species is never weaker", "[law]") {
  const json lumber = data_file("north_america/lumber.json");
  const auto find = [&](const std::string& species, const std::string& grade,
                        const json& width) -> const json* {
    for (const json& row : lumber.at("dimension_lumber")) {
      if (row.at("species") == species && row.at("grade") == grade &&
          row.value("nominal_width", json()) == width) {
        return &row;
      }
    }
    return nullptr;
  };
  int pairs = 0;
  for (const json& row : lumber.at("dimension_lumber")) {
    if (row.at("grade") != "No.2") continue;
    const json width = row.value("nominal_width", json());
    const std::string species = row.at("species");
    const json* worse = find(species, "No.3", width);
    const json* better = find(species, "No.1", width);
    for (const char* key : {"F_b", "F_t", "F_c", "E", "E_min"}) {
      INFO(species << " " << key);
      if (worse != nullptr) CHECK(worse->at(key) <= row.at(key));
      if (better != nullptr) CHECK(better->at(key) >= row.at(key));
      pairs += (worse != nullptr) + (better != nullptr);
    }
  }
  CHECK(pairs > 50);
}

TEST_CASE("no ledger fastener counts for more than its published spacings", "[published]") {
  // Each printed spacing, taken as exact, lets a fastener carry spacing x span/2 x 50 psf; our
  // value must not exceed the greatest of its row, and must lie near it.
  const json fasteners = data_file("north_america/fixings.json").at("ledger").at("fasteners");
  int rows = 0;
  for (const json& block : published_file("connections.json")) {
    if (block.at("rule") != "ledger_fastener_spacing") continue;
    if (block.at("source").at("key") != "wisconsin-udc") continue;
    const std::string where = block.at("source").at("where");
    const std::string name = where.substr(where.find(": ") + 2);
    INFO(name);
    REQUIRE(fasteners.contains(name));
    double most = 0.0;
    for (const json& one : block.at("cases")) {
      const double spacing = one.at("expected").at("spacing_in").get<double>();
      if (spacing >= 36.0) continue;
      most = std::max(
          most, spacing / 12.0 * one.at("given").at("joist_span_ft").get<double>() / 2.0 * 50.0);
    }
    const double ours = fasteners.at(name).at("allowable_lb").get<double>();
    CHECK(ours <= most);
    CHECK(ours >= 0.93 * most);
    ++rows;
  }
  CHECK(rows == 7);
}

TEST_CASE("a nail of the generic hanger counts for no more than the yield equations", "[law]") {
  const json fixings = data_file("north_america/fixings.json");
  const json& hanger = fixings.at("generic_hanger");
  na::DowelJoint j;
  j.D = j.nominal = inches(hanger.at("nail").at("D_in"));
  j.F_yb = psi(hanger.at("nail").at("F_yb_psi"));
  j.l_s = inches(hanger.at("plate_in"));
  j.l_m = inches(hanger.at("nail").at("length_in")) - j.l_s;
  j.F_em = na::dowel_bearing_small(hanger.at("G"));
  j.F_es = psi(fixings.at("steel_bearing_psi").at("cold_formed_grade_33"));
  const double C_p = na::penetration_factor(j.l_m, j.D, 6.0, 10.0);
  const double Z = C_p * in_pounds_force(na::single_shear(j).Z);
  const double ours = hanger.at("per_header_nail_lb").get<double>();
  INFO("yield equations " << Z);
  CHECK(ours <= Z);
  CHECK(ours >= 0.7 * Z);
}

TEST_CASE("presumed bearing rises with the outlook and with bedding", "[law]") {
  const json soils = data_file("north_america/ground.json").at("soils");
  int judged = 0;
  for (const auto& [name, soil] : soils.items()) {
    INFO(name);
    if (soil.value("refer", false)) continue;
    const json& bedded = soil.at("presumed_psf").at("bedded");
    const json& surface = soil.at("presumed_psf").at("surface");
    for (const json* row : {&bedded, &surface}) {
      CHECK(row->at("cautious") <= row->at("likely"));
      CHECK(row->at("likely") <= row->at("favourable"));
      CHECK(row->at("cautious") > 0);
    }
    CHECK(surface.at("cautious") <= bedded.at("cautious"));
    CHECK(surface.at("favourable") <= bedded.at("favourable"));
    CHECK(soil.at("modulus_MPa").at("soft") < soil.at("modulus_MPa").at("stiff"));
    ++judged;
  }
  CHECK(judged == 10);
}

}  // namespace north_america_tables_test_file
