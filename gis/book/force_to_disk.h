#pragma once
// Forces what was written to a file, or the names in a folder, out to the disk (fsync).

#include <filesystem>

namespace haylane {

// False when it cannot be opened or the disk refuses.
[[nodiscard]] bool force_to_disk(const std::filesystem::path& path);

}  // namespace haylane
