#include "app/cli/told_cut.h"

#include <array>
#include <charconv>
#include <sstream>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace haylane {

namespace {

using std::chrono::days;
using std::chrono::seconds;

// "7:12" or "07:12:30".
std::optional<seconds> parse_clock(const std::string& text) {
    std::array<int, 3> parts{};
    const std::array most{23, 59, 59};
    std::istringstream in(text);
    std::string part;
    std::size_t n = 0;
    for (; std::getline(in, part, ':'); ++n) {
        if (n == parts.size() || part.empty() || part.size() > 2) return std::nullopt;
        const char* end = part.data() + part.size();
        const auto [stopped, error] = std::from_chars(part.data(), end, parts[n]);
        if (error != std::errc{} || stopped != end) return std::nullopt;
        if (parts[n] < 0 || parts[n] > most[n]) return std::nullopt;
    }
    if (n < 2 || text.back() == ':') return std::nullopt;
    return seconds(parts[0] * 3600 + parts[1] * 60 + parts[2]);
}

std::optional<Motion> parse_motion(const std::string& word) {
    for (const Motion motion : kMotions)
        if (word == to_string(motion)) return motion;
    return std::nullopt;
}

tl::unexpected<Error> unreadable(const std::string& text, const std::string& why) {
    return fail({"told_unreadable", fmt::format("\"{:.80}\" cannot be read: {}.", text, why),
                 "--was",
                 "Write two times of the ranch's clock and what the rig did, for instance "
                 "\"07:12-07:20 laying\" or \"2027-01-11 07:12:30-07:20 hauling\"."});
}

}  // namespace

Result<ToldCut> parse_told(const std::string& text) {
    std::istringstream in(text);
    std::vector<std::string> words;
    for (std::string word; in >> word;) words.push_back(word);
    ToldCut out;
    out.text = text;
    if (words.size() == 3) {
        out.day = parse_day(words[0]);
        if (!out.day) return unreadable(text, fmt::format("\"{:.20}\" is no date", words[0]));
        words.erase(words.begin());
    }
    if (words.size() != 2) return unreadable(text, "times and one word were looked for");
    const std::size_t dash = words[0].find('-');
    if (dash == std::string::npos) return unreadable(text, "no \"-\" stands between two times");
    const auto from = parse_clock(words[0].substr(0, dash));
    const auto to = parse_clock(words[0].substr(dash + 1));
    if (!from || !to) return unreadable(text, fmt::format("\"{:.20}\" is no time", words[0]));
    if (*from == *to) return unreadable(text, "it ends when it begins");
    const auto motion = parse_motion(words[1]);
    if (!motion)
        return unreadable(text,
                          fmt::format("\"{:.20}\" is none of loading, hauling, laying, returning "
                                      "and stopped",
                                      words[1]));
    out.from = *from;
    out.to = *to;
    out.motion = *motion;
    return out;
}

Result<ToldPlace> place_told(const ToldCut& told, const LogProposal& proposal,
                             const LocalDay& local) {
    std::vector<ToldPlace> fit;
    std::vector<std::string> names;
    for (std::size_t t = 0; t < proposal.tracks.size(); ++t) {
        const LoggedTrack& track = proposal.tracks[t];
        std::vector<sys_days> on{track.date - days(1), track.date, track.date + days(1)};
        if (told.day) on = {*told.day};
        for (const sys_days day : on) {
            const sys_days last = told.to < told.from ? day + days(1) : day;
            const ToldPlace place{t, local.moment(day, told.from), local.moment(last, told.to)};
            if (place.from_s > track.clean.fixes.back().time_s ||
                place.to_s < track.clean.fixes.front().time_s)
                continue;
            fit.push_back(place);
            names.push_back(fmt::format("{} ({}, {} to {})", track.file, format_day(track.date),
                                        track.from, track.to));
        }
    }
    if (fit.size() == 1) return fit.front();
    if (fit.empty())
        return fail({"told_no_track",
                     fmt::format("No track that was read was recorded at \"{:.80}\".", told.text),
                     "--was",
                     "Times are the ranch's clock; --pieces lists what each track did when."});
    constexpr std::size_t kNamed = 5;
    const std::size_t more = names.size() > kNamed ? names.size() - kNamed : 0;
    names.resize(names.size() - more);
    return fail(
        {"told_several_tracks",
         fmt::format("\"{:.80}\" falls into several tracks: {}{}.", told.text,
                     fmt::join(names, "; "), more > 0 ? fmt::format("; and {} more", more) : ""),
         "--was",
         "Write the day before the times, as in \"2027-01-11 07:12-07:20 laying\", or log one "
         "file at a time."});
}

}  // namespace haylane
