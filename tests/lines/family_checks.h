#pragma once
// Every family of lines on one pasture, held to every rule. Faults are collected as text, so that
// one test can go over a thousand pastures.

#include "core/base/units.h"
#include "core/geometry/boolean_ops.h"
#include "core/lines/drivable.h"
#include "core/lines/headings.h"
#include "core/lines/joins.h"
#include "core/lines/site_lines.h"
#include "tests/lines/grounds.h"

#include <algorithm>
#include <map>
#include <string>
#include <vector>

namespace haylane::test {

struct FamilyCase {
    RawMap map;
    LineRequest request;
    bool look_closely = true;  // also by the slow judge of tests/support, one way of each family
};

struct FamilyFindings {
    std::map<LineFamily, int> ways;
    bool ground_is_empty = false;
    bool one_bale_fits = true;  // asked only where no way was found
    std::vector<std::string> faults;
    [[nodiscard]] int all_ways() const {
        int sum = 0;
        for (const auto& [family, count] : ways) sum += count;
        return sum;
    }
};

// "" when one way to lay the request's loads keeps every rule.
inline std::string broken_way(const FeedableGround& ground, const LineRequest& request,
                              const Candidate& way) {
    for (const CandidateLine& line : way.lines) {
        const auto& load = request.loads.at(static_cast<std::size_t>(line.load));
        const LineLimits rules{load.length_m / load.bales * line.bales, request.line_radius_m,
                               request.gates, request.gate_keep_m};
        for (const LineFault fault : line_faults(ground, line, rules))
            return std::string(to_string(fault));
        if (line.curved !=
            (way.family == LineFamily::boundary || way.family == LineFamily::contour))
            return "a curve in a straight family or the other way round";
    }
    if (request.drivable != nullptr && !joins(way, request.turn_radius_m, *request.drivable))
        return "cannot be driven";
    return broken_loads(request, way);
}

// Pieces of one swath may follow each other across what cuts it.
inline bool in_one_row(const CandidateLine& a, const CandidateLine& b) {
    const Point from = a.path.front();
    const Point ahead = (a.path.back() - from) * (1.0 / distance_m(from, a.path.back()));
    return !a.curved && !b.curved && std::abs(cross(ahead, b.path.front() - from)) < 1e-6 &&
           std::abs(cross(ahead, b.path.back() - from)) < 1e-6;
}

inline bool too_near(const CandidateLine& a, const CandidateLine& b, double spacing_m) {
    double least = 1e300;
    for (const Point p : a.path) least = std::min(least, brute_distance(p, b.path, false));
    for (const Point p : b.path) least = std::min(least, brute_distance(p, a.path, false));
    return least < 0.95 * spacing_m;
}

// Days of a site keep a spacing from each other, and lines of one day unless they stand in a row.
inline std::string broken_days(const std::vector<Candidate>& run, double spacing_m) {
    for (std::size_t d = 0; d < run.size(); ++d) {
        for (std::size_t e = 0; e <= d; ++e)
            for (std::size_t i = 0; i < run[d].lines.size(); ++i)
                for (std::size_t j = 0; j < (e == d ? i : run[e].lines.size()); ++j) {
                    const CandidateLine& a = run[d].lines[i];
                    const CandidateLine& b = run[e].lines[j];
                    if (e == d && in_one_row(a, b)) continue;
                    if (too_near(a, b, spacing_m)) return e == d ? "a day's lines" : "two days";
                }
    }
    return "";
}

// Whether a bale's line fits at a heading of 5 degrees with room for the steps between tried lines:
// half of half a spacing sideways and half a heading step at the ends.
inline bool one_bale_fits_well(const FeedableGround& ground, double length_m, double spacing_m) {
    constexpr double kHeading_rad = 5.0 * units::kPi / 180.0;
    const double room = spacing_m / 4.0 + length_m / 2.0 * std::tan(kHeading_rad / 2.0) + 0.2;
    const auto inner = erode(ground.region.shape(), room);
    if (!inner || inner->empty()) return false;
    const Region region(*inner);
    const Box box = region.box();
    const Point middle{(box.min_x + box.max_x) / 2.0, (box.min_y + box.max_y) / 2.0};
    const double reach = std::hypot(box.max_x - box.min_x, box.max_y - box.min_y) / 2.0 + 1.0;
    for (int k = 0; k < 36; ++k) {
        const Point ahead = along_azimuth(k * kHeading_rad);
        const Point right = right_of(k * kHeading_rad);
        const int rows = static_cast<int>(reach / 1.5);
        for (int row = -rows; row <= rows; ++row) {
            const Point at = middle + right * (1.5 * row);
            for (const auto& span : region.inside_spans(at - ahead * reach, at + ahead * reach))
                if (span.to_m - span.from_m >= length_m + 0.1) return true;
        }
    }
    return false;
}

inline void check_sites(const FeedableGround& ground, const FamilyCase& one,
                        FamilyFindings& findings) {
    double total = 0.0;
    for (const auto& load : one.request.loads) total += load.length_m;
    const SiteOptions options{.room_m = total,
                              .spacing_m = one.request.spacing_m,
                              .swaths = 4,
                              .heading_step_rad = one.request.heading_step_rad,
                              .threads = 1};
    const std::vector<SiteDay> days(5, SiteDay{&ground, &one.request});
    const std::vector<Site> sites = sites_on(ground, options);
    const std::size_t stride = 1 + sites.size() / 12;
    for (std::size_t k = 0; k < sites.size(); k += stride) {
        const std::vector<Candidate> run = fill_site(sites[k], days);
        findings.ways[LineFamily::site] += static_cast<int>(run.size());
        for (const Candidate& day : run) {
            if (day.family != LineFamily::site) findings.faults.push_back("site: another family");
            const std::string broken = broken_way(ground, one.request, day);
            if (!broken.empty()) findings.faults.push_back("site: " + broken);
        }
        const std::string near = broken_days(run, one.request.spacing_m);
        if (!near.empty()) findings.faults.push_back("site, too near: " + near);
    }
}

inline FamilyFindings findings_on(const FamilyCase& one) {
    const Terrain none;
    const FeedableGround ground =
        ground_of(one.map, one.map.terrain == nullptr ? none : *one.map.terrain);
    FamilyFindings findings;
    findings.ground_is_empty = ground.region.empty();
    for (const Candidate& way : candidate_lines(ground, one.request)) {
        std::string broken = broken_way(ground, one.request, way);
        if (broken.empty()) broken = broken_order(one.request, way);
        if (broken.empty()) broken = broken_spacing(one.request, way);
        if (broken.empty() && one.look_closely && findings.ways[way.family] == 0)
            broken = broken_rule(one.map, one.request, way);
        ++findings.ways[way.family];
        if (!broken.empty())
            findings.faults.push_back(std::string(to_string(way.family)) + ": " + broken);
    }
    check_sites(ground, one, findings);
    if (findings.all_ways() > 0 || findings.ground_is_empty) return findings;
    LineRequest bale;
    bale.loads = {{1, one.request.loads.front().length_m / one.request.loads.front().bales}};
    bale.max_candidates = 50;
    bale.spacing_m = one.request.spacing_m;
    findings.one_bale_fits = !candidate_lines(ground, bale).empty();
    if (!findings.one_bale_fits && one.map.terrain == nullptr &&
        one_bale_fits_well(ground, bale.loads[0].length_m, bale.spacing_m))
        findings.faults.push_back("no line for a bale where one fits well");
    return findings;
}

}  // namespace haylane::test
