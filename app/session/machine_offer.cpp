#include "app/session/machine_offer.h"

#include "app/session/find_named.h"
#include "core/base/units.h"

#include <algorithm>
#include <array>
#include <charconv>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr const char* kOption = "--buy";
constexpr double kLitersPerM3 = 1000.0;

struct Part {
    const char* key;
    double least;
    double most;
};
// Of every number: what is believed.
constexpr Part kNumbers[] = {{"price", 1.0, 1e7},  {"end_value", 0.0, 1e7}, {"years", 0.5, 60.0},
                             {"days", 1.0, 366.0}, {"quote", 0.01, 1e4},    {"rate_pct", 0.0, 50.0},
                             {"list", 1.0, 1e7},   {"hours_now", 0.0, 1e5}};

struct Written {
    std::string name;
    std::string rig;
    std::array<std::optional<double>, std::size(kNumbers)> numbers;

    [[nodiscard]] std::optional<double> operator[](std::string_view key) const {
        for (std::size_t i = 0; i < std::size(kNumbers); ++i)
            if (key == kNumbers[i].key) return numbers.at(i);
        return std::nullopt;
    }
};

Error not_understood(const std::string& part) {
    return {"unknown_offer", fmt::format("'{}' says nothing of a machine that can be used", part),
            kOption,
            "write price=45000;end_value=20000;years=8, and of name, rig, days, quote, rate_pct, "
            "list and hours_now what you know"};
}

Result<void> read_part(const std::string& part, Written& out) {
    const std::size_t equals = part.find('=');
    if (equals == std::string::npos) return fail(not_understood(part));
    const std::string key = part.substr(0, equals);
    const std::string typed = part.substr(equals + 1);
    if (key == "name" || key == "rig") {
        (key == "name" ? out.name : out.rig) = typed;
        return {};
    }
    for (std::size_t i = 0; i < std::size(kNumbers); ++i) {
        if (key != kNumbers[i].key) continue;
        double value = 0.0;
        const auto read = std::from_chars(typed.data(), typed.data() + typed.size(), value);
        if (typed.empty() || read.ec != std::errc() || read.ptr != typed.data() + typed.size())
            return fail(not_understood(part));
        if (!(value >= kNumbers[i].least && value <= kNumbers[i].most))
            return fail({"number_out_of_range", fmt::format("'{}' is out of range", part), kOption,
                         fmt::format("give a number from {:g} to {:g}", kNumbers[i].least,
                                     kNumbers[i].most)});
        out.numbers.at(i) = value;
        return {};
    }
    return fail(not_understood(part));
}

Result<Written> read(const std::string& text) {
    Written out;
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find(';', at), text.size());
        if (const auto done = read_part(text.substr(at, end - at), out); !done)
            return fail(done.error());
        at = end + 1;
    }
    for (const char* needed : {"price", "end_value", "years"})
        if (!out[needed]) return fail(not_understood(text));
    return out;
}

}  // namespace

Result<MachineOffer> machine_offer(const std::string& text, const HaulAccount& account,
                                   const Ranch& ranch) {
    const auto written = read(text);
    if (!written) return fail(written.error());
    const HaulRange* day = &account.day;
    if (!written->rig.empty()) {
        const auto rig = find_named(ranch.rigs, written->rig);
        if (!rig)
            return fail({"unknown_rig", fmt::format("no rig is called '{}'", written->rig), kOption,
                         "write the rig's name as the book does"});
        day = &account.rigs[*rig].day;
    }
    MachineOffer offer;
    offer.name = written->name.empty() ? "the machine" : written->name;
    offer.rig = written->rig;
    offer.days_per_year = (*written)["days"].value_or(offer.days_per_year);
    offer.quote_per_bale = (*written)["quote"];
    OwnedMachine& m = offer.machine;
    m.price = *(*written)["price"];
    m.end_value = *(*written)["end_value"];
    m.years = *(*written)["years"];
    m.real_rate = (*written)["rate_pct"].value_or(100.0 * m.real_rate) / 100.0;
    m.list_price = (*written)["list"];
    m.hours_now = (*written)["hours_now"].value_or(0.0);
    const double hours_a_day = day->low.time_s / units::kSecondsPerHour;
    m.hours_per_year = hours_a_day * offer.days_per_year;
    if (hours_a_day > 0.0) m.fuel_l_per_hour = day->low.fuel_l / hours_a_day;
    m.fuel_price_per_l = ranch.settings.fuel_price_per_m3.value_or(0.0) / kLitersPerM3;
    m.labor_per_hour = ranch.settings.labor_per_s.value_or(0.0) * units::kSecondsPerHour;
    m.labor_ratio = 1.0;  // the day's time already counts hooking up, loading and gates
    for (const HerdHaul& herd : day->herds)
        m.bales_per_year += herd.bales / herd.days * offer.days_per_year;
    offer.cost = ownership_cost(m);
    return offer;
}

}  // namespace haylane
