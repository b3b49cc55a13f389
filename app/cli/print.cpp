#include "app/cli/print.h"

#include "app/papers/moved_words.h"
#include "app/papers/words.h"
#include "core/ranch/measured_figures.h"

#include <cstdio>
#include <map>

#include <fmt/format.h>
#include <unistd.h>

namespace haylane {

namespace {

std::string bales_text(const PlannedFeeding& feeding, const Ranch& ranch) {
    std::vector<std::string> parts;
    int total = 0;
    for (const BaleDraw& draw : feeding.bales) {
        parts.push_back(
            fmt::format("{} {} from {}", draw.count, ranch[draw.lot].name, ranch[draw.yard].name));
        total += draw.count;
    }
    return fmt::format("{}: {}", words::bale_count(total), words::list(parts));
}

// "lay 900 ft" or "set in the rings"
std::string lines_of(const PlannedFeeding& feeding, const PlannedLoad& load, bool metric) {
    if (feeding.in_rings) return "set in the rings";
    double laid_m = 0.0;
    for (const PlannedLine& line : feeding.lines) {
        for (const std::string& id : load.line_ids) laid_m += line.id == id ? line.length_m : 0.0;
    }
    return "lay " + words::short_length(laid_m, metric);
}

std::string start_text(const PlannedFeeding& feeding, bool metric) {
    const std::string from = fmt::format("from {} {} {}", feeding.start.from,
                                         words::short_length(feeding.start.distance_m, metric),
                                         words::compass(feeding.start.bearing_rad));
    if (!feeding.in_rings) return fmt::format("{}, lay {}", from, feeding.toward);
    const bool row = feeding.lines.front().places.size() > 1;
    return fmt::format("{}, {}{}", from, words::set_in_rings(feeding, metric),
                       row ? " going " + feeding.toward : "");
}

std::string load_text(const PlannedFeeding& feeding, const PlannedLoad& load, std::size_t index,
                      const Ranch& ranch, bool metric) {
    std::string text =
        fmt::format("    load {}    {} from {}, {}; {}, {}, {}", index + 1,
                    words::bale_count(load.bale_count), ranch[load.yard].name,
                    lines_of(feeding, load, metric), words::long_length(load.distance_m, metric),
                    words::minutes(load.time_s), words::volume(load.fuel_l, metric));
    if (load.cost) text += ", " + words::money(*load.cost, ranch.settings.currency);
    return text + "\n";
}

std::string feeding_text(const PlannedFeeding& feeding, const Ranch& ranch, bool metric) {
    std::string text = fmt::format(
        "  {} in {}, with {}{}{}\n", ranch[feeding.herd].name, ranch[feeding.pasture].name,
        ranch[feeding.rig].name,
        feeding.days_covered > 1 ? fmt::format(" ({} days' feed)", feeding.days_covered) : "",
        feeding.by_hand == ByHand::held ? "  (held)" : "");
    text += fmt::format("    bales     {}\n", bales_text(feeding, ranch));
    text += fmt::format("    way in    {}\n", words::way_in(feeding, ranch));
    text += fmt::format("    start     {}\n", start_text(feeding, metric));
    for (std::size_t l = 0; l < feeding.loads.size(); ++l)
        text += load_text(feeding, feeding.loads[l], l, ranch, metric);
    text += fmt::format("    ground    this ground so far {} {}; heaviest {}\n",
                        words::bale_density(feeding.ground_so_far_bales_per_m2, metric),
                        words::bale_density_unit(metric),
                        words::bale_density(feeding.heaviest_bales_per_m2, metric));
    text += fmt::format("    why       {}\n", feeding.why);
    for (const Caution& caution : feeding.cautions)
        text += fmt::format("    caution   {}\n", caution.text);
    return text;
}

std::string totals_text(const Plan& plan, const Ranch& ranch, bool metric) {
    std::string text =
        fmt::format("Total: {}, {}, {}, {}", words::bale_count(plan.totals.bales),
                    words::long_length(plan.totals.distance_m, metric),
                    words::minutes(plan.totals.time_s), words::volume(plan.totals.fuel_l, metric));
    if (plan.totals.cost) text += ", " + words::money(*plan.totals.cost, ranch.settings.currency);
    return text + "\n";
}

std::string targets_text(const Plan& plan, const Ranch& ranch, bool metric) {
    if (plan.targets.empty()) return {};
    std::string text = "Targets this season, the least reached first\n";
    for (const TargetLoad& t : plan.targets)
        text += fmt::format("  {}: {} {} so far, {} with this plan, {} wanted\n",
                            ranch[t.pasture].name, words::nutrient(t.measure),
                            words::nutrient_rate(t.before_kg_per_m2, metric),
                            words::nutrient_rate(t.after_kg_per_m2, metric),
                            words::nutrient_rate(t.wanted_kg_per_m2, metric));
    return text;
}

}  // namespace

void print_error(const Error& error) {
    fmt::print(stderr, "error: {}\n", error.what);
    if (!error.where.empty()) fmt::print(stderr, "  where: {}\n", error.where);
    if (!error.remedy.empty()) fmt::print(stderr, "  what to do: {}\n", error.remedy);
}

std::string problem_text(const Problems& problems) {
    std::string text;
    for (const Severity severity : {Severity::error, Severity::warning, Severity::info}) {
        for (const Problem& problem : problems) {
            if (problem.severity != severity) continue;
            text += fmt::format("{} ({}): {}\n", to_string(severity), problem.code, problem.text);
            if (!problem.where.empty()) text += fmt::format("  where: {}\n", problem.where);
            if (!problem.remedy.empty()) text += fmt::format("  what to do: {}\n", problem.remedy);
        }
    }
    return text;
}

std::string switched_off_text(const std::vector<SwitchedOff>& switched_off) {
    std::string text;
    for (const SwitchedOff& item : switched_off)
        text += fmt::format("switched off: {} ({})\n", item.feature, item.because);
    return text;
}

std::string plan_text(const Plan& plan, const Ranch& ranch, bool metric) {
    std::string text =
        fmt::format("{}: feeding from {} for {} {}\n{}\n", plan.ranch, words::short_date(plan.from),
                    plan.days, plan.days == 1 ? "day" : "days", words::hay_lasts(plan.hay_lasts));
    std::optional<sys_days> day;
    for (const PlannedFeeding& feeding : plan.feedings) {
        if (day != feeding.date) {
            text += fmt::format("\n{}{}\n", words::short_date(feeding.date),
                                feeding.firm ? "" : "  (in pencil)");
            day = feeding.date;
        }
        text += feeding_text(feeding, ranch, metric);
    }
    if (const std::string measured = measured_sentence(ranch); !measured.empty())
        text += "\n" + measured + "\n";
    return text + "\n" + totals_text(plan, ranch, metric) + targets_text(plan, ranch, metric);
}

std::string moved_text(const MovedLines& moved, const Ranch& ranch, bool metric) {
    std::string text;
    for (const MovedWords& line : moved_words(moved, ranch, metric))
        text += fmt::format("    {:<9} {}\n", line.what, line.how);
    return text;
}

Result<sys_days> read_day(const std::string& text, const char* option) {
    if (const auto day = parse_day(text)) return *day;
    return fail({"bad_date", fmt::format("{} is not a day.", text.empty() ? "Nothing" : text),
                 option, "Write it as year-month-day, for instance 2027-01-11."});
}

Progress terminal_progress() {
    if (isatty(fileno(stderr)) == 0) return {};
    return {.report = [](std::string_view stage, double done) {
        fmt::print(stderr, "\r\033[K{} {:.0f} %{}", stage, done * 100.0,
                   done >= 1.0 ? "\r\033[K" : "");
        std::fflush(stderr);
    }};
}

}  // namespace haylane
