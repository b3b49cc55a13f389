// The table of the manual, written out row by row: one place that readers, the book, checking and
// the manual's own test all take their columns from.
#include "core/ranch/raw_ranch.h"

namespace haylane {

namespace {

using enum Dimension;

constexpr bool kRequired = true;

void add_map_roles(std::vector<ColumnSpec>& specs) {
    specs.insert(specs.end(), {
                                  {"pastures", "name", "name", text, kRequired},
                                  {"pastures", "feed", "feed", yes_no},
                                  {"pastures", "ground", "ground", text},
                                  {"pastures", "sacrifice", "sacrifice", yes_no},
                                  {"pastures", "dose", "dose_bales_per_m2", bales_area},
                                  {"pastures", "target_n", "target_n_kg_per_m2", per_area},
                                  {"pastures", "target_p2o5", "target_p2o5_kg_per_m2", per_area},
                                  {"pastures", "target_k2o", "target_k2o_kg_per_m2", per_area},
                                  {"pastures", "limit_n", "limit_n_kg_per_m2", per_area},
                                  {"pastures", "limit_p2o5", "limit_p2o5_kg_per_m2", per_area},
                                  {"pastures", "limit_k2o", "limit_k2o_kg_per_m2", per_area},
                                  {"off_limits", "name", "name", text},
                                  {"off_limits", "kind", "kind", text, kRequired},
                                  {"off_limits", "setback", "setback_m", length},
                                  {"gates", "name", "name", text},
                                  {"gates", "closed_from", "closed_from", date_mark},
                                  {"gates", "closed_to", "closed_to", date_mark},
                                  {"gates", "minutes", "open_s", duration, false, "", "min"},
                                  {"trails", "name", "name", text},
                                  {"trails", "surface", "surface", text},
                                  {"trails", "speed", "speed_m_per_s", speed},
                                  {"trails", "max", "max_kg", mass},
                                  {"trails", "closed_from", "closed_from", date_mark},
                                  {"trails", "closed_to", "closed_to", date_mark},
                                  {"yards", "name", "name", text, kRequired},
                                  {"yards", "capacity_bales", "capacity_bales", number},
                                  {"yards", "all_weather", "all_weather", yes_no},
                                  {"water", "name", "name", text, kRequired},
                                  {"shelter", "name", "name", text, kRequired},
                                  {"shelter", "height", "height_m", length},
                                  {"soft", "name", "name", text},
                              });
}

void add_herd_roles(std::vector<ColumnSpec>& specs) {
    specs.insert(specs.end(), {
                                  {"herds", "herd", "herd", text, kRequired},
                                  {"herds", "head", "head", number, kRequired},
                                  {"herds", "weight", "weight_kg", mass, kRequired},
                                  {"herds", "stage", "stage", text},
                                  {"herds", "calving_from", "calving_from", date_mark},
                                  {"herds", "calving_to", "calving_to", date_mark},
                                  {"herds", "intake", "intake_ratio", ratio, false, "_bw"},
                                  {"herds", "bales_per_day", "bales_per_day", number},
                                  {"herds", "pastures", "pastures", text, kRequired},
                                  {"herds", "feed_every_days", "feed_every_days", number},
                                  {"herds", "round_to", "round_to", text},
                                  {"herds", "fed_in", "fed_in", text},
                                  {"herds", "cake", "cake_kg", mass},
                                  {"herds", "cake_cp", "cake_cp_ratio", ratio},
                                  {"herds", "cake_tdn", "cake_tdn_ratio", ratio},
                                  {"herds", "cake_p", "cake_p_ratio", ratio},
                                  {"herds", "mineral", "mineral_kg", mass},
                                  {"herds", "mineral_p", "mineral_p_ratio", ratio},
                                  {"moves", "herd", "herd", text},
                                  {"moves", "date", "date", date},
                                  {"moves", "pasture", "pasture", text},
                              });
}

void add_hay_and_rigs(std::vector<ColumnSpec>& specs) {
    specs.insert(specs.end(),
                 {
                     {"hay", "lot", "lot", text, kRequired},
                     {"hay", "yard", "yard", text, kRequired},
                     {"hay", "kind", "kind", text},
                     {"hay", "bales", "bales", number, kRequired},
                     {"hay", "bale", "bale_kg", mass},  // or bale_size: one of the two is required
                     {"hay", "bale_size", "bale_size", text},
                     {"hay", "dm", "dm_ratio", ratio},
                     {"hay", "cp", "cp_ratio", ratio},
                     {"hay", "tdn", "tdn_ratio", ratio},
                     {"hay", "p", "p_ratio", ratio},
                     {"hay", "k", "k_ratio", ratio},
                     {"hay", "nitrate_ppm", "nitrate_ppm", number},
                     {"hay", "price", "price_per_kg", price_mass},
                     {"hay", "feed_first", "feed_first", yes_no},
                     {"hay", "keep_to", "keep_to", text},
                     {"hay", "wrap", "wrap", text},
                     {"hay", "counted_on", "counted_on", date},
                     {"rigs", "rig", "rig", text, kRequired},
                     {"rigs", "method", "method", text, kRequired},
                     {"rigs", "line_shape", "line_shape", text},
                     {"rigs", "feed_radius", "feed_radius_m", length},
                     {"rigs", "bales_per_trip", "bales_per_trip", number, kRequired},
                     {"rigs", "mass", "mass_kg", mass, kRequired},
                     {"rigs", "pto", "pto_w", power, kRequired},
                     {"rigs", "turn_radius", "turn_radius_m", length, kRequired},
                     {"rigs", "hitch", "hitch_m", length},
                     {"rigs", "windrow", "windrow_m", length},
                     {"rigs", "drift_downwind", "drift_downwind_m", length},
                     {"rigs", "discharge", "discharge", text},
                     {"rigs", "feed", "feed_m_per_s", speed},
                     {"rigs", "lay", "lay_kg_per_m_min", per_length, false, "_min"},
                     {"rigs", "lay", "lay_kg_per_m_max", per_length, false, "_max"},
                     {"rigs", "load", "load_s_per_bale", duration, false, "_per_bale"},
                     {"rigs", "hookup", "hookup_s", duration},
                     {"rigs", "waste", "waste_ratio", ratio},
                     {"rigs", "feed", "feed_w", power},
                 });
}

void add_records(std::vector<ColumnSpec>& specs) {
    specs.insert(
        specs.end(),
        {
            {"feedings", "date", "date", date},  // or date_from: one of the two is required
            {"feedings", "date_from", "date_from", date},
            {"feedings", "date_to", "date_to", date},
            {"feedings", "herd", "herd", text},
            {"feedings", "pasture", "pasture", text},
            {"feedings", "lot", "lot", text},
            {"feedings", "bales", "bales", number},
            {"feedings", "rig", "rig", text},
            {"feedings", "source", "source", text},
            {"weather", "date", "date", date},
            {"weather", "wind_from", "wind_from_rad", direction},
            {"weather", "wind", "wind_m_per_s", speed},
            {"weather", "low", "low_c", temperature},
            {"weather", "high", "high_c", temperature},
            {"weather", "wet", "wet", yes_no},
            {"weather", "thaw", "thaw", yes_no},
            {"weather", "snow", "snow", yes_no},
            {"soil", "name", "name", text},
            {"soil", "date", "date", date},
            {"soil", "n_ppm", "n_ppm", number},
            {"soil", "p_ppm", "p_ppm", number},
            {"soil", "k_ppm", "k_ppm", number},
            {"soil", "method", "method", text},
            {"soil", "depth", "depth_m", length},
            {"soil", "lab", "lab", text},
            {"hay_fields", "name", "name", text},
            {"hay_fields", "tons", "hay_kg", mass, false, "", "ton"},
            {"trials", "rig", "rig", text, kRequired},
            {"trials", "lot", "lot", text},
            {"trials", "date", "date", date},
            {"trials", "pair", "pair", text},
            {"trials", "bales", "bales", number, kRequired},
            {"trials", "bale", "bale_kg", mass},
            {"trials", "hookup", "hookup_s", duration},
            {"trials", "unhook", "unhook_s", duration},
            {"trials", "feed", "feed_s", duration},
            {"trials", "feed", "feed_s_per_bale", duration, false, "_per_bale"},
            {"trials", "fuel", "fuel_kg", mass},
            {"trials", "fuel", "fuel_l", volume},
            {"trials", "fuel_temp", "fuel_temp_c", temperature},
            {"trials", "bale_dm", "bale_dm_ratio", ratio},
            {"trials", "bale_cp", "bale_cp_ratio", ratio},
            {"trials", "bale_tdn", "bale_tdn_ratio", ratio},
            {"trials", "bale_ash", "bale_ash_ratio", ratio},
            {"trials", "windrow_dm", "windrow_dm_ratio", ratio},
            {"trials", "windrow_cp", "windrow_cp_ratio", ratio},
            {"trials", "windrow_tdn", "windrow_tdn_ratio", ratio},
            {"trials", "windrow_ash", "windrow_ash_ratio", ratio},
            {"trials", "wind", "wind_m_per_s", speed},
            {"trials", "line", "line_length_m", length},
            {"trials", "drift", "drift_downwind_m", length},
            {"settings", "key", "key", text},
            {"settings", "value", "value", text},
            {"columns", "role", "role", text},
            {"columns", "column", "column", text},
            {"columns", "in_file", "in_file", text},
            {"columns", "unit", "unit", text},
        });
}

std::vector<ColumnSpec> all_columns() {
    std::vector<ColumnSpec> specs;
    add_map_roles(specs);
    add_herd_roles(specs);
    add_hay_and_rigs(specs);
    add_records(specs);
    return specs;
}

}  // namespace

const std::vector<ColumnSpec>& column_specs() {
    static const std::vector<ColumnSpec> specs = all_columns();
    return specs;
}

}  // namespace haylane
