// A grid of about one bucket an edge. Edges are entered in every bucket that they touch when
// widened by a few tolerances, so rounding never hides one. Inside: a ray to the east along one row
// of buckets; an edge met in several buckets counts only in the one that holds the crossing.
// Segments: cut at every crossing or touch, then the middle of each cut piece tells for the piece.
// That is right even where a segment leaves the shape exactly through a corner, which a test for
// proper crossings alone would miss.
#include "core/geometry/region.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace haylane {

namespace {

constexpr double kToleranceRatio = 1e-9;

double distance_to_segment_m(Point p, Point a, Point b) {
    return distance_m(p, nearest_on_segment(p, a, b));
}

// Adds the shares of a-b where edge p-q crosses it or ends on it.
void add_crossings(std::vector<double>& shares, Point a, Point b, Point p, Point q,
                   double tolerance_m) {
    const Point d = b - a;
    const double length = norm_m(d);
    const double side_p = cross(d, p - a) / length;
    const double side_q = cross(d, q - a) / length;
    const double slack = tolerance_m / length;
    const auto add = [&](double share) {
        if (share >= -slack && share <= 1.0 + slack) shares.push_back(std::clamp(share, 0.0, 1.0));
    };
    if (std::abs(side_p) <= tolerance_m) add(dot(p - a, d) / (length * length));
    if (std::abs(side_q) <= tolerance_m) add(dot(q - a, d) / (length * length));
    if ((side_p < 0.0) == (side_q < 0.0)) return;
    const Point at = lerp(p, q, side_p / (side_p - side_q));
    add(dot(at - a, d) / (length * length));
}

}  // namespace

Region::Region(MultiPolygon shape) : shape_(std::move(shape)) {
    for (const Polyline& ring : boundary_lines(shape_)) {
        for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
            box_.add(ring[i]);
            if (ring[i] != ring[i + 1]) edges_.push_back({ring[i], ring[i + 1]});
        }
    }
    if (edges_.empty()) return;
    lay_grid();
    fill_buckets();
}

void Region::lay_grid() {
    const double width = box_.max_x - box_.min_x;
    const double height = box_.max_y - box_.min_y;
    const double longer = std::max(width, height);
    const double count = static_cast<double>(edges_.size());
    const double greatest = std::max(
        {std::abs(box_.min_x), std::abs(box_.max_x), std::abs(box_.min_y), std::abs(box_.max_y)});
    tolerance_m_ = kToleranceRatio * greatest;
    cell_m_ = std::max({std::sqrt(width * height / count), longer / count, 16.0 * tolerance_m_});
    nx_ = static_cast<int>(width / cell_m_) + 1;
    ny_ = static_cast<int>(height / cell_m_) + 1;
}

int Region::column(double x) const {
    return static_cast<int>(
        std::clamp(std::floor((x - box_.min_x) / cell_m_), 0.0, static_cast<double>(nx_ - 1)));
}

int Region::row(double y) const {
    return static_cast<int>(
        std::clamp(std::floor((y - box_.min_y) / cell_m_), 0.0, static_cast<double>(ny_ - 1)));
}

Region::Cells Region::cells_in_row(Point a, Point b, int j, double pad_m) const {
    if (a.y > b.y) std::swap(a, b);
    const double south = box_.min_y + j * cell_m_ - pad_m;
    const double north = south + cell_m_ + 2.0 * pad_m;
    double x0 = a.x;
    double x1 = b.x;
    if (b.y - a.y > 0.0) {
        const double per_y = 1.0 / (b.y - a.y);
        x0 = std::lerp(a.x, b.x, std::clamp((south - a.y) * per_y, 0.0, 1.0));
        x1 = std::lerp(a.x, b.x, std::clamp((north - a.y) * per_y, 0.0, 1.0));
    }
    return {column(std::min(x0, x1) - pad_m), column(std::max(x0, x1) + pad_m)};
}

void Region::fill_buckets() {
    const double pad = 4.0 * tolerance_m_;
    const auto each_cell = [&](auto&& body) {
        for (std::uint32_t e = 0; e < edges_.size(); ++e) {
            const auto [low, high] = std::minmax(edges_[e].a.y, edges_[e].b.y);
            const int last = row(high + pad);
            for (int j = row(low - pad); j <= last; ++j) {
                const Cells cells = cells_in_row(edges_[e].a, edges_[e].b, j, pad);
                for (int i = cells.from; i <= cells.to; ++i)
                    body(static_cast<std::size_t>(j) * static_cast<std::size_t>(nx_) +
                             static_cast<std::size_t>(i),
                         e);
            }
        }
    };
    bucket_start_.assign(static_cast<std::size_t>(nx_) * static_cast<std::size_t>(ny_) + 1, 0);
    each_cell([&](std::size_t cell, std::uint32_t) { ++bucket_start_[cell + 1]; });
    for (std::size_t c = 1; c < bucket_start_.size(); ++c) bucket_start_[c] += bucket_start_[c - 1];
    bucket_edges_.resize(bucket_start_.back());
    std::vector<std::uint32_t> next(bucket_start_.begin(), bucket_start_.end() - 1);
    each_cell([&](std::size_t cell, std::uint32_t e) { bucket_edges_[next[cell]++] = e; });
}

template <class Visit>
void Region::visit_cell(int i, int j, Visit visit) const {
    const std::size_t cell =
        static_cast<std::size_t>(j) * static_cast<std::size_t>(nx_) + static_cast<std::size_t>(i);
    for (std::uint32_t k = bucket_start_[cell]; k < bucket_start_[cell + 1]; ++k)
        visit(edges_[bucket_edges_[k]]);
}

bool Region::contains(Point p) const {
    if (!box_.contains(p)) return false;
    const int j = row(p.y);
    bool odd = false;
    for (int i = column(p.x); i < nx_; ++i) {
        visit_cell(i, j, [&](const Edge& edge) {
            if ((edge.a.y > p.y) == (edge.b.y > p.y)) return;
            const double share = (p.y - edge.a.y) / (edge.b.y - edge.a.y);
            const double x = edge.a.x + share * (edge.b.x - edge.a.x);
            if (p.x < x && column(x) == i) odd = !odd;
        });
    }
    return odd;
}

bool Region::inside_or_on_edge(Point p) const {
    if (edges_.empty() || !box_.grown_by(tolerance_m_).contains(p)) return false;
    if (contains(p)) return true;
    bool near = false;
    visit_cell(column(p.x), row(p.y), [&](const Edge& edge) {
        near = near || distance_to_segment_m(p, edge.a, edge.b) <= tolerance_m_;
    });
    return near;
}

std::vector<double> Region::crossings(Point a, Point b) const {
    std::vector<double> shares;
    Box reach;
    reach.add(a);
    reach.add(b);
    if (edges_.empty() || a == b || !reach.grown_by(tolerance_m_).meets(box_)) return shares;
    const int last = row(reach.max_y + tolerance_m_);
    for (int j = row(reach.min_y - tolerance_m_); j <= last; ++j) {
        const Cells cells = cells_in_row(a, b, j, tolerance_m_);
        for (int i = cells.from; i <= cells.to; ++i)
            visit_cell(i, j, [&](const Edge& edge) {
                add_crossings(shares, a, b, edge.a, edge.b, tolerance_m_);
            });
    }
    std::sort(shares.begin(), shares.end());
    const double slack = tolerance_m_ / distance_m(a, b);
    const auto same = [slack](double s, double t) { return t - s <= slack; };
    shares.erase(std::unique(shares.begin(), shares.end(), same), shares.end());
    return shares;
}

std::vector<double> Region::cuts(Point a, Point b) const {
    const double slack = tolerance_m_ / distance_m(a, b);
    std::vector<double> cuts{0.0};
    for (const double share : crossings(a, b))
        if (share > slack && share < 1.0 - slack) cuts.push_back(share);
    cuts.push_back(1.0);
    return cuts;
}

bool Region::covers_segment(Point a, Point b) const {
    if (distance_m(a, b) <= tolerance_m_) return inside_or_on_edge(a) && inside_or_on_edge(b);
    const std::vector<double> shares = cuts(a, b);
    for (std::size_t i = 0; i + 1 < shares.size(); ++i)
        if (!inside_or_on_edge(lerp(a, b, (shares[i] + shares[i + 1]) / 2.0))) return false;
    return true;
}

bool Region::covers(const Polyline& line) const {
    if (line.size() == 1) return inside_or_on_edge(line.front());
    for (std::size_t i = 0; i + 1 < line.size(); ++i)
        if (!covers_segment(line[i], line[i + 1])) return false;
    return true;
}

std::vector<Region::Span> Region::inside_spans(Point a, Point b) const {
    std::vector<Span> spans;
    const double length = distance_m(a, b);
    if (length <= 0.0) return spans;
    const std::vector<double> shares = cuts(a, b);
    for (std::size_t i = 0; i + 1 < shares.size(); ++i) {
        if (!inside_or_on_edge(lerp(a, b, (shares[i] + shares[i + 1]) / 2.0))) continue;
        const double from = shares[i] * length;
        const double to = i + 2 == shares.size() ? length : shares[i + 1] * length;
        if (!spans.empty() && spans.back().to_m == from)
            spans.back().to_m = to;
        else
            spans.push_back({from, to});
    }
    return spans;
}

double Region::distance_to_edge_m(Point p) const {
    double least = std::numeric_limits<double>::infinity();
    if (edges_.empty()) return least;
    // Rings of buckets round the box's nearest place to p: after ring k every edge not yet seen is
    // at least k cells from that place, and so at least hypot(off, k cells) from p.
    const Point near{std::clamp(p.x, box_.min_x, box_.max_x),
                     std::clamp(p.y, box_.min_y, box_.max_y)};
    const double off = distance_m(p, near);
    const int ci = column(near.x);
    const int cj = row(near.y);
    for (int k = 0; k <= std::max(nx_, ny_); ++k) {
        for (int j = std::max(0, cj - k); j <= std::min(ny_ - 1, cj + k); ++j) {
            const bool whole_row = j == cj - k || j == cj + k;
            const int step = whole_row || k == 0 ? 1 : 2 * k;
            for (int i = ci - k; i <= ci + k; i += step) {
                if (i < 0 || i >= nx_) continue;
                visit_cell(i, j, [&](const Edge& edge) {
                    least = std::min(least, distance_to_segment_m(p, edge.a, edge.b));
                });
            }
        }
        if (least <= std::hypot(off, k * cell_m_)) break;
    }
    return least;
}

}  // namespace haylane
