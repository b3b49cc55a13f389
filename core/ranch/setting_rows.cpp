// Defaults and their sources. Where a range was published the default lies in it; "assumption" and
// "common practice, no source" are said as such. Prices have no default.
#include "core/ranch/setting_rows.h"

#include "core/base/units.h"

namespace haylane {

namespace {

constexpr double kDeg = units::kPi / 180.0;
constexpr double kMph = units::kMetersPerSecondPerMph;
constexpr double kM3PerGallon = units::kLitersPerGallon / 1000.0;
constexpr double kGalPerHpHour = kM3PerGallon / units::kSecondsPerHour / units::kWattsPerHorsepower;

using enum SettingStatus;

struct Row {
    double Settings::*value;
    std::string_view key;
    std::string_view unit;
    double to_si;
    double least_si;
    double most_si;
    SettingStatus status;
    std::string_view source;
    std::string_view meaning;
};

void add(std::vector<SettingInfo>& table, std::span<const Row> rows) {
    for (const Row& row : rows) {
        table.push_back({.key = row.key,
                         .unit = row.unit,
                         .to_si = row.to_si,
                         .value = row.value,
                         .least_si = row.least_si,
                         .most_si = row.most_si,
                         .source = row.source,
                         .status = row.status,
                         .meaning = row.meaning});
    }
}

constexpr Row kGroundRows[] = {
    {&Settings::slope_limit_ratio, "slope_limit_pct", "pct", 0.01, 0.01, 1.0, assumption,
     "extension siting advice gives no figure; common practice, no source",
     "steepest ground that hay is laid on"},
    {&Settings::slope_warn_ratio, "slope_warn_pct", "pct", 0.01, 0.0, 1.0, assumption,
     "common practice, no source", "steeper ground than this is warned about"},
    {&Settings::cross_slope_limit_ratio, "cross_slope_limit_pct", "pct", 0.01, 0.01, 1.0,
     assumption, "assumption: no farm standard found",
     "steepest ground across the way of driving while laying"},
    {&Settings::fence_clearance_m, "fence_clearance_m", "m", 1.0, 0.0, 200.0, assumption,
     "assumption", "strip kept free along fences"},
    {&Settings::setback_water_m, "setback_water_m", "m", 1.0, 0.0, 1000.0, sourced,
     "40 CFR 412.4(c)(5), 100 ft (large feedlots; check state and local code)",
     "setback from water where the map gives none"},
    {&Settings::setback_wetland_m, "setback_wetland_m", "m", 1.0, 0.0, 1000.0, assumption,
     "taken as for water: 40 CFR 412.4(c)(5), 100 ft (check state and local code)",
     "setback from wetland where the map gives none"},
    {&Settings::setback_well_m, "setback_well_m", "m", 1.0, 0.0, 1000.0, sourced,
     "40 CFR 412.4(c)(5), 100 ft (large feedlots; check state and local code)",
     "setback from wells where the map gives none"},
    {&Settings::setback_building_m, "setback_building_m", "m", 1.0, 0.0, 1000.0, sourced,
     "University of Missouri Extension G9219, houses 150 ft (check state and local code)",
     "setback from buildings where the map gives none"},
    {&Settings::setback_buried_line_m, "setback_buried_line_m", "m", 1.0, 0.0, 1000.0, assumption,
     "assumption", "setback from buried lines where the map gives none"},
    {&Settings::setback_other_m, "setback_other_m", "m", 1.0, 0.0, 1000.0, assumption, "assumption",
     "setback from other off-limits ground where the map gives none"},
    {&Settings::water_caution_m, "water_caution_m", "m", 1.0, 0.0, 2000.0, sourced,
     "Wisconsin NRCS 590, 300 ft of streams in winter (spread manure)",
     "feed nearer to water than this gets a caution on frozen ground"},
    {&Settings::gate_snap_m, "gate_snap_m", "m", 1.0, 0.5, 100.0, assumption, "assumption",
     "a gate opens every fence within this distance"},
    {&Settings::trail_snap_m, "trail_snap_m", "m", 1.0, 0.5, 200.0, assumption, "assumption",
     "a trail's end joins trails, gates and yards within this distance"},
};

constexpr Row kLinesRows[] = {
    {&Settings::spacing_m, "spacing_m", "m", 1.0, 2.0, 200.0, sourced,
     "bale grazing practice, 40 ft centers (Barclay 2011)", "least distance between lines"},
    {&Settings::rest_days, "rest_days", "days", 1.0, 0.0, 3650.0, assumption, "assumption",
     "days before a line may be laid near an old one; 0 = to the season's end"},
    {&Settings::gate_keep_m, "gate_keep_m", "m", 1.0, 0.0, 1000.0, assumption, "assumption",
     "lines start at least this far from the gate"},
    {&Settings::wide_radius_m, "wide_radius_m", "m", 1.0, 5.0, 500.0, assumption, "assumption",
     "least bend of a wide line when the rig gives none"},
    {&Settings::head_space_m, "head_space_m", "m", 1.0, 0.0, 10.0, sourced,
     "FASS 2020, 30 in a cow when fed once a day",
     "line length a head below which a caution is given"},
    {&Settings::heading_step_rad, "heading_step_deg", "deg", kDeg, kDeg, 90.0 * kDeg, assumption,
     "assumption", "step between the headings tried for straight lines"},
    {&Settings::max_candidates, "max_candidates", "lines", 1.0, 10.0, 1000000.0, assumption,
     "assumption",
     "most lines weighed for one feeding and pasture; more than four herds share four times as "
     "many"},
    {&Settings::site_days, "site_days", "days", 1.0, 1.0, 365.0, assumption, "assumption",
     "days of a herd's feed that one block holds"},
    {&Settings::dose_bales_per_m2, "dose_bales_ac", "bales/ac", 1.0 / 4046.8564224, 1e-5, 0.1,
     assumption, "assumption",
     "bales an acre after which ground rests, where a pasture gives none"},
    {&Settings::move_worth_s, "move_worth_min", "min", 60.0, 0.0, 36000.0, assumption, "assumption",
     "minutes of driving that a new block must be worth to be opened early"},
};

constexpr Row kWindRows[] = {
    {&Settings::lee_wind_m_per_s, "lee_wind_mph", "mph", kMph, 0.0, 50.0, assumption, "assumption",
     "wind from which lines go to sheltered ground on a cold day"},
    {&Settings::lee_near_heights, "lee_near_heights", "heights", 1.0, 0.0, 50.0, assumption,
     "common practice, no source", "nearer behind a shelter than so many of its heights is drift"},
    {&Settings::lee_far_heights, "lee_far_heights", "heights", 1.0, 0.0, 100.0, assumption,
     "common practice, no source", "ground is sheltered to so many heights down-wind"},
    {&Settings::shelter_height_m, "shelter_height_m", "m", 1.0, 0.1, 60.0, assumption, "assumption",
     "height of a shelter where the map gives none"},
    {&Settings::fines_still_ratio, "fines_still_pct", "pct", 0.01, 0.0, 0.5, assumption,
     "assumption: off until measured", "dry matter lost as fines by a shredding rig in still air"},
    {&Settings::fines_per_wind_s_per_m, "fines_pct_per_mph", "pct/mph", 0.01 / kMph, 0.0, 0.1,
     assumption, "assumption: off until measured",
     "more of it for each mph of wind straight across the line"},
    {&Settings::storm_days, "storm_days", "days", 1.0, 0.0, 366.0, assumption,
     "common practice, no source",
     "days a winter on storm or sacrifice ground before a caution is given"},
};

constexpr Row kFeedRows[] = {
    {&Settings::intake_dry_ratio, "intake_dry_pct", "pct", 0.01, 0.005, 0.05, sourced,
     "between Hibberd and Thrift 1992 and NRC 2000",
     "hay dry matter eaten by a dry cow a day, of body weight"},
    {&Settings::intake_lactating_ratio, "intake_lactating_pct", "pct", 0.01, 0.005, 0.05, sourced,
     "between Hibberd and Thrift 1992 and NRC 2000",
     "hay dry matter eaten by a cow in milk a day, of body weight"},
    {&Settings::waste_unroll_ratio, "waste_unroll_pct", "pct", 0.01, 0.0, 0.8, sourced,
     "Lacombe study, one day's feed on snow, 12 %", "hay left over when unrolled"},
    {&Settings::waste_shred_ratio, "waste_shred_pct", "pct", 0.01, 0.0, 0.8, sourced,
     "Lacombe study, one day's feed on snow, 19 %", "hay left over when shredded"},
    {&Settings::waste_ring_ratio, "waste_ring_pct", "pct", 0.01, 0.0, 0.8, sourced,
     "Buskirk and others 2003, ring feeder 6.1 %", "hay left over in a ring"},
    {&Settings::cold_cap_ratio, "cold_cap_pct", "pct", 0.01, 0.0, 1.0, assumption, "assumption",
     "most that hay rises on cold days"},
    {&Settings::critical_heavy_coat_c, "critical_heavy_coat_c", "c", 1.0, -40.0, 30.0, sourced,
     "NDSU Extension, dry heavy winter coat 18 F", "critical temperature with a dry heavy coat"},
    {&Settings::critical_early_c, "critical_early_c", "c", 1.0, -40.0, 30.0, sourced,
     "NDSU Extension, dry winter coat 32 F", "critical temperature before December"},
    {&Settings::critical_wet_c, "critical_wet_c", "c", 1.0, -40.0, 30.0, sourced,
     "NDSU Extension, wet coat 59 F", "critical temperature with a wet coat"},
    {&Settings::straw_limit_ratio, "straw_limit_pct", "pct", 0.01, 0.0, 1.0, assumption,
     "common practice, no source", "most straw in a ration, of dry matter"},
    {&Settings::nitrate_caution_ppm, "nitrate_caution_ppm", "ppm", 1.0, 0.0, 100000.0, assumption,
     "common practice, no source", "nitrate-N at or above this gets a caution"},
    {&Settings::storage_loss_ratio, "storage_loss_pct", "pct", 0.01, 0.0, 0.9, assumption,
     "assumption", "hay lost in the stack before feeding (kept, not used yet)"},
};

constexpr Row kDepositRows[] = {
    {&Settings::retained_n_ratio, "retained_n_pct", "pct", 0.01, 0.0, 0.5, sourced,
     "within the 0 to 10 % of Gerrish and of a Saskatchewan trial",
     "eaten nitrogen that the cow keeps"},
    {&Settings::retained_p_ratio, "retained_p_pct", "pct", 0.01, 0.0, 0.5, sourced,
     "within the 0 to 10 % of extension reports on mature cows",
     "eaten phosphorus that the cow keeps"},
    {&Settings::retained_k_ratio, "retained_k_pct", "pct", 0.01, 0.0, 0.5, sourced,
     "within the 0 to 5 % of extension reports on mature cows",
     "eaten potassium that the cow keeps"},
    {&Settings::gas_urine_n_ratio, "gas_urine_n_pct", "pct", 0.01, 0.0, 1.0, sourced,
     "Whitehead 1990, about 15 % over a grazing season", "urine nitrogen lost as ammonia"},
    {&Settings::gas_dung_n_ratio, "gas_dung_n_pct", "pct", 0.01, 0.0, 1.0, sourced,
     "Whitehead 1990, 1 to 5 %", "dung nitrogen lost as ammonia"},
    {&Settings::share_line_ratio, "share_line_pct", "pct", 0.01, 0.0, 1.0, assumption,
     "assumption, range 20 to 60", "share of dung and urine that falls by the line"},
    {&Settings::share_water_ratio, "share_water_pct", "pct", 0.01, 0.0, 1.0, assumption,
     "assumption, range 2 to 10", "share of dung and urine that falls by water"},
    {&Settings::share_shelter_ratio, "share_shelter_pct", "pct", 0.01, 0.0, 1.0, assumption,
     "assumption, range 10 to 50", "share of dung and urine that falls by shelter"},
    {&Settings::share_rest_ratio, "share_rest_pct", "pct", 0.01, 0.0, 1.0, assumption, "assumption",
     "share of dung and urine that falls anywhere in the pasture"},
    {&Settings::sigma_line_m, "sigma_line_m", "m", 1.0, 0.5, 100.0, assumption,
     "assumption, range 3 to 8; NDSU saw influence to 20 ft",
     "spread of dung and urine about the line"},
    {&Settings::sigma_point_m, "sigma_point_m", "m", 1.0, 0.5, 200.0, assumption,
     "assumption; White and others 2001 saw water's effect to 30 m",
     "spread of dung and urine about water and shelter"},
    {&Settings::window_m, "window_m", "m", 1.0, 1.0, 200.0, assumption, "assumption",
     "width over which evenness is judged"},
    {&Settings::cell_m, "cell_m", "m", 1.0, 0.5, 30.0, assumption, "assumption",
     "cell of the ground maps"},
};

constexpr Row kChoosingRows[] = {
    {&Settings::native_weight_ratio, "native_weight", "ratio", 1.0, 0.0, 1.0, assumption,
     "assumption", "how much of an even share native ground should get"},
    {&Settings::cost_weight_ratio, "cost_weight", "ratio", 1.0, 0.0, 100.0, assumption,
     "assumption", "weight of money against evenness"},
    {&Settings::load_seasons, "load_seasons", "seasons", 1.0, 0.0, 100.0, assumption, "assumption",
     "past seasons that count as load; 0 = all recorded"},
    {&Settings::soil_high_weight_ratio, "soil_high_weight", "ratio", 1.0, 0.01, 1.0, assumption,
     "assumption; 1 leaves soil tests out",
     "least share: how much of an even one goes where soil tests very high"},
    {&Settings::soil_test_years, "soil_test_years", "years", 1.0, 0.5, 100.0, assumption,
     "common practice, no source", "older soil tests are used, and flagged"},
    {&Settings::soil_olsen_low_ppm, "soil_olsen_low_ppm", "ppm", 1.0, 0.0, 1000.0, assumption,
     "Minnesota and North Dakota classes, medium from 8 (from memory)",
     "Olsen phosphorus up to which ground gets a full share"},
    {&Settings::soil_olsen_high_ppm, "soil_olsen_high_ppm", "ppm", 1.0, 0.0, 1000.0, assumption,
     "Minnesota and North Dakota classes, very high from 16 (from memory)",
     "Olsen phosphorus from which ground gets the least share"},
    {&Settings::soil_bray_low_ppm, "soil_bray_low_ppm", "ppm", 1.0, 0.0, 1000.0, sourced,
     "SARE, Building Soils for Better Crops, table 21.2: optimum from 15",
     "Bray P1 phosphorus up to which ground gets a full share"},
    {&Settings::soil_bray_high_ppm, "soil_bray_high_ppm", "ppm", 1.0, 0.0, 1000.0, sourced,
     "SARE, Building Soils for Better Crops, table 21.2: very high above 31",
     "Bray P1 phosphorus from which ground gets the least share"},
    {&Settings::soil_mehlich_low_ppm, "soil_mehlich_low_ppm", "ppm", 1.0, 0.0, 1000.0, sourced,
     "West Virginia pasture advice: 15 limits yield",
     "Mehlich-3 phosphorus up to which ground gets a full share"},
    {&Settings::soil_mehlich_high_ppm, "soil_mehlich_high_ppm", "ppm", 1.0, 0.0, 1000.0, sourced,
     "West Virginia pasture advice: 36 does not limit yield",
     "Mehlich-3 phosphorus from which ground gets the least share"},
    {&Settings::soil_k_low_ppm, "soil_k_low_ppm", "ppm", 1.0, 0.0, 5000.0, assumption,
     "Midwest critical values about 120 to 170 (from memory)",
     "potassium up to which ground gets a full share"},
    {&Settings::soil_k_high_ppm, "soil_k_high_ppm", "ppm", 1.0, 0.0, 5000.0, assumption,
     "Midwest critical values about 120 to 170 (from memory)",
     "potassium from which ground gets the least share"},
};

constexpr Row kDrivingRows[] = {
    {&Settings::speed_paved_m_per_s, "speed_paved_mph", "mph", kMph, kMph, 25.0, assumption,
     "assumption", "speed on paved trails"},
    {&Settings::speed_gravel_m_per_s, "speed_gravel_mph", "mph", kMph, kMph, 25.0, assumption,
     "assumption", "speed on gravel trails"},
    {&Settings::speed_dirt_m_per_s, "speed_dirt_mph", "mph", kMph, 0.5 * kMph, 25.0, assumption,
     "assumption", "speed on dirt trails"},
    {&Settings::speed_two_track_m_per_s, "speed_two_track_mph", "mph", kMph, 0.5 * kMph, 25.0,
     assumption, "assumption", "speed on two-track trails"},
    {&Settings::speed_pasture_m_per_s, "speed_pasture_mph", "mph", kMph, 0.5 * kMph, 25.0,
     assumption, "assumption", "speed across pasture"},
    {&Settings::snow_speed_ratio, "snow_speed_pct", "pct", 0.01, 0.1, 1.0, assumption, "assumption",
     "speed in snow, of the speed without"},
    {&Settings::warm_up_s, "warm_up_min", "min", 60.0, 0.0, 7200.0, assumption, "assumption",
     "warming up the tractor"},
    {&Settings::warm_up_cold_s, "warm_up_cold_min", "min", 60.0, 0.0, 7200.0, assumption,
     "assumption", "warming up the tractor below 0 F"},
    {&Settings::load_bale_s, "load_bale_min", "min", 60.0, 0.0, 3600.0, assumption, "assumption",
     "loading one bale where the rig gives none"},
    {&Settings::wrap_net_s, "wrap_net_min", "min", 60.0, 0.0, 3600.0, assumption, "assumption",
     "taking net wrap off a bale"},
    {&Settings::wrap_twine_s, "wrap_twine_min", "min", 60.0, 0.0, 3600.0, assumption, "assumption",
     "taking twine off a bale"},
    {&Settings::wrap_frozen_extra_s, "wrap_frozen_extra_min", "min", 60.0, 0.0, 3600.0, assumption,
     "assumption", "more for frozen wrap"},
    {&Settings::gate_s, "gate_min", "min", 60.0, 0.0, 3600.0, assumption, "assumption",
     "opening and shutting a gate where the gate gives none"},
};

constexpr Row kPowerRows[] = {
    {&Settings::resistance_paved_ratio, "resistance_paved_pct", "pct", 0.01, 0.001, 1.0, assumption,
     "within Moyer's 0.8 to 1.2 % for firm roads and handbook margins",
     "motion resistance on paved trails, of weight"},
    {&Settings::resistance_gravel_ratio, "resistance_gravel_pct", "pct", 0.01, 0.001, 1.0, sourced,
     "tire on rolled new gravel, handbook value 2 %", "motion resistance on gravel, of weight"},
    {&Settings::resistance_dirt_ratio, "resistance_dirt_pct", "pct", 0.01, 0.001, 1.0, sourced,
     "loose worn gravel and medium-hard soil, handbook range 4 to 8 %",
     "motion resistance on dirt, of weight"},
    {&Settings::resistance_two_track_ratio, "resistance_two_track_pct", "pct", 0.01, 0.001, 1.0,
     assumption, "assumption, between dirt and sod", "motion resistance on two-track, of weight"},
    {&Settings::resistance_pasture_ratio, "resistance_pasture_pct", "pct", 0.01, 0.001, 1.0,
     sourced, "ASABE D497, firm ground (wheel numeric 55), towed",
     "motion resistance on sod, of weight"},
    {&Settings::resistance_snow_extra_ratio, "resistance_snow_extra_pct", "pct", 0.01, 0.0, 1.0,
     sourced, "CRREL TR-01-16 (2001), Table 11, shallow snow",
     "more motion resistance in snow, of weight"},
    {&Settings::resistance_thaw_factor_ratio, "resistance_thaw_factor", "times", 1.0, 1.0, 20.0,
     sourced, "Richmond, Shoop and Blaisdell 1995, CRREL 95-1 Table A3, thaw depth 3 cm",
     "motion resistance on thawing ground, of that on firm ground"},
    {&Settings::axle_pto_ratio, "axle_pto_pct", "pct", 0.01, 0.5, 1.0, sourced,
     "ASABE D497 Figure 1 (from memory)", "power at the axle, of power at the PTO"},
    {&Settings::idle_m3_per_j, "idle_gal_per_h_per_hp", "gal/h/hp", kGalPerHpHour, 0.0,
     0.05 * kGalPerHpHour, assumption, "assumption", "fuel while idling, by rated PTO power"},
    {&Settings::throttle_cut_ratio, "throttle_cut_pct", "pct", 0.01, 0.0, 0.5, assumption,
     "assumption", "how far the engine is throttled back except while shredding"},
    {&Settings::no_way_factor_ratio, "no_way_factor", "times", 1.0, 1.0, 5.0, assumption,
     "assumption", "way over straight distance where no gates or trails are mapped"},
    {&Settings::unroll_feed_w, "unroll_feed_kw", "kw", 1000.0, 0.0, 200000.0, assumption,
     "assumption: no measurement found", "PTO power to unroll"},
    {&Settings::shred_feed_j_per_kg, "shred_feed_kwh_per_t", "kWh/t", 3600.0, 0.0, 360000.0,
     sourced,
     "tub grinding of bales, 13 to 32 kWh/t (Energies 2018, 11(4):780), least of the range",
     "PTO energy to shred"},
};

void add_prices(std::vector<SettingInfo>& table) {
    struct Price {
        std::optional<double> Settings::*value;
        std::string_view key;
        std::string_view unit;
        double to_si;
        double most_si;
        std::string_view meaning;
    };
    constexpr Price kPrices[] = {
        {&Settings::fuel_price_per_m3, "fuel_price_per_gal", "money/gal", 1.0 / kM3PerGallon, 1e6,
         "price of diesel"},
        {&Settings::labor_per_s, "labor_per_h", "money/h", 1.0 / units::kSecondsPerHour, 1.0,
         "wage of an hour"},
        {&Settings::machine_per_s, "machine_per_h", "money/h", 1.0 / units::kSecondsPerHour, 1.0,
         "repairs and wear of an hour"},
        {&Settings::price_n_per_kg, "price_n_per_lb", "money/lb", 1.0 / units::kKgPerPound, 1000.0,
         "price of fertilizer N"},
        {&Settings::price_p2o5_per_kg, "price_p2o5_per_lb", "money/lb", 1.0 / units::kKgPerPound,
         1000.0, "price of fertilizer P2O5"},
        {&Settings::price_k2o_per_kg, "price_k2o_per_lb", "money/lb", 1.0 / units::kKgPerPound,
         1000.0, "price of fertilizer K2O"},
    };
    for (const Price& price : kPrices) {
        table.push_back({.key = price.key,
                         .unit = price.unit,
                         .to_si = price.to_si,
                         .optional_value = price.value,
                         .most_si = price.most_si,
                         .source = "the user's own; blank by default",
                         .status = assumption,
                         .meaning = price.meaning});
    }
}

}  // namespace

std::vector<SettingInfo> setting_rows() {
    std::vector<SettingInfo> table;
    add(table, kGroundRows);
    add(table, kLinesRows);
    add(table, kWindRows);
    add(table, kFeedRows);
    add(table, kDepositRows);
    add(table, kChoosingRows);
    add(table, kDrivingRows);
    add(table, kPowerRows);
    add_prices(table);
    return table;
}

}  // namespace haylane
