#pragma once
// The rows of a damaged database, attached to an open, empty book under the name `old`, copied into
// the book's own tables as far as they can be read. For salvage_book only.

#include "core/base/result.h"
#include "gis/book/salvage_book.h"

#include <cstdint>
#include <filesystem>
#include <string>
#include <utility>
#include <vector>

class GDALDataset;

namespace haylane {

class SalvageTables {
  public:
    // `copy` of the damaged file may be written to.
    SalvageTables(GDALDataset& book, std::filesystem::path copy)
        : book_(book), copy_(std::move(copy)) {}

    // Fails where the copy is no database at all.
    [[nodiscard]] Result<void> begin();
    [[nodiscard]] Result<SalvageReport> all();
    // What the damaged book says of itself; empty when it cannot be read.
    [[nodiscard]] std::string note(const std::string& key);

  private:
    [[nodiscard]] Result<void> attach();
    [[nodiscard]] Result<void> describe_again();
    std::vector<std::string> columns(const std::string& table, const std::string& schema);
    std::int64_t last_row(const std::string& table);
    [[nodiscard]] Result<SalvagedTable> save(const std::string& table);
    bool copy_rows(const std::string& table, const std::vector<std::string>& columns,
                   std::int64_t from, std::int64_t to);
    void save_range(SalvagedTable& out, const std::vector<std::string>& columns, std::int64_t from,
                    std::int64_t to);

    GDALDataset& book_;
    std::filesystem::path copy_;
    std::vector<std::string> tables_;
    int failures_ = 0;
};

}  // namespace haylane
