// EN 1990 with UK values as factors on the natures of load.
//
// People in the load and people on the rest of the deck are one variable action (category A, a
// deck). Contents that stay all year are permanent; contents emptied for months are a variable
// action with psi_0 = 1 and the long-term k_mod. A combination takes the k_mod of its shortest action, so
// those without people are combinations of their own (EN 1995-1-1 3.1.3(2)).
#include "standard.hpp"

#include "underprop/base/format.hpp"

namespace underprop::standards::eurocode {

using loads::Factors;
using loads::Nature;

namespace {

struct Parts {
  double G = 0.0;  // self-weight and dry mass
  double contents = 0.0;
  double Q = 0.0;  // people and imposed
  double S = 0.0;
};

Factors factors(const Parts& parts) {
  Factors f{};
  at(f, Nature::self_weight) = parts.G;
  at(f, Nature::dry) = parts.G;
  at(f, Nature::contents) = parts.contents;
  at(f, Nature::people) = parts.Q;
  at(f, Nature::imposed) = parts.Q;
  at(f, Nature::snow) = parts.S;
  return f;
}

/// "1.35 G + 1.5 W + 1.5 Q + 0.75 S"; contents are named only where they are not part of G.
std::string text(const Parts& parts, bool contents_permanent) {
  std::string result;
  const auto add = [&result](double factor, const char* symbol) {
    if (factor == 0.0) return;
    if (!result.empty()) result += " + ";
    result += format_decimals(factor, 3) + " " + symbol;
  };
  add(parts.G, "G");
  if (!contents_permanent) add(parts.contents, "W");
  add(parts.Q, "Q");
  add(parts.S, "S");
  return result;
}

}  // namespace

std::vector<Combination> EurocodeUk::build(Purpose purpose, const Circumstances& now) const {
  const bool permanent = now.contents_permanent;
  const double psi_W = tables_.water.psi_0;
  std::vector<Combination> result;
  const auto add = [&](std::string id, const Parts& parts, const char* duration, double k,
                       const Citation& source) {
    result.push_back(
        {std::move(id), text(parts, permanent), purpose, factors(parts), duration, k, source});
  };

  switch (purpose) {
    case Purpose::strength: {
      const PartialFactors& g = tables_.str;
      const Citation& source = tables_.str_source;
      const Durations& k = tables_.k_mod;
      const double W = permanent ? g.G_sup : g.Q * psi_W;
      const double Q = combination_6_10(g, tables_.domestic.psi_0).Q_accompanying;
      const double S = combination_6_10(g, tables_.snow.psi_0).Q_accompanying;
      const std::string with = permanent ? "6.10 G" : "6.10 G+W";
      add("6.10 G", {g.G_sup, permanent ? g.G_sup : 0.0, 0, 0}, "permanent", k.permanent, source);
      if (!permanent) add("6.10 G+W", {g.G_sup, g.Q, 0, 0}, "long-term", k.long_term, source);
      add(with + "+Q", {g.G_sup, W, g.Q, 0}, "medium-term", k.medium, source);
      if (now.snow) {
        add(with + "+Q+S", {g.G_sup, W, g.Q, S}, "short-term", k.brief, source);
        add(with + "+S+Q", {g.G_sup, W, Q, g.Q}, "short-term", k.brief, source);
      }
      break;
    }
    case Purpose::uplift: {
      // What stabilises: self-weight and the dry mass at 0.9, never the contents. What overturns:
      // the load itself where it stands beyond the last support, at its unfavourable factor.
      const PartialFactors& g = tables_.equ;
      const Citation& source = tables_.equ_source;
      add("EQU 0.9 G+Q", {g.G_inf, 0, g.Q, 0}, "medium-term", tables_.k_mod.medium, source);
      const double W = permanent ? g.G_sup : g.Q;
      const auto overturning = [&](const char* id, double Q, const char* duration, double k) {
        add(id, {g.G_inf, W, Q, 0}, duration, k, source);
        at(result.back().factors, Nature::dry) = g.G_sup;
        result.back().text = format_decimals(g.G_inf, 3) + " G of the deck + " +
                             format_decimals(g.G_sup, 3) + " G of the load" +
                             (permanent ? "" : " + " + format_decimals(W, 3) + " W") +
                             (Q > 0 ? " + " + format_decimals(Q, 3) + " Q" : "");
      };
      overturning("EQU 1.1 G+Q", g.Q, "medium-term", tables_.k_mod.medium);
      overturning("EQU 1.1 G", 0.0, permanent ? "permanent" : "long-term",
                  permanent ? tables_.k_mod.permanent : tables_.k_mod.long_term);
      break;
    }
    case Purpose::service_now:
    case Purpose::ground: {
      const Citation source{"en1990", "6.5.3(2)a (6.14b); UK NA Table NA.A1.1"};
      const bool ground = purpose == Purpose::ground;
      const std::string stem = ground ? "characteristic" : "service";
      const double W = permanent ? 1.0 : psi_W;
      add(ground ? "characteristic" : "service G+Q", {1, W, 1, now.snow ? tables_.snow.psi_0 : 0},
          ground ? "characteristic" : "immediate", 1.0, source);
      if (now.snow) {
        add(stem + " G+S", {1, W, tables_.domestic.psi_0, 1},
            ground ? "characteristic" : "immediate", 1.0, source);
      }
      if (ground) add("characteristic G", {1, W, 0, 0}, "characteristic", 1.0, source);
      break;
    }
    case Purpose::service_long: {
      const Citation source{"en1990", "6.5.3(2)c (6.16b); UK NA Table NA.A1.1"};
      add("quasi-permanent",
          {1, permanent ? 1.0 : tables_.water.psi_2, tables_.domestic.psi_2, tables_.snow.psi_2},
          "permanent", 1.0, source);
      break;
    }
  }
  return result;
}

}  // namespace underprop::standards::eurocode
