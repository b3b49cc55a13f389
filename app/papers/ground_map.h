#pragma once
// Maps of the ground report: loads in steps, changes and chances, under the ranch's fences; and
// their legends.

#include "app/papers/ground_picture.h"
#include "app/papers/ground_words.h"
#include "app/papers/map_painter.h"

#include <optional>
#include <vector>

namespace haylane {

// A picture of amounts, each in the colour of its step; clear outside.
[[nodiscard]] MapPicture load_picture(const Raster<float>& per_m2, SeasonMeasure measure,
                                      const GroundWords& words);
// The same on a map, and lines round what lies over the limit, where there is one.
void add_load(MapContent& content, const Raster<float>& per_m2, SeasonMeasure measure,
              std::optional<double> limit_per_m2, const GroundWords& words);
// Lines round what lies over a limit; open where they meet the fence.
[[nodiscard]] std::vector<Polyline> limit_outline(const Raster<float>& per_m2, double limit_per_m2);
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
// "P2O5 put down in these dates, lb/ac; outlined where over the limit"
[[nodiscard]] QString load_title(SeasonMeasure measure, const QString& when, bool outlined,
                                 const GroundWords& words);
double paint_legend(Sheet& sheet, QPointF top_left, double width, const QString& title,
                    const std::vector<LegendEntry>& entries);

}  // namespace haylane
