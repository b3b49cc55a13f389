#pragma once
// How the command line speaks: errors and problems for people, progress on stderr.

#include "core/base/day.h"
#include "core/base/error.h"
#include "core/base/problem.h"
#include "core/base/progress.h"
#include "core/base/result.h"
#include "core/plan/move_line.h"
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
// What a line laid as drawn would change, against the plan.
[[nodiscard]] std::string moved_text(const MovedLines& moved, const Ranch& ranch, bool metric);
// A day as typed after `option`. Error "bad_date".
[[nodiscard]] Result<sys_days> read_day(const std::string& text, const char* option);
// A progress line on stderr, only when stderr is a terminal.
[[nodiscard]] Progress terminal_progress();

}  // namespace haylane
