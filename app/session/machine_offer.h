#pragma once
// A machine that may be bought, as the user writes it, with a year's feeding by it filled in from
// the haul account.

#include "core/base/result.h"
#include "core/haul/haul_account.h"
#include "core/haul/ownership.h"

#include <string>

namespace haylane {

// "price=45000;end_value=20000;years=8": what it is sold for then, and how long it is kept. May
// also say name, rig (whose work it does; left out: the day as the account has it), days (of
// feeding a year, 150), quote (a custom feeder's price a bale), rate_pct (real interest, 5), list
// (its price new) and hours_now, both for repairs. Errors: unknown_offer, unknown_rig,
// number_out_of_range.
[[nodiscard]] Result<MachineOffer> machine_offer(const std::string& text,
                                                 const HaulAccount& account, const Ranch& ranch);

}  // namespace haylane
