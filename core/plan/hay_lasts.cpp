// Method: each herd's need day by day (stage by date, its own bales a day where given) is drawn
// from the lots it may eat: its kept hay, then feed_first, then by lot; straw up to its share.
// Three cases: sparing, middle, hungry. Waste: unrolled and shredded 12 to 19 % (Lacombe trial; a
// review of other trials turns their order round, so one range serves both), ring 6.1 % (Buskirk
// 2003) to 21 % (Oklahoma State pipe ring); a rig's own figure is taken as it is. Bales guessed by
// eye are 10 % off (Wisconsin, Georgia extension). Cold: days past the known weather take none,
// half, or all of the mean rise of the known days (assumption).
#include "core/plan/hay_lasts.h"

#include "core/base/require.h"
#include "core/ration/bales_needed.h"
#include "core/ration/cold.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>

namespace haylane {
namespace {

using std::chrono::days;

constexpr int kMostDays = 400;
constexpr double kLineWasteLeast = 0.12;
constexpr double kLineWasteMost = 0.19;
constexpr double kRingWasteMost = 0.21;
constexpr double kBaleGuessRatio = 0.10;
constexpr double kEmptyBales = 1e-9;

struct Case {
    double waste_place = 0.0;  // -1 least, 0 as set, 1 most
    double bale_factor = 1.0;
    double cold_share = 0.0;
};

constexpr Case kSparing{-1.0, 1.0 + kBaleGuessRatio, 0.0};
constexpr Case kMiddle{0.0, 1.0, 0.5};
constexpr Case kHungry{1.0, 1.0 - kBaleGuessRatio, 1.0};

struct Outcome {
    std::optional<sys_days> last_fed;  // nullopt: never short
    double short_bales = 0.0;
    std::vector<std::optional<sys_days>> runs_out;
};

double waste_between(double least, double as_set, double most, double place) {
    if (place < 0.0) return std::min(least, as_set);
    return place > 0.0 ? std::max(most, as_set) : as_set;
}

// Mean over rigs, since any of them may feed a line.
double line_waste(const Ranch& ranch, double place) {
    if (ranch.rigs.empty())
        return waste_between(kLineWasteLeast, ranch.settings.waste_unroll_ratio, kLineWasteMost,
                             place);
    double sum = 0.0;
    for (const Rig& rig : ranch.rigs) {
        sum += rig.waste_given
                   ? rig.waste_ratio
                   : waste_between(kLineWasteLeast, rig.waste_ratio, kLineWasteMost, place);
    }
    return sum / static_cast<double>(ranch.rigs.size());
}

double herd_waste(const Ranch& ranch, const Herd& herd, double place) {
    if (herd.fed_in == FedIn::line) return line_waste(ranch, place);
    const double as_set = ranch.settings.waste_ring_ratio;
    return waste_between(as_set, as_set, kRingWasteMost, place);
}

double mean_known_rise(const Ranch& ranch) {
    double sum = 0.0;
    int count = 0;
    for (const WeatherDay& weather : ranch.weather) {
        const auto rise = cold_need_ratio(ranch, weather.date, false);
        if (!rise) continue;
        sum += std::min(*rise, ranch.settings.cold_cap_ratio);
        ++count;
    }
    return count > 0 ? sum / count : 0.0;
}

bool may_eat(const Ranch& ranch, const Herd& herd, const HayLot& lot) {
    if (lot.keep_to.empty() || lot.keep_to == herd.name) return true;
    return std::any_of(herd.pastures.begin(), herd.pastures.end(),
                       [&](PastureId id) { return ranch[id].name == lot.keep_to; });
}

// Lots a herd may eat, in the order it eats them; straw first, since it is rationed by share.
std::vector<std::size_t> eating_order(const Ranch& ranch, const Herd& herd) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < ranch.lots.size(); ++i) {
        if (may_eat(ranch, herd, ranch.lots[i])) order.push_back(i);
    }
    const auto rank = [&](std::size_t i) {
        const HayLot& lot = ranch.lots[i];
        return std::array{lot.kind != HayKind::straw, lot.keep_to.empty(), !lot.feed_first};
    };
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
    return order;
}

class Winter {
  public:
    Winter(const Ranch& ranch, const std::vector<int>& left, const Case& c, double rise)
        : ranch_(ranch), case_(c), known_rise_(rise), bales_(left.begin(), left.end()) {
        for (const Herd& herd : ranch.herds) {
            orders_.push_back(eating_order(ranch, herd));
            wastes_.push_back(herd_waste(ranch, herd, c.waste_place));
        }
    }

    Outcome run(sys_days first, sys_days end) {
        Outcome outcome;
        outcome.runs_out.resize(bales_.size());
        note_empty(outcome, first - days(1));
        for (sys_days day = first; day < end; day += days(1)) {
            double short_today = 0.0;
            for (std::size_t h = 0; h < ranch_.herds.size(); ++h) short_today += feed(h, day);
            if (short_today > kEmptyBales && !outcome.last_fed) outcome.last_fed = day - days(1);
            outcome.short_bales += short_today;
            note_empty(outcome, day);
        }
        return outcome;
    }

  private:
    // Feeds one herd for a day; bales that were not there.
    double feed(std::size_t h, sys_days day) {
        const FeedNeed need =
            feed_need(ranch_, HerdId::at(h), day, 1, wastes_[h], false, typical_bale_kg());
        if (need.bales) return draw(orders_[h], *need.bales, true);
        const bool known = cold_need_ratio(ranch_, day, false).has_value();
        const double rise = known ? 0.0 : case_.cold_share * known_rise_;
        const double missing_kg = draw(orders_[h], need.offered_kg * (1.0 + rise), false);
        return missing_kg / (typical_bale_kg() * case_.bale_factor);
    }

    // Takes `amount` (bales, or kg DM) from the lots in order; what was missing.
    double draw(const std::vector<std::size_t>& order, double amount, bool in_bales) {
        double straw_room = amount * ranch_.settings.straw_limit_ratio;
        double missing = amount;
        for (const std::size_t i : order) {
            const HayLot& lot = ranch_.lots[i];
            const double unit = in_bales ? 1.0 : lot.bale_dm_kg() * case_.bale_factor;
            if (unit <= 0.0) continue;
            const bool straw = lot.kind == HayKind::straw;
            const double room = straw ? std::min(straw_room, missing) : missing;
            const double taken = std::min(room, bales_[i] * unit);
            bales_[i] = std::max(0.0, bales_[i] - taken / unit);
            if (straw) straw_room -= taken;
            missing -= taken;
        }
        return std::max(0.0, missing);
    }

    void note_empty(Outcome& outcome, sys_days day) const {
        for (std::size_t i = 0; i < bales_.size(); ++i) {
            if (bales_[i] <= kEmptyBales && !outcome.runs_out[i]) outcome.runs_out[i] = day;
        }
    }

    double typical_bale_kg() const {
        double kg = 0.0;
        double count = 0.0;
        for (const HayLot& lot : ranch_.lots) {
            const double weight = std::max(1, lot.bales);
            kg += weight * lot.bale_dm_kg();
            count += weight;
        }
        return kg > 0.0 ? kg / count : 1.0;
    }

    const Ranch& ranch_;
    Case case_;
    double known_rise_ = 0.0;
    std::vector<double> bales_;  // left, by lot
    std::vector<std::vector<std::size_t>> orders_;
    std::vector<double> wastes_;
};

int whole_bales(double bales) { return static_cast<int>(std::ceil(bales - 1e-6)); }

}  // namespace

HayLastsResult hay_lasts(const Ranch& ranch, const std::vector<int>& left, sys_days day) {
    require(left.size() == ranch.lots.size(), "hay_lasts: one count a lot");
    auto turnout = ranch.settings.turnout;
    if (turnout && *turnout < day) turnout.reset();  // last year's says nothing
    const sys_days end = turnout.value_or(day + days(kMostDays));
    const double rise = mean_known_rise(ranch);
    const Outcome sparing = Winter(ranch, left, kSparing, rise).run(day, end);
    const Outcome hungry = Winter(ranch, left, kHungry, rise).run(day, end);
    HayLastsResult result;
    result.lasts.turnout = turnout;
    result.lasts.earliest = hungry.last_fed;
    result.lasts.latest = sparing.last_fed;
    if (turnout) {
        result.lasts.short_bales_least = whole_bales(sparing.short_bales);
        result.lasts.short_bales_most = whole_bales(hungry.short_bales);
    }
    result.runs_out = Winter(ranch, left, kMiddle, rise).run(day, end).runs_out;
    return result;
}

}  // namespace haylane
