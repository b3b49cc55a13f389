#include "app/cli/print.h"
#include "app/cli/trial_text.h"
#include "app/cli/verbs.h"
#include "core/base/units.h"
#include "core/trials/trial_table.h"
#include "gis/book/trial_file.h"

#include <fmt/format.h>

namespace haylane {

namespace {

struct TrialOptions {
    std::vector<std::string> files;
    double protein_price = 0.0;  // a lb or kg
    double season_tons = 0.0;    // short tons or tonnes
};

TrialWords words_of(const TrialOptions& options, bool metric) {
    TrialWords words;
    words.metric = metric;
    if (options.protein_price > 0.0)
        words.prices.cp_per_kg = options.protein_price / (metric ? 1.0 : units::kKgPerPound);
    if (options.season_tons > 0.0)
        words.season_kg =
            options.season_tons * (metric ? units::kKgPerTonne : units::kKgPerShortTon);
    return words;
}

int run_trial(const TrialOptions& options, const Common& common) {
    std::vector<RawRow> rows;
    Problems problems;
    for (const std::string& file : options.files) {
        auto read = read_trial_file(file);
        if (!read) {
            print_error(read.error());
            return 1;
        }
        rows.insert(rows.end(), read->rows.begin(), read->rows.end());
        problems.insert(problems.end(), read->problems.begin(), read->problems.end());
    }
    const TrialTable table = trial_table(rows);
    problems.insert(problems.end(), table.problems.begin(), table.problems.end());
    if (!problems.empty()) fmt::print(stderr, "{}", problem_text(problems));
    if (table.runs.empty()) {
        print_error({"no_trials", "no row tells of a feeding", options.files.front(),
                     "write a row a feeding: rig, bales, and what was timed, weighed and sampled"});
        return 1;
    }
    const TrialComparison trials = compare_trials(table.runs);
    const TrialWords words = words_of(options, common.units == "metric");
    fmt::print("{}", common.json ? trial_json(trials, words) : trial_text(trials, words));
    return 0;
}

}  // namespace

void add_trial(CLI::App& app, Common& common) {
    auto* verb = app.add_subcommand(
        "trial",
        "Compares rigs from feedings that were timed, weighed and sampled.\n"
        "Example: haylane trial sample-maps/trials/two-rigs.csv --protein-price 0.45");
    auto options = std::make_shared<TrialOptions>();
    verb->add_option("FILE", options->files, "tables of trials (.csv), a row a feeding")
        ->required();
    verb->add_option("--protein-price", options->protein_price,
                     "what a pound (metric: a kg) of crude protein costs to buy")
        ->check(CLI::Range(0.0, 1000.0));
    verb->add_option("--season-tons", options->season_tons,
                     "tons of hay dry matter fed in a season, for what is lost in it")
        ->check(CLI::Range(0.0, 1e6));
    verb->add_flag("--json", common.json, "print results for programs");
    verb->add_option("--units", common.units, "us (the default) or metric")
        ->check(CLI::IsMember({"us", "metric"}));
    verb->callback([options, &common] { common.exit_code = run_trial(*options, common); });
}

}  // namespace haylane
