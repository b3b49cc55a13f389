#include "core/plan/way_time.h"

namespace haylane {

double way_time_s(const TravelMap& travel, PastureId pasture, const std::vector<YardId>& yards,
                  const Candidate& candidate) {
    const std::vector<CandidateLine>& lines = candidate.lines;
    double total = candidate.joins_m / travel.field_m_per_s();
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const YardId yard = yards[static_cast<std::size_t>(lines[i].load)];
        const bool first = i == 0 || lines[i - 1].load != lines[i].load;
        const bool last = i + 1 == lines.size() || lines[i + 1].load != lines[i].load;
        if (first) total += travel.time_s(yard, pasture, lines[i].path.front());
        if (last) total += travel.time_s(yard, pasture, lines[i].path.back());
    }
    return total;
}

}  // namespace haylane
