// The manual pages name every verb and option that the programs have, and none that they have not.
#include "tests/cli/run_program.h"
#include "tests/packaging/parser_options.h"

#include <regex>
#include <sstream>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using testing::OptionsByVerb;

// Verbs are the subsections (.Ss), options the tags of lists: ".It Fl o , -out Ar FOLDER".
OptionsByVerb page_options(const std::string& page) {
    std::istringstream lines(
        testing::slurp(std::string(HAYLANE_SOURCE_DIR) + "/packaging/" + page));
    OptionsByVerb all{{"", {}}};
    std::string verb;
    for (std::string line; std::getline(lines, line);) {
        std::istringstream words(std::regex_replace(line, std::regex(R"(\\-)"), "-"));
        std::string macro;
        words >> macro;
        if (macro == ".Sh") verb.clear();
        if (macro == ".Ss") {
            words >> verb;
            all[verb];
        }
        std::string word;
        if (macro != ".It" || !(words >> word) || word != "Fl") continue;
        while (words >> word && word != "Ar" && word != "Op")
            if (word != ",") all[verb].insert("-" + word);
    }
    return all;
}

TEST(ManualPage, HasTheVerbsAndOptionsOfTheParser) {
    OptionsByVerb known = testing::parser_options();
    for (auto& [verb, options] : known) {
        if (verb.empty()) continue;
        EXPECT_EQ(options.erase("--help") + options.erase("-h"), 2U) << verb;  // said once, on top
    }
    EXPECT_EQ(page_options("haylane.1"), known);
}

TEST(ManualPage, HasTheOptionsOfTheWindow) {
    const testing::TempFolder temp;
    const auto help = testing::run_command(
        temp, "QT_QPA_PLATFORM=offscreen " + std::string(HAYLANE_DESK) + " --help");
    ASSERT_EQ(help.code, 0) << help.err;
    OptionsByVerb known{{"", {}}};
    const std::regex option(R"((?:^|[\n ])(--?[a-z][a-z-]*)(?=[ ,]))");
    for (std::sregex_iterator at(help.out.begin(), help.out.end(), option), end; at != end; ++at)
        known[""].insert(at->str(1));
    EXPECT_TRUE(known[""].contains("--help")) << help.out;
    EXPECT_EQ(page_options("haylane-desk.1"), known);
}

}  // namespace
}  // namespace haylane
