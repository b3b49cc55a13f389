#pragma once
// What a season map can show, by the word that users write for it.

#include <array>
#include <optional>
#include <string_view>

namespace haylane {

enum class SeasonMeasure { n, p2o5, k2o, residue, hay, animal_days, bales };

inline constexpr std::array<SeasonMeasure, 7> kSeasonMeasures{
    SeasonMeasure::n,   SeasonMeasure::p2o5,        SeasonMeasure::k2o,  SeasonMeasure::residue,
    SeasonMeasure::hay, SeasonMeasure::animal_days, SeasonMeasure::bales};

[[nodiscard]] constexpr std::string_view to_string(SeasonMeasure measure) {
    constexpr std::array<std::string_view, 7> kWords{"n",   "p2o5",        "k2o",  "residue",
                                                     "hay", "animal_days", "bales"};
    return kWords[static_cast<std::size_t>(measure)];
}
// In files, an area: mass in kg, the rest counted.
[[nodiscard]] constexpr std::string_view unit_of(SeasonMeasure measure) {
    if (measure == SeasonMeasure::bales) return "bales/ha";
    return measure == SeasonMeasure::animal_days ? "animal-days/ha" : "kg/ha";
}
[[nodiscard]] constexpr std::optional<SeasonMeasure> season_measure_named(std::string_view word) {
    for (const SeasonMeasure measure : kSeasonMeasures) {
        if (to_string(measure) == word) return measure;
    }
    return std::nullopt;
}

}  // namespace haylane
