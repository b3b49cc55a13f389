#pragma once
// Words for a driver: where a line starts, as a distance and direction from something that can be
// seen, and what to drive toward.

#include "core/plan/plan.h"
#include "core/ranch/ranch.h"

#include <string>
#include <vector>

namespace haylane {

// Something a driver can see from the cab.
struct Landmark {
    std::string name;  // "Creek gate", "the windmill", "the NE corner"
    Point at;
    bool gate = false;
};

// Gates of the pasture (given as ids), water, shelter, yards and the pasture's corners.
[[nodiscard]] std::vector<Landmark> landmarks_of(const Ranch& ranch, PastureId pasture,
                                                 const std::vector<GateId>& gates);
// From the nearest gate when one stands within 500 m, else from the nearest landmark.
[[nodiscard]] StartHint start_hint(const std::vector<Landmark>& landmarks, Point start);
// "northeast", and ", toward the windmill" when a landmark stands within 12 degrees ahead.
[[nodiscard]] std::string toward(const std::vector<Landmark>& landmarks, const Polyline& line);
// "north", "northeast", ... for an azimuth clockwise from north.
[[nodiscard]] std::string_view compass_word(double azimuth);

}  // namespace haylane
