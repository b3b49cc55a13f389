#include "gis/exchange/ground_json.h"

#include "core/season/value_class.h"
#include "gis/exchange/problem_json.h"

#include <cmath>

#include <nlohmann/json.hpp>

namespace haylane {

namespace {

using Json = nlohmann::ordered_json;

// Figures as numbers or, where records are unsure, as classes.
class Figures {
  public:
    explicit Figures(const Provenance& provenance) : numbers_(provenance.shows_numbers()) {}
    [[nodiscard]] Json operator()(double value) const {
        if (!std::isfinite(value)) return nullptr;
        if (numbers_) return value;
        const ValueClass found = class_of(value);
        return {{"from", found.from}, {"to", found.to}};
    }
    [[nodiscard]] Json operator()(const std::optional<double>& value) const {
        return value ? (*this)(*value) : Json(nullptr);
    }
    [[nodiscard]] Json list(const auto& values) const {
        Json all = Json::array();
        for (const double value : values) all.push_back((*this)(value));
        return all;
    }
    [[nodiscard]] bool numbers() const { return numbers_; }

  private:
    bool numbers_;
};

template <class T>
Json maybe(const std::optional<T>& value) {
    return value ? Json(*value) : Json(nullptr);
}

Json provenance(const Provenance& p) {
    const double all = p.all_bales();
    const auto share = [&](double bales) { return all > 0.0 ? bales / all : 0.0; };
    return {{"gps", share(p.gps_bales)},
            {"entered", share(p.entered_bales)},
            {"recalled", share(p.recalled_bales)},
            {"assumed", share(p.assumed_bales)},
            {"shows", p.shows_numbers() ? "numbers" : "classes"}};
}

Json nutrients(const Nutrients& amounts, const Figures& figure) {
    return {{"n_kg", figure(amounts.n_kg)},
            {"p2o5_kg", figure(amounts.p2o5_kg)},
            {"k2o_kg", figure(amounts.k2o_kg)}};
}

Json ledger(const Ledger& l, double area_m2) {
    const Figures figure(l.provenance);
    return {{"feedings", l.feedings},
            {"bales", figure(l.bales)},
            {"hay_dm_kg", figure(l.hay_dm_kg)},
            {"residue_dm_kg", figure(l.residue_dm_kg)},
            {"animal_days", figure(l.animal_days)},
            {"animal_days_per_m2", figure(area_m2 > 0.0 ? l.animal_days / area_m2 : 0.0)},
            {"in_hay", nutrients(l.in_hay, figure)},
            {"on_ground", nutrients(l.on_ground, figure)},
            {"kept_by_animals", nutrients(l.retained, figure)},
            {"n_lost_gas_kg", figure(l.n_lost_gas_kg)},
            {"n_by_pool_kg",
             {{"residue", figure(l.residue_n_kg)},
              {"dung_before_gas", figure(l.dung_n_kg)},
              {"urine_before_gas", figure(l.urine_n_kg)}}},
            {"provenance", provenance(l.provenance)}};
}

Json band(const UncertaintyBand& b, const Figures& figure) {
    return {{"p10", figure(b.p10)}, {"p50", figure(b.p50)}, {"p90", figure(b.p90)}};
}

Json nutrient_bands(const NutrientBands& b, const Figures& figure) {
    return {{"mean_per_m2", band(b.mean_per_m2, figure)},
            {"low_quarter_per_m2", band(b.low_quarter_per_m2, figure)},
            {"high_tenth_per_m2", band(b.high_tenth_per_m2, figure)},
            {"max_per_m2", band(b.max_per_m2, figure)},
            {"cv_ratio", band(b.cv_ratio, figure)},
            {"over_limit_ratio", band(b.over_limit_ratio, figure)}};
}

Json evenness(const std::optional<Evenness>& even, const Figures& figure) {
    if (!even) return nullptr;
    return {{"cv_ratio", figure(even->cv_ratio)},
            {"cu_ratio", figure(even->cu_ratio)},
            {"low_quarter_ratio", figure(even->low_quarter_ratio)},
            {"gini_ratio", figure(even->gini_ratio)},
            {"untouched_ratio", figure(even->untouched_ratio)}};
}

Json load(const LoadFigures& l, const Figures& figure) {
    return {{"total", figure(l.total)},
            {"mean_per_m2", figure(l.mean_per_m2)},
            {"feed_ground_mean_per_m2", figure(l.feed_ground_mean_per_m2)},
            {"low_quarter_per_m2", figure(l.low_quarter_per_m2)},
            {"high_tenth_per_m2", figure(l.high_tenth_per_m2)},
            {"max_per_m2", figure(l.max_per_m2)},
            {"limit_per_m2", maybe(l.limit_per_m2)},
            {"over_limit_ratio", figure(l.over_limit_ratio)},
            {"evenness", evenness(l.even, figure)},
            {"curve", figure.list(l.curve)}};
}

Json span_loads(const PastureAccount& account) {
    const Figures figure(account.ledger.provenance);
    Json loads;
    for (const SeasonMeasure measure : kSeasonMeasures) {
        const auto at = static_cast<std::size_t>(measure);
        Json one = load(account.figures[at], figure);
        if (account.bands && at < account.bands->nutrients.size())
            one["band"] = nutrient_bands(account.bands->nutrients[at], figure);
        loads[std::string(to_string(measure))] = std::move(one);
    }
    return loads;
}

template <class Array>
Json three_loads(const Array& figures, const Figures& figure) {
    Json loads;
    for (std::size_t k = 0; k < figures.size(); ++k)
        loads[std::string(to_string(kSeasonMeasures[k]))] = load(figures[k], figure);
    return loads;
}

Json worth(const std::optional<Worth>& w, const Figures& figure) {
    if (!w) return nullptr;
    return {{"full", figure(w->full)}, {"available", figure(w->available)}};
}

Json exposure(const WaterExposure& e, const Figures& figure) {
    return {{"water_within_100_ft", nutrients(e.water_in_100, figure)},
            {"water_within_caution", nutrients(e.water_in_caution, figure)},
            {"well_within_100_ft", nutrients(e.well_in_100, figure)},
            {"well_within_caution", nutrients(e.well_in_caution, figure)},
            {"drains_to_water_within_caution",
             e.terrain_known ? nutrients(e.drains_in_caution, figure) : Json(nullptr)}};
}

Json seasons(const PastureAccount& account) {
    Json list = Json::array();
    for (const SeasonLine& season : account.seasons) {
        if (season.ledger.feedings == 0) continue;
        list.push_back({{"season", season.span.name},
                        {"books", ledger(season.ledger, account.area_m2)},
                        {"loads", three_loads(season.figures, Figures(season.ledger.provenance))}});
    }
    return list;
}

Json soil(const PastureAccount& account, const Ranch& ranch) {
    Json list = Json::array();
    for (const SoilPoint& point : account.soil) {
        const SoilSample& sample = ranch.soil[point.sample];
        list.push_back({{"name", sample.name},
                        {"date", sample.date ? Json(format_day(*sample.date)) : Json(nullptr)},
                        {"method", sample.method},
                        {"p_ppm", maybe(sample.p_ppm)},
                        {"k_ppm", maybe(sample.k_ppm)},
                        {"p2o5_before_kg_per_m2", point.p2o5_per_m2},
                        {"k2o_before_kg_per_m2", point.k2o_per_m2},
                        {"fed_before", point.fed_before},
                        {"over_four_years_old", point.old}});
    }
    return list;
}

Json bands(const PastureAccount& account) {
    if (!account.bands) return nullptr;
    const Figures figure(account.ledger.provenance);
    const PastureBands& b = *account.bands;
    return {
        {"draws", b.draws},
        {"residue_dm_kg", band(b.residue_dm_kg, figure)},
        {"animal_days", band(b.animal_days, figure)},
        {"n_lost_gas_kg", band(b.n_lost_gas_kg, figure)},
        {"available_n_first_year_of_span_kg", band(b.available_n_kg, figure)},
        {"worth_available", b.worth_available ? band(*b.worth_available, figure) : Json(nullptr)}};
}

Json pasture(const PastureAccount& account, const Ranch& ranch) {
    const Figures figure(account.ledger.provenance);
    const Figures all_figure(account.all_ledger.provenance);
    return {{"pasture", ranch[account.pasture].name},
            {"area_m2", account.area_m2},
            {"feed_ground_m2", account.feed_ground_m2},
            {"books", ledger(account.ledger, account.area_m2)},
            {"loads", span_loads(account)},
            {"bands", bands(account)},
            {"available_n_kg", all_figure.list(account.available_n_kg)},
            {"worth", worth(account.worth, figure)},
            {"near_water", exposure(account.exposure, figure)},
            {"days_fed_in_12_months", account.days_fed},
            {"since_first_record",
             {{"books", ledger(account.all_ledger, account.area_m2)},
              {"loads", three_loads(account.all_figures, all_figure)},
              {"worth", worth(account.all_worth, all_figure)},
              {"near_water", exposure(account.all_exposure, all_figure)}}},
            {"seasons", seasons(account)},
            {"trend_per_m2_a_season", all_figure(account.trend_per_m2)},
            {"soil", soil(account, ranch)}};
}

// An amount is a class where the pasture's records are unsure.
Json advised_amount(const GroundAccount& ground, const Advice& advice) {
    if (advice.nutrient.empty()) return nullptr;
    for (const PastureAccount& account : ground.pastures) {
        if (account.pasture == advice.pasture)
            return Figures(account.all_ledger.provenance)(advice.per_m2);
    }
    return nullptr;
}

Json advice(const GroundAccount& ground, const Ranch& ranch) {
    Json list = Json::array();
    for (const Advice& one : ground.advice)
        list.push_back({{"pasture", ranch[one.pasture].name},
                        {"advice", to_string(one.kind)},
                        {"rank", one.rank},
                        {"nutrient", one.nutrient.empty() ? Json(nullptr) : Json(one.nutrient)},
                        {"amount_kg_per_m2", advised_amount(ground, one)},
                        {"reasons", one.reasons},
                        {"cautions", one.cautions}});
    return list;
}

Json relations(const GroundAccount& ground) {
    Json list = Json::array();
    for (const SoilRelation& relation : ground.soil_relations)
        list.push_back({{"method", relation.method},
                        {"samples", relation.samples},
                        {"p_with_p2o5_rank_correlation", maybe(relation.p_rank)},
                        {"k_with_k2o_rank_correlation", maybe(relation.k_rank)}});
    return list;
}

Json ranges(const Settings& settings) {
    Json list = Json::array();
    for (const ParameterRange& range : parameter_ranges()) {
        const double mode = range.setting != nullptr ? settings.*range.setting : 1.0;
        list.push_back({{"key", range.key},
                        {"low", std::min(range.low, mode)},
                        {"most_likely", mode},
                        {"high", std::max(range.high, mode)},
                        {"meaning", range.meaning},
                        {"source", range.source}});
    }
    return list;
}

Json assumptions(const CheckedRanch& checked, const std::vector<std::string>& crs_operations) {
    Json list = Json::array();
    for (const Assumption& a :
         list_assumptions(checked.ranch.settings, checked.ranch.settings_changed))
        list.push_back({{"key", a.key},
                        {"value", a.text.empty() ? Json(a.value) : Json(a.text)},
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

Json season_names(const GroundAccount& ground) {
    Json names = Json::array();
    for (const Span& season : ground.seasons) names.push_back(season.name);
    return names;
}

}  // namespace

std::string ground_json(const GroundAccount& ground, const CheckedRanch& checked,
                        const std::vector<std::string>& crs_operations) {
    const Ranch& ranch = checked.ranch;
    Json pastures = Json::array();
    for (const PastureAccount& account : ground.pastures)
        pastures.push_back(pasture(account, ranch));
    const Json document = {{"schema", "haylane-ground/1"},
                           {"ranch", ranch.name},
                           {"span", ground.span.name},
                           {"from", format_day(ground.span.from)},
                           {"to", format_day(ground.span.to)},
                           {"last_day_on_record", format_day(ground.up_to)},
                           {"units", "si"},
                           {"currency", ranch.settings.currency},
                           {"n_shown", kNitrogenShown},
                           {"measure_shown", to_string(ground.shown)},
                           {"seasons_on_record", season_names(ground)},
                           {"draws", ground.uncertainty.draws},
                           {"seed", ground.uncertainty.seed},
                           {"books", ledger(ground.ledger, 0.0)},
                           {"books_since_first_record", ledger(ground.all_ledger, 0.0)},
                           {"pastures", pastures},
                           {"advice", advice(ground, ranch)},
                           {"soil_relations", relations(ground)},
                           {"ranges", ranges(ranch.settings)},
                           {"assumptions", assumptions(checked, crs_operations)},
                           {"problems", problems_json(checked.problems)},
                           {"switched_off", switched_off_json(checked.switched_off)}};
    return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace haylane
