#pragma once
// A ranch folder as book tables: every role found once, by file stem or GeoPackage layer name.

#include "core/base/result.h"
#include "gis/book/book_rows.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace haylane {

struct FolderContents {
    std::vector<BookTable> tables;  // in the manual's order; only roles that were found
    std::optional<std::filesystem::path> terrain;
    Problems problems;
    std::vector<std::string> crs_operations;
};

// Errors: folder_missing, two_sources_of_one_role, missing_pastures, and those of the readers.
[[nodiscard]] Result<FolderContents> read_folder(const std::filesystem::path& folder);

// One file as the layers that a role may take rows from, whatever its name: a map or a table.
// Errors: file_not_read for a kind that is not read, those of the readers.
[[nodiscard]] Result<std::vector<SourceLayer>> read_role_file(const std::filesystem::path& file,
                                                              const RoleInfo& role);

}  // namespace haylane
