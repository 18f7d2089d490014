#include "read_checks.hpp"

#include "record/limits.hpp"
#include "record/words.hpp"

#include <algorithm>
#include <array>
#include <set>

namespace underprop::deck {
namespace {

// A fault in one of these leaves no layout worth checking: what it says would be an echo.
bool spoils_layout(std::string_view pointer) {
  static constexpr std::array<std::string_view, 12> keys{
      "outline", "name",  "direction", "position", "positions", "first",
      "spacing", "count", "from",      "to",       "under",     "only"};
  static constexpr std::array<std::string_view, 5> lists{
      "/deck/joists", "/deck/bearers", "/deck/ledgers", "/deck/supports", "/deck/outline"};
  if (pointer.empty() || pointer == "/deck") return true;
  const auto list =
      std::ranges::find_if(lists, [&](std::string_view each) { return pointer.starts_with(each); });
  if (list == lists.end()) return false;
  const std::string_view below = pointer.substr(list->size());
  if (std::ranges::count(below, '/') <= 1) return true;  // the list, or an entry that is none
  std::size_t start = 1;
  while (start <= pointer.size()) {
    const std::size_t end = std::min(pointer.find('/', start), pointer.size());
    if (std::ranges::find(keys, pointer.substr(start, end - start)) != keys.end()) return true;
    start = end + 1;
  }
  return false;
}

/// Reports it if there are more than `most`.
bool more_than(std::size_t most, std::size_t count, const char* pointer, const char* what,
               ErrorList& errors) {
  if (count <= most) return false;
  errors.add(pointer, std::to_string(count) + " " + what, "at most " + std::to_string(most),
             "record the part of the deck round the load");
  return true;
}

// Before they are laid out: a few groups can stand for millions.
bool too_many(const record::Survey& survey, ErrorList& errors) {
  std::size_t joists = 0;
  for (const record::Joists& group : survey.deck.joists) joists += group.positions.size();
  if (more_than(record::most_joists, joists, "/deck/joists", "joists", errors)) return true;
  std::size_t supports = 0;
  for (const record::Supports& group : survey.deck.supports) {
    std::size_t under = 1;
    for (const record::Joists& above : survey.deck.joists) {
      if (above.name == group.under) under = above.positions.size();
    }
    if (!group.only.empty()) under = std::min(under, group.only.size());
    supports += under * group.positions.size();
  }
  return more_than(record::most_supports, supports, "/deck/supports", "supports", errors);
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

void name_loads(record::Survey& survey) {
  std::set<std::string> taken;
  for (const record::HeavyLoad& load : survey.loads) taken.insert(load.name);
  for (record::HeavyLoad& load : survey.loads) {
    if (!load.name.empty()) continue;
    const std::string word(record::written_word(load.kind));
    load.name = word;
    for (int i = 2; taken.count(load.name) > 0; ++i) load.name = word + " " + std::to_string(i);
    taken.insert(load.name);
  }
}

void check_survey(const record::Survey& survey, ErrorList& errors) {
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
  if (too_many(survey, errors)) return;
  const Layout layout = lay_out(survey);
  if (more_than(record::most_joists, layout.joists.size(), "/deck/joists", "joists", errors) ||
      more_than(record::most_supports, layout.supports.size(), "/deck/supports", "supports",
                errors)) {
    return;
  }
  check_references(survey, layout, errors);
  check_places(survey, layout, errors);
  check_carried(survey, layout, errors);
  check_footings(survey, layout, errors);
}

}  // namespace underprop::deck
