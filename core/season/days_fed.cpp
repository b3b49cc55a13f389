#include "core/season/days_fed.h"

#include <algorithm>
#include <vector>

namespace haylane {

int days_fed(const Ranch& ranch, const Feedings& feedings, sys_days up_to) {
    constexpr int kYear = 365;
    const sys_days first = up_to - std::chrono::days{kYear - 1};
    std::vector<bool> fed(kYear, false);
    for (const FeedingRecord* feeding : feedings) {
        const int every = feeding->herd ? std::max(1, ranch[*feeding->herd].feed_every_days) : 1;
        const sys_days to = std::min(up_to, feeding->to + std::chrono::days{every - 1});
        for (sys_days day = std::max(first, feeding->from); day <= to; day += std::chrono::days{1})
            fed[static_cast<std::size_t>((day - first).count())] = true;
    }
    return static_cast<int>(std::count(fed.begin(), fed.end(), true));
}

}  // namespace haylane
