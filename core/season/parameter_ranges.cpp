// One stream of random numbers a draw, taken in the order of the table and then of the lots.
#include "core/season/parameter_ranges.h"

#include "core/base/random.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace haylane {

namespace {

constexpr std::array<ParameterRange, 14> kRanges{{
    {"waste", nullptr, 0.6, 1.6,
     "trials of unrolled and shredded hay on snow lie from 7 to 19 % where one says 12",
     "left-over hay, as a factor on each feeding's share"},
    {"bale_mass", nullptr, 0.90, 1.05,
     "Wisconsin and Georgia extension: tables run about 10 % high, guesses 100 lb off",
     "weight of a bale, as a factor on each lot"},
    {"hay_tested", nullptr, 0.95, 1.05, "assumption: composites of 15 or more cores",
     "protein, P and K of hay that was tested, as factors on each lot"},
    {"hay_untested", nullptr, 0.70, 1.30, "assumption: spread of published tables by kind",
     "protein, P and K of hay that was not tested, as factors on each lot"},
    {"share_line_pct", &Settings::share_line_ratio, 0.2, 0.6, "assumption",
     "share of dung and urine that falls near the feed line"},
    {"share_water_pct", &Settings::share_water_ratio, 0.02, 0.10, "assumption",
     "share that falls near water"},
    {"share_shelter_pct", &Settings::share_shelter_ratio, 0.1, 0.5, "assumption",
     "share that falls at shelter"},
    {"share_rest_pct", &Settings::share_rest_ratio, 0.1, 0.5, "assumption",
     "share that falls anywhere"},
    {"sigma_line_m", &Settings::sigma_line_m, 3.0, 8.0,
     "North Dakota State: a strip of about 14 ft, influence to 20 ft",
     "how far from the line it falls"},
    {"gas_urine_n_pct", &Settings::gas_urine_n_ratio, 0.05, 0.284,
     "Whitehead 1990, 15 %; Queensland, 14.4 to 28.4 %; frozen ground, from memory, 5 %",
     "share of urine N lost as gas"},
    {"gas_dung_n_pct", &Settings::gas_dung_n_ratio, 0.01, 0.05, "Whitehead 1990: 1 to 5 %",
     "share of dung N lost as gas"},
    {"retained_n_pct", &Settings::retained_n_ratio, 0.0, 0.15, "Gerrish: 85 to 95 % is excreted",
     "share of the N eaten that animals keep"},
    {"retained_p_pct", &Settings::retained_p_ratio, 0.0, 0.20,
     "West Virginia herd 10 %, Saskatchewan trial 20 %", "share of the P eaten that animals keep"},
    {"retained_k_pct", &Settings::retained_k_ratio, 0.0, 0.15,
     "West Virginia herd 1 %, Saskatchewan trial 15 %", "share of the K eaten that animals keep"},
}};

double drawn(Random& random, const ParameterRange& range, double mode) {
    return triangular(random.uniform(), std::min(range.low, mode), mode,
                      std::max(range.high, mode));
}

}  // namespace

std::span<const ParameterRange> parameter_ranges() { return kRanges; }

double triangular(double u, double low, double mode, double high) {
    const double width = high - low;
    if (width <= 0.0) return mode;
    const double turn = (mode - low) / width;
    return u < turn ? low + std::sqrt(u * width * (mode - low))
                    : high - std::sqrt((1.0 - u) * width * (high - mode));
}

ParameterDraw draw_parameters(const Settings& settings, const std::vector<bool>& tested,
                              std::uint64_t seed, int draw) {
    constexpr std::uint64_t kStride = 0x632BE59BD9B4E019;
    Random random(Random(seed + kStride * static_cast<std::uint64_t>(draw)).bits());
    ParameterDraw result{settings, 1.0, {}};
    result.waste = drawn(random, kRanges[0], 1.0);
    for (const ParameterRange& range : kRanges) {
        if (range.setting != nullptr)
            result.settings.*range.setting = drawn(random, range, settings.*range.setting);
    }
    for (std::size_t lot = 0; lot <= tested.size(); ++lot) {
        const ParameterRange& hay = kRanges[lot < tested.size() && tested[lot] ? 2 : 3];
        LotFactors factors;
        factors.bale_mass = drawn(random, kRanges[1], 1.0);
        factors.cp = drawn(random, hay, 1.0);
        factors.p = drawn(random, hay, 1.0);
        factors.k = drawn(random, hay, 1.0);
        result.lots.push_back(factors);
    }
    return result;
}

}  // namespace haylane
