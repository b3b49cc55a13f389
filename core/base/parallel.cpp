// oneTBB does the work, except under ThreadSanitizer, where Debian's TBB is not instrumented and
// plain std::jthread workers take items off a shared counter.
#include "core/base/parallel.h"

#include <algorithm>
#include <atomic>
#include <thread>
#include <vector>

#if !defined(__SANITIZE_THREAD__)
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>
#endif

namespace haylane {

namespace {

int usable_threads(std::size_t count, int threads) {
    const int machine = std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
    const int wanted = threads <= 0 ? machine : std::min(threads, machine);
    return static_cast<int>(std::min<std::size_t>(count, static_cast<std::size_t>(wanted)));
}

}  // namespace

void parallel_for(std::size_t count, int threads, const std::function<void(std::size_t)>& body) {
    const int used = usable_threads(count, threads);
    if (used <= 1) {
        for (std::size_t i = 0; i < count; ++i) body(i);
        return;
    }
#if defined(__SANITIZE_THREAD__)
    std::atomic<std::size_t> next{0};
    std::vector<std::jthread> workers;
    for (int t = 0; t < used; ++t) {
        workers.emplace_back([&] {
            for (std::size_t i = next++; i < count; i = next++) body(i);
        });
    }
#else
    tbb::task_arena arena(used);
    arena.execute([&] { tbb::parallel_for(std::size_t{0}, count, body); });
#endif
}

}  // namespace haylane
