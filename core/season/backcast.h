#pragma once
// The record as the planner would have laid it: the same bales, days, herds, rigs and pastures, but
// every feeding that was laid in lines put where it evens the pasture's ground out best, by the
// choice that plans use, without regard to haul. Patches, points and whole pastures stay as they
// were.

#include "core/season/pasture_account.h"

#include <vector>

namespace haylane {

struct BackcastOptions {
    int max_candidates = 200;  // ways weighed a length and rig
    std::uint64_t seed = 1;
    int threads = 0;
};

struct Backcast {
    std::vector<FeedingRecord> feedings;  // the ranch's, those of the span laid anew
    int moved = 0;                        // feedings laid anew
    int kept = 0;                         // of the span, left as they were
};

// Feedings of the context's span and pastures. Errors: geometry_failed, cancelled.
[[nodiscard]] Result<Backcast> backcast(const AccountContext& context,
                                        const BackcastOptions& options);

}  // namespace haylane
