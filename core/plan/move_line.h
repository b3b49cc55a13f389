#pragma once
// What changes when a planned feeding's lines are moved by hand, told at once and without planning
// anew: all other feedings stay where they are.

#include "core/plan/load_room.h"
#include "core/plan/plan_days.h"

#include <optional>
#include <string>
#include <vector>

namespace haylane {

struct MovedLines {
    std::vector<std::string> broken;   // rules that never yield, a sentence each; none: may be laid
    std::vector<std::string> yielded;  // what gives way for it
    // The feeding as it would stand in the plan, held. Without loads and lines where loads cannot
    // be shared among the lines or there is no way in; the changes below are then 0.
    PlannedFeeding feeding;
    double time_s = 0.0;  // change of the feeding's loads, as the next three
    double distance_m = 0.0;
    double fuel_l = 0.0;
    std::optional<double> cost;  // nullopt until prices are given
    double objective = 0.0;      // change of J
    std::string evenness;        // one sentence in the rancher's words
    // The pasture's heaviest place with the plan and these lines, through the window.
    double heaviest_bales_per_m2 = 0.0;
};

// Kept while lines are moved about. Not for several threads. Cost: making it, one windowed deposit
// a feeding; a move, one of its own and a look over the pasture's cells.
class LineMover {
  public:
    // The plan must outlive it and stay as it is.
    explicit LineMover(KeptPlan& plan);
    // `lines` in driving order, ranch frame, within the feeding's pasture; `feeding` is an index
    // into the plan's feedings. Errors: geometry_failed.
    [[nodiscard]] Result<MovedLines> move(std::size_t feeding, const MultiPolyline& lines);

  private:
    [[nodiscard]] std::size_t ground_of(std::size_t feeding) const;
    [[nodiscard]] Band bales_of(std::size_t feeding, const Candidate& lines) const;
    [[nodiscard]] Result<PlannedFeeding> as_planned(const ScheduledFeeding& held,
                                                    std::size_t feeding, const PlacedLines& placed);
    void tell_changes(std::size_t feeding, const PlacedLines& placed, double way_s,
                      MovedLines& moved) const;
    [[nodiscard]] bool keeps_limits(std::size_t feeding, const Candidate& lines) const;
    void tell_neighbours(std::size_t feeding, const Candidate& lines, MovedLines& moved) const;

    KeptPlan* plan_;
    LoadLimits limits_;
    LoadRoom room_;                           // that all planned lines leave
    std::vector<double> way_s_;               // by feeding, as planned
    std::vector<Band> laid_;                  // by feeding: W of its planned lines
    std::vector<Band> bales_;                 // by feeding: bales through the window
    std::vector<Raster<double>> residual_;    // by ground of the choice
    std::vector<Raster<double>> bales_seen_;  // by ground: past and planned, through the window
};

}  // namespace haylane
