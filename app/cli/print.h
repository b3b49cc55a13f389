#pragma once
// How the command line speaks: errors and problems for people, progress on stderr.

#include "core/base/error.h"
#include "core/base/problem.h"
#include "core/base/progress.h"
#include "core/plan/plan.h"
#include "core/ranch/ranch.h"

#include <string>

namespace haylane {

// "error: what" with where and what to do on lines of their own, to stderr.
void print_error(const Error& error);
// Problems grouped by severity, each with where and what to do.
[[nodiscard]] std::string problem_text(const Problems& problems);
[[nodiscard]] std::string switched_off_text(const std::vector<SwitchedOff>& switched_off);
// The week for a rancher: a line that says how long hay lasts, a block a feeding, totals.
[[nodiscard]] std::string plan_text(const Plan& plan, const Ranch& ranch, bool metric);
// A progress line on stderr, only when stderr is a terminal.
[[nodiscard]] Progress terminal_progress();

}  // namespace haylane
