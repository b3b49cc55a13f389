#pragma once
// Loads handed out piece by piece to the room there is, and the order and direction in which the
// pieces are driven. Lengths in metres.

#include "core/lines/candidate_lines.h"

#include <optional>
#include <span>
#include <vector>

namespace haylane {

// Whole bales of one load for one line.
struct LoadPiece {
    int load = 0;
    int bales = 0;
    double length_m = 0.0;
};

// Hands out loads in order. A load stays whole where some line can hold it; one longer than
// `longest_m` is cut into lines of as many whole bales as fit.
class LoadQueue {
  public:
    // Every load has at least one bale and a length above 0. `loads` must outlive the queue.
    LoadQueue(const std::vector<LineRequest::Load>& loads, double longest_m);

    [[nodiscard]] bool done() const { return load_ >= loads_->size(); }
    // What would go into `room_m`; nullopt when nothing of the current load may.
    [[nodiscard]] std::optional<LoadPiece> fitting(double room_m) const;
    void take(const LoadPiece& piece);

  private:
    const std::vector<LineRequest::Load>* loads_;
    double longest_m_;
    std::size_t load_ = 0;
    int left_ = 0;  // bales left of the current load
};

// Puts a feeding's lines in driving order (the load farthest from its nearest gate first, a load's
// lines together) and turns lines so that starts keep away from gates and, where they may start at
// either end, hay is not thrown into the wind. nullopt when a start cannot,
// or when the straight way to a line crosses one laid before it.
[[nodiscard]] std::optional<Candidate> in_driving_order(std::vector<CandidateLine> lines,
                                                        const LineRequest& request);

// Whether a way crosses lines already laid; it may begin and end beside one.
[[nodiscard]] bool crosses_hay(const Polyline& way, std::span<const CandidateLine> laid);
[[nodiscard]] bool crosses_hay(const Polyline& way, const MultiPolyline& laid);

// Whether a line may be laid after `laid`, driven as it stands: its start keeps away from gates and
// the straight way to it, from the line before or for a new load from the nearest gate, crosses
// none of them.
[[nodiscard]] bool may_start(const CandidateLine& line, std::span<const CandidateLine> laid,
                             const LineRequest& request);

}  // namespace haylane
