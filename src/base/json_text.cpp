#include "base/json_reader.hpp"
#include "base/utf8.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace underprop {

namespace {

[[noreturn]] void refuse(const std::string& file, std::string found, std::string allowed,
                         std::string remedy) {
  throw InputErrors(file, {{"", std::move(found), std::move(allowed), std::move(remedy)}});
}

/// "line 3, column 7" of a byte; columns count bytes from 1.
std::string place(std::string_view text, std::size_t byte) {
  byte = std::min(byte, text.size());
  const std::string_view before = text.substr(0, byte);
  const auto line = 1 + std::count(before.begin(), before.end(), '\n');
  const std::size_t last = before.rfind('\n');
  const std::size_t column = last == std::string_view::npos ? byte + 1 : byte - last;
  return fmt::format("line {}, column {}", line, column);
}

/// The first bracket that opens a level deeper than allowed, or npos. Brackets in strings don't count.
std::size_t first_too_deep(std::string_view text) {
  std::size_t depth = 0;
  bool in_string = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (in_string) {
      if (c == '\\') {
        ++i;
      } else if (c == '"') {
        in_string = false;
      }
    } else if (c == '"') {
      in_string = true;
    } else if (c == '{' || c == '[') {
      if (++depth > max_json_depth) return i;
    } else if ((c == '}' || c == ']') && depth > 0) {
      --depth;
    }
  }
  return std::string_view::npos;
}

/// The part of a line around a byte, cut at the beginnings of UTF-8 characters.
std::string_view around(std::string_view text, std::size_t byte) {
  constexpr std::size_t reach = 20;
  const auto inside = [&](std::size_t at) {
    return at < text.size() && (static_cast<unsigned char>(text[at]) & 0xc0U) == 0x80U;
  };
  std::size_t from = byte;
  while (from > 0 && text[from - 1] != '\n' && (byte - from < reach || inside(from))) --from;
  std::size_t to = byte;
  while (to < text.size() && text[to] != '\n' && (to - byte < reach || inside(to))) ++to;
  return text.substr(from, to - from);
}

/// Builds the value from the parser's events, noting keys that stand twice in one object.
class Builder : public nlohmann::json_sax<Json> {
public:
  Builder(std::string_view text, ErrorList& errors) : text_(text), errors_(errors) {}

  [[nodiscard]] Json take() { return std::move(root_); }

  bool null() override { return put(Json(nullptr)) != nullptr; }
  bool boolean(bool value) override { return put(Json(value)) != nullptr; }
  bool number_integer(number_integer_t value) override { return put(Json(value)) != nullptr; }
  bool number_unsigned(number_unsigned_t value) override { return put(Json(value)) != nullptr; }
  bool number_float(number_float_t value, const string_t&) override {
    return put(Json(value)) != nullptr;
  }
  bool string(string_t& value) override { return put(Json(std::move(value))) != nullptr; }
  bool binary(binary_t&) override { return false; }
  bool start_object(std::size_t) override {
    open_.push_back(put(Json::object()));
    return true;
  }
  bool key(string_t& key) override {
    Json& object = *open_.back();
    if (object.contains(key)) {
      // Finding the pointer takes a search; not for faults beyond those that are kept.
      const bool kept = errors_.count() < ErrorList::max_errors;
      errors_.add(kept ? child_pointer(pointer(), key) : std::string(),
                  fmt::format("the key {} stands here more than once", quote(key)),
                  "each key once in an object", "keep the one that holds and delete the other");
    }
    key_ = std::move(key);
    return true;
  }
  bool end_object() override { return close(); }
  bool start_array(std::size_t) override {
    open_.push_back(put(Json::array()));
    return true;
  }
  bool end_array() override { return close(); }

  bool parse_error(std::size_t position, const std::string& last_token,
                   const nlohmann::detail::exception& error) override {
    if (error.id == 406) {  // out_of_range: a number that no double holds
      errors_.add("",
                  fmt::format("the number {} at {} is too large", quote(last_token),
                              place(text_, position > 0 ? position - 1 : 0)),
                  "numbers below 1.8e308", "check the number");
      return false;
    }
    const std::size_t byte = position > 0 ? position - 1 : 0;
    const bool ended = byte >= text_.size();
    errors_.add(
        "",
        ended ? fmt::format("the text ends too early, at {}", place(text_, text_.size()))
              : fmt::format("not JSON at {}, near {}", place(text_, byte),
                            quote(around(text_, byte))),
        "JSON as in RFC 8259: double quotes, no comments, no comma before } or ]",
        ended ? "close every string, bracket and brace" : "mend the text at or before that place");
    return false;
  }

private:
  Json* put(Json value) {
    if (open_.empty()) {
      root_ = std::move(value);
      return &root_;
    }
    Json& parent = *open_.back();
    if (parent.is_array()) {
      parent.push_back(std::move(value));
      return &parent.back();
    }
    Json& slot = parent[key_];
    slot = std::move(value);
    return &slot;
  }
  bool close() {
    open_.pop_back();
    return true;
  }
  /// Where the innermost open object stands: found by looking for it in its parents.
  [[nodiscard]] std::string pointer() const {
    std::string at;
    for (std::size_t i = 0; i + 1 < open_.size(); ++i) {
      const Json& parent = *open_[i];
      if (parent.is_array()) {
        at = child_pointer(at, parent.size() - 1);
        continue;
      }
      for (auto it = parent.begin(); it != parent.end(); ++it) {
        if (&it.value() == open_[i + 1]) {
          at = child_pointer(at, it.key());
          break;
        }
      }
    }
    return at;
  }

  std::string_view text_;
  ErrorList& errors_;
  Json root_;
  std::vector<Json*> open_;
  std::string key_;
};

}  // namespace

Json read_json_text(std::string_view text, const std::string& file) {
  if (text.size() > max_json_bytes) {
    refuse(file, fmt::format("{} bytes of text", text.size()),
           fmt::format("at most {} bytes", max_json_bytes), "check that this is the right file");
  }
  if (text.starts_with("\xef\xbb\xbf")) text.remove_prefix(3);
  if (text.find_first_not_of(" \t\r\n") == std::string_view::npos) {
    refuse(file, "an empty file", "a JSON object", "write the survey, beginning with {");
  }
  if (const std::size_t bad = first_bad_utf8(text); bad != std::string_view::npos) {
    refuse(file, fmt::format("bytes that are not UTF-8 text at {}", place(text, bad)),
           "text in UTF-8", "save the file in the encoding UTF-8");
  }
  if (const std::size_t deep = first_too_deep(text); deep != std::string_view::npos) {
    refuse(
        file,
        fmt::format("brackets nested more than {} deep at {}", max_json_depth, place(text, deep)),
        fmt::format("at most {} levels", max_json_depth), "check that this is the right file");
  }
  ErrorList errors(file);
  Builder builder(text, errors);
  Json::sax_parse(text, &builder);
  errors.throw_if_any();
  return builder.take();
}

}  // namespace underprop
