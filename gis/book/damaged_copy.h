#pragma once
// The files that salvaging works on, beside the new book: a copy of the damaged book with its
// header put right, and the new book in the making. Both are gone with this object.

#include "core/base/result.h"

#include <filesystem>

namespace haylane {

class DamagedCopy {
  public:
    explicit DamagedCopy(const std::filesystem::path& fresh);
    ~DamagedCopy();
    DamagedCopy(const DamagedCopy&) = delete;
    DamagedCopy& operator=(const DamagedCopy&) = delete;

    [[nodiscard]] std::filesystem::path copy() const { return stem_.string() + ".damaged.gpkg"; }
    [[nodiscard]] std::filesystem::path draft() const { return stem_.string() + ".tmp.gpkg"; }
    // Copies the book and its journals. Error: book_not_written.
    [[nodiscard]] Result<void> take(const std::filesystem::path& damaged) const;

  private:
    std::filesystem::path stem_;
};

}  // namespace haylane
