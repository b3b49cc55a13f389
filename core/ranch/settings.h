#pragma once
// Every number of the models that a user may change, with its key, unit, range, source and status.
// The struct's defaults are the documented defaults; settings.csv overrides them by key.

#include <chrono>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace haylane {

struct Settings {
    // Ground
    double slope_limit_ratio = 0.12;
    double slope_warn_ratio = 0.06;
    double cross_slope_limit_ratio = 0.10;
    double fence_clearance_m = 6.0;
    double setback_water_m = 30.5;
    double setback_wetland_m = 30.5;
    double setback_well_m = 30.5;
    double setback_building_m = 46.0;
    double setback_buried_line_m = 0.0;
    double setback_other_m = 0.0;
    double water_caution_m = 91.44;
    double gate_snap_m = 10.0;
    double trail_snap_m = 15.0;
    // Lines
    double spacing_m = 12.0;
    double rest_days = 0.0;  // 0 = to the season's end
    double gate_keep_m = 60.0;
    double wide_radius_m = 46.0;
    double head_space_m = 0.76;
    double heading_step_rad = 0.08726646259971647;  // 5 degrees
    double max_candidates = 1500.0;  // per feeding shape and pasture, spread evenly over the ground
    double site_days = 14.0;         // a block holds so many days of a herd's feed
    double dose_bales_per_m2 = 4.0 / 4046.8564224;  // 4 bales an acre
    double move_worth_s = 1200.0;                   // driving that an early new block must save
    // Wind
    double lee_wind_m_per_s = 4.4704;     // 10 mph: with cold, lines go to sheltered ground
    double lee_near_heights = 5.0;        // sheltered ground begins so many heights down-wind
    double lee_far_heights = 10.0;        // and ends here
    double shelter_height_m = 3.0;        // where the map gives none
    double fines_still_ratio = 0.0;       // w0: dry matter a shredding rig loses as fines
    double fines_per_wind_s_per_m = 0.0;  // w1: more of it per m/s of wind across the line
    double storm_days = 10.0;             // days a winter on storm or sacrifice ground
    // Feed
    double intake_dry_ratio = 0.020;
    double intake_lactating_ratio = 0.024;
    double waste_unroll_ratio = 0.12;
    double waste_shred_ratio = 0.19;
    double waste_ring_ratio = 0.061;
    double cold_cap_ratio = 0.20;
    double critical_heavy_coat_c = -7.777777777777778;  // 18 F
    double critical_early_c = 0.0;                      // 32 F, before December
    double critical_wet_c = 15.0;                       // 59 F
    double straw_limit_ratio = 0.30;
    double nitrate_caution_ppm = 1000.0;
    double storage_loss_ratio = 0.0;
    // Deposit
    double retained_n_ratio = 0.05;
    double retained_p_ratio = 0.05;
    double retained_k_ratio = 0.02;
    double gas_urine_n_ratio = 0.15;
    double gas_dung_n_ratio = 0.03;
    double share_line_ratio = 0.35;
    double share_water_ratio = 0.05;
    double share_shelter_ratio = 0.30;
    double share_rest_ratio = 0.30;
    double sigma_line_m = 6.0;
    double sigma_point_m = 20.0;
    double window_m = 10.0;
    double cell_m = 3.0;
    // Choosing
    double native_weight_ratio = 0.2;
    double cost_weight_ratio = 0.05;
    double load_seasons = 0.0;  // 0 = all recorded feedings
    // Soil tests: full need up to the low value, soil_high_weight from the high one on.
    double soil_high_weight_ratio = 0.2;
    double soil_test_years = 4.0;
    double soil_olsen_low_ppm = 8.0;
    double soil_olsen_high_ppm = 16.0;
    double soil_bray_low_ppm = 15.0;
    double soil_bray_high_ppm = 31.0;
    double soil_mehlich_low_ppm = 15.0;
    double soil_mehlich_high_ppm = 36.0;
    double soil_k_low_ppm = 120.0;
    double soil_k_high_ppm = 170.0;
    // Driving
    double speed_paved_m_per_s = 6.7056;      // 15 mph
    double speed_gravel_m_per_s = 5.36448;    // 12 mph
    double speed_dirt_m_per_s = 3.57632;      // 8 mph
    double speed_two_track_m_per_s = 2.2352;  // 5 mph
    double speed_pasture_m_per_s = 1.78816;   // 4 mph
    double snow_speed_ratio = 0.7;
    double warm_up_s = 720.0;
    double warm_up_cold_s = 1500.0;
    double load_bale_s = 150.0;
    double wrap_net_s = 120.0;
    double wrap_twine_s = 180.0;
    double wrap_frozen_extra_s = 120.0;
    double gate_s = 180.0;
    double resistance_paved_ratio = 0.015;
    double resistance_gravel_ratio = 0.02;
    double resistance_dirt_ratio = 0.04;
    double resistance_two_track_ratio = 0.05;
    double resistance_pasture_ratio = 0.058;
    double resistance_snow_extra_ratio = 0.05;
    double resistance_thaw_factor_ratio = 2.6;
    double axle_pto_ratio = 0.96;
    double idle_m3_per_j = 8.460534e-12;  // 0.006 gal/h per hp
    double throttle_cut_ratio = 0.30;
    double no_way_factor_ratio = 1.3;
    double unroll_feed_w = 7500.0;
    double shred_feed_j_per_kg = 46800.0;  // 13 kWh per tonne
    // Money; blank until the user gives them
    std::optional<double> fuel_price_per_m3;
    std::optional<double> labor_per_s;
    std::optional<double> machine_per_s;
    std::optional<double> price_n_per_kg;
    std::optional<double> price_p2o5_per_kg;
    std::optional<double> price_k2o_per_kg;
    // Calendar and text
    std::chrono::month_day season_start{std::chrono::July / 1};
    std::optional<std::chrono::sys_days> turnout;
    std::chrono::minutes carry_until{9 * 60 + 30};  // dirt carries so long after a cold night
    std::string time_zone;                          // IANA; empty = whole hours by longitude
    std::string currency = "USD";
    std::string objective_measure = "p2o5";  // n, p2o5 or k2o
    std::string units = "us";                // us or metric
    bool split_bales = false;         // two herds on one way in may share a bale, in quarters
    std::string ways_by = "time";     // the way taken is that of least time, fuel or cost
    std::string fuel_form = "newer";  // of ASABE D497: newer or older
};

enum class SettingStatus { sourced, assumption, user };
[[nodiscard]] std::string_view to_string(SettingStatus status);

// One numeric setting: where it lives and how it is explained.
struct SettingInfo {
    std::string_view key;   // as users write it in settings.csv, in `unit`
    std::string_view unit;  // unit of the key as users write it: "pct", "m", "min", ...
    double to_si = 1.0;     // factor from that unit to SI
    double Settings::*value = nullptr;
    std::optional<double> Settings::*optional_value = nullptr;  // exactly one of the two is set
    double least_si = 0.0;
    double most_si = 0.0;
    std::string_view source;  // who says so; "common practice, no source" where nobody does
    SettingStatus status = SettingStatus::assumption;
    std::string_view meaning;
};

// All numeric settings in a fixed order.
[[nodiscard]] std::span<const SettingInfo> setting_table();

// A key as a user wrote it, found in the table: SI value = (typed + offset) * to_si.
struct SettingKey {
    const SettingInfo* info = nullptr;
    double offset = 0.0;
    double to_si = 1.0;
};
// Finds a key by name, also when it ends in the other system's unit ("spacing_ft" for "spacing_m",
// "critical_wet_f" for "critical_wet_c", "fuel_price_per_l" for "fuel_price_per_gal").
[[nodiscard]] std::optional<SettingKey> find_setting(std::string_view key);
// Keys of the settings that are words or dates: season_start, turnout, carry_until, time_zone,
// currency, objective_measure, units, split_bales, ways_by, fuel_form.
[[nodiscard]] std::span<const std::string_view> word_setting_keys();

// A setting as shown in results.
struct Assumption {
    std::string key;
    double value = 0.0;
    std::string text;  // for settings that are words; value is then unused
    std::string unit;
    std::string source;
    std::string status;  // sourced, assumption, user, measured
};
// Every setting with the value in force; `changed` marks keys the user set.
[[nodiscard]] std::vector<Assumption> list_assumptions(const Settings& settings,
                                                       std::span<const std::string> changed);

}  // namespace haylane
