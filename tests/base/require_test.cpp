// Checks that a broken precondition stops the program with its place, and a kept one does nothing.
#include "core/base/require.h"

#include "core/base/result.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

TEST(RequireDeathTest, StopsWithTheMessageAndItsPlace) {
    GTEST_FLAG_SET(death_test_style, "threadsafe");
    require(true, "fine");
    EXPECT_DEATH(require(false, "spacing above 0"), "spacing above 0 .*require_test.cpp");
}

TEST(Result, CarriesAValueOrAnError) {
    const Result<int> good = 3;
    const Result<int> bad = fail(Error{"file_unreadable", "cannot be read", "a.csv", "check it"});
    ASSERT_TRUE(good.has_value());
    EXPECT_EQ(*good, 3);
    ASSERT_FALSE(bad.has_value());
    EXPECT_EQ(bad.error().where, "a.csv");
}

}  // namespace
}  // namespace haylane
