// What numbers may be: nonsense is not used, the unusual is asked about and used as written.
// Weights from handbooks: a mature beef cow of 1,300 lb is 590 kg (NIST Handbook 44: 0.45359237
// kg/lb).
#include "core/ranch/plausible.h"

#include "tests/ranch/raw_maker.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::find_problem;
using testing::sound_ranch;

TEST(PlausibleNumbers, TheUsualLiesInTheAllowedAndEveryRowIsAColumnsOwn) {
    int with_usual = 0;
    int with_limits = 0;
    for (const ColumnSpec& spec : column_specs()) {
        const Plausible range = plausible(spec.role, spec.book);
        EXPECT_LE(range.allowed.least, range.allowed.most) << spec.role << '.' << spec.book;
        with_limits += range.allowed.most < std::numeric_limits<double>::max() ? 1 : 0;
        if (!range.usual) continue;
        ++with_usual;
        EXPECT_LT(range.usual->least, range.usual->most) << spec.role << '.' << spec.book;
        EXPECT_TRUE(range.allowed.holds(range.usual->least)) << spec.role << '.' << spec.book;
        EXPECT_TRUE(range.allowed.holds(range.usual->most)) << spec.role << '.' << spec.book;
    }
    EXPECT_EQ(with_usual, 49);  // as many rows as the table has, so that none misses its column
    EXPECT_GT(with_limits, 40);
}

TEST(PlausibleNumbers, PoundsWrittenAsKilogramsAreAskedAboutAndUsed) {
    RawRanch raw = sound_ranch();
    raw.roles["herds"][0].fields["weight_kg"] = 1300.0;
    CHECKED_RANCH(checked, raw);
    EXPECT_PROBLEM(checked, "number_unusual", Severity::warning, "Was it meant in pounds?");
    ASSERT_EQ(checked.ranch.herds.size(), 1U);
    EXPECT_DOUBLE_EQ(checked.ranch.herds[0].weight_kg, 1300.0);
}

TEST(PlausibleNumbers, TheOtherSlipsOfUnit) {
    const struct {
        const char* role;
        const char* column;
        double value;
        const char* asked;
    } slips[] = {{"rigs", "turn_radius_m", 30.0, "feet"},      // 30 ft are 9 m
                 {"hay", "bale_kg", 1250.0, "pounds"},         // 567 kg
                 {"hay", "bale_kg", 120.0, "kilograms"},       // 265 kg taken for pounds
                 {"hay", "cp_ratio", 0.00094, "share of 1"}};  // 0.094 in a column of per cent
    for (const auto& slip : slips) {
        RawRanch raw = sound_ranch();
        raw.roles[slip.role][0].fields[slip.column] = slip.value;
        CHECKED_RANCH(checked, raw);
        EXPECT_PROBLEM(checked, "number_unusual", Severity::warning, slip.asked);
        EXPECT_EQ(checked.ranch.rigs.size() + checked.ranch.lots.size(), 2U);
    }
}

TEST(PlausibleNumbers, NonsenseIsNotUsed) {
    const struct {
        const char* role;
        const char* column;
        double value;
        const char* code;
    } cells[] = {{"herds", "head", 0.0, "number_out_of_range"},
                 {"herds", "head", -3.0, "negative_number"},
                 {"herds", "weight_kg", std::nan(""), "not_a_number"},
                 {"herds", "weight_kg", std::numeric_limits<double>::infinity(), "not_a_number"},
                 {"hay", "bales", -1.0, "negative_number"},
                 {"hay", "bales", 1e300, "number_out_of_range"},
                 {"rigs", "pto_w", -std::numeric_limits<double>::infinity(), "not_a_number"}};
    for (const auto& cell : cells) {
        RawRanch raw = sound_ranch();
        raw.roles[cell.role][0].fields[cell.column] = cell.value;
        CHECKED_RANCH(checked, raw);
        EXPECT_PROBLEM(checked, cell.code, Severity::error, cell.column);
        EXPECT_EQ(
            checked.ranch.herds.size() + checked.ranch.lots.size() + checked.ranch.rigs.size(), 2U);
    }
}

TEST(PlausibleNumbers, MoreThanAWholeIsNotUsed) {
    RawRanch raw = sound_ranch();
    raw.roles["hay"][0].fields["dm_ratio"] = 1.2;
    CHECKED_RANCH(checked, raw);
    EXPECT_PROBLEM(checked, "number_out_of_range", Severity::warning, "dm_ratio");
    EXPECT_LE(checked.ranch.lots.at(0).dm_ratio, 1.0);
}

TEST(PlausibleNumbers, ASoundRanchIsNotAskedAnything) {
    CHECKED_RANCH(checked, sound_ranch());
    EXPECT_EQ(find_problem(checked, "number_unusual"), nullptr);
}

}  // namespace
}  // namespace haylane
