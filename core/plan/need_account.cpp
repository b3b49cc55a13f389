#include "core/plan/need_account.h"

#include <cmath>

namespace haylane {

namespace {

constexpr double kEpsilonBales = 1e-9;
constexpr double kEpsilon_kg = 1e-6;

}  // namespace

bool NeedAccount::due(const FeedNeed& need) const {
    return need.bales ? due_bales(*need.bales) > 0 : due_kg(need) > kEpsilon_kg;
}

int NeedAccount::due_bales(double bales) const {
    return static_cast<int>(std::ceil(bales - surplus_bales_ - kEpsilonBales));
}

void NeedAccount::skip(const FeedNeed& need) {
    if (need.bales) {
        surplus_bales_ -= *need.bales;
        skipped_bales_ += *need.bales;
    } else {
        surplus_kg_ -= need.offered_kg;
        skipped_kg_ += need.offered_kg;
    }
}

NeedAccount::Amounts NeedAccount::amounts(FeedNeed need, const HayMix& mix,
                                          double waste_ratio) const {
    if (!need.bales) {
        need.eaten_kg += skipped_kg_ * (1.0 - waste_ratio);
        return {need, need.offered_kg + skipped_kg_};
    }
    const double bale = mix.dm_kg / mix.bales;
    const double left = surplus_bales_ + mix.bales - *need.bales;
    const double before = surplus_bales_ + skipped_bales_;
    need.offered_kg = mix.dm_kg - left * bale + before * last_bale_dm_kg_;
    need.eaten_kg = need.offered_kg * (1.0 - waste_ratio);
    return {need, need.offered_kg};
}

void NeedAccount::feed(const FeedNeed& need, const HayMix& mix) {
    if (need.bales) {
        surplus_bales_ += mix.bales - *need.bales;
        last_bale_dm_kg_ = mix.dm_kg / mix.bales;
    } else {
        surplus_kg_ += mix.dm_kg - need.offered_kg;
    }
    skipped_kg_ = 0.0;
    skipped_bales_ = 0.0;
}

}  // namespace haylane
