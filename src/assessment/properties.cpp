#include "properties.hpp"

#include "catalog/table.hpp"
#include "standards/half_space.hpp"
#include "standards/ledger_couple.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace underprop::assessment {

using standards::Role;
using standards::Term;
using standards::Timber;

namespace {

model::Stiff stiff(const Timber& timber, const standards::Standard& standard, Term term) {
  const standards::Elastic elastic = standard.elastic(timber, term);
  return {elastic.E.value(), elastic.G.value(), standard.E_across(timber).value()};
}

/// The sheet says in its own words why something counts for nothing: "0: corroded, split or loose".
std::string why_nothing(const standards::Check& check) {
  std::string why;
  for (const standards::Step& step : check.steps) {
    const std::string& words = step.expression;
    if (words.starts_with("0: ") && words != "0: as above") why = words.substr(3);
  }
  return why;
}

double in_series(double a, double b) { return (a <= 0.0 || b <= 0.0) ? 0.0 : a * b / (a + b); }

double within_a_site() {
  return catalog::number(catalog::table("model.json"), "pads_of_a_site_ratio");
}

Stress modulus(const standards::GroundModuli& moduli, GroundBound ground) {
  switch (ground) {
    case GroundBound::soft:
      return moduli.soft;
    case GroundBound::middle:
      return moduli.middle;
    case GroundBound::stiff:
      return moduli.stiff;
    case GroundBound::harder:
      return min(moduli.stiff, within_a_site() * moduli.soft);
    case GroundBound::softer:
      return max(moduli.soft, (1.0 / within_a_site()) * moduli.stiff);
  }
  return moduli.soft;
}

double ground_spring(const deck::Deck& deck, const standards::Standard& standard,
                     std::size_t support, GroundBound ground) {
  const deck::Footing& footing = deck.supports[support].footing;
  const auto& data = catalog::table("model.json");
  if (footing.kind == record::FootingKind::screw_pile) {
    if (!footing.stated_capacity) return 0.0;
    const bool soft = ground == GroundBound::soft || ground == GroundBound::softer;
    const char* name = soft                            ? "pile_settlement_soft_mm"
                       : ground == GroundBound::middle ? "pile_settlement_middle_mm"
                                                       : "pile_settlement_stiff_mm";
    return footing.stated_capacity->value() / catalog::number(data, name);
  }
  const standards::GroundModuli moduli = standard.moduli(soil_kind(deck.site));
  const Stress E = modulus(moduli, ground);
  const Length B = min(footing.width, footing.length);
  const Length L = max(footing.width, footing.length);
  double flexibility = 1.0 / standards::rigid_rectangle_stiffness(B, L, E, moduli.poisson).value();
  if (ground == GroundBound::soft || ground == GroundBound::softer) {
    // Neighbours settle the ground here too (point load on the half-space), taken as loaded alike.
    const double reach = catalog::number(data, "neighbour_reach_widths") * B.value();
    for (std::size_t other = 0; other < deck.supports.size(); ++other) {
      if (other == support) continue;
      const deck::Support& neighbour = deck.supports[other];
      const Length r =
          Point(neighbour.at).x == deck.supports[support].at.x &&
                  neighbour.at.y == deck.supports[support].at.y
              ? B
              : Length(std::hypot((neighbour.at.x - deck.supports[support].at.x).value(),
                                  (neighbour.at.y - deck.supports[support].at.y).value()));
      if (r.value() > reach) continue;
      flexibility += standards::neighbour_flexibility(max(r, B), E, moduli.poisson).value();
    }
  }
  return 1.0 / flexibility;
}

}  // namespace

standards::SoilKind soil_kind(const deck::Site& site) {
  using standards::SoilKind;
  if (!site.soil) return SoilKind::unknown;
  switch (*site.soil) {
    case record::Soil::topsoil:
      return SoilKind::topsoil;
    case record::Soil::soft_clay:
      return SoilKind::soft_clay;
    case record::Soil::firm_clay:
      return SoilKind::firm_clay;
    case record::Soil::stiff_clay:
      return SoilKind::stiff_clay;
    case record::Soil::loose_sand:
      return SoilKind::loose_sand;
    case record::Soil::medium_sand:
      return SoilKind::medium_sand;
    case record::Soil::dense_sand:
      return SoilKind::dense_sand;
    case record::Soil::gravel:
      return SoilKind::gravel;
    case record::Soil::rock:
      return SoilKind::rock;
    case record::Soil::made_ground:
    case record::Soil::peat:
      return SoilKind::unknown;  // refers anyway (scope.cpp)
  }
  return SoilKind::unknown;
}

Timbers timbers(const deck::Deck& deck, const standards::Standard& standard) {
  Timbers result;
  // Of a class that the tables lack, the place in the survey where it is named.
  const auto timber = [&standard](const auto& piece, Role role, Length breadth,
                                  const std::string& pointer) {
    try {
      return standard.timber(piece.timber, role, breadth, piece.depth, piece.incised);
    } catch (standards::NoSuchTimber& fault) {
      fault.pointer = pointer;
      throw;
    }
  };
  const auto entry = [](const char* list, int index, const char* rest) {
    return std::string("/deck/") + list + "/" + std::to_string(index) + rest;
  };
  for (const deck::Joist& joist : deck.joists) {
    result.joists.push_back(
        timber(joist, Role::joist, joist.breadth, entry("joists", joist.group, "/timber")));
    std::vector<Timber> sisters;
    for (const deck::Sister& sister : joist.sisters) {
      sisters.push_back(timber(sister, Role::joist, sister.breadth, "/deck/sisters"));
    }
    result.sisters.push_back(std::move(sisters));
  }
  for (const deck::Bearer& bearer : deck.bearers) {
    result.bearers.push_back(timber(bearer, Role::bearer, bearer.ply_breadth,
                                    entry("bearers", bearer.index, "/timber")));
  }
  for (const deck::Ledger& ledger : deck.ledgers) {
    result.ledgers.push_back(
        timber(ledger, Role::ledger, ledger.breadth, entry("ledgers", ledger.index, "/timber")));
  }
  for (const deck::Support& support : deck.supports) {
    if (support.post) {
      result.posts.emplace_back(timber(*support.post, Role::post, support.post->breadth,
                                       entry("supports", support.group, "/post/timber")));
    } else {
      result.posts.emplace_back(std::nullopt);
    }
  }
  // Composite and aluminium boards share no load and are judged by their stated span alone: only some
  // stiffness between hinges is wanted of them, and the joists' wood gives it.
  struct Board {
    const std::string& timber;
    Length depth;
    bool incised = false;
  };
  const Board board{deck.boards.timber.empty() ? deck.joists.front().timber : deck.boards.timber,
                    deck.boards.thickness};
  result.boards = timber(board, Role::board, deck.boards.width, "/deck/boards/timber");
  return result;
}

standards::EndDemand end_demand(const deck::Deck& deck, const Timbers& timbers, std::size_t joist,
                                int end, const deck::Meeting* on) {
  const deck::Joist& j = deck.joists[joist];
  const deck::EndHold& hold = end == 0 ? j.start : j.end;
  standards::EndDemand demand;
  switch (hold.held) {
    case record::Hold::hanger:
      demand.kind = standards::EndKind::hanger;
      break;
    case record::Hold::end_grain:
      demand.kind = standards::EndKind::end_grain;
      break;
    case record::Hold::skew_nails:
      demand.kind = standards::EndKind::skew_nails;
      break;
    case record::Hold::ledger_strip:
      demand.kind = standards::EndKind::ledger_strip;
      break;
    case record::Hold::resting:
    case record::Hold::free:
      demand.kind = standards::EndKind::resting;
      break;
  }
  demand.joist = timbers.joists[joist];
  demand.carrier = timbers.joists[joist];
  demand.carrier_breadth = j.breadth;
  if (on != nullptr) {
    const bool ledger = on->kind == deck::MeetingKind::joist_on_ledger;
    demand.carrier = (ledger ? timbers.ledgers : timbers.bearers)[on->carrier];
    demand.carrier_breadth =
        ledger ? deck.ledgers[on->carrier].breadth : deck.bearers[on->carrier].ply_breadth;
  }
  demand.joist_breadth = j.breadth;
  demand.joist_depth = j.depth;
  demand.fasteners = hold.nails;
  demand.nails_known =
      hold.nails_by == deck::NailCount::counted     ? standards::NailsKnown::counted
      : hold.nails_by == deck::NailCount::all_holes ? standards::NailsKnown::all_holes
      : hold.nails_by == deck::NailCount::of_total  ? standards::NailsKnown::of_total
                                                    : standards::NailsKnown::assumed;
  demand.all_holes_nailed = hold.all_holes_nailed;
  demand.sound = hold.sound;
  demand.stated_capacity = hold.stated_capacity;
  demand.seat = hold.seat;
  return demand;
}

standards::LedgerFixingDemand ledger_demand(const deck::Deck& deck, const Timbers& timbers,
                                            std::size_t ledger) {
  const deck::Ledger& l = deck.ledgers[ledger];
  standards::LedgerFixingDemand demand;
  switch (l.fixed_to) {
    case record::LedgerWall::timber_band:
      demand.wall = standards::BandKind::timber_band;
      break;
    case record::LedgerWall::solid_masonry:
      demand.wall = standards::BandKind::solid_masonry;
      break;
    case record::LedgerWall::concrete:
      demand.wall = standards::BandKind::concrete;
      break;
    case record::LedgerWall::cavity_outer_leaf:
      demand.wall = standards::BandKind::cavity_outer_leaf;
      break;
    case record::LedgerWall::veneer:
      demand.wall = standards::BandKind::veneer;
      break;
    case record::LedgerWall::insulation:
      demand.wall = standards::BandKind::insulation;
      break;
  }
  switch (l.fixing) {
    case record::FixingKind::bolt:
      demand.fixing = standards::FastenerKind::bolt;
      break;
    case record::FixingKind::lag_screw:
      demand.fixing = standards::FastenerKind::lag_screw;
      break;
    case record::FixingKind::screw:
      demand.fixing = standards::FastenerKind::screw;
      break;
    case record::FixingKind::nail:
      demand.fixing = standards::FastenerKind::nail;
      break;
    case record::FixingKind::anchor:
      demand.fixing = standards::FastenerKind::anchor;
      break;
  }
  demand.diameter = l.fixing_diameter;
  demand.ledger = timbers.ledgers[ledger];
  demand.ledger_thickness = l.breadth;
  demand.ledger_depth = l.depth;
  demand.sound = l.sound;
  demand.stated_capacity = l.stated_capacity;
  demand.stated_pull_out = l.stated_pull_out;
  demand.penetration = l.penetration;
  demand.heights = l.fixing_heights;
  demand.band_laminated = l.band_laminated;
  return demand;
}

OnLedger joists_on(const deck::Deck& deck, std::size_t ledger) {
  OnLedger on = OnLedger::none;
  for (const deck::Meeting& m : deck.meetings) {
    if (m.kind != deck::MeetingKind::joist_on_ledger || m.carrier != ledger) continue;
    const deck::EndHold& hold = deck::hold_of(deck, m);
    if (hold.held == record::Hold::free) continue;
    if (hold.held != record::Hold::resting) return OnLedger::hung;
    on = OnLedger::resting;
  }
  return on;
}

Length ledger_lever(const deck::Ledger& ledger) {
  const auto figure = [](const char* name) {
    return catalog::number(catalog::table("scope.json"), name);
  };
  const Length pressure = figure("ledger_pressure_of_depth") * ledger.depth;
  const Length least = mm(figure("ledger_least_lever_mm"));
  if (ledger.fixing_heights.empty()) {
    const Length mean = figure("ledger_fixings_of_depth") * ledger.depth - pressure;
    return max(least, standards::least_lever_of_two_rows(mean));
  }
  std::vector<Length> rows;
  for (const Length height : ledger.fixing_heights) rows.push_back(height - pressure);
  return max(least, standards::lever_of_rows(rows));
}

Length ledger_arm(const deck::Deck& deck, std::size_t ledger) {
  const deck::Ledger& l = deck.ledgers[ledger];
  switch (joists_on(deck, ledger)) {
    case OnLedger::hung:
      return l.breadth + mm(catalog::number(catalog::table("scope.json"), "hung_seat_mm")) / 2.0;
    case OnLedger::resting:
      return l.breadth / 2.0;
    case OnLedger::none:
      break;
  }
  return mm(0.0);
}

standards::HoldDownDemand hold_down_demand(const deck::Deck& deck, const Timbers& timbers,
                                           std::size_t bearer) {
  const deck::Bearer& b = deck.bearers[bearer];
  standards::HoldDownDemand demand;
  switch (b.held_down) {
    case record::HeldDown::nothing:
      demand.kind = standards::HoldDownKind::nothing;
      break;
    case record::HeldDown::nailed:
      demand.kind = standards::HoldDownKind::nailed;
      break;
    case record::HeldDown::screwed:
      demand.kind = standards::HoldDownKind::screwed;
      break;
    case record::HeldDown::strapped:
      demand.kind = standards::HoldDownKind::strapped;
      break;
  }
  demand.joist = timbers.joists.front();
  demand.bearer = timbers.bearers[bearer];
  demand.stated_capacity = b.hold_down_capacity;
  return demand;
}

Force post_weight(const deck::Deck& deck, std::size_t support,
                  const standards::Standard& standard) {
  const std::optional<deck::Post>& post = deck.supports[support].post;
  if (!post) return Force(0.0);
  return weight(standard.loads(deck.height).wet_timber *
                (post->breadth * post->depth * max(post->height, mm(0.0))));
}

double support_stiffness(const deck::Deck& deck, const Timbers& timbers,
                         const standards::Standard& standard, std::size_t support,
                         GroundBound ground) {
  const deck::Support& record = deck.supports[support];
  double k = ground_spring(deck, standard, support, ground);
  Length contact = record.bearing_length.value_or(min(record.footing.width, record.footing.length));
  if (record.post) {
    const deck::Post& post = *record.post;
    const Stress E = standard.elastic(*timbers.posts[support], Term::now).E;
    k = in_series(k, (E * (post.breadth * post.depth) / post.height).value());
    contact = record.bearing_length.value_or(post.breadth);
    if (!post.bearer_on_top) {
      const double slip = standard.bolt_slip(post.bolt_diameter, *timbers.posts[support]).value();
      return in_series(k, slip * std::max(post.bolts, 1));
    }
  }
  // Crushing of the piece that stands on it, over half its depth.
  if (record.bearer >= 0) {
    const deck::Bearer& b = deck.bearers[static_cast<std::size_t>(record.bearer)];
    const double E =
        standard.E_across(timbers.bearers[static_cast<std::size_t>(record.bearer)]).value();
    k = in_series(k,
                  E * b.ply_breadth.value() * b.plies * contact.value() / (b.depth.value() / 2.0));
  } else {
    const deck::Joist& j = deck.joists[static_cast<std::size_t>(record.joist)];
    const double E =
        standard.E_across(timbers.joists[static_cast<std::size_t>(record.joist)]).value();
    k = in_series(k, E * (j.breadth * contact).value() / (j.depth.value() / 2.0));
  }
  return k;
}

model::Properties properties(const deck::Deck& deck, const Timbers& timbers,
                             const standards::Standard& standard, GroundBound ground, Term term) {
  model::Properties p;
  const standards::LoadValues loads = standard.loads(deck.height);
  const standards::Combination strength =
      standard.combinations(standards::Purpose::strength, {}).front();
  for (std::size_t j = 0; j < deck.joists.size(); ++j) {
    const deck::Joist& joist = deck.joists[j];
    p.joists.push_back(stiff(timbers.joists[j], standard, term));
    std::vector<model::Stiff> sisters;
    for (const Timber& sister : timbers.sisters[j])
      sisters.push_back(stiff(sister, standard, term));
    p.sisters.push_back(std::move(sisters));
    std::array<model::EndJoint, 2> ends;
    std::array<std::string, 2> why;
    for (int end = 0; end < 2; ++end) {
      const deck::EndHold& hold = end == 0 ? joist.start : joist.end;
      model::EndJoint& joint = ends[static_cast<std::size_t>(end)];
      if (hold.held == record::Hold::free) continue;
      // Where two carriers meet at one end it counts if it counts on both.
      std::vector<standards::EndDemand> demands;
      for (const deck::Meeting& on : deck::framed_at(
               deck.meetings, j, end == 0 ? deck::PieceEnd::start : deck::PieceEnd::end)) {
        demands.push_back(end_demand(deck, timbers, j, end, &on));
      }
      if (demands.empty()) demands.push_back(end_demand(deck, timbers, j, end, nullptr));
      const auto nothing = std::find_if(
          demands.begin(), demands.end(),
          [&](const standards::EndDemand& each) { return !standard.joist_end_counts(each); });
      if (nothing != demands.end()) {
        nothing->shear = newtons(1.0);
        why[static_cast<std::size_t>(end)] = why_nothing(standard.joist_end(*nothing, strength));
        continue;
      }
      const standards::EndDemand& demand = demands.front();
      if (demand.kind == standards::EndKind::ledger_strip ||
          demand.kind == standards::EndKind::resting) {
        const double seat = hold.seat ? hold.seat->value() : joist.breadth.value();
        joint.k = p.joists[j].E_across * joist.breadth.value() * seat / (joist.depth.value() / 2.0);
        joint.presses_only = true;
      } else {
        joint.k = standard.hanger_slip(std::max(demand.fasteners, 1), timbers.joists[j]).value();
        if (term == Term::long_term)
          joint.k /= catalog::number(catalog::table("model.json"), "joint_creep");
        // Hangers and end fixings have no value against lifting: the joist presses, it is not held down.
        joint.presses_only = true;
      }
    }
    p.joist_ends.push_back(ends);
    p.why_no_end.push_back(std::move(why));
  }
  for (std::size_t b = 0; b < deck.bearers.size(); ++b) {
    model::Stiff s = stiff(timbers.bearers[b], standard, term);
    p.bearers.push_back(s);
    const standards::HoldDownDemand demand = hold_down_demand(deck, timbers, b);
    // Nails hold nothing for long (EN 1995-1-1 8.3.2(1)P): what counts for nothing in some combination is
    // released in all, and the joist may lift.
    const auto uplift = standard.combinations(standards::Purpose::uplift, {});
    const bool counts = !deck.bearers[b].may_lift &&
                        demand.kind != standards::HoldDownKind::nothing &&
                        std::all_of(uplift.begin(), uplift.end(), [&](const auto& combination) {
                          return standard.hold_down(demand, combination).resistance > 0.0;
                        });
    p.hold_down.push_back(counts ? standard.hanger_slip(2, timbers.bearers[b]).value() : 0.0);
  }
  for (std::size_t l = 0; l < deck.ledgers.size(); ++l) {
    p.ledgers.push_back(stiff(timbers.ledgers[l], standard, term));
    standards::LedgerFixingDemand demand = ledger_demand(deck, timbers, l);
    demand.shear = newtons(1.0);
    const bool counts = standard.ledger_fixing_counts(demand);
    p.why_no_ledger.push_back(counts ? "" : why_nothing(standard.ledger_fixing(demand, strength)));
    p.ledger_fixings.push_back(
        counts ? standard.bolt_slip(deck.ledgers[l].fixing_diameter, timbers.ledgers[l]).value()
               : 0.0);
  }
  for (std::size_t s = 0; s < deck.supports.size(); ++s) {
    p.supports.push_back(support_stiffness(deck, timbers, standard, s, ground));
  }
  const standards::GroundModuli moduli = standard.moduli(soil_kind(deck.site));
  for (const deck::Wall& wall : deck.walls) {
    const Length unit = metres(1.0);
    const Stiffness k = standards::rigid_rectangle_stiffness(
        min(wall.strip_width, unit), max(wall.strip_width, unit), modulus(moduli, ground),
        moduli.poisson);
    p.walls.push_back(k.value() / unit.value());
  }
  p.boards = stiff(timbers.boards, standard, term);
  p.boards_share = deck.boards.material == record::BoardMaterial::softwood ||
                   deck.boards.material == record::BoardMaterial::hardwood;
  p.shell_contact = catalog::number(catalog::table("model.json"), "shell_contact_N_per_mm");
  p.wet_density = loads.wet_timber.value();
  p.board_density = loads.wet_timber.value();
  return p;
}

}  // namespace underprop::assessment
