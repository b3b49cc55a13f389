#include "app/cli/log_text.h"
#include "app/cli/print.h"
#include "app/cli/verbs.h"
#include "core/plan/spoken.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace haylane {

namespace {

struct LogOptions {
    std::string book;
    std::vector<std::string> files;
    LogRequest request;
    int bales = 0;
    bool accept = false;
    bool undo = false;
};

int failed(const Error& error) {
    print_error(error);
    return 1;
}

void print_json(const nlohmann::ordered_json& document) {
    fmt::print("{}\n",
               document.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace));
}

int run_undo(const OpenRanch& open, const LogOptions& options, const Common& common) {
    const auto undone = undo_log(open, options.request.files);
    if (!undone) return failed(undone.error());
    if (common.json) {
        print_json({{"undone", *undone}});
    } else {
        fmt::print("{}\n", *undone);
    }
    return 0;
}

bool any_ready(const LogProposal& proposal) {
    for (const ProposedFeeding& feeding : proposal.feedings)
        if (feeding.not_ready.empty()) return true;
    return false;
}

// With --accept what is ready is recorded; a log that is in the book already changes nothing and
// is no failure.
int run_proposal(const OpenRanch& open, const LogOptions& options, const Common& common) {
    const Ranch& ranch = open.checked.ranch;
    const auto proposal = propose_log(open, options.request, terminal_progress());
    if (!proposal) return failed(proposal.error());
    LogAccepted accepted;
    const bool ready = any_ready(*proposal);
    if (options.accept && ready) {
        auto done = accept_log(open, *proposal);
        if (!done) return failed(done.error());
        accepted = std::move(*done);
    }
    const bool nothing = options.accept && !ready && proposal->already.empty();
    if (common.json) {
        nlohmann::ordered_json document = log_json(*proposal, ranch);
        document["recorded"] = accepted.sentences;
        print_json(document);
        return nothing ? 1 : 0;
    }
    const bool metric =
        common.units.empty() ? speaks_metric(ranch.settings) : common.units == "metric";
    fmt::print("{}", log_text(*proposal, ranch, metric));
    if (!proposal->problems.empty()) fmt::print(stderr, "{}", problem_text(proposal->problems));
    if (!accepted.sentences.empty()) fmt::print("\n");
    for (const std::string& sentence : accepted.sentences) fmt::print("{}\n", sentence);
    if (!options.accept && ready)
        fmt::print("\nNothing is recorded yet. If this is right, add --accept.\n");
    if (nothing) fmt::print(stderr, "Nothing was recorded.\n");
    return nothing ? 1 : 0;
}

int run_log(LogOptions& options, const Common& common) {
    if (options.files.empty() && !options.undo) {
        print_error({"usage", "Say which track files to read.", "log",
                     "Give files, or the folder they are in; or --undo."});
        return 2;
    }
    for (const std::string& file : options.files) options.request.files.emplace_back(file);
    if (options.bales > 0) options.request.bales = options.bales;
    const auto open = open_ranch(options.book);
    if (!open) return failed(open.error());
    return options.undo ? run_undo(*open, options, common) : run_proposal(*open, options, common);
}

}  // namespace

void add_log(CLI::App& app, Common& common) {
    auto* verb = app.add_subcommand(
        "log",
        "Reads where the rig drove, from GPS tracks, and proposes what was fed.\n"
        "Nothing enters the book without --accept.\n"
        "Example: haylane log ranch.gpkg tracks/2027-01-11.gpx --accept");
    auto options = std::make_shared<LogOptions>();
    verb->add_option("BOOK", options->book, "the ranch book (.gpkg)")->required();
    verb->add_option("FILE", options->files,
                     "GPX, KML, GeoJSON or CSV files with times, or folders of them");
    verb->add_option("--herd", options->request.herd, "the herd that was fed");
    verb->add_option("--rig", options->request.rig, "the rig that was driven");
    verb->add_option("--lot", options->request.lot, "hay lot the bales came from");
    verb->add_option("--bales", options->bales, "bales fed, in all")->check(CLI::Range(1, 1000));
    auto* accept = verb->add_flag("--accept", options->accept, "record what is proposed");
    verb->add_flag("--undo", options->undo,
                   "take out again what was accepted last, or with the FILE")
        ->excludes(accept);
    verb->add_flag("--json", common.json, "print results for programs");
    verb->add_option("--units", common.units, "us or metric; left out = as the book is set")
        ->check(CLI::IsMember({"us", "metric"}));
    verb->callback([options, &common] { common.exit_code = run_log(*options, common); });
}

}  // namespace haylane
