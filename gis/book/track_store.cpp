// The figures and the feedings' uuids stand in one JSON column: other programs read the table's
// names, dates and lines, and need no more.
#include "gis/book/track_store.h"

#include "gis/book/book_sql.h"
#include "gis/gdal/gdal_session.h"

#include <array>

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <ogrsf_frmts.h>

namespace haylane {

namespace {

using nlohmann::json;

constexpr std::array<const char*, 6> kColumns{"log TEXT",  "hash TEXT",  "rig TEXT",
                                              "date TEXT", "found TEXT", "figures TEXT"};

json driven_json(const Driven& driven) { return json::array({driven.length_m, driven.time_s}); }

Driven driven_of(const json& pair) {
    if (!pair.is_array() || pair.size() != 2 || !pair[0].is_number() || !pair[1].is_number())
        return {};
    return {pair[0].get<double>(), pair[1].get<double>()};
}

std::string figures_text(const StoredTrack& track) {
    json all = {{"laying_m_s", driven_json(track.figures.laying)}, {"feedings", track.feedings}};
    for (std::size_t s = 0; s < track.figures.hauling.size(); ++s)
        all["hauling_m_s"][std::string(to_string(static_cast<Surface>(s)))] =
            driven_json(track.figures.hauling[s]);
    return all.dump();
}

void read_figures(const std::string& text, StoredTrack& track) {
    const json all = json::parse(text, nullptr, false);
    if (!all.is_object()) return;
    if (all.contains("laying_m_s")) track.figures.laying = driven_of(all["laying_m_s"]);
    for (std::size_t s = 0; s < track.figures.hauling.size(); ++s) {
        const std::string key(to_string(static_cast<Surface>(s)));
        if (all.contains("hauling_m_s") && all["hauling_m_s"].is_object() &&
            all["hauling_m_s"].contains(key))
            track.figures.hauling[s] = driven_of(all["hauling_m_s"][key]);
    }
    if (!all.contains("feedings") || !all["feedings"].is_array()) return;
    for (const json& uuid : all["feedings"])
        if (uuid.is_string()) track.feedings.push_back(uuid.get<std::string>());
}

Result<void> add(GDALDataset& book, const Frame& frame, const StoredTrack& track) {
    return run_sql(
        book,
        fmt::format("INSERT INTO tracks (uuid, name, file, started, log, hash, rig, date, found, "
                    "figures, geom) VALUES ({}, {}, {}, {}, {}, {}, {}, {}, {}, {}, {})",
                    sql_text(new_uuid()), sql_text(track.name), sql_text(track.file),
                    sql_text(format_day(track.date)), sql_text(track.log), sql_text(track.hash),
                    sql_text(track.rig), sql_text(format_day(track.date)),
                    sql_text(track.found ? "yes" : "no"), sql_text(figures_text(track)),
                    sql_lines({in_degrees(track.path, frame)})));
}

std::string text_of(const OGRFeature& feature, const char* column) {
    const int at = feature.GetFieldIndex(column);
    return at < 0 || feature.IsFieldSetAndNotNull(at) == 0 ? "" : feature.GetFieldAsString(at);
}

}  // namespace

Result<TracksRecorded> record_tracks(const std::filesystem::path& book,
                                     const std::vector<FeedingEntry>& entries,
                                     std::vector<StoredTrack> tracks) {
    const std::string log = new_uuid();
    auto recorded = record_feedings(
        book, entries,
        [&](GDALDataset& open, const Frame& frame, const FeedingsRecorded& fed) -> Result<void> {
            Result<void> done = add_columns(open, "tracks", {kColumns.begin(), kColumns.end()});
            for (StoredTrack& track : tracks) {
                track.log = log;
                track.feedings = fed.uuids;
                if (done) done = add(open, frame, track);
            }
            return done;
        });
    if (!recorded) return fail(recorded.error());
    return TracksRecorded{std::move(*recorded), log};
}

Result<std::vector<StoredTrack>> stored_tracks(const std::filesystem::path& book) {
    Result<DatasetPtr> opened = open_book_to_read(book);
    if (!opened) return fail(opened.error());
    std::vector<StoredTrack> tracks;
    OGRLayer* layer = (*opened)->GetLayerByName("tracks");
    if (layer == nullptr || layer->GetLayerDefn()->GetFieldIndex("hash") < 0) return tracks;
    while (const OGRFeatureUniquePtr feature{layer->GetNextFeature()}) {
        StoredTrack track{.log = text_of(*feature, "log"),
                          .name = text_of(*feature, "name"),
                          .file = text_of(*feature, "file"),
                          .hash = text_of(*feature, "hash"),
                          .rig = text_of(*feature, "rig"),
                          .date = parse_day(text_of(*feature, "date")).value_or(sys_days{})};
        track.found = text_of(*feature, "found") == "yes";
        read_figures(text_of(*feature, "figures"), track);
        tracks.push_back(std::move(track));
    }
    return tracks;
}

Result<void> undo_tracks(const std::filesystem::path& book, const std::string& log) {
    const auto tracks = stored_tracks(book);
    if (!tracks) return fail(tracks.error());
    std::vector<std::string> feedings;
    bool known = false;
    for (const StoredTrack& track : *tracks) {
        if (track.log != log) continue;
        feedings = track.feedings;
        known = true;
    }
    if (!known)
        return fail({"unknown_log", "no accepted track is kept under that name", book.string(),
                     "nothing was changed"});
    Result<DatasetPtr> opened = open_book_for_update(book);
    if (!opened) return fail(opened.error());
    return in_transaction(**opened, [&]() -> Result<void> {
        Result<void> done = remove_feedings(**opened, feedings);
        if (done) done = run_sql(**opened, "DELETE FROM tracks WHERE log = " + sql_text(log));
        return done;
    });
}

}  // namespace haylane
