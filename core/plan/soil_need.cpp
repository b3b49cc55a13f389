// Classes of a method are reduced to two values: the start of the class above "low", and that of
// "very high" (sources by setting). Ground that tests very high keeps a weight above 0: at 0 it
// would leave the target ground, and hay there would count as free of charge.
#include "core/plan/soil_need.h"

#include "core/deposit/cells_inside.h"
#include "core/geometry/polygon.h"

#include <algorithm>
#include <cctype>
#include <optional>
#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace haylane {

namespace {

constexpr double kDaysPerYear = 365.25;

struct Scale {
    double low_ppm = 0.0;
    double high_ppm = 0.0;
};

// Small letters and digits only: "Bray-P1", "Bray P1" and "bray p1" are one method.
std::string plain(const std::string& method) {
    std::string kept;
    for (const char c : method) {
        const auto letter = static_cast<unsigned char>(c);
        if (std::isalnum(letter) != 0) kept += static_cast<char>(std::tolower(letter));
    }
    if (kept == "bray" || kept == "bray1" || kept == "p1") return "brayp1";
    if (kept == "mehlichiii" || kept == "m3" || kept == "mehlich3p" || kept == "m3p")
        return "mehlich3";
    return kept == "olsenp" ? "olsen" : kept;
}

// Potassium of a sheet that names Olsen or Bray P1 is by ammonium acetate (common practice, no
// source); Mehlich-3 potassium is on a scale of its own, which is not known here.
std::optional<Scale> scale_of(const std::string& method, Measure measure, const Settings& s) {
    const bool phosphorus = measure == Measure::p2o5;
    if (method == "olsen" || method == "brayp1") {
        if (!phosphorus) return Scale{s.soil_k_low_ppm, s.soil_k_high_ppm};
        return method == "olsen" ? Scale{s.soil_olsen_low_ppm, s.soil_olsen_high_ppm}
                                 : Scale{s.soil_bray_low_ppm, s.soil_bray_high_ppm};
    }
    if (method == "mehlich3" && phosphorus)
        return Scale{s.soil_mehlich_low_ppm, s.soil_mehlich_high_ppm};
    return std::nullopt;
}

double need_of(double ppm, const Scale& scale, double high_weight) {
    if (ppm <= scale.low_ppm) return 1.0;
    if (ppm >= scale.high_ppm) return high_weight;
    const double along = (ppm - scale.low_ppm) / (scale.high_ppm - scale.low_ppm);
    return 1.0 + along * (high_weight - 1.0);
}

struct Test {
    const SoilSample* sample = nullptr;
    double ppm = 0.0;
    std::string method;                // plain
    std::optional<PastureId> pasture;  // of a point
};

bool is_zone(const Test& test) {
    return std::holds_alternative<MultiPolygon>(test.sample->where_taken);
}

std::optional<PastureId> pasture_at(const Ranch& ranch, const SoilSample& sample) {
    const auto* at = std::get_if<Point>(&sample.where_taken);
    if (at == nullptr) return std::nullopt;
    for (std::size_t p = 0; p < ranch.pastures.size(); ++p)
        if (contains(ranch.pastures[p].shape, *at)) return PastureId::at(p);
    return std::nullopt;
}

std::vector<Test> tests_with_value(const Ranch& ranch, Measure measure) {
    std::vector<Test> tests;
    for (const SoilSample& sample : ranch.soil) {
        const auto& ppm = measure == Measure::p2o5 ? sample.p_ppm : sample.k_ppm;
        if (ppm) tests.push_back({&sample, *ppm, plain(sample.method), pasture_at(ranch, sample)});
    }
    return tests;
}

bool is_lone(const std::vector<Test>& tests, const Test& test) {
    return test.pasture && std::count_if(tests.begin(), tests.end(), [&](const Test& other) {
                               return other.method == test.method && other.pasture == test.pasture;
                           }) == 1;
}

// The method that is used; empty when there is none.
std::string method_used(const std::vector<Test>& tests) {
    struct Voice {
        std::string method;
        int count = 0;
        sys_days newest = sys_days::min();
    };
    std::vector<Voice> voices;
    for (const Test& test : tests) {
        auto own = std::find_if(voices.begin(), voices.end(),
                                [&](const Voice& v) { return v.method == test.method; });
        if (own == voices.end()) own = voices.insert(own, Voice{.method = test.method});
        own->count += is_zone(test) || is_lone(tests, test) ? 1 : 0;
        own->newest = std::max(own->newest, test.sample->date.value_or(sys_days::min()));
    }
    const auto most =
        std::max_element(voices.begin(), voices.end(), [](const Voice& a, const Voice& b) {
            return std::pair(a.count, a.newest) < std::pair(b.count, b.newest);
        });
    return most == voices.end() ? std::string() : most->method;
}

std::string names_of(const std::vector<Test>& tests) {
    constexpr std::size_t kNamed = 12;
    std::vector<std::string> names;
    for (const Test& test : tests) {
        if (names.size() == kNamed) {
            names.push_back(fmt::format("{} more", tests.size() - kNamed));
            break;
        }
        names.push_back(test.sample->name);
    }
    return fmt::format("{}", fmt::join(names, ", "));
}

std::string counted(std::size_t count) {
    return count == 1 ? "1 soil test" : fmt::format("{} soil tests", count);
}

Problem problem(const char* code, Severity severity, std::string text, std::string remedy) {
    return {code, severity, "soil", std::move(text), std::move(remedy)};
}

void note_unknown(const std::vector<Test>& unknown, Measure measure, Problems& problems) {
    if (unknown.empty()) return;
    problems.push_back(problem(
        "soil_method_unknown", Severity::warning,
        fmt::format("{} without a method that has known classes for {} set no target: {}.",
                    counted(unknown.size()), measure == Measure::p2o5 ? "phosphorus" : "potassium",
                    names_of(unknown)),
        measure == Measure::p2o5 ? "Write the lab's method: Olsen, Bray P1 or Mehlich-3."
                                 : "Write the lab's method: Olsen or Bray P1."));
}

void note_others(const std::vector<Test>& others, const std::string& used, Problems& problems) {
    if (others.empty()) return;
    problems.push_back(
        problem("soil_methods_differ", Severity::warning,
                fmt::format("Soil tests by {} say which ground is short. {} by another method {} "
                            "left out, as methods are never mixed: {}.",
                            used, counted(others.size()), others.size() == 1 ? "is" : "are",
                            names_of(others)),
                "Have all ground tested by one method."));
}

void note_old(const std::vector<Test>& old, double years, Problems& problems) {
    if (old.empty()) return;
    problems.push_back(problem(
        "soil_test_old", Severity::warning,
        fmt::format("{} over {:g} years old, or of no date, and used all the same: {}.",
                    counted(old.size()) + (old.size() == 1 ? " is" : " are"), years, names_of(old)),
        "Have this ground tested again."));
}

void note_silent(const std::vector<Test>& silent, Problems& problems) {
    if (silent.empty()) return;
    problems.push_back(problem(
        "soil_points_silent", Severity::info,
        fmt::format("{} taken at points set no target: several lie in one pasture, a zone is drawn "
                    "there, or it is no pasture: {}.",
                    counted(silent.size()), names_of(silent)),
        "Draw a zone for the ground that a test stands for."));
}

bool is_old(const SoilSample& sample, sys_days from, double years) {
    return !sample.date ||
           static_cast<double>((from - *sample.date).count()) > years * kDaysPerYear;
}

// Whether a zone among the tests holds the centre of a cell of the pasture.
bool zone_reaches(const std::vector<Test>& tests, const Ranch& ranch, PastureId pasture) {
    const Box box = box_of(ranch[pasture].shape);
    const Grid grid = grid_over(box, ranch.settings.cell_m);
    const Raster<std::uint8_t> own = cells_inside(ranch[pasture].shape, grid);
    return std::any_of(tests.begin(), tests.end(), [&](const Test& test) {
        const auto* area = std::get_if<MultiPolygon>(&test.sample->where_taken);
        if (area == nullptr || !box.meets(box_of(*area))) return false;
        const Raster<std::uint8_t> in_zone = cells_inside(*area, grid);
        for (std::size_t c = 0; c < own.values.size(); ++c)
            if (own.values[c] != 0 && in_zone.values[c] != 0) return true;
        return false;
    });
}

// Moves those of another method out.
std::vector<Test> take_others(std::vector<Test>& tests, const std::string& method) {
    std::vector<Test> others;
    std::copy_if(tests.begin(), tests.end(), std::back_inserter(others),
                 [&](const Test& test) { return test.method != method; });
    std::erase_if(tests, [&](const Test& test) { return test.method != method; });
    return others;
}

std::vector<Test> take_unknown(std::vector<Test>& tests, Measure measure, const Settings& s) {
    std::vector<Test> unknown;
    const auto is_unknown = [&](const Test& test) { return !scale_of(test.method, measure, s); };
    std::copy_if(tests.begin(), tests.end(), std::back_inserter(unknown), is_unknown);
    std::erase_if(tests, is_unknown);
    return unknown;
}

// Zones and lone points of one method, with what is flagged of them.
void speak(const Ranch& ranch, std::vector<Test> tests, const Scale& scale, sys_days from,
           SoilTests& result) {
    std::stable_sort(tests.begin(), tests.end(), [](const Test& a, const Test& b) {
        return a.sample->date.value_or(sys_days::min()) < b.sample->date.value_or(sys_days::min());
    });
    const Settings& s = ranch.settings;
    std::vector<Test> old;
    std::vector<Test> silent;
    for (const Test& test : tests) {
        const double need = need_of(test.ppm, scale, s.soil_high_weight_ratio);
        if (const auto* area = std::get_if<MultiPolygon>(&test.sample->where_taken)) {
            result.zones.push_back({area, need});
        } else if (is_lone(tests, test) && !zone_reaches(tests, ranch, *test.pasture)) {
            result.points.push_back({*test.pasture, need});
        } else {
            silent.push_back(test);
            continue;
        }
        if (is_old(*test.sample, from, s.soil_test_years)) old.push_back(test);
    }
    note_old(old, s.soil_test_years, result.problems);
    note_silent(silent, result.problems);
}

}  // namespace

SoilTests soil_tests(const Ranch& ranch, Measure measure, sys_days from) {
    SoilTests result;
    if (measure != Measure::p2o5 && measure != Measure::k2o) return result;
    std::vector<Test> tests = tests_with_value(ranch, measure);
    note_unknown(take_unknown(tests, measure, ranch.settings), measure, result.problems);
    const std::string used = method_used(tests);
    const auto scale = scale_of(used, measure, ranch.settings);
    if (!scale) return result;
    const std::vector<Test> others = take_others(tests, used);
    result.method = tests.front().sample->method;
    note_others(others, result.method, result.problems);
    speak(ranch, std::move(tests), *scale, from, result);
    return result;
}

Raster<double> soil_need(const SoilTests& tests, const PastureGround& ground) {
    Raster<double> need(ground.mask.grid, 1.0);
    bool speaks = false;
    for (const SoilTests::Zone& zone : tests.zones) {
        const Raster<std::uint8_t> inside = cells_inside(*zone.area, need.grid);
        for (std::size_t c = 0; c < need.values.size(); ++c) {
            if (inside.values[c] == 0 || ground.mask.values[c] == 0) continue;
            need.values[c] = zone.need_ratio;
            speaks = true;
        }
    }
    for (const SoilTests::Lone& point : tests.points) {
        if (speaks || point.pasture != ground.pasture) continue;
        std::fill(need.values.begin(), need.values.end(), point.need_ratio);
        speaks = true;
    }
    return speaks ? need : Raster<double>();
}

}  // namespace haylane
