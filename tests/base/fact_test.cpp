// Facts and "did you mean".
#include "underprop/base/fact.hpp"
#include "base/edit_distance.hpp"
#include "support/catch.hpp"
#include "underprop/base/quantity.hpp"

#include <array>
#include <stdexcept>
#include <string>

namespace fact_test_file {

using namespace underprop;

TEST_CASE("a fact is unknown, a value or a range", "[base][closed-form]") {
  const Fact<Length> unknown;
  CHECK(unknown.is_unknown());
  CHECK_FALSE(unknown.is_known());
  CHECK_FALSE(unknown.is_value());
  CHECK_FALSE(unknown.is_range());
  CHECK_THROWS_AS(unknown.value(), std::logic_error);
  CHECK_THROWS_AS(unknown.low(), std::logic_error);
  CHECK(unknown == Fact<Length>::unknown());

  const Fact<Length> value(mm(38));
  CHECK(value.is_value());
  CHECK(value.value() == mm(38));
  CHECK(value.low() == value.high());
  CHECK(value.value_or(mm(1)) == mm(38));
  CHECK(value == Fact<Length>::range(mm(38), mm(38)));

  const auto range = Fact<Length>::range(mm(600), mm(650));
  CHECK(range.is_range());
  CHECK(range.low() == mm(600));
  CHECK(range.high() == mm(650));
  CHECK_THROWS_AS(range.value(), std::logic_error);
  CHECK(range.value_or(mm(1)) == mm(1));
  CHECK_FALSE(range == value);
  CHECK_THROWS_AS(Fact<Length>::range(mm(2), mm(1)), std::invalid_argument);

  const Fact<std::string> text(std::string("C24"));
  CHECK(text.value() == "C24");
}

TEST_CASE("edit distances agree with hand counts", "[base][closed-form]") {
  CHECK(edit_distance("", "") == 0);
  CHECK(edit_distance("kitten", "sitting") == 3);
  CHECK(edit_distance("flaw", "lawn") == 2);
  CHECK(edit_distance("widht", "width") == 1);  // neighbours swapped
  CHECK(edit_distance("Width", "width") == 0);
  CHECK(edit_distance("", "abc") == 3);
  CHECK(edit_distance(std::string(500, 'a'), std::string(500, 'b')) == 64);
}

TEST_CASE("the nearest word is offered only if it is near", "[base][closed-form]") {
  constexpr std::array<std::string_view, 4> words{"width", "depth", "breadth", "depths"};
  CHECK(nearest_word("widht", words) == "width");
  CHECK(nearest_word("dept", words) == "depth");
  CHECK(nearest_word("bredth", words) == "breadth");
  CHECK(nearest_word("colour", words).empty());
  CHECK(nearest_word("", words).empty());
  CHECK(nearest_word("x", {}).empty());
}

}  // namespace fact_test_file
