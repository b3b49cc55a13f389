#include "app/cli/ground_text.h"

#include "core/base/units.h"
#include "core/season/value_class.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace haylane {

namespace {

std::string figure(double value, const Provenance& from) {
    if (from.shows_numbers()) return fmt::format("{:.{}f}", value, std::abs(value) < 10.0 ? 1 : 0);
    const ValueClass found = class_of(value);
    return found.from == found.to ? "0" : fmt::format("{:g}-{:g}", found.from, found.to);
}

std::string table(const GroundAccount& ground, const Ranch& ranch, bool metric) {
    std::size_t width = 7;
    for (const PastureAccount& account : ground.pastures)
        width = std::max(width, ranch[account.pasture].name.size());
    const char* unit = metric ? "kg/ha" : "lb/ac";
    const double per_area = metric ? units::kM2PerHectare : units::kM2PerAcre / units::kKgPerPound;
    const double bales_area = metric ? units::kM2PerHectare : units::kM2PerAcre;
    std::string text =
        fmt::format("{:<{}}  {:>9} {:>9} {:>9} {:>9} {:>9}  {:>12} {:>12}\n", "pasture", width,
                    "bales", metric ? "bales/ha" : "bales/ac", fmt::format("N {}", unit), "P2O5",
                    "K2O", "P2O5 1/4 low", "1/10 high");
    for (const PastureAccount& account : ground.pastures) {
        if (account.all_ledger.feedings == 0) continue;
        const Provenance& from = account.ledger.provenance;
        const LoadFigures& p = account[SeasonMeasure::p2o5];
        const auto rate = [&](const LoadFigures& load) {
            return figure(load.mean_per_m2 * per_area, from);
        };
        text +=
            fmt::format("{:<{}}  {:>9} {:>9} {:>9} {:>9} {:>9}  {:>12} {:>12}\n",
                        ranch[account.pasture].name, width, figure(account.ledger.bales, from),
                        figure(account.ledger.bales / account.area_m2 * bales_area, from),
                        rate(account[SeasonMeasure::n]), rate(p), rate(account[SeasonMeasure::k2o]),
                        figure(p.low_quarter_per_m2 * per_area, from),
                        figure(p.high_tenth_per_m2 * per_area, from));
    }
    return text;
}

std::string advice_text(const GroundAccount& ground, const Ranch& ranch) {
    std::string text;
    for (const AdviceKind kind : {AdviceKind::feed_next, AdviceKind::rest}) {
        std::string part;
        for (const Advice& one : ground.advice) {
            if (one.kind != kind || one.reasons.empty()) continue;
            part += fmt::format("  {}. {}: {}\n", one.rank, ranch[one.pasture].name,
                                one.reasons.front());
        }
        if (!part.empty())
            text += (kind == AdviceKind::rest ? "\nRest:\n" : "\nFeed next:\n") + part;
    }
    return text;
}

}  // namespace

std::string ground_text(const GroundAccount& ground, const Ranch& ranch, bool metric) {
    const Provenance& from = ground.ledger.provenance;
    const double all = std::max(1e-300, from.all_bales());
    return fmt::format("What feeding left on the ground, {}\n\n", ground.span.name) +
           table(ground, ranch, metric) +
           "\nN is what reached the ground after gas loss. The low quarter and high tenth are of "
           "feed ground.\n" +
           fmt::format(
               "Records by bales: {:.0f} % by GPS, {:.0f} % entered, {:.0f} % recalled, "
               "{:.0f} % assumed.\n",
               100.0 * from.gps_bales / all, 100.0 * from.entered_bales / all,
               100.0 * from.recalled_bales / all, 100.0 * from.assumed_bales / all) +
           advice_text(ground, ranch) +
           "\nSetbacks and feeding are matters of state and local code; a licensed nutrient "
           "planner decides.\n";
}

std::string what_if_text(const GroundAccount& recorded, const GroundAccount& other,
                         const std::string& name, const Ranch& ranch, bool metric) {
    const double per_area = metric ? units::kM2PerHectare : units::kM2PerAcre / units::kKgPerPound;
    std::string text = fmt::format("\nWhat if ({}): P2O5, {}, recorded -> what if\n", name,
                                   metric ? "kg/ha" : "lb/ac");
    for (std::size_t p = 0; p < recorded.pastures.size(); ++p) {
        const PastureAccount& was = recorded.pastures[p];
        const LoadFigures& a = was[SeasonMeasure::p2o5];
        const LoadFigures& b = other.pastures[p][SeasonMeasure::p2o5];
        if (!a.even || !b.even) continue;
        const Provenance& from = was.ledger.provenance;
        text +=
            fmt::format("  {}: heaviest tenth {} -> {}, lightest quarter {} -> {}, CV {} -> {}\n",
                        ranch[was.pasture].name, figure(a.high_tenth_per_m2 * per_area, from),
                        figure(b.high_tenth_per_m2 * per_area, from),
                        figure(a.low_quarter_per_m2 * per_area, from),
                        figure(b.low_quarter_per_m2 * per_area, from),
                        figure(a.even->cv_ratio, from), figure(b.even->cv_ratio, from));
    }
    return text;
}

}  // namespace haylane
