// Plain SQL between BEGIN IMMEDIATE and COMMIT, each statement checked. One row of `feedings` a
// lot, because rows of that table carry one lot; the shared line stands in each of them.
#include "gis/book/record_feedings.h"

#include "core/ranch/plausible.h"
#include "gis/book/book_sql.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace haylane {

namespace {

struct Recorder {
    GDALDataset& book;
    const Frame& frame;
    FeedingsRecorded out;

    [[nodiscard]] std::vector<LonLatLine> paths_of(const std::vector<FedLine>& lines) const {
        std::vector<LonLatLine> all;
        for (const FedLine& line : lines) all.push_back(in_degrees(line.path, frame));
        return all;
    }

    // The bales that were there to take.
    Result<double> take_bales(const LotBales& take, const std::string& where) {
        const Result<std::string> left =
            ask_sql(book, fmt::format("SELECT bales FROM hay WHERE lot = {}", sql_text(take.lot)));
        if (!left) return fail(left.error());
        if (left->empty()) {
            return fail({"unknown_lot", fmt::format("there is no hay lot called '{}'", take.lot),
                         where, "use a lot of the hay table"});
        }
        const double have = std::strtod(left->c_str(), nullptr);
        if (have < take.bales) {
            out.problems.push_back({"hay_short", Severity::warning, where,
                                    fmt::format("lot '{}' had {:g} bales left and {:g} were fed",
                                                take.lot, have, take.bales),
                                    "count the lot again"});
        }
        const Result<void> done =
            run_sql(book, fmt::format("UPDATE hay SET bales = {} WHERE lot = {}",
                                      std::max(0.0, have - take.bales), sql_text(take.lot)));
        if (!done) return fail(done.error());
        return std::clamp(have, 0.0, take.bales);
    }

    Result<void> add(const FeedingEntry& entry, const LotBales& take) {
        const std::string uuid = new_uuid();
        const std::string where = fmt::format("feeding of {}", format_day(entry.date));
        const std::vector<LonLatLine> lines = paths_of(entry.lines);
        Result<void> done = run_sql(
            book,
            fmt::format("INSERT INTO feedings (uuid, date, herd, pasture, lot, bales, rig, source, "
                        "geom) VALUES ({}, {}, {}, {}, {}, {}, {}, {}, {})",
                        sql_text(uuid), sql_text(format_day(entry.date)), sql_text(entry.herd),
                        sql_text(entry.pasture), sql_text(take.lot), take.bales,
                        sql_text(entry.rig), sql_text(entry.source),
                        entry.places.empty() ? sql_lines(lines) : sql_points(entry.places)));
        if (!done) return done;
        const Result<double> taken = take_bales(take, where);
        if (!taken) return fail(taken.error());
        done = run_sql(
            book, fmt::format("INSERT INTO feeding_bales (uuid, feeding_uuid, lot, bales, taken) "
                              "VALUES ({}, {}, {}, {}, {})",
                              sql_text(new_uuid()), sql_text(uuid), sql_text(take.lot), take.bales,
                              *taken));
        if (!done) return done;
        for (std::size_t i = 0; done && i < lines.size(); ++i) {
            done = run_sql(
                book, fmt::format("INSERT INTO feeding_lines (uuid, feeding_uuid, line_id, geom) "
                                  "VALUES ({}, {}, {}, {})",
                                  sql_text(new_uuid()), sql_text(uuid), sql_text(entry.lines[i].id),
                                  sql_lines({lines[i]})));
        }
        if (done) out.uuids.push_back(uuid);
        return done;
    }
};

// The same numbers are allowed and asked about as in a table that is read.
Result<Problems> check_entries(const std::vector<FeedingEntry>& entries) {
    const Error nothing{"nothing_to_record", "there are no bales to record", "",
                        "say how many bales of which lot were fed"};
    const Plausible bales = plausible("feedings", "bales");
    Problems odd;
    if (entries.empty()) return fail(nothing);
    for (const FeedingEntry& entry : entries) {
        if (entry.lots.empty()) return fail(nothing);
        const std::string where = fmt::format("feeding of {}", format_day(entry.date));
        for (const LotBales& take : entry.lots) {
            if (!std::isfinite(take.bales) || take.bales <= 0.0) return fail(nothing);
            if (!bales.allowed.holds(take.bales))
                return fail({"number_out_of_range",
                             fmt::format("{:g} bales of lot '{}' are more than can be", take.bales,
                                         take.lot),
                             where, "correct the number of bales"});
            if (!bales.usual->holds(take.bales))
                odd.push_back({"number_unusual", Severity::warning, where,
                               fmt::format("{:g} bales of lot '{}' at once; is it right?",
                                           take.bales, take.lot),
                               "take the feeding out again if it is not"});
        }
    }
    return odd;
}

}  // namespace

Result<FeedingsRecorded> record_feedings(const std::filesystem::path& book,
                                         const std::vector<FeedingEntry>& entries,
                                         const AlsoRecord& also) {
    Result<Problems> odd = check_entries(entries);
    if (!odd) return fail(odd.error());
    Result<DatasetPtr> opened = open_book_for_update(book);
    if (!opened) return fail(opened.error());
    const Result<Frame> frame = book_frame(**opened);
    if (!frame) return fail(frame.error());
    Recorder recorder{**opened, *frame, {{}, std::move(*odd)}};
    const Result<void> done = in_transaction(**opened, [&]() -> Result<void> {
        Result<void> fitted = add_columns(**opened, "feeding_bales", {"taken REAL"});
        if (!fitted) return fitted;
        for (const FeedingEntry& entry : entries) {
            for (const LotBales& take : entry.lots) {
                Result<void> added = recorder.add(entry, take);
                if (!added) return added;
            }
        }
        if (also) {
            Result<void> more = also(**opened, *frame, recorder.out);
            if (!more) return more;
        }
        // Boxes of all rows are informative in GeoPackage; unknown is better than wrong.
        return run_sql(
            **opened,
            "UPDATE gpkg_contents SET min_x = NULL, min_y = NULL, max_x = NULL, max_y = "
            "NULL, last_change = strftime('%Y-%m-%dT%H:%M:%fZ','now') WHERE table_name IN "
            "('feedings', 'feeding_lines')");
    });
    if (!done) return fail(done.error());
    return std::move(recorder.out);
}

Result<void> remove_feedings(GDALDataset& book, const std::vector<std::string>& uuids) {
    const Result<void> fitted = add_columns(book, "feeding_bales", {"taken REAL"});
    if (!fitted) return fitted;
    for (const std::string& uuid : uuids) {
        const std::string is_it = " WHERE feeding_uuid = " + sql_text(uuid);
        Result<void> done = run_sql(
            book,
            "UPDATE hay SET bales = bales + (SELECT SUM(COALESCE(b.taken, b.bales)) FROM "
            "feeding_bales "
            "AS b WHERE b.lot = hay.lot AND b.feeding_uuid = " +
                sql_text(uuid) + ") WHERE lot IN (SELECT lot FROM feeding_bales" + is_it + ")");
        if (done) done = run_sql(book, "DELETE FROM feeding_bales" + is_it);
        if (done) done = run_sql(book, "DELETE FROM feeding_lines" + is_it);
        if (done) done = run_sql(book, "DELETE FROM feedings WHERE uuid = " + sql_text(uuid));
        if (!done) return done;
    }
    return {};
}

}  // namespace haylane
