// The two decks that are worked by hand, and what the program says of them.
#pragma once

#include "support/decks.hpp"
#include "support/paths.hpp"

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>

namespace underprop::test {

inline Json example(const std::string& name) {
  std::ifstream file(std::string(source_dir) + "/examples/" + name + "/survey.json");
  std::ostringstream text;
  text << file.rdbuf();
  return Json::parse(text.str());
}
inline const assessment::Assessment& courtyard() {
  static const assessment::Assessment a = [] {
    // The tub's form recorded: 880 l are then what it holds, and not the 1.26 m3 of its whole plan.
    Json deck = example("courtyard-platform");
    deck["loads"][0]["form"] = "moulded with seats";
    return assess(read(deck));
  }();
  return a;
}
inline const assessment::Assessment& raised() {
  static const assessment::Assessment a = [] {
    // The ledger's lag screws 16 in. apart, one beside every joist, so that a hand can follow them.
    Json deck = example("ledger-hung-raised-deck");
    deck["deck"]["ledgers"][0]["fixing_spacing"] = "16 in";
    return assess(read(deck));
  }();
  return a;
}
inline const standards::Check& check_of(const assessment::Assessment& a, const std::string& id) {
  for (const auto* list : {&a.shown.findings, &a.service_findings, &a.shown.ordinary_use}) {
    for (const assessment::Finding& f : *list) {
      if (f.id == id) return f.check;
    }
  }
  throw std::runtime_error("no finding " + id);
}

}  // namespace underprop::test
