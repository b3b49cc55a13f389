#pragma once
// Plans a book's days and writes the plan's files; records what was fed.

#include "app/session/open_ranch.h"
#include "core/plan/plan_days.h"

#include <filesystem>
#include <string>
#include <vector>

namespace haylane {

// Past planned days that nobody confirmed count as fed as planned: they are added to the ranch as
// assumed feedings, their bales are taken off, and each is listed as a problem of severity info.
// What the book holds and closes counts, before what the request says. `open` must outlive the
// kept plan.
[[nodiscard]] Result<KeptPlan> keep_ranch_plan(OpenRanch& open, const PlanRequest& request);
// The plan alone.
[[nodiscard]] Result<PlanResult> plan_ranch(OpenRanch& open, const PlanRequest& request);

// Writes plan.json, lines.geojson, routes.geojson, lines.gpx, ground-after.tif and week-sheet.pdf
// to `folder` (made if absent) and keeps the plan in the book. Needs a Gui for the sheet.
[[nodiscard]] Result<std::vector<std::filesystem::path>> write_plan(
    const OpenRanch& open, const PlanResult& result, const std::filesystem::path& folder,
    bool metric);
// Keeps the plan in the book alone. Errors: those of save_plan.
[[nodiscard]] Result<void> keep_in_book(const OpenRanch& open, const PlanResult& result);

}  // namespace haylane
