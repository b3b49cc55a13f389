// States follow each other as a Markov chain in continuous time: the transition matrix over a time
// is exp(rates x time), by Taylor series with scaling and squaring. So one second, ten seconds and
// a silence of two minutes are the same model.
#include "core/tracks/motion_model.h"

#include "core/base/units.h"

#include <algorithm>
#include <cmath>

namespace haylane {

namespace {

constexpr std::size_t kN = kDriveStates;
using Matrix = std::array<double, kN * kN>;

// Mean time in a state and what follows it.
struct Leaving {
    double mean_s;
    StateRow to;  // loading, out, out_stop, laying, laying_stop, back, back_stop
};
constexpr std::array<Leaving, kN> kLeaving{{
    {300.0, {0.0, 0.92, 0.02, 0.01, 0.0, 0.05, 0.0}},  // loading
    {240.0, {0.04, 0.0, 0.36, 0.60, 0.0, 0.0, 0.0}},   // out
    {60.0, {0.02, 0.78, 0.0, 0.20, 0.0, 0.0, 0.0}},    // out_stop
    {300.0, {0.0, 0.30, 0.0, 0.0, 0.25, 0.43, 0.02}},  // laying
    {60.0, {0.0, 0.20, 0.0, 0.50, 0.0, 0.30, 0.0}},    // laying_stop
    {240.0, {0.52, 0.08, 0.0, 0.0, 0.0, 0.0, 0.40}},   // back
    {60.0, {0.15, 0.05, 0.0, 0.0, 0.0, 0.80, 0.0}},    // back_stop
}};
constexpr StateRow kFirst{0.35, 0.25, 0.15, 0.10, 0.02, 0.08, 0.05};

// How well a kind of place fits each state: yard, pasture, elsewhere. Fixes follow each other in
// one place, so these only rule out; they are not frequencies.
constexpr std::array<std::array<double, 3>, kN> kPlace{{
    {1.0, 0.01, 0.02},
    {0.5, 1.0, 1.0},
    {0.2, 1.0, 1.0},
    {0.01, 1.0, 0.01},
    {0.01, 1.0, 0.01},
    {0.5, 1.0, 1.0},
    {0.2, 1.0, 1.0},
}};

constexpr double kFeedSpread_ratio = 0.12;  // of the feeding speed
// Of the variance that the smoother gives a speed: it must allow for stops and starts, and at an
// even speed knows it much better.
constexpr double kSpeedNoise_ratio = 0.1;
constexpr double kHaulSpread = 0.35;    // of the log of the hauling speed
constexpr double kHaulAboveFeed = 1.6;  // hauling is taken as at least so much faster
constexpr double kStopSpread_m_per_s = 0.15;
constexpr double kShunt_m_per_s = 1.2;      // between bales at the stack
constexpr double kAny_per_m_per_s = 0.002;  // any speed may be seen once in a while
constexpr double kTurnLaying_rad_per_s = 0.06;
constexpr double kTurnDriving_rad_per_s = 0.12;
constexpr double kTurnLoading_rad_per_s = 0.30;
constexpr double kTurnStopped_rad_per_s = 0.50;

double normal(double x, double mean, double sd) {
    const double z = (x - mean) / sd;
    return std::exp(-0.5 * z * z) / (sd * std::sqrt(2.0 * units::kPi));
}

double half_normal(double x, double sd) { return 2.0 * normal(x, 0.0, sd); }

double log_normal(double x, double median, double spread) {
    const double at = std::max(x, 0.05);
    return normal(std::log(at), std::log(median), spread) / at;
}

double turn_log(double turn, double scale) { return -turn / scale - std::log(scale); }

Matrix product(const Matrix& a, const Matrix& b) {
    Matrix out{};
    for (std::size_t i = 0; i < kN; ++i)
        for (std::size_t k = 0; k < kN; ++k)
            for (std::size_t j = 0; j < kN; ++j) out[i * kN + j] += a[i * kN + k] * b[k * kN + j];
    return out;
}

Matrix identity() {
    Matrix out{};
    for (std::size_t i = 0; i < kN; ++i) out[i * kN + i] = 1.0;
    return out;
}

}  // namespace

Motion motion_of(DriveState state) {
    switch (state) {
        case DriveState::loading:
            return Motion::loading;
        case DriveState::out:
            return Motion::hauling;
        case DriveState::laying:
            return Motion::laying;
        case DriveState::back:
            return Motion::returning;
        default:
            return Motion::stopped;
    }
}

StateRow first_state_log() {
    StateRow out{};
    for (std::size_t s = 0; s < kN; ++s) out[s] = std::log(kFirst[s]);
    return out;
}

std::vector<double> transition_log(double time_s) {
    int squarings = 0;
    double step_s = time_s;
    for (; step_s > 5.0; step_s /= 2.0) ++squarings;
    Matrix rates{};
    for (std::size_t i = 0; i < kN; ++i) {
        for (std::size_t j = 0; j < kN; ++j)
            rates[i * kN + j] = kLeaving[i].to[j] * step_s / kLeaving[i].mean_s;
        rates[i * kN + i] = -step_s / kLeaving[i].mean_s;
    }
    Matrix sum = identity();
    Matrix term = identity();
    for (int k = 1; k <= 10; ++k) {
        term = product(term, rates);
        for (double& value : term) value /= k;
        for (std::size_t i = 0; i < kN * kN; ++i) sum[i] += term[i];
    }
    for (int k = 0; k < squarings; ++k) sum = product(sum, sum);
    std::vector<double> out(kN * kN);
    for (std::size_t i = 0; i < kN * kN; ++i) out[i] = std::log(std::max(sum[i], 1e-300));
    return out;
}

StateRow sign_log(const DriveSign& sign, const DriveSpeeds& speeds) {
    const double v = sign.speed_m_per_s;
    const double noise2 = kSpeedNoise_ratio * sign.speed_variance_m2_per_s2;
    const double feed = speeds.feed_m_per_s;
    const double own = kFeedSpread_ratio * feed;
    const double stop =
        half_normal(v, std::sqrt(kStopSpread_m_per_s * kStopSpread_m_per_s + noise2));
    const double lay = normal(v, feed, std::sqrt(own * own + noise2));
    const double slow = std::max(v, 0.5);
    const double haul = log_normal(v, std::max(speeds.haul_m_per_s, kHaulAboveFeed * feed),
                                   std::sqrt(kHaulSpread * kHaulSpread + noise2 / (slow * slow)));
    // Half of hauling is on ways faster than pasture.
    const double fast = log_normal(v, 2.0 * std::max(speeds.haul_m_per_s, feed), kHaulSpread);
    const double drive = 0.5 * haul + 0.4 * fast + 0.1 / 8.0;
    const double load = 0.5 * stop + 0.5 * half_normal(v, kShunt_m_per_s);
    const double turn = sign.turn_rad_per_s;
    const double driving =
        std::log(drive + kAny_per_m_per_s) + turn_log(turn, kTurnDriving_rad_per_s);
    const double standing =
        std::log(stop + kAny_per_m_per_s) + turn_log(turn, kTurnStopped_rad_per_s);
    StateRow out{
        std::log(load + kAny_per_m_per_s) + turn_log(turn, kTurnLoading_rad_per_s),
        driving,
        standing,
        std::log(lay + kAny_per_m_per_s) + turn_log(turn, kTurnLaying_rad_per_s),
        standing,
        driving,
        standing,
    };
    for (std::size_t s = 0; s < kN; ++s)
        out[s] += std::log(kPlace[s][static_cast<std::size_t>(sign.place)]);
    return out;
}

}  // namespace haylane
