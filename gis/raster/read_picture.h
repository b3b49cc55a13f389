#pragma once
// A georeferenced picture (air photo, scanned map) as it lies under a box of the ranch frame.

#include "core/base/progress.h"
#include "core/base/result.h"
#include "core/geometry/point.h"
#include "gis/crs/frame.h"

#include <cstdint>
#include <filesystem>
#include <vector>

namespace haylane {

struct GroundPicture {
    int nx = 0;
    int ny = 0;
    std::vector<std::uint32_t> argb;  // 0xAARRGGBB, row 0 north; alpha 0 where there is none
    Box at;                           // ranch frame
};

struct PictureOptions {
    int most_px_a_side = 4096;  // beyond that the picture is made coarser
};

// Reads what lies in the box at the picture's own resolution. Error codes: file_missing,
// file_unreadable, picture_no_place, picture_no_crs, picture_not_8_bit, picture_elsewhere,
// picture_damaged, cancelled. Cost: linear in the pixels that are read.
[[nodiscard]] Result<GroundPicture> read_picture(const std::filesystem::path& file,
                                                 const Frame& frame, const Box& box,
                                                 const PictureOptions& options = {},
                                                 const Progress& progress = {});

}  // namespace haylane
