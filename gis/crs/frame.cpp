// PROJ's transverse Mercator (Poder/Engsager, exact to well under a millimetre here) run directly,
// so no datum step can slip in between. The frame is written as WKT2 and recognised by its method
// and parameters when it is read back.
#include "gis/crs/frame.h"

#include "core/base/units.h"
#include "gis/crs/proj_session.h"

#include <cmath>
#include <cstring>
#include <mutex>

#include <fmt/format.h>

namespace haylane {

struct Frame::Impl {
    ContextPtr context;
    ProjectionPtr projection;
    std::string wkt;
    LonLat centre;
    mutable std::mutex mutex;
};

namespace {

Error unreadable_frame(const char* what) {
    return {"frame_unreadable", fmt::format("the ranch frame of the book cannot be read: {}", what),
            "table haylane_book", "make the book again from its folder"};
}

std::string frame_text(LonLat centre, const char* tail) {
    return fmt::format("+proj=tmerc +lat_0={} +lon_0={} +k=1 +x_0=0 +y_0=0 +datum=WGS84 +units=m{}",
                       centre.lat_deg, centre.lon_deg, tail);
}

// Value of the conversion's parameter with this EPSG code in degrees or plain; NaN if absent.
double parameter(PJ_CONTEXT* context, const PJ* conversion, const char* epsg_code) {
    const int count = proj_coordoperation_get_param_count(context, conversion);
    for (int i = 0; i < count; ++i) {
        const char* code = nullptr;
        double value = 0.0;
        double to_si = 1.0;
        const char* unit = nullptr;
        if (proj_coordoperation_get_param(context, conversion, i, nullptr, nullptr, &code, &value,
                                          nullptr, &to_si, &unit, nullptr, nullptr, nullptr) == 0) {
            continue;
        }
        if (code != nullptr && std::strcmp(code, epsg_code) == 0) return value;
    }
    return std::nan("");
}

}  // namespace

bool on_earth(LonLat place) {
    return std::isfinite(place.lon_deg) && std::isfinite(place.lat_deg) &&
           std::abs(place.lon_deg) <= 180.0 && std::abs(place.lat_deg) <= 90.0;
}

Result<Frame> Frame::centred(LonLat centre) {
    if (!on_earth(centre) || std::abs(centre.lat_deg) > 89.0) {
        return fail(
            {"frame_impossible",
             fmt::format("no ranch frame can be centred on {}, {}", centre.lon_deg, centre.lat_deg),
             "pastures", "check the coordinates of the pastures"});
    }
    auto impl = std::make_shared<Impl>();
    impl->context = make_context();
    impl->centre = centre;
    impl->projection.reset(proj_create(impl->context.get(), frame_text(centre, "").c_str()));
    const ProjectionPtr crs(
        proj_create(impl->context.get(), frame_text(centre, " +type=crs").c_str()));
    const char* wkt =
        crs ? proj_as_wkt(impl->context.get(), crs.get(), PJ_WKT2_2019, nullptr) : nullptr;
    if (!impl->projection || wkt == nullptr) {
        return fail({"frame_impossible", "PROJ could not make the ranch frame", "",
                     "check the installation of PROJ and its data (package proj-data)"});
    }
    impl->wkt = wkt;
    return Frame(std::move(impl));
}

Result<Frame> Frame::from_wkt(const std::string& wkt) {
    const ContextPtr context = make_context();
    const ProjectionPtr crs(proj_create(context.get(), wkt.c_str()));
    if (!crs) return fail(unreadable_frame("it is not WKT"));
    const ProjectionPtr conversion(proj_crs_get_coordoperation(context.get(), crs.get()));
    if (!conversion) return fail(unreadable_frame("it is not a projected system"));
    const LonLat centre{parameter(context.get(), conversion.get(), "8802"),
                        parameter(context.get(), conversion.get(), "8801")};
    const double scale = parameter(context.get(), conversion.get(), "8805");
    if (!on_earth(centre) || scale != 1.0) {
        return fail(unreadable_frame("it is not a transverse Mercator of scale 1"));
    }
    Result<Frame> frame = centred(centre);
    if (frame && frame->wkt() != wkt) {
        // Another PROJ may word the same frame otherwise; keep the book's own words.
        auto impl = std::make_shared<Impl>();
        impl->context = make_context();
        impl->centre = centre;
        impl->projection.reset(proj_create(impl->context.get(), frame_text(centre, "").c_str()));
        impl->wkt = wkt;
        return Frame(std::move(impl));
    }
    return frame;
}

Point Frame::to_frame(LonLat place) const {
    const std::lock_guard lock(impl_->mutex);
    const PJ_COORD in = proj_coord(units::rad_from_deg(place.lon_deg),
                                   units::rad_from_deg(place.lat_deg), 0.0, 0.0);
    const PJ_COORD out = proj_trans(impl_->projection.get(), PJ_FWD, in);
    if (!std::isfinite(out.xy.x) || !std::isfinite(out.xy.y)) return {std::nan(""), std::nan("")};
    return {out.xy.x, out.xy.y};
}

LonLat Frame::to_lonlat(Point place) const {
    const std::lock_guard lock(impl_->mutex);
    const PJ_COORD out =
        proj_trans(impl_->projection.get(), PJ_INV, proj_coord(place.x, place.y, 0.0, 0.0));
    if (!std::isfinite(out.lp.lam)) return {std::nan(""), std::nan("")};
    return {units::deg_from_rad(out.lp.lam), units::deg_from_rad(out.lp.phi)};
}

const std::string& Frame::wkt() const { return impl_->wkt; }
LonLat Frame::centre() const { return impl_->centre; }

LonLat frame_centre(std::span<const LonLat> places) {
    Box box;
    for (const LonLat place : places) box.add({place.lon_deg, place.lat_deg});
    const auto rounded = [](double degrees) { return std::round(degrees * 100.0) / 100.0; };
    return {rounded((box.min_x + box.max_x) / 2.0), rounded((box.min_y + box.max_y) / 2.0)};
}

}  // namespace haylane
