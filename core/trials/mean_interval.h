#pragma once
// Mean of a few measured values with its Student-t interval (Student 1908): t of n - 1 degrees of
// freedom times sd / sqrt(n) to either side, sd with n - 1.

#include <optional>
#include <span>

namespace haylane {

struct MeanInterval {
    int n = 0;
    double mean = 0.0;         // 0 for n = 0
    std::optional<double> sd;  // from 2 values on
    // Half the width of the interval; none below 2 values.
    std::optional<double> half_width;
    [[nodiscard]] bool spans(double value) const {
        return half_width && mean - *half_width <= value && value <= mean + *half_width;
    }
};
// confidence_ratio in (0, 1).
[[nodiscard]] MeanInterval mean_interval(std::span<const double> values,
                                         double confidence_ratio = 0.95);

}  // namespace haylane
