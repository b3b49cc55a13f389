// What happens to a book whose writer was cut off, that two programs change at once, that cannot be
// written, that is damaged, or that came from elsewhere with queries and triggers in it; and the
// dated copies. How SQLite finds and undoes a cut-off change: sqlite.org, "Atomic Commit In
// SQLite", section 4.
#include "gis/book/book_sql.h"
#include "gis/book/keep_copy.h"
#include "gis/book/read_book.h"
#include "tests/gis/small_book.h"

#include <chrono>
#include <csignal>
#include <set>
#include <thread>

#include <sys/wait.h>

namespace haylane {
namespace {

namespace fs = std::filesystem;

class OpenedBook : public testing::Test {
  protected:
    [[nodiscard]] Result<std::string> ask(const std::string& sql) const {
        auto open = open_book_to_read(book_);
        if (!open) return fail(open.error());
        return ask_sql(**open, sql);
    }
    [[nodiscard]] std::string feedings() const {
        return ask("SELECT count(*) FROM feedings").value_or("unreadable");
    }
    void change(const std::string& sql) const {
        auto open = open_geopackage(book_, OpenAs::update);
        ASSERT_TRUE(open);
        ASSERT_TRUE(run_sql(**open, sql));
    }
    [[nodiscard]] std::set<std::string> copies() const {
        std::set<std::string> names;
        std::error_code none;
        for (const auto& entry : fs::directory_iterator(copies_folder(book_), none))
            names.insert(entry.path().filename().string());
        return names;
    }
    Scratch scratch_;
    fs::path book_ = make_small_book(scratch_.path());
};

// A child that dies in the middle of a change so large that SQLite has begun to write it to the
// file: the journal beside the book is then needed to read it at all.
void die_in_the_middle(const fs::path& book) {
    const pid_t child = ::fork();
    if (child == 0) {
        auto open = open_book_for_update(book);
        if (!open) ::_exit(1);
        [[maybe_unused]] const auto never = in_transaction(**open, [&]() -> Result<void> {
            for (int i = 0; i < 4000; ++i) {
                const std::string text = sql_text(std::string(3000, 'x'));
                if (!run_sql(**open, "INSERT INTO plans (json) VALUES (" + text + ")")) ::_exit(2);
            }
            ::raise(SIGKILL);
            return {};
        });
        ::_exit(3);
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    ASSERT_TRUE(WIFSIGNALED(status)) << WEXITSTATUS(status);
}

TEST_F(OpenedBook, AChangeThatWasCutOffIsUndoneWhenTheBookIsNextRead) {
    const auto size = fs::file_size(book_);
    die_in_the_middle(book_);
    ASSERT_GT(fs::file_size(book_), size);
    ASSERT_TRUE(fs::exists(book_.string() + "-journal"));
    const auto read = read_book(book_);
    ASSERT_TRUE(read) << read.error().what;
    EXPECT_EQ(ask("SELECT count(*) FROM plans"), "0");
    EXPECT_FALSE(fs::exists(book_.string() + "-journal"));
    EXPECT_EQ(fs::file_size(book_), size);
}

TEST_F(OpenedBook, ASecondWriterWaitsForTheFirst) {
    int ready[2];
    ASSERT_EQ(::pipe(ready), 0);
    const pid_t child = ::fork();
    if (child == 0) {
        auto open = open_book_for_update(book_);
        if (!open || !run_sql(**open, "BEGIN IMMEDIATE")) ::_exit(1);
        if (!run_sql(**open, "INSERT INTO feedings (herd) VALUES ('first')")) ::_exit(2);
        [[maybe_unused]] const auto told = ::write(ready[1], "x", 1);
        std::this_thread::sleep_for(std::chrono::milliseconds(300));
        ::_exit(run_sql(**open, "COMMIT TRANSACTION") ? 0 : 3);
    }
    char byte = 0;
    ASSERT_EQ(::read(ready[0], &byte, 1), 1);
    const auto second = record_feedings(book_, {small_feeding("second")});
    EXPECT_TRUE(second) << second.error().what;
    int status = 0;
    ::waitpid(child, &status, 0);
    EXPECT_EQ(WEXITSTATUS(status), 0);
    EXPECT_EQ(ask("SELECT group_concat(herd) FROM feedings"), "first,second");
}

TEST_F(OpenedBook, AWriterThatWaitsInVainIsTold) {
    int ready[2];
    int done[2];
    ASSERT_EQ(::pipe(ready), 0);
    ASSERT_EQ(::pipe(done), 0);
    const pid_t child = ::fork();
    if (child == 0) {
        char byte = 'x';
        auto open = open_book_for_update(book_);
        if (!open || !run_sql(**open, "BEGIN IMMEDIATE")) ::_exit(1);
        [[maybe_unused]] const auto told = ::write(ready[1], &byte, 1);
        [[maybe_unused]] const auto heard = ::read(done[0], &byte, 1);
        ::_exit(0);
    }
    char byte = 0;
    ASSERT_EQ(::read(ready[0], &byte, 1), 1);
    {
        auto open = open_book_for_update(book_);
        ASSERT_TRUE(open) << open.error().what;
        ASSERT_TRUE(run_sql(**open, "PRAGMA busy_timeout = 50"));
        const auto changed = in_transaction(
            **open, [&] { return run_sql(**open, "INSERT INTO feedings (herd) VALUES ('lost')"); });
        ASSERT_FALSE(changed);
        EXPECT_EQ(changed.error().code, "book_in_use");
    }
    EXPECT_EQ(::write(done[1], "x", 1), 1);
    int status = 0;
    ::waitpid(child, &status, 0);
    EXPECT_EQ(feedings(), "0");
}

// One statement of a change fails: none of it stays, and success is not reported.
TEST_F(OpenedBook, AChangeOfWhichOneRowFailsIsNoChange) {
    auto open = open_book_for_update(book_);
    ASSERT_TRUE(open);
    ASSERT_TRUE(run_sql(**open, "CREATE UNIQUE INDEX one_uuid ON feedings (uuid)"));
    const auto done = in_transaction(**open, [&]() -> Result<void> {
        const std::string insert = "INSERT INTO feedings (uuid) VALUES ('same')";
        if (auto first = run_sql(**open, insert); !first) return first;
        return run_sql(**open, insert);
    });
    ASSERT_FALSE(done);
    EXPECT_EQ(ask_sql(**open, "SELECT count(*) FROM feedings"), "0");
}

TEST_F(OpenedBook, ADamagedBookIsSaidToBeWithTheWayOut) {
    // The table of contents of the pastures' rows: pages but the first are overwritten.
    std::fstream file(book_, std::ios::in | std::ios::out | std::ios::binary);
    file.seekp(static_cast<std::streamoff>(fs::file_size(book_) / 2));
    file << std::string(8192, '\xA5');
    file.close();
    for (const auto& error :
         {read_book(book_).error(), record_feedings(book_, {small_feeding()}).error()}) {
        EXPECT_EQ(error.code, "book_damaged") << error.what;
        EXPECT_NE(error.remedy.find("--repair"), std::string::npos);
        EXPECT_NE(error.remedy.find("ranch-copies"), std::string::npos);
    }
}

TEST_F(OpenedBook, AQueryInThePlaceOfATableIsNotRun) {
    change("DROP TABLE weather");
    change(
        "CREATE VIEW weather AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) "
        "SELECT i AS fid, i AS uuid FROM n");
    const auto read = read_book(book_);
    ASSERT_FALSE(read);
    EXPECT_NE(read.error().what.find("weather"), std::string::npos);
}

TEST_F(OpenedBook, ABookWithAForeignTriggerIsReadButNotChanged) {
    // One that GDAL itself makes, where it counts a table's features.
    change(
        "CREATE TRIGGER trigger_insert_feature_count_hay AFTER INSERT ON hay BEGIN SELECT 1; END");
    EXPECT_TRUE(record_feedings(book_, {small_feeding()}));
    change("CREATE TRIGGER feed_less AFTER INSERT ON feedings BEGIN DELETE FROM hay; END");
    EXPECT_TRUE(read_book(book_));
    const auto recorded = record_feedings(book_, {small_feeding()});
    ASSERT_FALSE(recorded);
    EXPECT_EQ(recorded.error().code, "book_has_triggers");
    EXPECT_NE(recorded.error().what.find("feed_less"), std::string::npos);
    EXPECT_EQ(ask("SELECT count(*) FROM hay"), "1");
}

TEST_F(OpenedBook, ABookIsCopiedBeforeADaysFirstChange) {
    ASSERT_TRUE(record_feedings(book_, {small_feeding("one")}));
    const auto first = copies();
    ASSERT_EQ(first.size(), 1U);
    ASSERT_TRUE(record_feedings(book_, {small_feeding("two")}));
    EXPECT_EQ(copies(), first);
    const auto copy = read_book(copies_folder(book_) / *first.begin());
    ASSERT_TRUE(copy) << copy.error().what;
    EXPECT_FALSE(copy->raw.roles.contains("feedings"));
    EXPECT_EQ(copy->raw.roles.at("hay")[0].text("bales"), "100000");
    EXPECT_EQ(feedings(), "2");
}

TEST_F(OpenedBook, TheNewestCopiesAreKept) {
    book_ = make_small_book(scratch_.path(), "copies_kept,3\n");
    auto open = open_geopackage(book_, OpenAs::update);
    ASSERT_TRUE(open);
    scratch_.put("ranch-copies/notes.txt", "mine");
    scratch_.put("ranch-copies/ranch-replaced-2026-12-30-1a2b.gpkg", "old");
    for (const char* day : {"2026-12-30", "2026-12-31", "2027-01-01", "2027-01-02", "2027-01-02"})
        ASSERT_TRUE(keep_daily_copy(**open, book_, *parse_day(day)));
    EXPECT_EQ(copies(), (std::set<std::string>{"notes.txt", "ranch-replaced-2026-12-30-1a2b.gpkg",
                                               "ranch-2026-12-31.gpkg", "ranch-2027-01-01.gpkg",
                                               "ranch-2027-01-02.gpkg"}));
}

// The old book had a journal that must not be played back into the new one.
TEST_F(OpenedBook, ABookThatIsReplacedIsKeptAndItsJournalGone) {
    ASSERT_TRUE(record_feedings(book_, {small_feeding("winter's record")}));
    die_in_the_middle(book_);
    ASSERT_TRUE(fs::exists(book_.string() + "-journal"));
    ASSERT_TRUE(make_book(scratch_ / "ranch", book_, true));
    EXPECT_FALSE(fs::exists(book_.string() + "-journal"));
    EXPECT_EQ(feedings(), "0");
    std::size_t replaced = 0;
    for (const std::string& name : copies()) {
        if (!name.starts_with("ranch-replaced-")) continue;
        ++replaced;
        const auto old = read_book(copies_folder(book_) / name);
        ASSERT_TRUE(old) << old.error().what;
        EXPECT_EQ(old->raw.roles.at("feedings")[0].text("herd"), "winter's record");
    }
    EXPECT_EQ(replaced, 1U);
}

TEST_F(OpenedBook, NoCopiesAreKeptWhenTheSettingSaysSo) {
    book_ = make_small_book(scratch_.path(), "copies_kept,0\n");
    ASSERT_TRUE(record_feedings(book_, {small_feeding()}));
    EXPECT_TRUE(copies().empty());
}

TEST_F(OpenedBook, WithoutACopyNothingIsChanged) {
    scratch_.put("ranch-copies", "a file where the folder should be");
    const auto recorded = record_feedings(book_, {small_feeding()});
    ASSERT_FALSE(recorded);
    EXPECT_EQ(recorded.error().code, "copy_not_kept");
    EXPECT_EQ(feedings(), "0");
}

}  // namespace
}  // namespace haylane
