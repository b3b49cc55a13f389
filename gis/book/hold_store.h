#pragma once
// What the user holds and closes, kept in the book's table `locks`, one row each: a herd's whole
// day, a herd's lines of a day alone, or ground closed to hay for some days.

#include "core/base/day.h"
#include "core/base/result.h"
#include "core/geometry/polygon.h"
#include "core/geometry/polyline.h"
#include "gis/book/record_feedings.h"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

class GDALDataset;

namespace haylane {

enum class HoldKind { day, line, forbid };
[[nodiscard]] std::string_view to_string(HoldKind kind);  // "day"

struct StoredHold {
    int number = 0;  // the row's own, given by the book and never used again
    HoldKind kind = HoldKind::day;
    std::string name;             // of closed ground
    std::string herd;             // of a day or line
    sys_days date;                // closed ground: the first day
    sys_days date_to;             // the last day; of a day or line the same as `date`
    std::string pasture;          // closed ground: empty = everywhere
    std::string rig;              // of a day
    std::vector<LotBales> bales;  // of a day
    MultiPolyline lines;          // ranch frame, driving order
    MultiPolygon area;
};

// Adds them, all or none; a day or line takes the place of what was held for that herd and date.
// The table is made, or given the columns it lacks, when the book has none as it should be. Errors:
// those of open_book_for_update, book_not_written; after an error the book is as it was.
[[nodiscard]] Result<void> save_holds(const std::filesystem::path& book,
                                      const std::vector<StoredHold>& holds);
// By number; none when the book has no such table yet. Opens the book read-only.
[[nodiscard]] Result<std::vector<StoredHold>> stored_holds(const std::filesystem::path& book);
// Takes rows off, all or none. Errors: as save_holds, and unknown_hold for a number not there.
[[nodiscard]] Result<void> release_holds(const std::filesystem::path& book,
                                         const std::vector<int>& numbers);

// Makes the table in a book that is open for writing; within the caller's transaction.
[[nodiscard]] Result<void> make_holds_table(GDALDataset& book);

}  // namespace haylane
