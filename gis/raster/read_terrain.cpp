// The way from a frame cell to a file cell is smooth, so it is computed exactly on a lattice of
// every 16th cell and interpolated between: 16 cells of 10 m bend by less than 1e-4 of a cell.
#include "gis/raster/read_terrain.h"

#include "core/base/units.h"
#include "gis/raster/terrain_source.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr int kLattice = 16;

// Side of a loaded cell in metres on the ground at the box's middle.
double cell_side_m(const TerrainSource& source, const Frame& frame, Point middle) {
    const auto at = source.door.inverse(frame.to_lonlat(middle));
    if (!at) return 0.0;
    const auto step = [&](double dx, double dy) {
        const auto place = source.door.lonlat(at->x + dx, at->y + dy);
        return place ? distance_m(middle, frame.to_frame(*place)) : 0.0;
    };
    const double side = std::sqrt(step(source.cell_x, 0.0) * step(0.0, source.cell_y));
    // A UTM file of 10 m cells is 10.004 m here: keep the round number it was made with.
    const double round = std::round(side);
    return round >= 1.0 && std::abs(side / round - 1.0) < 2e-3 ? round : side;
}

Point file_cell(const TerrainSource& source, const Frame& frame, Point p) {
    const auto at = source.door.inverse(frame.to_lonlat(p));
    if (!at) return {std::nan(""), std::nan("")};
    const auto& t = source.to_cells;
    return {t[0] + t[1] * at->x + t[2] * at->y, t[3] + t[4] * at->x + t[5] * at->y};
}

// Bilinear between cell centres; NaN outside or next to an unknown cell.
float height_at(const TerrainSource& source, Point cell) {
    const double x = cell.x - 0.5;
    const double y = cell.y - 0.5;
    constexpr float kUnknown = std::numeric_limits<float>::quiet_NaN();
    if (!(x >= -0.5 && y >= -0.5 && x <= source.nx - 0.5 && y <= source.ny - 0.5)) return kUnknown;
    const double cx = std::clamp(x, 0.0, source.nx - 1.0);
    const double cy = std::clamp(y, 0.0, source.ny - 1.0);
    const int i = std::min(static_cast<int>(cx), std::max(0, source.nx - 2));
    const int j = std::min(static_cast<int>(cy), std::max(0, source.ny - 2));
    const double u = cx - i;
    const double v = cy - j;
    const auto z = [&source](int column, int row) {
        const int c = std::min(column, source.nx - 1);
        const int r = std::min(row, source.ny - 1);
        return static_cast<double>(
            source.height[static_cast<std::size_t>(r) * static_cast<std::size_t>(source.nx) +
                          static_cast<std::size_t>(c)]);
    };
    // A weight of zero must not spread an unknown neighbour.
    const auto mix = [](double a, double b, double t) {
        if (t <= 0.0) return a;
        return t >= 1.0 ? b : a + (b - a) * t;
    };
    const double north = mix(z(i, j), z(i + 1, j), u);
    const double south = mix(z(i, j + 1), z(i + 1, j + 1), u);
    return static_cast<float>(mix(north, south, v));
}

void fill(const TerrainSource& source, const Frame& frame, Raster<float>& raster) {
    const Grid& grid = raster.grid;
    const int columns = grid.nx / kLattice + 2;
    const auto node = [&](int i, int j) {
        return file_cell(source, frame, grid.center(i * kLattice, j * kLattice));
    };
    const auto node_row = [&](int j) {
        std::vector<Point> row;
        row.reserve(static_cast<std::size_t>(columns));
        for (int i = 0; i < columns; ++i) row.push_back(node(i, j));
        return row;
    };
    std::vector<Point> south = node_row(0);
    for (int band = 0; band * kLattice < grid.ny; ++band) {
        std::vector<Point> north = node_row(band + 1);
        for (int j = band * kLattice; j < std::min(grid.ny, (band + 1) * kLattice); ++j) {
            const double v = static_cast<double>(j - band * kLattice) / kLattice;
            for (int i = 0; i < grid.nx; ++i) {
                const auto k = static_cast<std::size_t>(i / kLattice);
                const double u = static_cast<double>(i % kLattice) / kLattice;
                const Point low = lerp(south[k], south[k + 1], u);
                const Point high = lerp(north[k], north[k + 1], u);
                raster(i, j) = height_at(source, lerp(low, high, v));
            }
        }
        south = std::move(north);
    }
}

// Metres per unit of the file; nullopt when the tag says nothing known.
std::optional<double> meters_per_unit(std::string unit) {
    std::transform(unit.begin(), unit.end(), unit.begin(), [](char c) {
        return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    });
    if (unit == "m" || unit == "meter" || unit == "metre" || unit == "meters" || unit == "metres") {
        return 1.0;
    }
    if (unit == "ft" || unit == "foot" || unit == "feet" || unit == "international foot") {
        return units::kMetersPerFoot;
    }
    if (unit.find("us") != std::string::npos && unit.find('f') != std::string::npos) {
        return 1200.0 / 3937.0;  // US survey foot, NIST Handbook 44 App. C
    }
    return std::nullopt;
}

void note_source(const TerrainSource& source, const std::string& name, TerrainRead& read) {
    if (source.coarser_by > 1) {
        read.problems.push_back({"terrain_coarser", Severity::warning, name,
                                 fmt::format("the terrain has too many cells and was made {} times "
                                             "coarser",
                                             source.coarser_by),
                                 "cut it to the ranch before reading it"});
    }
    if (source.impossible > 0) {
        read.problems.push_back(
            {"terrain_impossible_heights", Severity::warning, name,
             fmt::format("{} cells hold impossible heights and were left out", source.impossible),
             "mark them as nodata in the file"});
    }
}

void to_meters(const TerrainSource& source, const std::string& name, TerrainRead& read) {
    const auto factor = meters_per_unit(source.unit);
    bool any = false;
    for (float& z : read.data.elevation_m.values) {
        if (std::isnan(z)) continue;
        if (factor && *factor != 1.0) z = static_cast<float>(static_cast<double>(z) * *factor);
        const auto height = static_cast<double>(z);
        read.least_m = any ? std::min(read.least_m, height) : height;
        read.most_m = any ? std::max(read.most_m, height) : height;
        any = true;
    }
    if (!factor && any) {
        read.problems.push_back(
            {"terrain_unit_assumed", Severity::info, name,
             fmt::format(
                 "the heights carry no known unit and were taken as metres, {:.0f} to {:.0f}",
                 read.least_m, read.most_m),
             "if they are feet, save the file with its unit"});
    }
}

}  // namespace

Result<TerrainRead> read_terrain(const std::filesystem::path& file, const Frame& frame,
                                 const Box& box, const TerrainOptions& options) {
    const std::string name = file.filename().string();
    Result<TerrainSource> source = load_terrain(file, frame, box, options.most_cells_a_side);
    if (!source) return fail(source.error());
    TerrainRead read;
    const Point middle{(box.min_x + box.max_x) / 2.0, (box.min_y + box.max_y) / 2.0};
    double side = cell_side_m(*source, frame, middle);
    const double extent = std::max(box.max_x - box.min_x, box.max_y - box.min_y);
    if (!(side > 0.0)) {
        return fail({"terrain_no_georeference", name + ": its cells have no size", name,
                     "save it again as a GeoTIFF with its position"});
    }
    side = std::max(side, extent / options.most_cells_a_side);
    read.data.own_cell_m = side;
    read.data.elevation_m = Raster<float>(grid_over(box, side));
    fill(*source, frame, read.data.elevation_m);
    note_source(*source, name, read);
    to_meters(*source, name, read);
    read.operation = source->door.operation();
    const auto& values = read.data.elevation_m.values;
    if (std::all_of(values.begin(), values.end(), [](float z) { return std::isnan(z); })) {
        return fail({"terrain_no_elevation", name + ": it holds no elevation under the pastures",
                     name, "give terrain of the ranch itself"});
    }
    return read;
}

}  // namespace haylane
