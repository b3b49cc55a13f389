// In a silence the slower of the two motions keeps its way (a stand its place) and the faster is
// driven straight from or to the other fix; the time of the change is where both speeds give the
// silence's length. The rig may also have stood in between; that no fix tells.
#include "core/tracks/make_pieces.h"

#include <algorithm>
#include <optional>

namespace haylane {

namespace {

constexpr double kWay_m = 30.0;    // a way is measured over so much of it
constexpr double kShown_s = 20.0;  // so long a run shows its own speed

// Fixes of one motion, from `begin` to before `end`.
struct Run {
    std::size_t begin = 0;
    std::size_t end = 0;
    [[nodiscard]] std::size_t size() const { return end - begin; }
};

// One side of a silence.
struct Side {
    Point at;
    Point into;  // unit vector the way that was driven, on into the silence; zero = not known
    double m_per_s = 0.0;
};

class Maker {
  public:
    Maker(const MarkedFixes& marked, const DriveSpeeds& speeds) : m_(marked), speeds_(speeds) {}

    std::vector<Piece> run() {
        std::vector<Run> runs;
        for (std::size_t i = 0; i < m_.drive.fixes.size();) {
            std::size_t end = i + 1;
            while (end < m_.drive.fixes.size() && m_.motions[end] == m_.motions[i] &&
                   !m_.drive.breaks[end])
                ++end;
            Run run{i, end};
            if (run.size() > 1 && m_.drive.unseen[run.begin]) ++run.begin;
            if (run.size() > 1 && m_.drive.unseen[run.end - 1]) --run.end;
            runs.push_back(run);
            i = end;
        }
        std::vector<Piece> pieces;
        pieces.reserve(runs.size());
        SmoothFix change;
        for (std::size_t r = 0; r < runs.size(); ++r) {
            Piece piece;
            piece.motion = m_.motions[runs[r].begin];
            if (r > 0 && !m_.drive.breaks[runs[r].begin]) pass(change, piece);
            double sum = 0.0;
            double count = 0.0;
            for (std::size_t k = runs[r].begin; k < runs[r].end; ++k) {
                if (m_.drive.unseen[k] && runs[r].size() > 1) continue;
                pass(m_.drive.fixes[k].fix, piece);
                sum += static_cast<double>(m_.sure[k]);
                count += 1.0;
            }
            if (r + 1 < runs.size() && !m_.drive.breaks[runs[r + 1].begin]) {
                change = change_between(runs[r], runs[r + 1]);
                pass(change, piece);
            }
            finish(piece, sum / count);
            pieces.push_back(std::move(piece));
        }
        return pieces;
    }

  private:
    static void pass(const SmoothFix& fix, Piece& piece) {
        piece.path.push_back(fix.at);
        piece.times_s.push_back(fix.time_s);
    }

    static void finish(Piece& piece, double confidence) {
        piece.start_s = piece.times_s.front();
        piece.end_s = piece.times_s.back();
        piece.confidence = confidence;
        if (piece.motion == Motion::stopped) {
            piece.path = {middle(piece.path)};
            piece.times_s = {piece.start_s};
        }
        piece.length_m = length_m(piece.path);
    }

    static Point middle(const Polyline& places) {
        Point sum;
        for (const Point p : places) sum = sum + p;
        return sum * (1.0 / static_cast<double>(places.size()));
    }

    [[nodiscard]] SmoothFix change_between(const Run& first, const Run& second) const {
        const SmoothFix& a = m_.drive.fixes[first.end - 1].fix;
        const SmoothFix& b = m_.drive.fixes[second.begin].fix;
        SmoothFix change = a;
        change.time_s = 0.5 * (a.time_s + b.time_s);
        change.at = lerp(a.at, b.at, 0.5);
        const auto told_s = told_change(a, b);
        if (told_s) change.time_s = *told_s;
        const double silence_s = b.time_s - a.time_s;
        if (silence_s < kSilence_s) return change;
        const Side before{a.at, way_out(first, first.end - 1, first.begin), speed_of(first)};
        const Side after{b.at, way_out(second, second.begin, second.end - 1), speed_of(second)};
        if (before.m_per_s == after.m_per_s) return change;
        const bool slow_first = before.m_per_s < after.m_per_s;
        const Side& slow = slow_first ? before : after;
        double slow_s = time_of(slow, slow_first ? after : before, silence_s);
        if (told_s) slow_s = slow_first ? *told_s - a.time_s : b.time_s - *told_s;
        change.time_s = slow_first ? a.time_s + slow_s : b.time_s - slow_s;
        change.at = slow.at + slow.into * (slow.m_per_s * slow_s);
        return change;
    }

    // When what was told ends or begins between two fixes.
    [[nodiscard]] std::optional<double> told_change(const SmoothFix& a, const SmoothFix& b) const {
        std::optional<double> out;
        for (const ToldMotion& told : m_.drive.told_times) {
            if (told.holds(a.time_s) && told.to_s < b.time_s) out = told.to_s;
            if (told.holds(b.time_s) && told.from_s > a.time_s) out = told.from_s;
        }
        return out;
    }

    // How long of a silence the slower motion went on, so that the faster one can make the rest.
    static double time_of(const Side& slow, const Side& fast, double silence_s) {
        double least = 0.0;
        double most = silence_s;
        for (int i = 0; i < 40; ++i) {
            const double t = 0.5 * (least + most);
            const double rest_m = distance_m(slow.at + slow.into * (slow.m_per_s * t), fast.at);
            (rest_m < fast.m_per_s * (silence_s - t) ? least : most) = t;
        }
        return least;
    }

    // The way to the run's edge, where the silence is, from the run's other end.
    [[nodiscard]] Point way_out(const Run& run, std::size_t edge, std::size_t other) const {
        const Point at = m_.drive.fixes[edge].fix.at;
        std::size_t from = edge;
        while (from != other && distance_m(m_.drive.fixes[from].fix.at, at) < kWay_m)
            from = edge == run.begin ? from + 1 : from - 1;
        const Point way = at - m_.drive.fixes[from].fix.at;
        const double length = norm_m(way);
        return length > 0.0 ? way * (1.0 / length) : Point{};
    }

    // Median speed of a run; standing and loading stay where they are.
    [[nodiscard]] double speed_of(const Run& run) const {
        const Motion motion = m_.motions[run.begin];
        if (motion == Motion::stopped || motion == Motion::loading) return 0.0;
        if (m_.drive.fixes[run.end - 1].fix.time_s - m_.drive.fixes[run.begin].fix.time_s <
            kShown_s)
            return motion == Motion::laying ? speeds_.feed_m_per_s : speeds_.haul_m_per_s;
        std::vector<double> speeds;
        for (std::size_t i = run.begin; i < run.end; ++i)
            speeds.push_back(m_.drive.fixes[i].fix.speed_m_per_s());
        const auto half = speeds.begin() + static_cast<std::ptrdiff_t>(speeds.size() / 2);
        std::nth_element(speeds.begin(), half, speeds.end());
        return *half;
    }

    const MarkedFixes& m_;
    const DriveSpeeds& speeds_;
};

}  // namespace

std::vector<Piece> make_pieces(const MarkedFixes& marked, const DriveSpeeds& speeds) {
    return Maker(marked, speeds).run();
}

}  // namespace haylane
