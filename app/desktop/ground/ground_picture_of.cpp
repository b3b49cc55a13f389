#include "app/desktop/ground/ground_picture_of.h"

#include "app/papers/ground_charts.h"

#include <cmath>

#include <QObject>

namespace haylane {
namespace {

const Raster<float>& load_by(const GroundSeason& season, std::size_t pasture, SeasonMeasure measure,
                             std::size_t step) {
    return (*season.loads[pasture][step])[static_cast<std::size_t>(measure)];
}

// nullopt outside.
std::optional<double> value_at(const Raster<float>& load, Point place) {
    const int i = load.grid.column(place.x);
    const int j = load.grid.row(place.y);
    if (!load.grid.holds(i, j) || !std::isfinite(load(i, j))) return std::nullopt;
    return static_cast<double>(load(i, j));
}

}  // namespace

MapContent ground_content(const GroundSeason& season, SeasonMeasure measure, sys_days day,
                          const Ranch& ranch, const GroundWords& words) {
    MapContent content;
    const auto step = step_by(season, day);
    for (std::size_t p = 0; step && p < season.account.pastures.size(); ++p) {
        const PastureAccount& account = season.account.pastures[p];
        const Raster<float>& load = load_by(season, p, measure, *step);
        if (load.grid.size() > 0)
            add_load(content, load, measure, account[measure].limit_per_m2, words);
        content.first_names.push_back(ranch[account.pasture].name);
    }
    return content;
}

QString figure_at(const GroundSeason& season, SeasonMeasure measure, sys_days day, Point place,
                  const Ranch& ranch, const GroundWords& words) {
    const auto step = step_by(season, day);
    for (std::size_t p = 0; step && p < season.account.pastures.size(); ++p) {
        const auto value = value_at(load_by(season, p, measure, *step), place);
        if (!value) continue;
        const PastureAccount& account = season.account.pastures[p];
        const auto& limit = account[measure].limit_per_m2;
        QString text = QObject::tr("%1: %2 %3 of %4 here")
                           .arg(QString::fromStdString(ranch[account.pasture].name),
                                words.rate(*value, measure, account.ledger.provenance),
                                words.rate_unit(measure), GroundWords::name(measure));
        if (limit) text += QObject::tr(", limit %1").arg(words.rate(*limit, measure, {}));
        return text;
    }
    return {};
}

std::vector<double> curve_by(const GroundSeason& season, SeasonMeasure measure, sys_days day,
                             std::optional<PastureId> pasture, const Ranch& ranch) {
    std::vector<const Raster<float>*> loads;
    const auto step = step_by(season, day);
    for (std::size_t p = 0; step && p < season.account.pastures.size(); ++p) {
        const PastureId id = season.account.pastures[p].pasture;
        const bool asked = pasture ? id == *pasture : ranch[id].feed;
        const Raster<float>& load = load_by(season, p, measure, *step);
        if (asked && load.grid.size() > 0) loads.push_back(&load);
    }
    return curve_over(loads);
}

}  // namespace haylane
