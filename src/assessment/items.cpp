#include "items.hpp"

#include "scope.hpp"
#include "underprop/base/format.hpp"
#include "underprop/survey/geometry.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::assessment {

using standards::Check;
using standards::Combination;
using standards::Purpose;
using standards::Timber;

namespace {

class Lister {
public:
  Lister(const survey::Deck& deck, const model::Model& model, const Timbers& timbers,
         const standards::Standard& standard, const std::vector<double>& self_weight_moments,
         bool braced)
      : deck_(deck),
        model_(model),
        timbers_(timbers),
        standard_(standard),
        self_weight_moments_(self_weight_moments),
        braced_(braced),
        units_(standard.us_customary() ? UnitSystem::us_customary : UnitSystem::metric) {}

  std::vector<Item> list() {
    for (std::size_t j = 0; j < deck_.joists.size(); ++j) joist(j);
    for (std::size_t b = 0; b < deck_.bearers.size(); ++b) bearer(b);
    for (std::size_t l = 0; l < model_.ledgers.size(); ++l) ledger(l);
    boards();
    for (std::size_t c = 0; c < model_.crossings.size(); ++c) crossing(c);
    for (std::size_t p = 0; p < model_.props.size(); ++p) prop(p);
    for (std::size_t s = 0; s < deck_.supports.size(); ++s) footing(s);
    walls();
    return std::move(items_);
  }

private:
  Item& add(Source source, std::size_t index, Purpose purpose, const std::string& piece,
            const std::string& check, std::function<Check(double, const Combination&)> judge) {
    Item item;
    item.source = source;
    item.index = static_cast<int>(index);
    item.purpose = purpose;
    item.piece = piece;
    item.check = check;
    item.judge = std::move(judge);
    items_.push_back(std::move(item));
    return items_.back();
  }
  void along_joist(Item& item, std::size_t j) const {
    const survey::Joist& joist = deck_.joists[j];
    const UnitSystem u = units_;
    item.place = [&joist](double at) {
      return survey::at_along(joist.direction, mm(at), joist.position);
    };
    item.where = [&joist, u](double at) {
      return format_length(mm(std::max(0.0, at - joist.from.value())), u) + " from its start";
    };
  }
  template <class Piece>
  void along_line(Item& item, const Piece& piece) const {
    const UnitSystem u = units_;
    item.place = [&piece](double at) {
      return survey::at_along(piece.direction, mm(at), piece.position);
    };
    item.where = [&piece, u](double at) {
      return format_length(mm(std::max(0.0, at - piece.from.value())), u) + " from its start";
    };
  }
  void fixed_place(Item& item, survey::Point at, std::string where) const {
    item.place = [at](double) { return at; };
    item.where = [where = std::move(where)](double) { return where; };
  }

  void joist(std::size_t j);
  void joist_part(std::size_t j, const std::string& name, const Timber& timber, Length b, Length h,
                  double share, double own_moment);
  void bearer(std::size_t b);
  void ledger(std::size_t l);
  void boards();
  void crossing(std::size_t c);
  /// Wood that bears where the joist's first or last carrier meets it, if that was recorded.
  [[nodiscard]] std::optional<Length> seat_at(const model::Crossing& crossing) const;
  void prop(std::size_t p);
  void post(std::size_t support, std::size_t index);
  void footing(std::size_t s);
  void walls();
  void bearing(Source source, std::size_t index, const std::string& piece, const Timber& timber,
               Length width, Length length, Length end_distance, Length depth, int packers,
               survey::Point at, const std::string& where,
               std::optional<Length> clear_to_next = std::nullopt);
  [[nodiscard]] std::optional<Length> clear_to_joists(std::size_t bearer, double at,
                                                      Length contact) const;

  const survey::Deck& deck_;
  const model::Model& model_;
  const Timbers& timbers_;
  const standards::Standard& standard_;
  const std::vector<double>& self_weight_moments_;
  bool braced_;
  UnitSystem units_;
  std::vector<Item> items_;
};

void Lister::joist_part(std::size_t j, const std::string& name, const Timber& timber, Length b,
                        Length h, double share, double own_moment) {
  const survey::Joist& joist = deck_.joists[j];
  const bool held = ends_held(deck_, j);
  const Length free_length = unbraced(deck_, j);
  // A notch away from the supports weakens bending there; at a support on the tension side, shear.
  Length bending_depth = h;
  std::optional<Length> notch;
  for (const survey::Notch& n : joist.notches) {
    if (n.tension_side) {
      notch = notch ? max(*notch, n.depth) : n.depth;
    }
    bending_depth = min(bending_depth, h - n.depth);
  }
  if (bending_depth.value() < 1.0) bending_depth = mm(1.0);
  for (const bool sag : {true, false}) {
    standards::BendingDemand demand;
    demand.timber = timber;
    demand.breadth = b;
    demand.depth = bending_depth;
    demand.unbraced = free_length;
    demand.edge_held = sag;
    demand.ends_held = held;
    Item& item =
        add(sag ? Source::joist_sag : Source::joist_hog, j, Purpose::strength, name, "bending",
            [&standard = standard_, demand, share, own_moment](double moment,
                                                               const Combination& combination) {
              standards::BendingDemand d = demand;
              const double own = at(combination.factors, loads::Nature::self_weight) * own_moment;
              d.moment = Moment(share * moment + (1.0 - share) * own);
              return standard.bending(d, combination);
            });
    along_joist(item, j);
  }
  standards::ShearDemand shear;
  shear.timber = timber;
  shear.breadth = b;
  shear.depth = h;
  if (notch) {
    shear.notch_depth = *notch;
    shear.notch_distance = mm(0.0);
  }
  Item& item =
      add(Source::joist_shear, j, Purpose::strength, name, "shear",
          [&standard = standard_, shear, share](double force, const Combination& combination) {
            standards::ShearDemand d = shear;
            d.shear = Force(share * force);
            return standard.shear(d, combination);
          });
  along_joist(item, j);
}

void Lister::joist(std::size_t j) {
  const survey::Joist& joist = deck_.joists[j];
  const Length h = joist.depth - joist.softened;
  const auto EI = [this](const Timber& timber, Length b, Length depth) {
    return standard_.elastic(timber, standards::Term::now).E.value() * b.value() *
           std::pow(depth.value(), 3) / 12.0;
  };
  double total = EI(timbers_.joists[j], joist.breadth, h);
  const double main = total;
  std::vector<double> parts;
  for (std::size_t k = 0; k < joist.sisters.size(); ++k) {
    parts.push_back(EI(timbers_.sisters[j][k], joist.sisters[k].breadth, joist.sisters[k].depth));
    total += parts.back();
  }
  joist_part(j, joist.id, timbers_.joists[j], joist.breadth, h, main / total,
             parts.empty() ? 0.0 : self_weight_moments_[j]);
  for (std::size_t k = 0; k < parts.size(); ++k) {
    joist_part(j, joist.id + " sister", timbers_.sisters[j][k], joist.sisters[k].breadth,
               joist.sisters[k].depth, parts[k] / total, 0.0);
  }
}

void Lister::bearer(std::size_t b) {
  const survey::SettledBearer& bearer = deck_.bearers[b];
  const Length h = bearer.depth - bearer.softened;
  // Plies that are not fixed together share by what lands on them: joists press on all of them alike,
  // but hangers or side supports load one; then each is checked with an equal share of the load.
  const Length breadth = bearer.ply_breadth * static_cast<double>(bearer.plies);
  Length spacing(0.0);
  double last = -1e300;
  Length longest(0.0);
  std::vector<double> props{bearer.from.value(), bearer.to.value()};
  for (const double at : model_.bearers[b].at) {
    if (last > -1e299) spacing = max(spacing, mm(at - last));
    last = at;
  }
  for (const model::Prop& prop : model_.props) {
    if (!prop.ledger && prop.piece == static_cast<int>(b)) props.push_back(prop.at);
  }
  std::sort(props.begin(), props.end());
  for (std::size_t k = 0; k + 1 < props.size(); ++k)
    longest = max(longest, mm(props[k + 1] - props[k]));
  Length bending_depth = h;
  std::optional<Length> notch;
  for (const survey::Notch& n : bearer.notches) {
    if (n.tension_side) notch = notch ? max(*notch, n.depth) : n.depth;
    bending_depth = max(min(bending_depth, h - n.depth), mm(1.0));
  }
  // The section that resists lateral buckling: the plies as one only where fixed together.
  const double plies = bearer.act_together ? 1.0 : static_cast<double>(bearer.plies);
  const Length acting = breadth / plies;
  for (const bool sag : {true, false}) {
    standards::BendingDemand demand;
    demand.timber = timbers_.bearers[b];
    demand.breadth = acting;
    demand.depth = bending_depth;
    demand.unbraced = sag ? spacing : longest;
    demand.edge_held = false;
    demand.ends_held = true;
    Item& item = add(
        sag ? Source::bearer_sag : Source::bearer_hog, b, Purpose::strength, bearer.id, "bending",
        [&standard = standard_, demand, plies](double moment, const Combination& combination) {
          standards::BendingDemand d = demand;
          d.moment = Moment(moment / plies);
          return standard.bending(d, combination);
        });
    along_line(item, bearer);
  }
  standards::ShearDemand shear;
  shear.timber = timbers_.bearers[b];
  shear.breadth = acting;
  shear.depth = h;
  if (notch) shear.notch_depth = *notch;
  Item& item =
      add(Source::bearer_shear, b, Purpose::strength, bearer.id, "shear",
          [&standard = standard_, shear, plies](double force, const Combination& combination) {
            standards::ShearDemand d = shear;
            d.shear = Force(force / plies);
            return standard.shear(d, combination);
          });
  along_line(item, bearer);
}

void Lister::ledger(std::size_t l) {
  if (model_.ledgers[l].nodes.empty()) return;
  const survey::SettledLedger& ledger = deck_.ledgers[l];
  Length bending_depth = ledger.depth;
  std::optional<Length> notch;
  for (const survey::Notch& n : ledger.notches) {
    if (n.tension_side) notch = notch ? max(*notch, n.depth) : n.depth;
    bending_depth = max(min(bending_depth, ledger.depth - n.depth), mm(1.0));
  }
  for (const bool sag : {true, false}) {
    standards::BendingDemand demand;
    demand.timber = timbers_.ledgers[l];
    demand.breadth = ledger.breadth;
    demand.depth = bending_depth;
    demand.unbraced = ledger.fixing_spacing;
    demand.edge_held = true;  // against the wall
    demand.ends_held = true;
    Item& item = add(
        sag ? Source::ledger_sag : Source::ledger_hog, l, Purpose::strength, ledger.id, "bending",
        [&standard = standard_, demand](double moment, const Combination& combination) {
          standards::BendingDemand d = demand;
          d.moment = Moment(moment);
          return standard.bending(d, combination);
        });
    along_line(item, ledger);
  }
  standards::ShearDemand shear;
  shear.timber = timbers_.ledgers[l];
  shear.breadth = ledger.breadth;
  shear.depth = ledger.depth;
  if (notch) shear.notch_depth = *notch;
  Item& item = add(Source::ledger_shear, l, Purpose::strength, ledger.id, "shear",
                   [&standard = standard_, shear](double force, const Combination& combination) {
                     standards::ShearDemand d = shear;
                     d.shear = Force(force);
                     return standard.shear(d, combination);
                   });
  along_line(item, ledger);
}

void Lister::boards() {
  standards::BendingDemand demand;
  demand.timber = timbers_.boards;
  demand.breadth = deck_.boards.width;
  demand.depth = deck_.boards.thickness;
  demand.edge_held = true;
  demand.ends_held = true;
  standards::ShearDemand shear;
  shear.timber = timbers_.boards;
  shear.breadth = deck_.boards.width;
  shear.depth = deck_.boards.thickness;
  const bool timber_boards = deck_.boards.material == survey::BoardMaterial::softwood ||
                             deck_.boards.material == survey::BoardMaterial::hardwood;
  if (!timber_boards) return;  // judged by their stated span alone
  survey::Point centre =
      deck_.loads.empty() ? survey::centroid(deck_.outline) : deck_.loads.front().centre;
  Item& bending =
      add(Source::boards_bending, 0, Purpose::strength, "boards", "bending",
          [&standard = standard_, demand](double moment, const Combination& combination) {
            standards::BendingDemand d = demand;
            d.moment = Moment(moment);
            return standard.bending(d, combination);
          });
  fixed_place(bending, centre, "under the load");
  Item& item = add(Source::boards_shear, 0, Purpose::strength, "boards", "shear",
                   [&standard = standard_, shear](double force, const Combination& combination) {
                     standards::ShearDemand d = shear;
                     d.shear = Force(force);
                     return standard.shear(d, combination);
                   });
  fixed_place(item, centre, "under the load");
}

void Lister::bearing(Source source, std::size_t index, const std::string& piece,
                     const Timber& timber, Length width, Length length, Length end_distance,
                     Length depth, int packers, survey::Point at, const std::string& where,
                     std::optional<Length> clear_to_next) {
  standards::BearingDemand demand;
  demand.timber = timber;
  demand.width = width;
  demand.length = length;
  demand.end_distance = max(end_distance, mm(0.0));
  demand.depth = depth;
  demand.packers = packers;
  demand.clear_to_next = clear_to_next;
  Item& item = add(source, index, Purpose::strength, piece, "bearing across the grain",
                   [&standard = standard_, demand](double force, const Combination& combination) {
                     standards::BearingDemand d = demand;
                     d.force = Force(force);
                     return standard.bearing(d, combination);
                   });
  fixed_place(item, at, where);
}

/// Clear distance along a bearer from a contact below it to the nearest joist's above it; nothing if
/// no joist stands on it.
std::optional<Length> Lister::clear_to_joists(std::size_t bearer, double at, Length contact) const {
  std::optional<Length> nearest;
  for (const model::Crossing& crossing : model_.crossings) {
    if (crossing.kind != model::CrossingKind::bearer || crossing.end_joint ||
        crossing.other != static_cast<int>(bearer)) {
      continue;
    }
    const survey::Joist& joist = deck_.joists[static_cast<std::size_t>(crossing.joist)];
    Length breadth = joist.breadth;
    for (const survey::SettledSister& sister : joist.sisters) breadth += sister.breadth;
    const Length clear =
        max(mm(0.0), mm(std::abs(crossing.at_other - at)) - (contact + breadth) / 2.0);
    nearest = nearest ? min(*nearest, clear) : clear;
  }
  return nearest;
}

std::optional<Length> Lister::seat_at(const model::Crossing& crossing) const {
  const survey::Joist& joist = deck_.joists[static_cast<std::size_t>(crossing.joist)];
  bool first = true, last = true;
  for (const model::Crossing& other : model_.crossings) {
    if (other.joist != crossing.joist) continue;
    first = first && other.at_joist >= crossing.at_joist;
    last = last && other.at_joist <= crossing.at_joist;
  }
  std::optional<Length> seat;
  if (first) seat = joist.start.seat;
  if (last && joist.end.seat) seat = seat ? min(*seat, *joist.end.seat) : *joist.end.seat;
  return seat;
}

void Lister::crossing(std::size_t c) {
  const model::Crossing& crossing = model_.crossings[c];
  const auto j = static_cast<std::size_t>(crossing.joist);
  const survey::Joist& joist = deck_.joists[j];
  Length joist_width = joist.breadth;
  for (const survey::SettledSister& sister : joist.sisters) joist_width += sister.breadth;
  const survey::Point place =
      survey::at_along(joist.direction, mm(crossing.at_joist), joist.position);
  const auto end_distance = [&](Length contact) {
    const double from_start = crossing.at_joist - joist.from.value(),
                 to_end = joist.to.value() - crossing.at_joist;
    return mm(std::min(from_start, to_end)) - contact / 2.0;
  };
  if (crossing.kind == model::CrossingKind::bearer && !crossing.end_joint) {
    const survey::SettledBearer& bearer = deck_.bearers[static_cast<std::size_t>(crossing.other)];
    const Length b = bearer.ply_breadth * static_cast<double>(bearer.plies);
    const std::string where = "over bearer " + bearer.id;
    Length contact = b;
    if (const auto seat = seat_at(crossing)) contact = min(contact, *seat);
    bearing(Source::crossing, c, joist.id, timbers_.joists[j], joist_width, contact,
            end_distance(contact), joist.depth, 0, place, where);
    const double t = crossing.at_other;
    bearing(Source::crossing, c, bearer.id,
            timbers_.bearers[static_cast<std::size_t>(crossing.other)], contact, joist_width,
            mm(std::min(t - bearer.from.value(), bearer.to.value() - t)) - joist_width / 2.0,
            bearer.depth, 0, place, "under joist " + joist.id);
    if (crossing.two_way) {
      const standards::HoldDownDemand demand =
          hold_down_demand(deck_, timbers_, static_cast<std::size_t>(crossing.other));
      Item& item =
          add(Source::crossing_lift, c, Purpose::uplift, joist.id, "hold-down",
              [&standard = standard_, demand](double force, const Combination& combination) {
                standards::HoldDownDemand d = demand;
                d.uplift = Force(force);
                return standard.hold_down(d, combination);
              });
      fixed_place(item, place, where);
    }
    return;
  }
  if (crossing.end_joint) {
    const standards::EndDemand demand = end_demand(deck_, timbers_, standard_, j, crossing.end);
    const std::string end = crossing.end == 0 ? "at its start" : "at its end";
    const survey::SettledHold& hold = crossing.end == 0 ? joist.start : joist.end;
    const bool resting = demand.kind == standards::EndKind::resting;
    Item& item = add(Source::crossing, c, Purpose::strength, joist.id,
                     resting ? "bearing across the grain" : "end connection",
                     [&standard = standard_, demand](double force, const Combination& combination) {
                       standards::EndDemand d = demand;
                       d.shear = Force(force);
                       return standard.joist_end(d, combination);
                     });
    fixed_place(item, place, end);
    // Wood in a hanger or over its nails still bears on a seat as long as recorded.
    if (demand.kind == standards::EndKind::hanger && hold.seat) {
      bearing(Source::crossing, c, joist.id, timbers_.joists[j], joist_width, *hold.seat, mm(0.0),
              joist.depth, 0, place, end + ", in its hanger");
    }
    return;
  }
  if (crossing.kind == model::CrossingKind::support) {
    const survey::SettledSupport& support =
        deck_.supports[static_cast<std::size_t>(crossing.other)];
    Length contact = support.bearing_length.value_or(
        support.post ? support.post->breadth
                     : (joist.direction == survey::Axis::y ? support.footing.length
                                                           : support.footing.width));
    if (const auto seat = seat_at(crossing)) contact = min(contact, *seat);
    bearing(Source::crossing, c, joist.id, timbers_.joists[j], joist_width, contact,
            end_distance(contact), joist.depth, support.packers, place,
            "over support " + support.id);
    if (support.post) post(static_cast<std::size_t>(crossing.other), c);
    return;
  }
  const survey::SettledWall& wall = deck_.walls[static_cast<std::size_t>(crossing.other)];
  const Length on_wall = min(wall.width, seat_at(crossing).value_or(wall.width));
  bearing(Source::crossing, c, joist.id, timbers_.joists[j], joist_width, on_wall,
          end_distance(on_wall), joist.depth, 0, place, "over wall " + wall.id);
}

void Lister::post(std::size_t s, std::size_t index) {
  const survey::SettledSupport& support = deck_.supports[s];
  const survey::SettledPost& record = *support.post;
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
    const survey::SettledBearer& bearer = deck_.bearers[static_cast<std::size_t>(support.bearer)];
    off += (record.breadth + bearer.ply_breadth * static_cast<double>(bearer.plies)) / 2.0;
  }
  Item& item =
      add(source, index, Purpose::strength, support.id, "post, buckling",
          [&standard = standard_, demand, off](double force, const Combination& combination) {
            standards::ColumnDemand d = demand;
            d.axial = Force(force);
            d.moment = Force(force) * off;
            return standard.column(d, combination);
          });
  fixed_place(item, support.at, "post");
}

void Lister::prop(std::size_t p) {
  const model::Prop& prop = model_.props[p];
  if (prop.ledger) {
    const auto l = static_cast<std::size_t>(prop.piece);
    const survey::SettledLedger& ledger = deck_.ledgers[l];
    const standards::LedgerFixingDemand demand = ledger_demand(deck_, timbers_, l);
    Item& item = add(Source::prop, p, Purpose::strength, ledger.id, "ledger fixing",
                     [&standard = standard_, demand](double force, const Combination& combination) {
                       standards::LedgerFixingDemand d = demand;
                       d.shear = Force(force);
                       return standard.ledger_fixing(d, combination);
                     });
    const survey::Point at = survey::at_along(ledger.direction, mm(prop.at), ledger.position);
    fixed_place(item, at,
                "fixing " + format_length(mm(prop.at) - ledger.from, units_) + " from its start");
    return;
  }
  const auto s = static_cast<std::size_t>(prop.support);
  const survey::SettledSupport& support = deck_.supports[s];
  const auto b = static_cast<std::size_t>(prop.piece);
  const survey::SettledBearer& bearer = deck_.bearers[b];
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
    Item& item = add(Source::prop, p, Purpose::strength, bearer.id, "bolts to the side of a post",
                     [&standard = standard_, demand](double force, const Combination& combination) {
                       standards::SideBoltDemand d = demand;
                       d.shear = Force(force);
                       return standard.side_bolts(d, combination);
                     });
    fixed_place(item, support.at, "at post " + support.id);
  } else {
    const Length width =
        support.post ? min(breadth, max(support.post->breadth, support.post->depth)) : breadth;
    const Length contact = support.bearing_length.value_or(
        support.post ? support.post->breadth
                     : (bearer.direction == survey::Axis::x ? support.footing.width
                                                            : support.footing.length));
    const double t = prop.at;
    bearing(Source::prop, p, bearer.id, timbers_.bearers[b], width, contact,
            mm(std::min(t - bearer.from.value(), bearer.to.value() - t)) - contact / 2.0,
            bearer.depth, support.packers, support.at, where, clear_to_joists(b, t, contact));
  }
  if (support.post) post(s, p);
}

void Lister::footing(std::size_t s) {
  if (model_.support_of[s] < 0) return;
  const survey::SettledSupport& support = deck_.supports[s];
  const survey::SettledFooting& footing = support.footing;
  standards::GroundDemand demand;
  demand.type = footing.kind == survey::FootingKind::screw_pile ? standards::FootingType::screw_pile
                : footing.kind == survey::FootingKind::strip    ? standards::FootingType::strip
                                                                : standards::FootingType::pad;
  demand.soil = soil_kind(deck_.site);
  demand.outlook = deck_.reading == survey::Reading::cautious ? standards::Outlook::cautious
                   : deck_.reading == survey::Reading::likely ? standards::Outlook::likely
                                                              : standards::Outlook::favourable;
  demand.post_weight = post_weight(deck_, s, standard_);
  demand.width = footing.width;
  demand.length = footing.length;
  demand.thickness = footing.thickness;
  if (support.post) {
    demand.contact_width = support.post->breadth;
    demand.contact_length = support.post->depth;
  } else if (support.bearer >= 0) {
    const survey::SettledBearer& b = deck_.bearers[static_cast<std::size_t>(support.bearer)];
    const Length across = b.ply_breadth * static_cast<double>(b.plies);
    const bool along_x = b.direction == survey::Axis::x;
    demand.contact_width = along_x ? footing.width : across;
    demand.contact_length = along_x ? across : footing.length;
  } else {
    const survey::Joist& j = deck_.joists[static_cast<std::size_t>(support.joist)];
    const bool along_x = j.direction == survey::Axis::x;
    demand.contact_width = along_x ? support.bearing_length.value_or(footing.width) : j.breadth;
    demand.contact_length = along_x ? j.breadth : support.bearing_length.value_or(footing.length);
  }
  demand.contact_width = min(demand.contact_width, demand.width);
  demand.contact_length = min(demand.contact_length, demand.length);
  demand.offset = footing.offset;
  // A slab or block that was laid, not dug in, counts as standing on the surface.
  const bool laid = footing.kind == survey::FootingKind::laid_slab ||
                    footing.kind == survey::FootingKind::deck_block;
  demand.depth = laid ? mm(0.0) : footing.depth;
  demand.below_topsoil = footing.below_topsoil;
  demand.waterlogged = deck_.site.water_in_hole;
  demand.spreads = !footing.cracked;
  demand.stated_capacity = footing.stated_capacity;
  Item& item = add(Source::ground_support, s, Purpose::ground, support.id, "ground pressure",
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
    const survey::SettledWall& wall = deck_.walls[static_cast<std::size_t>(crossing.other)];
    const survey::Joist& joist = deck_.joists[static_cast<std::size_t>(crossing.joist)];
    standards::GroundDemand demand;
    demand.type = standards::FootingType::strip;
    demand.soil = soil_kind(deck_.site);
    demand.outlook = deck_.reading == survey::Reading::cautious ? standards::Outlook::cautious
                     : deck_.reading == survey::Reading::likely ? standards::Outlook::likely
                                                                : standards::Outlook::favourable;
    demand.width = wall.strip_width;
    demand.length = mm(crossing.at_other);
    demand.thickness = mm(0.0);
    demand.contact_width = wall.strip_width;
    demand.contact_length = mm(crossing.at_other);
    demand.depth = wall.depth;
    demand.waterlogged = deck_.site.water_in_hole;
    Item& item = add(Source::ground_wall, c, Purpose::ground, wall.id, "ground pressure",
                     [&standard = standard_, demand](double force, const Combination& combination) {
                       standards::GroundDemand d = demand;
                       d.load = Force(force);
                       return standard.ground(d, combination);
                     });
    fixed_place(item, survey::at_along(joist.direction, mm(crossing.at_joist), joist.position),
                "under joist " + joist.id);
  }
}

}  // namespace

std::vector<Item> items(const survey::Deck& deck, const model::Model& model, const Timbers& timbers,
                        const standards::Standard& standard,
                        const std::vector<double>& self_weight_moments, bool braced) {
  // The judges refer to the lister's inputs, which live as long as the items; not to the lister.
  return Lister(deck, model, timbers, standard, self_weight_moments, braced).list();
}

}  // namespace underprop::assessment
