#include "core/season/nutrient_release.h"

#include <vector>

namespace haylane {

double released_in_year(std::span<const double> brought_kg, const ReleaseShares& shares,
                        std::size_t year) {
    double released = 0.0;
    for (std::size_t brought = 0; brought < brought_kg.size() && brought <= year; ++brought) {
        const std::size_t age = year - brought;
        if (age < shares.size()) released += shares[age] * brought_kg[brought];
    }
    return released;
}

std::array<double, kReleaseYears> available_n_kg(std::span<const Ledger> seasons) {
    std::array<double, kReleaseYears> available{};
    if (seasons.empty()) return available;
    std::vector<double> dung;
    std::vector<double> urine;
    std::vector<double> residue;
    for (const Ledger& season : seasons) {
        dung.push_back(season.dung_n_kg);
        urine.push_back(season.urine_n_kg);
        residue.push_back(season.residue_n_kg);
    }
    for (std::size_t ahead = 0; ahead < kReleaseYears; ++ahead) {
        const std::size_t year = seasons.size() - 1 + ahead;
        available[ahead] = released_in_year(dung, kDungRelease, year) +
                           released_in_year(urine, kUrineRelease, year) +
                           released_in_year(residue, kResidueRelease, year);
    }
    return available;
}

}  // namespace haylane
