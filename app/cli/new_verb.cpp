#include "app/cli/print.h"
#include "app/cli/verbs.h"
#include "gis/book/make_book.h"
#include "gis/exchange/problem_json.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace haylane {

namespace {

struct NewOptions {
    std::string book;
    std::string folder;
    bool force = false;
};

int run_new(const NewOptions& options, const Common& common) {
    const auto made = make_book(options.folder, options.book, options.force);
    if (!made) {
        print_error(made.error());
        return 1;
    }
    if (common.json) {
        const nlohmann::ordered_json document = {{"book", options.book},
                                                 {"problems", problems_json(made->problems)}};
        fmt::print("{}\n",
                   document.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace));
        return 0;
    }
    fmt::print(stderr, "{}", problem_text(made->problems));
    fmt::print("Made {}. Next: haylane check {}\n", options.book, options.book);
    return 0;
}

}  // namespace

void add_new(CLI::App& app, Common& common) {
    auto* verb = app.add_subcommand("new",
                                    "Makes a ranch book from a ranch folder.\n"
                                    "Example: haylane new ranch.gpkg --from my-ranch");
    auto options = std::make_shared<NewOptions>();
    verb->add_option("BOOK", options->book, "the ranch book to make (.gpkg)")->required();
    verb->add_option("--from", options->folder, "folder with the ranch's tables and maps")
        ->required();
    verb->add_flag("--force", options->force, "replace a book that is already there");
    verb->add_flag("--json", common.json, "print results for programs");
    verb->callback([options, &common] { common.exit_code = run_new(*options, common); });
}

}  // namespace haylane
