#pragma once
// J of a complete choice, worked out from scratch, and the evenness it leaves.

#include "core/plan/choice_model.h"

#include <vector>

namespace haylane {

// By ground: L + sum G + sum W - T in kg a cell. chosen: candidate by feeding, -1 for none.
[[nodiscard]] std::vector<Raster<double>> residuals(const ChoiceModel& model,
                                                    const std::vector<int>& chosen);
// The same of lines laid whether or not they are among the candidates; none where there are none.
[[nodiscard]] std::vector<Raster<double>> residuals(const ChoiceModel& model,
                                                    const LineChoiceInput& input,
                                                    const std::vector<Candidate>& laid);
// <u, u> over all grounds.
[[nodiscard]] double square_of(const ChoiceModel& model,
                               const std::vector<Raster<double>>& residual);
// Coefficient of variation over the target ground of all grounds together; 0 when nothing lies
// there.
[[nodiscard]] double cv_of(const ChoiceModel& model, const std::vector<Raster<double>>& residual);
// <residual, residual> + lambda x money / money_min.
[[nodiscard]] double plan_objective(const ChoiceModel& model, const std::vector<int>& chosen);
// Coefficient of variation of the windowed load over the target ground of all grounds together;
// 0 when nothing lies there.
[[nodiscard]] double plan_cv(const ChoiceModel& model, const std::vector<int>& chosen);

}  // namespace haylane
