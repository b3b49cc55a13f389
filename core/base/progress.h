#pragma once
// How long work tells its caller how far it is, and how the caller stops it.

#include <functional>
#include <stop_token>
#include <string_view>

namespace haylane {

// Called now and then from the calling thread with a stage name and a share done in [0, 1].
using ProgressCallback = std::function<void(std::string_view stage, double done_ratio)>;

// Progress and cancel, passed by value into long work. The default does nothing and never stops.
struct Progress {
    ProgressCallback report;
    std::stop_token stop;

    void operator()(std::string_view stage, double done_ratio) const {
        if (report) report(stage, done_ratio);
    }
    [[nodiscard]] bool stopped() const { return stop.stop_requested(); }
};

}  // namespace haylane
