#include "app/session/haul_files.h"

#include "app/papers/haul_report.h"
#include "app/session/make_folder.h"
#include "core/base/units.h"
#include "core/ranch/measured_figures.h"
#include "gis/exchange/problem_json.h"
#include "gis/exchange/write_text_file.h"

#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace haylane {
namespace {

using Json = nlohmann::ordered_json;

Json maybe(const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); }

Json total_json(const HaulTotal& t) {
    return {{"head", t.head},
            {"time_s", t.time_s},
            {"fuel_l", t.fuel_l},
            {"hay_kg", t.hay_kg},
            {"wasted_kg", t.wasted_kg},
            {"haul_cost", maybe(t.cost)},
            {"wasted_cost", maybe(t.wasted_cost)},
            {"cost_per_head", maybe(t.per_head())},
            {"herds_not_reached", t.herds_not_reached}};
}

Json range_json(const HaulRange& range) {
    return {{"low_waste", total_json(range.low)}, {"high_waste", total_json(range.high)}};
}

Json herd_json(const HerdHaul& h, const Ranch& ranch) {
    return {{"herd", ranch[h.herd].name},
            {"pasture", ranch[h.pasture].name},
            {"yard", ranch[h.yard].name},
            {"rig", ranch[h.rig].name},
            {"bales", h.bales},
            {"loads", h.loads},
            {"lasts_days", h.days},
            {"check_trips", h.check_trips},
            {"time_s_per_day", h.time_s},
            {"fuel_l_per_day", h.fuel_l},
            {"hay_kg_per_day", h.hay_kg},
            {"wasted_kg_per_day", h.wasted_kg},
            {"haul_cost_per_day", maybe(h.cost)},
            {"wasted_cost_per_day", maybe(h.wasted_cost)}};
}

Json offer_json(const MachineOffer& offer) {
    const OwnershipCost& cost = offer.cost;
    Json row{{"name", offer.name},
             {"rig", offer.rig},
             {"days_per_year", offer.days_per_year},
             {"hours_per_year", offer.machine.hours_per_year},
             {"bales_per_year", offer.machine.bales_per_year},
             {"capital_per_year", cost.capital_per_year},
             {"taxes_insurance_housing_per_year", cost.taxes_insurance_housing_per_year},
             {"repairs_per_year", cost.repairs_per_year},
             {"fuel_per_year", cost.fuel_per_year},
             {"lubricant_per_year", cost.lubricant_per_year},
             {"labor_per_year", cost.labor_per_year},
             {"cost_per_year", cost.per_year()},
             {"cost_per_bale", maybe(cost.per_bale)}};
    if (offer.quote_per_bale) {
        row["quote_per_bale"] = *offer.quote_per_bale;
        row["bales_to_own"] = maybe(bales_to_own(offer.machine, *offer.quote_per_bale));
    }
    return row;
}

Json trip_json(const HaulTrip& t, const Ranch& ranch) {
    Json row{{"yard", ranch[t.yard].name},
             {"pasture", ranch[t.pasture].name},
             {"rig", ranch[t.rig].name},
             {"reached", t.reached}};
    if (!t.reached) {
        row["why_not"] = t.why_not;
        return row;
    }
    row["way_checked"] = t.way_checked;
    row["via"] = t.via;
    row["one_way_m"] = t.one_way_m;
    row["bales"] = t.bales;
    row["hay_kg"] = t.hay_kg;
    row["time_s"] = t.work.time_s;
    row["fuel_l"] = t.work.fuel_l;
    row["cost"] = maybe(t.work.cost);
    row["herd"] = t.herd ? herd_json(*t.herd, ranch) : Json(nullptr);
    return row;
}

Json siting_json(const Siting& siting, const StackPlaces& places) {
    Json names = Json::array();
    for (const int used : siting.used)
        names.push_back(places.names[static_cast<std::size_t>(used)]);
    return {{"places", names}, {"cost", siting.cost}};
}

Json stacks_json(const HaulReport& report) {
    if (!report.stacks) return {{"why_not", report.why_no_stacks}};
    const StackPlaces& p = *report.stacks;
    Json out{{"hay_kg", p.hay_kg},
             {"cost_unit", p.in_money ? "money" : "s"},
             {"best", siting_json(p.proven->best, p)},
             {"runner_up", p.proven->runner_up ? siting_json(*p.proven->runner_up, p) : Json()},
             {"today", p.today ? siting_json(*p.today, p) : Json()},
             {"notes", p.not_reached}};
    return out;
}

std::string quoted(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string result = "\"";
    for (const char c : text) result += c == '"' ? std::string("\"\"") : std::string(1, c);
    return result + "\"";
}

std::string money(const std::optional<double>& value) {
    return value ? fmt::format("{:.2f}", *value) : std::string();
}

}  // namespace

std::vector<Assumption> haul_coefficients(const Ranch& ranch) {
    std::vector<Assumption> all = list_assumptions(ranch.settings, ranch.settings_changed);
    constexpr std::string_view kStarts[] = {
        "speed_",      "snow_speed",   "warm_up",     "load_bale",  "wrap_",
        "gate_min",    "resistance_",  "axle_",       "idle_",      "throttle_",
        "no_way",      "unroll_feed",  "shred_feed",  "fuel_price", "labor_",
        "machine_per", "waste_unroll", "waste_shred", "ways_by",    "fuel_form"};
    std::erase_if(all, [&](const Assumption& one) {
        return std::none_of(std::begin(kStarts), std::end(kStarts),
                            [&](std::string_view start) { return one.key.starts_with(start); });
    });
    const std::vector<Assumption> measured = list_measured(ranch);
    all.insert(all.end(), measured.begin(), measured.end());
    return all;
}

std::string haul_json(const HaulReport& report, const CheckedRanch& checked) {
    const Ranch& ranch = checked.ranch;
    const HaulAccount& account = report.account;
    Json rigs = Json::array();
    for (const RigWork& work : account.rigs)
        rigs.push_back({{"rig", ranch[work.rig].name},
                        {"day", range_json(work.day)},
                        {"level_gravel",
                         {{"fixed_cost_per_kg", maybe(work.on_gravel.fixed_cost_per_kg)},
                          {"cost_per_kg_m", maybe(work.on_gravel.cost_per_kg_m)},
                          {"fixed_l_per_kg", work.on_gravel.fixed_l_per_kg},
                          {"l_per_kg_m", work.on_gravel.l_per_kg_m},
                          {"fixed_s_per_kg", work.on_gravel.fixed_s_per_kg},
                          {"s_per_kg_m", work.on_gravel.s_per_kg_m}}}});
    Json evens = Json::array();
    for (const BreakEven& even : account.break_evens)
        evens.push_back(
            {{"rig_a", ranch[even.a].name},
             {"rig_b", ranch[even.b].name},
             {"one_way_m", maybe(even.one_way_m)},
             {"always_cheaper", even.cheaper ? Json(ranch[*even.cheaper].name) : Json()}});
    Json yards = Json::array();
    for (const YardBreakEven& even : account.yard_break_evens)
        yards.push_back({{"cheaper_hay", ranch[even.cheaper].name},
                         {"dearer_hay", ranch[even.dearer].name},
                         {"price_less_per_kg", even.price_less_per_kg},
                         {"farther_m", even.farther_m}});
    Json herds = Json::array();
    for (const HerdHaul& herd : account.day.herds) herds.push_back(herd_json(herd, ranch));
    Json trips = Json::array();
    for (const HaulTrip& trip : account.trips) trips.push_back(trip_json(trip, ranch));
    Json tries = Json::array();
    for (const HaulWhatIf& one : report.what_ifs)
        tries.push_back({{"change", one.name}, {"day", range_json(one.day)}});
    Json coefficients = Json::array();
    for (const Assumption& one : haul_coefficients(ranch))
        coefficients.push_back({{"key", one.key},
                                {"value", one.text.empty() ? Json(one.value) : Json(one.text)},
                                {"unit", one.unit},
                                {"source", one.source},
                                {"status", one.status}});
    Json offers = Json::array();
    for (const MachineOffer& offer : report.offers) offers.push_back(offer_json(offer));
    const Json document{{"schema", "haylane-haul/1"},
                        {"ranch", ranch.name},
                        {"date", format_day(account.request.day.date)},
                        {"currency", ranch.settings.currency},
                        {"blocked", account.request.blocked},
                        {"day", range_json(account.day)},
                        {"herds", herds},
                        {"trips", trips},
                        {"rigs", rigs},
                        {"break_even", evens},
                        {"yards_break_even", yards},
                        {"what_ifs", tries},
                        {"buying", offers},
                        {"stacks", stacks_json(report)},
                        {"coefficients", coefficients},
                        {"problems", problems_json(account.problems)}};
    return document.dump(2) + "\n";
}

std::string haul_csv(const HaulReport& report, const Ranch& ranch, bool metric) {
    const double length = metric ? 1000.0 : units::kMetersPerMile;
    const double volume = metric ? 1.0 : units::kLitersPerGallon;
    const double ton = metric ? units::kKgPerTonne : units::kKgPerShortTon;
    std::string text = fmt::format(
        "yard,pasture,rig,reached,why_not,one_way_{},bales,minutes,{},cost_per_load,cost_per_{},"
        "herd,cost_per_head_day\n",
        metric ? "km" : "miles", metric ? "fuel_l" : "fuel_gal", metric ? "t" : "ton");
    for (const HaulTrip& t : report.account.trips) {
        text += fmt::format("{},{},{},{},{},", quoted(ranch[t.yard].name),
                            quoted(ranch[t.pasture].name), quoted(ranch[t.rig].name),
                            t.reached ? "yes" : "no", quoted(t.why_not));
        if (!t.reached) {
            text += ",,,,,,,\n";
            continue;
        }
        const auto per_kg = t.cost_per_kg();
        const auto per_head = t.cost_per_head();
        text += fmt::format("{:.2f},{},{:.0f},{:.1f},{},{},{},{}\n", t.one_way_m / length, t.bales,
                            t.work.time_s / 60.0, t.work.fuel_l / volume, money(t.work.cost),
                            per_kg ? money(*per_kg * ton) : "",
                            t.herd ? quoted(ranch[t.herd->herd].name) : "",
                            per_head ? fmt::format("{:.3f}", *per_head) : "");
    }
    return text;
}

Result<std::vector<std::filesystem::path>> write_haul_files(const OpenRanch& open,
                                                            const HaulReport& report,
                                                            const std::filesystem::path& folder,
                                                            bool metric) {
    if (const auto made = make_folder(folder); !made) return fail(made.error());
    std::vector<std::filesystem::path> files;
    const std::pair<const char*, std::string> texts[] = {
        {"haul.json", haul_json(report, open.checked)},
        {"haul.csv", haul_csv(report, open.checked.ranch, metric)}};
    for (const auto& [name, text] : texts) {
        if (auto written = write_text_file(folder / name, text); !written)
            return fail(written.error());
        files.push_back(folder / name);
    }
    files.push_back(folder / "haul-report.pdf");
    if (auto written = write_haul_paper(open.checked.ranch, report, files.back(), metric); !written)
        return fail(written.error());
    return files;
}

Result<void> write_haul_paper(const Ranch& ranch, const HaulReport& report,
                              const std::filesystem::path& paper, bool metric) {
    const std::vector<Assumption> coefficients = haul_coefficients(ranch);
    return write_haul_report(paper, {.account = report.account,
                                     .ranch = ranch,
                                     .what_ifs = report.what_ifs,
                                     .offers = report.offers,
                                     .stacks = report.stacks ? &*report.stacks : nullptr,
                                     .why_no_stacks = report.why_no_stacks,
                                     .coefficients = coefficients,
                                     .metric = metric,
                                     .letter = !metric});
}

}  // namespace haylane
