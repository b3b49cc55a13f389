#pragma once
// How much of a pasture's load lies near water and wells, and on ground that runs to water soon.
// Straight distances to the shape's edge, 0 inside it; flow by D8 (drains_to_water.h).

#include "core/deposit/excretion.h"
#include "core/deposit/pasture_ground.h"
#include "core/ground/terrain.h"
#include "core/ranch/ranch.h"
#include "core/season/season_map.h"

namespace haylane {

// Setback of 40 CFR 412.4 for large feedlots' manure; shown as a yardstick, no rule for pasture.
inline constexpr double kNearWater_m = 30.48;  // 100 ft

// By cell of a pasture, flags added up.
enum WaterFlag : std::uint8_t {
    kWaterIn100 = 1,
    kWaterInCaution = 2,
    kWellIn100 = 4,
    kWellInCaution = 8,
    kDrainsInCaution = 16
};

struct WaterGround {
    Raster<std::uint8_t> flags;
    bool terrain_known = false;  // false: nothing is said about flow
};

// "Caution" is settings.water_caution_m (300 ft). Water: off-limits of kind water or wetland.
[[nodiscard]] WaterGround water_ground(const Ranch& ranch, const PastureGround& ground,
                                       const Terrain& terrain);

struct WaterExposure {
    Nutrients water_in_100;
    Nutrients water_in_caution;
    Nutrients well_in_100;
    Nutrients well_in_caution;
    Nutrients drains_in_caution;
    bool terrain_known = false;
};
[[nodiscard]] WaterExposure water_exposure(const WaterGround& water, const DepositMap& map);

}  // namespace haylane
