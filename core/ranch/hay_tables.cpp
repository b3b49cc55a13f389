// Sources. Grass: CP, P and K of an Alberta table (35 N, 4 P, 29 K lb a tonne DM), TDN of
// Saskatchewan brome hay. Baleage: DM in the middle of Kentucky's 40 to 60 %, CP and TDN of
// Saskatchewan alfalfa-grass hay, P and K of an average grass-legume hay. Straw: NDSU's barley
// straw; its K, and the rows of alfalfa (mid bloom) and native (prairie) hay, are from memory of US
// feed tables. "Other" takes the native row, the poorest hay, so that no herd is shorted. Bale
// density 11 lb/ft3: Texas A&M E-319's example and Wisconsin's 9 to 12.
#include "core/ranch/hay_tables.h"

#include "core/base/units.h"

#include <charconv>
#include <string>

namespace haylane {

namespace {

constexpr double kDensity_kg_per_m3 =
    11.0 * units::kKgPerPound /
    (units::kMetersPerFoot * units::kMetersPerFoot * units::kMetersPerFoot);
constexpr double kLeastSide_ft = 2.0;
constexpr double kMostSide_ft = 8.0;

TableHay row(double dm_ratio, double cp_ratio, double tdn_ratio, double p_ratio, double k_ratio) {
    return {dm_ratio, {cp_ratio, tdn_ratio, p_ratio, k_ratio, false}};
}

// A number at the front of `text`, which is moved past it and past blanks around it.
std::optional<double> take_number(std::string_view& text) {
    while (text.starts_with(' ')) text.remove_prefix(1);
    double value = 0.0;
    const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{}) return std::nullopt;
    text.remove_prefix(static_cast<std::size_t>(stop - text.data()));
    while (text.starts_with(' ')) text.remove_prefix(1);
    return value;
}

bool take_times(std::string_view& text) {
    for (const std::string_view sign : {"x", "X", "*", "\u00d7"}) {
        if (!text.starts_with(sign)) continue;
        text.remove_prefix(sign.size());
        return true;
    }
    return false;
}

bool is_side(double feet) { return feet >= kLeastSide_ft && feet <= kMostSide_ft; }

}  // namespace

TableHay table_hay(HayKind kind) {
    switch (kind) {
        case HayKind::alfalfa:
            return row(0.89, 0.17, 0.58, 0.0024, 0.018);
        case HayKind::grass:
            return row(0.88, 0.10, 0.60, 0.0018, 0.0132);
        case HayKind::baleage:
            return row(0.50, 0.14, 0.61, 0.0030, 0.023);
        case HayKind::straw:
            return row(0.90, 0.041, 0.43, 0.0011, 0.018);
        case HayKind::native:
        case HayKind::other:
            break;
    }
    return row(0.91, 0.07, 0.50, 0.0015, 0.010);
}

std::optional<BaleSize> parse_bale_size(std::string_view text) {
    const std::optional<double> width_ft = take_number(text);
    if (!width_ft || !take_times(text)) return std::nullopt;
    const std::optional<double> diameter_ft = take_number(text);
    if (!diameter_ft || !text.empty()) return std::nullopt;
    if (!is_side(*width_ft) || !is_side(*diameter_ft)) return std::nullopt;
    return BaleSize{*width_ft * units::kMetersPerFoot, *diameter_ft * units::kMetersPerFoot};
}

double bale_kg(const BaleSize& size, HayKind kind, double dm_ratio) {
    const double volume_m3 = units::kPi / 4.0 * size.diameter_m * size.diameter_m * size.width_m;
    const double mass_kg = volume_m3 * kDensity_kg_per_m3;
    return kind == HayKind::baleage ? mass_kg / dm_ratio : mass_kg;
}

}  // namespace haylane
