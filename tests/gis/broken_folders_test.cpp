// Each folder of sample-maps/broken holds one fault; those that reading finds must be named with
// the code and the words that its expected.txt says.
#include "gis/book/make_book.h"
#include "tests/gis/scratch.h"

#include <algorithm>
#include <fstream>
#include <set>

#include <gtest/gtest.h>

namespace haylane {
namespace {

struct Expected {
    std::string code;
    std::string kind;
    std::string phrase;
};

Expected read_expected(const std::filesystem::path& file) {
    Expected expected;
    std::ifstream in(file);
    std::getline(in, expected.code);
    std::getline(in, expected.kind);
    std::getline(in, expected.phrase);
    return expected;
}

// Faults that reading finds; all others are judged by check_ranch.
const std::set<std::string> kReading = {"broken_json",
                                        "csv_open_quote",
                                        "empty_file",
                                        "missing_pastures",
                                        "missing_required_column",
                                        "no_crs",
                                        "not_a_number",
                                        "pasture_open_track",
                                        "swapped_lat_lon",
                                        "terrain_no_georeference",
                                        "terrain_no_overlap",
                                        "two_sources_of_one_role",
                                        "unknown_unit"};

TEST(BrokenFolders, ReadingNamesItsFaults) {
    const std::filesystem::path broken =
        std::filesystem::path(HAYLANE_SOURCE_DIR) / "sample-maps/broken";
    std::size_t seen = 0;
    for (const auto& entry : std::filesystem::directory_iterator(broken)) {
        if (!kReading.contains(entry.path().filename().string())) continue;
        ++seen;
        SCOPED_TRACE(entry.path().filename().string());
        const Scratch scratch;
        const Expected expected = read_expected(entry.path() / "expected.txt");
        const auto made = make_book(entry.path(), scratch / "b.gpkg", false);
        if (expected.kind == "error") {
            ASSERT_FALSE(made);
            EXPECT_EQ(made.error().code, expected.code);
            EXPECT_NE((made.error().what + made.error().where).find(expected.phrase),
                      std::string::npos)
                << made.error().what << " | " << made.error().where;
            EXPECT_FALSE(made.error().remedy.empty());
            EXPECT_TRUE(std::filesystem::is_empty(scratch.path()));
        } else {
            ASSERT_TRUE(made) << made.error().code << ": " << made.error().what;
            const auto found =
                std::find_if(made->problems.begin(), made->problems.end(),
                             [&](const Problem& problem) { return problem.code == expected.code; });
            ASSERT_NE(found, made->problems.end());
            EXPECT_NE((found->text + found->where).find(expected.phrase), std::string::npos)
                << found->text << " | " << found->where;
            EXPECT_FALSE(found->remedy.empty());
        }
    }
    EXPECT_EQ(seen, kReading.size());
}

// The faults that check_ranch judges must reach it: reading makes a book of them.
TEST(BrokenFolders, AllOthersBecomeBooks) {
    const std::filesystem::path broken =
        std::filesystem::path(HAYLANE_SOURCE_DIR) / "sample-maps/broken";
    std::size_t seen = 0;
    for (const auto& entry : std::filesystem::directory_iterator(broken)) {
        if (kReading.contains(entry.path().filename().string())) continue;
        ++seen;
        const Scratch scratch;
        const auto made = make_book(entry.path(), scratch / "b.gpkg", false);
        EXPECT_TRUE(made) << entry.path() << " " << made.error().what;
    }
    EXPECT_GE(seen, 10U);
}

}  // namespace
}  // namespace haylane
