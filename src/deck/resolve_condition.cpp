// What was found to be wrong, written into the pieces. The effects are judgements of ours, except
// where a comment says otherwise; their numbers are rules of data/facts.json. Each effect is told in
// Deck::assumptions.
#include "crossing.hpp"
#include "resolve_parts.hpp"

#include <algorithm>
#include <stdexcept>

namespace underprop::deck {
namespace {

double rule(std::string_view name) { return record::resolving_rule(name).number; }

class Conditions {
public:
  Conditions(const record::Survey& survey, const FactTaker& facts, Deck& deck)
      : survey_(survey), facts_(facts), deck_(deck) {}

  void apply(const record::Condition& c) {
    bool found = false;
    const auto named = [&](const std::string& id, const std::string& group) {
      const bool yes = id == c.piece || group == c.piece;
      found = found || yes;
      return yes;
    };
    const auto at = [](int i) { return static_cast<std::size_t>(i); };
    for (Joist& j : deck_.joists) {
      if (named(j.id, deck_.joist_groups[at(j.group)])) joist(j, c);
    }
    for (Bearer& b : deck_.bearers) {
      if (named(b.id, survey_.deck.bearers[at(b.index)].name)) bearer(b, c);
    }
    for (Ledger& l : deck_.ledgers) {
      if (named(l.id, survey_.deck.ledgers[at(l.index)].name)) ledger(l, c);
    }
    for (Support& s : deck_.supports) {
      if (named(s.id, survey_.deck.supports[at(s.group)].name)) support(s, c);
    }
    for (Wall& w : deck_.walls) {
      if (named(w.id, w.id)) wall(w, c);
    }
    gone(deck_.rims, c, found);
    gone(deck_.blocking, c, found);
    // Named by the record, but without a place in the outline: told as left out already.
    if (!found)
      deck_.assumptions.push_back("the condition of " + c.piece +
                                  " has no effect: it is not there");
  }

private:
  [[noreturn]] static void no_sense(const record::Condition& c) {
    throw std::logic_error("a condition that makes no sense for " + c.piece +
                           " reached the resolving of the deck");
  }

  [[nodiscard]] std::string text(Length length) const {
    return format_length(length, facts_.units());
  }
  void tell(const std::string& sentence) { deck_.assumptions.push_back(sentence); }

  // The recorded stretch within a piece; the whole piece where none is recorded.
  struct Part {
    Length from, to;
    bool whole;
  };
  static Part part_of(const record::Condition& c, Length length) {
    if (!c.from && !c.to) return {Length(), length, true};
    Length from = c.from.value_or(*(c.to ? c.to : c.from));
    Length to = c.to.value_or(from);
    if (!c.from) from = Length();  // up to there
    from = min(max(from, Length()), length);
    to = min(max(to, from), length);
    return {from, to, false};
  }

  // What is missing from a place on, without an end, is missing to the end of the piece.
  static Part missing_part(record::Condition c, Length length) {
    if (c.from && !c.to) c.to = length;
    return part_of(c, length);
  }

  static constexpr Length cut = mm(1.0);

  void make_absent(Piece& piece, Length length, Length from, Length to, const std::string& why) {
    // A place rather than a stretch cuts the piece there: never a stretch of no length, which would be
    // no cut at all.
    if (to - from < 2.0 * cut) {
      const Length middle = 0.5 * (from + to);
      from = middle - cut;
      to = middle + cut;
    }
    from = max(from, Length());
    to = min(to, length);
    piece.absent.push_back({from, to, why});
    if (from <= Length() && to >= length) {
      tell(piece.id + " counts as absent (" + why + ")");
    } else {
      tell(piece.id + " counts as absent from " + text(from) + " to " + text(to) + " along it (" +
           why + ")");
    }
  }

  Stretch decay(Piece& piece, Length length, const record::Condition& c, const std::string& why) {
    const Part part = part_of(c, length);
    const bool deep = c.face == record::Face::end || c.face == record::Face::underside;
    const Length margin = mm(rule(deep ? "decay/margin_end_or_underside" : "decay/margin"));
    make_absent(piece, length, part.from - margin, part.to + margin, why);
    piece.absent.back().decayed = true;
    return piece.absent.back();
  }

  void notch(Piece& piece, Length length, Length depth, const record::Condition& c) {
    const bool hole = c.defect == record::Defect::hole;
    const Length size = c.size.value_or(rule("notch/unmeasured_share") * depth);
    const std::string what = hole ? "hole" : "notch";
    const Part part = part_of(c, length);
    if (size >= depth) {
      make_absent(piece, length, part.from, part.to, what + " through its whole depth");
      return;
    }
    const Cut where = hole ? Cut::hole : c.face == record::Face::top ? Cut::above : Cut::below;
    if (part.whole) {  // nobody says where: at both ends and in the middle
      for (const Length place : {Length(), 0.5 * length, length})
        piece.notches.push_back({place, place, size, where});
    } else {
      piece.notches.push_back({part.from, part.to, size, where});
    }
    tell(piece.id + ": " + what + " of " + text(size) + (c.size ? "" : " assumed") +
         (part.whole ? ", at both ends and in the middle as its place is not recorded"
                     : " at " + text(part.from) + " along it"));
  }

  // Returns which ends the split reaches.
  std::pair<bool, bool> split(Piece& piece, Length length, Length depth,
                              const record::Condition& c) {
    const Part part = part_of(c, length);
    if (part.whole) {
      make_absent(piece, length, part.from, part.to, "split along its whole length");
      return {true, true};
    }
    const Length near_end = rule("split/end_depths") * depth;
    const bool at_start = part.from<near_end, at_end = part.to> length - near_end;
    if (at_start || at_end) {
      const Length size = rule("split/end_notch_share") * depth;
      if (at_start) piece.notches.push_back({Length(), Length(), size, Cut::split});
      if (at_end) piece.notches.push_back({length, length, size, Cut::split});
      tell(piece.id + ": split end counts as notched by " + text(size) +
           ", and its fixings there count for nothing");
    }
    const Length inner_from = at_start ? max(part.from, near_end) : part.from;
    const Length inner_to = at_end ? min(part.to, length - near_end) : part.to;
    if (inner_to - inner_from > depth) {
      make_absent(piece, length, inner_from, inner_to, "split longer than its depth");
    } else if (!at_start && !at_end) {
      const Length size = rule("split/short_notch_share") * depth;
      piece.notches.push_back({part.from, part.to, size, Cut::split});
      tell(piece.id + ": short split counts as a notch of " + text(size));
    }
    return {at_start, at_end};
  }

  // The ends a condition speaks of: the one its place is nearer to, or both.
  static std::pair<bool, bool> ends_meant(const record::Condition& c, Length length) {
    const Part part = part_of(c, length);
    if (part.whole) return {true, true};
    return {part.from <= 0.5 * length, part.to > 0.5 * length};
  }

  void unsound(Joist& j, bool at_start) {
    EndHold& hold = at_start ? j.start : j.end;
    const std::string end = at_start ? "start" : "end";
    hold.sound = false;
    if (is_fastened(hold.held)) {
      tell(j.id + ": the fixings at its " + end + " count for nothing");
      return;
    }
    // It rests: what held it down there is gone. Bearers are resolved as wholes, so for all joists.
    bool told = false;
    const Length middle = 0.5 * (j.from + j.to);
    for (Bearer& b : deck_.bearers) {
      if (!lies_on(deck_, j, b) || (b.position <= middle) != at_start) continue;
      b.held_down = record::HeldDown::nothing;
      b.hold_down_capacity.reset();
      tell(j.id + ": nothing holds joists down to " + b.id);
      told = true;
    }
    if (!told) tell(j.id + ": no fixing counts at its " + end);
  }

  void joist(Joist& j, const record::Condition& c) {
    j.faulted = true;
    const Length length = j.to - j.from;
    switch (c.defect) {
      case record::Defect::decay:
        decay(j, length, c, "decay and its margin");
        return;
      case record::Defect::surface_softening:
        soften(j, length, c);
        return;
      case record::Defect::notch:
      case record::Defect::hole:
        notch(j, length, j.depth, c);
        return;
      case record::Defect::split: {
        const auto [at_start, at_end] = split(j, length, j.depth, c);
        if (at_start) j.start.sound = false;
        if (at_end) j.end.sound = false;
        return;
      }
      case record::Defect::missing: {
        const Part part = missing_part(c, length);
        make_absent(j, length, part.from, part.to, "missing");
        return;
      }
      case record::Defect::corroded_fixing:
      case record::Defect::missing_fixing:
      case record::Defect::wrong_fixing: {
        const auto [at_start, at_end] = ends_meant(c, length);
        if (at_start) unsound(j, true);
        if (at_end) unsound(j, false);
        return;
      }
      case record::Defect::short_bearing: {
        if (!c.size) no_sense(c);
        const auto [at_start, at_end] = ends_meant(c, length);
        if (at_start) j.start.seat = *c.size;
        if (at_end) j.end.seat = *c.size;
        tell(j.id + ": " + text(*c.size) + " of wood bears at its " +
             (at_start && at_end ? "ends"
              : at_start         ? "start"
                                 : "end"));
        return;
      }
      case record::Defect::out_of_level:
        uneven(j, c);
        return;
      default:
        no_sense(c);
    }
  }

  // A joist higher or lower than its neighbours. Boards bent over it and a base that bridges it share
  // the load in a way that nothing models; beyond the flatness asked for under a base, refer.
  void uneven(const Joist& j, const record::Condition& c) {
    if (!c.size) no_sense(c);
    const bool below_load = std::ranges::any_of(deck_.loads, [&](const Load& load) {
      return std::ranges::any_of(
          line_intervals(load.footprint, j.direction, j.position),
          [&](const Interval& under) { return under.high > j.from && under.low < j.to; });
    });
    const std::string what = j.id + " is out of level by " + text(*c.size);
    if (*c.size > mm(rule("out_of_level/joist")) && below_load) {
      deck_.refer_reasons.push_back(what + " under the load: level it with its neighbours first");
    } else {
      tell(what + (below_load ? ": within what a base bears" : "; it does not lie under the load"));
    }
  }

  void soften(Joist& j, Length length, const record::Condition& c) {
    const Part part = part_of(c, length);
    const bool shallow = c.size && *c.size <= mm(rule("softening/deepest"));
    if (c.face != record::Face::top || !shallow || part.whole ||
        carried_within(deck_, j, part.from, part.to)) {
      decay(j, length, c,
            "surface softening that is not shallow, on the top edge and clear of supports and "
            "fixings: as decay");
      return;
    }
    const Length loss = max(rule("softening/factor") * *c.size, mm(rule("softening/least_loss")));
    j.softened = max(j.softened, loss);
    tell(j.id + ": " + text(loss) + " are taken off its top edge along the whole joist");
    if (j.softened >= j.depth) make_absent(j, length, Length(), length, "soft through its depth");
  }

  // Is timber of this deck at ground level there?
  [[nodiscard]] bool near_ground(const Bearer& b) const {
    Length joists_above;
    for (const Joist& j : deck_.joists) {
      if (lies_on(deck_, j, b)) joists_above = max(joists_above, j.depth);
    }
    return deck_.height - deck_.boards.thickness - joists_above - b.depth <
           mm(rule("ground_level/clearance"));
  }

  void bearer(Bearer& b, const record::Condition& c) {
    b.faulted = true;
    const Length length = b.to - b.from;
    switch (c.defect) {
      case record::Defect::decay:
      case record::Defect::surface_softening: {
        const Stretch gone = decay(b, length, c, "decay and its margin");
        const auto index = static_cast<int>(&b - deck_.bearers.data());
        bool at_support = false;
        for (const Support& s : deck_.supports) {
          const Length u = along(s.at, b.direction) - b.from;
          at_support = at_support || (s.bearer == index && gone.from <= u && u <= gone.to);
        }
        if (at_support) deck_.refer_reasons.push_back(b.id + ": decay in a bearer at a support");
        if (!at_support && near_ground(b)) {
          deck_.refer_reasons.push_back(b.id + ": decay in a bearer at ground level");
        }
        return;
      }
      case record::Defect::notch:
      case record::Defect::hole:
        notch(b, length, b.depth, c);
        return;
      case record::Defect::split:
        split(b, length, b.depth, c);
        return;
      case record::Defect::missing: {
        const Part part = missing_part(c, length);
        make_absent(b, length, part.from, part.to, "missing");
        return;
      }
      case record::Defect::corroded_fixing:
      case record::Defect::missing_fixing:
      case record::Defect::wrong_fixing:
        b.held_down = record::HeldDown::nothing;
        b.hold_down_capacity.reset();
        if (b.plies > 1) b.act_together = false;
        tell(b.id + ": no fixing of it counts; its joists are not held down" +
             (b.plies > 1 ? " and its plies do not act together" : ""));
        return;
      case record::Defect::short_bearing: {
        if (!c.size) no_sense(c);
        const auto index = static_cast<int>(&b - deck_.bearers.data());
        const Part part = part_of(c, length);
        const Length middle = b.from + 0.5 * (part.from + part.to);
        Support* nearest = nullptr;
        bool found = false;
        for (Support& s : deck_.supports) {
          if (s.bearer != index) continue;
          found = true;
          if (part.whole) {
            shorten(s, *c.size);
          } else if (nearest == nullptr || abs(along(s.at, b.direction) - middle) <
                                               abs(along(nearest->at, b.direction) - middle)) {
            nearest = &s;
          }
        }
        if (nearest != nullptr) shorten(*nearest, *c.size);
        if (!found) tell(b.id + ": short bearing, but nothing bears it");
        return;
      }
      default:
        no_sense(c);
    }
  }

  void shorten(Support& s, Length size) {
    s.bearing_length = s.bearing_length ? min(*s.bearing_length, size) : size;
    tell(s.id + ": " + text(*s.bearing_length) + " of wood bears on it");
  }

  void ledger(Ledger& l, const record::Condition& c) {
    l.faulted = true;
    const Length length = l.to - l.from;
    switch (c.defect) {
      case record::Defect::decay:
      case record::Defect::surface_softening:
        decay(l, length, c, "decay and its margin");
        deck_.refer_reasons.push_back(l.id + ": decay in a ledger");
        return;
      case record::Defect::notch:
      case record::Defect::hole:
        notch(l, length, l.depth, c);
        return;
      case record::Defect::split:
        split(l, length, l.depth, c);
        l.sound = false;
        tell(l.id + ": split; its fixings count for nothing");
        return;
      case record::Defect::missing: {
        const Part part = missing_part(c, length);
        make_absent(l, length, part.from, part.to, "missing");
        return;
      }
      case record::Defect::corroded_fixing:
      case record::Defect::missing_fixing:
      case record::Defect::wrong_fixing:
        l.sound = false;
        tell(l.id + ": its fixings count for nothing");
        return;
      default:
        no_sense(c);
    }
  }

  void post_weakened(Support& s, const record::Condition& c) {
    Post& post = *s.post;
    Length& least = post.breadth <= post.depth ? post.breadth : post.depth;
    const Length left = c.defect == record::Defect::split
                            ? 0.5 * least
                            : least - c.size.value_or(rule("notch/unmeasured_share") * least);
    if (left <= Length()) {
      absent_whole(s,
                   c.defect == record::Defect::hole ? "hole through its post" : "post cut through");
      return;
    }
    least = left;
    tell(s.id + ": its post counts as " + text(post.breadth) + " by " + text(post.depth) +
         (c.defect == record::Defect::split  ? " (split)"
          : c.defect == record::Defect::hole ? " (hole)"
                                             : " (notch)"));
  }

  // A support or wall counts as absent as a whole: one stretch, over its height or length.
  void absent_whole(Support& s, const std::string& why) {
    absent_whole(s, s.post ? s.post->height : s.footing.thickness, why);
  }
  void absent_whole(Wall& w, const std::string& why) { absent_whole(w, distance(w.a, w.b), why); }
  void absent_whole(Piece& piece, Length extent, const std::string& why) {
    piece.absent.push_back({Length(), max(extent, mm(1.0)), why});
    tell(piece.id + " counts as absent (" + why + ")");
  }

  void support(Support& s, const record::Condition& c) {
    s.faulted = true;
    const bool post = s.post.has_value();
    switch (c.defect) {
      case record::Defect::decay:
      case record::Defect::surface_softening:
        if (!post) no_sense(c);
        absent_whole(s, "decay in its post");
        deck_.refer_reasons.push_back(s.id + ": decay in a post");
        return;
      case record::Defect::notch:
      case record::Defect::split:
      case record::Defect::hole:
        if (!post) no_sense(c);
        post_weakened(s, c);
        return;
      case record::Defect::missing:
        absent_whole(s, "missing");
        return;
      case record::Defect::corroded_fixing:
      case record::Defect::missing_fixing:
      case record::Defect::wrong_fixing:
        if (!post) no_sense(c);
        s.post->bolts = 0;
        tell(s.id + ": the fixings of its post count for nothing");
        // Beside its bearer the bolts carry and the checks say so; below it nothing else keeps it upright.
        if (s.post->bearer_on_top) {
          deck_.refer_reasons.push_back(
              s.id +
              ": nothing that counts holds its post to the bearer or to its foot: fix it first");
        }
        return;
      case record::Defect::crack:
        s.footing.cracked = true;
        tell(s.id + ": cracked; its footing spreads nothing beyond what stands on it");
        return;
      case record::Defect::tilt:
      case record::Defect::undermined:
        s.footing.tilted_or_undermined = true;
        tell(s.id + (c.defect == record::Defect::tilt ? ": its footing is tilted"
                                                      : ": its footing is undermined"));
        return;
      case record::Defect::leaning: {
        if (!post) no_sense(c);
        const Length lean = c.size.value_or(rule("lean/unmeasured_share") * s.post->height);
        s.post->lean = max(s.post->lean, lean);
        tell(s.id + ": its post leans by " + text(s.post->lean) + (c.size ? "" : " (assumed)"));
        return;
      }
      case record::Defect::buried:
        if (!post) no_sense(c);
        deck_.refer_reasons.push_back(
            s.id +
            ": its post stands in soil, where it decays first and unseen: dig its foot free, "
            "probe it and record what is found");
        return;
      case record::Defect::short_bearing:
        if (!c.size) no_sense(c);
        shorten(s, *c.size);
        return;
      case record::Defect::loose_packing:
        s.footing.contact = record::Contact::loose;
        s.footing.contact_recorded = true;
        s.footing.gap = Length();
        tell(s.id + ": loose; it counts as absent");
        return;
      case record::Defect::out_of_level:
        if (!c.size) no_sense(c);
        if (s.footing.contact == record::Contact::loose) return;  // nothing already
        s.footing.contact = record::Contact::gap;
        s.footing.contact_recorded = true;
        s.footing.gap = max(s.footing.gap, *c.size);
        tell(s.id + ": a gap of " + text(s.footing.gap) + " opens before it carries");
        return;
    }
    no_sense(c);
  }

  void wall(Wall& w, const record::Condition& c) {
    switch (c.defect) {
      case record::Defect::missing:
        absent_whole(w, "missing");
        return;
      case record::Defect::crack:
        w.strip_width = min(w.strip_width, w.width);
        tell(w.id + ": cracked; its footing counts no wider than the wall");
        return;
      case record::Defect::tilt:
      case record::Defect::undermined:
        absent_whole(w, c.defect == record::Defect::tilt ? "tilted" : "undermined");
        deck_.refer_reasons.push_back(w.id + (c.defect == record::Defect::tilt
                                                  ? ": a tilted wall under the deck"
                                                  : ": an undermined wall under the deck"));
        return;
      case record::Defect::short_bearing:
        if (!c.size) no_sense(c);
        w.width = min(w.width, *c.size);
        tell(w.id + ": " + text(w.width) + " of wood bears on it");
        return;
      case record::Defect::loose_packing:
        w.contact = record::Contact::loose;
        w.contact_recorded = true;
        w.gap = Length();
        tell(w.id + ": loose; it counts as absent");
        return;
      case record::Defect::out_of_level:
        if (!c.size) no_sense(c);
        if (w.contact == record::Contact::loose) return;
        w.contact = record::Contact::gap;
        w.contact_recorded = true;
        w.gap = max(w.gap, *c.size);
        tell(w.id + ": a gap of " + text(w.gap) + " opens before it carries");
        return;
      default:
        no_sense(c);
    }
  }

  // Rims and blocking only hold joists upright: with anything wrong they count for nothing.
  template <class Pieces>
  void gone(Pieces& pieces, const record::Condition& c, bool& found) {
    for (std::size_t i = pieces.size(); i-- > 0;) {
      if (pieces[i].id != c.piece) continue;
      found = true;
      if (c.defect > record::Defect::wrong_fixing) no_sense(c);
      pieces.erase(pieces.begin() + static_cast<std::ptrdiff_t>(i));
      tell(c.piece + " counts for nothing: it is missing or not sound");
    }
  }

  const record::Survey& survey_;
  const FactTaker& facts_;
  Deck& deck_;
};

}  // namespace

void apply_conditions(const record::Survey& survey, const FactTaker& facts, Deck& deck) {
  Conditions conditions(survey, facts, deck);
  for (const record::Condition& condition : survey.deck.condition) conditions.apply(condition);
}

}  // namespace underprop::deck
