// Less than what every way off a line needs, so that no line is lost that could be left in some
// other way, but for one that only goes straight on.
#include "core/lines/turn_room.h"

#include "core/base/units.h"
#include "core/geometry/turn_path.h"

namespace haylane {

namespace {

constexpr double kStep_m = 2.0;

}  // namespace

bool has_room_to_turn(const Polyline& line, double radius_m, const Region& drivable) {
    if (line.size() < 2) return true;
    const double ahead = units::kPi / 2.0 - azimuth_rad(line[line.size() - 2], line.back());
    const double quarter_m = radius_m * units::kPi / 2.0;
    for (const TurnWord word : {TurnWord::lsl, TurnWord::rsr}) {
        const TurnPath arc{word, {quarter_m, 0.0, 0.0}, quarter_m};
        if (drivable.covers(drive(arc, {line.back(), ahead}, radius_m, kStep_m))) return true;
    }
    return false;
}

}  // namespace haylane
