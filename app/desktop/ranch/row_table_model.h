#pragma once
// A role's rows as the book has them, in the units the ranch speaks, to be edited in place. An edit
// is asked for, not made: the rows change when the book is read again.

#include "gis/book/edit_cells.h"
#include "gis/book/edit_rows.h"

#include <string>
#include <vector>

#include <QAbstractItemView>
#include <QAbstractTableModel>

namespace haylane {

class RowTableModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    using QAbstractTableModel::QAbstractTableModel;

    void set_rows(const std::string& role, std::vector<RawRow> rows, bool metric);
    [[nodiscard]] const std::string& role() const { return role_; }
    [[nodiscard]] const RawRow& row(int row) const {
        return rows_.at(static_cast<std::size_t>(row));
    }

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;
    [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;

  signals:
    void edit_wanted(const QString& what, const std::vector<haylane::RowEdit>& edits);
    void failed(const haylane::Error& error);

  private:
    std::string role_;
    std::vector<ShownColumn> columns_;
    std::vector<RawRow> rows_;
};

// What takes the rows out that have a cell picked in a view of the model.
[[nodiscard]] std::vector<RowEdit> take_out_picked(const QAbstractItemView& view,
                                                   const RowTableModel& model);

// "weight (lb)", for a column's head.
[[nodiscard]] QString column_title(const ShownColumn& column);
// A heading without its unit as words: "Bale protein" of "bale_cp".
[[nodiscard]] QString column_words(std::string_view heading);
// A unit as people write it: "lb/ac" of "lb_ac", "a ton" of "per_ton".
[[nodiscard]] QString unit_text(std::string_view unit);

}  // namespace haylane
