// What makes no sense in a survey although each field by itself does.
//
// The checks run on whatever could be read, so that all faults are told at once; a check is left out
// where a fault already reported would only echo in it.
#pragma once

#include "layout.hpp"
#include "record/said.hpp"

#include "base/json_reader.hpp"
#include "underprop/base/geometry.hpp"
#include "underprop/base/input_error.hpp"
#include "underprop/record/format.hpp"
#include "underprop/record/survey.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace underprop::deck {

/// A load without a name is called by what it is: "tub", "tub 2".
void name_loads(record::Survey& survey);

/// All checks below.
void check_survey(const record::Survey& survey, ErrorList& errors);

/// What of an unfinished record can be read: the faults beside it in place of an exception.
struct PartSurvey {
  record::Survey survey;
  std::vector<InputError> errors;
};
[[nodiscard]] PartSurvey read_part(const Json& json, const std::string& file);

/// Odd, not wrong. Facts that were not read are passed over.
[[nodiscard]] std::vector<record::Warning> odd_values(const record::Survey& survey);

// --- parts of check_survey ---------------------------------------------------------------------------

/// Was anything reported at the pointer or below it?
[[nodiscard]] bool reported(const ErrorList& errors, std::string_view pointer);
/// "/deck/joists/3/timber"
[[nodiscard]] std::string place_of(std::string_view list, std::size_t index,
                                   std::string_view rest = {});

/// Words that stand for all pieces of a sort, and so are no names: "joists", "all".
[[nodiscard]] const std::vector<std::string_view>& words_for_all();

void check_names(const record::Survey& survey, ErrorList& errors);
void check_contradictions(const record::Survey& survey, ErrorList& errors);
void check_outlines(const record::Survey& survey, ErrorList& errors);
void check_loads(const record::Survey& survey, ErrorList& errors);
/// These need a layout: an outline, and pieces with direction and place.
void check_references(const record::Survey& survey, const Layout& layout, ErrorList& errors);
void check_places(const record::Survey& survey, const Layout& layout, ErrorList& errors);
void check_carried(const record::Survey& survey, const Layout& layout, ErrorList& errors);
void check_footings(const record::Survey& survey, const Layout& layout, ErrorList& errors);

/// The part of polygon `a` inside polygon `b`, as an area; both simple, either way round.
[[nodiscard]] Area shared_area(const Polygon& a, const Polygon& b);
/// The load in plan with the smallest sizes recorded; empty if its shape was not read.
[[nodiscard]] Polygon smallest_footprint(const record::HeavyLoad& load);

}  // namespace underprop::deck
