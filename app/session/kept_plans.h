#pragma once
// What the book's kept plans meant to feed: for each herd and day, the last plan made that covers
// it.

#include "core/base/result.h"
#include "gis/book/plan_store.h"
#include "gis/book/record_feedings.h"
#include "gis/exchange/planned_days.h"

#include <filesystem>
#include <vector>

namespace haylane {

struct KeptDay {
    PlannedDay planned;
    std::vector<FedLine> lines;  // those the book holds
};

// The lines that a kept plan gave a day, in driving order; those the book holds.
[[nodiscard]] std::vector<FedLine> lines_of(const PlannedDay& planned, const StoredPlan& plan);
// By date, then herd.
[[nodiscard]] Result<std::vector<KeptDay>> kept_days(const std::filesystem::path& book);

}  // namespace haylane
