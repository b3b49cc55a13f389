#include "app/cli/log_text.h"

#include "core/base/units.h"

#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

namespace haylane {

namespace {

using nlohmann::ordered_json;

constexpr std::array kMotions{Motion::loading, Motion::hauling, Motion::laying, Motion::returning,
                              Motion::stopped};

std::string length_text(double length, bool metric) {
    if (metric)
        return length >= 1000.0 ? fmt::format("{:.1f} km", length / 1000.0)
                                : fmt::format("{:.0f} m", length);
    const double feet = length / units::kMetersPerFoot;
    return feet >= 5280.0 ? fmt::format("{:.1f} mi", length / units::kMetersPerMile)
                          : fmt::format("{:.0f} ft", feet);
}

std::string speed_text(double speed, bool metric) {
    return metric ? fmt::format("{:.1f} km/h", speed / units::kMetersPerSecondPerKmh)
                  : fmt::format("{:.1f} mph", speed / units::kMetersPerSecondPerMph);
}

std::string minutes_text(double time_s) {
    return fmt::format("{:.0f} min", std::round(time_s / 60.0));
}

std::string plural(std::size_t n, const char* what) {
    return fmt::format("{} {}{}", n, what, n == 1 ? "" : "s");
}

std::string dropped_text(const LoggedTrack& track) {
    std::vector<std::string> parts;
    for (std::size_t r = 0; r < kDropReasons; ++r) {
        const auto reason = static_cast<DropReason>(r);
        const std::size_t count = track.clean.count(reason);
        if (count > 0) parts.push_back(fmt::format("{} {}", count, to_string(reason)));
    }
    if (parts.empty()) return "none left out";
    return fmt::format("left out: {}", fmt::join(parts, ", "));
}

std::string track_text(const LoggedTrack& track, const Ranch& ranch, bool metric) {
    const std::string name = track.name.empty() ? "" : fmt::format(" ({:.60})", track.name);
    std::string out =
        fmt::format("{}{}: {} {} to {}, read for {}\n", track.file, name, format_day(track.date),
                    track.from, track.to, ranch.rigs[track.rig].name);
    out += fmt::format("  {}, {}; {} in the signal\n", plural(track.points, "point"),
                       dropped_text(track), plural(track.clean.gaps.size(), "gap"));
    for (const Motion motion : kMotions) {
        const double time = track.cut.time_s(motion);
        if (time <= 0.0) continue;
        const double length = track.cut.length_m(motion);
        out += fmt::format("  {:<10} {:>8}", to_string(motion), minutes_text(time));
        if (motion == Motion::hauling || motion == Motion::laying || motion == Motion::returning)
            out += fmt::format(" {:>9} {:>9}", length_text(length, metric),
                               speed_text(length / time, metric));
        out += "\n";
    }
    return out;
}

std::string hay_text(const ProposedFeeding& feeding) {
    std::vector<std::string> lots;
    for (const LotBales& draw : feeding.entry.lots)
        lots.push_back(fmt::format("{:g} {}", draw.bales, draw.lot));
    if (lots.empty()) return "bales not known";
    const char* from = feeding.bales_from == BalesFrom::plan   ? "as planned"
                       : feeding.bales_from == BalesFrom::told ? "as you said"
                                                               : "guessed from the length laid";
    return fmt::format("{} ({})", fmt::join(lots, " and "), from);
}

std::string against_plan(const ProposedFeeding& feeding, bool metric) {
    if (feeding.found) return "in no plan: found";
    std::vector<std::string> parts;
    if (feeding.off_m)
        parts.push_back(
            fmt::format("off the planned line by {}", length_text(*feeding.off_m, metric)));
    if (feeding.planned_m) {
        const double more = feeding.length_m - *feeding.planned_m;
        parts.push_back(fmt::format("{} {}", length_text(std::abs(more), metric),
                                    more < 0.0 ? "shorter" : "longer"));
    }
    if (feeding.planned_on && *feeding.planned_on != feeding.entry.date) {
        const long days = (feeding.entry.date - *feeding.planned_on).count();
        parts.push_back(fmt::format("{} {}",
                                    plural(static_cast<std::size_t>(std::abs(days)), "day"),
                                    days < 0 ? "early" : "late"));
    } else {
        parts.emplace_back("on the planned day");
    }
    if (feeding.planned_cv && feeding.laid_cv) {
        const double worse = *feeding.laid_cv / *feeding.planned_cv - 1.0;
        const char* much = std::abs(worse) < 0.15 ? "a little " : "";
        parts.push_back(std::abs(worse) < 0.03 ? "the pasture as even as planned"
                                               : fmt::format("the pasture {}{} even than planned",
                                                             much, worse > 0.0 ? "less" : "more"));
    }
    return fmt::format("{}", fmt::join(parts, ", "));
}

std::string feeding_text(const ProposedFeeding& feeding, bool metric) {
    const FeedingEntry& entry = feeding.entry;
    std::string out = fmt::format("{} {} in {}: {}\n", format_day(entry.date),
                                  entry.herd.empty() ? "(herd not known)" : entry.herd,
                                  entry.pasture, hay_text(feeding));
    out += fmt::format("  {}, {} laid, {:.0f} % sure; {}\n", plural(feeding.lines.size(), "line"),
                       length_text(feeding.length_m, metric), 100.0 * feeding.confidence,
                       against_plan(feeding, metric));
    if (!feeding.not_ready.empty())
        out += fmt::format("  not to be recorded: {}\n", feeding.not_ready);
    return out;
}

ordered_json track_json(const LoggedTrack& track, const Ranch& ranch) {
    ordered_json dropped = ordered_json::array();
    for (const DroppedPoint& one : track.clean.dropped)
        dropped.push_back({{"line", track.lines[one.point]}, {"reason", to_string(one.reason)}});
    ordered_json pieces = ordered_json::array();
    const double start_s = track.clean.fixes.front().time_s;
    for (const Piece& piece : track.cut.pieces)
        pieces.push_back({{"motion", to_string(piece.motion)},
                          {"from_s", piece.start_s - start_s},
                          {"to_s", piece.end_s - start_s},
                          {"length_m", piece.length_m},
                          {"confidence", piece.confidence}});
    return {{"file", track.file},
            {"name", track.name},
            {"hash", track.hash},
            {"date", format_day(track.date)},
            {"from", track.from},
            {"to", track.to},
            {"rig", ranch.rigs[track.rig].name},
            {"points", track.points},
            {"dropped", dropped},
            {"gaps", track.clean.gaps.size()},
            {"feed_m_per_s", track.cut.feed_m_per_s},
            {"pieces", pieces}};
}

template <class T>
ordered_json or_null(const std::optional<T>& value) {
    return value ? ordered_json(*value) : ordered_json(nullptr);
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

std::string log_text(const LogProposal& proposal, const Ranch& ranch, bool metric) {
    std::string out;
    for (const std::string& file : proposal.already)
        out += fmt::format("{}: already in the book; nothing is added\n", file);
    for (const LoggedTrack& track : proposal.tracks) out += track_text(track, ranch, metric);
    if (proposal.feedings.empty()) {
        if (proposal.already.empty()) out += "No hay was laid in these tracks.\n";
        return out;
    }
    out += "\n";
    for (const ProposedFeeding& feeding : proposal.feedings) out += feeding_text(feeding, metric);
    return out;
}

ordered_json log_json(const LogProposal& proposal, const Ranch& ranch) {
    ordered_json tracks = ordered_json::array();
    for (const LoggedTrack& track : proposal.tracks) tracks.push_back(track_json(track, ranch));
    ordered_json feedings = ordered_json::array();
    for (const ProposedFeeding& feeding : proposal.feedings)
        feedings.push_back(feeding_json(feeding));
    ordered_json problems = ordered_json::array();
    for (const Problem& problem : proposal.problems)
        problems.push_back({{"code", problem.code},
                            {"severity", to_string(problem.severity)},
                            {"where", problem.where},
                            {"text", problem.text},
                            {"remedy", problem.remedy}});
    return {{"tracks", tracks},
            {"feedings", feedings},
            {"already", proposal.already},
            {"problems", problems}};
}

}  // namespace haylane
