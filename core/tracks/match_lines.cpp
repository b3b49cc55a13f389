#include "core/tracks/match_lines.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace haylane {

namespace {

constexpr double kStep_m = 5.0;
constexpr double kLeastShare = 0.5;
constexpr double kEqualShare = 0.05;

std::vector<double> distances(const Polyline& vertices, const Polyline& to) {
    std::vector<double> out;
    out.reserve(vertices.size());
    for (const Point p : vertices) out.push_back(distance_m(p, to));
    return out;
}

double share_within(const std::vector<double>& distances_m, double limit_m) {
    const auto near = std::count_if(distances_m.begin(), distances_m.end(),
                                    [limit_m](double d) { return d <= limit_m; });
    return static_cast<double>(near) / static_cast<double>(distances_m.size());
}

double median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

}  // namespace

double discrete_frechet_m(const Polyline& a, const Polyline& b) {
    if (a.empty() || b.empty()) return std::numeric_limits<double>::infinity();
    if (b.size() > a.size()) return discrete_frechet_m(b, a);
    std::vector<double> row(b.size());
    for (std::size_t i = 0; i < a.size(); ++i) {
        double diagonal = row[0];
        for (std::size_t j = 0; j < b.size(); ++j) {
            const double here = distance_m(a[i], b[j]);
            double reach = 0.0;
            if (i > 0 && j > 0) reach = std::min({row[j], row[j - 1], diagonal});
            if (i > 0 && j == 0) reach = row[0];
            if (i == 0 && j > 0) reach = row[j - 1];
            diagonal = row[j];
            row[j] = std::max(reach, here);
        }
    }
    return row.back();
}

LineFit fit_line(const Polyline& laid, const Polyline& planned, double spacing_m) {
    const Polyline l = resampled(laid, kStep_m);
    const Polyline p = resampled(planned, kStep_m);
    const std::vector<double> off = distances(l, planned);
    LineFit fit;
    fit.share_near = share_within(off, spacing_m);
    fit.share_laid = share_within(distances(p, laid), spacing_m);
    fit.off_m = median(off);
    const double same = discrete_frechet_m(l, p);
    const double against = discrete_frechet_m(l, reversed(p));
    fit.other_way = against < same;
    fit.frechet_m = std::min(same, against);
    fit.longer_m = length_m(laid) - length_m(planned);
    return fit;
}

std::optional<LineMatch> best_match(const Polyline& laid, const std::vector<Polyline>& planned,
                                    double spacing_m) {
    std::optional<LineMatch> best;
    if (laid.size() < 2) return best;
    const Box near = box_of(laid).grown_by(spacing_m);
    for (std::size_t i = 0; i < planned.size(); ++i) {
        if (planned[i].size() < 2 || !near.meets(box_of(planned[i]))) continue;
        const LineFit fit = fit_line(laid, planned[i], spacing_m);
        if (fit.share_near < kLeastShare) continue;
        const double more = best ? fit.share_near - best->fit.share_near : 1.0;
        const bool nearer = best && fit.frechet_m < best->fit.frechet_m;
        if (more > kEqualShare || (more > -kEqualShare && nearer)) best = LineMatch{i, fit};
    }
    return best;
}

}  // namespace haylane
