#pragma once
// Bales of some lots taken together as one feed. kg are DM.

#include "core/plan/choose_lots.h"
#include "core/ranch/ranch.h"

#include <vector>

namespace haylane {

struct HayMix {
    int bales = 0;
    double dm_kg = 0.0;
    HayQuality quality;  // weighted by DM; tested when every lot is. All 0 without hay
};
[[nodiscard]] HayMix mix_of(const Ranch& ranch, const std::vector<LotPick>& picks);
// Of the bales that are left, by lot; 500 kg when there are none.
[[nodiscard]] double mean_bale_dm_kg(const Ranch& ranch, const std::vector<int>& lots_left);

}  // namespace haylane
