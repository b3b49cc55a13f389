#include "gis/exchange/plan_json.h"

#include "core/base/units.h"
#include "gis/exchange/problem_json.h"

#include <cmath>

#include <nlohmann/json.hpp>

namespace haylane {

namespace {

using Json = nlohmann::ordered_json;

// A number JSON can hold; what is not finite is undefined.
Json number(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

template <class T>
Json maybe(const std::optional<T>& value) {
    return value ? Json(*value) : Json(nullptr);
}

Json maybe_day(const std::optional<sys_days>& day) {
    return day ? Json(format_day(*day)) : Json(nullptr);
}

Json deposit(const DepositMass& mass) {
    return {{"residue_dm_kg", number(mass.residue_dm_kg)},
            {"n_kg", number(mass.n_kg)},
            {"p2o5_kg", number(mass.p2o5_kg)},
            {"k2o_kg", number(mass.k2o_kg)},
            {"n_lost_gas_kg", number(mass.n_lost_gas_kg)}};
}

Json load(const PlannedLoad& l, const Ranch& ranch) {
    return {{"line_ids", l.line_ids},
            {"bales", l.bale_count},
            {"yard", ranch[l.yard].name},
            {"distance_m", number(l.distance_m)},
            {"loaded_distance_m", number(l.loaded_distance_m)},
            {"time_s", number(l.time_s)},
            {"fuel_l", number(l.fuel_l)},
            {"cost", maybe(l.cost)}};
}

Json bales(const std::vector<BaleDraw>& draws, const Ranch& ranch) {
    Json list = Json::array();
    for (const BaleDraw& draw : draws)
        list.push_back({{"lot", ranch[draw.lot].name},
                        {"yard", ranch[draw.yard].name},
                        {"count", draw.count}});
    return list;
}

Json cautions(const std::vector<Caution>& items) {
    Json list = Json::array();
    for (const Caution& c : items) list.push_back({{"code", c.code}, {"text", c.text}});
    return list;
}

// Where bales are set in rings, one a place, in driving order.
Json places(const PlannedFeeding& f, const Frame& frame) {
    Json list = Json::array();
    for (const PlannedLine& row : f.lines) {
        for (const Point place : row.places) {
            const LonLat at = frame.to_lonlat(place);
            list.push_back({{"at", Json::array({at.lon_deg, at.lat_deg})}, {"bales", 1}});
        }
    }
    return list;
}

// What only some feedings have: rings, and the user's hand.
Json with_rest(Json feeding, const PlannedFeeding& f, const Frame& frame) {
    if (f.in_rings) feeding["places"] = places(f, frame);
    const ByHand by_hand = f.by_hand;
    if (by_hand != ByHand::no) feeding["by_hand"] = by_hand == ByHand::held ? "held" : "another";
    return feeding;
}

Json feeding(const PlannedFeeding& f, const Ranch& ranch) {
    Json loads = Json::array();
    for (const PlannedLoad& l : f.loads) loads.push_back(load(l, ranch));
    Json lines = Json::array();
    for (const PlannedLine& line : f.lines)
        if (!f.in_rings) lines.push_back(line.id);
    return {{"date", format_day(f.date)},
            {"herd", ranch[f.herd].name},
            {"pasture", ranch[f.pasture].name},
            {"rig", ranch[f.rig].name},
            {"bales", bales(f.bales, ranch)},
            {"dm_eaten_kg", number(f.dm_eaten_kg)},
            {"dm_needed_kg", number(f.dm_needed_kg)},
            {"dm_offered_kg", number(f.dm_offered_kg)},
            {"cp_pct", number(f.cp_ratio * 100.0)},
            {"tdn_pct", number(f.tdn_ratio * 100.0)},
            {"loads", loads},
            {"lines", lines},
            {"line_length_m", number(f.line_length_m)},
            {"lay_kg_per_m", number(f.lay_kg_per_m)},
            {"line_m_per_head", number(f.line_m_per_head)},
            {"start",
             {{"from", f.start.from},
              {"distance_m", number(f.start.distance_m)},
              {"bearing", number(units::deg_from_rad(f.start.bearing_rad))}}},
            {"toward", f.toward},
            {"deposit", deposit(f.deposit)},
            {"deposit_other", deposit(f.deposit_other)},
            {"above_nearest",
             {{"time_s", number(f.above_nearest_s)}, {"cost", maybe(f.above_nearest_cost)}}},
            {"cautions", cautions(f.cautions)},
            {"why", f.why}};
}

Json figures(const std::optional<EvennessFigures>& e) {
    if (!e) return nullptr;
    return {{"cv", number(e->cv_ratio)},
            {"cu", number(e->cu_ratio)},
            {"low_quarter", number(e->low_quarter_ratio)}};
}

Json evenness(const Plan& plan, const Ranch& ranch) {
    Json list = Json::array();
    for (const PastureEvenness& e : plan.evenness)
        list.push_back({{"pasture", ranch[e.pasture].name},
                        {"measure", e.measure},
                        {"before", figures(e.before)},
                        {"after", figures(e.after)}});
    return list;
}

Json targets(const Plan& plan, const Ranch& ranch) {
    Json list = Json::array();
    for (const TargetLoad& t : plan.targets)
        list.push_back({{"pasture", ranch[t.pasture].name},
                        {"measure", t.measure},
                        {"wanted_kg_per_m2", number(t.wanted_kg_per_m2)},
                        {"before_kg_per_m2", number(t.before_kg_per_m2)},
                        {"after_kg_per_m2", number(t.after_kg_per_m2)}});
    return list;
}

Json optimality(const Optimality& o) {
    return {{"objective", number(o.objective)},
            {"lower_bound", number(o.lower_bound)},
            {"gap", number(o.gap)},
            {"gap_of_gain", maybe(o.gap_of_gain)},
            {"j_ref", number(o.j_ref)},
            {"candidates", o.candidates},
            {"cv", number(o.cv)},
            {"cv_bound", maybe(o.cv_bound)},
            {"order_cost", maybe(o.order_cost)}};
}

Json hay_left(const Plan& plan, const Ranch& ranch) {
    Json list = Json::array();
    for (const HayLeft& h : plan.hay_left)
        list.push_back({{"lot", ranch[h.lot].name},
                        {"yard", ranch[h.yard].name},
                        {"count", h.count},
                        {"runs_out", maybe_day(h.runs_out)}});
    return list;
}

// short_bales is [least, most], or null when no turn-out date is set.
Json hay_lasts(const HayLasts& h) {
    Json short_bales = nullptr;
    if (h.short_bales_least && h.short_bales_most)
        short_bales = Json::array({*h.short_bales_least, *h.short_bales_most});
    return {{"earliest", maybe_day(h.earliest)},
            {"latest", maybe_day(h.latest)},
            {"turnout", maybe_day(h.turnout)},
            {"short_bales", short_bales}};
}

Json assumptions(const Plan& plan, const std::vector<std::string>& crs_operations) {
    Json list = Json::array();
    for (const Assumption& a : plan.assumptions)
        list.push_back({{"key", a.key},
                        {"value", a.text.empty() ? number(a.value) : Json(a.text)},
                        {"unit", a.unit},
                        {"source", a.source},
                        {"status", a.status}});
    for (const std::string& operation : crs_operations)
        list.push_back({{"key", "coordinate_operation"},
                        {"value", operation},
                        {"unit", ""},
                        {"source", "PROJ"},
                        {"status", "sourced"}});
    return list;
}

}  // namespace

std::string plan_json(const Plan& plan, const Ranch& ranch, const Frame& frame,
                      const std::vector<std::string>& crs_operations) {
    Json feedings = Json::array();
    for (const PlannedFeeding& f : plan.feedings)
        feedings.push_back(with_rest(feeding(f, ranch), f, frame));
    const Json document = {{"schema", "haylane-plan/1"},
                           {"ranch", plan.ranch},
                           {"from", format_day(plan.from)},
                           {"days", plan.days},
                           {"seed", plan.seed},
                           {"units", "si"},
                           {"feedings", feedings},
                           {"totals",
                            {{"bales", plan.totals.bales},
                             {"distance_m", number(plan.totals.distance_m)},
                             {"time_s", number(plan.totals.time_s)},
                             {"fuel_l", number(plan.totals.fuel_l)},
                             {"cost", maybe(plan.totals.cost)}}},
                           {"evenness", evenness(plan, ranch)},
                           {"optimality", optimality(plan.optimality)},
                           {"hay_left", hay_left(plan, ranch)},
                           {"hay_lasts", hay_lasts(plan.hay_lasts)},
                           {"assumptions", assumptions(plan, crs_operations)},
                           {"problems", problems_json(plan.problems)},
                           {"switched_off", switched_off_json(plan.switched_off)},
                           {"targets", targets(plan, ranch)}};
    return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace haylane
