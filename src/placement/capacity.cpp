// Bisection on the judge: the largest amount up to which every safety check passes. Softer places may
// shed load as it grows, so the answer is the first limit met going up in even steps, refined by halving.
#include "capacity.hpp"
#include "figures.hpp"

#include "catalog/table.hpp"
#include "underprop/base/geometry.hpp"
#include "underprop/base/region.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <functional>

namespace underprop::placement {

using assessment::Look;
using deck::Load;

namespace {

struct Limit {
  std::optional<double> most;  ///< none: not even nothing passes
  std::string by;              ///< what fails first above it
};

std::string words(const Look& look) {
  if (look.refers) return "outside what may be judged";
  return look.piece.empty() ? look.check : look.piece + ", " + look.check;
}

/// The largest amount in steps of `step`, up to `top`, that passes together with all that were tried
/// below it; `top` itself if it passes. Nothing at all is tried only where that means something: a rigid
/// base that weighs nothing has no place of its own.
Limit largest(double top, double step, bool try_none, const std::function<Look(double)>& look) {
  Limit limit;
  Look at;
  if (try_none) {
    at = look(0.0);
    if (!at.passes()) return {{}, words(at)};
  }
  // Going up by eighths finds the first stretch that fails even if passing is not monotone.
  double good = 0.0, bad = top;
  bool found = false;
  for (int k = 1; k <= 8 && !found; ++k) {
    const double amount = top * k / 8.0;
    at = look(amount);
    if (at.passes()) {
      good = amount;
    } else {
      bad = amount;
      found = true;
      limit.by = words(at);
    }
  }
  while (found && bad - good > step) {
    const double middle = 0.5 * (good + bad);
    at = look(middle);
    if (at.passes()) {
      good = middle;
    } else {
      bad = middle;
      limit.by = words(at);
    }
  }
  if (try_none || good > 0.0) limit.most = good;
  return limit;
}

}  // namespace

Capacity capacity(Judge& judge, const Load& load, const Load& likely, const Where& where) {
  Capacity result;
  const auto with = [&](const std::function<void(Load&)>& change) {
    Load a = load, b = likely;
    change(a);
    change(b);
    return judge.look(a, b, where);
  };
  const bool holds_water =
      load.kind == record::LoadKind::tub || load.kind == record::LoadKind::water_tank;
  if (holds_water) {
    // Up to what is recorded at its most: more does not go in.
    const double litres = std::max(load.contents, likely.contents).value();
    result.water_full = with([](Load&) {}).passes();
    const Limit limit = largest(litres, figure("water_step_l"), true, [&](double l) {
      return with([&](Load& s) { s.contents = kilograms(l); });
    });
    if (limit.most) result.water_l = *result.water_full ? litres : std::floor(*limit.most);
    result.water_limited_by = *result.water_full ? std::string() : limit.by;
  }
  if (load.people > 0 || likely.people > 0) {
    const int most = static_cast<int>(figure("most_people"));
    for (int n = 0; n <= most; ++n) {
      const Look look = with([&](Load& s) { s.people = n; });
      if (!look.passes()) {
        result.people_limited_by = words(look);
        break;
      }
      result.people = n;
    }
  }
  // A uniform, lasting pressure on its footprint, in place of everything recorded.
  const double mm2 = whole(load.shape).area.value();
  const auto pressed = [&](double kPa) {
    return with([&](Load& s) {
      s.dry_mass = kilograms(kPa * 1e-3 * mm2 / standard_gravity_N_per_kg);
      s.contents = Mass(0.0);
      s.people = 0;
    });
  };
  const double scope = catalog::number(catalog::table("scope.json"), "load_pressure_kPa");
  const Limit limit = largest(scope, figure("pressure_step_kPa"), false, pressed);
  if (limit.most) result.pressure_kPa = std::floor(*limit.most * 100.0) / 100.0;
  result.pressure_limited_by = limit.by;
  return result;
}

}  // namespace underprop::placement
