// Lines by the rig's cross profile and exact lengths; patches by the cells they hold.
#include "core/deposit/laying_places.h"

#include "core/deposit/cells_inside.h"
#include "core/deposit/cross_profile.h"

#include <cstdint>
#include <utility>

namespace haylane {

namespace {

std::vector<CellAmount> even_cells(const std::vector<std::uint32_t>& cells) {
    std::vector<CellAmount> result;
    result.reserve(cells.size());
    for (const std::uint32_t cell : cells) {
        result.push_back({cell, 1.0 / static_cast<double>(cells.size())});
    }
    return result;
}

std::vector<CellAmount> whole_cells(const PastureGround& ground) {
    std::vector<std::uint32_t> cells;
    for (std::size_t c = 0; c < ground.mask.values.size(); ++c) {
        if (ground.mask.values[c] != 0) cells.push_back(static_cast<std::uint32_t>(c));
    }
    return even_cells(cells);
}

std::vector<CellAmount> patch_cells(const MultiPolygon& patch, const PastureGround& ground) {
    const Raster<std::uint8_t> inside = cells_inside(patch, ground.mask.grid);
    std::vector<std::uint32_t> cells;
    for (std::size_t c = 0; c < inside.values.size(); ++c) {
        if (inside.values[c] != 0 && ground.mask.values[c] != 0) {
            cells.push_back(static_cast<std::uint32_t>(c));
        }
    }
    if (cells.empty()) cells.push_back(nearest_cell(centroid(patch), ground));
    return even_cells(cells);
}

std::vector<CellAmount> point_cells(const std::vector<Point>& points, const PastureGround& ground) {
    std::vector<std::uint32_t> cells;
    cells.reserve(points.size());
    for (const Point p : points) cells.push_back(nearest_cell(p, ground));
    return even_cells(cells);
}

bool has_a_point(const MultiPolyline& lines) {
    for (const Polyline& line : lines) {
        if (!line.empty()) return true;
    }
    return false;
}

}  // namespace

LayingPlaces laying_places(const Laying& laying, const PastureGround& ground) {
    LayingPlaces places;
    if (const auto* lines = std::get_if<MultiPolyline>(&laying.shape);
        lines != nullptr && has_a_point(*lines)) {
        places.residue = residue_cells(*lines, laying.rig, laying.wind_from_rad, ground,
                                       laying.fines_share_ratio);
        places.line = line_cells(*lines, ground);
    } else if (const auto* patch = std::get_if<MultiPolygon>(&laying.shape);
               patch != nullptr && !patch->empty()) {
        places.residue = places.line = patch_cells(*patch, ground);
    } else if (const auto* points = std::get_if<std::vector<Point>>(&laying.shape);
               points != nullptr && !points->empty()) {
        places.residue = places.line = point_cells(*points, ground);
    } else {
        places.residue = places.line = whole_cells(ground);
        places.whole_pasture = true;
    }
    return places;
}

}  // namespace haylane
