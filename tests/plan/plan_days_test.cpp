// The whole plan on a small ranch: the rules that never yield, whole bales, running need, mass.
#include "core/plan/plan_days.h"

#include "core/plan/check_plan.h"
#include "core/ration/requirement.h"
#include "tests/support/driving_rules.h"
#include "tests/support/small_ranch.h"

#include <cmath>
#include <stop_token>
#include <string_view>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::day;
using testing::small_ranch;

PlanResult planned(const CheckedRanch& checked, int threads = 1) {
    auto result =
        plan_days(checked, {.from = day("2026-01-10"), .days = 7, .seed = 3, .threads = threads});
    EXPECT_TRUE(result.has_value())
        << (result ? "" : result.error().what + " " + result.error().where);
    return result ? std::move(*result) : PlanResult{};
}

TEST(PlanDays, KeepsEveryRuleThatNeverYields) {
    const CheckedRanch checked = small_ranch();
    const PlanResult result = planned(checked);
    ASSERT_EQ(result.plan.feedings.size(), 7U + 4U);
    for (const BrokenRule& broken : check_plan(checked.ranch, result.plan))
        ADD_FAILURE() << broken.rule << " at " << broken.where << " by " << broken.by;
}

// Need by hand: 150 head x 590 kg x 2.0 % = 1770 kg eaten a day, / (1 - waste). Intake: midpoint of
// extension tables; waste 12 % unrolled, 19 % shredded, Lacombe trial.
TEST(PlanDays, RunningHayIsAheadOfNeedByLessThanABale) {
    const CheckedRanch checked = small_ranch();
    const PlanResult result = planned(checked);
    double offered = 0.0;
    double needed = 0.0;
    int days = 0;
    for (const PlannedFeeding& feeding : result.plan.feedings) {
        if (feeding.herd != HerdId::at(0)) continue;
        ++days;
        const double waste = feeding.rig == RigId::at(0) ? 0.12 : 0.19;
        needed += 150 * 590.0 * 0.020 / (1.0 - waste);
        double heaviest = 0.0;
        for (const BaleDraw& draw : feeding.bales) {
            const HayLot& lot = checked.ranch.lots[draw.lot.index()];
            offered += draw.count * lot.bale_kg * lot.dm_ratio;
            heaviest = std::max(heaviest, lot.bale_kg * lot.dm_ratio);
        }
        EXPECT_GE(offered - needed, -1e-6);
        EXPECT_LT(offered - needed, heaviest);
    }
    EXPECT_EQ(days, 7);
}

TEST(PlanDays, TheRanchersOwnBalesADayRule) {
    const CheckedRanch checked = small_ranch();
    const PlanResult result = planned(checked);
    int bales = 0;
    double due = 0.0;
    for (const PlannedFeeding& feeding : result.plan.feedings) {
        if (feeding.herd != HerdId::at(1)) continue;
        due += 2.5 * 2;
        for (const BaleDraw& draw : feeding.bales) bales += draw.count;
        EXPECT_GE(bales, due - 1e-9);
        EXPECT_LT(bales, due + 1.0);
    }
    EXPECT_EQ(due, 20.0);
}

// CP 7 % and TDN 55 % in mid gestation: Alberta Agdex 420/52-4.
TEST(PlanDays, RationMeetsTheStage) {
    const CheckedRanch checked = small_ranch();
    for (const PlannedFeeding& feeding : planned(checked).plan.feedings) {
        if (feeding.herd != HerdId::at(0)) continue;
        EXPECT_GE(feeding.cp_ratio, 0.07 - 1e-9);
        EXPECT_GE(feeding.tdn_ratio, 0.55 - 1e-9);
    }
}

TEST(PlanDays, MassOnTheGroundEqualsTheBalanceOfBalesFed) {
    const CheckedRanch checked = small_ranch();
    const PlanResult result = planned(checked);
    double n_kg = 0.0;
    double residue_kg = 0.0;
    double hay_n_kg = 0.0;
    double balance_n_kg = 0.0;
    for (const PlannedFeeding& feeding : result.plan.feedings) {
        n_kg += feeding.deposit.n_kg;
        residue_kg += feeding.deposit.residue_dm_kg;
        const double waste = checked.ranch[feeding.rig].waste_ratio;
        double n_in = 0.0;
        for (const BaleDraw& draw : feeding.bales) {
            const HayLot& lot = checked.ranch[draw.lot];
            n_in += draw.count * lot.bale_dm_kg() * lot.quality.cp_ratio / 6.25;
        }
        hay_n_kg += n_in;
        balance_n_kg += feeding.deposit.n_kg + feeding.deposit.n_lost_gas_kg +
                        n_in * (1.0 - waste) * checked.ranch.settings.retained_n_ratio;
    }
    EXPECT_NEAR(balance_n_kg / hay_n_kg, 1.0, 1e-9);
    double map_n_kg = 0.0;
    double map_residue_kg = 0.0;
    for (const PastureLoad& load : result.loads) {
        for (std::size_t c = 0; c < load.after().n_kg.values.size(); ++c) {
            map_n_kg += load.after().n_kg.values[c] - load.before.n_kg.values[c];
            map_residue_kg +=
                load.after().residue_dm_kg.values[c] - load.before.residue_dm_kg.values[c];
            if (load.ground.mask.values[c] == 0) {
                EXPECT_EQ(load.after().n_kg.values[c], 0.0);
            }
        }
    }
    EXPECT_NEAR(map_n_kg / n_kg, 1.0, 1e-9);
    EXPECT_NEAR(map_residue_kg / residue_kg, 1.0, 1e-9);
}

TEST(PlanDays, GroundEndsUpMoreEvenThanItWas) {
    const PlanResult result = planned(small_ranch());
    bool seen = false;
    for (const PastureEvenness& even : result.plan.evenness) {
        if (even.measure != "p2o5" || even.pasture != PastureId::at(0)) continue;
        seen = true;
        ASSERT_TRUE(even.before && even.after);
        EXPECT_LT(even.after->cv_ratio, even.before->cv_ratio);
    }
    EXPECT_TRUE(seen);
    EXPECT_LE(result.plan.optimality.lower_bound, result.plan.optimality.objective);
}

TEST(PlanDays, SameForOneAndTwoThreads) {
    const CheckedRanch checked = small_ranch();
    const PlanResult one = planned(checked, 1);
    const PlanResult two = planned(checked, 2);
    ASSERT_EQ(one.plan.feedings.size(), two.plan.feedings.size());
    for (std::size_t f = 0; f < one.plan.feedings.size(); ++f) {
        ASSERT_EQ(one.plan.feedings[f].lines.size(), two.plan.feedings[f].lines.size());
        for (std::size_t l = 0; l < one.plan.feedings[f].lines.size(); ++l)
            EXPECT_EQ(one.plan.feedings[f].lines[l].path, two.plan.feedings[f].lines[l].path);
        EXPECT_EQ(one.plan.feedings[f].loads.front().time_s,
                  two.plan.feedings[f].loads.front().time_s);
    }
    EXPECT_EQ(one.plan.optimality.objective, two.plan.optimality.objective);
    EXPECT_EQ(one.plan.optimality.lower_bound, two.plan.optimality.lower_bound);
    for (std::size_t p = 0; p < one.loads.size(); ++p)
        EXPECT_EQ(one.loads[p].after().n_kg.values, two.loads[p].after().n_kg.values);
}

TEST(PlanDays, RoutesCrossFencesOnlyAtGates) {
    const CheckedRanch checked = small_ranch();
    int crossings = 0;
    for (const PlannedFeeding& feeding : planned(checked).plan.feedings) {
        for (const PlannedLoad& load : feeding.loads) {
            for (const PlannedLeg& leg : load.legs) {
                for (std::size_t i = 1; i < leg.path.size(); ++i) {
                    for (const Pasture& pasture : checked.ranch.pastures) {
                        for (const Polyline& fence : boundary_lines(pasture.shape)) {
                            for (std::size_t e = 1; e < fence.size(); ++e) {
                                const auto at = segment_crossing(leg.path[i - 1], leg.path[i],
                                                                 fence[e - 1], fence[e]);
                                if (!at) continue;
                                ++crossings;
                                EXPECT_LE(std::min(distance_m(*at, {200, 0}),
                                                   distance_m(*at, {800, 400})),
                                          10.0);
                            }
                        }
                    }
                }
            }
        }
    }
    EXPECT_GT(crossings, 0);
}

// Loads of several lines, by a rig with a machine on a hitch.
TEST(PlanDays, LoadsAreDrivenForwardOffHayLaidThatDay) {
    CheckedRanch checked = small_ranch();
    for (Rig& rig : checked.ranch.rigs) {
        rig.bales_per_trip = 4;
        rig.hitch_m = 4.0;
        rig.lay_kg_per_m_max = 2.5;
    }
    checked.ranch.herds[1].pastures = {PastureId::at(0)};  // both herds in one pasture
    checked.ranch.pastures[0].shape = testing::square(0, 0, 800, 420);
    const PlanResult result = planned(checked);
    const test::DrivenPlan driven = test::driven_plan(checked.ranch, result.plan);
    for (const std::string& broken : driven.broken) ADD_FAILURE() << broken;
    EXPECT_GT(driven.joins, 3);
    EXPECT_GT(driven.turns_in, 20);
    EXPECT_EQ(driven.backed_up, 0);
    EXPECT_EQ(driven.over_hay, 0);
    for (const PlannedFeeding& f : result.plan.feedings)
        for (const PlannedLoad& load : f.loads) {
            double legs_m = 0.0;
            for (const PlannedLeg& leg : load.legs) {
                EXPECT_NEAR(length_m(leg.path), leg.length_m, 0.1);
                legs_m += leg.length_m;
            }
            EXPECT_NEAR(load.distance_m, legs_m, 1e-6);
        }
}

// A lane too narrow to turn in: the herd is fed all the same, and the driver is told.
TEST(PlanDays, WhereARigCannotTurnTheHerdIsFedAndTheDriverTold) {
    CheckedRanch checked = small_ranch();
    checked.ranch.herds.resize(1);
    checked.ranch.herds[0].pastures = {PastureId::at(0)};
    checked.ranch.herds[0].head = 60;
    checked.ranch.pastures[0].shape = testing::square(185, 0, 215, 800);
    for (Rig& rig : checked.ranch.rigs) rig.turn_radius_m = 14.0;
    checked.ranch.feedings.clear();
    const PlanResult result = planned(checked);
    ASSERT_GE(result.plan.feedings.size(), 6U);
    bool told = false;
    for (const PlannedFeeding& f : result.plan.feedings) {
        EXPECT_FALSE(f.lines.empty());
        told = told || test::has_caution(f, "no_turn");
    }
    EXPECT_TRUE(told);
    EXPECT_TRUE(test::driven_plan(checked.ranch, result.plan).broken.empty());
}

TEST(PlanDays, NoHayIsAnErrorThatNamesHerdAndDay) {
    CheckedRanch checked = small_ranch();
    for (HayLot& lot : checked.ranch.lots) lot.bales = 3;
    const auto result = plan_days(checked, {.from = day("2026-01-10")});
    ASSERT_FALSE(result.has_value());
    EXPECT_EQ(result.error().code, "hay_short");
    EXPECT_NE(result.error().where.find("2026-01-1"), std::string::npos);
    EXPECT_FALSE(result.error().remedy.empty());
}

TEST(PlanDays, ClosedGateMovesTheHerdsLineOrSaysWhy) {
    CheckedRanch checked = small_ranch();
    const auto result =
        plan_days(checked, {.from = day("2026-01-10"), .days = 2, .blocked = {"South gate"}});
    ASSERT_FALSE(result.has_value());
    EXPECT_EQ(result.error().code, "yard_unreachable");
    EXPECT_NE(result.error().what.find("South gate"), std::string::npos);
}

TEST(PlanDays, ThawKeepsOffSoftGround) {
    CheckedRanch checked = small_ranch();
    checked.ranch.soft = {{"bottom", testing::square(0, 420, 800, 800)}};
    for (int d = 0; d < 7; ++d)
        checked.ranch.weather.push_back({.date = day("2026-01-10") + std::chrono::days{d},
                                         .low_c = -5.0,
                                         .high_c = 6.0,
                                         .thaw = true});
    const PlanResult result = planned(checked);
    ASSERT_FALSE(result.plan.feedings.empty());
    for (const BrokenRule& broken : check_plan(checked.ranch, result.plan))
        ADD_FAILURE() << broken.rule << " at " << broken.where << " by " << broken.by;
}

// Running hay of herd 0, checked after each feeding, over all days of the plan so far.
void expect_running(const CheckedRanch& checked, const PlanResult& result, double need_a_day_kg,
                    double window_kg) {
    double offered = 0.0;
    double told_need = 0.0;
    for (const PlannedFeeding& feeding : result.plan.feedings) {
        if (feeding.herd != HerdId::at(0)) continue;
        const auto days = static_cast<double>((feeding.date - day("2026-01-10")).count() + 1);
        for (const BaleDraw& draw : feeding.bales)
            offered += draw.count * checked.ranch[draw.lot].bale_dm_kg();
        told_need += feeding.dm_needed_kg;
        EXPECT_GE(offered, need_a_day_kg * days - 1e-6);
        EXPECT_LT(offered, need_a_day_kg * days + window_kg);
        EXPECT_NEAR(told_need, need_a_day_kg * days, 1e-6);
    }
}

TEST(PlanDays, ABaleThatLastsSeveralDaysIsFedAgainWhenItIsGone) {
    CheckedRanch checked = small_ranch();
    checked.ranch.herds[0].head = 12;  // 12 x 590 x 2 % / 0.88 = 161 kg a day, a bale is 504 or 519
    const PlanResult result = planned(checked);
    int feedings = 0;
    for (const PlannedFeeding& f : result.plan.feedings)
        feedings += f.herd == HerdId::at(0) ? 1 : 0;
    EXPECT_GE(feedings, 2);
    EXPECT_LT(feedings, 7);
    expect_running(checked, result, 12 * 590.0 * 0.020 / 0.88, 590.0 * 0.88);
}

TEST(PlanDays, WholeLoadsWhereTheHerdAsksForThem) {
    CheckedRanch checked = small_ranch();
    checked.ranch.herds[0].round_to = RoundTo::load;
    const PlanResult result = planned(checked);
    for (const PlannedFeeding& f : result.plan.feedings) {
        if (f.herd != HerdId::at(0)) continue;
        for (const PlannedLoad& load : f.loads) EXPECT_EQ(load.bale_count, 2);
    }
    expect_running(checked, result, 150 * 590.0 * 0.020 / 0.88, 2 * 590.0 * 0.88);
}

TEST(PlanDays, LinesBeyondAnUncrossedCreekAreNotChosen) {
    CheckedRanch checked = small_ranch();
    checked.ranch.herds.resize(1);
    checked.ranch.off_limits = {{.name = "creek",
                                 .kind = OffLimitsKind::water,
                                 .setback_m = 30.5,
                                 .setback_given = true,
                                 .lines = {{{-10, 500}, {810, 500}}}}};
    const PlanResult result = planned(checked);
    ASSERT_EQ(result.plan.feedings.size(), 7U);
    for (const PlannedFeeding& f : result.plan.feedings) {
        for (const PlannedLine& line : f.lines) EXPECT_LT(line.path.front().y, 500.0);
        for (const PlannedLoad& load : f.loads) EXPECT_EQ(load.legs.size(), 3U);
    }
    EXPECT_TRUE(std::isfinite(result.plan.optimality.j_ref));
}

TEST(PlanDays, ADayOnRecordIsNotPlannedAgain) {
    CheckedRanch checked = small_ranch();
    checked.ranch.feedings.push_back({.from = day("2026-01-10"),
                                      .to = day("2026-01-10"),
                                      .herd = HerdId::at(0),
                                      .pasture = PastureId::at(0),
                                      .bales = 4.0,
                                      .bale_dm_kg = 510.0});
    const PlanResult result = planned(checked);
    for (const PlannedFeeding& f : result.plan.feedings) {
        if (f.herd == HerdId::at(0)) {
            EXPECT_GT(f.date, day("2026-01-10"));
        }
    }
    EXPECT_EQ(result.plan.feedings.size(), 6U + 4U);
}

TEST(PlanDays, OwnCountIsToldBesideTheTables) {
    const PlanResult result = planned(small_ranch());
    for (const PlannedFeeding& f : result.plan.feedings) {
        const bool told = f.why.find("Your own count is") != std::string::npos;
        EXPECT_EQ(told, f.herd == HerdId::at(1));
    }
}

// Stopped as a stage begins, it fails so, and no later stage is ever told of.
TEST(PlanDays, StopsWithinTheStageThatIsUnderWay) {
    const CheckedRanch checked = small_ranch();
    for (const std::string_view stage : {"feed", "ground so far", "lines", "hauls"}) {
        std::stop_source stop;
        std::string_view last;
        PlanRequest request{.from = day("2026-01-10"), .days = 3};
        request.progress.stop = stop.get_token();
        request.progress.report = [&](std::string_view now, double) {
            last = now;
            if (now == stage) stop.request_stop();
        };
        const auto plan = plan_days(checked, request);
        ASSERT_FALSE(plan) << stage;
        EXPECT_EQ(plan.error().code, "cancelled");
        EXPECT_EQ(last, stage);
    }
}

}  // namespace
}  // namespace haylane
