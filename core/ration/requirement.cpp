// Method: the rule of thumb of Alberta Agdex 420/52-4, CP 7-9-11 % and TDN 55-60-65 % in mid
// gestation, late gestation and after calving. It is chosen before the NRC figures because it
// covers all three stages in both measures; its TDN is 4 to 6 points above them, on the safe side
// in cold. Bred and first-calf heifers take the same row one stage up where they still grow
// (assumption: no table for them was read). Weaning at 205 days is common practice, no source.
#include "core/ration/requirement.h"

#include <chrono>

namespace haylane {
namespace {

using std::chrono::days;

constexpr Requirement kMid{.cp_ratio = 0.07, .tdn_ratio = 0.55};
constexpr Requirement kLate{.cp_ratio = 0.09, .tdn_ratio = 0.60};
constexpr Requirement kAfterCalving{.cp_ratio = 0.11, .tdn_ratio = 0.65};
constexpr days kLateGestation{90};
constexpr days kLactation{205};

bool is_heifer(Stage stage) {
    return stage == Stage::bred_heifer || stage == Stage::first_calf_late ||
           stage == Stage::first_calf_lactating;
}

bool keeps_own_word(Stage stage) { return stage == Stage::growing_heifer || stage == Stage::bull; }

// Calving that rules on `day`: the one whose lactation holds the day, else the next.
sys_days calving_near(const DateMark& mark, sys_days day) {
    if (mark.dated) return *mark.dated;
    const auto year = std::chrono::year_month_day(day).year();
    sys_days calving = in_year(*mark.yearly, year - std::chrono::years(1));
    for (int step = 0; calving + kLactation <= day; ++step) {
        calving = in_year(*mark.yearly, year + std::chrono::years(step));
    }
    return calving;
}

}  // namespace

std::optional<Requirement> requirement(Stage stage) {
    switch (stage) {
        case Stage::dry:
        case Stage::mid_gestation:
            return kMid;
        case Stage::late_gestation:
        case Stage::first_calf_late:
        case Stage::bred_heifer:
            return kLate;
        case Stage::lactating:
        case Stage::first_calf_lactating:
            return kAfterCalving;
        case Stage::growing_heifer:
        case Stage::bull:
        case Stage::other:
            return std::nullopt;
    }
    return std::nullopt;
}

Stage stage_on(const Herd& herd, sys_days day) {
    if (!herd.calving_from.given() || keeps_own_word(herd.stage)) return herd.stage;
    const bool heifer = is_heifer(herd.stage);
    const sys_days calving = calving_near(herd.calving_from, day);
    if (day >= calving + kLactation) return is_lactating(herd.stage) ? Stage::dry : herd.stage;
    if (day >= calving) return heifer ? Stage::first_calf_lactating : Stage::lactating;
    if (day >= calving - kLateGestation) {
        return heifer ? Stage::first_calf_late : Stage::late_gestation;
    }
    return heifer ? Stage::bred_heifer : Stage::mid_gestation;
}

bool is_lactating(Stage stage) {
    return stage == Stage::lactating || stage == Stage::first_calf_lactating;
}

bool is_pregnant(Stage stage) {
    switch (stage) {
        case Stage::dry:
        case Stage::mid_gestation:
        case Stage::late_gestation:
        case Stage::first_calf_late:
        case Stage::bred_heifer:
            return true;
        case Stage::lactating:
        case Stage::first_calf_lactating:
        case Stage::growing_heifer:
        case Stage::bull:
        case Stage::other:
            return false;
    }
    return false;
}

}  // namespace haylane
