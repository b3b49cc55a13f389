#pragma once
// What hay holds and weighs when nobody tested or weighed it: tables by kind, and bale mass from
// its size. Mass as fed; ratios of dry matter, elemental P and K.

#include "core/ranch/ranch.h"

#include <optional>
#include <string_view>

namespace haylane {

struct TableHay {
    double dm_ratio = 0.88;
    HayQuality quality;
};
[[nodiscard]] TableHay table_hay(HayKind kind);

// Size of a round bale, width x diameter in feet as written in the US ("5x6"), in metres.
struct BaleSize {
    double width_m = 0.0;
    double diameter_m = 0.0;
};
// nullopt unless both numbers read and lie between 2 and 8 ft.
[[nodiscard]] std::optional<BaleSize> parse_bale_size(std::string_view text);
// pi/4 d^2 w at 11 lb/ft3 as fed; for baleage that much DRY matter, which it is made at.
[[nodiscard]] double bale_kg(const BaleSize& size, HayKind kind, double dm_ratio);

}  // namespace haylane
