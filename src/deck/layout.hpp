// The groups of a survey spelt out into single pieces with names and places. Depends on no fact.
#pragma once

#include "underprop/base/geometry.hpp"
#include "underprop/record/facts.hpp"

#include <string>
#include <vector>

namespace underprop::deck {

/// One straight piece.
struct PieceLine {
  std::string id;
  int source = 0;  ///< index of its group (or bearer, ledger) in the survey
  Axis direction = Axis::x;
  Length position;  ///< across
  Length from, to;  ///< along
};
struct SupportPlace {
  std::string id;
  int source = 0;
  Point at;
  int bearer = -1, joist = -1;  ///< index into Layout::bearers or Layout::joists
};

/// A stretch of a line inside the outline that is too short for a piece of wood.
struct Sliver {
  int source = 0;
  Length position, length;
};

struct Layout {
  std::vector<PieceLine> joists, bearers, ledgers;
  std::vector<SupportPlace> supports;
  std::vector<Sliver> joist_slivers, bearer_slivers, ledger_slivers;
  std::vector<std::string> left_out;  ///< sentences about what has no place
};

/// No piece is shorter: data/facts.json, rule "piece/least_length".
[[nodiscard]] Length least_piece();

[[nodiscard]] Layout lay_out(const record::Survey& survey);

}  // namespace underprop::deck
