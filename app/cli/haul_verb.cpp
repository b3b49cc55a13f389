#include "app/cli/haul_text.h"
#include "app/cli/print.h"
#include "app/cli/qt_messages.h"
#include "app/cli/verbs.h"
#include "app/papers/gui.h"
#include "app/session/haul_files.h"
#include "core/plan/spoken.h"

#include <fmt/format.h>

namespace haylane {

namespace {

struct HaulOptions {
    std::string book;
    std::string folder;
    std::string from;
    std::string ways_by;
    std::vector<std::string> blocked;
    std::vector<std::string> what_ifs;
    std::vector<std::string> buys;
    int stacks = 0;
};

int fail_with(const Error& error) {
    print_error(error);
    return error.code == "bad_date" || error.code == "no_date" || error.code == "unknown_way" ||
                   error.code == "unknown_what_if" || error.code == "unknown_offer" ||
                   error.code == "unknown_rig" || error.code == "number_out_of_range"
               ? 2
               : 1;
}

int run_haul(const HaulOptions& options, const Common& common) {
    HaulAsked asked{.from = std::nullopt,
                    .blocked = options.blocked,
                    .what_ifs = options.what_ifs,
                    .buys = options.buys,
                    .stacks = options.stacks};
    if (!options.from.empty()) {
        const auto day = read_day(options.from, "--from");
        if (!day) return fail_with(day.error());
        asked.from = *day;
    }
    auto open = open_ranch(options.book);
    if (!open) return fail_with(open.error());
    const Ranch& ranch = open->checked.ranch;
    if (!options.ways_by.empty()) open->checked.ranch.settings.ways_by = options.ways_by;
    if (!common.units.empty()) open->checked.ranch.settings.units = common.units;
    const bool metric = speaks_metric(ranch.settings);
    leave_out_runtime_dir_note();
    std::optional<Gui> gui;  // for the report
    if (!options.folder.empty()) gui.emplace();
    const auto report = haul_of_ranch(*open, asked, options.folder, metric);
    if (!report) return fail_with(report.error());
    if (common.json) {
        fmt::print("{}", haul_json(*report, open->checked));
        return 0;
    }
    fmt::print(stderr, "{}", problem_text(open->checked.problems));
    fmt::print("{}", haul_text(*report, ranch, metric));
    if (!report->files.empty()) {
        fmt::print("\nWritten to {}:\n", options.folder);
        for (const auto& file : report->files) fmt::print("  {}\n", file.filename().string());
    }
    return 0;
}

}  // namespace

void add_haul(CLI::App& app, Common& common) {
    auto* verb = app.add_subcommand(
        "haul",
        "Compares yards, rigs and habits in time, fuel and money, and says where to stack hay.\n"
        "Example: haylane haul ranch.gpkg --what-if fuel_price_per_gal=5 -o haul");
    auto options = std::make_shared<HaulOptions>();
    verb->add_option("BOOK", options->book, "the ranch book (.gpkg)")->required();
    verb->add_option("-o,--out", options->folder,
                     "folder to write haul.json, haul.csv and haul-report.pdf to");
    verb->add_option("--from", options->from,
                     "the day, for instance 2027-01-11; left out = the day of the hay count");
    verb->add_option("--blocked", options->blocked,
                     "gate or trail that is shut this morning (repeat for more)");
    verb->add_option("--ways-by", options->ways_by,
                     "take the way of least time, fuel or cost; left out = as the book is set")
        ->check(CLI::IsMember({"time", "fuel", "cost"}));
    verb->add_option("--what-if", options->what_ifs,
                     "one more row: days_at_once=2, bales_per_load=1, round_to=load, "
                     "check_trip=no, trail:NAME=gravel, gate:NAME=LON,LAT or a setting, "
                     "fuel_price_per_gal=5; part several with ; (repeat for more rows)");
    verb->add_option("--buy", options->buys,
                     "a machine to weigh: price=45000;end_value=20000;years=8, and of name, rig "
                     "(whose work it does), days (of feeding a year), quote (a custom feeder's, a "
                     "bale), rate_pct, list and hours_now what you know (repeat for more)");
    verb->add_option("--stacks", options->stacks,
                     "most places to stack hay; left out = as many as there are yards")
        ->check(CLI::Range(1, 50));
    verb->add_flag("--json", common.json, "print haul.json instead of the tables");
    verb->add_option("--units", common.units, "us or metric")
        ->check(CLI::IsMember({"us", "metric"}));
    verb->callback([options, &common] { common.exit_code = run_haul(*options, common); });
}

}  // namespace haylane
