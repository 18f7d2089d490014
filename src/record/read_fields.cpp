#include "read_fields.hpp"

#include "field_io.hpp"
#include "fields.hpp"

namespace underprop::record {

void read_survey_fields(ObjectReader& object, const ReadContext& context, Survey& survey) {
  read_fields(object, context, survey);
}
void read_recording(ObjectReader& object, const ReadContext& context, Recording& recording) {
  read_fields(object, context, recording);
}

}  // namespace underprop::record
