#include "underprop/comparison/comparison.hpp"

#include "low_deck.hpp"
#include "underprop/base/format.hpp"
#include "works/rules.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::comparison {

namespace {

std::string money(double amount, const std::string& currency) {
  return format_decimals(amount, 0) + " " + currency;
}

/// The new low deck priced as works: its bearers on pads, its joists as added ones.
std::vector<works::Work> as_works(const LowDeck& deck) {
  std::vector<works::Work> list;
  const record::DeckRecord& record = deck.survey.deck;
  for (std::size_t b = 0; b < record.bearers.size(); ++b) {
    const record::Bearer& bearer = record.bearers[b];
    works::Work work;
    work.id = "bearer-" + bearer.name;
    work.measure = works::Measure::bearer_on_pads;
    work.direction = bearer.direction;
    work.position = bearer.position;
    work.from = mm(0.0);
    work.to = deck.width;
    work.breadth = deck.joist_breadth;
    work.depth = deck.joist_depth;
    work.plies = bearer.plies;
    work.timber = bearer.timber.value();
    work.pad_width = work.pad_length = deck.pad;
    work.pad_thickness = deck.pad_thickness;
    work.pad_depth = deck.pad_depth;
    for (const Length at : record.supports[b].positions)
      work.places.push_back({at, bearer.position});
    list.push_back(std::move(work));
  }
  for (const Length at : record.joists.front().positions) {
    works::Work work;
    work.id = "joist-" + std::to_string(std::lround(at.value()));
    work.measure = works::Measure::added_joist;
    work.direction = Axis::y;
    work.position = at;
    work.from = mm(0.0);
    work.to = deck.length;
    work.breadth = deck.joist_breadth;
    work.depth = deck.joist_depth;
    work.timber = record.joists.front().timber.value();
    list.push_back(std::move(work));
  }
  return list;
}

}  // namespace

Comparison compare(const record::Survey& survey, const planner::Result& retrofit,
                   const standards::Standard& standard, const costing::PriceBook& book) {
  Comparison result;
  Option least;
  least.name = "least retrofit";
  least.bill.currency = book.currency;
  if (retrofit.plan) {
    least.bill = retrofit.plan->bill;
    least.bill.currency = book.currency;
    // Found is not enough: what must still be seen is not known to carry.
    least.carries = retrofit.plan->assessment.verdict == assessment::Verdict::carries;
    if (retrofit.none_needed) least.notes.push_back("nothing needs to be done");
    if (retrofit.plan->assessment.verdict == assessment::Verdict::cannot_tell) {
      least.notes.push_back(
          "holds for the cautious facts; what must be seen first is the first step of the plan");
    }
  } else {
    least.possible = false;
    least.notes = retrofit.refers ? retrofit.refer_reasons : retrofit.why_none;
  }
  result.options.push_back(std::move(least));
  for (const planner::Plan& plan : retrofit.alternatives) {
    Option option;
    option.name = plan.name;
    option.bill = plan.bill;
    option.carries = plan.assessment.verdict == assessment::Verdict::carries;
    result.options.push_back(std::move(option));
  }

  Option pad;
  pad.name = "concrete pad on the ground";
  const costing::SlabDesign slab = costing::slab_for(survey);
  pad.bill = costing::price(costing::take_off(slab, survey), book);
  pad.carries = slab.carries && !retrofit.refers;
  pad.notes = slab.notes;
  if (retrofit.refers) {
    pad.notes.push_back(
        "what makes the deck refer may hold for a pad on the same ground too: ask the same "
        "engineer");
  }
  result.options.push_back(std::move(pad));

  Option low;
  low.name = "new low deck";
  low.bill.currency = book.currency;
  WhyNoLowDeck why_none;
  if (const auto deck = low_deck_for(survey, standard, &why_none)) {
    std::vector<costing::Quantity> quantities = costing::take_off(as_works(*deck), deck->survey);
    // Boards, which the works of an old deck do not take off.
    const UnitSystem u = standard.us_customary() ? UnitSystem::us_customary : UnitSystem::metric;
    const double board_m2 = in_metres(deck->width) * in_metres(deck->length);
    const double waste = 1.0 + works::building_value(survey.standard, "concrete/waste");
    quantities.push_back({"decking boards", board_m2 * waste, "m2",
                          "boards " + format_length(deck->survey.deck.boards.thickness.value(), u) +
                              " thick, with waste"});
    low.bill = costing::price(quantities, book);
    low.carries = true;
    low.notes.push_back(
        std::to_string(deck->joists) + " joists " +
        works::section_name(survey.standard, deck->joist_breadth, deck->joist_depth) + " over " +
        std::to_string(deck->bearers) + " bearers on " + std::to_string(deck->pads) + " pads " +
        format_length(deck->pad, u) + " square; judged by the same checks");
    low.notes.push_back("the old deck is left as it is, or cut away at your own cost");
  } else {
    low.possible = false;
    low.notes.push_back(
        "no section of the catalogue on close pads passes every check on this ground");
    low.notes.insert(low.notes.end(), why_none.refer_reasons.begin(), why_none.refer_reasons.end());
    low.judged = std::move(why_none.judged);
  }
  result.options.push_back(std::move(low));

  std::vector<const Option*> ranked;
  for (const Option& option : result.options) {
    if (option.possible && option.carries) ranked.push_back(&option);
  }
  std::stable_sort(ranked.begin(), ranked.end(), [](const Option* a, const Option* b) {
    return a->bill.total.likely < b->bill.total.likely;
  });
  if (ranked.empty()) {
    result.tips_the_balance.push_back(
        "none of the options is known to carry: ask a structural engineer");
    return result;
  }
  result.cheapest = ranked.front()->name;
  if (ranked.size() > 1) {
    const double difference = ranked[1]->bill.total.likely - ranked[0]->bill.total.likely;
    result.tips_the_balance.push_back(
        "the next in price is " + ranked[1]->name + ", " + money(difference, book.currency) +
        " dearer: if " + ranked[0]->name +
        " turns out dearer by more than that, it is no longer the cheapest");
    if (ranked[0]->bill.total.high > ranked[1]->bill.total.low) {
      result.tips_the_balance.push_back(
          "their price ranges overlap: get quotations for both before deciding");
    }
  }
  for (const Option* option : ranked) {
    result.tips_the_balance.push_back(option->name + ": " +
                                      std::to_string(option->bill.days_until_filled) +
                                      " days until it may be filled, " +
                                      format_decimals(option->bill.hours, 0) + " hours of work");
  }
  result.tips_the_balance.push_back(
      "a pad on the ground does not rot and rests on nothing old; a retrofit keeps the old timber, "
      "its age and what "
      "nobody has seen");
  result.tips_the_balance.push_back(
      "an old deck in the way of the pad must be cut and its cut edge held up again: not in these "
      "prices");
  return result;
}

}  // namespace underprop::comparison
