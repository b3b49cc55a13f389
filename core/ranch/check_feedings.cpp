// Past feedings. Old winters name herds, lots and rigs that are gone: such a feeding keeps its
// ground and its bales and takes usual values for the rest, and one problem a name says how often.
// Only a feeding with no date, no bales or no pasture to lie in is not used.
#include "core/base/units.h"
#include "core/geometry/boolean_ops.h"
#include "core/geometry/region.h"
#include "core/ranch/check_parts.h"
#include "core/ranch/check_shapes.h"
#include "core/ranch/hay_tables.h"
#include "core/ranch/words.h"

#include <algorithm>
#include <map>
#include <utility>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr double kOutside_ratio = 0.02;  // more of a feeding beyond its fence than this is told

struct Missing {
    int rows = 0;
    std::string where;  // the first row
};
using Shape = decltype(FeedingRecord::shape);

class FeedingReader {
  public:
    explicit FeedingReader(Checking& checking) : checking_(checking) {
        for (const Pasture& pasture : checking.ranch.pastures) {
            fences_.emplace_back(pasture.shape);
        }
        usual_bale_dm_kg_ = usual_bale_dm_kg();
    }
    void read(const RawRow& row, std::size_t number);
    void tell_missing();

  private:
    [[nodiscard]] double usual_bale_dm_kg() const;
    bool read_dates(RowReader& reader, FeedingRecord& feeding) const;
    std::optional<Shape> read_shape(RowReader& reader) const;
    bool place(RowReader& reader, FeedingRecord& feeding);
    void fill_names(RowReader& reader, FeedingRecord& feeding);
    void tell_if_outside(RowReader& reader, const FeedingRecord& feeding) const;
    [[nodiscard]] double outside_ratio(const FeedingRecord& feeding) const;
    [[nodiscard]] std::optional<std::size_t> pasture_at(const Shape& shape) const;
    void miss(std::string_view column, const std::string& name, const std::string& where);
    template <class Items>
    std::optional<std::size_t> find(std::string_view column, const Items& items,
                                    RowReader& reader) {
        const std::string name = reader.text(column);
        if (name.empty()) return std::nullopt;
        const auto found = find_name(items, name);
        if (!found) miss(column, name, reader.where());
        return found;
    }

    Checking& checking_;
    std::vector<Region> fences_;
    double usual_bale_dm_kg_ = 0.0;
    std::map<std::pair<std::string, std::string>, Missing> missing_;  // by column and name
    Missing without_lot_;
};

// Mean of the lots on the list; without any, a 5 x 6 ft bale of common hay.
double FeedingReader::usual_bale_dm_kg() const {
    const auto& lots = checking_.ranch.lots;
    if (lots.empty()) {
        const TableHay table = table_hay(HayKind::other);
        const BaleSize size{5.0 * units::kMetersPerFoot, 6.0 * units::kMetersPerFoot};
        return bale_kg(size, HayKind::other, table.dm_ratio) * table.dm_ratio;
    }
    double sum = 0.0;
    for (const HayLot& lot : lots) sum += lot.bale_dm_kg();
    return sum / static_cast<double>(lots.size());
}

void FeedingReader::miss(std::string_view column, const std::string& name,
                         const std::string& where) {
    Missing& missing = missing_[{std::string(column), name}];
    if (missing.rows == 0) missing.where = where;
    ++missing.rows;
}

bool FeedingReader::read_dates(RowReader& reader, FeedingRecord& feeding) const {
    const bool single = !reader.text("date").empty();
    const auto from = reader.required_day(single ? "date" : "date_from");
    if (!from) return false;
    feeding.from = *from;
    feeding.to = *from;
    if (reader.text("date_to").empty()) return true;
    const auto to = reader.required_day("date_to");
    if (!to) return false;
    feeding.to = *to;
    if (feeding.to >= feeding.from) return true;
    reader.drop("dates_reversed",
                fmt::format("{} ends on {}, before it begins on {}; it is not used.",
                            reader.subject(), format_day(*to), format_day(*from)),
                "Correct the dates.");
    return false;
}

std::optional<Shape> FeedingReader::read_shape(RowReader& reader) const {
    if (std::holds_alternative<std::monostate>(reader.row().shape)) return Shape{};
    std::optional<AnyShape> shape = any_shape(reader, checking_);
    if (!shape) return std::nullopt;
    if (!shape->area.empty()) return Shape{std::move(shape->area)};
    if (!shape->lines.empty()) return Shape{std::move(shape->lines)};
    return Shape{std::move(shape->points)};
}

std::optional<std::size_t> FeedingReader::pasture_at(const Shape& shape) const {
    std::optional<Point> place;
    if (const auto* lines = std::get_if<MultiPolyline>(&shape)) {
        place = point_at(lines->front(), length_m(lines->front()) / 2.0);
    }
    if (const auto* area = std::get_if<MultiPolygon>(&shape)) place = centroid(*area);
    if (const auto* points = std::get_if<std::vector<Point>>(&shape)) place = points->front();
    if (!place) return std::nullopt;
    for (std::size_t i = 0; i < fences_.size(); ++i) {
        if (fences_[i].contains(*place)) return i;
    }
    return std::nullopt;
}

// Finds the feeding's pasture by its name, else by its place on the map.
bool FeedingReader::place(RowReader& reader, FeedingRecord& feeding) {
    const std::string name = reader.text("pasture");
    std::optional<std::size_t> pasture = find_name(checking_.ranch.pastures, name);
    if (!pasture) pasture = pasture_at(feeding.shape);
    if (pasture) {
        feeding.pasture = PastureId::at(*pasture);
        return true;
    }
    miss("pasture", name, reader.where());
    return false;
}

void FeedingReader::fill_names(RowReader& reader, FeedingRecord& feeding) {
    const Ranch& ranch = checking_.ranch;
    const Settings& settings = ranch.settings;
    feeding.bale_dm_kg = usual_bale_dm_kg_;
    feeding.quality = table_hay(HayKind::other).quality;
    feeding.waste_ratio = settings.waste_unroll_ratio;
    if (const auto lot = find("lot", ranch.lots, reader)) {
        feeding.lot = LotId::at(*lot);
        feeding.bale_dm_kg = ranch.lots[*lot].bale_dm_kg();
        feeding.quality = ranch.lots[*lot].quality;
    } else if (reader.text("lot").empty()) {
        if (without_lot_.rows++ == 0) without_lot_.where = reader.where();
    }
    if (const auto herd = find("herd", ranch.herds, reader)) {
        const Herd& fed = ranch.herds[*herd];
        const bool in_milk =
            fed.stage == Stage::lactating || fed.stage == Stage::first_calf_lactating;
        const double usual = in_milk ? settings.intake_lactating_ratio : settings.intake_dry_ratio;
        feeding.herd = HerdId::at(*herd);
        feeding.intake_kg_per_head_day = fed.weight_kg * fed.intake_ratio.value_or(usual);
    }
    if (const auto rig = find("rig", ranch.rigs, reader)) {
        feeding.rig = RigId::at(*rig);
        feeding.waste_ratio = ranch.rigs[*rig].waste_ratio;
    }
    // What lies along a line was not in rings.
    const bool along_a_line = std::holds_alternative<MultiPolyline>(feeding.shape) && feeding.rig;
    if (feeding.herd && ranch[*feeding.herd].fed_in == FedIn::ring && !along_a_line)
        feeding.waste_ratio = settings.waste_ring_ratio;
}

double FeedingReader::outside_ratio(const FeedingRecord& feeding) const {
    const Region& fence = fences_[feeding.pasture.index()];
    double all = 0.0;
    double inside = 0.0;
    if (const auto* lines = std::get_if<MultiPolyline>(&feeding.shape)) {
        for (const Polyline& line : *lines) {
            all += length_m(line);
            for (std::size_t i = 0; i + 1 < line.size(); ++i) {
                for (const auto& span : fence.inside_spans(line[i], line[i + 1])) {
                    inside += span.to_m - span.from_m;
                }
            }
        }
    } else if (const auto* area = std::get_if<MultiPolygon>(&feeding.shape)) {
        all = area_m2(*area);
        const Result<MultiPolygon> common = intersect(*area, fence.shape());
        inside = common ? area_m2(*common) : all;
    } else if (const auto* points = std::get_if<std::vector<Point>>(&feeding.shape)) {
        all = static_cast<double>(points->size());
        for (const Point p : *points) inside += fence.contains(p) ? 1.0 : 0.0;
    }
    return all > 0.0 ? 1.0 - inside / all : 0.0;
}

void FeedingReader::tell_if_outside(RowReader& reader, const FeedingRecord& feeding) const {
    const double outside = outside_ratio(feeding);
    if (outside <= kOutside_ratio) return;
    reader.warn(
        "feeding_outside_pasture",
        fmt::format("{}: {:.0f} % of it lies outside pasture \"{}\"; it is kept, and counts "
                    "in the nearest ground inside the fence.",
                    reader.subject(), 100.0 * outside, checking_.ranch[feeding.pasture].name),
        "Correct its pasture, or move it on the map.");
}

void FeedingReader::read(const RawRow& row, std::size_t number) {
    RowReader reader("feedings", row, checking_, fmt::format("Feeding {}", number));
    FeedingRecord feeding;
    feeding.where = row.where;
    if (!read_dates(reader, feeding)) return;
    feeding.bales = reader.required_number("bales");
    std::optional<Shape> shape = read_shape(reader);
    if (!reader.usable() || !shape) return;
    feeding.shape = std::move(*shape);
    if (!place(reader, feeding)) return;
    fill_names(reader, feeding);
    feeding.source = reader.word("source", kSourceWords).value_or(Source::entered);
    tell_if_outside(reader, feeding);
    checking_.ranch.feedings.push_back(std::move(feeding));
}

void FeedingReader::tell_missing() {
    for (const auto& [key, missing] : missing_) {
        const auto& [column, name] = key;
        if (column == "pasture") {
            checking_.drop(
                "unknown_pasture", missing.where,
                fmt::format("{} past feedings lie in pasture \"{}\", which is not on the "
                            "map, and have no place of their own; they are not used.",
                            missing.rows, name),
                did_you_mean(name, names_of(checking_.ranch.pastures)) +
                    "Correct the name, or draw the pasture on the map.");
            continue;
        }
        checking_.warn("unknown_" + column, missing.where,
                       fmt::format("{} past feedings name {} \"{}\", which is not in the tables; "
                                   "they are kept with usual values.",
                                   missing.rows, column, name),
                       "Add it to its table (a lot that is fed up with 0 bales), or correct the "
                       "name.");
    }
    if (without_lot_.rows == 0) return;
    checking_.info(
        "feeding_without_lot", without_lot_.where,
        fmt::format("{} past feedings name no lot; a bale of {:.0f} lb ({:.0f} kg) dry "
                    "matter of common hay is assumed.",
                    without_lot_.rows, usual_bale_dm_kg_ / units::kKgPerPound, usual_bale_dm_kg_),
        "Write the lot beside the feeding where it is known.");
}

}  // namespace

void check_feedings(Checking& checking) {
    FeedingReader feedings(checking);
    std::size_t number = 0;
    for (const RawRow& row : checking.rows("feedings")) feedings.read(row, ++number);
    feedings.tell_missing();
}

}  // namespace haylane
