#pragma once
// What owning and repairing a machine costs: capital recovery, taxes, insurance and housing,
// accumulated repairs and remaining value (ASABE EP496 and D497). Money in any one currency, rates
// per year as ratios, wear in hours of use as the standard's tables have it.

namespace haylane {

// Yearly payment per unit of money borrowed; years > 0. A rate of 0 gives 1 / years.
[[nodiscard]] double capital_recovery_factor(double rate, double years);
// Depreciation and interest a year.
[[nodiscard]] double capital_recovery(double price, double end_value, double rate, double years);
// 1 % of the mean of price and end value, a year.
[[nodiscard]] double taxes_insurance_housing(double price, double end_value);

struct RepairFactors {
    double rf1 = 0.007;
    double rf2 = 2.0;
};
inline constexpr RepairFactors kTwoWheelDriveRepairs{0.007, 2.0};
inline constexpr RepairFactors kFourWheelDriveRepairs{0.003, 2.0};
// Repairs since new, as a share of list price.
[[nodiscard]] double accumulated_repairs_ratio(const RepairFactors& factors, double hours);

// Remaining value of a tractor as a share of list price after `years` at `hours_per_year`.
[[nodiscard]] double remaining_value_ratio(double pto_w, double years, double hours_per_year);

}  // namespace haylane
