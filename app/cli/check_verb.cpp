#include "app/cli/print.h"
#include "app/cli/verbs.h"
#include "app/papers/words.h"
#include "app/session/open_ranch.h"
#include "core/plan/spoken.h"
#include "gis/book/salvage_book.h"
#include "gis/exchange/problem_json.h"
#include "gis/gdal/gdal_session.h"

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

// "feedings: 180 rows saved, up to 3 lost"
std::string saved_text(const SalvagedTable& table) {
    if (table.all_lost) return fmt::format("{}: lost, nothing of it can be read", table.table);
    std::string text = fmt::format("{}: {} rows saved", table.table, table.saved);
    if (table.without_shape > 0)
        text += fmt::format(", {} of them without their shape on the map", table.without_shape);
    if (table.lost > 0) text += fmt::format(", up to {} lost", table.lost);
    return text;
}

void print_saved(const SalvageReport& report, const std::string& fresh, bool json) {
    if (json) {
        nlohmann::ordered_json tables = nlohmann::ordered_json::array();
        for (const SalvagedTable& table : report.tables)
            tables.push_back({{"table", table.table},
                              {"saved", table.saved},
                              {"without_shape", table.without_shape},
                              {"lost", table.lost},
                              {"all_lost", table.all_lost}});
        const nlohmann::ordered_json document = {{"book", fresh},
                                                 {"complete", report.complete()},
                                                 {"tables", tables},
                                                 {"left_out", report.left_out},
                                                 {"frame_made_anew", report.frame_made_anew}};
        fmt::print("{}\n",
                   document.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace));
        return;
    }
    for (const SalvagedTable& table : report.tables) fmt::print("{}\n", saved_text(table));
    for (const std::string& table : report.left_out)
        fmt::print("{}: left out, it is no table of a ranch book\n", shown(table));
    if (report.frame_made_anew)
        fmt::print("The ranch's own metres were lost and measured again from its pastures.\n");
    fmt::print("{}\nMade {}. Next: haylane check {}\n",
               report.complete() ? "Every row could be read."
                                 : "Compare with a dated copy of the book what was lost.",
               fresh, fresh);
}

int run_repair(const std::string& book, const std::string& fresh, bool json) {
    const auto report = salvage_book(book, fresh);
    if (!report) {
        print_error(report.error());
        return 1;
    }
    print_saved(*report, fresh, json);
    return 0;
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
    auto fresh = std::make_shared<std::string>();
    verb->add_option("BOOK", *book, "the ranch book (.gpkg)")->required();
    verb->add_option("--repair", *fresh,
                     "save what can be read of a damaged book into this new one (.gpkg); the "
                     "damaged one is left as it is");
    verb->add_flag("--json", common.json, "print results for programs");
    verb->add_option("--units", common.units, "us or metric")
        ->check(CLI::IsMember({"us", "metric"}));
    verb->callback([book, fresh, &common] {
        common.exit_code =
            fresh->empty() ? run_check(*book, common) : run_repair(*book, *fresh, common.json);
    });
}

}  // namespace haylane
