#pragma once
// A span's feedings in one pasture taken apart, so that figures for other parameters are sums of
// ready fields: where each group of like feedings (one lot, one rig) left its hay, where what falls
// near its lines lies for three widths of spread, and where what falls by water, at shelter and
// anywhere lies; all for one kg, seen through the window, at the cells that figures are judged on.

#include "core/season/parameter_ranges.h"
#include "core/season/season_map.h"

#include <array>
#include <optional>
#include <vector>

namespace haylane {

// Three widths that near-line spread is made for; between them it is taken in proportion.
inline constexpr std::array<double, 3> kSpreadNodes_m{3.0, 5.5, 8.0};

struct LoadGroup {
    std::optional<LotId> lot;
    double dm_kg = 0.0;
    double waste_ratio = 0.0;  // of the group's hay as a whole
    HayQuality quality;        // likewise
    double intake_kg_per_head_day = 0.0;
    std::vector<float> residue;              // a m2, by judged cell
    std::array<std::vector<float>, 3> line;  // a m2, by node and judged cell
};

struct LoadFields {
    int step = 1;                    // every step-th cell each way is judged
    std::vector<std::size_t> cells;  // judged, by place in the raster
    std::vector<LoadGroup> groups;
    std::vector<float> water;  // a m2, by judged cell; a kg that falls there
    std::vector<float> shelter;
    std::vector<float> rest;
};

// Variants of the ranch in which all dung and urine falls in one kind of place. Made once.
struct PlaceRanches {
    explicit PlaceRanches(const Ranch& ranch);
    Ranch water;
    Ranch shelter;
    Ranch rest;
};

// At most about `most_cells` cells are judged. Linear in feedings; a few spreads a group.
[[nodiscard]] LoadFields load_fields(const Ranch& ranch, const PlaceRanches& places,
                                     const PastureGround& ground, const Feedings& feedings,
                                     const Span& span, std::size_t most_cells);

// What one draw of the parameters leaves on the pasture as a whole.
struct DrawnLedger {
    Nutrients on_ground;
    double residue_dm_kg = 0.0;
    double animal_days = 0.0;
    double n_lost_gas_kg = 0.0;
    Ledger n_pools;  // only its residue, dung and urine N
};
[[nodiscard]] DrawnLedger drawn_ledger(const LoadFields& fields, const ParameterDraw& draw);
// kg a m2 of one nutrient at each judged cell, for a draw.
[[nodiscard]] std::vector<double> drawn_load(const LoadFields& fields, const ParameterDraw& draw,
                                             SeasonMeasure nutrient);

}  // namespace haylane
