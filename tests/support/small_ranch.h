#pragma once
// A ranch small enough to reason about: two square pastures of 800 m that share a fence, one yard,
// a trail through two gates, two herds, two rigs, three lots. Flat unless terrain is added.

#include "core/base/units.h"
#include "core/ranch/check_ranch.h"

namespace haylane::testing {

inline MultiPolygon square(double x0, double y0, double x1, double y1) {
    return {{{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, {}}};
}

inline sys_days day(const char* text) { return *parse_day(text); }

inline CheckedRanch small_ranch() {
    CheckedRanch checked;
    Ranch& r = checked.ranch;
    r.name = "Two Squares";
    r.settings.max_candidates = 300;  // for speed; the rules are the same
    r.latitude_rad = units::rad_from_deg(46.0);
    Pasture west{.name = "West", .shape = square(0, 0, 800, 800), .ground = Ground::meadow};
    Pasture east{.name = "East", .shape = square(800, 0, 1600, 800), .ground = Ground::native};
    r.pastures = {west, east};
    r.gates = {{.name = "South gate", .at = {200, 0}, .closed = {}, .open_s = 180},
               {.name = "Middle gate", .at = {800, 400}, .closed = {}, .open_s = 180}};
    Trail trail{.name = "Yard trail",
                .path = {{{200, -500}, {200, 400}, {1200, 400}}},
                .surface = Surface::dirt};
    r.trails = {trail};
    r.yards = {{.name = "Home yard", .at = {200, -500}, .capacity_bales = {}, .all_weather = true}};
    r.water = {{"the tank", {700, 700}}};
    HayLot good{.name = "Alfalfa",
                .yard = YardId::at(0),
                .kind = HayKind::alfalfa,
                .bales = 200,
                .bale_kg = 590.0,
                .dm_ratio = 0.88,
                .quality = {0.17, 0.58, 0.0023, 0.017, true},
                .price_per_kg = 0.17};
    HayLot plain{.name = "Meadow",
                 .yard = YardId::at(0),
                 .kind = HayKind::native,
                 .bales = 400,
                 .bale_kg = 560.0,
                 .dm_ratio = 0.90,
                 .quality = {0.078, 0.55, 0.0012, 0.010, true},
                 .price_per_kg = 0.11};
    HayLot straw{.name = "Straw",
                 .yard = YardId::at(0),
                 .kind = HayKind::straw,
                 .bales = 50,
                 .bale_kg = 450.0,
                 .dm_ratio = 0.90,
                 .quality = {0.041, 0.43, 0.0011, 0.015, true},
                 .price_per_kg = 0.05};
    r.lots = {good, plain, straw};
    Rig unroll{.name = "Peel",
               .method = Method::unroll,
               .line_rule = LineRule::any,
               .bales_per_trip = 2,
               .mass_kg = 9000,
               .pto_w = 75000,
               .turn_radius_m = 8.0};
    Rig shred{.name = "Chop",
              .method = Method::shred,
              .line_rule = LineRule::straight,
              .bales_per_trip = 2,
              .mass_kg = 10000,
              .pto_w = 90000,
              .turn_radius_m = 9.0,
              .waste_ratio = 0.19};
    r.rigs = {unroll, shred};
    Herd cows{.name = "Cows",
              .head = 150,
              .weight_kg = 590,
              .stage = Stage::mid_gestation,
              .pastures = {PastureId::at(0), PastureId::at(1)}};
    Herd own{.name = "Own count",
             .head = 80,
             .weight_kg = 560,
             .stage = Stage::dry,
             .bales_per_day = 2.5,
             .pastures = {PastureId::at(1)},
             .feed_every_days = 2};
    r.herds = {cows, own};
    for (int i = 0; i < 40; ++i) {
        const double y = 40.0 + 10.0 * (i % 8);
        r.feedings.push_back({.from = day("2025-09-01") + std::chrono::days{3 * i},
                              .to = day("2025-09-01") + std::chrono::days{3 * i},
                              .herd = HerdId::at(0),
                              .pasture = PastureId::at(0),
                              .bales = 6.0,
                              .bale_dm_kg = 510.0,
                              .shape = MultiPolyline{{{100, y}, {400, y}}},
                              .where = "feedings, row"});
    }
    return checked;
}

}  // namespace haylane::testing
