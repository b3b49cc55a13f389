// Weather and soil samples.
#include "core/base/units.h"
#include "core/ranch/check_parts.h"
#include "core/ranch/check_shapes.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

namespace haylane {

namespace {

std::optional<WeatherDay> read_day(RowReader& reader) {
    const auto date = reader.required_day("date");
    if (!date) return std::nullopt;
    WeatherDay day{.date = *date,
                   .wind_from_rad = reader.number("wind_from_rad"),
                   .wind_m_per_s = reader.number("wind_m_per_s"),
                   .low_c = reader.number("low_c"),
                   .high_c = reader.number("high_c"),
                   .wet = reader.yes_no("wet", false),
                   .thaw = reader.yes_no("thaw", false),
                   .snow = reader.yes_no("snow", false)};
    if (day.low_c && day.high_c && *day.low_c > *day.high_c) {
        std::swap(day.low_c, day.high_c);
        reader.warn(
            "low_above_high",
            fmt::format("{}: its low is above its high; they were swapped.", reader.subject()),
            "Write the colder one as the low.");
    }
    return day;
}

}  // namespace

void check_weather(Checking& checking) {
    std::vector<WeatherDay>& days = checking.ranch.weather;
    for (const RawRow& row : checking.rows("weather")) {
        RowReader reader("weather", row, checking, fmt::format("Weather of {}", row.text("date")));
        const std::optional<WeatherDay> day = read_day(reader);
        if (!day) continue;
        const bool again = std::any_of(days.begin(), days.end(), [&](const WeatherDay& known) {
            return known.date == day->date;
        });
        if (again) {
            reader.drop("duplicate_key",
                        fmt::format("{} is given more than once; only the first is used.",
                                    reader.subject()),
                        "Keep one row a day.");
            continue;
        }
        days.push_back(*day);
    }
    std::sort(days.begin(), days.end(),
              [](const WeatherDay& a, const WeatherDay& b) { return a.date < b.date; });
}

void check_soil(Checking& checking) {
    std::size_t number = 0;
    for (const RawRow& row : checking.rows("soil")) {
        ++number;
        const std::string given = row.text("name");
        RowReader reader("soil", row, checking,
                         given.empty() ? fmt::format("Soil sample {}", number)
                                       : fmt::format("Soil sample \"{}\"", given));
        std::optional<AnyShape> shape = any_shape(reader, checking);
        if (!shape) continue;
        SoilSample sample{.name = given.empty() ? fmt::format("soil {}", number) : given,
                          .date = reader.day("date"),
                          .n_ppm = reader.number("n_ppm"),
                          .p_ppm = reader.number("p_ppm"),
                          .k_ppm = reader.number("k_ppm"),
                          .method = reader.text("method"),
                          .depth_m = reader.number("depth_m"),
                          .lab = reader.text("lab")};
        if (!shape->area.empty()) {
            sample.where_taken = std::move(shape->area);
        } else {
            const std::optional<Point> at = point_shape(reader);
            if (!at) continue;
            sample.where_taken = *at;
        }
        checking.ranch.soil.push_back(std::move(sample));
    }
}

}  // namespace haylane
