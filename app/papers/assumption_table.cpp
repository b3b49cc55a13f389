#include "app/papers/assumption_table.h"

#include "app/papers/words.h"
#include "core/base/units.h"

#include <array>
#include <cmath>
#include <utility>

#include <fmt/format.h>

namespace haylane {
namespace {

QString to_q(const std::string& text) { return QString::fromStdString(text); }
QString to_q(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

// A value with about three digits.
QString figure(double value) {
    return to_q(std::abs(value) >= 999.5 ? words::whole_number(value)
                                         : fmt::format("{:.3g}", value));
}

// Settings that are words have no line in the settings table.
QString plain_meaning(const std::string& key) {
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 10> kMeanings{
        {{"season_start", "first day of a feeding season"},
         {"turnout", "turn-out to grass"},
         {"carry_until", "how long dirt carries on a thaw day, after a cold night"},
         {"ways_by", "ways are those of least"},
         {"fuel_form", "form of ASABE D497 for fuel"},
         {"split_bales", "two herds may share a bale"},
         {"time_zone", "time zone"},
         {"currency", "money"},
         {"objective_measure", "what is spread evenly"},
         {"units", "units on paper"}}};
    for (const auto& [name, meaning] : kMeanings) {
        if (name == key) return to_q(meaning);
    }
    for (const SettingInfo& info : setting_table()) {
        if (info.key == key) return to_q(info.meaning);
    }
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 7> kMeasured{
        {{": feed_min_per_bale", ": laying a bale"},
         {": feed_gal_per_bale", ": fuel to lay a bale"},
         {": hookup_min", ": hooking on and off"},
         {": protein_lost_pct", ": protein lost while laying, of dry matter"},
         {": tdn_lost_pct", ": TDN lost while laying, of dry matter"},
         {": drift_downwind_m", ": drift of fines down-wind"},
         {": feed_mph", ": feeding speed"}}};
    for (const auto& [name, meaning] : kMeasured) {
        if (key.ends_with(name))
            return to_q(key.substr(0, key.size() - name.size())) + to_q(meaning);
    }
    QString text = to_q(key);
    return text.replace('_', ' ');
}

QString assumption_value(const Assumption& assumption, bool metric, const std::string& currency) {
    if (assumption.key == "objective_measure") return to_q(assumption.text).toUpper();
    if (!assumption.text.empty()) return to_q(assumption.text);
    if (assumption.unit.starts_with("money/")) {
        return to_q(words::money(assumption.value, currency) + assumption.unit.substr(5));
    }
    if (assumption.unit == "c") return to_q(words::temperature(assumption.value, metric));
    if (assumption.unit == "m" && !metric) {
        return figure(assumption.value / units::kMetersPerFoot) + " ft";
    }
    std::string unit = assumption.unit;
    if (unit == "pct") unit = "%";
    if (unit == "kw") unit = "kW";
    return figure(assumption.value) + (unit.empty() ? "" : " " + to_q(unit));
}

}  // namespace

void paint_assumption_table(Flow& flow, const std::vector<Assumption>& assumptions, bool metric,
                            const std::string& currency) {
    std::vector<std::vector<QString>> rows{{"what", "value", "source", "kind"}};
    for (const Assumption& one : assumptions)
        rows.push_back({plain_meaning(one.key), assumption_value(one, metric, currency),
                        to_q(one.source),
                        one.status == "user" ? QStringLiteral("yours") : to_q(one.status)});
    flow.table({0.36, 0.14, 0.36, 0.14}, rows);
}

}  // namespace haylane
