// Factors come from core/base/units.h (NIST Handbook 44). A ton is the short ton, a t the tonne.
#include "gis/book/unit_table.h"

#include "core/base/units.h"

#include <array>

namespace haylane {

namespace {

using namespace units;  // NOLINT(google-build-using-namespace): a table of nothing but units

struct UnitRow {
    Dimension dimension = Dimension::text;
    std::string_view suffix;
    UnitScale scale;
};

constexpr double kBalesPerAcre = 1.0 / kM2PerAcre;
constexpr double kBalesPerHectare = 1.0 / kM2PerHectare;

constexpr std::array kUnits = {
    UnitRow{Dimension::ratio, "pct", {0.01}},
    UnitRow{Dimension::ratio, "ratio", {1.0}},
    UnitRow{Dimension::length, "ft", {kMetersPerFoot}},
    UnitRow{Dimension::length, "m", {1.0}},
    UnitRow{Dimension::length, "in", {kMetersPerInch}},
    UnitRow{Dimension::length, "cm", {0.01}},
    UnitRow{Dimension::length, "yd", {kMetersPerYard}},
    UnitRow{Dimension::mass, "lb", {kKgPerPound}},
    UnitRow{Dimension::mass, "lbs", {kKgPerPound}},
    UnitRow{Dimension::mass, "kg", {1.0}},
    UnitRow{Dimension::mass, "oz", {kKgPerOunce}},
    UnitRow{Dimension::mass, "g", {0.001}},
    UnitRow{Dimension::mass, "ton", {kKgPerShortTon}},
    UnitRow{Dimension::mass, "tons", {kKgPerShortTon}},
    UnitRow{Dimension::mass, "t", {kKgPerTonne}},
    UnitRow{Dimension::volume, "gal", {kLitersPerGallon}},
    UnitRow{Dimension::volume, "l", {1.0}},
    UnitRow{Dimension::per_area, "lb_ac", {kKgPerPound / kM2PerAcre}},
    UnitRow{Dimension::per_area, "kg_ha", {1.0 / kM2PerHectare}},
    UnitRow{Dimension::per_area, "kg_per_m2", {1.0}},
    UnitRow{Dimension::bales_area, "bales_ac", {kBalesPerAcre}},
    UnitRow{Dimension::bales_area, "bales_ha", {kBalesPerHectare}},
    UnitRow{Dimension::bales_area, "bales_per_m2", {1.0}},
    UnitRow{Dimension::per_length, "lb_per_ft", {kKgPerPound / kMetersPerFoot}},
    UnitRow{Dimension::per_length, "kg_per_m", {1.0}},
    UnitRow{Dimension::speed, "mph", {kMetersPerSecondPerMph}},
    UnitRow{Dimension::speed, "kmh", {kMetersPerSecondPerKmh}},
    UnitRow{Dimension::speed, "m_per_s", {1.0}},
    UnitRow{Dimension::power, "hp", {kWattsPerHorsepower}},
    UnitRow{Dimension::power, "kw", {1000.0}},
    UnitRow{Dimension::power, "w", {1.0}},
    UnitRow{Dimension::duration, "min", {kSecondsPerMinute}},
    UnitRow{Dimension::duration, "s", {1.0}},
    UnitRow{Dimension::duration, "h", {kSecondsPerHour}},
    UnitRow{Dimension::temperature, "f", {1.0 / 1.8, -32.0}},
    UnitRow{Dimension::temperature, "c", {1.0}},
    UnitRow{Dimension::price_mass, "per_ton", {1.0 / kKgPerShortTon}},
    UnitRow{Dimension::price_mass, "per_t", {1.0 / kKgPerTonne}},
    UnitRow{Dimension::price_mass, "per_lb", {1.0 / kKgPerPound}},
    UnitRow{Dimension::price_mass, "per_kg", {1.0}},
};

}  // namespace

std::optional<UnitScale> find_unit(Dimension dimension, std::string_view suffix) {
    for (const UnitRow& row : kUnits) {
        if (row.dimension == dimension && row.suffix == suffix) return row.scale;
    }
    return std::nullopt;
}

std::string_view usual_unit(Dimension dimension, bool metric) {
    switch (dimension) {
        case Dimension::ratio:
            return "pct";
        case Dimension::length:
            return metric ? "m" : "ft";
        case Dimension::mass:
            return metric ? "kg" : "lb";
        case Dimension::volume:
            return metric ? "l" : "gal";
        case Dimension::per_area:
            return metric ? "kg_ha" : "lb_ac";
        case Dimension::bales_area:
            return metric ? "bales_ha" : "bales_ac";
        case Dimension::per_length:
            return metric ? "kg_per_m" : "lb_per_ft";
        case Dimension::speed:
            return metric ? "kmh" : "mph";
        case Dimension::power:
            return metric ? "kw" : "hp";
        case Dimension::duration:
            return "min";
        case Dimension::temperature:
            return metric ? "c" : "f";
        case Dimension::price_mass:
            return metric ? "per_t" : "per_ton";
        default:
            return "";
    }
}

std::string_view unit_choices(Dimension dimension) {
    switch (dimension) {
        case Dimension::ratio:
            return "_pct";
        case Dimension::length:
            return "_ft, _in, _yd, _m, _cm";
        case Dimension::mass:
            return "_lb, _oz, _ton, _kg, _t";
        case Dimension::volume:
            return "_gal, _l";
        case Dimension::per_area:
            return "_lb_ac, _kg_ha";
        case Dimension::bales_area:
            return "_bales_ac, _bales_ha";
        case Dimension::per_length:
            return "_lb_per_ft, _kg_per_m";
        case Dimension::speed:
            return "_mph, _kmh";
        case Dimension::power:
            return "_hp, _kw";
        case Dimension::duration:
            return "_min";
        case Dimension::temperature:
            return "_f, _c";
        case Dimension::price_mass:
            return "_per_ton, _per_t, _per_lb";
        default:
            return "";
    }
}

}  // namespace haylane
