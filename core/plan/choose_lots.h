#pragma once
// The cheapest whole-bale mix of at most two lots that meets protein and energy, by an integer
// program (Cbc). If no mix meets them, the nearest one and what it is short of. kg are DM.
// Degenerate cases: nothing needed gives no picks. More than two lots only where no two hold
// enough; part of a load only where no whole one can be made up.

#include "core/base/ids.h"
#include "core/base/result.h"
#include "core/ranch/ranch.h"
#include "core/ration/requirement.h"

#include <optional>
#include <string>
#include <vector>

namespace haylane {

// One lot as it stands for this feeding.
struct LotOffer {
    LotId lot;
    int available = 0;  // bales still on hand and not held back
    double bale_dm_kg = 0.0;
    double cost_per_bale = 0.0;  // hay and haul, in any one currency or stand-in
    double cp_ratio = 0.0;
    double tdn_ratio = 0.0;
    bool straw = false;
    bool high_nitrate = false;
    bool feed_first = false;  // other hay counts ten times the dearest price on top
};

struct LotRequest {
    std::vector<LotOffer> offers;  // one a lot
    // Either DM: least_kg <= sum < least_kg + round_to_bales heaviest bales used; or a number of
    // bales, raised to a multiple of round_to_bales.
    double least_kg = 0.0;
    std::optional<int> bales;
    int round_to_bales = 1;  // a whole load where the herd asks for it
    std::optional<Requirement> requirement;
    double cake_dm_kg = 0.0;  // DM of cake fed beside it over the same days
    double cake_cp_ratio = 0.0;
    double cake_tdn_ratio = 0.0;
    double waste_ratio = 0.0;
    double straw_limit_ratio = 0.30;  // of the hay laid
    bool pregnant = false;            // nitrate hay never the whole ration
};

struct LotPick {
    LotId lot;
    int count = 0;
};

struct LotChoice {
    std::vector<LotPick> picks;  // one or two, by lot id
    double dm_kg = 0.0;
    double cp_ratio = 0.0;  // hay eaten and cake together
    double tdn_ratio = 0.0;
    double cost = 0.0;
    // 0 when met. The nearest mix has the least sum of kg CP and kg TDN short, each over its
    // required share; then the least cost.
    double cp_short_ratio = 0.0;
    double tdn_short_ratio = 0.0;
};

// Error "hay_short" when the offers hold too little hay, or too little that may be fed (straw
// limit, nitrate). Ties go to low lot ids; the order of the offers does not matter.
[[nodiscard]] Result<LotChoice> choose_lots(const LotRequest& request);

// The same for bales that are settled already: what they hold and what they are short of. Picks of
// lots that are not offered are left out.
[[nodiscard]] LotChoice lots_as_given(const LotRequest& request, const std::vector<LotPick>& picks);

}  // namespace haylane
