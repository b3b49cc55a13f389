#include "gis/vector/gpx_time.h"

#include "core/base/day.h"

namespace haylane {

namespace {

// Reads from the front of a text; every step that fails leaves `ok` false.
struct Cursor {
    std::string_view rest;
    bool ok = true;

    int two_digits(int most) {
        const auto digit = [this](std::size_t i) {
            return rest.size() > i && rest[i] >= '0' && rest[i] <= '9' ? rest[i] - '0' : -1;
        };
        const int tens = digit(0);
        const int ones = digit(1);
        if (tens < 0 || ones < 0 || tens * 10 + ones > most) {
            ok = false;
            return 0;
        }
        rest.remove_prefix(2);
        return tens * 10 + ones;
    }
    bool take(char c) {
        if (!rest.starts_with(c)) return false;
        rest.remove_prefix(1);
        return true;
    }
    void need(char c) { ok = take(c) && ok; }

    // Digits after the point; those beyond the third are read and dropped.
    std::chrono::milliseconds fraction() {
        int value = 0;
        int worth = 100;
        const std::size_t before = rest.size();
        while (!rest.empty() && rest.front() >= '0' && rest.front() <= '9') {
            value += (rest.front() - '0') * worth;
            worth /= 10;
            rest.remove_prefix(1);
        }
        if (rest.size() == before) ok = false;
        return std::chrono::milliseconds(value);
    }
};

}  // namespace

std::optional<GpxTimeRead> parse_gpx_time(std::string_view text) {
    const auto day = parse_day(text.substr(0, 10));
    if (!day) return std::nullopt;
    Cursor cursor{text.substr(10)};
    if (!cursor.take('T')) cursor.need(' ');
    GpxTimeRead out{*day};
    out.at += std::chrono::hours(cursor.two_digits(23));
    cursor.need(':');
    out.at += std::chrono::minutes(cursor.two_digits(59));
    cursor.need(':');
    out.at += std::chrono::seconds(cursor.two_digits(60));
    if (cursor.take('.')) out.at += cursor.fraction();
    out.zone_given = cursor.take('Z');
    if (!out.zone_given && !cursor.rest.empty()) {
        const bool west = cursor.take('-');
        if (!west) cursor.need('+');
        const std::chrono::minutes hours = std::chrono::hours(cursor.two_digits(14));
        cursor.take(':');
        const std::chrono::minutes ahead = hours + std::chrono::minutes(cursor.two_digits(59));
        out.at += west ? ahead : -ahead;
        out.zone_given = true;
    }
    if (!cursor.ok || !cursor.rest.empty()) return std::nullopt;
    return out;
}

}  // namespace haylane
