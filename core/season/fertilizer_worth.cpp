#include "core/season/fertilizer_worth.h"

#include <algorithm>

namespace haylane {

double nutrient_price_per_kg(double product_per_kg, double grade_ratio) {
    return product_per_kg / grade_ratio;
}

double second_price_per_kg(double product_per_kg, double n_grade_ratio, double n_price_per_kg,
                           double grade_ratio) {
    return std::max(0.0, product_per_kg - n_grade_ratio * n_price_per_kg) / grade_ratio;
}

std::optional<Worth> fertilizer_worth(const Nutrients& on_ground, const Settings& settings) {
    if (!settings.price_n_per_kg && !settings.price_p2o5_per_kg && !settings.price_k2o_per_kg)
        return std::nullopt;
    const NutrientPrices prices{settings.price_n_per_kg.value_or(0.0),
                                settings.price_p2o5_per_kg.value_or(0.0),
                                settings.price_k2o_per_kg.value_or(0.0)};
    return Worth{fertilizer_value(on_ground, prices),
                 fertilizer_value(on_ground, prices, kPlanningAvailability)};
}

}  // namespace haylane
