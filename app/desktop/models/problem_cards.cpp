// One layout function gives the boxes; size and painting both come from it.

#include "app/desktop/models/problem_cards.h"

#include "app/desktop/look.h"
#include "app/desktop/models/problem_model.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <QAbstractItemView>
#include <QPainter>
#include <QTextLayout>

namespace haylane {
namespace {

constexpr int kMargin = 9;
constexpr int kMark = 12;  // room for the mark on the left
constexpr int kGap = 3;

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

// Breaks a text into lines; gives their height.
int set_lines(QTextLayout& layout, int width) {
    QTextOption option;
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    layout.setTextOption(option);
    double y = 0.0;
    layout.beginLayout();
    for (QTextLine line = layout.createLine(); line.isValid(); line = layout.createLine()) {
        line.setLineWidth(width);
        line.setPosition({0.0, y});
        y += line.height();
    }
    layout.endLayout();
    return static_cast<int>(std::ceil(y));
}

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
        QTextLayout layout(part.text, part.font);
        part.box = QRect(left, y, width, set_lines(layout, width));
        y = part.box.bottom() + 1 + kGap;
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
        QTextLayout layout(part.text, part.font);
        set_lines(layout, part.box.width());
        painter->setPen(part.color);
        layout.draw(painter, part.box.topLeft());
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
