#include "core/season/soil_check.h"

#include "core/deposit/cells_inside.h"
#include "core/season/rank_statistics.h"
#include "core/season/season_map.h"

#include <algorithm>
#include <map>

namespace haylane {

namespace {

constexpr std::chrono::days kOld{4 * 365 + 1};

// Cells of the pasture that a sample speaks for; empty when it was taken elsewhere.
std::vector<std::size_t> cells_of(const SoilSample& sample, const PastureGround& ground) {
    const Grid& grid = ground.mask.grid;
    const auto* zone = std::get_if<MultiPolygon>(&sample.where_taken);
    const Point at = zone != nullptr ? label_point(*zone) : std::get<Point>(sample.where_taken);
    std::vector<std::size_t> cells;
    const int i = grid.column(at.x);
    const int j = grid.row(at.y);
    if (!grid.holds(i, j) || ground.mask(i, j) == 0) return cells;
    if (zone == nullptr) return {grid.at(i, j)};
    const Raster<std::uint8_t> inside = cells_inside(*zone, grid);
    for (std::size_t c = 0; c < inside.values.size(); ++c) {
        if (inside.values[c] != 0 && ground.mask.values[c] != 0) cells.push_back(c);
    }
    return cells;
}

double mean_per_m2(const Raster<double>& seen, const std::vector<std::size_t>& cells) {
    double sum = 0.0;
    for (const std::size_t c : cells) sum += seen.values[c];
    return sum / (static_cast<double>(cells.size()) * seen.grid.cell_area_m2());
}

}  // namespace

std::vector<SoilPoint> soil_points(const Ranch& ranch, const PastureGround& ground,
                                   const Feedings& feedings) {
    std::vector<SoilPoint> points;
    if (ground.cells == 0) return points;
    const auto record = all_on_record(ranch);
    std::map<sys_days, std::vector<std::pair<std::size_t, std::vector<std::size_t>>>> by_day;
    for (std::size_t s = 0; s < ranch.soil.size(); ++s) {
        std::vector<std::size_t> cells = cells_of(ranch.soil[s], ground);
        if (cells.empty()) continue;
        const sys_days last = record ? record->to : sys_days{};
        by_day[ranch.soil[s].date.value_or(last)].emplace_back(s, std::move(cells));
    }
    for (const auto& [day, samples] : by_day) {
        const Span before{"", sys_days{}, day - std::chrono::days{1}};
        const Feedings older = feedings_in(feedings, before);
        const bool fed = !older.empty();
        Raster<double> p(ground.mask.grid);
        Raster<double> k(ground.mask.grid);
        if (fed) {
            const SeasonMap map = season_map(ranch, ground, older, {"", older.front()->from, day});
            p = through_window(ground, map.deposit.p2o5_kg, ranch.settings.window_m);
            k = through_window(ground, map.deposit.k2o_kg, ranch.settings.window_m);
        }
        for (const auto& [sample, cells] : samples) {
            const bool undated = !ranch.soil[sample].date;
            points.push_back({sample, ground.pasture, mean_per_m2(p, cells), mean_per_m2(k, cells),
                              fed, undated || (record && day + kOld < record->to)});
        }
    }
    return points;
}

std::vector<SoilRelation> soil_relations(const Ranch& ranch, const std::vector<SoilPoint>& points) {
    struct Pairs {
        int samples = 0;
        std::vector<double> p_load, p_ppm, k_load, k_ppm;
    };
    std::map<std::string, Pairs> by_method;
    for (const SoilPoint& point : points) {
        if (!point.fed_before) continue;
        const SoilSample& sample = ranch.soil[point.sample];
        Pairs& pairs = by_method[sample.method.empty() ? "method not given" : sample.method];
        ++pairs.samples;
        if (sample.p_ppm) {
            pairs.p_load.push_back(point.p2o5_per_m2);
            pairs.p_ppm.push_back(*sample.p_ppm);
        }
        if (sample.k_ppm) {
            pairs.k_load.push_back(point.k2o_per_m2);
            pairs.k_ppm.push_back(*sample.k_ppm);
        }
    }
    std::vector<SoilRelation> relations;
    for (const auto& [method, pairs] : by_method)
        relations.push_back({method, pairs.samples, rank_correlation(pairs.p_load, pairs.p_ppm),
                             rank_correlation(pairs.k_load, pairs.k_ppm)});
    return relations;
}

}  // namespace haylane
