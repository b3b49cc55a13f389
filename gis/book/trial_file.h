#pragma once
// Reads trial tables: CSV with the columns of the role `trials`.

#include "core/base/result.h"
#include "gis/book/book_rows.h"

#include <filesystem>
#include <vector>

namespace haylane {

struct TrialFile {
    std::vector<BookRow> rows;  // in SI, columns as in the book; no blank ones
    Problems problems;
};

[[nodiscard]] std::vector<RawRow> raw_rows(const TrialFile& file);

// Errors: those of read_csv_layer and book_rows.
[[nodiscard]] Result<TrialFile> read_trial_file(const std::filesystem::path& file);

}  // namespace haylane
