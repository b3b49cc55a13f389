// ASABE D497.4 (older form) and D497.7 after Grisso, Kocher and Vaughan 2004, Appl. Eng. Agric.
// 20(5):553-561. The newer form's 0.22 and 0.096 are litres per kWh, so P is in kW and the result
// in L/h; the reduced-throttle factor is linear in the per cent by which the engine is slowed.
#include "core/haul/fuel.h"

#include <cmath>

namespace haylane {

double specific_fuel_old_l_per_kwh(double load_ratio) {
    return 2.64 * load_ratio + 3.91 - 0.203 * std::sqrt(738.0 * load_ratio + 173.0);
}

double fuel_rate_old_l_per_s(double load_ratio, double pto_w) {
    return specific_fuel_old_l_per_kwh(load_ratio) * load_ratio * pto_w / 1000.0 / 3600.0;
}

double fuel_rate_l_per_s(double load_ratio, double pto_w, double throttle_cut_ratio) {
    const double cut_pct = 100.0 * throttle_cut_ratio;
    const double throttle = 1.0 - (-0.0045 * load_ratio * cut_pct + 0.00877 * cut_pct);
    const double l_per_h = (0.22 * load_ratio + 0.096) * throttle * pto_w / 1000.0;
    return l_per_h / 3600.0;
}

}  // namespace haylane
