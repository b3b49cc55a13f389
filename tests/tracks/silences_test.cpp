// What happened while the receiver was silent, by what the rig did before and after.
#include "core/tracks/make_pieces.h"

#include <cmath>

#include <gtest/gtest.h>

namespace haylane {
namespace {

// A drive without noise, a fix a second, that is silent for a while.
class SilentDrive {
  public:
    // Goes `time_s` at a velocity; fixes are kept unless it is silent.
    void go(double time_s, Point m_per_s, Motion motion, bool silent) {
        for (double t = 0.0; t < time_s; t += 1.0) {
            now_s_ += 1.0;
            at_ = at_ + m_per_s;
            if (silent) continue;
            fixes_.fixes.push_back({{at_, m_per_s, now_s_, 0}, 1.0, 0.1});
            fixes_.breaks.push_back(fixes_.fixes.size() == 1);
            motions_.push_back(motion);
        }
    }
    // What the unseen fix is taken for, if one is put in.
    [[nodiscard]] std::vector<Piece> pieces(Motion unseen) const {
        const Ranch ranch;
        const SeenDrive drive = seen_drive(fixes_, DrivePlaces(ranch, 60.0), {});
        std::vector<Motion> motions;
        std::size_t next = 0;
        for (const bool one : drive.unseen) motions.push_back(one ? unseen : motions_[next++]);
        const std::vector<float> sure(motions.size(), 1.0F);
        return make_pieces({drive, motions, sure}, {1.0, 3.0});
    }
    [[nodiscard]] Point at() const { return at_; }
    [[nodiscard]] double now_s() const { return now_s_; }

  private:
    DriveFixes fixes_;
    std::vector<Motion> motions_;
    Point at_;
    double now_s_ = 0.0;
};

constexpr Point kLay{1.0, 0.0};
constexpr Point kBack{-1.0, 2.5};

TEST(Silences, ALineThatEndsInOneEndsWhereItsSpeedTakesIt) {
    SilentDrive drive;
    drive.go(100, kLay, Motion::laying, false);
    drive.go(25, kLay, Motion::laying, true);
    const Point end = drive.at();
    const double end_s = drive.now_s();
    drive.go(65, kBack, Motion::returning, true);
    drive.go(60, kBack, Motion::returning, false);
    for (const Motion unseen : {Motion::laying, Motion::returning}) {
        const auto pieces = drive.pieces(unseen);
        ASSERT_EQ(pieces.size(), 2U);
        EXPECT_LT(distance_m(pieces[0].path.back(), end), 1.5);
        EXPECT_NEAR(pieces[0].end_s, end_s, 1.5);
        EXPECT_EQ(pieces[1].path.front(), pieces[0].path.back());
        EXPECT_EQ(pieces[1].start_s, pieces[0].end_s);
        EXPECT_EQ(pieces[0].path.size(), pieces[0].times_s.size());
    }
}

TEST(Silences, ALineThatBeginsInOneIsFoundBackwards) {
    SilentDrive drive;
    drive.go(60, kBack, Motion::hauling, false);
    drive.go(30, kBack, Motion::hauling, true);
    const Point begin = drive.at();
    drive.go(50, kLay, Motion::laying, true);
    drive.go(100, kLay, Motion::laying, false);
    const auto pieces = drive.pieces(Motion::laying);
    ASSERT_EQ(pieces.size(), 2U);
    EXPECT_LT(distance_m(pieces[1].path.front(), begin), 1.5);
    EXPECT_NEAR(length_m(pieces[1].path), 150.0, 2.0);
}

TEST(Silences, AStandStaysInItsPlace) {
    SilentDrive drive;
    drive.go(40, {}, Motion::stopped, false);
    drive.go(30, {}, Motion::stopped, true);
    const double off_s = drive.now_s();
    drive.go(40, kLay, Motion::laying, true);
    drive.go(100, kLay, Motion::laying, false);
    const auto pieces = drive.pieces(Motion::stopped);
    ASSERT_EQ(pieces.size(), 2U);
    EXPECT_NEAR(pieces[1].start_s, off_s, 1.5);
    EXPECT_NEAR(pieces[1].length_m, 140.0, 1.5);
    EXPECT_EQ(pieces[0].path.size(), 1U);
}

// Laying before it and standing after it, and neither explains how far it got.
TEST(Silences, ADriveThatNoFixSawIsAPiece) {
    SilentDrive drive;
    drive.go(100, kLay, Motion::laying, false);
    drive.go(80, kBack, Motion::returning, true);
    drive.go(40, {}, Motion::stopped, false);
    const auto pieces = drive.pieces(Motion::returning);
    ASSERT_EQ(pieces.size(), 3U);
    EXPECT_EQ(pieces[1].motion, Motion::returning);
    EXPECT_LT(pieces[0].length_m, 110.0);
    EXPECT_NEAR(pieces[1].length_m, 80.0 * norm_m(kBack), 15.0);
}

}  // namespace
}  // namespace haylane
