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
    // "07:42" on that day.
    [[nodiscard]] std::string clock(double time_s) const;
    [[nodiscard]] const Problems& problems() const;

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

}  // namespace haylane
