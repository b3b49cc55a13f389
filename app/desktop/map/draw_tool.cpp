#include "app/desktop/map/draw_tool.h"

#include "app/desktop/look.h"
#include "app/desktop/map/map_view_widget.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

namespace haylane {

Point DrawTool::place(const MapViewWidget& map, QPointF at) const {
    const Point p = map.world_at(at);
    return snap_ ? snap_(map, p) : p;
}

bool DrawTool::press(MapViewWidget& map, QMouseEvent& event) {
    if (event.button() != Qt::LeftButton) return false;
    corners_.push_back(place(map, event.position()));
    map.update();
    if (shape_ == Shape::point) end();
    return true;
}

bool DrawTool::move(MapViewWidget& map, QMouseEvent& event) {
    pointer_ = place(map, event.position());
    map.update();
    return true;
}

bool DrawTool::release(MapViewWidget& /*map*/, QMouseEvent& event) {
    return event.button() == Qt::LeftButton;
}

// The first of its two clicks has set the last corner.
bool DrawTool::double_click(MapViewWidget& /*map*/, QMouseEvent& event) {
    if (event.button() != Qt::LeftButton) return false;
    end();
    return true;
}

bool DrawTool::key(MapViewWidget& map, QKeyEvent& event) {
    switch (event.key()) {
        case Qt::Key_Return:
        case Qt::Key_Enter:
            end();
            return true;
        case Qt::Key_Backspace:
            if (!corners_.empty()) corners_.pop_back();
            map.update();
            return true;
        case Qt::Key_Escape:
            done_(std::nullopt);
            return true;
        default:
            return false;
    }
}

void DrawTool::end() {
    const std::size_t least = shape_ == Shape::area ? 3 : shape_ == Shape::line ? 2 : 1;
    if (corners_.size() < least) return;
    done_(corners_);
}

void DrawTool::paint(const MapViewWidget& map, QPainter& painter) const {
    if (corners_.empty()) return;
    QPainterPath path = map.path_of(corners_);
    if (pointer_) path.lineTo(map.place_of(*pointer_));
    if (shape_ == Shape::area) {
        path.closeSubpath();
        QColor wash = look::kRust;
        wash.setAlpha(45);
        painter.fillPath(path, wash);
    }
    painter.setPen(QPen(look::kRust, 2.0));
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(path);
    painter.setBrush(look::kPaper);
    for (const Point& corner : corners_) painter.drawEllipse(map.place_of(corner), 4.0, 4.0);
}

}  // namespace haylane
