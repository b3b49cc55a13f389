// Completion in bash offers what the parser knows: the installed function is called as bash does.
#include "tests/cli/run_program.h"
#include "tests/packaging/parser_options.h"

#include <sstream>

#include <gtest/gtest.h>

namespace haylane {
namespace {

using Words = std::set<std::string>;

// What is offered after "haylane" and these words, of which the last is being typed.
Words offered(const std::string& before, const std::string& previous, const std::string& typed) {
    const testing::TempFolder temp;
    const std::string program = HAYLANE_PROGRAM;
    const std::string script =
        "source \"" HAYLANE_SOURCE_DIR "/packaging/haylane.bash\"; COMP_WORDS=(" + program + " " +
        before + " \"" + typed + "\"); COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _haylane " + program +
        " \"" + typed + "\" \"" + previous + "\"; printf \"%s\\n\" \"${COMPREPLY[@]}\"";
    const auto ran = testing::run_command(temp, "bash --norc -c '" + script + "'");
    EXPECT_EQ(ran.code, 0);
    EXPECT_EQ(ran.err, "");
    std::istringstream lines(ran.out);
    Words words;
    for (std::string line; std::getline(lines, line);)
        if (!line.empty()) words.insert(line);
    return words;
}

Words long_ones(const Words& options) {
    Words found;
    for (const std::string& option : options)
        if (option.starts_with("--")) found.insert(option);
    return found;
}

TEST(Completion, OffersTheVerbs) {
    Words verbs;
    for (const auto& [verb, options] : testing::parser_options())
        if (!verb.empty()) verbs.insert(verb);
    EXPECT_EQ(offered("", HAYLANE_PROGRAM, ""), verbs);
    EXPECT_EQ(offered("", HAYLANE_PROGRAM, "h"), (Words{"haul", "hold"}));
    EXPECT_EQ(offered("", HAYLANE_PROGRAM, "x"), Words{});
}

TEST(Completion, OffersTheOptionsOfEachVerb) {
    for (const auto& [verb, options] : testing::parser_options()) {
        EXPECT_EQ(offered(verb, verb, "--"), long_ones(options)) << verb;
        EXPECT_EQ(offered(verb, verb, "-"), long_ones(options)) << verb;
    }
    EXPECT_EQ(offered("plan ranch.gpkg", "ranch.gpkg", "--th"), Words{"--threads"});
}

TEST(Completion, OffersTheChoicesOfAnOptionAndElseFiles) {
    EXPECT_EQ(offered("plan ranch.gpkg --units", "--units", ""), (Words{"us", "metric"}));
    EXPECT_EQ(offered("plan ranch.gpkg --order", "--order", "f"), Words{"free"});
    // Nothing of its own, so that bash offers files.
    EXPECT_EQ(offered("plan", "plan", ""), Words{});
    EXPECT_EQ(offered("plan ranch.gpkg --out", "--out", ""), Words{});
    EXPECT_EQ(offered("plan ranch.gpkg --days", "--days", ""), Words{});
}

}  // namespace
}  // namespace haylane
