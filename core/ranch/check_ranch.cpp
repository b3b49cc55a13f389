// One pass over the roles, each after those it refers to; then how the map fits together; then what
// the missing roles switch off.
#include "core/ranch/check_ranch.h"

#include "core/ranch/check_parts.h"

#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace haylane {

namespace {

void check_roles(Checking& checking) {
    check_off_limits(checking);
    check_soft_and_shelter(checking);
    check_gates(checking);
    check_trails(checking);
    check_yards(checking);
    check_water_and_fields(checking);
    check_rigs(checking);
    check_hay(checking);
    check_herds(checking);
    check_moves(checking);
    check_keep_to(checking);
    check_feedings(checking);
    check_weather(checking);
    check_soil(checking);
}

void add_if(std::vector<SwitchedOff>& list, bool missing, std::string feature,
            std::string because) {
    if (missing) list.push_back({std::move(feature), std::move(because)});
}

void add_plan(std::vector<SwitchedOff>& list, const Ranch& ranch) {
    std::vector<std::string_view> needed;
    if (ranch.herds.empty()) needed.emplace_back("herds");
    if (ranch.lots.empty()) needed.emplace_back("hay");
    if (ranch.yards.empty()) needed.emplace_back("yards");
    if (ranch.rigs.empty()) needed.emplace_back("rigs");
    add_if(list, !needed.empty(), "plan",
           fmt::format("no usable {}: nothing can be planned", fmt::join(needed, ", ")));
}

std::vector<SwitchedOff> switched_off(const Ranch& ranch) {
    std::vector<SwitchedOff> list;
    const Settings& s = ranch.settings;
    add_plan(list, ranch);
    add_if(list, !ranch.terrain, "slope limits", "no terrain: slopes are not proven");
    add_if(list, ranch.weather.empty(), "cold, wind and thaw", "no weather table");
    add_if(list, ranch.soil.empty(), "soil-test targets", "no soil samples");
    add_if(list, ranch.feedings.empty(), "history", "no past feedings: all ground counts as unfed");
    add_if(list, ranch.gates.empty() && ranch.trails.empty(), "ways",
           "no gates and no trails: straight distances are lengthened, and no way is checked");
    add_if(list, ranch.gates.empty() && !ranch.trails.empty(), "gates",
           "no gates: trails are cut at every fence");
    add_if(list, !ranch.gates.empty() && ranch.trails.empty(), "trails",
           "no trails: all driving is across pasture");
    add_if(list, ranch.off_limits.empty(), "off-limits ground",
           "no off-limits shapes: nothing is kept clear but the fences");
    add_if(list, ranch.water.empty(), "dung by water", "no water: its share falls anywhere");
    add_if(list, ranch.shelter.empty(), "dung by shelter and lee ground",
           "no shelter: its share falls anywhere, and no ground counts as sheltered");
    add_if(list, ranch.soft.empty(), "soft ground", "no soft ground: a thaw closes no pasture");
    add_if(list, ranch.hay_fields.empty(), "yard siting", "no hay fields");
    add_if(list, !s.fuel_price_per_m3 && !s.labor_per_s && !s.machine_per_s, "cost",
           "no prices in settings");
    add_if(list, !s.turnout, "hay short at turn-out", "no turnout date in settings");
    return list;
}

Error no_pastures(const RawRanch& raw, const Problems& problems) {
    const bool any_row = raw.roles.contains("pastures") && !raw.roles.at("pastures").empty();
    if (!any_row) {
        return {
            .code = "missing_pastures",
            .what = "There are no pastures, so there is nothing to plan or show.",
            .where = "pastures",
            .remedy = "Draw the fences in any map tool and save them as a layer named pastures."};
    }
    std::string what = "None of the pastures can be used.";
    std::string where = "pastures";
    for (const Problem& problem : problems) {
        if (problem.severity != Severity::error) continue;
        what += " " + problem.text;
        where = problem.where;
        break;
    }
    return {.code = "no_usable_pasture",
            .what = std::move(what),
            .where = std::move(where),
            .remedy = "Draw at least one pasture as a closed outline with some ground in it."};
}

}  // namespace

Result<CheckedRanch> check_ranch(const RawRanch& raw, bool begun) {
    Checking checking{.raw = raw, .ranch = {}, .problems = {}};
    checking.ranch.name = raw.name;
    checking.ranch.latitude_rad = raw.latitude_rad;
    checking.ranch.terrain = raw.terrain;
    check_settings(checking);
    check_pastures(checking);
    if (checking.ranch.pastures.empty() && !begun) return fail(no_pastures(raw, checking.problems));
    check_roles(checking);
    check_overlaps(checking);
    check_fences(checking);
    check_off_limits_places(checking);
    std::vector<SwitchedOff> off = switched_off(checking.ranch);
    return CheckedRanch{std::move(checking.ranch), std::move(checking.problems), std::move(off)};
}

}  // namespace haylane
