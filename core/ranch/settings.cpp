// Keys end in the unit that users write. The other system's unit is accepted by swapping that
// ending, so that each setting stands in the table only once.
#include "core/ranch/settings.h"

#include "core/base/day.h"
#include "core/base/units.h"
#include "core/ranch/setting_keys.h"
#include "core/ranch/setting_rows.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>

#include <fmt/format.h>

namespace haylane {

namespace {

// A key's own ending, another that means the same in other units, and what turns the other's
// number into the table's: own = (other + offset) * factor.
struct Ending {
    std::string_view own;
    std::string_view other;
    bool own_is_metric = false;
    double factor = 1.0;
    double offset = 0.0;
};

constexpr std::array kEndings = {
    Ending{"_m", "_ft", true, units::kMetersPerFoot},
    Ending{"_c", "_f", true, 1.0 / 1.8, -32.0},
    Ending{"_mph", "_kmh", false, units::kMetersPerSecondPerKmh / units::kMetersPerSecondPerMph},
    Ending{"_kw", "_hp", true, units::kWattsPerHorsepower / 1000.0},
    Ending{"_per_gal", "_per_l", false, units::kLitersPerGallon},
    Ending{"_per_lb", "_per_kg", false, units::kKgPerPound},
};

constexpr std::array<std::string_view, 10> kWordKeys = {
    "season_start",      "turnout", "carry_until", "time_zone", "currency",
    "objective_measure", "units",   "split_bales", "ways_by",   "fuel_form"};

const SettingInfo* row_of(std::string_view key) {
    const auto table = setting_table();
    const auto found = std::find_if(table.begin(), table.end(),
                                    [&](const SettingInfo& info) { return info.key == key; });
    return found == table.end() ? nullptr : &*found;
}

// Twelve digits: hides the last bits that unit factors leave behind ("12", not 12.000000000000002).
double tidy(double value) {
    const std::string text = fmt::format("{:.12g}", value);
    double result = value;
    std::from_chars(text.data(), text.data() + text.size(), result);
    return result;
}

std::string word_value(const Settings& settings, std::string_view key) {
    if (key == "season_start") {
        return fmt::format("{:02}-{:02}", static_cast<unsigned>(settings.season_start.month()),
                           static_cast<unsigned>(settings.season_start.day()));
    }
    if (key == "turnout") return settings.turnout ? format_day(*settings.turnout) : "not given";
    if (key == "carry_until") {
        return fmt::format("{:02}:{:02}", settings.carry_until.count() / 60,
                           settings.carry_until.count() % 60);
    }
    if (key == "time_zone") {
        return settings.time_zone.empty() ? "whole hours by longitude" : settings.time_zone;
    }
    if (key == "split_bales") return settings.split_bales ? "yes" : "no";
    if (key == "ways_by") return settings.ways_by;
    if (key == "fuel_form") return settings.fuel_form;
    if (key == "currency") return settings.currency;
    if (key == "objective_measure") return settings.objective_measure;
    return settings.units;
}

Assumption shown(const SettingInfo& info, const Settings& settings) {
    Assumption result{.key = std::string(info.key),
                      .value = 0.0,
                      .text = {},
                      .unit = std::string(info.unit),
                      .source = std::string(info.source),
                      .status = std::string(to_string(info.status))};
    const std::optional<double> value_si =
        info.value != nullptr ? settings.*info.value : settings.*info.optional_value;
    if (value_si) {
        result.value = tidy(*value_si / info.to_si);
    } else {
        result.text = "not given";
    }
    return result;
}

}  // namespace

std::string_view to_string(SettingStatus status) {
    switch (status) {
        case SettingStatus::sourced:
            return "sourced";
        case SettingStatus::assumption:
            return "assumption";
        case SettingStatus::user:
            return "user";
    }
    return "assumption";
}

std::span<const SettingInfo> setting_table() {
    static const std::vector<SettingInfo> table = setting_rows();
    return table;
}

std::span<const std::string_view> word_setting_keys() { return kWordKeys; }

std::optional<SettingKey> find_setting(std::string_view key) {
    if (const SettingInfo* info = row_of(key)) return SettingKey{info, 0.0, info->to_si};
    for (const Ending& ending : kEndings) {
        if (!key.ends_with(ending.other)) continue;
        const std::string own =
            std::string(key.substr(0, key.size() - ending.other.size())) + std::string(ending.own);
        if (const SettingInfo* info = row_of(own)) {
            return SettingKey{info, ending.offset, ending.factor * info->to_si};
        }
    }
    return std::nullopt;
}

double SpokenSetting::from_si(double value) const { return tidy(value / to_si - offset); }

SpokenSetting spoken_setting(const SettingInfo& info, bool metric) {
    for (const Ending& ending : kEndings) {
        if (ending.own_is_metric == metric || !info.key.ends_with(ending.own)) continue;
        return {std::string(info.key.substr(0, info.key.size() - ending.own.size())) +
                    std::string(ending.other),
                ending.other.substr(1), ending.offset, ending.factor * info.to_si};
    }
    return {std::string(info.key), info.unit, 0.0, info.to_si};
}

std::vector<Assumption> list_assumptions(const Settings& settings,
                                         std::span<const std::string> changed) {
    std::vector<Assumption> list;
    for (const SettingInfo& info : setting_table()) list.push_back(shown(info, settings));
    for (const std::string_view key : kWordKeys) {
        list.push_back({.key = std::string(key),
                        .value = 0.0,
                        .text = word_value(settings, key),
                        .unit = {},
                        .source = "common practice, no source",
                        .status = "assumption"});
    }
    for (Assumption& item : list) {
        if (std::find(changed.begin(), changed.end(), item.key) == changed.end()) continue;
        item.source = "the user's own";
        item.status = "user";
    }
    return list;
}

}  // namespace haylane
