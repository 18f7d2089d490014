#include "support/paths.hpp"

namespace underprop::test {

const char* const tests_dir = UNDERPROP_TESTS_DIR;
const char* const source_dir = UNDERPROP_SOURCE_DIR;
const char* const program = UNDERPROP_PROGRAM;

}  // namespace underprop::test
