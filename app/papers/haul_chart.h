#pragma once
// Cost a ton against distance: a line a rig on level gravel, and a mark for each of the ranch's
// ways.

#include "app/papers/haul_words.h"
#include "app/papers/sheet.h"

namespace haylane {

// False where money is not known, or nothing is reached.
[[nodiscard]] bool has_haul_chart(const HaulAccount& account);
void paint_haul_chart(Sheet& sheet, const QRectF& box, const HaulAccount& account,
                      const HaulWords& words);
[[nodiscard]] std::string haul_chart_title(const HaulWords& words);
// What lines and marks are.
[[nodiscard]] std::string haul_chart_words();

}  // namespace haylane
