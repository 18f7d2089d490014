// libFuzzer on the reader of surveys. Seven inputs of eight are changed inside
// their JSON, the rest as bytes.
#include "fuzz/targets.hpp"

#include <algorithm>
#include <cstring>

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t max_size);

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size,
                                               std::size_t max_size, unsigned int seed) {
  if (seed % 8 == 0) return LLVMFuzzerMutate(data, size, max_size);
  const std::string text =
      underprop::fuzz::changed_survey({reinterpret_cast<const char*>(data), size}, seed);
  if (text.size() > max_size) return LLVMFuzzerMutate(data, size, max_size);
  std::memcpy(data, text.data(), text.size());
  return text.size();
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  underprop::fuzz::survey({reinterpret_cast<const char*>(data), size});
  return 0;
}
