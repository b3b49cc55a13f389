// Track files of every kind: the shared real ones against counts made by other programs, the
// shared broken ones against what is expected of each, and small ones written here.
#include "gis/tracks/read_tracks.h"
#include "gis/tracks/track_files.h"
#include "gis/vector/csv_layer.h"
#include "gis/vector/csv_table.h"
#include "tests/gis/scratch.h"

#include <algorithm>
#include <map>
#include <set>

#include <gtest/gtest.h>

namespace haylane {
namespace {

const std::filesystem::path kShared = HAYLANE_SHARED_DATA;

bool has(const Problems& problems, const std::string& code) {
    return std::any_of(problems.begin(), problems.end(),
                       [&code](const Problem& problem) { return problem.code == code; });
}

// Columns of a table by heading.
struct Table {
    CsvTable csv;
    [[nodiscard]] std::string cell(const CsvRow& row, const std::string& heading) const {
        const auto at = std::find(csv.header.begin(), csv.header.end(), heading);
        return row.cells[static_cast<std::size_t>(at - csv.header.begin())];
    }
    [[nodiscard]] int number(const CsvRow& row, const std::string& heading) const {
        return static_cast<int>(parse_number(cell(row, heading), false).value_or(0.0));
    }
};

// track-counts.csv and csv-track-counts.csv were made with general-purpose readers.
TEST(ReadTracks, EveryRealGpxFileHasItsPoints) {
    const auto read = read_csv(kShared / "oracles/track-counts.csv");
    if (!read) GTEST_SKIP() << "no shared data";
    const Table table{*read};
    std::map<std::string, std::pair<std::size_t, std::size_t>> wanted;  // points, without time
    for (const CsvRow& row : table.csv.rows) {
        auto& [points, without] = wanted[table.cell(row, "file")];
        points += static_cast<std::size_t>(table.number(row, "points"));
        without += static_cast<std::size_t>(table.number(row, "points_without_time"));
    }
    for (const auto& [file, count] : wanted) {
        const auto tracks = read_tracks(kShared / file);
        ASSERT_TRUE(tracks) << file << ": " << tracks.error().what;
        std::size_t spikes = 0;
        for (const Problem& problem : tracks->problems)
            spikes += problem.code == "position_spike" || problem.code == "no_fix" ? 1U : 0U;
        EXPECT_EQ(tracks->points() + spikes, count.first) << file;
        EXPECT_EQ(tracks->points_without_time(), count.second) << file;
        EXPECT_EQ(has(tracks->problems, "tracks_empty"), count.first == 0) << file;
        EXPECT_EQ(has(tracks->problems, "track_without_times"), count.second > 0) << file;
    }
}

TEST(ReadTracks, EveryRealTableHasItsRowsAndItsAnimals) {
    const auto read = read_csv(kShared / "oracles/csv-track-counts.csv");
    if (!read) GTEST_SKIP() << "no shared data";
    const Table table{*read};
    for (const CsvRow& row : table.csv.rows) {
        const std::string file = table.cell(row, "file");
        const auto tracks = read_tracks(kShared / file);
        ASSERT_TRUE(tracks) << file << ": " << tracks.error().what;
        EXPECT_EQ(static_cast<int>(tracks->points()),
                  table.number(row, "rows") - table.number(row, "rows_with_zero_coordinate"))
            << file;
        EXPECT_EQ(static_cast<int>(tracks->tracks.size()), table.number(row, "individuals"))
            << file;
        EXPECT_EQ(tracks->points_without_time(), 0U) << file;
    }
}

// 2010-05-28T02:02:09Z to 02:02:56Z, seven fixes, by the file itself.
TEST(ReadTracks, KmlTrackWithTimes) {
    const auto file = kShared / "tracks/kml-gx-track.kml";
    if (!std::filesystem::exists(file)) GTEST_SKIP() << "no shared data";
    const auto tracks = read_tracks(file);
    ASSERT_TRUE(tracks) << tracks.error().what;
    ASSERT_EQ(tracks->tracks.size(), 1U);
    const auto& points = tracks->tracks[0].points;
    ASSERT_EQ(points.size(), 7U);
    EXPECT_EQ(*points.back().time - *points.front().time, std::chrono::seconds(47));
    EXPECT_DOUBLE_EQ(points[1].at.lon_deg, -122.205712);
    EXPECT_DOUBLE_EQ(points[1].at.lat_deg, 37.373288);
}

TEST(ReadTracks, AFolderIsReadWholeAndWhatItElseHoldsIsSaid) {
    const auto folder = kShared / "tracks";
    if (!std::filesystem::exists(folder)) GTEST_SKIP() << "no shared data";
    const auto files = track_files({folder});
    ASSERT_TRUE(files);
    EXPECT_TRUE(has(files->problems, "not_a_track_file"));  // the tractor's own binary log
    for (const auto& file : files->files) {
        const auto tracks = read_tracks(file);
        EXPECT_TRUE(tracks) << file << (tracks ? "" : tracks.error().what);
    }
    EXPECT_FALSE(track_files({"/nowhere/tracks"}));
}

// Outcome column of EXPECTED.csv: error and blocked files give an error (or their tracks and a
// problem), accepted ones tracks, warnings a problem; none crashes or hangs.
TEST(ReadTracks, EveryBrokenTrackFileGivesItsBehaviour) {
    const auto read = read_csv(kShared / "bad-input/EXPECTED.csv");
    if (!read) GTEST_SKIP() << "no shared data";
    const Table table{*read};
    const std::set<std::string> kinds{"GPX", "CSV", "KML", "KMZ"};
    int seen = 0;
    for (const CsvRow& row : table.csv.rows) {
        const std::string name = table.cell(row, "file");
        const bool track = kinds.count(table.cell(row, "kind")) > 0 || name.starts_with("names/") ||
                           name.starts_with("json-");
        // A huge number in JSON is refused with its place, and so is text after the end.
        const std::set<std::string> refused{"json-huge-integer.geojson", "json-lines.geojson",
                                            "json-trailing-garbage.geojson"};
        if (!track || refused.contains(name)) continue;
        ++seen;
        const std::string outcome = table.cell(row, "outcome");
        const auto tracks = read_tracks(kShared / "bad-input" / name);
        const std::string said = tracks ? "no problem named" : tracks.error().what;
        if (outcome == "error") {
            EXPECT_TRUE(!tracks || !tracks->problems.empty()) << name;
        } else if (outcome == "warning") {
            EXPECT_TRUE(tracks && !tracks->problems.empty()) << name << ": " << said;
        } else if (outcome == "accepted") {
            EXPECT_TRUE(tracks) << name << ": " << said;
        }
        std::string text = tracks ? "" : tracks.error().what + tracks.error().where;
        if (tracks)
            for (const Problem& problem : tracks->problems) text += problem.text + problem.where;
        EXPECT_EQ(text.find('\x1b'), std::string::npos) << name << " colours the terminal";
        EXPECT_EQ(text.find("CANARY"), std::string::npos) << name << " leaks another file";
    }
    EXPECT_GT(seen, 60);
}

TEST(ReadTracks, RefusalsSayWhatAndWhere) {
    const auto bad = kShared / "bad-input";
    if (!std::filesystem::exists(bad)) GTEST_SKIP() << "no shared data";
    const std::map<std::string, std::string> codes{
        {"gpx-entity-expansion.gpx", "document_type_refused"},
        {"gpx-external-entity.gpx", "document_type_refused"},
        {"gpx-is-a-zip.gpx", "wrong_content"},
        {"gpx-gzip-bomb.gpx.gz", "wrong_content"},
        {"kmz-bomb.kmz", "wrong_content"},
        {"csv-no-header.csv", "csv_columns_missing"},
        {"csv-open-quote.csv", "csv_open_quote"},
        {"csv-swapped-columns.csv", "coordinates_out_of_range"},
        {"csv-degrees-minutes.csv", "coordinate_unreadable"},
        {"gpx-decimal-comma.gpx", "coordinate_unreadable"},
        {"kml-words.kml", "coordinate_unreadable"},
        {"kml-spaces-in-coordinates.kml", "coordinate_unreadable"},
        {"csv-empty.csv", "empty_file"},
        {"json-nan.geojson", "broken_json"},
        {"json-overflow.geojson", "broken_json"},
        {"json-truncated.geojson", "broken_json"},
        {"json-lines.geojson", "broken_json"},
        {"json-utf16.geojson", "broken_json"},
        {"json-not-geojson.geojson", "broken_json"},
        {"json-deep-arrays.geojson", "broken_json"},
        {"json-string-coordinates.geojson", "coordinate_unreadable"},
        {"json-one-number-point.geojson", "coordinate_unreadable"},
        {"json-empty-coordinates.geojson", "coordinate_unreadable"},
        {"json-1e308.geojson", "coordinates_out_of_range"},
        {"poly-unknown-crs.geojson", "crs_unreadable"},
        {"crs-link.geojson", "link_refused"},
    };
    for (const auto& [name, code] : codes) {
        const auto tracks = read_tracks(bad / name);
        ASSERT_FALSE(tracks) << name;
        EXPECT_EQ(tracks.error().code, code) << name;
        EXPECT_NE(tracks.error().what.find(name), std::string::npos) << tracks.error().what;
        EXPECT_FALSE(tracks.error().remedy.empty());
    }
}

class WrittenTracks : public ::testing::Test {
  protected:
    Scratch scratch_;
};

TEST_F(WrittenTracks, GeoJsonLinesWithAndWithoutTimes) {
    const auto file = scratch_.put("drive.geojson", R"({"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"times":["2027-01-11T14:00:00Z","2027-01-11T07:00:05-07:00",null]},
"geometry":{"type":"LineString","coordinates":[[-100.5,42.8],[-100.501,42.8],[-100.502,42.8]]}},
{"type":"Feature","properties":{},"geometry":{"type":"LineString","coordinates":[[-100.5,42.8],[-100.6,42.8]]}},
{"type":"Feature","properties":{"times":["2027-01-11T14:00:00Z"]},
"geometry":{"type":"LineString","coordinates":[[-100.5,42.8],[-100.6,42.8]]}},
{"type":"Feature","properties":{},"geometry":{"type":"Point","coordinates":[-100.5,42.8]}}]})");
    const auto tracks = read_tracks(file);
    ASSERT_TRUE(tracks) << tracks.error().what;
    ASSERT_EQ(tracks->tracks.size(), 3U);
    const auto& points = tracks->tracks[0].points;
    EXPECT_EQ(*points[1].time - *points[0].time, std::chrono::seconds(5));
    EXPECT_FALSE(points[2].time);
    EXPECT_TRUE(has(tracks->problems, "times_do_not_fit"));
    EXPECT_TRUE(has(tracks->problems, "not_a_line"));
    EXPECT_TRUE(has(tracks->problems, "track_without_times"));
}

// What stands in a file decides, and where its name says otherwise, it is told what it is.
TEST_F(WrittenTracks, FilesUnderWrongNamesAreReadAsWhatTheyAre) {
    const std::map<std::string, std::string> texts{
        {"GPX",
         "<gpx version='1.1' creator='t'><trk><trkseg><trkpt lat='42.8' lon='-100.5'>"
         "<time>2027-01-11T14:00:00Z</time></trkpt><trkpt lat='42.81' lon='-100.5'>"
         "<time>2027-01-11T14:05:00Z</time></trkpt></trkseg></trk></gpx>"},
        {"KML",
         "<kml><Placemark><Track><when>2027-01-11T14:00:00Z</when>"
         "<when>2027-01-11T14:05:00Z</when><coord>-100.5 42.8 0</coord>"
         "<coord>-100.5 42.81 0</coord></Track></Placemark></kml>"},
        {"GeoJSON", R"({"type":"Feature","properties":{"times":["2027-01-11T14:00:00Z",)"
                    R"("2027-01-11T14:05:00Z"]},"geometry":{"type":"LineString",)"
                    R"("coordinates":[[-100.5,42.8],[-100.5,42.81]]}})"}};
    const std::map<std::string, std::string> endings{
        {".gpx", "GPX"}, {".kml", "KML"}, {".geojson", "GeoJSON"},
        {".csv", ""},    {".txt", ""},    {"", ""}};
    std::set<std::string> hashes;
    for (const auto& [form, text] : texts) {
        for (const auto& [ending, meant] : endings) {
            SCOPED_TRACE(form + " under the ending " + ending);
            const auto tracks = read_tracks(scratch_.put("drive" + ending, text));
            ASSERT_TRUE(tracks) << tracks.error().what;
            EXPECT_EQ(tracks->points(), 2U);
            EXPECT_EQ(tracks->points_without_time(), 0U);
            hashes.insert(tracks->hash);
            ASSERT_EQ(has(tracks->problems, "named_otherwise"), form != meant);
            if (form == meant) continue;
            EXPECT_NE(tracks->problems.back().text.find("is " + form), std::string::npos);
        }
    }
    EXPECT_EQ(hashes.size(), 1U) << "the same points whatever the format";
    // A table has no mark of its own.
    const std::string table = "time,lon,lat\n2027-01-11T14:00:00Z,-100.5,42.8\n";
    for (const char* ending : {".gpx", ".kml", ".geojson"})
        EXPECT_FALSE(read_tracks(scratch_.put(std::string("table") + ending, table))) << ending;
}

TEST_F(WrittenTracks, AFeatureAtFaultIsNamedAndTheOthersAreUsed) {
    const auto file = scratch_.put("drive.geojson", R"({"type":"FeatureCollection","features":[
{"type":"Feature","properties":{},"geometry":{"type":"LineString","coordinates":[["-100.5",42.8],[-100.6,42.8]]}},
{"type":"Feature","properties":{},"geometry":{"type":"LineString","coordinates":[[-100.5,42.8],[-100.6,42.8]]}}]})");
    const auto tracks = read_tracks(file);
    ASSERT_TRUE(tracks) << tracks.error().what;
    ASSERT_EQ(tracks->tracks.size(), 1U);
    ASSERT_TRUE(has(tracks->problems, "coordinate_unreadable"));
    EXPECT_FALSE(has(tracks->problems, "no_geometry")) << "said once";
    const auto named = std::find_if(
        tracks->problems.begin(), tracks->problems.end(),
        [](const Problem& problem) { return problem.code == "coordinate_unreadable"; });
    EXPECT_EQ(named->where, "drive.geojson, feature 1");
}

TEST_F(WrittenTracks, APlaceWhereJsonEndsIsCountedInLinesAndColumns) {
    const auto tracks = read_tracks(scratch_.put("drive.geojson", "{\n\"type\": NaN}"));
    ASSERT_FALSE(tracks);
    EXPECT_EQ(tracks.error().where, "drive.geojson, line 2, column 9");
}

TEST_F(WrittenTracks, TheHashIsOfThePointsNotOfTheName) {
    const std::string text =
        "time,lon,lat\n2027-01-11T14:00:00Z,-100.5,42.8\n1799935205,-100.501,42.8\n";
    const auto a = read_tracks(scratch_.put("a.csv", text));
    const auto b = read_tracks(scratch_.put("b.csv", text));
    const auto c = read_tracks(scratch_.put("c.csv", text + "1799935206,-100.502,42.8\n"));
    ASSERT_TRUE(a && b && c);
    EXPECT_EQ(a->hash, b->hash);
    EXPECT_NE(a->hash, c->hash);
    EXPECT_EQ(a->hash.size(), 16U);
    // 2027-01-14T14:00:05Z by the date command.
    ASSERT_EQ(a->points(), 2U);
    EXPECT_EQ(a->tracks[0].points[1].time->time_since_epoch().count(), 1799935205000LL);
}

}  // namespace
}  // namespace haylane
