#pragma once
// A setting's key and unit as somebody who speaks US or metric units writes them.

#include "core/ranch/settings.h"

#include <string>
#include <string_view>

namespace haylane {

struct SpokenSetting {
    std::string key;        // find_setting knows it: "spacing_ft"
    std::string_view unit;  // "ft"; the table's own where both systems share it
    double offset = 0.0;
    double to_si = 1.0;
    // Twelve digits, so that unit factors leave no traces.
    [[nodiscard]] double from_si(double value) const;
};
[[nodiscard]] SpokenSetting spoken_setting(const SettingInfo& info, bool metric);

}  // namespace haylane
