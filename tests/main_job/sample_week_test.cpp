// A week on the sample ranch, checked from the ranch folder's own files and by the exported files,
// not from what the planner says about itself.
#include "app/papers/gui.h"
#include "app/papers/week_sheet.h"
#include "app/session/plan_ranch.h"
#include "core/base/units.h"
#include "core/plan/check_plan.h"
#include "core/plan/ground_need.h"
#include "gis/book/make_book.h"
#include "gis/exchange/lines_geojson.h"
#include "gis/exchange/lines_gpx.h"
#include "gis/exchange/plan_json.h"
#include "tests/support/driving_rules.h"
#include "tests/support/temp_folder.h"

#include <cmath>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <proj.h>

namespace haylane {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

const fs::path kRanch = fs::path(HAYLANE_SOURCE_DIR) / "sample-maps/brindle-coulee";
constexpr int kCandidates = 250;  // fewer than by default, for speed; the rules are the same

// A plain comma table without quotes, as the sample's are.
std::vector<std::map<std::string, std::string>> table(const char* name) {
    std::ifstream file(kRanch / name);
    std::vector<std::map<std::string, std::string>> rows;
    std::vector<std::string> head;
    for (std::string line; std::getline(file, line);) {
        std::vector<std::string> cells;
        std::stringstream parts(line);
        for (std::string cell; std::getline(parts, cell, ',');) cells.push_back(cell);
        if (head.empty()) {
            head = cells;
            continue;
        }
        std::map<std::string, std::string> row;
        for (std::size_t i = 0; i < head.size(); ++i)
            row[head[i]] = i < cells.size() ? cells[i] : "";
        rows.push_back(row);
    }
    return rows;
}

double num(const std::string& text) { return std::strtod(text.c_str(), nullptr); }

class SampleWeek : public ::testing::Test {
  protected:
    static void SetUpTestSuite() {
        temp_ = new testing::TempFolder;
        const auto made = make_book(kRanch, *temp_ / "ranch.gpkg", false);
        ASSERT_TRUE(made) << made.error().what;
        auto open = open_ranch(*temp_ / "ranch.gpkg");
        ASSERT_TRUE(open) << open.error().what;
        open_ = new OpenRanch(std::move(*open));
        open_->checked.ranch.settings.max_candidates = kCandidates;
        auto result =
            plan_ranch(*open_, {.from = *parse_day("2027-01-11"), .days = 7, .threads = 0});
        ASSERT_TRUE(result) << result.error().what << result.error().where;
        result_ = new PlanResult(std::move(*result));
        plan_json_ = new json(json::parse(plan_json(result_->plan, ranch(), open_->frame, {})));
    }
    static void TearDownTestSuite() {
        delete plan_json_;
        delete result_;
        delete open_;
        delete temp_;
    }
    static const Ranch& ranch() { return open_->checked.ranch; }

    static testing::TempFolder* temp_;
    static OpenRanch* open_;
    static PlanResult* result_;
    static json* plan_json_;
};
testing::TempFolder* SampleWeek::temp_ = nullptr;
OpenRanch* SampleWeek::open_ = nullptr;
PlanResult* SampleWeek::result_ = nullptr;
json* SampleWeek::plan_json_ = nullptr;

TEST_F(SampleWeek, EveryHerdDueFeedHasLines) {
    std::map<std::string, int> feedings;
    for (const auto& f : (*plan_json_)["feedings"]) {
        ++feedings[f["herd"]];
        EXPECT_FALSE(f["lines"].empty());
    }
    EXPECT_EQ(feedings["Main cows"], 7);
    EXPECT_EQ(feedings["First-calf heifers"], 7);
    EXPECT_EQ(feedings["Late calvers"], 4);  // every second day
}

TEST_F(SampleWeek, RulesThatNeverYieldAreKept) {
    for (const BrokenRule& broken : check_plan(ranch(), result_->plan))
        ADD_FAILURE() << broken.rule << " at " << broken.where << " by " << broken.by;
}

// Effective temperature: mean of low and high less 1.05 F per mph of wind (0.3 of it in shelter),
// which gives NDSU's 25 F and 20 mph = 4 F. Need: +1 % per F below 18 F (NDSU, dry heavy coat),
// mean of today and tomorrow, hay at most 20 % more. 59 F when wet.
double cold_factor(const std::map<std::string, std::map<std::string, std::string>>& weather,
                   sys_days day, double wind_share) {
    double need = 0.0;
    for (int d = 0; d < 2; ++d) {
        const auto& row = weather.at(format_day(day + std::chrono::days{d}));
        const double mean_f = (num(row.at("low_f")) + num(row.at("high_f"))) / 2.0;
        const double effective = mean_f - 1.05 * wind_share * num(row.at("wind_mph"));
        const double critical = row.at("wet") == "yes" ? 59.0 : 18.0;
        need += std::max(0.0, critical - effective) / 100.0 / 2.0;
    }
    return 1.0 + std::min(0.20, need);
}

// Intake 2.0 % of body weight (no herd is in milk in January); waste by the rig's own column or the
// Lacombe trial's 12 % unrolled and 19 % shredded.
TEST_F(SampleWeek, HayOfferedRunsAheadOfNeedByLessThanABale) {
    std::map<std::string, std::map<std::string, std::string>> weather;
    for (const auto& row : table("weather.csv")) weather[row.at("date")] = row;
    std::map<std::string, std::map<std::string, std::string>> rigs;
    for (const auto& row : table("rigs.csv")) rigs[row.at("rig")] = row;
    std::map<std::string, double> bale_dm_kg;
    for (const auto& row : table("hay.csv")) {
        const double dm = row.at("dm_pct").empty() ? -1.0 : num(row.at("dm_pct")) / 100.0;
        bale_dm_kg[row.at("lot")] =
            dm < 0.0 ? -1.0 : num(row.at("bale_lb")) * units::kKgPerPound * dm;
    }
    int checked = 0;
    for (const auto& herd : table("herds.csv")) {
        if (!herd.at("bales_per_day").empty()) continue;
        double offered = 0.0;
        double least_needed = 0.0;
        double most_needed = 0.0;
        double heaviest = 0.0;
        for (const auto& f : (*plan_json_)["feedings"]) {
            if (f["herd"] != herd.at("herd")) continue;
            const auto& rig = rigs.at(f["rig"]);
            const double waste = !rig.at("waste_pct").empty()  ? num(rig.at("waste_pct")) / 100.0
                                 : rig.at("method") == "shred" ? 0.19
                                                               : 0.12;
            const double eaten =
                num(herd.at("head")) * num(herd.at("weight_lb")) * units::kKgPerPound * 0.020;
            const sys_days day = *parse_day(f["date"].get<std::string>());
            least_needed += eaten * cold_factor(weather, day, 0.3) / (1.0 - waste);
            most_needed += eaten * cold_factor(weather, day, 1.0) / (1.0 - waste);
            for (const auto& draw : f["bales"]) {
                const double dm = bale_dm_kg.at(draw["lot"]);
                ASSERT_GT(dm, 0.0);
                offered += draw["count"].get<int>() * dm;
                heaviest = std::max(heaviest, dm);
            }
            // Whether the pasture is sheltered is the map's word: both ends bound the need.
            EXPECT_GE(offered, least_needed - 1e-6) << herd.at("herd") << f["date"];
            EXPECT_LT(offered, most_needed + heaviest) << herd.at("herd") << f["date"];
            ++checked;
        }
    }
    EXPECT_EQ(checked, 14);
}

TEST_F(SampleWeek, OwnBalesADayAreCountedExactly) {
    double due = 0.0;
    int fed = 0;
    for (const auto& f : (*plan_json_)["feedings"]) {
        if (f["herd"] != "Late calvers") continue;
        due += 4.5 * 2;
        for (const auto& draw : f["bales"]) fed += draw["count"].get<int>();
        EXPECT_GE(fed, due - 1e-9);
        EXPECT_LT(fed, due + 1.0);
    }
    EXPECT_EQ(due, 36.0);
}

TEST_F(SampleWeek, NeverMoreBalesThanALotHoldsAndLoadsFitTheRig) {
    std::map<std::string, int> held;
    std::map<std::string, std::string> yard_of;
    for (const auto& row : table("hay.csv")) {
        held[row.at("lot")] = static_cast<int>(num(row.at("bales")));
        yard_of[row.at("lot")] = row.at("yard");
    }
    std::map<std::string, int> carries;
    for (const auto& row : table("rigs.csv"))
        carries[row.at("rig")] = static_cast<int>(num(row.at("bales_per_trip")));
    for (const auto& f : (*plan_json_)["feedings"]) {
        std::map<std::string, int> by_yard;
        int in_loads = 0;
        for (const auto& draw : f["bales"]) {
            held[draw["lot"]] -= draw["count"].get<int>();
            EXPECT_GE(held[draw["lot"]], 0);
            EXPECT_EQ(draw["yard"], yard_of[draw["lot"]]);
            by_yard[draw["yard"]] += draw["count"].get<int>();
        }
        for (const auto& load : f["loads"]) {
            EXPECT_LE(load["bales"].get<int>(), carries.at(f["rig"]));
            by_yard[load["yard"]] -= load["bales"].get<int>();
            in_loads += load["bales"].get<int>();
        }
        EXPECT_GT(in_loads, 0);
        for (const auto& [yard, left] : by_yard) EXPECT_EQ(left, 0) << yard;
    }
}

bool inside(const json& geometry, double lon, double lat) {
    bool in = false;
    const auto ring_test = [&](const json& ring) {
        for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
            const double xi = ring[i][0];
            const double yi = ring[i][1];
            const double xj = ring[j][0];
            const double yj = ring[j][1];
            if ((yi > lat) != (yj > lat) && lon < (xj - xi) * (lat - yi) / (yj - yi) + xi) in = !in;
        }
    };
    if (geometry["type"] == "Polygon")
        for (const auto& ring : geometry["coordinates"]) ring_test(ring);
    else
        for (const auto& part : geometry["coordinates"])
            for (const auto& ring : part) ring_test(ring);
    return in;
}

// Geodesic length by PROJ (Karney 2013).
double geodesic_m(const json& line) {
    PJ_CONTEXT* context = proj_context_create();
    PJ* ellipsoid = proj_create(context, "+proj=longlat +ellps=WGS84");
    double length = 0.0;
    for (std::size_t i = 1; i < line.size(); ++i) {
        const PJ_COORD a = proj_coord(proj_torad(line[i - 1][0]), proj_torad(line[i - 1][1]), 0, 0);
        const PJ_COORD b = proj_coord(proj_torad(line[i][0]), proj_torad(line[i][1]), 0, 0);
        length += proj_lp_dist(ellipsoid, a, b);
    }
    proj_destroy(ellipsoid);
    proj_context_destroy(context);
    return length;
}

TEST_F(SampleWeek, ExportedLinesLieInTheirPastureAndHaveTheirLength) {
    std::ifstream file(kRanch / "pastures.geojson");
    std::map<std::string, json> pastures;
    std::map<std::string, std::string> feed;
    const json map = json::parse(file);
    for (const auto& feature : map["features"]) {
        pastures[feature["properties"]["name"]] = feature["geometry"];
        const json& word =
            feature["properties"].contains("feed") ? feature["properties"]["feed"] : json("yes");
        feed[feature["properties"]["name"]] = word.is_string() ? word.get<std::string>() : "yes";
    }
    const json lines = json::parse(lines_geojson(result_->plan, ranch(), open_->frame));
    std::set<std::string> ids;
    for (const auto& line : lines["features"]) {
        const json& p = line["properties"];
        EXPECT_TRUE(ids.insert(p["id"]).second);
        EXPECT_NE(feed.at(p["pasture"]), "no");
        for (const auto& at : line["geometry"]["coordinates"])
            EXPECT_TRUE(inside(pastures.at(p["pasture"]), at[0], at[1])) << p["id"];
        const double geodesic = geodesic_m(line["geometry"]["coordinates"]);
        EXPECT_NEAR(p["length_m"].get<double>() / geodesic, 1.0, 1.2e-5) << p["id"];
        EXPECT_GE(p["bales"].get<int>(), 1);
    }
    std::size_t in_plan = 0;
    for (const auto& f : (*plan_json_)["feedings"]) in_plan += f["lines"].size();
    EXPECT_EQ(ids.size(), in_plan);
}

TEST_F(SampleWeek, DrivesCrossFencesOnlyAtOpenGates) {
    int crossings = 0;
    for (const PlannedFeeding& f : result_->plan.feedings) {
        for (const PlannedLoad& load : f.loads) {
            ASSERT_EQ(load.legs.size(), 3U);
            for (const PlannedLeg& leg : load.legs) {
                for (std::size_t i = 1; i < leg.path.size(); ++i) {
                    for (const Pasture& pasture : ranch().pastures) {
                        for (const Polyline& fence : boundary_lines(pasture.shape)) {
                            for (std::size_t e = 1; e < fence.size(); ++e) {
                                const auto at = segment_crossing(leg.path[i - 1], leg.path[i],
                                                                 fence[e - 1], fence[e]);
                                if (!at) continue;
                                ++crossings;
                                EXPECT_TRUE(std::any_of(ranch().gates.begin(), ranch().gates.end(),
                                                        [&](const Gate& g) {
                                                            return distance_m(g.at, *at) <= 10.0 &&
                                                                   !g.closed.holds(f.date);
                                                        }))
                                    << pasture.name << " " << format_day(f.date);
                            }
                        }
                    }
                }
            }
        }
    }
    EXPECT_GT(crossings, 0);
}

TEST_F(SampleWeek, LoadsAreDrivenForwardOffHayLaidThatDay) {
    const test::DrivenPlan driven = test::driven_plan(ranch(), result_->plan);
    for (const std::string& broken : driven.broken) ADD_FAILURE() << broken;
    EXPECT_GT(driven.turns_in, 30);
    EXPECT_EQ(driven.over_hay, 0);
    EXPECT_EQ(driven.backed_up, 0);
}

TEST_F(SampleWeek, MassOnTheGroundIsTheBalanceOfTheBales) {
    DepositMass planned;
    for (const PlannedFeeding& f : result_->plan.feedings) {
        planned.n_kg += f.deposit.n_kg;
        planned.p2o5_kg += f.deposit.p2o5_kg;
        planned.k2o_kg += f.deposit.k2o_kg;
        planned.residue_dm_kg += f.deposit.residue_dm_kg;
    }
    const auto laid = [&](const Raster<double> DepositMap::*layer) {
        double sum = 0.0;
        for (const PastureLoad& load : result_->loads)
            for (std::size_t c = 0; c < (load.after().*layer).values.size(); ++c)
                sum += (load.after().*layer).values[c] - (load.before.*layer).values[c];
        return sum;
    };
    EXPECT_NEAR(laid(&DepositMap::n_kg) / planned.n_kg, 1.0, 1e-9);
    EXPECT_NEAR(laid(&DepositMap::p2o5_kg) / planned.p2o5_kg, 1.0, 1e-9);
    EXPECT_NEAR(laid(&DepositMap::k2o_kg) / planned.k2o_kg, 1.0, 1e-9);
    EXPECT_NEAR(laid(&DepositMap::residue_dm_kg) / planned.residue_dm_kg, 1.0, 1e-9);
    EXPECT_GT(planned.n_kg, 0.0);
}

// The design asks for a gap of 3 % and a gap of gain of 10 % at most in free order.
TEST_F(SampleWeek, FreeOrderComesNearTheBoundAndOrderHasItsPrice) {
    const auto free = plan_ranch(
        *open_,
        {.from = *parse_day("2027-01-11"), .days = 7, .threads = 0, .order = LineOrder::free});
    ASSERT_TRUE(free) << free.error().what;
    const test::DrivenPlan driven = test::driven_plan(ranch(), free->plan);
    for (const std::string& broken : driven.broken) ADD_FAILURE() << broken;
    const Optimality& o = free->plan.optimality;
    EXPECT_LE(o.lower_bound, o.objective);
    EXPECT_LE(o.gap, 0.03);
    ASSERT_TRUE(o.gap_of_gain);
    EXPECT_LE(*o.gap_of_gain, 0.10);
    EXPECT_FALSE(o.order_cost);
    const Optimality& ordered = result_->plan.optimality;
    ASSERT_TRUE(ordered.order_cost);
    EXPECT_NEAR(*ordered.order_cost, ordered.objective - o.objective, 1e-9);
    EXPECT_LT(ordered.objective, ordered.j_ref);
}

// The same over two weeks, where lines have less room left. With all candidates that the command
// weighs it is 8 %; with the fewer that are quick to test, 11 %.
TEST_F(SampleWeek, FreeOrderComesNearTheBoundOverFourteenDays) {
    const auto free = plan_ranch(
        *open_,
        {.from = *parse_day("2027-01-11"), .days = 14, .threads = 0, .order = LineOrder::free});
    ASSERT_TRUE(free) << free.error().what;
    const Optimality& o = free->plan.optimality;
    EXPECT_LE(o.lower_bound, o.objective);
    EXPECT_LE(o.gap, 0.03);
    ASSERT_TRUE(o.gap_of_gain);
    EXPECT_LE(*o.gap_of_gain, 0.12);
    RecordProperty("gap", std::to_string(o.gap));
    RecordProperty("gap_of_gain", std::to_string(*o.gap_of_gain));
}

// Yesterday's line shows on snow: the next lies one spacing from it; out of a cold wind, and after
// it, each goes on with its own (common practice, no source).
TEST_F(SampleWeek, LinesLieBesideTheHerdsLastOnes) {
    std::map<std::string, const PlannedFeeding*> last;
    int beside = 0;
    int all = 0;
    for (const PlannedFeeding& feeding : result_->plan.feedings) {
        const auto key = ranch()[feeding.herd].name + ranch()[feeding.pasture].name +
                         (is_cold_and_windy(ranch(), feeding.date) ? " in the lee" : "");
        if (const PlannedFeeding* before = last[key]) {
            double away = 1e9;
            for (const PlannedLine& a : feeding.lines)
                for (const PlannedLine& b : before->lines)
                    away = std::min(away, distance_m(a.path, b.path));
            ++all;
            if (away < 3.1 * ranch().settings.spacing_m) ++beside;
        }
        last[key] = &feeding;
    }
    EXPECT_GE(3 * beside, 2 * all) << beside << " of " << all;
}

TEST_F(SampleWeek, GroundEndsUpMoreEven) {
    int pastures = 0;
    for (const PastureEvenness& e : result_->plan.evenness) {
        if (e.measure != "p2o5" || !e.before || !e.after) continue;
        ++pastures;
        EXPECT_LT(e.after->cv_ratio, e.before->cv_ratio) << ranch()[e.pasture].name;
    }
    EXPECT_EQ(pastures, 4);
}

// Keys of the plan's JSON schema, version 1.
TEST_F(SampleWeek, PlanJsonHasEveryKeyAndNoUndefinedNumber) {
    for (const char* key :
         {"schema", "ranch", "from", "days", "seed", "units", "feedings", "totals", "evenness",
          "optimality", "hay_left", "hay_lasts", "assumptions", "problems", "switched_off"})
        EXPECT_TRUE(plan_json_->contains(key)) << key;
    EXPECT_EQ((*plan_json_)["schema"], "haylane-plan/1");
    for (const auto& f : (*plan_json_)["feedings"]) {
        for (const char* key :
             {"date",        "herd",         "pasture",       "rig",           "bales",
              "dm_eaten_kg", "dm_needed_kg", "dm_offered_kg", "cp_pct",        "tdn_pct",
              "loads",       "lines",        "line_length_m", "lay_kg_per_m",  "line_m_per_head",
              "start",       "toward",       "deposit",       "deposit_other", "above_nearest",
              "cautions",    "why"}) {
            ASSERT_TRUE(f.contains(key)) << key;
            EXPECT_FALSE(f[key].is_null()) << key;
        }
        for (const char* key : {"line_ids", "bales", "yard", "distance_m", "loaded_distance_m",
                                "time_s", "fuel_l", "cost"})
            EXPECT_TRUE(f["loads"][0].contains(key)) << key;
        EXPECT_GT(f["loads"][0]["fuel_l"].get<double>(), 0.0);
        EXPECT_GE(f["above_nearest"]["time_s"].get<double>(), 0.0);
        EXPECT_GE(f["loads"][0]["distance_m"].get<double>(),
                  f["loads"][0]["loaded_distance_m"].get<double>());
    }
    EXPECT_GT((*plan_json_)["assumptions"].size(), 50U);
}

// Page 1 of the week sheet is complete by itself: three herds, seven days, one side of letter.
TEST_F(SampleWeek, PageOneHoldsARowForEveryHerdAndDay) {
    const Gui gui;
    const auto sheet = render_week_sheet(*result_, ranch(), {});
    ASSERT_TRUE(sheet) << sheet.error().what;
    std::string front;
    for (const PlacedText& line : sheet->record.texts) {
        if (line.page == 1) front += line.text.toStdString() + " ";
    }
    EXPECT_EQ(front.find("page 2"), std::string::npos) << front;
    const auto times = [&](const std::string& text) {
        int count = 0;
        for (auto at = front.find(text); at != std::string::npos; at = front.find(text, at + 1))
            ++count;
        return count;
    };
    EXPECT_EQ(times(": lay "), static_cast<int>(result_->plan.feedings.size())) << front;
}

TEST_F(SampleWeek, SamePlanForOneAndTwoThreads) {
    const auto text = [&](int threads) {
        auto open = open_ranch(*temp_ / "ranch.gpkg");
        EXPECT_TRUE(open);
        open->checked.ranch.settings.max_candidates = 60;
        const auto result =
            plan_ranch(*open, {.from = *parse_day("2027-01-11"), .days = 3, .threads = threads});
        EXPECT_TRUE(result);
        const Ranch& r = open->checked.ranch;
        return plan_json(result->plan, r, open->frame, open->crs_operations) +
               lines_geojson(result->plan, r, open->frame) +
               routes_geojson(result->plan, r, open->frame) +
               lines_gpx(result->plan, r, open->frame);
    };
    EXPECT_EQ(text(1), text(2));
}

}  // namespace
}  // namespace haylane
