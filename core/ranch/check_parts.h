#pragma once
// The parts of check_ranch in the order they must run: each fills its vectors of checking.ranch and
// adds problems. For check_*.cpp only.

#include "core/ranch/check_support.h"

namespace haylane {

void check_settings(Checking& checking);
void check_pastures(Checking& checking);
void check_off_limits(Checking& checking);
void check_soft_and_shelter(Checking& checking);
void check_gates(Checking& checking);
void check_trails(Checking& checking);
void check_yards(Checking& checking);
void check_water_and_fields(Checking& checking);
void check_rigs(Checking& checking);
void check_hay(Checking& checking);       // after yards
void check_herds(Checking& checking);     // after pastures
void check_moves(Checking& checking);     // after herds
void check_keep_to(Checking& checking);   // after hay and herds
void check_feedings(Checking& checking);  // after herds, hay and rigs
void check_weather(Checking& checking);
void check_soil(Checking& checking);
// How the pieces of the map fit together: after all of the map.
void check_overlaps(Checking& checking);
void check_fences(Checking& checking);
void check_off_limits_places(Checking& checking);

}  // namespace haylane
