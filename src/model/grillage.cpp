#include "model/grillage.hpp"

#include "case_builder.hpp"
#include "layout.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::model {

namespace {

double second_moment(double b, double h) { return b * h * h * h / 12.0; }

/// Shear area of a rectangle: 5/6 of it (form factor 6/5; Gere, Mechanics of Materials).
constexpr double rectangle_shear_share = 5.0 / 6.0;

/// Two springs one after the other.
double in_series(double a, double b) { return (a <= 0.0 || b <= 0.0) ? 0.0 : a * b / (a + b); }

/// Crushing across the grain of two prisms, each over half its depth: k = E A / (h / 2).
double crossing_spring(const Stiff& upper, double upper_b, double upper_h, const Stiff& lower,
                       double lower_b, double lower_h) {
  const double area = upper_b * lower_b;
  return in_series(upper.E_across * area / (upper_h / 2.0),
                   lower.E_across * area / (lower_h / 2.0));
}

/// Free ends of boards shorter than this are no beams of their own, mm.
constexpr double least_overhang = 10.0;

/// Bending and shear stiffness of a section, N mm2 and N.
struct Section {
  double EI = 0.0, kGA = 0.0;
};

/// The sisters of a joist as one piece across the grain: their breadths together, with the stiffness that
/// their springs beside each other have; the least of their depths.
struct Together {
  double breadth = 0.0, depth = 0.0;
  Stiff stiff;
};
Together together(const deck::Joist& joist, const std::vector<Stiff>& stiff) {
  Together all;
  for (std::size_t k = 0; k < joist.sisters.size(); ++k) {
    const double b = joist.sisters[k].breadth.value(), h = joist.sisters[k].depth.value();
    all.stiff.E_across += stiff[k].E_across * b;
    all.breadth += b;
    all.depth = k == 0 ? h : std::min(all.depth, h);
  }
  all.stiff.E_across /= all.breadth;
  return all;
}

constexpr const char* boards_loose = "boards under the load lie on fewer than two joists";

class Builder {
public:
  Builder(const deck::Deck& deck, const Properties& properties, const Bounds& bounds)
      : deck_(deck), properties_(properties), bounds_(bounds), plan_(deck) {}

  Model build();

private:
  int node(double s, double t, const std::string& id);
  [[nodiscard]] static int node_on(const Line& line, double at);
  void chain(Line& line, const std::string& piece, double EI, double kGA, double origin,
             const std::vector<deck::Stretch>& absent, const Section& instead = {});
  void hinge(Line& line, double at);
  /// Stations that are one within the tolerance are put on one vertical.
  void align(int moved, int kept);
  void add_joists();
  void add_bearers();
  void lay_joist_on_bearer(std::size_t meeting);
  void add_ledgers();
  /// Of a joist with what it is framed into or hung on.
  void join_end(std::size_t meeting, CrossingKind kind, int other_node);
  void add_supports();
  void add_walls();
  void count_supports();
  std::string why_not_held(std::size_t j) const;
  void add_boards();
  /// Where a piece is absent its nodes touch nothing: they are held, so that they are not loose.
  void hold_empty_nodes();

  const deck::Deck& deck_;
  const Properties& properties_;
  const Bounds& bounds_;
  Plan plan_;
  Model model_;
};

int Builder::node(double s, double t, const std::string& id) {
  model_.frame.nodes.push_back(plan_.joists_along_y ? solver::Node{id, t, s}
                                                    : solver::Node{id, s, t});
  return static_cast<int>(model_.frame.nodes.size()) - 1;
}

int Builder::node_on(const Line& line, double at) {
  for (std::size_t k = 0; k < line.at.size(); ++k) {
    if (std::abs(line.at[k] - at) < station_tolerance) return line.nodes[k];
  }
  throw std::logic_error("a crossing has no node on the line it crosses");
}

void Builder::chain(Line& line, const std::string& piece, double EI, double kGA, double origin,
                    const std::vector<deck::Stretch>& absent, const Section& instead) {
  if (line.nodes.size() < 2) throw std::logic_error(piece + " is too short to be a beam");
  line.members.assign(line.nodes.size() - 1, -1);
  for (std::size_t k = 0; k + 1 < line.nodes.size(); ++k) {
    const double middle = 0.5 * (line.at[k] + line.at[k + 1]) - origin;
    const bool gone = std::any_of(absent.begin(), absent.end(), [&](const deck::Stretch& stretch) {
      return middle > stretch.from.value() && middle < stretch.to.value();
    });
    if (gone && instead.EI <= 0.0) continue;
    solver::Member member;
    member.id = piece + "." + std::to_string(k + 1);
    member.piece = piece;
    member.i = line.nodes[k];
    member.j = line.nodes[k + 1];
    member.EI = gone ? instead.EI : EI;
    member.kGA = gone ? instead.kGA : kGA;
    line.members[k] = static_cast<int>(model_.frame.members.size());
    model_.frame.members.push_back(std::move(member));
  }
}

void Builder::align(int moved, int kept) {
  auto& node = model_.frame.nodes[static_cast<std::size_t>(moved)];
  node.x = model_.frame.nodes[static_cast<std::size_t>(kept)].x;
  node.y = model_.frame.nodes[static_cast<std::size_t>(kept)].y;
}

void Builder::hinge(Line& line, double at) {
  for (std::size_t k = 1; k + 1 < line.at.size(); ++k) {
    if (std::abs(line.at[k] - at) < station_tolerance && line.members[k] >= 0) {
      model_.frame.members[static_cast<std::size_t>(line.members[k])].end_i.bending = 0.0;
    }
  }
}

void Builder::add_joists() {
  model_.joists.resize(deck_.joists.size());
  for (std::size_t j = 0; j < deck_.joists.size(); ++j)
    model_.by_sister.push_back(plan_.by_sister(j));
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    const deck::Joist& joist = deck_.joists[j];
    const Stiff& stiff = properties_.joists[j];
    const double b = joist.breadth.value();
    const double h = (joist.depth - joist.softened).value();
    Section sisters;
    for (std::size_t k = 0; k < joist.sisters.size(); ++k) {
      const deck::Sister& sister = joist.sisters[k];
      const Stiff& s = properties_.sisters[j][k];
      sisters.EI += s.E * second_moment(sister.breadth.value(), sister.depth.value());
      sisters.kGA += rectangle_shear_share * s.G * (sister.breadth * sister.depth).value();
    }
    const double EI = stiff.E * second_moment(b, h) + sisters.EI;
    const double kGA = rectangle_shear_share * stiff.G * b * h + sisters.kGA;
    Line& line = model_.joists[j];
    line.at = plan_.joist_stations(j);
    for (std::size_t k = 0; k < line.at.size(); ++k) {
      line.nodes.push_back(
          node(line.at[k], joist.position.value(), joist.id + "@" + std::to_string(k + 1)));
    }
    chain(line, joist.id, EI, kGA, joist.from.value(), joist.absent,
          plan_.by_sister(j) ? sisters : Section{});
    const bool lapped = joist.continuous_recorded
                            ? joist.over_bearers == record::OverBearers::lapped
                            : bounds_.joists_lapped;
    // A full-length sister carries the lap across.
    if (!lapped || !joist.sisters.empty()) continue;
    for (const double s : plan_.inner_bearers_of(j)) hinge(line, s);
  }
}

void Builder::join_end(std::size_t m, CrossingKind kind, int other_node) {
  const deck::Meeting& meeting = deck_.meetings[m];
  const std::size_t j = meeting.piece;
  const deck::Joist& joist = deck_.joists[j];
  const bool start = meeting.end == deck::PieceEnd::start;
  const EndJoint& joint = properties_.joist_ends[j][start ? 0 : 1];
  const Line& line = model_.joists[j];
  const int member = start ? line.members.front() : line.members.back();
  if (joint.k <= 0.0 || member < 0) return;  // counts for nothing, or the end is not there any more
  solver::Link link;
  link.id = joist.id + (start ? ".start" : ".end");
  link.i = start ? line.nodes.front() : line.nodes.back();
  link.j = other_node;
  link.k_w = joint.k;
  link.compression_only = joint.presses_only;
  align(link.j, link.i);
  Crossing crossing;
  crossing.kind = kind;
  crossing.meeting = m;
  crossing.joist = static_cast<int>(j);
  crossing.other = static_cast<int>(meeting.carrier);
  crossing.at_joist = start ? line.at.front() : line.at.back();
  crossing.at_other = joist.position.value();
  crossing.link = static_cast<int>(model_.frame.links.size());
  crossing.end_joint = true;
  crossing.end = start ? 0 : 1;
  crossing.two_way = !joint.presses_only;
  model_.frame.links.push_back(std::move(link));
  model_.crossings.push_back(crossing);
}

void Builder::lay_joist_on_bearer(std::size_t m) {
  const deck::Meeting& meeting = deck_.meetings[m];
  const std::size_t j = meeting.piece, i = meeting.carrier;
  const deck::Joist& joist = deck_.joists[j];
  const deck::Bearer& bearer = deck_.bearers[i];
  const double s = plan_.station_on_joist(meeting);
  const double t = joist.position.value();
  if (plan_.gone_at(j, s) || plan_.absent_at(bearer, bearer.from.value(), t)) return;
  // Where only its sister is left, that lies on the bearer.
  const bool sister = plan_.absent_at(joist, joist.from.value(), s);
  const Together upper =
      sister ? together(joist, properties_.sisters[j])
             : Together{joist.breadth.value(), joist.depth.value(), properties_.joists[j]};
  solver::Link link;
  link.id = joist.id + "/" + bearer.id;
  link.i = node_on(model_.joists[j], s);
  link.j = node_on(model_.bearers[i], t);
  // As stiff as if the whole breadth bore: a short seat sheds no load by being soft.
  link.k_w = crossing_spring(upper.stiff, upper.breadth, upper.depth, properties_.bearers[i],
                             bearer.ply_breadth.value() * bearer.plies, bearer.depth.value());
  const bool held_down = properties_.hold_down[i] > 0.0 && bearer.gap.value() == 0.0;
  link.compression_only = !held_down;
  link.gap = held_down ? 0.0 : bearer.gap.value();
  align(link.j, link.i);
  Crossing crossing;
  crossing.kind = CrossingKind::bearer;
  crossing.meeting = m;
  crossing.joist = static_cast<int>(j);
  crossing.other = static_cast<int>(i);
  crossing.at_joist = s;
  crossing.at_other = t;
  crossing.link = static_cast<int>(model_.frame.links.size());
  crossing.two_way = held_down;
  crossing.on_sister = sister;
  model_.frame.links.push_back(std::move(link));
  model_.crossings.push_back(crossing);
}

void Builder::add_bearers() {
  model_.bearers.resize(deck_.bearers.size());
  for (std::size_t i = 0; i < deck_.bearers.size(); ++i) {
    const deck::Bearer& bearer = deck_.bearers[i];
    const Stiff& stiff = properties_.bearers[i];
    const double h = (bearer.depth - bearer.softened).value();
    const double b = bearer.ply_breadth.value() * bearer.plies;
    Line& line = model_.bearers[i];
    line.at = plan_.bearer_stations(i);
    for (std::size_t k = 0; k < line.at.size(); ++k) {
      line.nodes.push_back(
          node(bearer.position.value(), line.at[k], bearer.id + "@" + std::to_string(k + 1)));
    }
    chain(line, bearer.id, stiff.E * second_moment(b, h), rectangle_shear_share * stiff.G * b * h,
          bearer.from.value(), bearer.absent);
    for (const Length splice : bearer.splices) hinge(line, splice.value());
    for (const std::size_t m : plan_.on_bearer(i)) {
      const double t = deck_.joists[deck_.meetings[m].piece].position.value();
      if (!bearer.flush) {
        lay_joist_on_bearer(m);
      } else if (!plan_.absent_at(bearer, bearer.from.value(), t)) {
        join_end(m, CrossingKind::bearer, node_on(line, t));
      }
    }
  }
}

void Builder::add_ledgers() {
  model_.ledgers.resize(deck_.ledgers.size());
  for (std::size_t i = 0; i < deck_.ledgers.size(); ++i) {
    const deck::Ledger& ledger = deck_.ledgers[i];
    if (properties_.ledger_fixings[i] <= 0.0)
      continue;  // counts for nothing: the deck stands on its own
    const Stiff& stiff = properties_.ledgers[i];
    const double b = ledger.breadth.value(), h = ledger.depth.value();
    Line& line = model_.ledgers[i];
    line.at = plan_.ledger_stations(i);
    for (std::size_t k = 0; k < line.at.size(); ++k) {
      line.nodes.push_back(
          node(ledger.position.value(), line.at[k], ledger.id + "@" + std::to_string(k + 1)));
    }
    chain(line, ledger.id, stiff.E * second_moment(b, h), rectangle_shear_share * stiff.G * b * h,
          ledger.from.value(), ledger.absent);
    for (const double t : plan_.ledger_fixing_places(i)) {
      if (plan_.absent_at(ledger, ledger.from.value(), t)) continue;
      solver::Support support;
      support.id = ledger.id + ":" + std::to_string(std::lround(t));
      support.node = node_on(line, t);
      support.k_w = properties_.ledger_fixings[i];
      model_.props.push_back(
          {static_cast<int>(i), -1, static_cast<int>(model_.frame.supports.size()), t, true});
      model_.frame.supports.push_back(std::move(support));
    }
    for (const std::size_t m : plan_.on_ledger(i)) {
      const double t = deck_.joists[deck_.meetings[m].piece].position.value();
      if (plan_.absent_at(ledger, ledger.from.value(), t)) continue;
      join_end(m, CrossingKind::ledger, node_on(line, t));
    }
  }
}

void Builder::add_supports() {
  model_.support_of.assign(deck_.supports.size(), -1);
  for (std::size_t p = 0; p < deck_.supports.size(); ++p) {
    const deck::Support& record = deck_.supports[p];
    if (!record.absent.empty() || record.footing.contact == record::Contact::loose) continue;
    solver::Support support;
    support.id = record.id;
    support.k_w = properties_.supports[p];
    support.compression_only = true;
    support.gap = record.footing.contact == record::Contact::gap ? record.footing.gap.value() : 0.0;
    const int index = static_cast<int>(model_.frame.supports.size());
    const std::size_t m = plan_.of_support(p);
    const deck::Meeting& meeting = deck_.meetings[m];
    if (record.bearer >= 0) {
      const auto i = static_cast<std::size_t>(record.bearer);
      const double t = plan_.t_of(record.at);
      if (plan_.absent_at(deck_.bearers[i], deck_.bearers[i].from.value(), t)) continue;
      support.node = node_on(model_.bearers[i], t);
      model_.props.push_back({record.bearer, static_cast<int>(p), index, t, false, m});
    } else {
      const auto j = static_cast<std::size_t>(record.joist);
      const deck::Joist& joist = deck_.joists[j];
      const double s = plan_.station_on_joist(meeting);
      if (plan_.gone_at(j, s)) continue;
      support.node = node_on(model_.joists[j], s);
      Crossing crossing;
      crossing.kind = CrossingKind::support;
      crossing.meeting = m;
      crossing.joist = record.joist;
      crossing.other = static_cast<int>(p);
      crossing.at_joist = s;
      crossing.on_sister = plan_.absent_at(joist, joist.from.value(), s);
      crossing.support = index;
      model_.crossings.push_back(crossing);
    }
    model_.support_of[p] = index;
    model_.frame.supports.push_back(std::move(support));
  }
}

void Builder::add_walls() {
  for (std::size_t w = 0; w < deck_.walls.size(); ++w) {
    const deck::Wall& wall = deck_.walls[w];
    if (!wall.absent.empty() || wall.contact == record::Contact::loose) continue;
    for (const WallCrossing& place : plan_.wall_crossings(w)) {
      const auto j = static_cast<std::size_t>(place.joist);
      const deck::Joist& joist = deck_.joists[j];
      if (plan_.gone_at(j, place.s)) continue;
      solver::Support support;
      support.id = wall.id + "/" + joist.id;
      support.node = node_on(model_.joists[j], place.s);
      support.k_w = properties_.walls[w] * place.tributary;
      support.compression_only = true;
      support.gap = wall.contact == record::Contact::gap ? wall.gap.value() : 0.0;
      Crossing crossing;
      crossing.kind = CrossingKind::wall;
      crossing.meeting = place.meeting;
      crossing.joist = place.joist;
      crossing.other = static_cast<int>(w);
      crossing.at_joist = place.s;
      crossing.at_other = place.tributary;
      crossing.on_sister = plan_.absent_at(joist, joist.from.value(), place.s);
      crossing.support = static_cast<int>(model_.frame.supports.size());
      model_.frame.supports.push_back(std::move(support));
      model_.crossings.push_back(crossing);
    }
  }
}

void Builder::count_supports() {
  std::vector<int> holds(deck_.joists.size(), 0);
  for (const Crossing& crossing : model_.crossings)
    ++holds[static_cast<std::size_t>(crossing.joist)];
  for (std::size_t j = 0; j < holds.size(); ++j) {
    const deck::Joist& joist = deck_.joists[j];
    const bool not_there =
        !plan_.by_sister(j) &&
        std::any_of(joist.absent.begin(), joist.absent.end(), [&](const deck::Stretch& stretch) {
          return stretch.from.value() <= station_tolerance &&
                 stretch.to >= joist.to - joist.from - mm(station_tolerance);
        });
    if (not_there || holds[j] >= 2) continue;  // a missing joist: its neighbours carry the boards
    const std::string why = why_not_held(j);
    model_.loose =
        "joist " + joist.id +
        (holds[j] == 0 ? " is held by nothing that counts" : " has only one support that counts") +
        (why.empty() ? "" : ": " + why);
    return;
  }
}

/// What was to hold the ends of a joist and counts for nothing, with the reason.
std::string Builder::why_not_held(std::size_t j) const {
  std::string text;
  const auto add = [&](const std::string& more) { text += (text.empty() ? "" : "; ") + more; };
  for (const int end : {0, 1}) {
    const std::string name = end == 0 ? "its start" : "its end";
    bool told = false;
    for (const std::size_t m : plan_.of_joist(j)) {
      const deck::Meeting& meeting = deck_.meetings[m];
      if (meeting.kind != deck::MeetingKind::joist_on_ledger || told) continue;
      if ((meeting.end == deck::PieceEnd::end) != (end == 1)) continue;
      if (properties_.ledger_fixings[meeting.carrier] > 0.0) continue;
      add(name + " hangs on ledger " + deck_.ledgers[meeting.carrier].id +
          ", whose fixings count for nothing (" + properties_.why_no_ledger[meeting.carrier] + ")");
      told = true;
    }
    const std::string& why = properties_.why_no_end[j][static_cast<std::size_t>(end)];
    if (!told && !why.empty()) add("what holds " + name + " counts for nothing (" + why + ")");
  }
  return text;
}

void Builder::add_boards() {
  const double b = deck_.boards.width.value();
  const double h = deck_.boards.thickness.value();
  const double EI = properties_.boards.E * second_moment(b, h);
  const double kGA = rectangle_shear_share * properties_.boards.G * b * h;
  int number = 0;
  for (const BoardPlace& place : plan_.boards()) {
    const std::string id = "board " + std::to_string(++number);
    std::vector<std::pair<double, int>> at;  // along t, and the joist there or -1
    for (std::size_t k = 0; k < place.joists.size(); ++k)
      at.emplace_back(place.joist_t[k], place.joists[k]);
    if (place.before >= least_overhang) at.emplace_back(place.from, -1);
    if (place.beyond >= least_overhang) at.emplace_back(place.to, -1);
    std::sort(at.begin(), at.end());
    if (bounds_.stiff_shell) {
      // Where the rigid base may meet the board between joists: the same places wherever it stands.
      const int between = bounds_.contacts_between_joists;
      for (std::size_t k = at.size() - 1; k > 0; --k) {
        const double from = at[k - 1].first, step = (at[k].first - from) / (between + 1);
        if (step < 2.0 * station_tolerance) continue;
        for (int n = between; n > 0; --n)
          at.insert(at.begin() + static_cast<std::ptrdiff_t>(k), {from + n * step, -1});
      }
    }
    Line line;
    for (const auto& [t, joist] : at) {
      line.at.push_back(t);
      line.nodes.push_back(node(place.s, t, id + "@" + std::to_string(line.at.size())));
    }
    chain(line, id, EI, kGA, 0.0, {});
    for (std::size_t k = 0; k < at.size(); ++k) {
      if (at[k].second < 0) continue;
      const auto j = static_cast<std::size_t>(at[k].second);
      solver::Link link;
      link.id = id + "/" + deck_.joists[j].id;
      link.i = line.nodes[k];
      link.j = node_on(model_.joists[j], place.s);
      align(link.i, link.j);
      model_.frame.links.push_back(std::move(link));
      // Boards that share no load, and boards jointed here, are hinged over this joist.
      const bool hinged = !properties_.boards_share ||
                          (bounds_.boards_jointed && *bounds_.boards_jointed == at[k].second);
      const bool overhang_follows = k + 1 < at.size() && at[k].second == place.joists.back();
      const bool overhang_before = k > 0 && at[k].second == place.joists.front();
      if (hinged && !overhang_follows && !overhang_before) hinge(line, at[k].first);
    }
    model_.boards.push_back(std::move(line));
  }
}

void Builder::hold_empty_nodes() {
  solver::Frame& frame = model_.frame;
  std::vector<bool> touched(frame.nodes.size(), false);
  const auto touch = [&](int node) { touched[static_cast<std::size_t>(node)] = true; };
  for (const solver::Member& member : frame.members) {
    touch(member.i);
    touch(member.j);
  }
  for (const solver::Link& link : frame.links) {
    touch(link.i);
    touch(link.j);
  }
  for (const solver::Support& support : frame.supports) touch(support.node);
  for (const solver::Plate& plate : frame.plates) {
    for (const solver::PlateContact& contact : plate.contacts) touch(contact.node);
  }
  for (std::size_t n = 0; n < touched.size(); ++n) {
    if (touched[n]) continue;
    solver::Support support;
    support.id = "no wood at " + frame.nodes[n].id;
    support.node = static_cast<int>(n);
    support.k_w = solver::rigid;
    frame.supports.push_back(std::move(support));
  }
}

Model Builder::build() {
  model_.joists_along_y = plan_.joists_along_y;
  model_.not_modelled = why_not_modelled(deck_);
  if (!model_.not_modelled.empty()) return std::move(model_);
  plan_.lay_out();
  add_joists();
  add_bearers();
  add_ledgers();
  add_supports();
  add_walls();
  count_supports();
  if (!model_.loose && plan_.loose_boards()) model_.loose = boards_loose;
  if (model_.loose) return std::move(model_);
  add_boards();
  if (bounds_.stiff_shell)
    model_.frame.plates = rigid_bases(deck_, properties_, plan_, model_, model_.not_modelled);
  if (!model_.not_modelled.empty()) return std::move(model_);
  hold_empty_nodes();
  model_.bays = plan_.bays();
  Cases cases =
      CaseBuilder(deck_, properties_, bounds_, plan_, model_, model_.frame.plates).build();
  model_.cases = std::move(cases.cases);
  model_.infos = std::move(cases.infos);
  return std::move(model_);
}

}  // namespace

std::string why_not_modelled(const deck::Deck& deck) {
  if (deck.joists.empty()) return "there are no joists";
  const Axis along = deck.joists.front().direction;
  for (const deck::Joist& joist : deck.joists) {
    if (joist.direction != along) return "joists run in two directions";
  }
  for (const deck::Bearer& bearer : deck.bearers) {
    if (bearer.direction == along) return "bearer " + bearer.id + " runs along the joists";
  }
  for (const deck::Ledger& ledger : deck.ledgers) {
    if (ledger.direction == along) return "ledger " + ledger.id + " runs along the joists";
  }
  if (deck.boards.direction == along) return "the boards run along the joists";
  return {};
}

std::vector<bool> carried_by_sisters(const deck::Deck& deck) {
  std::vector<bool> list(deck.joists.size(), false);
  if (!why_not_modelled(deck).empty()) return list;
  Plan plan(deck);
  plan.lay_out_carriers();
  for (std::size_t j = 0; j < list.size(); ++j) list[j] = plan.by_sister(j);
  return list;
}

Cases load_cases(const deck::Deck& deck, const Properties& properties, const Bounds& bounds,
                 const Model& model) {
  Plan plan(deck);
  plan.lay_out();
  Cases none;
  if (plan.loose_boards()) {
    none.loose = boards_loose;
    return none;
  }
  std::vector<solver::Plate> plates;
  if (bounds.stiff_shell) plates = rigid_bases(deck, properties, plan, model, none.not_modelled);
  if (!none.not_modelled.empty()) return none;
  return CaseBuilder(deck, properties, bounds, plan, model, std::move(plates)).build();
}

Model build(const deck::Deck& deck, const Properties& properties, const Bounds& bounds) {
  return Builder(deck, properties, bounds).build();
}

}  // namespace underprop::model
