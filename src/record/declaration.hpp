// How a field is declared, and what can be done with declarations.
//
//   template <>
//   struct Declaration<Tree> {
//     static constexpr std::string_view type = "tree";            // its name in the schema
//     static constexpr std::string_view meaning = "A tree.";
//     template <class Io>
//     static void fields(Io& io) {
//       io.required("at", &Tree::at, "Its trunk.");
//       io.required("height", &Tree::height, limit::tree, "Its height ...");
//     }
//   };
//
// Three classes take the place of Io: FieldReader, FieldWriter and FieldLister (field_io.hpp). How a value is
// read, written and described depends on the member's type and the rule in the third place; values.hpp
// has one section for each kind of value.
#pragma once

#include "limits.hpp"

#include "underprop/base/fact.hpp"
#include "underprop/record/survey.hpp"

#include <optional>
#include <string_view>
#include <type_traits>
#include <vector>

namespace underprop::record {

template <class T>
struct Declaration;
template <class T>
concept Declared = requires {
  Declaration<T>::type;
};

// --- rules: what a value may be, beyond its type ----------------------------------------------------
// A quantity's rule is its Limit (limits.hpp).

struct AsTyped {};  ///< nothing beyond the type: words, true or false, a point, an object
struct Text {};     ///< a line
struct Name {};     ///< of a piece or a group
struct Notes {};    ///< several sentences
struct Date {};
struct Timber {};       ///< a name of the standard's tables
struct Letters {};      ///< a seismic design category
struct Slope {};        ///< "level", "1 in 12"
struct AllOrPieces {};  ///< an object that may be the word "all" or "none"
struct Whole {
  int low, high;
};
struct Number {
  double low, high;
};
template <class Q>
struct Measured {  ///< a fact that may be a range, but not unknown
  Limit<Q> limit;
};
// Of lists: how many entries.
struct Names {
  std::size_t most, least = 0;
};
struct Lengths {
  Limit<Length> limit;
  std::size_t most, least = 0;
};
struct Row {  ///< places: "positions", or "first", "spacing" and "count" spelt out
  Limit<Length> limit;
  std::size_t most, least = 1;
};
struct Corners {
  std::size_t least, most;
};
struct Entries {
  std::size_t least, most;
};

/// The verbs of a declaration, for an Io that has
///   field(key, required, member, rule, told)
///   section_of(breadth key, breadth, its rule, told, depth key, depth, its rule, told, told of size)
template <class Io, class T>
class Verbs {
public:
  /// The key must be there. An open fact is then written "unknown".
  template <class M, class Rule>
  void required(std::string_view key, M T::*member, const Rule& rule, std::string_view told) {
    io().field(key, true, member, rule, told);
  }
  template <class M>
  void required(std::string_view key, M T::*member, std::string_view told) {
    io().field(key, true, member, AsTyped{}, told);
  }
  /// Left out: unknown, none, or what the struct says.
  template <class M, class Rule>
  void optional(std::string_view key, M T::*member, const Rule& rule, std::string_view told) {
    io().field(key, false, member, rule, told);
  }
  template <class M>
  void optional(std::string_view key, M T::*member, std::string_view told) {
    io().field(key, false, member, AsTyped{}, told);
  }
  /// Breadth and depth of a piece, or in their place its nominal "size" (North America).
  template <class M>
  void section(std::string_view breadth_key, M T::*breadth, std::string_view breadth_told,
               std::string_view depth_key, M T::*depth, std::string_view depth_told,
               std::string_view size_told = size_in_their_place) {
    io().section_of(breadth_key, breadth, limit::breadth, breadth_told, depth_key, depth,
                    limit::depth, depth_told, size_told);
  }
  /// Likewise, neither unknown.
  void measured_section(std::string_view breadth_key, Fact<Length> T::*breadth,
                        std::string_view breadth_told, std::string_view depth_key,
                        Fact<Length> T::*depth, std::string_view depth_told) {
    io().section_of(breadth_key, breadth, Measured{limit::breadth}, breadth_told, depth_key, depth,
                    Measured{limit::depth}, depth_told, size_in_their_place);
  }

private:
  static constexpr std::string_view size_in_their_place =
      "Nominal size in place of breadth and depth (American standard).";
  Io& io() { return static_cast<Io&>(*this); }
};

/// Must a side of a section be there when "size" is not?
template <class M, class Rule>
inline constexpr bool needed_side =
    !std::is_same_v<M, Fact<Length>> || std::is_same_v<Rule, Measured<Length>>;

}  // namespace underprop::record
