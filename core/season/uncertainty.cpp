// Order statistics by selection, not sorting: a draw is linear in cells.
#include "core/season/uncertainty.h"

#include "core/geometry/polygon.h"
#include "core/plan/ground_limits.h"
#include "core/season/fertilizer_worth.h"
#include "core/season/load_figures.h"
#include "core/season/nutrient_release.h"
#include "core/season/rank_statistics.h"

#include <algorithm>
#include <cmath>

namespace haylane {

namespace {

constexpr std::array<SeasonMeasure, 3> kNutrients{SeasonMeasure::n, SeasonMeasure::p2o5,
                                                  SeasonMeasure::k2o};

UncertaintyBand band_of(const std::vector<double>& values) {
    return {quantile(values, 0.1), quantile(values, 0.5), quantile(values, 0.9)};
}

// Values of one nutrient, one a draw.
struct NutrientDraws {
    std::vector<double> mean, low_quarter, high_tenth, max, cv, over;

    [[nodiscard]] NutrientBands bands() const {
        return {band_of(mean), band_of(low_quarter), band_of(high_tenth),
                band_of(max),  band_of(cv),          band_of(over)};
    }
};

double mean_of(std::vector<double>::const_iterator from, std::size_t count) {
    double sum = 0.0;
    for (std::size_t i = 0; i < count; ++i) sum += *from++;
    return sum / static_cast<double>(count);
}

// Takes the values apart.
void add_draw(std::vector<double>& values, std::optional<double> limit, NutrientDraws& draws) {
    const std::size_t n = values.size();
    const double mean = mean_of(values.cbegin(), n);
    double squares = 0.0;
    std::size_t over = 0;
    for (const double value : values) {
        squares += (value - mean) * (value - mean);
        if (limit && value > *limit) ++over;
    }
    const auto count = static_cast<double>(n);
    draws.cv.push_back(mean > 0.0 ? std::sqrt(squares / count) / mean : 0.0);
    draws.over.push_back(static_cast<double>(over) / count);
    const std::size_t quarter = std::max<std::size_t>(1, n / 4);
    const std::size_t tenth = std::max<std::size_t>(1, n / 10);
    const auto at = [&](std::size_t i) { return values.begin() + static_cast<std::ptrdiff_t>(i); };
    std::nth_element(values.begin(), at(n - tenth), values.end());
    draws.high_tenth.push_back(mean_of(at(n - tenth), tenth));
    draws.max.push_back(*std::max_element(at(n - tenth), values.end()));
    std::nth_element(values.begin(), at(quarter - 1), values.end());
    draws.low_quarter.push_back(mean_of(values.cbegin(), quarter));
}

std::optional<double> limit_of(const Pasture& pasture, SeasonMeasure nutrient) {
    if (nutrient == SeasonMeasure::n) return pasture.limit.n_kg_per_m2;
    return nutrient == SeasonMeasure::k2o ? pasture.limit.k2o_kg_per_m2
                                          : pasture.limit.p2o5_kg_per_m2;
}

double kg_of(const Nutrients& amounts, SeasonMeasure nutrient) {
    if (nutrient == SeasonMeasure::n) return amounts.n_kg;
    return nutrient == SeasonMeasure::k2o ? amounts.k2o_kg : amounts.p2o5_kg;
}

Raster<float> chance_raster(const PastureGround& ground, const LoadFields& fields,
                            const std::vector<int>& over, int draws) {
    const Grid& grid = ground.mask.grid;
    Raster<float> by_sample(grid, -1.0F);
    for (std::size_t c = 0; c < fields.cells.size(); ++c)
        by_sample.values[fields.cells[c]] = static_cast<float>(over[c]) / static_cast<float>(draws);
    if (fields.step == 1) return by_sample;
    Raster<float> chance(grid, -1.0F);
    const Raster<std::uint8_t>& judged = judged_cells(ground);
    for (int j = 0; j < grid.ny; ++j) {
        for (int i = 0; i < grid.nx; ++i) {
            const int si = std::min(grid.nx - 1, i / fields.step * fields.step + fields.step / 2);
            const int sj = std::min(grid.ny - 1, j / fields.step * fields.step + fields.step / 2);
            if (judged(i, j) != 0) chance(i, j) = by_sample(si, sj);
        }
    }
    return chance;
}

std::vector<bool> tested_lots(const Ranch& ranch) {
    std::vector<bool> tested;
    for (const HayLot& lot : ranch.lots) tested.push_back(lot.quality.tested);
    return tested;
}

// Values of every draw.
struct AllDraws {
    std::array<NutrientDraws, 3> nutrients;
    std::vector<double> residue, animal_days, gas, available_n, worth;
    std::vector<int> over;  // by judged cell: draws in which it is over a limit
};

void run_draw(const Ranch& ranch, const Pasture& pasture, double area_m2, const LoadFields& fields,
              const ParameterDraw& draw, AllDraws& all) {
    const DrawnLedger ledger = drawn_ledger(fields, draw);
    all.residue.push_back(ledger.residue_dm_kg);
    all.animal_days.push_back(ledger.animal_days);
    all.gas.push_back(ledger.n_lost_gas_kg);
    all.available_n.push_back(available_n_kg({&ledger.n_pools, 1}).front());
    if (const auto worth = fertilizer_worth(ledger.on_ground, ranch.settings))
        all.worth.push_back(worth->available);
    std::vector<bool> over(fields.cells.size(), false);
    for (std::size_t k = 0; k < kNutrients.size(); ++k) {
        const auto limit = limit_of(pasture, kNutrients[k]);
        all.nutrients[k].mean.push_back(kg_of(ledger.on_ground, kNutrients[k]) / area_m2);
        std::vector<double> load = drawn_load(fields, draw, kNutrients[k]);
        for (std::size_t c = 0; limit && c < load.size(); ++c)
            if (load[c] > *limit) over[c] = true;
        add_draw(load, limit, all.nutrients[k]);
    }
    for (std::size_t c = 0; c < over.size(); ++c) all.over[c] += over[c] ? 1 : 0;
}

}  // namespace

std::optional<PastureBands> pasture_bands(const Ranch& ranch, const PastureGround& ground,
                                          const LoadFields& fields,
                                          const UncertaintyRequest& request,
                                          const std::stop_token& stop) {
    const Pasture& pasture = ranch[ground.pasture];
    const double area = area_m2(pasture.shape);
    if (fields.groups.empty() || fields.cells.empty() || request.draws < 1 || area <= 0.0)
        return std::nullopt;
    const std::vector<bool> tested = tested_lots(ranch);
    AllDraws all;
    all.over.assign(fields.cells.size(), 0);
    for (int draw = 0; draw < request.draws; ++draw) {
        if (stop.stop_requested()) return std::nullopt;
        run_draw(ranch, pasture, area, fields,
                 draw_parameters(ranch.settings, tested, request.seed, draw), all);
    }
    PastureBands bands;
    bands.draws = request.draws;
    for (std::size_t k = 0; k < kNutrients.size(); ++k)
        bands.nutrients[k] = all.nutrients[k].bands();
    bands.residue_dm_kg = band_of(all.residue);
    bands.animal_days = band_of(all.animal_days);
    bands.n_lost_gas_kg = band_of(all.gas);
    bands.available_n_kg = band_of(all.available_n);
    if (!all.worth.empty()) bands.worth_available = band_of(all.worth);
    if (!limits_of(pasture).empty())
        bands.chance_over = chance_raster(ground, fields, all.over, request.draws);
    return bands;
}

}  // namespace haylane
