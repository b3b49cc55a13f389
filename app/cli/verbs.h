#pragma once
// The verbs of the command line: each adds its options to the parser and runs when chosen.
// Exit codes: 0 done, 1 the work could not be done, 2 bad usage.

#include <CLI/CLI.hpp>

namespace haylane {

struct Common {
    bool json = false;
    std::string units;  // empty = as the book is set
    int exit_code = 0;
};

void add_new(CLI::App& app, Common& common);
void add_check(CLI::App& app, Common& common);
void add_plan(CLI::App& app, Common& common);
void add_done(CLI::App& app, Common& common);
void add_log(CLI::App& app, Common& common);
void add_ground(CLI::App& app, Common& common);
void add_haul(CLI::App& app, Common& common);
void add_trial(CLI::App& app, Common& common);
void add_hold(CLI::App& app, Common& common);
void add_close(CLI::App& app, Common& common);
void add_release(CLI::App& app, Common& common);

// Gives a parser its name, verbs and options.
void set_up_parser(CLI::App& app, Common& common);
// Runs the whole command line; returns the exit code. Nothing is thrown.
[[nodiscard]] int run_haylane(int argc, char** argv);

}  // namespace haylane
