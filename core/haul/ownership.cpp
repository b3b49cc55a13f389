// Repairs grow with the square of the meter's hours, so an older machine's are those between its
// meter now and at the end, spread over the years it is kept.
#include "core/haul/ownership.h"

#include "core/base/require.h"

namespace haylane {

OwnershipCost ownership_cost(const OwnedMachine& m) {
    require(m.years > 0.0, "cost of a machine: kept for no time");
    OwnershipCost cost;
    cost.capital_per_year = capital_recovery(m.price, m.end_value, m.real_rate, m.years);
    cost.taxes_insurance_housing_per_year = taxes_insurance_housing(m.price, m.end_value);
    const double hours_then = m.hours_now + m.hours_per_year * m.years;
    const double repairs_ratio = accumulated_repairs_ratio(m.repairs, hours_then) -
                                 accumulated_repairs_ratio(m.repairs, m.hours_now);
    cost.repairs_per_year = m.list_price.value_or(m.price) * repairs_ratio / m.years;
    cost.fuel_per_year = m.hours_per_year * m.fuel_l_per_hour * m.fuel_price_per_l;
    cost.lubricant_per_year = m.lubricant_ratio * cost.fuel_per_year;
    cost.labor_per_year = m.hours_per_year * m.labor_ratio * m.labor_per_hour;
    if (m.hours_per_year > 0.0) cost.per_hour = cost.per_year() / m.hours_per_year;
    if (m.bales_per_year > 0.0) cost.per_bale = cost.per_year() / m.bales_per_year;
    return cost;
}

std::optional<double> bales_to_own(const OwnedMachine& machine, double quote_per_bale) {
    if (machine.bales_per_year <= 0.0) return std::nullopt;
    const OwnershipCost cost = ownership_cost(machine);
    const double saved_per_bale = quote_per_bale - cost.running_per_year() / machine.bales_per_year;
    if (saved_per_bale <= 0.0) return std::nullopt;
    return cost.owning_per_year() / saved_per_bale;
}

}  // namespace haylane
