// Survey files and the schema as text: what fits on a line stands on one.
#include "field_io.hpp"
#include "fields.hpp"
#include "json_text.hpp"

#include "underprop/record/format.hpp"

namespace underprop::record {
namespace {

constexpr std::size_t widest_line = 100;

std::string text_of(const OrderedJson& value) {
  return value.dump(-1, ' ', false, OrderedJson::error_handler_t::replace);
}

/// On one line, with a space behind each comma and colon.
std::string on_one_line(const OrderedJson& value) {
  if (!value.is_structured()) return text_of(value);
  std::string inner;
  for (const auto& [key, element] : value.items()) {
    if (!inner.empty()) inner += ", ";
    if (value.is_object()) inner += text_of(key) + ": ";
    inner += on_one_line(element);
  }
  return value.is_object() ? "{" + inner + "}" : "[" + inner + "]";
}

/// What fits on a line stands on one; the rest is spread, one entry a line.
void spread(const OrderedJson& value, std::size_t indent, std::size_t column, std::string& out) {
  const std::string line = on_one_line(value);
  if (indent > 0 && column + line.size() < widest_line) {
    out += line;
    return;
  }
  if (!value.is_structured() || value.empty()) {
    out += line;
    return;
  }
  const std::string margin(indent + 2, ' ');
  out += value.is_object() ? "{" : "[";
  bool first = true;
  for (const auto& [key, element] : value.items()) {
    out += first ? "\n" : ",\n";
    first = false;
    const std::string head = value.is_object() ? text_of(key) + ": " : std::string();
    out += margin + head;
    spread(element, indent + 2, margin.size() + head.size(), out);
  }
  out += "\n" + std::string(indent, ' ') + (value.is_object() ? "}" : "]");
}

}  // namespace

std::string json_text(const OrderedJson& value) {
  std::string text;
  spread(value, 0, 0, text);
  return text + '\n';
}

std::string write_survey(const Survey& survey) { return json_text(written_fields(survey)); }

}  // namespace underprop::record
