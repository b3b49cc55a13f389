#include "app/cli/haul_text.h"

#include "app/papers/haul_words.h"
#include "app/session/haul_files.h"

#include <algorithm>

#include <fmt/format.h>

namespace haylane {
namespace {

std::string lead(const HaulAccount& account, const HaulWords& w) {
    std::string text = fmt::format("Hauling on {}\n\n", format_day(account.request.day.date));
    for (const std::string& line : haul_lead(account, w)) text += line + "\n";
    if (!account.day.herds.empty()) text += "\n";
    for (const HerdHaul& herd : account.day.herds) text += "  " + herd_haul_words(herd, w) + "\n";
    return text;
}

// The cheapest rig of each yard and pasture; the rest are in haul.csv.
std::string matrix(const HaulAccount& account, const HaulWords& w) {
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
    for (const HaulTrip& t : best_trips(account, w.ranch().rigs.size())) {
        text += fmt::format("{:<{}}  {:<{}}  ", w.ranch()[t.pasture].name, pasture_width,
                            w.ranch()[t.yard].name, yard_width);
        if (!t.reached) {
            text += fmt::format("cannot be reached: {}\n", t.why_not);
            continue;
        }
        text += fmt::format("{:<{}}  {:>6} {:>5} {:>5.0f} {:>5} {:>8} {:>8} {:>9}{}\n",
                            w.ranch()[t.rig].name, rig_width, w.distance(t.one_way_m), t.bales,
                            t.work.time_s / 60.0, w.fuel(t.work.fuel_l), w.money(t.work.cost),
                            w.money_a_ton(t.cost_per_kg()), w.money(t.cost_per_head()),
                            t.way_checked ? "" : "  way not checked");
    }
    return text;
}

std::string day_row(const std::string& name, std::size_t width, const HaulRange& day,
                    const HaulWords& w) {
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

std::string day_head(const char* what, std::size_t width, const HaulWords& w) {
    return fmt::format("{:<{}}  {:>11} {:>6} {:>9} {:>9}  {}\n", what, width, "time", w.fuel_unit(),
                       w.metric() ? "t wasted" : "tn wasted", "haul", "haul and wasted hay");
}

std::string rig_table(const HaulAccount& account, const HaulWords& w) {
    std::size_t width = 3;
    for (const RigWork& one : account.rigs) width = std::max(width, w.ranch()[one.rig].name.size());
    std::string text =
        "\nEach rig on the same work, all herds, a day; money a head (rigs are not ranked by "
        "waste)\n\n" +
        day_head("rig", width, w);
    for (const RigWork& one : account.rigs)
        text += day_row(w.ranch()[one.rig].name, width, one.day, w);
    text += "\n";
    for (const std::string& line : distance_words(account, w)) text += line + "\n";
    return text;
}

std::string what_if_table(const HaulReport& report, const HaulWords& w) {
    std::size_t width = 7;
    bool many = false;
    for (const HaulWhatIf& one : report.what_ifs) {
        width = std::max(width, what_if_words(one.name).size());
        many = many || one.many_days;
    }
    std::string text = "\nWhat if, all herds, a day; money a head\n\n" +
                       day_head("change", width, w) +
                       day_row("as now", width, report.account.day, w);
    for (const HaulWhatIf& one : report.what_ifs)
        text += day_row(what_if_words(one.name), width, one.day, w);
    if (many) text += "\n" + many_days_caution() + "\n";
    return text;
}

std::string buying(const HaulReport& report, const HaulWords& w) {
    std::string text;
    for (const MachineOffer& offer : report.offers) {
        text += "\n";
        for (const std::string& line : offer_words(offer, w)) text += line + "\n";
    }
    return text;
}

std::string siting_row(const char* name, const Siting& siting, const StackPlaces& p,
                       const HaulWords& w) {
    return fmt::format("  {:<10} {:>12}  {}\n", name, siting_cost(siting.cost, p, w),
                       siting_names(siting, p));
}

std::string siting(const HaulReport& report, const HaulWords& w) {
    if (!report.stacks) return "\nWhere to stack: " + report.why_no_stacks + "\n";
    const StackPlaces& p = *report.stacks;
    const Siting& best = p.proven->best;
    std::string text = fmt::format(
        "\nWhere to stack a year's hay ({:.0f} {}): summer haul in, {} bales a load, and winter "
        "haul out\n\n",
        p.hay_kg / w.ton_kg(), w.metric() ? "t" : "tons", kBulkBales);
    text += siting_row("best", best, p, w);
    if (p.proven->runner_up) text += siting_row("next best", *p.proven->runner_up, p, w);
    if (p.today) text += siting_row("today", *p.today, p, w);
    for (const std::string& line : siting_words(p, w)) text += "  " + line + "\n";
    return text;
}

std::string coefficients(const HaulWords& w) {
    std::string text = "\nReckoned with\n\n";
    for (const Assumption& one : haul_coefficients(w.ranch()))
        text += fmt::format(
            "  {} = {} ({})\n", one.key,
            one.text.empty() ? fmt::format("{:.4g}", one.value) : one.text,
            one.source.starts_with(one.status) ? one.source : one.status + ": " + one.source);
    return text + "  " + fuel_source(w.ranch().settings) + "\n";
}

}  // namespace

std::string haul_text(const HaulReport& report, const Ranch& ranch, bool metric) {
    const HaulWords w(ranch, metric);
    return lead(report.account, w) + matrix(report.account, w) + rig_table(report.account, w) +
           what_if_table(report, w) + buying(report, w) + siting(report, w) + coefficients(w) +
           "\nThe map cannot see drifts, mud or banks: you decide.\n";
}

}  // namespace haylane
