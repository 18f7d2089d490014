// Quantities as people write them.
#include "fuzz/targets.hpp"

#include "underprop/base/units.hpp"

#include <fmt/format.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace underprop::fuzz {

void promise(bool kept, const char* what) {
  if (kept) return;
  std::fprintf(stderr, "broken promise: %s\n", what);
  std::abort();
}

namespace {

template <class Q>
double number(Q q) {
  if constexpr (requires { q.rad; }) {
    return q.rad;
  } else {
    return q.value();
  }
}

/// Whether it was read as one value of this dimension.
template <class Q>
bool one_dimension(std::string_view text) {
  const Parsed<Q> one = parse_quantity<Q>(text);
  promise(one || (!one.problem.empty() && !one.remedy.empty()), "a refusal says what to do");
  if (one) {
    promise(std::isfinite(number(*one.value)), "a quantity is finite");
    const Parsed<Q> back = parse_quantity<Q>(write_quantity(*one.value));
    promise(back && number(*back.value) == number(*one.value), "a quantity reads back the same");
  }
  const Parsed<Range<Q>> range = parse_range<Q>(text);
  if (range) {
    promise(number(range.value->low) <= number(range.value->high), "a range is the right way up");
    promise(std::isfinite(number(range.value->high)), "a range is finite");
  }
  if (one) {
    promise(range && range.value->low == *one.value && range.value->high == *one.value,
            "one value is a range of no width");
    const Parsed<Q> spaced = parse_quantity<Q>(fmt::format(" {} ", text));
    promise(text.size() + 2 > max_quantity_text || (spaced && *spaced.value == *one.value),
            "blanks around a quantity mean nothing");
  }
  return one.value.has_value();
}

}  // namespace

void quantity(std::string_view text) {
  // "lb" is mass and force, as the parser says; anything else is one thing only.
  const int pounds = one_dimension<Mass>(text) | one_dimension<Force>(text);
  const int others = one_dimension<Length>(text) + one_dimension<Pressure>(text) +
                     one_dimension<Volume>(text) + one_dimension<Density>(text) +
                     one_dimension<Angle>(text);
  promise(pounds + others <= 1, "a text is a quantity of one dimension");
}

}  // namespace underprop::fuzz
