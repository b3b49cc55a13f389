#pragma once
// On how many days of the twelve months up to a date animals were fed in a pasture. A feeding holds
// its own days, and those its herd is fed for by one feeding. An upper bound of days confined
// there.

#include "core/season/ledger.h"

namespace haylane {

// The confined-feeding test counts from this many days (with ground cover lost on half the area);
// Missouri's wording of it; others differ.
inline constexpr int kConfinedDays = 45;

[[nodiscard]] int days_fed(const Ranch& ranch, const Feedings& feedings, sys_days up_to);

}  // namespace haylane
