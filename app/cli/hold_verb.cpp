// The user's hand: hold, close and release.
#include "app/cli/print.h"
#include "app/cli/verbs.h"
#include "app/session/hold.h"

#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace haylane {

namespace {

using Json = nlohmann::ordered_json;

struct HoldOptions {
    std::string book;
    std::string date;
    HoldRequest request;
    std::string line_file;
    bool list = false;
};

struct CloseOptions {
    std::string book;
    std::string from;
    std::string to;
    std::string file;
    CloseRequest request;
};

struct ReleaseOptions {
    std::string book;
    std::vector<int> numbers;
    bool all = false;
};

int refuse(const Error& error) {
    print_error(error);
    return 1;
}

int misuse(const Error& error) {
    print_error(error);
    return 2;
}

void print_json(const Json& document) {
    fmt::print("{}\n", document.dump(2, ' ', false, Json::error_handler_t::replace));
}

int tell(const Result<std::vector<std::string>>& sentences, const Common& common) {
    if (!sentences)
        return sentences.error().code == "usage" ? misuse(sentences.error())
                                                 : refuse(sentences.error());
    if (common.json) {
        print_json({{"done", *sentences}});
        return 0;
    }
    for (const std::string& sentence : *sentences) fmt::print("{}\n", sentence);
    return 0;
}

Json hold_json(const StoredHold& hold) {
    Json bales = Json::array();
    for (const LotBales& draw : hold.bales)
        bales.push_back({{"lot", draw.lot}, {"bales", draw.bales}});
    return {{"number", hold.number},
            {"kind", std::string(to_string(hold.kind))},
            {"name", hold.name},
            {"herd", hold.herd},
            {"date", format_day(hold.date)},
            {"date_to", format_day(hold.date_to)},
            {"pasture", hold.pasture},
            {"rig", hold.rig},
            {"bales", bales}};
}

int run_list(const std::string& book, const Common& common) {
    const auto open = open_ranch(book);  // so that what is no ranch book is said
    if (!open) return refuse(open.error());
    const auto holds = stored_holds(book);
    if (!holds) return refuse(holds.error());
    if (common.json) {
        Json list = Json::array();
        for (const StoredHold& hold : *holds) list.push_back(hold_json(hold));
        print_json({{"held", list}});
        return 0;
    }
    if (holds->empty()) fmt::print("Nothing is held or closed.\n");
    for (const StoredHold& hold : *holds) {
        fmt::print("{:>4}  {} {}\n", hold.number,
                   hold.kind == HoldKind::forbid ? "closed" : "held  ", describe_hold(hold));
    }
    return 0;
}

int run_hold(HoldOptions& options, const Common& common) {
    if (options.list) return run_list(options.book, common);
    const auto date = read_day(options.date, "DATE");
    if (!date) return misuse(date.error());
    const auto open = open_ranch(options.book);
    if (!open) return refuse(open.error());
    options.request.date = *date;
    options.request.drawn = options.line_file;
    return tell(hold_day(*open, options.request), common);
}

int run_close(CloseOptions& options, const Common& common) {
    const auto from = read_day(options.from, "--from");
    if (!from) return misuse(from.error());
    const auto to = options.to.empty() ? from : read_day(options.to, "--to");
    if (!to) return misuse(to.error());
    const auto open = open_ranch(options.book);
    if (!open) return refuse(open.error());
    options.request.drawn = options.file;
    options.request.from = *from;
    options.request.to = *to;
    return tell(close_ground(*open, options.request), common);
}

int run_release(ReleaseOptions& options, const Common& common) {
    if (options.all != options.numbers.empty())
        return misuse({"usage", "Say what to let go.", "release",
                       "Give the numbers that haylane hold --list shows, or --all."});
    const auto open = open_ranch(options.book);
    if (!open) return refuse(open.error());
    const auto holds = stored_holds(options.book);
    if (!holds) return refuse(holds.error());
    std::vector<std::string> sentences;
    for (const StoredHold& hold : *holds) {
        if (options.all) options.numbers.push_back(hold.number);
        if (std::find(options.numbers.begin(), options.numbers.end(), hold.number) !=
            options.numbers.end())
            sentences.push_back(fmt::format("Let go of {}.", describe_hold(hold)));
    }
    if (options.numbers.empty()) sentences.emplace_back("Nothing is held or closed.");
    if (const auto released = release_holds(options.book, options.numbers); !released)
        return refuse(released.error());
    return tell(sentences, common);
}

}  // namespace

void add_hold(CLI::App& app, Common& common) {
    auto* verb = app.add_subcommand(
        "hold",
        "Holds what was planned for a day, so that the next plan leaves it as it is and plans\n"
        "round it; or a line of your own. The numbers that --list shows are for haylane release.\n"
        "Example: haylane hold ranch.gpkg 2027-01-11 --herd \"Main cows\"");
    auto options = std::make_shared<HoldOptions>();
    verb->add_option("BOOK", options->book, "the ranch book (.gpkg)")->required();
    auto* date = verb->add_option("DATE", options->date, "the day, for instance 2027-01-11");
    verb->add_option("--herd", options->request.herd, "the herd; left out = all planned that day");
    auto* line = verb->add_option(
        "--line", options->line_file,
        "hold the line alone: bales and rig are planned anew. With a file (GeoJSON, GPX, KML ...) "
        "the line or lines drawn in it, each in the direction it is driven");
    line->expected(0, 1);
    auto* list = verb->add_flag("--list", options->list, "list what is held and what is closed");
    list->excludes(date)->excludes(line);
    verb->add_flag("--json", common.json, "print results for programs");
    verb->callback([options, line, &common] {
        options->request.line_only = line->count() > 0;
        common.exit_code = run_hold(*options, common);
    });
}

void add_close(CLI::App& app, Common& common) {
    auto* verb = app.add_subcommand(
        "close",
        "Closes ground to hay for some days: no line is planned on it. It may be driven over.\n"
        "Example: haylane close ranch.gpkg wet.geojson --from 2027-01-11 --to 2027-01-14");
    auto options = std::make_shared<CloseOptions>();
    verb->add_option("BOOK", options->book, "the ranch book (.gpkg)")->required();
    verb->add_option("FILE", options->file, "the ground, drawn as an area (GeoJSON, KML ...)")
        ->required();
    verb->add_option("--from", options->from, "first day, for instance 2027-01-11")->required();
    verb->add_option("--to", options->to, "last day; left out = the first day alone");
    verb->add_option("--pasture", options->request.pasture,
                     "only in this pasture; left out = in every one");
    verb->add_option("--name", options->request.name, "what it is called; left out = the file's");
    verb->add_flag("--json", common.json, "print results for programs");
    verb->callback([options, &common] { common.exit_code = run_close(*options, common); });
}

void add_release(CLI::App& app, Common& common) {
    auto* verb = app.add_subcommand("release",
                                    "Lets go of what is held, and opens ground that is closed.\n"
                                    "Example: haylane release ranch.gpkg 3");
    auto options = std::make_shared<ReleaseOptions>();
    verb->add_option("BOOK", options->book, "the ranch book (.gpkg)")->required();
    verb->add_option("NUMBER", options->numbers, "numbers that haylane hold --list shows");
    verb->add_flag("--all", options->all, "all of it");
    verb->add_flag("--json", common.json, "print results for programs");
    verb->callback([options, &common] { common.exit_code = run_release(*options, common); });
}

}  // namespace haylane
