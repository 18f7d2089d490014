// Files in and out, with the errors a user can act on.
#pragma once

#include <stdexcept>
#include <string>

namespace underprop::cli {

/// A file could not be read or written: exit code 74.
struct FileError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// The whole file. Throws FileError, or underprop::InputErrors if it is larger than a survey may be.
std::string read_file(const std::string& path);

/// Written beside its place and moved there, so that nothing is ever half written. Throws FileError.
void write_file(const std::string& path, const std::string& text);

}  // namespace underprop::cli
