// What is held and closed comes back from the book as it went in; a change is whole or not there; a
// book without the table, or with the one of old, gains it. GeoPackage rules: OGC 12-128 (1.3).
#include "gis/book/hold_store.h"

#include "gis/book/book_sql.h"
#include "gis/book/make_book.h"
#include "gis/book/read_book.h"
#include "tests/gis/scratch.h"

#include <gtest/gtest.h>
#include <ogrsf_frmts.h>

namespace haylane {
namespace {

class Holds : public testing::Test {
  protected:
    void SetUp() override {
        scratch_.put("ranch/pastures.geojson", kHomePasture);
        book_ = scratch_ / "ranch.gpkg";
        ASSERT_TRUE(make_book(scratch_ / "ranch", book_, false));
    }
    static StoredHold held_day(const char* herd, const char* date) {
        return {.kind = HoldKind::day,
                .herd = herd,
                .date = *parse_day(date),
                .date_to = *parse_day(date),
                .pasture = "Home",
                .rig = "Peel",
                .bales = {{"Bob's hay", 4.0}, {"Straw", 1.0}},
                .lines = {{{10.0, 20.0}, {10.5, 300.25}}, {{30.0, 300.0}, {30.0, 20.0}}}};
    }
    static StoredHold closed() {
        return {.kind = HoldKind::forbid,
                .name = "Wet corner",
                .date = *parse_day("2027-01-11"),
                .date_to = *parse_day("2027-01-14"),
                .pasture = "Home",
                .area = {{{{0, 0}, {100, 0}, {100, 100}, {0, 100}},
                          {{{40, 40}, {40, 60}, {60, 60}, {60, 40}}}},
                         {{{200, 0}, {300, 0}, {300, 50}}, {}}}};
    }
    void run(const std::string& sql) {
        auto open = open_book_for_update(book_);
        ASSERT_TRUE(open);
        const auto done = run_sql(**open, sql);
        ASSERT_TRUE(done) << done.error().what;
    }
    std::string ask(const std::string& sql) {
        auto open = open_book_for_update(book_);
        return open ? ask_sql(**open, sql).value_or("failed") : "no book";
    }
    std::vector<StoredHold> stored() {
        auto holds = stored_holds(book_);
        EXPECT_TRUE(holds) << (holds ? "" : holds.error().what);
        return holds ? std::move(*holds) : std::vector<StoredHold>{};
    }
    Scratch scratch_;
    std::filesystem::path book_;
};

void expect_near(const std::vector<Point>& a, const std::vector<Point>& b) {
    ASSERT_EQ(a.size(), b.size());
    for (std::size_t i = 0; i < a.size(); ++i) EXPECT_NEAR(distance_m(a[i], b[i]), 0.0, 1e-6);
}

TEST_F(Holds, ComeBackAsTheyWentIn) {
    EXPECT_TRUE(stored().empty());
    ASSERT_TRUE(save_holds(book_, {held_day("Main cows", "2027-01-12"), closed()}));
    const auto holds = stored();
    ASSERT_EQ(holds.size(), 2U);
    const StoredHold& held = holds[0];
    EXPECT_EQ(held.kind, HoldKind::day);
    EXPECT_EQ(held.herd, "Main cows");
    EXPECT_EQ(held.date, *parse_day("2027-01-12"));
    EXPECT_EQ(held.rig, "Peel");
    ASSERT_EQ(held.bales.size(), 2U);
    EXPECT_EQ(held.bales[0].lot, "Bob's hay");
    EXPECT_DOUBLE_EQ(held.bales[0].bales, 4.0);
    ASSERT_EQ(held.lines.size(), 2U);
    for (std::size_t l = 0; l < 2; ++l)
        expect_near(held.lines[l], held_day("Main cows", "2027-01-12").lines[l]);
    const StoredHold& ground = holds[1];
    EXPECT_EQ(ground.kind, HoldKind::forbid);
    EXPECT_EQ(ground.name, "Wet corner");
    EXPECT_EQ(ground.date_to, *parse_day("2027-01-14"));
    EXPECT_EQ(ground.pasture, "Home");
    ASSERT_EQ(ground.area.size(), 2U);
    expect_near(ground.area[0].outer, closed().area[0].outer);
    ASSERT_EQ(ground.area[0].holes.size(), 1U);
    expect_near(ground.area[0].holes[0], closed().area[0].holes[0]);
    EXPECT_NEAR(area_m2(ground.area), area_m2(closed().area), 1e-3);
}

TEST_F(Holds, ANewHoldOfAHerdAndDayTakesTheOldOnesPlace) {
    ASSERT_TRUE(save_holds(book_, {held_day("A", "2027-01-12"), held_day("B", "2027-01-12"),
                                   held_day("A", "2027-01-13"), closed()}));
    StoredHold line = held_day("A", "2027-01-12");
    line.kind = HoldKind::line;
    line.bales.clear();
    ASSERT_TRUE(save_holds(book_, {line}));
    const auto holds = stored();
    ASSERT_EQ(holds.size(), 4U);
    EXPECT_EQ(holds[0].herd, "B");
    EXPECT_EQ(holds[3].kind, HoldKind::line);
    EXPECT_TRUE(holds[3].bales.empty());
    EXPECT_EQ(holds[3].number, 5);  // numbers are not used again
}

TEST_F(Holds, AreReleasedAllOrNone) {
    ASSERT_TRUE(save_holds(book_, {held_day("A", "2027-01-12"), closed()}));
    const auto wrong = release_holds(book_, {1, 7});
    ASSERT_FALSE(wrong);
    EXPECT_EQ(wrong.error().code, "unknown_hold");
    EXPECT_EQ(stored().size(), 2U);
    ASSERT_TRUE(release_holds(book_, {1}));
    ASSERT_EQ(stored().size(), 1U);
    EXPECT_EQ(stored()[0].number, 2);
}

// A GeoPackage table of features: registered in gpkg_contents and gpkg_geometry_columns (2.1).
void expect_registered(const std::string& contents, const std::string& columns) {
    EXPECT_EQ(contents, "features/4326");
    EXPECT_EQ(columns, "geom/GEOMETRY/4326");
}

constexpr const char* kContents =
    "SELECT data_type || '/' || srs_id FROM gpkg_contents WHERE table_name = 'locks'";
constexpr const char* kColumns =
    "SELECT column_name || '/' || geometry_type_name || '/' || srs_id FROM gpkg_geometry_columns "
    "WHERE table_name = 'locks'";

TEST_F(Holds, ABookWithoutTheTableOpensAndGainsIt) {
    expect_registered(ask(kContents), ask(kColumns));
    run("/* as if made before there was one */ DROP TABLE locks");
    run("DELETE FROM gpkg_geometry_columns WHERE table_name = 'locks'");
    run("DELETE FROM gpkg_contents WHERE table_name = 'locks'");
    EXPECT_TRUE(read_book(book_));
    EXPECT_TRUE(stored().empty());
    ASSERT_TRUE(save_holds(book_, {held_day("A", "2027-01-12"), closed()}));
    EXPECT_EQ(stored().size(), 2U);
    expect_registered(ask(kContents), ask(kColumns));
    EXPECT_TRUE(read_book(book_));
}

// Books used to be made with an empty table of three columns and no shapes.
TEST_F(Holds, ABookWithTheTableOfOldGainsItsColumns) {
    run("/* old */ DROP TABLE locks");
    run("DELETE FROM gpkg_geometry_columns WHERE table_name = 'locks'");
    run("UPDATE gpkg_contents SET data_type = 'attributes', srs_id = 0 WHERE table_name = 'locks'");
    run("CREATE TABLE locks (fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, uuid TEXT, date TEXT, "
        "herd TEXT, what TEXT)");
    EXPECT_TRUE(read_book(book_));
    EXPECT_TRUE(stored().empty());
    ASSERT_TRUE(save_holds(book_, {held_day("A", "2027-01-12")}));
    ASSERT_EQ(stored().size(), 1U);
    EXPECT_EQ(stored()[0].lines.size(), 2U);
    expect_registered(ask(kContents), ask(kColumns));
}

TEST_F(Holds, AnotherProgramReadsTheTable) {
    ASSERT_TRUE(save_holds(book_, {held_day("A", "2027-01-12"), closed()}));
    auto open = open_book_to_read(book_);
    ASSERT_TRUE(open);
    OGRLayer* layer = (*open)->GetLayerByName("locks");
    ASSERT_NE(layer, nullptr);
    EXPECT_EQ(layer->GetFeatureCount(), 2);
    int polygons = 0;
    while (const OGRFeatureUniquePtr feature{layer->GetNextFeature()}) {
        const OGRGeometry* shape = feature->GetGeometryRef();
        ASSERT_NE(shape, nullptr);
        if (wkbFlatten(shape->getGeometryType()) == wkbMultiPolygon) ++polygons;
    }
    EXPECT_EQ(polygons, 1);
}

TEST_F(Holds, ANewerBookIsNotChanged) {
    run("UPDATE haylane_book SET value = '99' WHERE key = 'schema_version'");
    const auto saved = save_holds(book_, {closed()});
    ASSERT_FALSE(saved);
    EXPECT_EQ(saved.error().code, "newer_book");
}

}  // namespace
}  // namespace haylane
