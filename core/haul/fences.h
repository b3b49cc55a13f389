#pragma once
// Pasture boundaries as what a way must not cross, and what is shut on a day.
// Frame: ranch frame, metres. Cost of a question: the edges near it, per pasture.

#include "core/geometry/region.h"
#include "core/haul/travel_map.h"

#include <optional>
#include <string>
#include <vector>

namespace haylane {

// Index of a pasture, or outside of all.
inline constexpr int kOutside = -1;

class Fences {
  public:
    explicit Fences(const Ranch& ranch);

    // The smallest pasture that holds the point, or kOutside.
    [[nodiscard]] int region_at(Point p) const;
    // Shares of a-b in (0, 1) where it crosses any boundary, sorted.
    [[nodiscard]] std::vector<double> crossings(Point a, Point b) const;
    // No boundary is crossed between a and b, but within `reach_m` of `gate`.
    [[nodiscard]] bool clear(Point a, Point b, std::optional<Point> gate, double reach_m) const;
    [[nodiscard]] const Region& pasture(int index) const {
        return pastures_[static_cast<std::size_t>(index)];
    }

  private:
    std::vector<Region> pastures_;
    std::vector<int> by_area_;  // smallest first
};

// Why a gate or trail cannot be used, as the end of a sentence ("is closed on 2027-01-11");
// nullopt when it can.
[[nodiscard]] std::optional<std::string> why_shut(const Gate& gate,
                                                  const TravelConditions& conditions);
[[nodiscard]] std::optional<std::string> why_shut(const Trail& trail,
                                                  const TravelConditions& conditions);

// A stretch of a usable trail between fences, in one region.
struct TrailPiece {
    TrailId trail;
    Polyline path;
    int region = kOutside;
    bool first = false;  // starts where the trail starts
    bool last = false;   // ends where the trail ends
};
struct CutTrails {
    std::vector<TrailPiece> pieces;
    Problems problems;  // trail_crosses_fence_without_gate, once a trail
};
// `all` takes trails that are shut too.
[[nodiscard]] CutTrails cut_trails(const Ranch& ranch, const Fences& fences,
                                   const TravelConditions& conditions, bool all);

}  // namespace haylane
