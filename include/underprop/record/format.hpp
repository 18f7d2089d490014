// The survey format: its fields, and writing a survey file. Reading one: deck/read.hpp.
//
// The format is "underprop-survey/1"; its keys are the member names of survey.hpp. Each is declared once,
// in src/record/fields.hpp, with what it means and what it may be; data/schema/survey.json is written
// from there. Beside them a file may use two short cuts, which the reader spells out: "first", "spacing"
// and "count" for "positions"; "size" (nominal, North America) for breadth and depth.
#pragma once

#include "underprop/record/survey.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace underprop::record {

/// Something odd that is not an error: a value in the wrong unit, water that does not fit the tub.
struct Warning {
  std::string pointer;
  std::string text;
};

/// The format that survey files name.
inline constexpr std::string_view survey_format = "underprop-survey/1";

/// The survey as JSON text that read_survey reads back to the same Survey.
std::string write_survey(const Survey& survey);

/// What stands behind a key.
enum class ValueKind {
  format,  ///< the name of the format, always the same
  text,
  name,  ///< of a piece or a group
  notes,
  date,
  timber,
  word,  ///< one of Field::words
  flag,  ///< true or false
  whole,
  number,
  length,
  mass,
  volume,
  force,
  pressure,
  slope,
  point,
  nominal_size,
  object
};

/// One field of the format, as it was declared.
struct Field {
  std::string object;  ///< where: "/deck/joists/[]"; "" is the whole file
  std::string type;    ///< of that object: "joists"
  std::string key;
  bool required = false;  ///< whatever else stands in the object
  ValueKind kind = ValueKind::text;
  bool may_be_unknown = false;  ///< a fact: may be left out or "unknown"
  bool may_be_range = false;
  bool several = false;             ///< a list of such values
  bool may_be_none = false;         ///< a list that may be "none", or not seen
  bool may_be_all = false;          ///< an object that may be "all" or "none"
  std::size_t least = 0, most = 0;  ///< entries of a list
  double low = 0.0, high = 0.0;     ///< of a whole or other plain number
  std::vector<std::string> words;   ///< the words allowed, where it is one of a fixed list
  std::string of;                   ///< ValueKind::object: the type of its fields
  std::string if_absent;            ///< of a flag, a word or a number that may be left out: as JSON
  std::string meaning;              ///< what it means and how to find it out
};
/// Every field that read_survey knows, object by object.
const std::vector<Field>& survey_fields();
/// "joists", "depth": the field of that key in objects of that type; nullptr if there is none.
const Field* survey_field(std::string_view type, std::string_view key);
/// The field at a place of a file, "/deck/joists/0/depth"; nullptr if the format has none there.
const Field* survey_field_at(std::string_view pointer);

/// The JSON Schema (2020-12) of the format, as data/schema/survey.json holds it.
std::string survey_schema();

/// The format for people: every key once, object by object, with what it means and the words allowed.
std::string survey_field_list();

}  // namespace underprop::record
