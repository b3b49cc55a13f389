#pragma once
// Mornings driven by a made-up rig, with the truth kept: a yard, two or three gates' worth of
// trail, two pastures, loads laid on lines with bends, and a receiver with white noise, slow drift,
// lost fixes and silences. Everything follows from the seed.

#include "core/base/random.h"
#include "core/base/units.h"
#include "core/ranch/ranch.h"
#include "core/tracks/track.h"

#include <cmath>
#include <vector>

namespace haylane::testing {

struct MorningOptions {
    double interval_s = 1.0;
    double noise_m = 3.0;  // white, along each axis
    double drift_m = 1.5;  // slow, along each axis, with the time below
    double drift_s = 120.0;
    double lost_ratio = 0.02;  // single fixes lost
    int silences = 2;          // of 20 to 120 s a morning
};

struct TruthStep {
    double time_s = 0.0;
    Point at;
    Motion motion = Motion::stopped;
};

struct Morning {
    Ranch ranch;                    // yard, pastures, one rig
    std::vector<TruthStep> truth;   // every 0.1 s
    std::vector<TrackPoint> track;  // as recorded
    std::vector<Polyline> planned;  // the lines that were driven
    double feed_m_per_s = 0.67;     // as driven, near the rig's own
};

class MorningMaker {
  public:
    MorningMaker(std::uint64_t seed, const MorningOptions& options)
        : random_(seed * 7919 + 17), options_(options) {}

    Morning make() {
        place_ranch();
        const int loads = 2 + static_cast<int>(random_.below(3));
        at_ = yard_ + Point{between(-15, 15), between(-15, 15)};
        stand(between(60, 240), Motion::stopped);
        double row = between(80, 500);
        for (int load = 0; load < loads; ++load) {
            load_up();
            row = haul_and_lay(row);
            drive_back();
        }
        stand(between(30, 120), Motion::stopped);
        record();
        return std::move(morning_);
    }

  private:
    double between(double low, double high) { return low + (high - low) * random_.uniform(); }
    double gauss() {
        const double u = 1.0 - random_.uniform();
        return std::sqrt(-2.0 * std::log(u)) * std::cos(2.0 * units::kPi * random_.uniform());
    }

    void place_ranch() {
        Ranch& r = morning_.ranch;
        r.yards = {{.name = "Stack", .at = yard_, .capacity_bales = {}, .all_weather = true}};
        r.pastures = {
            {.name = "Near", .shape = {{{{300, 0}, {1300, 0}, {1300, 900}, {300, 900}}, {}}}},
            {.name = "Far", .shape = {{{{1300, 0}, {2300, 0}, {2300, 900}, {1300, 900}}, {}}}}};
        const double speeds[] = {0.67, 0.9, 1.12, 1.34};
        r.rigs = {{.name = "Rig", .feed_m_per_s = speeds[random_.below(4)]}};
        morning_.feed_m_per_s = r.rigs[0].feed_m_per_s * between(0.9, 1.1);
        far_ = random_.below(2) == 1;
        trail_m_per_s_ = between(2.2, 5.5);
        // Across pasture: from a quarter faster than feeding.
        field_m_per_s_ = std::max(between(1.6, 2.6), 1.5 * morning_.feed_m_per_s);
    }

    void step(Motion motion) {
        morning_.truth.push_back({time_, at_, motion});
        time_ += 0.1;
    }
    void stand(double time_s, Motion motion) {
        speed_ = 0.0;
        for (double t = 0.0; t < time_s; t += 0.1) step(motion);
    }
    // Drives along a line; speeds change at 0.6 m/s2 at most, and it stops at the end if asked.
    void drive(const Polyline& line, double speed, Motion motion, bool stop_at_end) {
        const double whole = length_m(line);
        double along = 0.0;
        while (along < whole) {
            double want = speed;
            if (stop_at_end) want = std::min(want, std::sqrt(2.0 * 0.6 * (whole - along)) + 0.05);
            speed_ += std::clamp(want - speed_, -0.06, 0.06);
            along += std::max(speed_, 0.02) * 0.1;
            at_ = point_at(line, along);
            step(motion);
        }
    }

    void load_up() {
        const int bales = 2 + static_cast<int>(random_.below(2));
        for (int b = 0; b < bales; ++b) {
            stand(between(40, 120), Motion::loading);
            const Point next = yard_ + Point{between(-25, 25), between(-25, 25)};
            drive({at_, next}, between(0.6, 1.6), Motion::loading, true);
        }
        stand(between(30, 90), Motion::loading);
    }

    Polyline with_dog_leg(Point a, Point b) {
        const Point across{-(b - a).y, (b - a).x};
        return {a, lerp(a, b, between(0.3, 0.7)) + across * between(-0.12, 0.12), b};
    }
    void gate_stop() { stand(between(30, 150), Motion::stopped); }

    // One or two lines, row beside row; returns the next row.
    double haul_and_lay(double row) {
        const double gate_x = far_ ? 1300.0 : 300.0;
        const Point first_gate{300, 450};
        drive(with_dog_leg(at_, first_gate), trail_m_per_s_, Motion::hauling, true);
        gate_stop();
        if (far_) {
            drive(with_dog_leg(at_, {1300, 450}), field_m_per_s_, Motion::hauling, true);
            gate_stop();
        }
        const int lines = 1 + static_cast<int>(random_.below(2));
        for (int i = 0; i < lines; ++i) {
            if (row > 820) row = between(80, 200);
            const double x0 = gate_x + between(80, 250);
            const double x1 = x0 + between(150, 600);
            Polyline line{{x0, row}, {0.5 * (x0 + x1), row + between(-40, 40)}, {x1, row}};
            if (random_.below(2) == 1) line = reversed(line);
            drive(with_dog_leg(at_, line.front()), field_m_per_s_, Motion::hauling,
                  random_.below(2) == 1);
            if (random_.below(2) == 1) stand(between(15, 60), Motion::stopped);  // cutting wrap
            drive(line, morning_.feed_m_per_s, Motion::laying, false);
            morning_.planned.push_back(line);
            row += between(20, 60);
        }
        return row;
    }

    void drive_back() {
        if (far_) {
            drive(with_dog_leg(at_, {1300, 450}), field_m_per_s_ * 1.2, Motion::returning, true);
            gate_stop();
        }
        drive(with_dog_leg(at_, {300, 450}), field_m_per_s_ * 1.2, Motion::returning, true);
        gate_stop();
        const Point home = yard_ + Point{between(-20, 20), between(-20, 20)};
        drive(with_dog_leg(at_, home), trail_m_per_s_ * 1.1, Motion::returning, true);
    }

    void record() {
        const double end = morning_.truth.back().time_s;
        std::vector<std::pair<double, double>> silent;
        for (int i = 0; i < options_.silences; ++i) {
            const double from = between(0.0, end);
            silent.emplace_back(from, from + between(20, 120));
        }
        Point drift{options_.drift_m * gauss(), options_.drift_m * gauss()};
        const double keep = std::exp(-options_.interval_s / options_.drift_s);
        const double fresh = options_.drift_m * std::sqrt(1.0 - keep * keep);
        for (double t = 0.0; t <= end; t += options_.interval_s) {
            drift = drift * keep + Point{fresh * gauss(), fresh * gauss()};
            const TruthStep& true_step = morning_.truth[static_cast<std::size_t>(t * 10.0 + 0.5)];
            const Point seen = true_step.at + drift +
                               Point{options_.noise_m * gauss(), options_.noise_m * gauss()};
            bool lost = random_.uniform() < options_.lost_ratio;
            for (const auto& [from, to] : silent) lost = lost || (t >= from && t <= to);
            if (!lost) morning_.track.push_back({seen, kStart_s + t, {}});
        }
        for (TruthStep& one : morning_.truth) one.time_s += kStart_s;
    }

    static constexpr double kStart_s = 1.8e9;
    Random random_;
    MorningOptions options_;
    Morning morning_;
    const Point yard_{0, 300};
    Point at_;
    double time_ = 0.0;
    double speed_ = 0.0;
    double trail_m_per_s_ = 3.0;
    double field_m_per_s_ = 2.0;
    bool far_ = false;
};

inline Morning simulated_morning(std::uint64_t seed, const MorningOptions& options = {}) {
    return MorningMaker(seed, options).make();
}

}  // namespace haylane::testing
