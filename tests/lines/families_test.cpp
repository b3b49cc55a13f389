// Every family of lines on a thousand random pastures of seven kinds: stars with holes, needles,
// slivers, narrow necks, several parts, very many vertices, crossed rings.
#include "tests/lines/family_checks.h"

#include <array>
#include <optional>

namespace haylane {
namespace {

constexpr int kKinds = 7;
constexpr int kPastures = 1000;

Ring star(Random& random, Point at, double size_m, int corners, double depth) {
    Ring ring;
    for (int i = 0; i < corners; ++i) {
        const double turn = 2 * units::kPi * (i + 0.8 * random.uniform()) / corners;
        const double r = size_m * (1.0 - depth * random.uniform());
        ring.push_back(at + Point{std::cos(turn), std::sin(turn)} * r);
    }
    return ring;
}

Ring turned(Ring ring, double angle) {
    for (Point& p : ring)
        p = {p.x * std::cos(angle) - p.y * std::sin(angle),
             p.x * std::sin(angle) + p.y * std::cos(angle)};
    return ring;
}

MultiPolygon with_holes(Random& random, MultiPolygon shape, double size_m) {
    for (auto left = random.below(5); left > 0; --left) {
        const Point at{size_m * (random.uniform() - 0.5), size_m * (random.uniform() - 0.5)};
        const MultiPolygon hole{{star(random, at, 4 + 20 * random.uniform(), 5, 0.5), {}}};
        if (auto cut = subtract(shape, hole)) shape = *cut;
    }
    return shape;
}

// Two squares and what joins them: a strip that the fence strip may close.
Ring necked(Random& random) {
    const double side = 50 + 60 * random.uniform();
    const double half = 1 + 9 * random.uniform();
    const double long_m = 5 + 40 * random.uniform();
    const double mid = side / 2;
    return {{0, 0},
            {side, 0},
            {side, mid - half},
            {side + long_m, mid - half},
            {side + long_m, 0},
            {2 * side + long_m, 0},
            {2 * side + long_m, side},
            {side + long_m, side},
            {side + long_m, mid + half},
            {side, mid + half},
            {side, side},
            {0, side}};
}

MultiPolygon pasture_of_kind(Random& random, int kind) {
    const double angle = 2 * units::kPi * random.uniform();
    const double size = 60 + 110 * random.uniform();
    switch (kind) {
        case 0:
            return with_holes(
                random, {{star(random, {}, size, 3 + static_cast<int>(random.below(20)), 0.6), {}}},
                size);
        case 1: {  // needle
            const double tip = random.below(4) == 0 ? 1e-9 : 40 * random.uniform();
            return {{turned({{0, 0}, {3 * size, tip / 2}, {0, tip}}, angle), {}}};
        }
        case 2: {  // sliver: from too narrow to three swaths
            const double wide = 11.9 + 40 * random.uniform() * random.uniform();
            return {{turned(test::rectangle(0, 0, 3 * size, wide), angle), {}}};
        }
        case 3:
            return {{turned(necked(random), angle), {}}};
        case 4: {  // parts
            MultiPolygon all;
            const int parts = 2 + static_cast<int>(random.below(3));
            for (int k = 0; k < parts; ++k)
                all.push_back({star(random, {2.2 * size * k, 50 * random.uniform()},
                                    size * (0.3 + 0.6 * random.uniform()), 7, 0.4),
                               {}});
            return all;
        }
        case 5: {  // very many vertices
            const int corners = 100 + static_cast<int>(random.below(200));
            return {{star(random, {}, size, corners, 0.02), {}}};
        }
        default: {  // a ring that crosses itself, repaired
            Ring ring;
            for (int k = 0; k < 8; ++k)
                ring.push_back({2 * size * random.uniform(), 2 * size * random.uniform()});
            const auto whole = make_valid({{ring, {}}});
            return whole ? whole->shape : MultiPolygon{};
        }
    }
}

LineRequest random_request(Random& random, const MultiPolygon& pasture) {
    LineRequest request;
    for (auto left = 1 + random.below(3); left > 0; --left) {
        const int bales = 1 + static_cast<int>(random.below(3));
        request.loads.push_back({bales, bales * (20 + 25 * random.uniform())});
    }
    constexpr std::array<double, 4> kRadii{0.0, 8.0, 12.0, 30.0};
    request.line_radius_m = kRadii.at(random.below(kRadii.size()));
    request.heading_step_rad = 15.0 * units::kPi / 180.0;
    request.max_candidates = 12;
    request.gate_keep_m = 30.0;
    const Ring& fence = pasture.at(0).outer;
    for (auto left = random.below(3); left > 0; --left)
        request.gates.push_back(fence.at(random.below(fence.size())));
    return request;
}

Terrain hills(Random& random, const Box& box) {
    const double wave = 40 + 60 * random.uniform();
    const double height = 0.07 * wave * random.uniform();
    const double phase = 6 * random.uniform();
    return test::terrain_over(box, [=](Point p) {
        return 0.04 * p.y + height * std::sin(p.x / wave + phase) * std::cos(p.y / wave);
    });
}

class RandomFamilies : public testing::TestWithParam<int> {};

// One kind of pasture a case.
TEST_P(RandomFamilies, KeepEveryRule) {
    const int kind = GetParam();
    std::map<LineFamily, int> ways;
    int some = 0;
    int none_for_a_bale = 0;
    int pastures = 0;
    for (int seed = kind; seed < kPastures; seed += kKinds) {
        Random random(static_cast<std::uint64_t>(seed) + 7000);
        test::FamilyCase one;
        one.map.pasture = pasture_of_kind(random, kind);
        if (one.map.pasture.empty()) continue;
        ++pastures;
        one.request = random_request(random, one.map.pasture);
        if (kind == 5 && seed % 5 != 0) {  // many vertices make the slow judge and rings slow
            one.look_closely = false;
            one.request.line_radius_m = 0.0;
        }
        std::optional<Terrain> terrain;
        if (random.below(3) == 0) {
            terrain = hills(random, box_of(one.map.pasture));
            one.map.terrain = &*terrain;
        }
        Region drivable;
        const auto inner = erode(one.map.pasture, 1.0);
        if (random.below(3) == 0 && inner) {
            drivable = Region(*inner);
            one.request.drivable = &drivable;
            one.request.turn_radius_m = 8.0;
        }
        const test::FamilyFindings found = test::findings_on(one);
        for (const std::string& fault : found.faults) ADD_FAILURE() << fault << ", seed " << seed;
        for (const auto& [family, count] : found.ways) ways[family] += count;
        some += found.all_ways() > 0 ? 1 : 0;
        none_for_a_bale += found.ground_is_empty || !found.one_bale_fits ? 1 : 0;
        if (HasFailure()) break;
    }
    EXPECT_GE(pastures, kPastures / kKinds - 1);
    RecordProperty("with_ways", some);
    RecordProperty("without_room_for_a_bale", none_for_a_bale);
    for (const auto& [family, count] : ways) RecordProperty(std::string(to_string(family)), count);
    // What is left had room for a bale, not for all loads away from the gates.
    EXPECT_GE(some + none_for_a_bale, pastures * 4 / 5);
    EXPECT_GT(ways[LineFamily::straight], pastures);
    EXPECT_GT(ways[LineFamily::site], 100);
    if (kind == 1) return;  // needles have few curves
    EXPECT_GT(ways[LineFamily::boundary], 10);
    EXPECT_GT(ways[LineFamily::contour], 5);
}

INSTANTIATE_TEST_SUITE_P(Kinds, RandomFamilies, testing::Range(0, kKinds));

}  // namespace
}  // namespace haylane
