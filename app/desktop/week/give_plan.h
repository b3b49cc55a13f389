#pragma once
// The plan shown, given away: its sheet as a file or on a printer, its lines for a phone or a cab
// display.

#include "app/desktop/jobs/plan_job.h"

#include <QPagedPaintDevice>

namespace haylane {

[[nodiscard]] Result<void> write_sheet(const ShownPlan& plan, const std::filesystem::path& file);
[[nodiscard]] Result<void> print_sheet(const ShownPlan& plan, QPagedPaintDevice& printer);
// By the name's ending: .gpx, .geojson or .json, .kml. Errors: lines_unknown_kind,
// file_unwritable.
[[nodiscard]] Result<void> write_lines(const ShownPlan& plan, const std::filesystem::path& file);

}  // namespace haylane
