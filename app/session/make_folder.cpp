#include "app/session/make_folder.h"

#include <fmt/format.h>

namespace haylane {

Result<void> make_folder(const std::filesystem::path& folder) {
    std::error_code reason;
    std::filesystem::create_directories(folder, reason);
    if (!reason) return {};
    return fail({"folder_unwritable",
                 fmt::format("The folder cannot be made: {}.", reason.message()), folder.string(),
                 "Choose a folder you may write to."});
}

}  // namespace haylane
