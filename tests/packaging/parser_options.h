#pragma once
// The options that the parser of haylane knows, by verb, as they are typed: "--out", "-o". Those of
// no verb stand under "".

#include "app/cli/verbs.h"

#include <map>
#include <set>
#include <string>

namespace haylane::testing {

using OptionsByVerb = std::map<std::string, std::set<std::string>>;

inline std::set<std::string> options_of(const CLI::App& app) {
    std::set<std::string> names;
    for (const CLI::Option* option : app.get_options()) {
        for (const std::string& name : option->get_lnames()) names.insert("--" + name);
        for (const std::string& name : option->get_snames()) names.insert("-" + name);
    }
    return names;
}

inline OptionsByVerb parser_options() {
    Common common;
    CLI::App app;
    set_up_parser(app, common);
    OptionsByVerb all{{"", options_of(app)}};
    for (const CLI::App* verb : app.get_subcommands({})) all[verb->get_name()] = options_of(*verb);
    return all;
}

}  // namespace haylane::testing
