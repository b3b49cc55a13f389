#include "tests/support/sample_plan.h"

#include "core/base/units.h"

#include <array>
#include <cmath>
#include <string>

namespace haylane::support {
namespace {

using std::chrono::days;

constexpr std::array<const char*, 6> kHerdNames{"Main cows", "First-calf heifers", "Late calvers",
                                                "Bulls",     "Short bred",         "Yearlings"};
constexpr std::array<const char*, 6> kPastureNames{"Home Flat",  "Creek Meadow", "East Rise",
                                                   "West Bench", "Plum Draw",    "Far Corner"};
constexpr std::array<const char*, 6> kGateNames{"House gate", "Creek gate", "Rise gate",
                                                "Bench gate", "Plum gate",  "Corner gate"};

MultiPolygon rectangle(double x0, double y0, double x1, double y1) {
    return {Polygon{{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, {}}};
}

std::string longer(const std::string& name, bool wanted) {
    return wanted ? name + " of the old Överdale county line homestead quarter" : name;
}

// Two rows of three pastures, 1.2 km x 1.0 km each.
Point corner_of(std::size_t i) {
    return {static_cast<double>(i % 3) * 1200.0 - 1800.0, i < 3 ? -1000.0 : 0.0};
}

void add_ground(Ranch& ranch, bool long_names) {
    for (std::size_t i = 0; i < kPastureNames.size(); ++i) {
        const Point corner = corner_of(i);
        Pasture pasture;
        pasture.name = longer(kPastureNames[i], long_names);
        pasture.shape = rectangle(corner.x, corner.y, corner.x + 1200.0, corner.y + 1000.0);
        ranch.pastures.push_back(pasture);
        Gate gate;
        gate.name = longer(kGateNames[i], long_names);
        gate.at = {corner.x + 300.0, 0.0};
        ranch.gates.push_back(gate);
    }
    TerrainData terrain;
    terrain.own_cell_m = 20.0;
    terrain.elevation_m = Raster<float>(grid_over({-2000.0, -1200.0, 2000.0, 1200.0}, 20.0));
    const Grid& grid = terrain.elevation_m.grid;
    for (int j = 0; j < grid.ny; ++j) {
        for (int i = 0; i < grid.nx; ++i) {
            const Point p = grid.center(i, j);
            terrain.elevation_m(i, j) = static_cast<float>(
                800.0 + 25.0 * std::sin(p.x / 300.0) * std::cos(p.y / 260.0) + p.x / 80.0);
        }
    }
    ranch.terrain = terrain;
}

OffLimits off_limits(const std::string& name, OffLimitsKind kind, double setback_m) {
    OffLimits item;
    item.name = name;
    item.kind = kind;
    item.setback_m = setback_m;
    return item;
}

void add_off_limits(Ranch& ranch) {
    OffLimits creek = off_limits("Brush creek", OffLimitsKind::water, 30.5);
    creek.lines = {{{-1800.0, -700.0}, {-900.0, -640.0}, {-200.0, -780.0}, {800.0, -980.0}}};
    OffLimits pond = off_limits("Stock dam", OffLimitsKind::water, 30.5);
    pond.area = rectangle(1200.0, 500.0, 1320.0, 600.0);
    OffLimits well = off_limits("House well", OffLimitsKind::well, 30.5);
    well.points = {{-100.0, 40.0}};
    ranch.off_limits = {creek, pond, well};
}

void add_signs(Ranch& ranch, bool long_names) {
    Trail county;
    county.name = "County road";
    county.surface = Surface::gravel;
    county.path = {{{-2100.0, -1040.0}, {2100.0, -1040.0}}};
    Trail lane = county;
    lane.name = "Ranch lane";
    lane.surface = Surface::dirt;
    lane.path = {{{-60.0, -1040.0}, {-60.0, 0.0}, {1500.0, 0.0}}};
    Trail track = county;
    track.name = "Bench track";
    track.surface = Surface::two_track;
    track.path = {{{-60.0, 0.0}, {-1500.0, 0.0}, {-1700.0, 900.0}}};
    ranch.trails = {county, lane, track};
    ranch.yards = {Yard{longer("Headquarters yard", long_names), {-60.0, -60.0}, 800, true},
                   Yard{longer("East yard", long_names), {1500.0, -120.0}, 700, false}};
    ranch.water = {WaterPoint{"the windmill", {-1300.0, 500.0}},
                   WaterPoint{"tank", {900.0, -300.0}}};
    Shelter brush;
    brush.name = "Plum brush";
    brush.area = rectangle(-300.0, 600.0, -100.0, 800.0);
    ranch.shelter = {brush};
}

HayLot lot(const std::string& name, YardId yard, HayKind kind, int bales) {
    HayLot made;
    made.name = name;
    made.yard = yard;
    made.kind = kind;
    made.bales = bales;
    made.bale_kg = 567.0;
    return made;
}

Rig rig(const std::string& name, Method method, int bales) {
    Rig made;
    made.name = name;
    made.method = method;
    made.bales_per_trip = bales;
    return made;
}

void add_stock(Ranch& ranch, const SamplePlanOptions& options) {
    ranch.lots = {
        lot(longer("Bottom grass", options.long_names), YardId::at(0), HayKind::grass, 370),
        lot(longer("Alfalfa 2nd cut", options.long_names), YardId::at(0), HayKind::alfalfa, 190),
        lot(longer("East brome", options.long_names), YardId::at(1), HayKind::grass, 390)};
    ranch.rigs = {rig("Shredder", Method::shred, 3), rig("Loader unroller", Method::unroll, 2)};
    for (std::size_t i = 0; i < static_cast<std::size_t>(options.herds); ++i) {
        Herd herd;
        herd.name = longer(kHerdNames[i % kHerdNames.size()], options.long_names);
        herd.head = 210 - 40 * static_cast<int>(i % 4);
        herd.weight_kg = 590.0;
        herd.pastures = {PastureId::at(i % kPastureNames.size())};
        ranch.herds.push_back(herd);
    }
}

// The n-th line of a herd: rows beside each other, 12 m apart, drawn apart a little more.
PlannedLine line_of(std::size_t herd, int day, int order) {
    const Point corner = corner_of(herd % kPastureNames.size());
    const double y = corner.y + 420.0 + 25.0 * day;
    const double x = corner.x + 350.0 + 30.0 * day + 250.0 * (order - 1);
    PlannedLine line;
    line.id = std::to_string(herd) + "-" + std::to_string(day) + "-" + std::to_string(order);
    line.path = {{x, y}, {x + 200.0, y + 60.0}};
    line.heading_rad = azimuth_rad(line.path.front(), line.path.back());
    line.length_m = length_m(line.path);
    line.bales = 3;
    line.order = order;
    return line;
}

PlannedLeg leg(LegKind kind, Polyline path, double speed_m_per_s) {
    PlannedLeg made;
    made.kind = kind;
    made.length_m = length_m(path);
    made.time_s = made.length_m / speed_m_per_s;
    made.fuel_l = made.length_m / 1000.0;
    made.path = std::move(path);
    return made;
}

PlannedLoad load_of(const Ranch& ranch, const PlannedFeeding& feeding, const PlannedLine& line,
                    bool priced) {
    const Point yard = ranch.yards[feeding.bales.front().yard.index()].at;
    const Point gate = ranch.gates[feeding.pasture.index()].at;
    PlannedLoad load;
    load.line_ids = {line.id};
    load.bale_count = line.bales;
    load.yard = feeding.bales.front().yard;
    load.legs = {leg(LegKind::out, {yard, {yard.x, 0.0}, gate, line.path.front()}, 2.2),
                 leg(LegKind::lay, line.path, 0.67),
                 leg(LegKind::back, {line.path.back(), gate, {yard.x, 0.0}, yard}, 2.2)};
    load.legs.front().via = {"Ranch lane", ranch.gates[feeding.pasture.index()].name};
    for (const PlannedLeg& part : load.legs) {
        load.distance_m += part.length_m;
        load.time_s += part.time_s;
        load.fuel_l += part.fuel_l;
    }
    load.loaded_distance_m = load.legs.front().length_m;
    if (priced) load.cost = 14.2;
    return load;
}

void add_cautions(PlannedFeeding& feeding, std::size_t herd, int day, bool long_names) {
    if (herd == 0 && day == 2) {
        feeding.cautions.push_back(
            {"steep_line", "slope 8 % near the end, lay uphill first", "slope 8 %"});
    }
    if (herd == 1 || (herd == 2 && day >= 5)) {
        feeding.cautions.push_back({"near_water", "within 300 ft of the creek", "by water"});
    }
    if (long_names) {
        const std::string text =
            "thaw forecast for day " + std::to_string(day) +
            ": go before the frost is out of the ground, and keep off the soft bottom "
            "below the second crossing where the loader sank in an earlier winter";
        feeding.cautions.push_back({"thaw", text, text});
    }
}

PlannedFeeding feeding_of(const Ranch& ranch, sys_days from, std::size_t herd, int day,
                          const SamplePlanOptions& options) {
    PlannedFeeding feeding;
    feeding.date = from + days{day - 1};
    feeding.firm = day <= 3;
    feeding.herd = HerdId::at(herd);
    feeding.pasture = PastureId::at(herd % kPastureNames.size());
    feeding.rig = RigId::at(herd % 2);
    feeding.bales = herd == 2 ? std::vector<BaleDraw>{{LotId::at(2), YardId::at(1), 6}}
                              : std::vector<BaleDraw>{{LotId::at(0), YardId::at(0), day % 2 + 4},
                                                      {LotId::at(1), YardId::at(0), 2 - day % 2}};
    const int lines = herd == 0 ? 2 : 1;
    for (int order = 1; order <= lines; ++order) {
        feeding.lines.push_back(line_of(herd, day, order));
        feeding.line_length_m += feeding.lines.back().length_m;
        feeding.loads.push_back(load_of(ranch, feeding, feeding.lines.back(), options.priced));
    }
    const Point gate = ranch.gates[feeding.pasture.index()].at;
    const Point start = feeding.lines.front().path.front();
    feeding.start = {ranch.gates[feeding.pasture.index()].name, distance_m(gate, start),
                     azimuth_rad(gate, start)};
    feeding.toward = herd == 0 ? "east" : "east, toward the windmill";
    feeding.dm_eaten_kg = 2600.0;
    feeding.dm_offered_kg = 3000.0;
    feeding.dm_needed_kg = 2550.0;
    feeding.cp_ratio = 0.094;
    feeding.tdn_ratio = 0.55;
    feeding.ground_so_far_bales_per_m2 = 2.0 / units::kM2PerAcre;
    feeding.heaviest_bales_per_m2 = 38.0 / units::kM2PerAcre;
    feeding.above_nearest_s = 60.0 * day;
    if (options.priced) feeding.above_nearest_cost = 1.5 * day;
    feeding.why = "The thin ground here has had no hay this winter, and it is 4 min farther.";
    add_cautions(feeding, herd, day, options.long_names);
    return feeding;
}

// Bales on the ground before and after; the lines' stretch is laid evenly, which is near enough
// here.
PastureLoad load_on(const Ranch& ranch, std::size_t i, bool fed) {
    const Box box = box_of(ranch.pastures[i].shape);
    PastureLoad load;
    load.ground.pasture = PastureId::at(i);
    load.ground.mask = Raster<std::uint8_t>(grid_over(box, 12.0), 1);
    load.ground.target = load.ground.mask;
    load.ground.cells = load.ground.mask.grid.size();
    load.ground.target_cells = load.ground.cells;
    const Grid& grid = load.ground.mask.grid;
    load.before.bales = Raster<double>(grid, 0.0);
    for (int j = 0; j < grid.ny / 5; ++j) {
        for (int k = 0; k < grid.nx / 5; ++k) load.before.bales(k, j) = 0.9;
    }
    if (!fed) return load;
    load.with_plan = load.before;
    for (int j = grid.ny / 2; j < grid.ny; ++j) {
        for (int k = 0; k < grid.nx; ++k) load.with_plan->bales(k, j) += 0.02;
    }
    return load;
}

void add_end(Plan& plan, const Ranch& ranch) {
    using std::chrono::April;
    using std::chrono::May;
    plan.hay_lasts = {sys_days{std::chrono::year{2027} / April / 9},
                      sys_days{std::chrono::year{2027} / April / 21},
                      sys_days{std::chrono::year{2027} / May / 15}, 150, 220};
    plan.hay_left = {{LotId::at(0), YardId::at(0), 300, sys_days{std::chrono::year{2027} / 3 / 28}},
                     {LotId::at(1), YardId::at(0), 150, std::nullopt},
                     {LotId::at(2), YardId::at(1), 340, plan.hay_lasts.latest}};
    for (std::size_t i = 0; i < ranch.herds.size() && i < ranch.pastures.size(); ++i) {
        plan.evenness.push_back({PastureId::at(i), "p2o5", EvennessFigures{1.4, 0.2, 0.1},
                                 EvennessFigures{1.2, 0.3, 0.1}});
    }
    plan.problems = {{"gate_far_from_fence", Severity::warning, "gates.geojson, feature 3",
                      "The gate lies 45 ft from the nearest fence.", "Move it onto the fence."}};
    plan.switched_off = {{"cold", "no weather table"}};
    plan.assumptions = list_assumptions(ranch.settings, ranch.settings_changed);
}

}  // namespace

SamplePlan sample_plan(const SamplePlanOptions& options) {
    SamplePlan sample;
    sample.ranch.name = longer("Sample ranch", options.long_names);
    add_ground(sample.ranch, options.long_names);
    add_off_limits(sample.ranch);
    add_signs(sample.ranch, options.long_names);
    add_stock(sample.ranch, options);
    Plan& plan = sample.result.plan;
    plan.ranch = sample.ranch.name;
    plan.from = sys_days{std::chrono::year{2027} / std::chrono::January / 11};
    plan.days = options.days;
    for (int day = 1; day <= options.days; ++day) {
        for (std::size_t herd = 0; herd < sample.ranch.herds.size(); ++herd) {
            plan.feedings.push_back(feeding_of(sample.ranch, plan.from, herd, day, options));
        }
    }
    for (std::size_t i = 0; i < sample.ranch.pastures.size(); ++i) {
        sample.result.loads.push_back(load_on(sample.ranch, i, i < sample.ranch.herds.size()));
    }
    add_end(plan, sample.ranch);
    return sample;
}

}  // namespace haylane::support
