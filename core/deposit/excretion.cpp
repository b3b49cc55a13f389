// Mass balance: excreted = eaten x concentration x (1 - retained). The faecal regression of Zanton
// & Heinrichs (2008, J Dairy Sci 91:1519) is homogeneous in intake, so it is applied to the whole
// feeding at once instead of to a head and a day.
#include "core/deposit/excretion.h"

#include <algorithm>

namespace haylane {

namespace {

constexpr double kFaecalNPerDm = 6.51e-3;  // kg N per kg DM eaten
constexpr double kFaecalNPerN = 0.036;     // kg N per kg N eaten

Nutrients scaled(const Nutrients& of, double n, double p, double k) {
    return {of.n_kg * n, of.p2o5_kg * p, of.k2o_kg * k};
}

}  // namespace

DepositSplit excretion(const ExcretionInput& input, const Settings& settings) {
    const double dm_kg = input.dm_offered_kg;
    const double waste = input.waste_ratio;
    DepositSplit split;
    split.residue_dm_kg = waste * dm_kg;
    split.in_hay = {dm_kg * input.quality.cp_ratio / kProteinPerN,
                    dm_kg * input.quality.p_ratio * kP2o5PerP,
                    dm_kg * input.quality.k_ratio * kK2oPerK};
    split.residue = scaled(split.in_hay, waste, waste, waste);
    const Nutrients eaten = scaled(split.in_hay, 1.0 - waste, 1.0 - waste, 1.0 - waste);
    split.retained = scaled(eaten, settings.retained_n_ratio, settings.retained_p_ratio,
                            settings.retained_k_ratio);
    split.excreted = {eaten.n_kg - split.retained.n_kg, eaten.p2o5_kg - split.retained.p2o5_kg,
                      eaten.k2o_kg - split.retained.k2o_kg};
    const double faecal_kg = kFaecalNPerDm * (1.0 - waste) * dm_kg + kFaecalNPerN * eaten.n_kg;
    split.dung_n_kg = std::min(faecal_kg, split.excreted.n_kg);
    split.urine_n_kg = split.excreted.n_kg - split.dung_n_kg;
    split.n_lost_gas_kg =
        settings.gas_urine_n_ratio * split.urine_n_kg + settings.gas_dung_n_ratio * split.dung_n_kg;
    split.excreted.n_kg -= split.n_lost_gas_kg;
    return split;
}

}  // namespace haylane
