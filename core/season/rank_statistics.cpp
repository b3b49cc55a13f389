#include "core/season/rank_statistics.h"

#include "core/base/require.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

namespace haylane {

namespace {

// Ranks from 1; tied values share the mean of theirs.
std::vector<double> ranks(std::span<const double> values) {
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
    std::vector<double> result(values.size());
    for (std::size_t first = 0; first < order.size();) {
        std::size_t end = first + 1;
        while (end < order.size() && values[order[end]] == values[order[first]]) ++end;
        const double mean = 0.5 * static_cast<double>(first + end + 1);
        for (std::size_t i = first; i < end; ++i) result[order[i]] = mean;
        first = end;
    }
    return result;
}

}  // namespace

std::optional<double> rank_correlation(std::span<const double> x, std::span<const double> y) {
    if (x.size() != y.size() || x.size() < 3) return std::nullopt;
    const std::vector<double> a = ranks(x);
    const std::vector<double> b = ranks(y);
    const double mean = 0.5 * (static_cast<double>(x.size()) + 1.0);
    double both = 0.0;
    double own_a = 0.0;
    double own_b = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        both += (a[i] - mean) * (b[i] - mean);
        own_a += (a[i] - mean) * (a[i] - mean);
        own_b += (b[i] - mean) * (b[i] - mean);
    }
    if (own_a == 0.0 || own_b == 0.0) return std::nullopt;
    return both / std::sqrt(own_a * own_b);
}

std::optional<double> median_slope(std::span<const double> y) {
    if (y.size() < 2) return std::nullopt;
    std::vector<double> slopes;
    for (std::size_t i = 0; i < y.size(); ++i) {
        for (std::size_t j = i + 1; j < y.size(); ++j)
            slopes.push_back((y[j] - y[i]) / static_cast<double>(j - i));
    }
    return quantile(slopes, 0.5);
}

double quantile(std::span<const double> values, double share) {
    require(!values.empty(), "quantile: no values");
    std::vector<double> sorted(values.begin(), values.end());
    std::sort(sorted.begin(), sorted.end());
    const double place = share * static_cast<double>(sorted.size() - 1);
    const auto below = static_cast<std::size_t>(std::floor(place));
    const std::size_t above = std::min(below + 1, sorted.size() - 1);
    return std::lerp(sorted[below], sorted[above], place - static_cast<double>(below));
}

}  // namespace haylane
