// Runs the program itself: what it prints, where, and with which exit code (0 done, 1 could not be
// done, 2 bad usage).
#include "tests/cli/run_program.h"

#include <cmath>
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

class Haylane : public ::testing::Test {
  protected:
    testing::TempFolder temp_;  // first: the paths below stand in it
    // A ranch of two pastures and one herd; its one fault (a pond without a setback) is harmless.
    const std::string ranch_ = HAYLANE_SOURCE_DIR "/sample-maps/broken/setback_missing";
    const std::string book_ = (temp_ / "ranch.gpkg").string();

    Ran run(const std::string& arguments, const std::string& environment = "") {
        return run_program(temp_, arguments, environment);
    }
    void make_book() { ASSERT_EQ(run("new " + book_ + " --from " + ranch_).code, 0); }
    Ran plan(const std::string& from, const std::string& more = "",
             const std::string& environment = "") {
        return run("plan " + book_ + " --from " + from + " --days 3 -o " +
                       (temp_ / "week").string() + " " + more,
                   environment);
    }
    int bales_on_hand(const std::string& from) {
        EXPECT_EQ(plan(from).code, 0);
        const json document = json::parse(slurp(temp_ / "week/plan.json"));
        return document["hay_left"][0]["count"].get<int>() + document["totals"]["bales"].get<int>();
    }
};

TEST_F(Haylane, HelpEverywhereWithAnExample) {
    for (const char* verb : {"new", "check", "plan", "done", "hold", "close", "release", "haul",
                             "log", "ground", "trial"}) {
        const Ran ran = run(std::string(verb) + " --help");
        EXPECT_EQ(ran.code, 0);
        EXPECT_TRUE(has(ran.out, std::string("Example: haylane ") + verb)) << ran.out;
    }
    EXPECT_EQ(run("--help").code, 0);
}

TEST_F(Haylane, BadUsageIsTwo) {
    EXPECT_EQ(run("").code, 2);
    EXPECT_EQ(run("frobnicate").code, 2);
    EXPECT_EQ(run("plan " + book_).code, 2);
    make_book();
    const Ran ran = plan("2027-02-30");
    EXPECT_EQ(ran.code, 2);
    EXPECT_TRUE(has(ran.err, "2027-02-30"));
}

TEST_F(Haylane, NewNeverOverwritesWithoutForce) {
    make_book();
    const Ran again = run("new " + book_ + " --from " + ranch_);
    EXPECT_EQ(again.code, 1);
    EXPECT_TRUE(has(again.err, "what to do:"));
    EXPECT_TRUE(has(again.err, "--force"));
    EXPECT_EQ(run("new " + book_ + " --from " + ranch_ + " --force").code, 0);
}

TEST_F(Haylane, MissingFolderAndMissingBookSayWhich) {
    const Ran no_folder = run("new " + book_ + " --from /nowhere/ranch");
    EXPECT_EQ(no_folder.code, 1);
    EXPECT_TRUE(has(no_folder.err, "/nowhere/ranch")) << no_folder.err;
    const Ran no_book = run("check /nowhere/ranch.gpkg");
    EXPECT_EQ(no_book.code, 1);
    EXPECT_TRUE(has(no_book.err, "ranch.gpkg")) << no_book.err;
}

TEST_F(Haylane, CheckNamesOddThingsAndWhatIsSwitchedOff) {
    make_book();
    const Ran ran = run("check " + book_);
    EXPECT_EQ(ran.code, 0);
    EXPECT_TRUE(has(ran.out, "setback_missing"));
    EXPECT_TRUE(has(ran.out, "Little pond"));
    EXPECT_TRUE(has(ran.out, "switched off:"));
    const json document = json::parse(run("check " + book_ + " --json").out);
    EXPECT_FALSE(document["switched_off"].empty());
    EXPECT_EQ(document["problems"][0].size(), 5U);
}

TEST_F(Haylane, PlanPrintsTheWeek) {
    make_book();
    const Ran ran = plan("2027-01-11");
    EXPECT_EQ(ran.code, 0) << ran.err;
    EXPECT_TRUE(has(ran.out, "Hay lasts")) << ran.out;
    EXPECT_TRUE(has(ran.out, "start     from "));
    EXPECT_TRUE(has(ran.out, " ft"));
}

TEST_F(Haylane, PlanWritesAllItsFiles) {
    make_book();
    const Ran ran = plan("2027-01-11");
    EXPECT_EQ(ran.code, 0) << ran.err;
    for (const char* file : {"plan.json", "lines.geojson", "routes.geojson", "lines.gpx",
                             "ground-after.tif", "week-sheet.pdf"})
        EXPECT_GT(fs::file_size(temp_ / "week" / file), 0U) << file;
    EXPECT_EQ(slurp(temp_ / "week/week-sheet.pdf").substr(0, 5), "%PDF-");
}

// With no desktop session Qt notes, where XDG_RUNTIME_DIR is not set, that it makes up a folder.
TEST_F(Haylane, PlanPassesOnWhatQtSaysExceptTheMissingRuntimeFolder) {
    make_book();
    const Ran ran = plan("2027-01-11", "", "env -u XDG_RUNTIME_DIR");
    EXPECT_EQ(ran.code, 0) << ran.err;
    EXPECT_FALSE(has(ran.err, "XDG_RUNTIME_DIR")) << ran.err;
    const Ran broken = plan("2027-01-11", "", "QT_QPA_PLATFORM=nosuch");
    EXPECT_NE(broken.code, 0);
    EXPECT_TRUE(has(broken.err, "nosuch")) << broken.err;
}

TEST_F(Haylane, RanchersPagesUseTheRanchersWords) {
    make_book();
    const std::string out = plan("2027-01-11").out;
    for (const char* word : {"deposit", "CV", "CU", "low-quarter", "residual", "objective", "bound",
                             "gap", "adjoint", "candidate"})
        EXPECT_FALSE(has(out, word)) << word;
}

TEST_F(Haylane, MetricUnitsOnRequest) {
    make_book();
    const Ran ran = plan("2027-01-11", "--units metric");
    EXPECT_EQ(ran.code, 0);
    EXPECT_TRUE(has(ran.out, "bales/ha"));
    EXPECT_FALSE(has(ran.out, "bales/ac"));
    EXPECT_FALSE(has(ran.out, " ft"));
}

TEST_F(Haylane, BlockedMustBeKnown) {
    make_book();
    const Ran ran = plan("2027-01-11", "--blocked 'No such gate'");
    EXPECT_EQ(ran.code, 1);
    EXPECT_TRUE(has(ran.err, "No such gate"));
}

TEST_F(Haylane, DoneAsPlannedTakesBalesOnceAndOnlyOnce) {
    make_book();
    const int before = bales_on_hand("2027-01-11");
    EXPECT_EQ(before, 200);
    const json planned = json::parse(slurp(temp_ / "week/plan.json"));
    const int first_day = planned["feedings"][0]["bales"][0]["count"];
    const Ran done = run("done " + book_ + " 2027-01-11 --as-planned");
    EXPECT_EQ(done.code, 0) << done.err;
    EXPECT_TRUE(has(done.out, "Recorded 2027-01-11"));
    const Ran again = run("done " + book_ + " 2027-01-11 --as-planned");
    EXPECT_EQ(again.code, 1);
    EXPECT_TRUE(has(again.err, "already"));
    EXPECT_EQ(bales_on_hand("2027-01-12"), before - first_day);
}

TEST_F(Haylane, DoneTakesOtherBalesWhenTold) {
    make_book();
    ASSERT_EQ(plan("2027-01-11").code, 0);
    EXPECT_EQ(run("done " + book_ + " 2027-01-11 --bales 5").code, 0);
    EXPECT_EQ(bales_on_hand("2027-01-12"), 195);
    EXPECT_EQ(run("done " + book_ + " 2027-01-12 --bales 2 --lot Nowhere").code, 1);
    EXPECT_EQ(run("done " + book_ + " 2027-01-12").code, 2);
}

TEST_F(Haylane, PastPlannedDaysThatNobodyConfirmedCountAsFed) {
    make_book();
    ASSERT_EQ(plan("2027-01-11").code, 0);
    const json first = json::parse(slurp(temp_ / "week/plan.json"));
    const Ran ran = plan("2027-01-13");
    EXPECT_EQ(ran.code, 0);
    EXPECT_TRUE(has(ran.err, "assumed_fed")) << ran.err;
    EXPECT_TRUE(has(ran.err, "2027-01-12 Cows"));
    const json second = json::parse(slurp(temp_ / "week/plan.json"));
    int fed = 0;
    for (int f = 0; f < 2; ++f)
        for (const auto& draw : first["feedings"][static_cast<std::size_t>(f)]["bales"])
            fed += draw["count"].get<int>();
    EXPECT_EQ(second["hay_left"][0]["count"].get<int>() + second["totals"]["bales"].get<int>(),
              200 - fed);
}

// Features of lines.geojson of one day.
json lines_of(const fs::path& folder, const std::string& date) {
    const json document = json::parse(slurp(folder / "lines.geojson"));
    json kept = json::array();
    for (const json& feature : document["features"])
        if (feature["properties"]["date"] == date) kept.push_back(feature);
    EXPECT_FALSE(kept.empty());
    return kept;
}

void put_features(const fs::path& file, const json& features) {
    std::ofstream(file) << json{{"type", "FeatureCollection"}, {"features", features}}.dump();
}

TEST_F(Haylane, AHeldDayStaysAndSaysSo) {
    make_book();
    EXPECT_EQ(run("hold " + book_ + " 2027-01-12").code, 1);  // nothing is planned yet
    ASSERT_EQ(plan("2027-01-11").code, 0);
    const json before = lines_of(temp_ / "week", "2027-01-12")[0]["geometry"];
    const Ran held = run("hold " + book_ + " 2027-01-12 --herd Cows");
    EXPECT_EQ(held.code, 0) << held.err;
    EXPECT_TRUE(has(held.out, "Held 2027-01-12, Cows: the day, ")) << held.out;
    EXPECT_TRUE(
        has(run("hold " + book_ + " --list").out, "   1  held   2027-01-12, Cows: the day"));
    const Ran again = plan("2027-01-11", "--order free");
    EXPECT_EQ(again.code, 0) << again.err;
    EXPECT_TRUE(has(again.out, "(held)"));
    EXPECT_TRUE(has(again.out, "You hold it here."));
    EXPECT_EQ(lines_of(temp_ / "week", "2027-01-12")[0]["geometry"], before);
    const json document = json::parse(slurp(temp_ / "week/plan.json"));
    EXPECT_EQ(document["feedings"][1]["by_hand"], "held");
    EXPECT_FALSE(document["feedings"][0].contains("by_hand"));
    EXPECT_EQ(run("release " + book_).code, 2);
    EXPECT_EQ(run("release " + book_ + " 9").code, 1);
    EXPECT_TRUE(has(run("release " + book_ + " 1").out, "Let go of 2027-01-12, Cows"));
    EXPECT_EQ(run("hold " + book_ + " --list").out, "Nothing is held or closed.\n");
    ASSERT_EQ(run("done " + book_ + " 2027-01-12 --as-planned").code, 0);
    EXPECT_EQ(run("hold " + book_ + " 2027-01-12").code, 1);  // it is fed
    EXPECT_EQ(run("hold " + book_ + " 2027-02-30").code, 2);
    EXPECT_EQ(run("hold " + book_).code, 2);
}

TEST_F(Haylane, ADrawnLineIsTriedHeldAndRefusedByItsRule) {
    make_book();
    ASSERT_EQ(plan("2027-01-11").code, 0);
    json lines = lines_of(temp_ / "week", "2027-01-12");
    const std::string drawn = (temp_ / "mine.geojson").string();
    put_features(drawn, lines);
    const Ran tried = plan("2027-01-11", "--try 2027-01-12/Cows=" + drawn);
    EXPECT_EQ(tried.code, 0) << tried.err;
    EXPECT_TRUE(has(tried.out, "Laid as drawn (2027-01-12/Cows=" + drawn + "):")) << tried.out;
    EXPECT_TRUE(has(tried.out, "minutes   as planned"));
    EXPECT_TRUE(has(tried.out, "about as even as planned"));
    EXPECT_EQ(run("hold " + book_ + " 2027-01-12 --line " + drawn).code, 0);
    EXPECT_TRUE(has(run("hold " + book_ + " --list").out, "Cows: the line in"));
    EXPECT_TRUE(has(plan("2027-01-11").out, "(held)"));
    // Moved half across the fence: the plan names the rule.
    for (json& line : lines)
        for (json& place : line["geometry"]["coordinates"])
            place[1] = place[1].get<double>() + 0.0001;
    json out = lines;
    for (json& line : out) line["geometry"]["coordinates"][0][1] = 46.5;
    put_features(drawn, out);
    ASSERT_EQ(run("hold " + book_ + " 2027-01-12 --line " + drawn).code, 1);  // its middle is out
    const std::string empty = (temp_ / "empty.geojson").string();
    put_features(empty, json::array());
    EXPECT_TRUE(has(run("hold " + book_ + " 2027-01-12 --line " + empty).err, "no line"));
    EXPECT_EQ(run("hold " + book_ + " 2027-01-12 --line /nowhere.geojson").code, 1);
    EXPECT_EQ(plan("2027-01-11", "--try 2027-01-12").code, 2);
    EXPECT_EQ(plan("2027-01-11", "--try 2027-03-01=" + drawn).code, 1);
}

TEST_F(Haylane, ClosedGroundIsKeptFreeOfLines) {
    make_book();
    ASSERT_EQ(plan("2027-01-11").code, 0);
    const json line = lines_of(temp_ / "week", "2027-01-11")[0]["geometry"]["coordinates"];
    const double lon = line[0][0];
    const double lat = line[0][1];
    const double d = 0.0005;
    const json area = {{"type", "Feature"},
                       {"properties", json::object()},
                       {"geometry",
                        {{"type", "Polygon"},
                         {"coordinates",
                          {{{lon - d, lat - d},
                            {lon + d, lat - d},
                            {lon + d, lat + d},
                            {lon - d, lat + d},
                            {lon - d, lat - d}}}}}}};
    const std::string file = (temp_ / "Wet corner.geojson").string();
    put_features(file, json::array({area}));
    const std::string close = "close " + book_ + " '" + file + "' --from 2027-01-11 --to ";
    const Ran closed = run(close + "2027-01-13");
    EXPECT_EQ(closed.code, 0) << closed.err;
    EXPECT_EQ(closed.out, "Closed Wet corner, from 2027-01-11 to 2027-01-13.\n");
    EXPECT_EQ(run(close + "2027-01-10").code, 1);
    EXPECT_EQ(run(close + "soon").code, 2);
    EXPECT_EQ(run(close + "2027-01-13 --pasture Nowhere").code, 1);
    ASSERT_EQ(plan("2027-01-11").code, 0);
    for (const char* date : {"2027-01-11", "2027-01-12", "2027-01-13"}) {
        for (const json& feature : lines_of(temp_ / "week", date)) {
            const json& places = feature["geometry"]["coordinates"];
            for (int n = 0; n <= 100; ++n) {  // straight lines have two places
                const double t = n / 100.0;
                const double x = places[0][0].get<double>() * (1 - t) +
                                 places[places.size() - 1][0].get<double>() * t;
                const double y = places[0][1].get<double>() * (1 - t) +
                                 places[places.size() - 1][1].get<double>() * t;
                EXPECT_FALSE(std::abs(x - lon) < d - 1e-7 && std::abs(y - lat) < d - 1e-7) << date;
            }
        }
    }
}

TEST_F(Haylane, AnotherWayIsOtherThanAllSeenSoFar) {
    make_book();
    EXPECT_EQ(plan("2027-01-11", "--another 2027-01-12").code, 1);  // nothing is planned yet
    ASSERT_EQ(plan("2027-01-11").code, 0);
    std::vector<json> seen{lines_of(temp_ / "week", "2027-01-12")};
    for (int n = 0; n < 3; ++n) {
        const Ran ran = plan("2027-01-11", "--another 2027-01-12/Cows");
        ASSERT_EQ(ran.code, 0) << ran.err;
        EXPECT_TRUE(has(ran.out, "You asked for another place"));
        const json lines = lines_of(temp_ / "week", "2027-01-12");
        for (const json& old : seen) EXPECT_NE(lines, old);
        seen.push_back(lines);
    }
    // Without asking, the plan is the first one again.
    ASSERT_EQ(plan("2027-01-11").code, 0);
    EXPECT_EQ(lines_of(temp_ / "week", "2027-01-12"), seen.front());
    EXPECT_EQ(plan("2027-01-11", "--another 2027-01-12/Nobody").code, 1);
    EXPECT_EQ(plan("2027-01-11", "--another tomorrow").code, 2);
}

// What hauling costs: words for a person, files, a gate that is shut, and what is told of slips.
TEST_F(Haylane, HaulComparesYardsRigsAndHabits) {
    make_book();
    const std::string haul = "haul " + book_ + " --from 2027-01-11";
    const std::string folder = (temp_ / "haul").string();
    const Ran ran = run(haul + " -o " + folder + " --what-if round_to=load --stacks 1");
    ASSERT_EQ(ran.code, 0) << ran.err;
    // This book has no prices: the text says which to fill in.
    for (const char* words : {"fill in fuel_price_per_gal", "Studies disagree", "whole loads",
                              "Where to stack", "Reckoned with"})
        EXPECT_TRUE(has(ran.out, words)) << words;
    EXPECT_TRUE(has(run(haul + " --what-if fuel_price_per_gal=4").out, "$"));
    for (const char* name : {"haul.json", "haul.csv", "haul-report.pdf"})
        EXPECT_TRUE(fs::exists(temp_ / "haul" / name)) << name;
    const json document = json::parse(run(haul + " --json").out);
    EXPECT_EQ(document["schema"], "haylane-haul/1");
    EXPECT_TRUE(document["day"]["low_waste"]["haul_cost"].is_null());
    EXPECT_GT(document["day"]["low_waste"]["fuel_l"].get<double>(), 0.0);
    EXPECT_EQ(run("haul " + book_).code, 2);  // no day is named and none is in the book
    EXPECT_EQ(run(haul + " --blocked Nowhere").code, 2);
    EXPECT_EQ(run(haul + " --what-if days_at_once=0").code, 2);
    EXPECT_EQ(run(haul + " --what-if trail:Nowhere=gravel").code, 2);
}

// The account of the ground after two days on record: files, words, and what it says of slips.
TEST_F(Haylane, AccountsForTheGround) {
    make_book();
    const std::string out = " -o " + (temp_ / "ground").string();
    EXPECT_EQ(run("ground " + book_ + out).code, 1);  // nothing is on record yet
    ASSERT_EQ(plan("2027-01-11").code, 0);
    ASSERT_EQ(run("done " + book_ + " 2027-01-11 --as-planned").code, 0);
    const Ran ran = run("ground " + book_ + out + " --draws 5 --urea 600");
    ASSERT_EQ(ran.code, 0) << ran.err;
    EXPECT_TRUE(has(ran.out, "What feeding left on the ground, 2026-27"));
    EXPECT_TRUE(has(ran.out, "N is what reached the ground after gas loss"));
    EXPECT_TRUE(has(ran.out, "licensed nutrient planner"));
    for (const char* name : {"ground.json", "pastures.csv", "ground-report.pdf", "ground-n.tif"})
        EXPECT_TRUE(fs::exists(temp_ / "ground" / name)) << name;
    const json document = json::parse(run("ground " + book_ + out + " --draws 0 --json").out);
    EXPECT_EQ(document["schema"], "haylane-ground/1");
    EXPECT_GT(document["books"]["on_ground"]["n_kg"].get<double>(), 0.0);
    EXPECT_EQ(run("ground " + book_ + out + " --season winter").code, 2);
    EXPECT_EQ(run("ground " + book_ + out + " --from soon").code, 2);
    EXPECT_EQ(run("ground " + book_ + out + " --measure gold").code, 2);
    EXPECT_EQ(run("ground " + book_ + out + " --what-if nonsense=1").code, 2);
    EXPECT_EQ(run("ground " + book_ + out + " --pasture Nowhere").code, 1);
}

// A herd fed in rings from the folder to the next week: places in plan.json and the GPX, plain
// words on the screen, held and recorded as planned, and kept clear of afterwards.
TEST_F(Haylane, AHerdFedInRingsFromFolderToRecord) {
    fs::copy(ranch_, temp_ / "ranch");
    std::ofstream(temp_ / "ranch/herds.csv") << "herd,head,weight_lb,stage,pastures,fed_in\n"
                                                "Cows,50,1300,mid_gestation,South Pasture,ring\n";
    ASSERT_EQ(run("new " + book_ + " --from " + (temp_ / "ranch").string()).code, 0);
    const Ran first = plan("2027-01-11");
    ASSERT_EQ(first.code, 0) << first.err;
    EXPECT_TRUE(has(first.out, "in the ring")) << first.out;
    EXPECT_TRUE(has(first.out, "set in the rings; "));
    EXPECT_FALSE(has(first.out, "lay ")) << first.out;
    EXPECT_TRUE(has(first.out, "move them to these places"));
    const json week = json::parse(slurp(temp_ / "week/plan.json"));
    std::size_t places = 0;
    for (const json& feeding : week["feedings"]) {
        EXPECT_TRUE(feeding["lines"].empty());
        int bales = 0;
        for (const json& draw : feeding["bales"]) bales += draw["count"].get<int>();
        EXPECT_EQ(feeding["places"].size(), static_cast<std::size_t>(bales));
        places += feeding["places"].size();
    }
    EXPECT_TRUE(json::parse(slurp(temp_ / "week/lines.geojson"))["features"].empty());
    const std::string gpx = slurp(temp_ / "week/lines.gpx");
    std::size_t waypoints = 0;
    for (std::size_t at = gpx.find("<wpt"); at != std::string::npos; at = gpx.find("<wpt", at + 1))
        ++waypoints;
    EXPECT_EQ(waypoints, places);
    EXPECT_EQ(run("hold " + book_ + " 2027-01-12").code, 0);
    ASSERT_EQ(plan("2027-01-11", "--order free").code, 0);
    const json held = json::parse(slurp(temp_ / "week/plan.json"));
    EXPECT_EQ(held["feedings"][1]["by_hand"], "held");
    ASSERT_EQ(held["feedings"][1]["places"].size(), week["feedings"][1]["places"].size());
    const auto away_deg = [](const json& a, const json& b) {
        return std::hypot(a["at"][0].get<double>() - b["at"][0].get<double>(),
                          a["at"][1].get<double>() - b["at"][1].get<double>());
    };
    for (std::size_t p = 0; p < week["feedings"][1]["places"].size(); ++p)
        EXPECT_LT(away_deg(held["feedings"][1]["places"][p], week["feedings"][1]["places"][p]),
                  1e-6);
    ASSERT_EQ(run("done " + book_ + " 2027-01-11 --as-planned").code, 0);
    ASSERT_EQ(run("done " + book_ + " 2027-01-12 --as-planned").code, 0);
    ASSERT_EQ(plan("2027-01-13").code, 0);
    const json next = json::parse(slurp(temp_ / "week/plan.json"));
    const double spacing_deg = 12.0 / 111320.0;  // of latitude, the shortest way in degrees
    for (const json& feeding : next["feedings"])
        for (const json& place : feeding["places"])
            for (int f = 0; f < 2; ++f)
                for (const json& old : held["feedings"][static_cast<std::size_t>(f)]["places"])
                    EXPECT_GT(away_deg(place, old), 0.999 * spacing_deg);
}

}  // namespace
}  // namespace haylane
