// Two whole decks worked by hand, as an engineer would: loads, statics, each check with its clause, and
// the program's findings beside them. Nothing here calls the solver or a rule: the statics are the
// three-moment equation and plain equilibrium, the resistances are written out from the clauses.
//
// What the hand leaves out, and the program does not, is said beside each tolerance: boards that run
// through over the joists and hand load on, supports that give, joists that crush.
#include "published/hand_decks.hpp"
#include "support/catch.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace hand_deck_test_file {

using namespace underprop;
using test::check_of;
using test::courtyard;
using test::raised;

namespace {

/// A uniform load w from a to b along a beam.
struct Patch {
  double a, b, w;
};

double total(const std::vector<Patch>& load, double from, double to) {
  double sum = 0.0;
  for (const Patch& p : load) sum += p.w * std::max(0.0, std::min(p.b, to) - std::max(p.a, from));
  return sum;
}
/// Moment about `at` of the load between two places, positive for load beyond `at`.
double about(const std::vector<Patch>& load, double from, double to, double at) {
  double sum = 0.0;
  for (const Patch& p : load) {
    const double a = std::max(p.a, from), b = std::min(p.b, to);
    if (b > a) sum += p.w * (b - a) * ((a + b) / 2.0 - at);
  }
  return sum;
}
/// 6 A a/L of the three-moment equation: the load's simple-span moment area about the left end (or the
/// right end), for a patch w between c and d from that end: w (L^2 x^2/2 - x^4/4)/L from c to d.
double area_term(const std::vector<Patch>& load, double from, double to, bool from_left) {
  const double L = to - from;
  const auto primitive = [L](double x) { return L * L * x * x / 2.0 - x * x * x * x / 4.0; };
  double sum = 0.0;
  for (const Patch& p : load) {
    const double a = std::max(p.a, from), b = std::min(p.b, to);
    if (b <= a) continue;
    const double c = from_left ? a - from : to - b, d = from_left ? b - from : to - a;
    sum += p.w * (primitive(d) - primitive(c)) / L;
  }
  return sum;
}

/// A beam over supports that do not give, with an overhang at either end: moments over the supports,
/// shear on either side of each, reactions. Sagging positive.
struct Beam {
  std::vector<double> M, left, right, R;
};
Beam continuous(const std::vector<double>& supports, double start, double end,
                const std::vector<Patch>& load) {
  const std::size_t n = supports.size();
  Beam beam;
  beam.M.assign(n, 0.0);
  beam.left.assign(n, 0.0);
  beam.right.assign(n, 0.0);
  beam.M.front() = about(load, start, supports.front(), supports.front());  // negative: hogging
  beam.M.back() = -about(load, supports.back(), end, supports.back());
  // M(i-1) L1 + 2 M(i) (L1 + L2) + M(i+1) L2 = -(6 A a/L of the left + of the right span): solved by
  // going round until nothing moves.
  for (int round = 0; round < 200; ++round) {
    for (std::size_t i = 1; i + 1 < n; ++i) {
      const double L1 = supports[i] - supports[i - 1], L2 = supports[i + 1] - supports[i];
      const double terms = area_term(load, supports[i - 1], supports[i], true) +
                           area_term(load, supports[i], supports[i + 1], false);
      beam.M[i] = -(terms + beam.M[i - 1] * L1 + beam.M[i + 1] * L2) / (2.0 * (L1 + L2));
    }
  }
  beam.left.front() = total(load, start, supports.front());
  beam.right.back() = total(load, supports.back(), end);
  for (std::size_t i = 0; i + 1 < n; ++i) {
    const double L = supports[i + 1] - supports[i];
    const double lever = about(load, supports[i], supports[i + 1], supports[i]);
    const double over_right = lever / L - (beam.M[i + 1] - beam.M[i]) / L;
    beam.left[i + 1] = over_right;
    beam.right[i] = total(load, supports[i], supports[i + 1]) - over_right;
  }
  for (std::size_t i = 0; i < n; ++i) beam.R.push_back(beam.left[i] + beam.right[i]);
  return beam;
}

/// The largest sagging moment of a span that starts at `from` with the moment M and the shear V.
double largest_sagging(const std::vector<Patch>& load, double from, double to, double M, double V) {
  double largest = 0.0;
  const int parts = 20000;
  for (int k = 1; k < parts; ++k) {
    const double x = from + (to - from) * k / parts;
    largest = std::max(largest, M + V * (x - from) + about(load, from, x, x));
  }
  return largest;
}

/// The names of the checks that a hand has done.
std::set<std::string>& done(const assessment::Assessment& a) {
  static std::map<const assessment::Assessment*, std::set<std::string>> all;
  return all[&a];
}
std::string name_of(const std::string& id) { return id.substr(id.rfind('/') + 1); }

/// Prints both, and holds the demand within `share` and the resistance within half a per cent.
void beside(const char* clause, const assessment::Assessment& a, const std::string& id,
            double demand, double share, double resistance) {
  const standards::Check& c = check_of(a, id);
  done(a).insert(name_of(id));
  std::printf("%-32s %-34s by hand %9.4g / %9.4g = %.3f, program %9.4g / %9.4g = %.3f %s\n",
              id.c_str(), clause, demand, resistance, demand / resistance, c.demand, c.resistance,
              c.utilisation, c.unit.c_str());
  INFO(id << " by hand " << demand << " against " << resistance << ", program " << c.demand
          << " against " << c.resistance << ' ' << c.unit);
  CHECK(std::abs(c.demand - demand) <= share * demand);
  CHECK(std::abs(c.resistance - resistance) <= 0.005 * resistance);
}

/// Where the demand is the whole model's (boards over joists that give, a gap, a tilt): the resistance
/// by hand, the program's demand beside it.
void resistance(const char* clause, const assessment::Assessment& a, const std::string& id,
                double resistance) {
  beside(clause, a, id, check_of(a, id).demand, 1e-12, resistance);
}

/// Every kind of check that the deck got was done by hand.
void every_check_is_done(const assessment::Assessment& a) {
  for (const auto* list : {&a.shown.findings, &a.shown.ordinary_use, &a.service_findings}) {
    for (const assessment::Finding& f : *list) {
      INFO(f.id);
      CHECK(done(a).contains(name_of(f.id)));
    }
  }
}

constexpr double g = 9.80665;

}  // namespace

TEST_CASE("The three-moment equation gives the textbook beams", "[closed-form]") {
  // Two equal spans under w: -w L^2/8 and 1.25 w L in the middle. Three: -w L^2/10, 0.4 and 1.1 w L.
  const Beam two = continuous({0, 2, 4}, 0, 4, {{0, 4, 3.0}});
  CHECK(two.M[1] == Approx(-3.0 * 4.0 / 8.0));
  CHECK(two.R[1] == Approx(1.25 * 3.0 * 2.0));
  const Beam three = continuous({0, 1, 2, 3}, 0, 3, {{0, 3, 1.0}});
  CHECK(three.M[1] == Approx(-0.1));
  CHECK(three.R[0] == Approx(0.4));
  CHECK(three.R[2] == Approx(1.1));
  // One span with an overhang: the end moment is w a^2/2.
  const Beam over = continuous({0, 10}, 0, 12, {{0, 12, 1.0}});
  CHECK(over.M[1] == Approx(-2.0));
  CHECK(over.R[1] == Approx(12.0 * 6.0 / 10.0));
  CHECK(largest_sagging({{0, 8, 2.0}}, 0, 8, 0.0, 8.0) == Approx(16.0).epsilon(1e-6));
}

TEST_CASE("Courtyard platform, by hand to EN 1990, EN 1995-1-1 and EN 1997-1",
          "[assessment][closed-form]") {
  const assessment::Assessment& a = courtyard();
  // Loads on joist J5 (x = 1800 mm, the second under the tub), N/mm, with its 400 mm of deck.
  // Tub 240 kg and 880 kg of water on 1.9 x 1.9 m; four people of 91 kg, at worst all in one quarter;
  // 1.5 kN/m2 on the rest of a deck below 600 mm; wood 550 kg/m3 (47 x 145, boards 32 of 145 in 151).
  const double spacing = 400.0;
  const double tub = (240.0 + 880.0) * g / 3.61 * 1e-6 * spacing;                         // 1.217
  const double people = 4.0 * 91.0 * g / (0.95 * 0.95) * 1e-6 * spacing;                  // 1.582
  const double imposed = 1.5e-3 * spacing;                                                // 0.600
  const double own = 550.0 * g * 1e-9 * (47.0 * 145.0 + 32.0 * 145.0 / 151.0 * spacing);  // 0.103
  // Four walls at 75, 1075, 2075, 3075 mm; the tub from 625 to 2525 mm.
  const std::vector<double> walls = {75, 1075, 2075, 3075};
  const auto joist = [&](double gamma_G, double gamma_Q) {
    // People in the quarter towards the first wall, and on the first bay beside the tub.
    return continuous(walls, 0, 3150,
                      {{0, 3150, gamma_G * own},
                       {625, 2525, gamma_G * tub},
                       {625, 1575, gamma_Q * people},
                       {0, 625, gamma_Q * imposed}});
  };
  // EN 1990 (6.10), UK: 1.35 G + 1.5 Q, medium-term, k_mod 0.65 in service class 3.
  const Beam design = joist(1.35, 1.5);
  const double k_mod = 0.65, gamma_M = 1.3;

  // Hogging over wall W2. EN 1995-1-1 6.1.6, k_h (3.1), k_crit = 1 (lambda_rel,m 0.61 with
  // l_ef = 1.0 x 1075 + 2 x 145 mm, (6.32)). The hand has walls that do not give and J5 with just its
  // 400 mm: boards through over five joists bring the second one 1.14 of that, and walls that give
  // take from the moment: together within 10 %.
  const double W = 47.0 * 145.0 * 145.0 / 6.0;
  const double k_h = std::pow(150.0 / 145.0, 0.2);
  const double lambda = std::sqrt(24.0 / (0.78 * 47.0 * 47.0 * 7400.0 / (145.0 * 1365.0)));
  CHECK(lambda < 0.75);
  const double M_Rd = k_mod * k_h * 24.0 / gamma_M * W * 1e-6;
  beside("EN 1995-1-1 6.1.6, 6.3.3", a, "J5/bending", -design.M[1] * 1e-6, 0.10, M_Rd);

  // Bearing over W2: contact 102 mm and 30 mm on either side; walls are discrete supports, and the tub's
  // full base loads the joist all along and not by feet near the wall: k_c,90 = 1.5. EN 1995-1-1 6.1.5(4).
  const double bearing_Rd = k_mod * 1.5 * 2.5 * 47.0 * (102.0 + 60.0) / gamma_M * 1e-3;
  beside("EN 1995-1-1 6.1.5", a, "J5/bearing across the grain", design.R[1] * 1e-3, 0.10,
         bearing_Rd);

  // Shear beside a middle wall, k_cr 0.67. EN 1995-1-1 6.1.7. Loads on top within h of the face of the
  // wall are left out, 51 + 145 mm from its middle, 6.1.7(3). Here the 1.14 of the boards comes in full,
  // since walls that give do not take from it: within 15 %.
  const std::vector<Patch> on_top = {{0, 3150, 1.35 * own},
                                     {625, 2525, 1.35 * tub},
                                     {625, 1575, 1.5 * people},
                                     {0, 625, 1.5 * imposed}};
  const double near = 51.0 + 145.0;
  const double V = std::max(design.left[1] - total(on_top, 1075.0 - near, 1075.0),
                            design.right[1] - total(on_top, 1075.0, 1075.0 + near)) *
                   1e-3;
  const double V_Rd = k_mod * 4.0 / gamma_M * 0.67 * 47.0 * 145.0 / 1.5 * 1e-3;
  beside("EN 1995-1-1 6.1.7", a, "J5/shear", V, 0.15, V_Rd);

  // Ground under the wall, 450 mm of strip and 400 mm of wall a joist, characteristic loads, stiff clay
  // presumed at 100 kPa. EN 1997-1 6.5.2.4 (prescriptive).
  const Beam service = joist(1.0, 1.0);
  beside("EN 1997-1 6.5.2", a, "W2/ground pressure", service.R[1] / (450.0 * 400.0) * 1e3, 0.10,
         100.0);

  // Held upright: 145/47 where ends and edge are held, at most 5. BS 5268-2 Table 19.
  beside("BS 5268-2 Table 19", a, "J3/held upright", 145.0 / 47.0, 1e-9, 5.0);

  // One person on one board, 1.4 kN in the middle of 400 mm, short-term 0.70, k_h 1.3 at most.
  const double board_Rd = 0.70 * 1.3 * 24.0 / gamma_M * 145.0 * 32.0 * 32.0 / 6.0 * 1e-6;
  beside("EN 1995-1-1 6.1.6", a, "boards/one person on one board", 1.5 * 1.4 * 0.4 / 4.0, 1e-6,
         board_Rd);

  // One person at the end of the boards, 200 mm past the first joist: P a. EN 1995-1-1 6.1.6.
  beside("EN 1995-1-1 6.1.6", a, "boards/one person on the end of a board, away from the load",
         1.5 * 1.4 * 0.2, 0.03, board_Rd);

  // Sag of the middle bay in the long run: 5 w L^4/384 + M1 L^2/8 over E I, and 1.2 w L^2/(8 G A) of
  // shear; people on the half towards -x over the whole length. What stays creeps with k_def 2.0, people
  // with psi_2 0.3 of it, EN 1995-1-1 2.2.3(3). Joists that crush a little on their walls and the 1.14
  // are not in it: within 35 % of a millimetre. No limit is set on what passing loads do
  // at once; in the long run l/150, the wide end of EN 1995-1-1 Table 7.2.
  const double half = 4.0 * 91.0 * g / (1.9 * 0.95) * 1e-6 * spacing;
  const double I = W * 145.0 / 2.0, L = 1000.0;
  const auto middle = [&](double load) {
    const Beam over = continuous(walls, 0, 3150, {{625, 2525, load}});
    return (5.0 * load * std::pow(L, 4) / 384.0 + (over.M[1] + over.M[2]) / 2.0 * L * L / 8.0) /
               (11000.0 * I) +
           1.2 * load * L * L / (8.0 * 690.0 * 47.0 * 145.0);
  };
  beside("EN 1995-1-1 2.2.3(3), 7.2", a, "J5/deflection in the long run",
         (1.0 + 2.0) * (middle(tub) + middle(own)) + (1.0 + 0.3 * 2.0) * middle(half), 0.35,
         1000.0 / 150.0);

  // A board, 145 mm of it, jointed over a joist under the tub: w l^2/8 on one span, 0.6 w l beside the
  // second joist of several. EN 1995-1-1 6.1.6, 6.1.7.
  const double board =
      145.0 / spacing * (1.35 * tub + 1.5 * people) + 1.35 * 550.0 * g * 1e-9 * 145.0 * 32.0;
  beside("EN 1995-1-1 6.1.6", a, "boards/bending", board * spacing * spacing / 8.0 * 1e-6, 0.08,
         k_mod * 1.3 * 24.0 / gamma_M * 145.0 * 32.0 * 32.0 / 6.0 * 1e-6);
  beside("EN 1995-1-1 6.1.7", a, "boards/shear", 0.6 * board * spacing * 1e-3, 0.08,
         k_mod * 4.0 / gamma_M * 0.67 * 145.0 * 32.0 / 1.5 * 1e-3);
  // The tub stays level within 1 in 150, in mm/m.
  resistance("judgement", a, "load 1/level", 1000.0 / 150.0);
  // No posts: nothing stands that could sway, and the critical factor is counted no further than 1e9.
  resistance("solver", a, "deck/sway along x", 1e9);
  resistance("solver", a, "deck/sway along y", 1e9);
  every_check_is_done(a);
  CHECK(a.verdict == assessment::Verdict::carries);
}

TEST_CASE("Raised deck hung from the house, by hand to ASCE 7 and the NDS",
          "[assessment][closed-form]") {
  const assessment::Assessment& a = raised();
  // Pounds and feet. Tub 750 lb and 305 gallons of 8.345 lb on 7 x 7 ft; five people of 200 lb, at
  // worst all in one quarter; 40 psf beside the tub; wood of 550 kg/m3 = 34.3 pcf.
  const double tub_psf = (750.0 + 305.0 * 8.3454) / 49.0;  // 67.3
  const double quarter_psf = 5.0 * 200.0 / (3.5 * 3.5);    // 81.6
  const double half_psf = 5.0 * 200.0 / (7.0 * 3.5);       // 40.8
  const double boards_psf = 34.335 * 1.5 / 12.0 * 5.5 / 5.625;
  const double joist_plf = 34.335 * 1.5 * 7.25 / 144.0;
  const double spacing = 16.0 / 12.0;
  const double own = boards_psf * spacing + joist_plf;

  // Joist J6 (x = 6 ft 9 in): ledger at 0, beam at 10 ft, free to 12 ft; the tub from 1.5 to 8.5 ft.
  // ASCE 7 2.4.1: D + F + L, C_D 1.0. Boards jointed over it hand nothing on, so the hand is close.
  const std::vector<Patch> joist = {
      {0, 12, own}, {1.5, 8.5, tub_psf * spacing}, {1.5, 5.0, quarter_psf * spacing}};
  const Beam j = continuous({0, 10}, 0, 12, joist);
  const double M = largest_sagging(joist, 0, 10, 0.0, j.R[0]);
  // NDS 4.3.1: F_b' = 850 x C_F 1.2 x C_i 0.8; F_b C_F = 1,020 psi is under 1,150 psi, so C_M = 1.0.
  const double S = 1.5 * 7.25 * 7.25 / 6.0;
  beside("NDS 4.3.1, 3.3", a, "J6/bending", M, 0.03, 850.0 * 1.2 * 0.8 * S / 12.0);

  // Its hanger: the same with 40 psf beside the tub in that bay. Eight nails of a hanger of unknown
  // make, 0.148 x 1 1/2 in. through 0.036 in. of plate into Hem-Fir, G 0.43: mode III_s, C_p = p/10D for
  // 1.464 in. of point, wet 0.7. NDS 12.3.1, 12.3.3, Table 12N note 3 and 11.3.1.
  std::vector<Patch> with_people = joist;
  with_people.push_back({0, 1.5, 40.0 * spacing});
  with_people.push_back({8.5, 10, 40.0 * spacing});
  const double at_ledger = continuous({0, 10}, 0, 12, with_people).R[0];
  const double nail = 0.148, plate = 0.036, F_em = 16600.0 * std::pow(0.43, 1.84);
  const double R_e = F_em / 61850.0;
  const double k_3 =
      -1.0 + std::sqrt(2.0 * (1.0 + R_e) / R_e +
                       2.0 * 90000.0 * (2.0 + R_e) * nail * nail / (3.0 * F_em * plate * plate));
  const double of_nail =
      k_3 * nail * plate * F_em / ((2.0 + R_e) * 2.2) * 1.464 / (10.0 * nail);  // 98.7 lb
  beside("NDS 11.3.1, 12.3", a, "J6/end connection", at_ledger, 0.05, 8.0 * of_nail * 0.7);

  // Bearing in the hanger: 1 1/2 in. of seat at the end, no C_b. NDS 3.10.2, C_M 0.67.
  beside("NDS 3.10.2", a, "J6/bearing across the grain", at_ledger, 0.05, 405.0 * 0.67 * 1.5 * 1.5);

  // Lag screws of the ledger stand 16 in. apart, midway between joists, and three next to each other share
  // what comes (they yield): the mean of 4 ft 8 in. to 7 ft 4 in. or of 6 ft to 8 ft 8 in. A joist
  // halves its reaction between two. J4, J7 and J8 have the tub on 1/4, all, and all of their 16 in.,
  // people's quarter (4 1/2 to 8 ft) on 1/4, 7/16 and none. 16 in. of ledger weigh on each.
  // Boards hand on from J5 and J6 to the ones beside: within 12 %.
  const auto brings = [&](double under, double trodden) {
    std::vector<Patch> load = {{0, 12, own},
                               {0, 1.5, 40.0 * spacing},
                               {8.5, 10, 40.0 * spacing},
                               {1.5, 8.5, under * tub_psf * spacing},
                               {1.5, 8.5, (1.0 - under) * 40.0 * spacing},
                               {1.5, 5.0, trodden * quarter_psf * spacing}};
    return continuous({0, 10}, 0, 12, load).R[0];
  };
  CHECK(brings(1.0, 1.0) == Approx(at_ledger));
  const double of_three =
      std::max(brings(0.25, 0.25) / 2.0 + 2.0 * at_ledger + brings(1.0, 7.0 / 16.0) / 2.0,
               at_ledger / 2.0 + at_ledger + brings(1.0, 7.0 / 16.0) + brings(1.0, 0.0) / 2.0) /
      3.0;
  const double ledger_own = 34.335 * 1.5 * 7.25 / 144.0 * spacing;
  beside("IRC R507.9.1.3", a, "L1/ledger fixing", of_three + ledger_own, 0.12, 375.0);

  // Beam B1, two plies of 2x10 on posts at 1, 8 and 15 ft: what the joists bring it per foot. People in
  // the quarter towards +x and the beam, 40 psf on all the rest.
  const auto lever = [](double from, double to, double psf) {
    return psf * (to - from) * ((from + to) / 2.0) / 10.0;  // lb per ft of beam
  };
  const double dead = lever(0, 12, boards_psf + joist_plf / spacing);
  const double beam_own = 2.0 * 34.335 * 1.5 * 9.25 / 144.0;
  const double beside_tub = lever(0, 12, 40.0);
  const double around_tub = lever(0, 1.5, 40.0) + lever(8.5, 12, 40.0);
  const double under_tub = lever(1.5, 8.5, tub_psf) + around_tub;
  const double by_people = lever(5.0, 8.5, quarter_psf);
  // Twelve joists from 3/4 in., 16 in. apart, each with the beam's load up to half-way to the next:
  // J7 stands 3/4 in. beside the middle post, which an even load would halve between its two sides.
  const auto beam = [&](double people_from, double people_to) {
    const std::vector<Patch> even = {{0, 4.5, beside_tub},
                                     {4.5, 11.5, under_tub},
                                     {11.5, 16, beside_tub},
                                     {people_from, people_to, by_people}};
    std::vector<Patch> load = {{0, 16, beam_own}};
    for (int k = 0; k < 12; ++k) {
      const double x = (0.75 + 16.0 * k) / 12.0;
      const double from = k == 0 ? 0.0 : x - spacing / 2.0, to = k == 11 ? 16.0 : x + spacing / 2.0;
      const double brought = total(even, from, to) + dead * (to - from);
      load.push_back({x - 0.005, x + 0.005, brought / 0.01});
    }
    return continuous({1, 8, 15}, 0, 16, load);
  };
  const Beam b = beam(8.0, 11.5);
  // NDS 3.4.2: F_v' = 150 x 0.97 x 0.8. Loads on top nearer to the face of the post (2 3/4 in. from its
  // middle) than the beam's depth count by x/d, NDS 3.4.3.1(a): J7 stands over the post and does not
  // count, the next joists stand 15 1/4 and 16 3/4 in. off, past 12 in., and do. By hand nothing is handed
  // on over the boards; in the grillage they hand some of the next joists' load to J7 and to the post.
  const double to = 1.0, J7 = (0.75 + 16.0 * 6) / 12.0;  // ft
  const std::vector<Patch> even_at_J7 = {{4.5, 11.5, under_tub}, {8.0, 11.5, by_people}};
  const double by_J7 = total(even_at_J7, J7 - spacing / 2.0, J7 + spacing / 2.0) + dead * spacing;
  const double right_of_post = b.right[1] - by_J7 - beam_own * to;
  const double left_of_post = std::max(b.left[1], beam(4.5, 8.0).left[1]) - beam_own * to;
  beside("NDS 3.4.2", a, "B1/shear", std::max(left_of_post, right_of_post), 0.14,
         150.0 * 0.97 * 0.8 * 3.0 * 9.25 / 1.5);

  // Over the middle post: 5 1/2 in. of contact inside the beam, C_b = 5.875/5.5. NDS 3.10.4.
  beside("NDS 3.10.2, 3.10.4", a, "B1/bearing across the grain", b.R[1], 0.10,
         405.0 * 0.67 * 5.875 / 5.5 * 3.0 * 5.5);

  // Its footing: 18 x 18 in., the load an inch off the middle, 10 in. of concrete at 150 pcf; the post
  // of 25 lb belongs on it as well. Firm clay presumed at 1,500 psf. IRC R401.4.1.
  const double post = 34.335 * 5.5 * 5.5 / 144.0 * 3.5;
  const double q = (b.R[1] + post) / (16.0 * 18.0 / 144.0) + 150.0 * 10.0 / 12.0;
  beside("IRC R401.4.1, R403.1", a, "P2/ground pressure", q, 0.10, 1500.0);

  // Deflection of J6 at once: people on the half towards -x and on all the rest of the deck;
  // E' = 1,300,000 x 0.9 x 0.95 psi. Double integration over the ten feet; the limit is L/360.
  const std::vector<Patch> used = {{0, 12, own},
                                   {1.5, 8.5, (tub_psf + half_psf) * spacing},
                                   {0, 1.5, 40.0 * spacing},
                                   {8.5, 12, 40.0 * spacing}};
  const Beam s = continuous({0, 10}, 0, 12, used);
  const double EI = 1300000.0 * 0.9 * 0.95 * 1.5 * std::pow(7.25, 3) / 12.0 / 144.0;  // lb ft2
  double sag = 0.0;
  const int parts = 2000;
  for (int k = 0; k < parts; ++k) {
    // Unit load at midspan: the sum of M m/(E I).
    const double x = 10.0 * (k + 0.5) / parts;
    const double moment = s.R[0] * x + about(used, 0, x, x);
    sag += moment * std::min(x, 10.0 - x) / 2.0 * (10.0 / parts) / EI;
  }
  // In the long run what stays counts twice, K_cr 2.0. NDS 3.5.2; the limit is L/240.
  const auto sag_of = [&](const std::vector<Patch>& load) {
    const Beam of = continuous({0, 10}, 0, 12, load);
    double w = 0.0;
    for (int k = 0; k < parts; ++k) {
      const double x = 10.0 * (k + 0.5) / parts;
      w += (of.R[0] * x + about(load, 0, x, x)) * std::min(x, 10.0 - x) / 2.0 * (10.0 / parts) / EI;
    }
    return w;
  };
  const std::vector<Patch> stays = {{0, 12, own}, {1.5, 8.5, tub_psf * spacing}};
  // At once L/360 is for the passing loads alone (IRC Table R301.7: live load). J6 stands beside the edge of
  // the half with people, which lie on 7/16 of J7's 16 in. Boards 1 1/2 in. thick are three times as
  // stiff over 16 in. as a joist over ten feet (E I/s^3 against (pi/L)^4 E I): the three joists around J6
  // go down together, as their mean load has it: within 15 %.
  const auto passes = [&](double trodden) {
    return sag_of({{1.5, 8.5, trodden * half_psf * spacing},
                   {0, 1.5, 40.0 * spacing},
                   {8.5, 12, 40.0 * spacing}});
  };
  CHECK(passes(1.0) == Approx(sag - sag_of(stays)));
  beside("NDS 3.5.1", a, "J6/deflection at once",
         (2.0 * passes(1.0) + passes(7.0 / 16.0)) / 3.0 * 12.0, 0.15, 120.0 / 360.0);
  beside("NDS 3.5.2", a, "J6/deflection in the long run", (sag + sag_of(stays)) * 12.0, 0.15,
         120.0 / 240.0);

  // Shear of J6 in its hanger: nothing near the support is left out there. NDS 3.4.3.1, 3.4.2.
  beside("NDS 3.4.2", a, "J6/shear", at_ledger, 0.05, 150.0 * 0.97 * 0.8 * 1.5 * 7.25 / 1.5);

  // B1 over its middle post, people on the half towards it: F_b* 850 x 1.1 x 0.8, l_u 7 ft, E_min'
  // 470,000 x 0.9 x 0.95. NDS 3.3.3, Table 3.3.3.
  const double F_b = 850.0 * 1.1 * 0.8, l_e = 1.63 * 84.0 + 3.0 * 9.25;
  const double r = 1.2 * 470000.0 * 0.9 * 0.95 / (l_e * 9.25 / 9.0) / F_b, m = (1.0 + r) / 1.9;
  const double C_L = m - std::sqrt(m * m - r / 0.95);
  CHECK(C_L == Approx(0.983).margin(0.001));
  resistance("NDS 3.3.3", a, "B1/bending", F_b * C_L * 3.0 * 9.25 * 9.25 / 6.0 / 12.0);
  // Depth to breadth, nominal, ends and edge held. NDS 4.4.1.
  beside("NDS 4.4.1.2", a, "J3/held upright", 8.0 / 2.0, 1e-9, 6.0);

  // The ledger between its screws. NDS 3.3, 3.4; and its screws, tested with joists hung on the ledger,
  // hold the couple as well: no pull is left beside the withdrawal of 1.5 in. of thread in the band.
  resistance("NDS 3.3.1", a, "L1/bending", 850.0 * 1.2 * 0.8 * S / 12.0);
  resistance("NDS 3.4.2", a, "L1/shear", 150.0 * 0.97 * 0.8 * 1.5 * 7.25 / 1.5);
  CHECK(check_of(a, "L1/ledger fixing, pulled").demand == 0.0);
  resistance("NDS 12.2.1", a, "L1/ledger fixing, pulled",
             1800.0 * std::pow(0.35, 1.5) * std::pow(0.5, 0.75) * 1.5 * 0.9 * 0.7);

  // The middle post: F_c* 575 x 0.91 x 0.8, 42 in. on 5.5 in., E_min' 400,000 x 0.95. NDS 3.7.1.
  const double F_c = 575.0 * 0.91 * 0.8, ratio = 0.822 * 380000.0 / (42.0 / 5.5 * 42.0 / 5.5) / F_c;
  const double c = (1.0 + ratio) / 1.6, C_P = c - std::sqrt(c * c - ratio / 0.8);
  beside("NDS 3.7.1", a, "P2/post, buckling", b.R[1], 0.10, F_c * C_P * 5.5 * 5.5);

  // Boards: flat, C_F 1.3, C_fu 1.15, not incised. One person of 300 lb on one board. NDS 4.3.7.
  const double board_M = 850.0 * 1.3 * 1.15 * 5.5 * 1.5 * 1.5 / 6.0 / 12.0;
  beside("NDS 3.3.1", a, "boards/one person on one board", 300.0 * 16.0 / 4.0 / 12.0, 1e-9,
         board_M);
  // The last joist stands at 3/4 + 11 x 16 = 176 3/4 in. of 192: the boards' end is 15 1/4 in. past it.
  beside("NDS 3.3.1", a, "boards/one person on the end of a board, away from the load",
         300.0 * 15.25 / 12.0, 0.03, board_M);
  resistance("NDS 3.3.1", a, "boards/bending", board_M);
  resistance("NDS 3.4.2", a, "boards/shear", 150.0 * 0.97 * 5.5 * 1.5 / 1.5);

  // Nothing lifts J1 off the beam: pads of one site give alike within three times, and its own weight and
  // the boards' hold it. What its toe-nails would hold is done line by line in hand_lines_test.cpp.
  for (const assessment::Finding& f : a.shown.findings) CHECK(name_of(f.id) != "hold-down");
  resistance("judgement", a, "J1/gap that opens", 2.0 / 25.4);
  resistance("judgement", a, "load 1/level", 12.0 / 150.0);
  // The push: 10 % of the people's load, 40 psf on 192 ft2 and five of 91 kg; by far more than 2.5 % of all
  // that stands. What the ledger and the knees hold together has its closed forms in righting_test.cpp.
  const double push = 0.10 * (40.0 * 192.0 + 5.0 * 91.0 * 2.20462);
  for (const char* id : {"deck/sway along x", "deck/sway along y"})
    beside("judgement", a, id, push, 0.005, check_of(a, id).resistance);
  every_check_is_done(a);
  CHECK(a.verdict == assessment::Verdict::does_not_carry);
}

}  // namespace hand_deck_test_file
