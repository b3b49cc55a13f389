// Each edge of a shape marks the cells of its own box grown by the distance; no cell is asked about
// edges far away.
#include "core/season/water_exposure.h"

#include "core/deposit/cells_inside.h"
#include "core/season/drains_to_water.h"

#include <algorithm>
#include <cmath>

namespace haylane {

namespace {

double distance_to_segment_m(Point p, Point a, Point b) {
    const Point along = b - a;
    const double squared = dot(along, along);
    const double t = squared > 0.0 ? std::clamp(dot(p - a, along) / squared, 0.0, 1.0) : 0.0;
    return distance_m(p, lerp(a, b, t));
}

// Sets the flag on cells whose centre is within the distance of the segment.
void mark_near(Point a, Point b, double within_m, std::uint8_t flag, Raster<std::uint8_t>& cells) {
    const Grid& grid = cells.grid;
    Box box;
    box.add(a);
    box.add(b);
    box = box.grown_by(within_m);
    const int i1 = std::min(grid.nx - 1, grid.column(box.max_x));
    const int j1 = std::min(grid.ny - 1, grid.row(box.max_y));
    for (int j = std::max(0, grid.row(box.min_y)); j <= j1; ++j) {
        for (int i = std::max(0, grid.column(box.min_x)); i <= i1; ++i) {
            if ((cells(i, j) & flag) == 0 &&
                distance_to_segment_m(grid.center(i, j), a, b) <= within_m)
                cells(i, j) = static_cast<std::uint8_t>(cells(i, j) | flag);
        }
    }
}

void mark_item(const OffLimits& item, double within_m, std::uint8_t flag,
               Raster<std::uint8_t>& cells) {
    for (const MultiPolyline& lines : {item.lines, boundary_lines(item.area)}) {
        for (const Polyline& line : lines) {
            for (std::size_t s = 0; s + 1 < line.size(); ++s)
                mark_near(line[s], line[s + 1], within_m, flag, cells);
        }
    }
    for (const Point p : item.points) mark_near(p, p, within_m, flag, cells);
    if (item.area.empty()) return;
    const Raster<std::uint8_t> inside = cells_inside(item.area, cells.grid);
    for (std::size_t c = 0; c < cells.values.size(); ++c) {
        if (inside.values[c] != 0)
            cells.values[c] = static_cast<std::uint8_t>(cells.values[c] | flag);
    }
}

void mark_drains(const Ranch& ranch, const PastureGround& ground, const Terrain& terrain,
                 Raster<std::uint8_t>& flags) {
    const double reach_m = ranch.settings.water_caution_m;
    const Box box = box_of(ranch[ground.pasture].shape)
                        .grown_by(reach_m + 3.0 * terrain.elevation().grid.cell_m);
    const Raster<float> elevation = cut_out(terrain.elevation(), box);
    if (elevation.grid.size() == 0) return;
    const Raster<double> flow = flow_to_water_m(elevation, water_cells(ranch, elevation.grid));
    for (int j = 0; j < flags.grid.ny; ++j) {
        for (int i = 0; i < flags.grid.nx; ++i) {
            const Point p = flags.grid.center(i, j);
            const int ti = flow.grid.column(p.x);
            const int tj = flow.grid.row(p.y);
            if (flow.grid.holds(ti, tj) && flow(ti, tj) <= reach_m)
                flags(i, j) = static_cast<std::uint8_t>(flags(i, j) | kDrainsInCaution);
        }
    }
}

void add_if(std::uint8_t flags, WaterFlag flag, const DepositMap& map, std::size_t cell,
            Nutrients& into) {
    if ((flags & flag) == 0) return;
    into.n_kg += map.n_kg.values[cell];
    into.p2o5_kg += map.p2o5_kg.values[cell];
    into.k2o_kg += map.k2o_kg.values[cell];
}

}  // namespace

WaterGround water_ground(const Ranch& ranch, const PastureGround& ground, const Terrain& terrain) {
    WaterGround water{Raster<std::uint8_t>(ground.mask.grid), terrain.known()};
    const double caution_m = ranch.settings.water_caution_m;
    for (const OffLimits& item : ranch.off_limits) {
        const bool wet = item.kind == OffLimitsKind::water || item.kind == OffLimitsKind::wetland;
        if (!wet && item.kind != OffLimitsKind::well) continue;
        mark_item(item, kNearWater_m, wet ? kWaterIn100 : kWellIn100, water.flags);
        mark_item(item, caution_m, wet ? kWaterInCaution : kWellInCaution, water.flags);
    }
    if (terrain.known()) mark_drains(ranch, ground, terrain, water.flags);
    return water;
}

WaterExposure water_exposure(const WaterGround& water, const DepositMap& map) {
    WaterExposure exposure;
    exposure.terrain_known = water.terrain_known;
    for (std::size_t c = 0; c < water.flags.values.size(); ++c) {
        const std::uint8_t flags = water.flags.values[c];
        if (flags == 0) continue;
        add_if(flags, kWaterIn100, map, c, exposure.water_in_100);
        add_if(flags, kWaterInCaution, map, c, exposure.water_in_caution);
        add_if(flags, kWellIn100, map, c, exposure.well_in_100);
        add_if(flags, kWellInCaution, map, c, exposure.well_in_caution);
        add_if(flags, kDrainsInCaution, map, c, exposure.drains_in_caution);
    }
    return exposure;
}

}  // namespace haylane
