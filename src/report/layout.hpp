// Setting text in columns for a terminal: wrapped paragraphs, labelled paragraphs, tables.
//
// Widths count Unicode characters. Control characters, which could come from a survey, become spaces.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace underprop::report {

/// Columns that text takes.
[[nodiscard]] std::size_t columns(std::string_view text);
/// Control characters (and line ends) as spaces.
[[nodiscard]] std::string plain(std::string_view text);
/// Cut to `width` columns, ".." at the end where something is cut off.
[[nodiscard]] std::string clip(std::string_view text, std::size_t width);

/// `text` in lines of at most `width` columns; words longer than a line are broken.
[[nodiscard]] std::vector<std::string> wrap(std::string_view text, std::size_t width);

class Page {
public:
  explicit Page(int width);

  void paragraph(std::string_view text);
  void blank();
  void line(std::string_view text);
  /// "Label        text ...", further lines under the text. The label may be empty.
  void labelled(std::string_view label, std::string_view text);
  /// One line with something at its right edge, two lines if they do not fit.
  void spread(std::string_view left, std::string_view right);

  struct Column {
    std::string title;
    bool right = false;     ///< numbers
    std::size_t least = 4;  ///< it is not made narrower than this
  };
  /// Cells are clipped, or wrapped if `wrapped`; the widest columns give way first.
  void table(const std::vector<Column>& columns, const std::vector<std::vector<std::string>>& rows,
             bool wrapped = false);

  [[nodiscard]] std::size_t width() const { return width_; }
  [[nodiscard]] std::string text() const { return text_; }

private:
  std::size_t width_;
  std::string text_;
};

}  // namespace underprop::report
