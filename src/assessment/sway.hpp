// A push on a raised deck shared among what resists it, and the checks of each part.
//
// N, mm. Plan axes as in the survey; turning anticlockwise seen from above.
#pragma once

#include "righting.hpp"
#include "stability.hpp"
#include "sway_frames.hpp"

#include <Eigen/Dense>

#include <limits>
#include <map>
#include <string>
#include <vector>

namespace underprop::assessment {

/// The strength combination with most of the people: they cause the sway.
standards::Combination swaying(const standards::Standard& standard);
/// Largest utilisation of a check of one piece; 0 if there is none.
double worst_found(const std::vector<Finding>& found, const std::string& piece,
                   const std::string& check);

/// A ledger that holds the deck sideways by its fixings.
struct HoldingLedger {
  std::size_t ledger = 0;
  double count = 0.0;          ///< fixings
  double capacity = 0.0;       ///< of one sideways, N, beside what it carries already
  double pull_capacity = 0.0;  ///< of one out of the wall, N, likewise; 0: none
  bool shares_add = false;     ///< sideways and out of the wall: added as they are, else as squares
  double k = 0.0;              ///< of one, N/mm
  bool away = false;           ///< joists are fixed to it, so it also holds across
};

std::vector<HoldingLedger> holding_ledgers(const deck::Deck& deck, const Timbers& timbers,
                                           const standards::Standard& standard,
                                           const standards::Combination& now,
                                           const std::vector<Finding>& found,
                                           const std::map<std::string, std::vector<double>>& used);

/// What one fixing has left, as shares of its resistances.
struct Left {
  double shear = 0.0, pull = 0.0;
};
/// Beside the use u_v down the wall and u_t out of it, each taken alone. Shears add as vectors, pulls as
/// numbers; shear and pull together by squares (EN 1995-1-1 8.7.3(1)), or `linear`: shares added.
Left left_beside(double u_v, double u_t, bool linear);
/// Does the deck stand between walls on both of its sides along `push`? A wall on one side holds a
/// push towards it only, and so nothing of one that may go either way.
bool between_walls(const deck::Deck& deck, Axis push);

/// How far from the axis of its post a bearer bolted to the post's side hands over its load, mm: half
/// of both breadths; 0 for a bearer on top. Statics.
double beside_by(const deck::Deck& deck, std::size_t support);

/// A push on the deck, N.
struct Push {
  double above = 0.0;    ///< at the load's centre
  double at_tops = 0.0;  ///< from posts out of plumb and bearers beside them, at the posts' tops
  [[nodiscard]] double whole() const { return above + at_tops; }
};

/// One comparison, with the lines that led to it.
struct Ratio {
  std::string words;
  standards::Check check;
};

struct Evaluation {
  std::vector<Ratio> ratios;
  std::vector<standards::Step> steps;
  std::string nothing;  ///< why there is no resistance at all
  [[nodiscard]] double worst() const {
    double u = nothing.empty() ? 0.0 : std::numeric_limits<double>::infinity();
    for (const Ratio& r : ratios) u = std::max(u, r.check.utilisation);
    return u;
  }
};

/// Source of what the frames give.
inline const Citation frame_source{"judgement",
                                   "frame analysis to second order, solver/plane_frame.hpp"};

class Sway {
public:
  Sway(const deck::Deck& deck, const Timbers& timbers, const standards::Standard& standard,
       const StabilityLoads& loads, CountedFrom from);

  Evaluation evaluate(Axis push, double tested) const;
  [[nodiscard]] double characteristic() const { return push_; }
  [[nodiscard]] double factor() const { return factor_; }
  [[nodiscard]] double in_unit(double newton) const {
    return us_ ? in_pounds_force(newtons(newton)) : in_kilonewtons(newtons(newton));
  }
  [[nodiscard]] std::string unit() const { return us_ ? "lb" : "kN"; }
  [[nodiscard]] double lever() const { return lever_; }
  [[nodiscard]] Citation combination_source() const { return now_.source; }
  [[nodiscard]] std::string combination() const { return now_.id; }

  /// What the loads add to all vertical load, as a share of the rest.
  [[nodiscard]] double raised_by_load() const;
  /// The support nearest to toppling where nothing links the heads: its share of the push, with the
  /// leverage of the load's height, against what it rights itself.
  struct Alone {
    std::size_t support = 0;
    double push = 0.0, holds = 0.0;
    std::vector<standards::Step> steps;
    [[nodiscard]] double utilisation() const {
      return push <= 0.0    ? 0.0
             : holds <= 0.0 ? std::numeric_limits<double>::infinity()
                            : push / holds;
    }
  };
  [[nodiscard]] Alone alone(Axis push) const;

  std::vector<std::string> notes;

private:
  static std::size_t index(Axis axis) { return axis == Axis::x ? 0 : 1; }
  [[nodiscard]] double factored(std::size_t support) const {
    return support < loads_.reactions.size() ? loads_.reactions[support].factored.value() : 0.0;
  }
  [[nodiscard]] double height(std::size_t support) const {
    return deck_.supports[support].post ? deck_.supports[support].post->height.value() : 0.0;
  }

  void weigh();
  void stiffness_in_plan();
  /// Horizontal force that each post's own load hands to the deck along `push` where every post leans
  /// that way and every bearer stands on that side, N factored: N (lean / h - covered), at least 0, and
  /// N e / h at a hinged foot. Statics.
  [[nodiscard]] std::vector<double> pushed_by_posts(Axis push, double covered,
                                                    const std::vector<double>& N) const;
  /// What pushes together with what stands on the supports meanwhile: people who push stand there too,
  /// water that may be gone does not; 2.5 % of all that stands there is pushed by all of it. N factored.
  struct Case {
    double above = 0.0;
    std::vector<double> on_supports, on_walls, at_tops;
  };
  [[nodiscard]] Case case_of(Axis push, bool people, double tested) const;
  /// The largest push of the case that what stands by itself withstands, with or without the lines that
  /// are named, N; `used`: the lines.
  [[nodiscard]] double withstands(const Case& c, Axis push, bool named,
                                  std::vector<standards::Step>* steps) const;
  /// The largest share at which the frame passes every check of its own, N, up to `most`.
  [[nodiscard]] double frame_holds(const SwayFrame& frame, Axis axis, double most,
                                   const Push& whole) const;
  /// By any distribution that is in equilibrium and within every capacity (static theorem): the elastic
  /// one, what stands on its own base, or both with all that is named.
  [[nodiscard]] Evaluation safest(Evaluation elastic, Axis push, double tested) const;
  /// A post that stands on the edge of its foot while it rights itself.
  void check_edge(Evaluation& e, const Case& c, Axis push, double used) const;
  /// `at_tops`: of every support; empty: none.
  [[nodiscard]] Evaluation under(Axis push, double above, const std::vector<double>& at_tops) const;
  void check_frame(Evaluation& e, const SwayFrame& frame, Axis push, double share,
                   const Push& whole) const;
  void check_uplift(Evaluation& e, const SwayFrame& frame, const FrameModel& m, double share,
                    int sense, Axis push, const Push& whole) const;
  /// What the weight of the footing under a held-down foot adds, N: no more than the stated resistance.
  [[nodiscard]] double held_by_footing(std::size_t support, double holding) const;
  /// Is the beam in one piece from one post over the next?
  [[nodiscard]] bool runs_through(const SwayFrame& frame, double from, double over) const;
  void check_beam(Evaluation& e, const SwayFrame& frame, const FrameModel& m,
                  const solver::plane::Answer& a) const;
  /// Vertical force that the couple of a push above the beams adds to a support, N, down positive.
  [[nodiscard]] double couple_on(std::size_t support, Axis push, double H) const;
  [[nodiscard]] bool held_otherwise(Axis push) const {
    return walled_[index(push)] || !ledgers_.empty();
  }

  const deck::Deck& deck_;
  const Timbers& timbers_;
  const standards::Standard& standard_;
  const StabilityLoads& loads_;
  CountedFrom from_;
  standards::Combination now_;
  standards::LoadValues values_;
  bool us_;
  std::vector<HoldingLedger> ledgers_;
  std::vector<SwayFrame> frames_[2];
  std::vector<double> stiffness_[2];
  bool walled_[2] = {false, false};  ///< walls hold the deck along x, along y
  std::string nothing_because_[2];   ///< what is recorded and counts for nothing
  double vertical_ = 0.0;            ///< characteristic, with the deck, N
  double self_weight_ = 0.0, push_ = 0.0, people_push_ = 0.0, factor_ = 1.0, lever_ = 0.0;
  Point at_;                       ///< where the push acts in plan
  std::vector<double> tributary_;  ///< share of the deck's area, per support
  std::vector<double> on_walls_;   ///< likewise per wall
  Eigen::Matrix3d K_, G_;          ///< u along x, u along y, turn (in mm at `scale`); about at_
  double scale_ = 1000.0;          ///< mm
};

}  // namespace underprop::assessment
