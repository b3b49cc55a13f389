// Against the column table of the manual: a few rows of each kind, counts, and the rule that a book
// name ends in the SI unit of its dimension.
#include "core/ranch/raw_ranch.h"

#include <map>
#include <set>
#include <string>

#include <gtest/gtest.h>

namespace haylane {
namespace {

const ColumnSpec* spec_of(std::string_view role, std::string_view book) {
    for (const ColumnSpec& spec : column_specs()) {
        if (spec.role == role && spec.book == book) return &spec;
    }
    return nullptr;
}

TEST(Columns, CoverEveryRoleOfTheManual) {
    std::map<std::string_view, int> count;
    for (const ColumnSpec& spec : column_specs()) ++count[spec.role];
    const std::map<std::string_view, int> manual = {
        {"pastures", 11},  {"off_limits", 3}, {"gates", 4},    {"trails", 6},  {"yards", 3},
        {"water", 1},      {"shelter", 2},    {"soft", 1},     {"herds", 18},  {"moves", 3},
        {"hay", 17},       {"rigs", 19},      {"feedings", 9}, {"weather", 8}, {"soil", 8},
        {"hay_fields", 2}, {"trials", 24},    {"settings", 2}, {"columns", 4}};
    EXPECT_EQ(count, manual);
}

TEST(Columns, BookNamesAreUniqueInARole) {
    std::set<std::pair<std::string_view, std::string_view>> seen;
    for (const ColumnSpec& spec : column_specs()) {
        EXPECT_TRUE(seen.insert({spec.role, spec.book}).second) << spec.role << "." << spec.book;
    }
    EXPECT_EQ(seen.size(), column_specs().size());
}

TEST(Columns, BookNamesHoldTheUnitOfTheirDimension) {
    const std::map<Dimension, std::string> unit = {{Dimension::ratio, "_ratio"},
                                                   {Dimension::length, "_m"},
                                                   {Dimension::mass, "_kg"},
                                                   {Dimension::volume, "_l"},
                                                   {Dimension::per_area, "_kg_per_m2"},
                                                   {Dimension::bales_area, "_bales_per_m2"},
                                                   {Dimension::per_length, "_kg_per_m"},
                                                   {Dimension::speed, "_m_per_s"},
                                                   {Dimension::power, "_w"},
                                                   {Dimension::duration, "_s"},
                                                   {Dimension::temperature, "_c"},
                                                   {Dimension::price_mass, "_per_kg"},
                                                   {Dimension::direction, "_rad"}};
    int with_unit = 0;
    for (const ColumnSpec& spec : column_specs()) {
        const auto found = unit.find(spec.dimension);
        if (found == unit.end()) continue;
        ++with_unit;
        EXPECT_NE(spec.book.find(found->second), std::string_view::npos) << spec.book;
    }
    EXPECT_EQ(with_unit, 66);
}

TEST(Columns, KnowTheOddSpellings) {
    const ColumnSpec* lay = spec_of("rigs", "lay_kg_per_m_min");
    ASSERT_NE(lay, nullptr);
    EXPECT_EQ(lay->base, "lay");
    EXPECT_EQ(lay->tail, "_min");
    const ColumnSpec* load = spec_of("rigs", "load_s_per_bale");
    ASSERT_NE(load, nullptr);
    EXPECT_EQ(load->tail, "_per_bale");
    const ColumnSpec* minutes = spec_of("gates", "open_s");
    ASSERT_NE(minutes, nullptr);
    EXPECT_EQ(minutes->bare_unit, "min");
    const ColumnSpec* tons = spec_of("hay_fields", "hay_kg");
    ASSERT_NE(tons, nullptr);
    EXPECT_EQ(tons->bare_unit, "ton");
}

TEST(Columns, MarkWhatTheManualRequires) {
    std::set<std::string> required;
    for (const ColumnSpec& spec : column_specs()) {
        if (spec.required) {
            required.insert(std::string(spec.role) + "." + std::string(spec.base));
        }
    }
    const std::set<std::string> manual = {"pastures.name", "off_limits.kind", "yards.name",
                                          "water.name",    "shelter.name",    "herds.herd",
                                          "herds.head",    "herds.weight",    "herds.pastures",
                                          "hay.lot",       "hay.yard",        "hay.bales",
                                          "rigs.rig",      "rigs.method",     "rigs.bales_per_trip",
                                          "rigs.mass",     "rigs.pto",        "rigs.turn_radius",
                                          "trials.rig",    "trials.bales"};
    EXPECT_EQ(required, manual);
}

TEST(RawRow, ReadsNumbersAndTrimmedText) {
    const RawRow row{
        {{"a", 2.5}, {"b", " 7.25 "}, {"c", "  two words\r"}, {"d", RawValue{}}}, {}, ""};
    EXPECT_EQ(row.number("a"), 2.5);
    EXPECT_EQ(row.number("b"), 7.25);
    EXPECT_EQ(row.number("c"), std::nullopt);
    EXPECT_EQ(row.number("d"), std::nullopt);
    EXPECT_EQ(row.number("absent"), std::nullopt);
    EXPECT_EQ(row.text("a"), "2.5");
    EXPECT_EQ(row.text("c"), "two words");
    EXPECT_EQ(row.text("d"), "");
    EXPECT_EQ(row.text("absent"), "");
}

}  // namespace
}  // namespace haylane
