// The program: command line in, exit code out.
#pragma once

namespace underprop::cli {

/// Runs the command named on the command line and returns the exit code: 0 to 3 by the verdict,
/// 64 wrong usage, 65 bad input, 70 internal fault, 74 a file could not be read or written.
/// Never throws.
[[nodiscard]] int run(int argc, char** argv);

}  // namespace underprop::cli
