// libFuzzer on the reading of quantities.
#include "fuzz/targets.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  underprop::fuzz::quantity({reinterpret_cast<const char*>(data), size});
  return 0;
}
