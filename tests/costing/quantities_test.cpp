// Bags, packs, stock lengths, mesh: against figures printed elsewhere or worked by hand.
#include "costing/quantities.hpp"

#include "works/rules.hpp"

#include "support/catch.hpp"

#include <algorithm>
#include <limits>
#include <stdexcept>

namespace quantities_test_file {

using namespace underprop;
using costing::bags_for;
using costing::cutting_plan;

namespace {
const auto uk = record::StandardId::eurocode_uk;
const auto us = record::StandardId::north_america_us;

Volume cubic_feet(double n) { return n * feet(1) * feet(1) * feet(1); }
}  // namespace

TEST_CASE("a slab of 8 ft by 8 ft by 4 in takes 36 bags of 80 lb", "[costing][published]") {
  // Trade page that compares bases for tubs (read): 21.3 cubic feet, 36 bags of 80 lb at 0.60 cubic feet.
  const Volume slab = feet(8) * feet(8) * inches(4);
  CHECK(slab / cubic_feet(1) == Approx(21.33).margin(0.005));
  const Volume bag = litres(works::building_value(us, "bag/volume_l"));
  CHECK(bag / cubic_feet(1) == Approx(0.60).epsilon(1e-6));
  CHECK(bags_for(slab, bag, 0.0) == 36);
}

TEST_CASE("a cubic yard takes 45 bags of 80 lb", "[costing][published]") {
  // Yields printed on three trade pages (read): 45 bags of 80 lb for a cubic yard.
  CHECK(bags_for(cubic_feet(27), litres(works::building_value(us, "bag/volume_l")), 0.0) == 45);
}

TEST_CASE("a cubic metre takes 105 to 110 bags of 20 kg", "[costing][published]") {
  // Common practice, no source: 105 to 110 bags of 20 kg for a cubic metre.
  const int bags = bags_for(litres(1000), litres(works::building_value(uk, "bag/volume_l")), 0.0);
  CHECK(bags >= 105);
  CHECK(bags <= 110);
}

TEST_CASE("waste is added before bags are counted", "[costing][closed-form]") {
  // 6 pads 0.45 x 0.45 x 0.15 m = 0.18225 m3; 10 % more is 200.5 l; 9.5 l a bag: 21.1, so 22.
  const Volume pads = 6.0 * (mm(450) * mm(450) * mm(150));
  CHECK(bags_for(pads, litres(9.5), 0.1) == 22);
  CHECK(bags_for(pads, litres(9.5), 0.0) == 20);  // 19.2
  CHECK(bags_for(Volume(), litres(9.5), 0.1) == 0);
  CHECK(bags_for(litres(95), litres(9.5), 0.0) == 10);  // not 11 for rounding
  CHECK_THROWS_AS(bags_for(litres(1), Volume(), 0.1), std::invalid_argument);
  CHECK_THROWS_AS(bags_for(litres(-1), litres(9.5), 0.1), std::invalid_argument);
  CHECK_THROWS_AS(bags_for(litres(std::numeric_limits<double>::infinity()), litres(9.5), 0.1),
                  std::invalid_argument);
}

TEST_CASE("ready-mix comes in steps and has a least order", "[costing][closed-form]") {
  const Volume step = litres(250), least = litres(1000);
  CHECK(in_litres(costing::ready_mix_for(litres(860), 0.1, step, least)) == Approx(1000));
  CHECK(in_litres(costing::ready_mix_for(litres(1200), 0.1, step, least)) == Approx(1500));
  CHECK(in_litres(costing::ready_mix_for(litres(100), 0.1, step, least)) == Approx(1000));
  CHECK(costing::ready_mix_for(Volume(), 0.1, step, least) == Volume());
}

TEST_CASE("packs are whole", "[costing][closed-form]") {
  CHECK(costing::packs_for(0, 50) == 0);
  CHECK(costing::packs_for(1, 50) == 1);
  CHECK(costing::packs_for(50, 50) == 1);
  CHECK(costing::packs_for(51, 50) == 2);
  CHECK_THROWS_AS(costing::packs_for(1, 0), std::invalid_argument);
}

TEST_CASE("pieces are cut from the least length of stock", "[costing][closed-form]") {
  const std::vector<Length> stock{mm(2400), mm(3000), mm(3600), mm(4800), mm(6000)};
  // Two of 2.4 m need 4.804 m with the saw's cut: two lengths of 2.4 m, nothing cut off.
  auto plan = cutting_plan({mm(2400), mm(2400)}, stock, mm(4));
  CHECK(plan.bars.size() == 2);
  CHECK(plan.bought == mm(4800));
  CHECK(plan.waste() == Approx(0.0).margin(1e-12));
  // 11.7 m of pieces: by hand two lengths of 6.0 m hold them, and nothing shorter does.
  plan = cutting_plan({mm(2300), mm(1200), mm(3400), mm(2500), mm(2300)}, stock, mm(4));
  CHECK(plan.used == mm(11700));
  CHECK(plan.bought == mm(12000));  // 6.0: 3.4 + 2.5 (5.904); 6.0: 2.3 + 2.3 + 1.2 (5.808)
  CHECK(plan.bars.size() == 2);
  // Longer than anybody stocks.
  plan = cutting_plan({mm(7000), mm(1000)}, stock, mm(4));
  REQUIRE(plan.bars.size() == 2);
  CHECK(plan.bars[0].special);
  CHECK(plan.bars[0].stock == mm(7000));
  CHECK(plan.bars[1].stock == mm(2400));
  CHECK(cutting_plan({}, stock, mm(4)).bars.empty());
  CHECK_THROWS_AS(cutting_plan({mm(0)}, stock, mm(4)), std::invalid_argument);
  CHECK_THROWS_AS(cutting_plan({mm(1)}, {}, mm(4)), std::invalid_argument);
}

TEST_CASE("no bar is cut beyond its length, nothing is lost, more pieces never need less stock",
          "[costing][law]") {
  const std::vector<Length>& stock = works::stock(uk).lengths;
  std::vector<Length> pieces;
  unsigned state = 7;
  Length before;
  for (int n = 1; n <= 40; ++n) {
    state = state * 1103515245U + 12345U;
    pieces.push_back(mm(300.0 + (state >> 16U) % 5000U));
    const auto plan = cutting_plan(pieces, stock, mm(4));
    Length used, bought;
    std::size_t count = 0;
    for (const costing::StockBar& bar : plan.bars) {
      Length sum = -mm(4);
      for (const Length piece : bar.pieces) {
        sum += piece + mm(4);
        used += piece;
        ++count;
      }
      CHECK(sum.value() <= bar.stock.value() + 1e-6);
      CHECK(std::find(stock.begin(), stock.end(), bar.stock) != stock.end());
      bought += bar.stock;
    }
    CHECK(count == pieces.size());
    CHECK(used.value() == Approx(plan.used.value()));
    CHECK(bought.value() == Approx(plan.bought.value()));
    if (n <= 9) CHECK(plan.bought >= before);  // exact up to eight; first-fit is never less
    before = plan.bought;
  }
}

TEST_CASE("sheets of mesh cover the slab with laps", "[costing][closed-form]") {
  const auto sheets = [](double w, double l) {
    return costing::mesh_sheets(mm(w), mm(l), mm(40), mm(4800), mm(2400), mm(400));
  };
  CHECK(sheets(2300, 2300) == 1);
  CHECK(sheets(2400, 2400) == 1);
  CHECK(sheets(2600, 2600) == 2);  // 2520 net: 2400 and another with its lap
  CHECK(sheets(2300, 4800) == 1);
  CHECK(sheets(4800, 2300) == 1);
  CHECK(sheets(4400, 4400) == 2);  // 4320 net = 2 x 2400 - 400 less 80
  CHECK(sheets(4600, 4600) == 3);
  CHECK(costing::bar_lines(feet(9), inches(3), inches(12)) == 10);  // 8.5 ft at 1 ft: 9 spaces
  CHECK(costing::bar_lines(feet(8.5), inches(3), inches(12)) == 9);
}

}  // namespace quantities_test_file
