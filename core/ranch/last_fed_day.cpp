#include "core/ranch/last_fed_day.h"

#include <algorithm>

namespace haylane {

std::optional<sys_days> last_fed_day(const Ranch& ranch) {
    if (ranch.feedings.empty()) return std::nullopt;
    return std::max_element(
               ranch.feedings.begin(), ranch.feedings.end(),
               [](const FeedingRecord& a, const FeedingRecord& b) { return a.to < b.to; })
        ->to;
}

}  // namespace haylane
