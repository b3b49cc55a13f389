#include "app/papers/ground_map.h"

#include "app/papers/flow.h"
#include "app/papers/ground_ramp.h"
#include "core/lines/isolines.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace haylane {
namespace {

constexpr int kLegendText = 8;
constexpr double kBox = 9.0;

template <class ColorOf>
MapPicture picture_of(const Raster<float>& values, ColorOf color_of_value) {
    const Grid& grid = values.grid;
    MapPicture picture{QImage(std::max(1, grid.nx), std::max(1, grid.ny), QImage::Format_ARGB32),
                       {}};
    picture.image.fill(Qt::transparent);
    picture.at.add({grid.x0, grid.y0});
    picture.at.add({grid.x0 + grid.nx * grid.cell_m, grid.y0 + grid.ny * grid.cell_m});
    for (int j = 0; j < grid.ny; ++j) {
        for (int i = 0; i < grid.nx; ++i) {
            const float value = values(i, j);
            if (std::isfinite(value))
                picture.image.setPixelColor(i, grid.ny - 1 - j,
                                            color_of_value(static_cast<double>(value)));
        }
    }
    return picture;
}

}  // namespace

MapPicture load_picture(const Raster<float>& per_m2, SeasonMeasure measure,
                        const GroundWords& words) {
    std::array<QColor, kLoadSteps.size() + 1> colors;
    for (std::size_t step = 0; step < colors.size(); ++step)
        colors[step] = step_color(static_cast<int>(step));
    return picture_of(per_m2, [&](double value) {
        return colors[static_cast<std::size_t>(load_step(words.rate_value(value, measure)))];
    });
}

std::vector<Polyline> limit_outline(const Raster<float>& per_m2, double limit_per_m2) {
    Raster<double> values(per_m2.grid);
    std::copy(per_m2.values.begin(), per_m2.values.end(), values.values.begin());
    return isolines(values, {.first = limit_per_m2}).front();
}

void add_load(MapContent& content, const Raster<float>& per_m2, SeasonMeasure measure,
              std::optional<double> limit_per_m2, const GroundWords& words) {
    content.pictures.push_back(load_picture(per_m2, measure, words));
    if (!limit_per_m2) return;
    for (Polyline& line : limit_outline(per_m2, *limit_per_m2))
        content.outlines.push_back(std::move(line));
}

MapPicture change_picture(const Raster<float>& per_m2, double most_per_m2) {
    const double most = std::max(1e-12, most_per_m2);
    // Steps of a fifth, so that bands can be told apart in print.
    return picture_of(per_m2, [&](double value) {
        return change_color(std::round(5.0 * std::clamp(value / most, -1.0, 1.0)) / 5.0);
    });
}

MapPicture chance_picture(const Raster<float>& chance) {
    return picture_of(chance, [](double value) {
        const double quarter = std::round(value * 4.0) / 4.0;
        return quarter > 0.0 ? load_color(quarter) : QColor(Qt::transparent);
    });
}

double greatest(const Raster<float>& values) {
    double most = 0.0;
    for (const float value : values.values) {
        if (std::isfinite(value)) most = std::max(most, std::abs(static_cast<double>(value)));
    }
    return most;
}

std::vector<LegendEntry> load_legend() {
    std::vector<LegendEntry> entries;
    for (int step = 0; step <= static_cast<int>(kLoadSteps.size()); ++step)
        entries.push_back({step_color(step), step_label(step)});
    return entries;
}

QString load_title(SeasonMeasure measure, const QString& when, bool outlined,
                   const GroundWords& words) {
    QString title =
        QStringLiteral("%1 put down %2, %3%4")
            .arg(GroundWords::name(measure), when, words.rate_unit(measure),
                 outlined ? QStringLiteral("; outlined where over the limit") : QString());
    title[0] = title[0].toUpper();
    return title;
}

double paint_legend(Sheet& sheet, QPointF top_left, double width, const QString& title,
                    const std::vector<LegendEntry>& entries) {
    double y = top_left.y();
    y += sheet.put(Rich(title, true), kLegendText, {top_left.x(), y}, width) + 2.0;
    double x = top_left.x();
    for (const LegendEntry& entry : entries) {
        const double taken = kBox + 3.0 + width_of(entry.label, kLegendText) + 8.0;
        if (x + taken > top_left.x() + width && x > top_left.x()) {
            x = top_left.x();
            y += kBox + 4.0;
        }
        sheet.painter().setPen(QPen(QColor(0x1c, 0x19, 0x15), 0.4));
        sheet.painter().setBrush(entry.color);
        sheet.painter().drawRect(QRectF(x, y, kBox, kBox));
        sheet.painter().setBrush(Qt::NoBrush);
        sheet.put(Rich(entry.label), kLegendText, {x + kBox + 3.0, y}, taken);
        x += taken;
    }
    return y + kBox + 4.0 - top_left.y();
}

}  // namespace haylane
