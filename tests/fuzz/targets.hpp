// What the fuzzers put bytes into, and what must hold whatever the bytes. A broken promise aborts.
//
// Without a fuzzer the same functions replay the corpus in the ordinary tests (replay_test.cpp).
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace underprop::fuzz {

/// Prints what was promised and aborts, unless it was kept.
void promise(bool kept, const char* what);

/// A survey file. Refused with lines that name a place, or read, written, read back equal and resolved
/// in all three readings: no other exception.
void survey(std::string_view text);

/// The same, and decks that are small enough are assessed as well: no NaN, no reaction that pulls.
void judged(std::string_view text);

/// A quantity of any dimension, or a range. Refused with a problem and a remedy, or finite, of one
/// dimension only, and read back from its own writing to the last bit.
void quantity(std::string_view text);

/// Lines said to the interview, one after the other. Each gets a reply; whatever was said, the file goes
/// on where it stopped, and what it ends in is a survey that reads back the same.
void interview(std::string_view text);

/// Another survey file made from `text` by one to four changes inside its JSON, the same for the same
/// `seed`: values swapped, left out, doubled, made unknown, negative, huge, of another unit or type.
/// `text` itself if it is not JSON.
std::string changed_survey(std::string_view text, std::uint64_t seed);

/// Other lines made from `text`: one is changed, left out or said twice, mostly to an answer that the
/// question at that place might get, and little of what followed is kept. The same for the same `seed`,
/// whatever came before.
std::string changed_interview(std::string_view text, std::uint64_t seed);

class Random {  // splitmix64, public domain: S. Vigna
public:
  explicit Random(std::uint64_t seed) : state_(seed) {}
  std::size_t below(std::size_t n) { return n == 0 ? 0 : static_cast<std::size_t>(next() % n); }

private:
  std::uint64_t next() {
    std::uint64_t z = (state_ += 0x9e3779b97f4a7c15ULL);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31);
  }
  std::uint64_t state_;
};

}  // namespace underprop::fuzz
