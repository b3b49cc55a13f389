// Sources: the paired sleep data of Student (1908, Biometrika 6), with the interval that textbooks
// and statistics packages print for them (figures from memory); a weighed and timed feeding of
// three bales by two rigs (common practice, no source); the rest is worked by hand beside the
// check.
#include "core/trials/compare_trials.h"

#include "core/base/units.h"
#include "core/trials/own_figures.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

using units::kLitersPerGallon;

TrialRun run(std::string rig, double bales, double fuel_gal, double feed_s) {
    TrialRun r;
    r.rig = std::move(rig);
    r.lot = "grass";
    r.bales = bales;
    r.fuel_l = fuel_gal * kLitersPerGallon;
    r.feed_s = feed_s;
    r.where = "trials.csv";
    return r;
}

// Extra hours of sleep, ten people: mean 1.58, 95 % interval 0.7001 to 2.4599 on 9 degrees of
// freedom.
TEST(MeanInterval, AgreesWithStudentsOwnData) {
    const std::vector<double> more{1.2, 2.4, 1.3, 1.3, 0.0, 1.0, 1.8, 0.8, 4.6, 1.4};
    const MeanInterval found = mean_interval(more);
    EXPECT_EQ(found.n, 10);
    EXPECT_NEAR(found.mean, 1.58, 1e-12);
    EXPECT_NEAR(*found.sd, 1.229995, 1e-6);
    EXPECT_NEAR(found.mean - *found.half_width, 0.7001142, 1e-6);
    EXPECT_NEAR(found.mean + *found.half_width, 2.4598858, 1e-6);
    EXPECT_FALSE(found.spans(0.0));
    EXPECT_TRUE(found.spans(2.4));
}

// t with one degree of freedom at 95 % is tan(0.95 pi / 2) = 12.7062: two values 1 apart give
// 12.7062 x 0.70711 / 1.41421 = 6.3531.
TEST(MeanInterval, TwoValuesSayLittleAndOneNothing) {
    const MeanInterval two = mean_interval(std::vector<double>{4.0, 5.0});
    EXPECT_NEAR(*two.half_width, 6.3531, 1e-4);
    const MeanInterval one = mean_interval(std::vector<double>{4.0});
    EXPECT_EQ(one.mean, 4.0);
    EXPECT_FALSE(one.half_width);
    EXPECT_FALSE(one.spans(4.0));
    EXPECT_EQ(mean_interval({}).n, 0);
}

// Common practice, no source: the same three bales, 1.17 gal and 19 min 52 s by a shredder on the
// PTO shaft, 66 s to hook up; 0.54 gal, 14 min 48 s and 57 s by an unroller.
TEST(CompareTrials, OneWeighedFeedingOfTwoRigs) {
    std::vector<TrialRun> runs{run("shredder", 3, 1.17, 1192.0), run("unroller", 3, 0.54, 888.0)};
    runs[0].hookup_s = 66.0;
    runs[1].hookup_s = 57.0;
    const TrialComparison found = compare_trials(runs);
    ASSERT_EQ(found.rigs.size(), 2U);
    const auto gal = [&](std::size_t rig) {
        return found.rigs[rig][TrialMeasure::fuel_l_per_bale].mean / kLitersPerGallon;
    };
    EXPECT_NEAR(gal(0), 0.39, 0.005);
    EXPECT_NEAR(gal(1), 0.18, 0.005);
    ASSERT_EQ(found.pairs.size(), 1U);
    EXPECT_EQ(found.pairs[0].pairs, 1);
    ASSERT_EQ(found.pairs[0].measures.size(), 3U);
    for (const PairedTrial& one : found.pairs[0].measures) {
        EXPECT_EQ(one.verdict, Verdict::one_pair);
        EXPECT_FALSE(one.difference.half_width);
    }
    EXPECT_NEAR(*found.pairs[0].measures[0].change_ratio, -0.54, 0.005);   // fuel a bale
    EXPECT_NEAR(*found.pairs[0].measures[1].change_ratio, -0.255, 0.005);  // 26 % less time
    EXPECT_NEAR(found.pairs[0].measures[2].difference.mean, -9.0, 1e-12);  // hook-up
    EXPECT_TRUE(found.unpaired.empty());
}

// 8.19 lb of diesel at 7.0 lb a gallon is 1.17 gal; 20 K warmer it takes 1.66 % more room.
TEST(Diesel, WeighedAndByVolumeAgree) {
    const double kg = 1.17 * 7.0 * units::kKgPerPound;
    EXPECT_NEAR(diesel_l(kg, std::nullopt), 1.17 * kLitersPerGallon, 1e-12);
    EXPECT_NEAR(diesel_l(kg, units::c_from_f(60.0)), 1.17 * kLitersPerGallon, 1e-12);
    EXPECT_NEAR(diesel_l(kg, units::c_from_f(96.0)) / (1.17 * kLitersPerGallon), 1.0166, 1e-4);
}

// Differences -0.2, -0.3, -0.4 gal: mean -0.3, sd 0.1, t of 2 degrees of freedom 4.3027: half
// width 0.2484. Differences -0.1, -0.3, -0.5: twice that, which holds 0.
TEST(CompareTrials, PairsBeforeItTells) {
    std::vector<TrialRun> runs;
    for (const double less : {0.2, 0.3, 0.4}) {
        runs.push_back(run("shredder", 1, 1.0, 300.0));
        runs.push_back(run("unroller", 1, 1.0 - less, 300.0));
        runs[runs.size() - 2].pair = runs.back().pair = std::to_string(less);
    }
    runs.push_back(run("unroller", 2, 1.0, 300.0));
    runs.back().pair = "alone";
    runs.back().where = "row 9";
    const TrialComparison found = compare_trials(runs);
    const PairedTrial& fuel = found.pairs.at(0).measures.at(0);
    EXPECT_EQ(fuel.verdict, Verdict::differs);
    EXPECT_NEAR(fuel.difference.mean / kLitersPerGallon, -0.3, 1e-12);
    EXPECT_NEAR(*fuel.difference.half_width / kLitersPerGallon, 0.2484, 1e-4);
    EXPECT_EQ(found.unpaired, std::vector<std::string>{"row 9"});
    runs[1].fuel_l = 0.9 * kLitersPerGallon;
    runs[5].fuel_l = 0.5 * kLitersPerGallon;
    EXPECT_EQ(compare_trials(runs).pairs.at(0).measures.at(0).verdict, Verdict::cannot_tell);
}

// 12 % CP in the bale and 10.8 % in the windrow: 1.2 points. With ash 8 and 17 %, the windrow's
// organic matter holds 10.8 / 0.83 = 13.012 %, of the bale's 92 %: 11.971 %, so 0.029 points are
// lost.
TEST(CompareTrials, SoilInTheWindrowIsNoLoss) {
    TrialRun r = run("shredder", 2, 1.0, 600.0);
    r.bale_kg = 600.0;
    r.in_bale = {0.88, 0.12, 0.56, std::nullopt};
    r.in_windrow = {std::nullopt, 0.108, 0.54, std::nullopt};
    EXPECT_NEAR(*figure_of(r, TrialMeasure::cp_lost_ratio), 0.012, 1e-12);
    EXPECT_NEAR(*figure_of(r, TrialMeasure::tdn_lost_ratio), 0.02, 1e-12);
    EXPECT_NEAR(*figure_of(r, TrialMeasure::fuel_l_per_kg_dm),
                kLitersPerGallon / (2.0 * 600.0 * 0.88), 1e-12);
    r.in_bale.ash_ratio = 0.08;
    r.in_windrow.ash_ratio = 0.17;
    EXPECT_NEAR(*figure_of(r, TrialMeasure::cp_lost_ratio), 0.12 - 0.108 / 0.83 * 0.92, 1e-12);
    EXPECT_NEAR(*figure_of(r, TrialMeasure::cp_lost_ratio), 0.00029, 1e-5);
    EXPECT_FALSE(figure_of(r, TrialMeasure::drift_downwind_m));
}

// 0.012 kg of CP at $1.10 and 0.02 kg of TDN at $0.30 a kg of dry matter.
TEST(CompareTrials, WorthOfWhatIsLost) {
    TrialRun r = run("shredder", 2, 1.0, 600.0);
    r.in_bale = {0.88, 0.12, 0.56, std::nullopt};
    r.in_windrow = {std::nullopt, 0.108, 0.54, std::nullopt};
    const TrialComparison found = compare_trials(std::vector{r});
    EXPECT_NEAR(*lost_worth_per_kg_dm(found.rigs[0], {1.10, 0.30}), 0.0192, 1e-12);
    EXPECT_NEAR(*lost_worth_per_kg_dm(found.rigs[0], {1.10, std::nullopt}), 0.0132, 1e-12);
    EXPECT_FALSE(lost_worth_per_kg_dm(found.rigs[0], {}));
}

TEST(OwnFigures, TakeThreeRunsAndOnlyWhatWasMeasured) {
    std::vector<TrialRun> runs{run("unroller", 2, 0.4, 500.0), run("unroller", 2, 0.6, 700.0)};
    EXPECT_EQ(own_figures(runs, "unroller").trials, 0);
    runs.push_back(run("unroller", 4, 1.0, 1200.0));
    runs.push_back(run("shredder", 1, 9.0, 100.0));
    runs[1].date = parse_day("2027-01-20");
    runs[0].hookup_s = 60.0;
    OwnFigures tracks;
    tracks.tracks = 5;
    tracks.feed_m_per_s = 0.7;
    tracks.newest = parse_day("2027-01-02");
    const OwnFigures own = own_figures(runs, "unroller", tracks);
    EXPECT_EQ(own.trials, 3);
    EXPECT_EQ(own.newest, parse_day("2027-01-20"));
    EXPECT_NEAR(*own.feed_s_per_bale, (250.0 + 350.0 + 300.0) / 3.0, 1e-12);
    EXPECT_NEAR(*own.feed_l_per_bale, (0.2 + 0.3 + 0.25) / 3.0 * kLitersPerGallon, 1e-12);
    EXPECT_FALSE(own.hookup_s);  // measured once
    EXPECT_EQ(own.tracks, 5);
    EXPECT_EQ(own.feed_m_per_s, 0.7);
}

}  // namespace
}  // namespace haylane
