#pragma once
// What a feeding leaves on the ground by mass balance: residue, dung and urine as N, P2O5, K2O, and
// what is lost as gas or kept by the animals. kg; total for valid settings (ratios in [0, 1]).

#include "core/ranch/ranch.h"

namespace haylane {

inline constexpr double kProteinPerN = 6.25;  // CP = 6.25 N
inline constexpr double kP2o5PerP = 2.2914;   // by atomic weights
inline constexpr double kK2oPerK = 1.2046;

struct Nutrients {
    double n_kg = 0.0;
    double p2o5_kg = 0.0;
    double k2o_kg = 0.0;
};

struct DepositSplit {
    double residue_dm_kg = 0.0;
    Nutrients residue;        // in the hay left over
    Nutrients excreted;       // reaches the ground after gas loss
    double dung_n_kg = 0.0;   // before gas loss
    double urine_n_kg = 0.0;  // before gas loss
    double n_lost_gas_kg = 0.0;
    Nutrients retained;  // kept by the animals (P, K as P2O5, K2O)
    Nutrients in_hay;    // all of it: residue + excreted + lost + retained
};

struct ExcretionInput {
    double dm_offered_kg = 0.0;
    HayQuality quality;  // DM-weighted over the lots
    double waste_ratio = 0.12;
    // Has no effect while the faecal N regression has no intercept: head and days cancel out.
    double intake_kg_per_head_day = 11.0;
};
// Faecal N = 6.51 DMI + 0.036 N intake, g per head and day (Zanton & Heinrichs 2008), urine the
// rest of what is excreted; never negative: dung takes all when the regression asks for more.
[[nodiscard]] DepositSplit excretion(const ExcretionInput& input, const Settings& settings);

}  // namespace haylane
