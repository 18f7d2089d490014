// What is wrong with an input file, said so that its author can mend it.
#pragma once

#include "underprop/base/format.hpp"

#include <cstddef>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace underprop {

struct InputError {
  std::string pointer;  ///< JSON Pointer (RFC 6901) of the place; "" is the whole file
  std::string found;    ///< what was found
  std::string allowed;  ///< what is allowed there
  std::string remedy;   ///< what to do

  bool operator==(const InputError&) const = default;
};

/// "FILE: /json/pointer: found; allowed; remedy", on one line whatever the parts contain: control
/// characters are spelt \n, \t, \u001b. The whole file's pointer is shown as "/".
[[nodiscard]] std::string to_line(const InputError& error, std::string_view file);

/// Every fault of one file. what() is one line for each.
class InputErrors : public std::runtime_error {
public:
  /// `errors` must not be empty.
  InputErrors(std::string file, std::vector<InputError> errors);

  [[nodiscard]] const std::string& file() const { return file_; }
  [[nodiscard]] const std::vector<InputError>& errors() const { return errors_; }
  [[nodiscard]] std::vector<std::string> lines() const;

private:
  std::string file_;
  std::vector<InputError> errors_;
};

/// Collects faults while a file is read, so that all of them are told at once. After max_errors
/// further ones are counted, not kept.
class ErrorList {
public:
  static constexpr std::size_t max_errors = 200;

  explicit ErrorList(std::string file) : file_(std::move(file)) {}

  void add(std::string pointer, std::string found, std::string allowed, std::string remedy);
  [[nodiscard]] bool empty() const { return errors_.empty(); }
  /// How many faults were added, kept or not; compare two counts to see whether a step failed.
  [[nodiscard]] std::size_t count() const { return count_; }
  [[nodiscard]] const std::vector<InputError>& errors() const { return errors_; }
  [[nodiscard]] const std::string& file() const { return file_; }
  /// The units in which whoever wrote the input measures; messages use them.
  void set_units(UnitSystem units) { units_ = units; }
  [[nodiscard]] UnitSystem units() const { return units_; }
  /// Throws InputErrors if there is any.
  void throw_if_any() const;

private:
  std::string file_;
  std::vector<InputError> errors_;
  std::size_t count_ = 0;
  UnitSystem units_ = UnitSystem::metric;
};

/// `text` between double quotes, control characters spelt out, cut after about 60 bytes (never inside
/// a UTF-8 character).
[[nodiscard]] std::string quote(std::string_view text);

/// One more step of a JSON Pointer, "~" and "/" in the key escaped as RFC 6901 section 3 says.
[[nodiscard]] std::string child_pointer(std::string_view pointer, std::string_view key);
[[nodiscard]] std::string child_pointer(std::string_view pointer, std::size_t index);

}  // namespace underprop
