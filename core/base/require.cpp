#include "core/base/require.h"

#include <cstdio>
#include <cstdlib>

namespace haylane {

void require(bool holds, const char* message, const char* file, int line) {
    if (holds) return;
    std::fprintf(stderr, "haylane: internal fault, please report it: %s (%s:%d)\n", message, file,
                 line);
    std::abort();
}

}  // namespace haylane
