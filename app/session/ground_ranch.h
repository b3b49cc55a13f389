#pragma once
// The account of a book's ground over a season or any dates: what is asked, in the ranch's own
// names, and the files that are written.

#include "app/papers/ground_picture.h"
#include "app/session/open_ranch.h"
#include "core/season/ground_account.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace haylane {

// What a person asks. Without season, dates or `all`: the last season on record.
struct GroundRequest {
    std::string season;  // "2026-27"
    std::optional<sys_days> from;
    std::optional<sys_days> to;
    bool all = false;
    std::vector<std::string> pastures;    // by name; empty = all
    std::vector<SeasonMeasure> measures;  // rasters to write; empty = all of them
    UncertaintyRequest uncertainty;
    bool backcast = false;              // also: laid anew by the planner (core/season/backcast.h)
    std::vector<std::string> what_ifs;  // also: with other settings, "share_line_pct=50"
    int threads = 0;
    Progress progress;
};

// The same dates under other lines or settings.
struct WhatIf {
    std::string name;  // "laid by the planner; share_line_pct=50"
    GroundAccount account;
    int moved = 0;  // feedings laid anew
    int kept = 0;   // left as they were
};

struct GroundReport {
    GroundAccount account;
    std::optional<WhatIf> what_if;
    std::vector<GroundPicture> pictures;  // by pasture, as in the account
    std::vector<std::filesystem::path> files;
};

// Writes ground-MEASURE.tif for each measure, change-MEASURE.tif of the one shown, chance-over.tif
// where limits stand, ground.json, pastures.csv and ground-report.pdf to the folder (made if
// absent). The first measure asked is the one shown; without any all are written and the book's
// objective_measure is shown. Errors: no_feedings, unknown_season, unknown_pasture, dates_reversed,
// folder_unwritable, cancelled, no_application (the report needs a Gui), those of the writers.
// With backcast or what_ifs also what-if.json and what-if.csv, in the same form; errors
// unknown_setting, number_out_of_range.
[[nodiscard]] Result<GroundReport> account_for_ground(const OpenRanch& open,
                                                      const GroundRequest& request,
                                                      const std::filesystem::path& folder,
                                                      bool metric);
// The report alone, as a PDF. Errors: the same, and file_unwritable.
[[nodiscard]] Result<void> write_ground_paper(const Ranch& ranch, const GroundRequest& request,
                                              const std::filesystem::path& paper, bool metric);

}  // namespace haylane
