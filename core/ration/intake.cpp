// Method: the NRC 2000 equations for mature beef cows, as an extension author coded them in the
// open (Univ. of Arkansas, 2nd-hand: the book's own text was not read). The curves are in Mcal/kg,
// so they are evaluated there and turned into joules. Gross (Okla. State thesis) found the intake
// 14 % low for dry and 17 % low for lactating cows, which is why plans do not use it.
#include "core/ration/intake.h"

#include <algorithm>
#include <cmath>

namespace haylane {
namespace {

constexpr double kJoulesPerMcal = 4.184e6;
constexpr double kShrunkRatio = 0.96;

}  // namespace

FeedEnergy feed_energy(double tdn_ratio) {
    const double de = 4.409 * tdn_ratio;
    const double me = 0.82 * de;
    const double nem = 1.37 * me - 0.138 * me * me + 0.0105 * me * me * me - 1.12;
    return {.digestible_j_per_kg = de * kJoulesPerMcal,
            .metabolizable_j_per_kg = me * kJoulesPerMcal,
            .maintenance_j_per_kg = nem * kJoulesPerMcal};
}

double nrc_intake_kg_per_day(const CowIntake& cow) {
    const double nem = cow.maintenance_j_per_kg / kJoulesPerMcal;
    if (nem <= 0.0) return 0.0;
    const double metabolic = std::pow(kShrunkRatio * cow.weight_kg, 0.75);
    return std::max(
        0.0, metabolic * (0.04997 * nem * nem + cow.intercept) / nem + 0.2 * cow.milk_kg_per_day);
}

}  // namespace haylane
