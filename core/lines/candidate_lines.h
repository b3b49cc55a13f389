#pragma once
// Ways to lay a feeding in a pasture: straight families at every heading, curves beside the
// boundary and along the contours of the terrain, each a set of lines, one or more a load, that
// keep every rule that never yields.

#include "core/ground/feedable_ground.h"

#include <optional>
#include <string_view>
#include <vector>

namespace haylane {

// One line of a way to lay a feeding.
struct CandidateLine {
    Polyline path;  // vertices at most 2 m apart on curves; two points when straight
    bool curved = false;
    double length_m = 0.0;
    int load = 0;  // index into the request's loads
    int bales = 0;
};

enum class LineFamily { straight, boundary, contour, site };
[[nodiscard]] std::string_view to_string(LineFamily family);  // "straight"

// A whole way to lay a feeding. Lines stand in driving order: the farthest load first.
struct Candidate {
    std::vector<CandidateLine> lines;
    LineFamily family = LineFamily::straight;
    double joins_m = 0.0;   // driven between the lines of its loads; 0 when not judged
    bool in_rings = false;  // its lines are rows of bales set whole in ring feeders
};

// The lines' paths, in driving order.
[[nodiscard]] MultiPolyline paths_of(const Candidate& candidate);

struct LineRequest {
    struct Load {
        int bales = 1;
        double length_m = 0.0;
    };
    std::vector<Load> loads;
    double line_radius_m = 0.0;  // least radius of a curve; 0 = straight lines only
    double spacing_m = 12.0;     // between lines of the same feeding
    double heading_step_rad = 0.08726646259971647;
    int max_candidates = 1500;  // thinned evenly over the ground, never by chance
    std::vector<Point> gates;   // starts keep `gate_keep_m` away from these
    double gate_keep_m = 60.0;
    // A wind that the rig minds: lines along and across it are tried as well, and each is driven so
    // that hay is not thrown into it, where its start may be at either end.
    std::optional<double> wind_from_rad;
    Discharge discharge = Discharge::behind;
    double turn_radius_m = 0.0;        // for the ways between a load's lines; 0 = not judged
    const Region* drivable = nullptr;  // not owned; null = not judged
    bool in_rings = false;             // the loads are set whole in ring feeders, along rows
    int threads = 1;                   // the lines do not depend on it
};

struct GroundCurves;

// Deterministic; may be empty (the caller then says why). A load that fits no single line is split
// into lines of at least one whole bale. Cost: about (headings x offsets x edges near a line).
[[nodiscard]] std::vector<Candidate> candidate_lines(const FeedableGround& ground,
                                                     const LineRequest& request);
// The same with the ground's curves (curves_on) for the request's radius and spacing at hand.
[[nodiscard]] std::vector<Candidate> candidate_lines(const FeedableGround& ground,
                                                     const LineRequest& request,
                                                     const GroundCurves& curves);

}  // namespace haylane
