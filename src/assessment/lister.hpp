// The lister of a deck's checks: items.cpp has the pieces and their crossings, items_supports.cpp what
// they stand on. Private to the assessment.
#pragma once

#include "items.hpp"
#include "scope.hpp"
#include "underprop/base/format.hpp"
#include "underprop/base/geometry.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace underprop::assessment {

class Lister {
public:
  Lister(const deck::Deck& deck, const model::Model& model, const Timbers& timbers,
         const standards::Standard& standard, const std::vector<double>& self_weight_moments,
         bool braced, bool with_load)
      : deck_(deck),
        model_(model),
        timbers_(timbers),
        standard_(standard),
        self_weight_moments_(self_weight_moments),
        braced_(braced),
        with_load_(with_load),
        units_(standard.us_customary() ? UnitSystem::us_customary : UnitSystem::metric),
        rules_(line_rules(deck, model, standard)) {}

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
  Item& add(Source source, std::size_t index, standards::Purpose purpose, const std::string& piece,
            standards::CheckKind kind,
            std::function<standards::Check(double, const standards::Combination&)> judge) {
    Item item;
    item.source = source;
    item.index = static_cast<int>(index);
    item.purpose = purpose;
    item.piece = piece;
    item.kind = kind;
    item.check = standards::name_of(kind);
    item.judge = std::move(judge);
    items_.push_back(std::move(item));
    return items_.back();
  }
  void along_joist(Item& item, std::size_t j) const {
    const deck::Joist& joist = deck_.joists[j];
    const UnitSystem u = units_;
    item.place = [&joist](double at) { return at_along(joist.direction, mm(at), joist.position); };
    item.where = [&joist, u](double at) {
      return format_length(mm(std::max(0.0, at - joist.from.value())), u) + " from its start";
    };
  }
  template <class Piece>
  void along_line(Item& item, const Piece& piece) const {
    const UnitSystem u = units_;
    item.place = [&piece](double at) { return at_along(piece.direction, mm(at), piece.position); };
    item.where = [&piece, u](double at) {
      return format_length(mm(std::max(0.0, at - piece.from.value())), u) + " from its start";
    };
  }
  void fixed_place(Item& item, Point at, std::string where) const {
    item.place = [at](double) { return at; };
    item.where = [where = std::move(where)](double) { return where; };
  }

  [[nodiscard]] bool shares(std::size_t j) const;
  void joist(std::size_t j);
  void joist_part(std::size_t j, const std::string& name, const standards::Timber& timber, Length b,
                  Length h, double share, double shear_share, double own_moment);
  void bearer(std::size_t b);
  void ledger(std::size_t l);
  void boards();
  /// Bending and shear where a piece is notched or holed. `group`: its line among all; `share`, `shear_share`
  /// of the line's forces go through it.
  struct WeakPiece {
    Source sag = Source::joist_sag, hog = Source::joist_hog, shear = Source::joist_shear;
    std::size_t index = 0, group = 0;
    std::string name;
    standards::BendingDemand sagging, hogging;
    standards::ShearDemand shearing;
    double share = 1.0, shear_share = 1.0;
    double own_moment = 0.0;  ///< of its own weight before a sister came
  };
  template <class Along>
  void weak_sections(const WeakPiece& piece, const Along& along);
  void crossing(std::size_t c);
  /// Wood that bears where the joist's first or last carrier meets it, if that was recorded.
  [[nodiscard]] std::optional<Length> seat_at(const model::Crossing& crossing) const;
  void prop(std::size_t p);
  [[nodiscard]] std::vector<int> sharing_fixings(std::size_t p, std::size_t l) const;
  void pulled_by_joists(std::size_t p, std::size_t ledger, Point at, const std::string& where);
  void post(std::size_t support, std::size_t index);
  void footing(std::size_t s);
  void walls();
  void bearing(Source source, std::size_t index, const std::string& piece,
               const standards::Timber& timber, Length width, Length length, Length end_distance,
               Length depth, int packers, Point at, const std::string& where,
               std::optional<Length> clear_to_next = std::nullopt);
  [[nodiscard]] std::optional<Length> clear_to_joists(std::size_t bearer, double at,
                                                      Length contact) const;

  [[nodiscard]] std::optional<Length> clear_to_feet(std::size_t j, double at, Length contact) const;
  [[nodiscard]] std::optional<Length> clear_to_supports(std::size_t bearer, double at,
                                                        Length joist) const;

  const deck::Deck& deck_;
  const model::Model& model_;
  const Timbers& timbers_;
  const standards::Standard& standard_;
  const std::vector<double>& self_weight_moments_;
  bool braced_, with_load_;
  UnitSystem units_;
  std::vector<LineRules> rules_;
  std::vector<Item> items_;
};

}  // namespace underprop::assessment
