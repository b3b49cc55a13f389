#pragma once
// Invented ranches of one herd, one pasture and one rig, with prices, on which the plan is set
// against ways of feeding that need none: a square quarter section, an L with a creek through it,
// and steep hills. Last winter's hay lies piled near the gate.

#include "core/base/units.h"
#include "core/ranch/check_ranch.h"

#include <cmath>
#include <numbers>

namespace haylane::testing {

inline sys_days baseline_day() { return *parse_day("2026-12-01"); }

// What all have: the pasture's shape is given, its gate lies at (400, 0), the yard 300 m south.
inline CheckedRanch baseline_ranch(const char* name, const MultiPolygon& shape) {
    CheckedRanch checked;
    Ranch& r = checked.ranch;
    r.name = name;
    r.latitude_rad = units::rad_from_deg(46.0);
    r.settings.max_candidates = 400;  // for speed; the rules are the same
    r.settings.fuel_price_per_m3 = 3.8 / units::kLitersPerGallon * 1000.0;
    r.settings.labor_per_s = 22.0 / units::kSecondsPerHour;
    r.settings.machine_per_s = 35.0 / units::kSecondsPerHour;
    r.pastures = {{.name = "Feed ground", .shape = shape, .ground = Ground::meadow}};
    r.gates = {{.name = "Gate", .at = {400, 0}, .closed = {}, .open_s = 180}};
    r.trails = {{.name = "Lane", .path = {{{400, -300}, {400, 30}}}, .surface = Surface::dirt}};
    r.yards = {{.name = "Yard", .at = {400, -300}, .capacity_bales = {}, .all_weather = true}};
    r.water = {{"the tank", {430, 60}}};
    r.lots = {{.name = "Grass",
               .yard = YardId::at(0),
               .kind = HayKind::grass,
               .bales = 900,
               .bale_kg = 570.0,
               .dm_ratio = 0.89,
               .quality = {0.095, 0.57, 0.0016, 0.014, true},
               .price_per_kg = 0.12}};
    r.rigs = {{.name = "Unroller",
               .method = Method::unroll,
               .line_rule = LineRule::any,
               .bales_per_trip = 2,
               .mass_kg = 9000,
               .pto_w = 75000,
               .turn_radius_m = 8.0}};
    r.herds = {{.name = "Cows",
                .head = 130,
                .weight_kg = 590,
                .stage = Stage::mid_gestation,
                .pastures = {PastureId::at(0)}}};
    for (int d = 0; d < 30; ++d) {
        const double y = 70.0 + 12.0 * (d % 6);
        FeedingRecord fed;
        fed.from = fed.to = *parse_day("2026-01-05") + std::chrono::days{d};
        fed.herd = HerdId::at(0);
        fed.pasture = PastureId::at(0);
        fed.bales = 6.0;
        fed.bale_dm_kg = 507.0;
        fed.shape = MultiPolyline{{{300, y}, {550, y}}};
        fed.where = "feedings, row";
        r.feedings.push_back(fed);
    }
    return checked;
}

// 805 m (half a mile) on a side.
inline CheckedRanch quarter_section() {
    return baseline_ranch("Square quarter", {{{{0, 0}, {805, 0}, {805, 805}, {0, 805}}, {}}});
}

// With trees along the middle, 10 m high, and a week's weather: a storm from the northwest, or
// calm.
inline CheckedRanch sheltered_quarter(bool storm) {
    CheckedRanch checked = quarter_section();
    Ranch& r = checked.ranch;
    r.name = storm ? "Storm week" : "Calm week";
    r.shelter = {{.name = "the trees",
                  .area = {},
                  .lines = {{{80, 480}, {330, 520}, {720, 500}}},
                  .points = {},
                  .height_m = 10.0}};
    for (int d = 0; d < 7; ++d)
        r.weather.push_back({.date = baseline_day() + std::chrono::days{d},
                             .wind_from_rad = units::rad_from_deg(315.0),
                             .wind_m_per_s = storm ? 11.0 : 1.0,
                             .low_c = storm ? -26.0 : -8.0,
                             .high_c = storm ? -15.0 : 1.0});
    return checked;
}

// The northeast corner is another's; a creek runs through from west to north.
inline CheckedRanch creek_ell() {
    CheckedRanch checked = baseline_ranch(
        "Creek L", {{{{0, 0}, {900, 0}, {900, 420}, {450, 420}, {450, 900}, {0, 900}}, {}}});
    OffLimits creek{.name = "Creek", .kind = OffLimitsKind::water, .setback_m = 30.5};
    creek.lines = {{{-20, 330}, {90, 360}, {180, 470}, {230, 640}, {300, 920}}};
    checked.ranch.off_limits = {creek};
    return checked;
}

// Ridges 260 m apart, up to 19 % steep on their sides.
inline CheckedRanch steep_hills() {
    CheckedRanch checked =
        baseline_ranch("Steep hills", {{{{0, 0}, {850, 0}, {850, 760}, {0, 760}}, {}}});
    TerrainData terrain;
    terrain.own_cell_m = 5.0;
    terrain.elevation_m = Raster<float>(grid_over({-100, -400, 950, 860}, 5.0));
    const Grid& grid = terrain.elevation_m.grid;
    for (int j = 0; j < grid.ny; ++j) {
        for (int i = 0; i < grid.nx; ++i) {
            const Point p = grid.center(i, j);
            const double across = p.x + 0.4 * p.y + 40.0 * std::sin(p.y / 120.0);
            terrain.elevation_m(i, j) =
                static_cast<float>(800.0 + 7.0 * std::sin(2.0 * std::numbers::pi * across / 260.0));
        }
    }
    checked.ranch.terrain = std::move(terrain);
    return checked;
}

}  // namespace haylane::testing
