#pragma once
// Reads trial tables: CSV with the columns of the role `trials`.

#include "core/base/result.h"
#include "core/ranch/raw_ranch.h"

#include <filesystem>
#include <vector>

namespace haylane {

struct TrialFile {
    std::vector<RawRow> rows;  // in SI, columns as in the book
    Problems problems;
};

// Errors: those of read_csv_layer and book_rows.
[[nodiscard]] Result<TrialFile> read_trial_file(const std::filesystem::path& file);

}  // namespace haylane
