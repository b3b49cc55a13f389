#pragma once
// haul.json ("haylane-haul/1", SI units) and haul.csv (one row a yard, pasture and rig, in the
// ranch's units) of one account of hauling. docs/formats.md has the columns and keys.

#include "app/session/haul_ranch.h"

namespace haylane {

[[nodiscard]] std::string haul_json(const HaulReport& report, const CheckedRanch& checked);
[[nodiscard]] std::string haul_csv(const HaulReport& report, const Ranch& ranch, bool metric);
// The settings that hauling goes by.
[[nodiscard]] std::vector<Assumption> haul_coefficients(const Ranch& ranch);
// Makes the folder where it is absent. Errors: folder_unwritable, file_unwritable.
[[nodiscard]] Result<std::vector<std::filesystem::path>> write_haul_files(
    const OpenRanch& open, const HaulReport& report, const std::filesystem::path& folder,
    bool metric);
// The report alone, as a PDF. Errors: no_application, no_painter, file_unwritable.
[[nodiscard]] Result<void> write_haul_paper(const Ranch& ranch, const HaulReport& report,
                                            const std::filesystem::path& paper, bool metric);

}  // namespace haylane
