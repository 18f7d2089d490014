// underprop record SURVEY: the interview at a terminal.
#pragma once

#include <string>

namespace underprop::cli {

/// Asks on standard output, reads standard input, and keeps the file after every answer. The end of
/// input stops as "stop" does. Returns the exit code: 0 the survey is finished, 75 it is to go on.
int record(const std::string& path);

}  // namespace underprop::cli
