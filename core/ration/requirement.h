#pragma once
// What share of crude protein and TDN a ration must hold, by stage; and which stage a herd is in on
// a date.

#include <optional>

#include "core/base/day.h"
#include "core/ranch/ranch.h"

namespace haylane {

struct Requirement {
    double cp_ratio = 0.0;   // of DM
    double tdn_ratio = 0.0;  // of DM
};

// nullopt where the tables do not reach (growing heifers, bulls, other).
[[nodiscard]] std::optional<Requirement> requirement(Stage stage);
// The herd's stage on a day: its own word, or by calving dates when given (late gestation from 90
// days before calving_from; lactating from calving_from on).
[[nodiscard]] Stage stage_on(const Herd& herd, sys_days day);
[[nodiscard]] bool is_lactating(Stage stage);
[[nodiscard]] bool is_pregnant(Stage stage);

}  // namespace haylane
