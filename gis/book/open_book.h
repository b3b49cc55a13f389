#pragma once
// Opens a ranch book, looks whether it is sound, and undoes what a program that was cut off left
// half done. In one process one thread has books open at a time; between programs SQLite's locks
// hold.

#include "core/base/result.h"
#include "gis/gdal/gdal_session.h"

#include <filesystem>
#include <string>

namespace haylane {

// Read-only: a book of a newer form, too, and one on a medium that cannot be written. Errors:
// file_missing, file_unreadable, not_a_book, book_damaged, book_in_use, book_unfinished (the last
// change was cut off and must be undone, but the file cannot be written). Cost: reads the file.
[[nodiscard]] Result<DatasetPtr> open_book_to_read(const std::filesystem::path& book);

// For changes: rollback journal, synchronous FULL; a second writer waits ten seconds for the first.
// Before a day's first change a dated copy of the book is kept. Errors: as above, and newer_book,
// book_read_only, book_has_triggers, those of keep_daily_copy.
[[nodiscard]] Result<DatasetPtr> open_book_for_update(const std::filesystem::path& book);

// The error book_damaged, with what to do about it.
[[nodiscard]] Error damaged_book(const std::filesystem::path& book, const std::string& reason);
// The error for what SQLite said while a book was open: book_in_use, book_read_only, book_damaged,
// else book_not_written.
[[nodiscard]] Error book_error(const std::string& reason);

}  // namespace haylane
