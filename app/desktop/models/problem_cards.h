#pragma once
// Draws a row of ProblemModel as a card: what in ink, where faded, what to do after a rule of hay
// colour. Texts wrap to the list's width, between words where they can, and are never cut. For a
// QListView on column `what`.

#include <QStyledItemDelegate>

namespace haylane {

class ProblemCards : public QStyledItemDelegate {
    Q_OBJECT

  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const override;
};

}  // namespace haylane
