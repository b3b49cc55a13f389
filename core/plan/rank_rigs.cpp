// The way out and back at the route's own time, loading and laying by the rig's figures, fuel at
// half of rated power: enough to rank rigs; the plan's own figures come from load_work afterwards.
#include "core/plan/rank_rigs.h"

#include "core/haul/fuel.h"
#include "core/plan/ring_feeding.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace haylane {

namespace {

constexpr double kHaulLoadRatio = 0.5;

double mean_bale_kg(const Ranch& ranch) {
    double kg = 0.0;
    double bales = 0.0;
    for (const HayLot& lot : ranch.lots) {
        kg += lot.bales * lot.bale_kg;
        bales += lot.bales;
    }
    return bales > 0.0 ? kg / bales : 600.0;
}

}  // namespace

RankPrices rank_prices(const Settings& s) {
    RankPrices prices;
    if (s.fuel_price_per_m3) prices.fuel_per_l = *s.fuel_price_per_m3 / 1000.0;
    if (s.labor_per_s || s.machine_per_s)
        prices.hour_per_s = s.labor_per_s.value_or(0.0) + s.machine_per_s.value_or(0.0);
    return prices;
}

double driving_cost_per_s(const Settings& s, const Rig& rig) {
    const RankPrices prices = rank_prices(s);
    return prices.hour_per_s +
           prices.fuel_per_l * fuel_rate_l_per_s(kHaulLoadRatio, rig.pto_w, s.throttle_cut_ratio);
}

double haul_cost_per_bale(PlanContext& context, sys_days day, const Rig& rig, YardId yard,
                          PastureId pasture, Point place) {
    const Settings& s = context.ranch().settings;
    const double way_s = context.travel(day, rig).time_s(yard, pasture, place);
    if (!std::isfinite(way_s)) return std::numeric_limits<double>::infinity();
    const double bale_kg = mean_bale_kg(context.ranch());
    const double lay_s =
        rig.own.feed_s_per_bale.value_or(bale_kg / rig.lay_kg_per_m_max / rig.feed_m_per_s);
    const double time_s =
        2.0 * way_s / rig.bales_per_trip + rig.load_s_per_bale.value_or(s.load_bale_s) + lay_s;
    return time_s * driving_cost_per_s(s, rig);
}

std::vector<RankedRig> rank_rigs(PlanContext& context, sys_days day, HerdId herd, PastureId pasture,
                                 Point place) {
    const Ranch& ranch = context.ranch();
    const double bale_kg = mean_bale_kg(ranch);
    std::vector<RankedRig> ranked;
    for (std::size_t r = 0; r < ranch.rigs.size(); ++r) {
        const Rig& rig = ranch.rigs[r];
        double nearest = std::numeric_limits<double>::infinity();
        for (std::size_t y = 0; y < ranch.yards.size(); ++y)
            nearest = std::min(
                nearest, haul_cost_per_bale(context, day, rig, YardId::at(y), pasture, place));
        if (nearest == std::numeric_limits<double>::infinity()) continue;
        const double per_kg = nearest / bale_kg + rank_prices(ranch.settings).hay_per_kg;
        const double waste = waste_ratio_of(ranch, herd, RigId::at(r));
        ranked.push_back({RigId::at(r), per_kg / (1.0 - waste)});
    }
    const auto sets_bales_down = [&](const RankedRig& one) {
        return !is_fed_in_rings(ranch, herd) || ranch[one.rig].method != Method::shred;
    };
    std::stable_sort(ranked.begin(), ranked.end(), [&](const RankedRig& a, const RankedRig& b) {
        if (sets_bales_down(a) != sets_bales_down(b)) return sets_bales_down(a);
        return a.cost_per_kg_eaten < b.cost_per_kg_eaten;
    });
    return ranked;
}

}  // namespace haylane
