// Books with one bit flipped, and books cut short: opened and checked in a child process, which
// must end by itself, either with what the book held or with what is wrong. SQLite keeps no sums of
// its content, so that a flip inside a value can pass for another value: those are counted apart.
#include "core/ranch/check_ranch.h"
#include "gis/book/open_book.h"
#include "gis/book/read_book.h"
#include "gis/book/salvage_book.h"
#include "tests/faults/faults.h"
#include "tests/gis/small_book.h"

#include <random>
#include <sstream>

namespace haylane {
namespace {

namespace fs = std::filesystem;
using faults::Ended;
using faults::in_child;
using faults::tell;
using faults::times;

// Codes of the child.
enum Came { same = 10, other_values, reported_saved, reported_not_saved };

struct Places {
    std::ostringstream& out;
    void operator()(const std::monostate&) const {}
    void operator()(const Point& p) const { out << p.x << ',' << p.y << ' '; }
    void operator()(const std::vector<Point>& points) const {
        for (const Point p : points) (*this)(p);
    }
    void operator()(const MultiPolyline& lines) const {
        for (const Polyline& line : lines) (*this)(static_cast<const std::vector<Point>&>(line));
    }
    void operator()(const MultiPolygon& area) const {
        for (const Polygon& part : area)
            (*this)(static_cast<const std::vector<Point>&>(part.outer));
    }
};

// All that a book says, in one text.
std::string text_of(const BookContents& book) {
    std::ostringstream out;
    out.precision(17);
    out << book.raw.name << '\n' << book.frame.wkt() << '\n';
    for (const auto& [role, rows] : book.raw.roles) {
        out << role << '\n';
        for (const RawRow& row : rows) {
            for (const auto& [column, value] : row.fields) {
                out << column << '=' << row.text(column) << ' ';
                if (const auto* number = std::get_if<double>(&value)) out << *number << ' ';
            }
            std::visit(Places{out}, row.shape);
            out << row.where << '\n';
        }
    }
    return out.str();
}

int open_and_check(const fs::path& book, const std::string& wanted) {
    const auto read = read_book(book);
    if (read) {
        [[maybe_unused]] const auto checked = check_ranch(read->raw);
        return text_of(*read) == wanted ? same : other_values;
    }
    if (read.error().what.empty() || read.error().remedy.empty()) return 9;
    const fs::path fresh = book.parent_path() / "fresh.gpkg";
    std::error_code none;
    fs::remove(fresh, none);
    const auto saved = salvage_book(book, fresh);
    return saved && read_book(fresh) ? reported_saved : reported_not_saved;
}

class Damaged : public testing::Test {
  protected:
    void SetUp() override {
        std::vector<FeedingEntry> many;
        for (int i = 0; i < 40; ++i) many.push_back(small_feeding("herd " + std::to_string(i)));
        ASSERT_TRUE(record_feedings(sound_, many));
        const auto read = read_book(sound_);
        ASSERT_TRUE(read);
        wanted_ = text_of(*read);
    }
    void count(const Ended& ended) {
        EXPECT_TRUE(ended.by_itself && ended.code >= same && ended.code <= reported_not_saved)
            << (ended.by_itself ? "code " : "signal ") << ended.code;
        if (!ended.by_itself || ended.code < same || ended.code > reported_not_saved) {
            ++crashed_;
            return;
        }
        ++came_[static_cast<std::size_t>(ended.code - same)];
    }
    [[nodiscard]] std::string summary(int tries) const {
        return fmt::format(
            "{} survived or reported of {} ({} as it was, {} reported and saved, {} reported "
            "only); "
            "{} opened with another value; {} crashed",
            came_[0] + came_[2] + came_[3], tries, came_[0], came_[2], came_[3], came_[1],
            crashed_);
    }

    Scratch scratch_;
    fs::path sound_ = make_small_book(scratch_.path());
    fs::path book_ = scratch_ / "damaged.gpkg";
    std::string wanted_;
    std::array<int, 4> came_{};
    int crashed_ = 0;
};

TEST_F(Damaged, OneBitFlipped) {
    const int tries = times(40, 1000);
    std::mt19937 random(20270113);
    const auto size = fs::file_size(sound_);
    for (int i = 0; i < tries; ++i) {
        fs::copy_file(sound_, book_, fs::copy_options::overwrite_existing);
        const auto at = static_cast<std::streamoff>(random() % size);
        const unsigned bit = random() % 8U;
        std::fstream file(book_, std::ios::in | std::ios::out | std::ios::binary);
        file.seekg(at);
        const int byte = file.get();
        file.seekp(at);
        file.put(static_cast<char>(static_cast<unsigned>(byte) ^ (1U << bit)));
        file.close();
        SCOPED_TRACE(fmt::format("byte {}, bit {}", static_cast<long>(at), bit));
        count(in_child([&] { return open_and_check(book_, wanted_); }));
    }
    tell("one bit flipped in a book", summary(tries));
}

TEST_F(Damaged, CutShort) {
    const int tries = times(12, 200);
    std::mt19937 random(20270114);
    const auto size = fs::file_size(sound_);
    for (int i = 0; i < tries; ++i) {
        fs::copy_file(sound_, book_, fs::copy_options::overwrite_existing);
        const auto kept = random() % size;
        fs::resize_file(book_, kept);
        SCOPED_TRACE(fmt::format("{} of {} bytes", kept, size));
        count(in_child([&] { return open_and_check(book_, wanted_); }));
    }
    EXPECT_EQ(came_[1], 0);
    tell("book cut short", summary(tries));
}

}  // namespace
}  // namespace haylane
