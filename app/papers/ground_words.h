#pragma once
// Figures of the ground report as a reader sees them: amounts an area, masses, shares; classes in
// their place where the records behind them are unsure.

#include "core/season/ground_account.h"

#include <string>
#include <vector>

#include <QString>

namespace haylane {

class GroundWords {
  public:
    GroundWords(const Settings& settings, bool metric);

    // "lb/ac", "bales/ac", "animal-days/ac".
    [[nodiscard]] QString rate_unit(SeasonMeasure measure) const;
    // In that unit, a number.
    [[nodiscard]] double rate_value(double per_m2, SeasonMeasure measure) const;
    // Without the unit: "37", "4.2", "20 to 50".
    [[nodiscard]] QString rate(double per_m2, SeasonMeasure measure, const Provenance& from) const;
    [[nodiscard]] QString band(const UncertaintyBand& per_m2, SeasonMeasure measure,
                               const Provenance& from) const;
    [[nodiscard]] QString mass(double kg, const Provenance& from) const;  // "1,234 lb"
    [[nodiscard]] QString tons(double kg, const Provenance& from) const;  // "41 tons"
    [[nodiscard]] QString count(double value, const Provenance& from) const;
    [[nodiscard]] QString money(double amount, const Provenance& from) const;
    [[nodiscard]] QString ratio(double value, const Provenance& from) const;  // "0.42"
    [[nodiscard]] QString area(double area_m2) const;
    [[nodiscard]] bool metric() const { return metric_; }

    [[nodiscard]] static QString name(SeasonMeasure measure);  // "P2O5", "left-over hay"
    [[nodiscard]] static QString percent(double ratio);        // "under 1 %", "12 %"
    // How much the heaviest tenth and the lighter half hold, by the curve; says so where
    // nothing lies.
    [[nodiscard]] static QString how_even(const std::vector<double>& curve, SeasonMeasure measure);
    // "feed next, number 1: short of N", "as it is"
    [[nodiscard]] static QString advice(const Advice& advice);
    // "61 % of bales recorded by GPS, 39 % entered, 0 % recalled, 0 % assumed"
    [[nodiscard]] static QString records(const Provenance& from);

  private:
    std::string currency_;
    bool metric_;
};

}  // namespace haylane
