// underprop record from outside: answers through a pipe, the file and the screen out.
#include "support/catch.hpp"
#include "support/paths.hpp"
#include "support/program.hpp"
#include "support/recorded.hpp"

#include <nlohmann/json.hpp>

#include <sys/types.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace record_test_file {

namespace {

namespace fs = std::filesystem;
using underprop::test::Ran;
using underprop::test::temporary_path;
using underprop::test::text_of;

std::string fresh(const std::string& name) {
  const std::string path = temporary_path("record-" + name + ".json");
  fs::remove(path);
  fs::remove(path + ".part");
  return path;
}

std::string interview(const std::string& name) {
  return std::string(underprop::test::source_dir) + "/tests/interviews/" + name + ".txt";
}

Ran run(const std::string& arguments, const std::string& input = "/dev/null") {
  return underprop::test::run(arguments, underprop::test::Errors::shown, input);
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// Starts the program, gives it these lines, waits until the file holds the last answer, and kills it.
void kill_after(const std::string& path, const std::vector<std::string>& lines,
                const std::string& last_question) {
  int in[2] = {-1, -1};
  REQUIRE(pipe(in) == 0);
  const pid_t child = fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    dup2(in[0], STDIN_FILENO);
    close(in[0]);
    close(in[1]);
    if (std::freopen("/dev/null", "w", stdout) == nullptr) _exit(1);
    execl(underprop::test::program, "underprop", "record", path.c_str(),
          static_cast<char*>(nullptr));
    _exit(1);
  }
  close(in[0]);
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  REQUIRE(write(in[1], text.data(), text.size()) == static_cast<ssize_t>(text.size()));
  constexpr int most_waits = 6000;  // of 10 ms; no assertion on time, only no endless wait
  for (int i = 0; i < most_waits && !holds(text_of(path), "\"" + last_question + "\""); ++i) {
    usleep(10000);
  }
  kill(child, SIGKILL);
  int status = 0;
  REQUIRE(waitpid(child, &status, 0) == child);
  CHECK(WIFSIGNALED(status));
  close(in[1]);
}

std::vector<std::string> lines_of(const std::string& name) {
  std::ifstream file(interview(name));
  std::vector<std::string> lines;
  for (std::string line; std::getline(file, line);) lines.push_back(line);
  REQUIRE(lines.size() > 20);
  return lines;
}

std::string written(const std::string& name, const std::vector<std::string>& lines) {
  const std::string path = temporary_path("record-" + name + ".txt");
  std::ofstream file(path, std::ios::binary);
  for (const std::string& line : lines) file << line << "\n";
  return path;
}

}  // namespace

TEST_CASE("What was kept is not questioned again, and what comes next names the file",
          "[program][record]") {
  std::vector<std::string> lines = lines_of("raised-deck-us");
  const auto wall = std::find(lines.begin(), lines.end(), "-4 ft, -6 in to 20 ft, -6 in");
  REQUIRE(wall != lines.end());
  *(wall - 1) = "none";  // of walls of a house, under a deck that hangs from one
  *wall = "keep";
  lines.erase(wall + 1);
  const std::string path = fresh("kept");
  const Ran ran = run("record \"" + path + "\"", written("kept", lines));
  INFO(ran.out.substr(ran.out.size() > 3000 ? ran.out.size() - 3000 : 0));
  CHECK(ran.code == 0);
  CHECK(holds(ran.out, "Odd, kept"));
  CHECK_FALSE(holds(ran.out, "Odd entry"));
  CHECK_FALSE(holds(ran.out, "SURVEY"));
  fs::remove(path);
}

namespace {

/// Of a screen: the questions, what was answered, and what was understood, without why it is asked, how
/// to find out and what may be answered.
std::string dialogue(const std::string& screen) {
  std::string kept;
  bool asides = false;
  std::istringstream lines(screen);
  for (std::string line; std::getline(lines, line);) {
    const std::string indent(13, ' ');
    const std::string label = line.substr(0, indent.size());
    if (label == "Why          " || label == "How          " || label == "One of       " ||
        label == "Answer       ") {
      asides = true;
    } else if (label != indent) {
      asides = false;
    }
    if (!asides) kept += line + "\n";
  }
  return kept;
}

}  // namespace

TEST_CASE("Six interviews end in a survey, a drawing and a first verdict",
          "[program][record][words][recorded]") {
  const struct {
    const char* name;
    const char* verdict;
    int code;    // of assess on the file
    bool whole;  // whether all of the screen is recorded, else the dialogue
  } interviews[] = {{"low-garden-deck", "DOES NOT CARRY", 1, true},
                    {"raised-deck-us", "DOES NOT CARRY", 1, true},
                    {"nothing-known", "CANNOT TELL", 2, false},
                    {"sleeper-walls", "", -1, false},
                    {"pads-under-joists-us", "", -1, false},
                    {"between-two-walls", "DOES NOT CARRY", 1, false}};
  for (const auto& each : interviews) {
    const std::string name = each.name;
    std::vector<std::string> lines = lines_of(name);
    std::ranges::replace(lines, "today", "2026-05-31");
    // Named without its folder, so that the screen is the same on every machine.
    const fs::path path = fresh(name);
    const fs::path file = path.parent_path() / (name + ".json");
    fs::remove(file);
    const Ran ran = underprop::test::shell("cd \"" + path.parent_path().string() + "\" && \"" +
                                           underprop::test::program + "\" record " + name +
                                           ".json 2>&1 <\"" + written(name, lines) + "\"");
    INFO(name << ": " << ran.out.substr(ran.out.size() > 3000 ? ran.out.size() - 3000 : 0));
    CHECK(ran.code == 0);
    CHECK(ran.out.rfind("This is arithmetic on what you recorded", 0) == 0);
    CHECK(holds(ran.out, "The deck from above, to scale"));
    CHECK(holds(ran.out, each.verdict));
    std::istringstream screen(ran.out);
    for (std::string line; std::getline(screen, line);) CHECK(line.size() <= 80);
    underprop::test::check_recorded("tests/program/" + name + ".screen",
                                    each.whole ? ran.out : dialogue(ran.out));
    const Ran assessed = run("assess --json \"" + file.string() + "\"");
    CHECK(assessed.code <= 3);
    if (each.code >= 0) CHECK(assessed.code == each.code);
    fs::remove(file);
  }
}

TEST_CASE("A recording killed in the middle goes on with nothing lost", "[program][record]") {
  const std::vector<std::string> lines = lines_of("raised-deck-us");
  const std::string whole = fresh("whole");
  REQUIRE(run("record \"" + whole + "\"", interview("raised-deck-us")).code == 0);

  const std::string path = fresh("killed");
  constexpr std::size_t cut = 35;
  const auto answers = nlohmann::json::parse(text_of(whole)).at("recording").at("answers");
  kill_after(path, {lines.begin(), lines.begin() + cut},
             answers.at(cut - 1).at("question").get<std::string>());
  const auto kept = nlohmann::json::parse(text_of(path));
  CHECK(kept.at("recording").at("finished") == false);
  // The other commands refuse it, and say what to do.
  const Ran refused = run("assess \"" + path + "\"");
  CHECK(refused.code == 65);
  CHECK(holds(refused.out, "underprop record"));

  const std::string rest = written(
      "rest",
      {lines.begin() + static_cast<std::ptrdiff_t>(kept.at("recording").at("answers").size()),
       lines.end()});
  CHECK(run("record \"" + path + "\"", rest).code == 0);
  CHECK(text_of(path) == text_of(whole));
  for (const std::string& file : {whole, path, rest}) fs::remove(file);
}

TEST_CASE("The end of input stops, and says how to go on", "[program][record]") {
  const std::string path = fresh("stopped");
  const Ran ran = run("record \"" + path + "\"", written("two", {"uk", "A deck", "stop"}));
  CHECK(ran.code == 75);
  std::string one_line = ran.out;  // the path may be too long for the line
  std::replace(one_line.begin(), one_line.end(), '\n', ' ');
  CHECK(holds(one_line, "Go on with: underprop record"));
  const Ran again = run("record \"" + path + "\"");
  CHECK(again.code == 75);
  CHECK(holds(again.out, "3. What day is it?"));
  fs::remove(path);
}

TEST_CASE("No file that is something else is written over", "[program][record]") {
  const std::string path = fresh("other");
  for (const char* text : {"", "[]", "{\"format\": \"underprop-survey/1\"}", "my notes"}) {
    std::ofstream(path, std::ios::binary) << text;
    CHECK(run("record \"" + path + "\"").code == 65);
    CHECK(text_of(path) == text);
  }
  fs::remove(path);
  CHECK(run("record \"" + fs::temp_directory_path().string() + "\"").code == 74);
  CHECK(run("record /no/such/folder/x.json", written("one", {"uk"})).code == 74);
}

}  // namespace record_test_file
