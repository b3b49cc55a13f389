#pragma once
// The week sheet as a PDF: the front page for the cab door, then the detail behind it. The front
// page is one side of US letter (or A4), 12 points or larger, and complete by itself. Needs a Qt
// application object (app/papers/gui.h). Errors: those of render_paper,
// file_unwritable. Cost: linear in the plan and the ground's cells; laid out twice to count pages.

#include "app/papers/render_paper.h"
#include "core/base/result.h"
#include "core/plan/plan_request.h"
#include "core/ranch/ranch.h"

#include <filesystem>

namespace haylane {

struct WeekSheetOptions {
    bool metric = false;
    bool letter = true;  // A4 otherwise
};

[[nodiscard]] Result<RenderedSheet> render_week_sheet(const PlanResult& result, const Ranch& ranch,
                                                      const WeekSheetOptions& options);
// On a printer, whose page size becomes the sheet's.
[[nodiscard]] Result<void> print_week_sheet(QPagedPaintDevice& device, const PlanResult& result,
                                            const Ranch& ranch, const WeekSheetOptions& options);
// Replaces the file.
[[nodiscard]] Result<void> write_week_sheet(const std::filesystem::path& path,
                                            const PlanResult& result, const Ranch& ranch,
                                            const WeekSheetOptions& options);

}  // namespace haylane
