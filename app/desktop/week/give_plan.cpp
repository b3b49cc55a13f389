#include "app/desktop/week/give_plan.h"

#include "app/papers/week_sheet.h"
#include "core/plan/spoken.h"
#include "gis/exchange/lines_geojson.h"
#include "gis/exchange/lines_gpx.h"
#include "gis/exchange/lines_kml.h"
#include "gis/exchange/write_text_file.h"

#include <QString>

namespace haylane {
namespace {

WeekSheetOptions options_of(const ShownPlan& plan) {
    return {.metric = speaks_metric(plan.open.checked.ranch.settings)};
}

}  // namespace

Result<void> write_sheet(const ShownPlan& plan, const std::filesystem::path& file) {
    return write_week_sheet(file, plan.kept.result, plan.open.checked.ranch, options_of(plan));
}

Result<void> print_sheet(const ShownPlan& plan, QPagedPaintDevice& printer) {
    return print_week_sheet(printer, plan.kept.result, plan.open.checked.ranch, options_of(plan));
}

Result<void> write_lines(const ShownPlan& plan, const std::filesystem::path& file) {
    const Plan& made = plan.kept.result.plan;
    const Ranch& ranch = plan.open.checked.ranch;
    const Frame& frame = plan.open.frame;
    const QString kind = QString::fromStdU16String(file.extension().u16string()).toLower();
    if (kind == ".gpx") return write_text_file(file, lines_gpx(made, ranch, frame));
    if (kind == ".kml") return write_text_file(file, lines_kml(made, ranch, frame));
    if (kind == ".geojson" || kind == ".json")
        return write_text_file(file, lines_geojson(made, ranch, frame));
    return fail({"lines_unknown_kind", "The file's name does not say how to write the lines.",
                 file.string(), "End it in .gpx, .geojson or .kml."});
}

}  // namespace haylane
