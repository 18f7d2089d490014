// The built program, started from a test: arguments in, text and exit code out.
#pragma once

#include <string>

namespace underprop::test {

struct Ran {
  int code = -1;    ///< exit code; 128 if a signal ended it
  std::string out;  ///< what it printed
};

enum class Errors { dropped, shown };

/// Runs the program with these arguments (as a shell reads them) and this file as its input.
Ran run(const std::string& arguments, Errors errors = Errors::dropped,
        const std::string& input = "/dev/null");

/// Runs a line of the shell; what it says on standard error is not kept.
Ran shell(const std::string& command);

/// A path for a file of this name in the folder for temporary files.
std::string temporary_path(const std::string& name);

/// What stands in a file; "" if there is none.
std::string text_of(const std::string& path);

}  // namespace underprop::test
