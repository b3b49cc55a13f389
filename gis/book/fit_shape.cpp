#include "gis/book/fit_shape.h"

#include "core/base/units.h"
#include "gis/gdal/gdal_session.h"

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr double kClosing_m = 150.0 * units::kMetersPerFoot;

double gap_m(LonLat a, LonLat b) {
    const Result<Frame> frame = Frame::centred(a);
    return frame ? norm_m(frame->to_frame(b)) : kClosing_m * 2.0;
}

std::string label(const FitContext& context) {
    return context.name.empty() ? context.where : shown(context.name);
}

void close_lines(LonLatShape& shape, const FitContext& context, Problems& problems) {
    for (LonLatLine& line : shape.lines) {
        const double gap = gap_m(line.front(), line.back());
        if (line.size() < 4 || gap > kClosing_m) {
            problems.push_back(
                {"pasture_open_track", Severity::error, context.where,
                 fmt::format("{}: the line does not close: its ends are {:.0f} ft apart; not used",
                             label(context), gap / units::kMetersPerFoot),
                 "drive the fence again to where you started, or draw the area"});
            continue;
        }
        if (line.front() == line.back()) {
            line.pop_back();
        } else {
            problems.push_back(
                {"pasture_open_track", Severity::warning, context.where,
                 fmt::format("{}: the track's ends are {:.0f} ft apart; it was closed there",
                             label(context), gap / units::kMetersPerFoot),
                 "check that corner on the map"});
        }
        shape.polygons.push_back({{std::move(line)}});
    }
    shape.lines.clear();
}

}  // namespace

LonLatShape fit_shape(LonLatShape shape, const FitContext& context, Problems& problems) {
    using enum RoleShape;
    const RoleShape wanted = context.wanted;
    if (wanted == polygons && shape.polygons.empty()) close_lines(shape, context, problems);
    LonLatShape fitted;
    if (wanted == polygons ||
        ((wanted == any || wanted == point_or_polygon) && !shape.polygons.empty())) {
        std::swap(fitted.polygons, shape.polygons);
    } else if (wanted == lines || (wanted == any && !shape.lines.empty())) {
        std::swap(fitted.lines, shape.lines);
    } else if (wanted != none) {
        std::swap(fitted.points, shape.points);
    }
    if (!shape.empty()) {
        problems.push_back(
            {"wrong_geometry", fitted.empty() ? Severity::error : Severity::warning, context.where,
             fmt::format("{}: {} of another kind than this layer holds and was not used",
                         label(context), fitted.empty() ? "its shape is" : "a part is"),
             "draw it as the kind that the manual names for this layer"});
    }
    if (wanted == points && fitted.points.size() > 1) {
        problems.push_back({"several_points", Severity::warning, context.where,
                            label(context) + ": it has several points; the first is used",
                            "give each place a row of its own"});
        fitted.points.resize(1);
    }
    return fitted;
}

}  // namespace haylane
