#pragma once
// How hauling is said, on the terminal and on paper: amounts in the user's units, and the sentences
// that lead and close the account.

#include "app/papers/words.h"
#include "core/base/units.h"
#include "core/haul/haul_account.h"
#include "core/haul/ownership.h"
#include "core/haul/stack_places.h"

#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

namespace haylane {

class HaulWords {
  public:
    HaulWords(const Ranch& ranch, bool metric) : ranch_(ranch), metric_(metric) {}

    [[nodiscard]] double ton_kg() const {
        return metric_ ? units::kKgPerTonne : units::kKgPerShortTon;
    }
    [[nodiscard]] const char* ton() const { return metric_ ? "tonne" : "ton"; }
    [[nodiscard]] const char* fuel_unit() const { return metric_ ? "L" : "gal"; }
    [[nodiscard]] std::string fuel(double liters) const {
        return fmt::format("{:.1f}", metric_ ? liters : liters / units::kLitersPerGallon);
    }
    [[nodiscard]] std::string distance(double meters) const {
        return fmt::format("{:.1f}", meters / (metric_ ? 1000.0 : units::kMetersPerMile));
    }
    [[nodiscard]] const char* distance_unit() const { return metric_ ? "km" : "miles"; }
    [[nodiscard]] std::string money(const std::optional<double>& amount) const {
        return amount ? words::money(*amount, ranch_.settings.currency) : std::string("-");
    }
    [[nodiscard]] std::string money_a_ton(const std::optional<double>& per_kg) const {
        return per_kg ? money(*per_kg * ton_kg()) : money(std::nullopt);
    }
    [[nodiscard]] std::string whole_money(double amount) const {
        const std::string& currency = ranch_.settings.currency;
        return currency == "USD" ? "$" + words::whole_number(amount)
                                 : words::whole_number(amount) + " " + currency;
    }
    // "$0.41 to $0.47", one figure where both read the same.
    [[nodiscard]] std::string money_range(const std::optional<double>& low,
                                          const std::optional<double>& high) const {
        const std::string a = money(low);
        const std::string b = money(high);
        return a == b ? a : fmt::format("{} to {}", a, b);
    }
    [[nodiscard]] std::string wasted(const HaulRange& day) const {
        const std::string a = fmt::format("{:.1f}", day.low.wasted_kg / ton_kg());
        const std::string b = fmt::format("{:.1f}", day.high.wasted_kg / ton_kg());
        return a == b ? a : fmt::format("{}-{}", a, b);
    }
    [[nodiscard]] const Ranch& ranch() const { return ranch_; }
    [[nodiscard]] bool metric() const { return metric_; }

  private:
    const Ranch& ranch_;
    bool metric_;
};

// What a head and day cost, what a day takes, and what is unsure about it. One sentence when no
// herd can be reached.
[[nodiscard]] std::vector<std::string> haul_lead(const HaulAccount& account, const HaulWords& w);
[[nodiscard]] std::string herd_haul_words(const HerdHaul& herd, const HaulWords& w);
// What a mile costs, where rigs and yards break even.
[[nodiscard]] std::vector<std::string> distance_words(const HaulAccount& account,
                                                      const HaulWords& w);
// Whose fuel equation is used, and what is simplified.
[[nodiscard]] std::string fuel_source(const Settings& settings);
// A row on all herds' work for a day: name, time, fuel, hay wasted, money to haul a head, and with
// wasted hay; one sentence where no herd is reached. And the row's heads.
[[nodiscard]] std::vector<std::string> haul_day_words(const std::string& name, const HaulRange& day,
                                                      const HaulWords& w);
[[nodiscard]] std::vector<std::string> haul_day_heads(const HaulWords& w);
// A change as it was asked for, said plainly: "2 days' feed at a time", "1 bale a load".
[[nodiscard]] std::string what_if_words(const std::string& asked);
// More than a day's feed at a time: waste, and who must be looked at daily.
[[nodiscard]] std::string many_days_caution();
// Of each yard and pasture, the trip of the rig that is cheapest (quickest, without prices) a kg.
[[nodiscard]] std::vector<HaulTrip> best_trips(const HaulAccount& account, std::size_t rigs);
// What a machine would cost a year, and how that stands beside a custom feeder.
[[nodiscard]] std::vector<std::string> offer_words(const MachineOffer& offer, const HaulWords& w);
// How much hay, and how it goes in and out.
[[nodiscard]] std::string stacks_hay_words(const StackPlaces& places, const HaulWords& w);
// "Home yard, East yard (not an all-weather way)"; the cost in money or hours.
[[nodiscard]] std::string siting_names(const Siting& siting, const StackPlaces& places);
[[nodiscard]] std::string siting_cost(double cost, const StackPlaces& places, const HaulWords& w);
// What the best saves against today, and what could not be reached.
[[nodiscard]] std::vector<std::string> siting_words(const StackPlaces& places, const HaulWords& w);

}  // namespace haylane
