#pragma once
// The last day that any feeding on record holds.

#include "core/ranch/ranch.h"

#include <optional>

namespace haylane {

// nullopt when nothing is on record.
[[nodiscard]] std::optional<sys_days> last_fed_day(const Ranch& ranch);

}  // namespace haylane
