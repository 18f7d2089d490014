// ASCE 7 2.4.1 as factors on the natures of load.
//
// People in the load and on the deck are L; the deck and the dry mass are D; water is F. A
// combination takes the C_D of its shortest load (NDS 2.3.2.2), so the permanent loads alone are a
// combination of their own. Water that stays for more than ten years in all is permanent; water that is
// let out for months each year adds up to less, and takes the ten-year factor.
#include "standard.hpp"

namespace underprop::standards::north_america {

using loads::Factors;
using loads::Nature;

namespace {

Factors factors(const AsdCombination& c, double dry) {
  Factors f{};
  at(f, Nature::self_weight) = c.D;
  at(f, Nature::dry) = dry;
  at(f, Nature::contents) = c.F;
  at(f, Nature::people) = c.L;
  at(f, Nature::imposed) = c.L;
  at(f, Nature::snow) = c.S;
  return f;
}

}  // namespace

std::vector<Combination> NorthAmericaUs::build(Purpose purpose, const Circumstances& now) const {
  const bool permanent = now.contents_permanent;
  std::vector<Combination> result;
  const auto add = [&](std::string id, const AsdCombination& c, Citation source,
                       std::optional<double> dry = std::nullopt) {
    const double C_D = load_duration_factor(c, tables_.C_D, permanent);
    std::string duration = "permanent";
    if (C_D == tables_.C_D.ten_years) duration = "ten years";
    if (C_D == tables_.C_D.two_months) duration = "two months";
    result.push_back({std::move(id), c.text, purpose, factors(c, dry.value_or(c.D)),
                      std::move(duration), C_D, std::move(source)});
  };
  const Citation asd{"asce7", "2.4.1; C_D by NDS 2.3.2.2"};

  switch (purpose) {
    case Purpose::strength: {
      if (!permanent) add("D", {"1", "D", 1, 0, 0, 0}, asd);
      for (const AsdCombination& c : asd_combinations(now.snow)) {
        std::string id = "D+0.75L+0.75S";
        if (c.id == "1") id = permanent ? "D" : "D+F";
        if (c.id == "2") id = "D+L";
        if (c.id == "3") id = "D+S";
        add(std::move(id), c, asd);
      }
      break;
    }
    case Purpose::uplift: {
      // What holds down is taken at 0.6 and never the water; what lifts, people or the load itself
      // beyond the last support, in full.
      const Citation lift{"judgement",
                          "0.6 D of ASCE 7 2.4.1 with the loads that lift in full; the standard "
                          "prints it for wind only"};
      for (const AsdCombination& c : asd_uplift_combinations()) {
        add(c.L > 0 ? "0.6D+L" : "0.6D", c, c.L > 0 ? lift : asd);
      }
      add("0.6D+F", {"7 with F", "0.6 D of the deck + D of the load + F", 0.6, 1, 0, 0}, lift, 1.0);
      add("0.6D+F+L", {"7 with F, L", "0.6 D of the deck + D of the load + F + L", 0.6, 1, 1, 0},
          lift, 1.0);
      break;
    }
    case Purpose::service_now:
    case Purpose::ground: {
      const std::string stem = purpose == Purpose::ground ? "ground " : "service ";
      add(stem + "D+L", {"2", "D + F + L", 1, 1, 1, 0}, asd);
      if (now.snow) {
        add(stem + "D+S", {"3", "D + F + S", 1, 1, 0, 1}, asd);
        add(stem + "D+0.75L+0.75S", {"4", "D + F + 0.75 L + 0.75 S", 1, 1, 0.75, 0.75}, asd);
      }
      if (purpose == Purpose::ground) add(stem + "D", {"1", "D + F", 1, 1, 0, 0}, asd);
      break;
    }
    case Purpose::service_long:
      add("service D", {"1", "D + F, long-term", 1, 1, 0, 0}, nds("3.5.2"));
      break;
  }
  if (purpose != Purpose::strength && purpose != Purpose::uplift) {
    // No strength is looked at: the duration says what the numbers are.
    for (Combination& c : result) {
      c.duration = purpose == Purpose::service_long ? "permanent"
                   : purpose == Purpose::ground     ? "service"
                                                    : "immediate";
      c.duration_factor = 1.0;
    }
  }
  return result;
}

}  // namespace underprop::standards::north_america
