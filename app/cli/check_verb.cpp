#include "app/cli/print.h"
#include "app/cli/verbs.h"
#include "app/papers/words.h"
#include "app/session/open_ranch.h"
#include "core/plan/spoken.h"
#include "gis/exchange/problem_json.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace haylane {

namespace {

void print_json(const OpenRanch& open) {
    const nlohmann::ordered_json document = {
        {"ranch", open.checked.ranch.name},
        {"problems", problems_json(open.checked.problems)},
        {"switched_off", switched_off_json(open.checked.switched_off)}};
    fmt::print("{}\n",
               document.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace));
}

int run_check(const std::string& book, const Common& common) {
    auto open = open_ranch(book);
    if (!open) {
        print_error(open.error());
        return 1;
    }
    if (common.json) {
        print_json(*open);
        return 0;
    }
    Ranch& ranch = open->checked.ranch;
    if (!common.units.empty()) ranch.settings.units = common.units;
    double area = 0.0;
    for (const Pasture& pasture : ranch.pastures) area += area_m2(pasture.shape);
    fmt::print(
        "{}: {} pastures, {}; {} herds, {} rigs, {} yards, {} hay lots, {} feedings on record\n",
        ranch.name, ranch.pastures.size(), words::area(area, speaks_metric(ranch.settings)),
        ranch.herds.size(), ranch.rigs.size(), ranch.yards.size(), ranch.lots.size(),
        ranch.feedings.size());
    const std::string found = problem_text(open->checked.problems);
    fmt::print("{}{}", found.empty() ? "Nothing odd found.\n" : found,
               switched_off_text(open->checked.switched_off));
    return 0;
}

}  // namespace

void add_check(CLI::App& app, Common& common) {
    auto* verb = app.add_subcommand(
        "check",
        "Says what is missing, odd or unsafe in a book, and what that switches off.\n"
        "Example: haylane check ranch.gpkg");
    auto book = std::make_shared<std::string>();
    verb->add_option("BOOK", *book, "the ranch book (.gpkg)")->required();
    verb->add_flag("--json", common.json, "print results for programs");
    verb->add_option("--units", common.units, "us or metric")
        ->check(CLI::IsMember({"us", "metric"}));
    verb->callback([book, &common] { common.exit_code = run_check(*book, common); });
}

}  // namespace haylane
