#include "app/session/ground_files.h"

#include "core/base/units.h"
#include "core/season/value_class.h"
#include "gis/exchange/ground_json.h"

#include <cmath>
#include <limits>

#include <fmt/format.h>

namespace haylane {

namespace {

using Words = std::vector<std::pair<std::string, std::string>>;

Ledger books_of(const AccountContext& context) {
    Ledger all;
    for (std::size_t p = 0; p < context.feedings.size(); ++p) {
        const auto& asked = context.request.pastures;
        if (!asked.empty() &&
            std::find(asked.begin(), asked.end(), PastureId::at(p)) == asked.end())
            continue;
        all += ledger(context.ranch, context.feedings[p], context.request.span);
    }
    return all;
}

Words words_of(const AccountContext& context, const std::string& unit) {
    const Span& span = context.request.span;
    const Provenance from = books_of(context).provenance;
    const double all = std::max(1e-300, from.all_bales());
    const auto share = [&](double bales) { return fmt::format("{:.1f}", 100.0 * bales / all); };
    return {
        {"UNITS", unit},
        {"SEASON", span.name},
        {"FROM", format_day(span.from)},
        {"TO", format_day(span.to)},
        {"RANCH", context.ranch.name},
        {"N_SHOWN", kNitrogenShown},
        {"GPS_PCT", share(from.gps_bales)},
        {"ENTERED_PCT", share(from.entered_bales)},
        {"RECALLED_PCT", share(from.recalled_bales)},
        {"ASSUMED_PCT", share(from.assumed_bales)},
        {"SHOWS", from.shows_numbers() ? "numbers" : "classes"},
        {"CLASSES",
         "a pasture whose records are over a quarter recalled or assumed holds the lower end of "
         "the class 0, 1, 2, 5, 10, 20, 50 ... that each value lies in"}};
}

// The lower end of each cell's class, as the amount a cell: where records are too unsure for
// numbers. Below 1 a hectare is one class.
Raster<double> in_classes(Raster<double> per_cell, double per_ha) {
    for (double& value : per_cell.values) {
        const double amount = value * per_ha;
        value = std::abs(amount) < 1.0 ? 0.0 : class_of(amount).from / per_ha;
    }
    return per_cell;
}

double per_ha(const Grid& grid) { return units::kM2PerHectare / grid.cell_area_m2(); }

}  // namespace

Result<GroundFiles> GroundFiles::begin(const OpenRanch& open, const AccountContext& context,
                                       const std::vector<SeasonMeasure>& measures,
                                       const std::filesystem::path& folder) {
    const Grid extent = ranch_extent(context.ranch);
    GroundFiles files;
    files.measures_ = measures;
    const auto start = [&](const std::string& stem, const std::string& what,
                           const std::string& unit) -> Result<One> {
        const std::filesystem::path file = folder / (stem + ".tif");
        auto raster =
            GroundRaster::begin({file, fmt::format("{}, {}", what, context.request.span.name), unit,
                                 words_of(context, unit)},
                                extent, open.frame);
        if (!raster) return fail(raster.error());
        return One{file, std::move(*raster)};
    };
    for (const SeasonMeasure measure : measures) {
        const std::string name(to_string(measure));
        auto one = start("ground-" + name, name, std::string(unit_of(measure)));
        if (!one) return fail(one.error());
        files.loads_.push_back(std::move(*one));
    }
    const std::string shown(to_string(context.request.shown));
    if (context.season_before) {
        auto one = start("change-" + shown, shown + " less that of the season before",
                         std::string(unit_of(context.request.shown)));
        if (!one) return fail(one.error());
        files.change_ = std::move(*one);
    }
    const bool limits = std::any_of(
        context.ranch.pastures.begin(), context.ranch.pastures.end(), [](const Pasture& pasture) {
            const NutrientRates& limit = pasture.limit;
            return limit.n_kg_per_m2 || limit.p2o5_kg_per_m2 || limit.k2o_kg_per_m2;
        });
    if (limits && context.request.uncertainty.draws > 0) {
        auto one = start("chance-over", "chance of being over a limit", "1");
        if (!one) return fail(one.error());
        files.chance_ = std::move(*one);
    }
    return files;
}

Result<void> GroundFiles::add(const PastureAccount& account, const PastureMaps& maps) {
    const Raster<std::uint8_t>& mask = maps.ground.mask;
    if (mask.grid.size() == 0) return {};
    const double to_ha = per_ha(mask.grid);
    const bool numbers = account.ledger.provenance.shows_numbers();
    const auto shown = [&](const Raster<double>& per_cell) {
        return numbers ? per_cell : in_classes(per_cell, to_ha);
    };
    for (std::size_t m = 0; m < measures_.size(); ++m) {
        auto added = loads_[m].raster.add(mask, shown(layer(maps.span, measures_[m])), to_ha);
        if (!added) return added;
    }
    if (change_ && maps.change_seen.grid == mask.grid) {
        auto added = change_->raster.add(mask, shown(maps.change_seen), to_ha);
        if (!added) return added;
    }
    if (!chance_ || !account.bands || account.bands->chance_over.values.empty()) return {};
    Raster<std::uint8_t> judged(mask.grid);
    Raster<double> chance(mask.grid);
    for (std::size_t c = 0; c < chance.values.size(); ++c) {
        const float value = account.bands->chance_over.values[c];
        judged.values[c] = value >= 0.0F ? 1 : 0;
        chance.values[c] = static_cast<double>(value);
    }
    return chance_->raster.add(judged, chance, 1.0);
}

Result<std::vector<std::filesystem::path>> GroundFiles::finish() {
    std::vector<std::filesystem::path> files;
    const auto done = [&](One& one) -> Result<void> {
        files.push_back(one.file);
        return one.raster.finish();
    };
    for (One& one : loads_) {
        if (auto finished = done(one); !finished) return fail(finished.error());
    }
    for (std::optional<One>* one : {&change_, &chance_}) {
        if (!*one) continue;
        if (auto finished = done(**one); !finished) return fail(finished.error());
    }
    return files;
}

Raster<float> thinned(const Raster<std::uint8_t>& mask, const Raster<double>& per_cell,
                      int most_cells_a_side) {
    const Grid& grid = mask.grid;
    const int step = std::max(
        1, (std::max(grid.nx, grid.ny) + most_cells_a_side - 1) / std::max(1, most_cells_a_side));
    Raster<float> result(Grid{grid.x0, grid.y0, grid.cell_m * step, (grid.nx + step - 1) / step,
                              (grid.ny + step - 1) / step},
                         std::numeric_limits<float>::quiet_NaN());
    for (int tj = 0; tj < result.grid.ny; ++tj) {
        for (int ti = 0; ti < result.grid.nx; ++ti) {
            double sum = 0.0;
            int count = 0;
            for (int j = tj * step; j < std::min(grid.ny, (tj + 1) * step); ++j) {
                for (int i = ti * step; i < std::min(grid.nx, (ti + 1) * step); ++i) {
                    if (mask(i, j) == 0) continue;
                    sum += per_cell(i, j);
                    ++count;
                }
            }
            if (count > 0) result(ti, tj) = static_cast<float>(sum / (count * grid.cell_area_m2()));
        }
    }
    return result;
}

}  // namespace haylane
