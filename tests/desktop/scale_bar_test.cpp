// Checked against lengths worked out by hand: 1 mile = 1,609.344 m, 1 ft = 0.3048 m
// (exact, international yard and pound agreement of 1959).

#include "app/desktop/map/scale_bar.h"

#include <ostream>

#include <gtest/gtest.h>

namespace haylane {
namespace {

struct Case {
    double longest_m;
    bool metric;
    double length_m;
    const char* text;
};

void PrintTo(const Case& value, std::ostream* out) {
    *out << value.text << " within " << value.longest_m << " m";
}

class ScaleBarOf : public testing::TestWithParam<Case> {};

TEST_P(ScaleBarOf, IsTheLongestRoundLengthThatFits) {
    const Case& want = GetParam();
    const auto bar = round_scale_bar(want.longest_m, want.metric);
    ASSERT_TRUE(bar.has_value());
    EXPECT_NEAR(bar->length_m, want.length_m, 1e-9 * want.length_m);
    EXPECT_EQ(bar->text.toStdString(), want.text);
}

INSTANTIATE_TEST_SUITE_P(
    Lengths, ScaleBarOf,
    testing::Values(Case{4000.0, false, 3218.688, "2 miles"},
                    Case{1609.344, false, 1609.344, "1 mile"},
                    Case{1609.0, false, 804.672, "½ mile"}, Case{402.0, false, 304.8, "1000 ft"},
                    Case{100.0, false, 60.96, "200 ft"}, Case{0.7, false, 0.6096, "2 ft"},
                    Case{4000.0, true, 2000.0, "2 km"}, Case{999.0, true, 500.0, "500 m"},
                    Case{0.3, true, 0.2, "0.2 m"}));

TEST(ScaleBar, IsLeftOutWhereNoRoundLengthFits) {
    EXPECT_FALSE(round_scale_bar(0.2, false).has_value());
    EXPECT_FALSE(round_scale_bar(0.01, true).has_value());
}

}  // namespace
}  // namespace haylane
