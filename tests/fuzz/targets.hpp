// What the fuzzers put bytes into, and what must hold whatever the bytes. A broken promise aborts.
//
// Without a fuzzer the same functions replay the corpus in the ordinary tests (replay_test.cpp).
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace underprop::fuzz {

/// A survey file. Refused with lines that name a place, or read, written, read back equal, settled in
/// all three readings, and, if it is small, assessed: no other exception, no NaN, no reaction that pulls.
void survey(std::string_view text);

/// A quantity of any dimension, or a range. Refused with a problem and a remedy, or finite and read back
/// from its own writing to the last bit.
void quantity(std::string_view text);

/// Another survey file made from `text` by one to four changes inside its JSON, the same for the same
/// `seed`: values swapped, left out, doubled, made unknown, negative, huge, of another unit or type.
/// `text` itself if it is not JSON.
std::string changed_survey(std::string_view text, std::uint64_t seed);

}  // namespace underprop::fuzz
