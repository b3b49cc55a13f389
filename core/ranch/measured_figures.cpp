#include "core/ranch/measured_figures.h"

#include "core/base/units.h"
#include "core/ranch/words.h"

#include <fmt/format.h>

namespace haylane {

namespace {

std::string measured_by(const OwnFigures& own) {
    std::string source = "measured on the ranch:";
    if (own.trials > 0) source += fmt::format(" {} trial feedings", own.trials);
    if (own.trials > 0 && own.tracks > 0) source += " and";
    if (own.tracks > 0) source += fmt::format(" {} tracks", own.tracks);
    if (own.newest) source += ", the last on " + format_day(*own.newest);
    return source;
}

}  // namespace

void use_measured(Ranch& ranch) {
    for (Rig& rig : ranch.rigs) {
        rig.drift_downwind_m = rig.own.drift_downwind_m.value_or(rig.drift_downwind_m);
        rig.feed_m_per_s = rig.own.feed_m_per_s.value_or(rig.feed_m_per_s);
    }
}

std::vector<Assumption> list_measured(const Ranch& ranch) {
    std::vector<Assumption> list;
    for (const Rig& rig : ranch.rigs) {
        const std::string source = measured_by(rig.own);
        const auto add = [&](const std::optional<double>& si, const std::string& key,
                             const char* unit, double to_si) {
            if (!si) return;
            list.push_back({.key = rig.name + ": " + key,
                            .value = *si / to_si,
                            .text = {},
                            .unit = unit,
                            .source = source,
                            .status = "measured"});
        };
        const OwnFigures& own = rig.own;
        add(own.feed_s_per_bale, "feed_min_per_bale", "min", units::kSecondsPerMinute);
        add(own.feed_l_per_bale, "feed_gal_per_bale", "gal", units::kLitersPerGallon);
        add(own.hookup_s, "hookup_min", "min", units::kSecondsPerMinute);
        add(own.cp_lost_ratio, "protein_lost_pct", "pct", 0.01);
        add(own.tdn_lost_ratio, "tdn_lost_pct", "pct", 0.01);
        add(own.drift_downwind_m, "drift_downwind_m", "m", 1.0);
        add(own.feed_m_per_s, "feed_mph", "mph", units::kMetersPerSecondPerMph);
        for (std::size_t s = 0; s < own.haul_m_per_s.size(); ++s)
            add(own.haul_m_per_s[s],
                fmt::format("speed_{}_mph", to_string(static_cast<Surface>(s))), "mph",
                units::kMetersPerSecondPerMph);
    }
    return list;
}

std::string measured_sentence(const Ranch& ranch) {
    std::string names;
    for (const Rig& rig : ranch.rigs) {
        if (rig.own.trials == 0 && rig.own.tracks == 0) continue;
        names += (names.empty() ? "" : ", ") + rig.name;
    }
    if (names.empty()) return "";
    return "Figures measured on the ranch are used for: " + names + ".";
}

}  // namespace haylane
