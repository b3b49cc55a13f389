#pragma once
// J of a complete choice, worked out from scratch, and the evenness it leaves.

#include "core/plan/choice_model.h"

#include <vector>

namespace haylane {

// By ground: L + sum G + sum W - T in kg a cell. chosen: candidate by feeding, -1 for none.
[[nodiscard]] std::vector<Raster<double>> residuals(const ChoiceModel& model,
                                                    const std::vector<int>& chosen);
// <residual, residual> + lambda x money / money_min.
[[nodiscard]] double plan_objective(const ChoiceModel& model, const std::vector<int>& chosen);
// Coefficient of variation of the windowed load over the target ground of all grounds together;
// 0 when nothing lies there.
[[nodiscard]] double plan_cv(const ChoiceModel& model, const std::vector<int>& chosen);

}  // namespace haylane
