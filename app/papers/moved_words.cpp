#include "app/papers/moved_words.h"

#include "app/papers/words.h"

#include <cmath>

#include <fmt/format.h>

namespace haylane {

std::vector<MovedWords> moved_words(const MovedLines& moved, const Ranch& ranch, bool metric) {
    std::vector<MovedWords> all;
    // `least`: what is told as no change.
    const auto add_change = [&](const char* what, double by, double least,
                                const std::string& amount) {
        all.push_back(
            {what, std::abs(by) < least ? "as planned" : amount + (by < 0.0 ? " less" : " more")});
    };
    for (const std::string& rule : moved.broken) all.push_back({"breaks", rule});
    for (const std::string& rule : moved.yielded) all.push_back({"gives way", rule});
    if (moved.feeding.lines.empty()) return all;
    add_change("minutes", moved.time_s, 30.0, words::minutes(std::abs(moved.time_s)));
    add_change("way", moved.distance_m, 80.0,
               words::long_length(std::abs(moved.distance_m), metric));
    add_change("fuel", moved.fuel_l, 0.2, words::volume(std::abs(moved.fuel_l), metric));
    if (moved.cost)
        add_change("cost", *moved.cost, 0.01,
                   words::money(std::abs(*moved.cost), ranch.settings.currency));
    all.push_back(
        {"ground",
         fmt::format("this ground so far {} {}; heaviest with the plan {}",
                     words::bale_density(moved.feeding.ground_so_far_bales_per_m2, metric),
                     words::bale_density_unit(metric),
                     words::bale_density(moved.heaviest_bales_per_m2, metric))});
    all.push_back({"evenness", moved.evenness});
    for (const Caution& caution : moved.feeding.cautions) all.push_back({"caution", caution.text});
    return all;
}

}  // namespace haylane
