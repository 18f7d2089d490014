// Where things meet in plan: the stations of joists, bearers, ledgers and boards.
//
// Local coordinates: s along the joists, t across them, both in mm from corner A.
#pragma once

#include "model/grillage.hpp"
#include "underprop/base/geometry.hpp"

#include <vector>

namespace underprop::model {

/// Stations closer than this are one station, mm.
inline constexpr double station_tolerance = 0.5;

struct WallCrossing {
  std::size_t meeting = 0;  ///< index into Deck::meetings
  int joist = -1;
  double s = 0.0;
  double tributary = 0.0;  ///< length of wall that carries this joist, mm
};

/// One board: a strip of the deck across the joists.
struct BoardPlace {
  double s = 0.0;                ///< of its centre line
  double low = 0.0, high = 0.0;  ///< strip with half a gap on each side; the strips tile the deck
  double from = 0.0, to = 0.0;   ///< its ends, along t
  double before = 0.0, beyond = 0.0;  ///< free lengths beyond its first and its last joist
  /// What lands here is its own: the strip between the middles of the gaps to the boards that follow
  /// and precede it in its row, and without end where none does. So no load is lost by rounding at the
  /// deck's edge or by slanted ends.
  Interval takes_s, takes_t;
  std::vector<int> joists;  ///< in order of t
  std::vector<double> joist_t;
};

class Plan {
public:
  explicit Plan(const deck::Deck& deck);

  /// Ends, walls and sisters: what does not depend on the boards. Part of lay_out.
  void lay_out_carriers();
  /// Computes everything; call once, before the rest.
  void lay_out();

  [[nodiscard]] double s_of(Point p) const;
  [[nodiscard]] double t_of(Point p) const;
  [[nodiscard]] Axis along() const { return along_; }
  [[nodiscard]] Axis across() const { return other(along_); }

  /// Ends of a joist as modelled: drawn to the line of the bearer or ledger that carries the end.
  [[nodiscard]] double from(std::size_t joist) const { return ends_[joist].from; }
  [[nodiscard]] double to(std::size_t joist) const { return ends_[joist].to; }
  /// Indices into Deck::meetings: of a joist; of a bearer with joists; of a ledger; in their order. The
  /// one of a support.
  [[nodiscard]] const std::vector<std::size_t>& of_joist(std::size_t joist) const {
    return of_joist_[joist];
  }
  [[nodiscard]] const std::vector<std::size_t>& on_bearer(std::size_t bearer) const {
    return on_bearer_[bearer];
  }
  [[nodiscard]] const std::vector<std::size_t>& on_ledger(std::size_t ledger) const {
    return on_ledger_[ledger];
  }
  [[nodiscard]] std::size_t of_support(std::size_t support) const;
  /// Where a joist's meeting is on the joist as modelled.
  [[nodiscard]] double station_on_joist(const deck::Meeting& meeting) const;
  [[nodiscard]] std::vector<double> inner_bearers_of(std::size_t joist) const;
  [[nodiscard]] const std::vector<double>& joist_stations(std::size_t joist) const {
    return joist_stations_[joist];
  }
  [[nodiscard]] std::vector<double> bearer_stations(std::size_t bearer) const;
  [[nodiscard]] std::vector<double> ledger_stations(std::size_t ledger) const;
  [[nodiscard]] std::vector<double> ledger_fixing_places(std::size_t ledger) const;
  [[nodiscard]] const std::vector<WallCrossing>& wall_crossings(std::size_t wall) const {
    return walls_[wall];
  }
  [[nodiscard]] const std::vector<BoardPlace>& boards() const { return boards_; }
  [[nodiscard]] bool loose_boards() const { return loose_boards_; }
  [[nodiscard]] std::vector<Bay> bays() const;
  [[nodiscard]] bool in_load(std::size_t load, double s, double t) const;
  /// Do sisters carry the joist where it is absent? See carried_by_sisters.
  [[nodiscard]] bool by_sister(std::size_t joist) const { return by_sister_[joist]; }
  /// Is the joist absent here, with no sister that carries in its place?
  [[nodiscard]] bool gone_at(std::size_t joist, double s) const;
  /// Is the piece absent at this coordinate along it?
  [[nodiscard]] bool absent_at(const deck::Piece& piece, double origin, double at) const;
  /// At least three contacts that are not on one line.
  [[nodiscard]] static bool spread_out(const solver::Plate& plate, const solver::Frame& frame);

  bool joists_along_y = true;

private:
  void sort_meetings();
  void lay_out_ends();
  void find_carrying_sisters();
  [[nodiscard]] bool bears(const deck::Meeting& meeting) const;
  void lay_out_boards();
  /// Does a load's base lie on this board?
  [[nodiscard]] bool loaded(const BoardPlace& place) const;

  const deck::Deck& deck_;
  Axis along_;
  std::vector<std::vector<std::size_t>> of_joist_, on_bearer_, on_ledger_;
  std::vector<std::size_t> of_support_;
  std::vector<Bay> ends_;
  std::vector<std::vector<double>> joist_stations_;
  std::vector<std::vector<WallCrossing>> walls_;
  std::vector<bool> by_sister_;
  std::vector<BoardPlace> boards_;
  bool loose_boards_ = false;
};

}  // namespace underprop::model
