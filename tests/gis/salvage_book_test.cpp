// A damaged book's rows are saved into a new one: all of them where the damage is elsewhere, the
// others said to be lost; the damaged file stays as it is, bit for bit.
#include "gis/book/salvage_book.h"

#include "gis/book/book_sql.h"
#include "gis/book/read_book.h"
#include "tests/gis/small_book.h"

#include <algorithm>
#include <sstream>

namespace haylane {
namespace {

namespace fs = std::filesystem;

std::string bytes_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::stringstream all;
    all << in.rdbuf();
    return all.str();
}

const SalvagedTable& of(const SalvageReport& report, const std::string& table) {
    const auto found = std::find_if(report.tables.begin(), report.tables.end(),
                                    [&](const SalvagedTable& one) { return one.table == table; });
    if (found == report.tables.end()) throw std::runtime_error("no table " + table);
    return *found;
}

class Salvaged : public testing::Test {
  protected:
    void SetUp() override {
        std::vector<FeedingEntry> many;
        for (int i = 0; i < kFeedings; ++i)
            many.push_back(small_feeding("herd number " + std::to_string(i)));
        ASSERT_TRUE(record_feedings(book_, many));
    }
    void overwrite(std::size_t at, const std::string& bytes) const {
        std::fstream file(book_, std::ios::in | std::ios::out | std::ios::binary);
        file.seekp(static_cast<std::streamoff>(at));
        file << bytes;
    }
    [[nodiscard]] std::string ask(const std::string& sql) const {
        auto open = open_book_to_read(fresh_);
        return open ? ask_sql(**open, sql).value_or("failed") : open.error().what;
    }
    // Salvages, and looks that the damaged book was not touched.
    SalvageReport salvaged() const {
        const std::string before = bytes_of(book_);
        const auto report = salvage_book(book_, fresh_);
        EXPECT_EQ(bytes_of(book_), before);
        if (!report) throw std::runtime_error(report.error().what);
        return *report;
    }

    static constexpr int kFeedings = 300;
    Scratch scratch_;
    fs::path book_ = make_small_book(scratch_.path());
    fs::path fresh_ = scratch_ / "saved.gpkg";
};

TEST_F(Salvaged, ASoundBookLosesNothing) {
    const auto report = salvaged();
    EXPECT_TRUE(report.complete());
    EXPECT_EQ(of(report, "feedings").saved, kFeedings);
    const auto old_book = read_book(book_);
    const auto new_book = read_book(fresh_);
    ASSERT_TRUE(old_book && new_book);
    EXPECT_EQ(new_book->raw.name, old_book->raw.name);
    EXPECT_EQ(new_book->frame.wkt(), old_book->frame.wkt());
    for (const auto& [role, rows] : old_book->raw.roles) {
        ASSERT_EQ(new_book->raw.roles.at(role).size(), rows.size()) << role;
        for (std::size_t i = 0; i < rows.size(); ++i) {
            EXPECT_EQ(new_book->raw.roles.at(role)[i].fields, rows[i].fields) << role;
        }
    }
    for (const char* table : {"feedings", "pastures", "yards"}) {
        const std::string shapes = std::string("SELECT group_concat(hex(geom)) FROM ") + table;
        auto old_open = open_book_to_read(book_);
        ASSERT_TRUE(old_open);
        EXPECT_EQ(ask(shapes), ask_sql(**old_open, shapes)) << table;
    }
    ASSERT_TRUE(record_feedings(fresh_, {small_feeding()}));  // and it can be changed
}

// A page with rows of `feedings`: some are lost, the others saved, other tables whole.
TEST_F(Salvaged, RowsOnADamagedPageAreLostAndCounted) {
    const std::string all = bytes_of(book_);
    const std::size_t page = all.find("herd number 150") / 4096 * 4096;
    overwrite(page, std::string(4096, '\xA5'));
    EXPECT_EQ(read_book(book_).error().code, "book_damaged");
    const auto report = salvaged();
    const SalvagedTable& feedings = of(report, "feedings");
    EXPECT_GT(feedings.lost, 0);
    EXPECT_LT(feedings.lost, 60);  // a page holds about twenty such rows
    EXPECT_EQ(feedings.saved + feedings.lost, kFeedings);
    EXPECT_EQ(ask("SELECT count(*) FROM feedings"), std::to_string(feedings.saved));
    EXPECT_EQ(of(report, "hay").saved, 1);
    EXPECT_EQ(of(report, "hay").lost, 0);
    EXPECT_FALSE(report.complete());
    EXPECT_TRUE(read_book(fresh_));
}

// The header alone: everything can be saved.
TEST_F(Salvaged, AGarbledHeaderIsPutRight) {
    overwrite(0, "GARBAGE");
    overwrite(16, "\x37\x11");
    ASSERT_FALSE(read_book(book_));
    EXPECT_TRUE(salvaged().complete());
}

TEST_F(Salvaged, AGarbledDescriptionOfATableIsThatOfANewBook) {
    const std::size_t at = bytes_of(book_).find("CREATE TABLE \"hay\"");
    ASSERT_NE(at, std::string::npos);
    overwrite(at + 7, "T4BL3");
    ASSERT_FALSE(read_book(book_));
    const auto report = salvaged();
    EXPECT_EQ(of(report, "hay").saved, 1);
    EXPECT_EQ(of(report, "feedings").saved, kFeedings);
}

TEST_F(Salvaged, HalfAFileGivesWhatItHolds) {
    fs::resize_file(book_, fs::file_size(book_) / 2);
    EXPECT_EQ(read_book(book_).error().code, "book_damaged");
    const auto report = salvage_book(book_, fresh_);
    if (report) {
        EXPECT_FALSE(report->complete());
    } else {
        EXPECT_EQ(report.error().code, "nothing_to_save");
    }
}

TEST_F(Salvaged, WhatIsNoBookIsSaidSo) {
    const auto text = scratch_.put("text.gpkg", std::string(5000, 'x'));
    const auto report = salvage_book(text, fresh_);
    ASSERT_FALSE(report);
    EXPECT_EQ(report.error().code, "nothing_to_save");
    EXPECT_FALSE(fs::exists(fresh_));
    EXPECT_EQ(salvage_book(scratch_ / "none.gpkg", fresh_).error().code, "file_missing");
    scratch_.put("saved.gpkg", "precious");
    EXPECT_EQ(salvage_book(book_, fresh_).error().code, "book_exists");
    EXPECT_EQ(bytes_of(fresh_), "precious");
}

TEST_F(Salvaged, NoWorkingFilesAreLeftBehind) {
    [[maybe_unused]] const auto report = salvaged();
    for (const auto& entry : fs::directory_iterator(scratch_.path()))
        EXPECT_FALSE(entry.path().filename().string().starts_with(".")) << entry.path();
}

}  // namespace
}  // namespace haylane
