// Method: Cbc's branch and cut over Clp, one thread, its own defaults for branching; the gaps and
// the cutoff increment are closed because the defaults stop 1e-5 short of the optimum.
#include "core/solve/integer_program.h"

#include <cmath>

#include <CbcModel.hpp>
#include <CoinPackedMatrix.hpp>
#include <OsiClpSolverInterface.hpp>

namespace haylane {
namespace {

CoinPackedMatrix matrix_of(const IntegerProgram& program) {
    std::vector<int> rows;
    std::vector<int> columns;
    std::vector<double> factors;
    for (std::size_t r = 0; r < program.rows.size(); ++r) {
        for (const IntegerProgram::Term& term : program.rows[r].terms) {
            rows.push_back(static_cast<int>(r));
            columns.push_back(term.column);
            factors.push_back(term.factor);
        }
    }
    CoinPackedMatrix matrix(true, rows.data(), columns.data(), factors.data(),
                            static_cast<CoinBigIndex>(factors.size()));
    matrix.setDimensions(static_cast<int>(program.rows.size()),
                         static_cast<int>(program.columns.size()));
    return matrix;
}

double coin_bound(double value) {
    return std::isinf(value) ? std::copysign(COIN_DBL_MAX, value) : value;
}

void load(const IntegerProgram& program, OsiClpSolverInterface& solver) {
    std::vector<double> column_least;
    std::vector<double> column_most;
    for (const IntegerProgram::Column& column : program.columns) {
        column_least.push_back(coin_bound(column.least));
        column_most.push_back(coin_bound(column.most));
    }
    std::vector<double> row_least;
    std::vector<double> row_most;
    for (const IntegerProgram::Row& row : program.rows) {
        row_least.push_back(coin_bound(row.least));
        row_most.push_back(coin_bound(row.most));
    }
    solver.loadProblem(matrix_of(program), column_least.data(), column_most.data(),
                       program.cost.data(), row_least.data(), row_most.data());
    for (std::size_t c = 0; c < program.columns.size(); ++c) {
        if (program.columns[c].whole) solver.setInteger(static_cast<int>(c));
    }
}

}  // namespace

std::optional<std::vector<double>> solve(const IntegerProgram& program) {
    OsiClpSolverInterface solver;
    solver.messageHandler()->setLogLevel(0);
    solver.getModelPtr()->setLogLevel(0);
    load(program, solver);
    CbcModel model(solver);
    model.setLogLevel(0);
    model.messageHandler()->setLogLevel(0);
    model.solver()->messageHandler()->setLogLevel(0);
    model.setAllowableGap(0.0);
    model.setAllowableFractionGap(0.0);
    model.setCutoffIncrement(1e-9);
    model.setIntegerTolerance(1e-9);
    model.branchAndBound();
    if (!model.isProvenOptimal() || model.bestSolution() == nullptr) return std::nullopt;
    std::vector<double> values(model.bestSolution(), model.bestSolution() + program.columns.size());
    for (std::size_t c = 0; c < values.size(); ++c) {
        if (program.columns[c].whole) values[c] = std::round(values[c]);
    }
    return values;
}

}  // namespace haylane
