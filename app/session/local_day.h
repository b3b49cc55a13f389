#pragma once
// The ranch's own calendar day of a moment: by the setting time_zone (an IANA name), else by whole
// hours from the longitude, which summer time and borders of zones put an hour off.

#include "core/base/day.h"
#include "core/base/problem.h"

#include <memory>
#include <string>

namespace haylane {

class LocalDay {
  public:
    // An unknown name counts as none. `problems()` says so, and when hours go by longitude.
    LocalDay(const std::string& time_zone, double longitude_deg);
    ~LocalDay();
    LocalDay(LocalDay&&) noexcept;
    LocalDay& operator=(LocalDay&&) noexcept;
    LocalDay(const LocalDay&) = delete;
    LocalDay& operator=(const LocalDay&) = delete;

    // `time_s`: seconds since 1970 UTC.
    [[nodiscard]] sys_days day(double time_s) const;
    // "07:42" on that day, and "07:42:05".
    [[nodiscard]] std::string clock(double time_s) const;
    [[nodiscard]] std::string clock_to_second(double time_s) const;
    // The moment at which the ranch's clock shows a time of a day, in seconds since 1970 UTC: the
    // earlier one where a clock set back shows it twice, the clock's change where it never does.
    [[nodiscard]] double moment(sys_days day, std::chrono::seconds clock) const;
    [[nodiscard]] const Problems& problems() const;

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

}  // namespace haylane
