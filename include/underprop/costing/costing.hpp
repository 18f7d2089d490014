// Take-off and price: quantities x price book -> low / likely / high.
#pragma once

#include "underprop/base/citation.hpp"
#include "underprop/record/survey.hpp"
#include "underprop/works/work.hpp"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace underprop::costing {

struct Amount {
  double low = 0.0, likely = 0.0, high = 0.0;
  Amount& operator+=(const Amount& other);
};

/// How much of one thing is needed, before prices. `item` is a key of the price book.
struct Quantity {
  std::string item;  ///< "concrete, bagged", "excavation by hand", "timber 47 x 195 C24", "labour"
  double amount = 0.0;
  std::string unit;  ///< "m3", "bag", "m", "each", "h"
  std::string note;  ///< how it was got: "6 pads 0.45 x 0.45 x 0.15 m, 10 % waste"
};

struct Price {
  Amount per_unit;
  std::string unit;
  Citation source;
  bool invented = true;  ///< a demonstration figure, not a quotation
};

struct PriceBook {
  std::string region, currency, date, note;
  std::map<std::string, Price> prices;
};
/// The book of a region from data/prices/, by standard.
PriceBook price_book(record::StandardId standard);
/// Lines of the user's JSON text override the book's; throws InputErrors.
PriceBook with_own_prices(PriceBook book, std::string_view json, const std::string& file);

struct Line {
  Quantity quantity;
  Amount cost;
  bool missing = false;  ///< the book has no price for it: named, not counted
};
struct Bill {
  std::string currency;
  std::vector<Line> lines;
  Amount total;
  std::vector<std::string> missing_prices;
  double hours = 0.0;  ///< likely labour
  int days_until_filled = 0;
};

/// Quantities of the works: concrete as bags or ready-mix, excavation, bulked spoil, sub-base,
/// timber by stock length with a cutting plan, fixings in packs, hangers, packers, hire, hours.
std::vector<Quantity> take_off(const std::vector<works::Work>& works, const record::Survey& survey);

/// A reinforced concrete pad on the ground under the load.
struct SlabDesign {
  Length width, length, thickness, sub_base, oversize;
  std::string mesh;
  double ground_pressure_kPa = 0.0;   ///< under the full load and the slab
  double allowed_pressure_kPa = 0.0;  ///< cautious presumed value
  bool carries = false;
  std::vector<std::string> notes;
};
SlabDesign slab_for(const record::Survey& survey);
std::vector<Quantity> take_off(const SlabDesign& slab, const record::Survey& survey);

/// Priced; labour at the book's rate. `days` is what the bill needs before the tub may be filled.
Bill price(const std::vector<Quantity>& quantities, const PriceBook& book);

}  // namespace underprop::costing
