#include "core/plan/hay_mix.h"

namespace haylane {

HayMix mix_of(const Ranch& ranch, const std::vector<LotPick>& picks) {
    HayMix mix{.quality = {0.0, 0.0, 0.0, 0.0, true}};
    HayQuality& sum = mix.quality;
    for (const LotPick& pick : picks) {
        const HayLot& lot = ranch[pick.lot];
        const double dm_kg = pick.count * lot.bale_dm_kg();
        mix.bales += pick.count;
        mix.dm_kg += dm_kg;
        sum.cp_ratio += dm_kg * lot.quality.cp_ratio;
        sum.tdn_ratio += dm_kg * lot.quality.tdn_ratio;
        sum.p_ratio += dm_kg * lot.quality.p_ratio;
        sum.k_ratio += dm_kg * lot.quality.k_ratio;
        sum.tested = sum.tested && lot.quality.tested;
    }
    if (mix.dm_kg <= 0.0) return mix;
    for (double* part : {&sum.cp_ratio, &sum.tdn_ratio, &sum.p_ratio, &sum.k_ratio})
        *part /= mix.dm_kg;
    return mix;
}

}  // namespace haylane
