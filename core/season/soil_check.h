#pragma once
// Soil tests beside what feeding had left there by then: does the lab see what the map shows?
// Methods are never mixed: each is compared with itself.

#include "core/deposit/pasture_ground.h"
#include "core/season/ledger.h"

#include <optional>
#include <string>
#include <vector>

namespace haylane {

struct SoilPoint {
    std::size_t sample = 0;  // place in ranch.soil
    PastureId pasture;
    double p2o5_per_m2 = 0.0;  // put down before the sample was taken, kg, through the window
    double k2o_per_m2 = 0.0;
    bool fed_before = false;  // some feeding of the pasture is older than the sample
    bool old = false;         // over four years before the last day on record, or undated
};

// Samples taken in this pasture. A zone (polygon) belongs to the pasture that holds its middle, and
// takes the mean of its cells there. Cost: one map for each date of sampling.
[[nodiscard]] std::vector<SoilPoint> soil_points(const Ranch& ranch, const PastureGround& ground,
                                                 const Feedings& feedings);

// How test and load go together over all samples of one method taken after feeding began.
struct SoilRelation {
    std::string method;
    int samples = 0;
    std::optional<double> p_rank;  // Spearman's, soil P (ppm) with P2O5 put down
    std::optional<double> k_rank;  // soil K with K2O
};
[[nodiscard]] std::vector<SoilRelation> soil_relations(const Ranch& ranch,
                                                       const std::vector<SoilPoint>& points);

}  // namespace haylane
