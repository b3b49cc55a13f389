// Rauch, Tung, Striebel 1965 (from memory). The covariance does not depend on the fixes and is one
// for both axes, so each step works out one 2 x 2 gain.
#include "core/tracks/smooth_track.h"

namespace haylane {

namespace {

// Covariance of place and speed along one axis.
struct Spread {
    double pp = 0.0;
    double pv = 0.0;
    double vv = 0.0;
};

struct Step {
    Point at;
    Point velocity;
    Spread spread;
};

Step predict(const Step& from, double dt, double q) {
    Step to{from.at + from.velocity * dt, from.velocity, from.spread};
    const Spread& p = from.spread;
    to.spread.pp = p.pp + 2.0 * dt * p.pv + dt * dt * p.vv + q * dt * dt * dt / 3.0;
    to.spread.pv = p.pv + dt * p.vv + q * dt * dt / 2.0;
    to.spread.vv = p.vv + q * dt;
    return to;
}

Step correct(const Step& guess, Point seen, double r) {
    const double s = guess.spread.pp + r;
    const double kp = guess.spread.pp / s;
    const double kv = guess.spread.pv / s;
    const Point off = seen - guess.at;
    const Spread& p = guess.spread;
    return {guess.at + off * kp,
            guess.velocity + off * kv,
            {(1.0 - kp) * p.pp, (1.0 - kp) * p.pv, p.vv - kv * p.pv}};
}

// The state at a step given the smoothed one after it.
Step step_back(const Step& here, const Step& after, double dt, double q) {
    const Step guess = predict(here, dt, q);
    const Spread& p = here.spread;
    const Spread& m = guess.spread;
    const double det = m.pp * m.vv - m.pv * m.pv;
    // C = P F^T M^-1, with P F^T = [[pp + dt pv, pv], [pv + dt vv, vv]].
    const double a = p.pp + dt * p.pv;
    const double b = p.pv + dt * p.vv;
    const double c11 = (a * m.vv - p.pv * m.pv) / det;
    const double c12 = (p.pv * m.pp - a * m.pv) / det;
    const double c21 = (b * m.vv - p.vv * m.pv) / det;
    const double c22 = (p.vv * m.pp - b * m.pv) / det;
    const Point dp = after.at - guess.at;
    const Point dv = after.velocity - guess.velocity;
    const double spp = after.spread.pp - m.pp;
    const double spv = after.spread.pv - m.pv;
    const double svv = after.spread.vv - m.vv;
    const double t11 = c11 * spp + c12 * spv;
    const double t12 = c11 * spv + c12 * svv;
    const double t21 = c21 * spp + c22 * spv;
    const double t22 = c21 * spv + c22 * svv;
    return {
        here.at + dp * c11 + dv * c12,
        here.velocity + dp * c21 + dv * c22,
        {p.pp + t11 * c11 + t12 * c12, p.pv + t11 * c21 + t12 * c22, p.vv + t21 * c21 + t22 * c22}};
}

}  // namespace

std::vector<SmoothState> smooth_track(std::span<const Fix> fixes, const SmoothOptions& options) {
    std::vector<Step> steps;
    steps.reserve(fixes.size());
    for (const Fix& fix : fixes) {
        Step guess{fix.at, {}, {options.start_variance, 0.0, options.start_variance}};
        if (!steps.empty()) {
            const double dt = fix.time_s - fixes[steps.size() - 1].time_s;
            guess = predict(steps.back(), dt, options.acceleration_m2_per_s3);
        }
        steps.push_back(correct(guess, fix.at, options.fix_variance_m2));
    }
    for (std::size_t i = steps.size(); i-- > 1;) {
        const double dt = fixes[i].time_s - fixes[i - 1].time_s;
        steps[i - 1] = step_back(steps[i - 1], steps[i], dt, options.acceleration_m2_per_s3);
    }
    std::vector<SmoothState> out;
    out.reserve(fixes.size());
    for (std::size_t i = 0; i < steps.size(); ++i)
        out.push_back({{steps[i].at, steps[i].velocity, fixes[i].time_s, fixes[i].point},
                       steps[i].spread.pp,
                       steps[i].spread.vv});
    return out;
}

}  // namespace haylane
