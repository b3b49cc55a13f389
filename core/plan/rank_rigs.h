#pragma once
// Orders the rigs that could feed a herd in a pasture by what a tonne of eaten hay costs with them:
// hay wasted, hours and fuel. Rigs that cannot get there with a load are left out.

#include "core/ground/feedable_ground.h"
#include "core/plan/plan_context.h"

#include <vector>

namespace haylane {

// Prices used only to compare choices where the user gave none; they are never shown as money.
struct RankPrices {
    double fuel_per_l = 1.0;
    double hour_per_s = 20.0 / 3600.0;
    double hay_per_kg = 0.13;
};
[[nodiscard]] RankPrices rank_prices(const Settings& settings);

// Stand-in cost of a second of driving: hours and fuel.
[[nodiscard]] double driving_cost_per_s(const Settings& settings, const Rig& rig);

struct RankedRig {
    RigId rig;
    double cost_per_kg_eaten = 0.0;
};
// Cheapest first, ties by id; for a herd fed in rings those that shred come last, as they are not
// made to set a bale down whole. `place` is where in the pasture the haul is measured to.
[[nodiscard]] std::vector<RankedRig> rank_rigs(PlanContext& context, sys_days day, HerdId herd,
                                               PastureId pasture, Point place);
// Stand-in cost of hauling one bale from a yard to a place with a rig; infinity when there is no
// way.
[[nodiscard]] double haul_cost_per_bale(PlanContext& context, sys_days day, const Rig& rig,
                                        YardId yard, PastureId pasture, Point place);

}  // namespace haylane
