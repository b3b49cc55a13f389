#pragma once
// The account of the ground as the JSON document "haylane-ground/1" (docs/formats.md): SI numbers,
// dates ISO 8601, shares as ratios, undefined values null, no NaN. Figures of a pasture whose
// records are unsure (over a quarter recalled or assumed) are classes, {"from", "to"}.

#include "core/ranch/check_ranch.h"
#include "core/season/ground_account.h"

#include <string>
#include <vector>

namespace haylane {

// What the N of every map and table means; the other three are in the document beside it.
inline constexpr const char* kNitrogenShown = "on_ground_after_gas_loss";

// `crs_operations`: how coordinates were brought into the ranch frame; listed as assumptions.
[[nodiscard]] std::string ground_json(const GroundAccount& ground, const CheckedRanch& checked,
                                      const std::vector<std::string>& crs_operations);

}  // namespace haylane
