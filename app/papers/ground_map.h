#pragma once
// Maps of the ground report: loads in steps, changes and chances, under the ranch's fences; and
// their legends.

#include "app/papers/ground_picture.h"
#include "app/papers/ground_words.h"
#include "app/papers/map_painter.h"

#include <vector>

namespace haylane {

// A picture of amounts, each in the colour of its step; clear outside.
[[nodiscard]] MapPicture load_picture(const Raster<float>& per_m2, SeasonMeasure measure,
                                      const GroundWords& words);
// Less and more than the season before; `most` gets the full colours.
[[nodiscard]] MapPicture change_picture(const Raster<float>& per_m2, double most_per_m2);
// Chances from 0 to 1.
[[nodiscard]] MapPicture chance_picture(const Raster<float>& chance);
// The greatest size of a finite value; 0 for none.
[[nodiscard]] double greatest(const Raster<float>& values);

// A row of boxes with their labels at a height; gives the height used.
struct LegendEntry {
    QColor color;
    QString label;
};
[[nodiscard]] std::vector<LegendEntry> load_legend();
double paint_legend(Sheet& sheet, QPointF top_left, double width, const QString& title,
                    const std::vector<LegendEntry>& entries);

}  // namespace haylane
