#include "base/on_all_cores.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace underprop {

std::size_t cores() { return std::max(1U, std::thread::hardware_concurrency()); }

std::size_t first_on_all_cores(std::size_t count, const std::function<bool(std::size_t)>& is,
                               std::size_t threads) {
  std::atomic<std::size_t> next{0};
  // Numbers are given out in their order: of those below an end that was found, all are done.
  std::atomic<std::size_t> end{count};
  std::mutex mutex;  // for the fault, and for lowering the end with it
  std::exception_ptr fault;
  const auto ends_at = [&](std::size_t k, const std::exception_ptr& why) {
    const std::lock_guard lock(mutex);
    if (k >= end) return;
    end = k;
    fault = why;
  };
  const auto take = [&] {
    for (std::size_t k = next++; k < end; k = next++) {
      try {
        if (is(k)) ends_at(k, nullptr);
      } catch (...) {
        ends_at(k, std::current_exception());
      }
    }
  };
  {
    std::vector<std::jthread> others;
    for (std::size_t k = 1; k < std::min(threads, count); ++k) others.emplace_back(take);
    take();
  }
  if (fault) std::rethrow_exception(fault);
  return end;
}

void on_all_cores(std::size_t count, const std::function<void(std::size_t)>& work,
                  std::size_t threads) {
  static_cast<void>(first_on_all_cores(
      count,
      [&](std::size_t k) {
        work(k);
        return false;
      },
      threads));
}

}  // namespace underprop
