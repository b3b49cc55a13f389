// Hay on hand. Untested hay takes its kind's table values, and each lot says which of them it took.
#include "core/ranch/check_parts.h"
#include "core/ranch/hay_tables.h"
#include "core/ranch/words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace haylane {

namespace {

void fill_quality(RowReader& reader, HayLot& lot) {
    const HayQuality table = table_hay(lot.kind).quality;
    std::vector<std::string_view> untested;
    const auto value = [&](std::string_view column, std::string_view name, double usual) {
        const auto given = reader.number(column);
        if (!given) untested.push_back(name);
        return given.value_or(usual);
    };
    lot.quality.cp_ratio = value("cp_ratio", "CP", table.cp_ratio);
    lot.quality.tdn_ratio = value("tdn_ratio", "TDN", table.tdn_ratio);
    lot.quality.tested = untested.empty();
    lot.quality.p_ratio = value("p_ratio", "P", table.p_ratio);
    lot.quality.k_ratio = value("k_ratio", "K", table.k_ratio);
    if (untested.empty()) return;
    reader.warn("hay_not_tested",
                fmt::format("{}: {} not tested; table values of {} hay are used.", reader.subject(),
                            fmt::join(untested, ", "), to_string(lot.kind)),
                "Have a core sample tested and write down what the laboratory says.");
}

void fill_mass(RowReader& reader, HayLot& lot) {
    if (!reader.text("bale_kg").empty()) {
        lot.bale_kg = reader.required_number("bale_kg");
        return;
    }
    const std::string size = reader.text("bale_size");
    const auto parsed = parse_bale_size(size);
    if (!parsed) {
        reader.drop(size.empty() ? "missing_value" : "bad_bale_size",
                    fmt::format("{} has no bale weight{}; it is not used.", reader.subject(),
                                size.empty() ? std::string()
                                             : fmt::format(", and \"{}\" is no bale size", size)),
                    "Write the weight of a bale, or its size as width x diameter in feet: 5x6.");
        return;
    }
    lot.bale_kg = bale_kg(*parsed, lot.kind, lot.dm_ratio);
    reader.warn("bale_not_weighed",
                fmt::format("{}: a {} bale is taken as {:.0f} lb ({:.0f} kg), from its size; "
                            "guesses are often 10 % off.",
                            reader.subject(), size, lot.bale_kg / 0.45359237, lot.bale_kg),
                "Weigh a few bales.");
}

void fill_yard(RowReader& reader, const Checking& checking, HayLot& lot) {
    const std::string name = reader.required_text("yard");
    if (name.empty()) return;
    const auto& yards = checking.ranch.yards;
    if (const auto yard = find_name(yards, name)) {
        lot.yard = YardId::at(*yard);
        return;
    }
    reader.drop(
        "unknown_yard",
        fmt::format("{}: there is no yard called \"{}\"; the lot is not used.", reader.subject(),
                    name),
        did_you_mean(name, names_of(yards)) + "Correct the name, or draw the yard on the map.");
}

HayLot read_lot(RowReader& reader, const Checking& checking) {
    HayLot lot;
    lot.name = reader.required_text("lot");
    lot.kind = reader.word("kind", kHayKindWords).value_or(HayKind::other);
    lot.bales = reader.required_count("bales");
    lot.dm_ratio = reader.number("dm_ratio").value_or(table_hay(lot.kind).dm_ratio);
    fill_yard(reader, checking, lot);
    fill_mass(reader, lot);
    if (!reader.usable()) return lot;
    fill_quality(reader, lot);
    lot.nitrate_ppm = reader.number("nitrate_ppm");
    lot.price_per_kg = reader.number("price_per_kg");
    lot.feed_first = reader.yes_no("feed_first", false);
    lot.keep_to = reader.text("keep_to");
    lot.wrap = reader.word("wrap", kWrapWords).value_or(Wrap::net);
    lot.counted_on = reader.day("counted_on");
    return lot;
}

void say_if_none_on_hand(Checking& checking) {
    for (const HayLot& lot : checking.ranch.lots) {
        if (lot.bales > 0) return;
    }
    checking.warn("hay_none_on_hand", "hay",
                  "No hay lot has a bale on hand, so nothing can be planned.",
                  "Count the bales in each stack and write them down as bales.");
}

}  // namespace

void check_hay(Checking& checking) {
    std::vector<HayLot>& lots = checking.ranch.lots;
    for (const RawRow& row : checking.rows("hay")) {
        RowReader reader("hay", row, checking, fmt::format("Hay lot \"{}\"", row.text("lot")));
        HayLot lot = read_lot(reader, checking);
        if (!reader.usable()) continue;
        if (has_name(lots, lot.name)) {
            reader.drop("duplicate_key",
                        fmt::format("{} stands in the list more than once; only the first is used.",
                                    reader.subject()),
                        "Give each lot a name of its own, or take one row out.");
            continue;
        }
        lots.push_back(std::move(lot));
    }
    if (checking.has("hay")) say_if_none_on_hand(checking);
}

void check_keep_to(Checking& checking) {
    const Ranch& ranch = checking.ranch;
    for (HayLot& lot : checking.ranch.lots) {
        if (lot.keep_to.empty()) continue;
        if (const auto herd = find_name(ranch.herds, lot.keep_to)) {
            lot.keep_to = ranch.herds[*herd].name;
            continue;
        }
        if (const auto pasture = find_name(ranch.pastures, lot.keep_to)) {
            lot.keep_to = ranch.pastures[*pasture].name;
            continue;
        }
        std::vector<std::string> known = names_of(ranch.herds);
        for (const Pasture& pasture : ranch.pastures) known.push_back(pasture.name);
        checking.warn("unknown_keep_to", "hay",
                      fmt::format("Hay lot \"{}\" is kept to \"{}\", which is neither a herd nor a "
                                  "pasture; it may be fed anywhere.",
                                  lot.name, lot.keep_to),
                      did_you_mean(lot.keep_to, known) + "Correct keep_to, or leave it blank.");
        lot.keep_to.clear();
    }
}

}  // namespace haylane
