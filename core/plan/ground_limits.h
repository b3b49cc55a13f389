#pragma once
// Per-acre limits of pastures as room: what lines may still add to each cell, through the window.

#include "core/deposit/excretion.h"
#include "core/plan/plan_request.h"
#include "core/ranch/ranch.h"

#include <string>
#include <vector>

namespace haylane {

// What a pasture limits, in the order n, p2o5, k2o.
struct NutrientLimit {
    Measure measure = Measure::p2o5;
    double kg_per_m2 = 0.0;
};
[[nodiscard]] std::vector<NutrientLimit> limits_of(const Pasture& pasture);
[[nodiscard]] double of_measure(const Nutrients& amounts, Measure measure);
[[nodiscard]] std::string spoken_measure(Measure measure);  // "P2O5"

// By limit of the pasture: kg a cell that lines may still add once what is there and what falls
// `elsewhere` (by nutrient, kg a cell, of kg 1 excreted, times `excreted`) is taken off. 0 where
// that alone is over the limit, infinity off target ground, where no limit is judged. A billionth
// of the limit is added, so that rounding never shuts ground.
[[nodiscard]] std::vector<Raster<double>> room_under_limits(const Pasture& pasture,
                                                            const PastureLoad& load,
                                                            const Raster<double>& elsewhere,
                                                            const Nutrients& excreted,
                                                            double window_m);
// A problem for each nutrient of which recorded feedings alone left more than the limit somewhere
// on target ground.
[[nodiscard]] Problems over_limit_already(const Ranch& ranch, const PastureLoad& load);

}  // namespace haylane
