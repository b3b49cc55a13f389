#pragma once
// Dated copies of a book in a folder beside it: "ranch.gpkg" has its copies in "ranch-copies", one
// for each day on which it was changed, as it was before that day's first change.

#include "core/base/day.h"
#include "core/base/result.h"

#include <filesystem>
#include <string>

class GDALDataset;

namespace haylane {

[[nodiscard]] std::filesystem::path copies_folder(const std::filesystem::path& book);

// Keeps a copy for `day` unless there is one, then takes away the oldest beyond the setting
// copies_kept; 0 = none are made, none are taken away. The book must not be in a transaction.
// Error: copy_not_kept. Cost: reads and writes the book once a day.
[[nodiscard]] Result<void> keep_daily_copy(GDALDataset& open, const std::filesystem::path& book,
                                           sys_days day);
// The same for today by the machine's own clock and time zone.
[[nodiscard]] Result<void> keep_todays_copy(GDALDataset& open, const std::filesystem::path& book);

// Keeps a file that a new book is about to take the place of, whatever it holds, under a name that
// is never taken away: "ranch-replaced-2027-01-11-3f2a.gpkg". Error: copy_not_kept.
[[nodiscard]] Result<void> keep_replaced(const std::filesystem::path& book);

}  // namespace haylane
