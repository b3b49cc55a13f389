#include "core/trials/mean_interval.h"

#include "core/base/require.h"

#include <cmath>
#include <numeric>

#include <boost/math/distributions/students_t.hpp>

namespace haylane {

MeanInterval mean_interval(std::span<const double> values, double confidence_ratio) {
    require(confidence_ratio > 0.0 && confidence_ratio < 1.0, "interval of a mean: confidence");
    MeanInterval result;
    result.n = static_cast<int>(values.size());
    if (values.empty()) return result;
    const auto count = static_cast<double>(values.size());
    result.mean = std::accumulate(values.begin(), values.end(), 0.0) / count;
    if (values.size() < 2) return result;
    double squares = 0.0;
    for (const double v : values) squares += (v - result.mean) * (v - result.mean);
    result.sd = std::sqrt(squares / (count - 1.0));
    const boost::math::students_t student(count - 1.0);
    const double t = boost::math::quantile(student, 0.5 + 0.5 * confidence_ratio);
    result.half_width = t * *result.sd / std::sqrt(count);
    return result;
}

}  // namespace haylane
