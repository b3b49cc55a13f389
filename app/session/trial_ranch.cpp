#include "app/session/trial_ranch.h"

#include "app/papers/trial_report.h"
#include "app/session/make_folder.h"
#include "core/trials/trial_table.h"
#include "gis/book/read_book.h"
#include "gis/book/trial_file.h"
#include "gis/book/trial_store.h"
#include "gis/exchange/write_text_file.h"

#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace haylane {

namespace {

using nlohmann::ordered_json;
namespace fs = std::filesystem;

ordered_json interval_json(const MeanInterval& of) {
    ordered_json json = {{"n", of.n}, {"mean", of.mean}};
    if (of.half_width) {
        json["low"] = of.mean - *of.half_width;
        json["high"] = of.mean + *of.half_width;
    }
    return json;
}

struct Gathered {
    std::vector<RawRow> rows;
    std::vector<BookRow> from_tables;
    Problems problems;
    std::string ranch;  // of a book among the files
};

Result<void> gather(const fs::path& file, Gathered& all) {
    if (file.extension() == ".gpkg") {
        auto book = read_book(file);
        if (!book) return fail(book.error());
        all.ranch = book->raw.name;
        const auto& rows = book->raw.roles["trials"];
        all.rows.insert(all.rows.end(), rows.begin(), rows.end());
        return {};
    }
    auto read = read_trial_file(file);
    if (!read) return fail(read.error());
    const std::vector<RawRow> rows = raw_rows(*read);
    all.rows.insert(all.rows.end(), rows.begin(), rows.end());
    all.from_tables.insert(all.from_tables.end(), read->rows.begin(), read->rows.end());
    all.problems.insert(all.problems.end(), read->problems.begin(), read->problems.end());
    return {};
}

Result<void> keep(const fs::path& path, const std::vector<TrialRun>& runs, Gathered& all,
                  TrialsReport& report) {
    auto book = read_book(path);
    if (!book) return fail(book.error());
    all.ranch = book->raw.name;
    const std::vector<RawRow>& rigs = book->raw.roles["rigs"];
    for (const TrialRun& run : runs) {
        if (std::any_of(rigs.begin(), rigs.end(),
                        [&](const RawRow& rig) { return rig.text("rig") == run.rig; }))
            continue;
        std::string names;
        for (const RawRow& rig : rigs)
            names += (names.empty() ? "'" : ", '") + rig.text("rig") + "'";
        return fail({"unknown_rig",
                     fmt::format("the book has no rig called '{}'; nothing was kept", run.rig),
                     run.where,
                     names.empty() ? "add the rig to the book's table of rigs"
                                   : "write the rig's name as the book does: " + names});
    }
    const auto kept = keep_trials(path, all.from_tables);
    if (!kept) return fail(kept.error());
    report.added = kept->added;
    report.known = kept->known;
    return {};
}

Result<void> write(const TrialsAsked& asked, const TrialReportInput& input, TrialsReport& report) {
    if (const auto made = make_folder(asked.folder); !made) return fail(made.error());
    const fs::path json = asked.folder / "trial.json";
    const fs::path pdf = asked.folder / "trial-report.pdf";
    if (const auto done = write_text_file(json, trial_json(report.trials, asked.words)); !done)
        return fail(done.error());
    if (const auto done = write_trial_report(pdf, input); !done) return fail(done.error());
    report.files = {json, pdf};
    return {};
}

}  // namespace

Result<TrialsReport> trials_of(const TrialsAsked& asked) {
    Gathered all;
    for (const fs::path& file : asked.files)
        if (const auto done = gather(file, all); !done) return fail(done.error());
    TrialTable table = trial_table(all.rows);
    TrialsReport report{.problems = std::move(all.problems)};
    report.problems.insert(report.problems.end(), table.problems.begin(), table.problems.end());
    if (table.runs.empty())
        return fail({"no_trials", "no row tells of a feeding",
                     asked.files.empty() ? "" : asked.files.front().string(),
                     "write a row a feeding: rig, bales, and what was timed, weighed and sampled"});
    report.trials = compare_trials(table.runs);
    if (!asked.keep_in.empty())
        if (const auto done = keep(asked.keep_in, table.runs, all, report); !done)
            return fail(done.error());
    if (!asked.folder.empty()) {
        const TrialReportInput input{report.trials, table.runs, asked.words, all.ranch,
                                     asked.letter};
        if (const auto done = write(asked, input, report); !done) return fail(done.error());
    }
    return report;
}

std::string trial_json(const TrialComparison& trials, const TrialWords& words) {
    ordered_json document = {{"format", "haylane-trial/1"},
                             {"rigs", ordered_json::array()},
                             {"pairs", ordered_json::array()},
                             {"unpaired", trials.unpaired}};
    for (const RigTrials& rig : trials.rigs) {
        ordered_json one = {{"rig", rig.rig}, {"feedings", rig.runs}, {"bales", rig.bales}};
        for (const TrialMeasure m : kTrialMeasures)
            if (rig[m].n > 0) one["means"][std::string(to_string(m))] = interval_json(rig[m]);
        if (const auto worth = lost_worth_per_kg_dm(rig, words.prices)) {
            one["lost_worth_per_kg_dm"] = *worth;
            if (words.season_kg) one["lost_worth_per_season"] = *worth * *words.season_kg;
        }
        document["rigs"].push_back(std::move(one));
    }
    for (const RigPair& pair : trials.pairs) {
        ordered_json one = {{"a", pair.a}, {"b", pair.b}, {"pairs", pair.pairs}};
        for (const PairedTrial& measured : pair.measures) {
            ordered_json difference = interval_json(measured.difference);
            difference["verdict"] = to_string(measured.verdict);
            if (measured.change_ratio) difference["change_ratio"] = *measured.change_ratio;
            one["b_less_a"][std::string(to_string(measured.measure))] = std::move(difference);
        }
        document["pairs"].push_back(std::move(one));
    }
    return document.dump(2, ' ', false, ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace haylane
