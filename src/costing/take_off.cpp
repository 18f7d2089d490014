// Quantities of the works.
#include "needs.hpp"

#include "works/rules.hpp"
#include "works/touched.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace underprop::costing {
namespace {

using works::Measure;
using works::Touched;
using works::Work;

class TakeOff {
public:
  explicit TakeOff(const record::Survey& survey) : survey_(survey) {
    needs_.standard = survey.standard;
    const Length clear = works::clear_height(survey);
    boards_up_ = clear < mm(rule("headroom/lift_boards_below_mm"));
    if (clear < mm(rule("headroom/stand_up_from_mm"))) {
      needs_.dig_factor = works::hours_for("dig under a deck, factor");
    }
  }

  void add(const Work& work, const Touched& touched) {
    const auto joists = static_cast<int>(touched.joists.size());
    const auto supports = static_cast<int>(touched.supports.size());
    switch (work.measure) {
      case Measure::pack:
        pack(supports);
        lift_boards_at(supports, Length(), Length());
        break;
      case Measure::move_load:
        needs_.task("move the load", 1);
        break;
      case Measure::pad:
        pads(work, touched.pads);
        pack(touched.pads);
        lift_boards_at(touched.pads, work.pad_width, work.pad_length);
        break;
      case Measure::sleeper:
      case Measure::bearer_on_pads:
        pads(work, touched.pads);
        pack(touched.pads);
        needs_.task("make and lift one bearer", 1);
        needs_.task("pack one joist on a bearer", joists);
        needs_.packers += joists;
        needs_.screws += joists * whole("screw/per_crossing");
        needs_.screws += (work.plies - 1) * screws_along(touched.bearer_length);
        lift_boards_at(1, touched.bearer_length, work.plies * work.breadth);
        break;
      case Measure::sister:
        needs_.task("fix one sister", joists);
        lift_boards_at(joists, touched.longest_joist, Length());
        break;
      case Measure::added_joist:
        needs_.task("fit one added joist", 1);
        needs_.screws += (2 - touched.hangers) * whole("screw/per_crossing");
        always_lift(1, work.to - work.from, Length());
        break;
      case Measure::blocking:
        break;  // by the cutting list
      case Measure::hangers:
        lift_boards_at(touched.hangers, Length(), Length());
        break;
      case Measure::bigger_pad:
        pads(work, touched.pads);
        pack(touched.pads);
        needs_.task("replace one pad", touched.pads);
        lift_boards_at(touched.pads, work.pad_width, work.pad_length);
        break;
      case Measure::brace: {
        const int braces = std::max(1, static_cast<int>(work.places.size()));
        needs_.bolts += braces * 2 * std::max(1, work.fasteners);
        break;
      }
      case Measure::ledger_bolts:
        needs_.bolts += static_cast<int>(work.places.size());
        needs_.task("fit one ledger bolt", static_cast<double>(work.places.size()));
        break;
    }
    needs_.hangers += touched.hangers;
    needs_.nails += touched.nails;
    needs_.task("fit one hanger", touched.hangers);
  }

  void add(const works::Cut& cut) {
    needs_.add_timber(cut.timber, cut.breadth, cut.depth, cut.length, cut.count);
    if (cut.use == "sister") needs_.screws += cut.count * screws_along(cut.length);
    if (cut.use == "block") {
      needs_.screws += cut.count * whole("screw/per_block");
      needs_.task("fit one block", cut.count);
      lift_boards_at(cut.count, cut.length, Length());
    }
    if (cut.use == "brace") needs_.task("fit one brace", cut.count);
    if (cut.use == "post") needs_.task("set one post", cut.count);
  }

  [[nodiscard]] std::vector<Quantity> lines() {
    needs_.pits = describe_pits();
    needs_.pours = pads_ == 0 ? 0 : pads_ == 1 ? 1 : 2;
    needs_.jack_days = jacked_ ? 1 : 0;
    return quantities(needs_);
  }

private:
  [[nodiscard]] double rule(std::string_view name) const {
    return works::building_value(survey_.standard, name);
  }
  [[nodiscard]] int whole(std::string_view name) const { return static_cast<int>(rule(name)); }

  // Two rows along a joined piece, and its ends.
  [[nodiscard]] int screws_along(Length length) const {
    return 2 * static_cast<int>(std::ceil(length / mm(rule("screw/spacing_mm")))) +
           whole("screw/ends");
  }

  void pads(const Work& work, int count) {
    const Length margin = 2.0 * mm(rule("dig/margin_mm"));
    const Length depth = max(work.pad_depth, Length());
    const Length above = max(work.pad_thickness - depth, Length());
    const Length below = work.pad_thickness - above;
    const double n = count;
    needs_.dug_m3 += n * cubic_metres(work.pad_width + margin, work.pad_length + margin, depth);
    needs_.spoil_m3 += n * cubic_metres(work.pad_width, work.pad_length, below);
    needs_.concrete_m3 += n * cubic_metres(work.pad_width, work.pad_length, work.pad_thickness);
    if (above > Length()) {
      needs_.formwork_m += n * 2.0 * in_metres(work.pad_width + work.pad_length);
      needs_.task("set formwork, per m", n * 2.0 * in_metres(work.pad_width + work.pad_length));
    }
    needs_.task("set out and level one pad", n);
    needs_.damp_proof_pads += count;
    if (work.post_height > Length()) {
      needs_.shoes += count;
      needs_.bolts += 2 * count;
    }
    pads_ += count;
    const UnitSystem units = units_of(survey_.standard);
    sizes_[fmt::format("{} x {} x {}", format_length(work.pad_width, units),
                       format_length(work.pad_length, units),
                       format_length(work.pad_thickness, units))] += count;
  }

  [[nodiscard]] std::string describe_pits() const {
    std::string text;
    for (const auto& [size, count] : sizes_) {
      text += fmt::format("{}{} pad{} {}", text.empty() ? "" : ", ", count, count == 1 ? "" : "s",
                          size);
    }
    return text;
  }

  void pack(int supports) {
    needs_.packers += supports;
    needs_.task("pack one support", supports);
    jacked_ = jacked_ || supports > 0;
  }

  void lift_boards_at(int places, Length a, Length b) {
    if (boards_up_) always_lift(places, a, b);
  }
  void always_lift(int places, Length a, Length b) {
    const Length margin = 2.0 * mm(rule("board/lift_margin_mm"));
    needs_.task("lift and relay boards, per m2",
                places * in_metres(a + margin) * in_metres(b + margin));
  }

  const record::Survey& survey_;
  Needs needs_;
  bool boards_up_ = false, jacked_ = false;
  int pads_ = 0;
  std::map<std::string, int> sizes_;
};

}  // namespace

std::vector<Quantity> take_off(const std::vector<Work>& works, const record::Survey& survey) {
  if (works.empty()) return {};
  TakeOff take_off(survey);
  const std::vector<Touched> touched = works::touched(works, survey);
  for (std::size_t i = 0; i < works.size(); ++i) take_off.add(works[i], touched[i]);
  for (const works::Cut& cut : works::cutting_list(works, survey)) take_off.add(cut);
  return take_off.lines();
}

}  // namespace underprop::costing
