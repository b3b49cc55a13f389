#pragma once
// Energy of a feed and what a cow eats of it by the NRC equations: the second opinion beside the
// flat shares of body weight that a plan uses. J/kg of DM, kg per head and day.
// Degenerate cases: a tdn_ratio below about 0.30 gives no positive energy; intake is then 0.

namespace haylane {

struct FeedEnergy {
    double digestible_j_per_kg = 0.0;
    double metabolizable_j_per_kg = 0.0;
    double maintenance_j_per_kg = 0.0;  // net energy for maintenance
};

// Energy of a kilogram of DM from its TDN (0.56 = 56 %).
[[nodiscard]] FeedEnergy feed_energy(double tdn_ratio);

// Second coefficient of the intake equation.
inline constexpr double kIntakeIntercept = 0.0384;
inline constexpr double kIntakeInterceptPregnant =
    0.04631;  // last two thirds; from memory of NRC 1996

struct CowIntake {
    double weight_kg = 0.0;
    double maintenance_j_per_kg = 0.0;  // of the feed's DM
    double milk_kg_per_day = 0.0;
    double intercept = kIntakeIntercept;
};

// DM a mature cow eats, kg a day.
[[nodiscard]] double nrc_intake_kg_per_day(const CowIntake& cow);

}  // namespace haylane
