// Checks the ranch book by round trip: a folder written here by hand, made into a book and read
// back, must give the numbers worked out by hand (factors of NIST Handbook 44), whichever system,
// encoding and separator the folder uses; and that a change is whole or not there.
#include "core/base/units.h"
#include "core/ranch/check_ranch.h"
#include "gis/book/book_sql.h"
#include "gis/book/make_book.h"
#include "gis/book/plan_store.h"
#include "gis/book/read_book.h"
#include "gis/book/record_feedings.h"
#include "gis/gdal/gdal_session.h"
#include "tests/gis/scratch.h"

#include <cmath>
#include <csignal>

#include <gtest/gtest.h>
#include <sys/resource.h>

namespace haylane {
namespace {

constexpr const char* kPastures =
    R"({"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"name":"Home","ground":"tame","limit_n_lb_ac":100,"feed":true,"owner":"us"},
 "geometry":{"type":"Polygon","coordinates":[[[-103.41,46.30],[-103.40,46.30],[-103.40,46.31],[-103.41,46.31],[-103.41,46.30]],
 [[-103.406,46.304],[-103.404,46.304],[-103.404,46.306],[-103.406,46.304]]]}},
{"type":"Feature","properties":{"name":"Far","ground":"native"},
 "geometry":{"type":"MultiPolygon","coordinates":[[[[-103.40,46.30],[-103.39,46.30],[-103.39,46.31],[-103.40,46.30]]]]}}]})";
constexpr const char* kYards =
    R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{"name":"Stack"},
"geometry":{"type":"Point","coordinates":[-103.405,46.301]}}]})";

void put_map(const Scratch& scratch, const std::string& folder) {
    scratch.put(folder + "/pastures.geojson", kPastures);
    scratch.put(folder + "/yards.geojson", kYards);
}

BookContents made(const Scratch& scratch, const std::string& folder) {
    const auto book = scratch / (folder + ".gpkg");
    const auto report = make_book(scratch / folder, book, false);
    if (!report) throw std::runtime_error(report.error().code + ": " + report.error().what);
    auto contents = read_book(book);
    if (!contents) throw std::runtime_error(contents.error().code + ": " + contents.error().what);
    return std::move(*contents);
}

const RawRow& row(const BookContents& book, const char* role, std::size_t i) {
    return book.raw.roles.at(role).at(i);
}

bool has(const Problems& problems, const std::string& code) {
    for (const Problem& problem : problems) {
        if (problem.code == code) return true;
    }
    return false;
}

TEST(Book, GivesBackWhatTheFolderHeld) {
    const Scratch scratch;
    put_map(scratch, "ranch");
    scratch.put("ranch/hay.csv",
                "lot,yard,kind,bales,bale_lb,cp_pct,price_per_ton,colour\n"
                "Grass,Stack,grass,200,1250,9.4,110,green\n");
    scratch.put("ranch/weather.csv",
                "date,wind_from,wind_mph,low_f\n2027-01-04,NW,10,23\n2027-01-05,90,,\n");
    const BookContents book = made(scratch, "ranch");
    EXPECT_EQ(book.raw.name, "Ranch");  // the folder, as people write a name
    // Middle of the box of all pastures: -103.40, 46.305, rounded to 0.01 degree.
    EXPECT_DOUBLE_EQ(book.frame.centre().lon_deg, -103.40);
    EXPECT_NEAR(book.frame.centre().lat_deg, 46.305, 0.0051);
    const RawRow& home = row(book, "pastures", 0);
    EXPECT_EQ(home.text("name"), "Home");
    EXPECT_EQ(home.text("feed"), "1");
    EXPECT_NEAR(*home.number("limit_n_kg_per_m2"), 100.0 * 0.45359237 / 4046.8564224, 1e-15);
    EXPECT_EQ(home.where, "pastures.geojson, feature 1");
    const auto& shape = std::get<MultiPolygon>(home.shape);
    ASSERT_EQ(shape.size(), 1U);
    ASSERT_EQ(shape[0].outer.size(), 4U);
    EXPECT_EQ(shape[0].holes.size(), 1U);
    EXPECT_EQ(shape[0].outer[0], book.frame.to_frame({-103.41, 46.30}));
    const RawRow& grass = row(book, "hay", 0);
    EXPECT_DOUBLE_EQ(*grass.number("bale_kg"), 1250.0 * 0.45359237);
    EXPECT_DOUBLE_EQ(*grass.number("cp_ratio"), 0.094);
    EXPECT_NEAR(*grass.number("price_per_kg"), 110.0 / 907.18474, 1e-15);
    EXPECT_EQ(grass.where, "hay.csv, line 2");
    const RawRow& windy = row(book, "weather", 0);
    EXPECT_DOUBLE_EQ(*windy.number("wind_from_rad"), 315.0 * units::kPi / 180.0);
    EXPECT_DOUBLE_EQ(*windy.number("wind_m_per_s"), 4.4704);
    EXPECT_DOUBLE_EQ(*windy.number("low_c"), -5.0);
    EXPECT_DOUBLE_EQ(*row(book, "weather", 1).number("wind_from_rad"), units::kPi / 2.0);
    EXPECT_FALSE(row(book, "weather", 1).number("low_c"));
    EXPECT_FALSE(book.crs_operations.empty());
}

TEST(Book, BothSystemsGiveTheSameNumbers) {
    const Scratch scratch;
    put_map(scratch, "us");
    put_map(scratch, "metric");
    const char* const head =
        "rig,method,bales_per_trip,mass_lb,pto_hp,turn_radius_ft,feed_mph,lay_lb_per_ft_min,load_"
        "min_per_bale\n";
    scratch.put("us/rigs.csv", std::string(head) + "R,shred,3,1000,100,100,10,2,3\n");
    // The same machine, worked by hand: 453.59237 kg, 74.56998715822702 kW, 30.48 m, 16.09344 km/h.
    scratch.put("metric/rigs.csv",
                "rig,method,bales_per_trip,mass_kg,pto_kw,turn_radius_m,feed_kmh,lay_kg_per_m_min,"
                "load_min_per_bale\nR,shred,3,453.59237,74.56998715822702,30.48,16.09344,"
                "2.976327887139108,3\n");
    const BookContents us = made(scratch, "us");
    const BookContents metric = made(scratch, "metric");
    for (const char* column : {"mass_kg", "pto_w", "turn_radius_m", "feed_m_per_s",
                               "lay_kg_per_m_min", "load_s_per_bale"}) {
        const auto a = row(us, "rigs", 0).number(column);
        const auto b = row(metric, "rigs", 0).number(column);
        ASSERT_TRUE(a && b) << column;
        EXPECT_NEAR(*a / *b, 1.0, 1e-12) << column;
    }
    EXPECT_DOUBLE_EQ(*row(us, "rigs", 0).number("load_s_per_bale"), 180.0);
}

TEST(Book, EncodingsAndSeparatorsGiveTheSameRows) {
    const Scratch scratch;
    for (const char* folder : {"plain", "semicolon", "utf16"}) put_map(scratch, folder);
    scratch.put("plain/hay.csv", "lot,yard,bales,bale_lb,cp_pct\nFoin,Stack,10,1250.5,9.4\n");
    scratch.put("semicolon/hay.csv", "lot;yard;bales;bale_lb;cp_pct\nFoin;Stack;10;1250,5;9,4\n");
    std::string utf16 = "\xFF\xFE";
    for (const char c :
         std::string("lot\tyard\tbales\tbale_lb\tcp_pct\r\nFoin\tStack\t10\t1250.5\t9.4\r\n")) {
        utf16 += c;
        utf16 += '\0';
    }
    scratch.put("utf16/hay.csv", utf16);
    const BookContents plain = made(scratch, "plain");
    for (const char* folder : {"semicolon", "utf16"}) {
        const BookContents other = made(scratch, folder);
        EXPECT_EQ(row(other, "hay", 0).fields, row(plain, "hay", 0).fields) << folder;
    }
}

TEST(Book, NamesNumbersThatAreNone) {
    const Scratch scratch;
    put_map(scratch, "ranch");
    scratch.put("ranch/hay.csv",
                "lot,yard,bales,bale_lb\nA,Stack,\"1,200\",1250\nB,Stack,many,1250\n");
    const BookContents book = made(scratch, "ranch");
    EXPECT_FALSE(row(book, "hay", 0).number("bales"));
    std::vector<std::string> places;
    for (const Problem& problem : book.problems) {
        if (problem.code == "not_a_number") places.push_back(problem.where + problem.text);
    }
    ASSERT_EQ(places.size(), 2U);
    EXPECT_NE(places[0].find("hay.csv, line 2"), std::string::npos);
    EXPECT_NE(places[0].find("bales"), std::string::npos);
    EXPECT_NE(places[1].find("many"), std::string::npos);
}

TEST(Book, ColumnsCsvMapsTheFilesOwnNames) {
    const Scratch scratch;
    put_map(scratch, "ranch");
    scratch.put("ranch/hay.csv", "Name,Where,Count,Wt\nA,Stack,12,600\n");
    scratch.put("ranch/columns.csv",
                "role,column,in_file,unit\nhay,lot,Name,\nhay,yard,Where,\n"
                "hay,bales,Count,\nhay,bale,Wt,kg\n");
    const BookContents book = made(scratch, "ranch");
    EXPECT_EQ(row(book, "hay", 0).text("lot"), "A");
    EXPECT_DOUBLE_EQ(*row(book, "hay", 0).number("bale_kg"), 600.0);
}

TEST(Book, NeverOverwritesUnlessTold) {
    const Scratch scratch;
    put_map(scratch, "ranch");
    const auto book = scratch.put("b.gpkg", "precious");
    const auto report = make_book(scratch / "ranch", book, false);
    ASSERT_FALSE(report);
    EXPECT_EQ(report.error().code, "book_exists");
    EXPECT_EQ(std::filesystem::file_size(book), 8U);
    EXPECT_TRUE(make_book(scratch / "ranch", book, true));
    EXPECT_TRUE(read_book(book));
}

// While this lives no file may grow beyond `bytes`: stands in for a full disk (EFBIG for ENOSPC).
class FullDisk {
  public:
    explicit FullDisk(rlim_t bytes) : handler_(std::signal(SIGXFSZ, SIG_IGN)) {
        getrlimit(RLIMIT_FSIZE, &old_);
        rlimit small = old_;
        small.rlim_cur = bytes;
        setrlimit(RLIMIT_FSIZE, &small);
    }
    ~FullDisk() {
        setrlimit(RLIMIT_FSIZE, &old_);
        std::signal(SIGXFSZ, handler_);
    }
    FullDisk(const FullDisk&) = delete;
    FullDisk& operator=(const FullDisk&) = delete;

  private:
    rlimit old_{};
    void (*handler_)(int);
};

TEST(Book, LeavesNothingBehindWhenTheDiskIsFull) {
    const Scratch scratch;
    put_map(scratch, "ranch");
    const auto book = scratch.put("b.gpkg", "precious");
    const auto report = [&] {
        const FullDisk full(40000);
        return make_book(scratch / "ranch", book, true);
    }();
    ASSERT_FALSE(report);
    EXPECT_EQ(report.error().code, "book_not_written");
    EXPECT_EQ(std::filesystem::file_size(book), 8U);
    std::size_t files = 0;
    for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator(scratch.path()))
        ++files;
    EXPECT_EQ(files, 2U);  // the folder and the old file
}

TEST(Book, RefusesWhatIsNoBook) {
    const Scratch scratch;
    const auto text = read_book(scratch.put("text.gpkg", "hello"));
    ASSERT_FALSE(text);
    EXPECT_EQ(text.error().code, "file_unreadable");
    const auto none = read_book(scratch / "none.gpkg");
    ASSERT_FALSE(none);
    EXPECT_EQ(none.error().code, "file_missing");
}

class BookChanges : public testing::Test {
  protected:
    void SetUp() override {
        put_map(scratch_, "ranch");
        scratch_.put("ranch/hay.csv",
                     "lot,yard,bales,bale_lb\nA,Stack,10,1250\nIt's B,Stack,3,1250\n");
        book_ = scratch_ / "ranch.gpkg";
        ASSERT_TRUE(make_book(scratch_ / "ranch", book_, false));
    }
    FeedingEntry entry() const {
        FeedingEntry one;
        one.herd = "Cows";
        one.pasture = "Home";
        one.rig = "R";
        one.date = *parse_day("2027-01-11");
        one.lots = {{"A", 4.0}};
        one.lines = {{"d1", {{0.0, 0.0}, {100.0, 50.0}}}, {"d2", {{0.0, 20.0}, {100.0, 70.0}}}};
        return one;
    }
    BookContents contents() const {
        auto read = read_book(book_);
        if (!read) throw std::runtime_error(read.error().what);
        return std::move(*read);
    }
    Scratch scratch_;
    std::filesystem::path book_;
};

TEST_F(BookChanges, FeedingsAreRecordedAndHayIsTakenOff) {
    FeedingEntry one = entry();
    one.lots.push_back({"It's B", 1.0});
    const auto recorded = record_feedings(book_, {one});
    ASSERT_TRUE(recorded) << recorded.error().what;
    ASSERT_EQ(recorded->uuids.size(), 2U);
    EXPECT_NE(recorded->uuids[0], recorded->uuids[1]);
    EXPECT_TRUE(recorded->problems.empty());
    const BookContents book = contents();
    const RawRow& fed = row(book, "feedings", 0);
    EXPECT_EQ(fed.text("date"), "2027-01-11");
    EXPECT_EQ(fed.text("lot"), "A");
    EXPECT_EQ(fed.text("source"), "entered");
    EXPECT_DOUBLE_EQ(*fed.number("bales"), 4.0);
    const auto& lines = std::get<MultiPolyline>(fed.shape);
    ASSERT_EQ(lines.size(), 2U);
    EXPECT_NEAR(distance_m(lines[0][1], {100.0, 50.0}), 0.0, 1e-6);
    EXPECT_EQ(row(book, "feedings", 1).text("lot"), "It's B");
    EXPECT_DOUBLE_EQ(*row(book, "hay", 0).number("bales"), 6.0);
    EXPECT_DOUBLE_EQ(*row(book, "hay", 1).number("bales"), 2.0);
    // A second run adds to it.
    ASSERT_TRUE(record_feedings(book_, {entry()}));
    EXPECT_EQ(contents().raw.roles.at("feedings").size(), 3U);
    auto open = open_book_for_update(book_);
    ASSERT_TRUE(open);
    const auto ids = ask_sql(**open, "SELECT group_concat(line_id) FROM feeding_lines");
    ASSERT_TRUE(ids);
    EXPECT_EQ(*ids, "d1,d2,d1,d2,d1,d2");  // of two lots, and again
    EXPECT_DOUBLE_EQ(*row(contents(), "hay", 0).number("bales"), 2.0);
}

TEST_F(BookChanges, AFeedingThatFailsLeavesTheBookAsItWas) {
    FeedingEntry bad = entry();
    bad.lots = {{"A", 4.0}, {"Nowhere", 1.0}};
    const auto recorded = record_feedings(book_, {entry(), bad});
    ASSERT_FALSE(recorded);
    EXPECT_EQ(recorded.error().code, "unknown_lot");
    const BookContents book = contents();
    EXPECT_FALSE(book.raw.roles.contains("feedings"));
    EXPECT_DOUBLE_EQ(*row(book, "hay", 0).number("bales"), 10.0);
}

TEST_F(BookChanges, MoreBalesThanThereAreIsSaidAndNeverBelowZero) {
    FeedingEntry many = entry();
    many.lots = {{"A", 12.0}};
    const auto recorded = record_feedings(book_, {many});
    ASSERT_TRUE(recorded);
    EXPECT_TRUE(has(recorded->problems, "hay_short"));
    EXPECT_DOUBLE_EQ(*row(contents(), "hay", 0).number("bales"), 0.0);
}

// Ten bales were there and twelve were fed: ten come back. A book from before `taken` was kept
// gives back what was fed.
TEST_F(BookChanges, TakingAFeedingOutGivesBackWhatItTook) {
    FeedingEntry many = entry();
    many.lots = {{"A", 12.0}};
    const auto short_of = record_feedings(book_, {many});
    ASSERT_TRUE(short_of);
    const auto take_out = [&](const std::vector<std::string>& uuids, const char* first) {
        auto open = open_book_for_update(book_);
        ASSERT_TRUE(open);
        ASSERT_TRUE(run_sql(**open, first));
        ASSERT_TRUE(remove_feedings(**open, uuids));
    };
    take_out(short_of->uuids, "SELECT 1");
    EXPECT_DOUBLE_EQ(*row(contents(), "hay", 0).number("bales"), 10.0);
    many.lots = {{"A", 4.0}};
    const auto enough = record_feedings(book_, {many});
    ASSERT_TRUE(enough);
    EXPECT_DOUBLE_EQ(*row(contents(), "hay", 0).number("bales"), 6.0);
    take_out(enough->uuids, "UPDATE feeding_bales SET taken = NULL");
    EXPECT_DOUBLE_EQ(*row(contents(), "hay", 0).number("bales"), 10.0);
}

TEST_F(BookChanges, AFullDiskLeavesTheBookAsItWas) {
    FeedingEntry big = entry();
    big.lines = {{"", Polyline(20000, Point{1.0, 2.0})}};
    const auto recorded = [&] {
        const FullDisk full(std::filesystem::file_size(book_) + 4096);
        return record_feedings(book_, {big});
    }();
    ASSERT_FALSE(recorded);
    EXPECT_EQ(recorded.error().code, "book_not_written");
    EXPECT_FALSE(contents().raw.roles.contains("feedings"));
    EXPECT_DOUBLE_EQ(*row(contents(), "hay", 0).number("bales"), 10.0);
    ASSERT_TRUE(record_feedings(book_, {entry()}));  // and it can be changed again
}

TEST_F(BookChanges, PlansAreKeptWithTheirLines) {
    EXPECT_TRUE(stored_plans(book_)->empty());
    StoredPlan plan;
    plan.from = *parse_day("2027-01-11");
    plan.json = R"({"why":"it's dry"})";
    plan.lines = {{"d1", plan.from, "Cows", "Home", "R", {{0.0, 0.0}, {30.0, 40.0}}}};
    ASSERT_TRUE(save_plan(book_, plan));
    plan.from = *parse_day("2027-01-18");
    plan.lines[0].id = "d2";
    ASSERT_TRUE(save_plan(book_, plan));
    const auto plans = stored_plans(book_);
    ASSERT_TRUE(plans);
    ASSERT_EQ(plans->size(), 2U);
    EXPECT_EQ(plans->at(1).from, plan.from);
    EXPECT_EQ(plans->at(0).json, plan.json);
    ASSERT_EQ(plans->at(0).lines.size(), 1U);
    EXPECT_EQ(plans->at(0).lines[0].id, "d1");
    EXPECT_EQ(plans->at(1).lines[0].id, "d2");
    EXPECT_NEAR(length_m(plans->at(1).lines[0].path), 50.0, 1e-6);
    EXPECT_FALSE(plans->at(0).made_at.empty());
}

TEST_F(BookChanges, ANewerSchemaIsReadButNotChanged) {
    {
        auto open = open_book_for_update(book_);
        ASSERT_TRUE(open);
        ASSERT_TRUE(
            run_sql(**open, "UPDATE haylane_book SET value = '99' WHERE key = 'schema_version'"));
    }
    EXPECT_TRUE(has(contents().problems, "newer_book"));
    const auto recorded = record_feedings(book_, {entry()});
    ASSERT_FALSE(recorded);
    EXPECT_EQ(recorded.error().code, "newer_book");
}

// GeoPackage 1.3: application_id "GPKG" at byte 68, user_version 10300 at byte 60 (OGC 12-128).
TEST_F(BookChanges, IsAPlainGeoPackageWithARollbackJournal) {
    std::ifstream in(book_, std::ios::binary);
    std::string head(100, '\0');
    in.read(head.data(), 100);
    EXPECT_EQ(head.substr(68, 4), "GPKG");
    EXPECT_EQ(head.substr(60, 4), std::string("\0\0\x28\x3C", 4));
    EXPECT_EQ(head[18], '\x01');  // 2 would be a write-ahead log (SQLite file format, section 1.3)
    auto open = open_book_to_read(book_);
    ASSERT_TRUE(open);
    EXPECT_EQ((*open)->GetLayerByName("gpkg_ogr_contents"), nullptr);
    const auto srs =
        ask_sql(**open, "SELECT srs_id FROM gpkg_geometry_columns WHERE table_name = 'pastures'");
    ASSERT_TRUE(srs);
    EXPECT_EQ(*srs, "4326");
}

TEST(Book, TheSampleRanchIsReadAndChecked) {
    const auto folder = std::filesystem::path(HAYLANE_SOURCE_DIR) / "sample-maps/brindle-coulee";
    const Scratch scratch;
    const auto report = make_book(folder, scratch / "b.gpkg", false);
    ASSERT_TRUE(report) << report.error().what;
    for (const Problem& problem : report->problems) {
        EXPECT_NE(problem.severity, Severity::error) << problem.where << ": " << problem.text;
    }
    const auto book = read_book(scratch / "b.gpkg");
    ASSERT_TRUE(book) << book.error().what;
    ASSERT_TRUE(book->raw.terrain);
    std::size_t known = 0;
    for (const float z : book->raw.terrain->elevation_m.values) known += std::isnan(z) ? 0U : 1U;
    EXPECT_GT(known, book->raw.terrain->elevation_m.grid.size() / 2);
    const auto checked = check_ranch(book->raw);
    ASSERT_TRUE(checked) << checked.error().what;
    EXPECT_GE(checked->ranch.pastures.size(), 3U);
    EXPECT_GE(checked->ranch.herds.size(), 2U);
    EXPECT_FALSE(checked->ranch.trails.empty());
}

}  // namespace
}  // namespace haylane
