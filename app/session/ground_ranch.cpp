#include "app/session/ground_ranch.h"

#include "app/papers/ground_report.h"
#include "app/session/find_named.h"
#include "app/session/ground_files.h"
#include "app/session/make_folder.h"
#include "core/season/backcast.h"
#include "gis/exchange/ground_csv.h"
#include "gis/exchange/ground_json.h"
#include "gis/exchange/write_text_file.h"

#include <charconv>
#include <utility>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr int kPictureCells = 400;

Result<Span> asked_span(const Ranch& ranch, const GroundRequest& request) {
    const auto record = all_on_record(ranch);
    if (!record)
        return fail({"no_feedings", "No feeding is on record, so there is nothing to account for.",
                     "feedings",
                     "Record what was fed with haylane done, or give past feedings in "
                     "the folder."});
    if (!request.season.empty()) {
        const auto season = season_named(ranch, request.season);
        if (season) return *season;
        return fail({"unknown_season", fmt::format("{} is not a season.", request.season),
                     "--season",
                     fmt::format("Write it like {}.", season_of(ranch, record->to).name)});
    }
    if (request.from || request.to) {
        const Span span =
            span_between(request.from.value_or(record->from), request.to.value_or(record->to));
        if (span.from <= span.to) return span;
        return fail({"dates_reversed", "The span ends before it begins.", "--from, --to",
                     "Give an earlier --from or a later --to."});
    }
    return request.all ? *record : season_of(ranch, record->to);
}

Result<std::vector<PastureId>> asked_pastures(const Ranch& ranch,
                                              const std::vector<std::string>& names) {
    std::vector<PastureId> ids;
    for (const std::string& name : names) {
        const auto found = find_named(ranch.pastures, name);
        if (!found)
            return fail({"unknown_pasture", fmt::format("There is no pasture called {}.", name),
                         "--pasture", "Write the name as it stands in the book."});
        ids.push_back(PastureId::at(*found));
    }
    return ids;
}

SeasonMeasure shown_measure(const Ranch& ranch, const std::vector<SeasonMeasure>& asked) {
    if (!asked.empty()) return asked.front();
    return season_measure_named(ranch.settings.objective_measure).value_or(SeasonMeasure::p2o5);
}

std::vector<SeasonMeasure> measures_of(const GroundRequest& request) {
    if (!request.measures.empty()) return request.measures;
    return {kSeasonMeasures.begin(), kSeasonMeasures.end()};
}

Raster<float> picture_of_chance(const PastureAccount& account, const PastureMaps& maps) {
    if (!account.bands || account.bands->chance_over.values.empty()) return {};
    const Grid& grid = maps.ground.mask.grid;
    Raster<std::uint8_t> judged(grid);
    Raster<double> chance(grid);
    for (std::size_t c = 0; c < chance.values.size(); ++c) {
        const float value = account.bands->chance_over.values[c];
        judged.values[c] = value >= 0.0F ? 1 : 0;
        // thinned() divides by the cell's area; a chance has none.
        chance.values[c] = static_cast<double>(value) * grid.cell_area_m2();
    }
    return thinned(judged, chance, kPictureCells);
}

GroundPicture picture_of(const PastureAccount& account, const PastureMaps& maps) {
    const Raster<std::uint8_t>& mask = maps.ground.mask;
    GroundPicture picture{account.pasture,
                          thinned(mask, maps.shown_seen, kPictureCells),
                          {},
                          picture_of_chance(account, maps)};
    if (maps.change_seen.grid == mask.grid)
        picture.change_per_m2 = thinned(mask, maps.change_seen, kPictureCells);
    return picture;
}

// One setting as asked, "key=value" in the key's own unit, put into the settings.
Result<void> use_setting(const std::string& text, Settings& settings) {
    const std::size_t equals = text.find('=');
    const auto key = find_setting(text.substr(0, equals));
    double typed = 0.0;
    const std::string number = equals == std::string::npos ? "" : text.substr(equals + 1);
    const auto read = std::from_chars(number.data(), number.data() + number.size(), typed);
    if (!key || number.empty() || read.ec != std::errc() ||
        read.ptr != number.data() + number.size())
        return fail({"unknown_setting", fmt::format("{} is not a setting and its value.", text),
                     "--what-if", "Write it like share_line_pct=50; keys stand in the manual."});
    const double value = (typed + key->offset) * key->to_si;
    if (!(value >= key->info->least_si && value <= key->info->most_si))
        return fail({"number_out_of_range", fmt::format("{} is out of range.", text), "--what-if",
                     "Give a value within the range that the manual states."});
    if (key->info->value != nullptr)
        settings.*(key->info->value) = value;
    else
        settings.*(key->info->optional_value) = value;
    return {};
}

// The ranch as it would have been, and its account.
Result<WhatIf> account_what_if(const AccountContext& recorded, const GroundRequest& request) {
    WhatIf what_if;
    std::vector<std::string> names;
    Ranch other = recorded.ranch;
    for (const std::string& text : request.what_ifs) {
        if (auto used = use_setting(text, other.settings); !used) return fail(used.error());
        names.push_back(text);
    }
    if (request.backcast) {
        const AccountContext context(other, recorded.request);
        auto laid =
            backcast(context, {.seed = request.uncertainty.seed, .threads = request.threads});
        if (!laid) return fail(laid.error());
        what_if.moved = laid->moved;
        what_if.kept = laid->kept;
        other.feedings = std::move(laid->feedings);
        names.insert(names.begin(), "laid by the planner");
    }
    what_if.name = fmt::format("{}", fmt::join(names, "; "));
    const AccountContext context(other, recorded.request);
    auto account = ground_account(
        context, [](const PastureAccount&, const PastureMaps&) { return Result<void>{}; });
    if (!account) return fail(account.error());
    what_if.account = std::move(*account);
    return what_if;
}

Result<void> write_texts(const OpenRanch& open, const GroundAccount& account,
                         const std::filesystem::path& folder, bool metric,
                         const std::pair<const char*, const char*>& names,
                         std::vector<std::filesystem::path>& files) {
    const std::pair<std::string, std::string> texts[] = {
        {names.first, ground_json(account, open.checked, open.crs_operations)},
        {names.second, ground_csv(account, open.checked.ranch, metric)}};
    for (const auto& [name, text] : texts) {
        if (auto written = write_text_file(folder / name, text); !written) return written;
        files.push_back(folder / name);
    }
    return {};
}

Result<AccountRequest> account_request(const Ranch& ranch, const GroundRequest& request) {
    const auto span = asked_span(ranch, request);
    if (!span) return fail(span.error());
    auto pastures = asked_pastures(ranch, request.pastures);
    if (!pastures) return fail(pastures.error());
    return AccountRequest{.span = *span,
                          .shown = shown_measure(ranch, request.measures),
                          .pastures = std::move(*pastures),
                          .uncertainty = request.uncertainty,
                          .threads = request.threads,
                          .progress = request.progress};
}

// The account with its pictures and what-if; `keep` gets each pasture's maps. No files.
Result<GroundReport> account_with_pictures(const AccountContext& context,
                                           const GroundRequest& request, const MapSink& keep) {
    GroundReport report;
    auto account = ground_account(context, [&](const PastureAccount& one, const PastureMaps& maps) {
        report.pictures.push_back(picture_of(one, maps));
        return keep(one, maps);
    });
    if (!account) return fail(account.error());
    report.account = std::move(*account);
    if (request.backcast || !request.what_ifs.empty()) {
        auto what_if = account_what_if(context, request);
        if (!what_if) return fail(what_if.error());
        report.what_if = std::move(*what_if);
    }
    return report;
}

Result<void> write_paper_of(const GroundReport& report, const Ranch& ranch, bool metric,
                            const std::filesystem::path& paper) {
    GroundReportInput input{report.account, ranch, report.pictures, metric};
    if (report.what_if) {
        input.what_if = &report.what_if->account;
        input.what_if_name = report.what_if->name;
    }
    return write_ground_report(paper, input);
}

}  // namespace

Result<GroundReport> account_for_ground(const OpenRanch& open, const GroundRequest& request,
                                        const std::filesystem::path& folder, bool metric) {
    const Ranch& ranch = open.checked.ranch;
    auto asked = account_request(ranch, request);
    if (!asked) return fail(asked.error());
    if (const auto made = make_folder(folder); !made) return fail(made.error());
    const AccountContext context(ranch, std::move(*asked));
    auto files = GroundFiles::begin(open, context, measures_of(request), folder);
    if (!files) return fail(files.error());
    auto report = account_with_pictures(
        context, request,
        [&](const PastureAccount& one, const PastureMaps& maps) { return files->add(one, maps); });
    if (!report) return report;
    auto rasters = files->finish();
    if (!rasters) return fail(rasters.error());
    report->files = std::move(*rasters);
    if (auto written = write_texts(open, report->account, folder, metric,
                                   {"ground.json", "pastures.csv"}, report->files);
        !written)
        return fail(written.error());
    if (report->what_if) {
        if (auto written = write_texts(open, report->what_if->account, folder, metric,
                                       {"what-if.json", "what-if.csv"}, report->files);
            !written)
            return fail(written.error());
    }
    const std::filesystem::path paper = folder / "ground-report.pdf";
    if (auto written = write_paper_of(*report, ranch, metric, paper); !written)
        return fail(written.error());
    report->files.push_back(paper);
    return report;
}

Result<void> write_ground_paper(const Ranch& ranch, const GroundRequest& request,
                                const std::filesystem::path& paper, bool metric) {
    auto asked = account_request(ranch, request);
    if (!asked) return fail(asked.error());
    const AccountContext context(ranch, std::move(*asked));
    const auto report = account_with_pictures(
        context, request, [](const PastureAccount&, const PastureMaps&) { return Result<void>{}; });
    if (!report) return fail(report.error());
    return write_paper_of(*report, ranch, metric, paper);
}

}  // namespace haylane
