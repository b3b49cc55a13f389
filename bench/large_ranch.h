#pragma once
// A large invented ranch, the same for the same seed: 200 pastures of about 160 acres along
// straight lanes, 12 herds in neighbouring pastures, 4 yards, 3 rigs, rolling terrain, creeks and
// dams, last winter's lines piled near the gates and this winter's so far side by side.

#include "core/ranch/check_ranch.h"

#include <cstdint>

namespace haylane::bench {

struct LargeRanchOptions {
    std::uint64_t seed = 1;
    int columns = 20;
    int row_pairs = 5;  // 2 x columns pastures each
    int herds = 12;     // at most the pastures
    int days_of_weather = 21;
};

// The day it may be planned from: this winter's feedings end the day before.
[[nodiscard]] sys_days large_ranch_day();
// Takes no part in checking: what it holds is already sound.
[[nodiscard]] CheckedRanch large_ranch(const LargeRanchOptions& options = {});

}  // namespace haylane::bench
