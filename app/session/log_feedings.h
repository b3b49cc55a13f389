#pragma once
// Laid lines made into feedings: which planned line, pasture, herd and hay each belongs to. What
// is taken from the plan, what was told and what is a guess stays apart, and what is missing is
// said and not made up.

#include "app/session/kept_plans.h"
#include "app/session/local_day.h"
#include "app/session/log_tracks.h"

namespace haylane {

class LogFeedings {
  public:
    LogFeedings(const OpenRanch& open, const LogRequest& request, const std::vector<KeptDay>& days,
                const LocalDay& local);
    // Makes `feedings` of `tracks`, in place of any that were there, and adds what is odd.
    void propose(LogProposal& out) const;

  private:
    struct Planned;  // one planned line of a day near the tracks' own
    struct Group;    // laid lines of one feeding

    [[nodiscard]] std::vector<Planned> planned_near(const LogProposal& out) const;
    [[nodiscard]] std::optional<std::size_t> pasture_of(const Polyline& line) const;
    [[nodiscard]] std::string herd_in(const std::string& pasture) const;
    void add_line(LoggedLine line, const std::vector<Planned>& planned, sys_days date,
                  std::vector<Group>& groups, Problems& problems) const;
    [[nodiscard]] ProposedFeeding feeding_of(const Group& group, const LogProposal& out) const;
    void set_bales(const Group& group, const LogProposal& out, ProposedFeeding& feeding) const;
    [[nodiscard]] std::string lot_for(const Group& group, const LogProposal& out) const;
    void share_told_bales(std::vector<ProposedFeeding>& feedings) const;
    void compare(const Group& group, ProposedFeeding& feeding) const;

    const OpenRanch& open_;
    const Ranch& ranch_;
    const LogRequest& request_;
    const std::vector<KeptDay>& days_;
    const LocalDay& local_;
};

}  // namespace haylane
