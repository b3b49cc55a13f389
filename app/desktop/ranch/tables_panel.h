#pragma once
// The book's tables, one at a time: herds, hay, rigs, weather, pastures and the others, to be
// edited in place, with rows added and taken out.

#include "app/desktop/jobs/open_job.h"
#include "app/desktop/ranch/row_table_model.h"

#include <QWidget>

class QComboBox;
class QLabel;
class QPushButton;
class QTableView;

namespace haylane {

class TablesPanel : public QWidget {
    Q_OBJECT

  public:
    explicit TablesPanel(QWidget* parent = nullptr);

    void set_ranch(std::shared_ptr<const ShownRanch> ranch);
    void show_role(const std::string& role);
    // Picks the row; nothing when the table shown has none such.
    void pick(const std::string& uuid);
    [[nodiscard]] RowTableModel& model() const { return *model_; }
    [[nodiscard]] QTableView& table() const { return *table_; }

  signals:
    void edit_wanted(const QString& what, const std::vector<haylane::RowEdit>& edits);
    void import_wanted(const QString& role);
    void picked(const QString& uuid);
    void failed(const haylane::Error& error);

  private:
    void show_rows();
    void add_row();
    void take_out();

    std::shared_ptr<const ShownRanch> ranch_;
    QComboBox* roles_;
    QLabel* about_;
    QTableView* table_;
    RowTableModel* model_;
    QPushButton* add_;
    QPushButton* take_out_;
};

}  // namespace haylane
