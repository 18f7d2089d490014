// Which conditions make sense for which piece.
#include "layout.hpp"

#include "underprop/deck/pieces.hpp"

#include <algorithm>

namespace underprop::deck {
namespace {

const char* noun(PieceKind kind, bool timber) {
  switch (kind) {
    case PieceKind::joist:
      return "a joist";
    case PieceKind::bearer:
      return "a bearer";
    case PieceKind::ledger:
      return "a ledger";
    case PieceKind::rim:
      return "a rim";
    case PieceKind::blocking:
      return "blocking";
    case PieceKind::support:
      return timber ? "a post on its footing" : "a support without a post";
    case PieceKind::wall:
      return "a wall";
  }
  return "a piece";
}

const char* words(record::Defect defect) {
  switch (defect) {
    case record::Defect::decay:
      return "decay";
    case record::Defect::surface_softening:
      return "surface softening";
    case record::Defect::notch:
      return "a notch";
    case record::Defect::split:
      return "a split";
    case record::Defect::hole:
      return "a hole";
    case record::Defect::missing:
      return "missing";
    case record::Defect::corroded_fixing:
      return "a corroded fixing";
    case record::Defect::missing_fixing:
      return "a missing fixing";
    case record::Defect::wrong_fixing:
      return "a wrong fixing";
    case record::Defect::crack:
      return "a crack";
    case record::Defect::tilt:
      return "tilt";
    case record::Defect::undermined:
      return "undermining";
    case record::Defect::leaning:
      return "leaning";
    case record::Defect::buried:
      return "buried in soil";
    case record::Defect::short_bearing:
      return "short bearing";
    case record::Defect::loose_packing:
      return "loose packing";
    case record::Defect::out_of_level:
      return "out of level";
  }
  return "this";
}

// "" if it makes sense; else what to record instead.
std::string instead(PieceKind kind, bool timber, record::Defect defect) {
  const bool on_ground = kind == PieceKind::support || kind == PieceKind::wall;
  switch (defect) {
    case record::Defect::missing:
      return "";
    case record::Defect::decay:
    case record::Defect::surface_softening:
    case record::Defect::notch:
    case record::Defect::split:
    case record::Defect::hole:
      return timber ? "" : "only timber can have it; for masonry or concrete record a crack";
    case record::Defect::corroded_fixing:
    case record::Defect::missing_fixing:
    case record::Defect::wrong_fixing:
      return timber ? "" : "it has no fixing; record loose packing if the piece on it is loose";
    case record::Defect::crack:
      return on_ground ? "" : "for timber record a split";
    case record::Defect::tilt:
    case record::Defect::undermined:
    case record::Defect::loose_packing:
      return on_ground ? "" : "name the support or wall below it";
    case record::Defect::out_of_level:
      if (kind == PieceKind::joist) return "";
      return on_ground ? "" : "name the joist, or the support or wall below it";
    case record::Defect::buried:
      if (kind == PieceKind::support && timber) return "";
      return on_ground ? "concrete and masonry may stand in soil; record how deep its footing goes"
                       : "record the soft wood as decay, or the height of the deck";
    case record::Defect::leaning:
      if (kind == PieceKind::support) return timber ? "" : "it has no post; record tilt";
      return kind == PieceKind::wall ? "record tilt" : "name the post";
    case record::Defect::short_bearing:
      if (kind == PieceKind::joist || kind == PieceKind::bearer || on_ground) return "";
      return "name the joist, bearer or support whose bearing is short";
  }
  return "";
}

}  // namespace

std::string why_not(const record::Survey& survey, const record::Condition& condition) {
  const Layout layout = lay_out(survey);
  std::vector<PieceName> named;
  for (const PieceName& name : piece_names(survey)) {
    if (name.id == condition.piece || name.group == condition.piece) named.push_back(name);
  }
  if (named.empty()) return "no piece or group is called " + condition.piece;
  const PieceName& first = named.front();
  const std::string other_way = instead(first.kind, first.timber, condition.defect);
  if (!other_way.empty()) {
    return std::string(words(condition.defect)) + " makes no sense for " +
           noun(first.kind, first.timber) + ": " + other_way;
  }
  const bool needs_size = condition.defect == record::Defect::short_bearing ||
                          condition.defect == record::Defect::out_of_level;
  if (needs_size && !condition.size) {
    return std::string(words(condition.defect)) + " needs a size: " +
           (condition.defect == record::Defect::short_bearing ? "the length of wood that bears"
            : first.kind == PieceKind::joist                  ? "how far from its neighbours"
                                                              : "the gap");
  }
  if (condition.from && condition.to && *condition.to < *condition.from) {
    return "its stretch ends before it starts";
  }
  if (named.size() == 1 && condition.from) {
    for (const auto* lines : {&layout.joists, &layout.bearers, &layout.ledgers}) {
      for (const PieceLine& line : *lines) {
        if (line.id == first.id && *condition.from > line.to - line.from) {
          return "it starts beyond the end of " + line.id;
        }
      }
    }
  }
  return "";
}

}  // namespace underprop::deck
