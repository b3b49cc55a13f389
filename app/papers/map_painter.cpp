// Painter's order: ground, shade, off-limits ground, trails, fences, ways, lines, signs, names.
// Each layer is one function. Setbacks are page-space strokes as wide as twice the setback: exact
// enough for a picture, and no overlay is needed.

#include "app/papers/map_painter.h"

#include "app/papers/map_canvas.h"
#include "core/base/units.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <QPainterPath>
#include <QPainterPathStroker>

namespace haylane {
namespace {

const QColor kHay(0xd9, 0xa4, 0x2b);
const QColor kWater(0x8f, 0xa9, 0xb4);
const QColor kTrail(0x6b, 0x5d, 0x4a);
const QColor kHatch(0x7d, 0x74, 0x66);
const QColor kWay(0x45, 0x3a, 0x2c);
const QColor kMarkedWay(0xe3, 0xb1, 0x3c);

void paint_shade(const Canvas& canvas, const Ranch& ranch, const QImage* shade) {
    if (shade == nullptr || shade->isNull() || !ranch.terrain) return;
    const Grid& grid = ranch.terrain->elevation_m.grid;
    const QPointF northwest = canvas.view.to_page({grid.x0, grid.y0 + grid.ny * grid.cell_m});
    const QPointF southeast = canvas.view.to_page({grid.x0 + grid.nx * grid.cell_m, grid.y0});
    canvas.painter.drawImage(QRectF(northwest, southeast), *shade);
}

void paint_pictures(const Canvas& canvas, const std::vector<MapPicture>& pictures) {
    for (const MapPicture& picture : pictures) {
        canvas.painter.drawImage(QRectF(canvas.view.to_page({picture.at.min_x, picture.at.max_y}),
                                        canvas.view.to_page({picture.at.max_x, picture.at.min_y})),
                                 picture.image);
    }
}

void paint_soft(const Canvas& canvas, const Ranch& ranch) {
    canvas.painter.setPen(Qt::NoPen);
    canvas.painter.setBrush(QColor(0xb9, 0xc2, 0xb4, 0x60));
    for (const SoftGround& soft : ranch.soft) canvas.painter.drawPath(canvas.path(soft.area));
    canvas.painter.setBrush(Qt::NoBrush);
}

// The item itself, and as far as its setback reaches.
QPainterPath setback_path(const Canvas& canvas, const OffLimits& item) {
    const double reach = item.setback_m * canvas.view.units_per_m();
    QPainterPath own = canvas.path(item.area);
    own.addPath(canvas.path(item.lines));
    for (const Point& p : item.points) {
        own.addEllipse(canvas.view.to_page(p), reach, reach);
    }
    if (reach < 0.2) return canvas.path(item.area);
    QPainterPathStroker stroker;
    stroker.setWidth(2.0 * reach);
    stroker.setJoinStyle(Qt::RoundJoin);
    stroker.setCapStyle(Qt::RoundCap);
    QPainterPath all = canvas.path(item.area);
    if (!item.lines.empty() || !item.area.empty()) {
        QPainterPath edges = canvas.path(item.area);
        edges.addPath(canvas.path(item.lines));
        all = all.united(stroker.createStroke(edges));
    }
    for (const Point& p : item.points) {
        QPainterPath disc;
        disc.addEllipse(canvas.view.to_page(p), reach, reach);
        all = all.united(disc);
    }
    return all;
}

// Slanted lines rather than a brush pattern: the same on paper and screen.
void hatch(const Canvas& canvas, const QPainterPath& area) {
    const QRectF box = area.boundingRect().intersected(canvas.view.page);
    if (box.isEmpty()) return;
    canvas.painter.save();
    canvas.painter.setClipPath(area, Qt::IntersectClip);
    canvas.painter.setPen(canvas.pen(kHatch, 0.4));
    const double step = 3.5 * canvas.style.ink;
    const int first = static_cast<int>(std::floor((box.left() - box.height()) / step));
    const int past_last = static_cast<int>(std::ceil(box.right() / step));
    for (int line = first; line < past_last; ++line) {
        const double x = line * step;
        canvas.painter.drawLine(QPointF(x, box.bottom()), QPointF(x + box.height(), box.top()));
    }
    canvas.painter.restore();
}

void paint_off_limits(const Canvas& canvas, const Ranch& ranch) {
    for (const OffLimits& item : ranch.off_limits) hatch(canvas, setback_path(canvas, item));
    for (const OffLimits& item : ranch.off_limits) {
        const bool wet = item.kind == OffLimitsKind::water || item.kind == OffLimitsKind::wetland;
        canvas.painter.setPen(canvas.pen(wet ? kWater.darker(150) : QColor(kMapInk), 0.7));
        canvas.painter.setBrush(wet ? QBrush(kWater) : QBrush(kHatch));
        canvas.painter.drawPath(canvas.path(item.area));
        canvas.painter.setBrush(Qt::NoBrush);
        canvas.painter.setPen(canvas.pen(wet ? kWater.darker(140) : kHatch, wet ? 1.5 : 0.8));
        canvas.painter.drawPath(canvas.path(item.lines));
        for (const Point& p : item.points) {
            canvas.painter.setBrush(wet ? kWater : QColor(kMapPaper));
            canvas.painter.setPen(canvas.pen(QColor(kMapInk), 0.7));
            const QPointF at = canvas.view.to_page(p);
            canvas.painter.drawRect(QRectF(at.x() - 2.0, at.y() - 2.0, 4.0, 4.0));
        }
    }
    canvas.painter.setBrush(Qt::NoBrush);
}

void paint_trail(const Canvas& canvas, const Trail& trail) {
    const QPainterPath path = canvas.path(trail.path);
    QPen pen = canvas.pen(kTrail, 1.3);
    switch (trail.surface) {
        case Surface::paved:
            canvas.painter.strokePath(path, canvas.pen(kTrail, 3.0));
            canvas.painter.strokePath(path, canvas.pen(QColor(kMapPaper), 1.6));
            return;
        case Surface::gravel:
            break;
        case Surface::dirt:
            pen.setDashPattern({5.0, 2.0});
            break;
        case Surface::two_track:
            pen.setWidthF(1.0 * canvas.style.ink);
            pen.setDashPattern({2.0, 2.5});
            break;
    }
    canvas.painter.strokePath(path, pen);
}

void paint_fences(const Canvas& canvas, const Ranch& ranch) {
    for (const Pasture& pasture : ranch.pastures) {
        canvas.painter.strokePath(canvas.path(pasture.shape), canvas.pen(QColor(kMapInk), 0.9));
    }
}

void paint_shelter(const Canvas& canvas, const Ranch& ranch) {
    for (const Shelter& shelter : ranch.shelter) {
        canvas.painter.setPen(canvas.pen(kTrail, 0.5));
        canvas.painter.setBrush(QColor(0x9a, 0xa0, 0x80, 0x90));
        canvas.painter.drawPath(canvas.path(shelter.area));
        canvas.painter.setBrush(Qt::NoBrush);
        canvas.painter.setPen(canvas.pen(QColor(0x5d, 0x63, 0x47), 2.2));
        canvas.painter.drawPath(canvas.path(shelter.lines));
        for (const Point& p : shelter.points) {
            canvas.painter.drawEllipse(canvas.view.to_page(p), 2.0, 2.0);
        }
    }
}

void paint_ways(const Canvas& canvas, const std::vector<Polyline>& ways, bool about_ways) {
    for (const Polyline& way : ways) {
        if (about_ways) canvas.painter.strokePath(canvas.path(way), canvas.pen(kMarkedWay, 6.0));
        QPen pen = canvas.pen(kWay, 1.9);
        pen.setDashPattern({0.8, 1.1});
        canvas.painter.strokePath(canvas.path(way), pen);
    }
}

std::vector<double> dash_of(int herd) {
    static constexpr std::array<std::array<double, 4>, 5> kDashes{{{0.0, 0.0, 0.0, 0.0},
                                                                   {2.2, 1.0, 2.2, 1.0},
                                                                   {0.8, 0.8, 0.8, 0.8},
                                                                   {3.0, 0.8, 0.8, 0.8},
                                                                   {1.5, 2.0, 1.5, 2.0}}};
    const auto& dash = kDashes[static_cast<std::size_t>(herd) % kDashes.size()];
    if (dash[0] == 0.0) return {};
    return {dash.begin(), dash.end()};
}

// Ink with hay inside; a line in pencil is thin.
void stroke_feed_line(QPainter& painter, const QPainterPath& path, int herd, bool firm,
                      double ink) {
    const double width = (firm ? 4.2 : 2.6) * ink;
    QPen outer(QColor(kMapInk), width, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin);
    QPen inner(firm ? kHay : kHay.lighter(125), width - 1.5 * ink, Qt::SolidLine, Qt::FlatCap,
               Qt::RoundJoin);
    const std::vector<double> dash = dash_of(herd);
    painter.strokePath(path, outer);
    painter.strokePath(path, inner);
    if (dash.empty()) return;
    QPen ticks(QColor(kMapInk), width, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin);
    ticks.setDashPattern(QList<qreal>(dash.begin(), dash.end()));
    painter.strokePath(path, ticks);
}

// A bale in its ring: hay in a circle of ink.
void paint_ring(QPainter& painter, QPointF at, bool firm, double ink) {
    painter.setPen(QPen(QColor(kMapInk), (firm ? 1.5 : 0.9) * ink));
    painter.setBrush(firm ? kHay : kHay.lighter(125));
    painter.drawEllipse(at, 3.0 * ink, 3.0 * ink);
    painter.setBrush(Qt::NoBrush);
}

// Rust on a paper rim, so that it stands out on pale and on dark ground.
void paint_outlines(const Canvas& canvas, const std::vector<Polyline>& outlines) {
    for (const auto& [color, width] :
         {std::pair{QColor(kMapPaper), 3.2}, std::pair{QColor(0x9c, 0x3b, 0x1e), 1.6}}) {
        for (const Polyline& line : outlines)
            canvas.painter.strokePath(canvas.path(line), canvas.pen(color, width));
    }
}

void paint_lines(const Canvas& canvas, const std::vector<MapLine>& lines) {
    for (const bool firm : {false, true}) {
        for (const MapLine& line : lines) {
            if (line.firm != firm) continue;
            for (const Point place : line.rings)
                paint_ring(canvas.painter, canvas.view.to_page(place), firm, canvas.style.ink);
            if (!line.rings.empty()) continue;
            stroke_feed_line(canvas.painter, canvas.path(line.path), line.herd, firm,
                             canvas.style.ink);
        }
    }
}

void paint_signs(const Canvas& canvas, const Ranch& ranch) {
    QPainter& painter = canvas.painter;
    painter.setPen(canvas.pen(QColor(kMapInk), 0.9));
    for (const Gate& gate : ranch.gates) {
        const QPointF at = canvas.view.to_page(gate.at);
        painter.setBrush(QColor(kMapPaper));
        painter.drawEllipse(at, 2.6, 2.6);
        painter.drawLine(at + QPointF(-2.6, 2.6), at + QPointF(2.6, -2.6));
    }
    for (const WaterPoint& water : ranch.water) {
        painter.setBrush(kWater);
        painter.drawEllipse(canvas.view.to_page(water.at), 2.8, 2.8);
    }
    for (const Yard& yard : ranch.yards) {
        const QPointF at = canvas.view.to_page(yard.at);
        painter.setBrush(QColor(kMapInk));
        painter.drawPolygon(
            QPolygonF({at + QPointF(-4.5, 3.5), at + QPointF(4.5, 3.5), at + QPointF(4.5, -1.0),
                       at + QPointF(0.0, -5.0), at + QPointF(-4.5, -1.0)}));
    }
    painter.setBrush(Qt::NoBrush);
}

void paint_ground_layers(const Canvas& canvas, const Ranch& ranch, const MapContent& content,
                         const QImage* shade) {
    canvas.painter.fillRect(canvas.view.page, QColor(kMapPaper));
    paint_shade(canvas, ranch, shade);
    paint_pictures(canvas, content.pictures);
    paint_soft(canvas, ranch);
    paint_off_limits(canvas, ranch);
    paint_shelter(canvas, ranch);
    for (const Trail& trail : ranch.trails) paint_trail(canvas, trail);
    paint_fences(canvas, ranch);
    paint_outlines(canvas, content.outlines);
    paint_ways(canvas, content.ways, content.about_ways);
    paint_lines(canvas, content.lines);
    paint_signs(canvas, ranch);
}

}  // namespace

double MapView::units_per_m() const {
    if (world.empty()) return 0.0;
    const double width = std::max(1.0, world.max_x - world.min_x);
    const double height = std::max(1.0, world.max_y - world.min_y);
    return std::min(page.width() / width, page.height() / height);
}

QPointF MapView::to_page(Point p) const {
    const double scale = units_per_m();
    const Point middle{(world.min_x + world.max_x) / 2.0, (world.min_y + world.max_y) / 2.0};
    return page.center() + QPointF((p.x - middle.x) * scale, (middle.y - p.y) * scale);
}

Point MapView::to_world(QPointF p) const {
    const double scale = units_per_m();
    const Point middle{(world.min_x + world.max_x) / 2.0, (world.min_y + world.max_y) / 2.0};
    if (scale <= 0.0) return middle;
    const QPointF from_center = p - page.center();
    return {middle.x + from_center.x() / scale, middle.y - from_center.y() / scale};
}

MapRecord paint_map(QPainter& painter, const MapView& view, const Ranch& ranch,
                    const MapContent& content, const MapStyle& style, const QImage* shade) {
    MapRecord record;
    if (view.units_per_m() <= 0.0) return record;
    const Canvas canvas{painter, view, style};
    painter.save();
    painter.setClipRect(view.page);
    paint_ground_layers(canvas, ranch, content, shade);
    std::vector<QRectF> taken;
    if (style.north_and_scale) taken.push_back(paint_north_and_scale(canvas, record));
    paint_names(canvas, ranch, content, taken, record);
    painter.restore();
    painter.setPen(canvas.pen(QColor(kMapInk), 1.0));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(view.page);
    return record;
}

QString herd_letter(int herd) {
    if (herd < 26) return QString(QChar(u'A' + static_cast<char16_t>(herd)));
    return QStringLiteral("H%1.").arg(herd + 1);
}

void paint_line_sample(QPainter& painter, QPointF left, double length, int herd, bool firm) {
    QPainterPath path(left);
    path.lineTo(left + QPointF(length, 0.0));
    stroke_feed_line(painter, path, herd, firm, 1.0);
}

void paint_ring_sample(QPainter& painter, QPointF left, double length) {
    paint_ring(painter, left + QPointF(length / 2.0, 0.0), true, 1.0);
}

}  // namespace haylane
