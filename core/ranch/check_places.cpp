// Areas of the map. Parts of one pasture are united, so that parts drawn over each other count
// once.
#include "core/geometry/boolean_ops.h"
#include "core/ranch/check_parts.h"
#include "core/ranch/check_shapes.h"
#include "core/ranch/words.h"

#include <algorithm>

#include <fmt/format.h>

namespace haylane {

namespace {

NutrientRates rates(RowReader& reader, std::string_view kind) {
    return {.n_kg_per_m2 = reader.number(fmt::format("{}_n_kg_per_m2", kind)),
            .p2o5_kg_per_m2 = reader.number(fmt::format("{}_p2o5_kg_per_m2", kind)),
            .k2o_kg_per_m2 = reader.number(fmt::format("{}_k2o_kg_per_m2", kind))};
}

Pasture read_pasture(RowReader& reader, std::string name, MultiPolygon shape) {
    return {.name = std::move(name),
            .shape = std::move(shape),
            .feed = reader.yes_no("feed", true),
            .ground = reader.word("ground", kGroundWords).value_or(Ground::other),
            .sacrifice = reader.yes_no("sacrifice", false),
            .dose_bales_per_m2 = reader.number("dose_bales_per_m2"),
            .target = rates(reader, "target"),
            .limit = rates(reader, "limit")};
}

void add_part(RowReader& reader, Pasture& pasture, MultiPolygon shape) {
    Result<MultiPolygon> united = unite({pasture.shape, shape});
    if (united) {
        pasture.shape = std::move(*united);
    } else {
        pasture.shape.insert(pasture.shape.end(), shape.begin(), shape.end());
    }
    reader.warn("same_name_parts",
                fmt::format("Pasture \"{}\" is drawn more than once; the pieces are taken as parts "
                            "of one pasture, and what the first says of it holds.",
                            pasture.name),
                "If they are different pastures, give each its own name.");
}

struct UsualSetback {
    double distance_m = 0.0;
    bool matters = true;  // false: nothing keeps hay off it, so nobody need be told
};

UsualSetback usual_setback(const Settings& settings, OffLimitsKind kind) {
    switch (kind) {
        case OffLimitsKind::water:
            return {settings.setback_water_m};
        case OffLimitsKind::wetland:
            return {settings.setback_wetland_m};
        case OffLimitsKind::well:
            return {settings.setback_well_m};
        case OffLimitsKind::building:
            return {settings.setback_building_m};
        case OffLimitsKind::buried_line:
            return {settings.setback_buried_line_m};
        case OffLimitsKind::other:
            break;
    }
    return {settings.setback_other_m, false};
}

// A kind that is missing or unknown is taken as wetland: no feed and no driving, the safe side.
OffLimitsKind read_kind(RowReader& reader) {
    if (reader.text("kind").empty()) {
        reader.warn("missing_value",
                    fmt::format("{} has no kind; it is taken as wetland, to be on the safe side.",
                                reader.subject()),
                    "Write its kind: water, well, building, wetland, buried_line or other.");
    }
    return reader.word("kind", kOffLimitsWords).value_or(OffLimitsKind::wetland);
}

void fill_setback(RowReader& reader, const Checking& checking, OffLimits& place) {
    if (const auto given = reader.number("setback_m")) {
        place.setback_m = *given;
        place.setback_given = true;
        return;
    }
    const UsualSetback usual = usual_setback(checking.ranch.settings, place.kind);
    place.setback_m = usual.distance_m;
    if (!usual.matters && usual.distance_m == 0.0) return;
    reader.warn("setback_missing",
                fmt::format("{} ({}) has no setback; {} is used. Check state and local code.",
                            reader.subject(), to_string(place.kind),
                            checking.length_text(usual.distance_m)),
                "Look up the setback that holds where you are and write it in the map.");
}

}  // namespace

void check_pastures(Checking& checking) {
    std::vector<Pasture>& pastures = checking.ranch.pastures;
    std::size_t number = 0;
    for (const RawRow& row : checking.rows("pastures")) {
        ++number;
        const std::string given = row.text("name");
        RowReader reader("pastures", row, checking,
                         given.empty() ? fmt::format("Pasture {}", number)
                                       : fmt::format("Pasture \"{}\"", given));
        std::optional<MultiPolygon> shape = area_shape(reader, checking);
        if (!shape) continue;
        std::string name = name_or_number(reader, "pasture", number);
        const auto same = std::find_if(pastures.begin(), pastures.end(),
                                       [&](const Pasture& p) { return p.name == name; });
        if (same != pastures.end()) {
            add_part(reader, *same, std::move(*shape));
        } else {
            pastures.push_back(read_pasture(reader, std::move(name), std::move(*shape)));
        }
    }
}

void check_off_limits(Checking& checking) {
    std::size_t number = 0;
    for (const RawRow& row : checking.rows("off_limits")) {
        ++number;
        const std::string given = row.text("name");
        RowReader reader("off_limits", row, checking,
                         given.empty() ? fmt::format("Off-limits {}", number)
                                       : fmt::format("Off-limits \"{}\"", given));
        std::optional<AnyShape> shape = any_shape(reader, checking);
        if (!shape) continue;
        OffLimits place{.name = name_or_number(reader, "off-limits", number),
                        .kind = read_kind(reader),
                        .area = std::move(shape->area),
                        .lines = std::move(shape->lines),
                        .points = std::move(shape->points)};
        fill_setback(reader, checking, place);
        checking.ranch.off_limits.push_back(std::move(place));
    }
}

void check_soft_and_shelter(Checking& checking) {
    std::size_t number = 0;
    for (const RawRow& row : checking.rows("soft")) {
        RowReader reader("soft", row, checking, fmt::format("Soft ground {}", ++number));
        std::optional<MultiPolygon> shape = area_shape(reader, checking);
        if (!shape) continue;
        checking.ranch.soft.push_back(
            {name_or_number(reader, "soft ground", number), std::move(*shape)});
    }
    number = 0;
    for (const RawRow& row : checking.rows("shelter")) {
        RowReader reader("shelter", row, checking, fmt::format("Shelter {}", ++number));
        std::optional<AnyShape> shape = any_shape(reader, checking);
        if (!shape) continue;
        checking.ranch.shelter.push_back({.name = name_or_number(reader, "shelter", number),
                                          .area = std::move(shape->area),
                                          .lines = std::move(shape->lines),
                                          .points = std::move(shape->points),
                                          .height_m = reader.number("height_m")});
    }
}

}  // namespace haylane
