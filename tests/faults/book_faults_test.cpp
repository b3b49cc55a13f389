// A book whose writer is killed, runs out of disk, may not write, or is not alone: afterwards it
// opens with the state before or after, and no row that was reported as written is missing. A
// killed program is not a power cut: the system still writes what it was given
// (docs/reliability.md).
#include "gis/book/book_sql.h"
#include "gis/book/keep_copy.h"
#include "gis/book/read_book.h"
#include "tests/faults/faults.h"
#include "tests/gis/small_book.h"

#include <csignal>
#include <random>
#include <thread>

namespace haylane {
namespace {

namespace fs = std::filesystem;
using faults::Ended;
using faults::in_child;
using faults::start_child;
using faults::tell;
using faults::times;
using faults::wait_for;
using Micro = std::chrono::microseconds;

class BookFaults : public testing::Test {
  protected:
    void anew() const {
        std::error_code none;
        fs::remove_all(copies_folder(book_), none);
        fs::remove(book_.string() + "-journal", none);
        fs::copy_file(sound_, book_, fs::copy_options::overwrite_existing);
    }
    // Feedings in the book, or -1 where it cannot be read, or bales do not add up.
    [[nodiscard]] int feedings() const {
        const auto book = read_book(book_);
        if (!book) {
            ADD_FAILURE() << book.error().code << ": " << book.error().what;
            return -1;
        }
        const auto rows = book->raw.roles.find("feedings");
        const int count = rows == book->raw.roles.end() ? 0 : static_cast<int>(rows->second.size());
        const double left = book->raw.roles.at("hay")[0].number("bales").value_or(-1.0);
        return left == 100000.0 - count ? count : -1;
    }

    Scratch scratch_;
    fs::path sound_ = make_small_book(scratch_.path());
    fs::path book_ = scratch_ / "winter.gpkg";
};

// Records one feeding after the other and says so, byte by byte, until it is killed.
int write_for_ever(const fs::path& book, int told) {
    for (int i = 0; i < 1000; ++i) {
        if (!record_feedings(book, {small_feeding(std::to_string(i))})) return 11;
        if (::write(told, "x", 1) != 1) return 12;
    }
    return 10;
}

TEST_F(BookFaults, KilledWhileWriting) {
    const int tries = times(12, 200);
    std::mt19937 random(20270111);
    int survived = 0;
    int cut_off = 0;
    for (int i = 0; i < tries; ++i) {
        anew();
        int pipe[2];
        ASSERT_EQ(::pipe(pipe), 0);
        const pid_t child = start_child([&] { return write_for_ever(book_, pipe[1]); });
        // From before the first copy is made to well within the row of changes.
        std::this_thread::sleep_for(Micro(random() % 250000));
        ::kill(child, SIGKILL);
        EXPECT_FALSE(wait_for(child).by_itself);
        ::close(pipe[1]);
        int told = 0;
        char byte = 0;
        while (::read(pipe[0], &byte, 1) == 1) ++told;
        ::close(pipe[0]);
        cut_off += fs::exists(book_.string() + "-journal") ? 1 : 0;
        const int found = feedings();
        const bool whole = found == told || found == told + 1;
        EXPECT_TRUE(whole) << told << " told, " << found << " found";
        survived += whole ? 1 : 0;
    }
    tell("killed while recording feedings",
         fmt::format("{} survived of {} ({} in the middle of a change)", survived, tries, cut_off));
}

TEST_F(BookFaults, KilledWhileABookIsMadeAnew) {
    const int tries = times(4, 40);
    std::mt19937 random(20270112);
    int survived = 0;
    for (int i = 0; i < tries; ++i) {
        anew();
        const pid_t child = start_child([&] {
            for (int k = 0; k < 100; ++k) {
                if (!make_book(scratch_ / "ranch", book_, true)) return 11;
            }
            return 10;
        });
        std::this_thread::sleep_for(Micro(random() % 600000));
        ::kill(child, SIGKILL);
        EXPECT_FALSE(wait_for(child).by_itself);
        const bool whole = feedings() == 0;
        EXPECT_TRUE(whole);
        survived += whole ? 1 : 0;
    }
    tell("killed while making a book", fmt::format("{} survived of {}", survived, tries));
}

// No file may grow beyond a limit that moves through the change (EFBIG for ENOSPC).
TEST_F(BookFaults, FullDisk) {
    const int tries = times(10, 100);
    FeedingEntry big = small_feeding();
    big.lines = {{"", Polyline(20000, Point{1.0, 2.0})}};
    int whole = 0;
    int said = 0;
    for (int i = 0; i < tries; ++i) {
        anew();
        const auto limit = fs::file_size(book_) / 4 + (fs::file_size(book_) + 900000) *
                                                          static_cast<unsigned>(i) /
                                                          static_cast<unsigned>(tries);
        const Ended ended = in_child([&] {
            std::signal(SIGXFSZ, SIG_IGN);
            const rlimit small{limit, limit};
            ::setrlimit(RLIMIT_FSIZE, &small);
            return record_feedings(book_, {big}) ? 10 : 11;
        });
        EXPECT_TRUE(ended.by_itself);
        const bool good = ended.by_itself && feedings() == (ended.code == 10 ? 1 : 0);
        EXPECT_TRUE(good) << limit;
        whole += good ? 1 : 0;
        said += ended.code == 11 ? 1 : 0;
    }
    EXPECT_GT(said, 0);
    EXPECT_LT(said, tries);
    tell("full disk",
         fmt::format("{} whole of {} ({} said so, the others fitted)", whole, tries, said));
}

TEST_F(BookFaults, SeveralWritersAtOnce) {
    constexpr int kWriters = 3;
    const int each = times(6, 60);
    anew();
    std::vector<pid_t> children;
    for (int w = 0; w < kWriters; ++w) {
        children.push_back(start_child([&] {
            int told_no = 0;
            for (int i = 0; i < each; ++i) {
                const auto done = record_feedings(book_, {small_feeding(std::to_string(i))});
                if (!done && done.error().code != "book_in_use") return 9;
                told_no += done ? 0 : 1;
            }
            return 10 + std::min(told_no, 200);
        }));
    }
    int written = 0;
    int refused = 0;
    for (const pid_t child : children) {
        const Ended ended = wait_for(child);
        ASSERT_TRUE(ended.by_itself && ended.code >= 10) << ended.code;
        refused += ended.code - 10;
        written += each - (ended.code - 10);
    }
    const int found = feedings();
    EXPECT_EQ(found, written);
    tell(fmt::format("{} writers at once", kWriters),
         fmt::format("{} lost of {} rows ({} writers told to wait)", written - found,
                     kWriters * each, refused));
}

// As somebody who may read but not write: root may write everywhere.
int as_nobody(const std::function<bool()>& good) {
    if (::geteuid() == 0 && (::setgid(65534) != 0 || ::setuid(65534) != 0)) return 12;
    return good() ? 10 : 11;
}

TEST_F(BookFaults, DeniedPermission) {
    anew();
    const auto code_of = [](const auto& result) { return result ? "" : result.error().code; };
    const fs::path folder = scratch_.path();
    const auto denied = fs::perms::owner_read | fs::perms::owner_exec | fs::perms::group_read |
                        fs::perms::group_exec | fs::perms::others_read | fs::perms::others_exec;
    fs::permissions(folder, denied);
    struct Case {
        const char* what;
        std::function<bool()> good;
    };
    const std::vector<Case> cases = {
        {"read", [&] { return read_book(book_).has_value(); }},
        {"change",
         [&] { return code_of(record_feedings(book_, {small_feeding()})) == "book_read_only"; }},
        {"make",
         [&] {
             return code_of(make_book(folder / "ranch", folder / "other.gpkg", false)) ==
                    "book_not_written";
         }},
        {"cut off",
         [&] { return code_of(read_book(scratch_ / "cut.gpkg")) == "book_unfinished"; }}};
    fs::permissions(folder, fs::perms::owner_all, fs::perm_options::add);
    fs::copy_file(book_, scratch_ / "cut.gpkg");
    scratch_.put("cut.gpkg-journal", "a journal");
    fs::permissions(folder, denied);
    int good = 0;
    for (const Case& one : cases) {
        const Ended ended = in_child([&] { return as_nobody(one.good); });
        EXPECT_TRUE(ended.by_itself && ended.code == 10) << one.what << ": " << ended.code;
        good += ended.by_itself && ended.code == 10 ? 1 : 0;
    }
    // The book alone: its folder may be written.
    fs::permissions(folder, fs::perms::all);
    fs::permissions(book_, fs::perms::owner_read | fs::perms::group_read | fs::perms::others_read);
    const Ended ended = in_child([&] {
        return as_nobody(
            [&] { return code_of(record_feedings(book_, {small_feeding()})) == "book_read_only"; });
    });
    EXPECT_TRUE(ended.by_itself && ended.code == 10) << ended.code;
    good += ended.by_itself && ended.code == 10 ? 1 : 0;
    EXPECT_EQ(feedings(), 0);
    tell("denied permission", fmt::format("{} handled of {}", good, cases.size() + 1));
}

}  // namespace
}  // namespace haylane
