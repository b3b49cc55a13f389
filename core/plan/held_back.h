#pragma once
// How much of the rich hay must be kept for cows that will be in milk before turn-out.

#include "core/base/day.h"
#include "core/ranch/ranch.h"

#include <vector>

namespace haylane {

// Share in [0, 1] of each lot's bales that a herd not yet in milk may use on `day`; `left` is bales
// by lot. Rich lots meet a milking cow's needs alone; what herds in milk will need of them until
// turn-out (90 days when none is set; a common stretch from calving to grass, assumption) is held.
[[nodiscard]] std::vector<double> free_share(const Ranch& ranch, const std::vector<int>& left,
                                             sys_days day);

}  // namespace haylane
