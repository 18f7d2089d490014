#include "markup.hpp"

#include "layout.hpp"

#include <fmt/format.h>

namespace underprop::report {

std::string esc(std::string_view text) {
  std::string out;
  for (const char c : plain(text)) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

Html& Html::raw(std::string_view markup) {
  text_ += markup;
  return *this;
}

Html& Html::element(std::string_view tag, std::string_view text, std::string_view css) {
  text_ += fmt::format("<{}", tag);
  if (!css.empty()) text_ += fmt::format(" class=\"{}\"", css);
  text_ += fmt::format(">{}</{}>\n", esc(text), tag);
  return *this;
}

Html& Html::section(std::string_view heading, const std::string& body) {
  const int number = ++sections_;
  text_ += fmt::format(
      "<section aria-labelledby=\"s{0}\">\n<h2 id=\"s{0}\"><span class=\"no\">{0}</span> {1}</h2>\n"
      "<div class=\"body\">\n{2}</div>\n</section>\n",
      number, esc(heading), body);
  return *this;
}

Html& Html::list(const std::vector<std::string>& items, bool numbered) {
  if (items.empty()) return *this;
  const char* tag = numbered ? "ol" : "ul";
  text_ += fmt::format("<{}>\n", tag);
  for (const std::string& item : items) element("li", item);
  text_ += fmt::format("</{}>\n", tag);
  return *this;
}

Html& Html::table(std::string_view caption, const std::vector<Column>& columns,
                  const std::vector<std::vector<std::string>>& rows) {
  text_ += fmt::format("<table>\n<caption>{}</caption>\n<thead><tr>", esc(caption));
  for (const Column& column : columns) {
    text_ += fmt::format("<th scope=\"col\"{}>{}</th>", column.right ? " class=\"n\"" : "",
                         esc(column.title));
  }
  text_ += "</tr></thead>\n<tbody>\n";
  for (const auto& row : rows) {
    text_ += "<tr>";
    for (std::size_t i = 0; i < row.size(); ++i) {
      const char* css = i < columns.size() && columns[i].right ? " class=\"n\"" : "";
      text_ += i == 0 ? fmt::format("<th scope=\"row\"{}>{}</th>", css, esc(row[i]))
                      : fmt::format("<td{}>{}</td>", css, esc(row[i]));
    }
    text_ += "</tr>\n";
  }
  text_ += "</tbody>\n</table>\n";
  return *this;
}

}  // namespace underprop::report
