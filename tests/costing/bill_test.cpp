// Take-offs of works and of a slab, worked by hand, and their prices.
#include "works/demo_deck.hpp"

#include "catalog/table.hpp"
#include "underprop/base/input_error.hpp"
#include "underprop/costing/costing.hpp"
#include "works/rules.hpp"

#include "support/catch.hpp"

#include <nlohmann/json.hpp>

#include <map>
#include <set>

namespace bill_test_file {

using namespace demo;
using costing::PriceBook;
using Item = costing::Quantity;
using record::StandardId;

namespace {

double amount(const std::vector<Item>& lines, const std::string& item) {
  double sum = 0.0;
  for (const Item& line : lines) {
    if (line.item == item) sum += line.amount;
  }
  return sum;
}

std::map<std::string, double> sums(const std::vector<Item>& lines) {
  std::map<std::string, double> result;
  for (const Item& line : lines) result[line.item + " / " + line.unit] += line.amount;
  return result;
}

std::vector<Work> american(std::vector<Work> works) {
  for (Work& work : works) {
    if (!work.timber.empty()) work.timber = "Hem-Fir No.2";
  }
  return works;
}

std::string errors_of(const std::string& text) {
  try {
    static_cast<void>(
        costing::with_own_prices(costing::price_book(StandardId::eurocode_uk), text, "my.json"));
  } catch (const InputErrors& errors) {
    return errors.what();
  }
  return {};
}

}  // namespace

TEST_CASE("one pad is taken off as by hand", "[costing][closed-form]") {
  const auto lines = costing::take_off(std::vector<Work>{pad_under_bearer()}, demo_deck());
  // Pit 0.55 x 0.55 x 0.30 = 0.09075 m3; pad 0.45 x 0.45 x 0.15 = 0.030375 m3; loosened by 1.3:
  // 0.0394875 m3; with 10 % waste 33.4 l, 9.5 l a bag: 4 bags.
  CHECK(amount(lines, "excavation by hand") == Approx(0.09075));
  CHECK(amount(lines, "spoil removed") == Approx(0.0394875));
  CHECK(amount(lines, "concrete, bagged") == 4.0);
  CHECK(amount(lines, "formwork board") == 0.0);  // its top lies below the ground
  CHECK(amount(lines, "damp-proof pads") == 1.0);
  CHECK(amount(lines, "packers, treated") == 1.0);
  CHECK(amount(lines, "jack hire") == 1.0);
  // Set out 0.5; dig 0.09075 x 2.5 x 2 under the deck; barrow 0.0394875 x 1; concrete 0.030375 x 4;
  // pack 0.5.
  CHECK(amount(lines, "labour") == Approx(0.5 + 0.45375 + 0.0394875 + 0.1215 + 0.5));
}

TEST_CASE("a new bearer is taken off as by hand", "[costing][closed-form]") {
  const auto lines = costing::take_off(
      std::vector<Work>{new_bearer(mm(900), mm(3100), {mm(1000), mm(3000)}, mm(400))}, demo_deck());
  // Two plies of 2.2 m: two lengths of 2.4 m; posts 2 x 0.4 m of one 2.4 m length.
  CHECK(amount(lines, "timber 47 x 195 C24") == Approx(4.8));
  CHECK(amount(lines, "timber 100 x 100 C24") == Approx(2.4));
  CHECK(amount(lines, "post shoe") == 2.0);
  CHECK(amount(lines, "bolt with washers") == 4.0);
  // Five joists cross it, two screws each; plies: 2 rows of ceil(2200 / 300) = 8, and 4: 30 in all.
  CHECK(amount(lines, "structural screws") == 1.0);
  CHECK(amount(lines, "concrete, bagged") == 8.0);  // 60.75 l, 66.8 with waste, 7.03 bags
}

TEST_CASE("hangers, sisters and blocking are taken off as by hand", "[costing][closed-form]") {
  const auto lines = costing::take_off(
      std::vector<Work>{sister({"J4", "J5"}), blocking(mm(1500)), hangers({"J6"})}, demo_deck());
  CHECK(amount(lines, "timber 47 x 145 C24") == Approx(6.0));  // two of 3.0 m
  // Ten blocks of 353 mm, 4 mm cuts: 3.566 m, one length of 3.6 m.
  CHECK(amount(lines, "timber 47 x 145 C16") == Approx(3.6));
  CHECK(amount(lines, "joist hanger") == 2.0);
  CHECK(amount(lines, "hanger nails") == 1.0);
  // Sisters 2 x (2 x 10 + 4), blocks 10 x 4: 88 screws.
  CHECK(amount(lines, "structural screws") == 2.0);
  CHECK(amount(lines, "excavation by hand") == 0.0);
  CHECK(amount(lines, "labour") == Approx(2 * 1.75 + 10 * 0.3 + 2 * 0.45));
}

TEST_CASE("work from above a low deck takes longer", "[costing][law]") {
  record::Survey low = demo_deck();
  low.deck.height = mm(400);
  CHECK(amount(costing::take_off(std::vector<Work>{pack({"P2"})}, low), "labour") >
        amount(costing::take_off(std::vector<Work>{pack({"P2"})}, demo_deck()), "labour"));
}

TEST_CASE("adding a work never lowers what is needed", "[costing][law]") {
  // Bags give way to ready-mix beyond a volume; every other item only grows.
  for (const auto standard : {StandardId::eurocode_uk, StandardId::north_america_us}) {
    const bool us = standard == StandardId::north_america_us;
    const record::Survey s = us ? american_deck() : demo_deck();
    const std::vector<Work> all = us ? american(one_of_each()) : one_of_each();
    std::vector<Work> some;
    std::map<std::string, double> before;
    for (const Work& work : all) {
      some.push_back(work);
      const auto now = sums(costing::take_off(some, s));
      for (const auto& [item, needed] : before) {
        INFO(work.id << " lowers " << item);
        REQUIRE(now.count(item) == 1);
        CHECK(now.at(item) >= needed - 1e-9);
      }
      before = now;
    }
  }
}

TEST_CASE("dug ground and labour are the sums of the parts", "[costing][law]") {
  const std::vector<Work> all = one_of_each();
  double dug = 0.0, hours = 0.0;
  for (const Work& work : all) {
    dug += amount(costing::take_off(std::vector<Work>{work}, demo_deck()), "excavation by hand");
    hours += amount(costing::take_off(std::vector<Work>{work}, demo_deck()), "labour");
  }
  const auto together = costing::take_off(all, demo_deck());
  CHECK(amount(together, "excavation by hand") == Approx(dug));
  CHECK(amount(together, "labour") == Approx(hours));
  CHECK(costing::take_off(std::vector<Work>{}, demo_deck()).empty());
}

TEST_CASE("a take-off is the same each time", "[costing][law]") {
  const auto a = costing::take_off(one_of_each(), demo_deck()),
             b = costing::take_off(one_of_each(), demo_deck());
  REQUIRE(a.size() == b.size());
  for (std::size_t i = 0; i < a.size(); ++i) {
    CHECK(a[i].item == b[i].item);
    CHECK(a[i].amount == b[i].amount);
    CHECK(a[i].note == b[i].note);
  }
}

TEST_CASE("much concrete is ordered ready-mixed, in two deliveries for pits dug in turn",
          "[costing][closed-form]") {
  Work big = new_bearer(mm(0), mm(4000), {mm(300), mm(2000), mm(3700)});
  big.pad_width = big.pad_length = mm(900);
  big.pad_thickness = mm(400);
  const auto lines =
      costing::take_off(std::vector<Work>{big},
                        demo_deck());  // 3 x 0.324 = 0.972 m3, 1.069 with waste: 1.25
  CHECK(amount(lines, "concrete, bagged") == 0.0);
  CHECK(amount(lines, "concrete, ready-mix") == Approx(1.25));
  CHECK(amount(lines, "ready-mix delivery") == 2.0);
  CHECK(amount(lines, "formwork board") == Approx(3 * 3.6));  // 100 mm stands above the ground
}

TEST_CASE("timber that nobody stocks is reckoned by volume", "[costing][law]") {
  Work odd = sister({"J4"});
  odd.timber = "D30";
  const auto lines = costing::take_off(std::vector<Work>{odd}, demo_deck());
  CHECK(amount(lines, "timber by volume") == Approx(3.0 * 0.047 * 0.145));
}

TEST_CASE("a slab is sized and taken off as by hand", "[costing][closed-form]") {
  const auto slab = costing::slab_for(demo_deck());
  // 2000 + 2 x 150; 300 + 1200 + 5 x 91 = 1955 kg: 150 mm with A193.
  CHECK(slab.width == mm(2300));
  CHECK(slab.length == mm(2300));
  CHECK(slab.thickness == mm(150));
  CHECK(slab.mesh == "A193");
  // 1955 x 9.80665 / 2.3^2 = 3.624 kPa and 25 x 0.15 = 3.75 kPa, on 25 kPa of unknown ground.
  CHECK(slab.ground_pressure_kPa == Approx(3.624 + 3.75).margin(0.001));
  CHECK(slab.allowed_pressure_kPa <= 25.0);
  CHECK(slab.carries);
  const auto lines = costing::take_off(slab, demo_deck());
  // Dig 2.6 x 2.6 x (0.15 + 0.15 - 0.05); stone 2.6 x 2.6 x 0.15 at 2.1 t/m3; concrete 0.7935 m3,
  // 0.873 with waste: 1 m3 of ready-mix.
  CHECK(amount(lines, "excavation by hand") == Approx(1.69));
  CHECK(amount(lines, "spoil removed") == Approx(2.197));
  CHECK(amount(lines, "sub-base") == Approx(2.1294));
  CHECK(amount(lines, "concrete, ready-mix") == Approx(1.0));
  CHECK(amount(lines, "formwork board") == Approx(9.2));
  CHECK(amount(lines, "membrane") == Approx(5.29 * 1.15));
  CHECK(amount(lines, "mesh A193") == 1.0);
  CHECK(amount(lines, "mesh spacer") == 22.0);
  // Two people take 12 to 20 hours for 6 m2 (judgement of the table): here 5.3 m2.
  CHECK(amount(lines, "labour") > 10.0);
  CHECK(amount(lines, "labour") < 20.0);
}

TEST_CASE("a slab of 2.4 m by 2.4 m by 0.15 m is 0.86 m3, dug out 1.73 m3 with 0.15 m of stone",
          "[costing][published]") {
  // Trade page on slabs for tubs (read): 0.86 m3; dig 1.73 m3.
  costing::SlabDesign slab;
  slab.width = slab.length = mm(2400);
  slab.thickness = slab.sub_base = mm(150);
  slab.mesh = "A193";
  CHECK(in_litres(slab.width * slab.length * slab.thickness) / 1000.0 ==
        Approx(0.86).margin(0.005));
  CHECK(in_litres(slab.width * slab.length * (slab.thickness + slab.sub_base)) / 1000.0 ==
        Approx(1.73).margin(0.005));
  CHECK(amount(costing::take_off(slab, demo_deck()), "concrete, ready-mix") == Approx(1.0));
}

TEST_CASE("a slab on ground without a presumed pressure does not carry", "[costing][law]") {
  for (const record::Soil soil : {record::Soil::peat, record::Soil::made_ground}) {
    record::Survey s = demo_deck();
    s.site.soil = soil;
    CHECK_FALSE(costing::slab_for(s).carries);
  }
  record::Survey marked = demo_deck();
  marked.site.heel_marks = true;
  CHECK_FALSE(costing::slab_for(marked).carries);
  record::Survey filled = demo_deck();
  filled.site.fill = record::Fill::younger_than_ten_years;
  CHECK_FALSE(costing::slab_for(filled).carries);
  record::Survey heavy = demo_deck();
  heavy.loads[0].contents = litres(9000);
  CHECK_FALSE(costing::slab_for(heavy).carries);
  record::Survey none = demo_deck();
  none.loads.clear();
  CHECK_THROWS_AS(costing::slab_for(none), std::invalid_argument);
}

TEST_CASE("a turned load does not change its slab, feet press harder", "[costing][law]") {
  record::Survey s = demo_deck();
  s.loads[0].width = mm(1800);
  const auto straight = costing::slab_for(s);
  CHECK(straight.width == mm(2100));
  for (const double turn : {30.0, 45.0, 90.0}) {
    s.loads[0].rotation_deg = turn;
    CHECK(costing::slab_for(s).width == straight.width);
    CHECK(costing::slab_for(s).length == straight.length);
  }
  s.loads[0].rotation_deg = 0.0;
  s.loads[0].base = record::BaseKind::feet;
  s.loads[0].foot_size = mm(80);
  s.loads[0].feet = {
      {mm(-800), mm(-800)}, {mm(800), mm(-800)}, {mm(800), mm(800)}, {mm(-800), mm(800)}};
  CHECK(costing::slab_for(s).ground_pressure_kPa > straight.ground_pressure_kPa);
}

TEST_CASE("an American slab is told and taken off in feet and pounds", "[costing][closed-form]") {
  record::Survey s = american_deck();
  s.loads[0].width = s.loads[0].length = feet(7);
  const auto slab = costing::slab_for(s);
  CHECK(in_inches(slab.thickness) == Approx(6.0));
  CHECK(slab.allowed_pressure_kPa <= in_kilopascals(psf(500)) + 1e-9);
  const auto lines = costing::take_off(slab, s);
  for (const Item& line : lines) {
    INFO(line.item << ": " << line.note);
    CHECK(line.note.find(" mm") == std::string::npos);
    CHECK(line.note.find(" m3") == std::string::npos);
    CHECK(line.unit != "m");
    CHECK(line.unit != "m3");
  }
  // 7 ft and 300 mm, to the next 10 mm: 2440 mm. 2360 mm at 12 in: 9 lines each way, two to a bar.
  CHECK(amount(lines, "reinforcing bar #4") == 9.0);
  for (const std::string& note : slab.notes) CHECK(note.find(" mm") == std::string::npos);
}

TEST_CASE("every item that a take-off can make has a price in its own unit", "[costing][law]") {
  for (const auto standard : {StandardId::eurocode_uk, StandardId::north_america_us}) {
    const bool us = standard == StandardId::north_america_us;
    const PriceBook book = costing::price_book(standard);
    const record::Survey s = us ? american_deck() : demo_deck();
    const auto priced = [&](const std::vector<Item>& lines) {
      const auto bill = costing::price(lines, book);
      INFO((bill.missing_prices.empty() ? std::string() : bill.missing_prices.front()));
      CHECK(bill.missing_prices.empty());
      CHECK(bill.total.low <= bill.total.likely);
      CHECK(bill.total.likely <= bill.total.high);
      CHECK(bill.total.likely > 0.0);
    };
    priced(costing::take_off(us ? american(one_of_each()) : one_of_each(), s));
    // Every stocked section and class, and one that nobody stocks.
    std::vector<std::string> classes = works::stock(standard).classes;
    if (classes.empty()) classes = {"Hem-Fir No.2"};
    classes.push_back("D30");
    for (const std::string& name : classes) {
      for (const works::StockSection& section : works::stock(standard).sections) {
        Work w = added_joist(mm(1800));
        w.timber = name;
        w.breadth = section.breadth;
        w.depth = section.depth;
        priced(costing::take_off(std::vector<Work>{w}, s));
      }
    }
    // Every row of the slab table, in bags and ready-mixed.
    const auto& rows = catalog::table("building.json")
                           .at(us ? "north_america_us" : "eurocode_uk")
                           .at("slab")
                           .at("rows");
    for (const auto& row : rows) {
      for (const double side : {1000.0, 3000.0, 8000.0}) {
        costing::SlabDesign slab;
        slab.width = slab.length = mm(side);
        slab.thickness = mm(row.at("thickness_mm").get<double>());
        slab.sub_base = mm(150);
        slab.mesh = row.at("mesh").get<std::string>();
        priced(costing::take_off(slab, s));
      }
    }
    Work ready = new_bearer(mm(0), mm(4000), {mm(300), mm(2000), mm(3700)});
    ready.pad_width = ready.pad_length = mm(900);
    ready.pad_thickness = mm(400);
    priced(costing::take_off(us ? american({ready}) : std::vector<Work>{ready}, s));
  }
}

TEST_CASE("a bill adds its lines, its hours and its waiting time", "[costing][closed-form]") {
  const PriceBook book = costing::price_book(StandardId::eurocode_uk);
  const std::vector<Item> lines{{"labour", 3.0, "h", ""},
                                {"joist hanger", 2.0, "each", ""},
                                {"golden nail", 1.0, "each", ""},
                                {"labour", 1.0, "h", ""}};
  const auto bill = costing::price(lines, book);
  const auto& hour = book.prices.at("labour").per_unit;
  const auto& hanger = book.prices.at("joist hanger").per_unit;
  CHECK(bill.total.likely == Approx(4.0 * hour.likely + 2.0 * hanger.likely));
  CHECK(bill.total.low == Approx(4.0 * hour.low + 2.0 * hanger.low));
  CHECK(bill.hours == 4.0);
  CHECK(bill.days_until_filled == 1);
  CHECK(bill.currency == "GBP");
  CHECK(bill.missing_prices == std::vector<std::string>{"golden nail"});
  CHECK(bill.lines[2].missing);
  CHECK(bill.lines[2].cost.high == 0.0);
  // Concrete waits for 28 days.
  CHECK(costing::price(costing::take_off(std::vector<Work>{pad_under_bearer()}, demo_deck()), book)
            .days_until_filled == 28);
  CHECK(costing::price(costing::take_off(std::vector<Work>{pack({"P"})}, demo_deck()), book)
            .days_until_filled == 1);
  // A price for another unit is no price.
  CHECK(costing::price({{"labour", 1.0, "day", ""}}, book).missing_prices.size() == 1);
}

TEST_CASE("price books say what they are", "[costing][law]") {
  for (const auto standard : {StandardId::eurocode_uk, StandardId::north_america_us}) {
    const PriceBook book = costing::price_book(standard);
    CHECK(book.date == "2026-11");
    CHECK(book.note.find("invented") != std::string::npos);
    for (const auto& [item, price] : book.prices) {
      INFO(item);
      CHECK(price.invented);
      CHECK(price.source.key == "invented-prices");
      CHECK(price.per_unit.low <= price.per_unit.likely);
      CHECK(price.per_unit.likely <= price.per_unit.high);
      CHECK(price.per_unit.low >= 0.0);
      CHECK_FALSE(price.unit.empty());
    }
  }
}

TEST_CASE("the user's own prices override lines of the book", "[costing][law]") {
  const PriceBook book =
      costing::with_own_prices(costing::price_book(StandardId::eurocode_uk),
                               R"({"note": "mine", "prices": {"labour": {"likely": 0},
          "post shoe": {"low": 10, "likely": 11, "high": 12, "unit": "each"}}})",
                               "my.json");
  CHECK(book.prices.at("labour").per_unit.high == 0.0);
  CHECK_FALSE(book.prices.at("labour").invented);
  CHECK(book.prices.at("post shoe").per_unit.low == 10.0);
  CHECK(book.prices.at("joist hanger").invented);
}

TEST_CASE("faults in the user's prices are all told, with what was meant", "[costing][law]") {
  const std::string text = errors_of(
      R"({"prices": {"labuor": {"likely": 1}, "membrane": {"low": 3, "likely": 2, "high": 1},
          "post shoe": {"likely": -1}, "sub-base": {"likely": 1, "unit": "kg"}, "labour": {"likly": 5}},
          "price": 1})");
  INFO(text);
  CHECK(text.find("my.json: /prices/labuor") != std::string::npos);
  CHECK(text.find("did you mean \"labour\"?") != std::string::npos);
  CHECK(text.find("/prices/membrane") != std::string::npos);
  CHECK(text.find("low <= likely <= high") != std::string::npos);
  CHECK(text.find("/prices/post shoe/likely") != std::string::npos);
  CHECK(text.find("/prices/sub-base/unit") != std::string::npos);
  CHECK(text.find("/prices/labour/likly") != std::string::npos);
  CHECK(text.find("/price:") != std::string::npos);
  CHECK_FALSE(errors_of("{}").empty());
  CHECK_FALSE(errors_of("[]").empty());
  CHECK_FALSE(errors_of("{").empty());
  CHECK_FALSE(errors_of(R"({"prices": []})").empty());
  CHECK_FALSE(errors_of(R"({"prices": {"labour": 5}})").empty());
  CHECK_FALSE(errors_of(R"({"currency": "USD", "prices": {}})").empty());
}

}  // namespace bill_test_file
