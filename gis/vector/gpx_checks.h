#pragma once
// What is odd in a GPX file that reads well: receivers that stood still or lost the sky, clocks
// that jump. Linear in the points.

#include "gis/vector/read_gpx.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace haylane {

// Problems by kind: the first five of a code are kept whole, the rest counted in one line.
class ProblemTally {
  public:
    // What the numbers count: lines of the file, or its features.
    explicit ProblemTally(std::string file, std::string counted = "line")
        : file_(std::move(file)), counted_(std::move(counted)) {}
    void add(std::string_view code, std::size_t line, std::string text, std::string remedy);
    [[nodiscard]] std::string where(std::size_t line) const;
    // By code in the order of first appearance.
    [[nodiscard]] Problems problems() const;

  private:
    struct Kind {
        Problems named;
        std::size_t more = 0;
        std::size_t last_line = 0;
    };
    std::string file_;
    std::string counted_;
    std::vector<Kind> kinds_;
};

// Takes the points at 0, 0 and the spikes out of tracks, and reports those and what else is odd.
void check_gpx_tracks(std::vector<GpxTrack>& tracks, ProblemTally& tally);

// Metres on a sphere of 6371 km, for messages and rough limits (0.6 % off WGS 84 at most).
[[nodiscard]] double rough_distance_m(LonLat a, LonLat b);

}  // namespace haylane
