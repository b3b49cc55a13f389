// The milking ration is taken as a mix of rich and plain hay that just meets protein; the rich part
// of all milking days to come is summed over herds and set against the rich hay on hand.
#include "core/plan/held_back.h"

#include "core/ration/requirement.h"

#include <algorithm>

namespace haylane {

namespace {

constexpr int kDaysToGrass = 90;

struct HayKinds {
    double rich_dm_kg = 0.0;
    double plain_dm_kg = 0.0;
    double rich_cp_dm_kg = 0.0;
    double plain_cp_dm_kg = 0.0;
};

bool is_rich(const HayLot& lot, const Requirement& milking) {
    return lot.kind != HayKind::straw && lot.quality.cp_ratio >= milking.cp_ratio;
}

HayKinds count_kinds(const Ranch& ranch, const std::vector<int>& left, const Requirement& milking) {
    HayKinds kinds;
    for (std::size_t l = 0; l < ranch.lots.size(); ++l) {
        const HayLot& lot = ranch.lots[l];
        if (lot.kind == HayKind::straw) continue;
        const double dm = left[l] * lot.bale_dm_kg();
        const bool rich = is_rich(lot, milking);
        (rich ? kinds.rich_dm_kg : kinds.plain_dm_kg) += dm;
        (rich ? kinds.rich_cp_dm_kg : kinds.plain_cp_dm_kg) += dm * lot.quality.cp_ratio;
    }
    return kinds;
}

double milking_need_kg(const Ranch& ranch, sys_days day) {
    const sys_days end = ranch.settings.turnout.value_or(day + std::chrono::days{kDaysToGrass});
    double need = 0.0;
    for (const Herd& herd : ranch.herds) {
        int milking_days = 0;
        for (sys_days d = day; d < end; d += std::chrono::days{1})
            milking_days += is_lactating(stage_on(herd, d)) ? 1 : 0;
        need += herd.head * herd.weight_kg * ranch.settings.intake_lactating_ratio * milking_days /
                (1.0 - ranch.settings.waste_unroll_ratio);
    }
    return need;
}

}  // namespace

std::vector<double> free_share(const Ranch& ranch, const std::vector<int>& left, sys_days day) {
    std::vector<double> share(ranch.lots.size(), 1.0);
    const auto milking = requirement(Stage::lactating);
    if (!milking) return share;
    const HayKinds kinds = count_kinds(ranch, left, *milking);
    if (kinds.rich_dm_kg <= 0.0) return share;
    const double rich_cp = kinds.rich_cp_dm_kg / kinds.rich_dm_kg;
    const double plain_cp =
        kinds.plain_dm_kg > 0.0 ? kinds.plain_cp_dm_kg / kinds.plain_dm_kg : 0.0;
    const double rich_part =
        std::clamp((milking->cp_ratio - plain_cp) / (rich_cp - plain_cp), 0.0, 1.0);
    const double held = milking_need_kg(ranch, day) * rich_part;
    const double free = std::clamp(1.0 - held / kinds.rich_dm_kg, 0.0, 1.0);
    for (std::size_t l = 0; l < ranch.lots.size(); ++l) {
        if (is_rich(ranch.lots[l], *milking)) share[l] = free;
    }
    return share;
}

}  // namespace haylane
