// A machine without fonts, made by a fontconfig file that names no folder: both programs say so.
#include "tests/cli/run_program.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::has;

class NoFonts : public ::testing::Test {
  protected:
    void SetUp() override { std::ofstream(temp_ / "none.conf") << "<fontconfig></fontconfig>\n"; }
    std::string environment() const {
        return "QT_QPA_PLATFORM=offscreen FONTCONFIG_FILE='" + (temp_ / "none.conf").string() + "'";
    }
    std::string trial() const {
        return "trial '" HAYLANE_SOURCE_DIR "/sample-maps/trials/two-rigs.csv' -o '" +
               (temp_ / "out").string() + "'";
    }
    testing::TempFolder temp_;
};

TEST_F(NoFonts, APaperIsRefused) {
    const auto ran = testing::run_program(temp_, trial(), environment());
    EXPECT_EQ(ran.code, 1);
    EXPECT_TRUE(has(ran.err, "needs a font")) << ran.err;
    EXPECT_TRUE(has(ran.err, "trial-report.pdf")) << ran.err;
    EXPECT_TRUE(has(ran.err, "fonts-dejavu-core")) << ran.err;
    EXPECT_FALSE(std::filesystem::exists(temp_ / "out" / "trial-report.pdf"));
}

TEST_F(NoFonts, WithFontsItIsWritten) {
    const auto ran = testing::run_program(temp_, trial());
    EXPECT_EQ(ran.code, 0) << ran.err;
    EXPECT_TRUE(std::filesystem::exists(temp_ / "out" / "trial-report.pdf"));
}

TEST_F(NoFonts, TheWindowDoesNotOpen) {
    const auto ran = testing::run_command(temp_, environment() + " " + HAYLANE_DESK);
    EXPECT_EQ(ran.code, 1);
    EXPECT_TRUE(has(ran.err, "fonts-dejavu-core")) << ran.err;
}

}  // namespace
}  // namespace haylane
