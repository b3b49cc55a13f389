// Any bytes as a file of tracks: GPX, KML, GeoJSON or CSV, told apart by what stands in it.
#include "fuzz/input_folder.h"
#include "gis/tracks/read_tracks.h"

#include <cmath>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace haylane;
    static const fuzz::InputFolder folder;
    const auto read = read_tracks(folder.put("drive.gpx", fuzz::view(data, size)));
    if (!read) return 0;
    for (const RecordedTrack& track : read->tracks) {
        if (track.points.empty()) std::abort();
        for (const GpxPoint& point : track.points) {
            if (!std::isfinite(point.at.lon_deg) || !(std::abs(point.at.lat_deg) <= 90.0))
                std::abort();
        }
    }
    return 0;
}
