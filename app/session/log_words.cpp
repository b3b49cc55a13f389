#include "app/session/log_words.h"

#include "core/base/units.h"

#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace haylane {

namespace {

std::string hay_text(const ProposedFeeding& feeding) {
    std::vector<std::string> lots;
    for (const LotBales& draw : feeding.entry.lots)
        lots.push_back(fmt::format("{:g} {}", draw.bales, draw.lot));
    if (lots.empty()) return "bales not known";
    const char* from = feeding.bales_from == BalesFrom::plan   ? "as planned"
                       : feeding.bales_from == BalesFrom::told ? "as you said"
                                                               : "guessed from the length laid";
    return fmt::format("{} ({})", fmt::join(lots, " and "), from);
}

std::string against_plan(const ProposedFeeding& feeding, bool metric) {
    if (feeding.found) return "in no plan: found";
    std::vector<std::string> parts;
    if (feeding.off_m)
        parts.push_back(
            fmt::format("off the planned line by {}", driven_length(*feeding.off_m, metric)));
    if (feeding.planned_m) {
        const double more = feeding.length_m - *feeding.planned_m;
        parts.push_back(fmt::format("{} {}", driven_length(std::abs(more), metric),
                                    more < 0.0 ? "shorter" : "longer"));
    }
    if (feeding.planned_on && *feeding.planned_on != feeding.entry.date) {
        const long days = (feeding.entry.date - *feeding.planned_on).count();
        parts.push_back(fmt::format("{} {}",
                                    plural(static_cast<std::size_t>(std::abs(days)), "day"),
                                    days < 0 ? "early" : "late"));
    } else {
        parts.emplace_back("on the planned day");
    }
    if (feeding.planned_cv && feeding.laid_cv) {
        const double worse = *feeding.laid_cv / *feeding.planned_cv - 1.0;
        const char* much = std::abs(worse) < 0.15 ? "a little " : "";
        parts.push_back(std::abs(worse) < 0.03 ? "the pasture as even as planned"
                                               : fmt::format("the pasture {}{} even than planned",
                                                             much, worse > 0.0 ? "less" : "more"));
    }
    return fmt::format("{}", fmt::join(parts, ", "));
}

}  // namespace

std::string driven_length(double length_m, bool metric) {
    if (metric)
        return length_m >= 1000.0 ? fmt::format("{:.1f} km", length_m / 1000.0)
                                  : fmt::format("{:.0f} m", length_m);
    const double feet = length_m / units::kMetersPerFoot;
    return feet >= 5280.0 ? fmt::format("{:.1f} mi", length_m / units::kMetersPerMile)
                          : fmt::format("{:.0f} ft", feet);
}

std::string plural(std::size_t n, const char* what) {
    return fmt::format("{} {}{}", n, what, n == 1 ? "" : "s");
}

std::string feeding_text(const ProposedFeeding& feeding, bool metric) {
    const FeedingEntry& entry = feeding.entry;
    std::string out = fmt::format("{} {} in {}: {}\n", format_day(entry.date),
                                  entry.herd.empty() ? "(herd not known)" : entry.herd,
                                  entry.pasture, hay_text(feeding));
    out += fmt::format("  {}, {} laid, {:.0f} % sure; {}\n", plural(feeding.lines.size(), "line"),
                       driven_length(feeding.length_m, metric), 100.0 * feeding.confidence,
                       against_plan(feeding, metric));
    if (!feeding.not_ready.empty())
        out += fmt::format("  not to be recorded: {}\n", feeding.not_ready);
    return out;
}

}  // namespace haylane
