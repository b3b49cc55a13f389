// Each folder under sample-maps/broken has one fault; its expected.txt names the code, whether it
// is an error or a problem, and a word that the message must hold.
#include "app/session/plan_ranch.h"
#include "gis/book/make_book.h"
#include "tests/support/temp_folder.h"

#include <fstream>

#include <gtest/gtest.h>

namespace haylane {
namespace {

namespace fs = std::filesystem;

struct Expected {
    std::string code;
    std::string kind;
    std::string phrase;
};

Expected read_expected(const fs::path& folder) {
    std::ifstream file(folder / "expected.txt");
    Expected expected;
    std::getline(file, expected.code);
    std::getline(file, expected.kind);
    std::getline(file, expected.phrase);
    return expected;
}

bool says(const std::string& text, const std::string& phrase) {
    return text.find(phrase) != std::string::npos;
}

// Everything that a user would be told about a folder, from reading to a plan.
struct Told {
    Problems problems;
    std::optional<Error> error;
};

Told tell(const fs::path& folder, const fs::path& book) {
    Told told;
    const auto made = make_book(folder, book, false);
    if (!made) {
        told.error = made.error();
        return told;
    }
    auto open = open_ranch(book);
    if (!open) {
        told.error = open.error();
        return told;
    }
    told.problems = open->checked.problems;
    open->checked.ranch.settings.max_candidates = 100;
    const auto planned =
        plan_ranch(*open, {.from = *parse_day("2027-01-11"), .days = 1, .threads = 1});
    if (planned)
        told.problems = planned->plan.problems;
    else
        told.problems.push_back({planned.error().code, Severity::error, planned.error().where,
                                 planned.error().what, planned.error().remedy});
    return told;
}

std::vector<fs::path> folders() {
    std::vector<fs::path> list;
    for (const auto& entry :
         fs::directory_iterator(fs::path(HAYLANE_SOURCE_DIR) / "sample-maps/broken"))
        if (entry.is_directory()) list.push_back(entry.path());
    std::sort(list.begin(), list.end());
    return list;
}

class BrokenRanch : public ::testing::TestWithParam<fs::path> {};

TEST_P(BrokenRanch, IsToldClearly) {
    const Expected expected = read_expected(GetParam());
    ASSERT_FALSE(expected.code.empty());
    const testing::TempFolder temp;
    const Told told = tell(GetParam(), temp / "ranch.gpkg");
    if (expected.kind == "error") {
        ASSERT_TRUE(told.error);
        EXPECT_EQ(told.error->code, expected.code);
        EXPECT_TRUE(says(told.error->what + told.error->where, expected.phrase))
            << told.error->what;
        EXPECT_FALSE(told.error->remedy.empty());
        return;
    }
    ASSERT_FALSE(told.error) << told.error->what;
    const auto found =
        std::find_if(told.problems.begin(), told.problems.end(), [&](const Problem& p) {
            return p.code == expected.code && says(p.text + p.where, expected.phrase);
        });
    ASSERT_NE(found, told.problems.end());
    EXPECT_FALSE(found->remedy.empty());
    EXPECT_FALSE(found->where.empty());
}

std::string folder_name(const ::testing::TestParamInfo<fs::path>& tested) {
    return tested.param.filename().string();
}

INSTANTIATE_TEST_SUITE_P(Folders, BrokenRanch, ::testing::ValuesIn(folders()), folder_name);

TEST(BrokenRanches, AllFoldersAreHere) { EXPECT_EQ(folders().size(), 29U); }

}  // namespace
}  // namespace haylane
