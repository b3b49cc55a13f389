#include "app/papers/ground_words.h"

#include "app/papers/words.h"
#include "core/base/units.h"
#include "core/season/value_class.h"

#include <array>
#include <cmath>

#include <fmt/format.h>

namespace haylane {
namespace {

QString to_q(const std::string& text) { return QString::fromStdString(text); }

std::string plain(double value) {
    if (std::abs(value) >= 100.0) return words::whole_number(value);
    if (std::abs(value) >= 9.95) return fmt::format("{:.0f}", value);
    return value == 0.0 ? "0" : fmt::format("{:.1f}", value);
}

std::string figure(double value, const Provenance& from) {
    if (from.shows_numbers()) return plain(value);
    const ValueClass found = class_of(value);
    if (found.from == found.to) return "0";
    return found.from >= 1000.0
               ? words::whole_number(found.from) + " to " + words::whole_number(found.to)
               : fmt::format("{:g} to {:g}", found.from, found.to);
}

bool is_mass(SeasonMeasure measure) {
    return measure != SeasonMeasure::bales && measure != SeasonMeasure::animal_days;
}

}  // namespace

GroundWords::GroundWords(const Settings& settings, bool metric)
    : currency_(settings.currency), metric_(metric) {}

QString GroundWords::rate_unit(SeasonMeasure measure) const {
    const char* area = metric_ ? "ha" : "ac";
    if (measure == SeasonMeasure::bales) return QStringLiteral("bales/") + area;
    if (measure == SeasonMeasure::animal_days) return QStringLiteral("animal-days/") + area;
    return QStringLiteral("%1/%2").arg(metric_ ? "kg" : "lb", area);
}

double GroundWords::rate_value(double per_m2, SeasonMeasure measure) const {
    const double area = metric_ ? units::kM2PerHectare : units::kM2PerAcre;
    return per_m2 * area / (is_mass(measure) && !metric_ ? units::kKgPerPound : 1.0);
}

QString GroundWords::rate(double per_m2, SeasonMeasure measure, const Provenance& from) const {
    return to_q(figure(rate_value(per_m2, measure), from));
}

QString GroundWords::band(const UncertaintyBand& per_m2, SeasonMeasure measure,
                          const Provenance& from) const {
    if (!from.shows_numbers()) return QStringLiteral("not known");
    return rate(per_m2.p10, measure, from) + QStringLiteral(" to ") +
           rate(per_m2.p90, measure, from);
}

QString GroundWords::mass(double kg, const Provenance& from) const {
    return to_q(figure(metric_ ? kg : kg / units::kKgPerPound, from)) +
           (metric_ ? QStringLiteral(" kg") : QStringLiteral(" lb"));
}

QString GroundWords::tons(double kg, const Provenance& from) const {
    return to_q(figure(kg / (metric_ ? units::kKgPerTonne : units::kKgPerShortTon), from)) +
           (metric_ ? QStringLiteral(" t") : QStringLiteral(" tons"));
}

QString GroundWords::count(double value, const Provenance& from) const {
    return to_q(figure(value, from));
}

QString GroundWords::money(double amount, const Provenance& from) const {
    if (!from.shows_numbers()) return to_q(figure(amount, from) + " " + currency_);
    return (currency_ == "USD" ? QStringLiteral("$%1") : QStringLiteral("%1 ") + to_q(currency_))
        .arg(to_q(words::whole_number(amount)));
}

QString GroundWords::ratio(double value, const Provenance& from) const {
    if (from.shows_numbers()) return to_q(fmt::format("{:.2f}", value));
    return to_q(figure(value, from));
}

QString GroundWords::area(double area_m2) const { return to_q(words::area(area_m2, metric_)); }

QString GroundWords::name(SeasonMeasure measure) {
    static constexpr std::array<const char*, 7> kNames{
        "N", "P2O5", "K2O", "left-over hay", "hay laid", "animal-days", "bales"};
    return QString::fromLatin1(kNames[static_cast<std::size_t>(measure)]);
}

QString GroundWords::percent(double ratio) {
    if (ratio > 0.0 && ratio < 0.01) return QStringLiteral("under 1 %");
    return QStringLiteral("%1 %").arg(std::lround(100.0 * ratio));
}

QString GroundWords::how_even(const std::vector<double>& curve, SeasonMeasure measure) {
    if (curve.empty()) return QStringLiteral("Nothing was fed in these dates.");
    const std::size_t steps = curve.size() - 1;
    const double heavy_tenth = 1.0 - curve[steps - steps / 10];
    const double light_half = curve[steps / 2];
    return QStringLiteral(
               "The heaviest tenth of all feed ground holds %1 of the %2; the lighter "
               "half holds %3. On even ground that would be 10 % and 50 %.")
        .arg(percent(heavy_tenth), name(measure), percent(light_half));
}

QString GroundWords::advice(const Advice& advice) {
    if (advice.kind == AdviceKind::feed_next)
        return QStringLiteral("feed next, number %1: short of %2")
            .arg(advice.rank)
            .arg(to_q(advice.nutrient));
    if (advice.kind == AdviceKind::rest)
        return QStringLiteral("rest, number %1: too much %2")
            .arg(advice.rank)
            .arg(to_q(advice.nutrient));
    return QStringLiteral("as it is");
}

QString GroundWords::records(const Provenance& from) {
    const double all = std::max(1e-300, from.all_bales());
    return QStringLiteral("%1 of bales recorded by GPS, %2 entered, %3 recalled, %4 assumed")
        .arg(percent(from.gps_bales / all), percent(from.entered_bales / all),
             percent(from.recalled_bales / all), percent(from.assumed_bales / all));
}

}  // namespace haylane
