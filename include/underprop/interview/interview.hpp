// The interview: questions in the order in which things are met on site, answers in plain words.
//
// The interview holds nothing but the answers, each as it was said. From them it makes the survey,
// and the question that comes next. It reads no terminal and writes no file: give each line to say(),
// show what comes back, and keep file_text() after every line. Same answers, same survey.
#pragma once

#include "underprop/deck/read.hpp"

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace underprop::interview {

/// One question, in words. Lengths are in the unit system of the deck's standard.
struct Question {
  std::string id;       ///< "joists/J/size"
  std::string chapter;  ///< "Joists"
  std::string ask, why, how;
  std::vector<std::string> choices;  ///< words; their number, from 1, does as well
  std::vector<std::string>
      meanings;           ///< of each choice, in a few words; "" for one that needs none
  std::string form;       ///< what may be answered, and what no answer means
  bool must_see = false;  ///< "carries" requires it where the load reaches
  std::string earlier;    ///< what was said before it was gone back over
  int answered = 0;       ///< how many have been answered
};

struct Reply {
  std::string text;      ///< for the user; may be empty, may hold several lines
  bool stop = false;     ///< the user wants to stop
  bool changed = false;  ///< file_text() is another one now
};

class Interview {
public:
  /// An empty one.
  Interview() = default;
  /// Goes on with what file_text() gave, or reopens a finished survey that was recorded so. Throws
  /// InputErrors if the text is neither, or if a finished survey was edited since.
  static Interview resume(std::string_view text, const std::string& file);

  /// "today" as an answer means this day, "2026-05-31". Without it the day must be written.
  void set_today(std::string day) { today_ = std::move(day); }

  /// Nothing is left to ask, and the survey holds water.
  [[nodiscard]] bool finished() const;
  /// What is asked now; none if finished.
  [[nodiscard]] std::optional<Question> question() const;
  /// An answer, or one of the words back, skip, why, list, stop, help, same, keep, open.
  Reply say(std::string_view line);

  /// What is to be kept: a survey file once finished, before that one that only the interview reads.
  [[nodiscard]] std::string file_text() const;
  /// Only if finished; else throws std::logic_error.
  [[nodiscard]] deck::ReadResult survey() const;
  /// The words that are always understood, for the top of the screen.
  static std::string words_help();

private:
  struct Passed;  ///< the walk through the answers as they stand, and what it showed
  /// Kept from one line to the next: nothing but a memory.
  [[nodiscard]] std::shared_ptr<const Passed> passed() const;
  struct Doubt {
    std::string said, meant;
    bool leave_open = false;
    std::string heard = {};  ///< what was not understood
  };
  Reply command(const std::string& word, bool& handled);
  Reply answer(const std::string& said, bool settled);
  Reply back(std::size_t number);
  Reply list() const;
  Reply explain() const;
  std::string hold_water();
  void store(const std::string& question, const std::string& said);

  std::vector<record::Answer> answers_;
  std::string today_;
  std::optional<Doubt> doubt_;
  mutable std::shared_ptr<const Passed> passed_;
};

/// Of odd values, those that were questioned while the deck was recorded and that stand as they were kept then.
[[nodiscard]] std::vector<record::Warning> kept_while_recording(
    const record::Survey& survey, const std::vector<record::Warning>& odd);

}  // namespace underprop::interview
