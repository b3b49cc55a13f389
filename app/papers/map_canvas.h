#pragma once
// Shared by the map painter's parts: the painter with its transform and pens, and the inks. Page
// units. For use inside app/papers only.

#include "app/papers/map_painter.h"

#include <vector>

#include <QColor>
#include <QPainterPath>
#include <QPen>

namespace haylane {

inline constexpr QRgb kMapInk = qRgb(0x1c, 0x19, 0x15);
inline constexpr QRgb kMapPaper = qRgb(0xfb, 0xf6, 0xea);

struct Canvas {
    QPainter& painter;
    const MapView& view;
    const MapStyle& style;

    [[nodiscard]] QPen pen(const QColor& color, double width) const {
        QPen made(color, width * style.ink);
        made.setCapStyle(Qt::FlatCap);
        made.setJoinStyle(Qt::RoundJoin);
        return made;
    }
    [[nodiscard]] QPainterPath path(const Polyline& line) const {
        QPainterPath made;
        for (std::size_t i = 0; i < line.size(); ++i) {
            const QPointF at = view.to_page(line[i]);
            i == 0 ? made.moveTo(at) : made.lineTo(at);
        }
        return made;
    }
    [[nodiscard]] QPainterPath path(const MultiPolyline& lines) const {
        QPainterPath made;
        for (const Polyline& line : lines) made.addPath(path(line));
        return made;
    }
    [[nodiscard]] QPainterPath path(const MultiPolygon& shape) const {
        QPainterPath made = path(boundary_lines(shape));
        made.setFillRule(Qt::OddEvenFill);
        return made;
    }
};

// Bottom left corner: north arrow, scale bar, its length. Gives the box that they take.
[[nodiscard]] QRectF paint_north_and_scale(const Canvas& canvas, MapRecord& record);
// All names, none on another or on a `taken` box.
void paint_names(const Canvas& canvas, const Ranch& ranch, const MapContent& content,
                 const std::vector<QRectF>& taken, MapRecord& record);

}  // namespace haylane
