#include "app/cli/verbs.h"

#include <exception>

#include <fmt/format.h>

namespace haylane {

void set_up_parser(CLI::App& app, Common& common) {
    app.description(
        "Plans where a ranch feeds hay in winter, and keeps account of the ground.\n"
        "Make a ranch book from a folder of tables and maps, then plan the week:\n"
        "  haylane new ranch.gpkg --from my-ranch\n"
        "  haylane plan ranch.gpkg --from 2027-01-11 --days 7 -o week");
    app.name("haylane");
    app.require_subcommand(1);
    app.set_version_flag("--version", "haylane " HAYLANE_VERSION);
    add_new(app, common);
    add_check(app, common);
    add_plan(app, common);
    add_done(app, common);
    add_log(app, common);
    add_ground(app, common);
    add_haul(app, common);
    add_trial(app, common);
    add_hold(app, common);
    add_close(app, common);
    add_release(app, common);
}

namespace {

int run(int argc, char** argv) {
    Common common;
    CLI::App app;
    set_up_parser(app, common);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& e) {
        const int code = app.exit(e);
        return code == 0 ? 0 : 2;
    }
    return common.exit_code;
}

}  // namespace

int run_haylane(int argc, char** argv) {
    try {
        return run(argc, argv);
    } catch (const std::exception& e) {
        fmt::print(stderr, "error: the machine could not go on: {}\n", e.what());
        return 1;
    }
}

}  // namespace haylane
