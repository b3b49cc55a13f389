#pragma once
// Makes a ranch book from a ranch folder: reads every role, converts to SI, centres the ranch
// frame, brings terrain into it, writes one GeoPackage. Odd data is repaired and listed; it never
// overwrites.

#include "core/base/problem.h"
#include "core/base/result.h"
#include "gis/crs/frame.h"

#include <filesystem>
#include <string>

namespace haylane {

struct BookReport {
    Problems problems;
    std::string operations;  // coordinate operations used, one a line
};

// The ranch is named by the folder. Errors: book_exists (without `force`), those of read_folder,
// no_pasture_shape, book_not_written, copy_not_kept. Terrain that cannot be used is a problem, not
// an error.
[[nodiscard]] Result<BookReport> make_book(const std::filesystem::path& folder,
                                           const std::filesystem::path& book, bool force);

// A book without rows, for a ranch that is to be drawn round a place. Errors: book_exists (without
// `force`), frame_impossible, book_not_written.
[[nodiscard]] Result<void> make_empty_book(const std::filesystem::path& book,
                                           const std::string& ranch, LonLat centre, bool force);

}  // namespace haylane
