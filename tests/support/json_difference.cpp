#include "json_difference.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <map>

namespace underprop::test {
namespace {

using Json = nlohmann::json;

std::string brief(const Json& value) {
  constexpr std::size_t most = 160;
  const std::string text = value.dump(-1, ' ', false, Json::error_handler_t::replace);
  return text.size() <= most ? text : text.substr(0, most) + "...";
}

/// The entries by their "id"; empty if one has none or two have the same.
std::map<std::string, const Json*> by_id(const Json& array) {
  std::map<std::string, const Json*> entries;
  for (const Json& each : array) {
    const bool has = each.is_object() && each.contains("id") && each.at("id").is_string();
    if (!has || !entries.emplace(each.at("id").get<std::string>(), &each).second) return {};
  }
  return entries;
}

bool same_order(const Json& before, const Json& now) {
  return std::equal(before.begin(), before.end(), now.begin(), now.end(),
                    [](const Json& a, const Json& b) { return a.at("id") == b.at("id"); });
}

struct Walk {
  Tolerance tolerance;
  std::vector<std::string> found;

  void differs(const std::string& at, const std::string& before, const std::string& now) {
    found.push_back((at.empty() ? "/" : at) + ": " + before + " -> " + now);
  }

  [[nodiscard]] bool near(double a, double b) const {
    const double apart = std::abs(a - b);
    return a == b || apart <= tolerance.absolute ||
           apart <= tolerance.relative * std::max(std::abs(a), std::abs(b));
  }

  void arrays(const Json& before, const Json& now, const std::string& at) {
    const auto old_ids = by_id(before), new_ids = by_id(now);
    if (!old_ids.empty() && !new_ids.empty()) {
      for (const auto& [id, entry] : old_ids) {
        const std::string here = at + "/[" + id + "]";
        const auto other = new_ids.find(id);
        if (other == new_ids.end())
          differs(here, "is there", "gone");
        else
          values(*entry, *other->second, here);
      }
      for (const auto& [id, entry] : new_ids)
        if (!old_ids.contains(id)) differs(at + "/[" + id + "]", "is not there", brief(*entry));
      if (before.size() == now.size() && !same_order(before, now))
        differs(at, "one order of its entries", "another");
      return;
    }
    if (before.size() != now.size()) {
      differs(at, std::to_string(before.size()) + " entries", std::to_string(now.size()));
      return;
    }
    for (std::size_t i = 0; i < before.size(); ++i)
      values(before[i], now[i], at + "/" + std::to_string(i));
  }

  void values(const Json& before, const Json& now, const std::string& at) {
    if (before.is_number() && now.is_number()) {
      // Whole numbers beyond 2^53 are no measured values; they are compared as they stand.
      if (before != now && !near(before.get<double>(), now.get<double>()))
        differs(at, brief(before), brief(now));
    } else if (before.is_object() && now.is_object()) {
      for (const auto& [key, value] : before.items()) {
        if (now.contains(key))
          values(value, now.at(key), at + "/" + key);
        else
          differs(at + "/" + key, brief(value), "gone");
      }
    } else if (before.is_array() && now.is_array()) {
      arrays(before, now, at);
    } else if (before != now) {
      differs(at, brief(before), brief(now));
    }
  }
};

}  // namespace

std::vector<std::string> json_differences(const Json& before, const Json& now,
                                          Tolerance tolerance) {
  Walk walk{tolerance, {}};
  walk.values(before, now, "");
  return walk.found;
}

}  // namespace underprop::test
