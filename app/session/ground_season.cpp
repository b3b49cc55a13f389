// Loads and the window are linear, so that each step's part is made alone and parts are summed.
#include "app/session/ground_season.h"

#include "app/session/ground_files.h"
#include "core/base/parallel.h"
#include "core/deposit/spread.h"

#include <algorithm>

namespace haylane {

namespace {

std::vector<sys_days> step_days_of(const AccountContext& context, int step_days) {
    const Span& span = context.request.span;
    std::optional<sys_days> first;
    for (const Feedings& pasture : context.feedings) {
        for (const FeedingRecord* feeding : feedings_in(pasture, span)) {
            const sys_days from = std::max(feeding->from, span.from);
            first = first ? std::min(*first, from) : from;
        }
    }
    std::vector<sys_days> days;
    if (!first) return days;
    const std::chrono::days step{std::max(1, step_days)};
    for (sys_days day = span.from + step - std::chrono::days{1};; day += step) {
        if (day < *first) continue;
        days.push_back(std::min(day, context.up_to));
        if (day >= context.up_to) return days;
    }
}

LoadsSoFar thinned_loads(const PastureGround& ground, const SeasonMap& map, const Spread& window) {
    LoadsSoFar loads;
    for (const SeasonMeasure measure : kSeasonMeasures)
        loads[static_cast<std::size_t>(measure)] =
            thinned(ground.mask, window.forward(layer(map, measure)), kScreenCells);
    return loads;
}

void add(const LoadsSoFar& more, LoadsSoFar& into) {
    for (std::size_t m = 0; m < into.size(); ++m) {
        for (std::size_t c = 0; c < into[m].values.size(); ++c)
            into[m].values[c] += more[m].values[c];
    }
}

// What each step adds; nothing where none was fed in it.
std::vector<std::optional<LoadsSoFar>> parts_of(const AccountContext& context,
                                                const PastureGround& ground,
                                                const std::vector<sys_days>& days) {
    const Feedings& feedings = context.feedings[ground.pasture.index()];
    const Spread window(ground.mask, context.ranch.settings.window_m);
    std::vector<std::optional<LoadsSoFar>> parts(days.size());
    parallel_for(days.size(), context.request.threads, [&](std::size_t d) {
        const sys_days from =
            d == 0 ? context.request.span.from : days[d - 1] + std::chrono::days{1};
        const Span step = span_between(from, days[d]);
        const Feedings fed = feedings_in(feedings, step);
        if (fed.empty() || context.request.progress.stopped()) return;
        parts[d] = thinned_loads(ground, season_map(context.ranch, ground, fed, step), window);
    });
    return parts;
}

std::vector<std::shared_ptr<const LoadsSoFar>> grown(const AccountContext& context,
                                                     const PastureGround& ground,
                                                     const std::vector<sys_days>& days) {
    if (ground.mask.grid.size() == 0) return {days.size(), std::make_shared<const LoadsSoFar>()};
    const Spread none(ground.mask, 0.0);
    auto so_far =
        std::make_shared<const LoadsSoFar>(thinned_loads(ground, empty_season_map(ground), none));
    std::vector<std::shared_ptr<const LoadsSoFar>> by_day;
    for (const std::optional<LoadsSoFar>& part : parts_of(context, ground, days)) {
        if (part) {
            auto more = std::make_shared<LoadsSoFar>(*so_far);
            add(*part, *more);
            so_far = std::move(more);
        }
        by_day.push_back(so_far);
    }
    return by_day;
}

}  // namespace

Result<GroundSeason> ground_season(const Ranch& ranch, const GroundSeasonAsked& asked) {
    const AccountContext context(ranch, {.span = asked.span,
                                         .uncertainty = {.draws = 0},
                                         .threads = asked.threads,
                                         .progress = asked.progress});
    GroundSeason season;
    season.days = step_days_of(context, asked.step_days);
    auto account = ground_account(
        context, [&](const PastureAccount&, const PastureMaps& maps) -> Result<void> {
            season.loads.push_back(grown(context, maps.ground, season.days));
            if (context.request.progress.stopped()) return fail(account_stopped());
            return {};
        });
    if (!account) return fail(account.error());
    season.account = std::move(*account);
    return season;
}

std::optional<std::size_t> step_by(const GroundSeason& season, sys_days day) {
    const auto after = std::upper_bound(season.days.begin(), season.days.end(), day);
    if (after == season.days.begin()) return std::nullopt;
    return static_cast<std::size_t>(after - season.days.begin()) - 1;
}

}  // namespace haylane
