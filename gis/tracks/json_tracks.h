#pragma once
// The lines of a GeoJSON file (RFC 7946) as tracks. The format has no times of its own; a feature's
// property "times", a list of ISO 8601 times with one a coordinate (lists of lists for a
// MultiLineString), gives them. Other shapes are not tracks.

#include "core/base/result.h"
#include "gis/tracks/recorded_track.h"

#include <filesystem>

namespace haylane {

// Errors: those of scan_text_file, parse_json and read_layers; coordinate_unreadable when no
// feature can be used and one is at fault.
[[nodiscard]] Result<RecordedFile> read_json_tracks(const std::filesystem::path& file);

}  // namespace haylane
