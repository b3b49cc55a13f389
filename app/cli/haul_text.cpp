#include "app/cli/haul_text.h"

#include "app/papers/words.h"
#include "app/session/haul_files.h"
#include "core/base/units.h"

#include <algorithm>

#include <fmt/format.h>

namespace haylane {
namespace {

class Words {
  public:
    Words(const Ranch& ranch, bool metric) : ranch_(ranch), metric_(metric) {}

    [[nodiscard]] double ton_kg() const {
        return metric_ ? units::kKgPerTonne : units::kKgPerShortTon;
    }
    [[nodiscard]] const char* ton() const { return metric_ ? "tonne" : "ton"; }
    [[nodiscard]] const char* fuel_unit() const { return metric_ ? "L" : "gal"; }
    [[nodiscard]] std::string fuel(double liters) const {
        return fmt::format("{:.1f}", metric_ ? liters : liters / units::kLitersPerGallon);
    }
    [[nodiscard]] std::string distance(double meters) const {
        return fmt::format("{:.1f}", meters / (metric_ ? 1000.0 : units::kMetersPerMile));
    }
    [[nodiscard]] const char* distance_unit() const { return metric_ ? "km" : "miles"; }
    [[nodiscard]] std::string money(const std::optional<double>& amount) const {
        return amount ? words::money(*amount, ranch_.settings.currency) : std::string("-");
    }
    [[nodiscard]] std::string whole_money(double amount) const {
        const std::string& currency = ranch_.settings.currency;
        return currency == "USD" ? "$" + words::whole_number(amount)
                                 : words::whole_number(amount) + " " + currency;
    }
    // "$0.41 to $0.47", one figure where both read the same.
    [[nodiscard]] std::string money_range(const std::optional<double>& low,
                                          const std::optional<double>& high) const {
        const std::string a = money(low);
        const std::string b = money(high);
        return a == b ? a : fmt::format("{} to {}", a, b);
    }
    [[nodiscard]] std::string wasted(const HaulRange& day) const {
        const std::string a = fmt::format("{:.1f}", day.low.wasted_kg / ton_kg());
        const std::string b = fmt::format("{:.1f}", day.high.wasted_kg / ton_kg());
        return a == b ? a : fmt::format("{}-{}", a, b);
    }
    [[nodiscard]] const Ranch& ranch() const { return ranch_; }
    [[nodiscard]] bool metric() const { return metric_; }

  private:
    const Ranch& ranch_;
    bool metric_;
};

std::string lead(const HaulAccount& account, const Words& w) {
    const HaulRange& day = account.day;
    std::string text = fmt::format("Hauling on {}\n\n", format_day(account.request.day.date));
    if (day.low.head == 0) return text + "No herd on hay lines can be reached from any yard.\n";
    if (day.low.cost) {
        text += fmt::format(
            "{} a head and day: {} to haul{}.\n",
            w.money_range(day.low.per_head(), day.high.per_head()),
            w.money(*day.low.cost / day.low.head),
            day.low.wasted_cost
                ? fmt::format(", {} in wasted hay",
                              w.money_range(*day.low.wasted_cost / day.low.head,
                                            *day.high.wasted_cost / day.high.head))
                : std::string(" (wasted hay is not in it: give price_per_ton in the hay table)"));
    } else {
        text +=
            "Money is left blank: fill in fuel_price_per_gal, labor_per_h and machine_per_h in the "
            "settings, and price_per_ton in the hay table.\n";
    }
    text += fmt::format("A day: {}, {} {} of fuel, {} {} of hay wasted of {:.1f} fed.\n",
                        words::minutes(day.low.time_s), w.fuel(day.low.fuel_l), w.fuel_unit(),
                        w.wasted(day), w.metric() ? "t" : "tons", day.low.hay_kg / w.ton_kg());
    text +=
        "Studies disagree on whether unrolling or shredding wastes more (12 and 19 % in one, "
        "the other way round in others), so waste is a range.\n";
    if (day.low.herds_not_reached > 0)
        text +=
            fmt::format("Herds that cannot be reached, left out: {}.\n", day.low.herds_not_reached);
    text += "\n";
    for (const HerdHaul& h : day.herds)
        text += fmt::format(
            "  {} in {}: {} from {} with {}, {} {} lasting {:.1f} days{}\n", w.ranch()[h.herd].name,
            w.ranch()[h.pasture].name, words::bale_count(h.bales), w.ranch()[h.yard].name,
            w.ranch()[h.rig].name, h.loads, h.loads == 1 ? "load" : "loads", h.days,
            h.cost ? fmt::format(", {} a head and day", w.money(*h.cost / std::max(1, h.head)))
                   : std::string());
    return text;
}

// The cheapest rig of each yard and pasture; the rest are in haul.csv.
std::string matrix(const HaulAccount& account, const Words& w) {
    std::string text = fmt::format(
        "\nEach yard to each pasture, one full load of the rig that is cheapest a {}\n"
        "(warm-up and hook-up counted; all rigs are in haul.csv)\n\n",
        w.ton());
    std::size_t pasture_width = 7;
    std::size_t yard_width = 4;
    std::size_t rig_width = 3;
    for (const HaulTrip& t : account.trips) {
        pasture_width = std::max(pasture_width, w.ranch()[t.pasture].name.size());
        yard_width = std::max(yard_width, w.ranch()[t.yard].name.size());
        rig_width = std::max(rig_width, w.ranch()[t.rig].name.size());
    }
    text += fmt::format("{:<{}}  {:<{}}  {:<{}}  {:>6} {:>5} {:>5} {:>5} {:>8} {:>8} {:>9}\n",
                        "pasture", pasture_width, "yard", yard_width, "rig", rig_width,
                        w.distance_unit(), "bales", "min", w.fuel_unit(), "a load",
                        fmt::format("a {}", w.ton()), "head, day");
    const auto worth = [](const HaulTrip& t) {
        if (!t.reached) return 1e300;
        return t.work.cost.value_or(t.work.time_s) / t.hay_kg;
    };
    const std::size_t rigs = w.ranch().rigs.size();
    for (std::size_t i = 0; i < account.trips.size(); i += rigs) {
        const HaulTrip& t = *std::min_element(
            account.trips.begin() + static_cast<std::ptrdiff_t>(i),
            account.trips.begin() + static_cast<std::ptrdiff_t>(i + rigs),
            [&](const HaulTrip& a, const HaulTrip& b) { return worth(a) < worth(b); });
        text += fmt::format("{:<{}}  {:<{}}  ", w.ranch()[t.pasture].name, pasture_width,
                            w.ranch()[t.yard].name, yard_width);
        if (!t.reached) {
            text += fmt::format("cannot be reached: {}\n", t.why_not);
            continue;
        }
        std::optional<double> per_ton;
        if (t.work.cost) per_ton = *t.work.cost / t.hay_kg * w.ton_kg();
        std::optional<double> per_head;
        if (t.herd && t.herd->cost && t.herd->head > 0) per_head = *t.herd->cost / t.herd->head;
        text += fmt::format("{:<{}}  {:>6} {:>5} {:>5.0f} {:>5} {:>8} {:>8} {:>9}{}\n",
                            w.ranch()[t.rig].name, rig_width, w.distance(t.one_way_m), t.bales,
                            t.work.time_s / 60.0, w.fuel(t.work.fuel_l), w.money(t.work.cost),
                            w.money(per_ton), w.money(per_head),
                            t.way_checked ? "" : "  way not checked");
    }
    return text;
}

std::string day_row(const std::string& name, std::size_t width, const HaulRange& day,
                    const Words& w) {
    if (day.low.head == 0) return fmt::format("{:<{}}  reaches no herd\n", name, width);
    std::optional<double> haul;
    if (day.low.cost) haul = *day.low.cost / day.low.head;
    std::string row =
        fmt::format("{:<{}}  {:>11} {:>6} {:>9} {:>9}  {}", name, width,
                    words::minutes(day.low.time_s), w.fuel(day.low.fuel_l), w.wasted(day),
                    w.money(haul), w.money_range(day.low.per_head(), day.high.per_head()));
    if (day.low.herds_not_reached > 0)
        row += fmt::format("  ({} herds not reached)", day.low.herds_not_reached);
    return row + "\n";
}

std::string day_head(const char* what, std::size_t width, const Words& w) {
    return fmt::format("{:<{}}  {:>11} {:>6} {:>9} {:>9}  {}\n", what, width, "time", w.fuel_unit(),
                       w.metric() ? "t wasted" : "tn wasted", "haul", "haul and wasted hay");
}

std::string rig_table(const HaulAccount& account, const Words& w) {
    std::size_t width = 3;
    for (const RigWork& one : account.rigs) width = std::max(width, w.ranch()[one.rig].name.size());
    std::string text =
        "\nEach rig on the same work, all herds, a day; money a head (rigs are not ranked by "
        "waste)\n\n" +
        day_head("rig", width, w);
    for (const RigWork& one : account.rigs)
        text += day_row(w.ranch()[one.rig].name, width, one.day, w);
    if (account.cost_per_kg_mile) {
        const double per = *account.cost_per_kg_mile * w.ton_kg() *
                           (w.metric() ? 1000.0 / units::kMetersPerMile : 1.0);
        text += fmt::format(
            "\nA {} farther on level gravel adds {} a {} of hay: a yard that much farther off pays "
            "only if its hay is cheaper by more.\n",
            w.metric() ? "kilometer" : "mile", w.money(per), w.ton());
    }
    for (const BreakEven& even : account.break_evens) {
        const std::string& a = w.ranch()[even.a].name;
        const std::string& b = w.ranch()[even.b].name;
        text += even.one_way_m ? fmt::format("{} and {} cost the same to haul at {} {} one way.\n",
                                             a, b, w.distance(*even.one_way_m), w.distance_unit())
                               : fmt::format("{} or {}: {} hauls cheaper at every distance.\n", a,
                                             b, w.ranch()[*even.cheaper].name);
    }
    return text;
}

std::string what_if_table(const HaulReport& report, const Words& w) {
    std::size_t width = 7;
    bool many = false;
    for (const HaulWhatIf& one : report.what_ifs) {
        width = std::max(width, one.name.size());
        many = many || one.many_days;
    }
    std::string text = "\nWhat if, all herds, a day; money a head\n\n" +
                       day_head("change", width, w) +
                       day_row("as now", width, report.account.day, w);
    for (const HaulWhatIf& one : report.what_ifs) text += day_row(one.name, width, one.day, w);
    if (many)
        text +=
            "\nMore than a day's feed at a time: 5 points more waste is taken for each day beyond "
            "one (12 to 43 % from one to seven days without racks, an old figure from memory). "
            "Not for nursing cows or first-calf heifers without a daily look: timid ones go "
            "short, and calves bed in the hay.\n";
    return text;
}

std::string siting_row(const char* name, const Siting& siting, const StackPlaces& p,
                       const Words& w) {
    std::string places;
    for (const int used : siting.used) {
        const auto u = static_cast<std::size_t>(used);
        places += fmt::format("{}{}{}", places.empty() ? "" : ", ", p.names[u],
                              p.all_weather[u] ? "" : " (not an all-weather way)");
    }
    const std::string cost =
        p.in_money ? w.whole_money(siting.cost) : fmt::format("{:.0f} hours", siting.cost / 3600.0);
    return fmt::format("  {:<10} {:>12}  {}\n", name, cost, places);
}

std::string siting(const HaulReport& report, const Words& w) {
    if (!report.stacks) return "\nWhere to stack: " + report.why_no_stacks + "\n";
    const StackPlaces& p = *report.stacks;
    const Siting& best = p.proven->best;
    std::string text = fmt::format(
        "\nWhere to stack a year's hay ({:.0f} {}): summer haul in, {} bales a load, and winter "
        "haul out\n\n",
        p.hay_kg / w.ton_kg(), w.metric() ? "t" : "tons", kBulkBales);
    text += siting_row("best", best, p, w);
    if (p.proven->runner_up) text += siting_row("next best", *p.proven->runner_up, p, w);
    if (p.today) {
        text += siting_row("today", *p.today, p, w);
        const double saved = p.today->cost - best.cost;
        text += fmt::format(
            "  The best is proven; it saves {} a year against today's yards.\n",
            p.in_money ? w.whole_money(saved) : fmt::format("{:.0f} hours", saved / 3600.0));
    } else {
        text += "  Today's yards cannot hold all that hay, or do not reach every pasture.\n";
    }
    for (const std::string& note : p.not_reached) text += "  " + note + "\n";
    return text;
}

std::string coefficients(const Words& w) {
    std::string text = "\nReckoned with\n\n";
    for (const Assumption& one : haul_coefficients(w.ranch()))
        text += fmt::format(
            "  {} = {:.4g} ({})\n", one.key, one.value,
            one.source.starts_with(one.status) ? one.source : one.status + ": " + one.source);
    return text +
           "  Fuel: ASABE D497, newer form (Grisso, Kocher and Vaughan 2004). Hay is laid on level "
           "ground; ways follow the terrain.\n";
}

}  // namespace

std::string haul_text(const HaulReport& report, const Ranch& ranch, bool metric) {
    const Words w(ranch, metric);
    return lead(report.account, w) + matrix(report.account, w) + rig_table(report.account, w) +
           what_if_table(report, w) + siting(report, w) + coefficients(w) +
           "\nThe map cannot see drifts, mud or banks: you decide.\n";
}

}  // namespace haylane
