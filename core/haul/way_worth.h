#pragma once
// What ways are chosen by: seconds, litres or money of a metre driven and of a gate opened, on
// level ground with the mean of the loaded and the empty rig.

#include "core/haul/travel_map.h"
#include "core/ranch/settings.h"

#include <optional>

namespace haylane {

class WayWorth {
  public:
    WayWorth(const Settings& settings, const TravelConditions& conditions);

    // Metres that one unit pays for; with least time, the speed itself.
    [[nodiscard]] double meters_per_unit(std::optional<Surface> surface,
                                         double speed_m_per_s) const;
    [[nodiscard]] double of_gate(double seconds) const;
    [[nodiscard]] bool is_time() const { return per_l_ == 0.0; }

  private:
    const Settings& settings_;
    TravelConditions when_;
    double per_s_ = 1.0;
    double per_l_ = 0.0;
};

}  // namespace haylane
