// Herds and their moves. A herd without a usable pasture cannot be fed anywhere and is not used.
#include "core/ranch/check_parts.h"
#include "core/ranch/words.h"

#include <algorithm>

#include <fmt/format.h>

namespace haylane {

namespace {

void fill_pastures(RowReader& reader, const Checking& checking, Herd& herd) {
    const auto& pastures = checking.ranch.pastures;
    for (const std::string& name : split_names(reader.required_text("pastures"))) {
        if (const auto pasture = find_name(pastures, name)) {
            herd.pastures.push_back(PastureId::at(*pasture));
            continue;
        }
        reader.warn("unknown_pasture",
                    fmt::format("{}: there is no pasture called \"{}\"; it is left out.",
                                reader.subject(), name),
                    did_you_mean(name, names_of(pastures)) +
                        "Correct the name, or draw the pasture on the map.");
    }
    if (!reader.usable() || !herd.pastures.empty()) return;
    reader.drop("herd_without_pasture",
                fmt::format("{} has no pasture on the map; it is not used.", reader.subject()),
                "List at least one pasture of the map; the first is where they are.");
}

void fill_supplements(RowReader& reader, Herd& herd) {
    herd.cake_kg = reader.number("cake_kg").value_or(0.0);
    herd.cake_cp_ratio = reader.number("cake_cp_ratio").value_or(0.0);
    herd.cake_tdn_ratio = reader.number("cake_tdn_ratio").value_or(0.0);
    herd.cake_p_ratio = reader.number("cake_p_ratio").value_or(0.0);
    herd.mineral_kg = reader.number("mineral_kg").value_or(0.0);
    herd.mineral_p_ratio = reader.number("mineral_p_ratio").value_or(0.0);
}

Herd read_herd(RowReader& reader, const Checking& checking) {
    Herd herd;
    herd.name = reader.required_text("herd");
    herd.head = reader.required_count("head");
    herd.weight_kg = reader.required_number("weight_kg");
    herd.stage = reader.word("stage", kStageWords).value_or(Stage::dry);
    herd.calving_from = reader.mark("calving_from");
    herd.calving_to = reader.mark("calving_to");
    herd.intake_ratio = reader.number("intake_ratio");
    herd.bales_per_day = reader.number("bales_per_day");
    herd.feed_every_days = reader.count("feed_every_days").value_or(1);
    herd.round_to = reader.word("round_to", kRoundToWords).value_or(RoundTo::bale);
    herd.fed_in = reader.word("fed_in", kFedInWords).value_or(FedIn::line);
    fill_supplements(reader, herd);
    fill_pastures(reader, checking, herd);
    return herd;
}

void say_if_no_stage(RowReader& reader, const Herd& herd) {
    if (!reader.text("stage").empty() || herd.calving_from.given()) return;
    reader.warn("stage_missing",
                fmt::format("{} has neither a stage nor calving dates; dry cows are assumed.",
                            reader.subject()),
                "Write its stage, or calving_from and calving_to.");
}

// A name of a move resolved, with a problem when it is unknown.
template <class Items>
std::optional<std::size_t> resolved(RowReader& reader, std::string_view column,
                                    const Items& items) {
    const std::string name = reader.required_text(column);
    if (name.empty()) return std::nullopt;
    const auto found = find_name(items, name);
    if (found) return found;
    reader.drop(fmt::format("unknown_{}", column),
                fmt::format("{}: there is no {} called \"{}\"; the move is not used.",
                            reader.subject(), column, name),
                did_you_mean(name, names_of(items)) + "Correct the name.");
    return std::nullopt;
}

std::optional<Move> read_move(RowReader& reader, const Ranch& ranch) {
    const auto herd = resolved(reader, "herd", ranch.herds);
    const auto pasture = resolved(reader, "pasture", ranch.pastures);
    const auto date = reader.required_day("date");
    if (!reader.usable() || !herd || !pasture || !date) return std::nullopt;
    return Move{HerdId::at(*herd), *date, PastureId::at(*pasture)};
}

}  // namespace

void check_herds(Checking& checking) {
    std::vector<Herd>& herds = checking.ranch.herds;
    for (const RawRow& row : checking.rows("herds")) {
        RowReader reader("herds", row, checking, fmt::format("Herd \"{}\"", row.text("herd")));
        Herd herd = read_herd(reader, checking);
        if (!reader.usable()) continue;
        if (has_name(herds, herd.name)) {
            reader.drop("duplicate_key",
                        fmt::format("{} stands in the list more than once; only the first is used.",
                                    reader.subject()),
                        "Give each herd a name of its own, or take one row out.");
            continue;
        }
        say_if_no_stage(reader, herd);
        herds.push_back(std::move(herd));
    }
}

void check_moves(Checking& checking) {
    std::vector<Move>& moves = checking.ranch.moves;
    for (const RawRow& row : checking.rows("moves")) {
        RowReader reader("moves", row, checking, fmt::format("Move of \"{}\"", row.text("herd")));
        const std::optional<Move> move = read_move(reader, checking.ranch);
        if (!move) continue;
        const bool again = std::any_of(moves.begin(), moves.end(), [&](const Move& known) {
            return known.herd == move->herd && known.date == move->date;
        });
        if (again) {
            reader.drop("duplicate_key",
                        fmt::format("{}: it is moved twice on {}; only the first is used.",
                                    reader.subject(), format_day(move->date)),
                        "Take one of the rows out.");
            continue;
        }
        moves.push_back(*move);
    }
    std::stable_sort(moves.begin(), moves.end(),
                     [](const Move& a, const Move& b) { return a.date < b.date; });
}

}  // namespace haylane
