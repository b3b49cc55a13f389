// One layout function gives the boxes; size and painting both come from it.

#include "app/desktop/models/problem_cards.h"

#include "app/desktop/look.h"
#include "app/desktop/models/problem_model.h"

#include <array>

#include <QAbstractItemView>
#include <QPainter>

namespace haylane {
namespace {

constexpr int kMargin = 9;
constexpr int kMark = 12;  // room for the mark on the left
constexpr int kGap = 3;
constexpr int kWrap = Qt::TextWordWrap | Qt::TextWrapAnywhere | Qt::AlignLeft | Qt::AlignTop;

struct CardText {
    QString text;
    QFont font;
    QColor color;
    QRect box;
};

struct Card {
    std::array<CardText, ProblemModel::column_count> texts;
    int height = 0;
};

Card lay_out(const QModelIndex& index, const QFont& font, QRect row) {
    Card card;
    int y = row.top() + kMargin;
    const int left = row.left() + kMargin + kMark;
    const int width = std::max(40, row.right() - kMargin - left);
    for (int column = 0; column < ProblemModel::column_count; ++column) {
        CardText& part = card.texts.at(static_cast<std::size_t>(column));
        part.text = index.siblingAtColumn(column).data(Qt::DisplayRole).toString();
        part.font = font;
        part.font.setBold(column == ProblemModel::what);
        part.color = column == ProblemModel::where ? look::kFadedInk : look::kInk;
        if (part.text.isEmpty()) continue;
        const QRect room(left, y, width, 100000);
        part.box = QFontMetrics(part.font).boundingRect(room, kWrap, part.text);
        part.box.setWidth(width);
        y = part.box.bottom() + kGap;
    }
    card.height = y - row.top() + kMargin - kGap;
    return card;
}

// A filled square for what could not be used, a half-filled one for what to look at, an open one
// for a note: told apart without colour.
void paint_mark(QPainter& painter, QRect box, Severity severity) {
    painter.setPen(QPen(severity == Severity::error ? look::kRust : look::kFadedInk, 1.4));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(box);
    if (severity == Severity::info) return;
    QRect filled = box;
    if (severity == Severity::warning) filled.setTop(box.center().y());
    painter.fillRect(filled, severity == Severity::error ? look::kRust : look::kHay);
}

}  // namespace

void ProblemCards::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
    painter->save();
    if ((option.state & QStyle::State_Selected) != 0) {
        QColor tint = look::kHay;
        tint.setAlpha(0x50);
        painter->fillRect(option.rect, tint);
    }
    const Card card = lay_out(index, option.font, option.rect);
    for (const CardText& part : card.texts) {
        painter->setFont(part.font);
        painter->setPen(part.color);
        painter->drawText(part.box, kWrap, part.text);
    }
    const int top = card.texts.front().box.top() + 4;
    paint_mark(*painter, {option.rect.left() + kMargin - 1, top, 8, 8},
               static_cast<Severity>(index.data(ProblemModel::severity_role).toInt()));
    painter->setPen(look::kRule);
    painter->drawLine(option.rect.bottomLeft(), option.rect.bottomRight());
    painter->restore();
}

QSize ProblemCards::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const auto* view = qobject_cast<const QAbstractItemView*>(option.widget);
    const int width = view != nullptr ? view->viewport()->width() : option.rect.width();
    return {width, lay_out(index, option.font, {0, 0, width, 0}).height};
}

}  // namespace haylane
