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
};

[[nodiscard]] Result<OpenRanch> open_ranch(const std::filesystem::path& book);

}  // namespace haylane
