// Rows of a book changed as a table or a map on the screen changes them. Conversions: NIST Handbook
// 44, appendix C (pound 0.45359237 kg, foot 0.3048 m).
#include "gis/book/edit_rows.h"

#include "gis/book/book_change.h"
#include "gis/book/edit_cells.h"
#include "gis/book/make_book.h"
#include "gis/book/read_book.h"
#include "gis/book/read_folder.h"
#include "tests/gis/book_text.h"
#include "tests/gis/scratch.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

class EditRows : public testing::Test {
  protected:
    void SetUp() override {
        scratch_.put("ranch/pastures.geojson", kHomePasture);
        scratch_.put("ranch/herds.csv",
                     "herd,head,weight_lb,pastures\nCows,120,1320,Far ; Home;Homestead\n"
                     "Heifers,40,heavy,Home\n");
        book_ = scratch_ / "ranch.gpkg";
        ASSERT_TRUE(make_book(scratch_ / "ranch", book_, false));
    }
    [[nodiscard]] std::vector<RawRow> rows(const std::string& role) const {
        const auto contents = read_book(book_);
        if (!contents) return {};
        const auto found = contents->raw.roles.find(role);
        return found == contents->raw.roles.end() ? std::vector<RawRow>{} : found->second;
    }
    [[nodiscard]] std::string code_of(const std::vector<RowEdit>& edits) const {
        const auto done = edit_rows(book_, edits);
        return done ? "done" : done.error().code;
    }
    [[nodiscard]] static ShownColumn column(const char* role, const char* book) {
        for (const ShownColumn& one : shown_columns(role, false))
            if (one.spec->book == book) return one;
        ADD_FAILURE() << book;
        return {};
    }

    Scratch scratch_;
    std::filesystem::path book_;
};

TEST_F(EditRows, TakesACellInTheUsersUnit) {
    const ShownColumn weight = column("herds", "weight_kg");
    EXPECT_EQ(weight.heading, "weight_lb");
    EXPECT_EQ(shown_cell(weight, rows("herds")[0].fields["weight_kg"]), "1320");
    const auto value = typed_cell(weight, " 1,250");
    ASSERT_FALSE(value);
    EXPECT_EQ(value.error().code, "not_a_number");
    const auto good = typed_cell(weight, "1250.5");
    ASSERT_TRUE(good);
    // The reading had said that 'heavy' is no number; that is forgotten with the cell.
    ASSERT_FALSE(read_book(book_)->problems.empty());
    const RawRow heifers = rows("herds")[1];
    ASSERT_EQ(code_of({{.role = "herds",
                        .uuid = heifers.uuid,
                        .fields = {{"weight_kg", *good}},
                        .typed = {{"weight_lb", "1250.5"}}}}),
              "done");
    const RawRow now = rows("herds")[1];
    EXPECT_NEAR(*now.number("weight_kg"), 1250.5 * 0.45359237, 1e-9);
    EXPECT_EQ(now.text("herd"), "Heifers");
    EXPECT_EQ(now.uuid, heifers.uuid);
    EXPECT_TRUE(read_book(book_)->problems.empty());
    EXPECT_NE(book_text(book_).find("\"weight_lb\":\"1250.5\""), std::string::npos);
    // A blank empties it.
    ASSERT_EQ(code_of({{.role = "herds", .uuid = heifers.uuid, .fields = {{"weight_kg", {}}}}}),
              "done");
    EXPECT_FALSE(rows("herds")[1].number("weight_kg"));
}

TEST_F(EditRows, ANewNameGoesWhereverItIsSpokenOf) {
    const std::string uuid = rows("pastures")[0].uuid;
    ASSERT_EQ(code_of({{.role = "pastures", .uuid = uuid, .fields = {{"name", "Bob's \"flat\""}}}}),
              "done");
    EXPECT_EQ(rows("pastures")[0].text("name"), "Bob's \"flat\"");
    EXPECT_EQ(rows("herds")[0].text("pastures"), "Far;Bob's \"flat\";Homestead");
    EXPECT_EQ(rows("herds")[1].text("pastures"), "Bob's \"flat\"");
}

TEST_F(EditRows, AddsAndTakesOutWithShapes) {
    const RowEdit gate{.role = "gates", .fields = {{"name", "Road gate"}}, .shape = Point{10, -20}};
    const RowEdit trail{.role = "trails",
                        .fields = {{"name", "Lane"}},
                        .shape = MultiPolyline{{{0, 0}, {100, 50}}}};
    const RowEdit pasture{.role = "pastures",
                          .fields = {{"name", "East"}},
                          .shape = MultiPolygon{{{{500, 0}, {600, 0}, {600, 100}, {500, 100}},
                                                 {{{540, 40}, {540, 60}, {560, 60}, {560, 40}}}}}};
    ASSERT_EQ(code_of({gate, trail, pasture}), "done");
    const auto* at = std::get_if<Point>(&rows("gates").at(0).shape);
    ASSERT_NE(at, nullptr);
    EXPECT_LT(distance_m(*at, {10, -20}), 1e-6);
    ASSERT_EQ(rows("pastures").size(), 2U);
    const RawRow east = rows("pastures")[1];
    const auto* area = std::get_if<MultiPolygon>(&east.shape);
    ASSERT_NE(area, nullptr);
    EXPECT_NEAR(area_m2(*area), 10000.0 - 400.0, 1e-4);
    ASSERT_EQ(code_of({{.role = "pastures",
                        .uuid = east.uuid,
                        .shape = MultiPolygon{{{{500, 0}, {700, 0}, {700, 100}}, {}}}}}),
              "done");
    EXPECT_NEAR(area_m2(std::get<MultiPolygon>(rows("pastures")[1].shape)), 10000.0, 1e-4);
    ASSERT_EQ(code_of({{.role = "pastures", .uuid = east.uuid, .take_out = true}}), "done");
    EXPECT_EQ(rows("pastures").size(), 1U);
}

TEST_F(EditRows, WhatIsJoinedToAnotherIsSpokenOfByItsName) {
    ASSERT_EQ(code_of({{.role = "pastures", .fields = {{"name", "Homestead"}}}}), "done");
    const std::string uuid = rows("pastures")[1].uuid;
    ASSERT_EQ(code_of({{.role = "pastures", .uuid = uuid, .take_out = true, .into = "Home"}}),
              "done");
    EXPECT_EQ(rows("herds")[0].text("pastures"), "Far;Home;Home");
}

TEST_F(EditRows, RowsOfAFileBecomeNewRows) {
    const auto file =
        scratch_.put("more.csv", "herd,head,weight_kg,pastures,colour\nBulls,9,900,Home,red\n");
    const RoleInfo* role = find_role("herds");
    const auto layers = read_role_file(file, *role);
    ASSERT_TRUE(layers);
    const auto read = book_rows(*role, layers->front(), {});
    ASSERT_TRUE(read);
    ASSERT_EQ(code_of(edits_of("herds", *read, read_book(book_)->frame)), "done");
    ASSERT_EQ(rows("herds").size(), 3U);
    EXPECT_EQ(rows("herds")[2].text("herd"), "Bulls");
    EXPECT_EQ(rows("herds")[2].number("weight_kg"), 900.0);
    EXPECT_NE(book_text(book_).find("\"colour\":\"red\""), std::string::npos);
    const auto other = read_role_file(scratch_.put("more.doc", "x"), *role);
    ASSERT_FALSE(other);
    EXPECT_EQ(other.error().code, "file_not_read");
}

TEST_F(EditRows, RefusesWholeWorkForOneBadEdit) {
    const std::string before = book_text(book_);
    const RowEdit good{.role = "yards", .fields = {{"name", "Stack"}}, .shape = Point{0, 0}};
    EXPECT_EQ(code_of({good, {.role = "yards", .fields = {{"name", "Stack"}}}}), "name_taken");
    EXPECT_EQ(code_of({good, {.role = "yards", .fields = {}}}), "name_missing");
    EXPECT_EQ(code_of({good, {.role = "yards", .uuid = "none", .take_out = true}}), "row_gone");
    EXPECT_EQ(code_of({good, {.role = "sheep"}}), "unknown_role");
    EXPECT_EQ(book_text(book_), before);
}

TEST_F(EditRows, ComeUndone) {
    const std::string before = book_text(book_);
    const auto change = record_change(book_, tables_of_edits(), [&] {
        return edit_rows(book_,
                         {{.role = "pastures",
                           .uuid = rows("pastures")[0].uuid,
                           .fields = {{"name", "Flat"}},
                           .shape = MultiPolygon{{{{0, 0}, {50, 0}, {50, 50}}, {}}}},
                          {.role = "herds", .uuid = rows("herds")[1].uuid, .take_out = true}});
    });
    ASSERT_TRUE(change);
    const std::string after = book_text(book_);
    ASSERT_NE(after, before);
    ASSERT_TRUE(take_back(book_, *change));
    EXPECT_EQ(book_text(book_), before);
    ASSERT_TRUE(do_again(book_, *change));
    EXPECT_EQ(book_text(book_), after);
}

TEST(EmptyBook, IsOpenedAndFilled) {
    const Scratch scratch;
    const auto book = scratch / "new.gpkg";
    ASSERT_TRUE(make_empty_book(book, "Long Draw", {-103.4, 46.3}, false));
    EXPECT_EQ(make_empty_book(book, "Long Draw", {-103.4, 46.3}, false).error().code,
              "book_exists");
    EXPECT_EQ(make_empty_book(scratch / "pole.gpkg", "Pole", {0.0, 89.9}, false).error().code,
              "frame_impossible");
    const auto contents = read_book(book);
    ASSERT_TRUE(contents);
    EXPECT_EQ(contents->raw.name, "Long Draw");
    EXPECT_TRUE(contents->raw.roles.empty());
    EXPECT_NEAR(contents->frame.centre().lat_deg, 46.3, 1e-9);
}

}  // namespace
}  // namespace haylane
