#pragma once
// Charts of the reports: the curve of share of load against share of ground, seasons side by side,
// soil tests against load, cost against distance. Each fills its rectangle, axis words included.

#include "app/papers/ground_words.h"
#include "app/papers/sheet.h"
#include "core/geometry/raster.h"

#include <vector>

#include <QRectF>

namespace haylane {

// Lightest ground first; the diagonal is even ground. `curve` as deposit_curve gives it.
void paint_curve(Sheet& sheet, const QRectF& box, const std::vector<double>& curve,
                 const QString& measure);
// The curve over several pastures' thinned loads (NaN outside), each cell weighted by its size.
[[nodiscard]] std::vector<double> curve_over(const std::vector<const Raster<float>*>& loads);
// Bars of the mean of each season on record.
struct SeasonBar {
    QString name;
    double value = 0.0;
    QString label;  // the figure or class over the bar
};
void paint_seasons(Sheet& sheet, const QRectF& box, const std::vector<SeasonBar>& bars,
                   const QString& unit);
struct ScatterDot {
    double x = 0.0;
    double y = 0.0;
};
void paint_scatter(Sheet& sheet, const QRectF& box, const std::vector<ScatterDot>& dots,
                   const QString& x_words, const QString& y_words);

// Straight lines from nothing to `far`, each with its marks and its name at its end.
struct CostLine {
    QString name;
    double at_start = 0.0;
    double at_far = 0.0;
    std::vector<ScatterDot> dots;
};
void paint_cost_lines(Sheet& sheet, const QRectF& box, const std::vector<CostLine>& lines,
                      double far, const QString& x_words, const QString& y_words);

}  // namespace haylane
