// Rules, not a score of many weights: each one that holds adds its sentence, and the first of the
// rest rules decides. The order within a kind is by amount.
#include "core/season/ground_advice.h"

#include "core/base/units.h"
#include "core/plan/spoken.h"
#include "core/season/value_class.h"

#include <algorithm>
#include <array>
#include <map>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr double kFarAbove = 2.0;         // times the ranch's mean: assumption
constexpr double kOverLimitTold = 0.005;  // share of feed ground over a limit that is told
constexpr double kNearWaterTold = 0.02;   // share of a pasture's P2O5 by water that is told
constexpr std::array<const char*, 3> kNames{"N", "P2O5", "K2O"};

struct RanchMeans {
    double p2o5_per_m2 = 0.0;  // put down since the first record, over ground that may be fed on
};

RanchMeans ranch_means(const Ranch& ranch, const std::vector<PastureAccount>& accounts) {
    double kg = 0.0;
    double m2 = 0.0;
    for (const PastureAccount& account : accounts) {
        if (!ranch[account.pasture].feed) continue;
        kg += account.all_figures[1].total;
        m2 += account.area_m2;
    }
    return {m2 > 0.0 ? kg / m2 : 0.0};
}

std::optional<double> target_of(const Pasture& pasture, std::size_t nutrient) {
    if (nutrient == 0) return pasture.target.n_kg_per_m2;
    return nutrient == 1 ? pasture.target.p2o5_kg_per_m2 : pasture.target.k2o_kg_per_m2;
}

class Adviser {
  public:
    Adviser(const Ranch& ranch, const PastureAccount& account, const RanchMeans& means)
        : ranch_(ranch), pasture_(ranch[account.pasture]), account_(account), means_(means) {
        advice_.pasture = account.pasture;
    }

    Advice run() {
        look_for_rest();
        if (advice_.kind != AdviceKind::rest) look_for_need();
        look_inside();
        look_at_water();
        look_at_days();
        look_at_soil();
        return std::move(advice_);
    }

  private:
    [[nodiscard]] std::string rate(double kg_per_m2) const {
        return spoken_rate(kg_per_m2, ranch_.settings);
    }
    // What lies on the ground: a class where the records behind it are unsure.
    [[nodiscard]] std::string load(double kg_per_m2) const {
        if (account_.all_ledger.provenance.shows_numbers()) return rate(kg_per_m2);
        const bool metric = speaks_metric(ranch_.settings);
        const double unit =
            metric ? 1.0 / units::kM2PerHectare : units::kKgPerPound / units::kM2PerAcre;
        const ValueClass found = class_of(kg_per_m2 / unit);
        return fmt::format("{:g} to {:g} {}", found.from, found.to, metric ? "kg/ha" : "lb/ac");
    }
    [[nodiscard]] std::string in_years_of_hay(double p2o5_per_m2) const {
        if (!account_.all_ledger.provenance.shows_numbers()) return {};
        return fmt::format(", what {:.1f} years of hay at {} take off", years_of_hay(p2o5_per_m2),
                           speaks_metric(ranch_.settings) ? "6.7 t/ha" : "3 tons an acre");
    }
    void reason(std::string text) { advice_.reasons.push_back(std::move(text)); }
    void caution(std::string text) { advice_.cautions.push_back(std::move(text)); }

    void rest(std::size_t nutrient, double per_m2, double score) {
        if (advice_.kind == AdviceKind::rest && score <= advice_.score) return;
        advice_.kind = AdviceKind::rest;
        advice_.nutrient = kNames[nutrient];
        advice_.per_m2 = per_m2;
        advice_.score = score;
    }

    void look_for_rest() {
        for (std::size_t k = 0; k < kNames.size(); ++k) {
            const LoadFigures& all = account_.all_figures[k];
            if (!all.limit_per_m2 || all.over_limit_ratio <= kOverLimitTold) continue;
            rest(k, all.max_per_m2 - *all.limit_per_m2, 10.0 + all.over_limit_ratio);
            reason(
                fmt::format("{} of its feed ground has had more than its limit of {} of {} "
                            "since the first record; the heaviest spot has {}.",
                            spoken_share(all.over_limit_ratio), rate(*all.limit_per_m2), kNames[k],
                            load(all.max_per_m2)));
        }
        const LoadFigures& p = account_.all_figures[1];
        const double a_crop = kP2o5PerHay * 3.0 * units::kKgPerShortTon / units::kM2PerAcre;
        if (means_.p2o5_per_m2 > 0.0 && p.mean_per_m2 > kFarAbove * means_.p2o5_per_m2 &&
            p.high_tenth_per_m2 > a_crop) {
            rest(1, p.mean_per_m2 - means_.p2o5_per_m2, p.mean_per_m2 / means_.p2o5_per_m2);
            reason(fmt::format("It has had {} of P2O5, {:.1f} times the ranch's mean.",
                               load(p.mean_per_m2), p.mean_per_m2 / means_.p2o5_per_m2));
        }
    }

    void need(std::size_t nutrient, double short_per_m2, std::string text) {
        reason(std::move(text));
        const double weight =
            pasture_.ground == Ground::native ? ranch_.settings.native_weight_ratio : 1.0;
        const double score = weight * short_per_m2;
        if (advice_.kind == AdviceKind::feed_next && score <= advice_.score) return;
        advice_.kind = AdviceKind::feed_next;
        advice_.nutrient = kNames[nutrient];
        advice_.per_m2 = short_per_m2;
        advice_.score = score;
    }

    void look_for_need() {
        if (!pasture_.feed) {
            reason("The ranch's table says that it is not fed on.");
            return;
        }
        bool any_target = false;
        for (std::size_t k = 0; k < kNames.size(); ++k) {
            const auto target = target_of(pasture_, k);
            if (!target) continue;
            any_target = true;
            const double had = account_.figures[k].mean_per_m2;
            if (had < *target)
                need(k, *target - had,
                     fmt::format("Its target is {} of {}; these dates brought {}.", rate(*target),
                                 kNames[k], load(had)));
            else
                reason(fmt::format("Its target of {} of {} is met: these dates brought {}.",
                                   rate(*target), kNames[k], load(had)));
        }
        const double had = account_.all_figures[1].mean_per_m2;
        if (any_target || had >= means_.p2o5_per_m2) return;
        need(1, means_.p2o5_per_m2 - had,
             fmt::format("It has had {} of P2O5 since the first record; the ranch's mean is {}.",
                         load(had), rate(means_.p2o5_per_m2)));
        if (pasture_.ground == Ground::native)
            reason(
                "It is native ground, which repays fertility least and comes after tame ground "
                "and meadow.");
    }

    void look_inside() {
        const LoadFigures& p = account_.all_figures[1];
        const auto& even = p.even;
        if (!even || !pasture_.feed) return;
        reason(
            fmt::format("Since the first record the heaviest tenth of its feed ground has had {} "
                        "of P2O5{}, the lightest quarter {}.",
                        load(p.high_tenth_per_m2), in_years_of_hay(p.high_tenth_per_m2),
                        load(p.low_quarter_per_m2)));
        reason(advice_.kind == AdviceKind::rest ? "If it must be fed, lay on its light ground."
                                                : "Lay on its light ground first.");
        if (even->untouched_ratio > 0.1)
            reason(
                fmt::format("{} of its feed ground has had next to nothing (under a twentieth "
                            "of the mean).",
                            spoken_share(even->untouched_ratio)));
    }

    void look_at_water() {
        const double all = account_.all_figures[1].total;
        if (all <= 0.0) return;
        const WaterExposure& near = account_.all_exposure;
        const std::string far = spoken_length(ranch_.settings.water_caution_m, ranch_.settings);
        tell_near(
            near.water_in_100.p2o5_kg / all,
            "within " + spoken_length(kNearWater_m, ranch_.settings) + " of off-limits water");
        tell_near(near.water_in_caution.p2o5_kg / all, "within " + far + " of off-limits water");
        tell_near(near.well_in_100.p2o5_kg / all,
                  "within " + spoken_length(kNearWater_m, ranch_.settings) + " of a well");
        tell_near(near.drains_in_caution.p2o5_kg / all,
                  "on ground whose melt water runs to off-limits water within " + far);
        if (!advice_.cautions.empty())
            caution(
                "Setbacks are set by state and local code; ask there, and a licensed nutrient "
                "planner.");
    }
    void tell_near(double share, const std::string& where) {
        if (share > kNearWaterTold)
            caution(
                fmt::format("{} of the P2O5 put down here lies {}.", spoken_share(share), where));
    }

    void look_at_days() {
        if (account_.days_fed < kConfinedDays) return;
        caution(fmt::format(
            "Animals were fed here on {} of the last 365 days. Many states ask at {} days in "
            "twelve "
            "months whether ground cover holds on half the area, and call the place a feedlot if "
            "it does not. These records do not show cover: ask the state.",
            account_.days_fed, kConfinedDays));
    }

    // The newest test of each method; Ohio: no answer to P above 50 ppm by Bray.
    void look_at_soil() {
        std::map<std::string, std::pair<const SoilSample*, bool>> newest;
        for (const SoilPoint& point : account_.soil) {
            const SoilSample& sample = ranch_.soil[point.sample];
            if (!sample.p_ppm || sample.method.empty()) continue;
            auto& best = newest[sample.method];
            if (best.first == nullptr || (sample.date && best.first->date < sample.date))
                best = {&sample, point.old};
        }
        for (const auto& [method, found] : newest) {
            const auto& [sample, old] = found;
            reason(fmt::format("Its newest {} test found {:.0f} ppm P{}{}.", method, *sample->p_ppm,
                               sample->date ? " on " + format_day(*sample->date) : "",
                               old ? ", which is over four years old" : ""));
            if (method.starts_with("Bray") && *sample->p_ppm > 50.0)
                caution("Above 50 ppm by Bray, Ohio extension finds no answer to more P.");
        }
    }

    const Ranch& ranch_;
    const Pasture& pasture_;
    const PastureAccount& account_;
    const RanchMeans& means_;
    Advice advice_;
};

}  // namespace

std::string_view to_string(AdviceKind kind) {
    if (kind == AdviceKind::feed_next) return "feed_next";
    return kind == AdviceKind::rest ? "rest" : "as_it_is";
}

double years_of_hay(double p2o5_per_m2) {
    const double hay_per_m2 = 3.0 * units::kKgPerShortTon / units::kM2PerAcre;
    return p2o5_per_m2 / (kP2o5PerHay * hay_per_m2);
}

std::vector<Advice> ground_advice(const Ranch& ranch, const std::vector<PastureAccount>& accounts) {
    const RanchMeans means = ranch_means(ranch, accounts);
    std::vector<Advice> all;
    for (const PastureAccount& account : accounts)
        all.push_back(Adviser(ranch, account, means).run());
    std::stable_sort(all.begin(), all.end(), [](const Advice& a, const Advice& b) {
        return a.kind != b.kind ? a.kind < b.kind : a.score > b.score;
    });
    int rank = 0;
    for (std::size_t i = 0; i < all.size(); ++i) {
        rank = i > 0 && all[i].kind == all[i - 1].kind ? rank + 1 : 1;
        all[i].rank = rank;
    }
    return all;
}

}  // namespace haylane
