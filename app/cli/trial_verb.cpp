#include "app/cli/print.h"
#include "app/cli/qt_messages.h"
#include "app/cli/trial_text.h"
#include "app/cli/verbs.h"
#include "app/papers/gui.h"
#include "app/papers/words.h"
#include "app/session/trial_ranch.h"
#include "core/base/units.h"

#include <fmt/format.h>

namespace haylane {

namespace {

struct TrialOptions {
    std::vector<std::string> files;
    std::string keep_in;
    std::string folder;
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
    TrialsAsked asked{.keep_in = options.keep_in,
                      .folder = options.folder,
                      .words = words_of(options, common.units == "metric"),
                      .letter = common.units != "metric"};
    asked.files.assign(options.files.begin(), options.files.end());
    leave_out_runtime_dir_note();
    std::optional<Gui> gui;  // for the report
    if (!options.folder.empty()) gui.emplace();
    const auto report = trials_of(asked);
    if (!report) {
        print_error(report.error());
        return 1;
    }
    if (!report->problems.empty()) fmt::print(stderr, "{}", problem_text(report->problems));
    if (common.json) {
        fmt::print("{}", trial_json(report->trials, asked.words));
        return 0;
    }
    fmt::print("{}", trial_text(report->trials, asked.words));
    if (!options.keep_in.empty())
        fmt::print("\nKept in {}: {}{}.\n", options.keep_in,
                   words::counted(report->added, "feeding"),
                   report->known > 0 ? fmt::format("; {} it had already", report->known) : "");
    if (!report->files.empty()) {
        fmt::print("\nWritten to {}:\n", options.folder);
        for (const auto& file : report->files) fmt::print("  {}\n", file.filename().string());
    }
    return 0;
}

}  // namespace

void add_trial(CLI::App& app, Common& common) {
    auto* verb = app.add_subcommand(
        "trial",
        "Compares rigs from feedings that were timed, weighed and sampled.\n"
        "Example: haylane trial sample-maps/trials/two-rigs.csv --protein-price 0.45");
    auto options = std::make_shared<TrialOptions>();
    verb->add_option(
            "FILE", options->files,
            "tables of trials (.csv), a row a feeding; or a ranch book (.gpkg) that keeps some")
        ->required();
    verb->add_option("--keep-in", options->keep_in,
                     "ranch book that keeps the rows: three feedings or more of a rig become its "
                     "own figures, which plan and haul then use");
    verb->add_option("-o,--out", options->folder,
                     "folder to write trial.json and trial-report.pdf to");
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
