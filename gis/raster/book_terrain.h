#pragma once
// The terrain kept inside the ranch book: table `terrain`, a tiled gridded coverage of 32-bit
// floats in the ranch frame; values come back exactly.

#include "core/base/result.h"
#include "core/ranch/ranch.h"
#include "gis/crs/frame.h"

#include <filesystem>

namespace haylane {

// Adds the table to a book that is being made; the file must not be open elsewhere.
[[nodiscard]] Result<void> write_book_terrain(const std::filesystem::path& book,
                                              const TerrainData& terrain, const Frame& frame);
// `own_cell_m` is kept by the book beside it.
[[nodiscard]] Result<TerrainData> read_book_terrain(const std::filesystem::path& book,
                                                    double own_cell_m);

}  // namespace haylane
