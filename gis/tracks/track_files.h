#pragma once
// The files that a user's list of files and folders means.

#include "core/base/problem.h"
#include "core/base/result.h"

#include <filesystem>
#include <vector>

namespace haylane {

struct TrackFiles {
    std::vector<std::filesystem::path> files;  // as given; a folder's by name, folders inside too
    Problems problems;                         // not_a_track_file: what a folder also holds
};

// Files are taken whatever they are called; of folders those ending in gpx, kml, geojson, json or
// csv. Errors: file_missing; no_track_files when nothing is left.
[[nodiscard]] Result<TrackFiles> track_files(const std::vector<std::filesystem::path>& given);

}  // namespace haylane
