// The words of every enumeration of the survey format. Those of facts that may have to be assumed are
// shared with data/facts.json (resolve_words.hpp), so that a file and an answer use the same word.
#pragma once

#include "fact_words.hpp"

#include "underprop/record/survey.hpp"

#include <string_view>
#include <utility>
#include <vector>

namespace underprop::record {

template <class E>
struct ReadWords {
  static constexpr const auto& table = FactWords<E>::table;
};

#define UNDERPROP_READ_WORDS(E, ...)                                         \
  template <>                                                                \
  struct ReadWords<E> {                                                      \
    static constexpr std::pair<std::string_view, E> table[] = {__VA_ARGS__}; \
  }

UNDERPROP_READ_WORDS(Axis, {"x", Axis::x}, {"y", Axis::y});
UNDERPROP_READ_WORDS(StandardId, {"eurocode-uk", StandardId::eurocode_uk},
                     {"north-america-us", StandardId::north_america_us});
UNDERPROP_READ_WORDS(Soil, {"topsoil", Soil::topsoil}, {"soft clay", Soil::soft_clay},
                     {"firm clay", Soil::firm_clay}, {"stiff clay", Soil::stiff_clay},
                     {"loose sand", Soil::loose_sand}, {"medium dense sand", Soil::medium_sand},
                     {"dense sand", Soil::dense_sand}, {"gravel", Soil::gravel},
                     {"rock", Soil::rock}, {"made ground", Soil::made_ground},
                     {"peat", Soil::peat});
UNDERPROP_READ_WORDS(BoardMaterial, {"softwood", BoardMaterial::softwood},
                     {"hardwood", BoardMaterial::hardwood}, {"composite", BoardMaterial::composite},
                     {"aluminium", BoardMaterial::aluminium});
UNDERPROP_READ_WORDS(BoardJoints, {"none", BoardJoints::none},
                     {"staggered", BoardJoints::staggered});
UNDERPROP_READ_WORDS(OverBearers, {"continuous", OverBearers::continuous},
                     {"lapped", OverBearers::lapped});
UNDERPROP_READ_WORDS(JoistsSit, {"on top", JoistsSit::on_top}, {"flush", JoistsSit::flush});
// "unknown" is no kind of footing but the word for a fact that is not known.
UNDERPROP_READ_WORDS(FootingKind, {"cast pad", FootingKind::cast_pad},
                     {"laid slab", FootingKind::laid_slab}, {"deck block", FootingKind::deck_block},
                     {"post in concrete", FootingKind::post_in_concrete},
                     {"screw pile", FootingKind::screw_pile}, {"strip", FootingKind::strip});
UNDERPROP_READ_WORDS(Contact, {"tight", Contact::tight}, {"gap", Contact::gap},
                     {"loose", Contact::loose});
UNDERPROP_READ_WORDS(BraceKind, {"diagonal", BraceKind::diagonal}, {"knee", BraceKind::knee},
                     {"diagonal boards", BraceKind::diagonal_boards},
                     {"wall contact", BraceKind::wall_contact});
UNDERPROP_READ_WORDS(WallsOn, {"one side", WallsOn::one_side}, {"both sides", WallsOn::both_sides});
UNDERPROP_READ_WORDS(FootHeld, {"nothing", FootHeld::nothing}, {"bolted", FootHeld::bolted},
                     {"cast in", FootHeld::cast_in});
UNDERPROP_READ_WORDS(Defect, {"decay", Defect::decay},
                     {"surface softening", Defect::surface_softening}, {"notch", Defect::notch},
                     {"split", Defect::split}, {"hole", Defect::hole}, {"missing", Defect::missing},
                     {"corroded fixing", Defect::corroded_fixing},
                     {"missing fixing", Defect::missing_fixing},
                     {"wrong fixing", Defect::wrong_fixing}, {"crack", Defect::crack},
                     {"tilt", Defect::tilt}, {"undermined", Defect::undermined},
                     {"leaning", Defect::leaning}, {"buried in soil", Defect::buried},
                     {"short bearing", Defect::short_bearing},
                     {"loose packing", Defect::loose_packing},
                     {"out of level", Defect::out_of_level});
UNDERPROP_READ_WORDS(Face, {"top", Face::top}, {"underside", Face::underside}, {"side", Face::side},
                     {"end", Face::end});
UNDERPROP_READ_WORDS(LoadKind, {"tub", LoadKind::tub}, {"plunge pool", LoadKind::plunge_pool},
                     {"water tank", LoadKind::water_tank}, {"planter", LoadKind::planter},
                     {"oven", LoadKind::oven}, {"stove", LoadKind::stove},
                     {"sauna", LoadKind::sauna}, {"store", LoadKind::store},
                     {"outdoor kitchen", LoadKind::outdoor_kitchen}, {"piano", LoadKind::piano},
                     {"statue", LoadKind::statue}, {"other", LoadKind::other});
UNDERPROP_READ_WORDS(Shape, {"rectangle", Shape::rectangle}, {"circle", Shape::circle},
                     {"polygon", Shape::polygon});
#undef UNDERPROP_READ_WORDS

/// "" for an enumerator that has no word.
template <class E>
[[nodiscard]] std::string_view written_word(E value) {
  for (const auto& [word, v] : ReadWords<E>::table) {
    if (v == value) return word;
  }
  return {};
}

template <class E>
[[nodiscard]] std::vector<std::string_view> all_words() {
  std::vector<std::string_view> words;
  for (const auto& [word, v] : ReadWords<E>::table) words.push_back(word);
  return words;
}

}  // namespace underprop::record
