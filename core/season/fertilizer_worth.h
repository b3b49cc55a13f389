#pragma once
// What nutrients on the ground are worth as bought fertiliser, by the price rule of New Mexico
// State University's Guide A-133: the price of a nutrient is the product's over its grade, less
// what its nitrogen is worth where it holds two. Prices in the book's currency per kg.

#include "core/deposit/fertilizer_value.h"

#include <optional>

namespace haylane {

// Of a product with one nutrient: urea 46-0-0 has grade 0.46. Grade > 0.
[[nodiscard]] double nutrient_price_per_kg(double product_per_kg, double grade_ratio);
// Of the other nutrient beside nitrogen: DAP 18-46-0 has n_grade 0.18, grade 0.46. Never below 0.
[[nodiscard]] double second_price_per_kg(double product_per_kg, double n_grade_ratio,
                                         double n_price_per_kg, double grade_ratio);

// Missouri extension's planning values: 35 % of N and 85 % of P and K count for plants.
inline constexpr Availability kPlanningAvailability{0.35, 0.85, 0.85};

struct Worth {
    double full = 0.0;       // every kg on the ground
    double available = 0.0;  // as kPlanningAvailability counts them
};
// nullopt while the settings name none of the three prices; one that is missing counts as nothing.
[[nodiscard]] std::optional<Worth> fertilizer_worth(const Nutrients& on_ground,
                                                    const Settings& settings);

}  // namespace haylane
