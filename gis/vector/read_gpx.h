#pragma once
// A GPX 1.0 or 1.1 file: its tracks, routes and waypoints with the line of the file that each point
// stands in, WGS 84 degrees, heights in metres, times in UTC. Points that cannot be used are left
// out and named by line; of each kind of fault the first five are named and the rest counted. A
// file that breaks off keeps the points before the break. Document types are refused, nothing is
// fetched. Read in pieces: memory goes with the points kept (64 bytes each), time with the size.

#include "core/base/problem.h"
#include "core/base/result.h"
#include "gis/crs/frame.h"

#include <chrono>
#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace haylane {

using GpxTime = std::chrono::sys_time<std::chrono::milliseconds>;  // UTC

struct GpxPoint {
    LonLat at;
    std::optional<double> elevation_m;  // above mean sea level, as the receiver says
    std::optional<GpxTime> time;        // in file order, which may go back
    std::size_t line = 0;               // of the file, from 1
};

struct GpxSegment {
    std::vector<GpxPoint> points;  // may be empty
};

struct GpxField {
    std::string key;  // element name without namespace prefix: "cmt", "desc", "sym", an extension's
    std::string text;  // not blank
};

// What a track, a route or a waypoint says of itself.
struct GpxLabel {
    std::string name;  // may be empty
    std::vector<GpxField> fields;
    std::size_t line = 0;
};

struct GpxTrack {
    GpxLabel label;
    bool route = false;  // planned, not recorded; one segment
    std::vector<GpxSegment> segments;
};

struct GpxWaypoint {
    GpxLabel label;
    GpxPoint point;
};

struct GpxFile {
    std::vector<GpxTrack> tracks;  // and routes, in file order
    std::vector<GpxWaypoint> waypoints;
    Problems problems;
};

struct GpxLimits {
    std::size_t most_bytes = 256U << 20U;
    std::size_t most_points = 5'000'000;  // tracks and segments count as points
    std::size_t most_text_bytes = 4096;   // of one name or description; longer ones are cut
    std::size_t most_fields = 100;        // of one track, route or waypoint; the rest is dropped
    std::size_t deepest = 64;             // elements inside elements
};

// Errors: file_missing, file_unreadable, file_too_large, empty_file, wrong_content (an archive, a
// web page), document_type_refused, not_gpx (another root, or broken before the first point),
// nested_too_deeply, too_many_features, and, if not one point can be used, coordinate_unreadable or
// coordinates_out_of_range. Problems, by code:
//   point left out: those two, no_fix, position_spike;  value left out: elevation_unreadable,
//   time_unreadable;  kept: time_without_zone (taken as UTC), clock_wrong, time_goes_back,
//   time_jump, receiver_stood_still, no_geometry, shape_part_left_out (one point is no line);
//   file: file_cut_short, gpx_empty, gpx_version, text_encoding, text_shortened.
[[nodiscard]] Result<GpxFile> read_gpx(const std::filesystem::path& file,
                                       const GpxLimits& limits = {});

}  // namespace haylane
