// What is odd without being wrong.
#include "read_checks.hpp"

#include "heights.hpp"

#include "record/limits.hpp"
#include "record/words.hpp"

#include "base/edit_distance.hpp"
#include "underprop/base/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace underprop::deck {
namespace {

// Where a reader should look twice. None of these enters a calculation.
double water_share(const char* rule) { return record::resolving_rule(rule).number; }
constexpr double kilograms_per_pound = 0.45359237;  // of a number of pounds said as kilograms
constexpr Mass heavy_dry_tub = kilograms(700.0);
constexpr Mass light_dry_tub = kilograms(40.0);
constexpr Length wide_joists = mm(700.0);
// Boards of softwood span some sixteen times their thickness: 25 mm over 400 mm, 38 mm over 610 mm
// (5/4 and 2 in boards over 16 and 24 in). Common practice.
constexpr double most_board_spans = 17.0;
constexpr Length short_span = mm(150.0), short_deck = mm(600.0);
constexpr Length deep_water = metres(1.5);
constexpr Length thin_joist = mm(30.0);
constexpr Length crowded_joists = mm(150.0);
constexpr double steep = 0.5;
// What water stands in a tub whose depth nobody measured.
constexpr Length shallow_tub = mm(200.0), deep_tub = mm(1200.0);
constexpr double least_soil_kg_per_litre = 0.8, most_soil_kg_per_litre = 2.3;
constexpr double least_m2_per_person = 0.3;
constexpr Length high_centre = metres(1.5);
constexpr Length high_deck = metres(4.0);
constexpr Length thin_board = mm(15.0), thick_board = mm(60.0);
constexpr Length thick_ply = mm(100.0);
constexpr Length wide_gap = mm(25.0);
constexpr double leaning_much = 1.0 / 20.0;
constexpr Length small_footing = mm(100.0), deep_frost = metres(2.5);
constexpr Length far_fixings = metres(1.2);
constexpr Pressure light_area = kilopascals(0.5), heavy_area = kilopascals(10.0);
constexpr Force strong_end = kilonewtons(50.0);

class Oddities {
public:
  explicit Oddities(const record::Survey& survey) : survey_(survey) {}
  [[nodiscard]] UnitSystem units() const {
    return survey_.standard == record::StandardId::north_america_us ? UnitSystem::us_customary
                                                                    : UnitSystem::metric;
  }

  [[nodiscard]] std::string rounded(double litre) const {
    return record::said(units(), litres(std::round(litre)));
  }

  std::vector<record::Warning> all() {
    if (survey_.recorded_on.empty()) {
      add("/recorded_on", "no date; a record holds for the day it was made: write \"recorded_on\"");
    }
    if (survey_.site.slope.is_known() && survey_.site.slope.high() > steep) {
      add("/site/slope", "the ground falls more than 1 in 2: is it written the right way round?");
    }
    site();
    deck();
    for (std::size_t i = 0; i < survey_.loads.size(); ++i) load(i);
    joists();
    bearers();
    supports();
    ledgers();
    braces();
    contact_told_twice();
    return std::move(found_);
  }

private:
  void add(std::string pointer, std::string text) {
    found_.push_back({std::move(pointer), std::move(text)});
  }

  void load(std::size_t i) {
    const record::HeavyLoad& load = survey_.loads[i];
    const std::string where = place_of("/loads", i);
    const Polygon footprint = smallest_footprint(load);
    if (load.contents.is_known() && load.water_depth.is_known()) {
      const Polygon largest = largest_footprint(load);
      const double least = in_litres(area(footprint) * load.water_depth.low());
      const double most = in_litres(area(largest) * load.water_depth.high());
      const bool straight =
          load.form.is_value() && load.form.value() == record::VesselForm::straight_sided;
      const bool moulded = load.form.is_value() && !straight;
      const double least_share =
          water_share(straight ? "loads/straight_least" : "loads/moulded_least");
      const double most_share = water_share(moulded ? "loads/moulded_most" : "loads/straight_most");
      if (in_litres(load.contents.low()) > most_share * most) {
        add(where + "/contents",
            fmt::format(
                "{} is more than {}the footprint times {} of water ({}/water_depth) "
                "holds ({}): {}",
                units() == UnitSystem::metric
                    ? fmt::format("{:.6g} l", in_litres(load.contents.low()))
                    : record::said(units(), load.contents.low()),
                moulded ? fmt::format("the {:.0f} % that seats leave of what ", 100.0 * most_share)
                        : std::string(),
                record::said(units(), load.water_depth.high()), where, rounded(most),
                meant_volume(load.contents.low(), least, most)));
      }
      if (in_litres(load.contents.high()) < least_share * least) {
        add(where + "/contents",
            fmt::format("{} is under {:.0f} % of the footprint times {} of water ({}/water_depth; "
                        "{}): {}",
                        record::said(units(), load.contents.high()), 100.0 * least_share,
                        record::said(units(), load.water_depth.low()), where, rounded(least),
                        meant_volume(load.contents.high(), least, most)));
      }
    }
    if (load.kind == record::LoadKind::tub && load.dry_mass.is_known()) {
      if (load.dry_mass.low() > heavy_dry_tub) {
        const Mass pounds = load.dry_mass.low() * kilograms_per_pound;
        add(where + "/dry_mass",
            fmt::format("a dry tub of {} is heavy: is the water counted in{}?",
                        record::said(units(), load.dry_mass.low()),
                        pounds <= heavy_dry_tub ? fmt::format(", or did you mean \"{:.4g} lb\"",
                                                              load.dry_mass.low().value())
                                                : std::string()));
      }
      if (load.dry_mass.high() < light_dry_tub) {
        add(where + "/dry_mass", fmt::format("a dry tub of {} is light: is the unit right?",
                                             record::said(units(), load.dry_mass.high())));
      }
    }
    if (load.kind == record::LoadKind::tub && load.water_depth.is_known() &&
        load.water_depth.low() > deep_water) {
      add(where + "/water_depth", fmt::format("water {} deep is deep for a tub: is the unit right?",
                                              record::said(units(), load.water_depth.low())));
    }
    volume_without_depth(load, where, footprint);
    soil(load, where);
    const Polygon largest = largest_footprint(load);
    if (load.kind == record::LoadKind::tub && load.people.is_known() && load.people.high() == 0)
      add(where + "/people", "nobody fits in this tub: how many seats has it?");
    if (load.people.is_known() && load.people.low() > 0 &&
        in_square_metres(area(largest)) < least_m2_per_person * load.people.low()) {
      add(where + "/people", fmt::format("{} people on {} do not fit: is the number right?",
                                         load.people.low(), said_area(area(largest))));
    }
    if (load.height.is_known() && load.height.low() > high_centre) {
      add(where + "/height",
          fmt::format("a centre of mass {} over the boards is high: is it half the height of the "
                      "thing, and the unit right?",
                      record::said(units(), load.height.low())));
    }
    if (area(largest) - shared_area(survey_.deck.outline, largest) > area(largest) * 0.01) {
      add(where + "/at", "at the upper end of its sizes the load sticks out of the deck");
    }
  }

  // Litres for gallons, or the reverse, where that would fit.
  static std::string meant_volume(Volume volume, double least, double most) {
    constexpr std::pair<const char*, double> litres_in[] = {{"us gal", 3.785411784},
                                                            {"imp gal", 4.54609}};
    const auto fits = [&](double litres) {
      return litres >= water_share("loads/moulded_least") * least &&
             litres <= water_share("loads/straight_most") * most;
    };
    const double number = in_litres(volume);
    for (const auto& [unit, litres] : litres_in) {
      if (fits(number * litres)) return fmt::format("did you mean \"{:.4g} {}\"?", number, unit);
      if (fits(number / litres)) return fmt::format("did you mean \"{:.4g} l\"?", number / litres);
    }
    return "is it the volume to the brim, and are its unit and the depth right? Seats and sloping "
           "sides take their share";
  }

  [[nodiscard]] std::string said_area(Area a) const {
    constexpr double square_feet_in_m2 = 10.763910417;
    return units() == UnitSystem::metric
               ? fmt::format("{:.2f} m2", in_square_metres(a))
               : fmt::format("{:.0f} sq ft", square_feet_in_m2 * in_square_metres(a));
  }
  [[nodiscard]] const char* wet_soil() const {
    return units() == UnitSystem::metric ? "wet soil weighs 1.2 to 1.9 kg a litre"
                                         : "wet soil weighs 10 to 16 lb a US gallon";
  }

  // Litres against the footprint where no depth is recorded to check them with.
  void volume_without_depth(const record::HeavyLoad& load, const std::string& where,
                            const Polygon& footprint) {
    if (load.kind != record::LoadKind::tub || load.contents.is_unknown() ||
        load.water_depth.is_known()) {
      return;
    }
    const double most = in_litres(area(largest_footprint(load)) * deep_tub);
    const double least = in_litres(area(footprint) * shallow_tub);
    if (in_litres(load.contents.low()) > most) {
      add(where + "/contents",
          fmt::format("{} in this footprint would stand more than {} deep: is the volume, its unit "
                      "or the footprint right?",
                      record::said(units(), load.contents.low()), record::said(units(), deep_tub)));
    }
    if (in_litres(load.contents.high()) < least) {
      add(where + "/contents",
          fmt::format("{} in this footprint would stand less than {} deep: is the volume to the "
                      "brim, and its unit or the footprint right?",
                      record::said(units(), load.contents.high()),
                      record::said(units(), shallow_tub)));
    }
  }

  void soil(const record::HeavyLoad& load, const std::string& where) {
    if (load.kind != record::LoadKind::planter || load.contents_mass.is_unknown()) return;
    double most_litres = 0.0, least_litres = 0.0;
    if (load.contents.is_known()) {
      least_litres = in_litres(load.contents.low());
      most_litres = in_litres(load.contents.high());
    } else if (load.water_depth.is_known()) {
      least_litres = in_litres(area(smallest_footprint(load)) * load.water_depth.low());
      most_litres = in_litres(area(largest_footprint(load)) * load.water_depth.high());
    }
    if (!(least_litres > 0.0)) return;
    const char* const other = load.contents.is_known() ? "contents" : "water_depth";
    if (load.contents_mass.high().value() < least_soil_kg_per_litre * least_litres) {
      add(where + "/contents_mass", fmt::format("{} for {} of soil ({}/{}) is light: {}",
                                                record::said(units(), load.contents_mass.high()),
                                                rounded(least_litres), where, other, wet_soil()));
    }
    if (load.contents_mass.low().value() > most_soil_kg_per_litre * most_litres) {
      add(where + "/contents_mass", fmt::format("{} for {} of soil ({}/{}) is heavy: {}",
                                                record::said(units(), load.contents_mass.low()),
                                                rounded(most_litres), where, other, wet_soil()));
    }
  }

  static Polygon largest_footprint(record::HeavyLoad load) {
    for (Fact<Length>* side : {&load.width, &load.length, &load.diameter}) {
      if (side->is_known()) *side = side->high();
    }
    return smallest_footprint(load);
  }

  void site() {
    const record::Site& site = survey_.site;
    if (site.house_walls.looked && site.house_walls.items.empty() &&
        !survey_.deck.ledgers.empty()) {
      add("/site/house_walls",
          fmt::format("no wall of a house is near, but {} hangs the deck on one ({}): what stands "
                      "behind it, and how deep is that wall's footing?",
                      quote(survey_.deck.ledgers.front().name), place_of("/deck/ledgers", 0)));
    }
    if (site.frost_depth.is_known() && site.frost_depth.high() > deep_frost) {
      add("/site/frost_depth", fmt::format("frost {} deep: is the unit right?",
                                           record::said(units(), site.frost_depth.high())));
    }
    for (const auto& [value, key] :
         {std::pair(site.imposed_load, "imposed_load"),
          std::pair(site.snow_load.is_known() ? std::optional(site.snow_load.high()) : std::nullopt,
                    "snow_load")}) {
      if (!value || *value == Pressure()) continue;
      if (*value < light_area || *value > heavy_area) {
        add(std::string("/site/") + key,
            fmt::format("{} on the deck is {}: is the unit right?", record::said(units(), *value),
                        *value < light_area ? "little" : "much"));
      }
    }
  }

  void deck() {
    const record::DeckRecord& deck = survey_.deck;
    if (deck.height.is_known() && deck.height.low() > high_deck) {
      add("/deck/height", fmt::format("a deck {} over the ground is high: is the unit right?",
                                      record::said(units(), deck.height.low())));
    }
    for (const Axis axis : {Axis::x, Axis::y}) {
      const Interval side = extent(deck.outline, axis);
      if (side.high - side.low >= short_deck) continue;
      add("/deck/outline",
          fmt::format("the deck is {} long along {}: {}",
                      record::said(units(), side.high - side.low), record::written_word(axis),
                      meant_metres(side.high - side.low)));
    }
    spans();
    const Fact<Length>& thick = deck.boards.thickness;
    if (thick.is_known() && (thick.high() < thin_board || thick.low() > thick_board)) {
      add("/deck/boards/thickness",
          fmt::format("boards {} thick: are thickness and width exchanged, or the unit wrong?",
                      record::said(units(), thick.low())));
    }
    if (thick.is_known() && deck.boards.width <= thick.low()) {
      add("/deck/boards/width",
          fmt::format("boards no wider ({}) than thick (/deck/boards/thickness): are the two "
                      "exchanged?",
                      record::said(units(), deck.boards.width)));
    }
  }

  // "2.4 mm" for "2.4 m".
  static std::string meant_metres(Length length) {
    if (length >= mm(1.0) && length <= mm(20.0)) {
      return fmt::format("did you mean \"{:.4g} m\"?", length.value());
    }
    return "are the numbers and their units right?";
  }

  // Lines of support that nearly coincide: a span of 2.4 mm.
  void spans() {
    struct Line {
      std::string where;
      Length at;
    };
    const record::DeckRecord& deck = survey_.deck;
    for (const Axis along : {Axis::x, Axis::y}) {
      std::vector<Line> lines;
      for (std::size_t i = 0; i < deck.ledgers.size(); ++i) {
        if (deck.ledgers[i].direction == along) {
          lines.push_back({place_of("/deck/ledgers", i, "position"), deck.ledgers[i].position});
        }
      }
      for (std::size_t i = 0; i < deck.bearers.size(); ++i) {
        const bool same = std::ranges::any_of(lines, [&](const Line& line) {
          return line.at == deck.bearers[i].position;  // two stretches of one line
        });
        if (deck.bearers[i].direction == along && !same) {
          lines.push_back({place_of("/deck/bearers", i, "position"), deck.bearers[i].position});
        }
      }
      for (std::size_t a = 1; a < lines.size(); ++a) {
        for (std::size_t b = 0; b < a; ++b) {
          const Length span = abs(lines[a].at - lines[b].at);
          if (span >= short_span) continue;
          add(lines[a].where, fmt::format("a span of {:.5g} mm from {}: {}", span.value(),
                                          lines[b].where, meant_metres(span)));
        }
      }
    }
  }

  // 2 in by a whole even number of inches: the name of a size rather than the size.
  [[nodiscard]] bool nominal(const Fact<Length>& breadth, const Fact<Length>& depth) const {
    if (survey_.standard != record::StandardId::north_america_us) return false;
    if (!breadth.is_value() || !depth.is_value()) return false;
    const auto whole = [](Length length, double inches) {
      return std::abs(in_inches(length) - inches) < 0.01;
    };
    return whole(breadth.value(), 2.0) &&
           (whole(depth.value(), 4.0) || whole(depth.value(), 6.0) || whole(depth.value(), 8.0) ||
            whole(depth.value(), 10.0) || whole(depth.value(), 12.0));
  }

  void end(const record::EndHold& hold, const std::string& where) {
    if (hold.stated_capacity && *hold.stated_capacity > strong_end) {
      add(where + "/stated_capacity",
          fmt::format("{} at the end of one joist is much: is the unit right?",
                      record::said(units(), *hold.stated_capacity)));
    }
  }

  void supports() {
    for (std::size_t i = 0; i < survey_.deck.supports.size(); ++i) {
      const record::Supports& group = survey_.deck.supports[i];
      const std::string where = place_of("/deck/supports", i);
      const std::optional<HeightMiss> miss = height_miss(survey_, group);
      if (miss && miss->by > mm(record::resolving_rule("heights/question").number)) {
        add(where, miss->found + ": is one of them measured wrongly, or the ground uneven?");
      }
      const record::Footing& footing = group.footing;
      for (const auto& [side, key] :
           {std::pair(footing.width, "width"), std::pair(footing.length, "length")}) {
        if (side.is_known() && side.high() < small_footing &&
            !(footing.kind.is_value() && footing.kind.value() == record::FootingKind::screw_pile)) {
          add(where + "/footing/" + key,
              fmt::format("a footing of {}: is it the post's size, or the unit wrong?",
                          record::said(units(), side.high())));
        }
      }
      if (footing.gap > wide_gap) {
        add(where + "/footing/gap",
            fmt::format("a gap of {}: is the unit right? So wide a gap carries nothing",
                        record::said(units(), footing.gap)));
      }
      if (!group.post) continue;
      const record::Post& post = *group.post;
      if (post.bearer.is_value() && post.bearer.value() == record::BearerOnPost::on_top &&
          ((post.bolts.is_known() && post.bolts.high() > 0) || post.bolt_diameter.is_known())) {
        add(where + "/post/bolts",
            fmt::format("bolts where the piece above sits \"on top\" ({}/post/bearer) enter no "
                        "check: does it hang on the side of the post?",
                        where));
      }
      if (post.lean.is_known() && post.lean.low() > leaning_much * post.height) {
        add(where + "/post/lean",
            fmt::format("{} out of plumb over {} ({}/post/height): is the unit right?",
                        record::said(units(), post.lean.low()), record::said(units(), post.height),
                        where));
      }
    }
  }

  void ledgers() {
    for (std::size_t i = 0; i < survey_.deck.ledgers.size(); ++i) {
      const record::Ledger& ledger = survey_.deck.ledgers[i];
      const bool in_wall = ledger.fixed_to.is_value() &&
                           (ledger.fixed_to.value() == record::LedgerWall::solid_masonry ||
                            ledger.fixed_to.value() == record::LedgerWall::concrete);
      if (in_wall && ledger.stated_capacity.is_unknown()) {
        add(place_of("/deck/ledgers", i, "stated_capacity"),
            fmt::format("nothing is stated for fixings in {} ({}): without a figure from a test or "
                        "the maker's sheet they count for nothing, and so does the ledger",
                        record::written_word(ledger.fixed_to.value()),
                        place_of("/deck/ledgers", i, "fixed_to")));
      }
      if (in_wall && ledger.stated_capacity.is_known() && ledger.stated_pull_out.is_unknown()) {
        add(place_of("/deck/ledgers", i, "stated_pull_out"),
            fmt::format(
                "no figure against a pull out of {} ({}): joists beside the wall's face pull "
                "its fixings, and half of what is stated downwards counts until the maker's "
                "pull-out (tension) figure for this wall is recorded",
                record::written_word(ledger.fixed_to.value()),
                place_of("/deck/ledgers", i, "fixed_to")));
      }
      if (ledger.fixing_spacing.is_known() && ledger.fixing_spacing.low() > far_fixings) {
        add(place_of("/deck/ledgers", i, "fixing_spacing"),
            fmt::format("fixings {} apart: is one left out, or the unit wrong?",
                        record::said(units(), ledger.fixing_spacing.low())));
      }
    }
  }

  // A whole group recorded as tight, and the whole of it as loose among the conditions.
  void contact_told_twice() {
    for (std::size_t k = 0; k < survey_.deck.condition.size(); ++k) {
      const record::Condition& condition = survey_.deck.condition[k];
      if (condition.defect != record::Defect::loose_packing &&
          condition.defect != record::Defect::out_of_level) {
        continue;
      }
      const auto both = [&](const Fact<record::Contact>& contact, const std::string& where) {
        if (!contact.is_value() || contact.value() != record::Contact::tight) return;
        add(place_of("/deck/condition", k),
            fmt::format("{} is \"{}\" here and \"tight\" at {}: the worse of the two counts",
                        quote(condition.piece), record::written_word(condition.defect), where));
      };
      for (std::size_t i = 0; i < survey_.deck.supports.size(); ++i) {
        const record::Supports& group = survey_.deck.supports[i];
        if (group.name != condition.piece) continue;
        both(group.footing.contact, place_of("/deck/supports", i, "footing/contact"));
      }
      for (std::size_t i = 0; i < survey_.deck.walls.size(); ++i) {
        if (survey_.deck.walls[i].name != condition.piece) continue;
        both(survey_.deck.walls[i].contact, place_of("/deck/walls", i, "contact"));
      }
    }
  }

  void joists() {
    for (std::size_t g = 0; g < survey_.deck.joists.size(); ++g) {
      const record::Joists& group = survey_.deck.joists[g];
      std::vector<Length> sorted = group.positions;
      std::ranges::sort(sorted);
      Length widest;
      for (std::size_t k = 1; k < sorted.size(); ++k) {
        widest = max(widest, sorted[k] - sorted[k - 1]);
      }
      widest =
          mm(std::round(10.0 * in_mm(widest)) / 10.0);  // a difference, told as it was measured
      if (widest > wide_joists) {
        add(place_of("/deck/joists", g, "positions"),
            fmt::format("joists {} apart: is one left out?", record::said(units(), widest)));
      }
      const record::Boards& boards = survey_.deck.boards;
      if (widest <= wide_joists && boards.stated_span && widest > *boards.stated_span) {
        add(place_of("/deck/joists", g, "positions"),
            fmt::format("joists {} apart under boards whose maker allows {} "
                        "(/deck/boards/stated_span): is a joist left out?",
                        record::said(units(), widest), record::said(units(), *boards.stated_span)));
      } else if (widest <= wide_joists && boards.thickness.is_known() &&
                 boards.material == record::BoardMaterial::softwood &&
                 widest > most_board_spans * boards.thickness.high()) {
        add(place_of("/deck/joists", g, "positions"),
            fmt::format("joists {} apart under boards {} thick (/deck/boards/thickness) are wider "
                        "apart than such boards are laid: is a joist left out?",
                        record::said(units(), widest),
                        record::said(units(), boards.thickness.high())));
      }
      if (sorted.size() > 1 && widest > Length() && widest < crowded_joists) {
        add(place_of("/deck/joists", g, "positions"),
            fmt::format("joists nowhere more than {} apart: is the unit right?",
                        record::said(units(), widest)));
      }
      if (nominal(group.breadth, group.depth)) {
        add(place_of("/deck/joists", g, "breadth"),
            fmt::format("{} by {} ({}) is the name of a size; dressed timber is smaller: measure "
                        "it, or write it as \"size\"",
                        record::said(units(), group.breadth.value()),
                        record::said(units(), group.depth.value()),
                        place_of("/deck/joists", g, "depth")));
      }
      end(group.start, place_of("/deck/joists", g, "start"));
      end(group.end, place_of("/deck/joists", g, "end"));
      if (group.breadth.is_unknown() || group.depth.is_unknown()) continue;
      if (group.breadth.low() < thin_joist || group.depth.high() < group.breadth.low()) {
        add(place_of("/deck/joists", g, "breadth"),
            "joists thinner than 30 mm or wider than deep: are breadth and depth right?");
      }
    }
  }

  void bearers() {
    for (std::size_t i = 0; i < survey_.deck.bearers.size(); ++i) {
      const record::Bearer& bearer = survey_.deck.bearers[i];
      const bool across = std::ranges::any_of(
          survey_.deck.joists,
          [&](const record::Joists& group) { return group.direction != bearer.direction; });
      if (!across) {
        add(place_of("/deck/bearers", i, "direction"),
            fmt::format("{} runs along all joists and carries none: is its direction right?",
                        quote(bearer.name)));
      }
      if (bearer.plies > 1 && bearer.ply_breadth.is_known() &&
          bearer.ply_breadth.low() > thick_ply) {
        add(place_of("/deck/bearers", i, "ply_breadth"),
            fmt::format("{} plies of {} each ({}): is that the breadth of all together?",
                        bearer.plies, record::said(units(), bearer.ply_breadth.low()),
                        place_of("/deck/bearers", i, "plies")));
      }
      if (nominal(bearer.ply_breadth, bearer.depth)) {
        add(place_of("/deck/bearers", i, "ply_breadth"),
            fmt::format("{} by {} ({}) is the name of a size; dressed timber is smaller: measure "
                        "it, or write it as \"size\"",
                        record::said(units(), bearer.ply_breadth.value()),
                        record::said(units(), bearer.depth.value()),
                        place_of("/deck/bearers", i, "depth")));
      }
      const bool stands = std::ranges::any_of(
          survey_.deck.supports,
          [&](const record::Supports& group) { return group.under == bearer.name; });
      if (!stands && survey_.deck.walls.empty()) {
        add(place_of("/deck/bearers", i),
            fmt::format("nothing is recorded under {}: \"supports\" with \"under\": {}?",
                        quote(bearer.name), quote(bearer.name)));
      }
    }
  }

  // "at" may be words; but a name that is nearly one is rather a slip.
  void braces() {
    std::vector<std::string_view> names;
    for (const record::Supports& group : survey_.deck.supports) names.push_back(group.name);
    for (std::size_t i = 0; i < survey_.deck.braces.size(); ++i) {
      const std::string& at = survey_.deck.braces[i].at;
      const auto& house_walls = survey_.site.house_walls;
      std::string words = at;
      std::ranges::transform(words, words.begin(), [](unsigned char c) {
        return static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
      });
      if (survey_.deck.braces[i].kind == record::BraceKind::wall_contact && house_walls.looked &&
          house_walls.items.empty() && words.find("house") != std::string::npos) {
        add(place_of("/deck/braces", i, "at"),
            fmt::format("contact with {} where no house wall is near (/site/house_walls is "
                        "\"none\"): record the wall, or correct this",
                        quote(at)));
      }
      if (std::ranges::find(names, at) != names.end()) continue;
      const std::string_view near = nearest_word(at, names);
      if (!near.empty()) {
        add(place_of("/deck/braces", i, "at"),
            fmt::format("no support is called {}: did you mean \"{}\"?", quote(at), near));
      }
    }
  }

  const record::Survey& survey_;
  std::vector<record::Warning> found_;
};

}  // namespace

std::vector<record::Warning> odd_values(const record::Survey& survey) {
  return Oddities(survey).all();
}

}  // namespace underprop::deck
