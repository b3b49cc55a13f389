#pragma once
// The only door to threads: a parallel loop over independent items. Results must not depend on the
// order of the calls; sums over items are done afterwards, in order, by the caller.

#include <cstddef>
#include <functional>

namespace haylane {

// Calls body(i) once for each i in [0, count), on at most `threads` threads (1 = in this thread,
// 0 = as many as the machine has). The body must not throw.
void parallel_for(std::size_t count, int threads, const std::function<void(std::size_t)>& body);

}  // namespace haylane
