// Runs the program itself: what it prints, where, and with which exit code (0 done, 1 could not be
// done, 2 bad usage).
#include "tests/support/temp_folder.h"

#include <array>
#include <cstdio>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <sys/wait.h>

namespace haylane {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

struct Ran {
    int code = -1;
    std::string out;
    std::string err;
};

std::string slurp(const fs::path& path) {
    std::ifstream file(path);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

class Haylane : public ::testing::Test {
  protected:
    testing::TempFolder temp_;  // first: the paths below stand in it
    // A ranch of two pastures and one herd; its one fault (a pond without a setback) is harmless.
    const std::string ranch_ = HAYLANE_SOURCE_DIR "/sample-maps/broken/setback_missing";
    const std::string book_ = (temp_ / "ranch.gpkg").string();

    // `environment`: how the shell sets it, "A=1 B=2" or "env -u A".
    Ran run(const std::string& arguments, const std::string& environment = "") {
        const std::string err = (temp_ / "err").string();
        const std::string command =
            environment + " " + HAYLANE_PROGRAM + " " + arguments + " 2>" + err;
        Ran ran;
        FILE* pipe = ::popen(command.c_str(), "r");
        std::array<char, 4096> part{};
        for (std::size_t n = 0; (n = std::fread(part.data(), 1, part.size(), pipe)) > 0;)
            ran.out.append(part.data(), n);
        const int status = ::pclose(pipe);
        ran.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
        ran.err = slurp(err);
        return ran;
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

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

TEST_F(Haylane, HelpEverywhereWithAnExample) {
    for (const char* verb : {"new", "check", "plan", "done"}) {
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

}  // namespace
}  // namespace haylane
