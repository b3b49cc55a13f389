#pragma once
// Times as GPX writes them (xsd:dateTime): "2027-01-11T14:00:05.25Z", or with +05:45, or without a
// zone. Second 60 of a leap second is the first of the next minute.

#include "gis/vector/read_gpx.h"

#include <optional>
#include <string_view>

namespace haylane {

struct GpxTimeRead {
    GpxTime at;               // cut to milliseconds
    bool zone_given = false;  // else taken as UTC
};

// nullopt for anything else, impossible dates included.
[[nodiscard]] std::optional<GpxTimeRead> parse_gpx_time(std::string_view text);

}  // namespace haylane
