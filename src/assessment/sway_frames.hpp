// The vertical frames that keep a raised deck from swaying: posts in one line, the beam on them, and
// the braces recorded there.
//
// Lengths in mm, forces in N. In a frame x runs along the direction of the push and z = 0 is where the
// posts meet the beam; posts are hinged there, and at the foot unless the foot is proved fixed.
// Braces are bars whose ends slip on their bolts.
#pragma once

#include "properties.hpp"
#include "solver/plane_frame.hpp"

#include <string>
#include <vector>

namespace underprop::assessment {

/// Nobody records which of several alike posts has the odd brace: from which end they are counted.
struct CountedFrom {
  bool high_x = false, high_y = false;
  [[nodiscard]] bool high(Axis axis) const { return axis == Axis::x ? high_x : high_y; }
};

struct PlacedBrace {
  std::size_t record = 0;  ///< index into Deck::braces
  bool knee = false;
  std::size_t low_post = 0;  ///< index into SwayFrame::posts: where its lower end is
  double z_low = 0.0;        ///< of the lower end, below the beam (negative)
  double x_high = 0.0;
  double z_high = 0.0;    ///< 0: on the beam
  int high_post = -1;     ///< index into SwayFrame::posts; -1: on the beam
  int sense = 1;          ///< +1: pulled by a push towards +x
  double capacity = 0.0;  ///< of the bolts at one end, N
  standards::Check bolt;  ///< one bolt under 1 N, for its arithmetic
};

struct SwayFrame {
  std::string name;  ///< "posts PA1 to PA5"
  Axis push = Axis::x;
  double across = 0.0;  ///< its place across the push
  bool under_bearer = false;
  std::size_t beam = 0;            ///< index into Deck::bearers, or Deck::joists
  bool beam_bends = true;          ///< false: only boards tie the posts, no joist runs that way
  std::vector<std::size_t> posts;  ///< indices into Deck::supports, along the push
  std::vector<double> x;           ///< of the posts
  std::vector<double> rollers;     ///< other places where the beam is held up
  std::vector<PlacedBrace> braces;
  bool fixed = false;  ///< a foot is proved fixed
  bool tension_only =
      false;  ///< a diagonal that may buckle before its bolts slip: only pulled ones count
};

/// Every line of posts for a push along `push`. `notes` tells what was assumed about the record.
std::vector<SwayFrame> sway_frames(const deck::Deck& deck, const Timbers& timbers,
                                   const standards::Standard& standard,
                                   const standards::Combination& combination, Axis push,
                                   CountedFrom from, std::vector<std::string>& notes);

struct FrameModel {
  solver::plane::Frame frame;
  std::vector<int> tops, feet;            ///< nodes, per post
  std::vector<std::vector<int>> posts;    ///< members, per post
  std::vector<int> beam;                  ///< members
  std::vector<std::pair<int, int>> bars;  ///< brace in SwayFrame::braces, member
  int leaning = -1;  ///< node on top of the bar that stands for all other posts
};
/// `sense` 0: every brace counts; +1, -1: of diagonals only those that a push to that side pulls.
/// `leaning`: height of a hinged bar beside the frame that leans on it; 0: none.
FrameModel frame_model(const SwayFrame& frame, const deck::Deck& deck, const Timbers& timbers,
                       const standards::Standard& standard, int sense, double leaning);

/// Stiffness against a push at the beam, first order, N/mm; 0 if the frame is loose.
double sway_stiffness(const SwayFrame& frame, const deck::Deck& deck, const Timbers& timbers,
                      const standards::Standard& standard);

/// The timber braces are taken to be of: that of the first joist.
const standards::Timber& brace_timber(const Timbers& timbers);

}  // namespace underprop::assessment
