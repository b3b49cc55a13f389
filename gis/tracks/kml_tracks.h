#pragma once
// The tracks of a KML 2.2 file: Track elements with times (in whatever namespace), and LineStrings,
// which have none. Read in pieces by Expat; document types and links are refused first.

#include "core/base/result.h"
#include "gis/tracks/recorded_track.h"

#include <filesystem>

namespace haylane {

// Errors: those of scan_text_file; not_kml; coordinate_unreadable when no point can be used.
[[nodiscard]] Result<RecordedFile> read_kml_tracks(const std::filesystem::path& file);

}  // namespace haylane
