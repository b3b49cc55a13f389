#pragma once
// The words of the week sheet's rows: for each herd a heading and one row a feeding. `shared` rows
// refer to an earlier row of the herd for bales and cautions that are the same ("bales as Mon"),
// and when all rows share, the heading takes the landmark and the cautions that all of them have.

#include "app/papers/sheet.h"
#include "core/plan/plan.h"
#include "core/ranch/ranch.h"

#include <vector>

namespace haylane {

enum class Sharing { none, pencil_rows, all_rows };

struct FeedingRow {
    int day = 1;  // 1 = the plan's first day
    bool firm = true;
    Rich text;
};

struct HerdRows {
    HerdId herd;
    Rich heading;  // herd, pasture, rig, way in
    std::vector<FeedingRow> rows;
    bool in_rings = false;
};

// Herds in file order, those with feedings only; rows by date.
[[nodiscard]] std::vector<HerdRows> herd_rows(const Plan& plan, const Ranch& ranch, bool metric,
                                              Sharing sharing);

// "4 Bottom grass + 2 Alfalfa, Headquarters yard"
[[nodiscard]] QString bales_text(const std::vector<BaleDraw>& bales, const Ranch& ranch);
// "From Creek gate 350 ft NE, lay 900 ft NE toward the windmill, about 7 min", "From Creek gate 350
// ft NE, set 2 bales in the rings, 100 ft apart going NE toward the windmill, about 9 min"
// The landmark may be left out where a heading names it.
struct LayWords {
    bool landmark = true;
    bool terse = false;  // "Creek gate 350 ft NE: lay 900 ft NE, 7 min"
};
[[nodiscard]] QString lay_text(const PlannedFeeding& feeding, bool metric,
                               const LayWords& with = {});
// What holds for whole days, for all herds: "Tue–Thu: cold, energy short; Sat, Sun: thaw". Rows do
// not say it again. Empty when there is nothing.
[[nodiscard]] Rich day_cautions(const Plan& plan);
// The place in "northeast, toward the windmill"; empty when there is none.
[[nodiscard]] QString landmark_of(const PlannedFeeding& feeding);

}  // namespace haylane
