#pragma once
// Work done in a child process, so that a crash is counted and not suffered; and lines of the table
// that scripts/faults prints.

#include <chrono>
#include <cstdlib>
#include <functional>
#include <string>

#include <fmt/format.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

namespace haylane::faults {

// How often something is tried: `all` times by scripts/faults, `few` times in the test suite.
inline int times(int few, int all) {
    return std::getenv("HAYLANE_FAULTS_ALL") != nullptr ? all : few;
}

// A line of the table.
inline void tell(const std::string& what, const std::string& came_of_it) {
    fmt::print("FAULTS {:<44} {}\n", what, came_of_it);
}

struct Ended {
    bool by_itself = false;  // else by a signal
    int code = 0;            // or the signal
    long peak_kb = 0;        // most memory it held
};

inline Ended wait_for(pid_t child) {
    int status = 0;
    rusage used{};
    ::wait4(child, &status, 0, &used);
    return WIFEXITED(status) ? Ended{true, WEXITSTATUS(status), used.ru_maxrss}
                             : Ended{false, WTERMSIG(status), used.ru_maxrss};
}

// `work` gives a code from 10 on: sanitizers end a program with 1.
inline pid_t start_child(const std::function<int()>& work, unsigned limit_s = 120) {
    std::fflush(nullptr);
    const pid_t child = ::fork();
    if (child != 0) return child;
    ::alarm(limit_s);
    ::_exit(work());
}

inline Ended in_child(const std::function<int()>& work, unsigned limit_s = 120) {
    return wait_for(start_child(work, limit_s));
}

}  // namespace haylane::faults
