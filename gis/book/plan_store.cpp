#include "gis/book/plan_store.h"

#include "gis/book/book_sql.h"
#include "gis/crs/to_lonlat.h"
#include "gis/vector/shape_from_ogr.h"

#include <map>

#include <fmt/format.h>
#include <ogrsf_frmts.h>

namespace haylane {

namespace {

std::string insert_line(const StoredLine& line, const std::string& plan, const Frame& frame) {
    return fmt::format(
        "INSERT INTO plan_lines (uuid, plan_uuid, line_id, date, herd, pasture, rig, geom) VALUES "
        "({}, {}, {}, {}, {}, {}, {}, {})",
        sql_text(new_uuid()), sql_text(plan), sql_text(line.id), sql_text(format_day(line.date)),
        sql_text(line.herd), sql_text(line.pasture), sql_text(line.rig),
        sql_lines({in_degrees(line.path, frame)}));
}

StoredLine stored_line(const OGRFeature& feature, const ToLonLat& door, const Frame& frame) {
    StoredLine line;
    line.id = feature.GetFieldAsString("line_id");
    line.date = parse_day(feature.GetFieldAsString("date")).value_or(sys_days{});
    line.herd = feature.GetFieldAsString("herd");
    line.pasture = feature.GetFieldAsString("pasture");
    line.rig = feature.GetFieldAsString("rig");
    const OGRGeometry* geometry = feature.GetGeometryRef();
    if (geometry == nullptr) return line;
    const Result<ShapeRead> read = shape_from_ogr(*geometry, door);
    if (!read || read->shape.lines.empty()) return line;
    for (const LonLat place : read->shape.lines.front()) line.path.push_back(frame.to_frame(place));
    return line;
}

}  // namespace

Result<void> save_plan(const std::filesystem::path& book, const StoredPlan& plan) {
    Result<DatasetPtr> opened = open_book_for_update(book);
    if (!opened) return fail(opened.error());
    const Result<Frame> frame = book_frame(**opened);
    if (!frame) return fail(frame.error());
    return in_transaction(**opened, [&]() -> Result<void> {
        const std::string uuid = new_uuid();
        const std::string made_at =
            plan.made_at.empty() ? "strftime('%Y-%m-%dT%H:%M:%SZ','now')" : sql_text(plan.made_at);
        Result<void> done = run_sql(
            **opened, fmt::format("INSERT INTO plans (uuid, from_date, made_at, json) VALUES "
                                  "({}, {}, {}, {})",
                                  sql_text(uuid), sql_text(format_day(plan.from)), made_at,
                                  sql_text(plan.json)));
        for (const StoredLine& line : plan.lines) {
            if (done) done = run_sql(**opened, insert_line(line, uuid, *frame));
        }
        return done;
    });
}

Result<std::vector<StoredPlan>> stored_plans(const std::filesystem::path& book) {
    Result<DatasetPtr> opened = open_book_to_read(book);
    if (!opened) return fail(opened.error());
    GDALDataset& dataset = **opened;
    OGRLayer* plan_layer = dataset.GetLayerByName("plans");
    OGRLayer* line_layer = dataset.GetLayerByName("plan_lines");
    if (plan_layer == nullptr || line_layer == nullptr) {
        return fail({"not_a_book", fmt::format("{} keeps no plans", book.filename().string()),
                     book.string(), "make a book with: haylane new BOOK.gpkg --from FOLDER"});
    }
    const Result<Frame> frame = book_frame(dataset);
    if (!frame) return fail(frame.error());
    const Result<ToLonLat> door = ToLonLat::from_crs("EPSG:4326");
    if (!door) return fail(door.error());
    std::vector<StoredPlan> plans;
    std::map<std::string, std::size_t> place;  // uuid -> index
    while (const OGRFeatureUniquePtr feature{plan_layer->GetNextFeature()}) {
        place[feature->GetFieldAsString("uuid")] = plans.size();
        plans.push_back({parse_day(feature->GetFieldAsString("from_date")).value_or(sys_days{}),
                         feature->GetFieldAsString("made_at"),
                         feature->GetFieldAsString("json"),
                         {}});
    }
    while (const OGRFeatureUniquePtr feature{line_layer->GetNextFeature()}) {
        const auto found = place.find(feature->GetFieldAsString("plan_uuid"));
        if (found == place.end()) continue;
        plans[found->second].lines.push_back(stored_line(*feature, *door, *frame));
    }
    return plans;
}

}  // namespace haylane
