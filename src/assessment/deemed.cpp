#include "deemed.hpp"

#include "lister.hpp"

#include <algorithm>
#include <initializer_list>
#include <optional>
#include <vector>

namespace underprop::assessment {

using standards::CheckKind;
using standards::DeemedToSatisfy;

namespace {

/// What the guide's figures call a joist: on two carriers, with an overhang.
struct TwoCarriers {
  Length clear_span, overhang, seat;
  Length middle;  ///< along the joist, between its carriers
  bool hung = false;
};

class Measured {
public:
  explicit Measured(const deck::Deck& deck) : deck_(deck) {
    for (std::size_t j = 0; j < deck.joists.size(); ++j) joists_.push_back(joist(j));
  }

  [[nodiscard]] const std::optional<TwoCarriers>& of_joist(std::size_t j) const {
    return joists_[j];
  }

  /// The widest distance to a joist beside it; 0: it has none.
  [[nodiscard]] Length spacing(std::size_t j) const {
    const deck::Joist& joist = deck_.joists[j];
    std::optional<Length> before, after;
    for (const deck::Joist& other : deck_.joists) {
      if (other.direction != joist.direction || !(other.to > joist.from) ||
          !(other.from < joist.to))
        continue;
      const Length apart = other.position - joist.position;
      if (apart > mm(1.0) && (!after || apart < *after)) after = apart;
      if (-apart > mm(1.0) && (!before || -apart < *before)) before = -apart;
    }
    return max(before.value_or(mm(0.0)), after.value_or(mm(0.0)));
  }

  /// What comes down on a beam: joists from one side only, each on two carriers.
  struct OnBeam {
    Length span, overhang, seat;
    standards::PrescriptiveTributary tributary;
  };
  [[nodiscard]] std::optional<OnBeam> beam(std::size_t b) const {
    const deck::Bearer& bearer = deck_.bearers[b];
    if (bearer.flush || bearer.added) return std::nullopt;
    OnBeam on;
    int low = 0, high = 0;
    std::vector<Length> places;
    on.seat = bearer.to - bearer.from;
    for (const deck::Meeting& m : deck_.meetings) {
      if (m.kind == deck::MeetingKind::joist_on_bearer && m.carrier == b) {
        const auto& joist = joists_[m.piece];
        if (!joist) return std::nullopt;
        on.tributary.joist_span = max(on.tributary.joist_span, joist->clear_span);
        on.tributary.joist_overhang = max(on.tributary.joist_overhang, joist->overhang);
        ++(joist->middle < bearer.position ? low : high);
      } else if (m.kind == deck::MeetingKind::bearer_on_support && m.piece == b) {
        const deck::Support& support = deck_.supports[m.carrier];
        if (support.post && !support.post->bearer_on_top) return std::nullopt;
        places.push_back(m.place);
        on.seat = min(on.seat, min(m.overlap, support.bearing_length.value_or(m.overlap)));
      }
    }
    if (places.size() < 2 || (low > 0) == (high > 0)) return std::nullopt;
    std::sort(places.begin(), places.end());
    for (std::size_t k = 1; k < places.size(); ++k)
      on.span = max(on.span, places[k] - places[k - 1]);
    on.overhang = max(places.front() - bearer.from, bearer.to - places.back());
    for (const Length splice : bearer.splices) {
      if (std::none_of(places.begin(), places.end(),
                       [&](Length place) { return abs(place - splice) <= on.seat / 2.0; }))
        return std::nullopt;
    }
    on.tributary.beam_span = on.span;
    on.tributary.beam_overhang = on.overhang;
    return on;
  }

  /// The longest joists of a ledger; none: one of them is carried otherwise.
  [[nodiscard]] std::optional<TwoCarriers> on_ledger(std::size_t l) const {
    std::optional<TwoCarriers> longest;
    for (const deck::Meeting& m : deck_.meetings) {
      if (m.kind != deck::MeetingKind::joist_on_ledger || m.carrier != l) continue;
      const auto& joist = joists_[m.piece];
      if (!joist) return std::nullopt;
      if (!longest) longest = joist;
      longest->clear_span = max(longest->clear_span, joist->clear_span);
      longest->overhang = max(longest->overhang, joist->overhang);
    }
    return longest;
  }

private:
  [[nodiscard]] std::optional<TwoCarriers> joist(std::size_t j) const {
    const deck::Joist& joist = deck_.joists[j];
    if (joist.added || !joist.sisters.empty()) return std::nullopt;
    struct Carrier {
      Length middle, half, seat;
      bool side = false;
    };
    std::vector<Carrier> carriers;
    for (const deck::Meeting& m : deck_.meetings) {
      if (m.kind == deck::MeetingKind::bearer_on_support || m.piece != j) continue;
      if (deck::at_side(m.kind)) {
        const bool start = m.end == deck::PieceEnd::start;
        carriers.push_back({start ? joist.from : joist.to, mm(0.0),
                            (start ? joist.start : joist.end).seat.value_or(mm(0.0)), true});
      } else if (m.kind == deck::MeetingKind::joist_on_bearer) {
        const deck::Bearer& bearer = deck_.bearers[m.carrier];
        carriers.push_back({m.place, bearer.ply_breadth * static_cast<double>(bearer.plies) / 2.0,
                            m.overlap, false});
      } else {
        return std::nullopt;  // the tables know no walls, and no posts below joists
      }
    }
    if (carriers.size() != 2) return std::nullopt;
    if (carriers[1].middle < carriers[0].middle) std::swap(carriers[0], carriers[1]);
    const auto& [low, high] = std::pair(carriers[0], carriers[1]);
    TwoCarriers two;
    two.clear_span = (high.middle - high.half) - (low.middle + low.half);
    two.middle = (low.middle + high.middle) / 2.0;
    two.seat = min(low.seat, high.seat);
    two.hung = low.side || high.side;
    const auto beyond = [&two](const Carrier& carrier, Length free) {
      if (!carrier.side && free > carrier.half + mm(0.5)) two.overhang = max(two.overhang, free);
    };
    beyond(low, low.middle - joist.from);
    beyond(high, joist.to - high.middle);
    if (!(two.clear_span > mm(0.0))) return std::nullopt;
    return two;
  }

  const deck::Deck& deck_;
  std::vector<std::optional<TwoCarriers>> joists_;
};

bool whole(const deck::Piece& piece) {
  return !piece.added && !piece.faulted && piece.absent.empty() && piece.notches.empty() &&
         piece.softened.value() == 0.0;
}

}  // namespace

DeemedPieces::DeemedPieces(const LoadedDeck& loaded) {
  const deck::Deck& deck = loaded.deck();
  const standards::PrescriptiveTables* tables = loaded.standard().prescriptive();
  if (tables == nullptr || deck.site.roof_or_screen) return;
  const standards::LoadValues& values = loaded.basis().values;
  const standards::PrescriptiveBasis basis{
      max(values.imposed, deck.site.imposed_load.value_or(values.imposed)),
      deck.site.snow_load.value_or(values.imposed * 0.0), deck.boards.thickness};
  if (!tables->covers(basis)) return;
  most_use_ = tables->most_use();
  const Timbers& timbers = loaded.basis().timbers;
  const Measured measured(deck);
  const auto satisfied = [this](const std::string& piece, std::initializer_list<CheckKind> checks,
                                const std::optional<DeemedToSatisfy>& row) {
    if (!row) return;
    for (const CheckKind check : checks) rows_.insert_or_assign({piece, check}, *row);
  };

  for (std::size_t j = 0; j < deck.joists.size(); ++j) {
    const deck::Joist& joist = deck.joists[j];
    const auto& two = measured.of_joist(j);
    if (!two || !whole(joist)) continue;
    const auto row =
        tables->joist({timbers.joists[j], joist.breadth, joist.depth, measured.spacing(j),
                       two->clear_span, two->overhang, two->seat});
    satisfied(joist.id,
              {CheckKind::bending, CheckKind::shear, CheckKind::bearing, CheckKind::deflection_now,
               CheckKind::deflection_long},
              row);
    if (!row || !two->hung) continue;
    std::optional<DeemedToSatisfy> hanger;
    bool all = true;
    for (const deck::Meeting& m : deck.meetings) {
      if (m.kind == deck::MeetingKind::bearer_on_support || m.piece != j || !deck::at_side(m.kind))
        continue;
      const deck::EndHold& hold = hold_of(deck, m);
      if (hold.held == record::Hold::hanger && hold.sound && hold.stated_capacity && hold.seat)
        hanger = tables->hanger({joist.breadth, joist.depth, *hold.seat, *hold.stated_capacity});
      else
        hanger.reset();
      all = all && hanger;
    }
    if (all) satisfied(joist.id, {CheckKind::end_connection}, hanger);
  }

  for (std::size_t b = 0; b < deck.bearers.size(); ++b) {
    const deck::Bearer& bearer = deck.bearers[b];
    const auto on = measured.beam(b);
    if (!on || !whole(bearer) || (bearer.plies > 1 && !bearer.act_together)) continue;
    satisfied(bearer.id,
              {CheckKind::bending, CheckKind::shear, CheckKind::bearing, CheckKind::deflection_now,
               CheckKind::deflection_long},
              tables->beam({timbers.bearers[b], bearer.plies, bearer.ply_breadth, bearer.depth,
                            on->span, on->overhang, on->tributary.joist_span,
                            on->tributary.joist_overhang, on->seat}));
  }

  for (std::size_t s = 0; s < deck.supports.size(); ++s) {
    const deck::Support& support = deck.supports[s];
    if (support.bearer < 0 || support.packers > 0 || !whole(support)) continue;
    const auto on = measured.beam(static_cast<std::size_t>(support.bearer));
    if (!on) continue;
    if (support.post && support.post->bearer_on_top && support.post->lean < mm(1.0))
      satisfied(support.id, {CheckKind::post_buckling},
                tables->post({*timbers.posts[s], support.post->breadth, support.post->depth,
                              support.post->height, on->tributary}));
    const deck::Footing& footing = support.footing;
    if (footing.kind != record::FootingKind::cast_pad || footing.cracked ||
        footing.tilted_or_undermined || !footing.below_topsoil || deck.site.water_in_hole ||
        footing.contact != record::Contact::tight)
      continue;
    const auto outlook = deck.reading == record::Reading::cautious ? standards::Outlook::cautious
                         : deck.reading == record::Reading::likely ? standards::Outlook::likely
                                                                   : standards::Outlook::favourable;
    satisfied(support.id, {CheckKind::ground_pressure},
              tables->footing({soil_kind(deck.site), outlook, footing.width, footing.length,
                               footing.thickness, footing.depth, footing.offset, on->tributary}));
  }

  for (std::size_t l = 0; l < deck.ledgers.size(); ++l) {
    const deck::Ledger& ledger = deck.ledgers[l];
    const auto joists = measured.on_ledger(l);
    const bool lags = ledger.fixing == record::FixingKind::lag_screw;
    if (!joists || !whole(ledger) || !ledger.sound || !ledger.penetration ||
        ledger.fixed_to != record::LedgerWall::timber_band ||
        !(lags || ledger.fixing == record::FixingKind::bolt))
      continue;
    satisfied(ledger.id, {CheckKind::ledger_fixing, CheckKind::ledger_pull_off},
              tables->ledger({lags, ledger.fixing_diameter, ledger.fixing_spacing,
                              *ledger.penetration, ledger.depth, ledger.fixing_heights,
                              joists->clear_span, joists->overhang}));
  }
}

const DeemedToSatisfy* DeemedPieces::of(const std::string& piece, CheckKind kind,
                                        double utilisation) const {
  if (!(utilisation <= most_use_)) return nullptr;
  const auto row = rows_.find({piece, kind});
  return row == rows_.end() ? nullptr : &row->second;
}

}  // namespace underprop::assessment
