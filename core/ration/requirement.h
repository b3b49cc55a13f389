#pragma once
// What share of crude protein and TDN a ration must hold, by stage; and which stage a herd is in on
// a date.

#include "core/base/day.h"
#include "core/ranch/ranch.h"

#include <optional>

namespace haylane {

struct Requirement {
    double cp_ratio = 0.0;   // of DM
    double tdn_ratio = 0.0;  // of DM
};

// nullopt where the tables do not reach (growing heifers, bulls, other).
[[nodiscard]] std::optional<Requirement> requirement(Stage stage);
// The herd's stage on a day: its own word, or by calving dates when given (late gestation from 90
// days before calving_from; lactating from calving_from on, for 205 days). Growing heifers and
// bulls keep their own word; heifers stay first-calf heifers. A dated calving_from speaks for that
// calving only, a yearly one for every year.
[[nodiscard]] Stage stage_on(const Herd& herd, sys_days day);
[[nodiscard]] bool is_lactating(Stage stage);
// Whether to feed as if in calf: dry cows count, since a winter's dry cows mostly are.
[[nodiscard]] bool is_pregnant(Stage stage);

}  // namespace haylane
