// One cursor down the page. Paragraphs and table rows are kept whole unless longer than a page.

#include "app/papers/flow.h"

#include <algorithm>

namespace haylane {
namespace {

constexpr int kHeading = 13;
constexpr double kFoot = 16.0;
constexpr double kCellGap = 6.0;
constexpr double kRowGap = 2.5;
const QColor kRule(0x6b, 0x5d, 0x4a);

}  // namespace

Flow::Flow(Sheet& sheet, QString foot, int pages, Start start)
    : sheet_(sheet), foot_(std::move(foot)), pages_(pages) {
    if (start == Start::new_page) sheet_.new_page();
    begin_page();
}

double Flow::page_height() const { return sheet_.area().height() - kFoot; }

void Flow::start_page() {
    sheet_.new_page();
    begin_page();
}

void Flow::begin_page() {
    const QRectF area = sheet_.area();
    const QString foot =
        foot_ + QStringLiteral(". Page %1 of %2").arg(sheet_.page()).arg(std::max(1, pages_));
    sheet_.put(Rich(foot), kBackText, {area.left(), area.bottom() - line_pitch(kBackText)},
               area.width());
    y_ = area.top();
}

void Flow::need(double height) {
    if (y_ > sheet_.area().top() && y_ + height > sheet_.area().top() + page_height()) start_page();
}

void Flow::heading(const QString& text) {
    need(5.0 * line_pitch(kBackText));
    y_ += 4.0;
    y_ += sheet_.put(Rich(text, true), kHeading, {left(), y_}, width()) + 4.0;
}

void Flow::paragraph(const Rich& text) {
    if (text.empty()) return;
    need(height_of(text, kBackText, width()));
    y_ += sheet_.put(text, kBackText, {left(), y_}, width());
}

void Flow::rule() {
    sheet_.painter().setPen(QPen(kRule, 0.5));
    sheet_.painter().drawLine(QPointF(left(), y_), QPointF(left() + width(), y_));
    y_ += 2.0;
}

double Flow::row_height(const std::vector<double>& shares, const std::vector<QString>& cells,
                        bool bold) const {
    double height = 0.0;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        height = std::max(
            height, height_of(Rich(cells[i], bold), kBackText, shares[i] * width() - kCellGap));
    }
    return height + kRowGap;
}

void Flow::table_row(const std::vector<double>& shares, const std::vector<QString>& cells,
                     bool bold) {
    double x = left();
    for (std::size_t i = 0; i < cells.size(); ++i) {
        sheet_.put(Rich(cells[i], bold), kBackText, {x, y_}, shares[i] * width() - kCellGap);
        x += shares[i] * width();
    }
    y_ += row_height(shares, cells, bold) - 1.0;
    sheet_.painter().setPen(QPen(kRule, bold ? 0.8 : 0.25));
    sheet_.painter().drawLine(QPointF(left(), y_), QPointF(left() + width(), y_));
    y_ += 1.0;
}

void Flow::table(const std::vector<double>& shares, const std::vector<std::vector<QString>>& rows) {
    if (rows.size() < 2) return;
    const double head = row_height(shares, rows.front(), true);
    need(head + row_height(shares, rows[1], false));
    table_row(shares, rows.front(), true);
    for (std::size_t i = 1; i < rows.size(); ++i) {
        const int page = sheet_.page();
        need(row_height(shares, rows[i], false));
        if (sheet_.page() != page) table_row(shares, rows.front(), true);
        table_row(shares, rows[i], false);
    }
}

}  // namespace haylane
