#pragma once
// The account of a whole ranch: every pasture asked for, soil tests beside loads, and advice. Maps
// are handed on pasture by pasture and then dropped, so memory is that of a few pastures.

#include "core/season/ground_advice.h"
#include "core/season/pasture_account.h"

#include <functional>
#include <vector>

namespace haylane {

struct GroundAccount {
    Span span;
    SeasonMeasure shown = SeasonMeasure::p2o5;
    UncertaintyRequest uncertainty;
    std::vector<Span> seasons;             // on record
    sys_days up_to;                        // last day of the span that has a record
    std::vector<PastureAccount> pastures;  // in file order
    Ledger ledger;                         // of the pastures, over the span
    Ledger all_ledger;                     // and since the first record
    std::vector<SoilRelation> soil_relations;
    std::vector<Advice> advice;
};

// Called once a pasture, in file order, from the calling thread. Its error ends the work.
using MapSink = std::function<Result<void>(const PastureAccount&, const PastureMaps&)>;

// The error of an account that was stopped.
[[nodiscard]] Error account_stopped();

// Errors: cancelled, geometry_failed, those of the sink. Linear in feedings and, a season, cells;
// the result does not depend on threads.
[[nodiscard]] Result<GroundAccount> ground_account(const AccountContext& context,
                                                   const MapSink& sink);

}  // namespace haylane
