// Reading objects key by key: values, facts, and faults, whose words stand in json_reader.expected.
#include "base/json_reader.hpp"

#include "support/catch.hpp"
#include "support/recorded.hpp"

#include <string>
#include <vector>

namespace json_reader_test_file {

using namespace underprop;

namespace {

enum class Ground { clay, sand };
constexpr EnumWord<Ground> ground_words[] = {{"clay", Ground::clay}, {"sand", Ground::sand}};

/// The faults that reading `text` by `read` leaves.
template <class Read>
std::vector<std::string> faults(std::string_view text, Read&& read) {
  const Json json = read_json_text(text, "deck.json");
  ErrorList errors("deck.json");
  ObjectReader reader(json, "", errors);
  read(reader);
  reader.finish();
  try {
    errors.throw_if_any();
  } catch (const InputErrors& all) {
    return all.lines();
  }
  return {};
}

using Lines = std::vector<std::string>;

/// Each text is refused with the lines recorded below it.
template <class Read>
void check_refusals(const std::string& what, const std::vector<std::string>& texts, Read&& read) {
  std::string told;
  for (const std::string& text : texts) {
    const Lines lines = faults(text, read);
    INFO(text);
    CHECK_FALSE(lines.empty());
    told += text + "\n";
    for (const std::string& line : lines) told += "    " + line + "\n";
  }
  test::check_passage("tests/base/json_reader.expected", what, told);
}

}  // namespace

TEST_CASE("values are read", "[base][closed-form]") {
  const auto none = faults(
      R"({"name": "Deck", "n": 3, "x": 0.5, "on": true, "h": "600 mm", "g": "sand",
          "list": ["100 mm", "1 ft"], "posts": [{"h": "1 m"}, {"h": "2 m"}], "site": {"slope": 1}})",
      [](ObjectReader& r) {
        CHECK(r.string("name") == "Deck");
        CHECK(r.optional_string("absent") == std::nullopt);
        CHECK(r.integer("n", 1, 9) == 3);
        CHECK(r.integer("m", 1, 9, 7) == 7);
        CHECK(r.number("x", 0, 1) == 0.5);
        CHECK(r.number("z", 0, 1, 0.25) == 0.25);
        CHECK(r.boolean("on", false));
        CHECK(r.boolean("off", true));
        CHECK(r.quantity<Length>("h", positive<Length>()) == mm(600));
        CHECK(r.quantity<Length>("h2", positive<Length>(), mm(5)) == mm(5));
        CHECK(r.optional_quantity<Force>("f", any<Force>()) == std::nullopt);
        CHECK(r.enumerated("g", ground_words) == Ground::sand);
        CHECK(r.enumerated("g2", ground_words, Ground::clay) == Ground::clay);
        CHECK(r.quantities<Length>("list", positive<Length>()) == std::vector{mm(100), feet(1)});
        std::vector<Length> heights;
        std::vector<std::string> places;
        r.objects("posts", [&](ObjectReader& post) {
          heights.push_back(post.quantity<Length>("h", positive<Length>()));
          places.push_back(post.pointer_of("h"));
        });
        CHECK(heights == std::vector{metres(1), metres(2)});
        CHECK(places == Lines{"/posts/0/h", "/posts/1/h"});
        CHECK(r.required_object("site",
                                [](ObjectReader& s) { CHECK(s.integer("slope", 0, 2) == 1); }));
        CHECK_FALSE(r.object("none", [](ObjectReader&) { FAIL("called for an absent key"); }));
      });
  CHECK(none == Lines{});
}

TEST_CASE("facts are read as unknown, value or range", "[base][closed-form]") {
  const auto none = faults(
      R"({"a": "600 mm", "b": "600-650 mm", "c": {"low": "600 mm", "high": "650 mm"},
          "d": "unknown", "e": "don't know", "f": "not seen", "g": "sand", "h": "unknown",
          "i": "yes", "j": false, "k": "unknown", "l": 3, "m": "3 to 4", "n": {"low": 3, "high": 4},
          "o": "C24", "p": "not seen", "q": "about 600 mm"})",
      [](ObjectReader& r) {
        const auto length = [&](std::string_view key) {
          return r.fact_quantity<Length>(key, positive<Length>());
        };
        const auto range = Fact<Length>::range(mm(600), mm(650));
        CHECK(length("a") == Fact<Length>(mm(600)));
        CHECK(length("b") == range);
        CHECK(length("c") == range);
        for (const char* key : {"d", "e", "f", "absent"}) CHECK(length(key).is_unknown());
        CHECK(r.fact_enumerated("g", ground_words) == Fact<Ground>(Ground::sand));
        CHECK(r.fact_enumerated("h", ground_words).is_unknown());
        CHECK(r.fact_enumerated("absent", ground_words).is_unknown());
        CHECK(r.fact_boolean("i") == Fact<bool>(true));
        CHECK(r.fact_boolean("j") == Fact<bool>(false));
        CHECK(r.fact_boolean("k").is_unknown());
        CHECK(r.fact_integer("l", 0, 9) == Fact<int>(3));
        CHECK(r.fact_integer("m", 0, 9) == Fact<int>::range(3, 4));
        CHECK(r.fact_integer("n", 0, 9) == Fact<int>::range(3, 4));
        CHECK(r.fact_string("o") == Fact<std::string>(std::string("C24")));
        CHECK(r.fact_string("p").is_unknown());
        CHECK(length("q").low().value() == Approx(570));
      });
  CHECK(none == Lines{});
}

TEST_CASE("faults of quantities tell place, what is allowed and the remedy",
          "[base][words][recorded]") {
  const auto one = [](ObjectReader& r) {
    (void)r.quantity<Length>("h", between<Length>(mm(10), metres(5)));
  };
  check_refusals("a length from 10 mm to 5 m",
                 {R"({"h": 2400})", R"({"h": "2400"})", R"({"h": "6 m"})", R"({"h": "5 mm"})",
                  R"({"h": null})", R"({"h": ["1 m"]})", "{}"},
                 one);
  CHECK(faults(R"({"h": "10 mm"})", one) == Lines{});
  CHECK(faults(R"({"h": "5 m"})", one) == Lines{});
}

TEST_CASE("bounds that exclude their end refuse it", "[base][words][recorded]") {
  check_refusals("a length more than zero", {R"({"h": "0 mm"})"},
                 [](ObjectReader& r) { (void)r.quantity<Length>("h", positive<Length>()); });
  const auto none_below = [](ObjectReader& r) {
    (void)r.quantity<Length>("h", not_negative<Length>());
  };
  check_refusals("a length not below zero", {R"({"h": "-1 mm"})"}, none_below);
  CHECK(faults(R"({"h": "0 mm"})", none_below) == Lines{});
}

TEST_CASE("faults of facts say that unknown is allowed", "[base][words][recorded]") {
  check_refusals(
      "a length that may be a fact",
      {R"({"h": null})", R"({"h": "0-5 mm"})", R"({"h": {"low": "3 mm", "high": "2 mm"}})",
       R"({"h": {"low": "3 mm", "hi": "4 mm"}})"},
      [](ObjectReader& r) { (void)r.fact_quantity<Length>("h", positive<Length>()); });
}

TEST_CASE("faults of words offer the nearest", "[base][words][recorded]") {
  check_refusals("a word of several", {R"({"g": "sadn", "h": "rock", "i": 5, "j": null})"},
                 [](ObjectReader& r) {
                   (void)r.enumerated("g", ground_words);
                   (void)r.fact_enumerated("h", ground_words);
                   (void)r.optional_enumerated("i", ground_words);
                   (void)r.fact_enumerated("j", ground_words);
                   (void)r.enumerated("k", ground_words);
                 });
}

TEST_CASE("faults of plain values", "[base][words][recorded]") {
  check_refusals("plain values",
                 {R"({"s": "", "b": "yes", "i": 2.5, "j": "3", "k": 10, "n": -1, "f": "4 to 3"})"},
                 [](ObjectReader& r) {
                   (void)r.string("s");
                   (void)r.boolean("b", false);
                   (void)r.integer("i", 0, 9);
                   (void)r.integer("j", 0, 9, 1);
                   (void)r.integer("k", 0, 9);
                   (void)r.number("n", 0, 1);
                   (void)r.fact_integer("f", 0, 9);
                 });
  CHECK(faults(R"({"i": 99999999999999999999, "j": -99999999999, "k": 18446744073709551615})",
               [](ObjectReader& r) {
                 CHECK(r.integer("i", 0, 9) == 0);
                 CHECK(r.integer("j", 0, 9) == 0);
                 CHECK(r.integer("k", 0, 9) == 0);
               })
            .size() == 3);
}

TEST_CASE("unknown keys are reported with the nearest known one", "[base][words][recorded]") {
  check_refusals("unknown keys", {R"({"widht": "1 m", "note": "x", "a/b": 1})"},
                 [](ObjectReader& r) {
                   (void)r.fact_quantity<Length>("width", positive<Length>());
                   r.allow({"note"});
                 });
}

TEST_CASE("faults of arrays and objects", "[base][words][recorded]") {
  check_refusals("arrays and objects",
                 {R"({"posts": {"h": 1}, "beams": [5], "few": [], "site": 3})"},
                 [](ObjectReader& r) {
                   r.objects("posts", [](ObjectReader&) { FAIL("no element was there"); });
                   r.objects("beams", [](ObjectReader& beam) {
                     CHECK_FALSE(beam.is_object());
                     (void)beam.string("name");  // says nothing more of a thing that is no object
                   });
                   r.objects(
                       "few", [](ObjectReader&) {}, 1, 9);
                   (void)r.object("site", [](ObjectReader&) {});
                   (void)r.required_object("deck", [](ObjectReader&) {});
                 });
}

TEST_CASE("a message stays on one line and cannot steer a terminal", "[base][closed-form]") {
  const InputError error{"/a", "x\ny\x1b[31m\t\x7f", "al\rlowed", "\xc2\x9bremedy \xc3\xa9"};
  CHECK(to_line(error, "f\n.json") ==
        "f\\n.json: /a: x\\ny\\u001b[31m\\t\\u007f; al\\u000dlowed; \\u009bremedy \xc3\xa9");
  CHECK(quote("a\nb") == "\"a\\nb\"");
  // 59 bytes and a two-byte character: cut before it, not inside it.
  CHECK(quote(std::string(59, 'a') + "\xc3\xa9zz") == "\"" + std::string(59, 'a') + "...\"");
}

TEST_CASE("faults beyond the limit are counted", "[base][closed-form]") {
  ErrorList errors("f");
  for (std::size_t i = 0; i < ErrorList::max_errors + 5; ++i) errors.add("/x", "a", "b", "c");
  CHECK(errors.count() == ErrorList::max_errors + 5);
  try {
    errors.throw_if_any();
    FAIL("nothing was thrown");
  } catch (const InputErrors& all) {
    REQUIRE(all.errors().size() == ErrorList::max_errors + 1);
    CHECK(all.lines().back() ==
          "f: /: 5 more faults like these; at most 200 are listed; mend the ones above and run "
          "again");
    CHECK(std::string(all.what()).starts_with("f: /x: a; b; c\n"));
  }
}

}  // namespace json_reader_test_file
