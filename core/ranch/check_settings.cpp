// Numbers go by the settings table; the eight settings that are words or dates are read one by one.
#include "core/ranch/check_parts.h"
#include "core/ranch/copies_kept.h"

#include <algorithm>
#include <array>
#include <charconv>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr std::array<std::string_view, 2> kUnits = {"us", "metric"};
constexpr std::array<std::string_view, 3> kMeasures = {"n", "p2o5", "k2o"};
constexpr std::array<std::string_view, 3> kWaysBy = {"time", "fuel", "cost"};
constexpr std::array<std::string_view, 2> kFuelForms = {"newer", "older"};

std::vector<std::string> known_keys() {
    std::vector<std::string> keys;
    for (const SettingInfo& info : setting_table()) keys.emplace_back(info.key);
    for (const std::string_view key : word_setting_keys()) keys.emplace_back(key);
    keys.emplace_back(kCopiesKept);
    return keys;
}

std::string not_used(std::string_view key, std::string_view typed, std::string_view why) {
    return fmt::format("Setting {}: \"{}\" {}; the usual value holds.", key, typed, why);
}

template <class Words>
bool set_word(std::string& value, const std::string& typed, const Words& words) {
    const std::string word = folded(typed);
    if (std::find(words.begin(), words.end(), word) == words.end()) return false;
    value = word;
    return true;
}

bool set_dates(Settings& settings, std::string_view key, const std::string& typed) {
    if (key == "turnout") {
        settings.turnout = parse_day(typed);
        return settings.turnout.has_value();
    }
    const auto start = parse_month_day(typed);
    if (start) settings.season_start = *start;
    return start.has_value();
}

bool set_yes_no(bool& value, const std::string& typed) {
    const std::string word = folded(typed);
    if (word != "yes" && word != "no") return false;
    value = word == "yes";
    return true;
}

// "9:30" or "09:30".
bool set_time_of_day(std::chrono::minutes& value, std::string_view typed) {
    const std::size_t colon = typed.find(':');
    if (colon == std::string_view::npos || typed.size() != colon + 3) return false;
    int hours = -1;
    int minutes = -1;
    const char* const middle = typed.data() + colon;
    const char* const end = typed.data() + typed.size();
    const auto first = std::from_chars(typed.data(), middle, hours);
    const auto second = std::from_chars(middle + 1, end, minutes);
    if (first.ec != std::errc() || first.ptr != middle || second.ec != std::errc() ||
        second.ptr != end)
        return false;
    if (hours < 0 || hours > 23 || minutes < 0 || minutes > 59) return false;
    value = std::chrono::minutes{hours * 60 + minutes};
    return true;
}

bool set_word_setting(Checking& checking, const RawRow& row, std::string_view key) {
    Settings& settings = checking.ranch.settings;
    const std::string typed = row.text("value");
    bool good = true;
    std::string_view code = "unknown_enum_value";
    if (key == "units") good = set_word(settings.units, typed, kUnits);
    if (key == "ways_by") good = set_word(settings.ways_by, typed, kWaysBy);
    if (key == "fuel_form") good = set_word(settings.fuel_form, typed, kFuelForms);
    if (key == "split_bales") good = set_yes_no(settings.split_bales, typed);
    if (good && settings.split_bales && key == "split_bales")
        checking.warn("split_bales_not_used", row.where,
                      "split_bales is not used: each herd gets whole bales, now more and now "
                      "fewer, so that its total is right.",
                      "Nothing to do; take the row out if you do not want to be told.");
    if (key == "objective_measure") {
        good = set_word(settings.objective_measure, typed, kMeasures);
    }
    if (key == "time_zone") settings.time_zone = typed;
    if (key == "carry_until") {
        good = set_time_of_day(settings.carry_until, typed);
        code = "bad_time";
    }
    if (key == "currency") settings.currency = typed;
    if (key == "turnout" || key == "season_start") {
        good = set_dates(settings, key, typed);
        code = "bad_date";
    }
    if (!good) {
        checking.drop(
            code, row.where, not_used(key, typed, "is not one of its values"),
            "units: us or metric; objective_measure: n, p2o5 or k2o; split_bales: yes or "
            "no; ways_by: time, fuel or cost; fuel_form: newer or older; season_start like "
            "07-01; turnout like 2027-05-15; carry_until like 09:30.");
    }
    return good;
}

bool set_number(Checking& checking, const RawRow& row, const SettingKey& key) {
    const SettingInfo& info = *key.info;
    const std::string typed = row.text("value");
    const std::optional<double> value = row.number("value");
    if (!value) {
        checking.drop("not_a_number", row.where, not_used(info.key, typed, "is not a number"),
                      "Correct the value, or take the row out.");
        return false;
    }
    const double value_si = (*value + key.offset) * key.to_si;
    if (!(value_si >= info.least_si && value_si <= info.most_si)) {
        checking.drop(
            *value < 0.0 ? "negative_number" : "number_out_of_range", row.where,
            not_used(info.key, typed,
                     fmt::format("is outside {:.6g} to {:.6g} {}", info.least_si / info.to_si,
                                 info.most_si / info.to_si, info.unit)),
            "Correct the value, or take the row out.");
        return false;
    }
    if (info.value != nullptr) {
        checking.ranch.settings.*info.value = value_si;
    } else {
        checking.ranch.settings.*info.optional_value = value_si;
    }
    return true;
}

// Shares of dung and urine must make a whole.
void scale_shares(Checking& checking) {
    Settings& s = checking.ranch.settings;
    const std::array shares = {&s.share_line_ratio, &s.share_water_ratio, &s.share_shelter_ratio,
                               &s.share_rest_ratio};
    double sum = 0.0;
    for (const double* share : shares) sum += *share;
    if (std::abs(sum - 1.0) < 1e-9) return;
    if (sum <= 0.0) {
        s.share_rest_ratio = 1.0;
    } else {
        for (double* share : shares) *share /= sum;
    }
    checking.warn("shares_do_not_add_up", "settings",
                  fmt::format("share_line_pct, share_water_pct, share_shelter_pct and "
                              "share_rest_pct add up to {:.4g}, not 100; they were scaled.",
                              sum * 100.0),
                  "Make them add up to 100.");
}

// The table's key for a row, or empty when the row cannot be used.
std::string use_row(Checking& checking, const RawRow& row) {
    const std::string key = folded(row.text("key"));
    if (row.text("value").empty()) return {};  // blank: the usual value, as everywhere
    if (const std::optional<SettingKey> found = find_setting(key)) {
        return set_number(checking, row, *found) ? std::string(found->info->key) : std::string();
    }
    const auto words = word_setting_keys();
    if (std::find(words.begin(), words.end(), key) != words.end()) {
        return set_word_setting(checking, row, key) ? key : std::string();
    }
    if (key == kCopiesKept) {
        if (parse_copies_kept(row.text("value"))) return key;
        checking.drop("number_out_of_range", row.where,
                      not_used(key, row.text("value"),
                               fmt::format("is no whole number from 0 to {}", kMostCopies)),
                      "Correct the value, or take the row out.");
        return {};
    }
    checking.drop("unknown_setting", row.where,
                  fmt::format("There is no setting called \"{}\"; it is not used.", key),
                  did_you_mean(key, known_keys()) + "The manual lists every setting.");
    return {};
}

}  // namespace

void check_settings(Checking& checking) {
    std::vector<std::string>& changed = checking.ranch.settings_changed;
    for (const RawRow& row : checking.rows("settings")) {
        const std::string key = use_row(checking, row);
        if (key.empty()) continue;
        if (std::find(changed.begin(), changed.end(), key) == changed.end()) {
            changed.push_back(key);
        } else {
            checking.warn(
                "duplicate_key", row.where,
                fmt::format("Setting {} is given more than once; the last one holds.", key),
                "Take the others out.");
        }
    }
    scale_shares(checking);
}

}  // namespace haylane
