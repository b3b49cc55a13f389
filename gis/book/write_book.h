#pragma once
// Writes a whole ranch book as a new file: made under another name beside it, forced to the disk,
// then renamed, so that a book is either complete or not there.

#include "core/base/result.h"
#include "core/ranch/ranch.h"
#include "gis/book/book_rows.h"
#include "gis/crs/frame.h"

#include <filesystem>
#include <optional>

namespace haylane {

inline constexpr int kBookSchema = 1;

struct BookDraft {
    std::string ranch;
    Frame frame;
    std::vector<BookTable> tables;
    std::optional<TerrainData> terrain;
    Problems problems;  // of reading; kept in the book for `check`
    std::vector<std::string> crs_operations;
};

// A book that is there is replaced, and kept among its copies. Errors: book_not_written,
// copy_not_kept.
[[nodiscard]] Result<void> write_book(const std::filesystem::path& book, const BookDraft& draft);

}  // namespace haylane
