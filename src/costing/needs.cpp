#include "needs.hpp"
#include "underprop/record/standard_facts.hpp"

#include "costing/quantities.hpp"
#include "works/rules.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

namespace underprop::costing {
namespace {

using works::building_value;

// Exact: 1 yd = 0.9144 m, 1 ft = 0.3048 m.
constexpr double m3_per_yd3 = 0.9144 * 0.9144 * 0.9144;
constexpr double m2_per_ft2 = 0.3048 * 0.3048;
constexpr double m_per_ft = 0.3048;
constexpr double m3_per_ft3 = 0.3048 * 0.3048 * 0.3048;

class Lines {
public:
  explicit Lines(const Needs& needs)
      : n_(needs), us_(units_of(needs.standard) == UnitSystem::us_customary) {}

  [[nodiscard]] std::vector<Quantity> all() {
    ground();
    concrete();
    reinforcement();
    timber();
    fixings();
    hire();
    labour();
    return std::move(lines_);
  }

private:
  [[nodiscard]] double rule(std::string_view name) const {
    return building_value(n_.standard, name);
  }
  [[nodiscard]] std::string percent(std::string_view name) const {
    return format_decimals(100.0 * rule(name), 0) + " %";
  }
  void add(std::string item, double amount, std::string unit, std::string note) {
    if (amount > 0.0) lines_.push_back({std::move(item), amount, std::move(unit), std::move(note)});
  }
  void volume(std::string item, double m3, std::string note) {
    add(std::move(item), us_ ? m3 / m3_per_yd3 : m3, us_ ? "yd3" : "m3", std::move(note));
  }
  void packs(const std::string& item, int count, std::string_view per_pack, const char* what) {
    const int size = static_cast<int>(rule(per_pack));
    add(item, packs_for(count, size), "pack",
        fmt::format("{} {}, {} to a pack", count, what, size));
  }

  void ground() {
    volume("excavation by hand", n_.dug_m3,
           "in the ground, working margin included; its hours stand under labour");
    volume("spoil removed", n_.spoil_m3 * rule("spoil/bulking"),
           fmt::format("what does not go back, loosened by a factor of {}",
                       format_decimals(rule("spoil/bulking"), 2)));
    if (n_.sub_base_m3 > 0.0) {
      if (us_) {
        volume("sub-base", n_.sub_base_m3 * rule("sub_base/loose"),
               fmt::format("loose, {} to 1 compacted", format_decimals(rule("sub_base/loose"), 2)));
      } else {
        add("sub-base", n_.sub_base_m3 * rule("sub_base/density_t_per_m3"), "t",
            fmt::format("{} m3 compacted at {} t/m3", format_decimals(n_.sub_base_m3, 2),
                        format_decimals(rule("sub_base/density_t_per_m3"), 2)));
      }
    }
    const double membrane = n_.membrane_m2 * (1.0 + rule("membrane/laps"));
    add("membrane", us_ ? membrane / m2_per_ft2 : membrane, us_ ? "ft2" : "m2",
        percent("membrane/laps") + " for laps and edges");
    add("formwork board", us_ ? n_.formwork_m / m_per_ft : n_.formwork_m, us_ ? "ft" : "m",
        "round what stands above the ground");
  }

  [[nodiscard]] bool bagged() const { return n_.concrete_m3 <= rule("bag/up_to_m3"); }

  void concrete() {
    if (!(n_.concrete_m3 > 0.0)) return;
    const Volume net = litres(1000.0 * n_.concrete_m3);
    const double waste = rule("concrete/waste");
    const std::string how =
        fmt::format("{}{} in place, {} waste", n_.pits.empty() ? "" : n_.pits + ": ",
                    us_ ? format_decimals(n_.concrete_m3 / m3_per_ft3, 2) + " ft3"
                        : format_decimals(n_.concrete_m3, 3) + " m3",
                    percent("concrete/waste"));
    if (bagged()) {
      const Volume bag = litres(rule("bag/volume_l"));
      add("concrete, bagged", bags_for(net, bag, waste), "bag",
          fmt::format("{}; bags of {} that give {}", how,
                      format_mass(kilograms(rule("bag/mass_kg")), units_of(n_.standard)),
                      us_ ? format_decimals(in_litres(bag) / 1000.0 / m3_per_ft3, 2) + " ft3"
                          : format_decimals(in_litres(bag), 1) + " l"));
      return;
    }
    const Volume order = ready_mix_for(net, waste, litres(1000.0 * rule("ready_mix/step_m3")),
                                       litres(1000.0 * rule("ready_mix/least_m3")));
    volume("concrete, ready-mix", in_litres(order) / 1000.0, how);
    add("ready-mix delivery", std::max(n_.pours, 1), "each",
        n_.pours > 1 ? "pits 1, 3, 5 and then 2, 4, 6: two deliveries" : "one delivery");
  }

  void reinforcement() {
    for (const auto& [name, sheets] : n_.mesh_sheets) {
      add("mesh " + name, sheets, "sheet", "laps included");
    }
    if (!n_.bars.empty()) {
      const CuttingPlan plan = cutting_plan(n_.bars, {inches(240.0)}, Length());
      add("reinforcing bar #4", static_cast<double>(plan.bars.size()), "bar",
          fmt::format("bars of 20 ft, {} % cut off", format_decimals(100.0 * plan.waste(), 0)));
    }
    add("mesh spacer", n_.spacers, "each", "four to each square metre, to hold the steel up");
  }

  void timber() {
    for (const auto& [name, timber] : n_.timber) {
      const CuttingPlan plan =
          cutting_plan(timber.pieces, works::stock(n_.standard).lengths, mm(rule("saw/kerf_mm")));
      std::map<double, int> lengths;
      bool special = false;
      for (const StockBar& bar : plan.bars) {
        ++lengths[bar.stock.value()];
        special = special || bar.special;
      }
      std::string list;
      for (const auto& [length, count] : lengths) {
        list += fmt::format("{}{} of {}", list.empty() ? "" : ", ", count,
                            format_length(mm(length), units_of(n_.standard)));
      }
      std::string note = fmt::format("{}: {}; {} % cut off", timber.note, list,
                                     format_decimals(100.0 * plan.waste(), 0));
      if (special) note += "; longer than usual stock, to order";
      const double metres = in_metres(plan.bought);
      if (timber.item == "timber by volume") {
        const double m3 = metres * timber.area_m2;
        add(timber.item, us_ ? m3 / m3_per_ft3 : m3, us_ ? "ft3" : "m3", note);
      } else {
        add(timber.item, us_ ? metres / m_per_ft : metres, us_ ? "ft" : "m", note);
      }
    }
  }

  void fixings() {
    packs("packers, treated", n_.packers, "packer/pack", "packers");
    packs("damp-proof pads", n_.damp_proof_pads, "damp_proof_pad/pack", "pads");
    packs("structural screws", n_.screws, "screw/pack", "screws");
    add("joist hanger", n_.hangers, "each", "of the joist's size, galvanised");
    packs("hanger nails", n_.nails, "nail/pack", "nails");
    add("bolt with washers", n_.bolts, "each", "galvanised or stainless");
    add("post shoe", n_.shoes, "each", "holds the post's end clear of the pad");
    add("preservative for cut ends",
        packs_for(n_.cut_ends, static_cast<int>(rule("preservative/ends_per_tin"))), "tin",
        fmt::format("{} cut ends", n_.cut_ends));
  }

  void hire() {
    if (n_.concrete_m3 >= rule("mixer/from_m3") && bagged()) {
      const double days = std::max({1.0, std::ceil(n_.concrete_m3 / rule("mixer/m3_per_day")),
                                    static_cast<double>(n_.pours)});
      add("mixer hire", days, "day",
          n_.pours > 1 ? "pits 1, 3, 5 and then 2, 4, 6: two pours" : "one pour");
    }
    add("plate compactor hire", n_.compactor_days, "day", "sub-base in layers");
    add("jack hire", n_.jack_days, "day", "jack, plates and cribbing for packing");
  }

  void labour() {
    const auto work = [&](std::string task, double amount, double hours_each) {
      if (us_) {
        for (const auto& [metric, customary, size] :
             {std::tuple{", per m3", ", per yd3", m3_per_yd3},
              {", per m2", ", per ft2", m2_per_ft2},
              {", per m", ", per ft", m_per_ft}}) {
          if (!task.ends_with(metric)) continue;
          task.replace(task.rfind(metric), std::string::npos, customary);
          amount /= size;
          hours_each *= size;
          break;
        }
      }
      add("labour", amount * hours_each, "h",
          fmt::format("{}: {} at {} h", task, format_decimals(amount, 2),
                      format_significant(hours_each, 3)));
    };
    const double dig = works::hours_for("dig by hand, open ground, per m3");
    work("dig by hand, per m3", n_.dug_m3, dig * n_.dig_factor);
    const double loose = n_.spoil_m3 * rule("spoil/bulking");
    work("barrow spoil away, per m3", loose, works::hours_for("barrow spoil away, per m3"));
    const char* place =
        bagged() ? "mix and place bagged concrete, per m3" : "place ready-mixed concrete, per m3";
    work(place, n_.concrete_m3, works::hours_for(place));
    for (const auto& [task, amount] : n_.tasks) work(task, amount, works::hours_for(task));
  }

  const Needs& n_;
  bool us_;
  std::vector<Quantity> lines_;
};

}  // namespace

void Needs::add_timber(const std::string& timber_name, Length breadth, Length depth, Length length,
                       int count) {
  if (count <= 0) return;
  const works::StockSection* section = works::stock_section(standard, breadth, depth);
  const std::vector<std::string>& classes = works::stock(standard).classes;
  const bool priced_by_class = !classes.empty();
  const bool class_stocked =
      !priced_by_class || std::find(classes.begin(), classes.end(), timber_name) != classes.end();
  const std::string name = works::section_name(standard, breadth, depth);
  Timber& entry = timber[name + " " + timber_name];
  if (section != nullptr && class_stocked) {
    entry.item = "timber " + section->name + (priced_by_class ? " " + timber_name : "");
  } else {
    entry.item = "timber by volume";
  }
  entry.note = name + " " + timber_name + ", treated";
  entry.area_m2 = in_metres(breadth) * in_metres(depth);
  entry.pieces.insert(entry.pieces.end(), static_cast<std::size_t>(count), length);
  cut_ends += 2 * count;
}

std::vector<Quantity> quantities(const Needs& needs) { return Lines(needs).all(); }

}  // namespace underprop::costing
