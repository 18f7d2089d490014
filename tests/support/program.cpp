#include "program.hpp"

#include "catch.hpp"
#include "paths.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>

namespace underprop::test {

Ran shell(const std::string& command) {
  Ran ran;
  FILE* pipe = popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::array<char, 4096> buffer{};
  while (const std::size_t n = std::fread(buffer.data(), 1, buffer.size(), pipe))
    ran.out.append(buffer.data(), n);
  const int status = pclose(pipe);
  ran.code = WIFEXITED(status) ? WEXITSTATUS(status) : 128;
  return ran;
}

Ran run(const std::string& arguments, Errors errors, const std::string& input) {
  return shell(std::string("\"") + program + "\" " + arguments + " <\"" + input + "\"" +
               (errors == Errors::shown ? " 2>&1" : " 2>/dev/null"));
}

std::string temporary_path(const std::string& name) {
  // In memory where the machine has such a folder: the interview waits for the disk after every answer.
  const char* asked = std::getenv("TMPDIR");
  const std::string folder = asked != nullptr                  ? asked
                             : ::access("/dev/shm", W_OK) == 0 ? "/dev/shm"
                                                               : "/tmp";
  return folder + "/underprop-test-" + name;
}

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

}  // namespace underprop::test
