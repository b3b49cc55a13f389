#include "core/season/ledger.h"

#include <algorithm>
#include <tuple>

namespace haylane {

namespace {

void add(Nutrients& into, const Nutrients& more, double share = 1.0) {
    into.n_kg += share * more.n_kg;
    into.p2o5_kg += share * more.p2o5_kg;
    into.k2o_kg += share * more.k2o_kg;
}

void add_bales(Provenance& into, Source source, double bales) {
    switch (source) {
        case Source::gps:
            into.gps_bales += bales;
            return;
        case Source::entered:
            into.entered_bales += bales;
            return;
        case Source::recalled:
            into.recalled_bales += bales;
            return;
        case Source::assumed:
            into.assumed_bales += bales;
            return;
    }
}

Ledger of_feeding(const Ranch& ranch, const FeedingRecord& feeding, double share) {
    const ExcretionInput input = excretion_input(feeding);
    const DepositSplit split = excretion(input, ranch.settings);
    Ledger one;
    one.feedings = 1;
    one.bales = share * feeding.bales;
    one.hay_dm_kg = share * input.dm_offered_kg;
    one.residue_dm_kg = share * split.residue_dm_kg;
    if (input.intake_kg_per_head_day > 0.0)
        one.animal_days = (one.hay_dm_kg - one.residue_dm_kg) / input.intake_kg_per_head_day;
    add(one.in_hay, split.in_hay, share);
    add(one.on_ground, split.residue, share);
    add(one.on_ground, split.excreted, share);
    add(one.retained, split.retained, share);
    one.residue_n_kg = share * split.residue.n_kg;
    one.dung_n_kg = share * split.dung_n_kg;
    one.urine_n_kg = share * split.urine_n_kg;
    one.n_lost_gas_kg = share * split.n_lost_gas_kg;
    add_bales(one.provenance, feeding.source, one.bales);
    return one;
}

Point first_point(const FeedingRecord& feeding) {
    if (const auto* lines = std::get_if<MultiPolyline>(&feeding.shape);
        lines != nullptr && !lines->empty() && !lines->front().empty())
        return lines->front().front();
    if (const auto* area = std::get_if<MultiPolygon>(&feeding.shape);
        area != nullptr && !area->empty() && !area->front().outer.empty())
        return area->front().outer.front();
    if (const auto* points = std::get_if<std::vector<Point>>(&feeding.shape);
        points != nullptr && !points->empty())
        return points->front();
    return {};
}

auto sorts_by(const FeedingRecord& feeding) {
    const Point first = first_point(feeding);
    return std::tuple{feeding.from,
                      feeding.to,
                      feeding.herd,
                      feeding.lot,
                      feeding.rig,
                      feeding.bales,
                      feeding.quality.cp_ratio,
                      first.x,
                      first.y};
}

}  // namespace

double Provenance::all_bales() const {
    return gps_bales + entered_bales + recalled_bales + assumed_bales;
}

double Provenance::unsure_ratio() const {
    const double all = all_bales();
    return all > 0.0 ? (recalled_bales + assumed_bales) / all : 0.0;
}

Ledger& Ledger::operator+=(const Ledger& other) {
    feedings += other.feedings;
    bales += other.bales;
    hay_dm_kg += other.hay_dm_kg;
    residue_dm_kg += other.residue_dm_kg;
    animal_days += other.animal_days;
    add(in_hay, other.in_hay);
    add(on_ground, other.on_ground);
    add(retained, other.retained);
    residue_n_kg += other.residue_n_kg;
    dung_n_kg += other.dung_n_kg;
    urine_n_kg += other.urine_n_kg;
    n_lost_gas_kg += other.n_lost_gas_kg;
    provenance.gps_bales += other.provenance.gps_bales;
    provenance.entered_bales += other.provenance.entered_bales;
    provenance.recalled_bales += other.provenance.recalled_bales;
    provenance.assumed_bales += other.provenance.assumed_bales;
    return *this;
}

ExcretionInput excretion_input(const FeedingRecord& feeding) {
    return {.dm_offered_kg = feeding.bales * feeding.bale_dm_kg,
            .quality = feeding.quality,
            .waste_ratio = feeding.waste_ratio,
            .intake_kg_per_head_day = feeding.intake_kg_per_head_day};
}

std::vector<Feedings> feedings_by_pasture(const Ranch& ranch) {
    std::vector<Feedings> all(ranch.pastures.size());
    for (const FeedingRecord& feeding : ranch.feedings)
        all[feeding.pasture.index()].push_back(&feeding);
    for (Feedings& own : all)
        std::stable_sort(own.begin(), own.end(),
                         [](const FeedingRecord* a, const FeedingRecord* b) {
                             return sorts_by(*a) < sorts_by(*b);
                         });
    return all;
}

Feedings feedings_in(const Feedings& feedings, const Span& span) {
    Feedings inside;
    for (const FeedingRecord* feeding : feedings) {
        if (feeding->from <= span.to && feeding->to >= span.from) inside.push_back(feeding);
    }
    return inside;
}

Ledger ledger(const Ranch& ranch, const Feedings& feedings, const Span& span) {
    Ledger total;
    for (const FeedingRecord* feeding : feedings) {
        const double share = share_in(*feeding, span);
        if (share > 0.0) total += of_feeding(ranch, *feeding, share);
    }
    return total;
}

}  // namespace haylane
