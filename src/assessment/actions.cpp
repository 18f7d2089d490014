#include "actions.hpp"

#include <algorithm>

namespace underprop::assessment {

using loads::Nature;

std::vector<Situation> situations(const deck::Deck& deck, const std::vector<model::CaseInfo>& infos,
                                  bool with_load) {
  std::vector<Situation> list;
  int tips = 0;
  for (const model::CaseInfo& info : infos) {
    if (info.kind == model::CaseKind::free_end) ++tips;
  }
  if (!with_load) {
    Situation bare;
    bare.name = "without the new load";
    bare.with_load = false;
    list.push_back(bare);
    for (int tip = 0; tip < tips; ++tip) {
      bare.free_end = tip;
      bare.name = "without the new load, a person on an overhanging end";
      list.push_back(bare);
    }
    return list;
  }
  bool contents = false, people = false;
  for (const deck::Load& load : deck.loads) {
    contents = contents || load.contents > Mass(0.0);
    people = people || load.people > 0;
  }
  Situation s;
  s.name = contents ? "full" : "in place";
  list.push_back(s);
  if (contents) {
    s.full = false;
    s.name = "empty";
    list.push_back(s);
    for (int tip = 0; tip < tips; ++tip) {
      s.free_end = tip;
      s.name = "empty, a person on an overhanging end";
      list.push_back(s);
    }
    s.free_end = -1;
    s.full = true;
  }
  if (!people) return list;
  const std::string full = contents ? "full, people " : "people ";
  s.bathers = Bathers::all_round;
  s.name = full + "all round";
  list.push_back(s);
  static const char* const halves[] = {"towards -x", "towards +x", "towards -y", "towards +y"};
  static const char* const quarters[] = {"in the corner -x -y", "in the corner +x -y",
                                         "in the corner +x +y", "in the corner -x +y"};
  for (int k = 0; k < 4; ++k) {
    s.bathers = Bathers::half;
    s.part = k;
    s.name = full + "on the half " + halves[k];
    list.push_back(s);
  }
  for (int k = 0; k < 4; ++k) {
    s.bathers = Bathers::quarter;
    s.part = k;
    s.name = full + quarters[k];
    list.push_back(s);
  }
  return list;
}

std::vector<Pattern> patterns(std::size_t bays) {
  std::vector<Pattern> list;
  const auto put = [&](const std::string& name, const auto& on) {
    Pattern pattern{name, std::vector<double>(bays, 0.0)};
    for (std::size_t k = 0; k < bays; ++k) pattern.bays[k] = on(k) ? 1.0 : 0.0;
    const bool known = std::any_of(list.begin(), list.end(),
                                   [&](const Pattern& p) { return p.bays == pattern.bays; });
    if (!known) list.push_back(std::move(pattern));
  };
  put("nobody on the rest of the deck", [](std::size_t) { return false; });
  put("people on all the rest of the deck", [](std::size_t) { return true; });
  put("people on bays 1, 3, 5 ...", [](std::size_t k) { return k % 2 == 0; });
  put("people on bays 2, 4, 6 ...", [](std::size_t k) { return k % 2 == 1; });
  for (std::size_t first = 0; first + 1 < bays; ++first) {
    put("people on bays " + std::to_string(first + 1) + " and " + std::to_string(first + 2),
        [&](std::size_t k) { return k == first || k == first + 1; });
  }
  // Of three bays these and each bay alone are all the patterns there are; of more, pattern_search.hpp
  // finds the others that matter.
  if (bays > 3) return list;
  for (std::size_t only = 0; only < bays; ++only) {
    put("people on bay " + std::to_string(only + 1), [&](std::size_t k) { return k == only; });
  }
  return list;
}

Pattern pattern_of(const std::vector<double>& bays) {
  Pattern pattern{"people on bays", bays};
  std::string separator = " ";
  for (std::size_t k = 0; k < bays.size(); ++k) {
    if (bays[k] <= 0.0) continue;
    pattern.name += separator + std::to_string(k + 1);
    separator = ", ";
  }
  return pattern;
}

std::vector<solver::CaseFactor> factored(const deck::Deck& deck,
                                         const std::vector<model::CaseInfo>& infos,
                                         const standards::LoadValues& values,
                                         const standards::Combination& combination,
                                         const Situation& situation, const Pattern& pattern) {
  std::vector<solver::CaseFactor> list;
  const auto f = [&](Nature nature) { return at(combination.factors, nature); };
  const double snow = deck.site.snow_load ? deck.site.snow_load->value() : 0.0;
  for (std::size_t k = 0; k < infos.size(); ++k) {
    const model::CaseInfo& info = infos[k];
    double factor = 0.0;
    switch (info.kind) {
      case model::CaseKind::self_weight:
        factor = f(Nature::self_weight);
        break;
      case model::CaseKind::whole:
      case model::CaseKind::half:
      case model::CaseKind::quarter: {
        if (!situation.with_load) break;
        const deck::Load& load = deck.loads[static_cast<std::size_t>(info.load)];
        const double people = f(Nature::people) * weight(values.person).value() * load.people;
        if (info.kind == model::CaseKind::whole) {
          factor = f(Nature::dry) * weight(load.dry_mass).value();
          if (situation.full) factor += f(Nature::contents) * weight(load.contents).value();
          if (situation.bathers == Bathers::all_round) factor += people;
        } else if (info.kind == model::CaseKind::half && situation.bathers == Bathers::half &&
                   info.part == situation.part) {
          factor = people;
        } else if (info.kind == model::CaseKind::quarter && situation.bathers == Bathers::quarter &&
                   info.part == situation.part) {
          factor = people;
        }
        break;
      }
      case model::CaseKind::bay:
        factor = f(Nature::imposed) * values.imposed.value() *
                     pattern.bays[static_cast<std::size_t>(info.part)] +
                 f(Nature::snow) * snow;
        break;
      case model::CaseKind::under_loads: {
        // Nobody stands on the footprint once the load is there; snow lies on the load.
        const bool all = std::all_of(pattern.bays.begin(), pattern.bays.end(),
                                     [](double on) { return on > 0.0; });
        if (!situation.with_load && all) factor += f(Nature::imposed) * values.imposed.value();
        factor += f(Nature::snow) * snow;
        break;
      }
      case model::CaseKind::free_end:
        if (info.part == situation.free_end)
          factor = f(Nature::people) * values.concentrated.value();
        break;
    }
    if (factor != 0.0) list.push_back({static_cast<int>(k), factor});
  }
  return list;
}

}  // namespace underprop::assessment
