#include "first_failure.hpp"

#include "figures.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::assessment {

void Resistances::begin(const std::vector<Item>& items) {
  if (demand_at_one_.size() != items.size()) {
    demand_at_one_.assign(items.size(), {});
    variants_.assign(items.size(), 0.0);
  }
  for (std::size_t k = 0; k < items.size(); ++k) {
    if (variants_[k] != items[k].variant) demand_at_one_[k].clear();
    variants_[k] = items[k].variant;
  }
}

double Resistances::utilisation(const std::vector<Item>& items, std::size_t item, double demand,
                                const standards::Combination& combination, int number) {
  auto& of_item = demand_at_one_[item];
  const auto c = static_cast<std::size_t>(number);
  if (of_item.size() <= c) of_item.resize(c + 1);
  const auto ask = [&](double d) { return items[item].judge(d, combination).utilisation; };
  if (!of_item[c]) {
    // Most rules are a demand over a resistance; that is tried, not assumed.
    const double u = ask(demand), half = ask(0.5 * demand), twice = ask(2.0 * demand);
    const bool proportional =
        std::isfinite(twice) && u > 0.0 && std::abs(2.0 * half - u) <= 1e-10 * u &&
        std::abs(twice - 2.0 * u) <= 1e-10 * u &&
        // Rules of two branches may change over between here and the limit.
        std::abs(ask(demand / u) - 1.0) <= 1e-10 && std::abs(ask(4.0 * demand / u) - 4.0) <= 1e-9;
    of_item[c] = proportional ? demand / u : std::numeric_limits<double>::quiet_NaN();
  }
  return std::isnan(*of_item[c]) ? ask(demand) : demand / *of_item[c];
}

std::optional<double> Resistances::known(std::size_t item, int number) const {
  const auto c = static_cast<std::size_t>(number);
  if (item >= demand_at_one_.size() || c >= demand_at_one_[item].size()) return std::nullopt;
  const std::optional<double>& demand = demand_at_one_[item][c];
  return demand && !std::isnan(*demand) ? demand : std::nullopt;
}

void FirstFailure::begin(const std::vector<Item>& items) {
  resistances_.begin(items);
  allowed_.clear();
  for (const Item& item : items) {
    const auto bare = ordinary_.find(item.piece + "/" + item.check);
    allowed_.push_back(bare != ordinary_.end() ? std::max(most_, bare->second) : most_);
  }
}

void FirstFailure::take(const std::vector<Item>& items, std::size_t item, double demand,
                        const standards::Combination& combination, int number) {
  if (stop_) return;
  const double u = resistances_.utilisation(items, item, demand, combination, number);
  if (allowed_[item] <= most_) largest_ = std::max(largest_, u);
  if (u > allowed_[item] * (1.0 + standards::same_number))
    stop_ = Stop{u, items[item].piece, items[item].check};
}

double FirstFailure::enough(std::size_t item, int number) const {
  const std::optional<double> resistance = resistances_.known(item, number);
  return resistance ? largest_ * *resistance : 0.0;
}

}  // namespace underprop::assessment
