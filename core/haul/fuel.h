#pragma once
// Diesel burnt by a tractor at part load: ASABE D497 in its older (specific consumption) and newer
// (Grisso, Kocher, Vaughan 2004) forms, reduced throttle included. Power in W, fuel in litres.

namespace haylane {

// Older form, L/kWh: 2.64 X + 3.91 - 0.203 sqrt(738 X + 173); X = power needed / rated.
[[nodiscard]] double specific_fuel_old_l_per_kwh(double load_ratio);
[[nodiscard]] double fuel_rate_old_l_per_s(double load_ratio, double pto_w);
// Newer form: (0.22 X + 0.096) P litres per hour with P in kW; here litres per second.
// throttle_cut_ratio 0.30 = engine slowed 30 %.
[[nodiscard]] double fuel_rate_l_per_s(double load_ratio, double pto_w, double throttle_cut_ratio);

}  // namespace haylane
