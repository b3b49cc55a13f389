#pragma once
// Everything that is said about one pasture over a span and since the first record, and the maps it
// is said from. SI; kg a m2 of the polygon's area or of feed ground, as load_figures.h has it.

#include "core/ground/terrain.h"
#include "core/season/days_fed.h"
#include "core/season/fertilizer_worth.h"
#include "core/season/load_figures.h"
#include "core/season/nutrient_release.h"
#include "core/season/season_map.h"
#include "core/season/soil_check.h"
#include "core/season/uncertainty.h"
#include "core/season/water_exposure.h"

#include <array>
#include <optional>
#include <vector>

namespace haylane {

// One season of one pasture, for side by side.
struct SeasonLine {
    Span span;
    Ledger ledger;
    double shown_per_m2 = 0.0;           // of the measure shown, over the polygon's area
    std::array<LoadFigures, 3> figures;  // of that season's load alone: n, p2o5, k2o
};

struct PastureAccount {
    PastureId pasture;
    double area_m2 = 0.0;
    double feed_ground_m2 = 0.0;
    Ledger ledger;                                       // of the span
    Ledger all_ledger;                                   // since the first record
    std::array<LoadFigures, 7> figures;                  // of the span, by SeasonMeasure
    std::array<LoadFigures, 3> all_figures;              // since the first record: n, p2o5, k2o
    std::array<double, kReleaseYears> available_n_kg{};  // from all seasons up to the span's last
    std::optional<Worth> worth;
    std::optional<Worth> all_worth;
    std::vector<SeasonLine> seasons;     // every season on record, oldest first
    std::optional<double> trend_per_m2;  // of the measure shown, a season (Theil-Sen)
    WaterExposure exposure;              // of the span
    WaterExposure all_exposure;
    int days_fed = 0;  // of the twelve months up to the span's last day with a record
    std::vector<SoilPoint> soil;
    std::optional<PastureBands> bands;

    [[nodiscard]] const LoadFigures& operator[](SeasonMeasure measure) const {
        return figures[static_cast<std::size_t>(measure)];
    }
};

// What the figures were taken from; gone once the pasture is done with.
struct PastureMaps {
    PastureGround ground;
    SeasonMap span;
    SeasonMap all;
    Raster<double> shown_seen;   // of the span's measure shown, through the window; a cell
    Raster<double> change_seen;  // that, less the season before; empty where there is none
};

struct AccountRequest {
    Span span;
    SeasonMeasure shown = SeasonMeasure::p2o5;
    std::vector<PastureId> pastures;  // empty = all
    UncertaintyRequest uncertainty;   // draws 0: no bands
    int threads = 0;
    Progress progress;
};

// What is the same for all pastures.
struct AccountContext {
    AccountContext(const Ranch& ranch, AccountRequest request);
    const Ranch& ranch;
    AccountRequest request;
    Terrain terrain;
    PlaceRanches places;
    std::vector<Span> seasons;
    std::optional<Span> season_before;  // on record, and ends the day before the span
    std::vector<Feedings> feedings;     // by pasture
    sys_days up_to;                     // last day of the span that has a record; else the span's
};

struct AccountedPasture {
    PastureAccount account;
    PastureMaps maps;
};
// Errors: geometry_failed. Linear in the pasture's feedings and, a season, cells.
[[nodiscard]] Result<AccountedPasture> account_pasture(const AccountContext& context,
                                                       PastureId pasture);

}  // namespace haylane
