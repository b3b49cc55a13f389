#pragma once
// Problems as a table to read: what, where, what to do; a row each, errors first, then warnings,
// then notes, otherwise in the order found. Read-only.

#include "core/base/problem.h"

#include <QAbstractTableModel>

namespace haylane {

// The same text, beginning with a capital letter.
[[nodiscard]] QString as_sentence(const std::string& text);

class ProblemModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { what, where, what_to_do, column_count };
    enum Role { severity_role = Qt::UserRole };  // int of Severity

    using QAbstractTableModel::QAbstractTableModel;

    void set_problems(Problems problems);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;

  private:
    Problems problems_;
};

}  // namespace haylane
