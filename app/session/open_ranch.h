#pragma once
// Opens a ranch book and checks it: what both programs start from.

#include "core/base/result.h"
#include "core/ranch/check_ranch.h"
#include "gis/crs/frame.h"

#include <filesystem>
#include <string>
#include <vector>

namespace haylane {

struct OpenRanch {
    std::filesystem::path book;
    Frame frame;
    CheckedRanch checked;  // problems of reading stand first
    std::vector<std::string> crs_operations;
    RawRanch raw = {};  // its rows as the book has them; no terrain
};

// `begun`: a ranch that is still being drawn, which may have no pasture.
[[nodiscard]] Result<OpenRanch> open_ranch(const std::filesystem::path& book, bool begun = false);

}  // namespace haylane
