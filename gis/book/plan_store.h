#pragma once
// Plans kept in the book, so that days can be recorded as planned and later plans know what was
// meant.

#include "core/base/day.h"
#include "core/base/result.h"
#include "core/geometry/polyline.h"

#include <filesystem>
#include <string>
#include <vector>

namespace haylane {

struct StoredLine {
    std::string id;
    sys_days date;
    std::string herd;
    std::string pasture;
    std::string rig;
    Polyline path;  // ranch frame, driving order
};

struct StoredPlan {
    sys_days from;
    std::string made_at;  // ISO 8601, UTC; empty = now
    std::string json;     // plan.json as written
    std::vector<StoredLine> lines;
};

// Adds a plan; earlier ones are kept. Errors: those of open_book_for_update, book_not_written.
[[nodiscard]] Result<void> save_plan(const std::filesystem::path& book, const StoredPlan& plan);
// Every plan of the book, oldest first. Opens the book read-only.
[[nodiscard]] Result<std::vector<StoredPlan>> stored_plans(const std::filesystem::path& book);

}  // namespace haylane
