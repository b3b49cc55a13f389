#include "app/session/haul_ranch.h"

#include "app/session/find_named.h"
#include "app/session/haul_files.h"
#include "app/session/machine_offer.h"
#include "core/plan/feed_schedule.h"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

namespace haylane {
namespace {

// Without a rack or ring, 12 % wasted with one day's feed and 43 % with seven days' at once:
// 1970s Missouri and Purdue trials, from memory.
constexpr double kMoreWastePerDay = (0.43 - 0.12) / 6.0;

// A ranch and habits as a what-if would have them.
struct Variant {
    Ranch ranch;
    HaulHabits habits;
};

Error not_understood(const std::string& text) {
    return {"unknown_what_if", fmt::format("{} is not a change that can be tried.", text),
            "--what-if",
            "Write days_at_once=2, bales_per_load=1, round_to=load, check_trip=no, "
            "trail:NAME=gravel, gate:NAME=LON,LAT or a setting such as fuel_price_per_gal=5."};
}

std::optional<double> number(std::string_view text) {
    double value = 0.0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
    if (text.empty() || read.ec != std::errc() || read.ptr != text.data() + text.size())
        return std::nullopt;
    return value;
}

// "-103.35,46.31" in degrees.
std::optional<LonLat> lonlat(std::string_view text) {
    const std::size_t comma = text.find(',');
    if (comma == std::string_view::npos) return std::nullopt;
    const LonLat place{number(text.substr(0, comma)).value_or(1e3),
                       number(text.substr(comma + 1)).value_or(1e3)};
    return on_earth(place) ? std::optional(place) : std::nullopt;
}

std::optional<int> count(const std::string& text, int least, int most) {
    const auto value = number(text);
    if (!value || *value < least || *value > most || *value != static_cast<int>(*value))
        return std::nullopt;
    return static_cast<int>(*value);
}

Result<void> improve_trail(const std::string& name, const std::string& to, Ranch& ranch) {
    const auto found = find_named(ranch.trails, name);
    if (!found)
        return fail({"unknown_what_if", fmt::format("No trail is named {}.", name), "--what-if",
                     "Write the name as it stands on the map."});
    for (const Surface surface :
         {Surface::paved, Surface::gravel, Surface::dirt, Surface::two_track}) {
        if (to != to_string(surface)) continue;
        // All trails of the name: a trail may be drawn in pieces.
        for (Trail& trail : ranch.trails) {
            if (trail.name != name) continue;
            trail.surface = surface;
            trail.speed_m_per_s.reset();
        }
        return {};
    }
    return fail({"unknown_what_if", fmt::format("{} is no surface.", to), "--what-if",
                 "Write paved, gravel, dirt or two_track."});
}

Result<void> add_gate(const std::string& name, const std::string& at, const Frame& frame,
                      Ranch& ranch) {
    const auto place = lonlat(at);
    if (!place)
        return fail({"unknown_what_if", fmt::format("{} is not a longitude and latitude.", at),
                     "--what-if", "Write gate:NAME=-103.35,46.31 in degrees."});
    Gate gate;
    gate.name = name;
    gate.at = frame.to_frame(*place);
    gate.open_s = ranch.settings.gate_s;
    double nearest = ranch.settings.gate_snap_m;
    bool on_fence = false;
    for (const Pasture& pasture : ranch.pastures)
        for (const Polyline& ring : boundary_lines(pasture.shape))
            on_fence = on_fence || distance_m(gate.at, ring) <= nearest;
    if (!on_fence)
        return fail({"unknown_what_if", fmt::format("Gate {} stands on no fence.", name),
                     "--what-if",
                     fmt::format("Place it within {:.0f} m of a pasture's fence.", nearest)});
    ranch.gates.push_back(gate);
    return {};
}

Result<void> use_setting(const std::string& text, const std::string& key, const std::string& typed,
                         Settings& settings) {
    const auto found = find_setting(key);
    const auto value = number(typed);
    if (!found || !value) return fail(not_understood(text));
    const double si = (*value + found->offset) * found->to_si;
    if (!(si >= found->info->least_si && si <= found->info->most_si))
        return fail({"number_out_of_range", fmt::format("{} is out of range.", text), "--what-if",
                     "Give a value within the range that the manual states."});
    if (found->info->value != nullptr)
        settings.*(found->info->value) = si;
    else
        settings.*(found->info->optional_value) = si;
    return {};
}

Result<void> use_one(const std::string& text, const Frame& frame, Variant& variant) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos) return fail(not_understood(text));
    const std::string key = text.substr(0, equals);
    const std::string typed = text.substr(equals + 1);
    HaulHabits& habits = variant.habits;
    if (key == "days_at_once" || key == "bales_per_load") {
        const auto value = count(typed, 1, key == "days_at_once" ? 7 : 40);
        if (!value) return fail(not_understood(text));
        (key == "days_at_once" ? habits.days_at_once : habits.most_bales) = *value;
        return {};
    }
    if (key == "round_to" && (typed == "load" || typed == "bale")) {
        habits.whole_loads = typed == "load";
        return {};
    }
    if (key == "check_trip" && (typed == "yes" || typed == "no")) {
        habits.check_trip = typed == "yes";
        return {};
    }
    if (key.starts_with("trail:")) return improve_trail(key.substr(6), typed, variant.ranch);
    if (key.starts_with("gate:")) return add_gate(key.substr(5), typed, frame, variant.ranch);
    return use_setting(text, key, typed, variant.ranch.settings);
}

Result<HaulWhatIf> try_out(const OpenRanch& open, const Terrain& terrain, HaulRequest request,
                           const std::string& text) {
    Variant variant{open.checked.ranch, request.habits};
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find(';', at), text.size());
        if (auto used = use_one(text.substr(at, end - at), open.frame, variant); !used)
            return fail(used.error());
        at = end + 1;
    }
    request.habits = variant.habits;
    const auto ways = HaulWays::find(variant.ranch, terrain, request);
    if (!ways) return fail(ways.error());
    return HaulWhatIf{text, day_work(*ways, std::nullopt), variant.habits.days_at_once > 1};
}

std::vector<std::string> what_ifs_of(const HaulAsked& asked) {
    std::vector<std::string> all;
    if (asked.usual_what_ifs)
        all = {
            "days_at_once=1", "days_at_once=2",   "days_at_once=3",  "days_at_once=3;check_trip=no",
            "round_to=load",  "bales_per_load=1", "bales_per_load=2"};
    all.insert(all.end(), asked.what_ifs.begin(), asked.what_ifs.end());
    return all;
}

Result<sys_days> day_of(const Ranch& ranch, const HaulAsked& asked) {
    if (asked.from) return *asked.from;
    if (const auto usual = usual_haul_day(ranch)) return *usual;
    return fail({"no_date", "No day is named, and the book has none to go by.", "--from",
                 "Name the day with --from 2027-01-11."});
}

}  // namespace

std::optional<sys_days> usual_haul_day(const Ranch& ranch) {
    for (const HayLot& lot : ranch.lots)
        if (lot.counted_on) return *lot.counted_on;
    if (!ranch.weather.empty()) return ranch.weather.front().date;
    return std::nullopt;
}

Result<HaulReport> haul_of_ranch(const OpenRanch& open, const HaulAsked& asked,
                                 const std::filesystem::path& folder, bool metric) {
    const Ranch& ranch = open.checked.ranch;
    const auto day = day_of(ranch, asked);
    if (!day) return fail(day.error());
    HaulRequest request{.day = haul_day(ranch, *day), .blocked = asked.blocked};
    request.habits.more_waste_ratio_per_day = kMoreWastePerDay;
    for (std::size_t h = 0; h < ranch.herds.size(); ++h)
        request.pastures.push_back(pasture_on(ranch, HerdId::at(h), *day));
    const Terrain terrain = ranch.terrain ? Terrain(*ranch.terrain) : Terrain();
    const auto ways = HaulWays::find(ranch, terrain, request);
    if (!ways) return fail(ways.error());
    HaulReport report;
    report.account = haul_account(*ways);
    const std::vector<std::string> what_ifs = what_ifs_of(asked);
    for (const std::string& text : what_ifs) {
        if (asked.progress.stopped())
            return fail({"cancelled", "The haul account was stopped.", "", "Start it again."});
        asked.progress("hauls", static_cast<double>(report.what_ifs.size() + 1) /
                                    static_cast<double>(what_ifs.size() + 2));
        auto tried = try_out(open, terrain, request, text);
        if (!tried) return fail(tried.error());
        report.what_ifs.push_back(std::move(*tried));
    }
    for (const std::string& text : asked.buys) {
        auto offer = machine_offer(text, report.account, ranch);
        if (!offer) return fail(offer.error());
        report.offers.push_back(std::move(*offer));
    }
    if (auto stacks = stack_places(*ways, asked.stacks))
        report.stacks = std::move(*stacks);
    else
        report.why_no_stacks = stacks.error().what + " " + stacks.error().remedy;
    if (!folder.empty()) {
        auto files = write_haul_files(open, report, folder, metric);
        if (!files) return fail(files.error());
        report.files = std::move(*files);
    }
    return report;
}

}  // namespace haylane
