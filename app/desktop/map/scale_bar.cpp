#include "app/desktop/map/scale_bar.h"

#include "app/desktop/look.h"
#include "core/base/units.h"

#include <algorithm>
#include <array>
#include <utility>

#include <QPainterPath>

namespace haylane {
namespace {

constexpr double kLongestPx = 130.0;
constexpr double kSlipHeight = 34.0;

// 1, 2 or 5 times a power of ten, at most `longest`; from 0.1 to 500,000; 0 when it is under 0.1.
double round_length(double longest) {
    double best = 0.0;
    for (const double power : {0.1, 1.0, 10.0, 100.0, 1.0e3, 1.0e4, 1.0e5}) {
        for (const double digit : {1.0, 2.0, 5.0}) {
            if (digit * power <= longest) best = digit * power;
        }
    }
    return best;
}

ScaleBar in_metres(double length_m) {
    if (length_m < 1000.0) return {length_m, QStringLiteral("%1 m").arg(length_m)};
    return {length_m, QStringLiteral("%1 km").arg(length_m / 1000.0)};
}

void paint_north(QPainter& painter, QPointF foot) {
    QPainterPath arrow(foot + QPointF(0.0, -22.0));
    arrow.lineTo(foot + QPointF(5.0, -9.0));
    arrow.lineTo(foot + QPointF(0.0, -12.0));
    arrow.lineTo(foot + QPointF(-5.0, -9.0));
    arrow.closeSubpath();
    painter.fillPath(arrow, look::kInk);
    painter.setPen(look::kInk);
    painter.drawText(QRectF(foot.x() - 10.0, foot.y() - 10.0, 20.0, 12.0), Qt::AlignCenter, "N");
}

void paint_bar(QPainter& painter, QPointF left, double length, const QString& text) {
    painter.setPen(QPen(look::kInk, 1.0));
    painter.setBrush(look::kPaper);
    painter.drawRect(QRectF(left, QSizeF(length, 4.0)));
    painter.fillRect(QRectF(left, QSizeF(length / 2.0, 4.0)), look::kInk);
    painter.drawText(left + QPointF(0.0, -4.0), text);
}

}  // namespace

std::optional<ScaleBar> round_scale_bar(double longest_m, bool metric) {
    if (metric) {
        const double length = round_length(longest_m);
        if (length <= 0.0) return std::nullopt;
        return in_metres(length);
    }
    static constexpr std::array<std::pair<double, const char*>, 7> kMiles{{{20.0, "20 miles"},
                                                                           {10.0, "10 miles"},
                                                                           {5.0, "5 miles"},
                                                                           {2.0, "2 miles"},
                                                                           {1.0, "1 mile"},
                                                                           {0.5, "½ mile"},
                                                                           {0.25, "¼ mile"}}};
    for (const auto& [miles, text] : kMiles) {
        const double length_m = miles * units::kMetersPerMile;
        if (length_m <= longest_m) return ScaleBar{length_m, QString::fromUtf8(text)};
    }
    const double feet = round_length(longest_m / units::kMetersPerFoot);
    if (feet < 1.0) return std::nullopt;
    return ScaleBar{feet * units::kMetersPerFoot, QStringLiteral("%1 ft").arg(feet)};
}

void paint_scale_bar(QPainter& painter, QPointF corner, double px_per_m, bool metric) {
    if (px_per_m <= 0.0) return;
    const auto bar = round_scale_bar(kLongestPx / px_per_m, metric);
    if (!bar) return;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing, false);
    QFont font = painter.font();
    font.setPixelSize(12);
    painter.setFont(font);
    const double length = bar->length_m * px_per_m;
    const double text_width = QFontMetricsF(font).horizontalAdvance(bar->text);
    const QRectF slip(corner.x(), corner.y() - kSlipHeight, 42.0 + std::max(length, text_width),
                      kSlipHeight);
    painter.setPen(look::kFadedInk);
    painter.setBrush(look::kPaper);
    painter.drawRect(slip);
    painter.setRenderHint(QPainter::Antialiasing);
    paint_north(painter, slip.bottomLeft() + QPointF(15.0, -5.0));
    paint_bar(painter, slip.bottomLeft() + QPointF(31.0, -12.0), length, bar->text);
    painter.restore();
}

}  // namespace haylane
