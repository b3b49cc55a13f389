// Trails that are faster than the pasture: where they are joined and left. The twin knows no
// angles; it may leave and join every trail at any of its points half a metre apart.
#include "tests/haul/ways_support.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace haylane {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr double kSide_m = 400.0;
constexpr double kTwinStep_s = 0.3;  // half a metre at pasture speed
constexpr YardId kYard{0};
constexpr PastureId kField{0};

Ranch open_field() {
    Ranch ranch;
    Pasture pasture;
    pasture.name = "Field";
    pasture.shape = {Polygon{{{0, 0}, {kSide_m, 0}, {kSide_m, kSide_m}, {0, kSide_m}}, {}}};
    ranch.pastures = {pasture};
    Yard yard;
    yard.name = "Yard";
    ranch.yards = {yard};
    return ranch;
}

void add_trail(Ranch& ranch, Polyline path, double speed_m_per_s) {
    Trail trail;
    trail.name = "Trail " + std::to_string(ranch.trails.size());
    trail.path = {std::move(path)};
    trail.speed_m_per_s = speed_m_per_s;
    ranch.trails.push_back(trail);
}

// Half a turn or more round a middle, in small bends as a logger draws it.
Polyline arc(Random& random) {
    const double x = between(random, 120.0, kSide_m - 120.0);
    const Point middle{x, between(random, 120.0, kSide_m - 120.0)};
    const double radius_m = between(random, 40.0, 110.0);
    const double from = between(random, 0.0, 6.0);
    Polyline path;
    for (int k = 0; k <= 30; ++k)
        path.push_back(middle + along_azimuth(from + between(random, 0.10, 0.12) * k) * radius_m);
    return path;
}

// Crooked trails of two to five points, and round ones, 1.2 to 4 times as fast as the pasture.
Ranch crooked_trails(Random& random) {
    Ranch ranch = open_field();
    const auto inside = [&] {
        const double x = between(random, 5.0, kSide_m - 5.0);
        return Point{x, between(random, 5.0, kSide_m - 5.0)};
    };
    for (std::uint64_t t = 1 + random.below(2); t-- > 0;) {
        Polyline path;
        for (std::uint64_t k = 2 + random.below(4); k-- > 0;) path.push_back(inside());
        if (random.below(3) == 0) path = arc(random);
        add_trail(ranch, path, ranch.settings.speed_pasture_m_per_s * between(random, 1.2, 4.0));
    }
    ranch.yards[0].at = inside();
    return ranch;
}

class DenseTrails {
  public:
    explicit DenseTrails(const Ranch& ranch)
        : field_m_per_s_(ranch.settings.speed_pasture_m_per_s) {
        points_ = {ranch.yards[0].at};
        next_s_ = {kInfinity};
        for (const Trail& trail : ranch.trails) {
            const Polyline fine = densified(trail.path[0], 0.5);
            for (std::size_t k = 0; k < fine.size(); ++k) {
                points_.push_back(fine[k]);
                next_s_.push_back(k + 1 < fine.size() ? distance_m(fine[k], fine[k + 1]) /
                                                            trail.speed_m_per_s.value()
                                                      : kInfinity);
            }
        }
        spread();
    }
    [[nodiscard]] double time_s(Point to) const {
        double best = kInfinity;
        for (std::size_t v = 0; v < points_.size(); ++v)
            best = std::min(best, times_[v] + distance_m(points_[v], to) / field_m_per_s_);
        return best;
    }

  private:
    void spread() {
        const std::size_t count = points_.size();
        times_.assign(count, kInfinity);
        std::vector<bool> done(count, false);
        times_[0] = 0.0;
        for (std::size_t round = 0; round < count; ++round) {
            std::size_t here = count;
            for (std::size_t v = 0; v < count; ++v)
                if (!done[v] && (here == count || times_[v] < times_[here])) here = v;
            done[here] = true;
            for (std::size_t v = 0; v < count; ++v)
                if (!done[v])
                    times_[v] =
                        std::min(times_[v], times_[here] + distance_m(points_[here], points_[v]) /
                                                               field_m_per_s_);
            if (here + 1 < count)
                times_[here + 1] = std::min(times_[here + 1], times_[here] + next_s_[here]);
            if (here > 0)
                times_[here - 1] = std::min(times_[here - 1], times_[here] + next_s_[here - 1]);
        }
    }

    double field_m_per_s_;
    std::vector<Point> points_;
    std::vector<double> next_s_;  // along the trail to the next point
    std::vector<double> times_;
};

// Half a per cent each way: where trails cross, the twin pays for the step between its points.
TEST(WaysOnTrails, AreAsQuickAsLeavingThemAnywhere) {
    int on_trails = 0;
    for (std::uint64_t seed = 1; seed <= 80; ++seed) {
        SCOPED_TRACE(seed);
        Random random(seed + 5000);
        const Ranch ranch = crooked_trails(random);
        const TravelMap map(ranch, january_day());
        const DenseTrails twin(ranch);
        for (int k = 0; k < 25; ++k) {
            const double x = between(random, 2.0, kSide_m - 2.0);
            const Point to{x, between(random, 2.0, kSide_m - 2.0)};
            const double found = map.time_s(kYard, kField, to);
            const double expected = twin.time_s(to);
            EXPECT_LE(found, 1.005 * expected) << k;
            EXPECT_GE(found, 0.995 * expected - kTwinStep_s) << k;
            const double straight =
                distance_m(ranch.yards[0].at, to) / ranch.settings.speed_pasture_m_per_s;
            on_trails += expected < 0.98 * straight ? 1 : 0;
        }
    }
    EXPECT_GT(on_trails, 300);
}

// Snell's law where one side is a line: from a trail of speed u a place d off it, at speed v, is
// reached at the angle asin(v / u) from the perpendicular, in L / u + d sqrt(1 / v^2 - 1 / u^2) for
// L along the trail to the foot.
TEST(WaysOnTrails, AreLeftByTheClosedForm) {
    Ranch ranch = open_field();
    add_trail(ranch, {{20, 50}, {380, 50}}, 3.0 * ranch.settings.speed_pasture_m_per_s);
    ranch.yards[0].at = {20, 50};
    const TravelMap map(ranch, january_day());
    const double v = ranch.settings.speed_pasture_m_per_s;
    const double u = 3.0 * v;
    for (const Point to : {Point{200, 250}, Point{340, 390}, Point{120, 100}, Point{370, 20}}) {
        const double off_m = std::abs(to.y - 50.0);
        const double expected =
            (to.x - 20.0) / u + off_m * std::sqrt(1.0 / (v * v) - 1.0 / (u * u));
        EXPECT_NEAR(map.time_s(kYard, kField, to), expected, 1e-9) << to.x << " " << to.y;
    }
}

}  // namespace
}  // namespace haylane
