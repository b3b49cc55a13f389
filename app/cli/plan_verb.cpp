#include "app/cli/print.h"
#include "app/cli/qt_messages.h"
#include "app/cli/verbs.h"
#include "app/papers/gui.h"
#include "app/session/plan_ranch.h"
#include "core/plan/spoken.h"
#include "gis/exchange/plan_json.h"

#include <algorithm>

#include <fmt/format.h>

namespace haylane {

namespace {

struct PlanOptions {
    std::string book;
    std::string from;
    int days = 7;
    std::string folder;
    std::string order = "neighbour";
    std::vector<std::string> blocked;
    std::uint64_t seed = 1;
    int threads = 0;
};

// Names that --blocked may use.
std::optional<Error> unknown_blocked(const Ranch& ranch, const std::vector<std::string>& names) {
    for (const std::string& name : names) {
        const auto is = [&](const auto& item) { return item.name == name; };
        if (std::any_of(ranch.gates.begin(), ranch.gates.end(), is) ||
            std::any_of(ranch.trails.begin(), ranch.trails.end(), is))
            continue;
        return Error{"unknown_blocked", fmt::format("There is no gate or trail called {}.", name),
                     "--blocked", "Write its name as it stands in gates or trails."};
    }
    return std::nullopt;
}

int fail_with(const Error& error) {
    print_error(error);
    return 1;
}

int run_plan(const PlanOptions& options, const Common& common) {
    const auto from = parse_day(options.from);
    if (!from) {
        print_error({"bad_date", fmt::format("{} is not a day.", options.from), "--from",
                     "Write it as year-month-day, for instance 2027-01-11."});
        return 2;
    }
    auto open = open_ranch(options.book);
    if (!open) return fail_with(open.error());
    if (const auto error = unknown_blocked(open->checked.ranch, options.blocked))
        return fail_with(*error);
    if (!common.units.empty()) open->checked.ranch.settings.units = common.units;
    const PlanRequest request{
        .from = *from,
        .days = options.days,
        .seed = options.seed,
        .threads = options.threads,
        .order = options.order == "free" ? LineOrder::free : LineOrder::neighbour,
        .blocked = options.blocked,
        .progress = terminal_progress()};
    const auto result = plan_ranch(*open, request);
    if (!result) return fail_with(result.error());
    const bool metric = speaks_metric(open->checked.ranch.settings);
    leave_out_runtime_dir_note();
    const Gui gui;
    const auto files = write_plan(*open, *result, options.folder, metric);
    if (!files) return fail_with(files.error());
    if (common.json) {
        fmt::print("{}", plan_json(result->plan, open->checked.ranch, open->crs_operations));
        return 0;
    }
    fmt::print(stderr, "{}", problem_text(result->plan.problems));
    fmt::print("{}", plan_text(result->plan, open->checked.ranch, metric));
    fmt::print("Wrote {} files to {}; print week-sheet.pdf.\n", files->size(), options.folder);
    return 0;
}

}  // namespace

void add_plan(CLI::App& app, Common& common) {
    auto* verb = app.add_subcommand(
        "plan",
        "Plans the feeding of some days and writes the week sheet, lines and maps.\n"
        "Days 1 to 3 are firm, later ones in pencil.\n"
        "Example: haylane plan ranch.gpkg --from 2027-01-11 --days 7 -o week");
    auto options = std::make_shared<PlanOptions>();
    verb->add_option("BOOK", options->book, "the ranch book (.gpkg)")->required();
    verb->add_option("--from", options->from, "first day, for instance 2027-01-11")->required();
    verb->add_option("--days", options->days, "how many days")
        ->check(CLI::Range(1, 60))
        ->capture_default_str();
    verb->add_option("-o,--out", options->folder, "folder for the files")->required();
    verb->add_option("--order", options->order,
                     "neighbour: each line beside the herd's last one; free: any line that evens "
                     "the ground out best")
        ->check(CLI::IsMember({"neighbour", "free"}))
        ->capture_default_str();
    verb->add_option("--blocked", options->blocked,
                     "a gate or trail that is shut this morning (repeat for more)");
    verb->add_option("--seed", options->seed, "seed of the random comparison plans")
        ->capture_default_str();
    verb->add_option("--threads", options->threads,
                     "threads to use; 0 = all. The plan does not depend on it")
        ->check(CLI::Range(0, 256))
        ->capture_default_str();
    verb->add_flag("--json", common.json, "print plan.json instead of the table");
    verb->add_option("--units", common.units, "us or metric")
        ->check(CLI::IsMember({"us", "metric"}));
    verb->callback([options, &common] { common.exit_code = run_plan(*options, common); });
}

}  // namespace haylane
