// Recorded drives into feedings, as a user does it. The drive follows the planned lines of the day
// at the rig's feeding speed, with a wobble that a receiver would add.
#include "tests/cli/run_program.h"
#include "tests/support/drive.h"

#include <fstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace haylane {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using testing::Drive;
using testing::has;
using testing::Ran;
using testing::run_program;
using testing::slurp;

class Log : public ::testing::Test {
  protected:
    testing::TempFolder temp_;  // first: the paths below stand in it
    const std::string ranch_ = HAYLANE_SOURCE_DIR "/sample-maps/broken/setback_missing";
    const std::string book_ = (temp_ / "ranch.gpkg").string();
    const std::string track_ = (temp_ / "drive.gpx").string();

    Ran run(const std::string& arguments) { return run_program(temp_, arguments); }
    void make_book_and_plan() {
        ASSERT_EQ(run("new " + book_ + " --from " + ranch_).code, 0);
        ASSERT_EQ(
            run("plan " + book_ + " --from 2027-01-11 --days 1 -o " + (temp_ / "week").string())
                .code,
            0);
        plan_ = json::parse(slurp(temp_ / "week/plan.json"));
    }
    // Plans the day anew, the same each time.
    int bales_left() {
        const json hay = json::parse(run("plan " + book_ + " --from 2027-01-11 --days 1 -o " +
                                         (temp_ / "later").string() + " --json")
                                         .out);
        return hay["hay_left"][0]["count"].get<int>() + hay["totals"]["bales"].get<int>();
    }
    // From the stack through the gate along each planned line of the day, from 14:00 UTC.
    void drive_the_plan(int start_s = 14 * 3600, double aside_deg = 0.0) {
        const json lines = json::parse(slurp(temp_ / "week/lines.geojson"));
        Drive drive(start_s);
        drive.start_at(-103.40027653, 46.30286559);
        drive.stand(300);
        drive.to(-103.40026143, 46.30338378, 3.0);
        drive.stand(60);
        for (const json& line : lines["features"]) {
            const json& places = line["geometry"]["coordinates"];
            const auto aside = [aside_deg](const json& degrees) {
                return degrees.get<double>() + aside_deg;
            };
            drive.to(aside(places[0][0]), aside(places[0][1]), 3.0);
            for (const json& place : places) drive.to(aside(place[0]), aside(place[1]), 0.67);
        }
        drive.to(-103.40026143, 46.30338378, 3.0);
        drive.to(-103.40027653, 46.30286559, 3.0);
        drive.stand(120);
        std::ofstream(track_) << drive.gpx();
    }
    json plan_;
};

TEST_F(Log, ProposesAcceptsOnceAndUndoes) {
    make_book_and_plan();
    drive_the_plan();
    const int before = 200;  // hay.csv
    const int planned = plan_["totals"]["bales"];

    const Ran shown = run("log " + book_ + " " + track_);
    EXPECT_EQ(shown.code, 0) << shown.err;
    EXPECT_TRUE(has(shown.out, "2027-01-11 Cows in ")) << shown.out;
    EXPECT_TRUE(has(shown.out, "(as planned)")) << shown.out;
    EXPECT_TRUE(has(shown.out, "on the planned day")) << shown.out;
    EXPECT_TRUE(has(shown.out, "Nothing is recorded yet")) << shown.out;

    const json proposal = json::parse(run("log " + book_ + " " + track_ + " --json").out);
    ASSERT_EQ(proposal["feedings"].size(), 1U);
    const json& feeding = proposal["feedings"][0];
    EXPECT_EQ(feeding["bales"][0]["count"].get<int>(), planned);
    EXPECT_FALSE(feeding["found"].get<bool>());
    EXPECT_LT(feeding["off_m"].get<double>(), 3.0);
    const double length = plan_["feedings"][0]["line_length_m"];
    EXPECT_NEAR(feeding["length_m"].get<double>(), length, 24.0);
    const double planned_cv = feeding["planned_cv"];
    EXPECT_NEAR(feeding["laid_cv"].get<double>() / planned_cv, 1.0, 0.03);

    const Ran accepted = run("log " + book_ + " " + track_ + " --accept");
    EXPECT_EQ(accepted.code, 0) << accepted.err;
    EXPECT_TRUE(has(accepted.out, "Recorded 2027-01-11: Cows")) << accepted.out;
    EXPECT_EQ(bales_left(), before - planned);
    const std::string book = slurp(book_);
    const Ran again = run("log " + book_ + " " + track_ + " --accept");
    EXPECT_EQ(again.code, 0);
    EXPECT_TRUE(has(again.out, "already in the book")) << again.out;
    EXPECT_EQ(slurp(book_), book) << "the same file twice changes nothing";

    const Ran undone = run("log " + book_ + " --undo");
    EXPECT_EQ(undone.code, 0) << undone.err;
    EXPECT_TRUE(has(undone.out, "drive.gpx")) << undone.out;
    EXPECT_EQ(bales_left(), before);
    EXPECT_EQ(run("log " + book_ + " --undo").code, 1);
    EXPECT_EQ(run("log " + book_ + " " + track_ + " --accept").code, 0);
}

TEST_F(Log, WhatNoPlanKnewOfIsFoundAndTakesTheBalesThatWereTold) {
    make_book_and_plan();
    drive_the_plan(14 * 3600, 0.0006);  // 67 m north and 46 m east of the plan
    const json proposal =
        json::parse(run("log " + book_ + " " + track_ + " --bales 3 --lot Grass --json").out);
    ASSERT_EQ(proposal["feedings"].size(), 1U);
    EXPECT_TRUE(proposal["feedings"][0]["found"].get<bool>());
    EXPECT_EQ(proposal["feedings"][0]["bales_from"], "told");
    EXPECT_EQ(proposal["feedings"][0]["bales"][0]["count"], 3);
    const json guessed = json::parse(run("log " + book_ + " " + track_ + " --json").out);
    EXPECT_EQ(guessed["feedings"][0]["bales_from"], "length");
}

TEST_F(Log, FilesAndSpeedsAreCounted) {
    make_book_and_plan();
    drive_the_plan();
    const json log = json::parse(run("log " + book_ + " " + track_ + " --json").out);
    ASSERT_EQ(log["files"].size(), 1U);
    const json& file = log["files"][0];
    EXPECT_EQ(file["file"], "drive.gpx");
    EXPECT_EQ(file["points"], log["tracks"][0]["points"]);
    EXPECT_EQ(file["points_unused"], 0);
    EXPECT_EQ(
        file["dropped"],
        (json{
            {"no_time", 0}, {"no_place", 0}, {"repeated", 0}, {"time_goes_back", 0}, {"jump", 0}}));
    EXPECT_EQ(file["held_standing"], 0);  // the stop at the gate, near the stack, is loading
    EXPECT_EQ(file["gaps"], 0);
    double pieces_m = 0.0;
    for (const json& piece : log["tracks"][0]["pieces"])
        if (piece["motion"] == "laying") pieces_m += piece["length_m"].get<double>();
    EXPECT_NEAR(file["cut"]["laying"]["length_m"].get<double>(), pieces_m, 1e-6);
    EXPECT_NEAR(pieces_m, plan_["feedings"][0]["line_length_m"].get<double>(), 24.0);
    double all_s = 0.0;
    for (const auto& one : file["cut"].items()) all_s += one.value()["time_s"].get<double>();
    EXPECT_NEAR(all_s, file["points"].get<double>() - 1.0, 1e-6) << "a point a second";

    ASSERT_EQ(log["own_speeds"].size(), 1U);
    const json& speeds = log["own_speeds"][0];
    EXPECT_EQ(speeds["rig"], "Unroller");
    EXPECT_EQ(speeds["tracks"], 1);
    EXPECT_EQ(speeds["accepted"], 0);
    EXPECT_EQ(speeds["laying"]["n"], 1);
    EXPECT_NEAR(speeds["laying"]["m_per_s"].get<double>(), 0.67, 0.04);
    EXPECT_TRUE(speeds["laying"]["in_use_m_per_s"].is_null());
    EXPECT_EQ(speeds["hauling"]["gravel"]["n"], 0);
    EXPECT_TRUE(speeds["hauling"]["gravel"]["m_per_s"].is_null());

    const Ran shown = run("log " + book_ + " " + track_);
    EXPECT_TRUE(has(shown.out, "mph  by 1 track, ")) << shown.out;
    // The same drive on two more days: the third makes the speed the rig's own.
    ASSERT_EQ(run("log " + book_ + " " + track_ + " --accept").code, 0);
    for (const int day : {1, 2}) {
        drive_the_plan(day * 86400 + 14 * 3600);
        ASSERT_EQ(run("log " + book_ + " " + track_ + " --accept").code, 0);
    }
    drive_the_plan(3 * 86400 + 14 * 3600);
    const json fourth = json::parse(run("log " + book_ + " " + track_ + " --json").out);
    const json& own = fourth["own_speeds"][0];
    EXPECT_EQ(own["accepted"], 3);
    EXPECT_EQ(own["laying"]["n"], 4);
    EXPECT_NEAR(own["laying"]["in_use_m_per_s"].get<double>(), 0.67, 0.04);
}

TEST_F(Log, WhatTheUserSaysOfACutHolds) {
    make_book_and_plan();
    drive_the_plan();
    const std::string log = "log " + book_ + " " + track_;
    const Ran pieces = run(log + " --pieces");
    EXPECT_TRUE(has(pieces.out, "% sure")) << pieces.out;
    // UTC-7: the morning is from 7 o'clock. All of it was hauling.
    const json none = json::parse(run(log + " --was '06:50-09:50 hauling' --json").out);
    EXPECT_TRUE(none["feedings"].empty());
    EXPECT_EQ(none["tracks"][0]["told"][0]["motion"], "hauling");
    EXPECT_EQ(none["tracks"][0]["told"][0]["from"], "06:50:00");
    EXPECT_EQ(none["files"][0]["cut"]["laying"]["time_s"], 0.0);
    const json dated = json::parse(run(log + " --was '2027-01-11 6:50-9:50 hauling' --json").out);
    EXPECT_EQ(dated["files"], none["files"]);
    // Said again, the later holds; and it is what gets recorded.
    const Ran back =
        run(log + " --was '06:50-09:50 hauling' --was '07:00-09:00:30 laying' --accept");
    EXPECT_EQ(back.code, 0) << back.err;
    EXPECT_TRUE(has(back.out, "as you said: 07:00:00 to 09:00:30 laying")) << back.out;
    EXPECT_TRUE(has(back.out, "Recorded 2027-01-11: Cows")) << back.out;
}

TEST_F(Log, WhatCannotBeUnderstoodOfACutIsAClearError) {
    make_book_and_plan();
    drive_the_plan();
    const std::string log = "log " + book_ + " " + track_;
    for (const char* bad :
         {"", "laying", "07:12 laying", "07:12-07:20", "07:12-07:20 feeding", "07:12-24:00 laying",
          "07:60-08:00 laying", "7-8 laying", "07:12-07:12 laying", "07:12-07:20 laying hay",
          "07:12:-07:20 laying", "2027-02-30 07:12-07:20 laying", "07:12-07:20-07:30 laying"}) {
        const Ran ran = run(log + " --was '" + bad + "'");
        EXPECT_EQ(ran.code, 2) << bad;
        EXPECT_TRUE(has(ran.err, "07:12-07:20 laying")) << bad << ran.err;
    }
    const Ran never = run(log + " --was '03:00-03:10 laying'");
    EXPECT_EQ(never.code, 1);
    EXPECT_TRUE(has(never.err, "No track that was read was recorded")) << never.err;
    EXPECT_EQ(run(log + " --undo --was '07:12-07:20 laying'").code, 2);
    // The same hours of two days.
    std::filesystem::create_directory(temp_ / "tracks");
    std::filesystem::copy_file(track_, temp_ / "tracks/a.gpx");
    drive_the_plan(86400 + 14 * 3600);
    std::filesystem::copy_file(track_, temp_ / "tracks/b.gpx");
    const std::string both = "log " + book_ + " " + (temp_ / "tracks").string();
    const Ran several = run(both + " --was '07:12-07:20 hauling'");
    EXPECT_EQ(several.code, 1);
    EXPECT_TRUE(has(several.err, "a.gpx (2027-01-11, 07:00 to ")) << several.err;
    EXPECT_TRUE(has(several.err, "b.gpx (2027-01-12, 07:00 to ")) << several.err;
    const json one = json::parse(run(both + " --was '2027-01-12 07:12-07:20 hauling' --json").out);
    EXPECT_TRUE(one["tracks"][0]["told"].empty());
    EXPECT_EQ(one["tracks"][1]["told"].size(), 1U);
    EXPECT_EQ(one["files"].size(), 2U);
}

// 00:30 UTC on the 12th is the evening of the 11th at UTC-7, in Denver and by the longitude.
TEST_F(Log, AnEveningDriveLandsOnItsLocalDay) {
    make_book_and_plan();
    drive_the_plan(86400 + 1800);
    const json proposal = json::parse(run("log " + book_ + " " + track_ + " --json").out);
    ASSERT_EQ(proposal["feedings"].size(), 1U);
    EXPECT_EQ(proposal["feedings"][0]["date"], "2027-01-11");
    EXPECT_EQ(proposal["tracks"][0]["from"], "17:30");
    EXPECT_EQ(proposal["problems"][0]["code"], "time_zone_by_longitude");
}

TEST_F(Log, BadUsageAndFilesThatCannotBeReadSayWhy) {
    ASSERT_EQ(run("new " + book_ + " --from " + ranch_).code, 0);
    EXPECT_EQ(run("log " + book_).code, 2);
    EXPECT_EQ(run("log " + book_ + " " + track_ + " --undo --accept").code, 2);
    const Ran missing = run("log " + book_ + " /nowhere/drive.gpx");
    EXPECT_EQ(missing.code, 1);
    EXPECT_TRUE(has(missing.err, "/nowhere/drive.gpx")) << missing.err;
    std::ofstream(track_) << "hello";
    EXPECT_EQ(run("log " + book_ + " " + track_).code, 1);
    Drive drive(14 * 3600);
    drive.start_at(-103.40027653, 46.30286559);
    drive.stand(60);
    std::ofstream(track_, std::ios::trunc) << drive.gpx();
    const Ran idle = run("log " + book_ + " " + track_);
    EXPECT_EQ(idle.code, 0) << idle.err;
    EXPECT_TRUE(has(idle.out, "No hay was laid")) << idle.out;
    EXPECT_EQ(run("log " + book_ + " " + track_ + " --accept").code, 1);
    const Ran nobody = run("log " + book_ + " " + track_ + " --herd Nobody");
    EXPECT_EQ(nobody.code, 1);
    EXPECT_TRUE(has(nobody.err, "Nobody")) << nobody.err;
    EXPECT_TRUE(has(run("log --help").out, "Example: haylane log"));
}

}  // namespace
}  // namespace haylane
