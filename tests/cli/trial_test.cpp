// Trial tables from file to answer, as a user asks. Sources: the pairs' interval is worked with
// t = 3.182446 on 3 degrees of freedom (Student's table, 97.5 %); a weighed and timed feeding by
// two rigs is common practice, no source.
#include "tests/cli/run_program.h"

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

class Trial : public ::testing::Test {
  protected:
    Ran run(const std::string& words) const { return run_program(folder_, "trial " + words); }
    std::string file(const std::string& name, const std::string& text) const {
        const fs::path path = folder_.path() / name;
        std::ofstream(path) << text;
        return "'" + path.string() + "'";
    }

    Ran command(const std::string& words) const { return run_program(folder_, words); }
    std::string folder(const std::string& name) const { return (folder_.path() / name).string(); }
    fs::path folder_path() const { return folder_.path(); }

  private:
    testing::TempFolder folder_;
};

const std::string kSample = std::string(HAYLANE_SOURCE_DIR) + "/sample-maps/trials/two-rigs.csv";

// Feeding times a bale 2.9, 3.2, 3.0, 2.8 against 4.4, 4.9, 4.6, 4.7 minutes: differences 1.5, 1.7,
// 1.6, 1.9, mean 1.675, sd 0.170783, half the interval 3.182446 * 0.170783 / 2 = 0.271753.
TEST_F(Trial, ComparesTwoRigsOnTheSameHay) {
    const Ran ran = run("'" + kSample + "' --json");
    ASSERT_EQ(ran.code, 0) << ran.err;
    EXPECT_EQ(ran.err, "");
    const json document = json::parse(ran.out);
    ASSERT_EQ(document["rigs"].size(), 2U);
    EXPECT_EQ(document["rigs"][0]["feedings"], 4);
    EXPECT_EQ(document["rigs"][0]["bales"], 10.0);
    const json& pair = document["pairs"].at(0);
    EXPECT_EQ(pair["pairs"], 4);
    const json& feed = pair["b_less_a"]["feed_s_per_bale"];
    EXPECT_NEAR(feed["mean"].get<double>() / 60.0, 1.675, 1e-9);
    EXPECT_NEAR(feed["low"].get<double>() / 60.0, 1.675 - 0.271753, 1e-5);
    EXPECT_NEAR(feed["high"].get<double>() / 60.0, 1.675 + 0.271753, 1e-5);
    EXPECT_EQ(feed["verdict"], "differs");
    EXPECT_TRUE(document["unpaired"].empty());
}

TEST_F(Trial, SpeaksOfMinutesGallonsAndMoney) {
    const Ran ran = run("'" + kSample + "' --protein-price 0.45 --season-tons 300");
    ASSERT_EQ(ran.code, 0) << ran.err;
    EXPECT_TRUE(has(ran.out, "feeding a bale, min")) << ran.out;
    EXPECT_TRUE(has(ran.out, "fuel a bale, gal"));
    EXPECT_TRUE(has(ran.out, "Shredder less Trailer unroller, 4 pairs on the same hay"));
    EXPECT_TRUE(has(ran.out, "a ton of hay DM"));
    EXPECT_TRUE(has(ran.out, "a season"));
    const Ran metric = run("'" + kSample + "' --units metric");
    EXPECT_TRUE(has(metric.out, "fuel a bale, L")) << metric.out;
    EXPECT_FALSE(has(metric.out, "gal"));
}

// A volume in gallons and the same in liters say the same.
TEST_F(Trial, ReadsFuelByVolumeInBothUnits) {
    const std::string gallons = file("a.csv", "rig,bales,fuel_gal\nPeeler,2,1\n");
    const std::string liters = file("b.csv", "rig,bales,fuel_l\nPeeler,2,3.785411784\n");
    for (const std::string& one : {gallons, liters}) {
        const Ran ran = run(one + " --json");
        ASSERT_EQ(ran.code, 0) << ran.err;
        const json means = json::parse(ran.out)["rigs"][0]["means"];
        EXPECT_NEAR(means["fuel_l_per_bale"]["mean"].get<double>(), 3.785411784 / 2.0, 1e-9);
        EXPECT_FALSE(means["fuel_l_per_bale"].contains("low"));
    }
}

TEST_F(Trial, SaysWhenThereIsTooLittleToTell) {
    const std::string two = file("two.csv",
                                 "rig,lot,date,bales,feed_min\n"
                                 "Peeler,grass,2027-01-04,1,3\nShredder,grass,2027-01-04,1,5\n");
    const Ran ran = run(two);
    ASSERT_EQ(ran.code, 0);
    EXPECT_TRUE(has(ran.out, "one pair only: no telling")) << ran.out;
    EXPECT_TRUE(has(ran.out, "fewer than 3 feedings"));
    const std::string apart = file("apart.csv",
                                   "rig,lot,date,bales,feed_min\n"
                                   "Peeler,grass,2027-01-04,1,3\nShredder,oats,2027-01-05,1,5\n");
    EXPECT_TRUE(has(run(apart).out, "No two rigs fed the same hay"));
}

TEST_F(Trial, NamesWhatItCannotUse) {
    EXPECT_EQ(run("").code, 2);
    const Ran absent = run("/nowhere/trials.csv");
    EXPECT_EQ(absent.code, 1);
    EXPECT_TRUE(has(absent.err, "/nowhere/trials.csv")) << absent.err;
    const Ran no_bales = run(file("n.csv", "rig,feed_min\nPeeler,3\n"));
    EXPECT_EQ(no_bales.code, 1);
    EXPECT_TRUE(has(no_bales.err, "'bales'")) << no_bales.err;
    const Ran empty = run(file("e.csv", "rig,bales\n,\n"));
    EXPECT_EQ(empty.code, 1);
    EXPECT_TRUE(has(empty.err, "no row tells of a feeding")) << empty.err;
    const Ran odd = run(file("o.csv", "rig,bales,feed_min\nPeeler,three,3\nPeeler,2,-6\n"));
    EXPECT_EQ(odd.code, 0);
    EXPECT_TRUE(has(odd.err, "o.csv, line 2")) << odd.err;
    EXPECT_TRUE(has(odd.err, "o.csv, line 3")) << odd.err;
}

// Kept rows are the rig's own figures: the plan and the haul account use them and say so. The
// sample's peeling rig takes 2.9, 3.2, 3.0 and 2.8 minutes a bale, mean 2.975.
TEST_F(Trial, KeptOnceTheyAreTheRigsOwnFigures) {
    const std::string book = folder("ranch.gpkg");
    const std::string ranch = std::string(HAYLANE_SOURCE_DIR) + "/sample-maps/brindle-coulee";
    ASSERT_EQ(command("new " + book + " --from '" + ranch + "'").code, 0);
    const Ran before = command("haul " + book + " --json");
    ASSERT_EQ(before.code, 0) << before.err;
    EXPECT_FALSE(has(before.out, "\"measured\""));
    const Ran kept = run("'" + kSample + "' --keep-in " + book + " -o " + folder("out"));
    ASSERT_EQ(kept.code, 0) << kept.err;
    EXPECT_TRUE(has(kept.out, "8 feedings")) << kept.out;
    EXPECT_GT(fs::file_size(fs::path(folder_path()) / "out" / "trial-report.pdf"), 2000U);
    EXPECT_EQ(json::parse(testing::slurp(fs::path(folder_path()) / "out" / "trial.json"))["format"],
              "haylane-trial/1");
    const Ran twice = run("'" + kSample + "' --keep-in " + book);
    EXPECT_TRUE(has(twice.out, "0 feedings; 8 it had already")) << twice.out;
    EXPECT_EQ(json::parse(run(book + " --json").out)["rigs"][0]["feedings"], 4);
    const Ran after = command("haul " + book + " --json");
    ASSERT_EQ(after.code, 0) << after.err;
    const json account = json::parse(after.out);
    bool found = false;
    for (const json& one : account["coefficients"]) {
        if (one["key"] != "Trailer unroller: feed_min_per_bale") continue;
        found = true;
        EXPECT_NEAR(one["value"].get<double>(), 2.975, 1e-9);
        EXPECT_EQ(one["status"], "measured");
        EXPECT_TRUE(has(one["source"], "4 trial feedings, the last on 2027-01-11"));
    }
    EXPECT_TRUE(found) << after.out;
    EXPECT_NE(json::parse(before.out)["rigs"], account["rigs"]);
    const Ran stranger =
        run(file("s.csv", "rig,bales,feed_min\nNew one,2,6\n") + " --keep-in " + book);
    EXPECT_EQ(stranger.code, 1);
    EXPECT_TRUE(has(stranger.err, "no rig called 'New one'")) << stranger.err;
    EXPECT_TRUE(has(stranger.err, "s.csv, line 2")) << stranger.err;
}

// The file again, under another name, counts once.
TEST_F(Trial, TheSameRowsTwiceCountOnce) {
    std::ifstream in(kSample);
    std::stringstream text;
    text << in.rdbuf();
    const Ran ran = run("'" + kSample + "' " + file("copy.csv", text.str()) + " --json");
    ASSERT_EQ(ran.code, 0);
    EXPECT_EQ(json::parse(ran.out)["rigs"][0]["feedings"], 4);
    EXPECT_TRUE(has(ran.err, "counts once")) << ran.err;
}

}  // namespace
}  // namespace haylane
