#pragma once
// Days between Qt's calendar and the model's.

#include "core/base/day.h"

#include <chrono>

#include <QDate>

namespace haylane {

[[nodiscard]] inline QDate to_date(sys_days day) {
    const std::chrono::year_month_day date(day);
    return {static_cast<int>(date.year()), static_cast<int>(static_cast<unsigned>(date.month())),
            static_cast<int>(static_cast<unsigned>(date.day()))};
}

[[nodiscard]] inline sys_days to_day(QDate date) {
    return std::chrono::year(date.year()) /
           std::chrono::month(static_cast<unsigned>(date.month())) /
           std::chrono::day(static_cast<unsigned>(date.day()));
}

}  // namespace haylane
