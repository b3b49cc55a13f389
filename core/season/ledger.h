#pragma once
// What feedings brought to one pasture over a span, by mass, with where the records come from. kg;
// the hay's nutrients balance: in_hay = on_ground + retained + gas.

#include "core/deposit/excretion.h"
#include "core/season/span.h"

#include <vector>

namespace haylane {

// Bales by how their feeding came to be on record.
struct Provenance {
    double gps_bales = 0.0;
    double entered_bales = 0.0;
    double recalled_bales = 0.0;
    double assumed_bales = 0.0;

    [[nodiscard]] double all_bales() const;
    // Share recalled or assumed; 0 without bales.
    [[nodiscard]] double unsure_ratio() const;
    // Numbers mean something while at most a quarter is recalled or assumed; else only classes do.
    [[nodiscard]] bool shows_numbers() const { return unsure_ratio() <= 0.25; }
};

struct Ledger {
    int feedings = 0;
    double bales = 0.0;
    double hay_dm_kg = 0.0;
    double residue_dm_kg = 0.0;
    double animal_days = 0.0;  // hay eaten over what an animal eats a day
    Nutrients in_hay;
    Nutrients on_ground;  // residue, dung and urine, after gas loss
    Nutrients retained;   // kept by the animals
    double residue_n_kg = 0.0;
    double dung_n_kg = 0.0;   // before gas loss
    double urine_n_kg = 0.0;  // before gas loss
    double n_lost_gas_kg = 0.0;
    Provenance provenance;

    Ledger& operator+=(const Ledger& other);
};

// What a feeding offers and leaves, as a whole.
[[nodiscard]] ExcretionInput excretion_input(const FeedingRecord& feeding);
// The feedings of each pasture, by pasture, in an order that does not depend on how they stand on
// record, so that sums come out the same. Pointers into ranch.feedings.
using Feedings = std::vector<const FeedingRecord*>;
[[nodiscard]] std::vector<Feedings> feedings_by_pasture(const Ranch& ranch);
// Those that have a day in the span.
[[nodiscard]] Feedings feedings_in(const Feedings& feedings, const Span& span);
// Each feeding by the share of its days in the span.
[[nodiscard]] Ledger ledger(const Ranch& ranch, const Feedings& feedings, const Span& span);

}  // namespace haylane
