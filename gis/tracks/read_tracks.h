#pragma once
// Reads a file of recorded tracks: GPX 1.0 and 1.1, KML, GeoJSON lines or CSV, told apart by what
// stands in them, not by the name. Odd points are left out and named by line; nothing is fetched
// and no archive is opened. Memory goes with the points (64 bytes each, 5 million at most).

#include "core/base/result.h"
#include "gis/tracks/recorded_track.h"

#include <filesystem>

namespace haylane {

// Errors: those of read_gpx, read_csv_tracks, read_kml_tracks and read_json_tracks. Problems also:
// route_not_a_track, track_without_times (some or all points), tracks_empty, named_otherwise.
[[nodiscard]] Result<RecordedFile> read_tracks(const std::filesystem::path& file);

}  // namespace haylane
