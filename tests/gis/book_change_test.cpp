// A change taken back leaves every table as it was, and done again as it was after: values compared
// as SQLite itself quotes them (see book_text).
#include "gis/book/book_change.h"

#include "gis/book/book_sql.h"
#include "gis/book/hold_store.h"
#include "gis/book/make_book.h"
#include "tests/gis/book_text.h"
#include "tests/gis/scratch.h"

#include <gtest/gtest.h>
#include <ogrsf_frmts.h>

namespace haylane {
namespace {

const std::vector<std::string> kTables{"hay", "pastures", "locks", "not_there"};

class TakenBack : public testing::Test {
  protected:
    void SetUp() override {
        scratch_.put("ranch/pastures.geojson", kHomePasture);
        scratch_.put("ranch/yards.geojson",
                     R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":
{"name":"Stack"},"geometry":{"type":"Point","coordinates":[-103.405,46.305]}}]})");
        scratch_.put("ranch/hay.csv",
                     "lot,yard,bales,bale_lb\nBob's \"best\",Stack,40,1300\nOld,Stack,7,1111.1\n");
        book_ = scratch_ / "ranch.gpkg";
        ASSERT_TRUE(make_book(scratch_ / "ranch", book_, false));
    }
    Result<void> run(const std::vector<std::string>& statements) const {
        auto open = open_book_for_update(book_);
        if (!open) return fail(open.error());
        for (const std::string& sql : statements) {
            if (auto done = run_sql(**open, sql); !done) return done;
        }
        return {};
    }
    [[nodiscard]] std::string ask(const std::string& sql) const {
        auto open = open_book_for_update(book_);
        return open ? ask_sql(**open, sql).value_or("failed") : "no book";
    }
    [[nodiscard]] std::string all() const { return book_text(book_); }

    Scratch scratch_;
    std::filesystem::path book_;
};

TEST_F(TakenBack, AreTakenBackAndDoneAgain) {
    const std::string before = all();
    ASSERT_NE(before.find("Bob''s \"best\""), std::string::npos) << before;
    const auto change = record_change(book_, kTables, [&]() -> Result<void> {
        const StoredHold hold{.kind = HoldKind::forbid,
                              .name = "Wet corner",
                              .date = *parse_day("2027-01-11"),
                              .date_to = *parse_day("2027-01-14"),
                              .pasture = "Home",
                              .area = {{{{0, 0}, {100, 0}, {100, 100}, {0, 100}}, {}}}};
        if (auto saved = save_holds(book_, {hold}); !saved) return saved;
        return run({"UPDATE hay SET bales = bales - 3.3 WHERE lot LIKE 'Bob%'",
                    "DELETE FROM hay WHERE lot = 'Old'",
                    "UPDATE pastures SET geom = NULL WHERE name = 'Home'"});
    });
    ASSERT_TRUE(change) << change.error().what;
    EXPECT_EQ(change->rows.size(), 4U);  // two lots, the pasture, the hold
    const std::string after = all();
    ASSERT_NE(after, before);
    for (int round = 0; round < 3; ++round) {
        const auto back = take_back(book_, *change);
        ASSERT_TRUE(back) << back.error().what;
        EXPECT_EQ(all(), before);
        const auto again = do_again(book_, *change);
        ASSERT_TRUE(again) << again.error().what;
        EXPECT_EQ(all(), after);
    }
}

TEST_F(TakenBack, NothingDoneIsNoChange) {
    const auto change = record_change(book_, kTables, [] { return Result<void>{}; });
    ASSERT_TRUE(change);
    EXPECT_TRUE(change->empty());
    EXPECT_TRUE(take_back(book_, *change));
}

TEST_F(TakenBack, LeaveAloneWhatAnotherProgramHasChangedSince) {
    const auto change = record_change(book_, kTables, [&] {
        return run({"UPDATE hay SET bales = 30 WHERE lot = 'Old'",
                    "DELETE FROM hay WHERE lot LIKE 'Bob%'"});
    });
    ASSERT_TRUE(change);
    ASSERT_TRUE(run({"UPDATE hay SET bales = 29 WHERE lot = 'Old'"}));
    const std::string now = all();
    const auto back = take_back(book_, *change);
    ASSERT_FALSE(back);
    EXPECT_EQ(back.error().code, "changed_since");
    EXPECT_EQ(all(), now);  // none of it was taken back, not even the lot that could have been
}

TEST_F(TakenBack, WorkThatFailsTellsItsOwnError) {
    const auto change = record_change(book_, kTables, []() -> Result<void> {
        return fail({"no_line_drawn", "what", "where", "remedy"});
    });
    ASSERT_FALSE(change);
    EXPECT_EQ(change.error().code, "no_line_drawn");
}

}  // namespace
}  // namespace haylane
