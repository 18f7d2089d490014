// One sentence for a builder.
#include "parts.hpp"

#include "works/rules.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace underprop::works {
namespace {

class Words {
public:
  explicit Words(const record::Survey& survey) : survey_(survey), units_(units_of(survey)) {}

  [[nodiscard]] std::string sentence(const Work& work) const {
    switch (work.measure) {
      case Measure::pack:
        return fmt::format("Pack {} {} tight with treated full-width packers{}.",
                           work.pieces.size() == 1 ? "support" : "supports", list(work.pieces),
                           rewedge(work));
      case Measure::move_load:
        return moved(work);
      case Measure::pad:
        return pads(work);
      case Measure::sleeper:
        return line(work, "New sleeper");
      case Measure::bearer_on_pads:
        return line(work, "New bearer");
      case Measure::sister:
        return fmt::format(
            "Fix a full-length second joist {} beside {}, on the same supports at both ends.",
            section(work.breadth, work.depth, work.timber), list(work.pieces));
      case Measure::added_joist:
        return fmt::format(
            "New joist {} along {}, its centre line {} from A along {}, from {} to {}.",
            section(work.breadth, work.depth, work.timber), axis(work.direction),
            length(work.position), axis(other(work.direction)), length(work.from), length(work.to));
      case Measure::blocking:
        return fmt::format(
            "Row of full-depth blocking between joists {}, {} from A along the joists; "
            "it holds them upright and adds no strength.",
            list(work.pieces), length(work.position));
      case Measure::hangers:
        return hung(work);
      case Measure::bigger_pad:
        return fmt::format(
            "Replace the {} of {} by {} {}, {} deep, centred below what stands on {}.",
            work.pieces.size() == 1 ? "footing" : "footings", list(work.pieces),
            work.pieces.size() == 1 ? "a cast pad" : "cast pads", pad_size(work),
            length(work.pad_depth), work.pieces.size() == 1 ? "it" : "them");
      case Measure::brace:
        return fmt::format(
            "Brace {} against sway along {}: {} diagonal{} {}, {} bolt{} at each end.",
            work.pieces.empty() ? std::string("the deck") : list(work.pieces), axis(work.direction),
            std::max<std::size_t>(1, work.places.size()), work.places.size() > 1 ? "s" : "",
            section(work.breadth, work.depth, work.timber), std::max(1, work.fasteners),
            work.fasteners > 1 ? "s" : "");
      case Measure::ledger_bolts:
        return fmt::format(
            "If the back of the solid wood behind ledger {} can be reached, bolt it through: {} "
            "bolts of {}, at most {} apart, at half the ledger's depth, each with a washer at "
            "least "
            "{} across under head and nut.",
            list(work.pieces), work.places.size(), length(work.bolt_diameter),
            length(work.bolt_spacing),
            length(building_value(survey_.standard, "ledger_bolt/washer_in_d") *
                   work.bolt_diameter));
    }
    return work.id;
  }

private:
  [[nodiscard]] std::string length(Length l) const { return format_length(l, units_); }

  static const char* axis(Axis a) { return a == Axis::x ? "x" : "y"; }

  // "450 x 450 x 150 mm", or each size with its unit in feet and inches.
  [[nodiscard]] std::string sizes(std::initializer_list<Length> all) const {
    std::string text;
    for (const Length size : all) {
      std::string one = length(size);
      if (units_ == UnitSystem::metric && one.ends_with(" mm")) one.resize(one.size() - 3);
      text += (text.empty() ? "" : " x ") + one;
    }
    return units_ == UnitSystem::metric ? text + " mm" : text;
  }

  [[nodiscard]] std::string pad_size(const Work& work) const {
    return sizes({work.pad_width, work.pad_length, work.pad_thickness});
  }

  [[nodiscard]] std::string section(Length breadth, Length depth, const std::string& timber) const {
    std::string text = section_name(survey_.standard, breadth, depth);
    if (units_ == UnitSystem::metric) text += " mm";
    return timber.empty() ? text : text + " " + timber;
  }

  [[nodiscard]] static std::string list(const std::vector<std::string>& names) {
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i) {
      if (i > 0) text += i + 1 == names.size() ? " and " : ", ";
      text += names[i];
    }
    return text;
  }

  [[nodiscard]] std::string places(const std::vector<Point>& points) const {
    std::string text;
    for (std::size_t i = 0; i < points.size(); ++i) {
      if (i > 0) text += i + 1 == points.size() ? "; and " : "; ";
      text += length(points[i].x) + (i == 0 ? " from A along x and " : " and ") +
              length(points[i].y) + (i == 0 ? " along y" : "");
    }
    return text;
  }

  [[nodiscard]] static std::string rewedge(const Work& work) {
    return work.rewedge_after_fill ? ", and drive the wedges again after the first fill" : "";
  }

  [[nodiscard]] std::string depth_below_ground(const Work& work) const {
    if (!(work.pad_depth > Length())) return "on the ground";
    return "its underside " + length(work.pad_depth) + " below ground";
  }

  [[nodiscard]] std::string on_posts(const Work& work) const {
    if (!(work.post_height > Length())) return {};
    return fmt::format(", post{} {} of {}", work.places.size() > 1 ? "s" : "",
                       section(mm(building_value(survey_.standard, "post/breadth_mm")),
                               mm(building_value(survey_.standard, "post/depth_mm")), work.timber),
                       length(work.post_height));
  }

  [[nodiscard]] std::string pads(const Work& work) const {
    const bool one = work.places.size() == 1;
    std::string above;
    std::vector<std::string> names = work.pieces;
    names.erase(std::unique(names.begin(), names.end()), names.end());
    for (const record::Bearer& bearer : survey_.deck.bearers) {
      if (!names.empty() && bearer.name == names.front()) above = "bearer ";
    }
    if (above.empty()) above = names.size() == 1 ? "joist " : "joists ";
    return fmt::format("{} {} under {}{}, {} {}; {}{}{}.", one ? "New pad" : "New pads",
                       pad_size(work), above, list(names), one ? "centre" : "centres",
                       places(work.places), depth_below_ground(work), on_posts(work),
                       rewedge(work));
  }

  [[nodiscard]] std::string line(const Work& work, const char* what) const {
    const std::string plies = work.plies > 1 ? std::to_string(work.plies) + " plies " : "";
    return fmt::format(
        "{} {}{} along {} below the joists, {} from A along {}, from {} to {}, every joist packed; "
        "on "
        "{} pad{} {} with centre{} {}; {}{}{}.",
        what, plies, section(work.breadth, work.depth, work.timber), axis(work.direction),
        length(work.position), axis(other(work.direction)), length(work.from), length(work.to),
        work.places.size(), work.places.size() == 1 ? "" : "s", pad_size(work),
        work.places.size() == 1 ? "" : "s", places(work.places), depth_below_ground(work),
        on_posts(work), rewedge(work));
  }

  [[nodiscard]] std::string moved(const Work& work) const {
    std::string name = "the load";
    if (work.load >= 0 && static_cast<std::size_t>(work.load) < survey_.loads.size()) {
      const record::HeavyLoad& load = survey_.loads[static_cast<std::size_t>(work.load)];
      if (!load.name.empty()) name = load.name;
    }
    std::string turned;
    if (work.load_rotation_deg != 0.0) {
      turned = fmt::format(", turned {} degrees anticlockwise from above",
                           format_decimals(work.load_rotation_deg, 1));
    }
    return fmt::format("Stand {} with its centre {}{}.", name, places({work.load_at}), turned);
  }

  [[nodiscard]] std::string hung(const Work& work) const {
    const int nails = work.fasteners > 0
                          ? work.fasteners
                          : static_cast<int>(building_value(survey_.standard, "hanger/nails"));
    const std::string where = work.places.empty() ? " at both ends" : " at " + places(work.places);
    return fmt::format("Fit a hanger of the joist's size, every hole nailed ({} nails), to {}{}.",
                       nails, list(work.pieces), where);
  }

  const record::Survey& survey_;
  UnitSystem units_;
};

}  // namespace

std::string describe(const Work& work, const record::Survey& survey) {
  return Words(survey).sentence(work);
}

}  // namespace underprop::works
