#include "app/cli/print.h"
#include "app/cli/verbs.h"
#include "app/session/record_done.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace haylane {

namespace {

struct DoneOptions {
    std::string book;
    std::string date;
    DoneRequest request;
    int bales = 0;
};

int run_done(DoneOptions& options, const Common& common) {
    const auto date = read_day(options.date, "DATE");
    if (!date) {
        print_error(date.error());
        return 2;
    }
    options.request.date = *date;
    if (options.bales > 0) options.request.bales = options.bales;
    if (!options.request.as_planned && !options.request.bales) {
        print_error({"usage", "Say what was fed.", "done",
                     "Add --as-planned, or --bales N with --lot and --pasture."});
        return 2;
    }
    const auto open = open_ranch(options.book);
    if (!open) {
        print_error(open.error());
        return 1;
    }
    const auto report = record_done(*open, options.request);
    if (!report) {
        print_error(report.error());
        return 1;
    }
    if (common.json) {
        const nlohmann::ordered_json document = {{"recorded", report->sentences}};
        fmt::print("{}\n",
                   document.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace));
        return 0;
    }
    for (const std::string& sentence : report->sentences) fmt::print("{}\n", sentence);
    return 0;
}

}  // namespace

void add_done(CLI::App& app, Common& common) {
    auto* verb =
        app.add_subcommand("done",
                           "Records what was fed on a day, and takes the bales off the hay.\n"
                           "Example: haylane done ranch.gpkg 2027-01-11 --as-planned");
    auto options = std::make_shared<DoneOptions>();
    verb->add_option("BOOK", options->book, "the ranch book (.gpkg)")->required();
    verb->add_option("DATE", options->date, "the day, for instance 2027-01-11")->required();
    verb->add_option("--herd", options->request.herd, "the herd; left out = all planned that day");
    auto* as_planned =
        verb->add_flag("--as-planned", options->request.as_planned, "it was fed as the plan said");
    verb->add_option("--bales", options->bales, "bales fed")
        ->check(CLI::Range(1, 1000))
        ->excludes(as_planned);
    verb->add_option("--lot", options->request.lot, "hay lot the bales came from");
    verb->add_option("--pasture", options->request.pasture, "pasture it was fed in");
    verb->add_option("--line", options->request.line, "id of the planned line it was laid on");
    verb->add_flag("--json", common.json, "print results for programs");
    verb->callback([options, &common] { common.exit_code = run_done(*options, common); });
}

}  // namespace haylane
