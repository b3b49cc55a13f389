#include "core/season/value_class.h"

#include <array>
#include <cmath>

namespace haylane {

ValueClass class_of(double value) {
    if (value == 0.0 || !std::isfinite(value)) return {value, value};
    if (value < 0.0) {
        const ValueClass mirror = class_of(-value);
        return {-mirror.to, -mirror.from};
    }
    const double decade = std::pow(10.0, std::floor(std::log10(value)));
    constexpr std::array<double, 6> kSteps{0.5, 1.0, 2.0, 5.0, 10.0, 20.0};
    ValueClass found{decade, 2.0 * decade};
    for (std::size_t i = 0; i + 1 < kSteps.size(); ++i) {
        if (value >= kSteps[i] * decade) found = {kSteps[i] * decade, kSteps[i + 1] * decade};
    }
    return found;
}

}  // namespace haylane
