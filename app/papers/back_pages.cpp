// Ground, hay, problems and sources.

#include "app/papers/back_pages.h"

#include "app/papers/acre_loads.h"
#include "app/papers/assumption_table.h"
#include "app/papers/words.h"

#include <algorithm>
#include <cmath>

namespace haylane {
namespace {

QString to_q(const std::string& text) { return QString::fromStdString(text); }

// Whether the plan leaves the ground more evenly fed, by the measure that the plan goes by.
QString verdict(const Plan& plan, const Ranch& ranch, PastureId pasture) {
    for (const PastureEvenness& one : plan.evenness) {
        if (one.pasture != pasture || one.measure != ranch.settings.objective_measure) continue;
        if (!one.after) break;
        if (!one.before) return QStringLiteral("first feed here");
        const double change = one.after->cv_ratio - one.before->cv_ratio;
        if (std::abs(change) < 0.005) return QStringLiteral("about as even as before");
        return change < 0.0 ? QStringLiteral("more even than before")
                            : QStringLiteral("less even than before");
    }
    return {};
}

QString range_text(const AcreLoads& loads, bool metric) {
    return to_q(words::bale_density(loads.lightest_bales_per_m2, metric)) + " to " +
           to_q(words::bale_density(loads.heaviest_bales_per_m2, metric));
}

QString runs_out_text(const HayLeft& left) {
    if (left.count == 0) return QStringLiteral("none left");
    return left.runs_out ? to_q(words::date(*left.runs_out)) : QStringLiteral("not this season");
}

}  // namespace

void paint_evenness(Flow& flow, const PlanResult& result, const SheetInput& input) {
    std::vector<std::vector<QString>> rows{{"pasture", "before this week", "after it", "feed is"}};
    for (const PastureLoad& load : result.loads) {
        const auto before = acre_loads(load.ground, load.before);
        const auto after = acre_loads(load.ground, load.after());
        if (!after || after->heaviest_bales_per_m2 <= 0.0) continue;
        rows.push_back({to_q(input.ranch[load.ground.pasture].name),
                        before ? range_text(*before, input.metric) : QString(),
                        range_text(*after, input.metric),
                        verdict(input.plan, input.ranch, load.ground.pasture)});
    }
    if (rows.size() < 2) return;
    flow.heading(QStringLiteral("How evenly the ground has been fed"));
    flow.paragraph(Rich(QStringLiteral("%1, lightest acre to heaviest acre of each pasture's feed "
                                       "ground, all recorded feedings counted.")
                            .arg(to_q(words::bale_density_unit(input.metric)))));
    flow.gap(3.0);
    flow.table({0.30, 0.20, 0.20, 0.30}, rows);
    flow.gap(6.0);
}

void paint_targets(Flow& flow, const SheetInput& input) {
    if (input.plan.targets.empty()) return;
    flow.heading(QStringLiteral("Targets this season, the least reached first"));
    std::vector<std::vector<QString>> rows{
        {"pasture", "nutrient", "so far", "with this week", "wanted"}};
    for (const TargetLoad& t : input.plan.targets) {
        const auto rate = [&](double kg_per_m2) {
            return to_q(words::nutrient_rate(kg_per_m2, input.metric));
        };
        rows.push_back({to_q(input.ranch[t.pasture].name), to_q(words::nutrient(t.measure)),
                        rate(t.before_kg_per_m2), rate(t.after_kg_per_m2),
                        rate(t.wanted_kg_per_m2)});
    }
    flow.table({0.36, 0.16, 0.16, 0.16, 0.16}, rows);
    flow.gap(6.0);
}

void paint_hay_left(Flow& flow, const SheetInput& input) {
    if (input.plan.hay_left.empty()) return;
    flow.heading(QStringLiteral("Hay left after this plan"));
    flow.paragraph(Rich(to_q(words::hay_lasts(input.plan.hay_lasts)) + "."));
    flow.gap(3.0);
    std::vector<std::vector<QString>> rows{{"lot", "yard", "bales", "runs out"}};
    for (const HayLeft& left : input.plan.hay_left) {
        rows.push_back({to_q(input.ranch[left.lot].name), to_q(input.ranch[left.yard].name),
                        QString::number(left.count), runs_out_text(left)});
    }
    flow.table({0.34, 0.34, 0.12, 0.20}, rows);
    flow.gap(6.0);
}

void paint_problems(Flow& flow, const SheetInput& input) {
    if (!input.plan.problems.empty()) {
        flow.heading(QStringLiteral("Odd things in the map and the tables"));
        std::vector<std::vector<QString>> rows{{"where", "what", "what to do"}};
        for (const Problem& problem : input.plan.problems) {
            rows.push_back({to_q(problem.where), to_q(problem.text), to_q(problem.remedy)});
        }
        flow.table({0.26, 0.40, 0.34}, rows);
        flow.gap(6.0);
    }
    if (!input.plan.switched_off.empty()) {
        flow.heading(QStringLiteral("Left out of this plan"));
        std::vector<std::vector<QString>> rows{{"what", "because"}};
        for (const SwitchedOff& off : input.plan.switched_off) {
            rows.push_back({to_q(off.feature), to_q(off.because)});
        }
        flow.table({0.34, 0.66}, rows);
        flow.gap(6.0);
    }
}

void paint_assumptions(Flow& flow, const SheetInput& input) {
    if (input.plan.assumptions.empty()) return;
    flow.heading(QStringLiteral("Numbers used, and who says so"));
    paint_assumption_table(flow, input.plan.assumptions, input.metric,
                           input.ranch.settings.currency);
}

}  // namespace haylane
