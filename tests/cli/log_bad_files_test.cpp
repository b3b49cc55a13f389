// Every shared broken file that is a track, or that someone might take for one, through `haylane
// log` as a user runs it. What is expected stands in bad-input/EXPECTED.csv beside the files.
#include "gis/vector/csv_table.h"
#include "tests/cli/run_program.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <map>
#include <set>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace haylane {
namespace {

using nlohmann::json;
using testing::has;
using testing::Ran;
using testing::run_program;

const std::filesystem::path kBad = std::filesystem::path(HAYLANE_SHARED_DATA) / "bad-input";

std::string quoted(std::string text) {
    for (std::size_t at = 0; (at = text.find('\'', at)) != text.npos; at += 4)
        text.replace(at, 1, "'\\''");
    return "'" + text + "'";
}

// Refused where the list would have a map's reader go on: the reader of JSON takes no number that
// no double holds, and an archive is never opened.
const std::set<std::string> kRefused = {"json-huge-integer.geojson", "json-lines.geojson",
                                        "json-trailing-garbage.geojson"};
// Kept where the list would refuse: the points before the fault are good, GDAL takes 'polygon' for
// Polygon, and content tells what the name does not.
const std::set<std::string> kKept = {"gpx-mismatched-tag.gpx", "json-case-type.geojson",
                                     "names/wrong-extension.csv"};

bool maybe_a_track(const std::string& file) {
    constexpr std::array<const char*, 6> kStarts{"gpx-", "json-", "kml-", "kmz-", "csv-", "names/"};
    return std::any_of(kStarts.begin(), kStarts.end(),
                       [&file](const char* start) { return file.starts_with(start); });
}

class LogBadFiles : public ::testing::Test {
  protected:
    testing::TempFolder temp_;  // first: the paths below stand in it
    const std::string book_ = (temp_ / "ranch.gpkg").string();

    void SetUp() override {
        const std::string ranch = HAYLANE_SOURCE_DIR "/sample-maps/broken/setback_missing";
        ASSERT_EQ(run_program(temp_, "new " + book_ + " --from " + ranch).code, 0);
    }
    Ran log(const std::filesystem::path& file) {
        return run_program(temp_, "log " + book_ + " " + quoted(file.string()) + " --json");
    }
};

TEST_F(LogBadFiles, EachGivesItsBehaviour) {
    const auto table = read_csv(kBad / "EXPECTED.csv");
    if (!table) GTEST_SKIP() << "no shared data";
    ASSERT_EQ(table->header[3], "outcome");
    std::map<std::string, int> seen;
    for (const CsvRow& row : table->rows) {
        const std::string& file = row.cells[0];
        const std::string& outcome = row.cells[3];
        if (!maybe_a_track(file)) continue;
        SCOPED_TRACE(file + ": " + row.cells[4]);
        ++seen[outcome];
        const auto started = std::chrono::steady_clock::now();
        const Ran ran = log(kBad / file);
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - started;
        EXPECT_LT(took.count(), 20.0);
        ASSERT_TRUE(ran.code == 0 || ran.code == 1) << ran.code << ran.err;
        const std::string said = ran.out + ran.err;
        EXPECT_FALSE(has(said, "\x1b")) << "colours the terminal";
        EXPECT_FALSE(has(said, "CANARY")) << "shows another file";
        EXPECT_FALSE(has(ran.err, "Sanitizer") || has(ran.err, "runtime error")) << ran.err;
        if (ran.code == 1) {  // refused: the file, the place and what to do
            const std::string name = std::filesystem::path(file).filename().string();
            EXPECT_TRUE(has(ran.err, "error: ") && has(ran.err, name)) << ran.err;
            EXPECT_TRUE(has(ran.err, "what to do: ")) << ran.err;
            EXPECT_TRUE(outcome == "error" || outcome == "blocked" || kRefused.contains(file))
                << ran.err;
            continue;
        }
        // Nothing of these files is a drive on this ranch: none may go without a word.
        const json document = json::parse(ran.out);
        EXPECT_FALSE(document["problems"].empty()) << ran.out;
        for (const json& problem : document["problems"]) {
            EXPECT_FALSE(problem["where"].get<std::string>().empty());
            EXPECT_FALSE(problem["remedy"].get<std::string>().empty());
        }
        EXPECT_TRUE(document["feedings"].empty());
        EXPECT_TRUE(outcome != "error" || kKept.contains(file)) << ran.out;
        EXPECT_FALSE(has(ran.out, ": null")) << "a number that is none";
    }
    EXPECT_GE(seen["error"], 35);
    EXPECT_GE(seen["warning"], 30);
    EXPECT_GE(seen["accepted"], 15);
    EXPECT_GE(seen["blocked"], 5);
}

}  // namespace
}  // namespace haylane
