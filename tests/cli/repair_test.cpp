// A damaged book as its owner meets it: `check` says so and what to do, `--repair` makes a new
// book, and the new book is checked. Copies stand beside a book that was changed.
#include "tests/cli/run_program.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace haylane {
namespace {

namespace fs = std::filesystem;
using testing::has;
using testing::Ran;
using testing::run_program;
using testing::slurp;

class Repair : public ::testing::Test {
  protected:
    void SetUp() override {
        const std::string ranch = HAYLANE_SOURCE_DIR "/sample-maps/broken/setback_missing";
        ASSERT_EQ(run("new " + book_ + " --from " + ranch).code, 0);
    }
    [[nodiscard]] Ran run(const std::string& arguments) const {
        return run_program(temp_, arguments);
    }
    // Overwrites the page on which the table's rows stand.
    void damage(const std::string& row) const {
        const std::size_t at = slurp(book_).find(row);
        ASSERT_NE(at, std::string::npos);
        std::fstream file(book_, std::ios::in | std::ios::out | std::ios::binary);
        file.seekp(static_cast<std::streamoff>(at / 4096 * 4096));
        file << std::string(4096, '\xA5');
    }

    testing::TempFolder temp_;  // first: the paths below stand in it
    const std::string book_ = (temp_ / "ranch.gpkg").string();
    const std::string fresh_ = (temp_ / "saved.gpkg").string();
};

TEST_F(Repair, SavesADamagedBookIntoANewOne) {
    damage("hay.csv, line 2");
    const std::string before = slurp(book_);
    const Ran check = run("check " + book_);
    EXPECT_EQ(check.code, 1);
    EXPECT_TRUE(has(check.err, "is damaged")) << check.err;
    EXPECT_TRUE(has(check.err, "--repair")) << check.err;
    const Ran repair = run("check " + book_ + " --repair " + fresh_);
    EXPECT_EQ(repair.code, 0) << repair.err;
    EXPECT_TRUE(has(repair.out, "pastures: 2 rows saved\n")) << repair.out;
    EXPECT_TRUE(has(repair.out, "hay: 0 rows saved, up to 1 lost")) << repair.out;
    EXPECT_EQ(slurp(book_), before);
    EXPECT_EQ(run("check " + fresh_).code, 0);
    const Ran again = run("check " + book_ + " --repair " + fresh_);
    EXPECT_EQ(again.code, 1);
    EXPECT_TRUE(has(again.err, "saved.gpkg")) << again.err;
}

TEST_F(Repair, SaysTheSameToPrograms) {
    const Ran repair = run("check " + book_ + " --repair " + fresh_ + " --json");
    ASSERT_EQ(repair.code, 0) << repair.err;
    const auto document = nlohmann::json::parse(repair.out);
    EXPECT_EQ(document["complete"], true);
    EXPECT_EQ(document["tables"][0]["table"], "pastures");
    EXPECT_EQ(document["tables"][0]["saved"], 2);
}

TEST_F(Repair, ACopyStandsBesideABookThatWasChanged) {
    ASSERT_EQ(
        run("plan " + book_ + " --from 2027-01-11 --days 1 -o " + (temp_ / "week").string()).code,
        0);
    std::size_t copies = 0;
    for (const auto& entry : fs::directory_iterator(temp_ / "ranch-copies")) {
        ++copies;
        EXPECT_EQ(run("check " + entry.path().string()).code, 0);
    }
    EXPECT_EQ(copies, 1U);
}

}  // namespace
}  // namespace haylane
