// The parts of the interview: questions and how their answers are read, and the walk through them.
//
// The interview is a function of its answers: the script (interview_*.cpp) runs from the top, gets
// what has been answered, writes the survey as JSON, and stops at the first question without an
// answer. Going back, stopping and resuming need nothing else.
#pragma once

#include "underprop/base/format.hpp"
#include "underprop/interview/interview.hpp"
#include "underprop/record/format.hpp"

#include <nlohmann/json.hpp>

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace underprop::interview {

using OrderedJson = nlohmann::ordered_json;

enum class Form {
  word,  ///< one of Ask::words
  yes_or_no,
  length,       ///< one value; "about" and ranges become their middle or an end
  length_fact,  ///< a value or a range
  count,
  count_fact,
  mass_fact,
  volume_fact,
  pressure,
  force,
  force_fact,
  degrees,
  slope,
  text,
  label,  ///< words to find something again by
  date,
  timber,     ///< a name of the tables, or "look"
  section,    ///< breadth and depth
  corners,    ///< x, y; x, y; ...
  line,       ///< x, y to x, y
  point,      ///< x, y, or "middle"
  places,     ///< lengths with commas between
  spacing,    ///< a length, "even", or a list of places
  shifted,    ///< "J3 at 1260 mm"
  joist_end,  ///< "J3 start"
  names,      ///< names with commas between, or "all", "none"
  share,      ///< "40 mm of 145 mm", "1/3"
  grain       ///< "1 in 10", "straight"
};

/// What no answer means.
enum class Empty {
  unknown,  ///< nobody knows: the fact is left out
  none,     ///< there is none, or it is as usual
  refused,  ///< it must be answered
  range     ///< anything from the cautious to the favourable value of the table
};

struct Ask {
  std::string id;   ///< "joists/J/size"
  std::string key;  ///< in data/interview.json: "joists/size"
  /// None: as the field is declared; text, where there is no field.
  std::optional<Form> form = {};
  Empty empty = Empty::unknown;
  std::vector<std::string> words = {};
  std::map<std::string, std::string> fill = {};  ///< what stands for {name} and the like
  std::string how = {};                          ///< in place of the data's: "fact:..."
  std::string table = {};  ///< Empty::range: the kind of fact, or two for a section
  /// Empty::none: none must be said; who does not know has to look, as none may be the better case.
  bool must_look = false;
  bool high_counts = false;      ///< Form::length: of a range the high end counts
  std::optional<int> most = {};  ///< counts; none: as the field is declared, or 100
};

/// What was understood.
struct Meaning {
  bool understood = false;
  bool empty = false;           ///< unknown or none
  std::string text;             ///< as the survey holds it: a word, a quantity, a name
  std::string shown;            ///< for the echo
  Fact<Length> length, second;  ///< a length; the breadth and depth of a section
  double number = 0.0;
  int count = 0;
  std::vector<Length> lengths;
  std::vector<Point> points;
  std::vector<std::string> names;
  std::string problem, remedy;  ///< why not
  std::string meant;            ///< an answer that would make sense
};

/// Form, words and greatest count of a question for a declared field, where it does not say them itself.
void follow_declaration(Ask& ask, const record::Field& field);

/// Reads an answer.
[[nodiscard]] Meaning take(const Ask& ask, const std::string& said, record::StandardId standard);
/// "don't know" and what people say for it, beside the words for "unknown" of a survey file. Small
/// letters.
[[nodiscard]] bool is_not_known(const std::string& word);
/// Outside what is usual: why it is questioned and what would be usual; "" if it is usual.
struct Unusual {
  std::string why, meant;
};
[[nodiscard]] Unusual unusual(const Ask& ask, const std::string& said, record::StandardId standard);

// --- wording (interview_words.cpp) ------------------------------------------------------------------

/// Texts of data/interview.json with the places filled in; throws std::logic_error for a key that is
/// not there.
[[nodiscard]] Question worded(const Ask& ask, record::StandardId standard);
/// What is asked for, in a few words, for the echo: "nails at the house (y = 0)".
[[nodiscard]] std::string named(const Ask& ask);
[[nodiscard]] bool must_be_seen(const Ask& ask);
/// The usual range of a question, as text; empty if there is none.
/// The word that people mean by another one ("also" of the question), in small letters; "" if there is none.
[[nodiscard]] std::string also_means(const std::string& key, const std::string& said);
[[nodiscard]] std::vector<std::string> usual_range(const std::string& key);
/// A number of data/interview.json, "rules".
[[nodiscard]] double interview_rule(std::string_view rule);
/// What is assumed as long as a fact is open, for `why`; "" if the question is no such fact.
[[nodiscard]] std::string assumed(const Ask& ask, record::StandardId standard);
[[nodiscard]] UnitSystem units_of(record::StandardId standard);

// --- visual grading (interview_grade.cpp) -------------------------------------------------------------

struct Graded {
  std::string grade;   ///< "within GS"; "" if the piece is below all
  std::string timber;  ///< "" if it stays unknown
  std::string below;   ///< why it is below all
};
[[nodiscard]] Graded graded(record::StandardId standard, double knot_share, double grain,
                            const std::string& look);
[[nodiscard]] std::vector<std::string> looks(record::StandardId standard);
[[nodiscard]] std::string below_all(record::StandardId standard);
[[nodiscard]] std::string grading_text(record::StandardId standard, std::string_view what);

// --- the walk ---------------------------------------------------------------------------------------

class Walk {
public:
  explicit Walk(const std::vector<record::Answer>& answers);

  /// What was answered; empty and not understood once a question without an answer was reached.
  Meaning ask(Ask ask);
  /// True as long as every question so far has an answer.
  [[nodiscard]] bool going() const { return !pending_.has_value(); }

  void put(const std::string& pointer, OrderedJson value);
  /// Removes the last entry of a list again, and the list if it becomes empty.
  void take_back(const std::string& pointer);
  /// Asks for the field at the pointer, in the form that follows from its declaration unless the question
  /// has another, and puts the answer there.
  Meaning ask_into(const std::string& pointer, Ask ask);
  /// A section: breadth and depth under their keys.
  Meaning ask_section_into(const std::string& object, const char* breadth, const char* depth,
                           Ask ask);

  [[nodiscard]] record::StandardId standard() const { return standard_; }
  void set_standard(record::StandardId standard) { standard_ = standard; }
  [[nodiscard]] std::string show(Length length) const {
    return format_length(length, units_of(standard_));
  }

  struct Asked {
    Ask ask;
    std::string said;
    bool empty = false;
  };
  [[nodiscard]] const std::vector<Asked>& asked() const { return asked_; }
  [[nodiscard]] const std::optional<Ask>& pending() const { return pending_; }
  [[nodiscard]] const OrderedJson& survey() const { return survey_; }
  /// The question that wrote what stands at the pointer, or the first that wrote below or above it.
  [[nodiscard]] std::string owner(const std::string& pointer) const;
  [[nodiscard]] const std::map<std::string, std::string>& owners() const { return owners_; }

  // What later chapters need of earlier ones.
  std::map<std::string, std::string> fill;  ///< words for sides and the like
  Length size_x, size_y;                    ///< of the outline
  bool attached = false;
  std::vector<std::string> joist_names, bearer_names, wall_names, support_names, ledger_names;
  bool house_ledger = false;                        ///< a ledger at y = 0
  std::string axis_along = "y", axis_across = "x";  ///< of the first kind of joists
  bool posts = false;
  int conditions = 0;

private:
  std::map<std::string, record::Answer> answers_;  ///< by question
  record::StandardId standard_ = record::StandardId::eurocode_uk;
  OrderedJson survey_ = OrderedJson::object();
  std::map<std::string, std::string> owners_;
  std::vector<Asked> asked_;
  std::optional<Ask> pending_;
  std::string current_;
};

/// The whole script over these answers.
[[nodiscard]] Walk walk_through(const std::vector<record::Answer>& answers);

void ask_place(Walk& walk);
void ask_boards(Walk& walk);
void ask_joists(Walk& walk);
void ask_carriers(Walk& walk);
void ask_fixings(Walk& walk);
void ask_supports(Walk& walk);
void ask_ground(Walk& walk);
void ask_condition(Walk& walk);
void ask_loads(Walk& walk);
void ask_allowed(Walk& walk);

/// Places of a row, put into `list`: how many, the first, the spacing, and those that stand elsewhere,
/// by name and number. `size`: extent of the deck that way; `key`: "joists/" or "supports/".
[[nodiscard]] std::vector<Length> ask_row(Walk& walk, const std::string& id, const std::string& key,
                                          const std::string& name, const std::string& list,
                                          int most, Length size,
                                          const std::map<std::string, std::string>& fill);

/// Whether a piece runs from edge to edge; if not, where it starts and ends, under "from" and "to".
void ask_extent(Walk& walk, const std::string& object, const std::string& id,
                const std::map<std::string, std::string>& fill);

/// Rectangles by two opposite corners, each with a name: how many, then one after the other.
/// `key`: "obstacles/".
void ask_zones(Walk& walk, const std::string& list, const std::string& id, const std::string& key);

/// Strength class, incising; "look" leads to knots, grain and species. `kind`: "joists".
void ask_timber(Walk& walk, const std::string& object, const std::string& kind,
                const std::string& name, bool many, bool look_may_help);

}  // namespace underprop::interview
