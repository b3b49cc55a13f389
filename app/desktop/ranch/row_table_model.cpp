#include "app/desktop/ranch/row_table_model.h"

#include "gis/book/roles.h"

#include <algorithm>
#include <cmath>

#include <QHash>

namespace haylane {
QString unit_text(std::string_view unit) {
    if (unit == "pct") return QStringLiteral("%");
    if (unit == "f" || unit == "c")
        return unit == "f" ? QStringLiteral("°F") : QStringLiteral("°C");
    if (unit == "l") return QStringLiteral("L");
    if (unit == "deg") return QStringLiteral("°");
    QString text = QString::fromUtf8(unit.data(), static_cast<qsizetype>(unit.size()));
    if (text.startsWith("per_")) return "a " + text.mid(4);
    return text.replace("_per_", "/").replace("_", "/");
}

QString column_words(std::string_view heading) {
    static const QHash<QString, QString> spoken{{"dm", RowTableModel::tr("dry matter")},
                                                {"cp", RowTableModel::tr("protein")},
                                                {"tdn", "TDN"},
                                                {"adf", "ADF"},
                                                {"ndf", "NDF"},
                                                {"p", "P"},
                                                {"k", "K"},
                                                {"n", "N"},
                                                {"ph", "pH"},
                                                {"pto", "PTO"},
                                                {"p2o5", "P2O5"},
                                                {"k2o", "K2O"}};
    QStringList words = QString::fromUtf8(heading.data(), static_cast<qsizetype>(heading.size()))
                            .split('_', Qt::SkipEmptyParts);
    for (QString& word : words) word = spoken.value(word, word);
    QString text = words.join(' ');
    if (!text.isEmpty() && !spoken.contains(text.toLower())) text[0] = text[0].toUpper();
    return text;
}

QString column_title(const ShownColumn& column) {
    QString title = column_words(std::string(column.spec->base) + std::string(column.spec->tail));
    if (!column.unit.empty()) title += " (" + unit_text(column.unit) + ")";
    return title;
}

void RowTableModel::set_rows(const std::string& role, std::vector<RawRow> rows, bool metric) {
    const auto columns = shown_columns(role, metric);
    bool same = role == role_ && rows.size() == rows_.size() && columns.size() == columns_.size();
    for (std::size_t i = 0; same && i < rows.size(); ++i) same = rows[i].uuid == rows_[i].uuid;
    for (std::size_t i = 0; same && i < columns.size(); ++i)
        same = columns[i].heading == columns_[i].heading;
    // The same rows stay where they are, with what is picked and being written.
    if (!same) beginResetModel();
    role_ = role;
    columns_ = columns;
    rows_ = std::move(rows);
    if (!same) {
        endResetModel();
    } else if (!rows_.empty()) {
        emit dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
    }
}

int RowTableModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int RowTableModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(columns_.size());
}

QVariant RowTableModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    const ShownColumn& column = columns_[static_cast<std::size_t>(index.column())];
    if (role == Qt::DisplayRole || role == Qt::EditRole) {
        const RawRow& row = rows_[static_cast<std::size_t>(index.row())];
        const auto found = row.fields.find(std::string(column.spec->book));
        if (found == row.fields.end()) return QString();
        const QString cell = QString::fromStdString(shown_cell(column, found->second));
        // Two decimals are enough to look at; an editor shows all there is.
        const double number = cell.toDouble();
        if (role == Qt::EditRole || !is_numeric(column.spec->dimension) || std::abs(number) < 1.0)
            return cell;
        return QString::number(std::round(number * 100.0) / 100.0, 'g', 10);
    }
    if (role == Qt::TextAlignmentRole && is_numeric(column.spec->dimension))
        return QVariant(Qt::AlignRight | Qt::AlignVCenter);
    return {};
}

QVariant RowTableModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (role != Qt::DisplayRole && role != Qt::ToolTipRole) return {};
    if (orientation == Qt::Vertical) return section + 1;
    if (section < 0 || section >= columnCount()) return {};
    const ShownColumn& column = columns_[static_cast<std::size_t>(section)];
    if (role == Qt::DisplayRole) return column_title(column);
    return tr("In a folder's file: %1").arg(QString::fromStdString(column.heading));
}

Qt::ItemFlags RowTableModel::flags(const QModelIndex& index) const {
    const Qt::ItemFlags usual = QAbstractTableModel::flags(index);
    return index.isValid() ? usual | Qt::ItemIsEditable : usual;
}

bool RowTableModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    if (!index.isValid() || role != Qt::EditRole) return false;
    const QString text = value.toString().trimmed();
    if (text == data(index, Qt::EditRole).toString()) return false;
    const ShownColumn& column = columns_[static_cast<std::size_t>(index.column())];
    const RawRow& row = rows_[static_cast<std::size_t>(index.row())];
    auto typed = typed_cell(column, text.toStdString());
    if (!typed) {
        emit failed(typed.error());
        return false;
    }
    emit edit_wanted(tr("change %1").arg(column_title(column)),
                     {{.role = role_,
                       .uuid = row.uuid,
                       .fields = {{std::string(column.spec->book), std::move(*typed)}},
                       .typed = {{column.heading, text.toStdString()}}}});
    return true;
}

std::vector<RowEdit> take_out_picked(const QAbstractItemView& view, const RowTableModel& model) {
    std::vector<RowEdit> edits;
    for (const QModelIndex& one : view.selectionModel()->selectedIndexes()) {
        const std::string& uuid = model.row(one.row()).uuid;
        const bool known = std::any_of(edits.begin(), edits.end(),
                                       [&](const RowEdit& edit) { return edit.uuid == uuid; });
        if (!known) edits.push_back({.role = model.role(), .uuid = uuid, .take_out = true});
    }
    return edits;
}

}  // namespace haylane
