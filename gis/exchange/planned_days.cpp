#include "gis/exchange/planned_days.h"

#include <nlohmann/json.hpp>

namespace haylane {

namespace {

// Throws the JSON library's exceptions, caught below.
PlannedDay read_day(const nlohmann::json& feeding) {
    PlannedDay day;
    const auto date = parse_day(feeding.at("date").get<std::string>());
    day.date = date.value_or(sys_days{});
    day.herd = feeding.at("herd").get<std::string>();
    day.pasture = feeding.at("pasture").get<std::string>();
    day.rig = feeding.at("rig").get<std::string>();
    for (const auto& draw : feeding.at("bales"))
        day.bales.push_back({draw.at("lot").get<std::string>(), draw.at("count").get<int>()});
    day.line_ids = feeding.at("lines").get<std::vector<std::string>>();
    if (feeding.contains("places"))
        for (const auto& place : feeding.at("places"))
            day.places.push_back(
                {place.at("at").at(0).get<double>(), place.at("at").at(1).get<double>()});
    day.another = feeding.value("by_hand", std::string()) == "another";
    return day;
}

}  // namespace

Result<std::vector<PlannedDay>> planned_days(const std::string& plan_json) {
    try {
        std::vector<PlannedDay> days;
        const auto document = nlohmann::json::parse(plan_json);
        for (const auto& feeding : document.at("feedings")) days.push_back(read_day(feeding));
        return days;
    } catch (const nlohmann::json::exception&) {
        return fail({"plan_unreadable", "A plan kept in the book cannot be read.", "table plans",
                     "Plan the week again; feedings on record are not touched."});
    }
}

}  // namespace haylane
