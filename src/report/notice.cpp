#include "words.hpp"

#include <fmt/format.h>

namespace underprop::report {

std::string notice() {
  return "This is arithmetic on what you recorded, not an inspection, a design or an approval, and "
         "not a substitute for a structural engineer. A hidden defect or one wrong entry can make "
         "it wrong. Before you fill a tub on a timber deck have a structural engineer look at it; "
         "where your local rules ask for one, you must. Do not use this to overrule anyone who has "
         "seen the deck. Valid for the recorded date and condition; look again every year, after "
         "any settlement and after storms.";
}

std::string validity(const record::Survey& survey) {
  const std::string date =
      survey.recorded_on.empty() ? "no date is recorded" : "recorded on " + survey.recorded_on;
  std::string outside;
  for (const std::string& item : not_checked()) {
    outside += outside.empty() ? item : ", " + item;
  }
  return fmt::format(
      "Valid for the recorded date and condition ({}); look again every year, after any settlement "
      "and after storms. Not checked: {}.",
      date, outside);
}

}  // namespace underprop::report
