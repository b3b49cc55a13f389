#include "app/session/plan_ranch.h"

#include "app/papers/week_sheet.h"
#include "app/session/book_hand.h"
#include "app/session/find_named.h"
#include "app/session/kept_plans.h"
#include "app/session/make_folder.h"
#include "core/plan/hay_mix.h"
#include "gis/book/plan_store.h"
#include "gis/exchange/lines_geojson.h"
#include "gis/exchange/lines_gpx.h"
#include "gis/exchange/plan_json.h"
#include "gis/exchange/write_text_file.h"
#include "gis/raster/write_ground.h"

#include <algorithm>

#include <fmt/format.h>

namespace haylane {

namespace {

using FeedingShape = decltype(FeedingRecord::shape);

// The lots of a planned day that the ranch still has.
std::vector<LotPick> picks_of(const Ranch& ranch, const PlannedDay& day) {
    std::vector<LotPick> picks;
    for (const auto& draw : day.bales) {
        if (const auto lot = find_named(ranch.lots, draw.lot))
            picks.push_back({LotId::at(*lot), draw.count});
    }
    return picks;
}

FeedingShape shape_of(const KeptDay& day, const Frame& frame) {
    std::vector<Point> places;
    for (const LonLat place : day.planned.places) places.push_back(frame.to_frame(place));
    if (!places.empty()) return places;
    MultiPolyline paths;
    for (const FedLine& line : day.lines) paths.push_back(line.path);
    if (!paths.empty()) return paths;
    return {};
}

// A planned day as if it had been fed; takes its bales off the ranch's hay.
FeedingRecord assumed_feeding(OpenRanch& open, const KeptDay& day, HerdId herd, PastureId pasture) {
    Ranch& ranch = open.checked.ranch;
    const std::vector<LotPick> picks = picks_of(ranch, day.planned);
    const HayMix mix = mix_of(ranch, picks);
    FeedingRecord record{.from = day.planned.date,
                         .to = day.planned.date,
                         .herd = herd,
                         .pasture = pasture,
                         .bales = static_cast<double>(mix.bales),
                         .bale_dm_kg = mix.bales > 0 ? mix.dm_kg / mix.bales : 0.0,
                         .quality = mix.quality,
                         .source = Source::assumed,
                         .where = fmt::format("plan of {}", format_day(day.planned.date))};
    for (const LotPick& pick : picks) {
        HayLot& lot = ranch.lots[pick.lot.index()];
        lot.bales = std::max(0, lot.bales - pick.count);
        record.lot = pick.lot;
    }
    if (const auto rig = find_named(ranch.rigs, day.planned.rig)) {
        record.rig = RigId::at(*rig);
        record.waste_ratio = ranch.rigs[*rig].waste_ratio;
    }
    if (!day.planned.places.empty()) record.waste_ratio = ranch.settings.waste_ring_ratio;
    record.intake_kg_per_head_day = ranch[herd].weight_kg * ranch.settings.intake_dry_ratio;
    record.shape = shape_of(day, open.frame);
    return record;
}

void assume_past_days(OpenRanch& open, const std::vector<KeptDay>& days, sys_days from) {
    Ranch& ranch = open.checked.ranch;
    std::vector<std::string> listed;
    for (const KeptDay& day : days) {
        if (day.planned.date >= from) continue;
        const auto herd = find_named(ranch.herds, day.planned.herd);
        const auto pasture = find_named(ranch.pastures, day.planned.pasture);
        if (!herd || !pasture || on_record(ranch, HerdId::at(*herd), day.planned.date)) continue;
        ranch.feedings.push_back(
            assumed_feeding(open, day, HerdId::at(*herd), PastureId::at(*pasture)));
        listed.push_back(fmt::format("{} {}", format_day(day.planned.date), day.planned.herd));
    }
    if (listed.empty()) return;
    open.checked.problems.push_back(
        {"assumed_fed", Severity::info, fmt::format("{}", fmt::join(listed, ", ")),
         fmt::format("{} planned feedings were never confirmed and count as fed as planned.",
                     listed.size()),
         "Record them with haylane done, as planned or as they were."});
}

Result<void> write_ground(const OpenRanch& open, const PlanResult& result,
                          const std::filesystem::path& file) {
    std::vector<GroundLayer> layers;
    for (const PastureLoad& load : result.loads) layers.push_back({&load.ground, &load.after()});
    return write_ground_tif(file, layers, open.frame);
}

StoredPlan to_store(const OpenRanch& open, const PlanResult& result, std::string json) {
    const Ranch& ranch = open.checked.ranch;
    StoredPlan stored{.from = result.plan.from, .json = std::move(json)};
    for (const PlannedFeeding& f : result.plan.feedings) {
        for (const PlannedLine& line : f.lines)
            stored.lines.push_back({line.id, f.date, ranch[f.herd].name, ranch[f.pasture].name,
                                    ranch[f.rig].name, line.path});
    }
    return stored;
}

template <class T>
void append(std::vector<T>& all, const std::vector<T>& more) {
    all.insert(all.end(), more.begin(), more.end());
}

}  // namespace

Result<KeptPlan> keep_ranch_plan(OpenRanch& open, const PlanRequest& request) {
    const auto days = kept_days(open.book);
    if (!days) return fail(days.error());
    assume_past_days(open, *days, request.from);
    const auto holds = stored_holds(open.book);
    if (!holds) return fail(holds.error());
    BookHand book = book_hand(open.checked.ranch, *holds);
    append(open.checked.problems, book.problems);
    PlanRequest with_book = request;
    with_book.hand = std::move(book.hand);
    append(with_book.hand.held, request.hand.held);
    append(with_book.hand.forbidden, request.hand.forbidden);
    append(with_book.hand.another, request.hand.another);
    return keep_plan(open.checked, with_book);
}

Result<PlanResult> plan_ranch(OpenRanch& open, const PlanRequest& request) {
    auto kept = keep_ranch_plan(open, request);
    if (!kept) return fail(kept.error());
    return std::move(kept->result);
}

Result<std::vector<std::filesystem::path>> write_plan(const OpenRanch& open,
                                                      const PlanResult& result,
                                                      const std::filesystem::path& folder,
                                                      bool metric) {
    if (const auto made = make_folder(folder); !made) return fail(made.error());
    const Ranch& ranch = open.checked.ranch;
    const Plan& plan = result.plan;
    const std::string json = plan_json(plan, ranch, open.frame, open.crs_operations);
    const std::vector<std::pair<const char*, std::string>> texts{
        {"plan.json", json},
        {"lines.geojson", lines_geojson(plan, ranch, open.frame)},
        {"routes.geojson", routes_geojson(plan, ranch, open.frame)},
        {"lines.gpx", lines_gpx(plan, ranch, open.frame)}};
    std::vector<std::filesystem::path> files;
    for (const auto& [name, text] : texts) {
        if (auto written = write_text_file(folder / name, text); !written)
            return fail(written.error());
        files.push_back(folder / name);
    }
    if (auto written = write_ground(open, result, folder / "ground-after.tif"); !written)
        return fail(written.error());
    if (auto written =
            write_week_sheet(folder / "week-sheet.pdf", result, ranch, {.metric = metric});
        !written)
        return fail(written.error());
    files.push_back(folder / "ground-after.tif");
    files.push_back(folder / "week-sheet.pdf");
    if (auto saved = save_plan(open.book, to_store(open, result, json)); !saved)
        return fail(saved.error());
    return files;
}

Result<void> keep_in_book(const OpenRanch& open, const PlanResult& result) {
    return save_plan(open.book, to_store(open, result,
                                         plan_json(result.plan, open.checked.ranch, open.frame,
                                                   open.crs_operations)));
}

}  // namespace haylane
