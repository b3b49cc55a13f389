#pragma once
// What one herd has ahead of its need from one feeding to the next: hay in kg DM, or bales where it
// gets so many a day.

#include "core/plan/hay_mix.h"
#include "core/ration/bales_needed.h"

namespace haylane {

class NeedAccount {
  public:
    // Whether anything is to be fed for this need.
    [[nodiscard]] bool due(const FeedNeed& need) const;
    // DM to offer at least; with bales a day, whole bales.
    [[nodiscard]] double due_kg(const FeedNeed& need) const {
        return need.offered_kg - surplus_kg_;
    }
    [[nodiscard]] int due_bales(double bales) const;

    // What the last feeding still covers comes off what is ahead, and counts as needed at the next
    // feeding.
    void skip(const FeedNeed& need);

    struct Amounts {
        FeedNeed need;           // with what was skipped
        double needed_kg = 0.0;  // DM to offer, what is left of the last feeding counted
    };
    // With bales a day, need is counted in bales: what is left of the last feeding counts as the
    // bales it was.
    [[nodiscard]] Amounts amounts(FeedNeed need, const HayMix& mix, double waste_ratio) const;

    // The mix was fed for a need as `amounts` gives it.
    void feed(const FeedNeed& need, const HayMix& mix);

  private:
    double surplus_kg_ = 0.0;
    double surplus_bales_ = 0.0;
    double last_bale_dm_kg_ = 0.0;
    double skipped_kg_ = 0.0;  // need of days that the last feeding still covered
    double skipped_bales_ = 0.0;
};

}  // namespace haylane
