// Allowed: beyond it a plan would be nonsense. Usual: what large herds and farm machines are in
// practice (common practice, no source), wide enough that a question is worth asking.
#include "core/ranch/plausible.h"

#include "core/base/units.h"

#include <array>

namespace haylane {

namespace {

struct Row {
    std::string_view role;
    std::string_view column;
    Plausible range;
};

constexpr Range kShare{0.0, 1.0};
constexpr Range kWeather_c{-70.0, 60.0};
constexpr double kMost = std::numeric_limits<double>::max();

constexpr std::array kRows = {
    Row{"pastures", "dose_bales_per_m2", {{0.0, kMost}, Range{0.0, 0.01}}},
    Row{"off_limits", "setback_m", {{0.0, kMost}, Range{0.0, 500.0}}},
    Row{"gates", "open_s", {{0.0, 7200.0}, Range{0.0, 1800.0}}},
    Row{"trails", "speed_m_per_s", {{0.2, 25.0}, Range{0.8, 18.0}}},
    Row{"trails", "max_kg", {{100.0, 1e6}, Range{1000.0, 60000.0}}},
    Row{"yards", "capacity_bales", {{0.0, 1e9}, Range{0.0, 20000.0}}},
    Row{"shelter", "height_m", {{0.1, 200.0}, Range{0.5, 40.0}}},
    Row{"herds", "head", {{1.0, 1e6}, Range{1.0, 20000.0}}},
    Row{"herds", "weight_kg", {{50.0, 1500.0}, Range{180.0, 1000.0}}},
    Row{"herds", "intake_ratio", {{0.005, 0.05}, Range{0.012, 0.035}}},
    Row{"herds", "bales_per_day", {{0.01, 1e4}, Range{0.05, 200.0}}},
    Row{"herds", "feed_every_days", {{1.0, 30.0}, Range{1.0, 7.0}}},
    Row{"herds", "cake_kg", {{0.0, 20.0}, Range{0.0, 5.0}}},
    Row{"herds", "cake_cp_ratio", {kShare, Range{0.08, 0.5}}},
    Row{"herds", "cake_tdn_ratio", {kShare, Range{0.5, 0.95}}},
    Row{"herds", "cake_p_ratio", {kShare, Range{0.0, 0.03}}},
    Row{"herds", "mineral_kg", {{0.0, 5.0}, Range{0.0, 0.5}}},
    Row{"herds", "mineral_p_ratio", {kShare, Range{0.0, 0.25}}},
    Row{"hay", "bales", {{0.0, 1e6}, Range{0.0, 50000.0}}},
    Row{"hay", "bale_kg", {{20.0, 2500.0}, Range{200.0, 1100.0}}},
    Row{"hay", "dm_ratio", {{0.2, 1.0}, Range{0.35, 0.95}}},
    Row{"hay", "cp_ratio", {{0.0, 0.4}, Range{0.025, 0.28}}},
    Row{"hay", "tdn_ratio", {{0.2, 0.95}, Range{0.35, 0.75}}},
    Row{"hay", "p_ratio", {{0.0, 0.02}, Range{0.0004, 0.006}}},
    Row{"hay", "k_ratio", {{0.0, 0.08}, Range{0.003, 0.045}}},
    Row{"hay", "nitrate_ppm", {{0.0, kMost}, Range{0.0, 30000.0}}},
    Row{"rigs", "feed_radius_m", {{1.0, 1000.0}, Range{3.0, 300.0}}},
    Row{"rigs", "bales_per_trip", {{1.0, 100.0}, Range{1.0, 20.0}}},
    Row{"rigs", "mass_kg", {{200.0, 100000.0}, Range{1000.0, 35000.0}}},
    Row{"rigs", "pto_w", {{5e3, 1e6}, Range{15e3, 300e3}}},
    Row{"rigs", "turn_radius_m", {{0.5, 100.0}, Range{1.5, 25.0}}},
    Row{"rigs", "hitch_m", {{0.0, 30.0}, Range{0.0, 15.0}}},
    Row{"rigs", "windrow_m", {{0.1, 20.0}, Range{0.4, 8.0}}},
    Row{"rigs", "drift_downwind_m", {{0.0, 50.0}, Range{0.0, 15.0}}},
    Row{"rigs", "feed_m_per_s", {{0.1, 10.0}, Range{0.3, 6.0}}},
    Row{"rigs", "lay_kg_per_m_min", {{0.1, 100.0}, Range{0.5, 25.0}}},
    Row{"rigs", "lay_kg_per_m_max", {{0.1, 100.0}, Range{0.5, 25.0}}},
    Row{"rigs", "load_s_per_bale", {{0.0, 7200.0}, Range{0.0, 1200.0}}},
    Row{"rigs", "hookup_s", {{0.0, 14400.0}, Range{0.0, 3600.0}}},
    Row{"rigs", "waste_ratio", {{0.0, 0.8}, Range{0.0, 0.45}}},
    Row{"rigs", "feed_w", {{0.0, 1e6}, Range{0.0, 200e3}}},
    Row{"feedings", "bales", {{0.0, 1e5}, Range{0.0, 1000.0}}},
    Row{"weather", "wind_from_rad", {{0.0, 2.0 * units::kPi}, std::nullopt}},
    Row{"weather", "wind_m_per_s", {{0.0, 90.0}, Range{0.0, 35.0}}},
    Row{"weather", "low_c", {kWeather_c, Range{-48.0, 30.0}}},
    Row{"weather", "high_c", {kWeather_c, Range{-43.0, 45.0}}},
    Row{"soil", "n_ppm", {{0.0, kMost}, Range{0.0, 500.0}}},
    Row{"soil", "p_ppm", {{0.0, kMost}, Range{0.0, 500.0}}},
    Row{"soil", "k_ppm", {{0.0, kMost}, Range{0.0, 3000.0}}},
    Row{"soil", "depth_m", {{0.01, 3.0}, Range{0.02, 1.3}}},
};

struct OtherUnit {
    std::string_view ending;
    double factor;  // from the unit meant to the one it was taken for
    std::string_view question;
};

constexpr std::array kOtherUnits = {
    OtherUnit{"_kg", units::kKgPerPound, "Was it meant in pounds?"},
    OtherUnit{"_kg", 1.0 / units::kKgPerPound, "Was it meant in kilograms?"},
    OtherUnit{"_m", units::kMetersPerFoot, "Was it meant in feet?"},
    OtherUnit{"_m", 1.0 / units::kMetersPerFoot, "Was it meant in metres?"},
    OtherUnit{"_ratio", 100.0, "Was it a share of 1 in the place of a percentage?"},
};

}  // namespace

Plausible plausible(std::string_view role, std::string_view column) {
    for (const Row& row : kRows) {
        if (row.role == role && row.column == column) return row.range;
    }
    return {};
}

std::string unit_question(std::string_view column, double value, Range usual) {
    for (const OtherUnit& other : kOtherUnits) {
        if (column.ends_with(other.ending) && usual.holds(value * other.factor))
            return std::string(other.question);
    }
    return {};
}

}  // namespace haylane
