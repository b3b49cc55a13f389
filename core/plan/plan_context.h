#pragma once
// What every stage of one plan shares: terrain, feedable ground by rig and weather, travel maps by
// the day's conditions, and candidate ways to lay a feeding. Each is made once and kept.
// Not for use from several threads.

#include "core/base/result.h"
#include "core/ground/feedable_ground.h"
#include "core/ground/sheltered_ground.h"
#include "core/ground/terrain.h"
#include "core/haul/travel_map.h"
#include "core/lines/candidate_lines.h"
#include "core/lines/ground_curves.h"
#include "core/plan/ground_need.h"
#include "core/plan/user_hand.h"
#include "core/ranch/ranch.h"

#include <map>
#include <memory>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

namespace haylane {

// Ways to lay a feeding that can be driven to. Owned by the context.
struct ReachableLines {
    const std::vector<Candidate>* candidates = nullptr;
    const std::vector<double>* way_s = nullptr;  // by candidate: driving time of all its loads
};

// Lines for the loads of one feeding.
struct LinesAsked {
    PastureId pasture;
    const Rig* rig = nullptr;
    sys_days date;
    GroundNeed ground;
    std::vector<LineRequest::Load> loads;  // lengths in metres
    bool forward_turns = true;             // from line to line of a load
    bool in_rings = false;
};

class PlanContext {
  public:
    PlanContext(const Ranch& ranch, std::vector<std::string> blocked, UserHand hand = {},
                int threads = 1);

    [[nodiscard]] const Ranch& ranch() const { return ranch_; }
    [[nodiscard]] const Terrain& terrain() const { return terrain_; }
    [[nodiscard]] const UserHand& hand() const { return hand_; }
    // Ground a rig may lay hay on that day, and as is asked; the fence strip is the rig's.
    [[nodiscard]] Result<const FeedableGround*> feedable(PastureId pasture, const Rig& rig,
                                                         sys_days day, const GroundNeed& need = {});
    // Ground out of a wind from this azimuth.
    [[nodiscard]] Result<const ShelteredGround*> sheltered(PastureId pasture, double wind_from_rad);
    // Ground of that day with the plain fence clearance.
    [[nodiscard]] Result<const FeedableGround*> plain_ground(PastureId pasture, sys_days day);
    // Ground in dry weather, on which evenness is judged.
    [[nodiscard]] Result<const FeedableGround*> dry_ground(PastureId pasture);
    // Ways open on a day for a rig with a full load.
    [[nodiscard]] const TravelMap& travel(sys_days day, const Rig& rig);
    // Where a rig's tractor may turn: ground that may be driven, less what it cuts inside its
    // turns.
    [[nodiscard]] Result<const Region*> turning_ground(PastureId pasture, const Rig& rig,
                                                       sys_days day);
    // What lines of these loads are held to.
    [[nodiscard]] Result<LineRequest> line_request(const LinesAsked& asked);
    // Candidates for these loads. Empty when none is legal.
    [[nodiscard]] Result<const std::vector<Candidate>*> candidates(const LinesAsked& asked);
    // Those of the candidates whose every line can be driven to from its load's yard on that day;
    // the same vector when all can. `yards` by load.
    [[nodiscard]] ReachableLines reachable(const std::vector<Candidate>& all, sys_days day,
                                           const Rig& rig, PastureId pasture,
                                           const std::vector<YardId>& yards);
    // Takes ways to lay a feeding, with their driving times, into its keeping.
    [[nodiscard]] ReachableLines keep(std::vector<Candidate> some, std::vector<double> way_s);
    // Problems found while building travel maps, each once.
    [[nodiscard]] const Problems& problems() const { return problems_; }

  private:
    // Ground is the same on days on which the same is closed, in a thaw and not.
    struct GroundDay {
        bool thaw = false;
        std::vector<const ForbiddenGround*> closed;
    };
    [[nodiscard]] GroundDay ground_day(PastureId pasture, sys_days day) const;
    [[nodiscard]] Result<const FeedableGround*> ground_with_strip(PastureId pasture, double strip_m,
                                                                  const GroundDay& day,
                                                                  const GroundNeed& need);
    [[nodiscard]] Result<FeedableGround> narrowed(PastureId pasture, FeedableGround ground,
                                                  const GroundNeed& need);
    [[nodiscard]] const GroundCurves& curves(const FeedableGround& ground, double line_radius_m);
    void note(const Problems& found);

    const Ranch& ranch_;
    std::vector<std::string> blocked_;
    UserHand hand_;
    int threads_;
    Terrain terrain_;
    std::map<std::tuple<int, double, bool, std::vector<const ForbiddenGround*>, GroundNeed>,
             std::unique_ptr<FeedableGround>>
        grounds_;
    std::map<std::pair<int, double>, std::unique_ptr<ShelteredGround>> sheltered_;
    std::map<std::pair<const FeedableGround*, double>, GroundCurves> curves_;
    std::map<std::tuple<int, double, bool>, std::unique_ptr<Region>> turning_;
    std::map<std::string, std::unique_ptr<TravelMap>> travel_;
    std::map<std::string, std::unique_ptr<std::vector<Candidate>>> candidates_;
    struct Reachable {
        std::vector<Candidate> some;  // empty when all can be reached
        std::vector<double> way_s;
    };
    std::map<std::string, Reachable> reachable_;  // nodes of a map do not move
    std::vector<std::unique_ptr<Reachable>> kept_;
    Problems problems_;
};

// True when any shelter stands in the pasture (cattle there feel 0.3 of the wind).
[[nodiscard]] bool has_shelter(const Ranch& ranch, PastureId pasture);

}  // namespace haylane
