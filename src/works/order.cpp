// Steps in building order, with the cautions that belong to each.
#include "parts.hpp"

#include "catalog/table.hpp"
#include "works/rules.hpp"
#include "works/touched.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>

namespace underprop::works {
namespace {

class Order {
public:
  Order(const std::vector<Work>& works, const record::Survey& survey)
      : works_(works),
        survey_(survey),
        units_(units_of(survey)),
        deck_(deck::resolve(survey, record::Reading::likely).deck) {}

  [[nodiscard]] std::vector<BuildStep> steps() {
    if (works_.empty()) return {};
    const bool digs = pits() > 0;
    if (works_.size() == 1 && has(Measure::move_load)) {
      empty_the_load();
      describe_all({Measure::move_load});
      fill(false);
      return std::move(steps_);
    }
    empty_the_load();
    describe_all({Measure::move_load});
    if (digs) find_services();
    lift_boards();
    if (digs) dig_and_cast();
    timber();
    if (digs || has(Measure::pack)) pack(digs);
    braces();
    check_and_close();
    fill(digs);
    return std::move(steps_);
  }

private:
  [[nodiscard]] double rule(std::string_view name) const {
    return building_value(survey_.standard, name);
  }
  [[nodiscard]] std::string length(std::string_view name) const {
    return format_length(mm(rule(name)), units_);
  }
  [[nodiscard]] int whole(std::string_view name) const { return static_cast<int>(rule(name)); }
  [[nodiscard]] Length tallest_post() const {
    Length tallest;
    for (const Work& work : works_) tallest = max(tallest, work.post_height);
    return tallest;
  }
  [[nodiscard]] std::string number(std::string_view name) const {
    return format_decimals(rule(name), 1);
  }
  [[nodiscard]] bool has(Measure measure) const {
    return std::any_of(works_.begin(), works_.end(),
                       [&](const Work& w) { return w.measure == measure; });
  }
  [[nodiscard]] bool has_any(std::initializer_list<Measure> measures) const {
    return std::any_of(measures.begin(), measures.end(), [&](Measure m) { return has(m); });
  }

  static bool digs(const Work& work) {
    return work.measure == Measure::pad || work.measure == Measure::sleeper ||
           work.measure == Measure::bearer_on_pads || work.measure == Measure::bigger_pad;
  }
  [[nodiscard]] std::size_t pits() const {
    std::size_t count = 0;
    for (const Work& work : works_) {
      if (digs(work)) count += std::max(work.places.size(), std::size_t{1});
    }
    return count;
  }

  void add(std::string text, std::vector<std::string> cautions = {}) {
    steps_.push_back({std::move(text), std::move(cautions)});
  }
  void describe_all(std::initializer_list<Measure> measures,
                    const std::vector<std::string>& cautions = {}) {
    for (const Measure measure : measures) {
      for (const Work& work : works_) {
        if (work.measure == measure)
          add(describe(work, survey_) + (measure == Measure::sister ? fixing_ : ""), cautions);
      }
    }
  }

  void empty_the_load() {
    add("Drain or empty what stands on the deck and keep people off it until the last step.",
        {"Nobody goes below a deck that is loaded or jacked up.",
         "Switch off and lock off the power to a tub before it is drained or moved."});
  }

  void find_services() {
    add("Find cables, pipes and drains where pits will be dug: ask for the plans of the services, "
        "look "
        "for covers and meters, and use a detector.",
        {"Private cables and pipes stand on nobody's plan: dig the first spade's depth by hand and "
         "with care."});
  }

  void lift_boards() {
    const bool below = pits() > 0 || has_any({Measure::pack, Measure::sister, Measure::blocking,
                                              Measure::hangers});
    const bool low = clear_height(survey_) < mm(rule("headroom/lift_boards_below_mm"));
    if (!has(Measure::added_joist) && !(below && low)) return;
    add("Lift the boards over the places of work; number them.",
        {fmt::format("With less than {} clear below the joists work is done from above.",
                     length("headroom/lift_boards_below_mm"))});
  }

  void dig_and_cast() {
    const bool sand_or_wet = !deck_.site.soil || deck_.site.water_in_hole ||
                             *deck_.site.soil == record::Soil::loose_sand ||
                             *deck_.site.soil == record::Soil::medium_sand ||
                             *deck_.site.soil == record::Soil::dense_sand ||
                             *deck_.site.soil == record::Soil::gravel;
    std::vector<std::string> cautions{
        fmt::format(
            "The bottom of a pit stays above a line falling at {} degrees from the near bottom "
            "edge of an old pad or wall ({} degrees in sand or wet ground{}).",
            number("pit/slope_from_old_footing_deg"), number("pit/slope_in_sand_or_wet_deg"),
            sand_or_wet ? ", which counts here" : ""),
        fmt::format("No pit within {} pad width of a pad that carries load: prop that one first.",
                    number("pit/clear_of_loaded_pad_widths")),
        fmt::format("Within {} of a house wall a pit goes no deeper than the wall's footing.",
                    length("pit/clear_of_house_wall_mm")),
        "Dig through the topsoil to firm ground. Stop and ask an engineer where the ground is "
        "filled, "
        "black, soft under a heel, or where water stands in the pit.",
        fmt::format(
            "Each pad is at least {0} by {0} and {1} thick, and as thick as it stands out beyond "
            "what stands on it.",
            length("pad/least_width_mm"), length("pad/least_thickness_mm"))};
    const std::string frost = deck_.site.frost_depth > Length()
                                  ? "Pads reach below the frost depth of " +
                                        format_length(deck_.site.frost_depth, units_) +
                                        " where the deck is also held by the house."
                                  : std::string();
    if (!frost.empty()) cautions.push_back(frost);

    if (has(Measure::bigger_pad)) {
      add("Prop and crib what stands on each footing that will be replaced, one at a time.",
          {"Jacks lift, cribs and posts carry: nobody works below a jack alone."});
    }
    const bool many = pits() > 1;
    describe_all({Measure::bigger_pad, Measure::pad, Measure::sleeper, Measure::bearer_on_pads});
    add(many ? "Number the pits along each line. Dig pits 1, 3, 5 and so on, and cast their pads."
             : "Dig the pit and cast the pad.",
        cautions);
    if (many) {
      add("When those pads have set hard, dig pits 2, 4, 6 and so on, and cast their pads.",
          {"Two neighbouring pits are never open at the same time."});
    }
    add(fmt::format("Keep the concrete damp and free of load for {} days.",
                    number("wait/before_packing_days")),
        {"Wet concrete burns skin and eyes: gloves, boots, goggles."});
  }

  /// Beside a joist of which a stretch is gone.
  void cut_back() {
    std::string decayed;
    for (const Work& work : works_) {
      if (work.measure != Measure::sister) continue;
      for (const deck::Joist& joist : deck_.joists) {
        if (std::find(work.pieces.begin(), work.pieces.end(), joist.id) == work.pieces.end() ||
            std::none_of(joist.absent.begin(), joist.absent.end(), [](const auto& part) {
              return part.why.find("decay") != std::string::npos;
            }))
          continue;
        decayed += (decayed.empty() ? "" : ", ") + joist.id;
      }
    }
    if (decayed.empty()) return;
    add(fmt::format(
            "Prop {0} and the boards on both sides of the decayed wood, on firm ground and "
            "spreader "
            "boards. Then cut the decayed wood of {0} back to where it is dry and hard, take it "
            "away, and mend what keeps it wet. The props stay until the new joist is fixed.",
            decayed),
        {"Decay runs on inside: probe again from every cut face, and on the pieces that touch it.",
         "What holds the new joist goes into sound wood only."});
  }

  void timber() {
    const bool cuts = has_any({Measure::sleeper, Measure::bearer_on_pads, Measure::sister,
                               Measure::added_joist, Measure::blocking, Measure::brace}) ||
                      std::any_of(works_.begin(), works_.end(),
                                  [](const Work& w) { return w.post_height > Length(); });
    if (cuts) {
      add("Cut the timber by the cutting list, bearers with their crown up.",
          {"Treat every cut end and hole with preservative before it is fixed.",
           "Fixings for treated timber outdoors are stainless or hot-dip galvanised; metals are "
           "not "
           "mixed."});
    }
    const bool posts = std::any_of(works_.begin(), works_.end(),
                                   [](const Work& w) { return w.post_height > Length(); });
    if (posts || has_any({Measure::sleeper, Measure::bearer_on_pads})) {
      std::string text;
      std::vector<std::string> cautions;
      if (posts) {
        text =
            "Stand every post in a shoe that is fixed to its pad, plumb, and bolt what it carries "
            "to "
            "its top, so that neither can slide off or lift.";
        const double low = catalog::number(catalog::table("scope.json"), "low_support_mm");
        if (tallest_post() > mm(low)) {
          cautions.push_back(fmt::format(
              "Brace posts taller than {} in both directions before anything stands on them.",
              format_length(mm(low), units_)));
        }
      }
      if (has_any({Measure::sleeper, Measure::bearer_on_pads})) {
        text +=
            std::string(text.empty() ? "" : " ") +
            fmt::format(
                "Lay sleepers on their pads with a damp-proof pad between; screw the plies of a "
                "bearer together in two rows {} apart, and every joist to what it crosses with "
                "{} screws.",
                length("screw/spacing_mm"), whole("screw/per_crossing"));
      }
      add(text, cautions);
    }
    cut_back();
    if (has(Measure::sister)) {
      fixing_ = fmt::format(
          " Screw it to the old joist in two rows, {} from the upper and the lower edge, {} apart "
          "in "
          "each row and staggered, {} more at each end, every screw at least {} into the old "
          "joist.",
          length("screw/edge_mm"), length("screw/spacing_mm"), whole("screw/ends") / 2,
          length("screw/into_mm"));
    }
    describe_all(
        {Measure::sister},
        {"Take the sag out with props first; a sister that does not reach its supports at both "
         "ends is false comfort."});
    describe_all({Measure::added_joist});
    describe_all({Measure::hangers}, {"Only on sound wood, with the listed nails in every hole."});
    describe_all({Measure::blocking});
    describe_all(
        {Measure::ledger_bolts},
        {"Only where the back of that wood can be reached for washers and nuts: see that first. "
         "Where it cannot, this plan does not hold; ask what an anchor of that depth is stated "
         "for.",
         "Look for cables, pipes and insulation behind every hole before drilling.",
         fmt::format("New holes, at least {} from old fixings and from the ledger's ends; the old "
                     "fixings stay. Seal every hole against water.",
                     length("ledger_bolt/clear_mm"))});
  }

  void pack(bool concrete) {
    if (has(Measure::pack)) describe_all({Measure::pack});
    std::vector<std::string> cautions{
        "Before jacking the deck is drained and empty, and nobody is below it.",
        "One support at a time, the load taken by a crib beside the jack.",
        fmt::format("Never lift a support more than {} above the line of its neighbours.",
                    length("jack/above_neighbours_mm"))};
    if (concrete) {
      cautions.push_back(fmt::format("Not before the concrete is {} days old.",
                                     number("wait/before_packing_days")));
    }
    add(fmt::format(
            "Pack every joist and bearer snug and at most {} more, each with its own full-width "
            "packer, fixed so that it cannot work loose.",
            length("pack/extra_tight_mm")),
        cautions);
  }

  void braces() {
    describe_all({Measure::brace},
                 {"Braces are bolted; knee braces stay off inner posts, which carry most load."});
  }

  void check_and_close() {
    add("Go over every support with a strip of paper: nothing loose, nothing hanging free. Lay the "
        "boards "
        "again.");
  }

  void fill(bool concrete) {
    std::vector<std::string> cautions{
        "Stop and drain if anything cracks, tilts, or sinks more than at the fill before."};
    if (concrete) {
      cautions.insert(cautions.begin(), fmt::format("Not before the concrete is {} days old.",
                                                    number("wait/before_full_days")));
    }
    const int thirds = static_cast<int>(rule("fill/steps"));
    add(fmt::format("Fill in {} equal steps, a day apart; at each look over the supports and read "
                    "the level "
                    "on the deck.",
                    thirds),
        cautions);
    const bool wedges = std::any_of(works_.begin(), works_.end(),
                                    [](const Work& w) { return w.rewedge_after_fill; });
    if (wedges) {
      add("Drain again, then drive the wedges again where they have slackened.",
          {"Never below the filled load."});
    }
    if (concrete || has(Measure::pack)) {
      add(fmt::format(
          "After {} days drain, look at every new support, and pack again what has slackened.",
          number("wait/repack_after_days")));
    }
  }

  const std::vector<Work>& works_;
  const record::Survey& survey_;
  UnitSystem units_;
  deck::Deck deck_;
  std::vector<BuildStep> steps_;
  std::string fixing_;  ///< how a sister is fixed
};

}  // namespace

std::vector<BuildStep> order_of_work(const std::vector<Work>& works, const record::Survey& survey) {
  return Order(works, survey).steps();
}

}  // namespace underprop::works
