#pragma once
// North arrow and scale bar for the corner of a moving map, on a slip of paper. Round lengths in
// feet and miles, or metres and kilometres.

#include <optional>

#include <QPainter>
#include <QString>

namespace haylane {

struct ScaleBar {
    double length_m = 0.0;
    QString text;
};

// The longest round length of at most `longest_m`; nullopt when that is under a foot (a decimetre).
[[nodiscard]] std::optional<ScaleBar> round_scale_bar(double longest_m, bool metric);

// Paints it with its slip's bottom left corner at `corner`; paints nothing when `px_per_m` is 0.
void paint_scale_bar(QPainter& painter, QPointF corner, double px_per_m, bool metric);

}  // namespace haylane
