#pragma once
// The one table of what numbers of a ranch may be: what is allowed (else the cell is not used), and
// what is usual (else it is asked about, and used as written). Folder, book, command line and
// window all go by it.

#include <limits>
#include <optional>
#include <string>
#include <string_view>

namespace haylane {

// Least and most of a number in SI, both allowed.
struct Range {
    double least = 0.0;
    double most = std::numeric_limits<double>::max();
    [[nodiscard]] bool holds(double value) const { return value >= least && value <= most; }
};

struct Plausible {
    Range allowed;
    std::optional<Range> usual;
};

// By role and book column; for one that has no row in the table, any number from 0 on.
[[nodiscard]] Plausible plausible(std::string_view role, std::string_view column);

// "Was it meant in pounds?" when the value would be usual, had it been given in the unit that is
// often taken for the column's; else empty.
[[nodiscard]] std::string unit_question(std::string_view column, double value, Range usual);

}  // namespace haylane
