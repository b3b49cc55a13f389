#pragma once
// A season's load by a day as it stands on the map, and as a figure at a place.

#include "app/papers/ground_map.h"
#include "app/session/ground_season.h"

#include <optional>

namespace haylane {

// Everything in it is as the printed report has it: colours, steps, outlines of limits. A day
// before the first record shows bare ground.
[[nodiscard]] MapContent ground_content(const GroundSeason& season, SeasonMeasure measure,
                                        sys_days day, const Ranch& ranch, const GroundWords& words);
// "Creek Bottom: 37 lb/ac of P2O5 here, limit 150"; empty outside the pastures.
[[nodiscard]] QString figure_at(const GroundSeason& season, SeasonMeasure measure, sys_days day,
                                Point place, const Ranch& ranch, const GroundWords& words);
// Share of load against share of ground: of one pasture, or of all feed ground. Empty where nothing
// lies.
[[nodiscard]] std::vector<double> curve_by(const GroundSeason& season, SeasonMeasure measure,
                                           sys_days day, std::optional<PastureId> pasture,
                                           const Ranch& ranch);

}  // namespace haylane
