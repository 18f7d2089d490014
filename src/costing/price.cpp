// Price books, the user's own prices, and the bill.
#include "base/edit_distance.hpp"
#include "base/json_reader.hpp"
#include "catalog/table.hpp"
#include "underprop/costing/costing.hpp"
#include "underprop/record/standard_facts.hpp"
#include "works/rules.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace underprop::costing {

using record::StandardId;

Amount& Amount::operator+=(const Amount& other) {
  low += other.low;
  likely += other.likely;
  high += other.high;
  return *this;
}

PriceBook price_book(StandardId standard) {
  const Json& json = catalog::table(record::facts_of(standard).prices);
  try {
    PriceBook book;
    book.region = json.at("region").get<std::string>();
    book.currency = json.at("currency").get<std::string>();
    book.date = json.at("date").get<std::string>();
    book.note = json.at("note").get<std::string>();
    const Citation source{json.at("source").at("key").get<std::string>(),
                          json.at("source").at("where").get<std::string>()};
    const bool invented = json.at("invented").get<bool>();
    for (const auto& [item, row] : json.at("prices").items()) {
      Price price;
      price.per_unit = {row.at("low").get<double>(), row.at("likely").get<double>(),
                        row.at("high").get<double>()};
      price.unit = row.at("unit").get<std::string>();
      price.source = source;
      price.invented = invented;
      book.prices.emplace(item, std::move(price));
    }
    return book;
  } catch (const Json::exception& error) {
    throw std::logic_error(std::string("data/prices: ") + error.what());
  }
}

PriceBook with_own_prices(PriceBook book, std::string_view text, const std::string& file) {
  constexpr double dearest = 1e6;  // of one unit: beyond it somebody slipped
  ErrorList errors(file);
  const Json json = read_json_text(text, file);
  ObjectReader top(json, "", errors);
  top.allow({"note"});
  if (const auto date = top.optional_string("date")) book.date = *date;
  if (const auto currency = top.optional_string("currency");
      currency && *currency != book.currency) {
    top.fail("currency", quote(*currency),
             "\"" + book.currency + "\", the currency of the price book",
             "give prices in " + book.currency);
  }
  top.required_object("prices", [&](ObjectReader& prices) {
    const Json& object = *json.find("prices");
    if (!object.is_object()) return;
    for (const auto& [item, row] : object.items()) {
      static_cast<void>(prices.find(item));
      const auto known = book.prices.find(item);
      if (known == book.prices.end()) {
        std::vector<std::string_view> names;
        for (const auto& [name, price] : book.prices) names.push_back(name);
        const std::string_view near = nearest_word(item, names);
        errors.add(prices.pointer_of(item), "no item is called " + quote(item),
                   "an item of the price book of " + book.region,
                   near.empty() ? "list the items with: underprop catalog"
                                : "did you mean " + quote(near) + "?");
        continue;
      }
      ObjectReader reader(row, prices.pointer_of(item), errors);
      reader.allow({"note"});
      const std::size_t before = errors.count();
      Amount amount;
      amount.likely = reader.number("likely", 0.0, dearest);
      amount.low = reader.number("low", 0.0, dearest, amount.likely);
      amount.high = reader.number("high", 0.0, dearest, amount.likely);
      if (const auto unit = reader.optional_string("unit"); unit && *unit != known->second.unit) {
        reader.fail("unit", quote(*unit), "\"" + known->second.unit + "\", the unit of this item",
                    "give the price for one " + known->second.unit);
      }
      reader.finish();
      if (errors.count() != before) continue;
      if (amount.low > amount.likely || amount.likely > amount.high) {
        errors.add(
            prices.pointer_of(item),
            fmt::format("low {}, likely {}, high {}", amount.low, amount.likely, amount.high),
            "low <= likely <= high", "put the three prices in order");
        continue;
      }
      known->second.per_unit = amount;
      known->second.invented = false;
      known->second.source = {};  // the user's own file
    }
  });
  top.finish();
  errors.throw_if_any();
  return book;
}

Bill price(const std::vector<Quantity>& quantities, const PriceBook& book) {
  StandardId standard = StandardId::eurocode_uk;
  for (const record::StandardFacts& facts : record::all_standards()) {
    if (facts.currency == book.currency) standard = facts.id;
  }
  Bill bill;
  bill.currency = book.currency;
  bool concrete = false;
  for (const Quantity& quantity : quantities) {
    Line line;
    line.quantity = quantity;
    const auto found = book.prices.find(quantity.item);
    // A price for another unit is no price for this.
    if (found == book.prices.end() || found->second.unit != quantity.unit) {
      line.missing = true;
      auto& missing = bill.missing_prices;
      if (std::find(missing.begin(), missing.end(), quantity.item) == missing.end()) {
        missing.push_back(quantity.item);
      }
    } else {
      const Amount& each = found->second.per_unit;
      line.cost = {quantity.amount * each.low, quantity.amount * each.likely,
                   quantity.amount * each.high};
      bill.total += line.cost;
    }
    if (quantity.item == "labour") bill.hours += quantity.amount;
    concrete = concrete || quantity.item.starts_with("concrete,");
    bill.lines.push_back(std::move(line));
  }
  bill.days_until_filled = static_cast<int>(works::building_value(
      standard, concrete ? "wait/before_full_days" : "wait/without_concrete_days"));
  return bill;
}

}  // namespace underprop::costing
