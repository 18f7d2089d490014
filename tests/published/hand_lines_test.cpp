// The two decks of hand_deck_test.cpp once more: every line that `explain` prints for their checks, written
// out from the clauses. Demands that come from the whole model are taken from the program (hand_deck_test.cpp
// holds them against statics); everything after them is by hand. A line that no hand has done fails the test,
// and so does a line that the program leaves out.
#include "published/hand_decks.hpp"
#include "support/catch.hpp"

#include <cmath>
#include <functional>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

namespace hand_lines_test_file {

using namespace underprop;
using test::check_of;
using test::courtyard;
using test::raised;

namespace {

using Lines = std::vector<std::pair<std::string, double>>;

/// `lines`: in the order of explain, from the demand in the unit of its first line.
void line_by_line(const standards::Check& check, const std::string& id, const std::string& given,
                  const std::function<Lines(double)>& lines) {
  double demand = 0.0;
  for (const standards::Step& step : check.steps) {
    if (step.symbol == given) {
      demand = step.value;
      break;
    }
  }
  const Lines by_hand = lines(demand);
  std::size_t k = 0;
  for (const standards::Step& step : check.steps) {
    INFO(id << ": " << step.symbol << " = " << step.expression << " = " << step.value << ' '
            << step.unit);
    REQUIRE(k < by_hand.size());
    CHECK(step.symbol == by_hand[k].first);
    CHECK(std::abs(step.value - by_hand[k].second) <= 1e-6 * std::abs(by_hand[k].second));
    ++k;
  }
  INFO(id);
  CHECK(k == by_hand.size());
}

void line_by_line(const assessment::Assessment& a, const std::string& id, const std::string& given,
                  const std::function<Lines(double)>& lines) {
  line_by_line(check_of(a, id), id, given, lines);
}

double squared(double x) { return x * x; }

}  // namespace

TEST_CASE("Courtyard platform, line by line to EN 1995-1-1 and EN 1997-1",
          "[assessment][closed-form]") {
  const assessment::Assessment& a = courtyard();
  const double b = 47, h = 145, k_mod = 0.65, gamma_M = 1.3;  // Table 3.1, Table 2.3
  // 6.1.6, 6.3.3: k_h (3.1), effective length of a span under the compression edge, Table 6.1.
  const double k_h = std::pow(150.0 / h, 0.2), f_md = k_mod * k_h * 24.0 / gamma_M;
  const double l_ef = 1075.0 + 2.0 * h, crit = 0.78 * b * b * 7400.0 / (h * l_ef);
  line_by_line(a, "J5/bending", "M_d", [&](double M) -> Lines {
    const double M_R = f_md * b * h * h / 6.0;
    return {{"b", b},
            {"h", h},
            {"M_d", M},
            {"k_mod", k_mod},
            {"k_h", k_h},
            {"f_m,k", 24},
            {"gamma_M", gamma_M},
            {"f_m,d", f_md},
            {"sigma_m,d", 6.0 * M / (b * h * h)},
            {"l", 1075},
            {"l_ef", l_ef},
            {"E_0,05", 7400},
            {"sigma_m,crit", crit},
            {"lambda_rel,m", std::sqrt(24.0 / crit)},
            {"k_crit", 1},
            {"M_R,d", M_R},
            {"utilisation", M / M_R}};
  });
  // 6.1.5: 30 mm on either side of a contact of 102 mm. No foot stands near, l_1: the joist's 3,150 mm and
  // ten metres, past every support; 6.1.5(4) asks for 2 h.
  line_by_line(a, "J5/bearing across the grain", "F_d", [&](double F) -> Lines {
    const double l_ef90 = 102.0 + 30.0 + 30.0, R_k = 1.5 * 2.5 * b * l_ef90,
                 R = k_mod * R_k / gamma_M;
    return {{"F_d", F},        {"l", 102},
            {"b", b},          {"a", 1075.0 - 51.0},
            {"l_1", 13150},    {"h", h},
            {"k_c,90", 1.5},   {"l_ef", l_ef90},
            {"f_c,90,k", 2.5}, {"R_90,k", R_k},
            {"k_mod", k_mod},  {"gamma_M", gamma_M},
            {"R_90,d", R},     {"utilisation", F / R}};
  });
  // 6.1.7, k_cr of the UK annex.
  const auto shear = [&](double breadth, double depth) {
    return [&, breadth, depth](double V) -> Lines {
      const double f_v = k_mod * 4.0 / gamma_M, b_ef = 0.67 * breadth, R = f_v * b_ef * depth / 1.5;
      return {{"b", breadth}, {"h", depth},
              {"V_d", V},     {"k_mod", k_mod},
              {"f_v,k", 4},   {"gamma_M", gamma_M},
              {"f_v,d", f_v}, {"k_cr", 0.67},
              {"b_ef", b_ef}, {"tau_d", 1.5 * V / (b_ef * depth)},
              {"V_R,d", R},   {"utilisation", V / R}};
    };
  };
  line_by_line(a, "J5/shear", "V_d", shear(b, h));
  // EN 1997-1 6.5.2, presumed bearing: a wall without a footing of its own thickness.
  line_by_line(a, "W2/ground pressure", "F_k", [](double F) -> Lines {
    const double q = F / (0.45 * 0.4);
    return {{"F_k", F},      {"B", 0.45},   {"L", 0.4},   {"t", 0},
            {"e", 0},        {"b_c", 0.45}, {"l_c", 0.4}, {"gamma_c", 24},
            {"gamma_s", 16}, {"t_s", 0},    {"q_own", 0}, {"q_presumed", 100},
            {"B'", 0.45},    {"L'", 0.4},   {"q", q},     {"utilisation", q / 100.0}};
  });
  line_by_line(a, "J3/held upright", "b", [&](double) -> Lines {
    return {{"b", b}, {"h", h}, {"ratio", h / b}, {"limit", 5}, {"utilisation", h / b / 5.0}};
  });
  // A board of 145 x 32 mm on joists 400 mm apart; short-term 0.70 for a person.
  const double B = 145, t = 32, W = B * t * t / 6.0;
  line_by_line(a, "boards/one person on one board", "P_k", [&](double P) -> Lines {
    CHECK(P == Approx(1400.0));
    const double P_d = 1.5 * P, M = P_d * 400.0 / 4.0, f_m = 0.7 * 1.3 * 24.0 / gamma_M;
    const double f_v = 0.7 * 4.0 / gamma_M;
    return {{"b", B},
            {"h", t},
            {"l", 400},
            {"P_k", 1400},
            {"gamma_Q", 1.5},
            {"P_d", P_d},
            {"M_d", M},
            {"k_mod", 0.7},
            {"k_h", 1.3},
            {"f_m,k", 24},
            {"gamma_M", gamma_M},
            {"f_m,d", f_m},
            {"M_R,d", f_m * W},
            {"f_v,k", 4},
            {"gamma_M", gamma_M},
            {"f_v,d", f_v},
            {"k_cr", 0.67},
            {"V_R,d", f_v * 0.67 * B * t / 1.5},
            {"utilisation", M / (f_m * W)}};
  });
  line_by_line(a, "boards/bending", "M_d", [&](double M) -> Lines {
    const double f_m = k_mod * 1.3 * 24.0 / gamma_M;
    return {{"b", B},
            {"h", t},
            {"M_d", M},
            {"k_mod", k_mod},
            {"k_h", 1.3},
            {"f_m,k", 24},
            {"gamma_M", gamma_M},
            {"f_m,d", f_m},
            {"sigma_m,d", M / W},
            {"k_crit", 1},
            {"M_R,d", f_m * W},
            {"utilisation", M / (f_m * W)}};
  });
  line_by_line(a, "boards/shear", "V_d", shear(B, t));
  // A board's end 200 mm past the first joist, one person on it.
  line_by_line(a, "boards/one person on the end of a board, away from the load", "a",
               [&](double out) -> Lines {
                 CHECK(out == Approx(200.0).epsilon(0.03));
                 const double M = 1.5 * 1400.0 * out, f_m = 0.7 * 1.3 * 24.0 / gamma_M;
                 const double f_v = 0.7 * 4.0 / gamma_M;
                 return {{"b", B},
                         {"h", t},
                         {"a", out},
                         {"P_k", 1400},
                         {"gamma_Q", 1.5},
                         {"P_d", 2100},
                         {"M_d", M},
                         {"k_mod", 0.7},
                         {"k_h", 1.3},
                         {"f_m,k", 24},
                         {"gamma_M", gamma_M},
                         {"f_m,d", f_m},
                         {"M_R,d", f_m * W},
                         {"f_v,k", 4},
                         {"gamma_M", gamma_M},
                         {"f_v,d", f_v},
                         {"k_cr", 0.67},
                         {"V_R,d", f_v * 0.67 * B * t / 1.5},
                         {"utilisation", M / (f_m * W)}};
               });
  // 7.2, the trade's limit on a bay of a metre.
  line_by_line(a, "J5/deflection in the long run", "w_fin", [](double w) -> Lines {
    return {{"l", 1000},
            {"w_least", 3},
            {"w_fin", w},
            {"limit", 1000.0 / 150.0},
            {"utilisation", w / (1000.0 / 150.0)}};
  });
  line_by_line(a, "load 1/level", "tilt", [](double tilt) -> Lines {
    return {{"tilt", tilt}, {"limit", 1000.0 / 150.0}, {"utilisation", tilt / (1000.0 / 150.0)}};
  });
}

TEST_CASE("Raised deck hung from the house, line by line to the NDS and the IRC",
          "[assessment][closed-form]") {
  const assessment::Assessment& a = raised();
  // Hem-Fir No.2 of the Supplement's Table 4A, incised (C_i 0.8, 0.95 on the modulus), wet.
  const auto bending = [](double b, double d, double C_F) {
    return [=](double M) -> Lines {
      const double F = 850.0 * C_F * 0.8, R = F * b * d * d / 6.0;
      return {{"b", b},     {"d", d},
              {"M", M},     {"F_b", 850},
              {"C_D", 1},   {"C_M", 1},
              {"C_F", C_F}, {"C_i", 0.8},
              {"F_b*", F},  {"f_b", 6.0 * M / (b * d * d)},
              {"C_L", 1},   {"F_b'", F},
              {"M'", R},    {"utilisation", M / R}};
    };
  };
  line_by_line(a, "J6/bending", "M", bending(1.5, 7.25, 1.2));
  line_by_line(a, "L1/bending", "M", bending(1.5, 7.25, 1.2));
  const auto shear = [](double b, double d) {
    return [=](double V) -> Lines {
      const double F = 150.0 * 0.97 * 0.8, R = 2.0 * F * b * d / 3.0;
      return {{"b", b},
              {"d", d},
              {"V", V},
              {"F_v", 150},
              {"C_D", 1},
              {"C_M", 0.97},
              {"C_i", 0.8},
              {"F_v'", F},
              {"f_v", 3.0 * V / (2.0 * b * d)},
              {"V'", R},
              {"utilisation", V / R}};
    };
  };
  line_by_line(a, "J6/shear", "V", shear(1.5, 7.25));
  line_by_line(a, "L1/shear", "V", shear(1.5, 7.25));
  line_by_line(a, "B1/shear", "V", shear(3.0, 9.25));
  // NDS 3.3.3: R_B (3.3-5), F_bE, C_L (3.3-6); the beam spans 7 ft between posts.
  line_by_line(a, "B1/bending", "M", [](double M) -> Lines {
    const double b = 3.0, d = 9.25, F = 850.0 * 1.1 * 0.8, l_e = 1.63 * 84.0 + 3.0 * d;
    const double R_B = std::sqrt(l_e * d / (b * b)), E = 470000.0 * 0.9 * 0.95;
    const double F_bE = 1.2 * E / squared(R_B), m = (1.0 + F_bE / F) / 1.9;
    const double C_L = m - std::sqrt(m * m - F_bE / F / 0.95), R = F * C_L * b * d * d / 6.0;
    return {{"b", b},      {"d", d},
            {"M", M},      {"F_b", 850},
            {"C_D", 1},    {"C_M", 1},
            {"C_F", 1.1},  {"C_i", 0.8},
            {"F_b*", F},   {"f_b", 6.0 * M / (b * d * d)},
            {"l_u", 84},   {"l_e", l_e},
            {"R_B", R_B},  {"E_min", 470000},
            {"C_ME", 0.9}, {"C_iE", 0.95},
            {"E_min'", E}, {"F_bE", F_bE},
            {"C_L", C_L},  {"F_b'", F * C_L},
            {"M'", R},     {"utilisation", M / R}};
  });
  // NDS 3.10.2, 3.10.4; C_M 0.67 across the grain.
  const auto bearing = [](double l_b, double b, double from_end, double C_b) {
    return [=](double R) -> Lines {
      const double F = 405.0 * 0.67 * C_b, resists = F * b * l_b;
      return {{"R", R},          {"l_b", l_b},
              {"b", b},          {"a", from_end},
              {"F_c_perp", 405}, {"C_b", C_b},
              {"C_M", 0.67},     {"F_c_perp'", F},
              {"R'", resists},   {"utilisation", R / resists}};
    };
  };
  line_by_line(a, "J6/bearing across the grain", "R", bearing(1.5, 1.5, 0.0, 1.0));
  line_by_line(a, "B1/bearing across the grain", "R",
               bearing(5.5, 3.0, 8.0 * 12.0 - 2.75, (5.5 + 0.375) / 5.5));
  // NDS 12.3.1, mode III_s: 10d x 1 1/2 in. through 0.036 in. of plate into Hem-Fir, G 0.43.
  line_by_line(a, "J6/end connection", "V", [](double V) -> Lines {
    const double D = 0.148, l_s = 0.036, l_m = 1.464, F_em = 16600.0 * std::pow(0.43, 1.84),
                 F_es = 61850.0, F_yb = 90000.0, R_e = F_em / F_es, C_p = l_m / (10.0 * D);
    const double k_3 = -1.0 + std::sqrt(2.0 * (1.0 + R_e) / R_e + 2.0 * F_yb * (2.0 + R_e) * D * D /
                                                                      (3.0 * F_em * l_s * l_s));
    const double Z = k_3 * D * l_s * F_em / ((2.0 + R_e) * 2.2), R = 8.0 * C_p * Z * 0.7;
    return {{"V", V},      {"nails", 8},   {"n_max", 12},    {"n", 8},
            {"D", D},      {"L", 1.5},     {"l_s", l_s},     {"l_m", l_m},
            {"G_m", 0.43}, {"F_em", F_em}, {"F_es", F_es},   {"full", 10},
            {"C_p", C_p},  {"F_yb", F_yb}, {"R_e", R_e},     {"R_d", 2.2},
            {"k_3", k_3},  {"Z", Z},       {"Z_1", C_p * Z}, {"Z_n", 8.0 * C_p * Z},
            {"C_D", 1},    {"C_M", 0.7},   {"Z'", R},        {"utilisation", V / R}};
  });
  line_by_line(a, "L1/ledger fixing", "V", [](double V) -> Lines {
    return {{"V", V},
            {"D_nom", 0.5},
            {"Z", 375},
            {"C_D", 1},
            {"C_M", 1},
            {"Z'", 375},
            {"utilisation", V / 375.0}};
  });
  // NDS 12.2.1 (12.2-1): 1.5 in. of thread in the band; the washer on the ledger presses less.
  line_by_line(a, "L1/ledger fixing, pulled", "T", [](double T) -> Lines {
    const double washer =
        0.67 * 335.0 * std::numbers::pi / 4.0 * (squared(2.5 * 0.5) - squared(0.5 + 1.0 / 16.0));
    const double W = 1800.0 * std::pow(0.35, 1.5) * std::pow(0.5, 0.75), out = W * 1.5 * 0.9 * 0.7;
    return {{"T", 0},
            {"D", 0.5},
            {"w_D", 2.5},
            {"F_c_perp,b", 335},
            {"F_c_perp,l", 405},
            {"C_M", 0.67},
            {"R_w", washer},
            {"D_lag", 0.5},
            {"G", 0.35},
            {"p", 1.5},
            {"W", W},
            {"C_D", 0.9},
            {"C_MW", 0.7},
            {"R_out", out},
            {"R'", std::min(out, washer)},
            {"utilisation", T / out}};
  });
  // IRC R401.4.1, R403.1; ACI 318 14.5: how far 10 in. of plain concrete spread.
  line_by_line(a, "P2/ground pressure", "R", [](double R) -> Lines {
    // 550 kg/m3 in pounds a cubic foot.
    const double post = 550.0 * std::pow(0.3048, 3) / 0.45359237 * squared(5.5 / 12.0) * 3.5;
    const double t = 10.0 / 12.0, e = 1.0 / 12.0, b_c = 5.5 / 12.0, t_0 = 2.0 / 12.0;
    const double bent =
        (t - t_0) * std::sqrt(144.0 * 0.6 * 5.0 * std::sqrt(2500.0) / (3.0 * 1.6 * 1500.0));
    const double s = std::min(t, bent), B = std::min(b_c + 2.0 * s, 1.5 - 2.0 * e);
    const double L = std::min(b_c + 2.0 * s, 1.5), q = (R + post) / (B * L) + 150.0 * t;
    return {{"R", R},
            {"W_p", post},
            {"P", R + post},
            {"B", 1.5},
            {"L", 1.5},
            {"t", t},
            {"e", e},
            {"b_c", b_c},
            {"l_c", b_c},
            {"gamma_c", 150},
            {"q_own", 150.0 * t},
            {"q_presumed", 1500},
            {"f_c'", 2500},
            {"phi", 0.6},
            {"t_0", t_0},
            {"gamma_L", 1.6},
            {"s_bent", bent},
            {"s", s},
            {"B'", B},
            {"L'", L},
            {"q", q},
            {"utilisation", q / 1500.0}};
  });
  // NDS 3.7.1 (3.7-1): 42 in. of 6x6.
  line_by_line(a, "P2/post, buckling", "P", [](double P) -> Lines {
    const double F = 575.0 * 0.91 * 0.8, slender = 42.0 / 5.5, E = 400000.0 * 0.95;
    const double F_cE = 0.822 * E / squared(slender), m = (1.0 + F_cE / F) / 1.6;
    const double C_P = m - std::sqrt(m * m - F_cE / F / 0.8), R = F * C_P * 5.5 * 5.5;
    return {{"b", 5.5},        {"d", 5.5},
            {"l", 42},         {"P", P},
            {"s", 5.5},        {"F_c", 575},
            {"C_D", 1},        {"C_M", 0.91},
            {"C_i", 0.8},      {"F_c*", F},
            {"K_e", 1},        {"slenderness", slender},
            {"E_min", 400000}, {"C_iE", 0.95},
            {"E_min'", E},     {"F_cE", F_cE},
            {"c", 0.8},        {"C_P", C_P},
            {"F_c'", F * C_P}, {"f_c", P / (5.5 * 5.5)},
            {"P'", R},         {"utilisation", P / R}};
  });
  line_by_line(a, "J3/held upright", "b_nom", [](double) -> Lines {
    return {{"b_nom", 2}, {"d_nom", 8}, {"ratio", 4}, {"limit", 6}, {"utilisation", 4.0 / 6.0}};
  });
  // NDS 4.3.7: a 2x6 flat, not incised.
  const double F_board = 850.0 * 1.3, flat = F_board * 1.15, S = 5.5 * 1.5 * 1.5 / 6.0;
  line_by_line(a, "boards/one person on one board", "P", [&](double P) -> Lines {
    CHECK(P == Approx(300.0));
    const double M = P * 16.0 / 4.0, V = 2.0 * 150.0 * 0.97 * 5.5 * 1.5 / 3.0;
    return {{"b", 5.5},
            {"d", 1.5},
            {"l", 16},
            {"P", 300},
            {"M", M},
            {"F_b", 850},
            {"C_D", 1},
            {"C_M", 1},
            {"C_F", 1.3},
            {"F_b*", F_board},
            {"C_fu", 1.15},
            {"F_b'", flat},
            {"M'", flat * S},
            {"F_v", 150},
            {"C_D", 1},
            {"C_M", 0.97},
            {"F_v'", 150.0 * 0.97},
            {"V'", V},
            {"utilisation", M / (flat * S)}};
  });
  line_by_line(a, "boards/bending", "M", [&](double M) -> Lines {
    return {{"b", 5.5},       {"d", 1.5},
            {"M", M},         {"F_b", 850},
            {"C_D", 1},       {"C_M", 1},
            {"C_F", 1.3},     {"F_b*", F_board},
            {"f_b", M / S},   {"C_L", 1},
            {"C_fu", 1.15},   {"F_b'", flat},
            {"M'", flat * S}, {"utilisation", M / (flat * S)}};
  });
  line_by_line(a, "boards/shear", "V", [](double V) -> Lines {
    const double F = 150.0 * 0.97, R = 2.0 * F * 5.5 * 1.5 / 3.0;
    return {{"b", 5.5},  {"d", 1.5},
            {"V", V},    {"F_v", 150},
            {"C_D", 1},  {"C_M", 0.97},
            {"F_v'", F}, {"f_v", 3.0 * V / (2.0 * 5.5 * 1.5)},
            {"V'", R},   {"utilisation", V / R}};
  });
  // NDS 12.2.3, 12.5.4.1: two toe-nails at 30 degrees, a third of their length in the joist.
  // Nothing lifts a joist of this deck; 40 lb are a trial.
  const auto nds = standards::make_north_america_us();
  standards::HoldDownDemand held;
  held.kind = standards::HoldDownKind::nailed;
  held.joist = nds->timber("Hem-Fir No.2", standards::Role::joist, inches(1.5), inches(7.25), true);
  held.bearer =
      nds->timber("Hem-Fir No.2", standards::Role::joist, inches(1.5), inches(9.25), true);
  held.uplift = pounds_force(40.0);
  standards::Combination ten_years =
      nds->combinations(standards::Purpose::strength, standards::Circumstances{}).front();
  ten_years.duration_factor = 1.0;
  line_by_line(nds->hold_down(held, ten_years), "hold-down", "F", [](double F) -> Lines {
    CHECK(F == Approx(40.0));
    // A third, as the data print it: 0.3333.
    const double p = 2.5 * std::cos(std::numbers::pi / 6.0) - 2.5 * 0.3333;
    const double W = 1380.0 * std::pow(0.43, 2.5) * 0.131, n = 2.0 * W * p * 0.67, Z = n * 0.25;
    return {{"F", F},      {"G", 0.43},       {"n", 2},      {"D", 0.131}, {"L", 2.5},
            {"angle", 30}, {"share", 0.3333}, {"p", p},      {"W", W},     {"C_tn", 0.67},
            {"W_n", n},    {"C_D", 1},        {"C_M", 0.25}, {"Z'", Z},    {"utilisation", F / Z}};
  });
  line_by_line(a, "J6/deflection at once", "w_pass", [](double w) -> Lines {
    return {{"l", 120},
            {"w_least", 3.0 / 25.4},
            {"w_pass", w},
            {"limit", 120.0 / 360.0},
            {"utilisation", w / (120.0 / 360.0)}};
  });
  line_by_line(a, "J6/deflection in the long run", "w_fin", [](double w) -> Lines {
    return {{"l", 120},
            {"w_least", 3.0 / 25.4},
            {"w_fin", w},
            {"limit", 0.5},
            {"utilisation", w / 0.5}};
  });
  line_by_line(a, "J1/gap that opens", "gap", [](double gap) -> Lines {
    return {{"gap", gap}, {"limit", 2.0 / 25.4}, {"utilisation", gap / (2.0 / 25.4)}};
  });
  line_by_line(a, "load 1/level", "tilt", [](double tilt) -> Lines {
    return {{"tilt", tilt}, {"limit", 0.08}, {"utilisation", tilt / 0.08}};
  });
}

}  // namespace hand_lines_test_file
