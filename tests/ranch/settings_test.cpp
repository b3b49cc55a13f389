// Against the defaults as the manual writes them in users' units, exact unit definitions (NIST
// Handbook 44 Appendix C), and the struct itself: no double may be missing from the table.
#include "core/ranch/settings.h"

#include <cmath>
#include <cstddef>
#include <set>

#include <gtest/gtest.h>

namespace haylane {
namespace {

double default_of(const SettingInfo& info) {
    const Settings settings;
    return settings.*info.value;
}

const Assumption* shown(const std::vector<Assumption>& list, std::string_view key) {
    for (const Assumption& item : list) {
        if (item.key == key) return &item;
    }
    return nullptr;
}

TEST(Settings, EveryNumberIsInTheTableOnce) {
    // All numbers stand before the calendar in the struct, doubles first, then optional prices.
    constexpr std::size_t kDoubles = offsetof(Settings, fuel_price_per_m3) / sizeof(double);
    constexpr std::size_t kPrices =
        (offsetof(Settings, season_start) - offsetof(Settings, fuel_price_per_m3)) /
        sizeof(std::optional<double>);
    const Settings settings;
    std::set<const void*> members;
    std::size_t doubles = 0;
    std::size_t prices = 0;
    for (const SettingInfo& info : setting_table()) {
        ASSERT_NE(info.value == nullptr, info.optional_value == nullptr) << info.key;
        if (info.value != nullptr) {
            ++doubles;
            members.insert(&(settings.*info.value));
        } else {
            ++prices;
            members.insert(&(settings.*info.optional_value));
        }
    }
    EXPECT_EQ(doubles, kDoubles);
    EXPECT_EQ(prices, kPrices);
    EXPECT_EQ(members.size(), kDoubles + kPrices);
}

TEST(Settings, KeysAreUniqueAndExplained) {
    std::set<std::string_view> keys;
    for (const SettingInfo& info : setting_table()) {
        EXPECT_TRUE(keys.insert(info.key).second) << info.key;
        EXPECT_FALSE(info.source.empty()) << info.key;
        EXPECT_FALSE(info.meaning.empty()) << info.key;
        EXPECT_FALSE(info.unit.empty()) << info.key;
        EXPECT_GT(info.to_si, 0.0) << info.key;
    }
    EXPECT_EQ(keys.size(), setting_table().size());
}

TEST(Settings, DefaultsLieInTheirRange) {
    int checked = 0;
    for (const SettingInfo& info : setting_table()) {
        EXPECT_LT(info.least_si, info.most_si) << info.key;
        if (info.value == nullptr) continue;
        EXPECT_GE(default_of(info), info.least_si) << info.key;
        EXPECT_LE(default_of(info), info.most_si) << info.key;
        ++checked;
    }
    EXPECT_GT(checked, 60);
}

TEST(Settings, DefaultsReadAsTheManualWritesThem) {
    const std::vector<Assumption> list = list_assumptions(Settings{}, {});
    const struct {
        std::string_view key;
        double value;
    } manual[] = {{"slope_limit_pct", 12.0},
                  {"cross_slope_limit_pct", 10.0},
                  {"fence_clearance_m", 6.0},
                  {"setback_water_m", 30.5},
                  {"setback_building_m", 46.0},
                  {"spacing_m", 12.0},
                  {"cold_cap_pct", 20.0},
                  {"cell_m", 3.0},
                  {"window_m", 10.0},
                  {"cost_weight", 0.05},
                  {"native_weight", 0.2},
                  {"speed_paved_mph", 15.0},
                  {"speed_pasture_mph", 4.0},
                  {"warm_up_min", 12.0},
                  {"load_bale_min", 2.5},
                  {"idle_gal_per_h_per_hp", 0.006},
                  {"shred_feed_kwh_per_t", 13.0},
                  {"heading_step_deg", 5.0},
                  {"intake_dry_pct", 2.0},
                  {"share_line_pct", 35.0}};
    for (const auto& row : manual) {
        const Assumption* item = shown(list, row.key);
        ASSERT_NE(item, nullptr) << row.key;
        EXPECT_NEAR(item->value, row.value, 1e-6 * row.value) << row.key;
        EXPECT_EQ(item->text, "") << row.key;
    }
}

TEST(Settings, ListShowsBlankPricesWordsAndWhatTheUserChanged) {
    Settings settings;
    settings.spacing_m = 15.0;
    const std::vector<std::string> changed = {"spacing_m"};
    const std::vector<Assumption> list = list_assumptions(settings, changed);
    EXPECT_EQ(list.size(), setting_table().size() + word_setting_keys().size());
    EXPECT_EQ(shown(list, "spacing_m")->status, "user");
    EXPECT_EQ(shown(list, "spacing_m")->value, 15.0);
    EXPECT_EQ(shown(list, "waste_shred_pct")->status, "sourced");
    EXPECT_EQ(shown(list, "fuel_price_per_gal")->text, "not given");
    EXPECT_EQ(shown(list, "season_start")->text, "07-01");
}

TEST(Settings, EitherSystemsUnitIsAccepted) {
    const struct {
        std::string_view key;
        double typed;
        double si;
    } cases[] = {{"spacing_ft", 40.0, 12.192},      {"spacing_m", 12.0, 12.0},
                 {"critical_wet_f", 59.0, 15.0},    {"critical_wet_c", 15.0, 15.0},
                 {"speed_dirt_kmh", 36.0, 10.0},    {"speed_dirt_mph", 10.0, 4.4704},
                 {"fuel_price_per_l", 1.0, 1000.0}, {"fuel_price_per_gal", 3.785411784, 1000.0},
                 {"price_n_per_kg", 1.0, 1.0},      {"price_n_per_lb", 0.45359237, 1.0},
                 {"labor_per_h", 36.0, 0.01}};
    for (const auto& row : cases) {
        const auto found = find_setting(row.key);
        ASSERT_TRUE(found.has_value()) << row.key;
        EXPECT_NEAR((row.typed + found->offset) * found->to_si, row.si, 1e-9 * row.si) << row.key;
    }
    EXPECT_FALSE(find_setting("spacing").has_value());
    EXPECT_FALSE(find_setting("spacing_lb").has_value());
}

}  // namespace
}  // namespace haylane
