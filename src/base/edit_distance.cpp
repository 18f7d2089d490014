#include "base/edit_distance.hpp"

#include <algorithm>
#include <array>

namespace underprop {

namespace {

constexpr std::size_t longest = 64;

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  a = a.substr(0, longest);
  b = b.substr(0, longest);
  // Only the last three rows of the table are looked at.
  using Row = std::array<std::size_t, longest + 1>;
  Row two_before{}, before{}, row{};
  for (std::size_t j = 0; j <= b.size(); ++j) before[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const bool same = lower(a[i - 1]) == lower(b[j - 1]);
      std::size_t best = std::min(before[j] + 1, row[j - 1] + 1);
      best = std::min(best, before[j - 1] + (same ? 0U : 1U));
      if (i > 1 && j > 1 && lower(a[i - 1]) == lower(b[j - 2]) &&
          lower(a[i - 2]) == lower(b[j - 1])) {
        best = std::min(best, two_before[j - 2] + 1);
      }
      row[j] = best;
    }
    std::copy_n(before.begin(), b.size() + 1, two_before.begin());
    std::copy_n(row.begin(), b.size() + 1, before.begin());
  }
  return before[b.size()];
}

std::string_view nearest_word(std::string_view word, std::span<const std::string_view> candidates) {
  std::string_view best;
  std::size_t best_distance = 0;
  for (const std::string_view candidate : candidates) {
    const std::size_t longer = std::max(word.size(), candidate.size());
    const std::size_t shorter = std::min(word.size(), candidate.size());
    if ((longer - shorter) * 3 > longer && longer <= longest) continue;  // no nearer than that
    const std::size_t distance = edit_distance(word, candidate);
    if (distance * 3 > std::max(word.size(), candidate.size())) continue;
    if (best.empty() || distance < best_distance) {
      best = candidate;
      best_distance = distance;
    }
  }
  return best;
}

}  // namespace underprop
