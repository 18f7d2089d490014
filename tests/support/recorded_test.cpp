// The comparisons that other tests rest on notice what they are there for.
#include "recorded.hpp"
#include "json_difference.hpp"

#include "catch.hpp"

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace recorded_test_file {

using namespace underprop::test;
using Json = nlohmann::json;
using Lines = std::vector<std::string>;

TEST_CASE("Two texts are told apart by their lines, with two lines round them", "[support][law]") {
  CHECK(line_difference("a\nb\n", "a\nb\n").empty());
  CHECK(line_difference("1\n2\n3\n4\n5\n6\n7\n", "1\n2\n3\nfour\n5\n6\n7\n") ==
        "  2\n  3\n- 4\n+ four\n  5\n  6\n  ...\n");
  CHECK(line_difference("a\nc\n", "a\nb\nc\n") == "  a\n+ b\n  c\n");
  CHECK(line_difference("", "a\n") == "+ a\n");
  CHECK(line_difference("a\n", "") == "- a\n");
  CHECK(line_difference("a\n", "a") == "- a\n+ a  (no line end)\n");
  CHECK(line_difference("x\na\nb\nc\ny\n", "x\nc\na\nb\ny\n") == "  x\n+ c\n  a\n  b\n- c\n  y\n");
}

TEST_CASE("Numbers of two answers may differ by rounding, nothing else may", "[support][law]") {
  const Json before = Json::parse(R"({"verdict": "carries", "u": 0.5, "n": null, "list": [1, 2]})");
  const auto found = [&](const char* pointer, const Json& value) {
    Json now = before;
    now[Json::json_pointer(pointer)] = value;
    return json_differences(before, now);
  };
  CHECK(found("/u", 0.5).empty());
  CHECK(found("/u", 0.5 * (1.0 + 1e-10)).empty());
  CHECK(found("/u", 0.5 * (1.0 + 1e-8)).size() == 1);
  CHECK(found("/u", 0.6) == Lines{"/u: 0.5 -> 0.6"});
  CHECK(found("/u", nullptr) == Lines{"/u: 0.5 -> null"});
  CHECK(found("/n", 0) == Lines{"/n: null -> 0"});
  CHECK(found("/verdict", "refer") == Lines{R"(/verdict: "carries" -> "refer")"});
  CHECK(found("/list", {1, 2, 3}) == Lines{"/list: 2 entries -> 3"});
  CHECK(found("/list", {2, 1}).size() == 2);
  CHECK(found("/more", 1).empty());
  CHECK(json_differences(before, {{"verdict", "carries"}}).size() == 3);
  // About nought only the absolute difference counts, and it is small.
  CHECK(json_differences(1e-14, -3e-14).empty());
  CHECK(json_differences(1e-9, 2e-9).size() == 1);
}

TEST_CASE("Entries with an id are compared by it, and their order is told once", "[support][law]") {
  const Json before = Json::parse(R"([{"id": "a", "u": 1}, {"id": "b", "u": 2}, {"id": "c"}])");
  CHECK(json_differences(before, before).empty());
  CHECK(json_differences(before, Json::array({before[1], before[0], before[2]})) ==
        Lines{"/: one order of its entries -> another"});
  CHECK(json_differences(before, Json::array({before[0], {{"id", "b"}, {"u", 3}}})) ==
        Lines{"/[b]/u: 2 -> 3", "/[c]: is there -> gone"});
  CHECK(json_differences(Json::array({before[0]}), Json::array({before[0], before[2]})) ==
        Lines{R"(/[c]: is not there -> {"id":"c"})"});
}

}  // namespace recorded_test_file
