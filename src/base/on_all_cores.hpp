// Work on all cores whose outcome does not depend on how many there are.
#pragma once

#include <cstddef>
#include <functional>

namespace underprop {

/// As many as the machine lets this process use, at least 1.
[[nodiscard]] std::size_t cores();

/// Does work(0) to work(count - 1), each at most once. If some throw, what the lowest number threw is thrown
/// here, whichever came first; numbers above it may be left out.
void on_all_cores(std::size_t count, const std::function<void(std::size_t)>& work,
                  std::size_t threads = cores());

/// The lowest number below `count` for which `is` holds; `count` if there is none. Numbers above it may be
/// left out. What a lower number throws is thrown here.
[[nodiscard]] std::size_t first_on_all_cores(std::size_t count,
                                             const std::function<bool(std::size_t)>& is,
                                             std::size_t threads = cores());

}  // namespace underprop
