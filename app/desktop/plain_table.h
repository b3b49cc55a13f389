#pragma once
// A table to read: rows told apart by their ground, no grid, heads as wide as what they hold. Tab
// goes on to the next widget.

#include <QAbstractItemModel>
#include <QHeaderView>
#include <QTableView>

namespace haylane {

// The caller gives it a parent; the model must outlive it.
[[nodiscard]] inline QTableView* plain_table(QAbstractItemModel* model,
                                             const QString& accessible_name) {
    auto* table = new QTableView;
    table->setModel(model);
    table->setSelectionBehavior(QAbstractItemView::SelectRows);
    table->setSelectionMode(QAbstractItemView::SingleSelection);
    table->setTabKeyNavigation(false);
    table->setShowGrid(false);
    table->setAlternatingRowColors(true);
    table->setWordWrap(false);
    table->verticalHeader()->hide();
    table->verticalHeader()->setDefaultSectionSize(24);
    table->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    table->horizontalHeader()->setStretchLastSection(true);
    table->horizontalHeader()->setHighlightSections(false);
    table->setAccessibleName(accessible_name);
    return table;
}

}  // namespace haylane
