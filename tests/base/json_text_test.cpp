// JSON text: what is refused, with the words of json_text.expected.
#include "base/json_reader.hpp"

#include "support/catch.hpp"
#include "support/recorded.hpp"

#include <string>
#include <vector>

namespace json_text_test_file {

using namespace underprop;

namespace {

std::vector<std::string> faults(std::string_view text) {
  try {
    (void)read_json_text(text, "deck.json");
  } catch (const InputErrors& errors) {
    return errors.lines();
  }
  return {};
}

/// Each text is refused with the lines recorded below it.
void check_refusals(const std::string& what, const std::vector<std::string>& texts) {
  std::string told;
  for (const std::string& text : texts) {
    const std::vector<std::string> lines = faults(text);
    INFO(text);
    CHECK_FALSE(lines.empty());
    told += quote(text) + "\n";
    for (const std::string& line : lines) told += "    " + line + "\n";
  }
  test::check_passage("tests/base/json_text.expected", what, told);
}

}  // namespace

TEST_CASE("well-formed JSON is read as it stands", "[base][closed-form]") {
  const Json json =
      read_json_text(R"({"a": [1, 2.5, "x", {"b": null}], "c": {"d": [[], {}]}})", "f");
  CHECK(json["a"][0] == 1);
  CHECK(json["a"][1] == 2.5);
  CHECK(json["a"][2] == "x");
  CHECK(json["a"][3]["b"].is_null());
  CHECK(json["c"]["d"].size() == 2);
  CHECK(json == Json::parse(R"({"c":{"d":[[],{}]},"a":[1,2.5,"x",{"b":null}]})"));
  CHECK(read_json_text("\xef\xbb\xbf{}", "f").is_object());
  CHECK(read_json_text("{\"\xc3\xa9\": \"\xf0\x9f\x9b\xa0\"}", "f").size() == 1);
}

TEST_CASE("empty text is refused", "[base][words][recorded]") {
  check_refusals("empty text", {"", " \n\t "});
}

TEST_CASE("syntax errors tell line and column", "[base][words][recorded]") {
  check_refusals("syntax", {"{\n  \"a\": 1,\n}", "{'a': 1}", "{\"a\": 1"});
  for (const char* text : {"{} {}", "{\"a\": 1 // note\n}", "{\"a\": NaN}", "{\"a\": 01}",
                           "{\"a\": \"tab\there\"}", "]"})
    CHECK(faults(text).size() == 1);
}

TEST_CASE("numbers that no double holds are refused", "[base][words][recorded]") {
  check_refusals("numbers too large", {"{\"a\": 1e999}"});
}

TEST_CASE("keys that stand twice are all told, with their places", "[base][words][recorded]") {
  check_refusals("keys that stand twice", {R"({"a": 1, "b": [{}, {"x": 1, "x": 2}],)"
                                           R"( "c": {"y/z": {"k": 1, "k": 2}}, "a": 3})"});
  CHECK(faults(R"({"a": {"b": 1}, "b": {"a": 1}})").empty());
}

TEST_CASE("deep nesting is refused without a crash", "[base][closed-form]") {
  const auto nested = [](std::size_t n) { return std::string(n, '[') + std::string(n, ']'); };
  CHECK(faults(nested(max_json_depth)).empty());
  CHECK(
      faults(nested(max_json_depth + 1)) ==
      std::vector<std::string>{"deck.json: /: brackets nested more than 64 deep at line 1, column "
                               "65; at most 64 levels; check that this is the right file"});
  CHECK(faults(nested(200000)).size() == 1);
  CHECK(faults(std::string(200000, '{')).size() == 1);
  CHECK(
      faults("{\"" + std::string(100, '[') + "\": \"\\\"" + std::string(100, '{') + "\"}").empty());
}

TEST_CASE("text that is not UTF-8 is refused", "[base][closed-form]") {
  // Ill-formed sequences of the Unicode Standard, section 3.9: lone continuation, overlong,
  // surrogate, beyond U+10FFFF, cut short.
  for (const char* bad :
       {"\x80", "\xc0\xaf", "\xed\xa0\x80", "\xf4\x90\x80\x80", "\xe2\x82", "\xff"}) {
    const std::string text = "{\n\"a\": \"" + std::string(bad) + "\"}";
    CHECK(faults(text) == std::vector<std::string>{
                              "deck.json: /: bytes that are not UTF-8 text at line 2, column 7; "
                              "text in UTF-8; save the file in the encoding UTF-8"});
  }
}

TEST_CASE("text that is too long is refused", "[base][closed-form]") {
  CHECK(
      faults(std::string(max_json_bytes + 1, ' ')) ==
      std::vector<std::string>{"deck.json: /: 4194305 bytes of text; at most 4194304 bytes; check "
                               "that this is the right file"});
}

}  // namespace json_text_test_file
