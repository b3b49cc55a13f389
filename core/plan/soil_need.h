#pragma once
// How much of an even share ground should get by its soil tests: phosphorus speaks for P2O5,
// potassium for K2O, and nothing for N, as nitrate of one autumn says little of the next. Full need
// up to a low value of the method, soil_high_weight from its high value on, straight between.
// Methods are never mixed: one speaks for the whole ranch.

#include "core/base/problem.h"
#include "core/deposit/deposit_map.h"
#include "core/deposit/pasture_ground.h"

#include <string>
#include <vector>

namespace haylane {

// What soil tests of the one method that is used say of a measure.
struct SoilTests {
    struct Zone {
        const MultiPolygon* area = nullptr;  // of the ranch
        double need_ratio = 1.0;
    };
    struct Lone {  // the only point of its method in a pasture
        PastureId pasture;
        double need_ratio = 1.0;
    };
    std::string method;       // as the first such test writes it; empty: none speaks
    std::vector<Zone> zones;  // oldest first, undated ones before all
    std::vector<Lone> points;
    // soil_test_old, soil_methods_differ, soil_method_unknown, soil_points_silent
    Problems problems;
};
// The method with the most zones and lone points is used; of equal ones that of the newest test,
// then the first in file order. A test is old when it was taken more than soil_test_years before
// `from`, or when its date is not given.
[[nodiscard]] SoilTests soil_tests(const Ranch& ranch, Measure measure, sys_days from);

// By cell: the need of the newest zone that holds its centre, 1 outside them. A pasture that no
// zone reaches takes that of its lone point. Empty where no test speaks.
[[nodiscard]] Raster<double> soil_need(const SoilTests& tests, const PastureGround& ground);

}  // namespace haylane
