// Whether two programs, one built before a change and one after it, give the same answers: the exit code,
// what is said on standard error byte for byte, JSON with its numbers to a relative 1e-9, other text byte
// for byte. Prints what differs.
#include "support/json_difference.hpp"

#include <nlohmann/json.hpp>

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <future>
#include <memory>
#include <sstream>
#include <stdexcept>
#include <string>
#include <thread>
#include <utility>
#include <vector>

namespace {

using underprop::test::Tolerance;

constexpr const char* usage =
    R"(same_answers [OPTION]... OLD NEW SURVEY...

Runs the programs OLD and NEW on every SURVEY and prints what differs: the exit code, the messages on
standard error, and the answer. JSON is compared key by key, numbers to a relative 1e-9; keys that only NEW
has are fine.

  -c COMMAND    what to run, such as "place --json"; the survey is put behind it. May be given more
                than once. Without it: "assess --json"
  -r NUMBER     the relative tolerance of numbers (1e-9)
  -a NUMBER     the absolute one, for numbers that are nought but for rounding (1e-12)
  -j NUMBER     so many programs at a time (as many as there are cores)
  -m NUMBER     at most so many differences of one answer are printed (5)
  -t SECONDS    a program that runs longer is ended (600)

Exit codes: 0 the same, 1 something differs, 64 wrong usage.
)";

struct Options {
  std::vector<std::string> commands;
  std::vector<std::string> operands;  ///< the two programs, then the surveys
  Tolerance tolerance;
  unsigned jobs = std::max(1u, std::thread::hardware_concurrency());
  std::size_t most = 5;
  unsigned seconds = 600;
};

struct WrongUsage : std::runtime_error {
  using std::runtime_error::runtime_error;
};

double number(const std::string& option, const std::string& text) {
  std::size_t read = 0;
  double value = -1.0;
  try {
    value = std::stod(text, &read);
  } catch (const std::exception&) {
    read = 0;
  }
  if (read == 0 || read != text.size() || !(value >= 0.0 && value <= 1e6))
    throw WrongUsage(option + " wants a number from 0 to 1e6, not \"" + text + "\"");
  return value;
}

Options options_of(const std::vector<std::string>& words) {
  Options options;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string& word = words[i];
    if (!word.starts_with("-")) {
      options.operands.push_back(word);
      continue;
    }
    if (word.size() != 2 || std::string("crajmt").find(word[1]) == std::string::npos)
      throw WrongUsage("there is no option " + word);
    if (i + 1 == words.size()) throw WrongUsage(word + " wants something behind it");
    const std::string& value = words[++i];
    if (word == "-c") options.commands.push_back(value);
    if (word == "-r") options.tolerance.relative = number(word, value);
    if (word == "-a") options.tolerance.absolute = number(word, value);
    if (word == "-j") options.jobs = std::max(1u, static_cast<unsigned>(number(word, value)));
    if (word == "-m") options.most = static_cast<std::size_t>(number(word, value));
    if (word == "-t") options.seconds = static_cast<unsigned>(number(word, value));
  }
  if (options.commands.empty()) options.commands.push_back("assess --json");
  if (options.operands.size() < 3) throw WrongUsage("name two programs and at least one survey");
  for (std::size_t i = 0; i < options.operands.size(); ++i) {
    const std::string& path = options.operands[i];
    if (access(path.c_str(), i < 2 ? X_OK : R_OK) != 0)
      throw WrongUsage(path + (i < 2 ? ": no program that may be run" : ": cannot be read"));
  }
  return options;
}

struct Ran {
  std::string ended;  ///< "exit code 1", or by what signal
  std::string out, errors;
};

std::string text_of(std::FILE* file) {
  std::string text;
  std::rewind(file);
  char buffer[4096];
  while (const std::size_t n = std::fread(buffer, 1, sizeof buffer, file)) text.append(buffer, n);
  return text;
}

Ran run(const std::string& program, const std::string& command, const std::string& survey,
        unsigned seconds) {
  std::vector<std::string> words{program};
  std::istringstream in(command);
  for (std::string word; in >> word;) words.push_back(word);
  words.push_back(survey);
  std::vector<char*> arguments;
  for (std::string& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);

  using File = std::unique_ptr<std::FILE, int (*)(std::FILE*)>;
  const File out(std::tmpfile(), &std::fclose), errors(std::tmpfile(), &std::fclose);
  if (!out || !errors) throw std::runtime_error("no temporary file can be made");
  const pid_t child = fork();
  if (child < 0) throw std::runtime_error("no process can be started");
  if (child == 0) {
    dup2(fileno(out.get()), STDOUT_FILENO);
    dup2(fileno(errors.get()), STDERR_FILENO);
    const int nothing = open("/dev/null", O_RDONLY);
    dup2(nothing, STDIN_FILENO);
    alarm(seconds);  // stays set in the program that takes this process over
    execv(program.c_str(), arguments.data());
    _exit(127);
  }
  int status = 0;
  if (waitpid(child, &status, 0) != child) throw std::runtime_error("a process was lost");
  Ran ran;
  if (WIFEXITED(status)) ran.ended = "exit code " + std::to_string(WEXITSTATUS(status));
  if (WIFSIGNALED(status)) {
    ran.ended = WTERMSIG(status) == SIGALRM
                    ? "not done in " + std::to_string(seconds) + " s"
                    : "ended by the signal " + std::to_string(WTERMSIG(status));
  }
  ran.out = text_of(out.get());
  ran.errors = text_of(errors.get());
  return ran;
}

/// The first line in which two texts differ.
void add_text_difference(const std::string& what, const std::string& before, const std::string& now,
                         std::vector<std::string>& found) {
  if (before == now) return;
  std::istringstream a(before), b(now);
  std::string left, right;
  for (int line = 1;; ++line) {
    const bool more_left = static_cast<bool>(std::getline(a, left));
    const bool more_right = static_cast<bool>(std::getline(b, right));
    if (more_left && more_right && left == right) continue;
    const std::string end = "the end";
    found.push_back(what + ", line " + std::to_string(line) + ":\n      " +
                    (more_left ? left : end) + "\n   -> " + (more_right ? right : end));
    return;
  }
}

std::vector<std::string> differences(const Ran& before, const Ran& now, Tolerance tolerance) {
  std::vector<std::string> found;
  if (before.ended != now.ended) found.push_back(before.ended + " -> " + now.ended);
  add_text_difference("standard error", before.errors, now.errors, found);
  const auto old_json = nlohmann::json::parse(before.out, nullptr, false);
  const auto new_json = nlohmann::json::parse(now.out, nullptr, false);
  if (old_json.is_discarded() || new_json.is_discarded()) {
    add_text_difference("standard output", before.out, now.out, found);
  } else {
    const auto more = underprop::test::json_differences(old_json, new_json, tolerance);
    found.insert(found.end(), more.begin(), more.end());
  }
  return found;
}

int compare(const Options& options) {
  struct Question {
    std::string command, survey;
    std::vector<std::string> found;
  };
  std::vector<Question> questions;
  for (const std::string& command : options.commands) {
    for (std::size_t i = 2; i < options.operands.size(); ++i)
      questions.push_back({command, options.operands[i], {}});
  }
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t at = next++; at < questions.size(); at = next++) {
      Question& each = questions[at];
      const auto ask = [&](std::size_t which) {
        return run(options.operands[which], each.command, each.survey, options.seconds);
      };
      const Ran before = ask(0);
      each.found = differences(before, ask(1), options.tolerance);
    }
  };
  std::vector<std::future<void>> workers;
  for (unsigned i = 0; i < options.jobs; ++i)
    workers.push_back(std::async(std::launch::async, work));
  for (std::future<void>& worker : workers) worker.get();

  std::size_t differing = 0;
  for (const Question& each : questions) {
    if (each.found.empty()) continue;
    ++differing;
    std::printf("%s: %s\n", each.survey.c_str(), each.command.c_str());
    for (std::size_t i = 0; i < std::min(each.found.size(), options.most); ++i)
      std::printf("   %s\n", each.found[i].c_str());
    if (each.found.size() > options.most)
      std::printf("   and %zu more\n", each.found.size() - options.most);
  }
  std::printf("%zu answers, %zu differ\n", questions.size(), differing);
  return differing == 0 ? 0 : 1;
}

}  // namespace

int main(int count, char** words) {
  try {
    const std::vector<std::string> all(words + 1, words + count);
    if (all.size() == 1 && (all[0] == "-h" || all[0] == "--help")) {
      std::fputs(usage, stdout);
      return 0;
    }
    return compare(options_of(all));
  } catch (const WrongUsage& error) {
    std::fprintf(stderr, "same_answers: %s\n\n%s", error.what(), usage);
    return 64;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "same_answers: %s\n", error.what());
    return 70;
  }
}
