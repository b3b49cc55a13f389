#pragma once
// A drive as a file holds it: places in WGS 84 degrees, times in UTC where there are any.

#include "core/base/problem.h"
#include "core/tracks/track.h"
#include "gis/crs/frame.h"
#include "gis/vector/read_gpx.h"

#include <string>
#include <vector>

namespace haylane {

struct RecordedTrack {
    std::string name;              // as it may be shown; may be empty
    std::vector<GpxPoint> points;  // in file order, the file's line with each
};

struct RecordedFile {
    std::string file;  // name without folder
    std::string hash;  // of the points: 16 hex digits, the same whatever the file is called
    std::string counted = "line";       // what a point's line counts: "feature" in GeoJSON
    std::vector<RecordedTrack> tracks;  // none empty
    Problems problems;
    // "drive.gpx, line 12", of the `line` of a point.
    [[nodiscard]] std::string where(std::size_t line) const;
    [[nodiscard]] std::size_t points() const;
    [[nodiscard]] std::size_t points_without_time() const;
};

// Places in the ranch frame, times in seconds since 1970 UTC; one a point of the track.
[[nodiscard]] std::vector<TrackPoint> in_frame(const RecordedTrack& track, const Frame& frame);

}  // namespace haylane
