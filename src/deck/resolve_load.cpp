// Heavy loads: footprint, patches and masses.
#include "record/words.hpp"
#include "resolve_parts.hpp"

namespace underprop::deck {
namespace {

bool holds_water(record::LoadKind kind) {
  return kind == record::LoadKind::tub || kind == record::LoadKind::plunge_pool ||
         kind == record::LoadKind::water_tank;
}
bool holds_people(record::LoadKind kind) {
  return kind == record::LoadKind::tub || kind == record::LoadKind::plunge_pool ||
         kind == record::LoadKind::sauna;
}
bool holds_other_contents(record::LoadKind kind) {
  return kind == record::LoadKind::planter || kind == record::LoadKind::store ||
         kind == record::LoadKind::other;
}

// Arcs are drawn with chords of this turn: 64 on a circle.
constexpr double chord_deg = 360.0 / 64.0;

// A range no narrower than what the table allows for any such thing tells nothing: it stands for
// "don't know", whoever wrote it. It is judged by the ratio of its ends, as the table's amounts go by
// the footprint or the litres.
template <class Q>
bool tells(const Fact<Q>& fact, std::string_view kind, record::StandardId standard) {
  if (!fact.is_range()) return fact.is_known();
  const double a = record::fact_kind(kind).value(standard, record::Reading::cautious).number;
  const double b = record::fact_kind(kind).value(standard, record::Reading::favourable).number;
  const double low = std::min(a, b), high = std::max(a, b);
  // What is written in millimetres or litres comes back rounded. A row of one value allows any range.
  constexpr double rounding = 1e-3;
  return low == high || fact.high().value() * low * (1.0 + rounding) < fact.low().value() * high;
}

// The table's row for this kind of load, or else the one for all kinds.
std::string row_for(record::LoadKind kind, const std::string& name) {
  const std::string own = "loads/" + std::string(record::written_word(kind)) + "/" + name;
  return record::has_fact_kind(own) ? own : "loads/" + name;
}

struct Footprint {
  Polygon local;  // about its origin, not turned
  Region exact;   // the same
  Area largest;   // of any reading: what an unknown content is worked out from
  Area smallest;
  bool recorded = true;
};

Footprint footprint_of(const record::HeavyLoad& load, const std::string& prefix, FactTaker& facts) {
  Footprint result;
  const auto side = [&](const Fact<Length>& fact, const char* name) {
    const std::string kind = std::string("loads/") + name;
    const Length value = facts.take(fact, prefix + name, kind);
    result.recorded = result.recorded && tells(fact, kind, facts.standard());
    const Length largest = fact.is_known()
                               ? fact.high()
                               : mm(record::fact_kind(kind)
                                        .value(facts.standard(), record::Reading::favourable)
                                        .number);
    struct Side {
      Length first, second, least;
    };
    return Side{value, largest, fact.is_known() ? fact.low() : value};
  };
  switch (load.shape) {
    case record::Shape::rectangle: {
      const auto width = side(load.width, "width");
      const auto length = side(load.length, "length");
      result.exact = rounded_rectangle(width.first, length.first, load.corner_radius);
      result.local = polygon_of(result.exact, chord_deg);
      result.largest =
          whole(rounded_rectangle(width.second, length.second, load.corner_radius)).area;
      result.smallest =
          whole(rounded_rectangle(width.least, length.least, load.corner_radius)).area;
      break;
    }
    case record::Shape::circle: {
      const auto diameter = side(load.diameter, "diameter");
      result.local = circle(diameter.first);
      result.exact = disc(diameter.first);
      result.largest = whole(disc(diameter.second)).area;
      result.smallest = whole(disc(diameter.least)).area;
      break;
    }
    case record::Shape::polygon:
      result.local = counter_clockwise(load.outline);
      result.exact = region_of(result.local);
      result.largest = result.smallest = area(result.local);
      break;
  }
  return result;
}

// Strips along an axis of the unturned footprint, each in the middle of its share of the width, so that
// equal strips take equal parts of an even load.
std::vector<Region> runner_strips(const Region& local, Axis direction, int count, Length width) {
  const Axis turned = other(direction);
  const double up = turned == Axis::x ? 0.0 : 90.0;
  const Interval across = extent(local, turned);
  const Length share = (across.high - across.low) / count;
  std::vector<Region> strips;
  for (int i = 0; i < count; ++i) {
    const Length middle = across.low + (i + 0.5) * share;
    Region strip = cut(local, at_along(turned, middle - 0.5 * width, mm(0.0)), up);
    strip = cut(strip, at_along(turned, middle + 0.5 * width, mm(0.0)), up + 180.0);
    if (whole(strip).area > Area(0.0)) strips.push_back(std::move(strip));
  }
  return strips;
}

// The load's turn less whole quarters: what its axes make with those of the plan.
double turn_of_axes(double rotation_deg) {
  return rotation_deg - 90.0 * std::round(rotation_deg / 90.0);
}

// The axis of the unturned load that runs along the joists once it is turned.
Axis along_the_joists(const record::Survey& survey, double rotation_deg) {
  const Axis joists = survey.deck.joists.empty() ? Axis::y : survey.deck.joists.front().direction;
  const Point turned = rotate({mm(1.0), mm(0.0)}, rotation_deg);
  const bool x_stays = abs(turned.x) >= abs(turned.y);
  return x_stays ? joists : other(joists);
}

std::vector<Region> patches_of(const record::Survey& survey, const record::HeavyLoad& load,
                               record::BaseKind base, const Region& local, bool base_recorded) {
  std::vector<Region> patches;
  if (base == record::BaseKind::runners) {
    const int least = static_cast<int>(record::resolving_rule("loads/unseen_runners").number);
    const int count = load.runners > 0 ? load.runners : least;
    const Length width = load.runner_width > Length(0.0)
                             ? load.runner_width
                             : mm(record::resolving_rule("loads/unseen_runner_width").number);
    const Axis direction =
        base_recorded ? load.runners_along : along_the_joists(survey, load.rotation_deg);
    patches = runner_strips(local, direction, count, width);
  } else if (base == record::BaseKind::feet) {
    const Length size = load.foot_size > Length(0.0)
                            ? load.foot_size
                            : mm(record::resolving_rule("loads/unseen_foot").number);
    std::vector<Point> feet = load.feet;
    if (feet.empty()) {  // at the corners of its extent
      const Interval x = extent(local, Axis::x), y = extent(local, Axis::y);
      for (const Length u : {x.low + 0.5 * size, x.high - 0.5 * size}) {
        for (const Length v : {y.low + 0.5 * size, y.high - 0.5 * size}) feet.push_back({u, v});
      }
    }
    for (const Point foot : feet)
      patches.push_back(region_of(place(rectangle(size, size), 0.0, foot)));
  }
  return patches;
}

// The three readings of a number of the table times an amount.
template <class T, class Of>
std::array<T, 3> worked_out(std::string_view kind, const FactTaker& facts, Of&& of) {
  std::array<T, 3> values;
  for (std::size_t r = 0; r < 3; ++r) {
    values[r] =
        of(record::fact_kind(kind).value(facts.standard(), static_cast<record::Reading>(r)).number);
  }
  return values;
}

// The soil of a planter: by its mass, or by its litres or depth and the density of wet soil.
void resolve_soil(const record::HeavyLoad& load, const std::string& prefix, Area largest,
                  FactTaker& facts, Load& result) {
  const std::string field = prefix + "contents_mass";
  const std::string mass_row = row_for(load.kind, "contents_mass_per_area");
  if (load.contents_mass.is_known()) {
    result.contents = facts.take(load.contents_mass, field, mass_row);
    result.contents_recorded = tells(load.contents_mass, mass_row, facts.standard());
    return;
  }
  const std::string density_row = row_for(load.kind, "contents_density");
  const auto of_volume = [&](Volume volume) {
    const auto values = worked_out<Mass>(density_row, facts, [&](double kg_per_litre) {
      return kilograms(kg_per_litre * in_litres(volume));
    });
    result.contents = facts.resolve(values, field, record::fact_kind(density_row), false);
  };
  if (load.contents.is_known()) {
    of_volume(facts.take(load.contents, prefix + "contents", "loads/contents_share"));
    result.contents_recorded = tells(load.contents, "loads/contents_share", facts.standard());
  } else if (load.water_depth.is_known()) {
    of_volume(largest * facts.take(load.water_depth, prefix + "water_depth", "loads/water_depth"));
  } else {
    const auto values = worked_out<Mass>(mass_row, facts, [&](double per_m2) {
      return kilograms(per_m2 * in_square_metres(largest));
    });
    result.contents = facts.resolve(values, field, record::fact_kind(mass_row), false);
    result.contents_recorded = false;
  }
}

double load_share(const char* name) { return record::resolving_rule(name).number; }

// What the vessel can hold, by its plan, the depth of its water and its form.
struct Holds {
  Volume least, most;
  [[nodiscard]] bool fits(const Fact<Volume>& stated) const {
    return stated.high() >= least && stated.low() <= most;
  }
};
Holds holds(const record::HeavyLoad& load, const Footprint& footprint, record::VesselForm form) {
  const bool straight = form == record::VesselForm::straight_sided;
  const bool deep = load.water_depth.is_known();
  const Length least =
      deep ? load.water_depth.low() : mm(record::resolving_rule("loads/shallowest").number);
  const Length most =
      deep ? load.water_depth.high() : mm(record::resolving_rule("loads/deepest").number);
  return {load_share(straight ? "loads/straight_least" : "loads/moulded_least") *
              (footprint.smallest * least),
          load_share(straight ? "loads/straight_most" : "loads/moulded_most") *
              (footprint.largest * most)};
}

// Litres that somebody stated, held against what the vessel can hold. Litres that no such vessel has
// are not taken as seen; litres that only one of the forms has depend on the form.
double stated_litres(const record::HeavyLoad& load, const std::string& prefix,
                     const Footprint& footprint, const std::string& row, FactTaker& facts,
                     Load& result) {
  using Form = record::VesselForm;
  const double stated = in_litres(facts.take(load.contents, prefix + "contents", row));
  result.contents_recorded = tells(load.contents, row, facts.standard());
  if (!holds_water(load.kind)) return stated;
  const Holds straight = holds(load, footprint, Form::straight_sided);
  const Holds moulded = holds(load, footprint, Form::moulded);
  const bool known = load.form.is_value();
  const Holds& own = known && load.form.value() == Form::straight_sided ? straight : moulded;
  const Fact<Volume>& said = load.contents;
  const auto range = [&](Volume possible, Volume between) {
    const std::array<Volume, 3> values{max(possible, said.high()), max(between, said.high()),
                                       said.low()};
    return in_litres(facts.resolve(values, prefix + "contents", record::fact_kind(row), true));
  };
  if (said.high() < own.least) {  // less than any such vessel holds
    result.contents_recorded = false;
    return range(known ? own.most : straight.most, own.least);
  }
  if (known || straight.fits(said) || load.water_depth.is_unknown()) return stated;
  // What nobody sits in has no seats: more litres than a tub with seats has are a tank with thick walls.
  if (!holds_people(load.kind) && said.high() >= moulded.most) return stated;
  // It fits seats and sloping sides, or neither form quite: with straight sides it would be more.
  const std::string field = prefix + "form";
  if (!(straight.most > said.high())) return stated;
  const bool as_straight = facts.take(Fact<Form>(), field, "loads/form") == Form::straight_sided;
  return as_straight ? std::max(stated, in_litres(straight.most)) : stated;
}

void resolve_contents(const record::HeavyLoad& load, const std::string& prefix,
                      const Footprint& footprint, FactTaker& facts, Load& result, double& litres) {
  const Area largest = footprint.largest;
  if (load.kind == record::LoadKind::planter) {
    resolve_soil(load, prefix, largest, facts, result);
    return;
  }
  const bool water_known = load.contents.is_known();
  const bool other_known = load.contents_mass.is_known();
  const std::string share_row = row_for(load.kind, "contents_share");
  const std::string depth_row = row_for(load.kind, "water_depth");
  const std::string mass_row = row_for(load.kind, "contents_mass_per_area");
  Mass contents(0.0);
  if (water_known) {
    litres = stated_litres(load, prefix, footprint, share_row, facts, result);
  } else if (holds_water(load.kind) && !other_known) {
    const Length depth = load.water_depth.is_known()
                             ? facts.take(load.water_depth, prefix + "water_depth", depth_row)
                             : mm(record::fact_kind(depth_row)
                                      .value(facts.standard(), record::Reading::cautious)
                                      .number);
    const auto values = worked_out<Volume>(share_row, facts,
                                           [&](double share) { return share * (largest * depth); });
    litres =
        in_litres(facts.resolve(values, prefix + "contents", record::fact_kind(share_row), false));
    result.contents_recorded = false;
  }
  contents += kilograms(litres);  // water: 1 kg per litre
  if (other_known) {
    contents += facts.take(load.contents_mass, prefix + "contents_mass", mass_row);
    result.contents_recorded =
        result.contents_recorded && tells(load.contents_mass, mass_row, facts.standard());
  } else if (holds_other_contents(load.kind) && !water_known) {
    const auto values = worked_out<Mass>(mass_row, facts, [&](double per_m2) {
      return kilograms(per_m2 * in_square_metres(largest));
    });
    contents += facts.resolve(values, prefix + "contents_mass", record::fact_kind(mass_row), false);
    result.contents_recorded = false;
  }
  result.contents = contents;
}

void resolve_dry_mass(const record::HeavyLoad& load, const std::string& prefix, Area largest,
                      double litres, FactTaker& facts, Load& result) {
  const std::string field = prefix + "dry_mass";
  const bool per_litre = holds_water(load.kind) && litres > 0.0;
  const std::string kind =
      row_for(load.kind, per_litre ? "dry_mass_per_litre" : "dry_mass_per_area");
  if (load.dry_mass.is_known()) {
    result.dry_mass = facts.take(load.dry_mass, field, kind);
    result.mass_recorded = tells(load.dry_mass, kind, facts.standard());
    return;
  }
  const double amount = per_litre ? litres : in_square_metres(largest);
  const auto values =
      worked_out<Mass>(kind, facts, [&](double each) { return kilograms(each * amount); });
  result.dry_mass = facts.resolve(values, field, record::fact_kind(kind), false);
  result.mass_recorded = false;
}

void resolve_people(const record::HeavyLoad& load, const std::string& prefix, Area largest,
                    FactTaker& facts, Load& result) {
  if (load.people.is_known() || !holds_people(load.kind)) {
    if (load.people.is_known()) {
      result.people =
          load.people.is_value()
              ? load.people.value()
              : facts.resolve(std::array<int, 3>{load.people.high(),
                                                 FactTaker::from_range(
                                                     load.people, record::Reading::likely, false),
                                                 load.people.low()},
                              prefix + "people", record::fact_kind("loads/area_per_person"), true);
    }
    return;
  }
  const auto values = worked_out<int>("loads/area_per_person", facts, [&](double m2) {
    return static_cast<int>(std::ceil(in_square_metres(largest) / m2 - 1e-9));
  });
  result.people =
      facts.resolve(values, prefix + "people", record::fact_kind("loads/area_per_person"), false);
}

}  // namespace

Load resolve_load(const record::Survey& survey, std::size_t index, FactTaker& facts,
                  std::vector<std::string>& told) {
  const record::HeavyLoad& load = survey.loads[index];
  const std::string prefix = pointer("/loads", index, "");
  Load result;
  result.name = load.name;
  result.kind = load.kind;
  const Footprint footprint = footprint_of(load, prefix, facts);
  result.footprint_recorded = footprint.recorded;
  result.footprint = place(footprint.local, load.rotation_deg, load.at);
  result.shape = place(footprint.exact, load.rotation_deg, load.at);
  result.centre = load.shape == record::Shape::polygon ? centroid(result.footprint) : load.at;
  result.axes_deg = turn_of_axes(load.rotation_deg);
  if (load.height.is_unknown() && holds_water(load.kind) && load.water_depth.is_known()) {
    result.centre_of_mass_height = mm(record::resolving_rule("loads/floor").number) +
                                   load_share("loads/centre_of_depth") * load.water_depth.high();
    told.push_back("the centre of " + load.name + " is taken " +
                   format_length(result.centre_of_mass_height, facts.units()) +
                   " over the boards: it follows from the depth of its water");
  } else {
    result.centre_of_mass_height =
        facts.take(load.height, prefix + "height", row_for(load.kind, "height"));
  }
  double litres = 0.0;
  resolve_contents(load, prefix, footprint, facts, result, litres);
  resolve_dry_mass(load, prefix, footprint.largest, litres, facts, result);
  resolve_people(load, prefix, footprint.largest, facts, result);
  result.empty_for_months = load.empty_for_months;
  result.base = facts.take(load.base, prefix + "base", row_for(load.kind, "base"));
  for (const Region& patch :
       patches_of(survey, load, result.base, footprint.exact, load.base.is_value())) {
    result.contact.push_back(place(patch, load.rotation_deg, load.at));
    result.patches.push_back(polygon_of(result.contact.back(), chord_deg));
  }
  if (result.contact.empty()) result.contact.push_back(result.shape);
  result.pinned = load.pinned;
  result.service_gap = load.service_gap;
  return result;
}

}  // namespace underprop::deck
