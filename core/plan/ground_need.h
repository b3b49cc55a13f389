#pragma once
// What the day's weather and calving ask of the ground a herd is fed on, and the order in which
// those wishes are given up when no line can be laid there.

#include "core/base/day.h"
#include "core/ranch/ranch.h"

#include <optional>
#include <vector>

namespace haylane {

struct GroundNeed {
    std::optional<double> lee_of_rad;     // out of the wind from this azimuth
    std::optional<sys_days> fresh_since;  // a spacing off ground fed on since this day
    // Well away, five spacings (assumption), from what of it was fed on before this day.
    std::optional<sys_days> clean_before;
    bool off_gates = false;  // all of it as far from gates as lines start: for ring feeders
    friend auto operator<=>(const GroundNeed&, const GroundNeed&) = default;
};

// Everything asked on a day. Cold and windy days ask for the lee, calving for fresh
// ground, rings to be off gates.
[[nodiscard]] GroundNeed ground_need(const Ranch& ranch, HerdId herd, sys_days day);
// The need as it is, then with less and less of it: fresh ground goes before the lee.
// Rings stay off gates throughout.
[[nodiscard]] std::vector<GroundNeed> as_it_yields(const GroundNeed& need);

// Wind of at least lee_wind, and an effective temperature at or below the critical one in the open;
// false when wind or temperatures are not known.
[[nodiscard]] bool is_cold_and_windy(const Ranch& ranch, sys_days day);
// Where the wind comes from on such a day; nullopt on others, and when that is not known.
[[nodiscard]] std::optional<double> cold_wind_from_rad(const Ranch& ranch, sys_days day);
// The day of this season on which the herd began to calve; nullopt before it, and without
// calving_from.
[[nodiscard]] std::optional<sys_days> calving_since(const Ranch& ranch, HerdId herd, sys_days day);

}  // namespace haylane
