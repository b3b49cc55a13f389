#include "app/desktop/map/measure_tool.h"

#include "app/desktop/look.h"
#include "app/desktop/map/map_view_widget.h"
#include "app/papers/words.h"
#include "core/base/units.h"
#include "core/geometry/polygon.h"

#include <algorithm>
#include <cmath>

#include <QFontMetricsF>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

namespace haylane {

bool MeasureTool::press(MapViewWidget& map, QMouseEvent& event) {
    if (event.button() != Qt::LeftButton) return false;
    if (standing_) corners_.clear();
    standing_ = false;
    corners_.push_back(map.world_at(event.position()));
    pointer_.reset();
    map.update();
    return true;
}

bool MeasureTool::move(MapViewWidget& map, QMouseEvent& event) {
    if (!standing_) pointer_ = map.world_at(event.position());
    map.update();
    return true;
}

bool MeasureTool::release(MapViewWidget& /*map*/, QMouseEvent& event) {
    return event.button() == Qt::LeftButton;
}

// The first of its two clicks has set the last corner.
bool MeasureTool::double_click(MapViewWidget& map, QMouseEvent& event) {
    if (event.button() != Qt::LeftButton) return false;
    pointer_.reset();
    standing_ = true;
    map.update();
    return true;
}

bool MeasureTool::key(MapViewWidget& map, QKeyEvent& event) {
    switch (event.key()) {
        case Qt::Key_Return:
        case Qt::Key_Enter:
            pointer_.reset();
            standing_ = true;
            map.update();
            return true;
        case Qt::Key_Backspace:
            if (!corners_.empty()) corners_.pop_back();
            standing_ = false;
            map.update();
            return true;
        case Qt::Key_Escape:
            ended_();
            return true;
        default:
            return false;
    }
}

Polyline MeasureTool::measured() const {
    Polyline line = corners_;
    if (pointer_ && !line.empty()) line.push_back(*pointer_);
    return line;
}

QString MeasureTool::words() const {
    const Polyline line = measured();
    if (line.size() < 2) return {};
    const double length = length_m(line);
    QString text = QString::fromStdString(length < units::kMetersPerMile / 2.0
                                              ? words::short_length(length, metric_)
                                              : words::long_length(length, metric_));
    if (line.size() > 2) {
        Ring ring = line;
        ring.push_back(line.front());
        text +=
            QObject::tr("; %1 inside")
                .arg(QString::fromStdString(words::area(std::abs(ring_area_m2(ring)), metric_)));
    }
    return text;
}

void MeasureTool::paint(const MapViewWidget& map, QPainter& painter) const {
    const Polyline line = measured();
    if (line.empty()) return;
    painter.setBrush(Qt::NoBrush);
    const QPainterPath path = map.path_of(line);
    painter.strokePath(path, QPen(look::kPaper, 4.0));
    painter.strokePath(path, QPen(look::kInk, 1.6, Qt::DashLine));
    if (line.size() > 2) {
        painter.setPen(QPen(look::kFadedInk, 1.0, Qt::DotLine));
        painter.drawLine(map.place_of(line.back()), map.place_of(line.front()));
    }
    painter.setPen(QPen(look::kInk, 1.2));
    painter.setBrush(look::kPaper);
    for (const Point& corner : corners_) painter.drawEllipse(map.place_of(corner), 3.5, 3.5);
    const QString text = words();
    if (text.isEmpty()) return;
    const QSizeF size =
        QFontMetricsF(painter.font()).size(Qt::TextSingleLine, text) + QSizeF(12, 6);
    QRectF box(map.place_of(line.back()) + QPointF(14.0, -size.height() - 6.0), size);
    // Inside the map, wherever the pointer is.
    box.moveLeft(std::clamp(box.left(), 4.0, std::max(4.0, map.width() - size.width() - 4.0)));
    box.moveTop(std::clamp(box.top(), 4.0, std::max(4.0, map.height() - size.height() - 4.0)));
    painter.setPen(QPen(look::kInk, 1.0));
    painter.drawRect(box);
    painter.drawText(box, Qt::AlignCenter, text);
}

}  // namespace haylane
