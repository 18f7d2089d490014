#include "layout.hpp"

#include <algorithm>
#include <numeric>

namespace underprop::report {

namespace {

constexpr std::size_t label_width = 13;
constexpr std::size_t least_width = 40;

bool starts_character(char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }

/// Bytes of the first `count` characters.
std::size_t bytes_of(std::string_view text, std::size_t count) {
  std::size_t i = 0;
  for (; i < text.size(); ++i) {
    if (starts_character(text[i])) {
      if (count == 0) break;
      --count;
    }
  }
  return i;
}

std::string padded(const std::string& text, std::size_t width, bool right) {
  const std::size_t used = columns(text);
  const std::string space(width > used ? width - used : 0, ' ');
  return right ? space + text : text + space;
}

std::string without_trailing_spaces(std::string text) {
  while (!text.empty() && text.back() == ' ') text.pop_back();
  return text;
}

}  // namespace

std::size_t columns(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), starts_character));
}

std::string plain(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto c = static_cast<unsigned char>(text[i]);
    const bool c1_control = c == 0xC2 && i + 1 < text.size() &&
                            static_cast<unsigned char>(text[i + 1]) < 0xA0;  // U+0080 to U+009F
    if (c1_control) ++i;
    out += c < 0x20 || c == 0x7F || c1_control ? ' ' : text[i];
  }
  return out;
}

std::string clip(std::string_view text, std::size_t width) {
  if (columns(text) <= width) return std::string(text);
  if (width <= 2) return std::string(text.substr(0, bytes_of(text, width)));
  return without_trailing_spaces(std::string(text.substr(0, bytes_of(text, width - 2)))) + "..";
}

std::vector<std::string> wrap(std::string_view raw, std::size_t width) {
  const std::string text = plain(raw);
  std::vector<std::string> lines;
  std::string line;
  const auto finish = [&] {
    lines.push_back(line);
    line.clear();
  };
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t start = text.find_first_not_of(' ', at);
    if (start == std::string::npos) break;
    const std::size_t end = std::min(text.find(' ', start), text.size());
    std::string_view word(text.data() + start, end - start);
    at = end;
    if (!line.empty() && columns(line) + 1 + columns(word) > width) finish();
    while (columns(word) > width) {
      const std::size_t cut = bytes_of(word, width);
      lines.emplace_back(word.substr(0, cut));
      word.remove_prefix(cut);
    }
    if (!line.empty()) line += ' ';
    line += word;
  }
  if (!line.empty() || lines.empty()) finish();
  return lines;
}

Page::Page(int width)
    : width_(std::max(least_width, static_cast<std::size_t>(std::max(width, 0)))) {}

void Page::line(std::string_view text) { text_ += clip(plain(text), width_) + "\n"; }

void Page::blank() { text_ += "\n"; }

void Page::paragraph(std::string_view text) {
  for (const std::string& part : wrap(text, width_)) text_ += part + "\n";
}

void Page::labelled(std::string_view label, std::string_view text) {
  std::string lead = padded(clip(plain(label), label_width - 1), label_width, false);
  for (const std::string& part : wrap(text, width_ - label_width)) {
    text_ += without_trailing_spaces(lead + part) + "\n";
    lead.assign(label_width, ' ');
  }
}

void Page::spread(std::string_view left, std::string_view right) {
  const std::string a = plain(left), b = plain(right);
  if (columns(a) + 2 + columns(b) > width_) {
    line(a);
    line(b);
    return;
  }
  text_ += padded(a, width_ - columns(b), false) + b + "\n";
}

void Page::table(const std::vector<Column>& heads,
                 const std::vector<std::vector<std::string>>& rows, bool wrapped) {
  constexpr std::size_t gap = 2;
  std::vector<std::size_t> widths;
  for (std::size_t c = 0; c < heads.size(); ++c) {
    std::size_t widest = columns(heads[c].title);
    for (const auto& row : rows) widest = std::max(widest, columns(plain(row.at(c))));
    widths.push_back(widest);
  }
  const std::size_t room = width_ - gap * (heads.size() - 1);
  while (std::accumulate(widths.begin(), widths.end(), std::size_t{0}) > room) {
    std::size_t widest = heads.size();
    for (std::size_t c = 0; c < heads.size(); ++c) {
      if (widths[c] <= heads[c].least) continue;
      if (widest == heads.size() || widths[c] >= widths[widest]) widest = c;
    }
    if (widest == heads.size()) break;
    --widths[widest];
  }

  const auto emit = [&](const std::vector<std::string>& cells) {
    std::vector<std::vector<std::string>> parts;
    std::size_t height = 1;
    for (std::size_t c = 0; c < cells.size(); ++c) {
      parts.push_back(wrapped ? wrap(cells[c], widths[c])
                              : std::vector<std::string>{clip(plain(cells[c]), widths[c])});
      height = std::max(height, parts.back().size());
    }
    for (std::size_t r = 0; r < height; ++r) {
      std::string out;
      for (std::size_t c = 0; c < parts.size(); ++c) {
        if (c > 0) out += std::string(gap, ' ');
        out += padded(r < parts[c].size() ? parts[c][r] : "", widths[c], heads[c].right);
      }
      text_ += clip(without_trailing_spaces(std::move(out)), width_) + "\n";
    }
  };
  std::vector<std::string> titles;
  for (const Column& head : heads) titles.push_back(head.title);
  emit(titles);
  for (const auto& row : rows) emit(row);
}

}  // namespace underprop::report
