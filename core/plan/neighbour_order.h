#pragma once
// Lays feedings as drivers do, each beside the herd's last one, block by block: the block under way
// is filled first, then the block that evens the ground best. Deterministic for any number of
// threads.

#include "core/lines/site_lines.h"
#include "core/plan/choice_model.h"
#include "core/plan/load_room.h"

#include <functional>
#include <vector>

namespace haylane {

// One herd's feedings in one pasture.
struct OrderChain {
    std::vector<std::size_t> feedings;  // indices into the choice's feedings, by date
    std::vector<Site> open;             // blocks under way: both sides of the herd's last lines
    bool open_is_new = false;           // held lines say so, but nothing lies in it yet
    std::vector<Site> blocks;           // where a new one may be opened
};

struct OrderInput {
    const LineChoiceInput* choice = nullptr;
    // Feedings that stand in no chain and take their best candidate: held ones before the chains,
    // which keep clear of them, and others after them.
    std::vector<std::size_t> held;
    std::vector<std::size_t> last;
    std::vector<OrderChain> chains;
    std::vector<SiteDay> days;  // by feeding of the choice
    // Driving time of a way to lay a feeding; infinity when it cannot be reached. Thread-safe.
    std::function<double(std::size_t feeding, const Candidate&)> way_s;
    // What hay blown off its lines is worth, as driving time; none = nothing is lost. Thread-safe.
    std::function<double(std::size_t feeding, const Candidate&, double way_s)> lost_s;
    // A new block is opened early when that saves at least as much as this much driving.
    double move_worth_s = 1200.0;
};

// Where a feeding lies in its herd's order.
enum class OrderPlace { beside_last, new_block, no_block };

struct OrderedFeeding {
    Candidate lines;  // none when no candidate keeps the limits either
    double way_s = 0.0;
    double lost_s = 0.0;
    Yielded yielded = Yielded::nothing;
    OrderPlace place = OrderPlace::no_block;  // then it was laid freely
    [[nodiscard]] bool is_laid() const { return !lines.lines.empty(); }
};

// By feeding of the choice. Lines in blocks are a spacing from resting lines and from one another;
// a feeding that no block holds takes the candidate for which least must yield, then the best. No
// line takes its ground over a limit.
// Cost: one windowed energy a block tried, for every block opened.
[[nodiscard]] std::vector<OrderedFeeding> neighbour_order(const OrderInput& input,
                                                          const ChoiceModel& model,
                                                          const LoadLimits& limits);

}  // namespace haylane
