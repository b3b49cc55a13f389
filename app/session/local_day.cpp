// Howard Hinnant's date library reads the system's time zone files; GCC 12's <chrono> cannot.
#include "app/session/local_day.h"

#include <cmath>
#include <stdexcept>

#include <date/tz.h>
#include <fmt/format.h>

namespace haylane {

struct LocalDay::Impl {
    const date::time_zone* zone = nullptr;
    std::chrono::seconds ahead{0};
    Problems problems;

    [[nodiscard]] std::chrono::seconds local(double time_s) const {
        const std::chrono::seconds utc(static_cast<std::int64_t>(std::floor(time_s)));
        if (zone == nullptr) return utc + ahead;
        return utc + zone->get_info(date::sys_seconds(utc)).offset;
    }
};

LocalDay::LocalDay(const std::string& time_zone, double longitude_deg)
    : impl_(std::make_unique<Impl>()) {
    std::string why = "no time_zone is set";
    if (!time_zone.empty()) {
        try {
            impl_->zone = date::locate_zone(time_zone);
            return;
        } catch (const std::runtime_error&) {  // the library knows no other way to say no
            why = fmt::format("time_zone '{}' is not known", time_zone);
        }
    }
    const long hours = std::lround(longitude_deg / 15.0);
    impl_->ahead = std::chrono::hours(hours);
    impl_->problems.push_back(
        {"time_zone_by_longitude", Severity::warning, "settings",
         fmt::format("{}: days are told by the longitude, at UTC{:+d} hours", why, hours),
         "set time_zone to the IANA name of your zone, for instance America/Denver"});
}

LocalDay::~LocalDay() = default;
LocalDay::LocalDay(LocalDay&&) noexcept = default;
LocalDay& LocalDay::operator=(LocalDay&&) noexcept = default;

sys_days LocalDay::day(double time_s) const {
    return std::chrono::floor<std::chrono::days>(std::chrono::sys_seconds(impl_->local(time_s)));
}

std::string LocalDay::clock(double time_s) const { return clock_to_second(time_s).substr(0, 5); }

std::string LocalDay::clock_to_second(double time_s) const {
    const std::chrono::seconds local = impl_->local(time_s);
    const auto day = std::chrono::floor<std::chrono::days>(std::chrono::sys_seconds(local));
    const auto second = (std::chrono::sys_seconds(local) - day).count();
    return fmt::format("{:02}:{:02}:{:02}", second / 3600, second / 60 % 60, second % 60);
}

double LocalDay::moment(sys_days day, std::chrono::seconds clock) const {
    const std::chrono::seconds local = std::chrono::sys_seconds(day).time_since_epoch() + clock;
    if (impl_->zone == nullptr) return static_cast<double>((local - impl_->ahead).count());
    const auto utc = impl_->zone->to_sys(date::local_seconds(local), date::choose::earliest);
    return static_cast<double>(utc.time_since_epoch().count());
}

const Problems& LocalDay::problems() const { return impl_->problems; }

}  // namespace haylane
