#include "app/desktop/paper_part.h"

#include "app/desktop/look.h"

#include <utility>

namespace haylane {
namespace {

constexpr double kPxPerPoint = 1.45;  // 8 points of print are then 12 px
constexpr double kEdge = 6.0;         // points kept free all round

}  // namespace

PaperPart::PaperPart(const QString& accessible_name, int height_px, QWidget* parent)
    : QWidget(parent), height_px_(height_px) {
    setAccessibleName(accessible_name);
    setFixedHeight(height_px);
    setMinimumWidth(200);
}

void PaperPart::set_paint(Paint paint) {
    paint_ = std::move(paint);
    update();
}

void PaperPart::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.fillRect(rect(), look::kPaper);
    painter.setPen(look::kRule);
    painter.drawRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5));
    if (!paint_) return;
    painter.setRenderHint(QPainter::Antialiasing);
    painter.scale(kPxPerPoint, kPxPerPoint);
    const QSizeF page = QSizeF(size()) / kPxPerPoint;
    Sheet sheet(painter, page);
    paint_(sheet, QRectF(QPointF(0.0, 0.0), page).adjusted(kEdge, kEdge, -kEdge, -kEdge));
}

}  // namespace haylane
