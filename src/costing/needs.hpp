// What has to be bought, dug and done, before it is turned into bags, packs and stock lengths.
#pragma once

#include "underprop/base/format.hpp"
#include "underprop/costing/costing.hpp"
#include "underprop/record/standard_facts.hpp"

#include <map>
#include <string>
#include <vector>

namespace underprop::costing {

/// Sums over all works; quantities() makes the bill's lines of it. Volumes in m3, areas in m2, lengths
/// of boards in m, as found in the ground or in place; waste, bulking and laps are added at the end.
struct Needs {
  record::StandardId standard = record::StandardId::eurocode_uk;

  double dug_m3 = 0.0, spoil_m3 = 0.0;  ///< spoil: what does not go back, before bulking
  double concrete_m3 = 0.0;
  int pours = 0;
  double formwork_m = 0.0, membrane_m2 = 0.0, sub_base_m3 = 0.0;
  std::map<std::string, int> mesh_sheets;
  std::vector<Length> bars;  ///< reinforcing bars, laps included
  int spacers = 0;
  struct Timber {
    std::string item, note;
    double area_m2 = 0.0;
    std::vector<Length> pieces;
  };
  std::map<std::string, Timber> timber;  ///< by section and class
  int cut_ends = 0, screws = 0, hangers = 0, nails = 0, bolts = 0, shoes = 0, packers = 0,
      damp_proof_pads = 0;
  int jack_days = 0, compactor_days = 0;
  std::map<std::string, double> tasks;  ///< amount by task of data/building.json
  double dig_factor = 1.0;              ///< hours of digging against open ground
  std::string pits;                     ///< how the concrete was got, for the note

  void add_timber(const std::string& timber_name, Length breadth, Length depth, Length length,
                  int count);
  void task(const std::string& name, double amount) {
    if (amount > 0.0) tasks[name] += amount;
  }
};

[[nodiscard]] std::vector<Quantity> quantities(const Needs& needs);

[[nodiscard]] inline double cubic_metres(Length a, Length b, Length c) {
  return in_metres(a) * in_metres(b) * in_metres(c);
}
[[nodiscard]] inline UnitSystem units_of(record::StandardId standard) {
  return record::facts_of(standard).units;
}

}  // namespace underprop::costing
