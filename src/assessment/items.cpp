#include "lister.hpp"

#include "catalog/table.hpp"

namespace underprop::assessment {

using standards::Check;
using standards::CheckKind;
using standards::Combination;
using standards::Purpose;
using standards::Timber;

/// Whether k_sys (EN 1995-1-1 6.6) or C_r (NDS 4.3.9) may be counted: like joists at like distances under
/// boards that run on over them, and no load near that is heavier than the people it displaces, or than one
/// person. Under a heavier one the frame shares by stiffness already.
bool Lister::shares(std::size_t j) const {
  const auto figure = [](const char* name) {
    return catalog::number(catalog::table("model.json"), name);
  };
  const deck::Boards& boards = deck_.boards;
  const bool wood = boards.material == record::BoardMaterial::softwood ||
                    boards.material == record::BoardMaterial::hardwood;
  if (!wood || !boards.joints_recorded) return false;
  const deck::Joist& joist = deck_.joists[j];
  if (!joist.absent.empty()) return false;
  const Length widest = mm(figure("sharing_spacing_mm"));
  std::size_t like = 0;
  Length below = widest * 2.0, above = widest * 2.0;
  bool first = true, last = true;
  for (std::size_t k = 0; k < deck_.joists.size(); ++k) {
    const deck::Joist& other = deck_.joists[k];
    if (other.direction != joist.direction || !(other.from < joist.to && other.to > joist.from))
      continue;
    const bool same = other.timber == joist.timber && other.breadth == joist.breadth &&
                      other.depth == joist.depth && other.absent.empty();
    if (same) ++like;
    if (k == j) continue;
    const Length off = other.position - joist.position;
    (off < mm(0.0) ? first : last) = false;
    if (!same) continue;
    if (off < mm(0.0))
      below = min(below, -off);
    else
      above = min(above, off);
  }
  const auto near = [&](Length off, bool edge) {
    return edge || off <= widest * (1.0 + standards::same_number);
  };
  if (static_cast<double>(like) < figure("sharing_members") || !near(below, first) ||
      !near(above, last) || (first && last))
    return false;
  if (!with_load_) return true;
  const standards::LoadValues values = standard_.loads(deck_.height);
  const Length reach = mm(figure("sharing_reach_mm"));
  return std::none_of(deck_.loads.begin(), deck_.loads.end(), [&](const deck::Load& load) {
    const Force all =
        weight(load.dry_mass + load.contents + values.person * static_cast<double>(load.people));
    const Force displaced = values.imposed * area(load.footprint);
    if (all <= max(displaced, values.concentrated)) return false;
    return distance_to_segment(load.footprint,
                               at_along(joist.direction, joist.from, joist.position),
                               at_along(joist.direction, joist.to, joist.position)) <= reach;
  });
}

void Lister::joist_part(std::size_t j, const std::string& name, const Timber& timber, Length b,
                        Length h, double share, double shear_share, double own_moment) {
  const deck::Joist& joist = deck_.joists[j];
  const bool held = ends_held(deck_, j);
  const Length free_length = unbraced(deck_, j);
  WeakPiece weak;
  for (const bool sag : {true, false}) {
    standards::BendingDemand demand;
    demand.timber = timber;
    demand.breadth = b;
    demand.depth = h;
    demand.unbraced = free_length;
    demand.edge_held = sag;
    demand.ends_held = held;
    (sag ? weak.sagging : weak.hogging) = demand;
    demand.sharing = joist.sisters.empty() && shares(j);
    Item& item = add(
        sag ? Source::joist_sag : Source::joist_hog, j, Purpose::strength, name, CheckKind::bending,
        [&standard = standard_, demand, share, own_moment](double moment,
                                                           const Combination& combination) {
          standards::BendingDemand d = demand;
          const double own = at(combination.factors, loads::Nature::self_weight) * own_moment;
          d.moment = Moment(share * moment + (1.0 - share) * own);
          return standard.bending(d, combination);
        });
    along_joist(item, j);
    item.variant = demand.sharing ? 1.0 : 0.0;
  }
  standards::ShearDemand shear;
  shear.timber = timber;
  shear.breadth = b;
  shear.depth = h;
  weak.shearing = shear;
  shear.without_near_loads = !rules_[j].seats.empty();
  Item& item = add(
      Source::joist_shear, j, Purpose::strength, name, CheckKind::shear,
      [&standard = standard_, shear, shear_share](double force, const Combination& combination) {
        standards::ShearDemand d = shear;
        d.shear = Force(shear_share * force);
        return standard.shear(d, combination);
      });
  along_joist(item, j);
  // A sister's own wood is taken as whole: what is recorded is recorded of the joist.
  if (name != joist.id) return;
  weak.index = weak.group = j;
  weak.name = name;
  weak.share = share;
  weak.shear_share = shear_share;
  weak.own_moment = own_moment;
  weak_sections(weak, [this, j](Item& of) { along_joist(of, j); });
}

template <class Along>
void Lister::weak_sections(const WeakPiece& piece, const Along& along) {
  const std::vector<Section>& sections = rules_[piece.group].sections;
  for (std::size_t s = 0; s < sections.size(); ++s) {
    const Section& section = sections[s];
    const standards::Weakening& weak = section.weakening;
    const std::string refused = standard_.not_allowed(weak);
    const auto place = [&](Item& item) {
      item.section = static_cast<int>(s);
      along(item);
      item.where = [where = item.where, what = section.what](double at) {
        return "at the " + what + ", " + where(at);
      };
    };
    for (const bool sag : {true, false}) {
      standards::BendingDemand demand = sag ? piece.sagging : piece.hogging;
      demand.depth = max(demand.depth - weak.lost, mm(1.0));
      if (weak.kind != standards::WeakKind::hole) demand.refused = refused;
      place(add(sag ? piece.sag : piece.hog, piece.index, Purpose::strength, piece.name,
                CheckKind::bending,
                [&standard = standard_, demand, share = piece.share, own_moment = piece.own_moment](
                    double moment, const Combination& combination) {
                  standards::BendingDemand d = demand;
                  const double own =
                      at(combination.factors, loads::Nature::self_weight) * own_moment;
                  d.moment = Moment(share * moment + (1.0 - share) * own);
                  return standard.bending(d, combination);
                }));
    }
    standards::ShearDemand demand = piece.shearing;
    if (weak.kind == standards::WeakKind::hole) demand.refused = refused;
    const Length lost = min(weak.lost, demand.depth - mm(1.0));
    if (weak.at_support && weak.x > mm(0.0)) {
      demand.notch_depth = lost;
      demand.notch_distance = weak.x;
    } else {
      demand.lost = lost;
    }
    place(add(piece.shear, piece.index, Purpose::strength, piece.name, CheckKind::shear,
              [&standard = standard_, demand, share = piece.shear_share](
                  double force, const Combination& combination) {
                standards::ShearDemand d = demand;
                d.shear = Force(share * force);
                return standard.shear(d, combination);
              }));
  }
}

void Lister::joist(std::size_t j) {
  const deck::Joist& joist = deck_.joists[j];
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
  if (model_.by_sister[j]) {
    // All of it goes through the sisters where the joist is absent, and how soon what is left of the joist
    // takes a share is not known: the sisters are checked with the whole, the joist with its share.
    for (std::size_t k = 0; k < parts.size(); ++k) {
      joist_part(j, joist.id + " sister", timbers_.sisters[j][k], joist.sisters[k].breadth,
                 joist.sisters[k].depth, parts[k] / (total - main), parts[k] / (total - main), 0.0);
    }
    parts.clear();
  }
  // Where its own ends are held by hangers, nails or strips, all shear goes into the joist itself.
  const bool hung =
      std::any_of(model_.crossings.begin(), model_.crossings.end(), [&](const auto& crossing) {
        return crossing.joist == static_cast<int>(j) && crossing.end_joint;
      });
  joist_part(j, joist.id, timbers_.joists[j], joist.breadth, h, main / total,
             hung ? 1.0 : main / total, parts.empty() ? 0.0 : self_weight_moments_[j]);
  for (std::size_t k = 0; k < parts.size(); ++k) {
    joist_part(j, joist.id + " sister", timbers_.sisters[j][k], joist.sisters[k].breadth,
               joist.sisters[k].depth, parts[k] / total, parts[k] / total, 0.0);
  }
}

void Lister::bearer(std::size_t b) {
  const deck::Bearer& bearer = deck_.bearers[b];
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
  WeakPiece weak;
  // The section that resists lateral buckling: the plies as one only where fixed together.
  const double plies = bearer.act_together ? 1.0 : static_cast<double>(bearer.plies);
  const Length acting = breadth / plies;
  for (const bool sag : {true, false}) {
    standards::BendingDemand demand;
    demand.timber = timbers_.bearers[b];
    demand.breadth = acting;
    demand.depth = h;
    demand.unbraced = sag ? spacing : longest;
    demand.edge_held = false;
    demand.ends_held = true;
    (sag ? weak.sagging : weak.hogging) = demand;
    Item& item =
        add(sag ? Source::bearer_sag : Source::bearer_hog, b, Purpose::strength, bearer.id,
            CheckKind::bending,
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
  weak.shearing = shear;
  const std::size_t line = deck_.joists.size() + b;
  shear.without_near_loads = !rules_[line].seats.empty();
  Item& item =
      add(Source::bearer_shear, b, Purpose::strength, bearer.id, CheckKind::shear,
          [&standard = standard_, shear, plies](double force, const Combination& combination) {
            standards::ShearDemand d = shear;
            d.shear = Force(force / plies);
            return standard.shear(d, combination);
          });
  along_line(item, bearer);
  weak.sag = Source::bearer_sag;
  weak.hog = Source::bearer_hog;
  weak.shear = Source::bearer_shear;
  weak.index = b;
  weak.group = line;
  weak.name = bearer.id;
  weak.share = weak.shear_share = 1.0 / plies;
  weak_sections(weak, [this, &bearer](Item& of) { along_line(of, bearer); });
}

void Lister::ledger(std::size_t l) {
  if (model_.ledgers[l].nodes.empty()) return;
  const deck::Ledger& ledger = deck_.ledgers[l];
  WeakPiece weak;
  for (const bool sag : {true, false}) {
    standards::BendingDemand demand;
    demand.timber = timbers_.ledgers[l];
    demand.breadth = ledger.breadth;
    demand.depth = ledger.depth;
    demand.unbraced = ledger.fixing_spacing;
    demand.edge_held = true;  // against the wall
    demand.ends_held = true;
    (sag ? weak.sagging : weak.hogging) = demand;
    Item& item =
        add(sag ? Source::ledger_sag : Source::ledger_hog, l, Purpose::strength, ledger.id,
            CheckKind::bending,
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
  weak.shearing = shear;
  Item& item = add(Source::ledger_shear, l, Purpose::strength, ledger.id, CheckKind::shear,
                   [&standard = standard_, shear](double force, const Combination& combination) {
                     standards::ShearDemand d = shear;
                     d.shear = Force(force);
                     return standard.shear(d, combination);
                   });
  along_line(item, ledger);
  weak.sag = Source::ledger_sag;
  weak.hog = Source::ledger_hog;
  weak.shear = Source::ledger_shear;
  weak.index = l;
  weak.group = deck_.joists.size() + deck_.bearers.size() + l;
  weak.name = ledger.id;
  weak_sections(weak, [this, &ledger](Item& of) { along_line(of, ledger); });
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
  const bool timber_boards = deck_.boards.material == record::BoardMaterial::softwood ||
                             deck_.boards.material == record::BoardMaterial::hardwood;
  if (!timber_boards) return;  // judged by their stated span alone
  Point centre = deck_.loads.empty() ? centroid(deck_.outline) : deck_.loads.front().centre;
  Item& bending =
      add(Source::boards_bending, 0, Purpose::strength, "boards", CheckKind::bending,
          [&standard = standard_, demand](double moment, const Combination& combination) {
            standards::BendingDemand d = demand;
            d.moment = Moment(moment);
            return standard.bending(d, combination);
          });
  fixed_place(bending, centre, "under the load");
  Item& item = add(Source::boards_shear, 0, Purpose::strength, "boards", CheckKind::shear,
                   [&standard = standard_, shear](double force, const Combination& combination) {
                     standards::ShearDemand d = shear;
                     d.shear = Force(force);
                     return standard.shear(d, combination);
                   });
  fixed_place(item, centre, "under the load");
}

void Lister::bearing(Source source, std::size_t index, const std::string& piece,
                     const Timber& timber, Length width, Length length, Length end_distance,
                     Length depth, int packers, Point at, const std::string& where,
                     std::optional<Length> clear_to_next) {
  standards::BearingDemand demand;
  demand.timber = timber;
  demand.width = width;
  demand.length = length;
  demand.end_distance = max(end_distance, mm(0.0));
  demand.depth = depth;
  demand.packers = packers;
  demand.clear_to_next = clear_to_next;
  Item& item = add(source, index, Purpose::strength, piece, CheckKind::bearing,
                   [&standard = standard_, demand](double force, const Combination& combination) {
                     standards::BearingDemand d = demand;
                     d.force = Force(force);
                     return standard.bearing(d, combination);
                   });
  fixed_place(item, at, where);
  item.variant = clear_to_next.value_or(mm(-1.0)).value();
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
    const deck::Joist& joist = deck_.joists[static_cast<std::size_t>(crossing.joist)];
    Length breadth = joist.breadth;
    for (const deck::Sister& sister : joist.sisters) breadth += sister.breadth;
    const Length clear =
        max(mm(0.0), mm(std::abs(crossing.at_other - at)) - (contact + breadth) / 2.0);
    nearest = nearest ? min(*nearest, clear) : clear;
  }
  return nearest;
}

/// Clear distance along a joist from what it rests on to the nearest foot, runner or other small base of a
/// load that its boards may bring to it. Boards themselves, with a full base or people on them, are a
/// distributed load, far from which every support is.
std::optional<Length> Lister::clear_to_feet(std::size_t j, double at, Length contact) const {
  const deck::Joist& joist = deck_.joists[j];
  const Length reach = mm(catalog::number(catalog::table("model.json"), "feet_beside_joist_mm"));
  Length nearest = joist.to - joist.from + mm(1e4);
  for (const deck::Load& load : deck_.loads) {
    for (const Polygon& patch : load.patches) {
      const Interval across = extent(patch, other(joist.direction));
      if (across.low > joist.position + reach || across.high < joist.position - reach) continue;
      const Interval along = extent(patch, joist.direction);
      const Length off = max(max(along.low - mm(at), mm(at) - along.high), mm(0.0));
      nearest = min(nearest, max(off - contact / 2.0, mm(0.0)));
    }
  }
  return nearest;
}

/// Clear distance along a bearer from a joist on it to the nearest support under it.
std::optional<Length> Lister::clear_to_supports(std::size_t bearer, double at, Length joist) const {
  std::optional<Length> nearest;
  for (const model::Prop& prop : model_.props) {
    if (prop.ledger || prop.support < 0 || prop.piece != static_cast<int>(bearer)) continue;
    const deck::Support& support = deck_.supports[static_cast<std::size_t>(prop.support)];
    const Length plain = support.post                                 ? support.post->breadth
                         : deck_.bearers[bearer].direction == Axis::y ? support.footing.length
                                                                      : support.footing.width;
    const Length half = (support.bearing_length.value_or(plain) + joist) / 2.0;
    const Length clear = max(mm(0.0), mm(std::abs(prop.at - at)) - half);
    nearest = nearest ? min(*nearest, clear) : clear;
  }
  return nearest;
}

std::optional<Length> Lister::seat_at(const model::Crossing& crossing) const {
  const deck::Joist& joist = deck_.joists[static_cast<std::size_t>(crossing.joist)];
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
  const deck::Joist& joist = deck_.joists[j];
  // What lies on a carrier lies there with all its pieces, as weak as the weakest of them.
  Length joist_width = joist.breadth, joist_depth = joist.depth;
  std::string name = joist.id;
  Timber timber = timbers_.joists[j];
  for (std::size_t k = 0; k < joist.sisters.size(); ++k) {
    const Timber& sister = timbers_.sisters[j][k];
    const bool first = crossing.on_sister && k == 0;
    if (first || sister.compression_across < timber.compression_across) timber = sister;
    joist_width += joist.sisters[k].breadth;
    joist_depth = first ? joist.sisters[k].depth : min(joist_depth, joist.sisters[k].depth);
  }
  if (crossing.on_sister) {
    name += " sister";
    joist_width -= joist.breadth;
  }
  const Point place = at_along(joist.direction, mm(crossing.at_joist), joist.position);
  const deck::Meeting& meeting = deck_.meetings[crossing.meeting];
  // No more wood bears than lies over the carrier, nor more than was seen to.
  const auto bearing_length = [&](Length carrier) {
    return min(min(carrier, meeting.overlap), seat_at(crossing).value_or(carrier));
  };
  const auto end_distance = [&](Length contact) {
    const double from_start = crossing.at_joist - joist.from.value(),
                 to_end = joist.to.value() - crossing.at_joist;
    return mm(std::min(from_start, to_end)) - contact / 2.0;
  };
  if (crossing.kind == model::CrossingKind::bearer && !crossing.end_joint) {
    const deck::Bearer& bearer = deck_.bearers[static_cast<std::size_t>(crossing.other)];
    const Length b = bearer.ply_breadth * static_cast<double>(bearer.plies);
    const std::string where = "over bearer " + bearer.id;
    const Length contact = bearing_length(b);
    bearing(Source::crossing, c, name, timber, joist_width, contact, end_distance(contact),
            joist_depth, 0, place, where, clear_to_feet(j, crossing.at_joist, contact));
    const double t = crossing.at_other;
    bearing(Source::crossing, c, bearer.id,
            timbers_.bearers[static_cast<std::size_t>(crossing.other)], contact, joist_width,
            mm(std::min(t - bearer.from.value(), bearer.to.value() - t)) - joist_width / 2.0,
            bearer.depth, 0, place, "under joist " + joist.id,
            clear_to_supports(static_cast<std::size_t>(crossing.other), t, joist_width));
    if (crossing.two_way) {
      const standards::HoldDownDemand demand =
          hold_down_demand(deck_, timbers_, static_cast<std::size_t>(crossing.other));
      Item& item =
          add(Source::crossing_lift, c, Purpose::uplift, joist.id, CheckKind::hold_down,
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
    const standards::EndDemand demand = end_demand(deck_, timbers_, j, crossing.end, &meeting);
    const std::string end = crossing.end == 0 ? "at its start" : "at its end";
    const deck::EndHold& hold = crossing.end == 0 ? joist.start : joist.end;
    const bool resting = demand.kind == standards::EndKind::resting;
    Item& item = add(Source::crossing, c, Purpose::strength, joist.id,
                     resting ? CheckKind::bearing : CheckKind::end_connection,
                     [&standard = standard_, demand](double force, const Combination& combination) {
                       standards::EndDemand d = demand;
                       d.shear = Force(force);
                       return standard.joist_end(d, combination);
                     });
    fixed_place(item, place, end);
    // Wood in a hanger or over its nails still bears on a seat as long as recorded.
    if (demand.kind == standards::EndKind::hanger && hold.seat) {
      // Its sisters are not in the hanger.
      bearing(Source::crossing, c, joist.id, timbers_.joists[j], joist.breadth, *hold.seat, mm(0.0),
              joist.depth, 0, place, end + ", in its hanger");
    }
    return;
  }
  if (crossing.kind == model::CrossingKind::support) {
    const deck::Support& support = deck_.supports[static_cast<std::size_t>(crossing.other)];
    const Length contact = bearing_length(support.bearing_length.value_or(
        support.post
            ? support.post->breadth
            : (joist.direction == Axis::y ? support.footing.length : support.footing.width)));
    bearing(Source::crossing, c, name, timber, joist_width, contact, end_distance(contact),
            joist_depth, support.packers, place, "over support " + support.id,
            clear_to_feet(j, crossing.at_joist, contact));
    if (support.post) post(static_cast<std::size_t>(crossing.other), c);
    return;
  }
  const deck::Wall& wall = deck_.walls[static_cast<std::size_t>(crossing.other)];
  const Length on_wall = bearing_length(wall.width);
  bearing(Source::crossing, c, name, timber, joist_width, on_wall, end_distance(on_wall),
          joist_depth, 0, place, "over wall " + wall.id,
          clear_to_feet(j, crossing.at_joist, on_wall));
}

std::vector<Item> items(const deck::Deck& deck, const model::Model& model, const Timbers& timbers,
                        const standards::Standard& standard,
                        const std::vector<double>& self_weight_moments, bool braced,
                        bool with_load) {
  // The judges refer to the lister's inputs, which live as long as the items; not to the lister.
  return Lister(deck, model, timbers, standard, self_weight_moments, braced, with_load).list();
}

}  // namespace underprop::assessment
