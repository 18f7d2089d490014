// What is recorded changes something: for every key that the format knows there is another value that
// the reader accepts and that changes what is found, or what the planner may try. The few keys that
// change nothing are listed with the reason. The decks are invented; common practice, no source.
#include "../../src/planner/options.hpp"
#include "support/catch.hpp"
#include "support/whole_record.hpp"
#include "underprop/assessment/assessment.hpp"
#include "underprop/base/input_error.hpp"
#include "underprop/deck/read.hpp"
#include "underprop/record/format.hpp"

#include <fmt/format.h>

#include <map>

namespace fields_test_file {

using namespace underprop;
using Json = nlohmann::json;

namespace {

/// Keys that change no number and no offer, and why.
const std::map<std::string, std::string> changes_nothing{
    {"/format", "the only value there is"},
    {"/name", "a name"},
    {"/recorded_on", "a date"},
    {"/corner_a", "a name"},
    {"/notes", "notes"},
    {"/standard", "another standard refuses this one's timber; tests/standards compare the two"},
    {"/site/retaining_walls/[]/name", "a name"},
    {"/site/house_walls/[]/name", "a name"},
    {"/site/drains/[]/name", "a name"},
    {"/site/ponds/[]/name", "a name"},
    {"/deck/joists/[]/first", "another way to write positions; tests/survey"},
    {"/deck/joists/[]/spacing", "another way to write positions; tests/survey"},
    {"/deck/joists/[]/count", "another way to write positions; tests/survey"},
    {"/deck/supports/[]/first", "another way to write positions; tests/survey"},
    {"/deck/supports/[]/spacing", "another way to write positions; tests/survey"},
    {"/deck/supports/[]/count", "another way to write positions; tests/survey"},
    {"/deck/joists/[]/size", "another way to write breadth and depth; tests/survey"},
    {"/deck/bearers/[]/size", "another way to write breadth and depth; tests/survey"},
    {"/deck/rims/[]/size", "another way to write breadth and depth; tests/survey"},
    {"/deck/ledgers/[]/size", "another way to write breadth and depth; tests/survey"},
    {"/deck/supports/[]/post/size", "another way to write breadth and depth; tests/survey"},
    {"/deck/sisters/[]/size", "another way to write breadth and depth; tests/survey"},
    {"/deck/braces/[]/at", "words for the report; a slip is questioned by the reader"},
    {"/deck/obstacles/[]/name", "a name"},
    {"/deck/closed_zones/[]/name", "a name"},
    {"/loads/[]/name", "a name"},
    {"/deck/joists/[]/name", "a name"},
    {"/deck/rims/[]/name", "a name"},
    {"/deck/blocking/[]/name", "a name"},
    {"/deck/joist_ends/[]/added", "a mark of the works: a new hanger holds like an old one"},
    {"/deck/blocking/[]/added", "a mark of the works: new blocking holds like old"},
    {"/deck/braces/[]/added", "a mark of the works: a new brace resists like an old one"},
    {"/recording", "how it was recorded: the answers that the survey was made from"},
    {"/recording/finished", "how it was recorded"},
    {"/recording/answers", "how it was recorded"},
    {"/recording/answers/[]/question", "how it was recorded"},
    {"/recording/answers/[]/said", "how it was recorded"},
    {"/recording/answers/[]/reopened", "how it was recorded"},
};

/// Keys of which every other value is refused, as another key says the opposite or names it.
const std::map<std::string, std::string> refused_otherwise{
    {"/deck/boards/direction", "boards along the joists"},
    {"/deck/joists/[]/direction", "joists along the boards"},
    {"/deck/rims/[]/joists", "no other group has such a rim"},
    {"/deck/blocking/[]/joists", "no other group is called so"},
    {"/deck/ledgers/[]/direction", "joists would hang on nothing"},
    {"/deck/ledgers/[]/position", "joists would hang on nothing"},
    {"/deck/ledgers/[]/from", "joists would hang on nothing"},
    {"/deck/ledgers/[]/to", "joists would hang on nothing"},
    {"/deck/bearers/[]/name", "other keys name it"},
    {"/deck/bearers/[]/joists", "joists that pass a flush bearer"},
};

/// Keys that these records do not reach: no other value of them is both readable and of effect here.
const std::map<std::string, std::string> not_reached{
    {"/deck/closed_zones",
     "no pad is offered where the zones of these records lie; planner/allow_test.cpp"},
    {"/deck/supports/[]/post/held_down", "no foot of these lifts; assessment/sway_held_test.cpp"},
    {"/deck/supports/[]/post/hold_down_capacity",
     "no foot of these lifts; assessment/sway_held_test.cpp"},
    {"/loads/[]/shape", "another shape needs other sizes; each is refused without them"},
    {"/loads/[]/corner_radius", "no record has round corners; tests/survey"},
    {"/loads/[]/base", "another base needs its runners or feet; tests/survey"},
    {"/deck/ledgers/[]/band_wood",
     "counts for bands under 1 1/2 in alone; standards/fixings_test.cpp"},
    {"/allow", "left out, everything is allowed, as in these records"},
    {"/allow/turn_load", "square and round loads turn into themselves"},
    {"/allow/pads", "no bearer of these records has room for one more pad; planner/allow_test.cpp"},
    {"/allow/sleepers", "no sleeper is offered to decks as high as these; planner/allow_test.cpp"},
    {"/allow/bearers", "none is offered below joists as low as these; planner/allow_test.cpp"},
};

/// The planner's offers to this deck, whatever it lacks. Words, not costs.
std::string offers(const record::Survey& survey) {
  const planner::Candidates candidates(survey);
  std::string text;
  const auto add = [&](const std::vector<planner::WorkSet>& sets) {
    for (const planner::WorkSet& set : sets) {
      for (const works::Work& work : set) {
        text += fmt::format("{} {} {} {};", work.id, work.position.value(), work.depth.value(),
                            work.pad_depth.value());
      }
      text += '\n';
    }
  };
  add(candidates.moves());
  add({candidates.packing()});
  add(candidates.lines());
  constexpr std::pair<const char*, const char*> failures[] = {
      {"J3", "end connection"},  {"J3", "bending"},
      {"J3", "held upright"},    {"B", "bending"},
      {"P2", "ground pressure"}, {"boards", "one person on one board"},
      {"deck", "sway along x"},  {"L", "ledger fixing, pulled"}};
  for (const auto& [piece, check] : failures) {
    planner::Failure failure;
    failure.piece = piece;
    failure.check = check;
    add(candidates.answers(failure, {}));
  }
  return text;
}

std::string outcome(const Json& json) {
  const record::Survey survey = deck::read_survey(json.dump(), "survey.json").survey;
  const deck::Deck deck = deck::resolve(survey, record::Reading::cautious).deck;
  assessment::Options few;
  few.extent = assessment::Extent::screening;
  few.depth = assessment::Depth::utilisation;
  const assessment::DeckAssessment found =
      assessment::assess_deck(deck, *assessment::standard_for(survey.standard), few);
  std::string text = found.mechanism.value_or("");
  for (const auto& list : {found.findings, found.ordinary_use}) {
    for (const assessment::Finding& f : list) {
      text += fmt::format("{} {:.9g}\n", f.id, f.check.utilisation);
    }
  }
  for (const auto& list : {found.refer_reasons, found.cautions}) {
    for (const std::string& words : list) text += words + "\n";
  }
  for (const auto& piece : deck.joists) text += piece.probed ? "." : "not probed";
  for (const auto& load : deck.loads) text += load.contents_recorded ? "." : "contents unseen";
  return text + offers(survey);
}

/// Every place of the record at which this key stands, "[]" standing for each entry.
void places_of(const Json& json, std::string_view path, const Json::json_pointer& at,
               std::vector<Json::json_pointer>& places) {
  if (path.empty()) {
    places.push_back(at);
    return;
  }
  const std::size_t end = path.find('/', 1);
  const std::string step(path.substr(1, end == path.npos ? path.npos : end - 1));
  const std::string_view rest = end == path.npos ? std::string_view() : path.substr(end);
  if (step == "[]") {
    if (!json.is_array()) return;
    for (std::size_t i = 0; i < json.size(); ++i) places_of(json[i], rest, at / i, places);
  } else if (json.is_object() && json.contains(step)) {
    places_of(json[step], rest, at / step, places);
  }
}

/// Other values for a value: other words, more and less, the next timber, one entry fewer, none at all.
std::vector<Json> others(const Json& value, const record::Field& key) {
  std::vector<Json> list;
  for (const std::string& word : key.words) {
    if (word != value) list.emplace_back(word);
  }
  if (value.is_boolean()) list.emplace_back(!value.get<bool>());
  if (value.is_number()) {
    for (const int n : {1, 45, 3, 0}) {
      if (value != n) list.emplace_back(n);
    }
  }
  if (value.is_string() && key.words.empty()) {
    const std::string text = value;
    char* end = nullptr;
    const double number = std::strtod(text.c_str(), &end);
    if (end != text.c_str() && *end == ' ' && number == 0.0) {
      for (const char* more : {"0.3", "300"}) list.emplace_back(more + std::string(end));
    } else if (end != text.c_str() && *end == ' ') {
      for (const double factor : {2.0, 0.5, 1.1, 0.9, 5.0, 20.0, -0.2, 0.01}) {
        list.emplace_back(fmt::format("{:.6g}{}", number * factor, end));
      }
    }
    for (const char* other : {"C16", "Hem-Fir No.3", "D", "1 in 4", "J1", "J5", "none", "J"}) {
      list.emplace_back(other);
    }
  }
  if (value.is_array()) {
    list.emplace_back("none");
    for (const std::size_t i : {value.size(), std::size_t{1}}) {
      Json fewer = value;
      if (i == 0 || i > fewer.size()) continue;
      fewer.erase(i - 1);
      list.push_back(std::move(fewer));
    }
    for (std::size_t i = 0; i < value.size();
         ++i) {  // one entry, or a point's coordinate, otherwise
      for (Json& other : others(value[i], {})) {
        Json changed = value;
        changed[i] = std::move(other);
        list.push_back(std::move(changed));
      }
    }
  }
  if (value.is_object()) {
    for (const auto& [name, inner] : value.items()) {
      Json without = value;
      without.erase(name);
      list.push_back(std::move(without));
    }
  }
  return list;
}

/// Records that together have every key of the format.
std::vector<Json> records() {
  const double litres = 400.0;
  Json european = test::whole_record(false, litres), american = test::whole_record(true, litres);
  // Base on runners; the bearer beside its posts, spliced; pads with gaps; another hold.
  Json second = european;
  Json& tub = second["loads"][0];
  tub["base"] = "runners";
  tub["runners"] = 3;
  tub["runner_width"] = "90 mm";
  tub["runners_along"] = "y";
  tub["rotation_deg"] = 10;
  Json& deck = second["deck"];
  deck["supports"][0]["post"]["bearer"] = "beside";
  deck["supports"][0]["post"]["bolts"] = 2;
  deck["supports"][0]["post"]["bolt_diameter"] = "12 mm";
  deck["bearers"][0]["splices"] = {"1 m"};
  deck["supports"][0]["footing"]["contact"] = "gap";
  deck["supports"][0]["footing"]["gap"] = "2 mm";
  deck["walls"][0]["contact"] = "gap";
  deck["walls"][0]["gap"] = "1 mm";
  deck["ledgers"][0]["stated_capacity"] = "2 kN";
  deck["boards"]["material"] = "composite";
  deck["boards"]["stated_span"] = "400 mm";
  deck["boards"].erase("timber");
  deck["condition"] = Json::array({{{"defect", "surface softening"},
                                    {"piece", "J3"},
                                    {"from", "1.1 m"},
                                    {"to", "1.2 m"},
                                    {"size", "8 mm"},
                                    {"face", "top"}}});
  deck["boards"]["angle_deg"] = 20;
  deck["joists"][0]["from"] = "0.05 m";
  deck["joist_ends"] = Json::array(
      {{{"joist", "J4"}, {"at_start", true}, {"hold", {{"held", "hanger"}, {"nails", 10}}}}});
  // Surroundings that come close.
  Json near = european;
  const auto line = [](const char* name, const char* y, const char* height) {
    return Json::array(
        {{{"name", name}, {"from", {"-3 m", y}}, {"to", {"6 m", y}}, {"height", height}}});
  };
  near["site"]["retaining_walls"] = line("RW", "4 m", "1.2 m");
  near["site"]["house_walls"] = line("HW", "2.4 m", "600 mm");
  near["site"]["drains"] = line("D", "3 m", "800 mm");
  near["site"]["ponds"] = line("PO", "4 m", "1 m");
  near["site"]["trees"] = Json::array({{{"at", {"5 m", "3 m"}}, {"height", "8 m"}}});
  // Two spans of the joists.
  near["deck"].erase("walls");
  near["deck"]["bearers"].push_back(near["deck"]["bearers"][0]);
  near["deck"]["bearers"][1]["name"] = "C";
  near["deck"]["bearers"][1]["position"] = "1.5 m";
  near["deck"]["supports"].push_back(near["deck"]["supports"][0]);
  near["deck"]["supports"][2]["name"] = "S";
  near["deck"]["supports"][2]["under"] = "C";
  near["deck"]["supports"][1]["positions"] = {"2.1 m"};
  near["deck"]["supports"][2]["added"] = true;
  near["deck"]["closed_zones"][0]["outline"] =
      Json::array({{"0.9 m", "0.5 m"}, {"1.5 m", "0.5 m"}, {"1.5 m", "2.5 m"}, {"0.9 m", "2.5 m"}});
  // High enough to sway.
  Json tall = european;
  tall["deck"]["height"] = "1.9 m";
  tall["deck"]["supports"][0]["post"]["height"] = "1.4 m";
  // Between walls, with one line of braces.
  Json walled = tall;
  walled["deck"]["supports"][0]["post"]["held_down"] = "bolted";
  walled["deck"]["supports"][0]["post"]["hold_down_capacity"] = "5 kN";
  for (const char* axis : {"x", "y"}) {
    walled["deck"]["braces"].push_back({{"direction", axis},
                                        {"kind", "wall contact"},
                                        {"at", "the yard walls"},
                                        {"walls_on", "both sides"},
                                        {"from", "0.5 m"},
                                        {"to", "1.9 m"}});
  }
  // Hung at both ends.
  const Json far_hold = {
      {"held", "hanger"}, {"nails_in_carrier", 8}, {"sound", true}, {"seat", "40 mm"}};
  const auto hang_far_end = [](Json& record, Json hold) {
    Json ledger = record["deck"]["ledgers"][0];
    ledger["name"] = "M";
    ledger["position"] = "3.2 m";
    record["deck"]["ledgers"].push_back(std::move(ledger));
    record["deck"]["joists"][0]["end"] = std::move(hold);
    record["deck"].erase("rims");
  };
  hang_far_end(near, far_hold);
  // Screw piles; loads of other shapes and contents.
  Json third = european;
  for (Json& supports : third["deck"]["supports"]) {
    supports["footing"]["kind"] = "screw pile";
    supports["footing"]["stated_capacity"] = "8 kN";
  }
  third["allow"]["clear_height"] = "500 mm";
  third["loads"] = Json::array(
      {{{"kind", "planter"},
        {"shape", "circle"},
        {"diameter", "800 mm"},
        {"at", {"600 mm", "1.2 m"}},
        {"dry_mass", "40 kg"},
        {"water_depth", "400 mm"},
        {"base", "feet"},
        {"feet", Json::array({{"250 mm", "0 mm"}, {"-150 mm", "200 mm"}, {"-150 mm", "-200 mm"}})},
        {"foot_size", "60 mm"}},
       {{"kind", "store"},
        {"shape", "polygon"},
        {"outline", Json::array({{"0 mm", "0 mm"}, {"900 mm", "0 mm"}, {"0 mm", "900 mm"}})},
        {"at", {"1.3 m", "1 m"}},
        {"dry_mass", "60 kg"},
        {"contents_mass", "200 kg"}}});
  // What the works add.
  Json fourth = european;
  fourth["deck"]["joists"].push_back(fourth["deck"]["joists"][0]);
  fourth["deck"]["joists"][1]["name"] = "V";
  fourth["deck"]["joists"][0]["positions"] = {"200 mm", "600 mm", "1 m", "1.4 m", "1.8 m"};
  fourth["deck"]["joists"][1]["positions"] = {"2.2 m"};
  fourth["deck"]["joists"][1]["added"] = true;
  Json stated = far_hold;
  stated["stated_capacity"] = "1 kN";
  hang_far_end(fourth, stated);
  fourth["deck"]["joists"][1]["end"] = stated;
  for (const char* list : {"joist_ends", "bearers", "supports", "walls", "blocking", "braces"}) {
    fourth["deck"][list][0]["added"] = true;
  }
  fourth["deck"]["bearers"][0]["gap"] = "2 mm";
  fourth["deck"]["probed"]["pieces"] = Json::array();
  for (const char* flag : {"move_load", "turn_load", "packing", "pads", "sleepers", "bearers",
                           "sisters", "added_joists", "blocking", "hangers", "bigger_pads",
                           "braces", "ledger_bolts", "digging"}) {
    european["allow"][flag] = true;
  }
  european["deck"]["supports"][0]["footing"]["contact"] = "unknown";
  return {european, american, second, third, fourth, near, tall, walled};
}

}  // namespace

namespace {

void walk(std::size_t step) {
  const std::vector<Json> bases = records();
  std::vector<std::string> before;
  for (const Json& base : bases) before.push_back(outcome(base));
  std::size_t walked = 0;
  std::size_t number = 0;
  for (const record::Field& key : record::survey_fields()) {
    if (number++ % step != 0) continue;
    const std::string path = key.object + "/" + key.key;
    bool present = false, changed = false, read = false;
    for (std::size_t b = 0; b < bases.size() && !changed; ++b) {
      std::vector<Json::json_pointer> places;
      places_of(bases[b], path, Json::json_pointer(), places);
      for (const Json::json_pointer& place : places) {
        present = true;
        for (const Json& other : others(bases[b][place], key)) {
          if (other == bases[b][place]) continue;
          Json json = bases[b];
          json[place] = other;
          try {
            changed = outcome(json) != before[b];
            read = true;
          } catch (const InputErrors&) {  // not a value that anybody could record here
          }
          if (changed) break;
        }
        if (changed) break;
      }
    }
    INFO(path);
    ++walked;
    if (not_reached.contains(path)) continue;
    if (changes_nothing.contains(path)) {
      // A name may stand in the words of a reason.
      if (changes_nothing.at(path) != "a name") CHECK_FALSE(changed);
    } else if (refused_otherwise.contains(path)) {
      CHECK(present);
      CHECK_FALSE(read);
    } else {
      CHECK(present);
      CHECK(changed);
    }
  }
  CHECK(walked > 190 / step);
  for (const auto& [path, reason] : changes_nothing) CHECK_FALSE(reason.empty());
}

}  // namespace

TEST_CASE("Another value of every tenth key changes what is found, or is in the short list",
          "[assessment][law][!mayfail]") {
  walk(10);
}

TEST_CASE("Another value of any key changes what is found or offered, or stands in the short list",
          "[.slow][law]") {
  walk(1);
}

}  // namespace fields_test_file
