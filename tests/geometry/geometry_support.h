#pragma once
// Small makers of shapes and readers of known-value tables for the geometry tests.

#include "core/base/random.h"
#include "core/base/units.h"
#include "core/geometry/polygon.h"

#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace haylane {

// Rows of tests/known/<name> as words; lines that start with # are left out.
inline std::vector<std::vector<std::string>> known_rows(const std::string& name) {
    std::ifstream file(std::string(HAYLANE_SOURCE_DIR) + "/tests/known/" + name);
    std::vector<std::vector<std::string>> rows;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line.front() == '#') continue;
        std::istringstream words(line);
        rows.emplace_back();
        for (std::string word; words >> word;) rows.back().push_back(word);
    }
    return rows;
}

inline Ring rectangle(double x0, double y0, double x1, double y1) {
    return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

inline MultiPolygon square(double side) { return {{rectangle(0.0, 0.0, side, side), {}}}; }

inline double between(Random& random, double low, double high) {
    return low + (high - low) * random.uniform();
}

inline Point point_in(Random& random, double low, double high) {
    const double x = between(random, low, high);
    return {x, between(random, low, high)};
}

// A ring round `center`, jagged between two radii; never crosses itself.
inline Ring star_ring(Random& random, Point center, double least, double greatest, int corners) {
    Ring ring;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2.0 * units::kPi * i / corners;
        const double reach = between(random, least, greatest);
        ring.push_back(center + Point{std::cos(angle), std::sin(angle)} * reach);
    }
    return ring;
}

// A jagged pasture about (0, 0), within 100 m, with two jagged holes.
inline MultiPolygon jagged_shape(Random& random) {
    const Ring outer = star_ring(random, {0.0, 0.0}, 60.0, 100.0, 24);
    return {{outer,
             {star_ring(random, {-25.0, 5.0}, 5.0, 20.0, 9),
              star_ring(random, {28.0, -6.0}, 5.0, 20.0, 7)}}};
}

// A ring of whole-number corners that crosses itself at will.
inline Ring lattice_ring(Random& random, int corners, std::uint64_t side) {
    Ring ring;
    for (int i = 0; i < corners; ++i) {
        const auto x = static_cast<double>(random.below(side));
        ring.push_back({x, static_cast<double>(random.below(side))});
    }
    return ring;
}

}  // namespace haylane
