// Rows of pastures lie in pairs between straight lanes, so that every pasture has a gate on a lane;
// the fence between the two rows of a pair and the fences across bend at random.
#include "bench/large_ranch.h"

#include "core/base/random.h"
#include "core/base/units.h"

#include <array>
#include <cmath>
#include <string>

namespace haylane::bench {
namespace {

using std::chrono::days;

constexpr double kWidth_m = 805.0;   // of a quarter section
constexpr double kHeight_m = 800.0;  // of a row
constexpr double kLane_m = 20.0;
constexpr double kBend_m = 70.0;  // fences leave their straight place by at most this
constexpr double kPairHeight_m = 2.0 * kHeight_m + kLane_m;

constexpr std::array<const char*, 20> kWords{"Alder",  "Badger", "Cedar", "Dun",    "Elk",
                                             "Fiddle", "Gopher", "Hazel", "Iron",   "Juniper",
                                             "Kettle", "Lark",   "Marl",  "Nettle", "Otter",
                                             "Plum",   "Quail",  "Rush",  "Sedge",  "Thistle"};
constexpr std::array<const char*, 10> kPlaces{"Flat",   "Rise",  "Draw", "Bench", "Meadow",
                                              "Corner", "Basin", "Hill", "Slope", "Park"};

class Maker {
  public:
    explicit Maker(const LargeRanchOptions& options) : options_(options), random_(options.seed) {}

    CheckedRanch make() {
        ranch_.name = "Wide Lattice";
        ranch_.latitude_rad = units::rad_from_deg(46.0);
        bend_fences();
        for (int row = 0; row < rows(); ++row) {
            for (int column = 0; column < options_.columns; ++column) add_pasture(row, column);
        }
        add_roads();
        add_creeks();
        add_terrain();
        add_yards_and_hay();
        add_rigs();
        for (int h = 0; h < options_.herds; ++h) add_herd(h);
        add_weather();
        CheckedRanch checked;
        checked.ranch = std::move(ranch_);
        return checked;
    }

  private:
    [[nodiscard]] int rows() const { return 2 * options_.row_pairs; }
    [[nodiscard]] double east_m() const { return options_.columns * kWidth_m; }
    [[nodiscard]] double north_m() const { return options_.row_pairs * kPairHeight_m; }
    [[nodiscard]] double between(double least, double most) {
        return least + (most - least) * random_.uniform();
    }

    // By pair: corners of the fence between its rows; by lane side: where fences across meet it.
    void bend_fences() {
        for (int pair = 0; pair < options_.row_pairs; ++pair) {
            std::vector<Point> middle;
            for (int k = 0; k <= 2 * options_.columns; ++k) {
                const bool edge = k == 0 || k == 2 * options_.columns;
                const Point straight{k * kWidth_m / 2.0,
                                     pair * kPairHeight_m + kLane_m / 2.0 + kHeight_m};
                middle.push_back(straight + Point{edge ? 0.0 : between(-kBend_m, kBend_m),
                                                  between(-kBend_m, kBend_m)});
            }
            middle_.push_back(std::move(middle));
            for (int side = 0; side < 2; ++side) {
                std::vector<double> meets;
                for (int k = 0; k <= options_.columns; ++k) {
                    const bool edge = k == 0 || k == options_.columns;
                    meets.push_back(k * kWidth_m + (edge ? 0.0 : between(-kBend_m, kBend_m)));
                }
                meets_.push_back(std::move(meets));
            }
        }
    }

    [[nodiscard]] double lane_y(int row) const {
        return ((row + 1) / 2) * kPairHeight_m;  // NOLINT(bugprone-integer-division): whole pairs
    }

    void add_pasture(int row, int column) {
        const bool south = row % 2 == 0;  // of its pair; its lane is south of it
        const auto r = static_cast<std::size_t>(row);
        const auto c = static_cast<std::size_t>(column);
        const double edge = lane_y(row) + (south ? kLane_m : -kLane_m) / 2.0;
        const double west = meets_[r][c];
        const double east = meets_[r][c + 1];
        const std::vector<Point>& middle = middle_[r / 2];
        Ring ring{{west, edge}, {east, edge}, middle[2 * c + 2], middle[2 * c + 1], middle[2 * c]};
        if (!south) ring = {ring[4], ring[3], ring[2], ring[1], ring[0]};
        Pasture pasture;
        pasture.name = std::string(kWords[c % kWords.size()]) + " " + kPlaces[r % kPlaces.size()];
        pasture.shape = {Polygon{ring, {}}};
        const double kind = random_.uniform();
        pasture.ground = kind < 0.3   ? Ground::native
                         : kind < 0.6 ? Ground::meadow
                         : kind < 0.8 ? Ground::tame
                                      : Ground::stubble;
        add_gate(pasture.name, {between(0.3, 0.7) * (east - west) + west, edge}, south);
        add_places(pasture.name, centroid(pasture.shape));
        ranch_.pastures.push_back(std::move(pasture));
    }

    // The gate and a track from the lane through it into the pasture.
    void add_gate(const std::string& pasture, Point at, bool lane_is_south) {
        Gate gate;
        gate.name = pasture + " gate";
        gate.at = at;
        const double in = lane_is_south ? 1.0 : -1.0;
        Trail track;
        track.name = pasture + " track";
        track.path = {
            {{at.x, at.y - in * kLane_m / 2.0}, {at.x, at.y + in * between(60.0, 300.0)}}};
        ranch_.gates.push_back(gate);
        ranch_.trails.push_back(track);
    }

    void add_places(const std::string& pasture, Point middle) {
        const auto near = [&](double reach) {
            return middle + Point{between(-reach, reach), between(-reach, reach)};
        };
        ranch_.water.push_back({pasture + " tank", near(200.0)});
        if (random_.uniform() < 0.4) {
            OffLimits dam;
            dam.name = pasture + " dam";
            dam.kind = OffLimitsKind::water;
            dam.setback_m = ranch_.settings.setback_water_m;
            dam.area = {round_shape(near(220.0), between(15.0, 50.0))};
            ranch_.off_limits.push_back(dam);
        }
        if (random_.uniform() < 0.5) {
            Shelter brush;
            brush.name = pasture + " brush";
            brush.area = {round_shape(near(250.0), between(20.0, 60.0))};
            ranch_.shelter.push_back(brush);
        }
    }

    static Polygon round_shape(Point middle, double radius) {
        constexpr int kCorners = 16;
        Ring ring;
        for (int k = 0; k < kCorners; ++k)
            ring.push_back(middle + along_azimuth(-2.0 * units::kPi * k / kCorners) * radius);
        return {ring, {}};
    }

    void add_roads() {
        const auto add = [&](const std::string& name, Surface surface, Polyline path) {
            Trail trail;
            trail.name = name;
            trail.surface = surface;
            trail.path = {std::move(path)};
            ranch_.trails.push_back(trail);
        };
        for (int lane = 0; lane <= options_.row_pairs; ++lane) {
            const double y = lane * kPairHeight_m;
            add("Lane " + std::to_string(lane + 1), Surface::dirt,
                {{-15.0, y}, {east_m() + 15.0, y}});
        }
        add("West road", Surface::gravel, {{-15.0, 0.0}, {-15.0, north_m()}});
        add("East road", Surface::gravel, {{east_m() + 15.0, 0.0}, {east_m() + 15.0, north_m()}});
    }

    // One in every other pair, well away from the gates of its row.
    void add_creeks() {
        for (int pair = 0; pair < options_.row_pairs; pair += 2) {
            OffLimits creek;
            creek.name = "Creek " + std::to_string(pair + 1);
            creek.kind = OffLimitsKind::water;
            creek.setback_m = ranch_.settings.setback_water_m;
            Polyline path;
            const double y = pair * kPairHeight_m + 0.75 * kHeight_m;
            for (double x = 100.0; x < east_m() - 100.0; x += 60.0)
                path.push_back({x, y + 40.0 * std::sin(x / 170.0) + between(-10.0, 10.0)});
            creek.lines = {path};
            ranch_.off_limits.push_back(creek);
        }
    }

    void add_terrain() {
        constexpr double kCell_m = 10.0;
        TerrainData terrain;
        terrain.own_cell_m = kCell_m;
        terrain.elevation_m = Raster<float>(
            grid_over({-100.0, -100.0, east_m() + 100.0, north_m() + 100.0}, kCell_m));
        const double a = between(0.0, 6.0);
        const double b = between(0.0, 6.0);
        const Grid& grid = terrain.elevation_m.grid;
        for (int j = 0; j < grid.ny; ++j) {
            for (int i = 0; i < grid.nx; ++i) {
                const Point p = grid.center(i, j);
                terrain.elevation_m(i, j) = static_cast<float>(
                    800.0 + 16.0 * std::sin(p.x / 310.0 + a) * std::cos(p.y / 270.0 + b) +
                    5.0 * std::sin(p.x / 90.0 + p.y / 130.0 + b));
            }
        }
        ranch_.terrain = std::move(terrain);
    }

    void add_yards_and_hay() {
        const double top = north_m();
        const std::array<Point, 4> places{
            Point{-15.0, 0.2 * top}, Point{east_m() + 15.0, 0.3 * top},
            Point{0.5 * east_m(), 2.0 * kPairHeight_m}, Point{-15.0, 0.8 * top}};
        constexpr std::array<const char*, 4> kNames{"Home yard", "East yard", "Middle yard",
                                                    "North yard"};
        for (std::size_t y = 0; y < places.size(); ++y) {
            ranch_.yards.push_back({kNames[y], places[y], {}, true});
            HayLot grass{.name = std::string(kNames[y]) + " grass",
                         .yard = YardId::at(y),
                         .kind = HayKind::grass,
                         .bales = 900,
                         .bale_kg = 570.0,
                         .dm_ratio = 0.89,
                         .quality = {0.085, 0.55, 0.0015, 0.014, true},
                         .price_per_kg = 0.12};
            HayLot alfalfa{.name = std::string(kNames[y]) + " alfalfa",
                           .yard = YardId::at(y),
                           .kind = HayKind::alfalfa,
                           .bales = 400,
                           .bale_kg = 600.0,
                           .dm_ratio = 0.88,
                           .quality = {0.17, 0.58, 0.0023, 0.018, true},
                           .price_per_kg = 0.18};
            ranch_.lots.push_back(grass);
            ranch_.lots.push_back(alfalfa);
        }
    }

    void add_rigs() {
        ranch_.rigs = {{.name = "Unroller",
                        .method = Method::unroll,
                        .line_rule = LineRule::any,
                        .bales_per_trip = 2,
                        .mass_kg = 9000,
                        .pto_w = 75000},
                       {.name = "Trailer unroller",
                        .method = Method::unroll,
                        .line_rule = LineRule::wide,
                        .bales_per_trip = 6,
                        .mass_kg = 12000,
                        .pto_w = 110000,
                        .turn_radius_m = 9.0,
                        .hitch_m = 5.0},
                       {.name = "Shredder",
                        .method = Method::shred,
                        .line_rule = LineRule::straight,
                        .bales_per_trip = 3,
                        .mass_kg = 11000,
                        .pto_w = 95000,
                        .turn_radius_m = 9.0,
                        .drift_downwind_m = 3.0,
                        .discharge = Discharge::left,
                        .waste_ratio = 0.19}};
    }

    // A herd's pastures lie in one row side by side, the herds far apart.
    void add_herd(int h) {
        Herd herd;
        herd.name = std::string(kWords[static_cast<std::size_t>(h) % kWords.size()]) + " herd";
        herd.head = 60 + 20 * static_cast<int>(random_.below(10));
        herd.weight_kg = between(540.0, 640.0);
        herd.stage = h % 3 == 0 ? Stage::late_gestation : Stage::mid_gestation;
        herd.feed_every_days = h % 4 == 3 ? 2 : 1;
        const int pastures = rows() * options_.columns;
        const int first = static_cast<int>((static_cast<long>(h) * pastures) / options_.herds);
        for (int k = 0; k < 3; ++k) {
            const int p = first + k;
            if (p < pastures && p / options_.columns == first / options_.columns)
                herd.pastures.push_back(PastureId::at(static_cast<std::size_t>(p)));
        }
        ranch_.herds.push_back(herd);
        add_history(HerdId::at(static_cast<std::size_t>(h)));
    }

    void add_history(HerdId id) {
        for (int d = 1; d <= 30; ++d)
            add_feeding(id, large_ranch_day() - days{d}, 90.0 + 14.0 * (30 - d), 0.0);
        for (int d = 0; d < 100; d += 2)
            add_feeding(id, large_ranch_day() - days{300 + d}, between(40.0, 250.0),
                        between(-0.25, 0.25));
    }

    // A line so far in from the lane, turned a little from it.
    void add_feeding(HerdId id, sys_days day, double in_m, double turn_rad) {
        const Herd& herd = ranch_[id];
        const PastureId pasture = herd.pastures.front();
        const Point gate = ranch_.gates[pasture.index()].at;
        const bool south = (pasture.value / options_.columns) % 2 == 0;
        const Point middle = gate + Point{0.0, south ? in_m : -in_m};
        const Point half = along_azimuth(units::kPi / 2.0 + turn_rad) * (0.4 * herd.head);
        FeedingRecord record;
        record.from = record.to = day;
        record.herd = id;
        record.pasture = pasture;
        record.bales = 0.025 * herd.head;
        record.bale_dm_kg = 507.0;
        record.shape = MultiPolyline{{middle - half, middle + half}};
        record.where = "feedings, row " + std::to_string(ranch_.feedings.size() + 1);
        ranch_.feedings.push_back(record);
    }

    void add_weather() {
        for (int d = 0; d < options_.days_of_weather; ++d) {
            WeatherDay day;
            day.date = large_ranch_day() + days{d};
            day.wind_from_rad = between(0.0, 2.0 * units::kPi);
            day.wind_m_per_s = between(1.0, 9.0);
            day.low_c = between(-22.0, -6.0);
            day.high_c = *day.low_c + between(5.0, 12.0);
            day.snow = d % 5 < 2;
            ranch_.weather.push_back(day);
        }
    }

    LargeRanchOptions options_;
    Random random_;
    Ranch ranch_;
    std::vector<std::vector<Point>> middle_;  // by pair
    std::vector<std::vector<double>> meets_;  // by row
};

}  // namespace

sys_days large_ranch_day() { return std::chrono::year{2027} / std::chrono::January / 11; }

CheckedRanch large_ranch(const LargeRanchOptions& options) { return Maker(options).make(); }

}  // namespace haylane::bench
