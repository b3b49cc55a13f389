#pragma once
// The week sheet's front page, complete by itself: hay line, map, safety block, a row per herd and
// day with a box to tick. Nothing is below 12 points and nothing is cut: where the rows are too
// many, they first share words, then the map shrinks to 3.2 inches, then later days go to the next
// page.

#include "app/papers/row_text.h"
#include "app/papers/sheet.h"
#include "core/plan/plan.h"
#include "core/ranch/ranch.h"

#include <cstddef>

#include <QImage>

namespace haylane {

struct SheetInput {
    const Plan& plan;
    const Ranch& ranch;
    const QImage& shade;
    bool metric = false;
    int pages = 0;  // 0 while not yet known
};

// Paints on the sheet's current page; gives the rows that found no room, for the next page.
[[nodiscard]] std::vector<HerdRows> paint_front_page(Sheet& sheet, const SheetInput& input);
// One herd's heading and rows with their boxes; gives the height used.
double paint_herd_rows(Sheet& sheet, const HerdRows& herd, int size_pt, QPointF top_left,
                       double width);
[[nodiscard]] double height_of_herd_rows(const HerdRows& herd, int size_pt, double width);

}  // namespace haylane
