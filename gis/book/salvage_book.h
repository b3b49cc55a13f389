#pragma once
// Saves what can be read of a damaged ranch book into a new one, row by row, and says what could
// not be. The damaged file is only copied from.

#include "core/base/result.h"

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace haylane {

struct SalvagedTable {
    std::string table;
    std::int64_t saved = 0;
    std::int64_t without_shape = 0;  // of those saved: their shape could not be read
    std::int64_t lost = 0;           // numbers of rows that stand on unreadable pages, at most
    bool all_lost = false;           // nothing of it can be read, not even how many rows there were
};

struct SalvageReport {
    std::vector<SalvagedTable> tables;  // every table of a book; `terrain` has one row
    std::vector<std::string> left_out;  // tables that other programs had put in
    bool frame_made_anew = false;       // the ranch frame was lost; centred on the pastures again
    [[nodiscard]] bool complete() const;
};

// What cannot be noticed: a value that was changed without breaking the file's structure, as SQLite
// keeps no sums of its content. Errors: file_missing, book_exists for `fresh`, nothing_to_save,
// book_not_written. Cost: linear in rows; a page lost costs some hundred look-ups.
[[nodiscard]] Result<SalvageReport> salvage_book(const std::filesystem::path& damaged,
                                                 const std::filesystem::path& fresh);

}  // namespace haylane
