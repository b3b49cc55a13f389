// Every block is listed twice, once from either side. Pieces of ground in the lee are cut each at
// its own heading; swaths shorter than a load cut it into lines of fewer bales, so they come last.
#include "core/plan/feed_blocks.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace haylane {

namespace {

double room_of(const std::vector<Site>& sites) {
    double room = 0.0;
    for (const Site& site : sites) room += site.room_m * site.swaths;
    return room;
}

class Cutter {
  public:
    Cutter(const BlocksAsked& asked, const SiteOptions& options, double site_days)
        : asked_(&asked), options_(options), site_days_(site_days) {}

    [[nodiscard]] std::vector<Site> whole(const FeedableGround& ground) const {
        const std::vector<Site> best = roomiest(ground, options_.end_keep_m);
        return best.empty() ? roomiest(ground, 0.0) : best;
    }

    [[nodiscard]] std::vector<Site> in_pieces(const FeedableGround& ground) const {
        const DayLength& day = asked_->greatest;
        const double least_m2 = day.total_m * options_.spacing_m / 2.0;
        std::vector<Site> all;
        for (const double room : {day.total_m, 2.0 * day.longest_m, day.longest_m,
                                  0.67 * day.longest_m, 0.5 * day.longest_m}) {
            FeedableGround piece = ground;
            for (const Polygon& part : ground.region.shape()) {
                if (area_m2({part}) < least_m2) continue;
                piece.region = Region({part});
                const std::vector<Site> sites = with_room(piece, room, 0.0);
                all.insert(all.end(), sites.begin(), sites.end());
            }
            const bool holds = std::any_of(all.begin(), all.end(), [&](const Site& site) {
                return !fill_site(site, {asked_->day}).empty();
            });
            if (holds) break;
        }
        return all;
    }

  private:
    [[nodiscard]] std::vector<Site> roomiest(const FeedableGround& ground,
                                             double end_keep_m) const {
        const DayLength& day = asked_->greatest;
        std::vector<Site> best;
        for (const double room : {day.total_m, day.longest_m}) {
            if (!best.empty() && room >= day.total_m) continue;
            std::vector<Site> sites = with_room(ground, room, end_keep_m);
            // The longer swath is worth a little room: it is one line to drive, not two.
            if (room_of(sites) > 1.1 * room_of(best)) best = std::move(sites);
        }
        return best;
    }

    [[nodiscard]] std::vector<Site> with_room(const FeedableGround& ground, double room_m,
                                              double end_keep_m) const {
        if (room_m <= 0.0) return {};
        SiteOptions options = options_;
        options.end_keep_m = end_keep_m;
        options.room_m = room_m;
        options.swaths = std::max(
            2, static_cast<int>(std::ceil(site_days_ * asked_->greatest.total_m / room_m)));
        return sites_on(ground, options);
    }

    const BlocksAsked* asked_;
    SiteOptions options_;
    double site_days_;
};

}  // namespace

DayLength length_of(const LineRequest& request) {
    DayLength length;
    double bales = 0.0;
    for (const LineRequest::Load& load : request.loads) {
        length.total_m += load.length_m;
        length.longest_m = std::max(length.longest_m, load.length_m);
        bales += load.bales;
    }
    if (length.total_m > 0.0) length.bales_per_m = bales / length.total_m;
    return length;
}

std::vector<Site> feed_blocks(const BlocksAsked& asked, const SiteOptions& options,
                              double site_days) {
    const Cutter cutter(asked, options, site_days);
    const FeedableGround& ground = *asked.day.ground;
    return asked.first.ground.lee_of_rad ? cutter.in_pieces(ground) : cutter.whole(ground);
}

double room_in_m(const std::vector<Site>& sites) { return room_of(sites) / 2.0; }

}  // namespace haylane
