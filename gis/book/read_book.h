#pragma once
// A ranch book as a raw ranch in the ranch frame. Opens the file read-only and changes nothing.

#include "core/base/problem.h"
#include "core/base/result.h"
#include "core/ranch/raw_ranch.h"
#include "gis/crs/frame.h"

#include <filesystem>
#include <string>
#include <vector>

namespace haylane {

struct BookContents {
    RawRanch raw;
    Frame frame;
    Problems problems;                        // found when the folder was read, and newer_book
    std::vector<std::string> crs_operations;  // for `assumptions`
};

// Errors: file_missing, file_unreadable, not_a_book, frame_unreadable, book_damaged.
[[nodiscard]] Result<BookContents> read_book(const std::filesystem::path& book);

}  // namespace haylane
