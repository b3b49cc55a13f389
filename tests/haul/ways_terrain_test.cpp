// Ways over a made hill against a raster search for least energy: cells of 2.5 m, 32 neighbours
// (in the open at most 1.31 % too long), heights and force written out here anew. Where no slope is
// steeper than the motion resistance nothing is braked away, so climbing costs the same by any way
// and the shortest way is the one of least energy too.
#include "core/haul/load_work.h"
#include "tests/haul/ways_support.h"

#include <cmath>
#include <functional>
#include <limits>
#include <numeric>

#include <gtest/gtest.h>
#include <queue>

namespace haylane {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr double kCell_m = 2.5;
constexpr int kCells = 120;  // 300 m
constexpr double kRasterError = 0.0131;
constexpr double kMass_kg = 10200.0;
constexpr double kResistance = 0.058;
constexpr YardId kYard{0};
constexpr PastureId kField{0};

struct Hill {
    double top_m = 0.0;  // above the plain
    double width_m = 60.0;
    Point middle{150.0, 150.0};

    [[nodiscard]] double height_m(Point p) const {
        const double away = distance_m(p, middle) / width_m;
        return top_m * std::exp(-0.5 * away * away);
    }
    [[nodiscard]] double steepest_ratio() const { return top_m / width_m * std::exp(-0.5); }
    [[nodiscard]] Terrain terrain() const {
        TerrainData data;
        data.own_cell_m = kCell_m;
        data.elevation_m = Raster<float>(Grid{-10.0, -10.0, kCell_m, kCells + 8, kCells + 8});
        for (int j = 0; j < kCells + 8; ++j)
            for (int i = 0; i < kCells + 8; ++i)
                data.elevation_m(i, j) =
                    static_cast<float>(height_m(data.elevation_m.grid.center(i, j)));
        return Terrain(data);
    }
};

// A square field with a yard in a corner of it and a long pond across part of the hill.
Ranch field_with_pond() {
    Ranch ranch;
    Pasture field;
    field.name = "Field";
    field.shape = {Polygon{{{0, 0}, {300, 0}, {300, 300}, {0, 300}}, {}}};
    ranch.pastures = {field};
    Gate gate;
    gate.name = "Gate";
    gate.at = {150, 0};
    ranch.gates = {gate};
    Yard yard;
    yard.name = "Yard";
    yard.at = {30, 40};
    ranch.yards = {yard};
    OffLimits pond;
    pond.name = "Pond";
    pond.kind = OffLimitsKind::water;
    pond.area = {Polygon{{{80, 170}, {190, 60}, {215, 75}, {110, 200}}, {}}};
    ranch.off_limits = {pond};
    return ranch;
}

class EnergyRaster {
  public:
    EnergyRaster(const Ranch& ranch, const Hill& hill)
        : pond_(ranch.off_limits[0].area), hill_(hill) {
        energy_j_.assign(static_cast<std::size_t>((kCells + 1) * (kCells + 1)), kInfinity);
        spread(ranch.yards[0].at);
    }
    [[nodiscard]] static Point place(int i, int j) { return {i * kCell_m, j * kCell_m}; }
    [[nodiscard]] double energy_j(int i, int j) const { return energy_j_[index(i, j)]; }

  private:
    static std::size_t index(int i, int j) {
        return static_cast<std::size_t>(j * (kCells + 1) + i);
    }
    [[nodiscard]] bool crosses_pond(Point a, Point b) const {
        const Ring& ring = pond_[0].outer;
        for (std::size_t k = 0; k < ring.size(); ++k)
            if (segment_crossing(a, b, ring[k], ring[(k + 1) % ring.size()])) return true;
        return false;
    }
    [[nodiscard]] double step_j(Point a, Point b) const {
        const double climb_m = hill_.height_m(b) - hill_.height_m(a);
        return kMass_kg * units::kGravityMPerS2 *
               std::max(0.0, kResistance * distance_m(a, b) + climb_m);
    }
    void spread(Point from) {
        std::vector<std::pair<int, int>> moves;
        for (int i = -3; i <= 3; ++i)
            for (int j = -3; j <= 3; ++j)
                if (std::gcd(i, j) == 1) moves.emplace_back(i, j);
        using Item = std::pair<double, std::pair<int, int>>;
        std::priority_queue<Item, std::vector<Item>, std::greater<>> open;
        const std::pair start{static_cast<int>(from.x / kCell_m),
                              static_cast<int>(from.y / kCell_m)};
        energy_j_[index(start.first, start.second)] = 0.0;
        open.emplace(0.0, start);
        while (!open.empty()) {
            const auto [energy, here] = open.top();
            open.pop();
            if (energy > energy_j_[index(here.first, here.second)]) continue;
            for (const auto& [di, dj] : moves) {
                const int i = here.first + di;
                const int j = here.second + dj;
                if (i < 1 || j < 1 || i >= kCells || j >= kCells) continue;
                const Point a = place(here.first, here.second);
                const Point b = place(i, j);
                const double there = energy + step_j(a, b);
                if (there >= energy_j_[index(i, j)] || crosses_pond(a, b)) continue;
                energy_j_[index(i, j)] = there;
                open.emplace(there, std::pair{i, j});
            }
        }
    }

    const MultiPolygon& pond_;
    const Hill& hill_;
    std::vector<double> energy_j_;
};

struct Compared {
    double way_j = 0.0;
    double raster_j = 0.0;
    bool turned = false;  // round the pond
};

std::vector<Compared> compare(const Hill& hill, std::uint64_t seed) {
    const Ranch ranch = field_with_pond();
    const Terrain terrain = hill.terrain();
    const TravelMap map(ranch, january_day());
    const EnergyRaster raster(ranch, hill);
    Rig rig;
    rig.mass_kg = kMass_kg;
    rig.pto_w = 75000.0;
    Settings settings;
    settings.resistance_pasture_ratio = kResistance;
    Random random(seed);
    std::vector<Compared> all;
    while (all.size() < 60) {
        const int i = 2 + static_cast<int>(random.below(kCells - 3));
        const int j = 2 + static_cast<int>(random.below(kCells - 3));
        const Point to = EnergyRaster::place(i, j);
        if (contains(ranch.off_limits[0].area, to) || distance_m(to, ranch.yards[0].at) < 60.0)
            continue;
        const auto route = map.route(kYard, kField, to);
        if (!route) continue;
        LoadInput load;
        load.rig = &rig;
        load.out = &*route;
        const LoadWork work = load_work(load, terrain, settings);
        all.push_back({work.out.energy_j, raster.energy_j(i, j), route->path().size() > 2});
    }
    return all;
}

TEST(WaysOverAHill, GentleOnesAreOfLeastEnergyToo) {
    Hill hill;
    hill.top_m = 5.0;
    ASSERT_LT(hill.steepest_ratio(), kResistance);
    int turned = 0;
    for (const Compared& c : compare(hill, 41)) {
        ASSERT_TRUE(std::isfinite(c.raster_j));
        // The raster stands off the pond's corners by up to a cell.
        const double corner_j =
            c.turned ? kMass_kg * units::kGravityMPerS2 * kResistance * kCell_m : 0.0;
        EXPECT_LE(c.way_j, 1.003 * c.raster_j);
        EXPECT_GE(c.way_j, c.raster_j / (1.0 + kRasterError) - corner_j);
        turned += c.turned ? 1 : 0;
    }
    EXPECT_GT(turned, 5);
}

// On steep ground some of the climb is braked away and a way round is cheaper; the quickest way
// then costs more, and never less than the least.
TEST(WaysOverAHill, SteepOnesCostMoreThanTheLeast) {
    Hill hill;
    hill.top_m = 25.0;
    ASSERT_GT(hill.steepest_ratio(), 2.0 * kResistance);
    double most = 0.0;
    for (const Compared& c : compare(hill, 42)) {
        EXPECT_GE(c.way_j, 0.99 * c.raster_j / (1.0 + kRasterError));
        most = std::max(most, c.way_j / c.raster_j);
    }
    EXPECT_GT(most, 1.1);
}

}  // namespace
}  // namespace haylane
