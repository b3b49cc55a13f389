#pragma once
// A ranch after checking: every reference resolved, every default filled in, SI units, ranch frame.
// Made only by check_ranch; after it most of core is total.

#include "core/base/day.h"
#include "core/base/ids.h"
#include "core/geometry/polygon.h"
#include "core/geometry/polyline.h"
#include "core/geometry/raster.h"
#include "core/ranch/settings.h"

#include <array>
#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace haylane {

enum class Ground { meadow, tame, native, stubble, other };
enum class OffLimitsKind { water, well, building, wetland, buried_line, other };
enum class Surface { paved, gravel, dirt, two_track };
enum class Stage {
    dry,
    mid_gestation,
    late_gestation,
    lactating,
    first_calf_late,
    first_calf_lactating,
    bred_heifer,
    growing_heifer,
    bull,
    other
};
enum class RoundTo { bale, load };
enum class FedIn { line, ring };
enum class HayKind { alfalfa, native, grass, baleage, straw, other };
enum class Wrap { net, twine, none };
enum class Method { unroll, shred };
enum class LineRule { straight, wide, any };
enum class Discharge { left, right, behind };
enum class Source { gps, entered, recalled, assumed };

[[nodiscard]] std::string_view to_string(Ground value);
[[nodiscard]] std::string_view to_string(OffLimitsKind value);
[[nodiscard]] std::string_view to_string(Surface value);
[[nodiscard]] std::string_view to_string(Stage value);
[[nodiscard]] std::string_view to_string(HayKind value);
[[nodiscard]] std::string_view to_string(Method value);
[[nodiscard]] std::string_view to_string(LineRule value);
[[nodiscard]] std::string_view to_string(Source value);

// Per-area amounts of the three nutrients, each optional; kg per m2 of N, P2O5, K2O.
struct NutrientRates {
    std::optional<double> n_kg_per_m2;
    std::optional<double> p2o5_kg_per_m2;
    std::optional<double> k2o_kg_per_m2;
};

struct Pasture {
    std::string name;
    MultiPolygon shape;  // valid
    bool feed = true;
    Ground ground = Ground::other;
    bool sacrifice = false;
    std::optional<double> dose_bales_per_m2;
    NutrientRates target;
    NutrientRates limit;
};

struct OffLimits {
    std::string name;
    OffLimitsKind kind = OffLimitsKind::other;
    double setback_m = 0.0;
    bool setback_given = false;
    MultiPolygon area;  // one of the three is filled
    MultiPolyline lines;
    std::vector<Point> points;
};

struct Gate {
    std::string name;
    Point at;
    DateWindow closed;
    double open_s = 180.0;  // time to open and shut
};

struct Trail {
    std::string name;
    MultiPolyline path;
    Surface surface = Surface::two_track;
    std::optional<double> speed_m_per_s;
    std::optional<double> max_kg;
    DateWindow closed;
};

struct Yard {
    std::string name;
    Point at;
    std::optional<int> capacity_bales;
    bool all_weather = false;
};

struct WaterPoint {
    std::string name;
    Point at;
};

struct Shelter {
    std::string name;
    MultiPolygon area;  // any of the three
    MultiPolyline lines;
    std::vector<Point> points;
    std::optional<double> height_m;
};

struct SoftGround {
    std::string name;
    MultiPolygon area;
};

// What a kilogram of hay dry matter holds; elemental P and K.
struct HayQuality {
    double cp_ratio = 0.07;
    double tdn_ratio = 0.50;
    double p_ratio = 0.0015;
    double k_ratio = 0.010;
    bool tested = false;  // false: table values of its kind
};

struct HayLot {
    std::string name;
    YardId yard;
    HayKind kind = HayKind::other;
    int bales = 0;         // on hand at the plan's start
    double bale_kg = 0.0;  // as fed
    double dm_ratio = 0.88;
    HayQuality quality;
    std::optional<double> nitrate_ppm;
    std::optional<double> price_per_kg;  // as fed
    bool feed_first = false;
    std::string keep_to;  // herd or pasture name; empty = anywhere
    Wrap wrap = Wrap::net;
    std::optional<sys_days> counted_on;

    [[nodiscard]] double bale_dm_kg() const { return bale_kg * dm_ratio; }
};

struct Herd {
    std::string name;
    int head = 0;
    double weight_kg = 0.0;
    Stage stage = Stage::other;
    DateMark calving_from;
    DateMark calving_to;
    std::optional<double> intake_ratio;   // kg DM per kg body weight and day
    std::optional<double> bales_per_day;  // the rancher's own number wins
    std::vector<PastureId> pastures;      // first = where they are
    int feed_every_days = 1;
    RoundTo round_to = RoundTo::bale;
    FedIn fed_in = FedIn::line;
    double cake_kg = 0.0;  // per head and day
    double cake_cp_ratio = 0.0;
    double cake_tdn_ratio = 0.0;
    double cake_p_ratio = 0.0;
    double mineral_kg = 0.0;  // per head and day
    double mineral_p_ratio = 0.0;
};

struct Move {
    HerdId herd;
    sys_days date;
    PastureId pasture;
};

// What was measured with a rig on its own ranch; each figure absent until it was. A figure here
// stands in for the model's, and is shown as measured.
struct OwnFigures {
    int trials = 0;  // accepted trial feedings behind the trial figures
    int tracks = 0;  // accepted tracks behind the speeds
    std::optional<sys_days> newest;
    std::optional<double> feed_s_per_bale;  // laying only
    std::optional<double> feed_l_per_bale;  // fuel while laying
    std::optional<double> hookup_s;         // both ends of a trip: on and off
    std::optional<double> cp_lost_ratio;    // of the bale's own, as a share of DM
    std::optional<double> tdn_lost_ratio;
    std::optional<double> drift_downwind_m;
    std::optional<double> feed_m_per_s;
    std::array<std::optional<double>, 4> haul_m_per_s;  // by Surface
};

struct Rig {
    std::string name;
    Method method = Method::unroll;
    LineRule line_rule = LineRule::any;
    std::optional<double> feed_radius_m;
    int bales_per_trip = 1;
    double mass_kg = 0.0;  // tractor and machine, empty
    double pto_w = 0.0;
    double turn_radius_m = 8.0;
    double hitch_m = 0.0;
    double windrow_m = 1.2;
    double drift_downwind_m = 0.0;
    Discharge discharge = Discharge::behind;
    double feed_m_per_s = 0.67;
    double lay_kg_per_m_min = 2.1;  // as fed
    double lay_kg_per_m_max = 3.7;
    std::optional<double> load_s_per_bale;
    double hookup_s = 0.0;
    double waste_ratio = 0.12;  // resolved: the rig's own or its method's
    bool waste_given = false;
    std::optional<double> feed_w;
    OwnFigures own;
};

// Least radius of a line that this rig may lay; nullopt when it must drive straight.
[[nodiscard]] std::optional<double> line_radius_m(const Rig& rig, const Settings& settings);
// Fence strip: max(fence clearance, half the windrow plus drift).
[[nodiscard]] double fence_strip_m(const Rig& rig, const Settings& settings);

struct FeedingRecord {
    sys_days from;
    sys_days to;
    std::optional<HerdId> herd;
    PastureId pasture;
    std::optional<LotId> lot;
    std::optional<RigId> rig;
    double bales = 0.0;
    double bale_dm_kg = 0.0;
    HayQuality quality;
    double waste_ratio = 0.12;
    double intake_kg_per_head_day = 11.0;  // for the split of N between dung and urine
    Source source = Source::entered;
    std::variant<std::monostate, MultiPolyline, MultiPolygon, std::vector<Point>> shape;
    std::string where;  // for problems
};

struct WeatherDay {
    sys_days date;
    std::optional<double> wind_from_rad;  // azimuth the wind comes from
    std::optional<double> wind_m_per_s;
    std::optional<double> low_c;
    std::optional<double> high_c;
    bool wet = false;
    bool thaw = false;
    bool snow = false;
};

struct SoilSample {
    std::string name;
    std::optional<sys_days> date;
    std::optional<double> n_ppm;
    std::optional<double> p_ppm;
    std::optional<double> k_ppm;
    std::string method;
    std::optional<double> depth_m;
    std::string lab;
    std::variant<Point, MultiPolygon> where_taken;
};

struct HayField {
    std::string name;
    Point at;
    double hay_kg = 0.0;
};

// Elevation in the ranch frame; NaN where unknown. Row 0 is the south row.
struct TerrainData {
    Raster<float> elevation_m;
    double own_cell_m = 0.0;  // the file's own resolution
};

struct Ranch {
    std::string name;
    double latitude_rad = 0.0;  // of the frame's centre, for day length only
    Settings settings;
    std::vector<std::string> settings_changed;  // keys the user set
    std::vector<Pasture> pastures;
    std::vector<OffLimits> off_limits;
    std::vector<Gate> gates;
    std::vector<Trail> trails;
    std::vector<Yard> yards;
    std::vector<WaterPoint> water;
    std::vector<Shelter> shelter;
    std::vector<SoftGround> soft;
    std::vector<HayLot> lots;
    std::vector<Herd> herds;
    std::vector<Move> moves;
    std::vector<Rig> rigs;
    std::vector<FeedingRecord> feedings;
    std::vector<WeatherDay> weather;  // by date, one a day
    std::vector<SoilSample> soil;
    std::vector<HayField> hay_fields;
    std::optional<TerrainData> terrain;

    [[nodiscard]] const Pasture& operator[](PastureId id) const { return pastures[id.index()]; }
    [[nodiscard]] const Yard& operator[](YardId id) const { return yards[id.index()]; }
    [[nodiscard]] const HayLot& operator[](LotId id) const { return lots[id.index()]; }
    [[nodiscard]] const Herd& operator[](HerdId id) const { return herds[id.index()]; }
    [[nodiscard]] const Rig& operator[](RigId id) const { return rigs[id.index()]; }
    [[nodiscard]] const Gate& operator[](GateId id) const { return gates[id.index()]; }
    [[nodiscard]] const Trail& operator[](TrailId id) const { return trails[id.index()]; }
};

// The weather of a day; nullptr when none is known.
[[nodiscard]] const WeatherDay* weather_on(const Ranch& ranch, sys_days day);
// Whether soft ground is shut on a day; false when the weather is not known.
[[nodiscard]] bool thaws_on(const Ranch& ranch, sys_days day);
// Whether some recorded feeding of the herd holds the day.
[[nodiscard]] bool on_record(const Ranch& ranch, HerdId herd, sys_days day);

}  // namespace haylane
