#include "app/cli/log_json.h"

#include "app/session/log_counts.h"
#include "gis/exchange/problem_json.h"

#include <algorithm>

#include <nlohmann/json.hpp>

namespace haylane {

namespace {

using nlohmann::ordered_json;

ordered_json track_json(const LoggedTrack& track, const OpenRanch& open) {
    const LocalDay local = local_day(open);
    ordered_json dropped = ordered_json::array();
    for (const DroppedPoint& one : track.clean.dropped)
        dropped.push_back({{"line", track.lines[one.point]}, {"reason", to_string(one.reason)}});
    ordered_json pieces = ordered_json::array();
    const double start_s = track.clean.fixes.front().time_s;
    for (const Piece& piece : track.cut.pieces)
        pieces.push_back({{"motion", to_string(piece.motion)},
                          {"from", local.clock_to_second(piece.start_s)},
                          {"to", local.clock_to_second(piece.end_s)},
                          {"from_s", piece.start_s - start_s},
                          {"to_s", piece.end_s - start_s},
                          {"length_m", piece.length_m},
                          {"confidence", piece.confidence}});
    ordered_json told = ordered_json::array();
    for (const ToldMotion& one : track.told)
        told.push_back({{"motion", to_string(one.motion)},
                        {"from", local.clock_to_second(one.from_s)},
                        {"to", local.clock_to_second(one.to_s)}});
    return {{"file", track.file},
            {"name", track.name},
            {"hash", track.hash},
            {"date", format_day(track.date)},
            {"from", track.from},
            {"to", track.to},
            {"rig", open.checked.ranch.rigs[track.rig].name},
            {"points", track.points},
            {"dropped", dropped},
            {"gaps", track.clean.gaps.size()},
            {"feed_m_per_s", track.cut.feed_m_per_s},
            {"told", told},
            {"pieces", pieces}};
}

// A reason as a key: "no_time".
std::string key_of(DropReason reason) {
    std::string key(to_string(reason));
    std::replace(key.begin(), key.end(), ' ', '_');
    return key;
}

ordered_json file_json(const FileCounts& counts) {
    ordered_json dropped;
    for (std::size_t r = 0; r < kDropReasons; ++r)
        dropped[key_of(static_cast<DropReason>(r))] = counts.dropped[r];
    ordered_json cut;
    for (const Motion motion : kMotions)
        cut[std::string(to_string(motion))] = {{"time_s", counts.of(motion).time_s},
                                               {"length_m", counts.of(motion).length_m}};
    return {{"file", counts.file},
            {"points", counts.points},
            {"points_unused", counts.points_unused},
            {"tracks", counts.tracks},
            {"dropped", dropped},
            {"held_standing", counts.held},
            {"gaps", counts.gaps},
            {"cut", cut}};
}

template <class T>
ordered_json or_null(const std::optional<T>& value) {
    return value ? ordered_json(*value) : ordered_json(nullptr);
}

ordered_json speed_json(const DrivenSum& seen, const std::optional<double>& in_use) {
    return {{"m_per_s", seen.tracks > 0 ? ordered_json(seen.all.m_per_s()) : ordered_json(nullptr)},
            {"n", seen.tracks},
            {"length_m", seen.all.length_m},
            {"time_s", seen.all.time_s},
            {"in_use_m_per_s", or_null(in_use)}};
}

ordered_json rig_json(const RigSpeeds& speeds, const Ranch& ranch) {
    const Rig& rig = ranch.rigs[speeds.rig];
    ordered_json hauling;
    for (std::size_t s = 0; s < speeds.seen.hauling.size(); ++s)
        hauling[std::string(to_string(static_cast<Surface>(s)))] =
            speed_json(speeds.seen.hauling[s], rig.own.haul_m_per_s[s]);
    return {{"rig", rig.name},
            {"tracks", speeds.seen.tracks},
            {"accepted", speeds.accepted},
            {"laying", speed_json(speeds.seen.laying, rig.own.feed_m_per_s)},
            {"hauling", hauling}};
}

ordered_json feeding_json(const ProposedFeeding& feeding) {
    ordered_json lots = ordered_json::array();
    for (const LotBales& draw : feeding.entry.lots)
        lots.push_back({{"lot", draw.lot}, {"count", draw.bales}});
    ordered_json lines = ordered_json::array();
    for (const LoggedLine& line : feeding.lines) {
        ordered_json one = {{"track", line.track},
                            {"length_m", line.laid.length_m},
                            {"confidence", line.laid.confidence}};
        if (!line.line_id.empty()) {
            one["line_id"] = line.line_id;
            one["off_m"] = line.fit.off_m;
            one["frechet_m"] = line.fit.frechet_m;
            one["share_near"] = line.fit.share_near;
        }
        lines.push_back(std::move(one));
    }
    ordered_json planned_on = nullptr;
    if (feeding.planned_on) planned_on = format_day(*feeding.planned_on);
    return {{"date", format_day(feeding.entry.date)},
            {"herd", feeding.entry.herd},
            {"pasture", feeding.entry.pasture},
            {"rig", feeding.entry.rig},
            {"bales", lots},
            {"bales_from", to_string(feeding.bales_from)},
            {"found", feeding.found},
            {"length_m", feeding.length_m},
            {"confidence", feeding.confidence},
            {"planned_on", planned_on},
            {"planned_length_m", or_null(feeding.planned_m)},
            {"off_m", or_null(feeding.off_m)},
            {"planned_cv", or_null(feeding.planned_cv)},
            {"laid_cv", or_null(feeding.laid_cv)},
            {"not_ready", feeding.not_ready},
            {"lines", lines}};
}

}  // namespace

ordered_json log_json(const LogProposal& proposal, const std::vector<RigSpeeds>& speeds,
                      const OpenRanch& open) {
    ordered_json files = ordered_json::array();
    for (const FileCounts& counts : file_counts(proposal)) files.push_back(file_json(counts));
    ordered_json tracks = ordered_json::array();
    for (const LoggedTrack& track : proposal.tracks) tracks.push_back(track_json(track, open));
    ordered_json feedings = ordered_json::array();
    for (const ProposedFeeding& feeding : proposal.feedings)
        feedings.push_back(feeding_json(feeding));
    ordered_json own_speeds = ordered_json::array();
    for (const RigSpeeds& one : speeds) own_speeds.push_back(rig_json(one, open.checked.ranch));
    return {{"files", files},
            {"tracks", tracks},
            {"feedings", feedings},
            {"own_speeds", own_speeds},
            {"already", proposal.already},
            {"problems", problems_json(proposal.problems)}};
}

}  // namespace haylane
