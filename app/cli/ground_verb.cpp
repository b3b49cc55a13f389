#include "app/cli/ground_text.h"
#include "app/cli/print.h"
#include "app/cli/qt_messages.h"
#include "app/cli/verbs.h"
#include "app/papers/gui.h"
#include "app/session/ground_ranch.h"
#include "core/base/units.h"
#include "core/plan/spoken.h"
#include "core/season/fertilizer_worth.h"
#include "gis/exchange/ground_json.h"

#include <fmt/format.h>

namespace haylane {

namespace {

// Prices of products as bought, a short ton (a tonne with metric units).
struct ProductPrices {
    double urea = 0.0;
    double dap = 0.0;
    double potash = 0.0;
};

struct GroundOptions {
    std::string book;
    std::string folder;
    std::string season;
    std::string from;
    std::string to;
    bool all = false;
    std::vector<std::string> pastures;
    std::vector<std::string> measures;
    ProductPrices prices;
    bool backcast = false;
    std::vector<std::string> what_ifs;
    int draws = 200;
    std::uint64_t seed = 1;
    int threads = 0;
};

Result<GroundRequest> request_of(const GroundOptions& options) {
    GroundRequest request{.season = options.season,
                          .all = options.all,
                          .pastures = options.pastures,
                          .uncertainty = {.draws = options.draws, .seed = options.seed},
                          .backcast = options.backcast,
                          .what_ifs = options.what_ifs,
                          .threads = options.threads,
                          .progress = terminal_progress()};
    for (const auto& [text, option, day] :
         {std::tuple{&options.from, "--from", &request.from}, {&options.to, "--to", &request.to}}) {
        if (text->empty()) continue;
        const auto read = read_day(*text, option);
        if (!read) return fail(read.error());
        *day = *read;
    }
    for (const std::string& word : options.measures)
        request.measures.push_back(*season_measure_named(word));  // the parser checked it
    return request;
}

// Prices given here win over the book's.
void use_prices(const ProductPrices& prices, bool metric, Settings& settings) {
    const double ton = metric ? units::kKgPerTonne : units::kKgPerShortTon;
    if (prices.urea > 0.0) settings.price_n_per_kg = nutrient_price_per_kg(prices.urea / ton, 0.46);
    if (prices.dap > 0.0)
        settings.price_p2o5_per_kg = second_price_per_kg(
            prices.dap / ton, 0.18, settings.price_n_per_kg.value_or(0.0), 0.46);
    if (prices.potash > 0.0)
        settings.price_k2o_per_kg = nutrient_price_per_kg(prices.potash / ton, 0.60);
}

int fail_with(const Error& error) {
    print_error(error);
    return error.code == "usage" || error.code == "bad_date" || error.code == "dates_reversed" ||
                   error.code == "unknown_season" || error.code == "unknown_setting" ||
                   error.code == "number_out_of_range"
               ? 2
               : 1;
}

int run_ground(const GroundOptions& options, const Common& common) {
    const auto request = request_of(options);
    if (!request) return fail_with(request.error());
    auto open = open_ranch(options.book);
    if (!open) return fail_with(open.error());
    Settings& settings = open->checked.ranch.settings;
    if (!common.units.empty()) settings.units = common.units;
    const bool metric = speaks_metric(settings);
    use_prices(options.prices, metric, settings);
    leave_out_runtime_dir_note();
    const Gui gui;
    const auto report = account_for_ground(*open, *request, options.folder, metric);
    if (!report) return fail_with(report.error());
    if (common.json) {
        fmt::print("{}", ground_json(report->account, open->checked, open->crs_operations));
        return 0;
    }
    fmt::print(stderr, "{}", problem_text(open->checked.problems));
    fmt::print("{}", ground_text(report->account, open->checked.ranch, metric));
    if (report->what_if) {
        fmt::print("{}", what_if_text(report->account, report->what_if->account,
                                      report->what_if->name, open->checked.ranch, metric));
        if (options.backcast)
            fmt::print(
                "  {} feedings laid anew, {} left as they were (no line, no rig, or no room).\n",
                report->what_if->moved, report->what_if->kept);
    }
    fmt::print("\nWritten to {}:\n", options.folder);
    for (const auto& file : report->files) fmt::print("  {}\n", file.filename().string());
    return 0;
}

}  // namespace

void add_ground(CLI::App& app, Common& common) {
    auto* verb =
        app.add_subcommand("ground",
                           "Accounts for what feeding left on each acre: maps, tables, a report.\n"
                           "Example: haylane ground ranch.gpkg --season 2026-27 -o ground");
    auto options = std::make_shared<GroundOptions>();
    verb->add_option("BOOK", options->book, "the ranch book (.gpkg)")->required();
    verb->add_option("-o,--out", options->folder, "folder to write to")->required();
    auto* season = verb->add_option("--season", options->season,
                                    "a feeding season, for instance 2026-27; left out = the last");
    auto* from =
        verb->add_option("--from", options->from, "first day that counts")->excludes(season);
    auto* to = verb->add_option("--to", options->to, "last day that counts")->excludes(season);
    verb->add_flag("--all", options->all, "everything on record")
        ->excludes(season)
        ->excludes(from)
        ->excludes(to);
    verb->add_option("--pasture", options->pastures, "only this pasture (repeat for more)");
    verb->add_option("--measure", options->measures,
                     "raster to write, the first is shown in the report (repeat for more); left "
                     "out = all")
        ->check(CLI::IsMember({"n", "p2o5", "k2o", "residue", "hay", "animal_days", "bales"}));
    verb->add_option("--urea", options->prices.urea, "price of urea 46-0-0 a ton")
        ->check(CLI::PositiveNumber);
    verb->add_option("--dap", options->prices.dap, "price of 18-46-0 a ton")
        ->check(CLI::PositiveNumber);
    verb->add_option("--potash", options->prices.potash, "price of 0-0-60 a ton")
        ->check(CLI::PositiveNumber);
    verb->add_flag("--backcast", options->backcast,
                   "also: the same bales and days laid by the planner, beside what was done");
    verb->add_option(
        "--what-if", options->what_ifs,
        "KEY=VALUE: also: with another setting, for instance share_line_pct=50 (repeat "
        "for more)");
    verb->add_option("--draws", options->draws, "draws of the uncertain numbers; 0 = none")
        ->check(CLI::Range(0, 10000))
        ->capture_default_str();
    verb->add_option("--seed", options->seed, "seed of the draws")->capture_default_str();
    verb->add_option("--threads", options->threads,
                     "threads to use; 0 = all. The result does not depend on it")
        ->check(CLI::Range(0, 256))
        ->capture_default_str();
    verb->add_flag("--json", common.json, "print ground.json instead of the table");
    verb->add_option("--units", common.units, "us or metric")
        ->check(CLI::IsMember({"us", "metric"}));
    verb->callback([options, &common] { common.exit_code = run_ground(*options, common); });
}

}  // namespace haylane
