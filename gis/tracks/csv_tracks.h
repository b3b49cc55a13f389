#pragma once
// A table of fixes: one row a fix, a column of times, longitudes and latitudes each; where a column
// says who was tracked, one track each. Times are ISO 8601 (UTC unless they say otherwise), or
// seconds or milliseconds since 1970.

#include "core/base/result.h"
#include "gis/tracks/recorded_track.h"

#include <filesystem>

namespace haylane {

// Errors: those of read_csv; csv_columns_missing; coordinate_unreadable or coordinates_out_of_range
// when no row has a place.
[[nodiscard]] Result<RecordedFile> read_csv_tracks(const std::filesystem::path& file);

}  // namespace haylane
