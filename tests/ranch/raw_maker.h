#pragma once
// Small raw ranches in code: two square pastures of 400 m side by side, a yard, gates, a trail, a
// herd, a lot and a rig, all sound. Tests break one thing at a time.

#include "core/ranch/check_ranch.h"

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>

namespace haylane::testing {

using Fields = std::map<std::string, RawValue>;

inline MultiPolygon square(double x, double y, double side_m) {
    return {{{{x, y}, {x + side_m, y}, {x + side_m, y + side_m}, {x, y + side_m}}, {}}};
}

inline RawRow row(Fields fields, decltype(RawRow::shape) shape = {}) {
    return {std::move(fields), std::move(shape), "test row"};
}

// South pasture at y 0 to 400, North at 400 to 800; both x 0 to 400. Yard south of South gate.
inline RawRanch sound_ranch() {
    RawRanch raw;
    raw.name = "Test ranch";
    raw.latitude_rad = 0.8;
    raw.roles["pastures"] = {row({{"name", "South"}, {"ground", "tame"}}, square(0, 0, 400)),
                             row({{"name", "North"}, {"ground", "native"}}, square(0, 400, 400))};
    raw.roles["gates"] = {row({{"name", "South gate"}}, Point{200, 0}),
                          row({{"name", "Middle gate"}}, Point{200, 400})};
    raw.roles["trails"] = {row({{"name", "Lane"}, {"surface", "dirt"}},
                               MultiPolyline{{{200, -60}, {200, 0}, {200, 400}, {200, 600}}})};
    raw.roles["yards"] = {row({{"name", "Stack yard"}}, Point{200, -60})};
    raw.roles["herds"] = {row({{"herd", "Cows"},
                               {"head", 50.0},
                               {"weight_kg", 590.0},
                               {"stage", "mid_gestation"},
                               {"pastures", "South;North"}})};
    raw.roles["hay"] = {row({{"lot", "Grass"},
                             {"yard", "Stack yard"},
                             {"kind", "grass"},
                             {"bales", 200.0},
                             {"bale_kg", 567.0},
                             {"cp_ratio", 0.09},
                             {"tdn_ratio", 0.55},
                             {"p_ratio", 0.002},
                             {"k_ratio", 0.015}})};
    raw.roles["rigs"] = {row({{"rig", "Unroller"},
                              {"method", "unroll"},
                              {"bales_per_trip", 2.0},
                              {"mass_kg", 8000.0},
                              {"pto_w", 70000.0},
                              {"turn_radius_m", 7.3}})};
    return raw;
}

// The first problem of a code; nullptr when there is none.
inline const Problem* find_problem(const CheckedRanch& checked, std::string_view code) {
    const auto found = std::find_if(checked.problems.begin(), checked.problems.end(),
                                    [&](const Problem& p) { return p.code == code; });
    return found == checked.problems.end() ? nullptr : &*found;
}

inline bool is_switched_off(const CheckedRanch& checked, std::string_view feature) {
    return std::any_of(checked.switched_off.begin(), checked.switched_off.end(),
                       [&](const SwitchedOff& off) { return off.feature == feature; });
}

}  // namespace haylane::testing

// Checks `raw`, stops the test when that fails, and names the result.
#define CHECKED_RANCH(name, raw)                            \
    const auto name##_result = ::haylane::check_ranch(raw); \
    ASSERT_TRUE(name##_result.has_value());                 \
    const ::haylane::CheckedRanch& name = *name##_result

// Checks that a problem of the code is there with that severity and that phrase in its text, and
// that it says what to do.
#define EXPECT_PROBLEM(checked, problem_code, problem_severity, phrase)              \
    do {                                                                             \
        const auto* found = ::haylane::testing::find_problem(checked, problem_code); \
        ASSERT_NE(found, nullptr) << "no problem " << (problem_code);                \
        EXPECT_EQ(found->severity, problem_severity);                                \
        EXPECT_NE(found->text.find(phrase), std::string::npos) << found->text;       \
        EXPECT_FALSE(found->remedy.empty());                                         \
        EXPECT_FALSE(found->where.empty());                                          \
    } while (false)
