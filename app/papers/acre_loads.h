#pragma once
// The heaviest and lightest acre-sized places of a pasture's feed ground, in bales per square
// metre. A place is a square window of about an acre, at least half of it feed ground; its load is
// bales over its feed ground. nullopt when there is no such place. Cost: linear in cells.

#include "core/deposit/deposit_map.h"
#include "core/deposit/pasture_ground.h"

#include <optional>

namespace haylane {

struct AcreLoads {
    double lightest_bales_per_m2 = 0.0;
    double heaviest_bales_per_m2 = 0.0;
};

[[nodiscard]] std::optional<AcreLoads> acre_loads(const PastureGround& ground,
                                                  const DepositMap& map);

}  // namespace haylane
