#pragma once
// Where to feed next and what to let rest, each with its reasons. Ground is ranked by how short it
// is of the nutrient it wants; what is over a limit, far above the rest of the ranch, or shut to
// feeding rests. Advice, not a permit: local code and a licensed nutrient planner come first.

#include "core/season/pasture_account.h"

#include <string>
#include <vector>

namespace haylane {

enum class AdviceKind { feed_next, as_it_is, rest };
[[nodiscard]] std::string_view to_string(AdviceKind kind);

struct Advice {
    PastureId pasture;
    AdviceKind kind = AdviceKind::as_it_is;
    int rank = 0;          // from 1 within its kind
    std::string nutrient;  // "N", "P2O5" or "K2O": what it needs, or has too much of; or empty
    double per_m2 = 0.0;   // how much short (feed_next) or over (rest)
    double score = 0.0;    // what the rank goes by
    std::vector<std::string> reasons;   // sentences
    std::vector<std::string> cautions;  // sentences that defer to local code
};

// P2O5 and K2O that a ton of hay takes off (Ohio extension, 13 and 50 lb a short ton), kg a kg.
inline constexpr double kP2o5PerHay = 13.0 / 2000.0;
inline constexpr double kK2oPerHay = 50.0 / 2000.0;
// Years of hay at a yield that an amount of P2O5 is: 3 short tons an acre.
[[nodiscard]] double years_of_hay(double p2o5_per_m2);

// By kind, then rank. Amounts in the sentences as the settings ask.
[[nodiscard]] std::vector<Advice> ground_advice(const Ranch& ranch,
                                                const std::vector<PastureAccount>& accounts);

}  // namespace haylane
