// Writing HTML: whatever comes from a survey goes through `esc`.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace underprop::report {

/// Text as HTML: & < > " ' escaped, control characters as spaces. Fit for attributes in quotes.
[[nodiscard]] std::string esc(std::string_view text);

class Html {
public:
  /// Markup of our own, as it is.
  Html& raw(std::string_view markup);
  /// <tag class="css">escaped text</tag>; css may be empty.
  Html& element(std::string_view tag, std::string_view text, std::string_view css = {});
  /// A numbered section with its heading; `body` is markup.
  Html& section(std::string_view heading, const std::string& body);
  Html& list(const std::vector<std::string>& items, bool numbered = false);

  struct Column {
    std::string title;
    bool right = false;  ///< numbers
  };
  /// Cells are escaped. The first cell of a row is its header.
  Html& table(std::string_view caption, const std::vector<Column>& columns,
              const std::vector<std::vector<std::string>>& rows);

  [[nodiscard]] const std::string& text() const { return text_; }

private:
  std::string text_;
  int sections_ = 0;
};

/// The style sheet of the report.
[[nodiscard]] std::string_view style_sheet();

}  // namespace underprop::report
