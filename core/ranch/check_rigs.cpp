// What a rig does not say is filled by its method. A shredder throws a wider row (an assumption)
// and a tail that reaches 8 ft down-wind; a peeled bale falls at its own rate, about 4 lb/ft, where
// a shredder lays 1.4 to 2.5 (common practice, no source).
#include "core/base/units.h"
#include "core/ranch/check_parts.h"
#include "core/ranch/words.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr double kUnrollWindrow_m = 1.2;  // about a bale's width
constexpr double kShredWindrow_m = 2.0;
constexpr double kShredDrift_m = 8.0 * units::kMetersPerFoot;
constexpr double kUnrollMost_kg_per_m = 4.0 * units::kKgPerPound / units::kMetersPerFoot;

void fill_laying(RowReader& reader, Rig& rig) {
    const Rig usual;
    const auto least = reader.number("lay_kg_per_m_min");
    const auto most = reader.number("lay_kg_per_m_max");
    rig.lay_kg_per_m_min = least.value_or(std::min(usual.lay_kg_per_m_min, most.value_or(1e9)));
    const double usual_most =
        rig.method == Method::unroll ? kUnrollMost_kg_per_m : usual.lay_kg_per_m_max;
    rig.lay_kg_per_m_max = most.value_or(std::max(usual_most, rig.lay_kg_per_m_min));
    if (rig.lay_kg_per_m_min <= rig.lay_kg_per_m_max) return;
    std::swap(rig.lay_kg_per_m_min, rig.lay_kg_per_m_max);
    reader.warn("least_above_most",
                fmt::format("{}: its least lay rate is above its greatest; they were swapped.",
                            reader.subject()),
                "Write the smaller one as the least.");
}

void fill_by_method(RowReader& reader, const Settings& settings, Rig& rig) {
    const bool shreds = rig.method == Method::shred;
    rig.windrow_m =
        reader.number("windrow_m").value_or(shreds ? kShredWindrow_m : kUnrollWindrow_m);
    rig.drift_downwind_m = reader.number("drift_downwind_m").value_or(shreds ? kShredDrift_m : 0.0);
    const auto waste = reader.number("waste_ratio");
    rig.waste_given = waste.has_value();
    rig.waste_ratio =
        waste.value_or(shreds ? settings.waste_shred_ratio : settings.waste_unroll_ratio);
}

Rig read_rig(RowReader& reader, const Settings& settings) {
    Rig rig;
    rig.name = reader.required_text("rig");
    if (reader.required_text("method").empty()) return rig;
    const auto method = reader.word("method", kMethodWords);
    if (!method) {
        reader.drop("method_unknown",
                    fmt::format("{} is not used, as its method is unknown.", reader.subject()),
                    "Write unroll or shred.");
    }
    rig.method = method.value_or(Method::unroll);
    rig.line_rule = reader.word("line_shape", kLineRuleWords).value_or(LineRule::any);
    rig.feed_radius_m = reader.number("feed_radius_m");
    rig.bales_per_trip = reader.required_count("bales_per_trip");
    rig.mass_kg = reader.required_number("mass_kg");
    rig.pto_w = reader.required_number("pto_w");
    rig.turn_radius_m = reader.required_number("turn_radius_m");
    rig.hitch_m = reader.number("hitch_m").value_or(0.0);
    rig.discharge = reader.word("discharge", kDischargeWords).value_or(Discharge::behind);
    rig.feed_m_per_s = reader.number("feed_m_per_s").value_or(rig.feed_m_per_s);
    rig.load_s_per_bale = reader.number("load_s_per_bale");
    rig.hookup_s = reader.number("hookup_s").value_or(0.0);
    rig.feed_w = reader.number("feed_w");
    fill_by_method(reader, settings, rig);
    fill_laying(reader, rig);
    return rig;
}

}  // namespace

void check_rigs(Checking& checking) {
    std::vector<Rig>& rigs = checking.ranch.rigs;
    for (const RawRow& row : checking.rows("rigs")) {
        RowReader reader("rigs", row, checking, fmt::format("Rig \"{}\"", row.text("rig")));
        Rig rig = read_rig(reader, checking.ranch.settings);
        if (!reader.usable()) continue;
        if (has_name(rigs, rig.name)) {
            reader.drop("duplicate_key",
                        fmt::format("{} stands in the list more than once; only the first is used.",
                                    reader.subject()),
                        "Give each rig a name of its own, or take one row out.");
            continue;
        }
        rigs.push_back(std::move(rig));
    }
}

}  // namespace haylane
