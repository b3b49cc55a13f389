// A user corrects a cut: the track is cut again and its feedings are proposed anew. The small
// ranch has one herd, so what was laid is fed to it.
#include "app/session/correct_cut.h"

#include "gis/book/make_book.h"
#include "tests/support/drive.h"
#include "tests/support/temp_folder.h"

#include <fstream>
#include <limits>

#include <gtest/gtest.h>

namespace haylane {
namespace {

class CorrectCut : public ::testing::Test {
  protected:
    testing::TempFolder temp_;  // first: the paths below stand in it
    const std::filesystem::path book_ = temp_ / "ranch.gpkg";
    double line_from_s_ = 0.0;  // of the line driven
    double line_to_s_ = 0.0;

    Result<OpenRanch> open_book() {
        const auto made =
            make_book(HAYLANE_SOURCE_DIR "/sample-maps/broken/setback_missing", book_, false);
        if (!made) return fail(made.error());
        return open_ranch(book_);
    }
    // From the stack through the gate, 270 m across the pasture at a speed, and home.
    LogRequest drive(double m_per_s) {
        testing::Drive drive(14 * 3600);
        drive.start_at(-103.40027653, 46.30286559);
        drive.stand(300);
        drive.to(-103.40026143, 46.30338378, 3.0);
        drive.stand(60);
        drive.to(-103.4020, 46.3045, 3.0);
        const double midnight_s = static_cast<double>(
            std::chrono::sys_seconds(*parse_day("2027-01-11")).time_since_epoch().count());
        line_from_s_ = midnight_s + drive.now_s();
        drive.to(-103.3985, 46.3045, m_per_s);
        line_to_s_ = midnight_s + drive.now_s() - 1;
        drive.to(-103.40026143, 46.30338378, 3.0);
        drive.to(-103.40027653, 46.30286559, 3.0);
        drive.stand(120);
        std::ofstream(temp_ / "drive.gpx") << drive.gpx();
        return {.files = {temp_ / "drive.gpx"}, .herd = {}, .rig = {}, .lot = {}, .bales = {}};
    }
};

TEST_F(CorrectCut, WhatWasNotLaidIsNoFeedingAndHalfALineIsHalfAsLong) {
    const auto open = open_book();
    ASSERT_TRUE(open) << open.error().what;
    const auto proposal = propose_log(*open, drive(0.67));
    ASSERT_TRUE(proposal) << proposal.error().what;
    ASSERT_EQ(proposal->feedings.size(), 1U);
    EXPECT_NEAR(proposal->feedings[0].length_m, 270.0, 15.0);

    const auto none =
        correct_cut(*open, *proposal, 0, line_from_s_ - 20, line_to_s_ + 20, Motion::hauling);
    ASSERT_TRUE(none) << none.error().what;
    EXPECT_TRUE(none->feedings.empty());
    ASSERT_EQ(none->tracks[0].told.size(), 1U);

    const double middle_s = 0.5 * (line_from_s_ + line_to_s_);
    const auto half =
        correct_cut(*open, *proposal, 0, middle_s, line_to_s_ + 20, Motion::returning);
    ASSERT_TRUE(half) << half.error().what;
    ASSERT_EQ(half->feedings.size(), 1U);
    EXPECT_NEAR(half->feedings[0].length_m, 135.0, 12.0);
    // What was told stays told when more is.
    const auto back = correct_cut(*open, *half, 0, middle_s, line_to_s_, Motion::laying);
    ASSERT_TRUE(back) << back.error().what;
    ASSERT_EQ(back->feedings.size(), 1U);
    EXPECT_NEAR(back->feedings[0].length_m, 270.0, 15.0);
    EXPECT_EQ(back->tracks[0].told.size(), 2U);
}

// Laid at three times the book's speed: nothing is found until it is told, and then it is recorded
// as told.
TEST_F(CorrectCut, WhatWasLaidUnseenBecomesAFeedingAndIsRecorded) {
    const auto open = open_book();
    ASSERT_TRUE(open) << open.error().what;
    const auto proposal = propose_log(*open, drive(2.2));
    ASSERT_TRUE(proposal) << proposal.error().what;
    EXPECT_TRUE(proposal->feedings.empty());
    const auto told = correct_cut(*open, *proposal, 0, line_from_s_, line_to_s_, Motion::laying);
    ASSERT_TRUE(told) << told.error().what;
    ASSERT_EQ(told->feedings.size(), 1U);
    EXPECT_EQ(told->feedings[0].entry.herd, "Cows");
    EXPECT_NEAR(told->feedings[0].length_m, 270.0, 24.0);  // 12 m an end
    EXPECT_GT(told->feedings[0].confidence, 0.95);
    const auto accepted = accept_log(*open, *told);
    ASSERT_TRUE(accepted) << accepted.error().what;
    const auto stored = stored_tracks(book_);
    ASSERT_TRUE(stored);
    ASSERT_EQ(stored->size(), 1U);
    EXPECT_NEAR((*stored)[0].figures.laying.m_per_s(), 2.2, 0.15);
}

TEST_F(CorrectCut, TimesAndTracksThatAreNotThereAreErrors) {
    const auto open = open_book();
    ASSERT_TRUE(open) << open.error().what;
    const auto proposal = propose_log(*open, drive(0.67));
    ASSERT_TRUE(proposal) << proposal.error().what;
    const auto no_track = correct_cut(*open, *proposal, 1, 0.0, 1.0, Motion::laying);
    ASSERT_FALSE(no_track);
    EXPECT_EQ(no_track.error().code, "unknown_track");
    const double nan = std::numeric_limits<double>::quiet_NaN();
    for (const auto& [from_s, to_s] : {std::pair{0.0, 1.0}, std::pair{line_to_s_, line_from_s_},
                                       std::pair{nan, nan}, std::pair{-1e300, -1e299}}) {
        const auto never = correct_cut(*open, *proposal, 0, from_s, to_s, Motion::laying);
        ASSERT_FALSE(never);
        EXPECT_EQ(never.error().code, "told_nothing");
        EXPECT_EQ(never.error().where, "drive.gpx");
    }
}

}  // namespace
}  // namespace haylane
