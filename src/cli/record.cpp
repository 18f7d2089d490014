#include "record.hpp"

#include "files.hpp"
#include "underprop/assessment/assessment.hpp"
#include "underprop/interview/interview.hpp"
#include "underprop/report/record_text.hpp"
#include "underprop/report/report.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <ctime>
#include <filesystem>
#include <iostream>
#include <string>
#include <system_error>

namespace underprop::cli {
namespace {

namespace fs = std::filesystem;

constexpr int exit_to_go_on = 75;

/// An open file that is closed whatever happens.
class Descriptor {
public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  [[nodiscard]] int get() const { return number_; }

private:
  int number_;
};

[[noreturn]] void fail(const std::string& path) {
  throw FileError(path + ": cannot be written: " + std::strerror(errno) +
                  "; the answers before this one are kept");
}

/// Beside its place, on the disk before it is moved there, and the move on the disk as well: a crash
/// or a power cut leaves the file before or the file after, nothing between.
void keep(const std::string& path, const std::string& text) {
  const fs::path target(path);
  const std::string part = path + ".part";
  {
    const Descriptor file(::open(part.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0644));
    if (file.get() < 0) fail(path);
    std::size_t done = 0;
    while (done < text.size()) {
      const ssize_t n = ::write(file.get(), text.data() + done, text.size() - done);
      if (n < 0 && errno == EINTR) continue;
      if (n < 0) fail(path);
      done += static_cast<std::size_t>(n);
    }
    if (::fsync(file.get()) != 0) fail(path);
  }
  if (::rename(part.c_str(), path.c_str()) != 0) fail(path);
  const std::string folder = target.has_parent_path() ? target.parent_path().string() : ".";
  const Descriptor directory(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (directory.get() >= 0) (void)::fsync(directory.get());  // not every file system can
}

std::string today() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  if (localtime_r(&now, &local) == nullptr) return "";
  char text[16] = "";
  return std::strftime(text, sizeof text, "%Y-%m-%d", &local) > 0 ? std::string(text) : "";
}

interview::Interview opened(const std::string& path) {
  std::error_code error;
  if (!fs::exists(path, error)) return {};
  return interview::Interview::resume(read_file(path), path);
}

/// The drawing and the first verdict.
void show_result(const interview::Interview& interview, const std::string& path) {
  report::Report report;
  // As it is kept: with what was said, so that doubts already settled are known.
  deck::ReadResult read = deck::read_survey(interview.file_text(), path);
  report.survey = std::move(read.survey);
  report.file = path;
  report.warnings = std::move(read.warnings);
  std::cout << "\n" << report::plan_text(report.survey) << "\n";
  const auto standard = assessment::standard_for(report.survey.standard);
  try {
    report.assessment = assessment::assess(report.survey, *standard);
  } catch (const standards::NoSuchTimber& fault) {
    std::cout << report::reply_text(std::string("No verdict: ") + fault.what() +
                                    ". Go back to that timber and name one that is.");
    return;
  }
  std::cout << report::assessment_text(report) << "\n"
            << report::reply_text(
                   "The survey is kept in " + path +
                   ". It can be edited as well; underprop catalog survey describes each key.");
}

}  // namespace

int record(const std::string& path) {
  std::error_code error;
  if (fs::is_directory(path, error)) {
    throw FileError(path + ": this is a folder; name a file in it, such as survey.json");
  }
  interview::Interview interview = opened(path);
  interview.set_today(today());
  std::cout << report::reply_text(report::notice()) << "\n"
            << report::reply_text(interview::Interview::words_help()) << "\n";
  std::string chapter, last;
  bool shown = false;
  while (true) {
    const auto question = interview.question();
    if (question) {
      const auto whole =
          question->chapter != chapter ? report::Shown::with_chapter : report::Shown::whole;
      std::cout << report::question_text(*question,
                                         question->id == last ? report::Shown::again : whole);
      chapter = question->chapter;
      last = question->id;
      shown = false;
    } else if (!shown) {
      show_result(interview, path);
      std::cout << "\n"
                << report::reply_text(
                       "Everything is answered. back (or back 12) changes an answer, open asks "
                       "again what is not known, list shows all answers, stop ends.");
      chapter.clear();
      last.clear();
      shown = true;
    }
    std::cout << "> " << std::flush;
    std::string line;
    if (!std::getline(std::cin, line)) {
      std::cout << "\n";
      break;
    }
    if (::isatty(STDIN_FILENO) == 0) std::cout << line << "\n";  // a terminal shows it itself
    const interview::Reply reply = interview.say(line);
    if (reply.changed) keep(path, interview.file_text());
    if (!reply.text.empty()) std::cout << report::reply_text(reply.text);
    if (reply.stop) break;
    std::cout << "\n";
  }
  if (interview.finished()) return 0;
  std::cout << report::reply_text("Kept in " + path + ". Go on with: underprop record " + path);
  return exit_to_go_on;
}

}  // namespace underprop::cli
