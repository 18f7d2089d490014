#include "underprop/base/input_error.hpp"

#include <fmt/format.h>

namespace underprop {

namespace {

/// Control characters spelt out, so that a message stays on one line and cannot steer a terminal.
std::string printable(std::string_view text) {
  std::string result;
  result.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if (byte == '\n') {
      result += "\\n";
    } else if (byte == '\t') {
      result += "\\t";
    } else if (byte < 0x20 || byte == 0x7f) {
      result += fmt::format("\\u{:04x}", static_cast<unsigned>(byte));
    } else if (byte == 0xc2 && i + 1 < text.size() &&
               static_cast<unsigned char>(text[i + 1]) < 0xa0) {  // U+0080 to U+009F
      result += fmt::format("\\u{:04x}", static_cast<unsigned>(text[i + 1]) & 0xffU);
      ++i;
    } else {
      result += text[i];
    }
  }
  return result;
}

std::string all_lines(std::string_view file, const std::vector<InputError>& errors) {
  std::string text;
  for (const InputError& error : errors) {
    if (!text.empty()) text += '\n';
    text += to_line(error, file);
  }
  return text;
}

}  // namespace

std::string to_line(const InputError& error, std::string_view file) {
  return printable(fmt::format("{}: {}: {}; {}; {}", file,
                               error.pointer.empty() ? "/" : error.pointer, error.found,
                               error.allowed, error.remedy));
}

InputErrors::InputErrors(std::string file, std::vector<InputError> errors)
    : std::runtime_error(all_lines(file, errors)),
      file_(std::move(file)),
      errors_(std::move(errors)) {}

std::vector<std::string> InputErrors::lines() const {
  std::vector<std::string> result;
  result.reserve(errors_.size());
  for (const InputError& error : errors_) result.push_back(to_line(error, file_));
  return result;
}

void ErrorList::add(std::string pointer, std::string found, std::string allowed,
                    std::string remedy) {
  ++count_;
  if (errors_.size() >= max_errors) return;
  errors_.push_back({std::move(pointer), std::move(found), std::move(allowed), std::move(remedy)});
}

void ErrorList::throw_if_any() const {
  if (errors_.empty()) return;
  std::vector<InputError> all = errors_;
  if (count_ > errors_.size()) {
    all.push_back({"", fmt::format("{} more faults like these", count_ - errors_.size()),
                   fmt::format("at most {} are listed", max_errors),
                   "mend the ones above and run again"});
  }
  throw InputErrors(file_, std::move(all));
}

std::string quote(std::string_view text) {
  constexpr std::size_t most = 60;
  if (text.size() <= most) return fmt::format("\"{}\"", printable(text));
  std::size_t end = most;
  // Bytes 10xxxxxx continue a UTF-8 character.
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xc0U) == 0x80U) --end;
  return fmt::format("\"{}...\"", printable(text.substr(0, end)));
}

std::string child_pointer(std::string_view pointer, std::string_view key) {
  std::string result(pointer);
  result += '/';
  for (const char c : key) {
    if (c == '~') {
      result += "~0";
    } else if (c == '/') {
      result += "~1";
    } else {
      result += c;
    }
  }
  return result;
}

std::string child_pointer(std::string_view pointer, std::size_t index) {
  return fmt::format("{}/{}", pointer, index);
}

}  // namespace underprop
