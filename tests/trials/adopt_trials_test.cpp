// Worked by hand: three feedings of two bales each at 400, 420 and 440 s are 210 s a bale.
#include "core/trials/adopt_trials.h"

#include "core/ranch/measured_figures.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

RawRow row(const std::string& rig, double feed_s, const std::string& date) {
    return {{{"rig", rig}, {"bales", 2.0}, {"feed_s", feed_s}, {"date", date}},
            {},
            "trials.csv, line 2"};
}

Ranch two_rigs() {
    Ranch ranch;
    ranch.rigs = {{.name = "A"}, {.name = "B"}};
    return ranch;
}

TEST(AdoptTrials, ThreeFeedingsAreARigsOwnTwoAreNot) {
    Ranch ranch = two_rigs();
    ranch.rigs[1].own.feed_m_per_s = 1.5;  // from tracks
    const std::vector<RawRow> rows = {row("A", 400.0, "2027-01-04"), row("A", 420.0, "2027-01-08"),
                                      row("A", 440.0, "2027-01-06"), row("B", 300.0, "2027-01-04"),
                                      row("B", 310.0, "2027-01-05")};
    EXPECT_TRUE(adopt_trials(rows, ranch).empty());
    ASSERT_TRUE(ranch.rigs[0].own.feed_s_per_bale.has_value());
    EXPECT_NEAR(*ranch.rigs[0].own.feed_s_per_bale, 210.0, 1e-9);
    EXPECT_EQ(ranch.rigs[0].own.trials, 3);
    EXPECT_FALSE(ranch.rigs[1].own.feed_s_per_bale.has_value());
    EXPECT_EQ(ranch.rigs[1].own.feed_m_per_s, 1.5);
}

TEST(AdoptTrials, NamesRowsOfARigThatIsNotThere) {
    Ranch ranch = two_rigs();
    const std::vector<RawRow> rows = {row("C", 400.0, "2027-01-04")};
    const Problems problems = adopt_trials(rows, ranch);
    ASSERT_EQ(problems.size(), 1U);
    EXPECT_EQ(problems[0].code, "trial_of_unknown_rig");
    EXPECT_EQ(problems[0].where, "trials.csv, line 2");
}

TEST(MeasuredFigures, AreUsedAndListedWithHowTheyWereMeasured) {
    Ranch ranch = two_rigs();
    const double usual = ranch.rigs[1].feed_m_per_s;
    OwnFigures& own = ranch.rigs[0].own;
    own.trials = 4;
    own.tracks = 5;
    own.newest = parse_day("2027-01-11");
    own.drift_downwind_m = 6.0;
    own.feed_m_per_s = 1.1176;  // 2.5 mph
    own.feed_l_per_bale = 3.785411784;
    use_measured(ranch);
    EXPECT_EQ(ranch.rigs[0].drift_downwind_m, 6.0);
    EXPECT_EQ(ranch.rigs[0].feed_m_per_s, 1.1176);
    EXPECT_EQ(ranch.rigs[1].feed_m_per_s, usual);
    const std::vector<Assumption> list = list_measured(ranch);
    ASSERT_EQ(list.size(), 3U);
    EXPECT_EQ(list[0].key, "A: feed_gal_per_bale");
    EXPECT_NEAR(list[0].value, 1.0, 1e-12);
    EXPECT_EQ(list[2].key, "A: feed_mph");
    EXPECT_NEAR(list[2].value, 2.5, 1e-12);
    for (const Assumption& one : list) {
        EXPECT_EQ(one.status, "measured");
        EXPECT_EQ(one.source,
                  "measured on the ranch: 4 trial feedings and 5 tracks, the last on 2027-01-11");
    }
}

}  // namespace
}  // namespace haylane
