// The survey format: its keys, and writing a survey file. Reading one: deck/read.hpp.
//
// The format is "underprop-survey/1"; its keys are the member names of survey.hpp, described one by
// one in data/schema/survey.json. Beside them a file may use two short cuts, which the reader spells
// out: "first", "spacing" and "count" for "positions"; "size" (nominal, North America) for breadth
// and depth.
#pragma once

#include "underprop/record/survey.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace underprop::record {

/// Something odd that is not an error: a value in the wrong unit, water that does not fit the tub.
struct Warning {
  std::string pointer;
  std::string text;
};

/// The survey as JSON text that read_survey reads back to the same Survey.
std::string write_survey(const Survey& survey);

/// One key of the format.
struct SurveyKey {
  std::string object;  ///< where: "/deck/joists/[]"; "" is the whole file
  std::string key;
  bool required = false;           ///< whatever else stands in the object
  std::vector<std::string> words;  ///< the words allowed, where it is one of a fixed list
};
/// Every key that read_survey knows, object by object.
std::vector<SurveyKey> survey_keys();

/// The format for people: every key once, object by object, with what it means and the words allowed.
/// Throws std::logic_error if the schema among the data lacks a key: a fault of the build.
std::string survey_field_list();

}  // namespace underprop::record
