// Which conditions make sense for which piece.
#include "settle_layout.hpp"

#include <algorithm>

namespace underprop::survey {
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

const char* words(Defect defect) {
  switch (defect) {
    case Defect::decay:
      return "decay";
    case Defect::surface_softening:
      return "surface softening";
    case Defect::notch:
      return "a notch";
    case Defect::split:
      return "a split";
    case Defect::hole:
      return "a hole";
    case Defect::missing:
      return "missing";
    case Defect::corroded_fixing:
      return "a corroded fixing";
    case Defect::missing_fixing:
      return "a missing fixing";
    case Defect::wrong_fixing:
      return "a wrong fixing";
    case Defect::crack:
      return "a crack";
    case Defect::tilt:
      return "tilt";
    case Defect::undermined:
      return "undermining";
    case Defect::leaning:
      return "leaning";
    case Defect::buried:
      return "buried in soil";
    case Defect::short_bearing:
      return "short bearing";
    case Defect::loose_packing:
      return "loose packing";
    case Defect::out_of_level:
      return "out of level";
  }
  return "this";
}

// "" if it makes sense; else what to record instead.
std::string instead(PieceKind kind, bool timber, Defect defect) {
  const bool on_ground = kind == PieceKind::support || kind == PieceKind::wall;
  switch (defect) {
    case Defect::missing:
      return "";
    case Defect::decay:
    case Defect::surface_softening:
    case Defect::notch:
    case Defect::split:
    case Defect::hole:
      return timber ? "" : "only timber can have it; for masonry or concrete record a crack";
    case Defect::corroded_fixing:
    case Defect::missing_fixing:
    case Defect::wrong_fixing:
      return timber ? "" : "it has no fixing; record loose packing if the piece on it is loose";
    case Defect::crack:
      return on_ground ? "" : "for timber record a split";
    case Defect::tilt:
    case Defect::undermined:
    case Defect::loose_packing:
      return on_ground ? "" : "name the support or wall below it";
    case Defect::out_of_level:
      if (kind == PieceKind::joist) return "";
      return on_ground ? "" : "name the joist, or the support or wall below it";
    case Defect::buried:
      if (kind == PieceKind::support && timber) return "";
      return on_ground ? "concrete and masonry may stand in soil; record how deep its footing goes"
                       : "record the soft wood as decay, or the height of the deck";
    case Defect::leaning:
      if (kind == PieceKind::support) return timber ? "" : "it has no post; record tilt";
      return kind == PieceKind::wall ? "record tilt" : "name the post";
    case Defect::short_bearing:
      if (kind == PieceKind::joist || kind == PieceKind::bearer || on_ground) return "";
      return "name the joist, bearer or support whose bearing is short";
  }
  return "";
}

}  // namespace

std::string why_not(const Survey& survey, const Condition& condition) {
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
  const bool needs_size =
      condition.defect == Defect::short_bearing || condition.defect == Defect::out_of_level;
  if (needs_size && !condition.size) {
    return std::string(words(condition.defect)) + " needs a size: " +
           (condition.defect == Defect::short_bearing ? "the length of wood that bears"
            : first.kind == PieceKind::joist          ? "how far from its neighbours"
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

}  // namespace underprop::survey
