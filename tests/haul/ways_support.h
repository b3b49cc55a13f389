#pragma once
// Invented maps for the tests of ways: a block of neighbouring pastures with crooked shared fences,
// gates on them, water on the ground, yards and trails. Every map follows from its seed.

#include "core/base/random.h"
#include "core/base/units.h"
#include "core/haul/travel_map.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <string>
#include <utility>
#include <vector>

namespace haylane {

inline double between(Random& random, double low, double high) {
    return low + (high - low) * random.uniform();
}

inline TravelConditions january_day() {
    TravelConditions conditions;
    conditions.date = std::chrono::sys_days{std::chrono::year{2027} / 1 / 11};
    return conditions;
}

inline constexpr double kBlock_m = 150.0;  // side of a pasture, roughly

struct MadeMap {
    Ranch ranch;
    TravelConditions when = january_day();
};

// Corners and fence middles stand on a lattice of half a block, each moved up to `crooked_m`;
// neighbours share them, so their fences are the same lines.
class MapMaker {
  public:
    MapMaker(std::uint64_t seed, int columns, int rows)
        : random_(seed), columns_(columns), rows_(rows) {
        for (int j = 0; j <= 2 * rows; ++j)
            for (int i = 0; i <= 2 * columns; ++i) posts_.push_back(post_place(i, j));
        for (int j = 0; j < rows; ++j)
            for (int i = 0; i < columns; ++i) add_pasture(2 * i, 2 * j);
    }

    Random& random() { return random_; }
    MadeMap take() { return std::move(made_); }

    // A gate somewhere on the half of a fence between two posts.
    void add_gate(int i0, int j0, int i1, int j1) {
        Gate gate;
        gate.name = "Gate " + std::to_string(made_.ranch.gates.size());
        gate.at = lerp(post(i0, j0), post(i1, j1), between(random_, 0.25, 0.75));
        gate.open_s = random_.below(3) == 0 ? 0.0 : between(random_, 10.0, 90.0);
        made_.ranch.gates.push_back(gate);
    }
    // Each fence between two pastures gets a gate by this chance.
    void add_inner_gates(double chance) {
        for (int j = 0; j <= 2 * rows_; ++j)
            for (int i = 0; i <= 2 * columns_; ++i) {
                if (i % 2 == 0 && j % 2 == 1 && i > 0 && i < 2 * columns_ &&
                    random_.uniform() < chance)
                    add_gate(i, j, i, j + (random_.below(2) == 0 ? 1 : -1));
                if (j % 2 == 0 && i % 2 == 1 && j > 0 && j < 2 * rows_ &&
                    random_.uniform() < chance)
                    add_gate(i, j, i + (random_.below(2) == 0 ? 1 : -1), j);
            }
    }
    // A yard a few metres outside the south fence, right at a gate; the next one stands elsewhere.
    void add_yard_at_south_gate() {
        const int i = 2 * static_cast<int>(random_.below(static_cast<std::uint64_t>(columns_))) + 1;
        add_gate(i, 0, i + 1, 0);
        const Point out{post(i + 1, 0).y - post(i, 0).y, post(i, 0).x - post(i + 1, 0).x};
        add_yard(made_.ranch.gates.back().at + out * (6.0 / norm_m(out)));
    }
    void add_yard(Point at) {
        Yard yard;
        yard.name = "Yard " + std::to_string(made_.ranch.yards.size());
        yard.at = at;
        made_.ranch.yards.push_back(yard);
    }
    void add_water(int count, double least_m, double greatest_m) {
        for (int k = 0; k < count; ++k) {
            OffLimits item;
            item.name = "Water " + std::to_string(k);
            item.kind = random_.below(2) == 0 ? OffLimitsKind::water : OffLimitsKind::building;
            const Point center = anywhere();
            Ring ring;
            const int corners = 3 + static_cast<int>(random_.below(5));
            for (int c = 0; c < corners; ++c)
                ring.push_back(center + along_azimuth(-2.0 * units::kPi * c / corners) *
                                            between(random_, least_m, greatest_m));
            item.area = {Polygon{ring, {}}};
            made_.ranch.off_limits.push_back(item);
        }
    }
    void add_trail(Polyline path, Surface surface) {
        Trail trail;
        trail.name = "Trail " + std::to_string(made_.ranch.trails.size());
        trail.path = {std::move(path)};
        trail.surface = surface;
        made_.ranch.trails.push_back(trail);
    }
    // Crooked trails across the block; where one meets a fence it passes only if a gate is there,
    // so half of them are led through gates.
    void add_trails(int count) {
        for (int k = 0; k < count; ++k) {
            const auto gates = made_.ranch.gates.size();
            const bool by_gate = gates > 0 && random_.below(2) == 0;
            const Point middle = by_gate ? made_.ranch.gates[random_.below(gates)].at : anywhere();
            const Point start = anywhere();
            add_trail({start, middle, anywhere()}, static_cast<Surface>(random_.below(4)));
        }
    }
    // A lot with one gate, fenced off inside a pasture and drawn on top of it.
    void add_lot(std::size_t pasture) {
        const Point center = centroid(made_.ranch.pastures[pasture].shape);
        Pasture lot;
        lot.name = "Lot " + std::to_string(pasture);
        Ring ring;
        for (int c = 0; c < 5; ++c)
            ring.push_back(center +
                           along_azimuth(-2.0 * units::kPi * c / 5) * between(random_, 15.0, 30.0));
        Gate gate;
        gate.name = "Lot gate " + std::to_string(pasture);
        gate.at = lerp(ring[0], ring[1], 0.5);
        gate.open_s = 20.0;
        lot.shape = {Polygon{ring, {}}};
        made_.ranch.pastures.push_back(lot);
        made_.ranch.gates.push_back(gate);
    }
    void block_some_gates(double chance, std::size_t first) {
        for (std::size_t g = first; g < made_.ranch.gates.size(); ++g)
            if (random_.uniform() < chance) made_.when.blocked.push_back(made_.ranch.gates[g].name);
    }
    Point anywhere() {
        const double x = between(random_, 0.0, kBlock_m * columns_);
        return {x, between(random_, 0.0, kBlock_m * rows_)};
    }
    [[nodiscard]] const Ranch& ranch() const { return made_.ranch; }

  private:
    [[nodiscard]] Point post(int i, int j) const {
        return posts_[static_cast<std::size_t>(j * (2 * columns_ + 1) + i)];
    }
    Point post_place(int i, int j) {
        const double crooked_m = 0.17 * kBlock_m;
        const double x = 0.5 * kBlock_m * i + between(random_, -crooked_m, crooked_m);
        return {x, 0.5 * kBlock_m * j + between(random_, -crooked_m, crooked_m)};
    }
    void add_pasture(int i, int j) {
        Pasture pasture;
        pasture.name = "Pasture " + std::to_string(made_.ranch.pastures.size());
        pasture.shape = {
            Polygon{{post(i, j), post(i + 1, j), post(i + 2, j), post(i + 2, j + 1),
                     post(i + 2, j + 2), post(i + 1, j + 2), post(i, j + 2), post(i, j + 1)},
                    {}}};
        made_.ranch.pastures.push_back(pasture);
    }

    Random random_;
    int columns_;
    int rows_;
    std::vector<Point> posts_;
    MadeMap made_;
};

// The pasture that holds a place of a made map; lots come last and lie on top. -1 outside.
inline int pasture_at(const Ranch& ranch, Point p) {
    for (std::size_t i = ranch.pastures.size(); i-- > 0;)
        if (contains(ranch.pastures[i].shape, p)) return static_cast<int>(i);
    return -1;
}

// Least distance to any trail or gate.
inline double away_from_ways_m(const Ranch& ranch, Point p) {
    double away = std::numeric_limits<double>::infinity();
    for (const Gate& gate : ranch.gates) away = std::min(away, distance_m(gate.at, p));
    for (const Trail& trail : ranch.trails)
        for (const Polyline& path : trail.path) away = std::min(away, distance_m(p, path));
    return away;
}

}  // namespace haylane
