#pragma once
// What nutrients on the ground would cost as bought fertiliser. Prices in the book's currency per
// kg of N, P2O5, K2O. Availability: the share that counts; 0.35 N and 0.85 P, K are Missouri
// extension's planning values, 1 counts all of it.

#include "core/deposit/excretion.h"

namespace haylane {

struct NutrientPrices {
    double n_per_kg = 0.0;
    double p2o5_per_kg = 0.0;
    double k2o_per_kg = 0.0;
};

struct Availability {
    double n_ratio = 1.0;
    double p_ratio = 1.0;
    double k_ratio = 1.0;
};

[[nodiscard]] constexpr double fertilizer_value(const Nutrients& on_ground,
                                                const NutrientPrices& prices,
                                                const Availability& available = {}) {
    return on_ground.n_kg * available.n_ratio * prices.n_per_kg +
           on_ground.p2o5_kg * available.p_ratio * prices.p2o5_per_kg +
           on_ground.k2o_kg * available.k_ratio * prices.k2o_per_kg;
}

}  // namespace haylane
