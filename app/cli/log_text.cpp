#include "app/cli/log_text.h"

#include "app/session/log_counts.h"
#include "app/session/log_words.h"
#include "core/base/units.h"

#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace haylane {

namespace {

std::string speed_text(double speed, bool metric) {
    return metric ? fmt::format("{:.1f} km/h", speed / units::kMetersPerSecondPerKmh)
                  : fmt::format("{:.1f} mph", speed / units::kMetersPerSecondPerMph);
}

std::string minutes_text(double time_s) {
    return fmt::format("{:.0f} min", std::round(time_s / 60.0));
}

std::string dropped_text(const FileCounts& counts) {
    std::vector<std::string> parts;
    for (std::size_t r = 0; r < kDropReasons; ++r)
        if (counts.dropped[r] > 0)
            parts.push_back(
                fmt::format("{} {}", counts.dropped[r], to_string(static_cast<DropReason>(r))));
    if (parts.empty()) return "none left out";
    return fmt::format("left out: {}", fmt::join(parts, ", "));
}

// What became of the points, and minutes, length and speed of each motion.
std::string counts_text(const FileCounts& counts, bool metric) {
    std::string out = fmt::format("  {}, {}", plural(counts.points, "point"), dropped_text(counts));
    if (counts.points_unused > 0)
        out += fmt::format("; {} in tracks that were not used", counts.points_unused);
    if (counts.held > 0) out += fmt::format("; {} while standing, held in one place", counts.held);
    out += fmt::format("; {} in the signal\n", plural(counts.gaps, "gap"));
    for (const Motion motion : kMotions) {
        const Driven& cut = counts.of(motion);
        if (cut.time_s <= 0.0) continue;
        out += fmt::format("  {:<10} {:>8}", to_string(motion), minutes_text(cut.time_s));
        if (motion == Motion::hauling || motion == Motion::laying || motion == Motion::returning)
            out += fmt::format(" {:>9} {:>9}", driven_length(cut.length_m, metric),
                               speed_text(cut.m_per_s(), metric));
        out += "\n";
    }
    return out;
}

std::string piece_text(const Piece& piece, const LocalDay& local, bool metric) {
    std::string out = fmt::format("    {} to {}  {:<10}", local.clock_to_second(piece.start_s),
                                  local.clock_to_second(piece.end_s), to_string(piece.motion));
    out += fmt::format(" {:>9}  {:.0f} % sure\n",
                       piece.length_m > 0.0 ? driven_length(piece.length_m, metric) : "",
                       100.0 * piece.confidence);
    return out;
}

std::string track_text(const LoggedTrack& track, const OpenRanch& open,
                       const LogTextOptions& options) {
    const LocalDay local = local_day(open);
    const std::string name = track.name.empty() ? "" : fmt::format(" ({:.60})", track.name);
    std::string out =
        fmt::format("{}{}: {} {} to {}, read for {}\n", track.file, name, format_day(track.date),
                    track.from, track.to, open.checked.ranch.rigs[track.rig].name);
    out += counts_text(counts_of(track), options.metric);
    for (const ToldMotion& told : track.told)
        out += fmt::format("  as you said: {} to {} {}\n", local.clock_to_second(told.from_s),
                           local.clock_to_second(told.to_s), to_string(told.motion));
    if (options.pieces)
        for (const Piece& piece : track.cut.pieces) out += piece_text(piece, local, options.metric);
    return out;
}

// A file of one track that was used whole has been told with the track.
std::string files_text(const LogProposal& proposal, bool metric) {
    std::string out;
    for (const FileCounts& counts : file_counts(proposal)) {
        if (counts.tracks == 1 && counts.points_unused == 0) continue;
        out += fmt::format("{}, {} in all:\n", counts.file, plural(counts.tracks, "track"));
        out += counts_text(counts, metric);
    }
    return out;
}

std::string speed_line(const std::string& what, const DrivenSum& seen,
                       const std::optional<double>& in_use, bool metric) {
    if (seen.tracks == 0) return "";
    return fmt::format(
        "  {:<13} {:>9}  by {}, {}, {}; {}\n", what, speed_text(seen.all.m_per_s(), metric),
        plural(static_cast<std::size_t>(seen.tracks), "track"),
        driven_length(seen.all.length_m, metric), minutes_text(seen.all.time_s),
        in_use ? "its own figure now: " + speed_text(*in_use, metric) : "no figure of its own yet");
}

std::string speeds_text(const std::vector<RigSpeeds>& speeds, const Ranch& ranch, bool metric) {
    constexpr std::array<const char*, 4> kOn{"on pavement", "on gravel", "on dirt", "on two-track"};
    std::string out;
    for (const RigSpeeds& one : speeds) {
        const Rig& rig = ranch.rigs[one.rig];
        std::string lines = speed_line("laying hay", one.seen.laying, rig.own.feed_m_per_s, metric);
        for (std::size_t s = 0; s < kOn.size(); ++s)
            lines += speed_line(kOn[s], one.seen.hauling[s], rig.own.haul_m_per_s[s], metric);
        if (lines.empty()) continue;  // it only stood
        out += fmt::format("\nHow {} was driven, by {} in the book and {} here:\n{}", rig.name,
                           plural(static_cast<std::size_t>(one.accepted), "track"),
                           one.seen.tracks - one.accepted, lines);
    }
    if (!out.empty()) {
        const OwnSpeedRules rules;
        out += fmt::format(
            "From {} accepted tracks on, with {} of laying or {:.1f} {} on a surface, these are "
            "the "
            "rig's own\nfigures, and plans go by them.\n",
            rules.least_tracks, minutes_text(rules.least_laying_s),
            rules.least_haul_m / (metric ? 1000.0 : units::kMetersPerMile), metric ? "km" : "mi");
    }
    return out;
}

}  // namespace

std::string log_text(const LogProposal& proposal, const std::vector<RigSpeeds>& speeds,
                     const OpenRanch& open, const LogTextOptions& options) {
    std::string out;
    for (const std::string& file : proposal.already)
        out += fmt::format("{}: already in the book; nothing is added\n", file);
    for (const LoggedTrack& track : proposal.tracks) out += track_text(track, open, options);
    out += files_text(proposal, options.metric);
    out += speeds_text(speeds, open.checked.ranch, options.metric);
    if (!proposal.feedings.empty()) out += "\n";
    for (const ProposedFeeding& feeding : proposal.feedings)
        out += feeding_text(feeding, options.metric);
    if (proposal.feedings.empty() && proposal.already.empty())
        out += "No hay was laid in these tracks.\n";
    return out;
}

}  // namespace haylane
