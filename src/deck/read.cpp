// The way of a survey file: text, JSON, fields, then everything that needs more than one field.
#include "underprop/deck/read.hpp"

#include "read_checks.hpp"
#include "record/read_fields.hpp"
#include "record/words.hpp"

#include "underprop/base/geometry.hpp"

namespace underprop::deck {
namespace {

// A file of another version may differ in any way, so nothing else of it is judged.
void refuse_other_format(const Json& json, const std::string& file) {
  if (!json.is_object() || !json.contains("format")) return;
  const Json& format = json.at("format");
  if (format == record::survey_format) return;
  throw InputErrors(file, {{"/format", "the format " + describe(format),
                            "\"" + std::string(record::survey_format) + "\"",
                            "write it so, or use a program that reads the other format"}});
}

// An unfinished recording holds answers, not a survey: one message, not one for each missing key.
void refuse_unfinished(const Json& json, const std::string& file) {
  if (!json.is_object() || !json.contains("recording")) return;
  const Json& recording = json.at("recording");
  if (!recording.is_object() || !recording.contains("finished")) return;
  if (recording.at("finished") != false) return;
  throw InputErrors(file, {{"/recording", "a recording that is not finished", "a finished survey",
                            "go on with: underprop record " + file}});
}

std::optional<record::StandardId> standard_of(const Json& json) {
  if (!json.is_object() || !json.contains("standard")) return std::nullopt;
  const Json& word = json.at("standard");
  for (const auto& [text, standard] : record::Words<record::StandardId>::table) {
    if (word == text) return standard;
  }
  return std::nullopt;
}

void turn_counter_clockwise(record::Survey& survey) {
  const auto turn = [](std::vector<Point>& outline) {
    outline = counter_clockwise(std::move(outline));
  };
  turn(survey.deck.outline);
  for (record::Zone& zone : survey.deck.obstacles) turn(zone.outline);
  for (record::Zone& zone : survey.deck.closed_zones) turn(zone.outline);
  for (record::HeavyLoad& load : survey.loads) turn(load.outline);
}

}  // namespace

namespace {

void read_into(record::Survey& survey, const Json& json, ErrorList& errors) {
  const record::ReadContext context{errors, standard_of(json)};
  if (context.standard == record::StandardId::north_america_us)
    errors.set_units(UnitSystem::us_customary);
  ObjectReader object(json, "", errors);
  record::read_survey_fields(object, context, survey);
  object.finish();
  name_loads(survey);
  check_survey(survey, errors);
}

}  // namespace

PartSurvey read_part(const Json& json, const std::string& file) {
  ErrorList errors(file);
  PartSurvey part;
  read_into(part.survey, json, errors);
  part.errors = errors.errors();
  return part;
}

ReadResult read_survey(std::string_view text, const std::string& file) {
  const Json json = read_json_text(text, file);
  refuse_other_format(json, file);
  refuse_unfinished(json, file);
  ErrorList errors(file);
  ReadResult result;
  read_into(result.survey, json, errors);
  errors.throw_if_any();
  turn_counter_clockwise(result.survey);
  result.warnings = odd_values(result.survey);
  return result;
}

}  // namespace underprop::deck
