// Checked against Qt's own rules for models (QAbstractItemModelTester) and the list put in.

#include "app/desktop/models/problem_model.h"

#include <QAbstractItemModelTester>
#include <QSignalSpy>
#include <gtest/gtest.h>

namespace haylane {
namespace {

Problems three_problems() {
    return {{"a_note", Severity::info, "hay.csv, line 2", "One lot is not tested.", "Test it."},
            {"odd", Severity::warning, "gates, row 4", "A gate is off its fence.", "Move it."},
            {"unused", Severity::error, "pastures, row 1", "A fence is open.", "Close it."}};
}

QStringList row_of(const ProblemModel& model, int row) {
    QStringList cells;
    for (int column = 0; column < model.columnCount(); ++column) {
        cells << model.data(model.index(row, column), Qt::DisplayRole).toString();
    }
    return cells;
}

TEST(ProblemModel, KeepsQtsRulesWhileItsListChanges) {
    ProblemModel model;
    const QAbstractItemModelTester tester(&model,
                                          QAbstractItemModelTester::FailureReportingMode::Fatal);
    const QSignalSpy resets(&model, &QAbstractItemModel::modelReset);
    model.set_problems(three_problems());
    EXPECT_EQ(model.rowCount(), 3);
    model.set_problems({});
    EXPECT_EQ(model.rowCount(), 0);
    EXPECT_EQ(resets.count(), 2);
}

TEST(ProblemModel, ShowsWhatCouldNotBeUsedFirst) {
    ProblemModel model;
    model.set_problems(three_problems());
    ASSERT_EQ(model.rowCount(), 3);
    EXPECT_EQ(row_of(model, 0), (QStringList{"A fence is open.", "pastures, row 1", "Close it."}));
    EXPECT_EQ(row_of(model, 1),
              (QStringList{"A gate is off its fence.", "gates, row 4", "Move it."}));
    EXPECT_EQ(row_of(model, 2),
              (QStringList{"One lot is not tested.", "hay.csv, line 2", "Test it."}));
}

TEST(ProblemModel, KeepsTheOrderFoundWithinOneSeverity) {
    ProblemModel model;
    model.set_problems(
        {{"x", Severity::warning, "1", "b", ""}, {"x", Severity::warning, "2", "a", ""}});
    ASSERT_EQ(model.rowCount(), 2);
    EXPECT_EQ(row_of(model, 0).at(1), "1");
    EXPECT_EQ(row_of(model, 1).at(1), "2");
}

TEST(ProblemModel, TellsAScreenReaderAllOfAProblem) {
    ProblemModel model;
    model.set_problems(three_problems());
    const QString text = model.data(model.index(0, 0), Qt::AccessibleTextRole).toString();
    EXPECT_EQ(text, "Not used: A fence is open.\npastures, row 1\nClose it.");
}

TEST(ProblemModel, BeginsSentencesWithACapital) {
    ProblemModel model;
    model.set_problems({{"x", Severity::info, "a.csv", "the row is odd", "look at it"}});
    ASSERT_EQ(model.rowCount(), 1);
    EXPECT_EQ(row_of(model, 0), (QStringList{"The row is odd", "a.csv", "Look at it"}));
    EXPECT_EQ(as_sentence(""), "");
}

TEST(ProblemModel, NamesItsColumns) {
    const ProblemModel model;
    QStringList names;
    for (int column = 0; column < model.columnCount(); ++column) {
        names << model.headerData(column, Qt::Horizontal, Qt::DisplayRole).toString();
    }
    EXPECT_EQ(names, (QStringList{"What", "Where", "What to do"}));
}

}  // namespace
}  // namespace haylane
