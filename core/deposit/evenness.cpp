// Straight from the definitions on a sorted copy. CU: Christiansen 1942. Low quarter: mean of the
// lowest n/4 values, the last one weighted by the fraction. Gini = sum (2i - n - 1) x_(i) / (n^2
// m).
#include "core/deposit/evenness.h"

#include <algorithm>
#include <cmath>

namespace haylane {

namespace {

// Mean of the first `count` values, the last one weighted by the fraction of count.
template <class Iterator>
double mean_of_first(Iterator from, std::size_t available, double count) {
    const auto whole = static_cast<std::size_t>(std::floor(count));
    double total = 0.0;
    for (std::size_t i = 0; i < whole; ++i) total += *from++;
    if (whole < available) total += *from * (count - static_cast<double>(whole));
    return total / count;
}

}  // namespace

std::optional<Evenness> evenness(std::span<const double> values) {
    if (values.empty()) return std::nullopt;
    std::vector<double> sorted(values.begin(), values.end());
    std::sort(sorted.begin(), sorted.end());
    const auto n = static_cast<double>(sorted.size());
    double total = 0.0;
    for (const double x : sorted) total += x;
    Evenness result;
    result.mean = total / n;
    if (result.mean == 0.0) return std::nullopt;
    double squares = 0.0;
    double distances = 0.0;
    double ranked = 0.0;
    std::size_t untouched = 0;
    for (std::size_t i = 0; i < sorted.size(); ++i) {
        const double away = sorted[i] - result.mean;
        squares += away * away;
        distances += std::abs(away);
        ranked += (2.0 * static_cast<double>(i + 1) - n - 1.0) * sorted[i];
        if (sorted[i] < 0.05 * result.mean) ++untouched;
    }
    result.cv_ratio = std::sqrt(squares / n) / result.mean;
    result.cv_sample_ratio = sorted.size() > 1 ? std::sqrt(squares / (n - 1.0)) / result.mean : 0.0;
    result.cu_ratio = 1.0 - distances / (n * result.mean);
    result.gini_ratio = ranked / (n * n * result.mean);
    result.low_quarter_ratio = mean_of_first(sorted.begin(), sorted.size(), n / 4.0) / result.mean;
    result.high_tenth = mean_of_first(sorted.rbegin(), sorted.size(), n / 10.0);
    result.untouched_ratio = static_cast<double>(untouched) / n;
    result.max = sorted.back();
    return result;
}

double share_over(std::span<const double> values, double limit) {
    if (values.empty()) return 0.0;
    const auto over =
        std::count_if(values.begin(), values.end(), [limit](double x) { return x > limit; });
    return static_cast<double>(over) / static_cast<double>(values.size());
}

std::vector<double> deposit_curve(std::span<const double> values, int steps) {
    std::vector<double> curve;
    if (values.empty() || steps < 1) return curve;
    std::vector<double> sorted(values.begin(), values.end());
    std::sort(sorted.begin(), sorted.end());
    double total = 0.0;
    for (const double x : sorted) total += x;
    if (total <= 0.0) return curve;
    const auto n = static_cast<double>(sorted.size());
    curve.push_back(0.0);
    for (int s = 1; s < steps; ++s) {
        const double count = n * s / steps;
        curve.push_back(mean_of_first(sorted.begin(), sorted.size(), count) * count / total);
    }
    curve.push_back(1.0);
    return curve;
}

std::vector<double> target_values(const PastureGround& ground, const Raster<double>& windowed) {
    std::vector<double> values;
    values.reserve(ground.target_cells);
    for (std::size_t c = 0; c < ground.target.values.size(); ++c) {
        if (ground.target.values[c] != 0) values.push_back(windowed.values[c]);
    }
    return values;
}

}  // namespace haylane
