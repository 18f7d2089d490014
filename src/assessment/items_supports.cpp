// Checks of what carries the pieces: posts, supports of bearers, ledger fixings, footings, walls.
#include "catalog/table.hpp"
#include "lister.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace underprop::assessment {

using standards::Check;
using standards::CheckKind;
using standards::Combination;
using standards::Purpose;

namespace {

/// From a post's axis to the nearer end of the bearer on its side. Where two lengths meet over the post
/// each is bolted on its own half of it.
Length end_beside(const deck::Bearer& bearer, Length at, Length post) {
  Length end = min(at - bearer.from, bearer.to - at);
  for (const Length splice : bearer.splices) {
    const Length off = abs(splice - at);
    end = min(end, off <= post / 2.0 ? post / 4.0 : off);
  }
  return max(end, mm(0.0));
}

}  // namespace

void Lister::post(std::size_t s, std::size_t index) {
  const deck::Support& support = deck_.supports[s];
  const deck::Post& record = *support.post;
  const Source source = support.bearer >= 0 ? Source::prop : Source::crossing;
  standards::ColumnDemand demand;
  demand.timber = *timbers_.posts[s];
  demand.breadth = min(record.breadth, record.depth);
  demand.depth = max(record.breadth, record.depth);
  demand.height = record.height;
  demand.base_fixed = record.base_fixed;
  demand.braced = braced_;
  // The load's line leaves the post's by its lean, and by half of both breadths beside it.
  Length off = record.lean;
  if (!record.bearer_on_top && support.bearer >= 0) {
    const deck::Bearer& bearer = deck_.bearers[static_cast<std::size_t>(support.bearer)];
    off += (record.breadth + bearer.ply_breadth * static_cast<double>(bearer.plies)) / 2.0;
  }
  Item& item =
      add(source, index, Purpose::strength, support.id, CheckKind::post_buckling,
          [&standard = standard_, demand, off](double force, const Combination& combination) {
            standards::ColumnDemand d = demand;
            d.axial = Force(force);
            d.moment = Force(force) * off;
            return standard.column(d, combination);
          });
  fixed_place(item, support.at, "post");
}

/// The fixings of a ledger that share the force of one: within one spacing of its joists, or of the
/// fixings themselves where that is wider, either side.
std::vector<int> Lister::sharing_fixings(std::size_t p, std::size_t l) const {
  std::vector<double> joists;
  for (const deck::Meeting& m : deck_.meetings) {
    if (m.kind == deck::MeetingKind::joist_on_ledger && m.carrier == l)
      joists.push_back(deck_.joists[m.piece].position.value());
  }
  std::sort(joists.begin(), joists.end());
  // The narrowest pair: a wide gap elsewhere must not widen the mean.
  double reach = std::numeric_limits<double>::infinity();
  for (std::size_t k = 1; k < joists.size(); ++k) {
    const double gap = joists[k] - joists[k - 1];
    if (gap > 1.0) reach = std::min(reach, gap);
  }
  const double spacing = deck_.ledgers[l].fixing_spacing.value();
  reach = std::isfinite(reach) ? std::max(reach, spacing) : spacing;
  std::vector<int> near;
  for (std::size_t k = 0; k < model_.props.size(); ++k) {
    const model::Prop& other = model_.props[k];
    if (other.ledger && other.piece == model_.props[p].piece &&
        std::abs(other.at - model_.props[p].at) <= reach * (1.0 + 1e-9))
      near.push_back(static_cast<int>(k));
  }
  return near;
}

/// Joists load the ledger beside the wall's face: the couple pulls its fixings.
void Lister::pulled_by_joists(std::size_t p, std::size_t l, Point at, const std::string& where) {
  const deck::Ledger& ledger = deck_.ledgers[l];
  standards::LedgerFixingDemand demand = ledger_demand(deck_, timbers_, l);
  if (joists_on(deck_, l) == OnLedger::none || !standard_.ledger_fixing_counts(demand)) return;
  demand.couple_arm = ledger_arm(deck_, l);
  demand.couple_lever = ledger_lever(ledger);
  Item& item = add(Source::prop, p, Purpose::strength, ledger.id, CheckKind::ledger_pull_off,
                   [&standard = standard_, demand](double force, const Combination& combination) {
                     standards::LedgerFixingDemand d = demand;
                     d.shear = Force(force);
                     return standard.ledger_pull_off(d, combination);
                   });
  if (demand.wall == standards::BandKind::timber_band) item.mean_of = sharing_fixings(p, l);
  fixed_place(item, at, where);
}

void Lister::prop(std::size_t p) {
  const model::Prop& prop = model_.props[p];
  if (prop.ledger) {
    const auto l = static_cast<std::size_t>(prop.piece);
    const deck::Ledger& ledger = deck_.ledgers[l];
    const Point at = at_along(ledger.direction, mm(prop.at), ledger.position);
    const std::string where =
        "fixing " + format_length(mm(prop.at) - ledger.from, units_) + " from its start";
    for (const auto share : {standards::LedgerShare::neighbours, standards::LedgerShare::alone}) {
      standards::LedgerFixingDemand demand = ledger_demand(deck_, timbers_, l);
      demand.share = share;
      Item& item =
          add(Source::prop, p, Purpose::strength, ledger.id, CheckKind::ledger_fixing,
              [&standard = standard_, demand](double force, const Combination& combination) {
                standards::LedgerFixingDemand d = demand;
                d.shear = Force(force);
                return standard.ledger_fixing(d, combination);
              });
      fixed_place(item, at, where);
      if (share == standards::LedgerShare::neighbours) item.mean_of = sharing_fixings(p, l);
    }
    pulled_by_joists(p, l, at, where);
    return;
  }
  const auto s = static_cast<std::size_t>(prop.support);
  const deck::Support& support = deck_.supports[s];
  const auto b = static_cast<std::size_t>(prop.piece);
  const deck::Bearer& bearer = deck_.bearers[b];
  const Length breadth = bearer.ply_breadth * static_cast<double>(bearer.plies);
  const std::string where = "over support " + support.id;
  if (support.post && !support.post->bearer_on_top) {
    // Bolts take the whole reaction through one side; never counted as bearing.
    standards::SideBoltDemand demand;
    demand.bearer = timbers_.bearers[b];
    demand.post = *timbers_.posts[s];
    demand.bearer_breadth = bearer.act_together ? breadth : bearer.ply_breadth;
    demand.bearer_depth = bearer.depth;
    demand.post_breadth = support.post->breadth;
    demand.bolts = support.post->bolts;
    demand.diameter = support.post->bolt_diameter;
    demand.end_distance = end_beside(bearer, mm(prop.at), support.post->breadth);
    Item& item = add(Source::prop, p, Purpose::strength, bearer.id, CheckKind::post_side_bolts,
                     [&standard = standard_, demand](double force, const Combination& combination) {
                       standards::SideBoltDemand d = demand;
                       d.shear = Force(force);
                       return standard.side_bolts(d, combination);
                     });
    fixed_place(item, support.at, "at post " + support.id);
  } else {
    const Length width =
        support.post ? min(breadth, max(support.post->breadth, support.post->depth)) : breadth;
    const Length over = deck_.meetings[prop.meeting].overlap;
    const Length contact = min(over, support.bearing_length.value_or(over));
    const double t = prop.at;
    bearing(Source::prop, p, bearer.id, timbers_.bearers[b], width, contact,
            mm(std::min(t - bearer.from.value(), bearer.to.value() - t)) - contact / 2.0,
            bearer.depth, support.packers, support.at, where, clear_to_joists(b, t, contact));
  }
  if (support.post) post(s, p);
}

void Lister::footing(std::size_t s) {
  if (model_.support_of[s] < 0) return;
  const deck::Support& support = deck_.supports[s];
  const deck::Footing& footing = support.footing;
  standards::GroundDemand demand;
  demand.type = footing.kind == record::FootingKind::screw_pile ? standards::FootingType::screw_pile
                : footing.kind == record::FootingKind::strip    ? standards::FootingType::strip
                                                                : standards::FootingType::pad;
  demand.soil = soil_kind(deck_.site);
  demand.outlook = deck_.reading == record::Reading::cautious ? standards::Outlook::cautious
                   : deck_.reading == record::Reading::likely ? standards::Outlook::likely
                                                              : standards::Outlook::favourable;
  demand.post_weight = post_weight(deck_, s, standard_);
  demand.width = footing.width;
  demand.length = footing.length;
  demand.thickness = footing.thickness;
  if (support.post) {
    demand.contact_width = support.post->breadth;
    demand.contact_length = support.post->depth;
  } else if (support.bearer >= 0) {
    const deck::Bearer& b = deck_.bearers[static_cast<std::size_t>(support.bearer)];
    const Length across = b.ply_breadth * static_cast<double>(b.plies);
    const bool along_x = b.direction == Axis::x;
    demand.contact_width = along_x ? footing.width : across;
    demand.contact_length = along_x ? across : footing.length;
  } else {
    const deck::Joist& j = deck_.joists[static_cast<std::size_t>(support.joist)];
    const bool along_x = j.direction == Axis::x;
    demand.contact_width = along_x ? support.bearing_length.value_or(footing.width) : j.breadth;
    demand.contact_length = along_x ? j.breadth : support.bearing_length.value_or(footing.length);
  }
  demand.contact_width = min(demand.contact_width, demand.width);
  demand.contact_length = min(demand.contact_length, demand.length);
  demand.offset = footing.offset;
  // A slab or block that was laid, not dug in, counts as standing on the surface.
  const bool laid = footing.kind == record::FootingKind::laid_slab ||
                    footing.kind == record::FootingKind::deck_block;
  demand.depth = laid ? mm(0.0) : footing.depth;
  demand.below_topsoil = footing.below_topsoil;
  demand.waterlogged = deck_.site.water_in_hole;
  demand.shear_strength = deck_.site.shear_strength;
  demand.stated_pressure = deck_.site.ground_pressure;
  demand.spreads = !footing.cracked;
  demand.stated_capacity = footing.stated_capacity;
  Item& item =
      add(Source::ground_support, s, Purpose::ground, support.id, CheckKind::ground_pressure,
          [&standard = standard_, demand](double force, const Combination& combination) {
            standards::GroundDemand d = demand;
            d.load = Force(force);
            return standard.ground(d, combination);
          });
  fixed_place(item, support.at, "under its footing");
}

void Lister::walls() {
  for (std::size_t c = 0; c < model_.crossings.size(); ++c) {
    const model::Crossing& crossing = model_.crossings[c];
    if (crossing.kind != model::CrossingKind::wall) continue;
    const deck::Wall& wall = deck_.walls[static_cast<std::size_t>(crossing.other)];
    const deck::Joist& joist = deck_.joists[static_cast<std::size_t>(crossing.joist)];
    standards::GroundDemand demand;
    demand.type = standards::FootingType::strip;
    demand.soil = soil_kind(deck_.site);
    demand.outlook = deck_.reading == record::Reading::cautious ? standards::Outlook::cautious
                     : deck_.reading == record::Reading::likely ? standards::Outlook::likely
                                                                : standards::Outlook::favourable;
    demand.width = wall.strip_width;
    demand.length = mm(crossing.at_other);
    demand.thickness = mm(0.0);
    demand.contact_width = wall.strip_width;
    demand.contact_length = mm(crossing.at_other);
    demand.depth = wall.depth;
    demand.waterlogged = deck_.site.water_in_hole;
    demand.shear_strength = deck_.site.shear_strength;
    demand.stated_pressure = deck_.site.ground_pressure;
    Item& item = add(Source::ground_wall, c, Purpose::ground, wall.id, CheckKind::ground_pressure,
                     [&standard = standard_, demand](double force, const Combination& combination) {
                       standards::GroundDemand d = demand;
                       d.load = Force(force);
                       return standard.ground(d, combination);
                     });
    fixed_place(item, at_along(joist.direction, mm(crossing.at_joist), joist.position),
                "under joist " + joist.id);
  }
}

}  // namespace underprop::assessment
