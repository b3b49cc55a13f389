#pragma once
// What is asked when something new comes on the map or into a table: its name, and for rows of a
// file which column is which.

#include "gis/book/edit_rows.h"

#include <QDialog>

class QComboBox;
class QLineEdit;

namespace haylane {

class AddDialog : public QDialog {
    Q_OBJECT

  public:
    // `what`: "a gate".
    AddDialog(const std::string& role, const QString& what, QWidget* parent = nullptr);
    // A new row, without its shape.
    [[nodiscard]] RowEdit edit() const;

  private:
    std::string role_;
    QLineEdit* name_;
    QComboBox* kind_ = nullptr;  // of ground off limits
};

// Asks for a file and which of its columns is which; no rows when it is given up. Errors: those of
// read_role_file and book_rows; nothing_to_read.
[[nodiscard]] Result<BookRows> ask_for_rows(const RoleInfo& role, QWidget* parent);

// Which of the file's columns the user means by each of the role's; begins with what the names say.
class ColumnsDialog : public QDialog {
    Q_OBJECT

  public:
    ColumnsDialog(const RoleInfo& role, const SourceLayer& layer, QWidget* parent = nullptr);
    [[nodiscard]] std::vector<ColumnAlias> aliases() const;

  private:
    struct Choice {
        const ColumnSpec* spec = nullptr;
        QComboBox* column = nullptr;
        QComboBox* unit = nullptr;  // nullptr = none
    };
    std::string role_;
    std::vector<Choice> choices_;
};

}  // namespace haylane
