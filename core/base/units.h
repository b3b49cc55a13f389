#pragma once
// Exact conversion factors to SI and the constants of nature used everywhere; conversions happen
// only in gis and app. Sources: NIST Handbook 44 App. C (US customary), CODATA for gravity.

namespace haylane::units {

inline constexpr double kMetersPerFoot = 0.3048;
inline constexpr double kMetersPerInch = 0.0254;
inline constexpr double kMetersPerYard = 0.9144;
inline constexpr double kMetersPerMile = 1609.344;
inline constexpr double kKgPerPound = 0.45359237;
inline constexpr double kKgPerOunce = 0.45359237 / 16.0;
inline constexpr double kKgPerShortTon = 907.18474;
inline constexpr double kKgPerTonne = 1000.0;
inline constexpr double kM2PerAcre = 4046.8564224;
inline constexpr double kM2PerHectare = 10000.0;
inline constexpr double kLitersPerGallon = 3.785411784;
inline constexpr double kWattsPerHorsepower = 745.6998715822702;
inline constexpr double kMetersPerSecondPerMph = 0.44704;
inline constexpr double kMetersPerSecondPerKmh = 1.0 / 3.6;
inline constexpr double kNewtonsPerPoundForce = 4.4482216152605;
inline constexpr double kGravityMPerS2 = 9.80665;
inline constexpr double kPi = 3.14159265358979323846;
inline constexpr double kSecondsPerMinute = 60.0;
inline constexpr double kSecondsPerHour = 3600.0;
inline constexpr double kSecondsPerDay = 86400.0;

// Fahrenheit to Celsius and back (a temperature, not a difference).
[[nodiscard]] constexpr double c_from_f(double f) { return (f - 32.0) / 1.8; }
[[nodiscard]] constexpr double f_from_c(double c) { return c * 1.8 + 32.0; }

// Degrees and radians, for angles of headings (not for longitude and latitude).
[[nodiscard]] constexpr double rad_from_deg(double deg) { return deg * kPi / 180.0; }
[[nodiscard]] constexpr double deg_from_rad(double rad) { return rad * 180.0 / kPi; }

// kg/ha is kg/m2 x 10000; lb/ac from kg/m2.
[[nodiscard]] constexpr double lb_per_ac_from_kg_per_m2(double kg_per_m2) {
    return kg_per_m2 * kM2PerAcre / kKgPerPound;
}

}  // namespace haylane::units
