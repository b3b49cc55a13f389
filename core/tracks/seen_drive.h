#pragma once
// What is seen at each fix of a drive, before anyone says what the rig did: speed, turning, the
// kind of place, silences, and what was told.

#include "core/ranch/ranch.h"
#include "core/tracks/motion_model.h"
#include "core/tracks/smooth_track.h"

#include <optional>
#include <span>
#include <vector>

namespace haylane {

// Yards and pastures of a ranch, to be asked often.
class DrivePlaces {
  public:
    // `near_yard_m`: so near a yard is at it. The ranch must outlive this.
    DrivePlaces(const Ranch& ranch, double near_yard_m);
    [[nodiscard]] PlaceKind kind(Point p) const;

  private:
    std::vector<Point> yards_;
    std::vector<const MultiPolygon*> pastures_;
    std::vector<Box> boxes_;
    double near_yard_m_;
};

// Fixes that are cut as one. `breaks`: the receiver was off before it.
struct DriveFixes {
    std::vector<SmoothState> fixes;
    std::vector<bool> breaks;
};

// A receiver that says nothing for so long is silent: longer than the longest interval between
// fixes.
inline constexpr double kSilence_s = 15.0;

struct SeenDrive {
    // One of each a fix. A fix that was not seen stands in the middle of each silence, on the
    // straight way across it.
    std::vector<SmoothState> fixes;
    std::vector<bool> breaks;
    std::vector<bool> unseen;
    std::vector<DriveSign> signs;
    std::vector<std::optional<Motion>> told;
    std::span<const ToldMotion> told_times;  // the list that it was made of
    // From the fix before it; `i` above 0.
    [[nodiscard]] double since_last_s(std::size_t i) const {
        return fixes[i].fix.time_s - fixes[i - 1].fix.time_s;
    }
};

// Of two told motions of one time the later in the list holds; the list must outlive what is made.
// Linear in the fixes.
[[nodiscard]] SeenDrive seen_drive(DriveFixes drive, const DrivePlaces& places,
                                   std::span<const ToldMotion> told);

}  // namespace haylane
