// Smoothed fixes give speed and turning; the likeliest path through the states of motion_model is
// found by Viterbi. Neighbouring fixes say much the same (the smoother ties them together), so a
// fix counts for its time over `kIndependent_s`, one at most. The first cut goes by the rig's
// nominal feeding speed, or by what it was where someone told that hay was laid; when what it laid
// was driven at another, the cut is made once more at that. Where nothing was laid, slower speeds
// are tried: faster ones would take driving across pasture for laying.
#include "core/tracks/cut_track.h"

#include "core/tracks/make_pieces.h"
#include "core/tracks/seen_drive.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <optional>

namespace haylane {

namespace {

constexpr double kIndependent_s = 4.0;
constexpr double kEnoughLaid_s = 60.0;
constexpr double kSpeedOff_ratio = 0.04;
constexpr int kRecuts = 2;
constexpr double kSpeedHigh_ratio = 1.3;  // no rig lays so much faster than it mostly does
constexpr double kOff_m = 10.0;           // by which the ends of a silence may be off
constexpr double kSpeedMost_ratio = 1.6;  // off the nominal or told speed by more is not believed
// Where nothing was laid at the speed believed, it was perhaps laid slower.
constexpr std::array kSlower_ratio{0.75, 0.5};

// The kinds of step a chain needs, by rounded time.
class StepKinds {
  public:
    explicit StepKinds(HiddenChain& chain) : chain_(chain) {}
    std::uint16_t of(double time_s) {
        double rounded = std::max(0.1, std::round(time_s * 10.0) / 10.0);
        if (time_s > 2.0) rounded = std::round(time_s);
        if (time_s > 60.0) rounded = 10.0 * std::round(time_s / 10.0);
        const auto [at, fresh] = kinds_.emplace(rounded, chain_.log_transition.size());
        if (fresh) chain_.log_transition.push_back(transition_log(rounded));
        return static_cast<std::uint16_t>(at->second);
    }

  private:
    HiddenChain& chain_;
    std::map<double, std::size_t> kinds_;
};

class Cutter {
  public:
    Cutter(const DriveSpeeds& speeds, const CutOptions& options)
        : speeds_(speeds), options_(options) {}

    void cut(const SeenDrive& drive, CutTrack& out) {
        const auto told = median_laid(drive, told_motions(drive));
        const double believed = told.value_or(speeds_.feed_m_per_s);
        Cut best = refined(drive, believed, believed);
        if (!told && !best.laid_m_per_s) {
            for (const double ratio : kSlower_ratio) {
                Cut slower = refined(drive, believed * ratio, believed * ratio);
                if (!slower.laid_m_per_s) continue;
                best = std::move(slower);
                break;
            }
        }
        out.feed_from_track = out.feed_from_track || best.feed_m_per_s != speeds_.feed_m_per_s;
        if (best.laid_m_per_s) out.feed_m_per_s = best.feed_m_per_s;
        const std::vector<float> sure = path_probability(best.chain, best.path);
        for (Piece& piece : make_pieces({drive, best.motions, sure}, with_feed(best.feed_m_per_s)))
            out.pieces.push_back(std::move(piece));
        for (std::size_t i = 0; i < best.motions.size(); ++i)
            out.held_fixes += best.motions[i] == Motion::stopped && !drive.unseen[i] ? 1U : 0U;
    }

  private:
    struct Cut {
        double feed_m_per_s = 0.0;
        HiddenChain chain;
        HiddenPath path;
        std::vector<Motion> motions;
        std::optional<double> laid_m_per_s;  // as median_laid
    };

    [[nodiscard]] DriveSpeeds with_feed(double feed_m_per_s) const {
        DriveSpeeds speeds = speeds_;
        speeds.feed_m_per_s = feed_m_per_s;
        return speeds;
    }

    [[nodiscard]] Cut cut_at(const SeenDrive& drive, double feed_m_per_s) const {
        Cut cut{feed_m_per_s, chain_of(drive, with_feed(feed_m_per_s)), {}, {}, {}};
        cut.path = most_likely_path(cut.chain);
        cut.motions = motions_of(drive, cut.path);
        cut.laid_m_per_s = median_laid(drive, cut.motions);
        return cut;
    }

    // Cut again at the speed that was laid at, while that is another.
    [[nodiscard]] Cut refined(const SeenDrive& drive, double from_m_per_s,
                              double believed_m_per_s) const {
        Cut cut = cut_at(drive, from_m_per_s);
        for (int again = 0; again < kRecuts; ++again) {
            std::optional<double> seen = cut.laid_m_per_s;
            if (seen)
                seen = std::clamp(*seen, believed_m_per_s / kSpeedMost_ratio,
                                  believed_m_per_s * kSpeedMost_ratio);
            if (!seen || std::abs(*seen / cut.feed_m_per_s - 1.0) <= kSpeedOff_ratio) break;
            cut = cut_at(drive, *seen);
        }
        return cut;
    }

    static HiddenChain chain_of(const SeenDrive& drive, const DriveSpeeds& speeds) {
        const std::vector<SmoothState>& fixes = drive.fixes;
        HiddenChain chain;
        chain.states = kDriveStates;
        const StateRow first = first_state_log();
        chain.log_initial.assign(first.begin(), first.end());
        chain.log_emission.reserve(fixes.size() * kDriveStates);
        chain.step_kind.reserve(fixes.size());
        StepKinds kinds(chain);
        for (std::size_t i = 0; i < fixes.size(); ++i) {
            const double before = i == 0 ? 1.0 : fixes[i].fix.time_s - fixes[i - 1].fix.time_s;
            chain.step_kind.push_back(i == 0 ? std::uint16_t{0} : kinds.of(before));
            const StateRow row = drive.unseen[i] ? StateRow{} : sign_log(drive.signs[i], speeds);
            const double weight = std::min(1.0, before / kIndependent_s);
            for (std::size_t s = 0; s < kDriveStates; ++s)
                chain.log_emission.push_back(
                    may_be(motion_of(static_cast<DriveState>(s)), drive, i, speeds)
                        ? weight * row[s]
                        : -std::numeric_limits<double>::infinity());
        }
        if (chain.log_transition.empty()) chain.log_transition.push_back(transition_log(1.0));
        return chain;
    }

    static bool may_be(Motion motion, const SeenDrive& drive, std::size_t i,
                       const DriveSpeeds& speeds) {
        if (drive.told[i]) return motion == *drive.told[i];
        if (!drive.unseen[i]) return true;
        const double silence_s = 2.0 * drive.since_last_s(i);
        const double laid_m = kSpeedHigh_ratio * speeds.feed_m_per_s * silence_s + kOff_m;
        return drive.signs[i].speed_m_per_s * silence_s <= laid_m || motion == Motion::hauling ||
               motion == Motion::returning;
    }

    [[nodiscard]] std::vector<Motion> motions_of(const SeenDrive& drive,
                                                 const HiddenPath& path) const {
        std::vector<Motion> motions;
        motions.reserve(path.states.size());
        for (const std::uint8_t state : path.states)
            motions.push_back(motion_of(static_cast<DriveState>(state)));
        drop_short_laying(drive, motions);
        return motions;
    }

    // Median speed of what was laid, which driving taken for laying hardly moves; nullopt when
    // that was too little to tell.
    static std::optional<double> median_laid(const SeenDrive& drive,
                                             const std::vector<Motion>& motions) {
        std::vector<double> laid;
        double time_s = 0.0;
        for (std::size_t i = 0; i < motions.size(); ++i) {
            if (motions[i] != Motion::laying) continue;
            laid.push_back(drive.signs[i].speed_m_per_s);
            if (i > 0 && motions[i - 1] == Motion::laying)
                time_s += drive.fixes[i].fix.time_s - drive.fixes[i - 1].fix.time_s;
        }
        if (time_s < kEnoughLaid_s) return std::nullopt;
        const auto middle = laid.begin() + static_cast<std::ptrdiff_t>(laid.size() / 2);
        std::nth_element(laid.begin(), middle, laid.end());
        return *middle;
    }

    // Stopped where nothing is told.
    static std::vector<Motion> told_motions(const SeenDrive& drive) {
        std::vector<Motion> motions;
        motions.reserve(drive.told.size());
        for (const std::optional<Motion>& told : drive.told)
            motions.push_back(told.value_or(Motion::stopped));
        return motions;
    }

    void drop_short_laying(const SeenDrive& drive, std::vector<Motion>& motions) const {
        for (std::size_t i = 0; i < motions.size();) {
            std::size_t end = i;
            double length = 0.0;
            bool told = false;
            for (; end < motions.size() && motions[end] == motions[i]; ++end) {
                told = told || drive.told[end];
                if (end > i)
                    length += distance_m(drive.fixes[end - 1].fix.at, drive.fixes[end].fix.at);
            }
            if (motions[i] == Motion::laying && !told && length < options_.least_laid_m) {
                const Motion instead = end < motions.size() && motions[end] == Motion::returning
                                           ? Motion::returning
                                           : Motion::hauling;
                std::fill(motions.begin() + static_cast<std::ptrdiff_t>(i),
                          motions.begin() + static_cast<std::ptrdiff_t>(end), instead);
            }
            i = end;
        }
    }

    DriveSpeeds speeds_;
    const CutOptions& options_;
};

}  // namespace

double CutTrack::length_m(Motion motion) const {
    double sum = 0.0;
    for (const Piece& piece : pieces) sum += piece.motion == motion ? piece.length_m : 0.0;
    return sum;
}

double CutTrack::time_s(Motion motion) const {
    double sum = 0.0;
    for (const Piece& piece : pieces) sum += piece.motion == motion ? piece.time_s() : 0.0;
    return sum;
}

CutTrack cut_track(const Ranch& ranch, const CleanTrack& track, const DriveSpeeds& speeds,
                   std::span<const ToldMotion> told, const CutOptions& options) {
    const DrivePlaces places(ranch, options.yard_m);
    Cutter cutter(speeds, options);
    CutTrack out;
    out.feed_m_per_s = speeds.feed_m_per_s;
    DriveFixes stretch;
    for (std::size_t p = 0; p < track.parts.size(); ++p) {
        std::span<const Fix> part = track.part(p);
        for (std::size_t from = 0; from < part.size(); from += options.most_fixes) {
            const auto some = part.subspan(from, std::min(options.most_fixes, part.size() - from));
            const double silence =
                stretch.fixes.empty() ? 0.0 : some.front().time_s - stretch.fixes.back().fix.time_s;
            const bool anew = silence <= 0.0 || silence > options.chain_gap_s ||
                              stretch.fixes.size() + some.size() > options.most_fixes;
            if (anew && !stretch.fixes.empty()) {
                cutter.cut(seen_drive(std::move(stretch), places, told), out);
                stretch = {};
            }
            const std::vector<SmoothState> fixes = smooth_track(some, options.smooth);
            stretch.breaks.resize(stretch.fixes.size() + fixes.size(), false);
            stretch.breaks[stretch.fixes.size()] = true;
            stretch.fixes.insert(stretch.fixes.end(), fixes.begin(), fixes.end());
        }
    }
    if (!stretch.fixes.empty()) cutter.cut(seen_drive(std::move(stretch), places, told), out);
    return out;
}

DriveSpeeds drive_speeds(const Ranch& ranch, const Rig& rig) {
    DriveSpeeds out{rig.feed_m_per_s, ranch.settings.speed_pasture_m_per_s};
    if (rig.own.feed_m_per_s) out.feed_m_per_s = *rig.own.feed_m_per_s;
    return out;
}

}  // namespace haylane
