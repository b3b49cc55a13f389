// Checks against: tests/known/dubins.txt and trailer_radius.txt (sources there), the open table of
// 74 cases oracles/dubins.csv (own closed forms, each driven to its end), headland turns worked by
// hand geometry, and driving each path to its end pose.
#include "core/geometry/turn_path.h"

#include "core/base/random.h"
#include "core/base/units.h"
#include "tests/geometry/geometry_support.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace haylane {
namespace {

constexpr TurnWord kSix[] = {TurnWord::lsl, TurnWord::rsr, TurnWord::lsr,
                             TurnWord::rsl, TurnWord::rlr, TurnWord::lrl};

TurnWord word_of(const std::string& name) {
    for (const TurnWord word : kSix)
        if (to_string(word) == name) return word;
    return name == "straight" ? TurnWord::straight : TurnWord::none;
}

// Heading of the last piece, taken from the words and not from the code under test.
double end_heading(const TurnPath& path, Pose from, double radius_m) {
    const std::string word(to_string(path.word));
    double theta = from.theta_rad;
    if (word.size() != 3) return theta;
    for (std::size_t i = 0; i < 3; ++i) {
        if (word[i] == 'L') theta += path.piece_m[i] / radius_m;
        if (word[i] == 'R') theta -= path.piece_m[i] / radius_m;
    }
    return theta;
}

double angle_apart(double a, double b) { return std::abs(std::remainder(a - b, 2.0 * units::kPi)); }

void expect_reaches(const TurnPath& path, Pose from, Pose to, double radius_m) {
    const double step = 0.05 * radius_m;
    const Polyline line = drive(path, from, radius_m, step);
    ASSERT_FALSE(line.empty());
    EXPECT_EQ(line.front(), from.at);
    EXPECT_NEAR(distance_m(line.back(), to.at), 0.0, 1e-7 * std::max(1.0, path.length_m));
    EXPECT_LT(angle_apart(end_heading(path, from, radius_m), to.theta_rad), 1e-8);
    EXPECT_NEAR(path.piece_m[0] + path.piece_m[1] + path.piece_m[2], path.length_m, 1e-9);
    double longest = 0.0;
    for (std::size_t i = 0; i + 1 < line.size(); ++i)
        longest = std::max(longest, distance_m(line[i], line[i + 1]));
    EXPECT_LE(longest, step * (1.0 + 1e-9));
    // Chords of an arc are shorter than the arc by at most step^2 / (24 r^2).
    EXPECT_LE(length_m(line), path.length_m * (1.0 + 1e-12) + 1e-9);
    EXPECT_GE(length_m(line), path.length_m * (1.0 - 0.05 * 0.05 / 23.0) - 1e-9);
    EXPECT_LE(max_curvature_per_m(line), 1.001 / radius_m);
}

TEST(TurnPath, GivesKnownShortestPathsAndDrivesThem) {
    const auto rows = known_rows("dubins.txt");
    ASSERT_EQ(rows.size(), 20U);
    for (const auto& row : rows) {
        ASSERT_GE(row.size(), 9U);
        std::vector<double> v;
        for (std::size_t i = 0; i < 7; ++i) v.push_back(std::stod(row[i]));
        const Pose from{{v[0], v[1]}, v[2] * units::kPi};
        const Pose to{{v[3], v[4]}, v[5] * units::kPi};
        SCOPED_TRACE(row[3] + " " + row[4] + " r " + row[6] + " " + row[7]);
        const TurnPath best = shortest_turn_path(from, to, v[6]);
        EXPECT_NEAR(best.length_m, std::stod(row[8]), 1e-8);
        EXPECT_EQ(to_string(best.word), row[7].substr(0, row[7].find('|')));
        expect_reaches(best, from, to, v[6]);
        std::istringstream ties(row[7]);
        for (std::string tie; std::getline(ties, tie, '|');) {
            const auto path = turn_path(word_of(tie), from, to, v[6]);
            ASSERT_TRUE(path.has_value()) << tie;
            EXPECT_NEAR(path->length_m, std::stod(row[8]), 1e-8) << tie;
            expect_reaches(*path, from, to, v[6]);
        }
        for (std::size_t i = 9; i < row.size(); ++i) {
            const auto path = turn_path(word_of(row[i].substr(0, 3)), from, to, v[6]);
            ASSERT_TRUE(path.has_value()) << row[i];
            EXPECT_NEAR(path->length_m, std::stod(row[i].substr(4)), 1e-8) << row[i];
            expect_reaches(*path, from, to, v[6]);
        }
    }
}

std::vector<std::string> cells_of(const std::string& line) {
    std::vector<std::string> cells;
    std::string cell;
    for (const char c : line) {
        if (c == '\r') continue;
        if (c == ',') {
            cells.push_back(cell);
            cell.clear();
        } else {
            cell += c;
        }
    }
    cells.push_back(cell);
    return cells;
}

// Turning circles that touch or coincide: there a word may turn into another and the table asks for
// the shortest length only.
bool circles_touch(Pose from, Pose to, double radius_m) {
    for (const double a : {1.0, -1.0}) {
        for (const double b : {1.0, -1.0}) {
            const Point p = from.at + Point{-std::sin(from.theta_rad), std::cos(from.theta_rad)} *
                                          (a * radius_m);
            const Point q =
                to.at + Point{-std::sin(to.theta_rad), std::cos(to.theta_rad)} * (b * radius_m);
            const double apart = distance_m(p, q) / radius_m;
            for (const double touch : {0.0, 2.0, 4.0})
                if (std::abs(apart - touch) < 1e-6) return true;
        }
    }
    return false;
}

TEST(TurnPath, AgreesWithTheOpenTableOfAllSixWords) {
    std::ifstream file(std::string(HAYLANE_SHARED_DATA) + "/oracles/dubins.csv");
    if (!file) GTEST_SKIP() << "oracles/dubins.csv is not here";
    std::string line;
    std::getline(file, line);
    int rows = 0;
    int words = 0;
    while (std::getline(file, line)) {
        SCOPED_TRACE(line);
        const auto cells = cells_of(line);
        ASSERT_EQ(cells.size(), 13U);
        const Pose from{{0.0, 0.0}, std::stod(cells[2])};
        const Pose to{{std::stod(cells[0]), std::stod(cells[1])}, std::stod(cells[3])};
        const double radius_m = std::stod(cells[4]);
        const TurnPath best = shortest_turn_path(from, to, radius_m);
        EXPECT_NEAR(best.length_m, std::stod(cells[6]), 2e-9);
        expect_reaches(best, from, to, radius_m);
        ++rows;
        if (circles_touch(from, to, radius_m)) continue;
        for (std::size_t i = 0; i < 6; ++i) {
            const auto path = turn_path(kSix[i], from, to, radius_m);
            ASSERT_EQ(path.has_value(), !cells[7 + i].empty()) << to_string(kSix[i]);
            if (!path) continue;
            EXPECT_NEAR(path->length_m, std::stod(cells[7 + i]), 2e-9) << to_string(kSix[i]);
            expect_reaches(*path, from, to, radius_m);
            ++words;
        }
    }
    EXPECT_EQ(rows, 74);
    EXPECT_GT(words, 200);
}

TEST(TurnPath, EveryWordReachesItsEndAndTheShortestIsTheLeast) {
    Random random(20270111);
    int paths = 0;
    for (int k = 0; k < 500; ++k) {
        SCOPED_TRACE(k);
        const double radius_m = between(random, 4.0, 12.0);
        const Pose from{point_in(random, -5000.0, 5000.0), between(random, -7.0, 7.0)};
        const Pose to{from.at + point_in(random, -30.0, 30.0), between(random, -7.0, 7.0)};
        const TurnPath best = shortest_turn_path(from, to, radius_m);
        double least = 1e9;
        for (const TurnWord word : kSix) {
            const auto path = turn_path(word, from, to, radius_m);
            if (!path) continue;
            ++paths;
            least = std::min(least, path->length_m);
            expect_reaches(*path, from, to, radius_m);
        }
        EXPECT_NEAR(best.length_m, least, 1e-9);
        EXPECT_GE(best.length_m, distance_m(from.at, to.at) - 1e-9);
    }
    EXPECT_GT(paths, 2000);
}

// Noise of rounding size must never add a whole turn.
TEST(TurnPath, HardlyMovesWhenThePosesHardlyMove) {
    Random random(7);
    for (const auto& row : known_rows("dubins.txt")) {
        const Pose from{{std::stod(row[0]), std::stod(row[1])}, std::stod(row[2]) * units::kPi};
        const Pose to{{std::stod(row[3]), std::stod(row[4])}, std::stod(row[5]) * units::kPi};
        if (row[7] == "none") continue;  // a pose a hair behind needs a whole turn
        for (int k = 0; k < 50; ++k) {
            const Pose near{to.at + point_in(random, -1e-14, 1e-14),
                            to.theta_rad + between(random, -1e-14, 1e-14)};
            EXPECT_NEAR(shortest_turn_path(from, near, std::stod(row[6])).length_m,
                        std::stod(row[8]), 1e-6)
                << row[7];
        }
    }
}

// U turn and bulb onto the next pass, worked by plane geometry: pi r + (w - 2 r) for w >= 2 r, else
// r (pi + 4 acos((w + 2 r) / (4 r))); the depth is how far the path leaves the pass ends.
TEST(TurnPath, MakesHeadlandTurnsOfKnownLengthAndDepth) {
    struct Headland {
        double radius_m, spacing_m, length_m, depth_m;
    };
    const Headland turns[] = {{6.0, 12.0, 18.849555922, 6.0},
                              {6.0, 20.0, 26.849555922, 6.0},
                              {6.0, 6.0, 36.195177869, 13.937253933},
                              {6.0, 9.0, 30.978208168, 11.809475019},
                              {4.0, 6.0, 20.652138779, 7.872983346}};
    for (const Headland& turn : turns) {
        const Pose from{{0.0, 0.0}, 0.0};
        const Pose to{{0.0, turn.spacing_m}, units::kPi};
        const TurnPath path = shortest_turn_path(from, to, turn.radius_m);
        EXPECT_NEAR(path.length_m, turn.length_m, 1e-8);
        const Box box = box_of(drive(path, from, turn.radius_m, 0.001));
        EXPECT_NEAR(box.max_x, turn.depth_m, 1e-6);
    }
}

TEST(TrailerRadius, FollowsPlaneKinematics) {
    const auto rows = known_rows("trailer_radius.txt");
    ASSERT_EQ(rows.size(), 4U);
    for (const auto& row : rows) {
        const auto radius =
            trailer_radius_m(std::stod(row[0]), std::stod(row[1]), std::stod(row[2]));
        ASSERT_TRUE(radius.has_value());
        EXPECT_NEAR(*radius, std::stod(row[3]), 1e-9);
    }
}

TEST(TrailerRadius, IsNoneWhenTheTrailerJackKnifes) {
    EXPECT_FALSE(trailer_radius_m(4.0, 3.0, 5.0).has_value());
    EXPECT_FALSE(trailer_radius_m(4.0, 0.0, 6.0).has_value());
    EXPECT_TRUE(trailer_radius_m(4.0, 3.0, 4.999).has_value());
}

}  // namespace
}  // namespace haylane
