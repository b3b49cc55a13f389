#include "app/desktop/week/line_hand.h"

#include "app/desktop/look.h"
#include "app/desktop/map/map_view_widget.h"

#include <cmath>

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

namespace haylane {
namespace {

constexpr double kNear_px = 7.0;
constexpr double kHandle_px = 9.0;
constexpr double kLeast_px = 3.0;  // shorter moves are clicks
constexpr double kNudge_m = 5.0;

double distance_px(QPointF a, QPointF b) { return std::hypot(a.x() - b.x(), a.y() - b.y()); }

// The line turned and stretched so that one end goes by `by` and the other stays.
Polyline with_end_moved(const Polyline& line, Point by, bool start) {
    const Point still = start ? line.back() : line.front();
    const Point was = (start ? line.front() : line.back()) - still;
    const Point now = was + by;
    const double square = dot(was, was);
    if (square <= 0.0) return line;
    const double along = dot(was, now) / square;
    const double across = cross(was, now) / square;
    Polyline moved;
    for (const Point& p : line) {
        const Point off = p - still;
        moved.push_back(still +
                        Point{along * off.x - across * off.y, across * off.x + along * off.y});
    }
    return moved;
}

}  // namespace

void LineHand::set_feedings(const std::vector<PlannedFeeding>* feedings, LineMover* mover) {
    feedings_ = feedings;
    mover_ = mover;
    drag_.reset();
    if (feedings_ == nullptr || (selected_ && *selected_ >= feedings_->size())) selected_.reset();
}

void LineHand::select(std::optional<std::size_t> feeding) { selected_ = feeding; }

MultiPolyline LineHand::lines_of(std::size_t feeding) const {
    MultiPolyline lines;
    for (const PlannedLine& line : (*feedings_)[feeding].lines) lines.push_back(line.path);
    return lines;
}

std::optional<LineHand::Drag> LineHand::grip_at(const MapViewWidget& map, QPointF place) const {
    if (feedings_ == nullptr) return std::nullopt;
    std::optional<Drag> found;
    double nearest = kNear_px;
    for (std::size_t f = 0; f < feedings_->size(); ++f) {
        const MultiPolyline lines = lines_of(f);
        for (std::size_t k = 0; k < lines.size(); ++k) {
            if (lines[k].size() < 2) continue;
            Drag drag{.feeding = f,
                      .line = k,
                      .from = map.world_at(place),
                      .planned = lines,
                      .lines = lines};
            if (selected_ == f) {
                const bool at_start =
                    distance_px(map.place_of(lines[k].front()), place) <= kHandle_px;
                const bool at_end = distance_px(map.place_of(lines[k].back()), place) <= kHandle_px;
                if (at_start || at_end) {
                    drag.grip = at_start ? Grip::start : Grip::end;
                    return drag;
                }
            }
            // Of lines as near, the one picked already.
            const double off = distance_m(map.world_at(place), lines[k]) * map.px_per_m();
            if (off < nearest || (off == nearest && selected_ == f)) {
                nearest = off;
                found = std::move(drag);
            }
        }
    }
    return found;
}

bool LineHand::press(MapViewWidget& map, QMouseEvent& event) {
    if (event.button() != Qt::LeftButton) return false;
    auto grip = grip_at(map, event.position());
    if (!grip) return false;
    by_keys_ = false;
    selected_ = grip->feeding;
    drag_ = std::move(grip);
    emit picked(*selected_);
    map.update();
    return true;
}

bool LineHand::move(MapViewWidget& map, QMouseEvent& event) {
    if (!drag_ || by_keys_) {
        const bool over = grip_at(map, event.position()).has_value();
        map.setCursor(over ? Qt::SizeAllCursor : Qt::OpenHandCursor);
        return false;
    }
    move_to(map, map.world_at(event.position()));
    return true;
}

void LineHand::move_to(MapViewWidget& map, Point pointer) {
    const Point by = pointer - drag_->from;
    if (norm_m(by) * map.px_per_m() < kLeast_px && drag_->lines == drag_->planned) return;
    if (mover_ == nullptr || (*feedings_)[drag_->feeding].in_rings) return;
    drag_->lines = drag_->planned;
    Polyline& line = drag_->lines[drag_->line];
    if (drag_->grip == Grip::whole) {
        for (Point& p : line) p = p + by;
    } else {
        line = with_end_moved(line, by, drag_->grip == Grip::start);
    }
    drag_->told.reset();
    map.update();
    if (telling_) return;
    // After the events that wait, so that figures never lag behind a fast hand.
    telling_ = true;
    QMetaObject::invokeMethod(
        this, [this] { tell(); }, Qt::QueuedConnection);
}

void LineHand::tell() {
    telling_ = false;
    if (!drag_ || drag_->told || mover_ == nullptr) return;
    auto moved = mover_->move(drag_->feeding, drag_->lines);
    if (!moved) {
        emit failed(moved.error());
        return;
    }
    drag_->told = std::move(*moved);
    emit moving(drag_->feeding, *drag_->told);
}

bool LineHand::release(MapViewWidget& map, QMouseEvent& event) {
    if (event.button() != Qt::LeftButton || !drag_ || by_keys_) return false;
    drop(map);
    return true;
}

void LineHand::drop(MapViewWidget& map) {
    if (drag_->lines != drag_->planned) tell();
    const std::optional<Drag> drag = std::exchange(drag_, std::nullopt);
    by_keys_ = false;
    map.update();
    if (drag->told) emit dropped(drag->feeding, drag->lines, *drag->told);
}

void LineHand::give_up(MapViewWidget& map) {
    drag_.reset();
    by_keys_ = false;
    map.update();
    emit given_up();
}

bool LineHand::key(MapViewWidget& map, QKeyEvent& event) {
    if (drag_ && event.key() == Qt::Key_Escape) {
        give_up(map);
        return true;
    }
    if (drag_ && by_keys_ && (event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter)) {
        drop(map);
        return true;
    }
    if (!(event.modifiers() & Qt::ControlModifier) || !selected_ || feedings_ == nullptr)
        return false;
    Point by;
    if (event.key() == Qt::Key_Left) by = {-kNudge_m, 0.0};
    if (event.key() == Qt::Key_Right) by = {kNudge_m, 0.0};
    if (event.key() == Qt::Key_Up) by = {0.0, kNudge_m};
    if (event.key() == Qt::Key_Down) by = {0.0, -kNudge_m};
    if (by == Point{}) return false;
    if (!drag_) {
        const MultiPolyline lines = lines_of(*selected_);
        if (lines.empty()) return false;
        drag_ = Drag{.feeding = *selected_, .planned = lines, .lines = lines};
        by_keys_ = true;
        nudged_ = {};
    }
    nudged_ = nudged_ + by;
    move_to(map, drag_->from + nudged_);
    return true;
}

void LineHand::paint(const MapViewWidget& map, QPainter& painter) const {
    for (const Polygon& area : closed_) {
        QPainterPath path = map.path_of(area.outer);
        path.closeSubpath();
        for (const Ring& hole : area.holes) {
            path.addPath(map.path_of(hole));
            path.closeSubpath();
        }
        painter.fillPath(path, QBrush(look::kRust, Qt::BDiagPattern));
        painter.setPen(QPen(look::kRust, 1.5));
        painter.drawPath(path);
    }
    if (feedings_ == nullptr || !selected_) return;
    const bool dragging = drag_ && drag_->feeding == *selected_;
    const MultiPolyline lines = dragging ? drag_->lines : lines_of(*selected_);
    const bool allowed = !dragging || !drag_->told || drag_->told->broken.empty();
    const QColor color = allowed ? look::kHay : look::kRust;
    for (const Polyline& line : lines) {
        if (line.size() < 2) continue;
        QColor wash = color;
        wash.setAlpha(130);
        painter.setPen(QPen(wash, 9.0, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        painter.drawPath(map.path_of(line));
        painter.setPen(QPen(look::kInk, 2.0));
        if (dragging) painter.drawPath(map.path_of(line));
        if ((*feedings_)[*selected_].in_rings) continue;
        painter.setBrush(look::kPaper);
        for (const Point& end : {line.front(), line.back()})
            painter.drawEllipse(map.place_of(end), 5.0, 5.0);
        painter.setBrush(Qt::NoBrush);
    }
}

}  // namespace haylane
