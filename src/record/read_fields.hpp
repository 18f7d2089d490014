// Reading what is declared in fields.hpp, without its templates.
#pragma once

#include "read_values.hpp"

namespace underprop::record {

/// The whole file. A faulty field is as if it had been left out.
void read_survey_fields(ObjectReader& object, const ReadContext& context, Survey& survey);
void read_recording(ObjectReader& object, const ReadContext& context, Recording& recording);

}  // namespace underprop::record
