// proj_create_crs_to_crs picks the best installed operation point by point;
// proj_normalize_for_visualization turns every system to x, y order. WGS 84 itself passes
// unchanged, so that coordinates that are already degrees keep every digit.
#include "gis/crs/to_lonlat.h"

#include "gis/crs/proj_session.h"

#include <cmath>

#include <fmt/format.h>

namespace haylane {

struct ToLonLat::Impl {
    ContextPtr context;
    ProjectionPtr transform;
    std::string name;
    bool geographic = false;
    bool same = false;  // already WGS 84 longitude and latitude
};

Result<ToLonLat> ToLonLat::from_crs(const std::string& crs) {
    auto impl = std::make_shared<Impl>();
    impl->context = make_context();
    PJ_CONTEXT* context = impl->context.get();
    const ProjectionPtr source(proj_create(context, crs.c_str()));
    const ProjectionPtr target(proj_create(context, "EPSG:4326"));
    if (!source || proj_is_crs(source.get()) == 0 || !target) {
        return fail(
            {"crs_unreadable",
             fmt::format("the coordinate system is not understood: {}", proj_reason(context)), "",
             "save the file again as GeoJSON or with a plain EPSG coordinate system"});
    }
    const ProjectionPtr raw(
        proj_create_crs_to_crs_from_pj(context, source.get(), target.get(), nullptr, nullptr));
    if (raw) impl->transform.reset(proj_normalize_for_visualization(context, raw.get()));
    if (!impl->transform) {
        return fail({"crs_unreadable",
                     fmt::format("there is no way from this coordinate system to WGS 84: {}",
                                 proj_reason(context)),
                     "", "save the file again as GeoJSON"});
    }
    const char* name = proj_get_name(source.get());
    impl->name = name == nullptr ? "unnamed" : name;
    const PJ_TYPE type = proj_get_type(source.get());
    impl->geographic = type == PJ_TYPE_GEOGRAPHIC_2D_CRS || type == PJ_TYPE_GEOGRAPHIC_3D_CRS;
    impl->same = impl->geographic &&
                 proj_is_equivalent_to(source.get(), target.get(),
                                       PJ_COMP_EQUIVALENT_EXCEPT_AXIS_ORDER_GEOGCRS) != 0;
    return ToLonLat(std::move(impl));
}

std::optional<LonLat> ToLonLat::lonlat(double x, double y) const {
    if (impl_->same) return LonLat{x, y};
    const PJ_COORD out =
        proj_trans(impl_->transform.get(), PJ_FWD, proj_coord(x, y, 0.0, HUGE_VAL));
    if (!std::isfinite(out.xy.x) || !std::isfinite(out.xy.y)) return std::nullopt;
    return LonLat{out.xy.x, out.xy.y};
}

std::optional<Point> ToLonLat::inverse(LonLat place) const {
    if (impl_->same) return Point{place.lon_deg, place.lat_deg};
    const PJ_COORD out = proj_trans(impl_->transform.get(), PJ_INV,
                                    proj_coord(place.lon_deg, place.lat_deg, 0.0, HUGE_VAL));
    if (!std::isfinite(out.xy.x) || !std::isfinite(out.xy.y)) return std::nullopt;
    return Point{out.xy.x, out.xy.y};
}

bool ToLonLat::geographic() const { return impl_->geographic; }

std::string ToLonLat::operation() const {
    if (impl_->same) return impl_->name + ": taken as it is";
    const ProjectionPtr used(proj_trans_get_last_used_operation(impl_->transform.get()));
    const char* text = used ? proj_pj_info(used.get()).description : nullptr;
    return fmt::format("{}: {}", impl_->name, text == nullptr ? "no operation used" : text);
}

}  // namespace haylane
