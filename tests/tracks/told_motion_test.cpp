// What a person says of a cut holds, and the rest goes with it.
#include "core/tracks/cut_track.h"
#include "tests/tracks/simulated_morning.h"

#include <algorithm>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::Morning;

CutTrack cut_of(const Morning& morning, const std::vector<ToldMotion>& told = {}) {
    return cut_track(morning.ranch, clean_track(morning.track),
                     drive_speeds(morning.ranch, morning.ranch.rigs[0]), told);
}

// The pieces without a break between them, and the time that is of one motion within some time.
double time_of(const CutTrack& cut, Motion motion, double from_s, double to_s) {
    double sum = 0.0;
    for (const Piece& piece : cut.pieces)
        if (piece.motion == motion)
            sum += std::max(0.0, std::min(to_s, piece.end_s) - std::max(from_s, piece.start_s));
    return sum;
}

const Piece& longest(const CutTrack& cut, Motion motion) {
    return *std::max_element(cut.pieces.begin(), cut.pieces.end(),
                             [motion](const Piece& a, const Piece& b) {
                                 const double a_m = a.motion == motion ? a.length_m : -1.0;
                                 const double b_m = b.motion == motion ? b.length_m : -1.0;
                                 return a_m < b_m;
                             });
}

TEST(ToldMotion, AnyMotionHoldsForItsTimeWhateverItLookedLike) {
    const Morning morning = testing::simulated_morning(3);
    const CutTrack before = cut_of(morning);
    const Piece laid = longest(before, Motion::laying);
    const double third_s = laid.time_s() / 3.0;
    const double from_s = laid.start_s + third_s;
    const double to_s = laid.end_s - third_s;
    for (const Motion motion : kMotions) {
        SCOPED_TRACE(std::string(to_string(motion)));
        const CutTrack cut = cut_of(morning, {{from_s, to_s, motion}});
        EXPECT_NEAR(time_of(cut, motion, from_s, to_s), to_s - from_s, 2.0);
        // Far from it nothing changes.
        for (const Motion other : kMotions)
            EXPECT_NEAR(time_of(cut, other, 0.0, laid.start_s - 60.0),
                        time_of(before, other, 0.0, laid.start_s - 60.0), 1.0);
        const auto told = std::find_if(cut.pieces.begin(), cut.pieces.end(), [&](const Piece& one) {
            return one.start_s <= to_s - third_s / 2 && one.end_s >= to_s - third_s / 2;
        });
        ASSERT_NE(told, cut.pieces.end());
        EXPECT_EQ(told->motion, motion);
        if (motion != Motion::laying) EXPECT_NEAR(told->confidence, 1.0, 0.05);
    }
}

TEST(ToldMotion, TheLaterOfTwoWins) {
    const Morning morning = testing::simulated_morning(3);
    const Piece laid = longest(cut_of(morning), Motion::laying);
    const double middle_s = 0.5 * (laid.start_s + laid.end_s);
    const CutTrack cut = cut_of(morning, {{laid.start_s, laid.end_s, Motion::hauling},
                                          {middle_s, laid.end_s, Motion::returning}});
    EXPECT_NEAR(time_of(cut, Motion::hauling, laid.start_s, middle_s), middle_s - laid.start_s,
                2.0);
    EXPECT_NEAR(time_of(cut, Motion::returning, middle_s, laid.end_s), laid.end_s - middle_s, 2.0);
    EXPECT_EQ(time_of(cut, Motion::laying, laid.start_s + 1.0, laid.end_s - 1.0), 0.0);
}

// A bale that broke open over ten feet: shorter than what counts as laying unasked.
TEST(ToldMotion, ToldLayingMayBeShort) {
    const Morning morning = testing::simulated_morning(3);
    const Piece hauled = longest(cut_of(morning), Motion::hauling);
    const double middle_s = 0.5 * (hauled.start_s + hauled.end_s);
    const CutTrack cut = cut_of(morning, {{middle_s, middle_s + 3.0, Motion::laying}});
    EXPECT_GT(time_of(cut, Motion::laying, middle_s, middle_s + 3.0), 1.0);
}

// Length that was hauled and is called laying.
double mistaken_m(const Morning& morning, const CutTrack& cut) {
    double sum = 0.0;
    for (std::size_t i = 1; i < morning.truth.size(); ++i) {
        const auto& now = morning.truth[i];
        if (now.motion != Motion::hauling && now.motion != Motion::returning) continue;
        if (time_of(cut, Motion::laying, now.time_s - 0.05, now.time_s + 0.05) > 0.0)
            sum += distance_m(morning.truth[i - 1].at, now.at);
    }
    return sum;
}

// The book says a feeding speed far too high, so hauling looks like laying; the first line told,
// its speed is known and the rest of the morning is put right too.
TEST(ToldMotion, OneToldLinePutsTheOthersRight) {
    double before_m = 0.0;
    double after_m = 0.0;
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
        Morning morning = testing::simulated_morning(seed, {.interval_s = 2.0});
        morning.ranch.rigs[0].feed_m_per_s *= 1.5;
        const auto laying = [](const testing::TruthStep& one) {
            return one.motion == Motion::laying;
        };
        const auto first = std::find_if(morning.truth.begin(), morning.truth.end(), laying);
        const auto last = std::find_if_not(first, morning.truth.end(), laying);
        before_m += mistaken_m(morning, cut_of(morning));
        after_m += mistaken_m(
            morning, cut_of(morning, {{first->time_s, (last - 1)->time_s, Motion::laying}}));
    }
    EXPECT_GT(before_m, 1000.0) << "nothing was there to put right";
    EXPECT_LT(after_m, 0.2 * before_m);
}

}  // namespace
}  // namespace haylane
