// The words of every enumeration of the survey format, in survey files and in data/facts.json.
#pragma once

#include "underprop/record/survey.hpp"

#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace underprop::record {

template <class E>
struct Words;

#define UNDERPROP_WORDS(E, ...)                                              \
  template <>                                                                \
  struct Words<E> {                                                          \
    static constexpr std::pair<std::string_view, E> table[] = {__VA_ARGS__}; \
  }

UNDERPROP_WORDS(Axis, {"x", Axis::x}, {"y", Axis::y});
UNDERPROP_WORDS(StandardId, {"eurocode-uk", StandardId::eurocode_uk},
                {"north-america-us", StandardId::north_america_us});
UNDERPROP_WORDS(Use, {"one household", Use::one_household}, {"shared", Use::shared},
                {"public use", Use::public_use}, {"rented", Use::rented});
UNDERPROP_WORDS(SpaceBelow, {"none", SpaceBelow::none}, {"storage", SpaceBelow::storage},
                {"used", SpaceBelow::used});
UNDERPROP_WORDS(Fill, {"none", Fill::none}, {"older than ten years", Fill::older_than_ten_years},
                {"younger than ten years", Fill::younger_than_ten_years});
UNDERPROP_WORDS(Hold, {"resting", Hold::resting}, {"hanger", Hold::hanger},
                {"ledger strip", Hold::ledger_strip}, {"end grain", Hold::end_grain},
                {"skew nails", Hold::skew_nails}, {"free", Hold::free});
UNDERPROP_WORDS(HeldDown, {"nothing", HeldDown::nothing}, {"nailed", HeldDown::nailed},
                {"screwed", HeldDown::screwed}, {"strapped", HeldDown::strapped});
UNDERPROP_WORDS(RimFixing, {"end grain", RimFixing::end_grain}, {"hangers", RimFixing::hangers},
                {"cleats", RimFixing::cleats});
UNDERPROP_WORDS(LedgerWall, {"timber band", LedgerWall::timber_band},
                {"solid masonry", LedgerWall::solid_masonry}, {"concrete", LedgerWall::concrete},
                {"cavity outer leaf", LedgerWall::cavity_outer_leaf},
                {"veneer", LedgerWall::veneer}, {"insulation", LedgerWall::insulation});
UNDERPROP_WORDS(BandCondition, {"sound and flashed", BandCondition::sound_flashed},
                {"sound without flashing", BandCondition::sound_not_flashed},
                {"soft", BandCondition::soft});
UNDERPROP_WORDS(BandWood, {"solid sawn", BandWood::sawn},
                {"laminated veneer", BandWood::laminated_veneer},
                {"other engineered", BandWood::other_engineered});
UNDERPROP_WORDS(FixingKind, {"bolt", FixingKind::bolt}, {"lag screw", FixingKind::lag_screw},
                {"screw", FixingKind::screw}, {"nail", FixingKind::nail},
                {"anchor", FixingKind::anchor});
UNDERPROP_WORDS(BearerOnPost, {"on top", BearerOnPost::on_top}, {"beside", BearerOnPost::beside});
UNDERPROP_WORDS(PostBase, {"pinned", PostBase::pinned}, {"fixed", PostBase::fixed});
UNDERPROP_WORDS(FootingKind, {"cast pad", FootingKind::cast_pad},
                {"laid slab", FootingKind::laid_slab}, {"deck block", FootingKind::deck_block},
                {"post in concrete", FootingKind::post_in_concrete},
                {"screw pile", FootingKind::screw_pile}, {"strip", FootingKind::strip},
                {"unknown", FootingKind::unknown});
UNDERPROP_WORDS(VesselForm, {"straight-sided", VesselForm::straight_sided},
                {"moulded with seats", VesselForm::moulded});
UNDERPROP_WORDS(BaseKind, {"full", BaseKind::full}, {"runners", BaseKind::runners},
                {"feet", BaseKind::feet});
UNDERPROP_WORDS(Soil, {"topsoil", Soil::topsoil}, {"soft clay", Soil::soft_clay},
                {"firm clay", Soil::firm_clay}, {"stiff clay", Soil::stiff_clay},
                {"loose sand", Soil::loose_sand}, {"medium dense sand", Soil::medium_sand},
                {"dense sand", Soil::dense_sand}, {"gravel", Soil::gravel}, {"rock", Soil::rock},
                {"made ground", Soil::made_ground}, {"peat", Soil::peat});
UNDERPROP_WORDS(BoardMaterial, {"softwood", BoardMaterial::softwood},
                {"hardwood", BoardMaterial::hardwood}, {"composite", BoardMaterial::composite},
                {"aluminium", BoardMaterial::aluminium});
UNDERPROP_WORDS(BoardJoints, {"none", BoardJoints::none}, {"staggered", BoardJoints::staggered});
UNDERPROP_WORDS(OverBearers, {"continuous", OverBearers::continuous},
                {"lapped", OverBearers::lapped});
UNDERPROP_WORDS(JoistsSit, {"on top", JoistsSit::on_top}, {"flush", JoistsSit::flush});
UNDERPROP_WORDS(Contact, {"tight", Contact::tight}, {"gap", Contact::gap},
                {"loose", Contact::loose});
UNDERPROP_WORDS(BraceKind, {"diagonal", BraceKind::diagonal}, {"knee", BraceKind::knee},
                {"diagonal boards", BraceKind::diagonal_boards},
                {"wall contact", BraceKind::wall_contact});
UNDERPROP_WORDS(WallsOn, {"one side", WallsOn::one_side}, {"both sides", WallsOn::both_sides});
UNDERPROP_WORDS(FootHeld, {"nothing", FootHeld::nothing}, {"bolted", FootHeld::bolted},
                {"cast in", FootHeld::cast_in});
UNDERPROP_WORDS(Defect, {"decay", Defect::decay}, {"surface softening", Defect::surface_softening},
                {"notch", Defect::notch}, {"split", Defect::split}, {"hole", Defect::hole},
                {"missing", Defect::missing}, {"corroded fixing", Defect::corroded_fixing},
                {"missing fixing", Defect::missing_fixing}, {"wrong fixing", Defect::wrong_fixing},
                {"crack", Defect::crack}, {"tilt", Defect::tilt},
                {"undermined", Defect::undermined}, {"leaning", Defect::leaning},
                {"buried in soil", Defect::buried}, {"short bearing", Defect::short_bearing},
                {"loose packing", Defect::loose_packing}, {"out of level", Defect::out_of_level});
UNDERPROP_WORDS(Face, {"top", Face::top}, {"underside", Face::underside}, {"side", Face::side},
                {"end", Face::end});
UNDERPROP_WORDS(LoadKind, {"tub", LoadKind::tub}, {"plunge pool", LoadKind::plunge_pool},
                {"water tank", LoadKind::water_tank}, {"planter", LoadKind::planter},
                {"oven", LoadKind::oven}, {"stove", LoadKind::stove}, {"sauna", LoadKind::sauna},
                {"store", LoadKind::store}, {"outdoor kitchen", LoadKind::outdoor_kitchen},
                {"piano", LoadKind::piano}, {"statue", LoadKind::statue},
                {"other", LoadKind::other});
UNDERPROP_WORDS(Shape, {"rectangle", Shape::rectangle}, {"circle", Shape::circle},
                {"polygon", Shape::polygon});
#undef UNDERPROP_WORDS

/// Of a footing whose kind nobody knows: no word of a file, where it means that the fact is open.
inline constexpr std::string_view word_for_unknown = "unknown";

template <class E>
[[nodiscard]] std::string_view word_of(E value) {
  for (const auto& [word, v] : Words<E>::table) {
    if (v == value) return word;
  }
  throw std::logic_error("an enumerator without a word");
}
/// "" for an enumerator that a file has no word for.
template <class E>
[[nodiscard]] std::string_view written_word(E value) {
  const std::string_view word = word_of(value);
  return word == word_for_unknown ? std::string_view() : word;
}
/// The words that a file may hold, in the order of the table.
template <class E>
[[nodiscard]] std::vector<std::string_view> all_words() {
  std::vector<std::string_view> words;
  for (const auto& [word, v] : Words<E>::table) {
    if (word != word_for_unknown) words.push_back(word);
  }
  return words;
}
template <class E>
[[nodiscard]] E from_word(std::string_view text) {
  for (const auto& [word, v] : Words<E>::table) {
    if (word == text) return v;
  }
  throw std::logic_error("no such word: " + std::string(text));
}

}  // namespace underprop::record
