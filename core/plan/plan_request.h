#pragma once
// What a plan is asked for, and everything it gives back: the plan itself and the ground it leaves.

#include "core/base/day.h"
#include "core/base/error.h"
#include "core/base/progress.h"
#include "core/deposit/deposit_map.h"
#include "core/deposit/pasture_ground.h"
#include "core/plan/plan.h"
#include "core/plan/user_hand.h"

#include <cstdint>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace haylane {

// neighbour: each line beside the herd's last one, block by block. free: any line.
enum class LineOrder { neighbour, free };

struct PlanRequest {
    sys_days from;
    int days = 7;
    std::uint64_t seed = 1;
    int threads = 0;  // 0 = as many as the machine has; the plan does not depend on it
    int swap_rounds = 4;
    LineOrder order = LineOrder::neighbour;
    std::vector<std::string> blocked;  // gates and trails shut this morning, by name
    UserHand hand;
    Progress progress;
    // Once set, lines are improved no further and what there is stands, with the problem
    // "time_limit". Plans cut short depend on the machine.
    std::stop_token enough;
};

// What a plan that was stopped fails with.
[[nodiscard]] inline Error plan_cancelled() {
    return {"cancelled", "Stopped before the plan was done.", "", "Run it again."};
}

// The load on one pasture's ground: past feedings alone, and with the plan.
struct PastureLoad {
    PastureGround ground;
    DepositMap before;
    std::optional<DepositMap> with_plan;  // where the plan feeds
    [[nodiscard]] const DepositMap& after() const { return with_plan ? *with_plan : before; }
};

struct PlanResult {
    Plan plan;
    std::vector<PastureLoad> loads;  // every pasture, in file order
};

}  // namespace haylane
