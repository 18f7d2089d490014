#include "read_checks.hpp"

#include "read_fields.hpp"
#include "read_words.hpp"

#include <algorithm>
#include <array>
#include <set>

namespace underprop::survey {
namespace {

// A fault in one of these leaves no layout worth checking: what it says would be an echo.
bool spoils_layout(std::string_view pointer) {
  static constexpr std::array<std::string_view, 14> keys{
      "outline", "name", "direction", "position", "positions", "first", "spacing",
      "count",   "from", "to",        "under",    "only",      "x",     "y"};
  static constexpr std::array<std::string_view, 5> lists{
      "/deck/joists", "/deck/bearers", "/deck/ledgers", "/deck/supports", "/deck/outline"};
  if (pointer.empty() || pointer == "/deck") return true;
  const bool in_list =
      std::ranges::any_of(lists, [&](std::string_view list) { return pointer.starts_with(list); });
  if (!in_list) return false;
  if (std::ranges::count(pointer, '/') <= 3 && std::ranges::find(lists, pointer) != lists.end()) {
    return true;
  }
  std::size_t start = 1;
  while (start <= pointer.size()) {
    const std::size_t end = std::min(pointer.find('/', start), pointer.size());
    if (std::ranges::find(keys, pointer.substr(start, end - start)) != keys.end()) return true;
    start = end + 1;
  }
  return false;
}

}  // namespace

bool reported(const ErrorList& errors, std::string_view pointer) {
  return std::ranges::any_of(errors.errors(), [&](const InputError& error) {
    const std::string_view at = error.pointer;
    return at.starts_with(pointer) && (at.size() == pointer.size() || at[pointer.size()] == '/');
  });
}

std::string place_of(std::string_view list, std::size_t index, std::string_view rest) {
  std::string place = child_pointer(list, index);
  if (!rest.empty()) place += "/" + std::string(rest);
  return place;
}

void name_loads(Survey& survey) {
  std::set<std::string> taken;
  for (const HeavyLoad& load : survey.loads) taken.insert(load.name);
  for (HeavyLoad& load : survey.loads) {
    if (!load.name.empty()) continue;
    const std::string word(written_word(load.kind));
    load.name = word;
    for (int i = 2; taken.count(load.name) > 0; ++i) load.name = word + " " + std::to_string(i);
    taken.insert(load.name);
  }
}

void check_survey(const Survey& survey, ErrorList& errors) {
  const std::size_t before = errors.errors().size();
  const bool layout_read = std::ranges::none_of(
      errors.errors(), [](const InputError& error) { return spoils_layout(error.pointer); });
  check_names(survey, errors);
  check_contradictions(survey, errors);
  check_outlines(survey, errors);
  const bool layout_good =
      layout_read && std::none_of(errors.errors().begin() + static_cast<std::ptrdiff_t>(before),
                                  errors.errors().end(), [](const InputError& error) {
                                    return spoils_layout(error.pointer);
                                  });
  check_loads(survey, errors);
  if (!layout_good) return;
  const Layout layout = lay_out(survey);
  if (layout.joists.size() > most_joists || layout.supports.size() > most_supports) {
    const bool joists = layout.joists.size() > most_joists;
    errors.add(joists ? "/deck/joists" : "/deck/supports",
               std::to_string(joists ? layout.joists.size() : layout.supports.size()) +
                   (joists ? " joists" : " supports"),
               "at most " + std::to_string(joists ? most_joists : most_supports),
               "record the part of the deck round the load");
    return;
  }
  check_references(survey, layout, errors);
  check_places(survey, layout, errors);
  check_carried(survey, layout, errors);
  check_footings(survey, layout, errors);
}

}  // namespace underprop::survey
