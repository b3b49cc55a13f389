#include "core/ranch/ranch.h"

#include "core/ranch/rig_turning.h"
#include "core/ranch/words.h"

#include <algorithm>
#include <cmath>

namespace haylane {

namespace {

template <class Words, class Value>
std::string_view word_of(const Words& words, Value value) {
    const auto found = std::find_if(words.begin(), words.end(),
                                    [&](const auto& word) { return word.value == value; });
    return found == words.end() ? std::string_view("other") : found->text;
}

}  // namespace

std::string_view to_string(Ground value) { return word_of(kGroundWords, value); }
std::string_view to_string(OffLimitsKind value) { return word_of(kOffLimitsWords, value); }
std::string_view to_string(Surface value) { return word_of(kSurfaceWords, value); }
std::string_view to_string(Stage value) { return word_of(kStageWords, value); }
std::string_view to_string(HayKind value) { return word_of(kHayKindWords, value); }
std::string_view to_string(Method value) { return word_of(kMethodWords, value); }
std::string_view to_string(LineRule value) { return word_of(kLineRuleWords, value); }
std::string_view to_string(Source value) { return word_of(kSourceWords, value); }

std::optional<double> line_radius_m(const Rig& rig, const Settings& settings) {
    if (rig.line_rule == LineRule::straight) return std::nullopt;
    const double usual_m = rig.line_rule == LineRule::wide ? settings.wide_radius_m : 0.0;
    return std::max(driven_radius_m(rig), rig.feed_radius_m.value_or(usual_m));
}

double fence_strip_m(const Rig& rig, const Settings& settings) {
    return std::max(settings.fence_clearance_m, rig.windrow_m / 2.0 + rig.drift_downwind_m);
}

const WeatherDay* weather_on(const Ranch& ranch, sys_days day) {
    const auto found =
        std::lower_bound(ranch.weather.begin(), ranch.weather.end(), day,
                         [](const WeatherDay& known, sys_days date) { return known.date < date; });
    if (found == ranch.weather.end() || found->date != day) return nullptr;
    return &*found;
}

bool thaws_on(const Ranch& ranch, sys_days day) {
    const WeatherDay* weather = weather_on(ranch, day);
    return weather != nullptr && weather->thaw;
}

bool on_record(const Ranch& ranch, HerdId herd, sys_days day) {
    return std::any_of(ranch.feedings.begin(), ranch.feedings.end(), [&](const FeedingRecord& f) {
        return f.herd == herd && f.from <= day && day <= f.to;
    });
}

}  // namespace haylane
