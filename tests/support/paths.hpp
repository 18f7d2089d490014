// Where the tests, the source and the program under test stand: said in one translation unit, so that
// the others compile to the same object wherever the source lies.
#pragma once

namespace underprop::test {

extern const char* const tests_dir;   ///< folder of tests/
extern const char* const source_dir;  ///< folder of the project
extern const char* const program;     ///< the built program

}  // namespace underprop::test
