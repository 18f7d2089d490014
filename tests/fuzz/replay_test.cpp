// The fuzzers' corpus, every input that once broke something, and some changed surveys.
#include "fuzz/targets.hpp"
#include "record/read_support.hpp"

#include "support/catch.hpp"

namespace underprop {
namespace replay_test_file {
namespace {

namespace fs = std::filesystem;

std::vector<fs::path> files_in(const char* folder) {
  std::vector<fs::path> paths;
  if (!fs::exists(fs::path(test::tests_dir) / folder)) return paths;  // nothing has broken it yet
  for (const auto& entry : fs::directory_iterator(fs::path(test::tests_dir) / folder)) {
    paths.push_back(entry.path());
  }
  std::ranges::sort(paths);
  return paths;
}

// The promises abort where they are broken: that the case ends is what is claimed.
TEST_CASE("Surveys of the corpus and what once broke the reader keep every promise",
          "[fuzz][law]") {
  std::size_t replayed = 0;
  for (const char* folder : {"fuzz/corpus", "fuzz/regressions", "bad_input"}) {
    for (const fs::path& path : files_in(folder)) {
      if (path.extension() != ".json") continue;
      fuzz::judged(record::test::file_text(path));
      ++replayed;
    }
  }
  CHECK(replayed > 60);
}

TEST_CASE("What the fuzzer found of surveys keeps every promise of the reader", "[fuzz][law]") {
  std::size_t replayed = 0;
  for (const fs::path& path : files_in("fuzz/found")) {
    fuzz::survey(record::test::file_text(path));
    ++replayed;
  }
  CHECK(replayed > 50);
}

TEST_CASE("A survey with a few values changed is refused or judged, never a fault", "[fuzz][law]") {
  std::size_t read = 0, refused = 0;
  for (const fs::path& path : files_in("fuzz/corpus")) {
    if (path.extension() != ".json") continue;
    const std::string text = record::test::file_text(path);
    for (std::uint64_t seed = 0; seed < 30; ++seed) {
      const std::string changed = fuzz::changed_survey(text, seed);
      CHECK(fuzz::changed_survey(text, seed) == changed);
      fuzz::judged(changed);
      (record::test::faults(changed).empty() ? read : refused) += 1;
    }
  }
  // The changes reach both sides of the reader's judgement.
  CHECK(read > 5);
  CHECK(refused > 5);
}

TEST_CASE("Interviews of the corpus, some changed, and what once broke them keep every promise",
          "[fuzz][law]") {
  std::size_t replayed = 0;
  for (const char* folder : {"interviews", "fuzz/regressions"}) {
    for (const fs::path& path : files_in(folder)) {
      const bool said = folder == std::string("interviews") || path.extension() == ".said";
      if (!said) continue;
      const std::string text = record::test::file_text(path);
      fuzz::interview(text);
      for (std::uint64_t seed = 0; seed < 20; ++seed) {
        const std::string changed = fuzz::changed_interview(text, seed);
        CHECK(fuzz::changed_interview(text, seed) == changed);
        fuzz::interview(changed);
      }
      ++replayed;
    }
  }
  CHECK(replayed > 5);
}

TEST_CASE("What the fuzzer found of the interview keeps every promise", "[fuzz][law]") {
  std::size_t replayed = 0;
  for (const fs::path& path : files_in("fuzz/found_said")) {
    fuzz::interview(record::test::file_text(path));
    ++replayed;
  }
  CHECK(replayed > 50);
}

TEST_CASE("Quantities of the corpus and what once broke the parser keep every promise",
          "[fuzz][law]") {
  std::size_t replayed = 0;
  for (const char* folder : {"fuzz/corpus", "fuzz/regressions"}) {
    for (const fs::path& path : files_in(folder)) {
      if (path.extension() != ".txt") continue;
      std::istringstream lines(record::test::file_text(path));
      for (std::string line; std::getline(lines, line); ++replayed) fuzz::quantity(line);
    }
  }
  CHECK(replayed > 40);
}

}  // namespace

}  // namespace replay_test_file
}  // namespace underprop
