#pragma once
// A made-up ranch and a made-up finished plan for it, for tests of what is shown: three herds in
// three pastures, a feeding each on every day, two loads and two lines where the herd is large. No
// model is run; the numbers only have to look like a plan's.

#include "core/plan/plan_request.h"
#include "core/ranch/ranch.h"

namespace haylane::support {

struct SamplePlanOptions {
    int herds = 3;
    int days = 7;
    bool long_names = false;  // names and cautions about three times as long
    bool priced = true;
};

struct SamplePlan {
    Ranch ranch;
    PlanResult result;
};

[[nodiscard]] SamplePlan sample_plan(const SamplePlanOptions& options = {});

}  // namespace haylane::support
