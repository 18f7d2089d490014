// What adding a field takes: an invented form with one new field, declared as those of a survey are.
// Reading, writing, schema, list of fields and the question's form follow from the line that declares it.
#include "../../src/interview/parts.hpp"
#include "../../src/record/field_io.hpp"

#include "support/catch.hpp"

namespace underprop::record {

/// Invented: what a moisture meter says of a row of posts.
struct Damp {
  std::string name;
  Fact<Length> wet_height;  // the field that is added: a member ...
};

template <>
struct Declaration<Damp> {
  static constexpr std::string_view type = "damp";
  static constexpr std::string_view meaning = "Damp in a row of posts.";
  template <class Io>
  static void fields(Io& io) {
    io.required("name", &Damp::name, Name{}, "Name of the row.");
    // ... and the line that declares it.
    io.optional("wet_height", &Damp::wet_height, limit::post_height,
                "How far up the posts the meter says wet.");
  }
};

namespace added_field_test_file {
namespace {

struct Read {
  Damp damp;
  std::vector<InputError> errors;
};
Read read_damp(const std::string& text) {
  ErrorList errors("damp.json");
  const Json json = Json::parse(text);
  Read result;
  ObjectReader object(json, "", errors);
  read_fields(object, ReadContext{errors, StandardId::eurocode_uk}, result.damp);
  object.finish();
  result.errors = errors.errors();
  return result;
}

Listing listing() {
  Listing all;
  list_fields<Damp>(all, "");
  return all;
}

TEST_CASE("A field that is declared is read, and a fault in it has its place and its remedy",
          "[read][law]") {
  const Read good = read_damp(R"({"name": "P1", "wet_height": "300 mm"})");
  CHECK(good.errors.empty());
  CHECK(good.damp.wet_height == Fact<Length>(mm(300)));
  CHECK(read_damp(R"({"name": "P1"})").damp.wet_height.is_unknown());
  CHECK(read_damp(R"({"name": "P1", "wet_height": "unknown"})").damp.wet_height.is_unknown());
  CHECK(read_damp(R"({"name": "P1", "wet_height": "300-400 mm"})").damp.wet_height.is_range());

  const Read high = read_damp(R"({"name": "P1", "wet_height": "300 m"})");
  REQUIRE(high.errors.size() == 1);
  CHECK(high.errors.front().pointer == "/wet_height");
  CHECK(high.errors.front().remedy == "did you mean \"300 mm\"?");
  const Read slip = read_damp(R"({"name": "P1", "wet_hight": "300 mm"})");
  REQUIRE(slip.errors.size() == 1);
  CHECK(slip.errors.front().remedy.find("wet_height") != std::string::npos);
}

TEST_CASE("A field that is declared is written as it was read, and left out while it is open",
          "[read][law]") {
  for (const char* text : {R"({"name":"P1","wet_height":"300 mm"})", R"({"name":"P1"})",
                           R"({"name":"P1","wet_height":{"low":"300 mm","high":"400 mm"}})"}) {
    CHECK(written_fields(read_damp(text).damp).dump() == text);
  }
}

TEST_CASE("The schema and the list of fields have a field that is declared", "[read][law]") {
  const Json schema = Json::parse(schema_of(listing(), "Damp"));
  // The listing's only type is no whole file: it stands among the definitions.
  const Json& damp = schema.at("$defs").at("damp");
  CHECK(damp.at("properties").at("wet_height").at("$ref") == "#/$defs/length_fact");
  CHECK(damp.at("properties").at("wet_height").at("description") ==
        "How far up the posts the meter says wet.");
  CHECK(damp.at("required") == Json::array({"name"}));
}

TEST_CASE("A question for a field that is declared has the form of what may be answered",
          "[read][law]") {
  const std::vector<Field> fields = listing().fields;
  REQUIRE(fields.size() == 2);
  interview::Ask ask{.id = "posts/damp", .key = "posts/damp"};
  interview::follow_declaration(ask, fields.back());
  CHECK(ask.form == interview::Form::length_fact);
  // An enumeration brings its words.
  interview::Ask contact{.id = "contact", .key = "contact"};
  const Field* declared = survey_field_at("/deck/supports/3/footing/contact");
  REQUIRE(declared != nullptr);
  interview::follow_declaration(contact, *declared);
  CHECK(contact.form == interview::Form::word);
  CHECK(contact.words == std::vector<std::string>{"tight", "gap", "loose"});
}

}  // namespace

}  // namespace added_field_test_file
}  // namespace underprop::record
