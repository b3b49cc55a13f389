#pragma once
// Writes what was fed into a ranch book, all of it or nothing, and takes the bales off the hay
// lots.

#include "core/base/day.h"
#include "core/base/problem.h"
#include "core/base/result.h"
#include "core/geometry/polyline.h"
#include "gis/crs/frame.h"

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

class GDALDataset;

namespace haylane {

struct LotBales {
    std::string lot;
    double bales = 0.0;
};

struct FedLine {
    std::string id;  // of the plan; empty = none
    Polyline path;   // ranch frame
};

struct FeedingEntry {
    std::string herd;
    std::string pasture;
    std::string rig;
    std::string source = "entered";  // gps, entered, recalled, assumed
    sys_days date;
    std::vector<LotBales> lots;
    std::vector<FedLine> lines;  // none, and no places = the whole pasture
    std::vector<LonLat> places;  // of bales set in rings; then no lines
};

struct FeedingsRecorded {
    std::vector<std::string> uuids;  // one a row of `feedings`: one a lot of each entry
    Problems problems;               // hay_short: more than the lot had left; number_unusual
};

// What else belongs in the same transaction, once the feedings are in.
using AlsoRecord = std::function<Result<void>(GDALDataset& book, const Frame& frame,
                                              const FeedingsRecorded& recorded)>;

// Errors: nothing_to_record, number_out_of_range, unknown_lot, those of open_book_for_update,
// book_not_written and of `also`; after an error the book is as it was.
[[nodiscard]] Result<FeedingsRecorded> record_feedings(const std::filesystem::path& book,
                                                       const std::vector<FeedingEntry>& entries,
                                                       const AlsoRecord& also = {});

// Takes feedings out of an open book, within its transaction, and gives the bales that they took
// (where hay ran short: those that were left) back to the lots. Feedings that are not there are
// passed over.
[[nodiscard]] Result<void> remove_feedings(GDALDataset& book,
                                           const std::vector<std::string>& uuids);

}  // namespace haylane
