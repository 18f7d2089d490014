// The published schema is written from the declarations of the fields; that it judges files as the
// reader does: schema_twin_test.cpp.
#include "support/recorded.hpp"
#include "underprop/record/format.hpp"

#include "support/catch.hpp"

#include <set>

namespace underprop::record {
namespace read_schema_test_file {
namespace {

TEST_CASE("The schema among the data is what the declarations of the fields say",
          "[read][recorded][words]") {
  underprop::test::check_recorded("data/schema/survey.json", survey_schema());
}

TEST_CASE(
    "Every field is declared once, says what it means, and words are offered where they are few",
    "[read][law]") {
  std::set<std::pair<std::string, std::string>> keys;
  for (const Field& field : survey_fields()) {
    INFO(field.object << "/" << field.key);
    CHECK(keys.emplace(field.object, field.key).second);
    CHECK(field.meaning.size() >= 4);
    CHECK((field.kind == ValueKind::word) == !field.words.empty());
    CHECK((field.kind == ValueKind::object) == !field.of.empty());
  }
  CHECK(keys.size() > 150);
  CHECK(survey_field("ledger", "colour") == nullptr);
}

}  // namespace

}  // namespace read_schema_test_file
}  // namespace underprop::record
