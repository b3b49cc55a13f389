// Half a part is left free at both ends of a row, so that rows laid end to end keep their bales as
// far apart as those within a row.
#include "core/lines/ring_places.h"

#include "core/base/require.h"

namespace haylane {

std::vector<Point> ring_places(const Polyline& row, int bales) {
    require(bales >= 1, "a row of rings needs a bale");
    const double part_m = length_m(row) / bales;
    std::vector<Point> places;
    for (int b = 0; b < bales; ++b) places.push_back(point_at(row, (b + 0.5) * part_m));
    return places;
}

std::vector<Point> ring_places(const Candidate& rows) {
    std::vector<Point> all;
    if (!rows.in_rings) return all;
    for (const CandidateLine& row : rows.lines) {
        const std::vector<Point> places = ring_places(row.path, row.bales);
        all.insert(all.end(), places.begin(), places.end());
    }
    return all;
}

}  // namespace haylane
