#include "gis/book/trial_file.h"

#include "core/base/require.h"
#include "gis/book/raw_rows.h"
#include "gis/vector/csv_layer.h"

namespace haylane {

Result<TrialFile> read_trial_file(const std::filesystem::path& file) {
    const RoleInfo* role = find_role("trials");
    require(role != nullptr, "role trials");
    const Result<SourceLayer> layer = read_csv_layer(file);
    if (!layer) return fail(layer.error());
    Result<BookRows> rows = book_rows(*role, *layer, {});
    if (!rows) return fail(rows.error());
    TrialFile out{{}, std::move(rows->problems)};
    for (BookRow& row : rows->rows) {
        if (row.fields.empty()) continue;  // a blank line is no feeding
        out.rows.push_back(std::move(row));
    }
    return out;
}

std::vector<RawRow> raw_rows(const TrialFile& file) {
    std::vector<RawRow> rows;
    for (const BookRow& row : file.rows) rows.push_back({row.fields, {}, row.read_from});
    return rows;
}

}  // namespace haylane
