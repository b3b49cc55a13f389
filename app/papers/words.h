#pragma once
// Numbers, dates and directions in the words a rancher reads. Takes SI, gives UTF-8 text, in US
// customary units or (`metric`) in metres, hectares, kilometres, litres and degrees Celsius.
// Rounded for reading: feet to 10 (to 50 from 1,000 up), minutes whole, miles and gallons to
// tenths.

#include "core/base/day.h"
#include "core/plan/plan.h"
#include "core/ranch/ranch.h"

#include <optional>
#include <string>
#include <vector>

namespace haylane::words {

[[nodiscard]] std::string whole_number(double value);                  // 12,500
[[nodiscard]] std::string short_length(double length_m, bool metric);  // 900 ft, 275 m
// "set 8 bales in the rings, 100 ft apart", "set 1 bale in the ring": of a feeding in rings.
[[nodiscard]] std::string set_in_rings(const PlannedFeeding& feeding, bool metric);
[[nodiscard]] std::string long_length(double length_m, bool metric);          // 2.4 miles, 3.9 km
[[nodiscard]] std::string area(double area_m2, bool metric);                  // 446 acres, 180 ha
[[nodiscard]] std::string minutes(double time_s);                             // 7 min; 1 h 05 min
[[nodiscard]] std::string volume(double volume_l, bool metric);               // 1.9 gal, 7.2 L
[[nodiscard]] std::string weight(double weight_kg, bool metric);              // 7,300 lb, 3,310 kg
[[nodiscard]] std::string temperature(double temperature_c, bool metric);     // 18 °F, -8 °C
[[nodiscard]] std::string money(double amount, const std::string& currency);  // $14.20, 14.20 CAD
// Bales an acre or a hectare, without the unit: whole from 10 up, else a tenth.
[[nodiscard]] std::string bale_density(double bales_per_m2, bool metric);
[[nodiscard]] std::string bale_density_unit(bool metric);  // bales/ac
// 40 lb/ac, 45 kg/ha
[[nodiscard]] std::string nutrient_rate(double kg_per_m2, bool metric);
[[nodiscard]] std::string nutrient(const std::string& measure);  // P2O5, of "p2o5"
[[nodiscard]] std::string compass(double azimuth_rad);           // NE
[[nodiscard]] std::string compass_word(double azimuth_rad);      // northeast
[[nodiscard]] std::string percent(double ratio);                 // 9.4 %
[[nodiscard]] std::string bale_count(int bales);                 // 1 bale, 6 bales
[[nodiscard]] std::string counted(int count, const char* what);  // 1 pair, 3 pairs

[[nodiscard]] std::string weekday(sys_days day);                   // Mon
[[nodiscard]] std::string weekday_and_day(sys_days day);           // Mon 11
[[nodiscard]] std::string short_date(sys_days day);                // Mon 11 Jan
[[nodiscard]] std::string date(sys_days day);                      // 15 May
[[nodiscard]] std::string date_range(sys_days from, sys_days to);  // 9–21 April; 28 March–4 April

// Gates and trails in order, of the first load; then, for every other yard that loads come from,
// "; from East yard: ...". "straight from the yard" where nothing is passed.
[[nodiscard]] std::string way_in(const PlannedFeeding& feeding, const Ranch& ranch);

// "a", "a and b", "a, b and c".
[[nodiscard]] std::string list(const std::vector<std::string>& items);

// The week sheet's top line: "Hay lasts to 9–21 April at this rate; turn-out 15 May; short 150–220
// bales". Says so plainly when an end of the range, or all of it, is not known.
[[nodiscard]] std::string hay_lasts(const HayLasts& lasts);

}  // namespace haylane::words
