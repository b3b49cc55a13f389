#pragma once
// How far the numbers that a season map rests on may be off, each with who says so, and draws from
// those ranges: triangular, with the setting in force as the most likely value. Settings outside a
// range widen it.

#include "core/ranch/settings.h"

#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

namespace haylane {

// One range. `setting` null: a factor on something of each feeding or lot, most likely 1.
struct ParameterRange {
    std::string_view key;
    double Settings::*setting = nullptr;
    double low = 0.0;
    double high = 0.0;
    std::string_view source;
    std::string_view meaning;
};
// In a fixed order; "waste", "bale_mass", "hay_tested", "hay_untested" are the factors.
[[nodiscard]] std::span<const ParameterRange> parameter_ranges();

// Factors on one lot's hay.
struct LotFactors {
    double bale_mass = 1.0;
    double cp = 1.0;
    double p = 1.0;
    double k = 1.0;
};
struct ParameterDraw {
    Settings settings;  // shares, sigma, losses and kept shares replaced
    double waste = 1.0;
    std::vector<LotFactors> lots;  // by lot of the ranch; last: feedings without a lot
};
// The same for the same seed, draw and settings, on any machine. `tested` by lot.
[[nodiscard]] ParameterDraw draw_parameters(const Settings& settings,
                                            const std::vector<bool>& tested, std::uint64_t seed,
                                            int draw);
// Value of a triangular distribution below which a share u in [0, 1] lies; low <= mode <= high.
[[nodiscard]] double triangular(double u, double low, double mode, double high);

}  // namespace haylane
