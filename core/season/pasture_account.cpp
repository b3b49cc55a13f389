// Each season's map is made once; the span and the whole record are sums of them where they can be.
#include "core/season/pasture_account.h"

#include "core/ground/feedable_ground.h"
#include "core/season/rank_statistics.h"

#include <algorithm>
#include <utility>

namespace haylane {

namespace {

std::optional<double> limit_of(const Pasture& pasture, SeasonMeasure measure) {
    switch (measure) {
        case SeasonMeasure::n:
            return pasture.limit.n_kg_per_m2;
        case SeasonMeasure::p2o5:
            return pasture.limit.p2o5_kg_per_m2;
        case SeasonMeasure::k2o:
            return pasture.limit.k2o_kg_per_m2;
        default:
            return std::nullopt;
    }
}

double total_of(const Raster<double>& per_cell) {
    double total = 0.0;
    for (const double value : per_cell.values) total += value;
    return total;
}

class Account {
  public:
    Account(const AccountContext& context, PastureGround ground)
        : context_(context),
          feedings_(context.feedings[ground.pasture.index()]),
          pasture_(context.ranch[ground.pasture]),
          window_(ground.mask, context.ranch.settings.window_m) {
        maps_.ground = std::move(ground);
        maps_.span = maps_.all = empty_season_map(maps_.ground);
        out_.pasture = maps_.ground.pasture;
        out_.area_m2 = area_m2(pasture_.shape);
        out_.feed_ground_m2 =
            static_cast<double>(maps_.ground.target_cells) * maps_.ground.mask.grid.cell_area_m2();
    }

    AccountedPasture run() {
        add_seasons();
        add_span();
        add_figures();
        add_rest();
        return {std::move(out_), std::move(maps_)};
    }

  private:
    [[nodiscard]] const Ranch& ranch() const { return context_.ranch; }
    [[nodiscard]] const Span& asked() const { return context_.request.span; }
    [[nodiscard]] SeasonMeasure shown() const { return context_.request.shown; }
    [[nodiscard]] Raster<double> seen(const Raster<double>& per_cell) const {
        return window_.forward(per_cell);
    }
    [[nodiscard]] LoadFigures figures(const SeasonMap& map, SeasonMeasure measure) const {
        const Raster<double>& cells = layer(map, measure);
        return load_figures(maps_.ground, out_.area_m2, cells, seen(cells),
                            limit_of(pasture_, measure));
    }

    void add_seasons() {
        for (const Span& season : context_.seasons) {
            const Feedings fed = feedings_in(feedings_, season);
            SeasonLine line;
            line.span = season;
            line.ledger = ledger(ranch(), fed, season);
            if (!fed.empty()) {
                const SeasonMap map = season_map(ranch(), maps_.ground, fed, season);
                for (std::size_t k = 0; k < line.figures.size(); ++k)
                    line.figures[k] = figures(map, kSeasonMeasures[k]);
                line.shown_per_m2 = total_of(layer(map, shown())) / out_.area_m2;
                add_map(map, maps_.all);
                if (same_days(season, asked())) {
                    maps_.span = map;
                    span_is_a_season_ = true;
                }
                if (context_.season_before && same_days(season, *context_.season_before))
                    before_ = seen(layer(map, shown()));
            }
            out_.all_ledger += line.ledger;
            out_.seasons.push_back(std::move(line));
        }
    }

    [[nodiscard]] static bool same_days(const Span& a, const Span& b) {
        return a.from == b.from && a.to == b.to;
    }
    void add_span() {
        const Feedings fed = feedings_in(feedings_, asked());
        out_.ledger = ledger(ranch(), fed, asked());
        if (!span_is_a_season_ && fed.size() == feedings_.size() &&
            out_.ledger.bales == out_.all_ledger.bales) {
            maps_.span = maps_.all;
        } else if (!span_is_a_season_ && !fed.empty()) {
            maps_.span = season_map(ranch(), maps_.ground, fed, asked());
        }
        maps_.shown_seen = seen(layer(maps_.span, shown()));
        if (!context_.season_before) return;
        maps_.change_seen = maps_.shown_seen;
        for (std::size_t c = 0; before_ && c < before_->values.size(); ++c)
            maps_.change_seen.values[c] -= before_->values[c];
    }

    void add_figures() {
        for (const SeasonMeasure measure : kSeasonMeasures) {
            const auto at = static_cast<std::size_t>(measure);
            out_.figures[at] = figures(maps_.span, measure);
            if (at < out_.all_figures.size()) out_.all_figures[at] = figures(maps_.all, measure);
        }
    }

    void add_rest() {
        std::vector<Ledger> up_to;
        std::vector<double> shown_by_season;
        for (const SeasonLine& season : out_.seasons) {
            shown_by_season.push_back(season.shown_per_m2);
            if (season.span.from <= asked().to) up_to.push_back(season.ledger);
        }
        out_.available_n_kg = available_n_kg(up_to);
        out_.trend_per_m2 = median_slope(shown_by_season);
        out_.worth = fertilizer_worth(out_.ledger.on_ground, ranch().settings);
        out_.all_worth = fertilizer_worth(out_.all_ledger.on_ground, ranch().settings);
        out_.days_fed = days_fed(ranch(), feedings_, context_.up_to);
        if (maps_.ground.cells == 0) return;
        if (!feedings_.empty()) {
            const WaterGround water = water_ground(ranch(), maps_.ground, context_.terrain);
            out_.exposure = water_exposure(water, maps_.span.deposit);
            out_.all_exposure = water_exposure(water, maps_.all.deposit);
        }
        out_.soil = soil_points(ranch(), maps_.ground, feedings_);
        add_bands();
    }

    void add_bands() {
        const Feedings fed = feedings_in(feedings_, asked());
        if (context_.request.uncertainty.draws < 1 || fed.empty()) return;
        const LoadFields fields = load_fields(ranch(), context_.places, maps_.ground, fed, asked(),
                                              context_.request.uncertainty.most_cells);
        out_.bands = pasture_bands(ranch(), maps_.ground, fields, context_.request.uncertainty,
                                   context_.request.progress.stop);
    }

    const AccountContext& context_;
    const Feedings& feedings_;
    const Pasture& pasture_;
    Spread window_;
    PastureAccount out_;
    PastureMaps maps_;
    std::optional<Raster<double>> before_;
    bool span_is_a_season_ = false;
};

sys_days last_record_in(const Ranch& ranch, const Span& span) {
    std::optional<sys_days> last;
    for (const FeedingRecord& feeding : ranch.feedings) {
        if (share_in(feeding, span) <= 0.0) continue;
        const sys_days to = std::min(feeding.to, span.to);
        last = last ? std::max(*last, to) : to;
    }
    return last.value_or(span.to);
}

}  // namespace

AccountContext::AccountContext(const Ranch& of, AccountRequest asked)
    : ranch(of),
      request(std::move(asked)),
      terrain(of.terrain ? Terrain(*of.terrain) : Terrain()),
      places(of),
      seasons(seasons_on_record(of)),
      feedings(feedings_by_pasture(of)),
      up_to(last_record_in(of, request.span)) {
    for (const Span& season : seasons) {
        if (season.to + std::chrono::days{1} == request.span.from) season_before = season;
    }
}

Result<AccountedPasture> account_pasture(const AccountContext& context, PastureId pasture) {
    const auto dry = feedable_ground(context.ranch, pasture, context.terrain,
                                     {.fence_strip_m = context.ranch.settings.fence_clearance_m});
    if (!dry) return fail(dry.error());
    return Account(context, pasture_ground(context.ranch, pasture, *dry)).run();
}

}  // namespace haylane
