// Recorded drives into feedings, as a user does it. The drive follows the planned lines of the day
// at the rig's feeding speed, with a wobble that a receiver would add.
#include "tests/cli/run_program.h"

#include <array>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace haylane {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using testing::has;
using testing::Ran;
using testing::run_program;
using testing::slurp;

// Writes a GPX track second by second as it is driven; degrees by the length of a degree there.
class Drive {
  public:
    explicit Drive(int start_s) : time_s_(start_s) {}
    void stand(int seconds) {
        for (int i = 0; i < seconds; ++i) fix();
    }
    void to(double lon, double lat, double m_per_s) {
        const double east = (lon - lon_) * 111320.0 * std::cos(lat * 0.0174532925);
        const double north = (lat - lat_) * 111200.0;
        const int steps = std::max(1, static_cast<int>(std::hypot(east, north) / m_per_s));
        const double lon0 = lon_;
        const double lat0 = lat_;
        for (int i = 1; i <= steps; ++i) {
            lon_ = lon0 + (lon - lon0) * i / steps;
            lat_ = lat0 + (lat - lat0) * i / steps;
            fix();
        }
    }
    void start_at(double lon, double lat) {
        lon_ = lon;
        lat_ = lat;
    }
    [[nodiscard]] std::string gpx() const {
        return "<gpx version=\"1.1\" creator=\"test\" "
               "xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><name>Morning</name><trkseg>\n" +
               points_ + "</trkseg></trk></gpx>\n";
    }

  private:
    void fix() {
        const double wobble = 1.5e-5 * std::sin(12.9898 * time_s_);
        std::array<char, 160> line{};
        std::snprintf(line.data(), line.size(),
                      "<trkpt lat=\"%.7f\" lon=\"%.7f\"><time>2027-01-%02dT%02d:%02d:%02dZ</time>"
                      "</trkpt>\n",
                      lat_ + wobble, lon_ - wobble, 11 + time_s_ / 86400, time_s_ / 3600 % 24,
                      time_s_ / 60 % 60, time_s_ % 60);
        points_ += line.data();
        ++time_s_;
    }
    int time_s_;
    double lon_ = 0.0;
    double lat_ = 0.0;
    std::string points_;
};

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
