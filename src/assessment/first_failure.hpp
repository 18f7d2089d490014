// Utilisations while states are solved: done with at the first check that fails.
#pragma once

#include "items.hpp"

#include <cstddef>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace underprop::assessment {

/// Where looking ends.
struct Stop {
  double utilisation = 0.0;  ///< infinity: a mechanism
  std::string piece, check;
};

/// Demand at which a check's utilisation is 1, kept per item and combination where the rule is
/// proportional: for one deck, wherever its loads stand.
class Resistances {
public:
  /// Forgets what is of other checks, or of one whose rule goes by where the loads stand.
  void begin(const std::vector<Item>& items);
  [[nodiscard]] double utilisation(const std::vector<Item>& items, std::size_t item, double demand,
                                   const standards::Combination& combination, int number);
  /// None: never asked, or not proportional.
  [[nodiscard]] std::optional<double> known(std::size_t item, int number) const;

private:
  /// NaN: not proportional; none: never asked.
  std::vector<std::vector<std::optional<double>>> demand_at_one_;
  std::vector<double> variants_;  ///< of the items
};

class FirstFailure {
public:
  /// `most`: the utilisation that is allowed. A check that fails without the load already, and hardly
  /// worse with it (data/scope.json), does not count: `ordinary` has up to where, per "piece/check".
  FirstFailure(double most, const std::map<std::string, double>& ordinary, Resistances& resistances)
      : most_(most), ordinary_(ordinary), resistances_(resistances) {}

  /// Of the deck looked at, before the first demand.
  void begin(const std::vector<Item>& items);
  /// A demand that is the worst of its item and combination so far.
  void take(const std::vector<Item>& items, std::size_t item, double demand,
            const standards::Combination& combination, int number);
  /// No smaller demand can make the largest utilisation of all.
  [[nodiscard]] double enough(std::size_t item, int number) const;
  [[nodiscard]] const std::optional<Stop>& stop() const { return stop_; }

private:
  double most_ = 1.0;
  const std::map<std::string, double>& ordinary_;
  Resistances& resistances_;
  std::vector<double> allowed_;  ///< per item
  double largest_ = 0.0;         ///< utilisation so far of what is not ordinary use
  std::optional<Stop> stop_;
};

}  // namespace underprop::assessment
