// Water and shelter are laid as amounts in cells and spread once by the point kernel; the rest is
// even over the mask. Shares of the day stand for shares of excreta (White et al. 2001).
#include "core/deposit/excreta_places.h"

#include "core/deposit/cells_inside.h"
#include "core/deposit/spread.h"
#include "core/deposit/walk.h"

namespace haylane {

namespace {

bool in_mask(Point p, const PastureGround& ground) {
    const Grid& grid = ground.mask.grid;
    const int i = grid.column(p.x);
    const int j = grid.row(p.y);
    return grid.holds(i, j) && ground.mask(i, j) != 0;
}

void append_points(const std::vector<Point>& points, const PastureGround& ground,
                   std::vector<CellAmount>& cells) {
    for (const Point p : points) {
        if (in_mask(p, ground)) cells.push_back({nearest_cell(p, ground), 1.0});
    }
}

// Lengths of the lines in cells of the mask only.
void append_lines(const MultiPolyline& lines, const PastureGround& ground,
                  std::vector<CellAmount>& cells) {
    for (const Polyline& line : lines) {
        for (const Polyline& piece : {densified(line, 0.5 * ground.mask.grid.cell_m)}) {
            for (std::size_t v = 0; v + 1 < piece.size(); ++v) {
                const Point middle = lerp(piece[v], piece[v + 1], 0.5);
                if (!in_mask(middle, ground)) continue;
                cells.push_back({nearest_cell(middle, ground), distance_m(piece[v], piece[v + 1])});
            }
        }
    }
}

void append_area(const MultiPolygon& area, const PastureGround& ground,
                 std::vector<CellAmount>& cells) {
    if (area.empty()) return;
    const Raster<std::uint8_t> inside = cells_inside(area, ground.mask.grid);
    const std::size_t before = cells.size();
    for (std::size_t c = 0; c < inside.values.size(); ++c) {
        if (inside.values[c] != 0 && ground.mask.values[c] != 0) {
            cells.push_back({static_cast<std::uint32_t>(c), 1.0});
        }
    }
    // A belt thinner than a cell may hold no centre: its edge stands for it.
    if (cells.size() == before) append_lines(boundary_lines(area), ground, cells);
}

// Adds `amount` in proportion to the cells; false when there are none.
bool add_share(const std::vector<CellAmount>& cells, double amount, Raster<double>& into) {
    double total = 0.0;
    for (const CellAmount& c : cells) total += c.amount;
    if (total <= 0.0) return false;
    add_cells(cells, amount / total, into);
    return true;
}

std::vector<std::vector<CellAmount>> water_cells(const Ranch& ranch, const PastureGround& ground) {
    std::vector<std::vector<CellAmount>> found;
    for (const WaterPoint& water : ranch.water) {
        std::vector<CellAmount> cells;
        append_points({water.at}, ground, cells);
        if (!cells.empty()) found.push_back(std::move(cells));
    }
    return found;
}

std::vector<std::vector<CellAmount>> shelter_cells(const Ranch& ranch,
                                                   const PastureGround& ground) {
    std::vector<std::vector<CellAmount>> found;
    for (const Shelter& shelter : ranch.shelter) {
        std::vector<CellAmount> cells;
        append_points(shelter.points, ground, cells);
        append_lines(shelter.lines, ground, cells);
        append_area(shelter.area, ground, cells);
        if (!cells.empty()) found.push_back(std::move(cells));
    }
    return found;
}

// What of `share` found a place.
double add_places(const std::vector<std::vector<CellAmount>>& places, double share,
                  Raster<double>& into) {
    if (share <= 0.0) return 0.0;
    double placed = 0.0;
    const double each = places.empty() ? 0.0 : share / static_cast<double>(places.size());
    for (const std::vector<CellAmount>& cells : places) {
        if (add_share(cells, each, into)) placed += each;
    }
    return placed;
}

}  // namespace

ExcretaPlaces excreta_places(const Ranch& ranch, const PastureGround& ground) {
    const Settings& settings = ranch.settings;
    ExcretaPlaces result{1.0, Raster<double>(ground.mask.grid)};
    if (ground.cells == 0) return result;
    const double total = settings.share_line_ratio + settings.share_water_ratio +
                         settings.share_shelter_ratio + settings.share_rest_ratio;
    const double scale = total > 0.0 ? 1.0 / total : 0.0;
    result.line_ratio = settings.share_line_ratio * scale;
    double placed = add_places(water_cells(ranch, ground), settings.share_water_ratio * scale,
                               result.elsewhere);
    placed += add_places(shelter_cells(ranch, ground), settings.share_shelter_ratio * scale,
                         result.elsewhere);
    if (placed > 0.0) {
        result.elsewhere = Spread(ground.mask, settings.sigma_point_m).forward(result.elsewhere);
    }
    const double even = (1.0 - result.line_ratio - placed) / static_cast<double>(ground.cells);
    for (std::size_t c = 0; c < ground.mask.values.size(); ++c) {
        if (ground.mask.values[c] != 0) result.elsewhere.values[c] += even;
    }
    return result;
}

}  // namespace haylane
