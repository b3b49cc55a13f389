#pragma once
// Rotating sites: blocks of a pasture that are filled line beside line, one day after the other,
// and then rest. Yesterday's line shows on snow and the cattle wait beside it. Ranch frame, metres.

#include "core/lines/candidate_lines.h"

#include <functional>
#include <optional>
#include <vector>

namespace haylane {

// A block: parallel swaths from `corner` on, each `room_m` long, the next one `step_m` to the right
// (left when negative) of the one before.
struct Site {
    double azimuth_rad = 0.0;
    Point corner;
    double room_m = 0.0;
    double step_m = 0.0;
    int swaths = 1;
};

// What is fed on one day: where its rig may lay hay, and its loads.
struct SiteDay {
    const FeedableGround* ground = nullptr;
    const LineRequest* request = nullptr;
};

// Whether a day's lines meet lines that someone fixed there: the day then goes on behind them.
using SiteTaken = std::function<bool(std::size_t day, const Candidate& lines)>;

// The days a block holds, each laid beside the one before. Swaths that are cut up by what may not
// be fed on are used as far as pieces fit; more than two in a row without room end the block. Empty
// when the first day finds no room. Lines keep every rule of line_faults, as allowed spans do; days
// keep a spacing from each other.
[[nodiscard]] std::vector<Candidate> fill_site(const Site& site, const std::vector<SiteDay>& days,
                                               const SiteTaken& taken = {});

// The swath of a block nearest to a place, numbered from the corner on; nullopt outside the block.
[[nodiscard]] std::optional<int> swath_at(const Site& site, Point place);
// The block from one of its swaths on.
[[nodiscard]] Site from_swath(Site site, int swath);

struct SiteOptions {
    double room_m = 0.0;  // length of a swath: a day's line
    double spacing_m = 12.0;
    int swaths = 1;  // a block's
    double heading_step_rad = 0.08726646259971647;
    std::optional<double> azimuth_rad;  // the one heading to cut at; none = the roomiest
    double end_keep_m = 0.0;            // no line so near the ground's edge ahead: room to turn
    int threads = 0;
};
// The ground cut into blocks that do not overlap, at the heading that leaves room for the most
// lines; each block twice, begun from either side. Blocks with no room for half a line are left
// out. Cost: one question to the ground a swath and heading.
[[nodiscard]] std::vector<Site> sites_on(const FeedableGround& ground, const SiteOptions& options);

// Whether two lines, taken from end to end and either way round, are parallel to three degrees.
[[nodiscard]] bool are_parallel(const Polyline& a, const Polyline& b);

// Blocks that go on beside `last`, the straight lines of a herd's last feeding, on either side.
// Empty when those lines are not parallel to within three degrees or bend.
[[nodiscard]] std::vector<Site> sites_beside(const MultiPolyline& last, const SiteOptions& options);

}  // namespace haylane
