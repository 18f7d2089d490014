// Each measure written into the record.
#include "parts.hpp"

#include "underprop/deck/pieces.hpp"
#include "works/rules.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace underprop::works {
namespace {

using record::Hold;
using record::StandardId;
using record::Survey;

// "N3": the first number that no recorded name makes use of.
std::string fresh_name(const record::DeckRecord& deck) {
  std::vector<std::string_view> names;
  const auto collect = [&](const auto& list) {
    for (const auto& each : list) names.push_back(each.name);
  };
  collect(deck.joists);
  collect(deck.bearers);
  collect(deck.rims);
  collect(deck.ledgers);
  collect(deck.supports);
  collect(deck.walls);
  collect(deck.blocking);
  for (int n = 1;; ++n) {
    const std::string candidate = "N" + std::to_string(n);
    const auto uses = [&](std::string_view name) {
      if (!name.starts_with(candidate)) return false;
      name.remove_prefix(candidate.size());
      return name.empty() || name.front() < '0' || name.front() > '9';
    };
    if (std::none_of(names.begin(), names.end(), uses)) return candidate;
  }
}

void require_positive(const Work& work, std::initializer_list<Length> sizes, const char* what) {
  for (const Length size : sizes) {
    if (!(size.value() > 0.0) || !std::isfinite(size.value())) {
      fault(work, std::string(what) + " must be more than nothing");
    }
  }
}

void require_timber(const Work& work) {
  require_positive(work, {work.breadth, work.depth}, "the section of new timber");
  if (work.timber.empty()) fault(work, "new timber needs a strength class or species and grade");
}

class Application {
public:
  Application(Survey& survey, const Work& work)
      : survey_(survey), deck_(survey.deck), work_(work), standard_(survey.standard) {}

  void run() {
    switch (work_.measure) {
      case Measure::pack:
        pack();
        return;
      case Measure::move_load:
        move_load();
        return;
      case Measure::pad:
        pad();
        return;
      case Measure::sleeper:
      case Measure::bearer_on_pads:
        bearer();
        return;
      case Measure::sister:
        sister();
        return;
      case Measure::added_joist:
        added_joist();
        return;
      case Measure::blocking:
        blocking();
        return;
      case Measure::hangers:
        hangers();
        return;
      case Measure::bigger_pad:
        bigger_pad();
        return;
      case Measure::brace:
        brace();
        return;
      case Measure::ledger_bolts:
        ledger_bolts();
        return;
    }
    fault(work_, "an unknown measure");
  }

private:
  [[nodiscard]] double rule(std::string_view name) const { return building_value(standard_, name); }

  void pack() {
    if (work_.pieces.empty()) fault(work_, "nothing to pack is named");
    std::set<std::string> ids;
    bool walls = false;
    const Pieces pieces(survey_);
    for (const std::string& name : work_.pieces) {
      const std::set<std::string> found = pieces.supports(name);
      ids.insert(found.begin(), found.end());
      bool known = !found.empty();
      for (record::Wall& wall : deck_.walls) {
        if (wall.name != name) continue;
        wall.contact = record::Contact::tight;
        wall.gap = Length();
        drop_conditions({name}, {record::Defect::loose_packing, record::Defect::out_of_level});
        walls = known = true;
      }
      for (record::Bearer& record : deck_.bearers) {
        if (record.name == name) record.gap = Length();
      }
      if (!known) fault(work_, "there is no support " + name);
    }
    if (ids.empty() && walls) return;
    for (const std::size_t g : isolate(survey_, ids)) {
      record::Supports& group = deck_.supports[g];
      group.footing.contact = record::Contact::tight;
      group.footing.gap = Length();
      // Stacked or unseen packers are replaced by one of full width.
      if (group.packers.is_unknown() || group.packers.high() > 1) group.packers = 1;
      drop_conditions(names_of(group),
                      {record::Defect::loose_packing, record::Defect::out_of_level});
    }
  }

  // A group that has been isolated, and every id in it.
  [[nodiscard]] std::set<std::string> names_of(const record::Supports& group) const {
    std::set<std::string> names{group.name};
    for (const deck::PieceName& piece : deck::piece_names(survey_)) {
      if (piece.kind == deck::PieceKind::support && piece.group == group.name) {
        names.insert(piece.id);
      }
    }
    return names;
  }

  void drop_conditions(const std::set<std::string>& pieces,
                       const std::set<record::Defect>& defects) {
    std::erase_if(deck_.condition, [&](const record::Condition& c) {
      return pieces.count(c.piece) > 0 && defects.count(c.defect) > 0;
    });
  }

  void move_load() {
    if (work_.load < 0 || static_cast<std::size_t>(work_.load) >= survey_.loads.size()) {
      fault(work_, "there is no load number " + std::to_string(work_.load));
    }
    record::HeavyLoad& load = survey_.loads[static_cast<std::size_t>(work_.load)];
    load.at = work_.load_at;
    load.rotation_deg = work_.load_rotation_deg;
  }

  [[nodiscard]] record::Footing new_footing() const {
    require_positive(work_, {work_.pad_width, work_.pad_length, work_.pad_thickness},
                     "the sizes of a pad");
    record::Footing footing;
    footing.kind = record::FootingKind::cast_pad;
    footing.width = work_.pad_width;
    footing.length = work_.pad_length;
    footing.thickness = work_.pad_thickness;
    footing.depth = max(work_.pad_depth, Length());
    footing.offset = Length();
    footing.contact = record::Contact::tight;
    footing.below_topsoil = true;
    return footing;
  }

  [[nodiscard]] record::Supports new_supports(const std::string& name,
                                              const std::string& under) const {
    record::Supports group;
    group.name = name;
    group.under = under;
    group.footing = new_footing();
    group.added = true;
    group.packers = 1;
    if (work_.post_height > Length()) {
      if (work_.timber.empty()) fault(work_, "a post needs a strength class or species and grade");
      record::Post post;
      post.timber = work_.timber;
      post.incised = counts_as_incised(standard_, work_.timber);
      post.breadth = mm(rule("post/breadth_mm"));
      post.depth = mm(rule("post/depth_mm"));
      post.height = work_.post_height;
      post.bearer = record::BearerOnPost::on_top;
      post.base = record::PostBase::pinned;
      post.lean = Length();
      group.post = post;
    } else {
      group.bearing_length =
          min(mm(rule("packer/length_mm")), min(work_.pad_width, work_.pad_length));
    }
    return group;
  }

  void add(record::Supports group) {
    std::sort(group.positions.begin(), group.positions.end());
    if (group.post) deck_.probed.pieces.push_back(group.name);
    deck_.supports.push_back(std::move(group));
  }

  void pad() {
    if (work_.places.empty()) fault(work_, "a pad needs a place");
    const bool shared = work_.pieces.size() == 1;
    if (!shared && work_.pieces.size() != work_.places.size()) {
      fault(work_, "name the bearer or joist above each pad, or one for all of them");
    }
    const Pieces pieces(survey_);
    const std::string base = fresh_name(deck_) + "P";
    std::vector<record::Supports> groups;  // one for each piece above
    for (std::size_t i = 0; i < work_.places.size(); ++i) {
      const std::string& name = work_.pieces[shared ? 0 : i];
      std::string under;
      Axis direction = Axis::x;
      Length from, to;
      if (const deck::Bearer* above = pieces.bearer(name)) {
        under = deck_.bearers[static_cast<std::size_t>(above->index)].name;
        direction = above->direction;
        const Length u = along(work_.places[i], direction);
        for (const deck::Bearer& part : pieces.deck().bearers) {
          // A bearer broken by the outline has several parts.
          if (part.index != above->index || u < part.from || u > part.to) continue;
          above = &part;
        }
        from = above->from;
        to = above->to;
      } else {
        const deck::Joist& joist = pieces.joist(name);
        under = joist.id;
        direction = joist.direction;
        from = joist.from;
        to = joist.to;
      }
      const Length u = along(work_.places[i], direction);
      if (u < from || u > to) fault(work_, "a pad stands beyond the end of " + name);
      auto group = std::find_if(groups.begin(), groups.end(),
                                [&](const record::Supports& g) { return g.under == under; });
      if (group == groups.end()) {
        const std::string suffix(groups.size(), 'P');  // N1P, N1PP: ids stay apart
        groups.push_back(new_supports(base + suffix, under));
        group = groups.end() - 1;
      }
      group->positions.push_back(u);
    }
    for (record::Supports& group : groups) add(std::move(group));
  }

  void bearer() {
    require_timber(work_);
    if (work_.plies < 1) fault(work_, "a bearer has at least one ply");
    if (!(work_.to > work_.from)) fault(work_, "a bearer needs a length");
    if (work_.places.empty()) fault(work_, "a bearer needs pads");
    const std::string name = fresh_name(deck_);
    record::Bearer record;
    record.name = name + "B";
    record.direction = work_.direction;
    record.position = work_.position;
    record.from = work_.from;
    record.to = work_.to;
    record.timber = work_.timber;
    record.incised = counts_as_incised(standard_, work_.timber);
    record.plies = work_.plies;
    record.ply_breadth = work_.breadth;
    record.depth = work_.depth;
    record.plies_fixed_together = true;
    record.joists = record::JoistsSit::on_top;
    record.joists_held_down =
        record::HeldDown::nothing;  // it is packed up, not fastened for uplift
    record.added = true;
    const std::vector<Interval> lengths = runs(work_, standard_);
    for (std::size_t i = 1; i < lengths.size(); ++i) record.splices.push_back(lengths[i].low);
    record::Supports pads = new_supports(name + "P", record.name);
    for (const Point& place : work_.places) {
      const Length u = along(place, work_.direction);
      if (u < work_.from || u > work_.to) fault(work_, "a pad stands beyond the end of the bearer");
      pads.positions.push_back(u);
    }
    deck_.probed.pieces.push_back(record.name);
    deck_.bearers.push_back(std::move(record));
    add(std::move(pads));
  }

  void sister() {
    require_timber(work_);
    if (work_.pieces.empty()) fault(work_, "no joist is named");
    const Pieces pieces(survey_);
    for (const std::string& name : work_.pieces) {
      deck_.sisters.push_back({pieces.joist(name).id, work_.timber,
                               counts_as_incised(standard_, work_.timber), work_.breadth,
                               work_.depth});
    }
  }

  // The old fixings stay where they are and count for nothing more.
  void ledger_bolts() {
    require_positive(work_, {work_.bolt_diameter, work_.bolt_spacing}, "bolts and their spacing");
    if (work_.pieces.size() != 1) fault(work_, "name one ledger");
    const Pieces pieces(survey_);
    for (std::size_t i = 0; i < deck_.ledgers.size(); ++i) {
      record::Ledger& ledger = deck_.ledgers[i];
      if (ledger.name != work_.pieces.front()) continue;
      if (!ledger.fixed_to.is_value() || ledger.fixed_to.value() != record::LedgerWall::timber_band)
        fault(work_,
              "bolts go through wood: nothing of the sort is recorded behind " + ledger.name);
      ledger.fixing = record::FixingKind::bolt;
      ledger.fixing_diameter = work_.bolt_diameter;
      ledger.fixing_spacing = work_.bolt_spacing;
      ledger.fixing_heights = {ledger.depth / 2.0};
      ledger.stated_capacity = {};
      ledger.stated_pull_out = {};
      ledger.sound = true;
      std::set<std::string> names{ledger.name};
      for (const deck::Ledger& part : pieces.deck().ledgers) {
        if (part.index == static_cast<int>(i)) names.insert(part.id);
      }
      drop_conditions(names, {record::Defect::corroded_fixing, record::Defect::missing_fixing,
                              record::Defect::wrong_fixing});
      return;
    }
    fault(work_, "there is no ledger " + work_.pieces.front());
  }

  [[nodiscard]] record::EndHold new_hanger() const {
    record::EndHold hold;
    hold.held = Hold::hanger;
    hold.nails_in_carrier =
        work_.fasteners > 0 ? work_.fasteners : static_cast<int>(rule("hanger/nails"));
    hold.all_holes_nailed = true;
    hold.sound = true;
    hold.seat = mm(rule("hanger/seat_mm"));
    return hold;
  }

  void added_joist() {
    require_timber(work_);
    if (!(work_.to > work_.from)) fault(work_, "a joist needs a length");
    const Pieces pieces(survey_);
    const auto end = [&](bool at_start) {
      record::EndHold hold;
      hold.held = hold_like_neighbour(work_, pieces, at_start);
      if (hold.held.value() == Hold::hanger) return new_hanger();
      hold.sound = true;
      if (hold.held.value() == Hold::resting) hold.seat = mm(rule("joist/seat_mm"));
      return hold;
    };
    record::Joists group;
    group.name = fresh_name(deck_) + "J";
    group.direction = work_.direction;
    group.positions = {work_.position};
    group.from = work_.from;
    group.to = work_.to;
    group.timber = work_.timber;
    group.incised = counts_as_incised(standard_, work_.timber);
    group.breadth = work_.breadth;
    group.depth = work_.depth;
    group.over_bearers = record::OverBearers::continuous;
    group.start = end(true);
    group.end = end(false);
    group.added = true;
    deck_.probed.pieces.push_back(group.name);
    deck_.joists.push_back(std::move(group));
  }

  void blocking() {
    if (work_.pieces.empty()) fault(work_, "no joists are named");
    const Pieces pieces(survey_);
    std::set<std::string> groups;
    for (const std::string& name : work_.pieces) {
      groups.insert(pieces.group_of(*pieces.joists(name).front()));
    }
    const std::string name = fresh_name(deck_) + "K";
    std::string suffix;
    for (const std::string& group : groups) {
      deck_.blocking.push_back({name + suffix, group, work_.position, true});
      deck_.probed.pieces.push_back(name + suffix);
      suffix += 'K';
    }
  }

  void hangers() {
    if (work_.pieces.empty()) fault(work_, "no joist is named");
    if (!work_.places.empty() && work_.places.size() != work_.pieces.size()) {
      fault(work_, "give one place for each joist, or none");
    }
    const Pieces pieces(survey_);
    for (std::size_t i = 0; i < work_.pieces.size(); ++i) {
      const deck::Joist& joist = pieces.joist(work_.pieces[i]);
      for (const bool at_start : {true, false}) {
        if (!work_.places.empty() && nearer_start(joist, work_.places[i]) != at_start) continue;
        std::erase_if(deck_.joist_ends, [&](const record::JoistEnd& e) {
          return e.joist == joist.id && e.at_start == at_start;
        });
        deck_.joist_ends.push_back({joist.id, at_start, new_hanger(), true});
        mend_end(pieces, joist, at_start);
      }
    }
  }

  // What was wrong with the old fixings of that end is wrong no more; the other end keeps its faults.
  void mend_end(const Pieces& pieces, const deck::Joist& joist, bool at_start) {
    const auto of_the_end = [](const record::Condition& c) {
      return c.defect == record::Defect::corroded_fixing ||
             c.defect == record::Defect::missing_fixing ||
             c.defect == record::Defect::wrong_fixing || c.defect == record::Defect::short_bearing;
    };
    const Length length = joist.to - joist.from;
    const std::string& group = pieces.group_of(joist);
    std::vector<record::Condition> kept;
    for (const record::Condition& condition : deck_.condition) {
      if (!of_the_end(condition) || (condition.piece != joist.id && condition.piece != group)) {
        kept.push_back(condition);
        continue;
      }
      if (condition.piece == group) {  // its fellows keep it
        for (const deck::Joist* fellow : pieces.joists(group)) {
          if (fellow->id == joist.id) continue;
          kept.push_back(condition);
          kept.back().piece = fellow->id;
        }
      }
      // As resolving reads it: a place in the first half means the start; none means both ends.
      const bool whole = !condition.from && !condition.to;
      const Length from = condition.from.value_or(Length());
      const Length to = condition.to.value_or(condition.from.value_or(length));
      const bool start = whole || from <= 0.5 * length, end = whole || to > 0.5 * length;
      if (at_start ? end : start) {
        kept.push_back(condition);
        kept.back().piece = joist.id;
        kept.back().from = kept.back().to = at_start ? length : Length();
      }
    }
    deck_.condition = std::move(kept);
  }

  void bigger_pad() {
    if (work_.pieces.empty()) fault(work_, "no support is named");
    std::set<std::string> ids;
    const Pieces pieces(survey_);
    for (const std::string& name : work_.pieces) {
      const std::set<std::string> found = pieces.supports(name);
      if (found.empty()) fault(work_, "there is no support " + name);
      ids.insert(found.begin(), found.end());
    }
    for (const std::size_t g : isolate(survey_, ids)) {
      record::Supports& group = deck_.supports[g];
      group.footing = new_footing();
      group.added = true;
      if (group.packers.is_unknown() || group.packers.high() > 1) group.packers = 1;
      if (!group.post && !group.bearing_length) {
        group.bearing_length = mm(rule("packer/length_mm"));
      }
      drop_conditions(names_of(group),
                      {record::Defect::crack, record::Defect::tilt, record::Defect::undermined,
                       record::Defect::loose_packing, record::Defect::out_of_level});
    }
  }

  void brace() {
    record::Brace record;
    record.direction = work_.direction;
    record.kind = record::BraceKind::diagonal;
    if (!work_.pieces.empty()) {
      record.at = work_.pieces.front();
      const auto named = [&](const record::Supports& group) { return group.name == record.at; };
      if (std::none_of(deck_.supports.begin(), deck_.supports.end(), named)) {
        // One support, or a group that other works split up: the first group that it is now.
        const Pieces pieces(survey_);
        for (const deck::Support& support : pieces.deck().supports) {
          if (pieces.supports(record.at).count(support.id) == 0) continue;
          record.at = deck_.supports[static_cast<std::size_t>(support.group)].name;
          break;
        }
      }
    }
    record.count = std::max(1, static_cast<int>(work_.places.size()));
    record.breadth = work_.breadth;
    record.depth = work_.depth;
    record.bolts = std::max(1, work_.fasteners);
    record.bolt_diameter = mm(rule("brace/bolt_diameter_mm"));
    record.added = true;
    require_positive(work_, {record.breadth, record.depth}, "the section of a brace");
    deck_.braces.push_back(std::move(record));
  }

  Survey& survey_;
  record::DeckRecord& deck_;
  const Work& work_;
  StandardId standard_;
};

}  // namespace

Survey apply(const Survey& survey, const Work& work) {
  Survey changed = survey;
  Application(changed, work).run();
  return changed;
}

Survey apply(const Survey& survey, const std::vector<Work>& works) {
  Survey changed = survey;
  for (const Work& work : works) Application(changed, work).run();
  return changed;
}

}  // namespace underprop::works
