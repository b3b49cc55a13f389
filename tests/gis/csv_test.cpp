// Checks the table reader against RFC 4180 and against the encodings and separators that
// spreadsheets write (worked by hand).
#include "gis/vector/csv_layer.h"
#include "gis/vector/csv_table.h"
#include "gis/vector/file_text.h"
#include "tests/gis/scratch.h"

#include <gtest/gtest.h>

namespace haylane {
namespace {

TEST(Csv, KeepsQuotesNewlinesAndTheLineEachRowStartsOn) {
    const auto table = parse_csv(
        "name,note\r\n\"a, b\",\"two\r\nlines\"\r\n\r\nc,\"say \"\"hay\"\"\"\r\n", "t.csv");
    ASSERT_TRUE(table);
    ASSERT_EQ(table->rows.size(), 2U);
    EXPECT_EQ(table->rows[0].cells[0], "a, b");
    EXPECT_EQ(table->rows[0].cells[1], "two\nlines");
    EXPECT_EQ(table->rows[0].line, 2);
    EXPECT_EQ(table->rows[1].cells[1], "say \"hay\"");
    EXPECT_EQ(table->rows[1].line, 5);
    EXPECT_TRUE(table->problems.empty());
}

TEST(Csv, FindsTheSeparatorInTheHeader) {
    const auto semicolons = parse_csv("lot;bales\nA, B;12\n", "t.csv");
    ASSERT_TRUE(semicolons);
    EXPECT_EQ(semicolons->separator, ';');
    EXPECT_EQ(semicolons->rows[0].cells[0], "A, B");
    const auto tabs = parse_csv("lot\tbales\nA\t12\n", "t.csv");
    ASSERT_TRUE(tabs);
    EXPECT_EQ(tabs->separator, '\t');
    EXPECT_EQ(tabs->rows[0].cells[1], "12");
}

TEST(Csv, ReadsOldMacLineEnds) {
    const auto table = parse_csv("a,b\r1,2\r3,4", "t.csv");
    ASSERT_TRUE(table);
    ASSERT_EQ(table->rows.size(), 2U);
    EXPECT_EQ(table->rows[1].cells[1], "4");
    EXPECT_EQ(table->rows[1].line, 3);
}

TEST(Csv, NamesTheLineOfAQuoteThatNeverCloses) {
    const auto table = parse_csv("a,b\n1,\"open\n2,3\n", "hay.csv");
    ASSERT_FALSE(table);
    EXPECT_EQ(table.error().code, "csv_open_quote");
    EXPECT_NE(table.error().what.find("line 2"), std::string::npos);
}

TEST(Csv, RefusesAHeadingThatStandsTwice) {
    const auto table = parse_csv("lat,LAT\n1,2\n", "t.csv");
    ASSERT_FALSE(table);
    EXPECT_EQ(table.error().code, "csv_double_header");
}

TEST(Csv, NamesRaggedRowsAndKeepsThem) {
    const auto table = parse_csv("a,b\n1\n1,2,3\n4,5\n", "t.csv");
    ASSERT_TRUE(table);
    ASSERT_EQ(table->rows.size(), 3U);
    ASSERT_EQ(table->problems.size(), 2U);
    EXPECT_NE(table->problems[0].where.find("line 2"), std::string::npos);
    EXPECT_NE(table->problems[1].where.find("line 3"), std::string::npos);
}

TEST(Csv, DecodesUtf16OfBothByteOrders) {
    const std::string little("\xFF\xFE\xC9\x00t\x00\xE9\x00", 8);
    const std::string big("\xFE\xFF\x00\xC9\x00t\x00\xE9", 8);
    for (const std::string& bytes : {little, big}) {
        const auto text = decode_text(bytes, "t.csv");
        ASSERT_TRUE(text);
        EXPECT_EQ(text->text, "\xC3\x89t\xC3\xA9");
    }
}

TEST(Csv, DropsTheUtf8MarkAndTakesOtherBytesAsWindows1252) {
    EXPECT_EQ(decode_text("\xEF\xBB\xBFlot", "t.csv")->text, "lot");
    const auto old = decode_text("caf\xE9 \x80", "t.csv");
    ASSERT_TRUE(old);
    EXPECT_TRUE(old->guessed_1252);
    EXPECT_EQ(old->text, "caf\xC3\xA9 \xE2\x82\xAC");
}

TEST(Csv, SaysThatAFileIsEmpty) {
    const auto text = decode_text(" \n", "t.csv");
    ASSERT_FALSE(text);
    EXPECT_EQ(text.error().code, "empty_file");
}

TEST(Numbers, AreWholeCellsAndNeverGuessed) {
    EXPECT_EQ(parse_number(" 12.5 ", false), 12.5);
    EXPECT_EQ(parse_number("-1e3", false), -1000.0);
    EXPECT_EQ(parse_number("+7", false), 7.0);
    EXPECT_EQ(parse_number("42,87", true), 42.87);
    for (const char* bad :
         {"1,250", "42,87", "lots", "12 bales", "", "nan", "inf", "1e999", "0x1p4"}) {
        EXPECT_FALSE(parse_number(bad, false)) << bad;
    }
    EXPECT_FALSE(parse_number("1,234,5", true));
}

}  // namespace
}  // namespace haylane
