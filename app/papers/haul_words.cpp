#include "app/papers/haul_words.h"

#include "core/ranch/measured_figures.h"

#include <algorithm>

namespace haylane {

std::vector<std::string> haul_lead(const HaulAccount& account, const HaulWords& w) {
    const HaulRange& day = account.day;
    if (day.low.head == 0) return {"No herd on hay lines can be reached from any yard."};
    std::vector<std::string> lines;
    if (day.low.cost) {
        lines.push_back(fmt::format(
            "{} a head and day: {} to haul{}.",
            w.money_range(day.low.per_head(), day.high.per_head()),
            w.money(*day.low.cost / day.low.head),
            day.low.wasted_cost
                ? fmt::format(", {} in wasted hay",
                              w.money_range(*day.low.wasted_cost / day.low.head,
                                            *day.high.wasted_cost / day.high.head))
                : std::string(" (wasted hay is not in it: give price_per_ton in the hay table)")));
    } else {
        lines.emplace_back(
            "Money is left blank: fill in fuel_price_per_gal, labor_per_h and machine_per_h in the "
            "settings, and price_per_ton in the hay table.");
    }
    lines.push_back(fmt::format("A day: {}, {} {} of fuel, {} {} of hay wasted of {:.1f} fed.",
                                words::minutes(day.low.time_s), w.fuel(day.low.fuel_l),
                                w.fuel_unit(), w.wasted(day), w.metric() ? "t" : "tons",
                                day.low.hay_kg / w.ton_kg()));
    lines.emplace_back(
        "Studies disagree on whether unrolling or shredding wastes more (12 and 19 % in one, the "
        "other way round in others), so waste is a range.");
    if (std::string measured = measured_sentence(w.ranch()); !measured.empty())
        lines.push_back(std::move(measured));
    if (day.low.herds_not_reached > 0)
        lines.push_back(
            fmt::format("Herds that cannot be reached, left out: {}.", day.low.herds_not_reached));
    return lines;
}

std::string herd_haul_words(const HerdHaul& h, const HaulWords& w) {
    return fmt::format(
        "{} in {}: {} from {} with {}, {} {} lasting {:.1f} days{}", w.ranch()[h.herd].name,
        w.ranch()[h.pasture].name, words::bale_count(h.bales), w.ranch()[h.yard].name,
        w.ranch()[h.rig].name, h.loads, h.loads == 1 ? "load" : "loads", h.days,
        h.cost ? fmt::format(", {} a head and day", w.money(*h.cost / std::max(1, h.head)))
               : std::string());
}

std::vector<std::string> distance_words(const HaulAccount& account, const HaulWords& w) {
    std::vector<std::string> lines;
    if (account.cost_per_kg_mile) {
        const double per = *account.cost_per_kg_mile * w.ton_kg() *
                           (w.metric() ? 1000.0 / units::kMetersPerMile : 1.0);
        lines.push_back(fmt::format(
            "A {} farther on level gravel adds {} a {} of hay: a yard that much farther off pays "
            "only if its hay is cheaper by more.",
            w.metric() ? "kilometer" : "mile", w.money(per), w.ton()));
    }
    for (const YardBreakEven& even : account.yard_break_evens)
        lines.push_back(fmt::format(
            "Hay at {} costs {} a {} less than at {}: it may be hauled {} {} farther for the same "
            "money.",
            w.ranch()[even.cheaper].name, w.money(even.price_less_per_kg * w.ton_kg()), w.ton(),
            w.ranch()[even.dearer].name, w.distance(even.farther_m), w.distance_unit()));
    for (const BreakEven& even : account.break_evens) {
        const std::string& a = w.ranch()[even.a].name;
        const std::string& b = w.ranch()[even.b].name;
        lines.push_back(even.one_way_m
                            ? fmt::format("{} and {} cost the same to haul at {} {} one way.", a, b,
                                          w.distance(*even.one_way_m), w.distance_unit())
                            : fmt::format("{} or {}: {} hauls cheaper at every distance.", a, b,
                                          w.ranch()[*even.cheaper].name));
    }
    return lines;
}

std::string fuel_source(const Settings& settings) {
    return fmt::format(
        "Fuel: ASABE D497, {}. Hay is laid on level ground; ways are those of least {} and follow "
        "the terrain.",
        settings.fuel_form == "older" ? "older form (D497.4)"
                                      : "newer form (Grisso, Kocher and Vaughan 2004)",
        settings.ways_by);
}

std::vector<std::string> haul_day_words(const std::string& name, const HaulRange& day,
                                        const HaulWords& w) {
    if (day.low.head == 0) return {name, "reaches no herd", "", "", "", ""};
    std::optional<double> haul;
    if (day.low.cost) haul = *day.low.cost / day.low.head;
    const int missed = day.low.herds_not_reached;
    return {missed == 0 ? name
                        : fmt::format("{} ({} not reached)", name, words::counted(missed, "herd")),
            words::minutes(day.low.time_s),
            w.fuel(day.low.fuel_l),
            w.wasted(day),
            w.money(haul),
            w.money_range(day.low.per_head(), day.high.per_head())};
}

std::vector<std::string> haul_day_heads(const HaulWords& w) {
    return {"",
            "time",
            w.fuel_unit(),
            w.metric() ? "t wasted" : "tons wasted",
            "haul, a head",
            "haul and wasted hay, a head"};
}

std::string what_if_words(const std::string& asked) {
    std::string text;
    std::size_t from = 0;
    while (from <= asked.size()) {
        const std::size_t to = std::min(asked.find(';', from), asked.size());
        const std::string one = asked.substr(from, to - from);
        const std::string value = one.substr(std::min(one.find('=') + 1, one.size()));
        std::string said = one;
        if (one.starts_with("days_at_once="))
            said = value == "1" ? "a day's feed at a time" : value + " days' feed at a time";
        if (one.starts_with("bales_per_load="))
            said = value + (value == "1" ? " bale a load" : " bales a load");
        if (one == "round_to=load") said = "whole loads";
        if (one.starts_with("fuel_price_per_"))
            said = fmt::format("fuel at {} a {}", value,
                               one.starts_with("fuel_price_per_l") ? "liter" : "gallon");
        if (one.starts_with("labor_per_h=")) said = "labor at " + value + " an hour";
        if (one.starts_with("machine_per_h=")) said = "machine at " + value + " an hour";
        if (one.starts_with("trail:"))
            said = fmt::format("{} as {}", one.substr(6, one.find('=') - 6), value);
        if (one == "check_trip=no") said = "no drive out to check on days between";
        text += (text.empty() ? "" : ", ") + said;
        from = to + 1;
    }
    return text;
}

std::string many_days_caution() {
    return "More than a day's feed at a time: 5 points more waste is taken for each day beyond one "
           "(12 to 43 % from one to seven days without racks, an old figure from memory). Not for "
           "nursing cows or first-calf heifers without a daily look: timid ones go short, and "
           "calves bed in the hay.";
}

std::vector<HaulTrip> best_trips(const HaulAccount& account, std::size_t rigs) {
    const auto worth = [](const HaulTrip& t) {
        if (!t.reached) return 1e300;
        return t.work.cost.value_or(t.work.time_s) / t.hay_kg;
    };
    std::vector<HaulTrip> best;
    for (std::size_t i = 0; i < account.trips.size(); i += rigs)
        best.push_back(*std::min_element(
            account.trips.begin() + static_cast<std::ptrdiff_t>(i),
            account.trips.begin() + static_cast<std::ptrdiff_t>(i + rigs),
            [&](const HaulTrip& a, const HaulTrip& b) { return worth(a) < worth(b); }));
    return best;
}

std::vector<std::string> offer_words(const MachineOffer& offer, const HaulWords& w) {
    const OwnedMachine& m = offer.machine;
    const OwnershipCost& c = offer.cost;
    std::vector<std::string> lines;
    lines.push_back(fmt::format(
        "Buying {}: {} now, worth {} after {:g} years, {:.1f} % real interest; {:g} days a year{}, "
        "{} bales in {} hours.",
        offer.name, w.whole_money(m.price), w.whole_money(m.end_value), m.years,
        100.0 * m.real_rate, offer.days_per_year,
        offer.rig.empty() ? "" : " of the work of " + offer.rig,
        words::whole_number(m.bales_per_year), words::whole_number(m.hours_per_year)));
    lines.push_back(fmt::format(
        "A year: {} to own (interest and loss of value {}, taxes, insurance and housing {}), {} to "
        "run (repairs {}, fuel {}, lubricant {}, labor {}){}.",
        w.whole_money(c.owning_per_year()), w.whole_money(c.capital_per_year),
        w.whole_money(c.taxes_insurance_housing_per_year), w.whole_money(c.running_per_year()),
        w.whole_money(c.repairs_per_year), w.whole_money(c.fuel_per_year),
        w.whole_money(c.lubricant_per_year), w.whole_money(c.labor_per_year),
        c.per_bale ? fmt::format("; {} a bale", w.money(c.per_bale)) : std::string()));
    if (!offer.quote_per_bale) return lines;
    const auto enough = bales_to_own(m, *offer.quote_per_bale);
    lines.push_back(fmt::format(
        "A custom feeder at {} a bale would be {} a year. {}", w.money(offer.quote_per_bale),
        w.whole_money(*offer.quote_per_bale * m.bales_per_year),
        enough ? fmt::format("Owning is cheaper from {} bales a year on.",
                             words::whole_number(*enough))
               : std::string("Owning is never cheaper: a bale costs more to run.")));
    return lines;
}

std::string stacks_hay_words(const StackPlaces& p, const HaulWords& w) {
    return fmt::format(
        "A year's hay, {:.0f} {}: summer haul in, {} bales a load, and winter haul out.",
        p.hay_kg / w.ton_kg(), w.metric() ? "t" : "tons", kBulkBales);
}

std::string siting_names(const Siting& siting, const StackPlaces& p) {
    std::string places;
    for (const int used : siting.used) {
        const auto u = static_cast<std::size_t>(used);
        places += fmt::format("{}{}{}", places.empty() ? "" : ", ", p.names[u],
                              p.all_weather[u] ? "" : " (not an all-weather way)");
    }
    return places;
}

std::string siting_cost(double cost, const StackPlaces& p, const HaulWords& w) {
    return p.in_money ? w.whole_money(cost) : fmt::format("{:.0f} hours", cost / 3600.0);
}

std::vector<std::string> siting_words(const StackPlaces& p, const HaulWords& w) {
    std::vector<std::string> lines;
    lines.push_back(
        p.today ? fmt::format("The best is proven; it saves {} a year against today's yards.",
                              siting_cost(p.today->cost - p.proven->best.cost, p, w))
                : "Today's yards cannot hold all that hay, or do not reach every pasture.");
    lines.insert(lines.end(), p.not_reached.begin(), p.not_reached.end());
    return lines;
}

}  // namespace haylane
