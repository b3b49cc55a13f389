// Checks against the first numbers of SplitMix64 for seed 1234567 as printed with its public
// reference code, and against plain statistics of uniform numbers.
#include "core/base/random.h"

#include <array>

#include <gtest/gtest.h>

namespace haylane {
namespace {

TEST(Random, GivesTheReferenceNumbers) {
    Random random(1234567);
    for (const std::uint64_t expected :
         {6457827717110365317ULL, 3203168211198807973ULL, 9817491932198370423ULL,
          4593380528125082431ULL, 16408922859458223821ULL})
        EXPECT_EQ(random.bits(), expected);
}

TEST(Random, SameSeedSameNumbersOtherSeedOthers) {
    Random a(9);
    Random b(9);
    Random c(10);
    int same = 0;
    for (int i = 0; i < 1000; ++i) {
        const std::uint64_t bits = a.bits();
        EXPECT_EQ(bits, b.bits());
        same += bits == c.bits() ? 1 : 0;
    }
    EXPECT_EQ(same, 0);
}

TEST(Random, IsUniformInItsRange) {
    Random random(4);
    double sum = 0.0;
    std::array<int, 10> counts{};
    for (int i = 0; i < 100000; ++i) {
        const double u = random.uniform();
        ASSERT_GE(u, 0.0);
        ASSERT_LT(u, 1.0);
        sum += u;
        ++counts.at(random.below(10));
    }
    EXPECT_NEAR(sum / 100000.0, 0.5, 0.005);                        // five standard errors
    for (const int count : counts) EXPECT_NEAR(count, 10000, 475);  // five standard deviations
}

}  // namespace
}  // namespace haylane
