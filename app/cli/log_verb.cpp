#include "app/cli/log_json.h"
#include "app/cli/log_text.h"
#include "app/cli/print.h"
#include "app/cli/told_cut.h"
#include "app/cli/verbs.h"
#include "app/session/correct_cut.h"
#include "core/plan/spoken.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace haylane {

namespace {

struct LogOptions {
    std::string book;
    std::vector<std::string> files;
    LogRequest request;
    std::vector<std::string> was;  // as typed
    int bales = 0;
    bool pieces = false;
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

// The proposal with what --was says held to be so.
Result<LogProposal> propose(const OpenRanch& open, const LogOptions& options,
                            const std::vector<ToldCut>& told) {
    auto proposal = propose_log(open, options.request, terminal_progress());
    const LocalDay local = local_day(open);
    for (const ToldCut& one : told) {
        if (!proposal) break;
        const auto place = place_told(one, *proposal, local);
        if (!place) return fail(place.error());
        proposal = correct_cut(open, std::move(*proposal), place->track, place->from_s, place->to_s,
                               one.motion);
    }
    return proposal;
}

// With --accept what is ready is recorded; a log that is in the book already changes nothing and
// is no failure.
int run_proposal(const OpenRanch& open, const LogOptions& options, const std::vector<ToldCut>& told,
                 const Common& common) {
    const auto proposal = propose(open, options, told);
    if (!proposal) return failed(proposal.error());
    const auto speeds = speeds_seen(open, *proposal);
    if (!speeds) return failed(speeds.error());
    LogAccepted accepted;
    const bool ready = any_ready(*proposal);
    if (options.accept && ready) {
        auto done = accept_log(open, *proposal);
        if (!done) return failed(done.error());
        accepted = std::move(*done);
    }
    const bool nothing = options.accept && !ready && proposal->already.empty();
    if (common.json) {
        nlohmann::ordered_json document = log_json(*proposal, *speeds, open);
        document["recorded"] = accepted.sentences;
        print_json(document);
        return nothing ? 1 : 0;
    }
    const bool metric = common.units.empty() ? speaks_metric(open.checked.ranch.settings)
                                             : common.units == "metric";
    fmt::print("{}", log_text(*proposal, *speeds, open, {metric, options.pieces}));
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
    std::vector<ToldCut> told;
    for (const std::string& text : options.was) {
        auto one = parse_told(text);
        if (!one) {
            print_error(one.error());
            return 2;
        }
        told.push_back(std::move(*one));
    }
    for (const std::string& file : options.files) options.request.files.emplace_back(file);
    if (options.bales > 0) options.request.bales = options.bales;
    const auto open = open_ranch(options.book);
    if (!open) return failed(open.error());
    return options.undo ? run_undo(*open, options, common)
                        : run_proposal(*open, options, told, common);
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
    auto* was =
        verb->add_option("--was", options->was,
                         "what the rig did at a time of the day, where the cut is wrong: "
                         "\"07:12-07:20 laying\" (or loading, hauling, returning, stopped), "
                         "with the day before it where tracks of several days are read; "
                         "may be given again")
            ->allow_extra_args(false);
    verb->add_flag("--pieces", options->pieces, "list what each track did when");
    auto* accept = verb->add_flag("--accept", options->accept, "record what is proposed");
    verb->add_flag("--undo", options->undo,
                   "take out again what was accepted last, or with the FILE")
        ->excludes(accept)
        ->excludes(was);
    verb->add_flag("--json", common.json, "print results for programs");
    verb->add_option("--units", common.units, "us or metric; left out = as the book is set")
        ->check(CLI::IsMember({"us", "metric"}));
    verb->callback([options, &common] { common.exit_code = run_log(*options, common); });
}

}  // namespace haylane
