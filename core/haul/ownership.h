#pragma once
// What a machine costs a year to own and to run, so that another can be weighed against it or
// against a custom feeder's quote: capital recovery, taxes, insurance and housing, repairs, fuel,
// lubricant and labour (ASABE EP496 and D497). Money in any one currency, today's.

#include "core/haul/machine_cost.h"

#include <optional>
#include <string>

namespace haylane {

struct OwnedMachine {
    double price = 0.0;       // paid now; of a used machine, or one that is owned: its sale value
    double end_value = 0.0;   // sale value when the years are over; not a share of list
    double years = 10.0;      // kept from now; > 0
    double real_rate = 0.05;  // a year: interest less inflation
    double hours_per_year = 0.0;       // of the machine's own meter
    std::optional<double> list_price;  // new, for repairs; none: the price
    double hours_now = 0.0;            // on the meter today
    RepairFactors repairs = kFourWheelDriveRepairs;
    double fuel_l_per_hour = 0.0;
    double fuel_price_per_l = 0.0;
    double lubricant_ratio = 0.15;  // of the fuel's cost
    double labor_per_hour = 0.0;
    double labor_ratio = 1.1;     // hours of work an hour of the machine: 1.1 to 1.2
    double bales_per_year = 0.0;  // 0: cost a bale is left out
};

struct OwnershipCost {
    double capital_per_year = 0.0;  // depreciation and interest
    double taxes_insurance_housing_per_year = 0.0;
    double repairs_per_year = 0.0;  // mean over the years kept
    double fuel_per_year = 0.0;
    double lubricant_per_year = 0.0;
    double labor_per_year = 0.0;
    [[nodiscard]] double owning_per_year() const {
        return capital_per_year + taxes_insurance_housing_per_year;
    }
    [[nodiscard]] double running_per_year() const {
        return repairs_per_year + fuel_per_year + lubricant_per_year + labor_per_year;
    }
    [[nodiscard]] double per_year() const { return owning_per_year() + running_per_year(); }
    std::optional<double> per_hour;  // none where the machine does not run
    std::optional<double> per_bale;
};
[[nodiscard]] OwnershipCost ownership_cost(const OwnedMachine& machine);

// Bales a year from which owning is cheaper than paying a custom feeder `quote_per_bale`, hours and
// fuel in proportion to bales; none when what a bale costs to run is not below the quote, or the
// machine's bales a year are not known. Repairs a bale are taken as at the machine's own bales.
[[nodiscard]] std::optional<double> bales_to_own(const OwnedMachine& machine,
                                                 double quote_per_bale);

// A machine that may be bought, for a year's feeding with it.
struct MachineOffer {
    std::string name;
    std::string rig;  // whose work it does; empty: each herd's own
    double days_per_year = 150.0;
    OwnedMachine machine;
    OwnershipCost cost;
    std::optional<double> quote_per_bale;  // of a custom feeder
};

}  // namespace haylane
