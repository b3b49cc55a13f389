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

double mean_bale_dm_kg(const Ranch& ranch, const std::vector<int>& lots_left) {
    double dm = 0.0;
    double bales = 0.0;
    for (std::size_t l = 0; l < ranch.lots.size(); ++l) {
        dm += lots_left[l] * ranch.lots[l].bale_dm_kg();
        bales += lots_left[l];
    }
    return bales > 0.0 ? dm / bales : 500.0;
}

}  // namespace haylane
