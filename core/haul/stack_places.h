#pragma once
// Where to stack a year's hay: costs of hauling it in from the hay fields in summer with a bulk
// trailer and out to the pastures in winter, for today's yards and a stack in each feed pasture,
// handed to the siting program (yard_siting). Money, or seconds while no price is given.

#include "core/haul/haul_account.h"
#include "core/haul/yard_siting.h"

namespace haylane {

inline constexpr int kBulkBales = 14;  // on the bulk trailer; common practice, no source

struct StackPlaces {
    std::vector<std::string> names;        // by site; today's yards first
    std::vector<bool> all_weather;         // by site; a stack in a pasture counts as not
    std::vector<std::string> not_reached;  // fields and pastures left out, with why
    double hay_kg = 0.0;                   // hauled in a year
    bool in_money = false;                 // false: costs are seconds
    std::size_t yards = 0;                 // of the sites, how many are today's
    std::optional<SitingResult> proven;
    std::optional<Siting> today;  // today's yards, used as well as they can be
};

// At most `most` places are used; 0 = as many as there are yards today. All hay of the hay fields
// (hay on hand where there are none) is fed, shared over pastures as herds need it. `ways` gives
// the winter day; summer is dry, without snow or thaw. Errors: those of HaulWays and choose_sites,
// "no_hay" (neither fields nor lots hold any).
[[nodiscard]] Result<StackPlaces> stack_places(const HaulWays& ways, int most);

}  // namespace haylane
