#pragma once
// Runs the command line in a shell, as a user does, and keeps what it printed.

#include "tests/support/temp_folder.h"

#include <array>
#include <cstdio>
#include <fstream>
#include <sstream>
#include <string>

#include <sys/wait.h>

namespace haylane::testing {

struct Ran {
    int code = -1;  // -1: it ended by a signal
    std::string out;
    std::string err;
};

inline std::string slurp(const std::filesystem::path& path) {
    std::ifstream file(path);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

inline bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

// One command of the shell. The error stream goes by way of a file in `temp`.
inline Ran run_command(const TempFolder& temp, const std::string& command) {
    const std::string err = (temp / "err").string();
    Ran ran;
    FILE* pipe = ::popen((command + " 2>" + err).c_str(), "r");
    if (pipe == nullptr) return ran;
    std::array<char, 4096> part{};
    for (std::size_t n = 0; (n = std::fread(part.data(), 1, part.size(), pipe)) > 0;)
        ran.out.append(part.data(), n);
    const int status = ::pclose(pipe);
    ran.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    ran.err = slurp(err);
    return ran;
}

// `environment`: how the shell sets it, "A=1 B=2" or "env -u A".
inline Ran run_program(const TempFolder& temp, const std::string& arguments,
                       const std::string& environment = "") {
    return run_command(temp, environment + " " + HAYLANE_PROGRAM + " " + arguments);
}

}  // namespace haylane::testing
