#include "gis/vector/gpx_layer.h"

#include "core/base/day.h"
#include "gis/crs/to_lonlat.h"
#include "gis/vector/read_gpx.h"

#include <map>

#include <fmt/format.h>

namespace haylane {

namespace {

// Puts cells into the columns they belong to, which grow as keys turn up.
struct Columns {
    std::vector<std::string>& names;
    std::map<std::string, std::size_t> index;

    explicit Columns(std::vector<std::string>& columns) : names(columns) {
        for (std::size_t i = 0; i < names.size(); ++i) index.emplace(names[i], i);
    }
    void set(SourceRow& row, const std::string& key, const std::string& cell) {
        const auto [at, fresh] = index.emplace(key, names.size());
        if (fresh) names.push_back(key);
        if (row.cells.size() <= at->second) row.cells.resize(at->second + 1);
        row.cells[at->second] = cell;
    }
};

SourceRow row_of(const GpxLabel& label, Columns& columns, const std::string& file) {
    SourceRow row;
    row.where = fmt::format("{}, line {}", file, label.line);
    columns.set(row, "name", label.name);
    for (const GpxField& field : label.fields) columns.set(row, field.key, field.text);
    return row;
}

void add_track(const GpxTrack& track, Columns& columns, SourceLayer& layer) {
    SourceRow row = row_of(track.label, columns, layer.file);
    for (const GpxSegment& segment : track.segments) {
        if (segment.points.size() < 2) continue;
        LonLatLine line;
        line.reserve(segment.points.size());
        for (const GpxPoint& point : segment.points) line.push_back(point.at);
        row.shape.lines.push_back(std::move(line));
    }
    layer.rows.push_back(std::move(row));
}

void add_waypoint(const GpxWaypoint& waypoint, Columns& columns, SourceLayer& layer) {
    SourceRow row = row_of(waypoint.label, columns, layer.file);
    const GpxPoint& point = waypoint.point;
    if (point.elevation_m) columns.set(row, "ele", fmt::format("{}", *point.elevation_m));
    if (point.time) {
        columns.set(row, "time", format_day(std::chrono::floor<std::chrono::days>(*point.time)));
    }
    row.shape.points.push_back(point.at);
    layer.rows.push_back(std::move(row));
}

// GPX is WGS 84 by its schema: named as the other readers name their coordinate systems.
Result<void> note_crs(SourceLayer& layer) {
    const Result<ToLonLat> door = ToLonLat::from_crs("EPSG:4326");
    if (!door) return fail(door.error());
    for (const SourceRow& row : layer.rows) {
        if (row.shape.empty()) continue;
        const LonLat at =
            row.shape.points.empty() ? row.shape.lines.front().front() : row.shape.points.front();
        if (door->lonlat(at.lon_deg, at.lat_deg)) layer.crs_operations = {door->operation()};
        return {};
    }
    return {};
}

}  // namespace

Result<SourceLayer> read_gpx_layer(const std::filesystem::path& file,
                                   const GpxLayerOptions& options) {
    Result<GpxFile> read = read_gpx(file);
    if (!read) return fail(read.error());
    SourceLayer layer;
    layer.name = file.stem().string();
    layer.file = file.filename().string();
    layer.spatial = true;
    layer.from_track = true;
    layer.problems = std::move(read->problems);
    layer.columns = {"name", "cmt", "desc", "src", "type"};
    const std::size_t count = options.waypoints ? read->waypoints.size() : read->tracks.size();
    if (count > options.most_rows) {
        return fail({"too_many_features",
                     fmt::format("{} holds more than {} features", layer.file, options.most_rows),
                     layer.file, "keep only the ranch's own features in it"});
    }
    if (options.waypoints) {
        layer.columns.insert(layer.columns.end(), {"sym", "ele", "time"});
    } else {
        layer.columns.emplace_back("number");
    }
    Columns columns(layer.columns);
    if (options.waypoints) {
        for (const GpxWaypoint& one : read->waypoints) add_waypoint(one, columns, layer);
    } else {
        for (const GpxTrack& one : read->tracks) add_track(one, columns, layer);
    }
    for (SourceRow& row : layer.rows) row.cells.resize(layer.columns.size());
    const Result<void> noted = note_crs(layer);
    if (!noted) return fail(noted.error());
    return layer;
}

}  // namespace haylane
