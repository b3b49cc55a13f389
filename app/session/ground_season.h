#pragma once
// A season's ground for a screen: the account's figures, and how the load of each pasture grew step
// by step. Nothing is written.

#include "core/season/ground_account.h"

#include <array>
#include <memory>
#include <vector>

namespace haylane {

struct GroundSeasonAsked {
    Span span;
    int step_days = 7;
    int threads = 0;
    Progress progress;
};

// By SeasonMeasure: amounts a m2 through the window, NaN outside the pasture; at most
// kScreenCells a side.
using LoadsSoFar = std::array<Raster<float>, kSeasonMeasures.size()>;
inline constexpr int kScreenCells = 200;

struct GroundSeason {
    GroundAccount account;
    // Last days of the steps, counted from the span's first day, so that seasons compare; from the
    // step of the first record to the last record.
    std::vector<sys_days> days;
    // By pasture as in the account, then by day: what had been laid by its end. Days on which
    // nothing was added share theirs.
    std::vector<std::vector<std::shared_ptr<const LoadsSoFar>>> loads;
};

// Without bands of uncertainty. Errors: cancelled, geometry_failed. Linear in feedings and, for a
// pasture and step with feedings, cells.
[[nodiscard]] Result<GroundSeason> ground_season(const Ranch& ranch,
                                                 const GroundSeasonAsked& asked);
// The last step that is over by the end of `day`; nullopt before the first.
[[nodiscard]] std::optional<std::size_t> step_by(const GroundSeason& season, sys_days day);

}  // namespace haylane
