// Plain formatting; conversions only through core/base/units.h.

#include "app/papers/words.h"

#include "core/base/units.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

namespace haylane::words {
namespace {

constexpr std::array<const char*, 8> kCompass{"N", "NE", "E", "SE", "S", "SW", "W", "NW"};
constexpr std::array<const char*, 8> kCompassWords{"north", "northeast", "east", "southeast",
                                                   "south", "southwest", "west", "northwest"};
constexpr std::array<const char*, 7> kWeekdays{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
constexpr std::array<const char*, 12> kMonths{"January",   "February", "March",    "April",
                                              "May",       "June",     "July",     "August",
                                              "September", "October",  "November", "December"};

double rounded_to(double value, double step) { return std::round(value / step) * step; }

// Steps of 10, of 50 once a thousand is reached; single units below ten.
double reading_round(double value) {
    if (value < 10.0) return std::round(value);
    return value < 1000.0 ? rounded_to(value, 10.0) : rounded_to(value, 50.0);
}

std::size_t octant(double azimuth_rad) {
    const double turns = azimuth_rad / (2.0 * units::kPi);
    const double share = turns - std::floor(turns);
    return static_cast<std::size_t>(std::lround(share * 8.0)) % 8U;
}

std::chrono::year_month_day calendar(sys_days day) { return std::chrono::year_month_day{day}; }

std::string month(sys_days day) {
    return kMonths[static_cast<unsigned>(calendar(day).month()) - 1U];
}

unsigned day_of_month(sys_days day) { return static_cast<unsigned>(calendar(day).day()); }

}  // namespace

std::string whole_number(double value) {
    std::string digits = fmt::format("{:.0f}", std::abs(std::round(value)));
    for (auto at = static_cast<std::ptrdiff_t>(digits.size()) - 3; at > 0; at -= 3) {
        digits.insert(static_cast<std::size_t>(at), ",");
    }
    return (std::round(value) < 0.0 ? "-" : "") + digits;
}

std::string short_length(double length_m, bool metric) {
    if (metric) {
        const double step = length_m < 100.0 ? 1.0 : 5.0;
        return whole_number(rounded_to(length_m, step)) + " m";
    }
    return whole_number(reading_round(length_m / units::kMetersPerFoot)) + " ft";
}

std::string long_length(double length_m, bool metric) {
    if (metric) return fmt::format("{:.1f} km", length_m / 1000.0);
    const std::string miles = fmt::format("{:.1f}", length_m / units::kMetersPerMile);
    return miles + (miles == "1.0" ? " mile" : " miles");
}

std::string area(double area_m2, bool metric) {
    if (metric) return whole_number(area_m2 / units::kM2PerHectare) + " ha";
    return whole_number(area_m2 / units::kM2PerAcre) + " acres";
}

std::string minutes(double time_s) {
    const auto whole = std::max(1L, std::lround(time_s / units::kSecondsPerMinute));
    if (whole < 60) return fmt::format("{} min", whole);
    return fmt::format("{} h {:02} min", whole / 60, whole % 60);
}

std::string volume(double volume_l, bool metric) {
    if (metric) return fmt::format("{:.1f} L", volume_l);
    return fmt::format("{:.1f} gal", volume_l / units::kLitersPerGallon);
}

std::string weight(double weight_kg, bool metric) {
    if (metric) return whole_number(rounded_to(weight_kg, 10.0)) + " kg";
    return whole_number(rounded_to(weight_kg / units::kKgPerPound, 10.0)) + " lb";
}

std::string temperature(double temperature_c, bool metric) {
    const double shown = metric ? temperature_c : units::f_from_c(temperature_c);
    return whole_number(shown) + (metric ? " °C" : " °F");
}

std::string money(double amount, const std::string& currency) {
    if (currency == "USD")
        return fmt::format("{}${:.2f}", amount < 0.0 ? "-" : "", std::abs(amount));
    return fmt::format("{:.2f} {}", amount, currency);
}

std::string bale_density(double bales_per_m2, bool metric) {
    const double shown = bales_per_m2 * (metric ? units::kM2PerHectare : units::kM2PerAcre);
    if (shown >= 9.95) return whole_number(shown);
    const std::string tenths = fmt::format("{:.1f}", shown);
    return tenths.ends_with(".0") ? tenths.substr(0, tenths.size() - 2) : tenths;
}

std::string bale_density_unit(bool metric) { return metric ? "bales/ha" : "bales/ac"; }

std::string nutrient_rate(double kg_per_m2, bool metric) {
    return metric ? fmt::format("{:.0f} kg/ha", kg_per_m2 * units::kM2PerHectare)
                  : fmt::format("{:.0f} lb/ac", units::lb_per_ac_from_kg_per_m2(kg_per_m2));
}

std::string nutrient(const std::string& measure) {
    if (measure == "n") return "N";
    return measure == "k2o" ? "K2O" : "P2O5";
}

std::string compass(double azimuth_rad) { return kCompass[octant(azimuth_rad)]; }

std::string compass_word(double azimuth_rad) { return kCompassWords[octant(azimuth_rad)]; }

std::string percent(double ratio) { return fmt::format("{:.1f} %", ratio * 100.0); }

std::string counted(int count, const char* what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

std::string bale_count(int bales) { return counted(bales, "bale"); }

std::string weekday(sys_days day) { return kWeekdays[std::chrono::weekday{day}.c_encoding()]; }

std::string weekday_and_day(sys_days day) {
    return fmt::format("{} {}", weekday(day), day_of_month(day));
}

std::string short_date(sys_days day) {
    return fmt::format("{} {}", weekday_and_day(day), month(day).substr(0, 3));
}

std::string date(sys_days day) { return fmt::format("{} {}", day_of_month(day), month(day)); }

std::string date_range(sys_days from, sys_days to) {
    if (from == to) return date(from);
    const bool same_month = calendar(from).month() == calendar(to).month() &&
                            calendar(from).year() == calendar(to).year();
    if (same_month) return fmt::format("{}–{}", day_of_month(from), date(to));
    return fmt::format("{}–{}", date(from), date(to));
}

std::string set_in_rings(const PlannedFeeding& feeding, bool metric) {
    int bales = 0;
    std::string apart;
    for (const PlannedLine& row : feeding.lines) {
        bales += row.bales;
        if (apart.empty() && row.places.size() > 1)
            apart =
                ", " + short_length(distance_m(row.places[0], row.places[1]), metric) + " apart";
    }
    return "set " + bale_count(bales) + (bales == 1 ? " in the ring" : " in the rings") + apart;
}

std::string way_in(const PlannedFeeding& feeding, const Ranch& ranch) {
    std::string text;
    std::vector<YardId> told;
    for (const PlannedLoad& load : feeding.loads) {
        if (std::find(told.begin(), told.end(), load.yard) != told.end()) continue;
        if (!told.empty()) text += "; from " + ranch[load.yard].name + ": ";
        told.push_back(load.yard);
        std::string way;
        for (const PlannedLeg& leg : load.legs) {
            if (leg.kind != LegKind::out) continue;
            for (const std::string& name : leg.via) way += (way.empty() ? "" : ", ") + name;
        }
        text += way.empty() ? "straight from the yard" : way;
    }
    return text;
}

std::string list(const std::vector<std::string>& items) {
    std::string text;
    for (std::size_t i = 0; i < items.size(); ++i) {
        if (i > 0) text += i + 1 == items.size() ? " and " : ", ";
        text += items[i];
    }
    return text;
}

namespace {

std::string lasts_to(const HayLasts& lasts) {
    if (lasts.earliest && lasts.latest) {
        return "Hay lasts to " + date_range(*lasts.earliest, *lasts.latest) + " at this rate";
    }
    if (lasts.earliest) return "Hay lasts to " + date(*lasts.earliest) + " or later at this rate";
    if (lasts.latest) return "Hay lasts to " + date(*lasts.latest) + " at the most";
    if (lasts.turnout && lasts.short_bales_most == 0) return "Hay lasts past turn-out";
    return "Hay lasts more than a year at this rate";
}

std::string short_of(const HayLasts& lasts) {
    const int least = lasts.short_bales_least.value_or(0);
    const int most = lasts.short_bales_most.value_or(least);
    if (!lasts.short_bales_least && !lasts.short_bales_most) return "";
    if (most <= 0) return "; no bales short";
    if (least <= 0) return fmt::format("; short up to {} bales", whole_number(most));
    if (least == most) return "; short " + bale_count(most);
    return fmt::format("; short {}–{} bales", whole_number(least), whole_number(most));
}

}  // namespace

std::string hay_lasts(const HayLasts& lasts) {
    std::string text = lasts_to(lasts);
    text += lasts.turnout ? "; turn-out " + date(*lasts.turnout) : "; turn-out date not given";
    return text + short_of(lasts);
}

}  // namespace haylane::words
