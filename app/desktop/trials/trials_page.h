#pragma once
// Trials of rigs: a form for a feeding as it happens, the feedings kept, and what they tell: each
// rig's figures with their intervals, and two rigs set against one another.

#include "app/desktop/jobs/book_desk.h"
#include "app/desktop/ranch/row_table_model.h"
#include "app/desktop/report_row.h"
#include "app/desktop/trials/trial_form.h"

#include <memory>

#include <QWidget>

class QTableView;
class QTextBrowser;

namespace haylane {

class TrialsPage : public QWidget {
    Q_OBJECT

  public:
    // The desk must outlive it.
    explicit TrialsPage(BookDesk& desk, QWidget* parent = nullptr);

    // nullptr = none.
    void set_ranch(std::shared_ptr<const ShownRanch> ranch);
    [[nodiscard]] TrialForm& form() const { return *form_; }
    [[nodiscard]] RowTableModel& model() const { return *model_; }
    [[nodiscard]] QString told() const;

  signals:
    void failed(const haylane::Error& error);

  private:
    void keep();
    void take_out();

    BookDesk& desk_;
    std::shared_ptr<const ShownRanch> ranch_;
    TrialForm* form_;
    QTextBrowser* told_;
    QTableView* table_;
    RowTableModel* model_;
    ReportRow* report_;
};

}  // namespace haylane
