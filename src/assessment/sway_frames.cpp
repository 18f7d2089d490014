#include "sway_frames.hpp"
#include "figures.hpp"

#include "catalog/table.hpp"
#include "underprop/base/geometry.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

namespace underprop::assessment {

namespace plane = solver::plane;

namespace {

double across_of(Point p, Axis push) { return along(p, other(push)).value(); }

/// Posts of one frame: those under one bearer along the push, or in one line across bearers.
std::vector<SwayFrame> lines_of_posts(const deck::Deck& deck, Axis push) {
  std::vector<SwayFrame> frames;
  std::map<int, std::vector<std::size_t>> under;
  std::vector<std::size_t> others;
  for (std::size_t s = 0; s < deck.supports.size(); ++s) {
    const deck::Support& support = deck.supports[s];
    if (!support.post || !(support.post->height.value() > 1.0)) continue;
    const bool along = support.bearer >= 0 &&
                       deck.bearers[static_cast<std::size_t>(support.bearer)].direction == push;
    if (along) {
      under[support.bearer].push_back(s);
    } else {
      others.push_back(s);
    }
  }
  for (auto& [bearer, posts] : under) {
    SwayFrame frame;
    frame.under_bearer = true;
    frame.beam = static_cast<std::size_t>(bearer);
    frame.posts = std::move(posts);
    frames.push_back(std::move(frame));
  }
  std::stable_sort(others.begin(), others.end(), [&](std::size_t a, std::size_t b) {
    return across_of(deck.supports[a].at, push) < across_of(deck.supports[b].at, push);
  });
  const double same = figure("line_of_posts_mm");
  double last = -1e300;
  const std::size_t first_line = frames.size();
  for (const std::size_t s : others) {
    const double at = across_of(deck.supports[s].at, push);
    if (at - last > same || frames.size() == first_line) frames.emplace_back();
    frames.back().posts.push_back(s);
    last = at;
  }
  for (SwayFrame& frame : frames) {
    frame.push = push;
    std::stable_sort(frame.posts.begin(), frame.posts.end(), [&](std::size_t a, std::size_t b) {
      return along(deck.supports[a].at, push) < along(deck.supports[b].at, push);
    });
    for (const std::size_t s : frame.posts) {
      frame.x.push_back(along(deck.supports[s].at, push).value());
      frame.across +=
          across_of(deck.supports[s].at, push) / static_cast<double>(frame.posts.size());
      frame.fixed = frame.fixed || deck.supports[s].post->base_fixed;
    }
    frame.name = frame.posts.size() == 1 ? "post " + deck.supports[frame.posts[0]].id
                                         : "posts " + deck.supports[frame.posts.front()].id +
                                               " to " + deck.supports[frame.posts.back()].id;
    if (frame.under_bearer) {
      for (const deck::Support& support : deck.supports) {
        if (support.bearer == static_cast<int>(frame.beam) && !support.post)
          frame.rollers.push_back(along(support.at, push).value());
      }
      std::sort(frame.rollers.begin(), frame.rollers.end());
      continue;
    }
    // The beam is the nearest joist; it also lies on what else crosses it.
    double nearest = 1e300;
    for (std::size_t j = 0; j < deck.joists.size(); ++j) {
      const double off = std::abs(deck.joists[j].position.value() - frame.across) +
                         (deck.joists[j].direction == push ? 0.0 : 1e9);
      if (off < nearest - 1e-6) {
        nearest = off;
        frame.beam = j;
        frame.beam_bends = deck.joists[j].direction == push;
      }
    }
    if (!frame.beam_bends) continue;
    const auto roller = [&](double at) {
      for (const double x : frame.x) {
        if (std::abs(x - at) <= 3.0 * same) return;
      }
      frame.rollers.push_back(at);
    };
    for (const deck::Meeting& m : deck.meetings) {
      const bool line = m.kind == deck::MeetingKind::joist_on_bearer || deck::at_side(m.kind);
      if (line && m.piece == frame.beam) roller(m.place.value());
    }
    std::sort(frame.rollers.begin(), frame.rollers.end());
  }
  return frames;
}

/// From both ends inwards: 0, n-1, 1, n-2 ...; the other way about if `high`.
std::vector<std::size_t> ends_first(std::size_t n, bool high) {
  std::vector<std::size_t> order;
  for (std::size_t k = 0; k < n; ++k) {
    const std::size_t in = k / 2;
    order.push_back((k % 2 == 0) != high ? in : n - 1 - in);
  }
  return order;
}

struct Slot {
  std::size_t post = 0;
  int side = 1;  ///< the brace rises from that post to this side
};

/// Where the braces of one post stand: towards its neighbours, the inner side first.
std::vector<Slot> slots_at(const SwayFrame& frame, std::size_t post, bool high) {
  const std::size_t n = frame.posts.size();
  const int up = high ? -1 : 1;
  if (n == 1) {
    double left = 0.0, right = 0.0;
    for (const double r : frame.rollers) (r < frame.x[0] ? left : right) = 1.0;
    if (left > 0.0 && right > 0.0) return {{0, up}, {0, -up}};
    return {{0, left > 0.0 ? -1 : 1}};
  }
  if (post == 0) return {{0, 1}};
  if (post + 1 == n) return {{post, -1}};
  return {{post, up}, {post, -up}};
}

/// Knees under one bearer: the end posts first. Diagonals: bays from the ends inwards, leaning inwards.
std::vector<Slot> slots_along(const SwayFrame& frame, bool knee, bool high) {
  std::vector<Slot> slots;
  const std::size_t n = frame.posts.size();
  if (knee || n == 1) {
    for (const bool second : {false, true}) {
      for (const std::size_t p : ends_first(n, high)) {
        const std::vector<Slot> here = slots_at(frame, p, high);
        if (here.size() > (second ? 1U : 0U)) slots.push_back(here[second ? 1 : 0]);
      }
    }
    return slots;
  }
  for (const bool second : {false, true}) {
    for (const std::size_t bay : ends_first(n - 1, high)) {
      const bool low_half = 2 * bay + 1 < n - 1 || (2 * bay + 1 == n - 1 && !high);
      const bool rises = low_half != second;
      slots.push_back({rises ? bay : bay + 1, rises ? 1 : -1});
    }
  }
  return slots;
}

class Placer {
public:
  Placer(const deck::Deck& deck, const Timbers& timbers, const standards::Standard& standard,
         const standards::Combination& combination, Axis push, CountedFrom from,
         std::vector<std::string>& notes)
      : deck_(deck),
        timbers_(timbers),
        standard_(standard),
        combination_(combination),
        push_(push),
        from_(from),
        notes_(notes),
        frames_(lines_of_posts(deck, push)) {}

  std::vector<SwayFrame> place() {
    for (std::size_t b = 0; b < deck_.braces.size(); ++b) {
      const record::Brace& brace = deck_.braces[b];
      const bool member =
          brace.kind == record::BraceKind::knee || brace.kind == record::BraceKind::diagonal;
      if (brace.direction == push_ && member && !timbers_.joists.empty()) record(b);
    }
    for (SwayFrame& frame : frames_) decide_tension_only(frame);
    return std::move(frames_);
  }

private:
  void note(std::string words) {
    if (std::find(notes_.begin(), notes_.end(), words) == notes_.end())
      notes_.push_back(std::move(words));
  }

  /// Supports that the brace's place names: a group, one support; nothing for words.
  std::vector<std::size_t> named(const std::string& at) const {
    std::vector<std::size_t> found;
    std::map<int, std::vector<std::size_t>> groups;
    for (std::size_t s = 0; s < deck_.supports.size(); ++s) {
      if (deck_.supports[s].id == at) return {s};
      groups[deck_.supports[s].group].push_back(s);
    }
    std::size_t shortest = 0;
    for (const auto& [group, members] : groups) {
      const bool all = std::all_of(members.begin(), members.end(), [&](std::size_t s) {
        const std::string& id = deck_.supports[s].id;
        return id.size() > at.size() && id.starts_with(at) &&
               std::all_of(id.begin() + static_cast<std::ptrdiff_t>(at.size()), id.end(),
                           [](char c) { return c >= '0' && c <= '9'; });
      });
      const std::size_t length = deck_.supports[members.front()].id.size();
      if (all && !at.empty() && (found.empty() || length < shortest)) {
        found = members;
        shortest = length;
      }
    }
    return found;
  }

  /// Words that put the braces on more than one line of posts: "both sides", "each end".
  static bool on_every_side(const std::string& words) {
    std::string low;
    for (const char c : words) low += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    for (const auto& word : catalog::table("scope.json").at("braces_on_both").at("value")) {
      const std::string w = word.get<std::string>();
      for (std::size_t at = low.find(w); at != std::string::npos; at = low.find(w, at + 1)) {
        const auto letter = [&](std::size_t k) {
          return k < low.size() && low[k] >= 'a' && low[k] <= 'z';
        };
        if ((at == 0 || !letter(at - 1)) && !letter(at + w.size())) return true;
      }
    }
    return false;
  }

  /// The lines of posts at both ends across the push.
  std::vector<SwayFrame*> outer_lines() {
    std::vector<SwayFrame*> lines;
    double low = 1e300, high = -1e300;
    for (const SwayFrame& frame : frames_) {
      low = std::min(low, frame.across);
      high = std::max(high, frame.across);
    }
    for (SwayFrame& frame : frames_) {
      if (frame.across < low + 1e-6 || frame.across > high - 1e-6) lines.push_back(&frame);
    }
    std::ranges::stable_sort(lines, {}, &SwayFrame::across);
    if (from_.high(other(push_))) std::ranges::reverse(lines);
    return lines;
  }

  /// Words name no posts: those farthest from the load, where eccentricity is largest.
  std::vector<std::size_t> outermost() const {
    const double middle = across_of(
        deck_.loads.empty() ? centroid(deck_.outline) : deck_.loads.front().centre, push_);
    std::vector<std::size_t> best;
    double far = -1.0;
    const bool high = from_.high(other(push_));
    for (const SwayFrame& frame : frames_) {
      const double off = std::abs(frame.across - middle);
      if (off > far + 1e-6 || (high && off > far - 1e-6)) {
        far = off;
        best = frame.posts;
      }
    }
    return best;
  }

  void record(std::size_t index) {
    const record::Brace& brace = deck_.braces[index];
    std::vector<std::size_t> hosts = named(brace.at);
    const bool both = hosts.empty() && frames_.size() > 1 && on_every_side(brace.at);
    if (both) {
      note("Braces \"" + brace.at +
           "\" name no group of supports: taken in turn at the first and the last line of posts.");
    } else if (hosts.empty()) {
      hosts = outermost();
      note("Braces \"" + brace.at + "\" name no group of supports: taken at the outermost posts.");
    }
    // Each end is bolted flat against a post or beam: the joint of a board on a timber band.
    standards::LedgerFixingDemand demand;
    demand.wall = standards::BandKind::timber_band;
    demand.fixing = standards::FastenerKind::bolt;
    demand.diameter = brace.bolt_diameter;
    demand.ledger = brace_timber(timbers_);
    // Written either way round, the bolts go through its smaller side.
    demand.ledger_thickness = min(brace.breadth, brace.depth);
    demand.ledger_depth = max(brace.breadth, brace.depth);
    demand.shear = newtons(1.0);
    if (brace.bolts < 1 || !standard_.ledger_fixing_counts(demand)) {
      note("Braces at " + brace.at + " have no bolts that count, and resist nothing.");
      return;
    }
    PlacedBrace placed;
    placed.record = index;
    placed.knee = brace.kind == record::BraceKind::knee;
    placed.bolt = standard_.ledger_fixing(demand, combination_);
    if (!(placed.bolt.utilisation > 0.0) || !std::isfinite(placed.bolt.utilisation)) return;
    placed.capacity = brace.bolts / placed.bolt.utilisation;
    int left = brace.count;
    std::vector<SwayFrame*> lines;
    for (SwayFrame& frame : frames_) {
      const bool here = std::any_of(frame.posts.begin(), frame.posts.end(), [&](std::size_t s) {
        return std::find(hosts.begin(), hosts.end(), s) != hosts.end();
      });
      if (here) lines.push_back(&frame);
    }
    const bool high = from_.high(push_);
    std::vector<std::pair<SwayFrame*, Slot>> queue;
    if (both) {
      lines = outer_lines();
      std::vector<std::vector<Slot>> slots;
      std::size_t most = 0;
      for (const SwayFrame* line : lines) {
        slots.push_back(slots_along(*line, placed.knee, high));
        most = std::max(most, slots.back().size());
      }
      for (std::size_t k = 0; k < most; ++k) {
        for (std::size_t l = 0; l < lines.size(); ++l) {
          if (k < slots[l].size()) queue.emplace_back(lines[l], slots[l][k]);
        }
      }
    } else if (lines.size() == 1 && lines[0]->under_bearer && hosts.size() > 1) {
      for (const Slot& slot : slots_along(*lines[0], placed.knee, high))
        queue.emplace_back(lines[0], slot);
    } else {
      // Across the beams a diagonal is crossed by its fellow before the next row of posts gets one:
      // a single one that is slender would hold one way only. Knees stand one to a row first.
      const auto offer = [&](SwayFrame& frame, bool second) {
        for (std::size_t p = 0; p < frame.posts.size(); ++p) {
          if (std::find(hosts.begin(), hosts.end(), frame.posts[p]) == hosts.end()) continue;
          const std::vector<Slot> here = slots_at(frame, p, high);
          if (!second) {
            queue.emplace_back(&frame, here[0]);
          } else if (!placed.knee && frame.posts.size() > 1) {
            queue.emplace_back(&frame, Slot{here[0].side > 0 ? here[0].post + 1 : here[0].post - 1,
                                            -here[0].side});
          } else if (here.size() > 1) {
            queue.emplace_back(&frame, here[1]);
          }
        }
      };
      const auto rows = ends_first(lines.size(), from_.high(other(push_)));
      if (placed.knee) {
        for (const bool second : {false, true})
          for (const std::size_t k : rows) offer(*lines[k], second);
      } else {
        for (const std::size_t k : rows)
          for (const bool second : {false, true}) offer(*lines[k], second);
      }
    }
    for (const auto& [frame, slot] : queue) {
      if (left == 0) break;
      if (put(*frame, slot, placed)) --left;
    }
    if (left > 0) {
      note(std::to_string(left) + " of the " + std::to_string(brace.count) + " braces at " +
           brace.at + " find no place beside the others and count for nothing.");
    }
  }

  bool put(SwayFrame& frame, const Slot& slot, PlacedBrace placed) {
    const auto height = [&](std::size_t p) {
      return deck_.supports[frame.posts[p]].post->height.value();
    };
    const double h = height(slot.post), x = frame.x[slot.post];
    placed.low_post = slot.post;
    placed.sense = slot.side;
    if (!frame.beam_bends && (placed.knee || frame.posts.size() < 2)) return false;
    if (placed.knee) {
      const double leg = std::min(figure("knee_leg_mm"), h / 2.0);
      placed.z_low = -leg;
      placed.x_high = x + slot.side * leg;
      if (frame.under_bearer) {
        const deck::Bearer& bearer = deck_.bearers[frame.beam];
        if (placed.x_high < bearer.from.value() || placed.x_high > bearer.to.value()) return false;
      }
    } else {
      const double end = std::min(figure("diagonal_end_mm"), h / 4.0);
      placed.z_low = -h + end;
      const std::size_t n = frame.posts.size();
      if (slot.side > 0 ? slot.post + 1 < n : slot.post > 0) {
        const std::size_t other = slot.side > 0 ? slot.post + 1 : slot.post - 1;
        placed.high_post = static_cast<int>(other);
        placed.x_high = frame.x[other];
        placed.z_high = -std::min(figure("diagonal_end_mm"), height(other) / 4.0);
      } else {
        // Up to the beam at 45 degrees, at most to where the beam is held next.
        double reach = h - end;
        for (const double r : frame.rollers) {
          if ((r - x) * slot.side > 0.0) reach = std::min(reach, std::abs(r - x));
        }
        placed.x_high = x + slot.side * reach;
      }
    }
    for (const PlacedBrace& other : frame.braces) {
      const bool same = other.low_post == placed.low_post && other.sense == placed.sense &&
                        other.knee == placed.knee;
      if (same) return false;
    }
    frame.braces.push_back(std::move(placed));
    return true;
  }

  void decide_tension_only(SwayFrame& frame) const {
    bool slender = false, rising = false, falling = false;
    for (const PlacedBrace& placed : frame.braces) {
      if (placed.knee) continue;
      const record::Brace& record = deck_.braces[placed.record];
      standards::ColumnDemand demand;
      demand.timber = brace_timber(timbers_);
      demand.breadth = min(record.breadth, record.depth);
      demand.depth = max(record.breadth, record.depth);
      demand.height =
          mm(std::hypot(placed.x_high - frame.x[placed.low_post], placed.z_high - placed.z_low));
      demand.axial = newtons(placed.capacity);
      slender = slender || standard_.column(demand, combination_).utilisation > 1.0;
      (placed.sense > 0 ? rising : falling) = true;
    }
    frame.tension_only = slender && rising && falling;
  }

  const deck::Deck& deck_;
  const Timbers& timbers_;
  const standards::Standard& standard_;
  const standards::Combination& combination_;
  Axis push_;
  CountedFrom from_;
  std::vector<std::string>& notes_;
  std::vector<SwayFrame> frames_;
};

}  // namespace

const standards::Timber& brace_timber(const Timbers& timbers) { return timbers.joists.front(); }

std::vector<SwayFrame> sway_frames(const deck::Deck& deck, const Timbers& timbers,
                                   const standards::Standard& standard,
                                   const standards::Combination& combination, Axis push,
                                   CountedFrom from, std::vector<std::string>& notes) {
  return Placer(deck, timbers, standard, combination, push, from, notes).place();
}

FrameModel frame_model(const SwayFrame& frame, const deck::Deck& deck, const Timbers& timbers,
                       const standards::Standard& standard, int sense, double leaning) {
  FrameModel m;
  constexpr int parts = 4;
  std::map<std::pair<long long, long long>, int> known;
  const auto node = [&](double x, double z) {
    const std::pair key{std::llround(x * 100.0), std::llround(z * 100.0)};
    const auto [it, fresh] = known.emplace(key, static_cast<int>(m.frame.nodes.size()));
    if (fresh) m.frame.nodes.push_back({"n" + std::to_string(it->second), x, z});
    return it->second;
  };
  const auto counts = [&](const PlacedBrace& b) {
    return b.knee || sense == 0 || b.sense == sense;
  };
  const Axis push = frame.push;
  std::vector<double> on_beam = frame.x;
  on_beam.insert(on_beam.end(), frame.rollers.begin(), frame.rollers.end());
  for (const PlacedBrace& b : frame.braces) {
    if (b.high_post < 0) on_beam.push_back(b.x_high);
  }
  for (std::size_t p = 0; p < frame.posts.size(); ++p) {
    const std::size_t s = frame.posts[p];
    const deck::Post& post = *deck.supports[s].post;
    std::vector<double> levels{-post.height.value(), 0.0};
    for (const PlacedBrace& b : frame.braces) {
      if (!counts(b)) continue;
      if (b.low_post == p) levels.push_back(b.z_low);
      if (b.high_post == static_cast<int>(p)) levels.push_back(b.z_high);
    }
    std::sort(levels.begin(), levels.end());
    levels.erase(
        std::unique(levels.begin(), levels.end(), [](double a, double b) { return b - a < 1.0; }),
        levels.end());
    // The side of the section in the plane of the frame: breadth is measured along x.
    const double in_plane = (push == Axis::x ? post.breadth : post.depth).value();
    const double out = (push == Axis::x ? post.depth : post.breadth).value();
    const double E = standard.E_stability(*timbers.posts[s]).value();
    const double EI = E * out * std::pow(in_plane, 3) / 12.0;
    m.posts.emplace_back();
    for (std::size_t k = 0; k + 1 < levels.size(); ++k) {
      plane::Member member;
      member.id = member.piece = deck.supports[s].id;
      member.i = node(frame.x[p], levels[k]);
      member.j = node(frame.x[p], levels[k + 1]);
      member.EA = E * in_plane * out;
      member.EI = EI;
      member.parts = parts;
      if (k + 2 == levels.size()) member.rotation_j = 0.0;
      m.posts.back().push_back(static_cast<int>(m.frame.members.size()));
      m.frame.members.push_back(std::move(member));
    }
    m.feet.push_back(node(frame.x[p], levels.front()));
    m.tops.push_back(node(frame.x[p], 0.0));
    // A foot that is proved fixed still turns a little: K = 2.1 instead of 2.0.
    const double turn =
        post.base_fixed ? figure("fixed_foot_EI_over_h") * EI / post.height.value() : 0.0;
    m.frame.supports.push_back(
        {deck.supports[s].id, m.feet.back(), solver::rigid, solver::rigid, turn});
  }
  for (const double r : frame.rollers)
    m.frame.supports.push_back({"roller", node(r, 0.0), 0.0, solver::rigid, 0.0});
  std::vector<double> hinges;
  double b = 0.0, h = 0.0, E = 0.0;
  std::string beam_id;
  if (frame.under_bearer) {
    const deck::Bearer& bearer = deck.bearers[frame.beam];
    b = bearer.ply_breadth.value() * bearer.plies;
    h = (bearer.depth - bearer.softened).value();
    E = standard.E_stability(timbers.bearers[frame.beam]).value();
    beam_id = bearer.id;
    for (const Length splice : bearer.splices) {
      double at = splice.value();
      for (const double x : frame.x) {
        if (std::abs(x - at) <= figure("line_of_posts_mm")) at = x;
      }
      hinges.push_back(at);
      if (at > frame.x.front() && at < frame.x.back()) on_beam.push_back(at);
    }
  } else {
    const deck::Joist& joist = deck.joists[frame.beam];
    b = joist.breadth.value();
    h = (joist.depth - joist.softened).value();
    E = standard.E_stability(timbers.joists[frame.beam]).value();
    beam_id = joist.id;
  }
  std::sort(on_beam.begin(), on_beam.end());
  on_beam.erase(
      std::unique(on_beam.begin(), on_beam.end(), [](double p, double q) { return q - p < 1.0; }),
      on_beam.end());
  for (std::size_t k = 0; k + 1 < on_beam.size(); ++k) {
    plane::Member member;
    member.id = member.piece = beam_id;
    member.i = node(on_beam[k], 0.0);
    member.j = node(on_beam[k + 1], 0.0);
    member.EA = E * b * h;
    member.EI = frame.beam_bends ? E * b * h * h * h / 12.0 : 0.0;
    member.parts = 2;
    for (const double hinge : hinges) {
      if (k > 0 && std::abs(hinge - on_beam[k]) < 1.0) member.rotation_i = 0.0;
    }
    m.beam.push_back(static_cast<int>(m.frame.members.size()));
    m.frame.members.push_back(std::move(member));
  }
  const standards::Timber* wood = frame.braces.empty() ? nullptr : &brace_timber(timbers);
  for (std::size_t k = 0; k < frame.braces.size(); ++k) {
    const PlacedBrace& placed = frame.braces[k];
    if (!counts(placed)) continue;
    const record::Brace& record = deck.braces[placed.record];
    const double x = frame.x[placed.low_post];
    const double l = std::hypot(placed.x_high - x, placed.z_high - placed.z_low);
    const double wooden =
        standard.E_stability(*wood).value() * (record.breadth * record.depth).value() / l;
    const double slip = figure("slip_for_strength") *
                        standard.bolt_slip(record.bolt_diameter, *wood).value() * record.bolts;
    plane::Member member;
    member.id = member.piece = "brace at " + record.at;
    member.i = node(x, placed.z_low);
    member.j = node(placed.x_high, placed.z_high);
    member.EA = l / (1.0 / wooden + 2.0 / slip);
    m.bars.emplace_back(static_cast<int>(k), static_cast<int>(m.frame.members.size()));
    m.frame.members.push_back(std::move(member));
  }
  if (leaning > 0.0) {
    const double x = on_beam.front() - 1000.0;
    const int foot = node(x, -leaning);
    m.leaning = node(x, 0.0);
    // Stiff beside the frame's own members, not so much that rounding tells.
    const double EA = 100.0 * m.frame.members.front().EA;
    m.frame.members.push_back({"leaning", "the other posts", foot, m.leaning, EA});
    m.frame.members.push_back({"tie", "deck", m.leaning, m.tops.front(), EA});
    m.frame.supports.push_back({"leaning", foot, solver::rigid, solver::rigid, 0.0});
  }
  return m;
}

double sway_stiffness(const SwayFrame& frame, const deck::Deck& deck, const Timbers& timbers,
                      const standards::Standard& standard) {
  if (frame.braces.empty() && !frame.fixed) return 0.0;
  double least = 0.0;
  for (const int sense : {1, -1}) {
    const FrameModel m =
        frame_model(frame, deck, timbers, standard, frame.tension_only ? sense : 0, 0.0);
    std::vector<plane::Load> loads;
    const double n = static_cast<double>(m.tops.size());
    for (const int top : m.tops) loads.push_back({top, 1000.0 * sense / n, 0.0, 0.0});
    const plane::Answer answer = plane::solve(m.frame, loads, plane::Order::first);
    if (answer.mechanism) return 0.0;
    double moved = 0.0;
    for (const int top : m.tops)
      moved += sense * answer.displacements[static_cast<std::size_t>(top)].u / n;
    const double k = moved > 0.0 ? 1000.0 / moved : 0.0;
    least = sense == 1 ? k : std::min(least, k);
  }
  return least;
}

}  // namespace underprop::assessment
