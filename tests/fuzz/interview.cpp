// Lines said to the interview.
#include "fuzz/targets.hpp"

#include "underprop/interview/interview.hpp"

#include <map>
#include <vector>

namespace underprop::fuzz {
namespace {

constexpr std::size_t most_lines = 400;
constexpr std::size_t longest_reply = 100'000;

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty() && lines.size() < most_lines) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    lines.emplace_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

std::string text_of(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

interview::Interview fresh() {
  interview::Interview interview;
  interview.set_today("2026-05-31");
  return interview;
}

/// Interviews after lines that were said before: most inputs begin like another one. Only a memory:
/// what comes out is the same without it.
class Said {
public:
  /// The longest beginning of the lines that is known; how many lines it has.
  std::size_t after(const std::vector<std::string>& lines, std::size_t most,
                    interview::Interview& interview) {
    std::vector<std::string> keys;
    std::string key;
    for (std::size_t i = 0; i < most; ++i) keys.push_back(key += lines[i] + "\n");
    for (std::size_t n = most; n > 0; --n) {
      const auto found = known_.find(keys[n - 1]);
      if (found == known_.end()) continue;
      interview = found->second;
      return n;
    }
    return 0;
  }
  void keep(const std::vector<std::string>& lines, std::size_t n,
            const interview::Interview& interview) {
    if (known_.size() >= most_known_) known_.clear();
    std::string key;
    for (std::size_t i = 0; i < n; ++i) key += lines[i] + "\n";
    known_.insert_or_assign(std::move(key), interview);
  }

private:
  static constexpr std::size_t most_known_ = 4000;
  std::map<std::string, interview::Interview> known_;
};

Said& memory() {
  static Said said;
  return said;
}

/// Says them all; false if the user stopped before the end.
bool say_all(const std::vector<std::string>& lines, std::size_t count,
             interview::Interview& interview) {
  std::size_t done = memory().after(lines, count, interview);
  for (; done < count; ++done) {
    const interview::Reply reply = interview.say(lines[done]);
    if (reply.stop) return false;
    promise(reply.changed || !reply.text.empty(), "every line gets a reply");
    promise(reply.text.size() < longest_reply, "a reply can be read");
    memory().keep(lines, done + 1, interview);
  }
  return true;
}

}  // namespace

void interview(std::string_view text) {
  const std::vector<std::string> lines = lines_of(text);
  interview::Interview told = fresh();
  (void)say_all(lines, lines.size(), told);
  const std::string file = told.file_text();
  const interview::Interview again = interview::Interview::resume(file, "fuzz.json");
  promise(again.file_text() == file, "what is kept goes on as it stopped");
  const auto now = told.question(), then = again.question();
  promise(now.has_value() == then.has_value(), "what is kept goes on as it stopped");
  if (now) {
    promise(now->id == then->id, "what is kept goes on at the same question");
    promise(!told.finished(), "who is asked is not done");
    promise(!now->ask.empty() && now->ask.find('{') == std::string::npos, "a question has words");
    return;
  }
  promise(told.finished(), "who is asked nothing is done");
  const record::Survey done = told.survey().survey;
  const std::string written = record::write_survey(done);
  promise(record::write_survey(deck::read_survey(written, "fuzz.json").survey) == written,
          "an interview ends in a survey that reads back the same");
  survey(file);
}

std::string changed_interview(std::string_view text, std::uint64_t seed) {
  static const std::vector<std::string> said{"",
                                             "skip",
                                             "back",
                                             "back 3",
                                             "back 40",
                                             "same",
                                             "keep",
                                             "yes",
                                             "no",
                                             "why",
                                             "list",
                                             "open",
                                             "help",
                                             "unknown",
                                             "don't know",
                                             "none",
                                             "all",
                                             "0",
                                             "1",
                                             "2",
                                             "3",
                                             "7",
                                             "40",
                                             "-1",
                                             "x",
                                             "y",
                                             "look",
                                             "even",
                                             "middle",
                                             "level",
                                             "today",
                                             "2026-02-30",
                                             "600",
                                             "about 600",
                                             "600 mm",
                                             "0 mm",
                                             "-1 mm",
                                             "2.4 mm",
                                             "2.4 m",
                                             "3 m",
                                             "1e9 m",
                                             "6 in",
                                             "8 ft",
                                             "7' 10 1/2\"",
                                             "200-250 mm",
                                             "about 2 m",
                                             "about 350 kg",
                                             "350 kg",
                                             "0 kg",
                                             "9 t",
                                             "1200 l",
                                             "300 us gal",
                                             "2,400 mm",
                                             "47x195",
                                             "8x2",
                                             "2x8",
                                             "4x4",
                                             "47 x 145 mm",
                                             "C24",
                                             "Hem-Fir No.2",
                                             "1 in 10",
                                             "1/3",
                                             "40 mm of 145 mm",
                                             "0, 0; 4 m, 0; 4 m, 3 m; 0, 3 m",
                                             "2 m, 1.5 m",
                                             "-1 m, 0 to 5 m, 0",
                                             "J3 at 1.2 m",
                                             "J3 start",
                                             "J1, J2",
                                             "20, 420, 820 mm",
                                             "45",
                                             "5 kN",
                                             "1 kPa",
                                             "30 psf",
                                             "corners",
                                             "cut corner",
                                             "circle",
                                             "feet",
                                             "runners",
                                             "beside",
                                             "gap",
                                             "screw pile"};
  Random random(seed);
  std::vector<std::string> lines = lines_of(text);
  const std::size_t at = random.below(lines.size() + 1);
  std::string other = said[random.below(said.size())];
  if (random.below(2) == 0) {  // a word that fits
    interview::Interview interview = fresh();
    if (say_all(lines, at, interview)) {
      const auto now = interview.question();
      if (now && !now->choices.empty()) other = now->choices[random.below(now->choices.size())];
    }
  } else if (!lines.empty() && random.below(4) == 0) {  // what was said elsewhere
    other = lines[random.below(lines.size())];
  }
  switch (random.below(4)) {
    case 0:
      if (at < lines.size()) lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(at));
      break;
    case 1:
      lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(at), other);
      break;
    default:
      if (at < lines.size()) {
        lines[at] = other;
      } else {
        lines.push_back(other);
      }
  }
  // Another answer may send all later ones to other questions: long tails cost much and say little.
  constexpr std::size_t tail = 6;
  if (random.below(8) != 0 && lines.size() > at + tail) lines.resize(at + 1 + random.below(tail));
  return text_of(lines);
}

}  // namespace underprop::fuzz
