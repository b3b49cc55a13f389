#pragma once
// The folder that results are written to.

#include "core/base/result.h"

#include <filesystem>

namespace haylane {

// Makes it, and those above it, where they are absent. Error: folder_unwritable.
[[nodiscard]] Result<void> make_folder(const std::filesystem::path& folder);

}  // namespace haylane
