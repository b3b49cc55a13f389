#include "app/desktop/ranch/shape_hand.h"

#include "app/desktop/look.h"
#include "app/desktop/map/map_view_widget.h"
#include "core/geometry/snap.h"
#include "gis/book/roles.h"

#include <algorithm>

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

namespace haylane {
namespace {

constexpr double kNear_px = 8.0;
constexpr double kSnap_px = 9.0;

std::string name_of_row(const std::string& role, const RawRow& row) {
    const auto columns = columns_of(role);
    return columns.empty() ? std::string() : row.text(columns.front()->book);
}

// Areas below lines below points, so that the small stays within reach.
int layer_of(const RowShape& shape) {
    if (is_area(shape)) return 0;
    return std::holds_alternative<MultiPolyline>(shape) ? 1 : 2;
}

bool is_kept_together(const std::string& role) { return role == "pastures"; }

}  // namespace

std::vector<DrawnRow> drawn_rows(const RawRanch& raw) {
    std::vector<DrawnRow> all;
    for (const auto& [role, rows] : raw.roles) {
        if (role == "feedings") continue;  // on record, not drawn
        for (const RawRow& row : rows) {
            if (std::holds_alternative<std::monostate>(row.shape)) continue;
            all.push_back({role, row.uuid, name_of_row(role, row), row.shape});
        }
    }
    std::stable_sort(all.begin(), all.end(), [](const DrawnRow& a, const DrawnRow& b) {
        return layer_of(a.shape) < layer_of(b.shape);
    });
    return all;
}

void ShapeHand::set_rows(std::vector<DrawnRow> rows) {
    const std::string was = picked_ ? rows_[*picked_].uuid : std::string();
    rows_ = std::move(rows);
    moved_.clear();
    grip_.reset();
    picked_.reset();
    pick(was);
}

void ShapeHand::pick(const std::string& uuid) {
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < rows_.size(); ++i)
        if (!uuid.empty() && rows_[i].uuid == uuid) found = i;
    set_picked(found);
}

const DrawnRow* ShapeHand::picked() const { return picked_ ? &rows_[*picked_] : nullptr; }

void ShapeHand::set_picked(std::optional<std::size_t> row) {
    const bool same = row == picked_;
    picked_ = row;
    if (!same) corner_.reset();
    if (!same) emit picked_changed();
}

std::string ShapeHand::name_of(std::size_t row) const {
    return rows_[row].name.empty() ? rows_[row].role : rows_[row].name;
}

Point ShapeHand::snapped_to_fences(const MapViewWidget& map, Point p) const {
    MultiPolyline fences;
    for (const DrawnRow& row : rows_) {
        if (!is_kept_together(row.role)) continue;
        for (Polyline& line : outline_of(row.shape)) fences.push_back(std::move(line));
    }
    return snapped(p, fences, kSnap_px / map.px_per_m());
}

std::optional<std::size_t> ShapeHand::row_at(const MapViewWidget& map, QPointF place) const {
    const Point at = map.world_at(place);
    const double near_m = kNear_px / map.px_per_m();
    for (std::size_t i = rows_.size(); i-- > 0;) {
        const RowShape& shape = rows_[i].shape;
        const auto on_line = on_outline(shape, at);
        if (on_line && distance_m(*on_line, at) <= near_m) return i;
        if (on_line) continue;
        for (const Point& p : corners_of(shape))
            if (distance_m(p, at) <= near_m) return i;
    }
    for (std::size_t i = rows_.size(); i-- > 0;) {
        const auto* area = std::get_if<MultiPolygon>(&rows_[i].shape);
        if (area != nullptr && contains(*area, at)) return i;
    }
    return std::nullopt;
}

std::optional<Point> ShapeHand::corner_at(const MapViewWidget& map, QPointF place) const {
    if (!picked_) return std::nullopt;
    const Point at = map.world_at(place);
    std::optional<Point> nearest;
    for (const Point& p : corners_of(rows_[*picked_].shape)) {
        if (distance_m(p, at) * map.px_per_m() > kNear_px) continue;
        if (!nearest || distance_m(p, at) < distance_m(*nearest, at)) nearest = p;
    }
    return nearest;
}

bool ShapeHand::press(MapViewWidget& map, QMouseEvent& event) {
    if (event.button() != Qt::LeftButton) return false;
    corner_ = corner_at(map, event.position());
    if (!corner_) {
        set_picked(row_at(map, event.position()));
        // A point is its own corner, dragged at once; inside an area the map itself is dragged.
        if (picked_ && layer_of(rows_[*picked_].shape) == 2)
            corner_ = corner_at(map, event.position());
    }
    grip_ = corner_;
    map.update();
    return grip_.has_value();
}

bool ShapeHand::move(MapViewWidget& map, QMouseEvent& event) {
    if (!grip_) {
        const bool over = corner_at(map, event.position()).has_value();
        map.setCursor(over ? Qt::SizeAllCursor : Qt::OpenHandCursor);
        return false;
    }
    const Point pointer = map.world_at(event.position());
    const Point from = *grip_;
    moved_ = changed([from](RowShape& shape) { return move_corners(shape, from, from); });
    // To the fences that do not go along.
    MultiPolyline fences;
    for (const DrawnRow& row : rows_) {
        const bool goes = std::any_of(moved_.begin(), moved_.end(), [&](const DrawnRow& moved) {
            return moved.uuid == row.uuid;
        });
        if (goes || !is_kept_together(row.role)) continue;
        for (Polyline& line : outline_of(row.shape)) fences.push_back(std::move(line));
    }
    const Point to = snapped(pointer, fences, kSnap_px / map.px_per_m());
    for (DrawnRow& row : moved_) move_corners(row.shape, from, to);
    corner_ = to;
    map.update();
    return true;
}

bool ShapeHand::release(MapViewWidget& map, QMouseEvent& event) {
    if (event.button() != Qt::LeftButton || !grip_) return false;
    grip_.reset();
    const std::vector<DrawnRow> now = std::exchange(moved_, {});
    if (!now.empty()) ask(tr("move in %1").arg(QString::fromStdString(name_of(*picked_))), now);
    map.update();
    return true;
}

bool ShapeHand::double_click(MapViewWidget& map, QMouseEvent& event) {
    if (event.button() != Qt::LeftButton || !picked_) return false;
    const Point at = map.world_at(event.position());
    const auto place = on_outline(rows_[*picked_].shape, at);
    if (!place || distance_m(*place, at) * map.px_per_m() > kNear_px) return false;
    const auto now = changed([at = *place](RowShape& shape) { return add_corner(shape, at); });
    corner_ = *place;
    ask(tr("set a corner in %1").arg(QString::fromStdString(name_of(*picked_))), now);
    return true;
}

bool ShapeHand::key(MapViewWidget& map, QKeyEvent& event) {
    if (event.key() == Qt::Key_Escape && (picked_ || grip_)) {
        moved_.clear();
        grip_.reset();
        set_picked(std::nullopt);
        map.update();
        return true;
    }
    if (event.key() != Qt::Key_Delete || !picked_) return false;
    const QString name = QString::fromStdString(name_of(*picked_));
    if (!corner_ || layer_of(rows_[*picked_].shape) == 2) {
        const DrawnRow& row = rows_[*picked_];
        emit edit_wanted(tr("take out %1").arg(name),
                         {{.role = row.role, .uuid = row.uuid, .take_out = true}});
        return true;
    }
    const auto now = changed([at = *corner_](RowShape& shape) { return remove_corner(shape, at); });
    corner_.reset();
    if (!now.empty()) ask(tr("take a corner of %1 away").arg(name), now);
    map.update();
    return true;
}

std::vector<DrawnRow> ShapeHand::changed(const std::function<bool(RowShape& shape)>& change) const {
    std::vector<DrawnRow> all;
    const bool together = is_kept_together(rows_[*picked_].role);
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        if (i != *picked_ && !(together && is_kept_together(rows_[i].role))) continue;
        DrawnRow row = rows_[i];
        if (change(row.shape)) all.push_back(std::move(row));
    }
    return all;
}

void ShapeHand::ask(const QString& what, const std::vector<DrawnRow>& now) {
    std::vector<RowEdit> edits;
    for (const DrawnRow& row : now) {
        edits.push_back({.role = row.role, .uuid = row.uuid, .shape = row.shape});
        // Shown until the book is read again.
        for (DrawnRow& shown : rows_)
            if (shown.uuid == row.uuid) shown.shape = row.shape;
    }
    emit edit_wanted(what, edits);
}

void ShapeHand::paint(const MapViewWidget& map, QPainter& painter) const {
    if (!picked_) return;
    const auto draw = [&](const DrawnRow& row, bool handles) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(look::kHay, 3.0));
        for (const Polyline& line : outline_of(row.shape)) painter.drawPath(map.path_of(line));
        if (!handles) return;
        painter.setPen(QPen(look::kInk, 1.5));
        for (const Point& p : corners_of(row.shape)) {
            painter.setBrush(corner_ && distance_m(*corner_, p) < 0.5 ? look::kHay : look::kPaper);
            painter.drawRect(QRectF(map.place_of(p) - QPointF(4, 4), QSizeF(8, 8)));
        }
    };
    const std::string& uuid = rows_[*picked_].uuid;
    const auto own = std::find_if(moved_.begin(), moved_.end(),
                                  [&](const DrawnRow& row) { return row.uuid == uuid; });
    for (const DrawnRow& row : moved_) draw(row, false);
    draw(own == moved_.end() ? rows_[*picked_] : *own, true);
}

}  // namespace haylane
