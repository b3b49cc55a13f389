#pragma once
// Writes a text file so that it is either the whole new text or what was there before.

#include "core/base/result.h"

#include <filesystem>
#include <string_view>

namespace haylane {

// Writes beside the file, fsyncs, renames. Errors: "file_unwritable" with the system's reason (disk
// full, no permission); nothing half-written stays behind.
[[nodiscard]] Result<void> write_text_file(const std::filesystem::path& path,
                                           std::string_view text);

}  // namespace haylane
