// Checks the GPX reader against the shared broken files (what EXPECTED.csv asks of each), counts
// and geodesic lengths made with GDAL and GeographicLib by others (oracles/track-counts.csv), the
// GPX 1.1 schema's element names, and small files written by hand.
#include "gis/vector/csv_table.h"
#include "gis/vector/gpx_checks.h"
#include "gis/vector/gpx_time.h"
#include "gis/vector/read_gpx.h"
#include "gis/vector/read_layers.h"
#include "tests/gis/scratch.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include <gtest/gtest.h>

namespace haylane {
namespace {

const std::filesystem::path kShared = HAYLANE_SHARED_DATA;

std::string gpx(const std::string& inside) {
    return "<gpx version=\"1.1\" creator=\"t\">\n" + inside + "\n</gpx>";
}
std::string trkpt(double lat, double lon, const std::string& inside = "") {
    return "<trkpt lat=\"" + std::to_string(lat) + "\" lon=\"" + std::to_string(lon) + "\">" +
           inside + "</trkpt>\n";
}
std::string track(const std::string& points) {
    return "<trk><name>A</name><trkseg>\n" + points + "</trkseg></trk>";
}

std::size_t points_of(const GpxFile& file) {
    std::size_t count = file.waypoints.size();
    for (const GpxTrack& one : file.tracks) {
        for (const GpxSegment& segment : one.segments) count += segment.points.size();
    }
    return count;
}

// "code line" of every problem.
std::multiset<std::string> named(const GpxFile& file) {
    std::multiset<std::string> all;
    for (const Problem& problem : file.problems) {
        const std::size_t at = problem.where.find(", line ");
        EXPECT_NE(at, std::string::npos) << problem.where;
        EXPECT_FALSE(problem.remedy.empty());
        all.insert(problem.code + " " + problem.where.substr(at + 7));
    }
    return all;
}

struct Wanted {
    const char* file;
    std::size_t points;
    std::multiset<std::string> problems;
};

TEST(ReadGpx, DoesWithEachOddFileWhatIsExpected) {
    if (!std::filesystem::exists(kShared / "bad-input")) GTEST_SKIP() << "no shared data";
    const std::vector<Wanted> all = {
        {"gpx-truncated.gpx", 12, {"file_cut_short 16"}},
        {"gpx-no-tracks.gpx", 0, {"gpx_empty 1"}},
        {"gpx-nan-inf.gpx",
         6,
         {"coordinate_unreadable 7", "coordinate_unreadable 8", "coordinate_unreadable 9",
          "coordinate_unreadable 10"}},
        {"gpx-out-of-range.gpx",
         6,
         {"coordinates_out_of_range 7", "coordinates_out_of_range 8",
          "coordinates_out_of_range 9"}},
        {"gpx-lat-missing.gpx",
         4,
         {"coordinate_unreadable 6", "coordinate_unreadable 7", "coordinate_unreadable 8",
          "coordinate_unreadable 9"}},
        {"gpx-one-point.gpx", 1, {"shape_part_left_out 4"}},
        {"gpx-two-same-points.gpx", 2, {"receiver_stood_still 3"}},
        {"gpx-same-point-100000-times.gpx", 100000, {"receiver_stood_still 3"}},
        {"gpx-times-backwards.gpx", 15, {"time_goes_back 9"}},
        {"gpx-time-zones-mixed.gpx", 5, {"time_without_zone 7"}},
        {"gpx-leap-second.gpx", 3, {}},
        {"gpx-bad-times.gpx",
         6,
         {"time_unreadable 4", "time_unreadable 5", "time_unreadable 6", "time_unreadable 7",
          "clock_wrong 8", "clock_wrong 9", "time_goes_back 9"}},
        {"gpx-week-rollover.gpx", 20, {"time_jump 14"}},
        {"gpx-spike.gpx", 20, {"no_fix 14"}},
        {"gpx-utf16.gpx", 20, {}},
        {"gpx-wrong-encoding.gpx", 20, {"text_encoding 3"}},
        {"gpx-no-namespace.gpx", 20, {}},
        {"gpx-version-9.gpx", 20, {"gpx_version 2"}},
        {"gpx-mismatched-tag.gpx", 20, {"file_cut_short 24"}},
        {"gpx-escape-in-name.gpx", 20, {}},
        {"gpx-path-in-name.gpx", 20, {}},
        {"gpx-long-name.gpx", 20, {"text_shortened 3"}},
        {"gpx-huge-elevation.gpx",
         7,
         {"elevation_unreadable 5", "elevation_unreadable 6", "elevation_unreadable 7",
          "elevation_unreadable 9", "elevation_unreadable 10"}},
        {"gpx-antimeridian.gpx", 8, {}},
        {"gpx-swapped-lat-lon.gpx", 5, {"coordinates_out_of_range 9"}},
        {"names/track with spaces.gpx", 20, {}},
        {"names/pâturage d'hiver – Été №3 草地.gpx", 20, {}},
        {"names/UPPER.GPX", 20, {}},
        {"real/gpx-empty-elevation.gpx", 2, {"receiver_stood_still 3"}},
        {"real/gpx-single-point.gpx", 1, {"shape_part_left_out 5"}},
        {"real/gpx-track-without-points.gpx", 0, {"no_geometry 3"}},
        {"real/gpx-route-without-points.gpx", 0, {"no_geometry 3"}}};
    for (const Wanted& wanted : all) {
        SCOPED_TRACE(wanted.file);
        const auto read = read_gpx(kShared / "bad-input" / wanted.file);
        ASSERT_TRUE(read) << read.error().what;
        EXPECT_EQ(points_of(*read), wanted.points);
        EXPECT_EQ(named(*read), wanted.problems);
        for (const GpxTrack& one : read->tracks) {
            for (const GpxSegment& segment : one.segments) {
                for (const GpxPoint& point : segment.points) EXPECT_TRUE(on_earth(point.at));
            }
        }
    }
}

TEST(ReadGpx, RefusesWhatIsExpected) {
    if (!std::filesystem::exists(kShared / "bad-input")) GTEST_SKIP() << "no shared data";
    const std::map<std::string, std::pair<std::string, std::string>> all = {
        {"gpx-truncated-in-header.gpx", {"not_gpx", "line 2"}},
        {"gpx-empty-file.gpx", {"empty_file", "gpx-empty-file.gpx"}},
        {"gpx-only-spaces.gpx", {"empty_file", "gpx-only-spaces.gpx"}},
        {"gpx-binary-garbage.gpx", {"not_gpx", "first bytes are not XML"}},
        {"gpx-is-html.gpx", {"wrong_content", "web page"}},
        {"gpx-decimal-comma.gpx", {"coordinate_unreadable", "line 4: '42,8700' is no coordinate"}},
        {"gpx-entity-expansion.gpx", {"document_type_refused", "document type"}},
        {"gpx-quadratic-expansion.gpx", {"document_type_refused", "document type"}},
        {"gpx-external-entity.gpx", {"document_type_refused", "document type"}},
        {"gpx-external-dtd.gpx", {"document_type_refused", "document type"}},
        {"gpx-deep-nesting.gpx", {"nested_too_deeply", "line 3"}},
        {"gpx-control-characters.gpx", {"not_gpx", "line 3"}},
        {"gpx-is-a-zip.gpx", {"wrong_content", "zip archive"}},
        {"real/gpx-undefined-coordinates.gpx", {"coordinate_unreadable", "other 4 points"}}};
    for (const auto& [file, wanted] : all) {
        SCOPED_TRACE(file);
        const auto read = read_gpx(kShared / "bad-input" / file);
        ASSERT_FALSE(read);
        EXPECT_EQ(read.error().code, wanted.first);
        EXPECT_NE(read.error().what.find(wanted.second), std::string::npos) << read.error().what;
        EXPECT_FALSE(read.error().remedy.empty());
    }
}

TEST(ReadGpx, LosesNothingOfRealTracks) {
    const auto table = read_csv(kShared / "oracles/track-counts.csv");
    if (!table) GTEST_SKIP() << "no shared data";
    int compared = 0;
    for (const CsvRow& row : table->rows) {
        const auto& cells = row.cells;
        SCOPED_TRACE(cells[0] + " track " + cells[3] + " segment " + cells[4]);
        const auto read = read_gpx(kShared / cells[0]);
        ASSERT_TRUE(read) << read.error().what;
        EXPECT_EQ(read->waypoints.size(), std::stoul(cells[1]));
        std::vector<const GpxTrack*> tracks;
        for (const GpxTrack& one : read->tracks) {
            if (!one.route) tracks.push_back(&one);
        }
        EXPECT_EQ(read->tracks.size() - tracks.size(), std::stoul(cells[2]));
        if (cells[3].empty()) continue;
        const auto& segments = tracks.at(std::stoul(cells[3]))->segments;
        ASSERT_GT(segments.size(), std::stoul(cells[4]));
        const auto& points = segments[std::stoul(cells[4])].points;
        ASSERT_EQ(points.size(), std::stoul(cells[5]));
        std::size_t untimed = 0;
        double length = 0.0;
        for (std::size_t i = 0; i < points.size(); ++i) {
            untimed += points[i].time ? 0U : 1U;
            if (i > 0) length += rough_distance_m(points[i - 1].at, points[i].at);
        }
        EXPECT_EQ(untimed, std::stoul(cells[7]));
        EXPECT_NEAR(length, std::stod(cells[10]), 0.006 * length + 1e-3);
        ++compared;
    }
    EXPECT_EQ(compared, 35);
}

TEST(ReadGpx, PutsTimesInUtcAndKeepsThemMissingWhereUnreadable) {
    if (!std::filesystem::exists(kShared / "bad-input")) GTEST_SKIP() << "no shared data";
    const auto zones = read_gpx(kShared / "bad-input/gpx-time-zones-mixed.gpx");
    ASSERT_TRUE(zones);
    const auto& points = zones->tracks.at(0).segments.at(0).points;
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
        EXPECT_EQ(*points[i].time - *points[0].time, std::chrono::seconds(5 * i));
    }
    EXPECT_EQ(*points[4].time - *points[0].time, std::chrono::milliseconds(20500));
    const auto bad = read_gpx(kShared / "bad-input/gpx-bad-times.gpx");
    ASSERT_TRUE(bad);
    for (std::size_t i = 0; i < 6; ++i) {
        EXPECT_EQ(bad->tracks.at(0).segments.at(0).points[i].time.has_value(), i >= 4);
    }
}

// Worked by hand; 2016-12-31T23:59:60Z is the leap second of IERS Bulletin C 52.
TEST(GpxTime, ReadsIso8601) {
    const auto read = [](const char* text) { return parse_gpx_time(text); };
    const GpxTime noon{std::chrono::sys_days{std::chrono::year{2027} / 1 / 11} +
                       std::chrono::hours(12)};
    for (const char* same :
         {"2027-01-11T12:00:00Z", "2027-01-11T05:00:00-07:00", "2027-01-11T17:45:00+05:45",
          "2027-01-11T12:00:00.000Z", "2027-01-12T00:00:00+1200", "2027-01-11T12:00:00"}) {
        ASSERT_TRUE(read(same)) << same;
        EXPECT_EQ(read(same)->at, noon) << same;
    }
    EXPECT_FALSE(read("2027-01-11T12:00:00")->zone_given);
    EXPECT_TRUE(read("2027-01-11T05:00:00-07:00")->zone_given);
    EXPECT_EQ(read("2027-01-11T12:00:00.25678Z")->at - noon, std::chrono::milliseconds(256));
    EXPECT_EQ(read("2016-12-31T23:59:60Z")->at, read("2017-01-01T00:00:00Z")->at);
    for (const char* bad :
         {"", "2027-01-11", "2027-01-11T", "2027-01-11T12:00", "2027-01-11T24:00:00Z",
          "2027-01-11T12:60:00Z", "2027-01-11T12:00:61Z", "2027-01-11T12:00:00.Z",
          "2027-01-11T12:00:00+", "2027-01-11T12:00:00+07", "2027-01-11T12:00:00+15:00",
          "2027-01-11T12:00:00Zx", "2027-02-29T12:00:00Z", "2027-01-11x12:00:00Z"}) {
        EXPECT_FALSE(read(bad)) << bad;
    }
}

TEST(ReadGpx, TakesPrefixesRoutesLinksAndExtensions) {
    const Scratch scratch;
    const auto file = scratch.put("trails.gpx", R"(<g:gpx version="1.1" xmlns:g="u" xmlns:x="v">
<g:wpt lat="42.5" lon="-100.5"><g:ele>850</g:ele><g:name>Gate</g:name></g:wpt>
<g:rte><g:name>Lane</g:name><g:desc>by the creek</g:desc><g:link href="http://a/"><g:text>t</g:text></g:link>
<g:extensions><x:surface>dirt</x:surface><x:deep><x:width>12</x:width></x:deep></g:extensions>
<g:rtept lat="42.5" lon="-100.5"><g:name>inner</g:name></g:rtept><g:rtept lat="42.6" lon="-100.5"/></g:rte>
<g:trk><x:name>foreign</x:name><g:name>Ridge</g:name><g:trkseg><g:trkpt lat="42.5" lon="-100.5"/><g:trkpt lat="42.5" lon="-100.6"/></g:trkseg></g:trk>
</g:gpx>)");
    const auto read = read_gpx(file);
    ASSERT_TRUE(read) << read.error().what;
    EXPECT_TRUE(read->problems.empty());
    ASSERT_EQ(read->tracks.size(), 2U);
    EXPECT_TRUE(read->tracks[0].route);
    EXPECT_EQ(read->tracks[0].label.name, "Lane");
    EXPECT_EQ(read->tracks[0].segments.at(0).points.size(), 2U);
    EXPECT_EQ(read->tracks[0].segments[0].points[0].line, 5U);
    const auto layers = read_layers(file);
    ASSERT_TRUE(layers);
    const SourceLayer& layer = layers->front();
    std::map<std::string, std::string> cells;
    for (std::size_t i = 0; i < layer.columns.size(); ++i) {
        cells[layer.columns[i]] = layer.rows.at(0).cells.at(i);
    }
    EXPECT_EQ(cells["desc"], "by the creek");
    EXPECT_EQ(cells["link"], "http://a/");
    EXPECT_EQ(cells["surface"], "dirt");
    EXPECT_EQ(cells["width"], "12");
    EXPECT_EQ(layer.rows.at(0).where, "trails.gpx, line 3");
    EXPECT_TRUE(layer.from_track && layer.spatial);
    EXPECT_EQ(layer.name, "trails");
    const auto places = read_layers(file, {.waypoints = true});
    ASSERT_TRUE(places);
    ASSERT_EQ(places->front().rows.size(), 1U);
    EXPECT_EQ(places->front().rows[0].cells[0], "Gate");
    EXPECT_EQ(places->front().rows[0].shape.points.size(), 1U);
}

TEST(ReadGpx, SumsUpManyFaultsOfOneKind) {
    const Scratch scratch;
    std::string points = trkpt(42.5, -100.5) + trkpt(42.6, -100.5);
    for (int i = 0; i < 1000; ++i) points += "<trkpt lat=\"x\" lon=\"1\"/>\n";
    const auto read = read_gpx(scratch.put("a.gpx", gpx(track(points))));
    ASSERT_TRUE(read);
    EXPECT_EQ(points_of(*read), 2U);
    ASSERT_EQ(read->problems.size(), 6U);
    EXPECT_NE(read->problems.back().text.find("995 times more, the last in line 1004"),
              std::string::npos)
        << read->problems.back().text;
}

TEST(ReadGpx, LeavesOutSpikesOfTracksButNotFarPointsOfRoutes) {
    const Scratch scratch;
    const std::string far =
        trkpt(42.50, -100.5) + trkpt(43.0, -100.5) + trkpt(42.501, -100.5) + trkpt(42.502, -100.5);
    const auto read = read_gpx(scratch.put("a.gpx", gpx(track(far))));
    ASSERT_TRUE(read);
    EXPECT_EQ(points_of(*read), 3U);
    EXPECT_EQ(named(*read), std::multiset<std::string>{"position_spike 4"});
    std::string route = far;
    for (std::size_t at = route.find("trkpt"); at != std::string::npos; at = route.find("trkpt")) {
        route.replace(at, 5, "rtept");
    }
    const auto kept = read_gpx(scratch.put("b.gpx", gpx("<rte>" + route + "</rte>")));
    ASSERT_TRUE(kept);
    EXPECT_EQ(points_of(*kept), 4U);
    EXPECT_TRUE(kept->problems.empty());
}

TEST(ReadGpx, KeepsToItsLimits) {
    const Scratch scratch;
    const auto two = scratch.put("a.gpx", gpx(track(trkpt(42.5, -100.5) + trkpt(42.6, -100.5))));
    GpxLimits limits;
    limits.most_points = 4;  // two points, a track and a segment
    EXPECT_TRUE(read_gpx(two, limits));
    limits.most_points = 3;
    ASSERT_FALSE(read_gpx(two, limits));
    EXPECT_EQ(read_gpx(two, limits).error().code, "too_many_features");
    limits = {.most_bytes = 20};
    ASSERT_FALSE(read_gpx(two, limits));
    EXPECT_EQ(read_gpx(two, limits).error().code, "file_too_large");
    const std::string letters = "a\xC3\xA9\xC3\xA9";
    const auto cut = read_gpx(scratch.put("b.gpx", gpx("<trk><name>" + letters + "</name></trk>")),
                              {.most_text_bytes = 4});
    ASSERT_TRUE(cut);
    EXPECT_EQ(cut->tracks.at(0).label.name, "a\xC3\xA9");
    const auto endless =
        read_gpx(scratch.put("c.gpx", "<gpx><!--" + std::string(20U << 20U, ' ') + "--></gpx>"));
    ASSERT_FALSE(endless);
    EXPECT_EQ(endless.error().code, "not_gpx");
    EXPECT_FALSE(read_gpx(scratch / "none.gpx"));
}

TEST(ReadGpx, ReadsWindows1252ByNameAndBreaksInsideOtherThingsThanPoints) {
    const Scratch scratch;
    const auto named_so =
        read_gpx(scratch.put("a.gpx",
                             "<?xml version=\"1.0\" encoding=\"Windows-1252\"?><gpx><wpt lat=\"1\" "
                             "lon=\"2\"><name>\x80\xE9</name></wpt></gpx>"));
    ASSERT_TRUE(named_so) << named_so.error().what;
    EXPECT_EQ(named_so->waypoints.at(0).label.name, "\xE2\x82\xAC\xC3\xA9");
    EXPECT_TRUE(named_so->problems.empty());
    const std::string whole = gpx("<wpt lat=\"1\" lon=\"2\"/><wpt lat=\"3\" lon=\"4\"/>");
    for (std::size_t size = 1; size < whole.size(); ++size) {
        const auto read = read_gpx(scratch.put("b.gpx", whole.substr(0, size)));
        const std::size_t first_whole = whole.find("/>") + 2;
        const std::size_t second_whole = whole.rfind("/>") + 2;
        ASSERT_EQ(read.has_value(), size >= first_whole) << size;
        if (!read) continue;
        EXPECT_EQ(read->waypoints.size(), size >= second_whole ? 2U : 1U) << size;
        EXPECT_EQ(named(*read),
                  std::multiset<std::string>{std::string("file_cut_short ") +
                                             (size > whole.find("\n</gpx") ? "3" : "2")})
            << size;
    }
}

}  // namespace
}  // namespace haylane
