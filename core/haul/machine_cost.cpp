// ASABE EP496 (capital recovery, 1 % for taxes, insurance and housing) and D497 (repair factors,
// remaining value by power class).
#include "core/haul/machine_cost.h"

#include "core/base/units.h"

#include <cmath>

namespace haylane {
namespace {

struct ValueFactors {
    double c1 = 0.0;
    double c2 = 0.0;
    double c3 = 0.0;
};

ValueFactors value_factors(double pto_w) {
    const double hp = pto_w / units::kWattsPerHorsepower;
    if (hp < 80.0) return {0.9809, 0.0934, 0.0058};
    if (hp < 150.0) return {0.9421, 0.0999, 0.0008};
    return {0.9756, 0.1187, 0.0019};
}

}  // namespace

double capital_recovery_factor(double rate, double years) {
    if (rate == 0.0) return 1.0 / years;
    const double growth = std::pow(1.0 + rate, years);
    return rate * growth / (growth - 1.0);
}

double capital_recovery(double price, double end_value, double rate, double years) {
    return (price - end_value) * capital_recovery_factor(rate, years) + end_value * rate;
}

double taxes_insurance_housing(double price, double end_value) {
    return 0.01 * (price + end_value) / 2.0;
}

double accumulated_repairs_ratio(const RepairFactors& factors, double hours) {
    return factors.rf1 * std::pow(hours / 1000.0, factors.rf2);
}

double remaining_value_ratio(double pto_w, double years, double hours_per_year) {
    const ValueFactors f = value_factors(pto_w);
    const double root = f.c1 - f.c2 * std::sqrt(years) - f.c3 * std::sqrt(hours_per_year);
    return root > 0.0 ? root * root : 0.0;
}

}  // namespace haylane
