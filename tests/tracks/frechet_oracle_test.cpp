// Discrete Frechet distances against the open table oracles/frechet-hausdorff.csv: 11 pairs of
// lines computed by GEOS, on their vertices and with each segment cut into 100.
#include "core/tracks/match_lines.h"

#include <cstdlib>
#include <fstream>
#include <string>

#include <gtest/gtest.h>

namespace haylane {
namespace {

// The points of the next WKT point or line of a row, from `at` on; `at` moves past it.
Polyline next_points(const std::string& row, std::size_t& at) {
    at = row.find('(', at) + 1;
    const std::size_t end = row.find(')', at);
    Polyline out;
    while (at < end) {
        char* rest = nullptr;
        const double x = std::strtod(row.c_str() + at, &rest);
        const double y = std::strtod(rest, &rest);
        out.push_back({x, y});
        at = static_cast<std::size_t>(rest - row.c_str()) + 1;  // past the comma
    }
    return out;
}

// Each segment in 100 equal parts.
Polyline in_hundredths(const Polyline& line) {
    Polyline out{line.front()};
    for (std::size_t i = 1; i < line.size(); ++i)
        for (int part = 1; part <= 100; ++part)
            out.push_back(lerp(line[i - 1], line[i], 0.01 * part));
    return out;
}

TEST(Frechet, AgreesWithTheOpenTable) {
    std::ifstream file(std::string(HAYLANE_SHARED_DATA) + "/oracles/frechet-hausdorff.csv");
    if (!file) GTEST_SKIP() << "oracles/frechet-hausdorff.csv is not here";
    std::string row;
    std::getline(file, row);
    int rows = 0;
    while (std::getline(file, row)) {
        SCOPED_TRACE(row);
        std::size_t at = 0;
        const Polyline a = next_points(row, at);
        const Polyline b = next_points(row, at);
        const double densified_m = std::stod(row.substr(row.rfind(',') + 1));
        const std::size_t before = row.rfind(',', row.rfind(',') - 1);
        const double discrete_m = std::stod(row.substr(before + 1));
        constexpr double kLastPlace_m = 1e-9;  // the table has nine decimals
        EXPECT_NEAR(discrete_frechet_m(a, b), discrete_m, kLastPlace_m);
        EXPECT_NEAR(discrete_frechet_m(b, a), discrete_m, kLastPlace_m);
        EXPECT_NEAR(discrete_frechet_m(in_hundredths(a), in_hundredths(b)), densified_m,
                    kLastPlace_m);
        ++rows;
    }
    EXPECT_EQ(rows, 11);
}

}  // namespace
}  // namespace haylane
