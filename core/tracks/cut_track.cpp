// Smoothed fixes give speed and turning; the likeliest path through the states of motion_model is
// found by Viterbi. Neighbouring fixes say much the same (the smoother ties them together), so a
// fix counts for its time over `kIndependent_s`, one at most. The first cut goes by the rig's
// nominal feeding speed; when what it laid was driven at another, the cut is made once more at
// that.
#include "core/tracks/cut_track.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

namespace haylane {

namespace {

constexpr double kIndependent_s = 4.0;
constexpr double kTurnOver_s = 4.0;    // turning is measured over so much time
constexpr double kSlow_m_per_s = 0.4;  // below, a heading means nothing
constexpr double kEnoughLaid_s = 60.0;
constexpr double kSpeedOff_ratio = 0.04;
constexpr int kRecuts = 2;
constexpr double kSpeedMost_ratio = 1.6;  // off the nominal speed by more is not believed

struct Places {
    std::vector<Point> yards;
    std::vector<const MultiPolygon*> pastures;
    std::vector<Box> boxes;
    double yard_m;

    Places(const Ranch& ranch, double near_yard_m) : yard_m(near_yard_m) {
        for (const Yard& yard : ranch.yards) yards.push_back(yard.at);
        for (const Pasture& pasture : ranch.pastures) {
            pastures.push_back(&pasture.shape);
            boxes.push_back(box_of(pasture.shape));
        }
    }
    [[nodiscard]] PlaceKind kind(Point p) const {
        for (const Point yard : yards)
            if (distance_m(yard, p) <= yard_m) return PlaceKind::yard;
        for (std::size_t i = 0; i < pastures.size(); ++i)
            if (boxes[i].contains(p) && contains(*pastures[i], p)) return PlaceKind::pasture;
        return PlaceKind::elsewhere;
    }
};

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

// One stretch of fixes that is cut as a whole; `breaks`: fixes that begin a part.
struct Stretch {
    std::vector<SmoothState> fixes;
    std::vector<bool> breaks;
    std::vector<DriveSign> signs;  // filled when it is cut
};

double turning(const std::vector<SmoothState>& fixes, std::size_t i) {
    std::size_t before = i;
    std::size_t after = i;
    const double now = fixes[i].fix.time_s;
    while (before > 0 && now - fixes[before].fix.time_s < kTurnOver_s) --before;
    while (after + 1 < fixes.size() && fixes[after].fix.time_s - now < kTurnOver_s) ++after;
    const Point a = fixes[before].fix.velocity_m_per_s;
    const Point b = fixes[after].fix.velocity_m_per_s;
    if (after == before || norm_m(a) < kSlow_m_per_s || norm_m(b) < kSlow_m_per_s) return 0.0;
    return std::abs(std::atan2(cross(a, b), dot(a, b))) /
           (fixes[after].fix.time_s - fixes[before].fix.time_s);
}

class Cutter {
  public:
    Cutter(const Places& places, const DriveSpeeds& speeds, const CutOptions& options)
        : places_(places), speeds_(speeds), options_(options) {}

    void cut(Stretch& stretch, CutTrack& out) {
        find_signs(stretch);
        DriveSpeeds speeds = speeds_;
        HiddenChain chain = chain_of(stretch, speeds);
        HiddenPath path = most_likely_path(chain);
        std::vector<Motion> motions = motions_of(stretch, path);
        for (int again = 0; again < kRecuts; ++again) {
            const std::optional<double> seen = feed_seen(stretch, motions);
            if (!seen || std::abs(*seen / speeds.feed_m_per_s - 1.0) <= kSpeedOff_ratio) break;
            speeds.feed_m_per_s = *seen;
            out.feed_from_track = true;
            chain = chain_of(stretch, speeds);
            path = most_likely_path(chain);
            motions = motions_of(stretch, path);
        }
        if (feed_seen(stretch, motions)) out.feed_m_per_s = speeds.feed_m_per_s;
        add_pieces(stretch, motions, path_probability(chain, path), out);
    }

  private:
    void find_signs(Stretch& stretch) const {
        stretch.signs.reserve(stretch.fixes.size());
        for (std::size_t i = 0; i < stretch.fixes.size(); ++i) {
            const SmoothState& state = stretch.fixes[i];
            stretch.signs.push_back({state.fix.speed_m_per_s(), state.speed_variance_m2_per_s2,
                                     turning(stretch.fixes, i), places_.kind(state.fix.at)});
        }
    }

    static HiddenChain chain_of(const Stretch& stretch, const DriveSpeeds& speeds) {
        const std::vector<SmoothState>& fixes = stretch.fixes;
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
            const StateRow row = sign_log(stretch.signs[i], speeds);
            const double weight = std::min(1.0, before / kIndependent_s);
            for (const double value : row) chain.log_emission.push_back(weight * value);
        }
        if (chain.log_transition.empty()) chain.log_transition.push_back(transition_log(1.0));
        return chain;
    }

    [[nodiscard]] std::vector<Motion> motions_of(const Stretch& stretch,
                                                 const HiddenPath& path) const {
        std::vector<Motion> motions;
        motions.reserve(path.states.size());
        for (const std::uint8_t state : path.states)
            motions.push_back(motion_of(static_cast<DriveState>(state)));
        drop_short_laying(stretch, motions);
        return motions;
    }

    // Median speed of what was laid, which driving taken for laying hardly moves; nullopt when
    // that was too little to tell.
    [[nodiscard]] std::optional<double> feed_seen(const Stretch& stretch,
                                                  const std::vector<Motion>& motions) const {
        std::vector<double> laid;
        double time_s = 0.0;
        for (std::size_t i = 0; i < motions.size(); ++i) {
            if (motions[i] != Motion::laying) continue;
            laid.push_back(stretch.signs[i].speed_m_per_s);
            if (i > 0 && motions[i - 1] == Motion::laying)
                time_s += stretch.fixes[i].fix.time_s - stretch.fixes[i - 1].fix.time_s;
        }
        if (time_s < kEnoughLaid_s) return std::nullopt;
        const auto middle = laid.begin() + static_cast<std::ptrdiff_t>(laid.size() / 2);
        std::nth_element(laid.begin(), middle, laid.end());
        return std::clamp(*middle, speeds_.feed_m_per_s / kSpeedMost_ratio,
                          speeds_.feed_m_per_s * kSpeedMost_ratio);
    }

    void drop_short_laying(const Stretch& stretch, std::vector<Motion>& motions) const {
        for (std::size_t i = 0; i < motions.size();) {
            std::size_t end = i;
            double length = 0.0;
            for (; end < motions.size() && motions[end] == motions[i]; ++end)
                if (end > i)
                    length += distance_m(stretch.fixes[end - 1].fix.at, stretch.fixes[end].fix.at);
            if (motions[i] == Motion::laying && length < options_.least_laid_m) {
                const Motion instead = end < motions.size() && motions[end] == Motion::returning
                                           ? Motion::returning
                                           : Motion::hauling;
                std::fill(motions.begin() + static_cast<std::ptrdiff_t>(i),
                          motions.begin() + static_cast<std::ptrdiff_t>(end), instead);
            }
            i = end;
        }
    }

    // Half way between two fixes of different motion: time and place.
    static SmoothFix between(const SmoothState& a, const SmoothState& b) {
        SmoothFix mid = a.fix;
        mid.time_s = 0.5 * (a.fix.time_s + b.fix.time_s);
        mid.at = lerp(a.fix.at, b.fix.at, 0.5);
        return mid;
    }

    static void add_pieces(const Stretch& stretch, const std::vector<Motion>& motions,
                           const std::vector<float>& sure, CutTrack& out) {
        const auto& fixes = stretch.fixes;
        for (std::size_t i = 0; i < fixes.size();) {
            std::size_t end = i + 1;
            while (end < fixes.size() && motions[end] == motions[i] && !stretch.breaks[end]) ++end;
            Piece piece{.motion = motions[i],
                        .start_s = fixes[i].fix.time_s,
                        .end_s = fixes[end - 1].fix.time_s};
            if (i > 0 && !stretch.breaks[i]) {
                const SmoothFix mid = between(fixes[i - 1], fixes[i]);
                piece.start_s = mid.time_s;
                piece.path.push_back(mid.at);
            }
            double sum = 0.0;
            for (std::size_t k = i; k < end; ++k) {
                piece.path.push_back(fixes[k].fix.at);
                sum += static_cast<double>(sure[k]);
            }
            if (end < fixes.size() && !stretch.breaks[end]) {
                const SmoothFix mid = between(fixes[end - 1], fixes[end]);
                piece.end_s = mid.time_s;
                piece.path.push_back(mid.at);
            }
            piece.confidence = sum / static_cast<double>(end - i);
            if (piece.motion == Motion::stopped) {
                piece.path = {middle(piece.path)};
                out.held_fixes += end - i;
            }
            piece.length_m = length_m(piece.path);
            out.pieces.push_back(std::move(piece));
            i = end;
        }
    }

    static Point middle(const Polyline& places) {
        Point sum;
        for (const Point p : places) sum = sum + p;
        return sum * (1.0 / static_cast<double>(places.size()));
    }

    const Places& places_;
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
                   const CutOptions& options) {
    const Places places(ranch, options.yard_m);
    Cutter cutter(places, speeds, options);
    CutTrack out;
    out.feed_m_per_s = speeds.feed_m_per_s;
    Stretch stretch;
    for (std::size_t p = 0; p < track.parts.size(); ++p) {
        std::span<const Fix> part = track.part(p);
        for (std::size_t from = 0; from < part.size(); from += options.most_fixes) {
            const auto some = part.subspan(from, std::min(options.most_fixes, part.size() - from));
            const double silence =
                stretch.fixes.empty() ? 0.0 : some.front().time_s - stretch.fixes.back().fix.time_s;
            const bool anew = silence <= 0.0 || silence > options.chain_gap_s ||
                              stretch.fixes.size() + some.size() > options.most_fixes;
            if (anew && !stretch.fixes.empty()) {
                cutter.cut(stretch, out);
                stretch = {};
            }
            const std::vector<SmoothState> fixes = smooth_track(some, options.smooth);
            stretch.breaks.resize(stretch.fixes.size() + fixes.size(), false);
            stretch.breaks[stretch.fixes.size()] = true;
            stretch.fixes.insert(stretch.fixes.end(), fixes.begin(), fixes.end());
        }
    }
    if (!stretch.fixes.empty()) cutter.cut(stretch, out);
    return out;
}

DriveSpeeds drive_speeds(const Ranch& ranch, const Rig& rig) {
    DriveSpeeds out{rig.feed_m_per_s, ranch.settings.speed_pasture_m_per_s};
    if (rig.own.feed_m_per_s) out.feed_m_per_s = *rig.own.feed_m_per_s;
    return out;
}

}  // namespace haylane
