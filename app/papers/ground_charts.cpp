#include "app/papers/ground_charts.h"

#include "app/papers/ground_ramp.h"
#include "core/deposit/evenness.h"
#include "core/season/load_figures.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <QPainterPath>

namespace haylane {
namespace {

constexpr int kText = 8;
const QColor kInk(0x1c, 0x19, 0x15);
const QColor kPale(0x9c, 0x90, 0x7c);

// The plot inside its box: room for words below and at the left.
QRectF plot_of(const QRectF& box, double left) { return box.adjusted(left, 4.0, -6.0, -24.0); }

void paint_axes(Sheet& sheet, const QRectF& plot) {
    sheet.painter().setPen(QPen(kInk, 0.7));
    sheet.painter().drawLine(plot.bottomLeft(), plot.bottomRight());
    sheet.painter().drawLine(plot.bottomLeft(), plot.topLeft());
}

void put_right(Sheet& sheet, const QString& text, double right, double y) {
    const double width = width_of(text, kText) + 1.0;
    sheet.put(Rich(text), kText, {right - width, y}, width + 2.0);
}

void put_centred(Sheet& sheet, const QString& text, double center, double y) {
    const double width = width_of(text, kText) + 1.0;
    sheet.put(Rich(text), kText, {center - 0.5 * width, y}, width + 2.0);
}

// The least of 1, 2, 5 times a power of ten that is not less.
double nice_top(double value) {
    if (value <= 0.0) return 1.0;
    const double decade = std::pow(10.0, std::floor(std::log10(value)));
    for (const double step : {1.0, 2.0, 5.0, 10.0}) {
        if (value <= step * decade) return step * decade;
    }
    return 10.0 * decade;
}

}  // namespace

std::vector<double> curve_over(const std::vector<const Raster<float>*>& loads) {
    double least_cell = 1e300;
    for (const Raster<float>* load : loads) least_cell = std::min(least_cell, load->grid.cell_m);
    std::vector<double> values;
    for (const Raster<float>* load : loads) {
        const double size = load->grid.cell_m / least_cell;
        const auto times = static_cast<std::size_t>(std::lround(size * size));
        for (const float value : load->values) {
            if (std::isfinite(value))
                values.insert(values.end(), std::max<std::size_t>(1, times),
                              static_cast<double>(value));
        }
    }
    return deposit_curve(values, kCurveSteps);
}

void paint_curve(Sheet& sheet, const QRectF& box, const std::vector<double>& curve,
                 const QString& measure) {
    if (curve.size() < 2) return;
    const QRectF plot = plot_of(box, 26.0);
    paint_axes(sheet, plot);
    sheet.painter().setPen(QPen(kPale, 0.7, Qt::DashLine));
    sheet.painter().drawLine(plot.bottomLeft(), plot.topRight());
    QPainterPath path(plot.bottomLeft());
    QPainterPath filled(plot.bottomLeft());
    for (std::size_t i = 1; i < curve.size(); ++i) {
        const double share = static_cast<double>(i) / static_cast<double>(curve.size() - 1);
        const QPointF at(plot.left() + share * plot.width(),
                         plot.bottom() - curve[i] * plot.height());
        path.lineTo(at);
        filled.lineTo(at);
    }
    filled.lineTo(plot.bottomRight());
    sheet.painter().fillPath(filled, load_color(0.25));
    sheet.painter().strokePath(path, QPen(kInk, 1.4));
    for (const int share : {0, 50, 100}) {
        const double x = plot.left() + 0.01 * share * plot.width();
        const double y = plot.bottom() - 0.01 * share * plot.height();
        put_centred(sheet, QString::number(share), std::min(x, plot.right() - 6.0),
                    plot.bottom() + 2.0);
        put_right(sheet, QString::number(share), plot.left() - 3.0, y - 5.0);
    }
    put_centred(sheet, QStringLiteral("% of feed ground, lightest first"), plot.center().x(),
                plot.bottom() + 12.0);
    sheet.put(Rich(QStringLiteral("% of the ") + measure), kText,
              {plot.left() + 5.0, plot.top() + 1.0}, plot.width() - 8.0);
}

void paint_seasons(Sheet& sheet, const QRectF& box, const std::vector<SeasonBar>& bars,
                   const QString& unit) {
    if (bars.empty()) return;
    const QRectF plot = plot_of(box, 8.0).adjusted(0.0, 14.0, 0.0, 0.0);
    double most = 0.0;
    for (const SeasonBar& bar : bars) most = std::max(most, bar.value);
    const double top = nice_top(most);
    paint_axes(sheet, plot);
    const double pitch = plot.width() / static_cast<double>(bars.size());
    for (std::size_t i = 0; i < bars.size(); ++i) {
        const double height = bars[i].value / top * plot.height() * 0.85;
        const double center = plot.left() + (static_cast<double>(i) + 0.5) * pitch;
        const double width = std::min(36.0, 0.7 * pitch);
        sheet.painter().setPen(QPen(kInk, 0.6));
        sheet.painter().setBrush(load_color(0.45));
        sheet.painter().drawRect(
            QRectF(center - 0.5 * width, plot.bottom() - height, width, height));
        sheet.painter().setBrush(Qt::NoBrush);
        put_centred(sheet, bars[i].label, center, plot.bottom() - height - 10.0);
        put_centred(sheet, bars[i].name, center, plot.bottom() + 2.0);
    }
    put_centred(sheet, unit, plot.center().x(), plot.bottom() + 12.0);
}

void paint_scatter(Sheet& sheet, const QRectF& box, const std::vector<ScatterDot>& dots,
                   const QString& x_words, const QString& y_words) {
    if (dots.empty()) return;
    const QRectF plot = plot_of(box, 30.0).adjusted(0.0, 12.0, 0.0, 0.0);
    double most_x = 0.0;
    double most_y = 0.0;
    for (const ScatterDot& dot : dots) {
        most_x = std::max(most_x, dot.x);
        most_y = std::max(most_y, dot.y);
    }
    const double top_x = nice_top(most_x);
    const double top_y = nice_top(most_y);
    paint_axes(sheet, plot);
    sheet.painter().setPen(QPen(kInk, 0.8));
    sheet.painter().setBrush(load_color(0.5));
    for (const ScatterDot& dot : dots)
        sheet.painter().drawEllipse(QPointF(plot.left() + dot.x / top_x * plot.width(),
                                            plot.bottom() - dot.y / top_y * plot.height()),
                                    3.0, 3.0);
    sheet.painter().setBrush(Qt::NoBrush);
    put_centred(sheet, QStringLiteral("0"), plot.left(), plot.bottom() + 2.0);
    put_right(sheet, QString::number(top_x), plot.right(), plot.bottom() + 2.0);
    put_right(sheet, QString::number(top_y), plot.left() - 3.0, plot.top() - 4.0);
    put_centred(sheet, x_words, plot.center().x(), plot.bottom() + 12.0);
    sheet.put(Rich(y_words), kText, {plot.left() - 24.0, plot.top() - 14.0}, plot.width() + 24.0);
}

void paint_cost_lines(Sheet& sheet, const QRectF& box, const std::vector<CostLine>& lines,
                      double far, const QString& x_words, const QString& y_words) {
    double most = 0.0;
    for (const CostLine& line : lines) {
        most = std::max({most, line.at_start, line.at_far});
        for (const ScatterDot& dot : line.dots) most = std::max(most, dot.y);
    }
    if (far <= 0.0 || most <= 0.0) return;
    double names = 0.0;
    for (const CostLine& line : lines) names = std::max(names, width_of(line.name, kText));
    const QRectF plot = plot_of(box, 30.0).adjusted(0.0, 14.0, -names - 6.0, 0.0);
    const double top = nice_top(most);
    const auto place = [&](double x, double y) {
        return QPointF(plot.left() + x / far * plot.width(),
                       plot.bottom() - y / top * plot.height());
    };
    paint_axes(sheet, plot);
    QPainter& painter = sheet.painter();
    static const std::array<Qt::PenStyle, 4> kStyles{Qt::SolidLine, Qt::DashLine, Qt::DotLine,
                                                     Qt::DashDotLine};
    // Names stand where their lines end, pushed apart.
    std::vector<std::pair<double, std::size_t>> ends;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const QColor ink =
            load_color(0.3 + 0.6 * static_cast<double>(i) /
                                 static_cast<double>(std::max<std::size_t>(1, lines.size())));
        painter.setPen(QPen(kInk, 1.2, kStyles[i % kStyles.size()]));
        painter.drawLine(place(0.0, lines[i].at_start), place(far, lines[i].at_far));
        painter.setPen(QPen(kInk, 0.4));
        painter.setBrush(ink);
        for (const ScatterDot& dot : lines[i].dots) {
            const QPointF at = place(dot.x, dot.y);
            if (i % 3 == 0)
                painter.drawEllipse(at, 2.6, 2.6);
            else if (i % 3 == 1)
                painter.drawRect(QRectF(at.x() - 2.2, at.y() - 2.2, 4.4, 4.4));
            else
                painter.drawPolygon(QPolygonF(
                    {at + QPointF(0.0, -3.0), at + QPointF(2.8, 2.2), at + QPointF(-2.8, 2.2)}));
        }
        painter.setBrush(Qt::NoBrush);
        ends.emplace_back(place(far, lines[i].at_far).y() - 0.5 * line_pitch(kText), i);
    }
    std::sort(ends.begin(), ends.end());
    double free_from = plot.top();
    for (const auto& [wanted, i] : ends) {
        const double y = std::max(wanted, free_from);
        sheet.put(Rich(lines[i].name), kText, {plot.right() + 4.0, y}, names + 4.0);
        free_from = y + line_pitch(kText);
    }
    put_centred(sheet, QStringLiteral("0"), plot.left(), plot.bottom() + 2.0);
    for (const double share : {0.5, 1.0}) {
        put_centred(sheet, QString::number(share * far, 'f', 1), plot.left() + share * plot.width(),
                    plot.bottom() + 2.0);
        put_right(sheet, QString::number(share * top), plot.left() - 3.0,
                  plot.bottom() - share * plot.height() - 5.0);
    }
    put_centred(sheet, x_words, plot.center().x(), plot.bottom() + 12.0);
    sheet.put(Rich(y_words), kText, {plot.left() - 24.0, plot.top() - 14.0}, plot.width() + 24.0);
}

}  // namespace haylane
