#pragma once
// The door to the integer solver (Cbc): a small program in columns and rows, solved to a proven
// optimum, silent and the same on every run. Cost grows fast with whole columns: meant for some
// tens of them.

#include <limits>
#include <optional>
#include <vector>

namespace haylane {

struct IntegerProgram {
    struct Column {
        double least = 0.0;
        double most = std::numeric_limits<double>::infinity();
        bool whole = true;  // false: may be a fraction
    };
    struct Term {
        int column = 0;
        double factor = 0.0;
    };
    // least <= sum of factor x column <= most; each column at most once.
    struct Row {
        std::vector<Term> terms = {};
        double least = -std::numeric_limits<double>::infinity();
        double most = std::numeric_limits<double>::infinity();
    };
    std::vector<Column> columns;
    std::vector<Row> rows;
    std::vector<double> cost;  // by column, to be minimised; best kept near 1 in size
};

// Value of each column (whole ones rounded) at the optimum; nullopt when no point satisfies the
// rows.
[[nodiscard]] std::optional<std::vector<double>> solve(const IntegerProgram& program);

}  // namespace haylane
