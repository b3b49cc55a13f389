#include "core/season/value_class.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace haylane {
namespace {

TEST(ValueClass, StepsByOneTwoFive) {
    struct Row {
        double value, from, to;
    };
    for (const Row& row : {Row{37, 20, 50},
                           {20, 20, 50},
                           {1.0, 1, 2},
                           {999, 500, 1000},
                           {0.03, 0.02, 0.05},
                           {-37, -50, -20},
                           {5, 5, 10}}) {
        const ValueClass found = class_of(row.value);
        EXPECT_NEAR(found.from, row.from, 1e-12) << row.value;
        EXPECT_NEAR(found.to, row.to, 1e-12) << row.value;
    }
    EXPECT_EQ(class_of(0.0).to, 0.0);
    EXPECT_TRUE(std::isinf(class_of(std::numeric_limits<double>::infinity()).from));
}

}  // namespace
}  // namespace haylane
